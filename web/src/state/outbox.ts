import { computed, signal } from "@preact/signals";
import { Refused, send } from "../api/client.ts";
import type { JobRecord, Recorded } from "../api/types.gen.ts";
import { workWords } from "../words/work.ts";
import { jobId, jobPath } from "./address.ts";
import { revision } from "./live.ts";
import { myName } from "./name.ts";
import { trouble } from "./notice.ts";

/** A record on its way, with the picture that belongs to it. */
interface Row {
  id: string;
  job: string;
  record: JobRecord;
  picture?: Blob;
}

const rows = signal<readonly Row[]>([]);
/** The program cannot be reached: what was written waits here. */
export const away = signal(false);
/** What is written and not yet taken, oldest first. */
export const waiting = computed(() => rows.value.map((r) => r.record));

const shelf = "records";
let base: Promise<IDBDatabase | null> | null = null;

/** The browser's own database; null where it keeps nothing, and records then last as long as the page. */
function open(): Promise<IDBDatabase | null> {
  base ??= new Promise((found) => {
    try {
      const asked = indexedDB.open("dropleg", 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore(shelf, { keyPath: "id" });
      asked.onsuccess = () => found(asked.result);
      asked.onerror = () => found(null);
      asked.onblocked = () => found(null);
    } catch {
      found(null);
    }
  });
  return base;
}

async function keep(change: (store: IDBObjectStore) => void): Promise<void> {
  const db = await open();
  if (!db) return;
  await new Promise<void>((done) => {
    const t = db.transaction(shelf, "readwrite");
    change(t.objectStore(shelf));
    t.oncomplete = () => done();
    t.onabort = () => done();
  });
}

async function kept(): Promise<Row[]> {
  const db = await open();
  if (!db) return [];
  return new Promise((found) => {
    const asked = db.transaction(shelf).objectStore(shelf).getAll();
    asked.onsuccess = () => found((asked.result as Row[]).filter((r) => r.job === jobId));
    asked.onerror = () => found([]);
  });
}

const hex = (n: number): string =>
  Array.from(crypto.getRandomValues(new Uint8Array(n)), (b) => b.toString(16).padStart(2, "0")).join("");

/** What this browser is called in records: those of one browser are in order. */
const device = (() => {
  const key = "dropleg.device";
  try {
    const had = localStorage.getItem(key);
    if (had) return had;
    const made = hex(6);
    localStorage.setItem(key, made);
    return made;
  } catch {
    return hex(6);
  }
})();

type Written = Omit<JobRecord, "id" | "when" | "by" | "device">;

/** Writes a record down. It is kept in the browser at once, and sent when the program can be reached. */
export function note(what: Written, picture?: Blob): void {
  const now = Date.now();
  const record: JobRecord = {
    // Sorts by time, and nobody else thinks of the same.
    id: `record.${now.toString(36)}-${hex(6)}`,
    when: `${new Date(now).toISOString().slice(0, 19)}Z`,
    by: myName.value,
    ...what,
    device,
  };
  if (picture) record.photo = `${record.id.slice(7)}.jpg`;
  const row: Row = { id: record.id, job: jobId, record, ...(picture ? { picture } : {}) };
  rows.value = [...rows.value, row];
  void keep((s) => s.put(row)).then(() => void run());
}

let running = false;

async function run(): Promise<void> {
  if (running || rows.value.length === 0) return;
  running = true;
  try {
    while (rows.value.length > 0 && (await batch()));
  } finally {
    running = false;
  }
}

/** Sends the picture of a record; one that is refused holds up neither its record nor those behind it. */
async function withPicture({ record, picture }: Row): Promise<JobRecord> {
  if (!picture) return record;
  try {
    await send("PUT", jobPath(`/pictures/${record.photo}`), picture);
    return record;
  } catch (reason) {
    if (!(reason instanceof Refused) || ![400, 413, 415, 422].includes(reason.status)) throw reason;
    trouble.value = { kind: "refused", words: workWords.photoRefused, lines: [reason.message] };
    const { photo: _, ...rest } = record;
    return rest;
  }
}

/** Sends what waits; false where the program cannot be reached, or takes nothing. */
async function batch(): Promise<boolean> {
  const now = rows.value.slice(0, 100);
  try {
    const ready: JobRecord[] = [];
    for (const r of now) ready.push(await withPicture(r));
    const answer = await send<Recorded>("POST", jobPath("/records"), {
      by: myName.value,
      records: ready,
    });
    away.value = false;
    const over = new Set([...answer.taken, ...answer.had, ...answer.refused.map((r) => r.id)]);
    if (over.size === 0) return false;
    const first = answer.refused[0];
    if (first) trouble.value = { kind: "refused", words: first.why, lines: [] };
    await keep((s) => {
      for (const id of over) s.delete(id);
    });
    // What is shown until the newer answer comes is what was written.
    settled.value = [...settled.value, ...ready.filter((r) => over.has(r.id))].slice(-200);
    rows.value = rows.value.filter((r) => !over.has(r.id));
    revision.value = Math.max(revision.value, answer.revision);
    return true;
  } catch (reason) {
    if (reason instanceof Refused) {
      trouble.value = { kind: "failed", words: reason.message, lines: [] };
      return false;
    }
    away.value = true;
    return false;
  }
}

const settled = signal<readonly JobRecord[]>([]);
/** Everything written here that the answer shown may not know yet. */
export const fresh = computed<readonly JobRecord[]>(() => [...settled.value, ...waiting.value]);

/** Takes up what an earlier page left, and sends it as soon as it can. */
export function followOutbox(): void {
  if (jobId === "") return;
  void kept().then((left) => {
    const known = new Set(rows.value.map((r) => r.id));
    rows.value = [...left.filter((r) => !known.has(r.id)), ...rows.value];
    void run();
  });
  addEventListener("online", () => void run());
  setInterval(() => void run(), 2000);
}

/** The longer side that a picture is made smaller to, in pixels. */
const longest = 1600;

/** A picture off the camera, small enough to send over a weak line. */
export async function smaller(file: File): Promise<Blob | null> {
  try {
    const image = await createImageBitmap(file);
    const by = Math.min(1, longest / Math.max(image.width, image.height));
    const canvas = document.createElement("canvas");
    canvas.width = Math.round(image.width * by);
    canvas.height = Math.round(image.height * by);
    canvas.getContext("2d")?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((done) => canvas.toBlob(done, "image/jpeg", 0.82));
  } catch {
    return null;
  }
}
