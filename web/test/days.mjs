// Working days: the question of enough air, and a day slid through. The shop is the joinery.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { open, settled } from "./browser.mjs";
import { sample } from "./screens.mjs";

async function asked(at, hash = "#q=air") {
  const shop = await at.program.job(readFileSync(sample, "utf8"));
  const opened = await open(at, `${at.program.base}/job/${shop}${hash}`);
  await settled(opened.page);
  await opened.page.waitForSelector(".days .chart .way", { state: "attached" });
  await opened.page.waitForSelector(".day h4");
  return { ...opened, shop };
}

/** The answer of the program itself. */
const told = async (page, path) => (await page.request.get(path, { timeout: 120_000 })).json();

export const walks = {
  async "the day is slid through by keys, and the drawing shows the moment"(at) {
    const { page, close, shop } = await asked(at);
    const before = await page.locator(".stage .ask select").inputValue();
    const slide = page.getByRole("slider", { name: "Moment of the day" });
    await slide.focus();
    await slide.press("PageUp"); // a tenth of the day
    await page.waitForFunction(() => location.hash.includes("set=moment-"));
    await settled(page);
    const moment = new URLSearchParams(new URL(page.url()).hash.slice(1)).get("set");
    // What stands beside the slide is what the program says of that time.
    const seconds = Number(moment.slice("moment-".length));
    const hour = await told(page, `${at.program.base}/api/jobs/${shop}/days/first/${Math.floor(seconds / 3600)}`);
    const stands = hour.moments.filter((m) => m.at_s <= seconds).at(-1);
    await page.waitForFunction((words) => document.querySelector(".day-told").textContent.includes(words), stands.words);
    // The list of outlets is of the same moment.
    const live = await told(page, `${at.program.base}/api/jobs/${shop}/live?w=360&h=225&set=${moment}`);
    assert.match(live.sentence, /A moment of a working day: the receiver stands at/);
    await page.locator(".day button.plain").click();
    await page.waitForFunction((was) => document.querySelector(".stage .ask select").value === was, before);
    await close();
  },

  async "a drag on the chart shows the moment under the hand"(at) {
    const { page, close } = await asked(at);
    const chart = page.locator(".day .chart").first();
    await chart.scrollIntoViewIfNeeded();
    const box = await chart.boundingBox();
    await page.mouse.move(box.x + box.width * 0.6, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.8, box.y + box.height / 2, { steps: 6 });
    await page.mouse.up();
    await page.waitForFunction(() => location.hash.includes("set=moment-"));
    // Words 24 mm, right edge 2 mm, of a chart of 90 mm that is a day of eight hours.
    const seconds = Number(/moment-(\d+)/.exec(page.url())[1]);
    assert.ok(Math.abs(seconds - ((0.8 * 90 - 24) / 64) * 8 * 3600) < 120, `${seconds} s`);
    await close();
  },

  async "charts are taken away as drawing, picture and figures"(at) {
    const { page, close } = await asked(at);
    for (const [chart, head] of [
      ["day", "time_s,receiver_kPa_g,compressors_under_load,tools"],
      ["chance", "tool,works_h_1_d,share_short,share_short_within_95,mostly"],
    ]) {
      const section = page.locator(chart === "day" ? ".day .take" : ".chances .take");
      const links = await section.locator("a").evaluateAll((list) => list.map((a) => a.href));
      const svg = await page.request.get(links[0], { timeout: 120_000 });
      assert.match(await svg.text(), /^<svg /);
      assert.equal((await (await page.request.get(links[1], { timeout: 120_000 })).text()).split("\n")[0], head);
      const [file] = await Promise.all([page.waitForEvent("download"), section.locator("button").click()]);
      assert.equal(file.suggestedFilename(), `${chart}.png`);
    }
    await close();
  },

  async "an edit is answered by a few days at once, then by as many as it takes"(at) {
    const { page, close, shop } = await asked(at);
    const sentence = () => page.locator(".days > .sentence").innerText();
    const before = await sentence();
    await at.program.step(shop, { edit: "set", id: "point.receiver", key: "part.volume_L", value: 900 });
    await page.waitForFunction((was) => document.querySelector(".days > .sentence").textContent !== was, before);
    const full = await told(page, `${at.program.base}/api/jobs/${shop}/days`);
    await page.waitForFunction((now) => document.querySelector(".days > .sentence").textContent === now, full.sentence);
    await close();
  },
};
