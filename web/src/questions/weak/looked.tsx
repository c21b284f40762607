import { useSignal } from "@preact/signals";
import type { FindCause } from "../../api/types.gen.ts";
import { Chosen } from "../../paint/field.tsx";
import { note, waiting } from "../../state/outbox.ts";
import { weakWords as words } from "../../words/weak.ts";

const say = words.looked;

/** What a look at a thing showed and what was done to it, into the job's records: the search goes on from there. */
export function Looked({ of }: { of: FindCause }) {
  const members = of.members ?? [];
  const which = useSignal("");
  if (members.length === 0) return null;
  const at = members.find((m) => m.id === which.value)?.id ?? members[0]?.id ?? "";
  const waits = waiting.value.some((r) => r.task === "looked-at" && r.about?.includes(at));
  const things = new Map(members.map((m) => [m.id, m.words]));
  return (
    <details class="looked">
      <summary>
        {say.title}
        <span class="hidden">: {members[0]?.words}</span>
      </summary>
      <p class="soft">{say.first}</p>
      {things.size > 1 && (
        <Chosen
          label={say.which}
          value={at}
          options={[...things]}
          put={(id) => {
            which.value = id;
          }}
        />
      )}
      {Object.entries(say.found).map(([found, told]) => (
        <button
          key={found}
          type="button"
          class="go"
          disabled={waits}
          onClick={() => note({ kind: "note", task: "looked-at", found, about: [at] })}
        >
          {told}
        </button>
      ))}
      <p class="soft">{say.goesOn}</p>
    </details>
  );
}
