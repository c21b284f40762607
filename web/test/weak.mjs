// Why a shop is weak, with a phone in the hand: the body shop without its readings, from the complaint to the faults
// that were planted in it, through a gap of the network and a figure in the wrong unit.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { accessible, open, phone, settled } from "./browser.mjs";

const example = join(import.meta.dirname, "../../internal/shop/example/data/ailing.json");
const line = join(import.meta.dirname, "../../internal/decide/calibrate/testdata/long-line.json");
const psi = 6.894757;

/** The shop before anybody read a gauge; gives what the gauges then showed. */
async function quiet(program) {
  const shop = JSON.parse(readFileSync(example, "utf8"));
  const readings = shop.records.filter((r) => r.kind === "reading");
  shop.records = [];
  const file = program.file("ailing.json");
  writeFileSync(file, JSON.stringify(shop));
  await program.stop();
  const address = await program.start(file);
  return { readings, address: address.split("#")[0], id: new URL(address).pathname.split("/").at(-1) };
}

const nothingWaits = (page) => page.waitForSelector(".held-back", { state: "detached" });
const figure = (kPa) => `${Math.round(kPa / psi)} psi`;
const box = (page, label) => page.locator(".big-entry", { hasText: label }).locator("input");

/** Takes up another reading than the one proposed: where the gauge sits and what runs. */
async function choose(page, uses, about, running) {
  await page.getByRole("button", { name: "Another reading" }).click();
  await page.getByLabel("Where the gauge sits").selectOption(about);
  const fields = page.locator(".running label");
  const ran = new Set(running.map((u) => `${u.tool}@${u.outlet}`));
  for (const [i, u] of uses.entries()) await fields.nth(i).locator("input").setChecked(ran.has(`${u.tool}@${u.outlet}`));
}

async function enter(page, uses, { about, reading }) {
  await choose(page, uses, about[0], reading.running ?? []);
  await box(page, "Gauge").fill(figure(reading.pressure_kPa_g));
  await box(page, "Receiver").fill(figure(reading.receiver_kPa_g));
  await page.getByRole("button", { name: "Enter the reading" }).click();
}

async function toTheFaults(at) {
  const { program } = at;
  const { readings, address, id } = await quiet(program);
  const { page, close } = await open(at, `${address}#q=pressure`, { viewport: phone, may: () => true, base: address });
  await settled(page);
  // On a phone the panel lies under the drawing: who opens it is taken there.
  await page.getByRole("button", { name: "Find a fault", exact: true }).click();
  await page.getByRole("heading", { name: "Find a fault" }).waitFor();
  assert.ok((await page.locator(".weak h2").boundingBox()).y < phone.height / 2, "the panel is in sight");
  await page.getByRole("textbox", { name: "What is wrong?" }).fill("the sander at the far bench dies when someone blows off a part");
  await page.getByRole("button", { name: "Begin" }).click();
  await page.getByText("Understood: it is about the dual-action sander at the far bench").waitFor();
  await page.getByRole("heading", { name: "Read next" }).waitFor();
  assert.match(await page.locator(".next-words").innerText(), /^Let the dual-action sander at the far bench .* run, nothing else/);

  // Typed in another unit than the gauge has: asked about, and put right by one touch.
  await box(page, "Gauge").fill("75 bar");
  await box(page, "Receiver").fill("93 psi");
  await page.locator(".odd").getByText("another unit").waitFor();
  await page.locator(".odd").getByRole("button", { name: "75 psi" }).click();
  assert.equal(await page.locator(".odd").count(), 0);
  await box(page, "Receiver").fill("");
  await page.getByText("The receiver’s pressure at the same moment is wanted").waitFor();
  assert.ok(await page.getByRole("button", { name: "Enter the reading" }).isDisabled());
  await accessible(page, "finding a fault on a phone");

  const { uses } = await page.evaluate((job) => fetch(`/api/jobs/${job}/weak`).then((r) => r.json()), id);
  const flowing = readings.filter((r) => r.reading.running);
  for (const [i, r] of flowing.entries()) {
    if (i === 2) await page.context().setOffline(true);
    await enter(page, uses, r);
    if (i === 2) {
      await page.locator(".held-back").first().waitFor();
      await page.context().setOffline(false);
    }
    await nothingWaits(page);
    await page.waitForFunction((n) => document.querySelectorAll(".taken li").length === n, i + 1);
  }
  await page.locator(".weak.found").waitFor();
  const causes = page.locator(".causes li");
  for (const name of ["The filter by the tank", "The valve to the far end"]) {
    const cause = causes.filter({ hasText: name }).first();
    assert.match(await cause.innerText(), /passes .* of what it should/);
    assert.ok((await causes.allInnerTexts()).slice(0, 2).some((t) => t.includes(name)), name);
  }
  assert.ok((await page.locator('[data-id="point.filter"].lit').count()) > 0, "the filter is lit on the drawing");
  await accessible(page, "a fault found");

  // What is mended is named no more, what else is wrong is, and whether that was all is asked.
  const first = causes.first();
  await first.locator(".looked summary").click();
  await accessible(page, "a thing looked at");
  const which = first.locator(".looked select");
  if (await which.count()) await which.selectOption("point.filter");
  await first.getByRole("button", { name: "It was wrong, and is mended" }).click();
  await nothingWaits(page);
  await page.locator(".taken li > span").first().getByText("The filter by the tank was wrong and is mended").waitFor();
  await page.waitForFunction(() => !document.querySelector(".causes")?.innerText.includes("The filter by the tank passes"));
  assert.match(await causes.first().innerText(), /The valve to the far end/);
  await page.getByText("It shows whether that was all.").waitFor();
  // Several valves shut at once, and the compressor stopped, can be told.
  await page.getByRole("button", { name: "Another reading" }).click();
  assert.equal(await page.getByLabel("was stopped, and the receiver let down").isChecked(), false);
  await page.getByRole("radio", { name: "Time to fall" }).check();
  const valves = page.locator(".choice .running").first().locator("input");
  for (const i of [0, 1]) await valves.nth(i).check();
  await box(page, "From").fill("110 psi");
  await box(page, "To").fill("90 psi");
  await box(page, "Time").fill("8:00");
  await page.getByRole("button", { name: "Enter the reading" }).click();
  await nothingWaits(page);
  await page.locator(".taken li > span").first().getByText(/Falling with .* and .* shut/).waitFor();
  for (const left of [flowing.length + 1, flowing.length]) {
    await page.locator(".taken button").first().click();
    await nothingWaits(page);
    await page.waitForFunction((n) => document.querySelectorAll(".taken li").length === n, left);
  }
  await page.locator(".weak.found").waitFor();

  // What was written is in the job once; one reading taken back is weighed no more.
  const { records } = await program.document(id);
  assert.equal(records.filter((r) => r.kind === "reading").length, flowing.length + 1);
  assert.deepEqual(records.find((r) => r.reading?.shut).reading.shut.length, 2);
  assert.equal(new Set(records.map((r) => r.id)).size, records.length);
  await page.locator(".taken button").first().click();
  await nothingWaits(page);
  await page.waitForFunction((n) => document.querySelectorAll(".taken li").length === n, flowing.length - 1);
  await close();
}

/** Nobody has drawn anything: the main parts, a complaint, two gauges. */
async function byItsParts(at) {
  const { program } = at;
  const base = program.base;
  const { page, close } = await open(at, base, { viewport: phone, base, may: (fault) => fault.includes("422") });
  await page.getByRole("button", { name: "Enter the main parts" }).click();
  await page.getByRole("heading", { name: "A tool starves, and nothing is drawn" }).waitFor();
  await page.locator(".switches label", { hasText: "ft, psi" }).click();
  const begin = page.getByRole("button", { name: "Find the fault" });
  assert.ok(await begin.isDisabled());
  const typed = {
    Delivers: "22", "Starts at": "90", "Stops at": "120", "Receiver holds": "80", "Main to its drop": "40 ft",
    Drop: "10 ft", "Where that is": "the booth", "Hose length": "25 ft", "It takes": "12", At: "40", "What it is called": "the spray gun",
  };
  for (const [label, text] of Object.entries(typed)) await page.getByLabel(label, { exact: true }).fill(text);
  await page.getByLabel("Main size").fill("7/16");
  await begin.click();
  await page.getByText("a size as sold").first().waitFor();
  await page.getByLabel("Main size").fill("3/4");
  await accessible(page, "the main parts");
  await begin.click();
  await page.waitForURL(/panel=weak/);
  await page.getByRole("button", { name: "The spray gun at the booth", exact: true }).click();
  await page.getByText("Understood: it is about the spray gun at the booth").waitFor();
  await box(page, "Gauge").fill("45 psi");
  await box(page, "Receiver").fill("112 psi");
  await page.getByRole("button", { name: "Enter the reading" }).click();
  await nothingWaits(page);
  await page.locator(".causes li").first().waitFor();
  assert.match(await page.locator(".causes li").first().innerText(), /The filter passes/);
  // All that lies before the outlet stands in one line: a gauge there tells no more.
  await page.locator(".weak.found").getByText("No further reading would tell more").waitFor();
  await close();
}

/** A line as it is built: what its gauges showed is taken over, and taken back. */
async function toTheLineAsItIs(at) {
  const { program } = at;
  const shop = JSON.parse(readFileSync(line, "utf8"));
  const read = (place, tool, kPa, i) => ({
    id: `record.c${i}`, kind: "reading", when: "2026-03-01T09:00:00Z", about: [place],
    reading: { pressure_kPa_g: kPa, receiver_kPa_g: 800, ...(tool && { running: [{ tool, outlet: "outlet.end" }] }) },
  });
  shop.records = [
    ["point.mid", "", 799.49], ["outlet.end", "", 798.7], ["point.mid", "tool.small", 795.87],
    ["outlet.end", "tool.small", 782.25], ["point.mid", "tool.large", 790.02], ["outlet.end", "tool.large", 745.83],
  ].map(([place, tool, kPa], i) => read(place, tool, kPa, i));
  const file = program.file("line.json");
  writeFileSync(file, JSON.stringify(shop));
  await program.stop();
  const address = await program.start(file);
  const base = address.split("#")[0];
  const id = new URL(address).pathname.split("/").at(-1);
  const { page, close } = await open(at, `${base}#q=pressure&panel=weak`, { viewport: phone, base, may: (fault) => fault.includes("422") });
  await settled(page);
  const part = page.locator(".calibrate");
  await part.getByText("Gauges, and which readings").click();
  await part.getByLabel("A gauge is good to").fill("soon");
  await part.getByRole("button", { name: "Compare" }).click();
  await part.getByRole("alert").waitFor();
  await part.getByLabel("A gauge is good to").fill("0.2 kPa");
  await part.getByRole("button", { name: "Compare" }).click();
  await part.getByText("They fit.").waitFor();
  assert.match(await part.locator(".calibrate-figures .told").first().innerText(), /Roughness of [\s\S]*mm → [\s\S]*19 times in 20/);
  assert.match(await part.locator(".calibrate-figures").innerText(), /Not told; stays/);
  await part.getByText("The 6 readings, before and after").click();
  assert.equal(await part.locator(".calibrate-looks li").count(), 6);
  await accessible(page, "the job set by readings");
  await part.getByRole("button", { name: "Take it over" }).click();
  await part.getByText("The job stands as the readings showed it").waitFor();
  const rough = async () => JSON.stringify(await program.document(id)).includes("roughness_mm");
  assert.ok(await rough(), "the roughness found is in the job");
  await page.keyboard.press("Control+z");
  await page.waitForFunction((job) => fetch(`/api/jobs/${job}/file`).then((r) => r.text()).then((t) => !t.includes("roughness_mm")), id);
  assert.ok(!(await rough()), "undo takes it back");
  // Who proves the shop comes to it from the readings there.
  await page.goto("about:blank");
  await page.goto(`${base}#q=prove`);
  await page.getByRole("button", { name: "Set the job by what was read" }).click();
  await part.getByRole("button", { name: "Compare" }).waitFor();
  await close();
}

export const walks = {
  "the job set by its readings, and back": toTheLineAsItIs,
  "from the main parts to a first cause": byItsParts,
  "from the complaint to the faults planted": toTheFaults };
