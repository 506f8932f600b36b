// Steps that a check is made of: a page is opened, keys are pressed, files come and go, and what is found is compared.
import { existsSync, readFileSync, readdirSync, statSync, writeFileSync } from "node:fs";
import path from "node:path";

export const root = path.resolve(import.meta.dirname, "../..");
export const page = path.join(root, "target/page/parings.html");
export const program = path.join(root, "target/debug/parings");
export const sample = path.join(root, "sample-books/teaching-kitchen.xlsx");
export const list = path.join(root, "sample-books/teaching-kitchen-fernhollow.csv");

export let failed = 0;
/** Runs one check under its name. */
export async function check(name, act) {
  const began = Date.now();
  try {
    const said = await act();
    console.log(`ok    ${name}${said ? `: ${said}` : ""} (${Date.now() - began} ms)`);
  } catch (fault) {
    failed += 1;
    console.log(`FAILS ${name}: ${fault.message}`);
  }
}

export function equal(found, wanted, what) {
  if (JSON.stringify(found) !== JSON.stringify(wanted)) {
    throw new Error(`${what}: ${JSON.stringify(found)?.slice(0, 300)} is not ${JSON.stringify(wanted)?.slice(0, 300)}`);
  }
}

/** What a zip holds: names with the checksums of what is in them. */
export function checksums(zip) {
  const held = {};
  let at = zip.readUInt32LE(zip.lastIndexOf("PK\u0005\u0006", undefined, "latin1") + 16);
  while (zip.readUInt32LE(at) === 0x02014b50) {
    const [name, extra, comment] = [28, 30, 32].map((field) => zip.readUInt16LE(at + field));
    held[zip.toString("utf8", at + 46, at + 46 + name)] = zip.readUInt32LE(at + 16);
    at += 46 + name + extra + comment;
  }
  // The moment at which it was written stands here, and nothing else.
  delete held["docProps/core.xml"];
  return held;
}

const quoted = JSON.stringify;

/** What is done with the page in a browser. */
export class Steps {
  constructor(browser) {
    this.browser = browser;
  }

  value(expression) {
    return this.browser.value(expression);
  }

  until(expression, seconds) {
    return this.browser.until(expression, seconds);
  }

  text(id) {
    return this.value(`document.getElementById(${quoted(id)}).textContent`);
  }

  count(selector) {
    return this.value(`document.querySelectorAll(${quoted(selector)}).length`);
  }

  /** Waits until the page says what matches. */
  said(pattern, seconds) {
    return this.until(`${pattern}.test(document.getElementById('says').textContent)`, seconds);
  }

  view(name) {
    return this.value(`document.querySelector('nav [data-view="${name}"]').click()`);
  }

  press(within, words) {
    return this.value(`(() => {
      const found = [...document.querySelectorAll(${quoted(within)} + " button")].find((one) => one.textContent === ${quoted(words)});
      if (!found) throw new Error("no button " + ${quoted(words)});
      found.click();
    })()`);
  }

  /** Waits until nothing is being done any more. */
  quiet() {
    return this.until("document.getElementById('status').getAttribute('aria-busy') !== 'true'");
  }

  /** Another page, with nothing open. */
  fresh() {
    return this.browser.goto(page);
  }

  /** A file of the check's own. */
  written(name, content) {
    const file = path.join(this.browser.folder, name);
    writeFileSync(file, content);
    return file;
  }

  async open(files) {
    await this.value("document.getElementById('says').textContent = ''");
    await this.browser.choose("files", files);
    await this.said(files.length === 1 ? /is open|No table/ : /are open|No table/);
  }

  /** What was downloaded under a name after something was done. */
  async downloaded(name, act) {
    const folder = path.join(this.browser.folder, "downloads");
    const there = () => (existsSync(folder) ? readdirSync(folder) : [])
      .filter((one) => one.startsWith(name.replace(/\.[^.]*$/, "")) && !one.endsWith(".crdownload")).map((one) => path.join(folder, one));
    for (const one of there()) writeFileSync(one, "");
    await act();
    for (let at = 0; at < 400; at += 1) {
      const newest = there().filter((one) => statSync(one).size > 0).sort((a, b) => statSync(b).mtimeMs - statSync(a).mtimeMs)[0];
      if (newest) return readFileSync(newest);
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    throw new Error(`${name} was not downloaded; the page says: ${await this.text("says")}`);
  }

  async json(stem) {
    await this.view("home");
    return (await this.downloaded(`${stem}.costs.json`, () => this.press("#home-tables", "All figures as JSON"))).toString();
  }

  /** Presses a key, so many times. */
  async key(key, times = 1, more = {}) {
    for (let at = 0; at < times; at += 1) await this.browser.key(key, more);
  }

  async type(text) {
    for (const letter of text) await this.browser.key(letter);
  }

  /** Goes by Tab to what a selector names, and has these words if any are given. Every stop on the way must be seen to have the focus. */
  async tabTo(selector, words) {
    const stops = [];
    for (let at = 0; at < 160; at += 1) {
      const on = await this.value(`(() => {
        const on = document.activeElement;
        const { outlineStyle, outlineWidth } = getComputedStyle(on);
        const box = on.getBoundingClientRect();
        const name = on.id || on.textContent.slice(0, 40);
        return { name, arrived: on.matches(${quoted(selector)}) && ${words === undefined ? "true" : `on.textContent === ${quoted(words)}`},
          seen: on === document.body || outlineStyle === "solid" && parseFloat(outlineWidth) >= 3,
          inside: box.bottom > 0 && box.top < innerHeight };
      })()`);
      if (at > 0 && !on.seen) throw new Error(`the focus is not seen on ${on.name}`);
      if (on.arrived && !on.inside) throw new Error(`the focus is out of sight on ${on.name}`);
      if (on.arrived) return;
      stops.push(on.name);
      await this.key("Tab");
    }
    throw new Error(`Tab does not come to ${selector} ${words ?? ""}; it came to ${[...new Set(stops)].join(", ")}`);
  }

  /** Goes to a thing by Tab, and presses it. */
  async enter(selector, words) {
    await this.tabTo(selector, words);
    await this.key("Enter");
  }

  /** Goes to a drop-down by Tab, and to an entry of it by the arrow keys. */
  async pick(selector, words) {
    await this.tabTo(selector);
    const [at, wanted] = await this.value(`(() => { const list = document.activeElement;
      return [list.selectedIndex, [...list.options].findIndex((one) => one.textContent.startsWith(${quoted(words)}))]; })()`);
    if (wanted < 0) throw new Error(`${selector} has no ${words}`);
    await this.key(wanted > at ? "ArrowDown" : "ArrowUp", Math.abs(wanted - at));
    const chosen = await this.value("document.activeElement.selectedOptions[0].textContent");
    if (!chosen.startsWith(words)) throw new Error(`${selector} is at ${chosen} by arrow keys, not at ${words}`);
  }

  /** Goes to a view by its button. */
  async go(name) {
    await this.enter(`nav [data-view="${name}"]`);
    await this.quiet();
    equal(await this.value(`document.activeElement === document.querySelector("#${name} h2")`), true, `focus on the heading of ${name}`);
  }

  /** Presses a button that lets files be chosen, and chooses them. */
  async chooseBy(selector, files) {
    await this.tabTo(selector);
    await this.browser.chooser(files, () => this.key("Enter"));
  }
}
