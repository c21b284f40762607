import { batch, computed, effect, type Signal, signal } from "@preact/signals";

/** What the person asks for. Empty: as the job has it. All of it stands in the address, so a page can be sent on. */
export const set = signal("");
export const supply = signal("");
export const units = signal("");
export const question = signal("pressure");
/** The thing chosen on the drawing or in a list, of several the leading one; "" for none. */
export const chosen = signal("");
/** plan, elevation, isometric or diagram. */
export const view = signal("plan");
/** The room whose walls an elevation shows. */
export const room = signal("");
/** The alternative shown; "" is the job itself. */
export const alternative = signal("");
/** What stands beside the drawing instead of the answer; see questions/panels.ts. */
export const panel = signal("");
/** The joint that a tag at the line leads to; "" for all. */
export const joint = signal("");
/** The revision that a variation is told from; "" tells none. */
export const against = signal("");
/** Things pointed at: lit on the drawing and in the lists. */
export const lit = signal<ReadonlySet<string>>(new Set());

const fields: Record<string, Signal<string>> = {
  set,
  case: supply,
  units,
  q: question,
  at: chosen,
  view,
  room,
  plan: alternative,
  panel,
  joint,
  against,
};

/** What is not said because everybody expects it. */
const usual: Record<string, string> = { view: "plan" };

/** Those chosen along with the leading one. They hold only as long as it does. */
const along = signal<{ leader: string; ids: readonly string[] }>({ leader: "", ids: [] });

/** Everything chosen, the leading one first. */
export const selection = computed<readonly string[]>(() => {
  if (chosen.value === "") return [];
  const more = along.value.leader === chosen.value ? along.value.ids : [];
  return [chosen.value, ...more.filter((id) => id !== chosen.value)];
});

export function choose(id: string, ...more: string[]): void {
  batch(() => {
    chosen.value = id;
    along.value = { leader: id, ids: more };
  });
}

/** Takes a thing to those chosen, or out of them. */
export function toggle(id: string): void {
  const now = selection.value;
  const [leader = "", ...more] = now.includes(id) ? now.filter((i) => i !== id) : [...now, id];
  choose(leader, ...more);
}

export function letGo(): void {
  choose("");
}

/** Nothing was asked for in the address: the page opens with what matters most. */
export const unasked = signal(false);

/** Takes the state from the address and keeps the address in step. */
export function followAddress(): void {
  const read = () => {
    const given = new URLSearchParams(location.hash.slice(1));
    batch(() => {
      for (const [name, field] of Object.entries(fields)) {
        const value = given.get(name);
        if (value !== null) field.value = value;
      }
    });
  };
  unasked.value = location.hash.length < 2;
  read();
  addEventListener("hashchange", read);
  effect(() => {
    const now = new URLSearchParams();
    for (const [name, field] of Object.entries(fields)) {
      if (field.value !== "" && field.value !== usual[name]) now.set(name, field.value);
    }
    history.replaceState(null, "", `#${now}`);
  });
}

export function light(...ids: string[]): void {
  const now = lit.value;
  // Coming to the same again is no news to all that could be lit.
  if (ids.length !== now.size || ids.some((id) => !now.has(id))) lit.value = new Set(ids);
}
