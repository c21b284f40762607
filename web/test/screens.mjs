// Every screen of the page, as a list: looked at for barriers by wide.mjs and narrow.mjs, made pictures of by
// screenshots.mjs.
import { settled } from "./browser.mjs";
import { takeUp } from "./hand.mjs";

const joinery = "outlet.d";

/** A screen of the start page: where it is in the address, and what is done there first. */
const begin = (name, hash, prepare = async () => {}) => ({
  name,
  where: (jobs) => `${jobs.base}/${hash}`,
  async ready(page, jobs) {
    await page.waitForSelector(hash === "" ? ".ways" : ".five");
    await prepare(page, jobs);
  },
});

/** A screen of a job. again: its drawing is that of another screen, so what is round it is looked at. */
const on = (name, hash, prepare = async () => {}, again = false) => ({
  name,
  again,
  where: (jobs) => `${jobs.base}/job/${jobs.shop}#${hash.replace("PLAN", jobs.plan)}`,
  async ready(page, jobs) {
    await settled(page);
    await page.waitForSelector(".panel h2, .panel .section, .panel p");
    await prepare(page, jobs);
  },
});

/** What a question lists stands there: it is worked out after the page. */
const listed = (page) => page.waitForSelector(".panel .days h3");

/** The n-th of the five questions lies open, with something to look at in it. */
const question = (n, prepare = async () => {}) =>
  begin(`five questions, ${n}`, "#five", async (page) => {
    const head = page.locator(".five-head").nth(n - 1);
    if ((await head.getAttribute("aria-expanded")) !== "true") await head.click();
    await page.waitForSelector(".five-form");
    await prepare(page);
  });

const openAll = (page, selector) =>
  page.evaluate((s) => {
    for (const d of document.querySelectorAll(s)) d.open = true;
  }, selector);

const startScreens = [
  begin("start page", ""),
  question(1, (page) => page.locator(".five-form label", { hasText: "L-shaped" }).click()),
  question(2, (page) => page.locator(".five-form label", { hasText: "nameplate" }).click()),
  question(3, (page) => openAll(page, ".five-form details")),
  question(4, (page) => page.locator(".five-form label", { hasText: "Where I say" }).click()),
  question(5),
  begin("an installation that stands", "#standing"),
  begin("an empty room", "#empty"),
  begin("the main parts of what nobody drew", "#parts"),
];

const tool = (words) =>
  on(`tool ${words.toLowerCase()}`, "q=pressure", async (page) => {
    await takeUp(page, words);
    await page.waitForFunction((w) => document.querySelector(".rail .held span")?.textContent === w, words);
    await openAll(page, ".tool-options details");
    // The pointer over the drawing: cross, read-out and what is to come.
    const box = await page.locator(".drawing").boundingBox();
    await page.mouse.move(box.x + box.width * 0.4, box.y + box.height * 0.6);
  }, true);

const panelOf = (id, hash = "", prepare) => on(`panel ${id}`, `q=pressure&panel=${id}${hash}`, prepare, true);

const jobScreens = [
  on("plan, question of pressure", "q=pressure"),
  ...["air", "dry", "hold", "buy", "run"].map((q) => on(`question ${q}`, `q=${q}`, listed, true)),
  on("a quotation, and what has changed", "q=buy&against=0", (page) => page.waitForSelector(".quotation[open] .differs"), true),
  ...["build", "prove", "keep"].map((q) => on(`question ${q}`, `q=${q}`, undefined, true)),
  on("an outlet and its way", `q=pressure&at=${joinery}`, (page) => openAll(page, ".way details")),
  on("a line", "q=pressure&at=line.main-3", (page) => openAll(page, ".panel details")),
  on("walls", `q=pressure&view=elevation&at=${joinery}`),
  on("in space", `q=pressure&view=isometric&at=${joinery}`),
  on("diagram", `q=pressure&view=diagram&at=${joinery}`),
  on("US units", "q=pressure&units=us"),
  panelOf("inspect", `&at=${joinery}`),
  panelOf("job"),
  on("panel lay it out", "q=pressure&panel=propose", undefined, true),
  panelOf("compose", `&at=${joinery}`, async (page) => {
    // The composer goes on with what is chosen once the job is there.
    await page.waitForSelector(".compose h2");
    await openAll(page, ".compose details");
    // At its end nothing lies under the bar that stays in sight.
    await page.evaluate(() => {
      for (let e = document.querySelector(".compose"); e; e = e.parentElement) e.scrollTop = e.scrollHeight;
    });
  }),
  panelOf("building", "", (page) => openAll(page, ".panel details")),
  panelOf("plant", "", (page) => page.waitForSelector(".shelf li")),
  panelOf("history", "", async (page) => {
    await page.locator(".step-row:not(:disabled)").first().click();
    await page.waitForSelector(".history .looked");
  }),
  panelOf("alternatives", "", async (page) => {
    await page.waitForSelector(".compare table");
    await page.locator(".plan-acts button").nth(1).click();
  }),
  on("in an alternative", "q=pressure&plan=PLAN"),
  panelOf("reading"),
  on("panel find a fault", "q=pressure&panel=weak", (page) => page.waitForSelector(".weak .next-card"), true),
  on("panel add to it", "q=pressure&panel=extend", undefined, true),
  panelOf("sheets", "", (page) => page.waitForSelector(".sheet-leaf img")),
  panelOf("share", "", (page) => page.waitForSelector(".share, .panel h2")),
  panelOf("help"),
  on("a length being typed", "q=pressure", async (page) => {
    await takeUp(page, "Measure");
    await page.waitForSelector(".cursor-pad");
    await page.locator(".cursor-pad").focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Enter");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.type("3.2 m");
    await page.waitForFunction(() => document.querySelector(".echo")?.textContent === "3.20 m");
  }),
  on("a step refused", "q=pressure", async (page) => {
    await takeUp(page, "Drop leg");
    const box = await page.locator(".drawing").boundingBox();
    await page.mouse.click(box.x + box.width * 0.45, box.y + box.height * 0.45);
    await page.waitForSelector(".wrong strong");
  }),
  ...[
    "Choose", "Measure", "Room", "Wall", "Opening", "Obstacle", "Floor picture", "Line", "Drop leg", "Split",
    "Re-route", "Plant", "Connect",
  ].map(tool),
];

export const screens = [...startScreens, ...jobScreens];

/** What there is to look at: a job that was changed and has an alternative; gives where they are. */
export async function furnish(program, text) {
  const shop = await program.job(text);
  await program.step(shop, { do: "drag", ids: ["outlet.d"], by_m: [-0.3, 0, 0] }, "Ines");
  await program.step(shop, { do: "drag", ids: ["outlet.a"], by_m: [0.2, 0, 0] }, "Tove");
  const put = { do: "put", what: "plan", thing: { name: "wider main", edits: [] } };
  const [plan] = (await program.step(shop, put)).made;
  const wider = { edit: "set", id: "line.main-3", key: "size", value: "1-1/4" };
  await program.step(shop, { edit: "within", plan, step: wider });
  return { base: program.base, shop, plan };
}

/** A joinery with a bit of everything: the shop of the tests of package screen. */
export const sample = new URL("../../internal/show/screen/testdata/joinery.json", import.meta.url);
