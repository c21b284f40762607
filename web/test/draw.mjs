// A shop drawn from nothing to an answer: by pointer, by keys alone, and on a phone.
import assert from "node:assert/strict";
import { open, phone, settled } from "./browser.mjs";
import { inOneStep, middleOf, onPlan, press, tabTo, takeUp, undo } from "./hand.mjs";

const jobOf = (page) => page.url().match(/\/job\/([^#?]*)/)[1];

/** The question of pressure is answered for the outlets drawn, whatever the answer is. */
async function answered(page, outlets) {
  await page.waitForFunction(
    () => !/Cannot tell|Working/.test(document.querySelector(".strip .asked .answer")?.textContent ?? "Working"),
  );
  await page.waitForFunction(
    (n) => document.querySelector(".head .facts-line")?.textContent?.includes(`${n} outlets`),
    outlets,
  );
  assert.match(await page.locator(".strip .asked .answer").innerText(), /\S/);
}

/** What was drawn is kept, and a command reads the same outlets with a pressure each. */
async function kept(program, id, outlets) {
  const job = await program.document(id);
  assert.equal(job.outlets.length, outlets);
  const { set } = JSON.parse(await program.command("flow", id, "--json"));
  const tools = set.cut_in.tools;
  assert.ok(tools.length > 0 && tools.every((t) => t.known && t.pressure_Pa_g > 0), "each tool gets a pressure");
}

async function pointerDraws(at) {
  const { program } = at;
  const { page, close } = await open(at, program.base);
  await page.getByRole("button", { name: "Make the room" }).click();
  await page.getByLabel("What is it called?").fill("Fen Row cycle repair");
  await page.locator(".start-head .segments label", { hasText: "m, bar" }).first().click();
  await page.getByLabel("Width, west to east").fill("9 m");
  await page.getByLabel("Depth, south to north").fill("6 m");
  await page.getByLabel("Height", { exact: true }).fill("3.2 m");
  await page.getByRole("button", { name: "Make the room" }).click();
  await page.waitForURL(/\/job\//);
  await settled(page);
  const id = jobOf(page);
  const [room] = (await program.document(id)).building.rooms;
  assert.deepEqual(room.outline_m, [[0, 0], [9, 0], [9, 6], [0, 6]]);
  const to = async (x, y) => page.mouse.move(...(await onPlan(page, room, [x, y])));
  const click = async (x, y) => page.mouse.click(...(await onPlan(page, room, [x, y])));

  await takeUp(page, "Plant");
  await page.locator(".shelf section[aria-label=Compressors] button", { hasText: "4 kW" }).first().click();
  const compressor = (await inOneStep(page, () => click(1, 1.5))).made[0];
  await page.locator(".shelf section[aria-label=Receivers] button").first().click();
  await page.locator(".tool-options").getByLabel("Volume").fill("200 L");
  await page.locator(".tool-options").getByLabel("Volume").press("Tab");
  const receiver = (await inOneStep(page, () => click(3.4, 1.5))).made[0];

  await takeUp(page, "Connect");
  await page.mouse.click(...(await middleOf(page, compressor)));
  await inOneStep(page, async () => page.mouse.click(...(await middleOf(page, receiver))));

  await takeUp(page, "Line");
  await page.mouse.click(...(await middleOf(page, receiver)));
  for (const [x, y] of [[3.4, 5.9], [8.9, 5.9]]) {
    await to(x, y);
    await click(x, y);
  }
  await inOneStep(page, async () => page.mouse.dblclick(...(await onPlan(page, room, [8.9, 1]))));

  await takeUp(page, "Drop leg");
  await click(5, 5.95);
  await page.locator(".compose .new-tool select").first().selectOption("impact-wrench-1/2");
  await inOneStep(page, () => page.getByRole("button", { name: "Add the tool" }).click());
  await inOneStep(page, () => page.getByRole("button", { name: "Hang it" }).click());
  await inOneStep(page, () => click(8.9, 3));
  await answered(page, 2);
  await kept(program, id, 2);
  await close();
}

async function keysDraw(at) {
  const { program } = at;
  const { page, close } = await open(at, program.base);
  await page.waitForSelector(".ways");
  // No pointer from here on.
  await page.evaluate(() => {
    for (const kind of ["pointerdown", "mousedown"])
      addEventListener(kind, () => console.error(`the walk by keys used ${kind}`), true);
  });
  const start = async (words) => {
    for (let i = 0; i < 60; i++) {
      if ((await page.evaluate(() => document.activeElement?.textContent)) === words) break;
      await page.keyboard.press("Tab");
    }
    await page.keyboard.press("Enter");
  };
  await start("Make the room");
  await tabTo(page, "#empty-title");
  await page.keyboard.type("Fen Row by keys");
  for (const figure of ["9 m", "6 m", "3.2 m"]) {
    await page.keyboard.press("Tab");
    await page.keyboard.type(figure);
  }
  await page.keyboard.press("Enter");
  await page.waitForURL(/\/job\//);
  await settled(page);
  const id = jobOf(page);

  // The receiver, then the compressor beside it, from the shelf.
  await tabTo(page, ".drawing .thing");
  await page.keyboard.press("p");
  const fromShelf = async (words) => {
    await tabTo(page, ".shelf input[type=search]");
    await page.keyboard.press("Control+a");
    await page.keyboard.type(words);
    await page.waitForTimeout(200);
    await tabTo(page, ".shelf li button");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.activeElement?.className === "cursor-pad");
  };
  await fromShelf("receiver");
  await tabTo(page, ".tool-options .figure input, .tool-options input[aria-describedby], .tool-options label:nth-of-type(2) input", { back: true });
  await page.keyboard.press("Control+a");
  await page.keyboard.type("200 L");
  await tabTo(page, ".cursor-pad");
  await press(page, "ArrowLeft", 15);
  await press(page, "ArrowDown", 15);
  const receiver = (await inOneStep(page, () => page.keyboard.press("Enter"))).made[0];
  assert.match(receiver, /receiver/);
  await fromShelf("piston");
  await press(page, "ArrowLeft", 12);
  const compressor = (await inOneStep(page, () => page.keyboard.press("Enter"))).made[0];

  await page.keyboard.press("c");
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Enter");
  await press(page, "ArrowRight", 12);
  await inOneStep(page, () => page.keyboard.press("Enter"));
  const linked = (await program.document(id)).net.runs;
  assert.ok(linked.some((r) => r.from.point === compressor) && linked.some((r) => r.to.point === receiver));

  // The main from the receiver: up, to the wall by a typed length, along it.
  await page.keyboard.press("l");
  await page.keyboard.press("Enter");
  await page.keyboard.press("u");
  await page.keyboard.press("Enter");
  const typed = async (way, length) => {
    await page.keyboard.press(way);
    await page.keyboard.type(length);
    await page.waitForSelector(".typed");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".typed", { state: "detached" });
  };
  await typed("ArrowUp", "3 m");
  await typed("ArrowRight", "4 m");
  const [main] = (
    await inOneStep(page, async () => {
      await page.keyboard.press("Enter");
      await page.keyboard.press("Enter");
    })
  ).made;
  assert.ok(main, "the line stands");

  // Drop legs from it, where the cursor is and a metre on.
  await page.keyboard.press("d");
  await press(page, "ArrowLeft", 5);
  await page.keyboard.press("Enter");
  await page.waitForSelector(".compose");
  await tabTo(page, ".compose .new-tool select");
  await press(page, "ArrowDown", 4);
  const tab = async (words) => {
    for (let i = 0; i < 60; i++) {
      if ((await page.evaluate(() => document.activeElement?.textContent)) === words) return;
      await page.keyboard.press("Tab");
    }
    throw new Error(`the Tab key does not come to "${words}"`);
  };
  await tab("Add the tool");
  await inOneStep(page, () => page.keyboard.press("Enter"));
  await tabTo(page, ".compose-ends .do");
  await inOneStep(page, () => page.keyboard.press("Enter"));
  await page.waitForFunction(() => document.activeElement?.className === "cursor-pad");
  await press(page, "ArrowLeft", 10);
  await inOneStep(page, () => page.keyboard.press("Enter"));
  await answered(page, 2);
  await kept(program, id, 2);
  await close();
}

async function phoneDraws(at) {
  const { program } = at;
  const id = await program.job({ from: "example", example: "boat-shop" });
  const { page, close } = await open(at, `${program.base}/job/${id}`, {
    viewport: phone,
    hasTouch: true,
    isMobile: true,
  });
  await settled(page);
  const before = await program.document(id);
  const [room] = before.building.rooms;
  await takeUp(page, "Wall");
  const tap = async (x, y) => page.touchscreen.tap(...(await onPlan(page, room, [x, y])));
  await page.locator(".drawing").scrollIntoViewIfNeeded();
  await tap(3, 3);
  const drawn = await inOneStep(page, () => tap(3, 5));
  assert.match(drawn.made[0], /^wall\./);

  await takeUp(page, "Choose");
  const outlet = before.outlets.find((o) => o.id === "outlet.far-bench");
  await page.locator(`[data-stop="${outlet.id}"]`).scrollIntoViewIfNeeded();
  await page.touchscreen.tap(...(await middleOf(page, outlet.id)));
  await page.waitForSelector(".way .big");
  assert.match(await page.locator(".panel h2").first().innerText(), new RegExp(outlet.name));

  await undo(page);
  const after = await program.document(id);
  assert.deepEqual(after, before);
  await close();
}

export const walks = {
  "a shop from nothing to an answer by pointer": pointerDraws,
  "a shop from nothing to an answer by keys alone": keysDraw,
  "on a phone: draw, open an outlet, undo": phoneDraws,
};
