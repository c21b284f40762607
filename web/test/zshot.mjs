import { launch, open, phone, settled, wide } from "./browser.mjs";
import { Program } from "./program.mjs";
const p = new Program(process.argv[2]);
const url = await p.start("--example", "boat-shop");
const browser = await launch();
for (const q of process.argv.slice(3)) for (const [name, viewport, scheme] of [["w", wide, "light"], ["p", phone, "dark"]]) {
  const { page, close } = await open({ browser, subject: "z" }, url + "#" + q, { viewport, colorScheme: scheme, may: (t) => { console.log("FAULT", q, t); return true; } });
  await settled(page).catch(e => console.log("not settled", String(e).slice(0, 100)));
  await page.waitForTimeout(3000); await page.locator(".panel h2").first().scrollIntoViewIfNeeded(); if (name === "p") await page.evaluate(() => scrollBy(0, 420));
  await page.screenshot({ path: `/tmp/z-${q.replaceAll(/[^a-z]+/g, "-")}-${name}.png`, fullPage: false });
  await close().catch(e => console.log(String(e).slice(0, 300)));
}
await browser.close(); await p.end();
