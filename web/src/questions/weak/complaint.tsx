import { signal } from "@preact/signals";
import type { FindUse, Weak } from "../../api/types.gen.ts";
import { fresh, note } from "../../state/outbox.ts";
import { weakWords as words } from "../../words/weak.ts";

const text = signal("");
const anew = signal(false);

function complain(what: string, about: readonly string[]): void {
  note({ kind: "note", task: "complaint", text: what, ...(about.length > 0 ? { about: [...about] } : {}) });
  text.value = "";
  anew.value = false;
}

const starves = (u: FindUse) => () => complain(`${u.tool}@${u.outlet}`, [u.outlet, u.tool]);

/** What is wrong, in a person's own words or by the tool that starves. */
export function Complaint({ of }: { of: Weak }) {
  const written = fresh.value.filter((r) => r.task === "complaint").at(-1);
  const said = written?.text ?? of.complaint;
  if (said !== "" && !anew.value)
    return (
      <section class="said" aria-label={words.asked}>
        {!said.includes("@") && <p class="quote">“{said}”</p>}
        <p>{of.understood}</p>
        <button
          type="button"
          class="linkish"
          onClick={() => {
            anew.value = true;
          }}
        >
          {words.change}
        </button>
      </section>
    );
  return (
    <section class="said" aria-label={words.asked}>
      <form
        onSubmit={(e) => {
          e.preventDefault();
          if (text.value.trim() !== "") complain(text.value.trim(), []);
        }}
      >
        <label class="measure">
          <span>{words.asked}</span>
          <textarea
            rows={2}
            placeholder={words.hint}
            value={text.value}
            onInput={(e) => {
              text.value = e.currentTarget.value;
            }}
          />
        </label>
        <button type="submit" class="go strong" disabled={text.value.trim() === ""}>
          {words.begin}
        </button>
      </form>
      <p class="soft">{words.orTool}</p>
      <ul class="starving">
        {of.uses.map((u) => (
          <li key={`${u.tool}@${u.outlet}`}>
            <button type="button" onClick={starves(u)}>
              {u.words}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
