import type { Event as Change, Fault } from "./types.gen.ts";

/** What the program answered where it did not give what was asked for. */
export class Refused extends Error {
  readonly status: number;
  readonly fault: Fault;
  constructor(fault: Fault) {
    super(fault.detail || fault.title);
    this.status = fault.status;
    this.fault = fault;
  }
}

async function read<T>(response: Response): Promise<T> {
  if (!response.ok) {
    const fault = (await response.json().catch(() => null)) as Fault | null;
    throw new Refused(fault ?? { title: response.statusText, status: response.status, detail: "" });
  }
  return (response.status === 204 ? undefined : await response.json()) as T;
}

/** GET of one resource; the signal drops an answer that nobody waits for any more. */
export async function get<T>(path: string, signal?: AbortSignal): Promise<T> {
  const asked: RequestInit = { headers: { accept: "application/json" } };
  if (signal) asked.signal = signal;
  return read<T>(await fetch(path, asked));
}

/** A request that changes something. A body that is an object goes as JSON, a Blob as what it is. */
export async function send<T>(method: "POST" | "PUT" | "DELETE", path: string, body?: object): Promise<T> {
  const asked: RequestInit = { method, headers: { accept: "application/json" } };
  if (body instanceof Blob) {
    asked.body = body;
    asked.headers = { accept: "application/json", "content-type": body.type };
  } else if (body) {
    asked.body = JSON.stringify(body);
    asked.headers = { accept: "application/json", "content-type": "application/json" };
  }
  return read<T>(await fetch(path, asked));
}

/** Listens for new revisions of a job. The browser connects again by itself. */
export function listen(path: string, changed: (c: Change) => void, reached: (ok: boolean) => void): void {
  const events = new EventSource(path);
  events.addEventListener("revision", (e) => changed(JSON.parse((e as MessageEvent<string>).data) as Change));
  events.addEventListener("open", () => reached(true));
  events.addEventListener("error", () => reached(false));
}
