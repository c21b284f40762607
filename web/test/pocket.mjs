// How fast the chart of a decay test grows, and how smooth the list of joints scrolls on a phone: printed, never
// asserted. Run by name.
import { open, settled } from "./browser.mjs";

const at95 = (all) => [...all].sort((a, b) => a - b)[Math.ceil(all.length * 0.95) - 1];
const middle = (all) => [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)];
const told = (all) => `p50 ${middle(all).toFixed(1)} ms, p95 ${at95(all).toFixed(1)} ms, most ${Math.max(...all).toFixed(1)} ms`;
const phone = { viewport: { width: 390, height: 844 }, deviceScaleFactor: 3, hasTouch: true, isMobile: true };

/** From the reading taken until the frame is painted in which the chart is another. */
const watch = () => {
  globalThis.times = [];
  let begun = 0;
  addEventListener(
    "submit",
    () => {
      begun = performance.now();
    },
    true,
  );
  new MutationObserver(() => {
    if (begun === 0 || !document.querySelector(".decay .verdict svg")) return;
    const from = begun;
    requestAnimationFrame(() => {
      const channel = new MessageChannel();
      channel.port1.onmessage = () => {
        if (begun !== from) return;
        globalThis.times.push(performance.now() - from);
        begun = 0;
      };
      channel.port2.postMessage(0);
    });
  }).observe(document.body, { subtree: true, childList: true, attributes: true, characterData: true });
};

async function decay(at) {
  const id = await at.program.job({ from: "example", example: "boat-shop" });
  const { page, close } = await open(at, `${at.program.base}/job/${id}#q=prove`, phone);
  await settled(page);
  const form = page.getByRole("region", { name: "Decay test" });
  await page.evaluate(watch);
  for (let n = 0; n < 40; n++) {
    await form.getByLabel("Pressure", { exact: true }).fill(`${(8.2 - n * 0.004).toFixed(3)} bar`);
    await form.getByLabel("Temperature of the line").fill("19 C");
    await form.getByRole("button", { name: "Take this reading" }).click();
    await page.waitForTimeout(1100); // readings are counted in whole seconds
  }
  const times = await page.evaluate(() => globalThis.times);
  process.stdout.write(`        decay chart: reading taken to painted, ${times.length} readings: ${told(times)}\n`);
  await close();
}

async function joints(at) {
  const id = await at.program.job({ from: "example", example: "boat-shop" });
  const { page, close } = await open(at, `${at.program.base}/job/${id}#q=prove`, phone);
  await settled(page);
  const rows = page.locator("li.joint");
  await rows.first().scrollIntoViewIfNeeded();
  const frames = await page.evaluate(async () => {
    const list = [...document.querySelectorAll("li.joint")];
    const end = list.at(-1).getBoundingClientRect().bottom + scrollY - innerHeight;
    const gaps = [];
    let last = 0;
    await new Promise((done) => {
      const frame = (now) => {
        if (last > 0) gaps.push(now - last);
        last = now;
        scrollBy(0, 40); // 2,400 px a second: a quick flick
        if (scrollY < end - 1) requestAnimationFrame(frame);
        else done();
      };
      requestAnimationFrame(frame);
    });
    return gaps;
  });
  const late = frames.filter((f) => f > 17.5).length;
  process.stdout.write(`        ${await rows.count()} joints scrolled, ${frames.length} frames: ${told(frames)}; ${late} later than a sixtieth of a second\n`);
  await close();
}

export const walks = {
  "the chart of a decay test grows": decay,
  "a list of joints scrolls on a phone": joints,
};
