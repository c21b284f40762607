// Every screen looked at by axe, for walks at one width.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { barriers, open } from "./browser.mjs";
import { furnish, sample, screens } from "./screens.mjs";

/** Every tool of the rail and every panel with a button is on the list. */
async function nothingMissing(page) {
  const named = new Set(screens.map((s) => s.name));
  const tools = await page.locator(".rail-parts button span:first-child").allTextContents();
  const panels = await page.locator(".head button[aria-pressed], .bar button[aria-pressed]").allTextContents();
  const lacking = [
    ...tools.map((t) => `tool ${t.toLowerCase()}`),
    ...panels.map((p) => `panel ${p.toLowerCase()}`),
  ].filter((n) => !named.has(n));
  assert.deepEqual(lacking, [], "screens that nobody looks at");
}

/** No screen has a barrier, at a width. */
export async function noBarriers(at, options) {
  const jobs = await furnish(at.program, readFileSync(sample, "utf8"));
  const { page, close } = await open(at, "about:blank", { base: jobs.base, ...options });
  const found = [];
  for (const s of screens) {
    try {
      await page.goto("about:blank");
      await page.goto(s.where(jobs));
      await s.ready(page, jobs);
      const seen = s.again ? [".drawing > g:first-child"] : [];
      found.push(...(await barriers(page, ...seen)).map((b) => `${s.name}: ${b}`));
    } catch (e) {
      found.push(`${s.name}: ${e.message.split("\n")[0]}`);
    }
  }
  assert.deepEqual(found, []);
  await nothingMissing(page);
  await close();
}
