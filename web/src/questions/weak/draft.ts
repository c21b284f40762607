import { signal } from "@preact/signals";
import type { FindReading, JobReading, Weak } from "../../api/types.gen.ts";
import { gaugeOf, type Strange, secondsOf, strange } from "../../state/gauge.ts";
import { weakWords as words } from "../../words/weak.ts";

/** A reading while it is entered. Figures are as typed. */
export interface Draft {
  kind: string;
  /** "outlet.a", or "tool.x@outlet.a" between hose and tool. */
  place: string;
  /** "tool.x@outlet.a" each. */
  running: readonly string[];
  stopped: boolean;
  shut: readonly string[];
  gauge: string;
  receiver: string;
  from: string;
  to: string;
  time: string;
  starts: string;
}

const blank: Draft = {
  kind: "pressure",
  place: "",
  running: [],
  stopped: false,
  shut: [],
  gauge: "",
  receiver: "",
  from: "",
  to: "",
  time: "",
  starts: "",
};

/** The draft of a reading other than the one proposed; null while that is entered. */
export const other = signal<Draft | null>(null);
/** Figures typed for the one proposed, and for which one: another may come while somebody types. */
export interface Typed {
  of: string;
  figures: Partial<Draft>;
}
export const typed = signal<Typed>({ of: "", figures: {} });

/** What tells one proposal from another. */
export const keyOf = (r: FindReading | undefined): string => JSON.stringify(r ?? null);

/** What was typed for a proposal; nothing where it was for another. */
export const figuresFor = (key: string, had: Typed): Partial<Draft> => (had.of === key ? had.figures : {});

export const placeId = (at: string, tool = ""): string => (tool === "" ? at : `${tool}@${at}`);

/** A reading that is proposed, as a draft: all but its figures. */
export function proposed(r: FindReading | undefined, text: (pa: number) => string): Draft {
  if (!r) return blank;
  return {
    ...blank,
    kind: r.kind,
    place: r.place ? placeId(r.place.at, r.place.tool) : "",
    running: (r.running ?? []).map((u) => placeId(u.outlet, u.tool)),
    stopped: r.stopped ?? false,
    shut: r.shut ?? [],
    from: r.from_Pa_g ? text(r.from_Pa_g) : "",
    to: r.to_Pa_g ? text(r.to_Pa_g) : "",
  };
}

/** What a draft comes to: a reading as in the job's file, or what is wanted for it. */
export interface Judged {
  reading: JobReading | null;
  about: string[];
  wanted: string;
  odd: Strange;
}

const round = (x: number): number => Math.round(x * 1000) / 1000;

export function judge(d: Draft, of: Weak, system: string): Judged {
  const out: Judged = { reading: null, about: [], wanted: "", odd: "" };
  const kPa = (text: string) => gaugeOf(text, system);
  if (d.kind === "starts") {
    const n = Number(d.starts.replace(",", "."));
    if (!(n > 0)) return { ...out, wanted: words.wanted.starts };
    return { ...out, reading: { starts_per_h: n, ...running(d) } };
  }
  if (d.kind !== "pressure") {
    const [from, to, time] = [kPa(d.from), kPa(d.to), secondsOf(d.time)];
    if (from === null || to === null || time === null) return { ...out, wanted: words.wanted.clock };
    if (d.kind === "pump-up" && to <= from) return { ...out, wanted: words.wanted.rises };
    if (d.kind === "fall" && to >= from) return { ...out, wanted: words.wanted.falls };
    const shut = d.kind === "fall" && d.shut.length > 0 ? { shut: [...d.shut] } : {};
    return { ...out, reading: { from_kPa_g: round(from), to_kPa_g: round(to), time_s: time, ...shut } };
  }
  const [gauge, receiver] = [kPa(d.gauge), kPa(d.receiver)];
  const odd = strange(gauge, receiver, { cutIn: of.cut_in_Pa_g / 1000, cutOut: of.cut_out_Pa_g / 1000 });
  if (d.place === "") return { ...out, odd, wanted: words.wanted.place };
  if (gauge === null) return { ...out, odd, wanted: words.wanted.gauge };
  if (receiver === null) return { ...out, odd, wanted: words.wanted.receiver };
  return {
    reading: {
      pressure_kPa_g: round(gauge),
      receiver_kPa_g: round(receiver),
      ...running(d),
      ...(d.stopped && { stopped: true }),
    },
    about: d.place.split("@"),
    wanted: "",
    odd,
  };
}

function running(d: Draft): Pick<JobReading, "running"> {
  if (d.running.length === 0) return {};
  return {
    running: d.running.map((u) => {
      const [tool = "", outlet = ""] = u.split("@");
      return { tool, outlet };
    }),
  };
}
