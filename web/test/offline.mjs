// A phone that was asked to trust this computer loads the page again with the program gone.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { networkInterfaces, tmpdir } from "node:os";
import { join } from "node:path";
import { launch, open, phone, settled } from "./browser.mjs";
import { sample } from "./screens.mjs";

/** A browser that trusts one more authority, put into its store by the tool of the browser's own library (NSS). */
async function trusting(der) {
  const home = mkdtempSync(join(tmpdir(), "dropleg-phone-"));
  const store = join(home, ".pki", "nssdb");
  mkdirSync(store, { recursive: true });
  writeFileSync(join(home, "root.crt"), der);
  const certutil = (...args) => execFileSync("certutil", ["-d", `sql:${store}`, ...args]);
  certutil("-N", "--empty-password");
  certutil("-A", "-t", "C,,", "-n", "shop", "-i", join(home, "root.crt"));
  const browser = await launch({ env: { ...process.env, HOME: home } });
  return {
    browser,
    end: async () => {
      await browser.close();
      rmSync(home, { recursive: true, force: true });
    },
  };
}

async function loadedAgain({ program, subject, browser: stranger }) {
  await program.stop();
  const file = program.file("shop.json");
  copyFileSync(sample, file);
  const [here, there] = await program.startOpen("--trusted", file);
  const address = there.replace("/#", `${new URL(here).pathname}#`);
  assert.match(there, /^https:/);
  const own = Object.values(networkInterfaces()).flat().map((i) => i.address);
  assert.ok(own.includes(new URL(there).hostname.replace(/[[\]]/g, "")), `${there} is none of ${own}`);

  // Who does not trust it is warned by the browser, and comes no further.
  const warned = await stranger.newPage();
  await assert.rejects(warned.goto(address), /ERR_CERT_AUTHORITY_INVALID/);
  await warned.context().close();

  const root = await fetch(`${program.base}/certificate.crt`);
  const { browser, end } = await trusting(Buffer.from(await root.arrayBuffer()));
  let gone = false;
  const { page, close } = await open({ browser, subject }, address, { viewport: phone, may: () => gone, base: there });
  await settled(page);
  const title = await page.locator(".head h1").innerText();
  assert.ok(await page.evaluate(() => navigator.serviceWorker.controller !== null), "nothing keeps the page");
  assert.equal(new URL(page.url()).hash.includes("token"), false);

  gone = true;
  await program.stop();
  await page.reload();
  await page.waitForSelector(".drawing .thing", { state: "attached" });
  assert.equal(await page.locator(".head h1").innerText(), title);
  await page.waitForFunction((words) => document.querySelector(".notice")?.textContent.includes(words), "The program does not answer");

  // The phone was let in once: it needs no code after a start of the program.
  await program.startOpen("--trusted", file);
  await page.reload();
  await settled(page);
  assert.equal(await page.locator(".notice").innerText(), "");
  await close();
  await end();
}

export const walks = { "loaded again with the program gone, where it is trusted": loadedAgain };
