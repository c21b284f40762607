import { choose } from "../../state/ask.ts";
import { trouble } from "../../state/notice.ts";
import { step } from "../../state/post.ts";
import { lineWords } from "../../words/lines.ts";
import type { Tool } from "../tool.ts";

const words = lineWords.split;
const kinds = new Set(["run"] as const);

/** A run is made two, with a joint between them. */
export const split: Tool = {
  id: "split",
  words: words.words,
  key: "s",
  part: "lines",
  hint: () => words.begin,
  reach: () => ({ kinds, standoff: 0 }),
  set(s) {
    if (s.snap?.kind !== "run") {
      trouble.value = { kind: "refused", words: words.off, lines: [] };
      return;
    }
    const along_m = Math.round(s.snap.along_m * 1e4) / 1e4;
    void step({ do: "split", run: s.snap.id, along_m }).then((o) => {
      if (o.done && o.made[0]) choose(o.made[0]);
    });
  },
};
