// How fast an edit is answered, and how smooth a drag is: printed, never asserted. Run by name; the hall of 1,000
// elements is the file that DROPLEG_HALL names.
import { readFileSync } from "node:fs";
import { open, settled } from "./browser.mjs";
import { middleOf } from "./hand.mjs";

const edits = 30;

const at95 = (all) => [...all].sort((a, b) => a - b)[Math.ceil(all.length * 0.95) - 1];
const middle = (all) => [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)];
const told = (all) => `p50 ${middle(all).toFixed(1)} ms, p95 ${at95(all).toFixed(1)} ms, most ${Math.max(...all).toFixed(1)} ms`;

/** From the pointer let go until a frame has been painted that shows the newer revision. */
const watch = () => {
  globalThis.times = [];
  globalThis.frames = [];
  let begun = 0;
  let before = "";
  const shown = () => document.querySelector(".steps-back .step")?.getAttribute("title") + document.querySelector(".drawing")?.getAttribute("aria-label");
  addEventListener(
    "pointerup",
    () => {
      begun = performance.now();
      before = globalThis.steps;
    },
    true,
  );
  globalThis.steps = 0;
  const real = globalThis.fetch;
  globalThis.fetch = async (...asked) => {
    const answer = await real(...asked);
    if (!String(asked[0]).includes("/steps")) return answer;
    const json = answer.json.bind(answer);
    answer.json = async () => {
      const live = await json();
      // The page takes the answer in the tasks that follow; a frame after the next one it has been painted.
      setTimeout(() =>
        requestAnimationFrame(() => {
          const channel = new MessageChannel();
          channel.port1.onmessage = () => globalThis.times.push(performance.now() - begun);
          channel.port2.postMessage(0);
        }),
      );
      return live;
    };
    return answer;
  };
  let last = 0;
  const frame = (now) => {
    if (globalThis.dragging && last > 0) globalThis.frames.push(now - last);
    last = now;
    requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
  return [before, shown()];
};

async function measure(at, id, outlet, what) {
  const { page, close } = await open(at, `${at.program.base}/job/${id}#q=pressure&at=${outlet}`);
  await settled(page);
  await page.evaluate(watch);
  for (let n = 0; n < edits; n++) {
    const [x, y] = await middleOf(page, outlet);
    const by = n % 2 === 0 ? -24 : 24;
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.evaluate(() => {
      globalThis.dragging = true;
    });
    await page.mouse.move(x + by, y, { steps: 12 });
    await page.evaluate(() => {
      globalThis.dragging = false;
    });
    await page.mouse.up();
    await page.waitForFunction((want) => globalThis.times.length > want, n);
    // The answers that come later are not part of it.
    await page.waitForTimeout(700);
  }
  const { times, frames } = await page.evaluate(() => ({ times: globalThis.times, frames: globalThis.frames }));
  process.stdout.write(`        ${what}: pointer up to painted, ${times.length} edits: ${told(times)}\n`);
  process.stdout.write(`        ${what}: frames while dragging, ${frames.length}: ${told(frames)}\n`);
  await close();
}

export const walks = {
  async "the boat shop"(at) {
    const id = await at.program.job({ from: "example", example: "boat-shop" });
    await measure(at, id, "outlet.far-bench", "boat shop");
  },
  async "a hall of 1,000 elements"(at) {
    const file = process.env.DROPLEG_HALL;
    if (!file) return;
    const id = await at.program.job(readFileSync(file, "utf8"));
    await measure(at, id, "outlet.40", "1,000 elements");
  },
};
