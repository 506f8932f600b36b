// Everything at the top of the page, dishes, cards and what is taken home, done by keys alone.
import { readFileSync } from "node:fs";
import path from "node:path";
import { check, checksums, equal, root, sample } from "./steps.mjs";

const DISHES = "#dishes-table tbody tr";
const names = (steps) => steps.value(`[...document.querySelectorAll("${DISHES} th button")].map((one) => one.textContent)`);

async function start(steps) {
  await check("keys: the sample is opened, and what was drawn has the focus", async () => {
    await steps.fresh();
    await steps.tabTo("#samples button", "Teaching kitchen, US measures");
    const began = Date.now();
    await steps.key("Enter");
    await steps.until(`document.querySelectorAll("${DISHES}").length === 7`);
    const ms = Date.now() - began;
    equal((await names(steps))[0], "Chilled shrimp with grapefruit and fennel", "over target first");
    await steps.quiet();
    equal(await steps.value("document.activeElement === document.querySelector('#dishes h2')"), true, "focus");
    return `shown after ${ms} ms`;
  });

  await check("keys: the other sample, of two files", async () => {
    await steps.fresh();
    await steps.enter("#samples button", "Small restaurant, metric, in two files");
    await steps.said(/^metric-kitchen-prices\.csv, metric-kitchen\.xlsx are open/);
  });

  await check("keys: every empty book and form is taken home", async () => {
    await steps.fresh();
    const wanted = [["Book, US measures", "us-book", "us"], ["Book, metric", "metric-book", "metric"],
      ["Form for a yield test, US measures", "us-bench-form", "us-bench"], ["Form for a yield test, metric", "metric-bench-form", "metric-bench"]];
    for (const [words, name, of] of wanted) {
      const got = await steps.downloaded(`${name}.xlsx`, () => steps.enter("#empty button", words));
      equal(checksums(got), checksums(readFileSync(path.join(root, "templates", `${of}.xlsx`))), `${words} as it stands among the templates`);
    }
  });

  await check("keys: files are chosen, others added, another book opened", async () => {
    const [prices, recipes] = ["metric-kitchen-prices.csv", "metric-kitchen.xlsx"].map((name) => path.join(root, "sample-books", name));
    await steps.fresh();
    await steps.chooseBy("#choose", [recipes]);
    await steps.said(/^metric-kitchen\.xlsx is open/);
    await steps.chooseBy("#add", [prices]);
    await steps.said(/^metric-kitchen\.xlsx, metric-kitchen-prices\.csv are open/);
    await steps.chooseBy("#new", [sample]);
    await steps.said(/^teaching-kitchen\.xlsx is open/);
    equal(await steps.count(DISHES), 7, "dishes");
  });

  await check("keys: past the top to what is shown", async () => {
    await steps.value("document.activeElement.blur(); scrollTo(0, 0)");
    await steps.fresh();
    await steps.open([sample]);
    await steps.value("document.activeElement.blur()");
    await steps.enter(".skip");
    await steps.key("Tab");
    equal(await steps.value("document.activeElement.closest('main') !== null"), true, "the next stop is within the book");
  });

  await check("keys: a day is typed digit by digit, and the book's own again", async () => {
    await steps.tabTo("#day");
    await steps.type("12012026");
    await steps.said(/^Costed for 2026-12-01\.$/);
    await steps.enter("#own-day");
    await steps.said(/^Costed for 2026-11-20\.$/);
  });
}

async function shown(steps) {
  await check("keys: problems, and what was read", async () => {
    await steps.go("problems");
    await steps.enter("#problems summary");
    equal(await steps.value("document.querySelector('#problems details').open"), true, "open");
    if (await steps.count("#sheets li") < 5) throw new Error("no sheets");
  });

  await check("keys: dishes are sorted, found and shown in part", async () => {
    await steps.go("dishes");
    const before = await names(steps);
    await steps.pick("#dishes-order", "by name");
    const sorted = await names(steps);
    equal(sorted, [...before].sort((a, b) => a.localeCompare(b)), "by name");
    await steps.pick("#dishes-order", "dearest");
    const costs = await steps.value(`[...document.querySelectorAll("${DISHES} td:nth-child(2)")].map((one) => Number(one.textContent.replace(/[^\\d.]/g, "")))`);
    equal(costs, [...costs].sort((a, b) => b - a), "dearest first");
    await steps.pick("#dishes-only", "over target");
    const over = await steps.value(`[...document.querySelectorAll("${DISHES} td:last-child")].map((one) => one.textContent)`);
    if (over.length === 0 || over.length === 7 || over.some((one) => one !== "over target")) throw new Error(`shown: ${over}`);
    await steps.pick("#dishes-only", "all");
    await steps.tabTo("#dishes-find");
    await steps.type("shrimp");
    const found = await names(steps);
    if (found.length === 0 || found.some((one) => !/shrimp/i.test(one))) throw new Error(`found: ${found}`);
    await steps.key("Backspace", 6);
    equal(await steps.count(DISHES), 7, "all again");
  });

  await check("keys: a wide table is moved by the arrow keys", async () => {
    await steps.browser.look({ width: 360, height: 740 });
    await steps.tabTo("#dishes-table .wide");
    await steps.key("ArrowRight", 5);
    await steps.until("document.querySelector('#dishes-table .wide').scrollLeft > 0", 5);
    await steps.browser.look({});
  });

  await check("keys: a card is opened from its dish, another chosen, turned over and printed", async () => {
    await steps.value("document.activeElement.blur()");
    await steps.enter(`${DISHES} th button`, "Chilled shrimp with grapefruit and fennel");
    await steps.until("document.querySelector('#card h3')?.textContent === 'Chilled shrimp with grapefruit and fennel'");
    equal(await steps.value("document.activeElement === document.querySelector('#recipes h2')"), true, "focus on the heading");
    await steps.pick("#recipe", "Shrimp shell stock");
    await steps.until("document.querySelector('#card h3')?.textContent === 'Shrimp shell stock'");
    await steps.pick("#face", "kitchen");
    await steps.until("document.querySelector('#card .kitchen h3')?.textContent === 'Shrimp shell stock'");
    // There is no printer here: that the page asks for one is all that can be seen.
    await steps.value("window.printed = 0; window.print = () => { window.printed += 1; }");
    await steps.enter("#print-card button");
    equal(await steps.value("window.printed"), 1, "printed");
    await steps.pick("#face", "costing");
    await steps.until("document.querySelector('#card .costing')");
  });

  await check("keys: trim is shown, and its tables are reached", async () => {
    await steps.go("trim");
    await steps.tabTo("#trim-body .test .wide");
    if (await steps.count("#trim-body .test") === 0) throw new Error("no test");
  });

  await check("keys: a recipe among many is found by its name", async () => {
    const lines = Array.from({ length: 40 }, (_, at) => `Dish ${at},Onions,${1 + at},lb`);
    await steps.chooseBy("#new", [steps.written("forty.csv", ["Item,Pack,Price", "Onions,50 lb,25", "", "Recipe,Item,Qty,Unit", ...lines].join("\n"))]);
    await steps.said(/^forty\.csv is open/);
    await steps.go("recipes");
    await steps.tabTo("#recipe-find");
    await steps.type("dish 37");
    await steps.until("document.querySelector('#card h3')?.textContent === 'Dish 37'");
    equal(await steps.value("[...document.getElementById('recipe').options].map((one) => one.textContent)"), ["Dish 37"], "offered");
    await steps.chooseBy("#new", [sample]);
    await steps.said(/^teaching-kitchen\.xlsx is open/);
  });

  await check("keys: everything is taken home", async () => {
    await steps.go("home");
    const workbook = await steps.downloaded("teaching-kitchen.costed.xlsx", () => steps.enter("#home-workbook button"));
    equal(workbook.subarray(0, 2).toString(), "PK", "the workbook");
    const tables = [["Dishes as csv", "dishes.csv"], ["Lines of all recipes as csv", "lines.csv"], ["Parts of all yield tests as csv", "parts.csv"],
      ["Problems as csv", "problems.csv"], ["All figures as JSON", "costs.json"]];
    for (const [words, name] of tables) {
      const got = (await steps.downloaded(`teaching-kitchen.${name}`, () => steps.enter("#home-tables button", words))).toString();
      if (name.endsWith("json")) equal(JSON.parse(got).dishes.length, 7, "dishes as JSON");
      else if (!/^[a-z_]+,[a-z_]+/.test(got)) throw new Error(`${words} begins with ${got.slice(0, 60)}`);
    }
  });
}

export async function keys(steps) {
  await start(steps);
  await shown(steps);
}
