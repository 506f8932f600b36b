// The two pictures of docs/page.md, of the page as it looks now: node page/tests/pictures.mjs, after make-page.
import { writeFileSync } from "node:fs";
import path from "node:path";
import { Browser } from "./chromium.mjs";

const root = path.resolve(import.meta.dirname, "../..");
const browser = await Browser.start();
const idle = "document.getElementById('status').getAttribute('aria-busy') !== 'true'";
const picture = async (name, height) => {
  const { data } = await browser.page("Page.captureScreenshot", { clip: { x: 0, y: 0, width: 900, height, scale: 1 }, captureBeyondViewport: true });
  writeFileSync(path.join(root, "docs", name), Buffer.from(data, "base64"));
};
await browser.look({ width: 900, height: 900 });
await browser.goto(path.join(root, "target/page/parings.html"));
await browser.value("[...document.querySelectorAll('#samples button')][0].click()");
await browser.until("document.querySelectorAll('#dishes-table tbody tr').length === 7");
await browser.until(idle);
await picture("page.dishes.png", Math.ceil(await browser.value("document.querySelector('#dishes').getBoundingClientRect().bottom + window.scrollY")));
await browser.value("document.querySelector('[data-view=try]').click()");
await browser.until("document.getElementById('credit-total').textContent !== ''");
await browser.until(idle);
await browser.value("(() => { const slider = document.getElementById('credit'); slider.value = 60; slider.dispatchEvent(new Event('input')); document.activeElement.blur(); })()");
await browser.value("document.querySelector('#try > article:nth-of-type(1)').scrollIntoView()");
const bottom = await browser.value("document.querySelector('#try > article:nth-of-type(2)').getBoundingClientRect().top + window.scrollY");
await picture("page.credit.png", Math.ceil(bottom));
await browser.stop();
