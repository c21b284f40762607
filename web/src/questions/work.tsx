import { jobPath, query } from "../state/address.ts";
import { inUnits } from "../state/data.ts";
import { away, smaller, waiting } from "../state/outbox.ts";
import { workWords as words } from "../words/work.ts";

/** What was written in this browser and has not arrived yet. */
export function Held() {
  const n = waiting.value.length;
  if (n === 0) return null;
  return (
    <p class="held-back" role="status">
      {away.value ? words.away : words.sending} {words.records(n)}.
    </p>
  );
}

/** A picture off the camera, as part of what is written down. */
export function Photo({ of, take }: { of: string; take: (picture: Blob) => void }) {
  return (
    <label class="photo">
      <span>{words.photo}</span>
      <input
        type="file"
        accept="image/*"
        capture="environment"
        aria-label={`${words.photo}: ${of}`}
        onChange={(e) => {
          const field = e.currentTarget;
          const file = field.files?.[0];
          if (file)
            void smaller(file).then((picture) => {
              if (picture) take(picture);
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
