// A phone on site: joints and tests are there before the design has been checked through, one touch does and takes
// back, and a picture that is no good holds up nothing.
import assert from "node:assert/strict";
import { barriers, open, phone, settled } from "./browser.mjs";

async function pocket(at, question, may) {
  const id = await at.program.job({ from: "example", example: "boat-shop" });
  const opened = await open(at, `${at.program.base}/job/${id}#q=${question}`, { viewport: phone, may });
  return { id, ...opened };
}

/** A picture of one pixel. */
const dot = Buffer.from(
  "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==",
  "base64",
);

/** Waits until the records written by a browser are such. */
async function records(program, id, ok) {
  for (let n = 0; n < 100; n++) {
    const list = ((await program.document(id)).records ?? []).filter((r) => r.device);
    if (ok(list)) return list;
    await new Promise((on) => setTimeout(on, 100));
  }
  throw new Error("what was written has not arrived");
}

async function early(at) {
  const id = await at.program.job({ from: "example", example: "boat-shop" });
  const { page, close } = await open(at, "about:blank", { viewport: phone, base: at.program.base });
  let go = () => {};
  const held = new Promise((on) => {
    go = on;
  });
  await page.route(/\/(questions|findings)/, async (route) => {
    await held;
    await route.continue();
  });
  await page.goto(`${at.program.base}/job/${id}#q=prove`);
  await page.locator("#joint-1").getByRole("button", { name: "Tight" }).click();
  assert.match(await page.locator(".asked-card h2").innerText(), /joints found tight/);
  assert.match(await page.locator(".cautions").innerText(), /Nothing is mended under pressure/);
  const form = page.getByRole("region", { name: "Decay test" });
  await form.getByLabel("Pressure", { exact: true }).fill("8.1 bar");
  go();
  await page.waitForSelector(".asked-question");
  assert.equal(await form.getByLabel("Pressure", { exact: true }).inputValue(), "8.1 bar");
  await records(at.program, id, (l) => l.length === 1 && l[0].found === "tight");
  await close();
}

async function hold(at) {
  const { page, close, id } = await pocket(at, "prove");
  await settled(page);
  const form = page.getByRole("region", { name: "Decay test" });
  // The test is one touch away from a list of joints, not behind it.
  await page.getByRole("navigation", { name: "Go to" }).getByRole("button", { name: "Decay test" }).click();
  await page.waitForFunction(() => {
    const { top } = document.querySelector("#prove-decay").getBoundingClientRect();
    return top >= 0 && top < innerHeight / 2;
  });
  const take = async (pressure, temperature) => {
    await form.getByLabel("Pressure", { exact: true }).fill(pressure);
    await form.getByLabel("Temperature of the line").fill(temperature);
    await form.getByRole("button", { name: "Take this reading" }).click();
  };
  await form.getByText("What gauge and thermometer are good to").click();
  await form.getByLabel("The gauge, to the nearest").fill("0.02 bar");
  await take("8.20 bar", "19 C");
  await form.getByLabel("Pressure", { exact: true }).fill("8.19 psi");
  await form.getByRole("button", { name: "Meant 8.19 bar?" }).click();
  assert.equal(await form.getByLabel("Pressure", { exact: true }).inputValue(), "8.19 bar");
  await take("3.19 bar", "19 C");
  await form.getByRole("button", { name: "Take back the last reading" }).click();
  await take("8.19 bar", "19 C");
  await form.locator(".readings li").nth(1).getByText("118.8 psi").waitFor();
  assert.deepEqual(await barriers(page, ".joint-list"), []);
  await form.getByRole("button", { name: "Into the records" }).click();
  const [r] = await records(at.program, id, (l) => l.length === 1);
  assert.deepEqual(
    [r.test.samples.map((s) => s.pressure_kPa_g), r.test.gauge_kPa],
    [[820, 819], 2],
  );
  await close();
}

async function upkeep(at) {
  const { page, close, id } = await pocket(at, "keep");
  await settled(page);
  const drain = page.locator(".task", { hasText: "open the drain" }).first();
  await drain.getByRole("button", { name: "Done today" }).click();
  await records(at.program, id, (l) => l.length === 1);
  await page.getByRole("status").getByRole("button", { name: "Take back" }).click();
  const list = await records(at.program, id, (l) => l.length === 2);
  assert.equal(list[1].takes_back, list[0].id);
  await page.getByText("Nothing is written down yet.").waitFor();
  await close();
}

async function pictures(at) {
  const { page, close, id } = await pocket(at, "prove", (text) => text.includes("422"));
  await settled(page);
  const photo = (n) => page.locator(`#joint-${n} input[type=file]`);
  await photo(1).setInputFiles({ name: "torn.jpg", mimeType: "image/jpeg", buffer: Buffer.from([0xff, 0xd8, 0xff, 0xe0]) });
  await page.locator(".held-back", { hasText: "cannot be read" }).waitFor();
  assert.equal(((await at.program.document(id)).records ?? []).filter((r) => r.device).length, 0);
  await page.locator(".held-back").getByRole("button", { name: "Close" }).click();

  // One that the program refuses is left behind; what was found goes, and what comes after it.
  await page.route(/\/pictures\//, (route) =>
    route.fulfill({ status: 422, json: { title: "this picture cannot be used", status: 422, detail: "" } }),
  );
  await photo(2).setInputFiles({ name: "dot.png", mimeType: "image/png", buffer: dot });
  await page.locator(".held-back", { hasText: "not kept" }).waitFor();
  await page.locator("#joint-3").getByRole("button", { name: "Tight" }).click();
  const list = await records(at.program, id, (l) => l.length === 2);
  assert.deepEqual(
    list.map((r) => [r.found, r.photo]),
    [
      ["not-checked", undefined],
      ["tight", undefined],
    ],
  );

  // A photo alone says nothing of the joint, and can be looked at.
  await page.unroute(/\/pictures\//);
  await photo(4).setInputFiles({ name: "dot.png", mimeType: "image/png", buffer: dot });
  const link = page.locator("#joint-4").getByRole("link", { name: "Photo" });
  assert.equal((await page.request.get(new URL(await link.getAttribute("href"), page.url()).href)).status(), 200);
  assert.match(await page.locator("#joint-4").innerText(), /not checked/);
  await close();
}

async function gauge(at) {
  const { page, close, id } = await pocket(at, "prove", () => true);
  await page.getByRole("button", { name: "Read a gauge" }).first().click();
  await page.context().setOffline(true);
  const form = page.locator(".reading-form");
  await form.getByLabel("Gauge shows").fill("5.9 psi");
  await form.getByRole("button", { name: "Meant 5.9 bar?" }).click();
  await form.getByLabel("Receiver shows").fill("seven");
  await form.getByText("Not understood").waitFor();
  assert.ok(await form.getByRole("button", { name: "Enter the reading" }).isDisabled());
  await form.getByLabel("Receiver shows").fill("7.1 bar");
  await form.getByRole("button", { name: "Enter the reading" }).click();
  await page.locator(".held-back", { hasText: "1 entry" }).waitFor();
  await page.context().setOffline(false);
  const [r] = await records(at.program, id, (l) => l.length === 1);
  assert.deepEqual([r.reading.pressure_kPa_g, r.reading.receiver_kPa_g], [590, 710]);
  await page.locator(".reading .back").click();
  await page.locator(".prove").waitFor();
  await page.locator(".facts", { hasText: "by the design" }).waitFor();
  await close();
}

export const walks = {
  "a gauge is read out of reach of the program": gauge,
  "joints are there before the questions are answered": early,
  "a decay test with a wrong unit and a reading taken back": hold,
  "upkeep is one touch, and one back": upkeep,
  "a picture that is no good holds up nothing": pictures,
};
