import { signal } from "@preact/signals";
import { get, Refused, send } from "../api/client.ts";
import type { Created, JobRow, Jobs } from "../api/types.gen.ts";
import { jobAddress } from "../state/address.ts";
import { startWords as say } from "../words/start.ts";
import { ago } from "../words/when.ts";
import { failed } from "./bring.ts";

export const jobs = signal<Jobs | null>(null);
/** Why the jobs are not there; refused: the program asks for its token. */
export const jobsFault = signal<{ words: string; refused: boolean } | null>(null);
/** What was done last to a job of the list, and how to take it back. */
const told = signal<{ words: string; back: (() => void) | null } | null>(null);

export async function fetchJobs(): Promise<void> {
  try {
    jobs.value = await get<Jobs>("/api/jobs");
    jobsFault.value = null;
  } catch (e) {
    const refused = e instanceof Refused && e.status === 401;
    jobsFault.value = { words: e instanceof Refused ? e.message : say.offline, refused };
  }
}

const at = (id: string) => `/api/jobs/${encodeURIComponent(id)}`;

async function act(
  what: () => Promise<unknown>,
  words: string,
  back: (() => void) | null = null,
): Promise<void> {
  try {
    await what();
    told.value = { words, back };
  } catch (e) {
    failed("", e);
  }
  await fetchJobs();
}

const restore = (j: JobRow) => act(() => send("POST", `${at(j.id)}/restore`), say.restored(j.title));
const remove = (j: JobRow) =>
  act(
    () => send("DELETE", at(j.id)),
    say.binned(j.title),
    () => void restore(j),
  );
const copy = (j: JobRow) =>
  act(
    () => send<Created>("POST", "/api/jobs", { from: "copy", copy: j.id, title: say.copyOf(j.title) }),
    say.copied(j.title),
  );

function Card({ row, now }: { row: JobRow; now: Date }) {
  return (
    <li class="card">
      <a class="card-open" href={jobAddress(row.id)}>
        <span class="thumb">
          <img src={`${row.thumb}?r=${row.revision}`} alt="" loading="lazy" />
        </span>
        <span class="card-title">{row.title}</span>
        <time class="soft" dateTime={row.changed}>
          {say.changed(ago(now, new Date(row.changed)))}
        </time>
      </a>
      <span class="card-acts">
        <button type="button" aria-label={`${say.copy}: ${row.title}`} onClick={() => void copy(row)}>
          {say.copy}
        </button>
        <a href={`${at(row.id)}/file`} download aria-label={`${say.exported}: ${row.title}`}>
          {say.exported}
        </a>
        <button type="button" aria-label={`${say.bin}: ${row.title}`} onClick={() => void remove(row)}>
          {say.bin}
        </button>
      </span>
    </li>
  );
}

function Bin({ rows }: { rows: readonly JobRow[] }) {
  if (rows.length === 0) return null;
  return (
    <details class="bin">
      <summary>{say.inBin(rows.length)}</summary>
      <ul>
        {rows.map((j) => (
          <li key={j.id}>
            <span>{j.title}</span>
            <button
              type="button"
              class="linkish"
              aria-label={`${say.back}: ${j.title}`}
              onClick={() => void restore(j)}
            >
              {say.back}
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** The jobs kept on this computer, and those in the bin. */
export function Kept() {
  const now = jobs.value;
  const time = new Date();
  return (
    <section class="kept" aria-labelledby="kept">
      <h2 id="kept" class="start-title">
        {say.jobs}
      </h2>
      <p class="told" role="status">
        {told.value?.words}{" "}
        {told.value?.back && (
          <button type="button" class="linkish" onClick={told.value.back}>
            {say.back}
          </button>
        )}
      </p>
      {!now && !jobsFault.value && <p class="soft">{say.looking}</p>}
      {now?.trouble && <p class="trouble">{now.trouble}</p>}
      {now?.jobs.length === 0 && <p class="soft">{say.noJobs}</p>}
      <ul class="cards">
        {now?.jobs.map((j) => (
          <Card key={j.id} row={j} now={time} />
        ))}
      </ul>
      <Bin rows={now?.bin ?? []} />
    </section>
  );
}
