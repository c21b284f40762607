import { batch, effect, signal } from "@preact/signals";

/** What the person asks for. Empty: as the job has it. All of it stands in the address, so a page can be sent on. */
export const set = signal("");
export const supply = signal("");
export const units = signal("");
export const question = signal("pressure");
/** The thing chosen on the drawing or in a list; "" for none. */
export const chosen = signal("");
/** Things pointed at: lit on the drawing and in the lists. */
export const lit = signal<ReadonlySet<string>>(new Set());

const fields = { set, case: supply, units, q: question, at: chosen };

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
      if (field.value !== "") now.set(name, field.value);
    }
    history.replaceState(null, "", `#${now}`);
  });
}

export function light(...ids: string[]): void {
  lit.value = new Set(ids);
}
