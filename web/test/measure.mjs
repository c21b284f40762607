// How fast an edit is answered, and how smooth a drag is: printed, never asserted. Run by name; the hall of 1,000
// elements is the file that DROPLEG_HALL names.
import { readFileSync } from "node:fs";
import { open, settled } from "./browser.mjs";
import { middleOf } from "./hand.mjs";

const edits = 30;

const at95 = (all) => [...all].sort((a, b) => a - b)[Math.ceil(all.length * 0.95) - 1];
const middle = (all) => [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)];
const told = (all) => `p50 ${middle(all).toFixed(1)} ms, p95 ${at95(all).toFixed(1)} ms, most ${Math.max(...all).toFixed(1)} ms`;

/**
 * From the pointer let go until the first frame has been painted in which the drawing is another: the answer has
 * been read, the drawing has changed after it, and the frame's own task is over. Two parts of it are told apart:
 * until the answer has been read, and from there on.
 */
const watch = () => {
  globalThis.times = [];
  globalThis.answers = [];
  globalThis.frames = [];
  let begun = 0;
  let read = 0;
  addEventListener(
    "pointerup",
    () => {
      begun = performance.now();
      read = 0;
    },
    true,
  );
  const painted = () => {
    const channel = new MessageChannel();
    channel.port1.onmessage = () => {
      globalThis.times.push(performance.now() - begun);
      globalThis.answers.push(read - begun);
      begun = 0;
      waiting = false;
    };
    channel.port2.postMessage(0);
  };
  let waiting = false;
  new MutationObserver(() => {
    if (begun === 0 || read === 0 || waiting) return;
    waiting = true;
    requestAnimationFrame(painted);
  }).observe(document.querySelector(".drawing"), { subtree: true, childList: true, attributes: true, characterData: true });
  const real = globalThis.fetch;
  globalThis.fetch = async (...asked) => {
    const answer = await real(...asked);
    if (!String(asked[0]).includes("/steps")) return answer;
    if (!answer.ok) throw new Error(`the step was not taken: ${answer.status} ${await answer.text()}`);
    const json = answer.json.bind(answer);
    answer.json = async () => {
      const live = await json();
      read = performance.now();
      return live;
    };
    return answer;
  };
  let last = 0;
  const frame = (now) => {
    if (last > 0) globalThis.frames.push(now - last);
    last = globalThis.dragging ? now : 0;
    if (globalThis.dragging) requestAnimationFrame(frame);
  };
  globalThis.drag = () => {
    globalThis.dragging = true;
    requestAnimationFrame(frame);
  };
};

/** drag says which thing the nth edit drags, and how far in the window. */
async function measure(at, id, drag, what) {
  const { page, close } = await open(at, `${at.program.base}/job/${id}#q=pressure&at=${drag(0)[0]}`);
  await settled(page);
  await page.evaluate(watch);
  for (let n = 0; n < edits; n++) {
    const [thing, dx, dy] = drag(n);
    const [x, y] = await middleOf(page, thing);
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.evaluate(() => globalThis.drag());
    await page.mouse.move(x + dx, y + dy, { steps: 12 });
    await page.evaluate(() => {
      globalThis.dragging = false;
    });
    await page.mouse.up();
    await page.waitForFunction((want) => globalThis.times.length > want, n);
    // The answers that come later are not part of it.
    await page.waitForTimeout(700);
  }
  const { times, answers, frames } = await page.evaluate(() => {
    const { times, answers, frames } = globalThis;
    return { times, answers, frames };
  });
  process.stdout.write(`        ${what}: pointer up to painted, ${times.length} edits: ${told(times)}\n`);
  process.stdout.write(`        ${what}: of it until the answer was read: ${told(answers)}\n`);
  process.stdout.write(`        ${what}: frames while dragging, ${frames.length}: ${told(frames)}\n`);
  await close();
}

export const walks = {
  async "the boat shop"(at) {
    const id = await at.program.job({ from: "example", example: "boat-shop" });
    await measure(at, id, (n) => ["outlet.far-bench", n % 2 === 0 ? -24 : 24, 0], "boat shop");
  },
  async "a hall of 1,000 elements"(at) {
    const file = process.env.DROPLEG_HALL;
    if (!file) return;
    const id = await at.program.job(readFileSync(file, "utf8"));
    // Off the wall into the shop, each once: along the wall their neighbours' places catch them.
    const drag = (n) => (n < 15 ? [`outlet.${30 + n}`, 0, 20] : [`outlet.${65 + n}`, 0, -20]);
    await measure(at, id, drag, "1,000 elements");
  },
};
