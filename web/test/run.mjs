// The page walked through in a real browser, with the built program behind it:
//
//   node test/run.mjs PROGRAM [SUBJECT …]
//
// Each subject is a file beside this one; its walks run one after the other on a store of their own. Two subjects
// run at a time. A walk that fails leaves a picture in test-results. Any fault ends with status 1.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { launch, opened } from "./browser.mjs";
import { Program } from "./program.mjs";

/** The longest first, so that none is waited for at the end. measure runs only when it is named. */
const subjects = ["wide", "narrow", "draw", "look", "edit", "people", "days", "start", "offline", "propose", "extend", "entries", "work", "site", "quote", "prices", "weak"];

const results = join(import.meta.dirname, "..", "test-results");

const [binary, ...named] = process.argv.slice(2);
const browser = await launch();
const waiting = named.length > 0 ? [...named] : [...subjects];
const alone = waiting.includes("measure");
let failed = 0;

async function keepPictures(subject, name) {
  mkdirSync(results, { recursive: true });
  let n = 0;
  for (const page of opened(subject)) {
    const file = join(results, `${subject} ${name.replaceAll(/[^a-z0-9]+/gi, " ")} ${++n}.png`);
    await page.screenshot({ path: file, timeout: 10_000 }).catch(() => {});
    await page
      .context()
      .close()
      .catch(() => {});
  }
}

async function walk(subject) {
  const { walks } = await import(`./${subject}.mjs`);
  const program = new Program(binary);
  try {
    for (const [name, step] of Object.entries(walks)) {
      const begun = performance.now();
      try {
        await program.begin();
        await step({ browser, program, subject });
        process.stdout.write(`ok      ${((performance.now() - begun) / 1000).toFixed(1)} s  ${subject}: ${name}\n`);
      } catch (e) {
        failed++;
        process.stdout.write(`FAILED  ${subject}: ${name}\n  ${e.stack}\n`);
        await keepPictures(subject, name);
      }
    }
  } catch (e) {
    failed++;
    process.stdout.write(`FAILED  ${subject}\n  ${e.stack}\n`);
  } finally {
    await program.end();
  }
}

async function worker() {
  for (let next = waiting.shift(); next; next = waiting.shift()) await walk(next);
}

await Promise.all(alone ? [worker()] : [worker(), worker()]);
await browser.close();
process.exit(failed === 0 ? 0 : 1);
