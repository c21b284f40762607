// Pictures of every screen: node test/screenshots.mjs PROGRAM FOLDER. Two sizes, two lights; names tell which.
import { mkdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { launch, open, phone, wide } from "./browser.mjs";
import { Program } from "./program.mjs";
import { furnish, sample, screens } from "./screens.mjs";

const [binary, folder] = process.argv.slice(2);
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
const browser = await launch();
const program = new Program(binary);
let failed = 0;
try {
  await program.start();
  const jobs = await furnish(program, readFileSync(sample, "utf8"));
  await Promise.all(
    [
      ["1440x900", wide],
      ["390x844", phone],
    ].map(async ([size, viewport]) => {
      const at = { browser, subject: size };
      const touch = viewport === phone ? { hasTouch: true, deviceScaleFactor: 2 } : {};
      const { page, context } = await open(at, "about:blank", { viewport, base: jobs.base, ...touch });
      for (const [n, s] of screens.entries()) {
        const name = `${String(n + 1).padStart(2, "0")} ${s.name.replaceAll(/[^a-z0-9-]+/gi, " ")}`;
        try {
          await page.goto("about:blank");
          await page.goto(s.where(jobs));
          await s.ready(page, jobs);
          for (const colorScheme of ["light", "dark"]) {
            await page.emulateMedia({ colorScheme });
            const path = join(folder, `${name} ${size} ${colorScheme}.png`);
            await page.screenshot({ path, fullPage: viewport === phone });
          }
        } catch (e) {
          failed++;
          process.stderr.write(`${s.name}, ${size}: ${e.message}\n`);
        }
      }
      await context.close();
    }),
  );
} finally {
  await browser.close();
  await program.end();
}
process.exit(failed === 0 ? 0 : 1);
