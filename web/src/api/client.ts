import type { Event as Change, Fault } from "./types.gen.ts";

/** What the program answered where it did not give what was asked for. */
export class Refused extends Error {
  readonly status: number;
  constructor(fault: Fault) {
    super(fault.detail || fault.title);
    this.status = fault.status;
  }
}

/** GET of one resource; the signal drops an answer that nobody waits for any more. */
export async function get<T>(path: string, signal: AbortSignal): Promise<T> {
  const response = await fetch(path, { signal, headers: { accept: "application/json" } });
  if (!response.ok) {
    const fault = (await response.json().catch(() => null)) as Fault | null;
    throw new Refused(fault ?? { title: response.statusText, status: response.status, detail: "" });
  }
  return (await response.json()) as T;
}

/** Listens for changes of the file. The browser connects again by itself. */
export function listen(changed: (c: Change) => void, reached: (ok: boolean) => void): void {
  const events = new EventSource("/api/events");
  events.addEventListener("revision", (e) => changed(JSON.parse((e as MessageEvent<string>).data) as Change));
  events.addEventListener("open", () => reached(true));
  events.addEventListener("error", () => reached(false));
}
