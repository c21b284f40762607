import type { Thing } from "../../api/types.gen.ts";
import { letGo } from "../../state/ask.ts";
import { words } from "../../words/words.ts";
import { Facts } from "../facts/facts.tsx";
import { Actions } from "./actions.tsx";
import { Properties } from "./groups.tsx";

/** What is known of the thing chosen, and what of it can be stated. */
export function ThingCard({ thing }: { thing: Thing }) {
  return (
    <section class="thing-card">
      <button type="button" class="back" onClick={letGo}>
        ← {words.close}
      </button>
      <h2>{thing.title}</h2>
      <Actions />
      <Facts facts={thing.facts} />
      <Properties thing={thing} />
    </section>
  );
}
