// The page as people use it, in Chromium without a window, from disk and with the network off:
//   node page/tests/check.mjs [FOLDER FOR PICTURES]
// It needs target/page/parings.html (cargo run --example make-page), target/debug/parings (cargo build) and Chromium
// (Debian's package, or CHROMIUM names it). With AXE naming axe.min.js of axe-core, accessibility is checked as well.
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, readdirSync, statSync, writeFileSync } from "node:fs";
import path from "node:path";
import { Browser, chromium } from "./chromium.mjs";

const root = path.resolve(import.meta.dirname, "../..");
const page = path.join(root, "target/page/parings.html");
const program = path.join(root, "target/debug/parings");
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

let failed = 0;
/** Runs one check under its name. */
async function check(name, act) {
  const began = Date.now();
  try {
    const said = await act();
    console.log(`ok    ${name}${said ? `: ${said}` : ""} (${Date.now() - began} ms)`);
  } catch (fault) {
    failed += 1;
    console.log(`FAILS ${name}: ${fault.message}`);
  }
}
function equal(found, wanted, what) {
  if (JSON.stringify(found) !== JSON.stringify(wanted)) {
    throw new Error(`${what}: ${JSON.stringify(found)?.slice(0, 300)} is not ${JSON.stringify(wanted)?.slice(0, 300)}`);
  }
}

const browser = await Browser.start();
const text = (id) => browser.value(`document.getElementById(${JSON.stringify(id)}).textContent`);
const view = (name) => browser.value(`document.querySelector('nav [data-view="${name}"]').click()`);
const press = (within, words) => browser.value(`(() => {
  const found = [...document.querySelectorAll(${JSON.stringify(within)} + " button")].find((one) => one.textContent === ${JSON.stringify(words)});
  if (!found) throw new Error("no button " + ${JSON.stringify(words)});
  found.click();
})()`);
/** Waits until nothing is being done any more. */
const quiet = () => browser.until("document.getElementById('status').getAttribute('aria-busy') !== 'true'");
/** Another page, with nothing open. */
const fresh = () => browser.goto(page);
async function open(files) {
  await browser.value("document.getElementById('says').textContent = ''");
  await browser.choose("files", files);
  const said = files.length === 1 ? "is open" : "are open";
  await browser.until(`/${said}|No table/.test(document.getElementById('says').textContent)`);
}
async function downloaded(name, act) {
  const file = path.join(browser.folder, "downloads", name);
  if (existsSync(file)) writeFileSync(file, "");
  await act();
  for (let at = 0; at < 400; at += 1) {
    const folder = path.dirname(file);
    const names = existsSync(folder) ? readdirSync(folder) : [];
    const newest = names.filter((one) => one.startsWith(name.replace(/\.[^.]*$/, "")) && !one.endsWith(".crdownload"))
      .map((one) => path.join(folder, one)).filter((one) => statSync(one).size > 0).sort((a, b) => statSync(b).mtimeMs - statSync(a).mtimeMs)[0];
    if (newest) {
      const bytes = readFileSync(newest);
      writeFileSync(newest, "");
      return bytes;
    }
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error(`${name} was not downloaded; the page says: ${await text("says")}`);
}
async function json(stem) {
  await view("home");
  return (await downloaded(`${stem}.costs.json`, () => press("#home-tables", "All figures as JSON"))).toString();
}
const sample = path.join(root, "sample-books/teaching-kitchen.xlsx");

await check("opens from disk, offline", async () => {
  const began = Date.now();
  await fresh();
  return `ready after ${Date.now() - began} ms, ${(statSync(page).size / 1e6).toFixed(2)} MB`;
});

const books = [["sample-books", "teaching-kitchen.xlsx"], ["sample-books", "metric-kitchen-prices.csv", "metric-kitchen.xlsx"],
  ["sample-books", "messy-kitchen-recipes.xlsx", "messy-kitchen-supplier.xlsx"],
  ...readdirSync(path.join(root, "tests/files")).filter((name) => /\.(xlsx|xlsm|ods|xls)$/.test(name)).map((name) => ["tests/files", name])];
for (const [folder, ...names] of books) {
  await check(`JSON is the command's: ${names.join(" and ")}`, async () => {
    await fresh();
    await open(names.map((name) => path.join(root, folder, name)));
    if (/No table/.test(await text("says"))) {
      let status = 0;
      try { execFileSync(program, ["cost", ...names, "--format", "json"], { cwd: path.join(root, folder), stdio: "ignore" }); } catch (fault) { status = fault.status; }
      equal(status, 2, "the command's status where the page finds no table");
      return "no table, for the command either";
    }
    const found = await json(names[0].replace(/\.[^.]*$/, ""));
    let wanted;
    try {
      wanted = execFileSync(program, ["cost", ...names, "--format", "json"], { cwd: path.join(root, folder), stdio: ["ignore", "pipe", "ignore"], maxBuffer: 1e9 }).toString();
    } catch (fault) {
      // Status 1: the book has errors, and was costed.
      if (fault.status !== 1) throw fault;
      wanted = fault.stdout.toString();
    }
    if (found !== wanted) throw new Error(`they differ: ${found.length} and ${wanted.length} bytes`);
    return `${found.length} bytes`;
  });
}

/** What a zip holds: names with the checksums of what is in them. */
function checksums(zip) {
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
for (const names of [["teaching-kitchen.xlsx"], ["metric-kitchen-prices.csv", "metric-kitchen.xlsx"], ["messy-kitchen-recipes.xlsx", "messy-kitchen-supplier.xlsx"]]) {
  await check(`the workbook is the command's: ${names.join(" and ")}`, async () => {
    await fresh();
    await open(names.map((name) => path.join(root, "sample-books", name)));
    await view("home");
    const name = names[0].replace(/\.[^.]*$/, ".costed.xlsx");
    const found = checksums(await downloaded(name, () => press("#home-workbook", "Costed workbook")));
    const made = path.join(browser.folder, `command.${name}`);
    try {
      execFileSync(program, ["cost", ...names, "-o", made], { cwd: path.join(root, "sample-books"), stdio: "ignore" });
    } catch (fault) {
      // Status 1: the book has errors, and was costed.
      if (fault.status !== 1) throw fault;
    }
    const wanted = checksums(readFileSync(made));
    const names_ = [...new Set([...Object.keys(found), ...Object.keys(wanted)])];
    equal(names_.filter((one) => found[one] !== wanted[one]), [], "parts that differ");
    return `${names_.length} parts`;
  });
}

await check("the sample, from its button, by keyboard", async () => {
  await fresh();
  for (let at = 0; at < 4; at += 1) {
    await browser.key("Tab");
    if (await browser.value("document.activeElement.textContent === 'Teaching kitchen, US measures'")) break;
  }
  equal(await browser.value("document.activeElement.textContent"), "Teaching kitchen, US measures", "focus");
  const began = Date.now();
  await browser.key("Enter");
  await browser.until("document.querySelectorAll('#dishes-table tbody tr').length === 7");
  const ms = Date.now() - began;
  equal(await browser.value("document.querySelector('#dishes-table tbody tr th button').textContent"), "Chilled shrimp with grapefruit and fennel", "over target first");
  return `shown after ${ms} ms`;
});

await check("every view draws, and every button is reached by Tab", async () => {
  for (const name of ["problems", "recipes", "trim", "try", "prices", "home", "dishes"]) {
    await view(name);
    await quiet();
    const empty = await browser.value(`document.getElementById(${JSON.stringify(name)}).innerText.length < 30`);
    if (empty) throw new Error(`${name} is empty`);
  }
  await browser.value("document.activeElement.blur(); window.scrollTo(0, 0)");
  const reached = new Set();
  for (let at = 0; at < 90; at += 1) {
    await browser.key("Tab");
    reached.add(await browser.value("document.activeElement.id || document.activeElement.textContent.slice(0, 40)"));
  }
  const missed = await browser.value(`[...document.querySelectorAll("button, input, select")].filter((one) => one.checkVisibility() && !one.disabled)
    .map((one) => one.id || one.textContent.slice(0, 40))`);
  equal(missed.filter((one) => !reached.has(one)), [], "not reached");
});

await check("the total stands still at every step of the credit, by arrow keys", async () => {
  await view("try");
  await browser.until("document.getElementById('credit-total').textContent !== ''");
  equal(await browser.value("[...document.querySelectorAll('#credit-dishes h4')].map((one) => one.textContent)"),
    ["Makes it: sold beside the trim", "Uses it: made of the trim"], "sides");
  equal(/^20 %.*as in the book$/.test(await text("credit-now")), true, "begins as in the book");
  await browser.value("(() => { const slider = document.getElementById('credit'); slider.value = 0; slider.dispatchEvent(new Event('input')); slider.focus(); })()");
  const totals = new Set();
  const bears = new Set();
  for (let at = 0; at <= 100; at += 1) {
    const words = await text("credit-total");
    totals.add(words.replace(/^.*together /, ""));
    bears.add(words.replace(/:.*$/, ""));
    if (at < 100) await browser.key("ArrowRight");
  }
  equal(totals.size, 1, "totals");
  if (bears.size < 90) throw new Error(`only ${bears.size} steps move anything`);
  const ms = await browser.value(`(() => { const slider = document.getElementById("credit"); const began = performance.now();
    for (let at = 0; at <= 100; at += 1) { slider.value = at; slider.dispatchEvent(new Event("input")); document.body.offsetHeight; }
    return (performance.now() - began) / 101; })()`);
  return `${[...totals][0]}; a step takes ${ms.toFixed(2)} ms; ${await text("credit-saved")}`;
});

await check("what is tried is shown as tried and is in nothing that is saved", async () => {
  const before = await json("teaching-kitchen");
  await view("try");
  await browser.value(`(() => { const kind = document.getElementById("knob-kind"); kind.value = "price"; kind.dispatchEvent(new Event("change"));
    const name = document.getElementById("knob-name"); name.value = [...name.options].find((one) => one.textContent.startsWith("White shrimp")).value;
    document.getElementById("knob-add").click(); })()`);
  // The focus is on the new slider.
  for (let at = 0; at < 12; at += 1) await browser.key("ArrowRight");
  await browser.until("document.querySelectorAll('#tried-table tbody tr').length > 0");
  const said = await text("tried-said");
  const tried = await downloaded("teaching-kitchen.tried.costed.xlsx", () => press("#tried-save", "Save as tried"));
  equal(tried.subarray(0, 2).toString(), "PK", "the workbook as tried");
  equal(await json("teaching-kitchen") === before, true, "JSON after trying");
  const took = await browser.value(`(async () => { await new Promise((done) => setTimeout(done, 500)); const range = document.querySelector("#knobs input[type=range]");
    const began = performance.now(); range.value = range.max; range.dispatchEvent(new Event("input"));
    const was = document.querySelector("#tried-table")?.textContent; while (document.querySelector("#tried-table").textContent === was) await new Promise((done) => setTimeout(done, 1));
    return performance.now() - began; })()`);
  return `${said} One move of a price takes ${took.toFixed(0)} ms`;
});

await check("new prices are compared and taken home", async () => {
  await view("prices");
  await browser.choose("lists", [path.join(root, "sample-books/teaching-kitchen-fernhollow.csv")]);
  await browser.until("document.querySelector('#changes .said, #headings h3')");
  const book = await downloaded("teaching-kitchen.new-prices.xlsx", () => press("#changes", "Book with the new prices in it"));
  equal(book.subarray(0, 2).toString(), "PK", "the book");
  const workbook = await downloaded("teaching-kitchen.repriced.xlsx", () => press("#changes", "Costed workbook at the new prices"));
  equal(workbook.subarray(0, 2).toString(), "PK", "the workbook");
  return browser.value("document.querySelector('#changes .said').textContent");
});

await check("headings that are not known are mapped by drop-downs", async () => {
  const list = path.join(browser.folder, "list.csv");
  writeFileSync(list, "Was,Wieviel,Netto\nYellow onions,50 lb,31.00\nCarrots,50 lb,41.00\n");
  await browser.choose("lists", [list]);
  await browser.until("document.querySelector('#headings h3')");
  await browser.value(`for (const [ours, theirs] of [["Item", "Was"], ["Pack", "Wieviel"], ["Price", "Netto"]]) document.getElementById("heading-" + ours).value = theirs`);
  await press("#headings", "Use these headings");
  await browser.until("document.querySelector('#changes .said')");
  return browser.value("document.querySelector('#changes .said').textContent");
});

await check("a list that was understood can be read by other headings", async () => {
  const list = path.join(browser.folder, "two-prices.csv");
  writeFileSync(list, "Item,Pack,Price,Netto\nYellow onions,50 lb,30.00,28.00\n");
  await browser.choose("lists", [list]);
  await browser.until("document.getElementById('says').textContent.startsWith('two-prices.csv: compared')");
  equal(await browser.value("document.getElementById('heading-Price').value"), "Price", "read at first");
  const worth = () => browser.value("document.querySelector('#changes table:last-of-type')?.textContent");
  const before = await worth();
  await browser.value("document.getElementById('heading-Price').value = 'Netto'");
  await press("#headings", "Use these headings");
  await browser.until("document.getElementById('heading-Price')?.value === 'Netto' && document.querySelector('#changes .said')");
  if (await worth() === before) throw new Error("the changes are as before");
  await browser.value("document.getElementById('heading-Per').value = 'Netto'");
  await press("#headings", "Use these headings");
  equal(await text("says"), "“Netto” is chosen for Price and Per: choose it for one of them.", "one heading twice");
  return browser.value("document.querySelector('#headings summary').textContent");
});

await check("a row that was held back is taken by a tick", async () => {
  const list = path.join(browser.folder, "dear.csv");
  writeFileSync(list, "Item,Pack,Price\nYellow onions,50 lb,91.00\n");
  await browser.choose("lists", [list]);
  await browser.until("document.querySelector('#changes .ticks input')");
  const before = await browser.value("document.querySelector('#changes .said').textContent");
  await browser.value("document.querySelector('#changes .ticks input').click()");
  await press("#changes", "Take the ticked ones");
  await browser.until("/^1 price taken, 0 held/.test(document.querySelector('#changes .said')?.textContent ?? '')");
  return before;
});

await check("a day is typed digit by digit", async () => {
  await open([sample]);
  await browser.value("document.getElementById('day').focus()");
  for (const digit of "12012026") await browser.key(digit, `Digit${digit}`);
  await browser.until("document.getElementById('says').textContent === 'Costed for 2026-12-01.'");
  await press("#book", "The book's own day");
  await browser.until("document.getElementById('says').textContent === 'Costed for 2026-11-20.'");
});

await check("a file that is given twice is read once, and a bad one leaves the book", async () => {
  const copy = path.join(browser.folder, "copy of it.xlsx");
  writeFileSync(copy, readFileSync(sample));
  await browser.choose("files", [sample, copy]);
  await browser.until("/is a copy/.test(document.getElementById('says').textContent)");
  equal(await text("says"), "teaching-kitchen.xlsx is open. copy of it.xlsx is a copy of teaching-kitchen.xlsx: it is read once.", "said");
  equal(await browser.value("document.querySelectorAll('#dishes-table tbody tr').length"), 7, "dishes");
  const picture = path.join(browser.folder, "picture.png");
  writeFileSync(picture, Buffer.from("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAAC0lEQVR4nGNgAAIAAAUAAXpeqz8AAAAASUVORK5CYII=", "base64"));
  await browser.choose("files", [picture]);
  await browser.until("/is a picture/.test(document.getElementById('says').textContent)");
  equal(/The book that was open still is\.$/.test(await text("says")), true, await text("says"));
  await view("dishes");
  equal(await text("says"), "", "said in another view");
});

await check("text of a book is text", async () => {
  const book = path.join(browser.folder, "markup.csv");
  writeFileSync(book, `Item,Pack,Price\n"<img src=x onerror=window.hacked=1>",50 lb,25\n\nRecipe,"<script>window.hacked=1</script>"\nPortions,4\nMenu price,3\nIngredient,Qty,Unit\n"<img src=x onerror=window.hacked=1>",2,lb\n`);
  await open([book]);
  for (const name of ["problems", "recipes", "trim", "try", "dishes"]) {
    await view(name);
    await quiet();
  }
  equal(await browser.value("window.hacked ?? null"), null, "markup was run");
  equal(await browser.value("document.querySelectorAll('main img, main script').length"), 0, "elements of the book");
});

await check("the policy refuses fetch, beacon, image and injected script", async () => {
  const refused = await browser.value(`(async () => {
    const refused = [];
    document.addEventListener("securitypolicyviolation", (event) => refused.push(event.effectiveDirective));
    await fetch("https://example.org/").catch(() => {});
    navigator.sendBeacon("https://example.org/", "x");
    document.body.append(Object.assign(new Image(), { src: "https://example.org/x.png" }));
    document.body.append(Object.assign(document.createElement("script"), { textContent: "window.hacked = 1" }));
    await new Promise((done) => setTimeout(done, 300));
    document.querySelector("body > img").remove();
    return refused.sort();
  })()`);
  equal(await browser.value("window.hacked ?? null"), null, "an injected script ran");
  equal(refused, ["connect-src", "connect-src", "img-src", "script-src-elem"], "refused");
});

await check("only the file and its blobs were asked for", async () => {
  const others = browser.requests.filter((url) => !url.startsWith("blob:") && !url.startsWith("data:") && url !== `file://${page}` && !url.includes("example.org"));
  equal(others, [], "requests");
});

await check("after a fault of the engine the page goes on", async () => {
  await open([sample]);
  await view("home");
  // What a fault does, whatever its cause: a question that asks for more room than there is.
  await browser.value("engine = { ...engine, memory: engine.memory, parings_room: ((room) => () => room(-1))(engine.parings_room) }", browser.worker);
  await press("#home-workbook", "Costed workbook");
  await browser.until("document.getElementById('says').textContent.startsWith('The engine stopped')");
  await quiet();
  const said = await text("says");
  const dishes = await browser.value("document.querySelectorAll('#dishes-table tbody tr').length");
  await view("dishes");
  equal(await browser.value("document.querySelectorAll('#dishes-table tbody tr').length"), 7, "dishes");
  await json("teaching-kitchen");
  return `${said.slice(0, 100)} (${dishes} dishes)`;
});

await check("Stop stops, and the book is there as it was", async () => {
  const lines = ["Item,Pack,Price", ...Array.from({ length: 4000 }, (_, at) => `Item ${at},50 lb,${10 + (at % 40)}`), "", "Recipe,Item,Qty,Unit",
    ...Array.from({ length: 60000 }, (_, at) => `Dish ${at % 3000},Item ${at % 4000},2,lb`)];
  const large = path.join(browser.folder, "large.csv");
  writeFileSync(large, lines.join("\n"));
  await browser.choose("files", [large]);
  await browser.until("!document.getElementById('work').hidden");
  await browser.value("document.getElementById('stop').click()");
  await browser.until("document.getElementById('says').textContent.startsWith('Stopped')");
  await quiet();
  await view("dishes");
  equal(await browser.value("document.querySelectorAll('#dishes-table tbody tr').length"), 7, "dishes");
});

await check("a book of more than 5,000 recipes warns, and the page stays alive", async () => {
  const lines = ["Item,Pack,Price", "Onions,50 lb,25", "", "Recipe,Item,Qty,Unit", ...Array.from({ length: 5001 * 4 }, (_, at) => `Dish ${at % 5001},Onions,${1 + (at % 7)},lb`)];
  const many = path.join(browser.folder, "many.csv");
  writeFileSync(many, lines.join("\n"));
  await browser.value(`window.gap = 0; (() => { let last = performance.now(); const tick = () => { const now = performance.now(); window.gap = Math.max(window.gap, now - last); last = now; setTimeout(tick, 10); }; tick(); })()`);
  const began = Date.now();
  await open([many]);
  await quiet();
  equal(await browser.value("document.getElementById('many').hidden"), false, "hidden");
  const said = `${Date.now() - began} ms, longest gap of the page ${Math.round(await browser.value("window.gap"))} ms`;
  await open([sample]);
  equal(await browser.value("document.getElementById('many').hidden"), true, "hidden with the sample");
  return said;
});

await check("a file that is too large is refused before it grows", async () => {
  const large = path.join(browser.folder, "huge.csv");
  writeFileSync(large, "Item,Pack,Price\n" + "Onions,50 lb,25\n".repeat(2_800_000));
  await browser.choose("files", [large]);
  await browser.until("/unpacks into more than/.test(document.getElementById('says').textContent)", 90);
  await view("dishes");
  equal(await browser.value("document.querySelectorAll('#dishes-table tbody tr').length"), 7, "dishes");
});

const axe = process.env.AXE && readFileSync(process.env.AXE, "utf8");
for (const [name, look] of Object.entries({ light: {}, dark: { dark: true }, narrow: { width: 360, height: 740 }, print: { print: true } })) {
  await check(`looks: ${name}`, async () => {
    await browser.look(look);
    for (const one of ["problems", "dishes", "recipes", "trim", "try", "prices", "home"]) {
      await view(one);
      await quiet();
      const over = await browser.value("document.documentElement.scrollWidth - document.documentElement.clientWidth");
      if (!look.print) equal(over, 0, `${one} goes over the side`);
      if (axe) {
        const found = await browser.value(`${axe}; axe.run(document).then((all) => all.violations.map((one) => [one.id, one.nodes.length, one.nodes[0].html.slice(0, 160)]))`);
        equal(found, [], `axe, ${one}`);
      }
      if (pictures) {
        writeFileSync(path.join(pictures, `${name}-${one}.png`), await browser.picture());
      }
    }
  });
}

await check("a card prints on one page, on either face", async () => {
  await browser.look({});
  await view("recipes");
  await quiet();
  const recipes = await browser.value("document.querySelectorAll('#recipe option').length");
  for (const face of ["costing", "kitchen"]) {
    for (let at = 0; at < recipes; at += 1) {
      await browser.value(`(() => { document.getElementById("recipe").value = "${at}"; const face = document.getElementById("face");
        face.value = "${face}"; document.getElementById("card").replaceChildren(); face.dispatchEvent(new Event("change")); })()`);
      await browser.until(`document.querySelector("#card .${face}")`);
      const { data } = await browser.page("Page.printToPDF", { preferCSSPageSize: true });
      const pdf = Buffer.from(data, "base64");
      if (pictures && at === 0) writeFileSync(path.join(pictures, `card-${face}.pdf`), pdf);
      equal((pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length, 1, `pages of the ${face} face of recipe ${at + 1}`);
    }
  }
  return `${recipes} recipes`;
});

await check("nothing was complained of", () => {
  const known = /Content Security Policy|example\.org|RuntimeError|unreachable/;
  equal(browser.messages.filter((one) => !known.test(one)), [], "messages");
});

await browser.stop();
console.log(failed ? `${failed} checks fail` : axe ? "all good" : "all good; accessibility was not checked (AXE names no axe.min.js)");
process.exit(failed ? 1 : 0);
