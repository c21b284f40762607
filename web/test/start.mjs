// The start page: five answers to a plan, examples, files, the list of jobs.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { accessible, open, settled } from "./browser.mjs";
import { sample } from "./screens.mjs";

async function fiveAnswers(at) {
  const { program } = at;
  const { page, close } = await open(at, program.base);
  await page.getByRole("button", { name: "Answer the five questions" }).click();
  await page.getByLabel("What is it called?").fill("Quay Lane signs");
  await page.getByLabel("Width, west to east").fill("30 ft");
  await page.getByLabel("Depth, south to north").fill("7 m");
  const next = async () => {
    const at = await page.locator(".five-step.open .five-n").innerText();
    await page.locator(".five-form button[type=submit]:visible").click();
    await page.waitForFunction((n) => document.querySelector(".five-step.open .five-n")?.textContent !== n, at);
  };
  await next();
  await next();
  await page.locator(".tool-row", { hasText: /sander/i }).first().getByRole("button", { name: /one more/ }).click();
  await page.locator(".tool-row", { hasText: /blow/i }).first().getByRole("button", { name: /one more/ }).click();
  await next();
  await next();
  await page.getByRole("button", { name: "Draw the plan" }).click();
  await page.waitForSelector(".done h1", { timeout: 120_000 });
  await accessible(page, "the plan is drawn");
  assert.ok((await page.locator(".assumed li").count()) > 0, "what was assumed is said");
  assert.match(await page.locator("main").innerText(), /of line and \d+ fittings/);
  // An assumption is said otherwise: the plan is drawn anew, and takes the place of the first.
  const first = await page.locator(".done-go a").getAttribute("href");
  await page.locator(".assumed li", { hasText: /has a hose of/ }).getByRole("button").click();
  await page.getByLabel("Hoses of").fill("4 m");
  await page.getByRole("button", { name: "Draw the plan" }).click();
  await page.waitForSelector(".done h1", { timeout: 120_000 });
  assert.ok(!(await page.locator(".assumed").allInnerTexts()).some((t) => /has a hose of/.test(t)), "said, not assumed");
  assert.notEqual(await page.locator(".done-go a").getAttribute("href"), first);
  await page.getByRole("link", { name: "Open the drawing" }).click();
  await settled(page);
  await page.waitForFunction(
    () => !/Cannot tell|Working/.test(document.querySelector(".strip .asked .answer")?.textContent ?? "Working"),
  );
  assert.match(await page.locator(".head h1").innerText(), /Quay Lane signs/);
  const job = await program.document(page.url().match(/\/job\/([^#?]*)/)[1]);
  assert.ok(job.outlets.length >= 2, `${job.outlets.length} outlets`);
  assert.ok(job.outlets.every((o) => o.hose.length_m === 4), "hoses as said");
  for (const word of [/sander/i, /blow/i]) assert.ok(job.tools.some((t) => word.test(t.name)), `${word}`);
  await close();
}

async function jobsKept(at) {
  const { program } = at;
  const { page, close } = await open(at, program.base);
  await page.locator(".card-open", { hasText: "Skerry Row" }).click();
  await page.waitForURL(/\/job\//);
  await settled(page);
  const id = page.url().match(/\/job\/([^#?]*)/)[1];
  await page.locator(".home").click();
  const card = page.locator(".card", { has: page.locator(`a[href="/job/${id}"]`) });
  await card.waitFor();
  await card.getByRole("button", { name: /^Copy/ }).click();
  await page.locator(".card a", { hasText: /copy/i }).first().waitFor();
  await card.getByRole("button", { name: /To the bin/ }).click();
  await card.waitFor({ state: "detached" });
  await page.getByRole("button", { name: "Take back" }).first().click();
  await card.waitFor();
  await accessible(page, "the list of jobs");
  // Each picture of the list comes from the program and can be seen.
  const seen = await page.locator(".thumb img").evaluateAll(async (all) => {
    for (const i of all) {
      i.loading = "eager";
      await i.decode().catch(() => {});
    }
    return all.filter((i) => i.naturalWidth === 0).map((i) => i.src);
  });
  assert.deepEqual(seen, [], "pictures that do not load");
  await close();
}

async function files(at) {
  const { program } = at;
  const text = readFileSync(sample, "utf8");
  const may = (words) => /status of 4(00|22)/.test(words);
  const { page, close } = await open(at, program.base, { may });
  await page.waitForSelector(".ways");
  const input = page.locator("input[type=file][accept*='.json']");
  const bad = text.replace('"title"', '"titel"').replace('"units"', '"unitz"');
  await input.setInputFiles({ name: "bad.json", mimeType: "application/json", buffer: Buffer.from(bad) });
  await page.waitForSelector(".problems li");
  const told = await page.locator(".problems").innerText();
  for (const word of ["titel", "title", "unitz", "units"]) assert.ok(told.includes(word), `${word} in: ${told}`);
  await accessible(page, "a file that cannot be read");
  await input.setInputFiles({ name: "joinery.json", mimeType: "application/json", buffer: Buffer.from(text) });
  await page.waitForURL(/\/job\//);
  await settled(page);
  const id = page.url().match(/\/job\/([^#?]*)/)[1];
  // Out again without loss: what the command writes of the file is what the store gives back.
  const again = await program.job(JSON.stringify(await program.document(id)));
  assert.deepEqual(await program.document(again), await program.document(id));
  await close();
}

/** A file that is followed: saved with a fault in it, the page says all that is wrong and shows what stood before. */
async function followed(at) {
  const { program } = at;
  const { writeFileSync } = await import("node:fs");
  const file = program.file("shop.json");
  const text = readFileSync(sample, "utf8");
  writeFileSync(file, text);
  await program.stop();
  const address = await program.start(file);
  const { page, close } = await open(at, address);
  await settled(page);
  writeFileSync(file, text.replace('"units"', '"unitz"'));
  await page.waitForSelector(".problems .nearest");
  assert.match(await page.locator(".problems").innerText(), /units/);
  assert.match(await page.locator(".notice").innerText(), /last version that could/);
  await accessible(page, "a file that cannot be read any more");
  writeFileSync(file, text.replace("Alder Lane joinery", "Alder Lane joinery, saved"));
  await page.waitForFunction(() => /saved/.test(document.querySelector(".head h1")?.textContent ?? ""));
  await page.waitForSelector(".problems", { state: "detached" });
  await close();
}

export const walks = {
  "five answers, a plan": fiveAnswers,
  "an example, and the list of jobs": jobsKept,
  "a job file is brought in, and one that cannot be read": files,
  "a file is followed": followed,
};
