// Walks through the page in a real browser: node test/walk.mjs URL [UNREADABLE [EXAMPLE …]]. Any fault ends with
// status 1. The first page must show the joinery of the server's tests, the second a file that cannot be read.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";

const [base, unreadable, ...examples] = process.argv.slice(2);
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
  ],
});

/** Opens the page and collects everything that must not happen on it. */
async function open(options, hash = "", at = base) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  const page = await context.newPage();
  const faults = [];
  page.on("console", (m) => ["error", "warning"].includes(m.type()) && faults.push(m.text()));
  page.on("pageerror", (e) => faults.push(e.message));
  page.on("request", (r) => r.url().startsWith(new URL(at).origin) || faults.push(`asked elsewhere: ${r.url()}`));
  await page.goto(at + hash);
  if (at !== unreadable) {
    await page.waitForSelector(".drawing .thing", { state: "attached" });
    await page.waitForSelector(".panel .section");
  }
  page.setDefaultTimeout(15000);
  return { page, faults, close: () => context.close() };
}

/** axe finds nothing, at WCAG 2.2 A and AA. The policy of the page forbids script from elsewhere, so axe comes by the driver. */
async function accessible(page, where) {
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() =>
    globalThis.axe.run({ runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }),
  );
  const told = violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html.slice(0, 160)).join(" | ")}`);
  assert.deepEqual(told, [], `${where}: axe`);
}

const steps = {
  async "every look is accessible, at both widths and in both lights"() {
    const wide = { width: 1440, height: 900 };
    const phone = { width: 390, height: 844 };
    for (const [viewport, colorScheme, hash] of [
      [wide, "light", ""],
      [wide, "dark", "#at=outlet.d"],
      [wide, "light", "#q=buy"],
      [phone, "dark", ""],
      [phone, "light", "#at=outlet.d&units=mixed"],
      [phone, "dark", "#at=line.main-3"],
    ]) {
      const { page, faults, close } = await open({ viewport, colorScheme }, hash);
      await accessible(page, `${viewport.width} ${colorScheme} ${hash}`);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(over <= 0, `${viewport.width} ${hash}: ${over} px too wide`);
      assert.deepEqual(faults, []);
      await close();
    }
  },

  async "a click on an outlet shows its way, and the figure is that of the row"() {
    const { page, faults, close } = await open({}, "#q=pressure");
    const row = page.locator(".outlets button", { hasText: "bench, south end" });
    const figure = await row.locator(".outlet-figure").innerText();
    // In the middle of what carries its name, as a hand would.
    await page.locator('[data-id="outlet.d"]').click();
    await page.waitForSelector(".way .stairs .risers", { state: "attached" });
    assert.equal(await page.locator(".way .big").innerText().then((t) => t.split("\n").slice(0, 2).join(" ").replace(/\s+/g, " ").trim().slice(0, figure.length)), figure);
    assert.equal(await page.locator('[data-stop="outlet.d"]').getAttribute("aria-pressed"), "true");
    assert.ok((await page.locator(".thing.on-way").count()) > 3, "the way is lit on the drawing");
    assert.deepEqual(faults, []);
    await close();
  },

  async "the page opens with the way to the worst outlet, and lets go of it"() {
    const { page, faults, close } = await open();
    await page.waitForSelector(".way.short .stairs .risers", { state: "attached" });
    await page.locator(".panel .back").click();
    await page.waitForSelector(".outlets button");
    assert.deepEqual(faults, []);
    await close();
  },

  async "the wheel comes closer about the pointer, and a drag moves without choosing"() {
    const { page, faults, close } = await open({}, "#q=pressure");
    const dial = page.locator('[data-stop="outlet.d"]');
    // Dials keep their distance on paper; the building is what stays in place.
    const floor = page.locator(".layer-building [data-id]").first();
    const before = await floor.boundingBox();
    const box = await dial.boundingBox();
    const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    await page.mouse.move(at.x, at.y);
    await page.mouse.wheel(0, -400);
    await page.waitForTimeout(900);
    const after = await floor.boundingBox();
    const times = after.width / before.width;
    const moved = Math.hypot(
      at.x - after.x - (at.x - before.x) * times,
      at.y - after.y - (at.y - before.y) * times,
    );
    assert.ok(times > 1.5 && moved < 4, `the place under the pointer stays: ${times} times, moved ${moved} px`);
    // A drag with the middle button moves the drawing, wherever it begins.
    await page.mouse.down({ button: "middle" });
    await page.mouse.move(at.x - 80, at.y - 20, { steps: 6 });
    await page.mouse.up({ button: "middle" });
    const dragged = await floor.boundingBox();
    assert.ok(after.x - dragged.x > 50, "a drag moves the drawing");
    assert.equal(await dial.getAttribute("aria-pressed"), "false");
    assert.deepEqual(faults, []);
    await close();
  },

  async "a dial is dragged, its line follows, and undo puts it back"() {
    const { page, faults, close } = await open({}, "#q=pressure");
    const dial = page.locator('[data-stop="outlet.d"]');
    const before = await dial.boundingBox();
    const at = { x: before.x + before.width / 2, y: before.y + before.height / 2 };
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    await page.mouse.move(at.x - 30, at.y, { steps: 6 });
    assert.ok((await page.locator(".over .ghost").count()) > 0, "the line to come is drawn");
    await page.mouse.up();
    await page.waitForFunction(() => /moved/.test(document.querySelector(".step")?.textContent ?? ""));
    await page.locator(".drawing .thing").first().focus();
    await page.keyboard.press("Control+z");
    await page.waitForFunction(() => /moved/.test(document.querySelectorAll(".step")[1]?.textContent ?? ""));
    const back = await dial.boundingBox();
    assert.ok(Math.abs(back.x - before.x) < 1 && Math.abs(back.y - before.y) < 1, "it is back in its place");
    assert.deepEqual(faults, []);
    await close();
  },

  async "a measure is taken by keys alone, with a typed length"() {
    const { page, faults, close } = await open({}, "#q=pressure&units=metric");
    await page.locator(".drawing .thing[tabindex='0']").focus();
    await page.keyboard.press("m");
    await page.waitForFunction(() => document.activeElement?.className === "cursor-pad");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Enter");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.type("3.2 m");
    await page.waitForFunction(() => document.querySelector(".echo")?.textContent === "3.20 m");
    await accessible(page, "a length being typed");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".typed", { state: "detached" });
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => /3\.20 m/.test(document.querySelector(".ghost-tag")?.textContent ?? ""));
    await page.keyboard.press("Escape");
    await page.keyboard.press("Escape");
    await page.waitForSelector(".cursor-pad", { state: "detached" });
    assert.deepEqual(faults, []);
    await close();
  },

  async "one selection in all four views"() {
    const { page, faults, close } = await open({}, "#q=pressure&at=outlet.d");
    for (const key of ["2", "3", "4", "1"]) {
      await page.locator(".drawing .thing[tabindex='0']").focus();
      await page.keyboard.press(key);
      await page.waitForTimeout(700);
      await page.waitForSelector('[data-stop="outlet.d"][aria-pressed="true"]', { state: "attached" });
      await accessible(page, `view ${key}`);
    }
    assert.deepEqual(faults, []);
    await close();
  },

  async "a file that was never readable says all that is wrong with it"() {
    if (!unreadable) return;
    const { page, faults, close } = await open({}, "", unreadable);
    await page.waitForSelector(".problems.alone li");
    assert.ok((await page.locator(".problems .nearest").count()) > 0, "the nearest word is offered");
    await accessible(page, "unreadable");
    assert.deepEqual(faults, []);
    await close();
  },

  async "every example is accessible in both lights"() {
    for (const at of examples) {
      const { page, faults, close } = await open({}, "", at);
      await page.waitForSelector(".way .stairs .risers", { state: "attached" });
      for (const colorScheme of ["light", "dark"]) {
        await page.emulateMedia({ colorScheme });
        await accessible(page, `${at} ${colorScheme}`);
      }
      assert.deepEqual(faults, []);
      await close();
    }
  },

  async "keys alone reach and choose an outlet, zoom, and let go"() {
    const { page, faults, close } = await open({}, "#q=pressure");
    await page.locator(".zoom button").last().focus();
    await page.keyboard.press("Tab");
    const first = await page.evaluate(() => document.activeElement?.getAttribute("data-stop"));
    assert.match(first ?? "", /^outlet\./);
    await page.keyboard.press("ArrowRight");
    const now = await page.evaluate(() => document.activeElement?.getAttribute("data-stop"));
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
    assert.deepEqual(faults, []);
    await close();
  },

  async "a finding lights its things on the drawing, and the other way round"() {
    const { page, faults, close } = await open({}, "#q=pressure");
    const finding = page.locator(".finding", { has: page.locator("button", { hasText: "outlet D" }) }).first();
    await finding.hover();
    await page.waitForSelector('[data-stop="outlet.d"].lit', { state: "attached" });
    await page.locator('[data-stop="outlet.d"]').hover();
    await page.waitForSelector(".finding.lit");
    assert.deepEqual(faults, []);
    await close();
  },

  async "units change everywhere and stay in the address"() {
    const { page, faults, close } = await open({}, "#q=pressure");
    await page.locator(".head .segments label", { hasText: "US" }).click();
    await page.waitForFunction(() => /psi/.test(document.querySelector(".outlet-figure")?.textContent ?? ""));
    await page.waitForFunction(() => /psi/.test(document.querySelector(".legend li:nth-child(2)")?.textContent ?? ""));
    assert.match(page.url(), /units=us/);
    assert.deepEqual(faults, []);
    await close();
  },
};

let failed = 0;
for (const [name, step] of Object.entries(steps)) {
  try {
    await step();
  } catch (e) {
    failed++;
    process.stderr.write(`${name}\n  ${e.message}\n`);
  }
}
await browser.close();
process.exit(failed === 0 ? 0 : 1);
