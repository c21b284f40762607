// Keeps the page for the time without network. It runs beside the page, where the browser trusts the address: what
// the program answers is always asked for first, and what was answered last stands in where it is out of reach.

/** What the browser gives to a script of this kind; its own types are those of another library. */
interface Kept {
  respondWith(answer: Promise<Response>): void;
  waitUntil(what: Promise<unknown>): void;
  readonly request: Request;
}
interface Beside {
  addEventListener(type: "install" | "activate" | "fetch", heard: (e: Kept) => void): void;
  skipWaiting(): Promise<void>;
  readonly clients: { claim(): Promise<void> };
}
const beside = globalThis as unknown as Beside;

const name = "dropleg";
const shell = ["/", "/main.js", "/main.css", "/icon.svg"];
/** Answers kept at most: a few jobs of some hundred kilobytes each. */
const most = 300;
/** The page itself is not waited for longer than this: a network that is barely there answers nothing for minutes. */
const patience = 3_000; // ms

/** What is never kept: streams, and drawings that only say what changed. */
const passing = (url: URL) =>
  url.pathname.endsWith("/events") ||
  (url.pathname.endsWith("/live") && url.searchParams.get("since") !== "0");

async function keep(key: Request | string, answer: Response): Promise<void> {
  const cache = await caches.open(name);
  await cache.put(key, answer);
  const kept = await cache.keys();
  const data = kept.filter((k) => new URL(k.url).pathname.startsWith("/api/"));
  await Promise.all(data.slice(0, Math.max(0, data.length - most)).map((k) => cache.delete(k)));
}

/** What an address asks for, whatever the size of the window: a drawing that is a little off is better than none. */
function gist(of: string): string {
  const url = new URL(of);
  url.searchParams.delete("w");
  url.searchParams.delete("h");
  return url.href;
}

/** What was answered last to the same, or to the same for a window of another size. */
async function last(key: Request | string): Promise<Response | undefined> {
  const cache = await caches.open(name);
  const same = await cache.match(key);
  if (same || typeof key === "string") return same;
  const near = [...(await cache.keys())].reverse().find((k) => gist(k.url) === gist(key.url));
  return near && cache.match(near);
}

async function answer(e: Kept, key: Request | string, hurry: boolean): Promise<Response> {
  const asked = fetch(e.request).then((got) => {
    if (got.ok) e.waitUntil(keep(key, got.clone()));
    return got;
  });
  const kept = await last(key);
  if (!kept) return asked;
  const late = new Promise<Response>((go) => {
    if (hurry) setTimeout(() => go(kept), patience);
  });
  return Promise.race([asked.catch(() => kept), late]);
}

beside.addEventListener("install", (e) => {
  e.waitUntil(caches.open(name).then((c) => Promise.all([c.addAll(shell), beside.skipWaiting()])));
});
beside.addEventListener("activate", (e) => e.waitUntil(beside.clients.claim()));
beside.addEventListener("fetch", (e) => {
  const url = new URL(e.request.url);
  if (e.request.method !== "GET" || url.origin !== location.origin || passing(url)) return;
  const page = e.request.mode === "navigate";
  // Every job's page is the same file: one is enough for all.
  e.respondWith(answer(e, page ? "/" : e.request, page || !url.pathname.startsWith("/api/")));
});

export {};
