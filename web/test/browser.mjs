// One Chromium for all walks, its pages watched for everything that must not happen on them.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";

export const wide = { width: 1440, height: 900 };
export const phone = { width: 390, height: 844 };

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

export const launch = (more = {}) =>
  chromium.launch({
    ...more,
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

/** Waits until the drawing is there and nothing newer is on its way. */
export async function settled(page) {
  await page.waitForSelector(".drawing .thing", { state: "attached" });
  await page.waitForSelector(".stage:not(.stale)");
}

const lying = new Map();

/** The pages of a subject that lie open. */
export const opened = (subject) => [...(lying.get(subject) ?? [])];

/**
 * Opens an address in a browser context of its own. may says which faults are expected, as while the program
 * is killed; base is where all requests must stay. close fails where there was any other fault.
 */
export async function open({ browser, subject }, address, { may = () => false, base = address, ...options } = {}) {
  const context = await browser.newContext({ viewport: wide, reducedMotion: "reduce", ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  const { origin } = new URL(base);
  const faults = [];
  const fault = (text) => may(text) || faults.push(text);
  page.on("console", (m) => ["error", "warning"].includes(m.type()) && fault(m.text()));
  page.on("pageerror", (e) => fault(e.message));
  page.on("request", (r) => {
    const { protocol } = new URL(r.url());
    if (!r.url().startsWith(`${origin}/`) && protocol !== "blob:" && protocol !== "data:" && protocol !== "about:")
      fault(`asked elsewhere: ${r.url()}`);
  });
  if (!lying.has(subject)) lying.set(subject, new Set());
  lying.get(subject).add(page);
  page.once("close", () => lying.get(subject).delete(page));
  await page.goto(address);
  return {
    page,
    context,
    async close() {
      await context.close();
      assert.deepEqual(faults, []);
    },
  };
}

const rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/**
 * What axe finds at WCAG 2.2 A and AA in one light, and whether anything is wider than the window. Of a screen that
 * was looked at in the other light already the rules about colours are enough. The page's policy forbids script from
 * elsewhere, so axe comes by the driver.
 */
async function faultsOf(page, colorScheme, coloursAlone, without) {
  await page.emulateMedia({ colorScheme });
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(axe);
  const asked = coloursAlone ? ["color-contrast", "link-in-text-block"] : rules;
  const violations = await page.evaluate(
    async ([runOnly, without]) => {
      // Taken out of the page meanwhile: to leave it out alone saves axe no time.
      const away = without.map((s) => document.querySelector(s)).map((e) => [e, new Comment()]);
      for (const [element, mark] of away) element.replaceWith(mark);
      const told = await globalThis.axe.run({ runOnly, resultTypes: ["violations"] });
      for (const [element, mark] of away) mark.replaceWith(element);
      return told.violations;
    },
    [asked, without],
  );
  const told = violations.map(
    (v) => `${colorScheme}: ${v.id}: ${v.nodes.map((n) => n.html.slice(0, 200)).join(" | ")}`,
  );
  const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  if (over > 0) told.push(`${over} px too wide`);
  return told;
}

/** All that is wrong with the screen shown, in both lights; without leaves parts of it out. */
export async function barriers(page, ...without) {
  return [...(await faultsOf(page, "light", false, without)), ...(await faultsOf(page, "dark", true, without))];
}

export async function accessible(page, where) {
  assert.deepEqual(await barriers(page), [], where);
}
