// What is there to look at: drawing, questions, outlets, findings, units. The shop is the joinery.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { open, settled } from "./browser.mjs";
import { sample } from "./screens.mjs";

const ids = new WeakMap();

/** The page of the joinery, which all walks look at and none changes. */
async function look(at, hash = "", options = {}) {
  const { program } = at;
  if (!ids.has(program)) ids.set(program, await program.job(readFileSync(sample, "utf8")));
  const opened = await open(at, `${program.base}/job/${ids.get(program)}${hash}`, options);
  await settled(opened.page);
  return opened;
}

export const walks = {
  async "a click on an outlet shows its way, and the figure is that of the row"(at) {
    const { page, close } = await look(at, "#q=pressure");
    const row = page.locator(".outlets button", { hasText: "bench, south end" });
    const figure = await row.locator(".outlet-figure").innerText();
    // In the middle of what carries its name, as a hand would.
    await page.locator('[data-stop="outlet.d"]').click();
    await page.waitForSelector(".way .chart .risers", { state: "attached" });
    const big = (await page.locator(".way .big").innerText()).replace(/\s+/g, " ").trim();
    assert.equal(big.slice(0, figure.length), figure);
    assert.equal(await page.locator('[data-stop="outlet.d"]').getAttribute("aria-pressed"), "true");
    assert.ok((await page.locator(".thing.on-way").count()) > 3, "the way is lit on the drawing");
    await close();
  },

  async "the page opens with the way to the worst outlet, and lets go of it"(at) {
    const { page, close } = await look(at);
    await page.waitForSelector(".way.short .chart .risers", { state: "attached" });
    await page.locator(".panel .back").click();
    await page.waitForSelector(".outlets button");
    await close();
  },

  async "the wheel comes closer about the pointer, and a drag moves without choosing"(at) {
    const { page, close } = await look(at, "#q=pressure");
    const dial = page.locator('[data-stop="outlet.d"]');
    // Dials keep their distance on paper; the building is what stays in place.
    const floor = page.locator(".layer-building [data-id]").first();
    const before = await floor.boundingBox();
    const box = await dial.boundingBox();
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.wheel(0, -400);
    await page.waitForTimeout(900);
    const after = await floor.boundingBox();
    const times = after.width / before.width;
    const moved = Math.hypot(x - after.x - (x - before.x) * times, y - after.y - (y - before.y) * times);
    assert.ok(times > 1.5 && moved < 4, `the place under the pointer stays: ${times} times, moved ${moved} px`);
    // A drag with the middle button moves the drawing, wherever it begins.
    await page.mouse.down({ button: "middle" });
    await page.mouse.move(x - 80, y - 20, { steps: 6 });
    await page.mouse.up({ button: "middle" });
    const dragged = await floor.boundingBox();
    assert.ok(after.x - dragged.x > 50, "a drag moves the drawing");
    assert.equal(await dial.getAttribute("aria-pressed"), "false");
    await close();
  },

  async "keys alone reach and choose an outlet, zoom, and let go"(at) {
    const { page, close } = await look(at, "#q=pressure");
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute("data-stop"));
    await page.locator(".zoom button").last().focus();
    await page.keyboard.press("Tab");
    const first = await focused();
    assert.match(first ?? "", /^outlet\./);
    await page.keyboard.press("ArrowRight");
    const now = await focused();
    assert.ok(now && now !== first, "the arrows walk");
    const before = await page.locator(".drawing path").nth(4).getAttribute("d");
    await page.keyboard.press("+");
    await page.waitForFunction((d) => document.querySelectorAll(".drawing path")[4]?.getAttribute("d") !== d, before);
    await page.keyboard.press("0");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".panel .back");
    await page.locator(`[data-stop="${now}"]`).focus();
    await page.keyboard.press("Escape");
    await page.waitForSelector(".asked-card");
    await close();
  },

  async "a measure is taken by keys alone, with a typed length"(at) {
    const { page, close } = await look(at, "#q=pressure&units=metric");
    await page.locator(".drawing .thing[tabindex='0']").focus();
    await page.keyboard.press("m");
    await page.waitForFunction(() => document.activeElement?.className === "cursor-pad");
    for (const key of ["ArrowRight", "Enter", "ArrowRight"]) await page.keyboard.press(key);
    await page.keyboard.type("3.2 m");
    await page.waitForFunction(() => document.querySelector(".echo")?.textContent === "3.20 m");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".typed", { state: "detached" });
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => /3\.20 m/.test(document.querySelector(".ghost-tag")?.textContent ?? ""));
    await page.keyboard.press("Escape");
    await page.keyboard.press("Escape");
    await page.waitForSelector(".cursor-pad", { state: "detached" });
    await close();
  },

  async "one selection in all four views"(at) {
    const { page, close } = await look(at, "#q=pressure&at=outlet.d");
    for (const key of ["2", "3", "4", "1"]) {
      await page.locator(".drawing .thing[tabindex='0']").focus();
      await page.keyboard.press(key);
      await settled(page);
      await page.waitForSelector('[data-stop="outlet.d"][aria-pressed="true"]', { state: "attached" });
    }
    await close();
  },

  async "every question has an answer, and findings light their things"(at) {
    const { page, close } = await look(at, "#q=pressure");
    const questions = page.locator(".strip li button");
    assert.equal(await questions.count(), 9);
    for (const q of await questions.all()) {
      const words = await q.locator(".answer").innerText();
      await q.click();
      await page.waitForFunction((w) => document.querySelector(".asked-card h2")?.textContent?.includes(w), words);
    }
    await page.locator(".strip li button", { hasText: "Does every tool" }).click();
    const finding = page.locator(".finding", { has: page.locator("button", { hasText: "outlet D" }) }).first();
    await finding.hover();
    await page.waitForSelector('[data-stop="outlet.d"].lit', { state: "attached" });
    await page.locator('[data-stop="outlet.d"]').hover();
    await page.waitForSelector(".finding.lit");
    await close();
  },

  async "units change everywhere and stay in the address"(at) {
    const { page, close } = await look(at, "#q=pressure");
    await page.locator(".head .segments label", { hasText: "US" }).click();
    await page.waitForFunction(() => /psi/.test(document.querySelector(".outlet-figure")?.textContent ?? ""));
    await page.waitForFunction(() => /psi/.test(document.querySelector(".legend li:nth-child(2)")?.textContent ?? ""));
    assert.match(page.url(), /units=us/);
    await close();
  },
};
