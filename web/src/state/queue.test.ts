import assert from "node:assert/strict";
import test from "node:test";
import { Queue, type Sent } from "./queue.ts";

const turn = () => new Promise<void>((go) => setImmediate(go));

test("one after the other, in the order they came", async () => {
  const log: string[] = [];
  let open = 0;
  const queue = new Queue<string, string>(
    async (what) => {
      open++;
      assert.equal(open, 1, "only one is on its way");
      await turn();
      log.push(what);
      open--;
      return { reached: true, answer: what.toUpperCase() };
    },
    turn,
    () => {},
  );
  assert.deepEqual(await Promise.all(["a", "b", "c"].map((w) => queue.put(w))), ["A", "B", "C"]);
  assert.deepEqual(log, ["a", "b", "c"]);
  assert.equal(queue.length, 0);
});

test("what cannot be sent is kept and sent when the line is back, before what came later", async () => {
  const sent: [string, boolean][] = [];
  const told: [number, boolean][] = [];
  let line = false;
  let tries = 0;
  const queue = new Queue<string, string>(
    async (what, tried): Promise<Sent<string>> => {
      if (!line) return { reached: false };
      sent.push([what, tried]);
      return { reached: true, answer: what };
    },
    async () => {
      await turn();
      if (++tries === 3) line = true;
    },
    (length, stuck) => told.push([length, stuck]),
  );
  const first = queue.put("a");
  const second = queue.put("b");
  assert.deepEqual(await Promise.all([first, second]), ["a", "b"]);
  // The first may have arrived when the line broke, and its sender is told so; the second was never on its way.
  assert.deepEqual(sent, [
    ["a", true],
    ["b", false],
  ]);
  assert.ok(told.some(([length, stuck]) => stuck && length === 2));
  assert.deepEqual(told[told.length - 1], [0, false]);
});

test("a refusal is an answer: what comes after it is sent", async () => {
  const queue = new Queue<number, string>(
    async (n) => ({ reached: true, answer: n === 1 ? "refused" : "done" }),
    turn,
    () => {},
  );
  assert.deepEqual(await Promise.all([queue.put(1), queue.put(2)]), ["refused", "done"]);
});
