import type { Thing } from "../../api/types.gen.ts";
import { letGo } from "../../state/ask.ts";
import { Back } from "../back.tsx";
import { Facts } from "../facts/facts.tsx";
import { Actions } from "./actions.tsx";
import { Properties } from "./groups.tsx";

/** What is known of the thing chosen, and what of it can be stated. */
export function ThingCard({ thing }: { thing: Thing }) {
  return (
    <section class="thing-card">
      <Back leave={letGo} />
      <h2>{thing.title}</h2>
      <Actions />
      <Facts facts={thing.facts} />
      <Properties thing={thing} />
    </section>
  );
}
