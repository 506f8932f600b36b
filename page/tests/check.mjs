// The page as people use it, in Chromium without a window, from disk and with the network off:
//   node page/tests/check.mjs [FOLDER FOR PICTURES]
// It needs target/page/parings.html (cargo run --example make-page), target/debug/parings (cargo build) and Chromium
// (Debian's package, or CHROMIUM names it). With AXE naming axe.min.js of axe-core, accessibility is checked as well; with ONLY
// naming parts (same, keys, trying, prices, limits, large, looks), only these.
import { existsSync, mkdirSync, readFileSync, statSync } from "node:fs";
import { Browser, chromium } from "./chromium.mjs";
import { keys } from "./keys.mjs";
import { large } from "./large.mjs";
import { limits } from "./limits.mjs";
import { looks } from "./looks.mjs";
import { prices } from "./prices.mjs";
import { same } from "./same.mjs";
import { Steps, check, equal, failed, page, program } from "./steps.mjs";
import { trying } from "./trying.mjs";

const pictures = process.argv[2];
if (pictures) mkdirSync(pictures, { recursive: true });

if (!chromium()) {
  console.log("NOT CHECKED: there is no Chromium here (on Debian: apt-get install chromium)");
  process.exit(process.env.PARINGS_LONG === "1" ? 1 : 0);
}
for (const needed of [page, program]) {
  if (existsSync(needed)) continue;
  console.error(`${needed} is not there: cargo build && cargo run --example make-page`);
  process.exit(2);
}

const browser = await Browser.start();
const steps = new Steps(browser);
const axe = process.env.AXE && readFileSync(process.env.AXE, "utf8");

await check("opens from disk, offline", async () => {
  const began = Date.now();
  await steps.fresh();
  return `ready after ${Date.now() - began} ms, ${(statSync(page).size / 1e6).toFixed(2)} MB`;
});
// Trying and prices go on with the book that is open after the keys.
const parts = { same, keys, trying, prices, limits, large, looks: () => looks(steps, axe, pictures) };
const only = process.env.ONLY?.split(/[ ,]+/);
for (const [name, part] of Object.entries(parts)) if (!only || only.includes(name)) await part(steps);

await check("nothing was complained of", () => {
  const known = /Content Security Policy|example\.org|RuntimeError|unreachable/;
  equal(browser.messages.filter((one) => !known.test(one)), [], "messages");
});

await browser.stop();
console.log(failed ? `${failed} checks fail` : axe ? "all good" : "all good; accessibility was not checked (AXE names no axe.min.js)");
process.exit(failed ? 1 : 0);
