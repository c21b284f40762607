// Built and proved with a phone, over the network at the computer's own address: what is written survives a line
// that goes, a program that is killed, and two phones at the same joint.
import assert from "node:assert/strict";
import { copyFileSync } from "node:fs";
import { accessible, open, phone, settled } from "./browser.mjs";
import { sample } from "./screens.mjs";

/** The program open to the network, and the address of its job as a phone that scans the code gets it. */
async function shared(program) {
  await program.stop();
  const file = program.file("shop.json");
  copyFileSync(sample, file);
  const begin = async () => {
    const [here, there] = await program.startOpen("--network", file);
    const id = new URL(here).pathname.split("/").at(-1);
    return { id, address: `${there.replace("/#", `/job/${id}#`)}&q=prove` };
  };
  return { begin, ...(await begin()) };
}

const joint = (page, n) => page.locator(`#joint-${n}`);
const touch = (page, n, word) => joint(page, n).getByRole("button", { name: word, exact: true }).click();
const nothingWaits = (page) => page.waitForSelector(".held-back", { state: "detached" });

async function pocket(at, address) {
  const opened = await open(at, address, { viewport: phone, may: () => true, base: address });
  await settled(opened.page);
  await joint(opened.page, 1).waitFor();
  return opened;
}

/** The records of joints. */
async function found(program, id) {
  const { records = [] } = await program.document(id);
  return records.filter((r) => r.kind === "joint");
}

async function throughTheGap(at) {
  const { program } = at;
  const { begin, id, address } = await shared(program);
  const { page, close } = await pocket(at, address);
  await accessible(page, "joints on a phone");
  await touch(page, 1, "Tight");
  await nothingWaits(page);

  await page.context().setOffline(true);
  await touch(page, 2, "Tight");
  await touch(page, 3, "Bubbles");
  await page.locator(".held-back").first().waitFor();
  assert.match(await joint(page, 3).innerText(), /bubbles/i);
  await page.context().setOffline(false);
  await nothingWaits(page);

  await program.stop("SIGKILL");
  await touch(page, 4, "Tight");
  await touch(page, 5, "Tight");
  await page.locator(".held-back").first().waitFor();
  await begin();
  await nothingWaits(page);

  const records = await found(program, id);
  assert.equal(new Set(records.map((r) => r.id)).size, records.length);
  assert.equal(records.length, 5, JSON.stringify(records));
  assert.equal(records.filter((r) => r.found === "bubbles").length, 1);
  await close();
}

async function twice(at) {
  const { program } = at;
  const { id, address } = await shared(program);
  const before = (await found(program, id)).length;
  const { page, close } = await pocket(at, address);
  // The first answer is lost on the way: the page sends the same again.
  let lost = 0;
  await page.route(/\/records/, async (route) => {
    if (route.request().method() === "POST" && lost++ === 0) {
      await route.fetch();
      return route.abort();
    }
    return route.continue();
  });
  await touch(page, 6, "Tight");
  while (lost < 2) await page.waitForTimeout(200);
  await nothingWaits(page);
  assert.equal((await found(program, id)).length, before + 1);
  await close();
}

async function twoPhones(at) {
  const { program } = at;
  const { id, address } = await shared(program);
  const before = (await found(program, id)).length;
  const a = await pocket(at, address);
  const b = await pocket(at, address);
  // Neither sees the other's: what they say of the joint stands against each other.
  await b.page.context().setOffline(true);
  await touch(a.page, 7, "Tight");
  await nothingWaits(a.page);
  await touch(b.page, 7, "Bubbles");
  await b.page.context().setOffline(false);
  await nothingWaits(b.page);
  assert.equal((await found(program, id)).length, before + 2);
  await a.page.waitForSelector("#joint-7.clash");
  await touch(a.page, 7, "Bubbles");
  await a.page.waitForSelector("#joint-7.bubbles");
  await b.page.waitForSelector("#joint-7.bubbles");
  await a.close();
  await b.close();
}

export const walks = {
  "what a phone writes arrives once, through a gap and a kill": throughTheGap,
  "what is sent twice is there once": twice,
  "two phones at one joint": twoPhones,
};
