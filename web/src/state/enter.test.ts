import assert from "node:assert/strict";
import { test } from "node:test";
import { tokenIn } from "./enter.ts";

test("the token is taken out of the address and the rest stays", () => {
  assert.deepEqual(tokenIn("#token=00ff"), { token: "00ff", rest: "" });
  assert.deepEqual(tokenIn("#q=buy&token=00ff&at=outlet.a"), { token: "00ff", rest: "#q=buy&at=outlet.a" });
  assert.deepEqual(tokenIn("#q=buy"), { token: "", rest: "#q=buy" });
  assert.deepEqual(tokenIn(""), { token: "", rest: "" });
});
