// What the program thinks up: lines and sizes proposed, one of them taken, and taken back.
import assert from "node:assert/strict";
import { accessible, open, settled } from "./browser.mjs";
import { stepped } from "./hand.mjs";

async function proposed(at) {
  const { program } = at;
  const id = await program.job({ from: "example", example: "boat-shop" });
  const before = await program.document(id);
  const { page, close } = await open(at, `${program.base}/job/${id}#panel=propose`);
  await settled(page);
  await page.getByLabel("where the lines run").check();
  await page.getByLabel("leave what is installed").uncheck();
  await page.getByRole("button", { name: "Propose", exact: true }).click();
  const first = page.locator(".proposal").first();
  await first.waitFor({ timeout: 180_000 });
  await accessible(page, "proposals beside the drawing");
  await first.getByRole("button", { name: "Show its lines over the plan" }).click();
  assert.ok((await page.locator(".proposed-over path").count()) > 5, "its lines lie over the plan");
  await first.getByRole("button", { name: "Show its lines over the plan" }).click();
  await page.locator(".proposed-over").waitFor({ state: "detached" });
  assert.deepEqual(await program.document(id), before, "what is only proposed changes nothing");
  await first.getByRole("button", { name: "Take it" }).click();
  await stepped(page, /proposed/);
  const after = await program.document(id);
  assert.notDeepEqual(after.net.runs, before.net.runs);
  assert.deepEqual(after.outlets.map((o) => o.id), before.outlets.map((o) => o.id));
  await page.locator(".steps-back .step").first().click();
  await page.waitForFunction(() => document.querySelector(".proposals") === null);
  await page.waitForFunction(() => !/proposed/.test(document.querySelector(".steps-back .step")?.getAttribute("title") ?? ""));
  assert.deepEqual((await program.document(id)).net, before.net);
  await close();
}

async function keptBeside(at) {
  const { program } = at;
  const id = await program.job({ from: "example", example: "boat-shop" });
  const { page, close } = await open(at, `${program.base}/job/${id}#panel=propose`);
  await settled(page);
  await page.getByLabel("leave what is installed").uncheck();
  await page.getByRole("button", { name: "Propose", exact: true }).click();
  await page.getByRole("button", { name: "Keep it as an alternative" }).first().click({ timeout: 180_000 });
  await page.locator(".band").waitFor();
  const { plans } = await program.document(id);
  assert.equal(plans.length, 1);
  await close();
}

export const walks = {
  "proposals are looked at, one is taken and taken back": proposed,
  "a proposal is kept beside the job": keptBeside,
};
