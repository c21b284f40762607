// Two browsers on one job.
import assert from "node:assert/strict";
import { open, settled } from "./browser.mjs";
import { drag, inOneStep, middleOf, stepped } from "./hand.mjs";

async function two(at) {
  const { program } = at;
  const id = await program.job({ from: "example", example: "boat-shop" });
  const address = `${program.base}/job/${id}#q=pressure`;
  // A step that is refused is an answer with an error's status, which the browser writes in its console.
  const may = (text) => /status of 409/.test(text);
  const [a, b] = await Promise.all([open(at, address, { may }), open(at, address, { may })]);
  await Promise.all([settled(a.page), settled(b.page)]);
  const close = async () => {
    await a.close();
    await b.close();
  };
  return { id, a: a.page, b: b.page, close };
}

/** Holds back what others did from a page, until it is let go. */
async function behind(page) {
  let go = () => {};
  const wait = new Promise((done) => {
    go = done;
  });
  await page.route(/\/live\?/, async (route) => {
    await wait;
    await route.continue().catch(() => {});
  });
  return go;
}

async function seesOther(at) {
  const { a, b, close } = await two(at);
  const [before] = await middleOf(b, "outlet.far-bench");
  await inOneStep(a, () => drag(a, "outlet.far-bench", -60, 0));
  const begun = performance.now();
  await b.waitForFunction(
    (x) => {
      const box = document.querySelector('[data-stop="outlet.far-bench"]').getBoundingClientRect();
      return Math.abs(box.x + box.width / 2 - x) > 20;
    },
    before,
    { polling: "raf" },
  );
  process.stdout.write(`        seen by the other after ${Math.round(performance.now() - begun)} ms\n`);
  await stepped(b, /moved/);
  // And the other way round.
  await inOneStep(b, () => drag(b, "outlet.saw", 0, -40));
  await stepped(a, /saw/i);
  await close();
}

async function bothKept(at) {
  const { id, a, b, close } = await two(at);
  const letGo = await behind(b);
  await inOneStep(a, () => drag(a, "outlet.far-bench", -60, 0));
  const answer = await inOneStep(b, () => drag(b, "outlet.saw", 0, -40));
  assert.equal(answer.merged, true);
  letGo();
  const { steps } = await at.program.ask(`/api/jobs/${id}/history`);
  assert.equal(steps.length, 2);
  const places = (page) =>
    Promise.all(["outlet.far-bench", "outlet.saw"].map(async (o) => (await middleOf(page, o)).map(Math.round)));
  await Promise.all([stepped(a, /saw/i), stepped(b, /saw/i)]);
  await Promise.all([settled(a), settled(b)]);
  // An answer that comes late to one of them may lay its page out anew: both come to the same in the end.
  const patience = performance.now() + 15_000;
  let [one, other] = [await places(a), await places(b)];
  while (String(one) !== String(other) && performance.now() < patience) [one, other] = [await places(a), await places(b)];
  assert.deepEqual(one, other);
  await close();
}

async function told(at) {
  const { id, a, b, close } = await two(at);
  const letGo = await behind(b);
  await inOneStep(a, () => drag(a, "outlet.far-bench", -40, 0));
  const kept = await at.program.document(id);
  await drag(b, "outlet.far-bench", -20, 0);
  await b.waitForSelector(".wrong strong");
  const words = await b.locator(".wrong").innerText();
  assert.match(words, /moved .*Your step was not taken/s, `who did what, and that the step was not taken, is told: ${words}`);
  letGo();
  assert.deepEqual(await at.program.document(id), kept, "what the first did stands");
  await stepped(b, /moved/);
  // Looked at as it is now, the same step is taken.
  await settled(b);
  await inOneStep(b, () => drag(b, "outlet.far-bench", -12, 0));
  assert.notDeepEqual(await at.program.document(id), kept);
  await close();
}

export const walks = {
  "each sees what the other does": seesOther,
  "different things at once: both are kept": bothKept,
  "the same thing at once: the second is told, nothing is lost": told,
};
