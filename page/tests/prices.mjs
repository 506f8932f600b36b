// New prices, by keys alone: a list beside the book, its headings, its ticks, and what is taken home of it.
import { check, equal, list, sample } from "./steps.mjs";

export async function prices(steps) {
  const said = () => steps.value("document.querySelector('#changes .said').textContent");
  const compared = (name) => steps.said(new RegExp(`^${name}: compared`));
  const focus = (selector) => steps.value(`document.activeElement.matches(${JSON.stringify(selector)})`);

  await check("keys: a list is chosen, compared, and everything of it taken home", async () => {
    await steps.go("prices");
    await steps.chooseBy("#choose-lists", [list]);
    await compared("teaching-kitchen-fernhollow.csv");
    const downloads = [["Book with the new prices in it", "teaching-kitchen.new-prices.xlsx", "PK"],
      ["Costed workbook at the new prices", "teaching-kitchen.repriced.xlsx", "PK"], ["Changes as csv", "teaching-kitchen.changes.csv", ""]];
    for (const [words, name, begins] of downloads) {
      const got = await steps.downloaded(name, () => steps.enter("#changes button", words));
      equal(got.subarray(0, 2).toString().startsWith(begins) && got.length > 100, true, words);
    }
    await steps.enter("#changes details summary");
    equal(await steps.value("document.activeElement.closest('details').open"), true, "what drove a dish");
    return said();
  });

  await check("keys: the sample list", async () => {
    await steps.chooseBy("#new", [sample]);
    await steps.said(/^teaching-kitchen\.xlsx is open/);
    await steps.go("prices");
    await steps.enter("#sample-list");
    await compared("teaching-kitchen-fernhollow.csv");
  });

  await check("keys: a list that does not say whose it is nor since when is told", async () => {
    await steps.chooseBy("#choose-lists", [steps.written("bare.csv", "Item,Pack,Price\nYellow onions,50 lb,31.00\n")]);
    await compared("bare.csv");
    await steps.tabTo("#supplier");
    await steps.type("Fernhollow");
    await steps.tabTo("#dated");
    await steps.type("11212026");
    equal(await steps.value("document.getElementById('dated').value"), "2026-11-21", "the day");
    await steps.value("document.getElementById('says').textContent = ''");
    await steps.enter("#compare");
    await compared("bare.csv");
    const changes = (await steps.downloaded("teaching-kitchen.new-prices.xlsx", () => steps.enter("#changes button", "Book with the new prices in it")));
    equal(changes.subarray(0, 2).toString(), "PK", "the book");
    await steps.value("for (const id of ['supplier', 'dated']) document.getElementById(id).value = ''");
    return said();
  });

  await check("keys: headings that are not known are mapped by drop-downs", async () => {
    await steps.chooseBy("#choose-lists", [steps.written("list.csv", "Was,Wieviel,Netto\nYellow onions,50 lb,31.00\nCarrots,50 lb,41.00\n")]);
    await steps.until("document.querySelector('#headings h3')");
    equal(await focus("#headings select"), true, "focus on the first drop-down");
    for (const [ours, theirs] of [["Item", "Was"], ["Pack", "Wieviel"], ["Price", "Netto"]]) await steps.pick(`#heading-${ours}`, theirs);
    await steps.enter("#headings summary", "More columns");
    equal(await steps.value("document.querySelector('#headings details').open"), true, "more columns");
    await steps.enter("#headings button", "Use these headings");
    await compared("list.csv");
    equal(await focus("#prices h2"), true, "focus on the heading of the view");
    return said();
  });

  await check("keys: a list that was understood is read by other headings", async () => {
    await steps.chooseBy("#choose-lists", [steps.written("two-prices.csv", "Item,Pack,Price,Netto\nYellow onions,50 lb,30.00,28.00\n")]);
    await compared("two-prices.csv");
    equal(await steps.value("document.getElementById('heading-Price').value"), "Price", "read at first");
    const worth = () => steps.value("document.querySelector('#changes table:last-of-type')?.textContent");
    const before = await worth();
    await steps.enter("#headings summary");
    await steps.pick("#heading-Price", "Netto");
    await steps.enter("#headings button", "Use these headings");
    await steps.until("document.getElementById('heading-Price')?.value === 'Netto' && document.querySelector('#changes .said')");
    await steps.quiet();
    if (await worth() === before) throw new Error("the changes are as before");
    await steps.enter("#headings summary");
    await steps.pick("#heading-Per", "Netto");
    await steps.enter("#headings button", "Use these headings");
    equal(await steps.text("says"), "“Netto” is chosen for Price and Per: choose it for one of them.", "one heading twice");
    return steps.value("document.querySelector('#headings summary').textContent");
  });

  await check("keys: a row that was held back is taken by a tick", async () => {
    await steps.chooseBy("#choose-lists", [steps.written("dear.csv", "Item,Pack,Price\nYellow onions,50 lb,91.00\n")]);
    await compared("dear.csv");
    const before = await said();
    await steps.tabTo("#changes .ticks input");
    await steps.key(" ");
    equal(await steps.value("document.activeElement.checked"), true, "ticked");
    await steps.enter("#changes button", "Take the ticked ones");
    await steps.until("/^1 price taken, 0 held/.test(document.querySelector('#changes .said')?.textContent ?? '')");
    await steps.quiet();
    equal(await focus("#prices h2"), true, "focus on the heading of the view");
    return before;
  });
}
