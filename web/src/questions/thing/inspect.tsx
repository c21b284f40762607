import { words } from "../../words/words.ts";
import { Back } from "../back.tsx";
import { Facts } from "../facts/facts.tsx";
import { Actions } from "./actions.tsx";
import { Properties } from "./groups.tsx";
import { subject } from "./subject.ts";

/** A thing opened: figures, each with where it comes from, and all that can be stated of it. */
function Opened({ actions }: { actions: boolean }) {
  const { thing, fault, wanted } = subject.value;
  return (
    <section class="thing-card">
      <Back />
      <h2>{thing?.title ?? (wanted === "" ? words.nothingChosen : fault || words.loading)}</h2>
      {actions && <Actions />}
      {thing && <Facts facts={thing.facts} />}
      {thing && <Properties thing={thing} />}
    </section>
  );
}

/** The thing chosen. */
export const Inspect = () => <Opened actions />;

/** The job itself: title, site, rules. */
export const JobCard = () => <Opened actions={false} />;
