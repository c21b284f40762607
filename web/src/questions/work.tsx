import { useSignal } from "@preact/signals";
import { jobPath, query } from "../state/address.ts";
import { inUnits } from "../state/data.ts";
import { trouble } from "../state/notice.ts";
import { away, smaller, waiting } from "../state/outbox.ts";
import { words as common } from "../words/words.ts";
import { workWords as words } from "../words/work.ts";

/** What was written in this browser and has not arrived yet, and what was not taken: in sight wherever one is. */
export function Held() {
  const n = waiting.value.length;
  const wrong = trouble.value;
  return (
    <>
      {n > 0 && (
        <p class="held-back" role="status">
          {away.value ? words.away : words.sending} {words.records(n)}.
        </p>
      )}
      {wrong && (
        <p class="held-back trouble">
          <span>
            <strong>{wrong.words}</strong> {wrong.lines.join("; ")}
          </span>
          <button
            type="button"
            onClick={() => {
              trouble.value = null;
            }}
          >
            {common.close}
          </button>
        </p>
      )}
    </>
  );
}

/** A long list has its parts at the top, in reach of a thumb wherever one is in it. */
export function Parts({ of }: { of: readonly (readonly [id: string, words: string])[] }) {
  return (
    <nav class="parts" aria-label={words.goTo}>
      {of.map(([id, say]) => (
        <button
          key={id}
          type="button"
          onClick={() => {
            const part = document.getElementById(id);
            part?.scrollIntoView({ block: "start" });
            part?.focus({ preventScroll: true });
          }}
        >
          {say}
        </button>
      ))}
    </nav>
  );
}

/** A picture off the camera, as part of what is written down. */
export function Photo({ of, take }: { of: string; take: (picture: Blob) => void }) {
  const busy = useSignal(false);
  return (
    <label class="photo" aria-busy={busy.value}>
      <span>{busy.value ? words.photoBusy : words.photo}</span>
      <input
        type="file"
        accept="image/*"
        capture="environment"
        aria-label={`${words.photo}: ${of}`}
        onChange={(e) => {
          const field = e.currentTarget;
          const file = field.files?.[0];
          if (!file) return;
          // A large picture takes a phone some seconds.
          busy.value = true;
          void smaller(file).then((picture) => {
            busy.value = false;
            if (picture) take(picture);
            else trouble.value = { kind: "refused", words: words.noPhoto, lines: [] };
            field.value = "";
          });
        }}
      />
    </label>
  );
}

/** A sheet of the job book to take away. */
export function OnPaper({ sheet, title }: { sheet: string; title: string }) {
  return (
    <p class="take">
      <a href={jobPath(`/book/${sheet}.pdf${query(...inUnits())}`)} download>
        {title}
      </a>
    </p>
  );
}
