// What is read at the plant and how often a thing is looked after, entered on the page.
import assert from "node:assert/strict";
import { accessible, open, settled } from "./browser.mjs";

const records = async (program, id, ok) => {
  for (let n = 0; n < 50; n++) {
    const list = ((await program.document(id)).records ?? []).filter((r) => r.device);
    if (ok(list)) return list;
    await new Promise((on) => setTimeout(on, 100));
  }
  throw new Error("what was written has not arrived");
};

async function plant(at) {
  const { program } = at;
  const id = await program.job({ from: "example", example: "boat-shop" });
  const { page, close } = await open(at, `${program.base}/job/${id}#q=keep`);
  await settled(page);
  const form = page.getByRole("region", { name: "Read at the plant" });
  await form.getByLabel("It shows, hours").fill("1240");
  await form.getByRole("button", { name: "Write down" }).click();
  await form.getByText("1240 h").waitFor();
  await form.getByLabel("What is read").selectOption("water");
  await form.getByLabel("Water", { exact: true }).fill("0.4 L");
  await form.getByLabel("Come together in, hours").fill("8");
  await form.getByRole("button", { name: "Write down" }).click();
  await form.getByText("of water in").waitFor();
  await form.getByLabel("What is read").selectOption("dew");
  assert.ok(await form.getByRole("button", { name: "Write down" }).isDisabled(), "nothing is written without a figure");
  await form.getByLabel("Dew point", { exact: true }).fill("3 C");
  await form.getByRole("button", { name: "Write down" }).click();
  await form.getByText(/filter.*: dew point/).waitFor();
  const list = await records(program, id, (l) => l.length === 3);
  assert.deepEqual(
    list.map((r) => r.reading),
    [{ running_h: 1240 }, { water_L: 0.4, time_s: 28800 }, { pressure_dew_point_C: 3 }],
  );
  await settled(page);
  await page.waitForFunction(() => document.querySelector("[aria-busy=true], .old, .stale") === null);
  await accessible(page, "upkeep with what is read at the plant");
  await close();
}

async function often(at) {
  const { program } = at;
  const id = await program.job({ from: "example", example: "boat-shop" });
  const { page, close } = await open(at, `${program.base}/job/${id}#q=keep`);
  await settled(page);
  const oil = page.locator(".task", { hasText: "change the oil" }).first();
  await oil.getByText("How often").click();
  await oil.getByLabel("Every so many days").fill("120");
  await oil.getByLabel("Or so many running hours").fill("250");
  await oil.getByRole("button", { name: "Keep to that" }).click();
  await oil.getByText("every 120 days or 250 running hours, as set here").waitFor();
  const { upkeep } = (await program.document(id)).rules;
  assert.deepEqual(upkeep, [{ task: "oil point.compressor", every_d: 120, every_running_h: 250 }]);
  await oil.getByText("How often").click();
  await oil.getByRole("button", { name: "As is usual" }).click();
  await oil.getByText("every year or 500 running hours").waitFor();
  assert.equal((await program.document(id)).rules?.upkeep, undefined);
  await close();
}

async function fall(at) {
  const { program } = at;
  const id = await program.job({ from: "example", example: "boat-shop" });
  const { page, close } = await open(at, `${program.base}/job/${id}#q=prove`);
  await settled(page);
  const form = page.getByRole("region", { name: "Leak by the fall of the receiver" });
  await form.getByLabel("The receiver stands at").fill("120 psi");
  await form.getByRole("button", { name: "The time runs from now" }).click();
  await page.reload();
  await settled(page);
  await form.getByLabel("It has fallen to").fill("125 psi");
  await form.getByText("above the first reading").waitFor();
  assert.ok(await form.getByRole("button", { name: "Into the records" }).isDisabled(), "a fall that rises is none");
  await form.getByLabel("It has fallen to").fill("110 psi");
  await form.getByRole("button", { name: "Into the records" }).click();
  const [r] = await records(program, id, (l) => l.length === 1);
  assert.equal(r.test.way, "bleed-down");
  assert.ok(r.test.samples[0].pressure_kPa_g > r.test.samples[1].pressure_kPa_g && r.test.samples[1].time_s >= 1);
  await page.getByText("of what the compressors deliver").first().waitFor();
  await close();
}

export const walks = {
  "hours, water and a dew point are written down": plant,
  "how often the oil is changed is the shop's to say": often,
  "the fall of the receiver is timed across a reload": fall,
};
