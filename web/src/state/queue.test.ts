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

test("what cannot be sent is kept and sent as it was when the line is back, before what came later", async () => {
  const sent: { what: string }[] = [];
  const told: [number, boolean][] = [];
  let line = false;
  let tries = 0;
  const queue = new Queue<{ what: string }, string>(
    async (row): Promise<Sent<string>> => {
      sent.push(row);
      return line ? { reached: true, answer: row.what } : { reached: false };
    },
    async () => {
      await turn();
      if (++tries === 3) line = true;
    },
    (length, stuck) => told.push([length, stuck]),
  );
  const [a, b] = [{ what: "a" }, { what: "b" }];
  const first = queue.put(a);
  const second = queue.put(b);
  assert.deepEqual(await Promise.all([first, second]), ["a", "b"]);
  // Each try is the very same thing, so that its key is; the second waits until the first is through.
  assert.equal(sent.length, 5);
  for (const [i, row] of sent.entries()) assert.equal(row, i < 4 ? a : b, `try ${i}`);
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
