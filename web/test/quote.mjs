// A quotation: hours and sums on the page, rate and times stated, the variation since a step, and both on paper.
// The shop is the boat builder's of the examples.
import assert from "node:assert/strict";
import { accessible, open, phone, settled } from "./browser.mjs";

async function asked(at, options = {}) {
  const shop = await at.program.job({ from: "example", example: "boat-shop" });
  const opened = await open(at, `${at.program.base}/job/${shop}#q=buy`, options);
  await settled(opened.page);
  const part = opened.page.locator(".quotation");
  await part.locator("summary").first().click();
  return { ...opened, shop, part };
}

const answer = (at, shop, query = "") => at.program.ask(`/api/jobs/${shop}/quote${query}`);
const rate = (program, shop, value) => program.step(shop, { edit: "set", key: "prices.labour.rate_1_h", value });

/** The texts of a table, row by row. */
const rows = (table) =>
  table.locator("tbody tr").evaluateAll((list) => list.map((r) => [...r.cells].map((c) => c.innerText.trim())));

/** The window's own print, taken away: what would be printed stays as it is marked. */
const keepPrint = (page) =>
  page.evaluate(() => {
    globalThis.print = () => {};
  });

/** What stands on paper, as text. */
async function onPaper(page) {
  await page.emulateMedia({ media: "print" });
  const text = await page.evaluate(() => document.body.innerText);
  await page.emulateMedia({ media: null });
  return text;
}

export const walks = {
  async "a rate and a time stated are in the sums at once"(at) {
    const { page, close, shop, part } = await asked(at);
    await part.getByText("which no rate prices yet").waitFor();
    await page.getByRole("button", { name: "Hour, margin and tax" }).click();
    for (const [label, text] of [
      ["An hour of work costs", "60"],
      ["Margin on material", "15 %"],
      ["Tax on the sum", "8.25 %"],
    ]) {
      const field = page.getByLabel(label, { exact: true });
      await field.fill(text);
      await field.press("Enter");
      await page.waitForFunction((q) => fetch(q).then((r) => r.json()).then((d) => d.prices.labour), `/api/jobs/${shop}/file`);
    }
    const stated = async () => (await at.program.document(shop)).prices.labour;
    while (Object.keys((await stated()) ?? {}).length < 3) await page.waitForTimeout(100);
    assert.deepEqual(await stated(), { rate_1_h: 60, margin: 0.15, tax: 0.0825 });
    await page.evaluate(() => {
      location.hash = "q=buy&panel=";
    });
    await part.locator("summary").first().click();
    const minutes = part.getByLabel("minutes each: soldered joints");
    await minutes.fill("12,5");
    await minutes.press("Enter");
    await page.waitForFunction(() => /soldered joints: \d/.test(document.querySelector(".quotation").innerText));
    while (!(await stated()).minutes) await page.waitForTimeout(100);
    assert.deepEqual((await stated()).minutes, [{ for: "solder", min: 12.5 }]);
    const told = await answer(at, shop);
    await part.getByText(told.sentence).waitFor();
    assert.deepEqual(await rows(part.locator("> table.sums")), told.sums.map((s) => [s.words, s.cost]));
    // Emptied, the usual time is back.
    await minutes.fill("");
    await minutes.press("Enter");
    await page.waitForFunction(
      () => document.querySelector('[aria-label="minutes each: soldered joints"]').value === "10",
    );
    await close();
  },

  async "the variation since a step is told, and follows what is done"(at) {
    const { page, close, shop, part } = await asked(at);
    await rate(at.program, shop, 60);
    const { revision } = await answer(at, shop);
    const choice = part.getByLabel("What has changed since");
    await choice.locator(`option[value="${revision - 1}"], option[value="0"]`).first().waitFor({ state: "attached" });
    await at.program.step(shop, { edit: "remove", id: "hose.bench" });
    await choice.locator(`option[value="${revision}"]`).waitFor({ state: "attached" });
    await choice.selectOption(String(revision));
    await part.locator(".differs").first().waitFor();
    const told = await answer(at, shop, `?against=${revision}`);
    assert.ok(told.change.lists.length > 1 && / less\.$/.test(told.change.sentence), told.change.sentence);
    await part.locator("> .differences").getByText(told.change.sentence).waitFor();
    assert.deepEqual(
      await rows(part.locator("> .differences .differs").last()),
      told.change.lists.at(-1).rows.map((s) => [s.words, s.before, s.after, s.by]),
    );
    assert.match(page.url(), new RegExp(`against=${revision}`));
    await at.program.step(shop, { edit: "set", key: "prices.labour.tax", value: 0.1 });
    await page.waitForFunction(() => /tax/.test(document.querySelector(".differences").innerText));
    await close();
  },

  async "as a sheet it is a document by itself, and the list is printed alone"(at) {
    const { page, close, shop, part } = await asked(at);
    await rate(at.program, shop, 60);
    await keepPrint(page);
    // What is being typed stays while an answer arrives.
    await part.getByLabel("Your name or firm").pressSequentially("Tarn Row ");
    await rate(at.program, shop, 61);
    await part.getByText((await answer(at, shop)).sentence).waitFor();
    await part.getByLabel("Your name or firm").pressSequentially("Pipework");
    await part.getByLabel("Your name or firm").press("Tab");
    const sheet = async (name) => {
      const to = await part.getByRole("link", { name, exact: true }).getAttribute("href");
      assert.match(to, /by=Tarn\+Row\+Pipework/);
      const got = await page.evaluate((q) => fetch(q).then(async (r) => [r.status, (await r.text()).slice(0, 5)]), to);
      assert.deepEqual(got, [200, "%PDF-"], to);
    };
    await sheet("Print the quotation");
    await part.getByLabel("What has changed since").selectOption("0");
    await part.locator(".differs").first().waitFor();
    await sheet("Print the variation");
    await page.getByRole("button", { name: "Print the list" }).click();
    const list = await onPaper(page);
    assert.match(list, /What has to be there/);
    assert.doesNotMatch(list, /Put in an offer|Tarn Row/);
    await page.evaluate(() => dispatchEvent(new Event("afterprint")));
    assert.equal(await page.locator("[data-printed]").count(), 0);
    await page.evaluate(() => {
      location.hash = "q=buy&panel=sheets&against=0";
    });
    await page.getByRole("button", { name: "look at Variation order" }).click();
    await page.getByRole("img", { name: /^Variation order, leaf 1 of / }).waitFor();
    await close();
  },

  async "on a phone it fits and has no barriers"(at) {
    const { page, close, shop, part } = await asked(at, { viewport: phone, hasTouch: true });
    await rate(at.program, shop, 60);
    await part.getByLabel("What has changed since").selectOption("0");
    await part.locator(".differs").first().waitFor();
    await page.waitForSelector(".panel:not(.behind)");
    await accessible(page, "a quotation on a phone");
    await close();
  },
};
