import { signal } from "@preact/signals";
import { Refused, send } from "../api/client.ts";
import type { Created, Problem } from "../api/types.gen.ts";
import { jobAddress } from "../state/address.ts";
import { myName } from "../state/name.ts";
import { startWords as say } from "../words/start.ts";

/** What is being made or read, in words; "" for nothing. */
export const busy = signal("");
/** What went wrong last. */
export const wrong = signal<{ title: string; problems: readonly Problem[] } | null>(null);

/** Tells a failure: all its problems where it names them. */
export function failed(title: string, e: unknown): void {
  const words = e instanceof Error ? e.message : String(e);
  const rows = e instanceof Refused ? (e.fault.problems ?? []) : [];
  wrong.value = {
    title: title || words,
    problems: rows.length > 0 || title === "" ? rows : [{ path: "", read: "", want: words, where: [] }],
  };
}

async function trying<T>(words: string, title: string, what: () => Promise<T>): Promise<T | null> {
  busy.value = words;
  wrong.value = null;
  try {
    return await what();
  } catch (e) {
    failed(title, e);
    return null;
  } finally {
    busy.value = "";
  }
}

/** Makes a job of what the body asks for and opens it. */
export async function make(body: object, after = ""): Promise<void> {
  const made = await trying(say.making, "", () => send<Created>("POST", "/api/jobs", body));
  if (made) location.assign(jobAddress(made.id) + after);
}

/** What a file is by its name and the kind that the system gives. */
export function kindOf(file: { name: string; type: string }): "job" | "picture" | "pdf" | "" {
  const end = file.name.toLowerCase().split(".").pop() ?? "";
  if (end === "json" || end === "zip" || /(json|zip)/.test(file.type)) return "job";
  if (end === "pdf" || file.type === "application/pdf") return "pdf";
  if (["png", "jpg", "jpeg", "webp"].includes(end) || /^image\/(png|jpeg|webp)$/.test(file.type))
    return "picture";
  return "";
}

/** A name that pictures may have: letters, digits and . _ - */
export const pictureName = (name: string): string =>
  name
    .normalize("NFKD")
    .replace(/[^A-Za-z0-9._-]+/g, "-")
    .replace(/^[-.]+|[-.]+$/g, "")
    .slice(-80) || "plan";

/** The title of a shop whose plan has this file name. */
export const titleFrom = (name: string): string =>
  name
    .replace(/\.[^.]*$/, "")
    .replace(/[-_]+/g, " ")
    .trim() || "New shop";

async function bringJob(file: File): Promise<void> {
  const zip = file.name.toLowerCase().endsWith(".zip") || file.type.includes("zip");
  const body = new Blob([await file.arrayBuffer()], { type: zip ? "application/zip" : "application/json" });
  const made = await trying(say.reading(file.name), say.unreadable(file.name), () =>
    send<Created>("POST", "/api/jobs", body),
  );
  if (made) location.assign(jobAddress(made.id));
}

/** The first page of a PDF file as a picture. What reads it is a script of its own, fetched only now. */
async function pictureOf(file: File, kind: "picture" | "pdf"): Promise<{ name: string; body: Blob }> {
  if (kind === "picture") {
    const end = file.name.toLowerCase().split(".").pop() ?? "";
    const type = file.type || `image/${end === "jpg" ? "jpeg" : end}`;
    return { name: pictureName(file.name), body: new Blob([await file.arrayBuffer()], { type }) };
  }
  const script = "/pdf.js";
  const { drawPage } = (await import(script)) as {
    drawPage: (file: ArrayBuffer, page: number) => Promise<{ picture: Blob }>;
  };
  const { picture } = await drawPage(await file.arrayBuffer(), 1);
  return { name: `${pictureName(file.name.replace(/\.pdf$/i, ""))}.png`, body: picture };
}

/** How wide a floor plan is taken to be until two marks on it say so, m. */
const asWide = 20;

async function bringPicture(file: File, kind: "picture" | "pdf", units: string): Promise<void> {
  const made = await trying(say.reading(file.name), say.unreadable(file.name), async () => {
    // The picture first: a file that cannot be read leaves no job behind.
    const { name, body } = await pictureOf(file, kind);
    const { width, height } = await createImageBitmap(body).catch(() => {
      throw new Error(say.noPicture(file.name));
    });
    const job = await send<Created>("POST", "/api/jobs", {
      from: "empty",
      title: titleFrom(file.name),
      units,
    });
    const at = `/api/jobs/${encodeURIComponent(job.id)}`;
    await send("PUT", `${at}/pictures/${encodeURIComponent(name)}`, body);
    const step = {
      do: "underlay",
      file: name,
      ...(kind === "pdf" ? { page: 1 } : {}),
      marks_px: [
        [0, height],
        [width, height],
      ],
      at_m: [
        [0, 0],
        [asWide, 0],
      ],
    };
    await send("POST", `${at}/steps`, { base: 0, by: myName.value, step });
    return job;
  });
  // The tool that scales it is in the hand at once.
  if (made) location.assign(`${jobAddress(made.id)}#tool=picture`);
}

/** Takes a file that was chosen or dropped: a job, or a floor plan to begin one with. */
export async function bring(file: File, units: string): Promise<void> {
  const kind = kindOf(file);
  if (kind === "job") await bringJob(file);
  else if (kind !== "") await bringPicture(file, kind, units);
  else failed(say.unreadable(file.name), new Error(say.noPicture(file.name)));
}
