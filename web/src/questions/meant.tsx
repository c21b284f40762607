import { meant } from "../state/gauge.ts";

/** The same figure in the units in which it would lie within some bounds, kPa: one touch puts it right. */
export function Meant({
  text,
  least,
  most,
  word = "",
  put,
}: {
  text: string;
  least: number;
  most: number;
  /** Before the figure, which is asked then. */
  word?: string;
  put: (text: string) => void;
}) {
  return (
    <>
      {meant(text, least, most).map((t) => (
        <button key={t} type="button" class="go" onClick={() => put(t)}>
          {word === "" ? t : `${word} ${t}?`}
        </button>
      ))}
    </>
  );
}
