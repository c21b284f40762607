import { buildingWords } from "../../words/building.ts";

const plain = (v: number, decimals: number): string => `${Number(v.toFixed(decimals))}`;

/** A value in the words of the history: lengths in metres, temperatures in degrees Celsius, as the job has them. */
function valueWords(key: string, value: unknown): string {
  if (value === null) return buildingWords.nothing;
  if (typeof value === "number") return key.endsWith("_C") ? `${plain(value, 1)} °C` : `${plain(value, 3)} m`;
  if (typeof value === "boolean") return value ? buildingWords.yes : buildingWords.nothing;
  return `${value}`.replaceAll("-", " ");
}

/** The edit that sets one value of a thing, titled in words for the history; said is what the value is called. */
export const setting = (id: string, called: string, key: string, value: unknown, said?: string): object => ({
  edit: "all",
  title: buildingWords.made(buildingWords.keys[key] ?? key, called, said ?? valueWords(key, value)),
  edits: [{ edit: "set", id, key, value }],
});
