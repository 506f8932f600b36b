// A large book in the page: 10,000 recipes, 20,000 prices and 200 yield tests. Lines are few: they cost the engine's time, which the
// benches measure, and not the page's, of which this is about.
import { check, equal, sample } from "./steps.mjs";

/** The longest that the page may be deaf to a finger, in milliseconds. */
const GAP = 200;
const NAMED = { recipes: 10_000, prices: 20_000, tests: 200 };

function book() {
  const rows = ["Item,Pack,Price,Supplier"];
  for (let n = 0; n < NAMED.prices; n += 1) rows.push(`Item ${n},50 lb,${20 + (n * 37) % 90},Supplier ${n % 4}`);
  rows.push("", "Test,Role,Part,Weight,Unit,Charged as,Value");
  for (let n = 0; n < NAMED.tests; n += 1) {
    rows.push(`Breakdown ${n},as purchased,Item ${n * 4},40,lb,,`, `Breakdown ${n},main,Main ${n},23.5,lb,,`,
      `Breakdown ${n},by-product,Bones ${n},9,lb,fraction,20%`, `Breakdown ${n},waste,Skin,4,lb,,`);
  }
  rows.push("", "Recipe,Makes,Portion,Menu price");
  for (let n = 0; n < NAMED.recipes; n += 1) rows.push(`Recipe ${n},6 qt,8 fl oz,${9 + n % 10}`);
  rows.push("", "Recipe,Ingredient,Qty,Unit");
  for (let n = 0; n < NAMED.recipes; n += 1) {
    rows.push(`Recipe ${n},${n % 2 ? "Main" : "Bones"} ${n % NAMED.tests},2.5,lb`, `Recipe ${n},Item ${(n * 7) % NAMED.prices},12,oz`);
  }
  return rows.join("\n");
}

export async function large(steps) {
  const file = steps.written("large.csv", book());
  const acts = {
    opening: () => steps.open([file]),
    ...Object.fromEntries(["problems", "dishes", "recipes", "trim", "try", "home"].map((name) => [name, () => steps.view(name)])),
    "finding a dish": async () => {
      await steps.view("dishes");
      await steps.tabTo("#dishes-find");
      await steps.type("Recipe 77");
    },
    sorting: async () => {
      for (const words of ["by name", "as in the book", "highest"]) await steps.pick("#dishes-order", words);
    },
    "finding a price to move": async () => {
      await steps.view("try");
      await steps.tabTo("#knob-find");
      await steps.type("Item 19");
    },
    "moving it": async () => {
      await steps.enter("#knob-add");
      await steps.key("ArrowRight", 3);
      await steps.until("document.querySelectorAll('#tried-table tbody tr').length > 0 || /none|no dish/.test(document.getElementById('tried-said').textContent)");
    },
    "back to the sample": () => steps.open([sample]),
  };
  await steps.fresh();
  for (const [words, act] of Object.entries(acts)) {
    await check(`a large book, ${words}: the page answers within ${GAP} ms`, async () => {
      const began = Date.now();
      const longest = await steps.browser.longest(async () => {
        await act();
        await steps.quiet();
        await new Promise((done) => setTimeout(done, 300));
      });
      if (words === "opening") equal(await steps.value("document.getElementById('many').hidden"), false, "the warning is hidden");
      const said = `at most ${Math.round(longest)} ms at a time, ${Date.now() - began} ms in all`;
      if (longest > GAP) throw new Error(said);
      return said;
    });
  }
  await check("without a large book there is no warning", async () => {
    equal(await steps.value("document.getElementById('many').hidden"), true, "hidden with the sample");
  });
}
