import { useSignal } from "@preact/signals";
import type { ScreenQuestion } from "./api/types.gen.ts";
import { Verdict } from "./paint/mark.tsx";
import { chosen, question } from "./state/ask.ts";
import { words } from "./words/words.ts";

/** The plain questions with their answers. On a phone only the one asked, and the others on demand. */
export function Strip({ questions }: { questions: ScreenQuestion[] }) {
  const open = useSignal(false);
  const others = questions.filter((q) => q.id !== question.value);
  if (questions.length === 0)
    return (
      <nav class="strip waits" aria-label={words.questions}>
        <p class="soft" role="status">
          {words.answering}
        </p>
      </nav>
    );
  return (
    <nav class={`strip${open.value ? " open" : ""}`} aria-label={words.questions}>
      <ul>
        {questions.map((q) => (
          <li key={q.id} class={q.id === question.value ? "asked" : ""}>
            <button
              type="button"
              aria-pressed={q.id === question.value}
              title={`${q.question} ${q.answer}`}
              onClick={() => {
                question.value = q.id;
                chosen.value = "";
                open.value = false;
              }}
            >
              <Verdict mark={q.mark} />
              <span class="question">{q.question}</span>
              <span class="answer">{q.answer}</span>
            </button>
          </li>
        ))}
      </ul>
      <button
        type="button"
        class="linkish below"
        onClick={() => document.querySelector(".panel")?.scrollIntoView({ block: "start" })}
      >
        {words.below}
      </button>
      <button
        type="button"
        class="more"
        aria-expanded={open.value}
        onClick={() => {
          open.value = !open.value;
        }}
      >
        <span>
          {open.value ? words.close : others.length > 0 ? words.more(others.length) : words.checking}
        </span>
        {!open.value && (
          <span class="marks">
            {others.map((q) => (
              <Verdict key={q.id} mark={q.mark} />
            ))}
          </span>
        )}
      </button>
    </nav>
  );
}
