// Edits on a job that stands: dragged, kept across restarts and while the program is away, the same by page and command.
import assert from "node:assert/strict";
import { accessible, open, phone, settled } from "./browser.mjs";
import { drag, inOneStep, middleOf, stepped, takeUp, undo } from "./hand.mjs";

const example = (program) => program.job({ from: "example", example: "boat-shop" });

/** The figure of each outlet as the list beside the drawing has it. */
const figures = (page) =>
  page.locator(".outlets li").evaluateAll((rows) =>
    Object.fromEntries(
      rows.map((r) => [
        r.querySelector(".outlet-mark").textContent,
        r.querySelector(".outlet-figure").textContent,
      ]),
    ),
  );

async function dragged(at) {
  const { program } = at;
  const id = await example(program);
  const { page, close } = await open(at, `${program.base}/job/${id}#q=pressure&units=metric`);
  await settled(page);
  await page.waitForSelector(".outlets li");
  const before = await figures(page);
  const [x, y] = await middleOf(page, "outlet.far-bench");
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x - 60, y, { steps: 6 });
  assert.ok((await page.locator(".over .ghost").count()) > 0, "the line to come is drawn");
  await inOneStep(page, () => page.mouse.up());
  await stepped(page, /moved/);
  // The figures are those of the program for the job as it is now.
  await page.locator(".panel .back").click();
  const { outlets } = await program.ask(`/api/jobs/${id}/outlets?units=metric`);
  await page.waitForFunction((n) => document.querySelectorAll(".outlets li").length === n, outlets.length);
  const now = await figures(page);
  for (const o of outlets) assert.equal(now[o.mark], o.figure, o.name);
  assert.equal(Object.keys(now).length, Object.keys(before).length);
  // The way to it is worked out anew too, and again when the drag is taken back.
  await page.locator(".outlets button", { hasText: "Far bench" }).click();
  await page.waitForSelector(".way .chart .risers", { state: "attached" });
  await openElements(page);
  const way = await page.locator("section.way").innerText();
  await undo(page);
  await page.waitForFunction((was) => document.querySelector("section.way")?.innerText !== was, way);
  await close();
}

/** Every element on the way lies open, with its length. */
const openElements = (page) =>
  page.evaluate(() => {
    for (const d of document.querySelectorAll(".way details")) d.open = true;
  });

async function undoAcrossRestart(at) {
  const { program } = at;
  const id = await example(program);
  const before = await program.document(id);
  const may = (text) => /Failed to load resource|ERR_CONNECTION_REFUSED|ERR_INCOMPLETE_CHUNKED|ERR_EMPTY_RESPONSE/.test(text);
  const { page, close } = await open(at, `${program.base}/job/${id}#q=pressure`, { may });
  await settled(page);
  await inOneStep(page, () => drag(page, "outlet.far-bench", -40, 0));
  await inOneStep(page, () => drag(page, "outlet.saw", 0, -30));
  await program.stop();
  await program.start();
  // Once on the page that stayed open, once on one that was loaded again.
  await page.waitForFunction(() => !/does not answer/.test(document.querySelector(".notice")?.textContent ?? ""));
  await undo(page);
  await page.reload();
  await settled(page);
  await undo(page);
  assert.deepEqual(await program.document(id), before);
  await inOneStep(page, () => page.keyboard.press("Control+Shift+Z"));
  await close();
}

async function offline(at) {
  const { program } = at;
  const id = await example(program);
  const may = (text) => /Failed to load resource|ERR_CONNECTION_REFUSED|ERR_INCOMPLETE_CHUNKED|ERR_EMPTY_RESPONSE/.test(text);
  const { page, close } = await open(at, `${program.base}/job/${id}#q=pressure`, { may });
  await settled(page);
  await program.stop("SIGKILL");
  await page.waitForFunction(() => /does not answer/.test(document.querySelector(".notice")?.textContent ?? ""));
  await drag(page, "outlet.far-bench", -40, 0);
  await page.waitForFunction(() =>
    /One step waits to be sent/.test(document.querySelector(".notice")?.textContent ?? ""),
  );
  await drag(page, "outlet.saw", 0, -30);
  await page.waitForFunction(() =>
    /2 steps wait to be sent/.test(document.querySelector(".notice")?.textContent ?? ""),
  );
  await accessible(page, "while the program is away");
  await program.start();
  await page.waitForFunction(() => (document.querySelector(".notice")?.textContent ?? "") === "");
  const { steps } = await program.ask(`/api/jobs/${id}/history`);
  assert.deepEqual(steps.map((s) => s.kind), ["edit", "edit"], "each step was made once");
  assert.match(steps[1].words, /Far bench/i, "in the order they were done");
  await close();
}

/** The program takes a step, and its answer is lost on the way: sent again, it is not made again. */
async function lost(at) {
  const { program } = at;
  const id = await example(program);
  const { page, close } = await open(at, `${program.base}/job/${id}`, { may: (text) => /ERR_FAILED/.test(text) });
  await settled(page);
  let dropped = 0;
  await page.route(/\/(steps|undo)(\?|$)/, async (route) => {
    const answer = await route.fetch();
    if (dropped++ % 2 === 0) await route.abort();
    else await route.fulfill({ response: answer });
  });
  const sent = async (times) => {
    for (let i = 0; i < 100 && dropped < times; i++) await page.waitForTimeout(100);
    assert.equal(dropped, times);
  };
  await drag(page, "outlet.far-bench", -40, 0);
  await sent(2);
  await stepped(page, /moved/);
  await page.locator(".steps-back .step").first().click();
  await sent(4);
  const { steps } = await program.ask(`/api/jobs/${id}/history`);
  assert.deepEqual(steps.map((s) => s.kind), ["undo", "edit"], "each was made once");
  await close();
}

/** The figure in the words of the page: whole psi. */
const psi = (pa) => Math.round(pa / 6894.757);

async function sameByCommand(at) {
  const { program } = at;
  for (const name of ["boat-shop", "frame-garage", "ring-main", "ailing"]) {
    const id = await program.job({ from: "example", example: name });
    // Changed once, so that the page's answer comes from what stood before.
    const [{ id: outlet }] = (await program.document(id)).outlets;
    await program.step(id, { do: "drag", ids: [outlet], by_m: [0.1, 0, 0] }).catch(() => {});
    const { page, close } = await open(at, `${program.base}/job/${id}#q=pressure&units=us`);
    await settled(page);
    const { set } = JSON.parse(await program.command("flow", id, "--json"));
    const { findings } = JSON.parse(await program.command("check", id, "--json", "--units", "us"));
    await page.waitForSelector(".finding");
    await page.locator(".findings-head label, .section label", { hasText: /^all/ }).first().click();
    const shown = await page.locator(".findings .finding").evaluateAll((all) => all.map((f) => f.textContent));
    for (const f of findings)
      assert.ok(shown.some((text) => text.includes(f.title)), `${name}: the page has not "${f.title}"`);
    // The tool that the set is the worst for; of a set that was stated, the one with least to spare.
    const [least] = set.cut_in.tools.filter((t) => t.known).sort((a, b) => a.margin_Pa - b.margin_Pa);
    const worst = set.cut_in.tools.find((t) => t.outlet === set.at) ?? least;
    await page.evaluate((o) => {
      location.hash = `q=pressure&units=us&at=${o}`;
    }, worst.outlet);
    await page.waitForSelector(".way .big");
    const big = await page.locator(".way .big").first().innerText();
    assert.equal(Number.parseInt(big, 10), psi(worst.pressure_Pa_g), `${name}: ${big} at ${worst.outlet}`);
    await close();
  }
}

async function printed(at) {
  const { program } = at;
  const id = await example(program);
  const { page, close } = await open(at, `${program.base}/job/${id}#q=pressure&panel=history`);
  await settled(page);
  await page.waitForSelector(".first-hint");
  await takeUp(page, "Line");
  await page.emulateMedia({ media: "print" });
  const seen = await page.evaluate(() => {
    const out = [];
    for (const e of document.querySelectorAll("#root *")) {
      if (e.closest("svg") || e.childElementCount > 0) continue;
      if (e.checkVisibility({ visibilityProperty: true }) && e.getBoundingClientRect().width > 1) {
        const at = e.closest(".print-title, .legend, .drawing");
        if (!at) out.push(e.outerHTML.slice(0, 120));
      }
    }
    return out;
  });
  assert.deepEqual(seen, [], "nothing but title, drawing and how to read it");
  assert.ok(await page.locator(".print-title").isVisible());
  assert.ok(await page.locator(".drawing").isVisible());
  assert.equal(await page.locator(".drawing .over").isVisible(), false);
  const box = await page.locator(".drawing").boundingBox();
  assert.ok(box.width > 300 && box.height > 200, `the drawing is ${box.width} by ${box.height}`);
  await close();
}

/** After a click elsewhere the keys are the tool's again as soon as the mouse is over the drawing. */
async function typedAfterAClick(at) {
  const { program } = at;
  const id = await example(program);
  const { page, close } = await open(at, `${program.base}/job/${id}#q=pressure&units=metric`);
  await settled(page);
  const [x, y] = await middleOf(page, "outlet.far-bench");
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x - 40, y, { steps: 4 });
  await inOneStep(page, () => page.mouse.up());
  await takeUp(page, "Measure");
  await inOneStep(page, () => page.locator(".steps-back .step").first().click());
  const box = await page.locator(".drawing").boundingBox();
  await page.mouse.move(box.x + box.width * 0.4, box.y + box.height * 0.5, { steps: 3 });
  await page.keyboard.press("Enter"); // sets the first place; it must not undo once more
  await page.mouse.move(box.x + box.width * 0.5, box.y + box.height * 0.5, { steps: 3 });
  await page.keyboard.type("2.5");
  await page.waitForFunction(() => document.querySelector(".typed .echo")?.textContent === "2.50 m");
  assert.equal(await page.locator(".steps-back .step").first().getAttribute("title"), "");
  await close();
}

async function composed(at) {
  const { program } = at;
  const id = await example(program);
  const may = (text) => /422/.test(text);
  const { page, close } = await open(at, `${program.base}/job/${id}#q=pressure&at=outlet.far-bench`, { may });
  await settled(page);
  await page.getByRole("button", { name: "What hangs here" }).click();
  const keep = page.getByRole("button", { name: "Keep it so" });
  await page.waitForFunction(() => document.querySelector(".compose-ends .do")?.disabled, null);
  // One mark stands for one place.
  const { outlets } = await program.document(id);
  const taken = outlets.find((o) => o.id !== "outlet.far-bench").mark;
  await page.getByLabel("Mark").fill(taken);
  await keep.click();
  await page.getByText(`has the mark ${taken} already`).first().waitFor();
  await page.getByLabel("Mark").fill("Q");
  await inOneStep(page, () => keep.click());
  await page.waitForFunction(() => document.querySelector(".compose-ends .do")?.disabled, null);
  // A new tool is called as names begin.
  await page.locator(".compose .new-tool select").first().selectOption("long-board-sander");
  await inOneStep(page, () => page.getByRole("button", { name: "Add the tool" }).click());
  await page.locator(".compose .tick", { hasText: "Long-board sander 2" }).waitFor();
  await close();
}

async function under(at) {
  const { program } = at;
  const id = await example(program);
  const { page, close } = await open(at, `${program.base}/job/${id}#q=buy`, { viewport: phone, hasTouch: true });
  await settled(page);
  await page.waitForSelector(".strip .asked");
  const top = async () => (await page.locator(".panel").boundingBox()).y;
  assert.ok((await top()) > phone.height, "the answer's list lies under the drawing");
  await page.getByRole("button", { name: "What stands behind it: under the drawing" }).click();
  await page.waitForFunction(() => document.querySelector(".panel").getBoundingClientRect().top < innerHeight / 2);
  // Where the list comes before the drawing there is nothing to be led to.
  await page.goto(`${program.base}/job/${id}#q=build`);
  await page.reload();
  await page.waitForSelector(".strip .asked");
  await page.waitForSelector(".page.at-work");
  assert.equal(await page.locator(".strip .below").isVisible(), false);
  await close();
}

export const walks = {
  "one mark for one outlet; what is kept rests": composed,
  "on a phone an answer leads to what stands under the drawing": under,
  "after a click on Undo a length is typed where the mouse points": typedAfterAClick,
  "a drag gives new pressures, the way changes": dragged,
  "undo goes on after the program was started again": undoAcrossRestart,
  "while the program is away steps wait, and are sent after": offline,
  "an answer lost on the way makes no step twice": lost,
  "the same figures by page and by command": sameByCommand,
  "printed, the drawing stands alone": printed,
};
