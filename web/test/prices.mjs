// A supplier's list taken in: its columns told and mended, each row that is not sure answered or left out, the rest
// taken as one step. The shop is the boat builder's of the examples.
import assert from "node:assert/strict";
import { accessible, open, phone, settled } from "./browser.mjs";

/** A list with a row that is sure, one in question, one without a price, one in words. */
const list = [
  "Art.-No.;Description;Pack;Net;RRP",
  "A1;copper-l tee 1 x 1/2;10;45,90;60,00",
  'A2;Copper ell 3/4";10;12,00;18,00',
  "A3;copper-l ball-valve 3/4;1;0;22,00",
  "A4;copper-l ball-valve 1;1;on request;31,00",
].join("\n");

async function asked(at, text = list, options = {}) {
  const shop = await at.program.job({ from: "example", example: "boat-shop" });
  const opened = await open(at, `${at.program.base}/job/${shop}#q=buy`, options);
  const { page } = opened;
  await settled(page);
  const part = page.locator(".take-in");
  await part.locator("summary").click();
  await part.getByLabel("CSV or XLSX").setInputFiles({ name: "supplier.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
  await part.locator('section[aria-busy="false"]').waitFor();
  return { ...opened, shop, part };
}

const idle = (part) => part.locator('section[aria-busy="false"]').waitFor();
const offers = async (at, shop) =>
  (await at.program.document(shop)).prices.offers.filter((o) => o.supplier === "Any Supply");

export const walks = {
  async "columns are mapped, rows answered, the sure ones taken"(at) {
    const { page, close, shop, part } = await asked(at);
    await part.getByLabel("Supplier of rows that name none").fill("Any Supply");
    await part.getByLabel("Supplier of rows that name none").press("Tab");
    await part.locator(".sum", { hasText: "45.90" }).waitFor();
    // Two columns may be the price: the page says which it took, and the person says otherwise.
    const column = (name) => part.locator(".list-columns li", { has: page.getByText(name, { exact: true }) }).locator("select");
    assert.equal(await column("Net").inputValue(), "price");
    await column("Net").selectOption("nothing");
    await idle(part);
    await column("RRP").selectOption("price");
    await idle(part);
    await part.locator(".sum", { hasText: "60.00" }).waitFor();
    await column("Net").selectOption("price");
    await idle(part);
    assert.equal(await column("RRP").inputValue(), "nothing");
    await part.getByRole("button", { name: "Take 1 price" }).waitFor();
    // Each row that is not taken says why.
    const row = (n) => part.locator(".list-rows > li", { hasText: `Row ${n} ` });
    assert.match(await row(4).innerText(), /Column D: read 0; wanted a price above 0/);
    assert.match(await row(5).innerText(), /Column D: read on request; wanted a figure/);
    await part.getByLabel("Article of row 3").selectOption("copper-l elbow-90 3/4");
    await part.getByRole("button", { name: "Take 2 prices" }).waitFor();
    await part.getByRole("button", { name: "Leave it out: Row 4" }).click();
    await part.getByRole("button", { name: "Take it" }).waitFor();
    await part.getByRole("button", { name: "Take 2 prices" }).click();
    await part.getByRole("button", { name: "No row of it can be taken yet." }).waitFor();
    assert.deepEqual(
      (await offers(at, shop)).map((o) => [o.number, o.price, o.holds]).sort(),
      [
        ["A1", 45.9, [{ article: "copper-l tee 1 x 1/2", number: 10 }]],
        ["A2", 12, [{ article: "copper-l elbow-90 3/4", number: 10 }]],
      ],
    );
    // One step took them all; one step takes them back.
    await at.program.ask(`/api/jobs/${shop}/undo`, { by: "the test" });
    assert.equal((await offers(at, shop)).length, 0);
    await close();
  },

  async "merged cells, decimal commas and what is no list are told"(at) {
    const { close, part } = await asked(at, "article;price\ndrain-cock 1/2;1,234\n");
    await part.getByText("wanted the decimal mark of the list stated").waitFor();
    await part.getByLabel("Figures have").selectOption("comma");
    await idle(part);
    await part.locator(".sum", { hasText: "1.234" }).waitFor();
    await part.getByRole("button", { name: "Another list" }).click();
    await part.getByLabel("CSV or XLSX").setInputFiles({ name: "list.pdf", mimeType: "text/csv", buffer: Buffer.from("%PDF-1.7\n") });
    await part.locator(".list-problem").first().waitFor();
    await close();
  },

  async "on a phone it fits and has no barriers"(at) {
    const { page, close } = await asked(at, list, { viewport: phone, hasTouch: true });
    await page.waitForSelector(".panel:not(.behind)");
    await accessible(page, "a price list on a phone");
    await close();
  },
};
