import assert from "node:assert/strict";
import { test } from "node:test";
import { changed } from "./own.ts";

test("the intervals of other tasks stay, whether they are listed or not", () => {
  const gone = { task: "oil point.gone", every_d: 90, every_running_h: 500 };
  const own = [gone, { task: "drain point.a", every_d: 7 }];
  assert.deepEqual(changed(own, "drain point.a", { task: "drain point.a", every_d: 3 }), [
    gone,
    { task: "drain point.a", every_d: 3 },
  ]);
  assert.deepEqual(changed(own, "drain point.a", null), [gone]);
});
