import { view } from "../state/ask.ts";
import { over } from "../state/over.ts";
import { restFrame } from "./rest.ts";
import { Shape } from "./scene.tsx";

/** The lines of a proposal, over the plan as it stands. */
export function Proposed() {
  const { name, lines } = over.value;
  if (name === "" || view.value !== "plan") return null;
  return (
    <g class="proposed-over">
      {lines.map((item, i) => (
        <Shape key={i} item={item} frame={restFrame.value} hit={false} />
      ))}
    </g>
  );
}
