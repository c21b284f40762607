// What a hand does on the drawing: places in the shop's metres turned into places of the window, things dragged,
// tools taken up.

/** Waits until the drawing has come to rest: an answer or a line of words more moves it. */
async function atRest(page) {
  const where = () => page.locator(".drawing").evaluate((d) => JSON.stringify([d.getBoundingClientRect(), d.querySelector("g").getAttribute("transform")]));
  let before = "";
  for (let now = await where(); now !== before; now = await where()) {
    before = now;
    await page.waitForTimeout(120);
  }
}

/** Where a place of the plan, in metres, is in the window now. The room's outline must be in sight. */
export async function onPlan(page, room, [x, y]) {
  await atRest(page);
  const box = await page.evaluate((id) => {
    const { x, y, width, height } = document.querySelector(`[data-id="${id}"] path`).getBoundingClientRect();
    return { x, y, width, height };
  }, room.id);
  const xs = room.outline_m.map((p) => p[0]);
  const ys = room.outline_m.map((p) => p[1]);
  const perMetre = box.width / (Math.max(...xs) - Math.min(...xs));
  return [
    box.x + (x - Math.min(...xs)) * perMetre,
    box.y + box.height - (y - Math.min(...ys)) * perMetre,
  ];
}

/** The middle of a thing's first shape in the window. */
export async function middleOf(page, id) {
  await atRest(page);
  const box = await page.locator(`[data-stop="${id}"]`).boundingBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
}

/** Takes up a tool by its button. */
export async function takeUp(page, words) {
  const fold = page.locator(".rail-fold");
  if (await fold.isVisible()) await fold.click();
  await page.locator(".rail-parts button").filter({ hasText: words }).first().click();
}

/** The newest step, as the page tells it at Undo. */
export const lastStep = (page) => page.locator(".steps-back .step").first().getAttribute("title");

/** Waits until the newest step is told in such words. */
export const stepped = (page, words) =>
  page.waitForFunction(
    (want) => new RegExp(want).test(document.querySelector(".steps-back .step")?.getAttribute("title") ?? ""),
    words.source,
  );

/** Does something and waits until the program has taken it as a step; gives the program's answer. */
export async function inOneStep(page, what) {
  const [answer] = await Promise.all([
    page.waitForResponse((r) => /\/(steps|undo|redo|goto|adopt)(\?|$)/.test(r.url())),
    what(),
  ]);
  if (!answer.ok()) throw new Error(`the step was not taken: ${answer.status()} ${await answer.text()}`);
  return answer.json();
}

/** Drags a thing by pixels of the window; the step is the caller's to wait for. */
export async function drag(page, id, dx, dy) {
  const [x, y] = await middleOf(page, id);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + dx, y + dy, { steps: 6 });
  await page.mouse.up();
}

/** Undo as a person does it anywhere on the page. */
export const undo = (page) => inOneStep(page, () => page.locator(".steps-back .step").first().click());

/** Presses Tab until what has the focus fits; no other way is open to the keyboard alone. */
export async function tabTo(page, selector, { back = false, most = 200 } = {}) {
  for (let i = 0; i < most; i++) {
    if (await page.evaluate((s) => document.activeElement?.matches(s) ?? false, selector)) return;
    await page.keyboard.press(back ? "Shift+Tab" : "Tab");
  }
  throw new Error(`the Tab key does not come to ${selector}`);
}

/** Presses a key as often. */
export async function press(page, key, times = 1) {
  for (let i = 0; i < times; i++) await page.keyboard.press(key);
}
