import { signal } from "@preact/signals";

/** What the start page shows: the list, or the questions. It stands in the address, so that Back goes back. */
export type Where = "" | "five" | "standing" | "empty" | "parts";

const all: readonly Where[] = ["", "five", "standing", "empty", "parts"];

export const where = signal<Where>("");

export function followWhere(entered: (to: Where) => void): void {
  const read = () => {
    const to = all.find((w) => w === location.hash.slice(1)) ?? "";
    where.value = to;
    entered(to);
    scrollTo(0, 0);
  };
  read();
  addEventListener("hashchange", read);
}

export function goTo(to: Where): void {
  location.hash = to;
}
