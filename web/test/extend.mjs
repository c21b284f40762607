// Something is added to lines that stand: alternatives with what must grow, one of them taken.
import assert from "node:assert/strict";
import { accessible, open, settled } from "./browser.mjs";
import { stepped } from "./hand.mjs";

async function added(at) {
  const { program } = at;
  const id = await program.job({ from: "example", example: "boat-shop" });
  const before = await program.document(id);
  const { page, close } = await open(at, `${program.base}/job/${id}#panel=extend`, {
    may: (text) => /status of 422/.test(text), // a length that cannot be read
  });
  await settled(page);
  await page.getByText("Isolate, lock, vent and see zero").waitFor();
  const ask = page.getByRole("button", { name: "What comes with it?" });
  assert.ok(await ask.isDisabled(), "nothing is asked before it is said where");
  await page.getByLabel("On the wall").selectOption("wall.west");
  await page.getByLabel("From its left end").fill("6.3 metre-ish");
  await page.getByLabel("Above the floor").fill("1.2 m");
  await ask.click();
  await page.getByText(/want length/).waitFor();
  await page.getByLabel("From its left end").fill("6.3 m");
  await page.getByLabel("Tool", { exact: true }).selectOption("brad-nailer");
  await page.getByLabel("Called").fill("By the west wall");
  await ask.click();
  const first = page.locator(".proposal").first();
  await first.waitFor({ timeout: 120_000 });
  await accessible(page, "what comes with an outlet, beside the drawing");
  assert.match(await first.locator(".safe").first().innerText(), /stop the compressor and lock it.*see zero on a gauge/s);
  assert.equal(await first.locator(".grows tr").count(), 8);
  assert.deepEqual(await program.document(id), before, "what is only looked at changes nothing");
  await first.getByRole("button", { name: "Take it" }).click();
  await stepped(page, /By the west wall/);
  const after = await program.document(id);
  const outlet = after.outlets.find((o) => o.name === "By the west wall");
  assert.ok(outlet, "the outlet hangs");
  assert.equal(after.tools.find((t) => t.id === outlet.tools[0]).item, "brad-nailer");
  assert.ok(after.net.runs.length > before.net.runs.length);
  await page.locator(".steps-back .step").first().click();
  await page.waitForFunction(() => !/By the west wall/.test(document.querySelector(".steps-back .step")?.getAttribute("title") ?? ""));
  assert.deepEqual((await program.document(id)).net, before.net);
  await close();
}

export const walks = {
  "an outlet with a tool is added to lines that stand, taken and taken back": added,
};
