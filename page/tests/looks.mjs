// Looks: light, dark, on a phone and on paper. With axe-core given, accessibility is checked as well.
import { writeFileSync } from "node:fs";
import path from "node:path";
import { check, equal, sample } from "./steps.mjs";

const VIEWS = ["problems", "dishes", "recipes", "trim", "try", "prices", "home"];

/** So many pages has a document. */
const pages = (pdf) => (pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;

export async function looks(steps, axe, pictures) {
  const { browser } = steps;
  await steps.fresh();
  await steps.open([sample]);

  for (const [name, look] of Object.entries({ light: {}, dark: { dark: true }, narrow: { width: 360, height: 740 }, print: { print: true } })) {
    await check(`looks: ${name}`, async () => {
      await browser.look(look);
      for (const one of VIEWS) {
        await steps.view(one);
        await steps.quiet();
        const over = await steps.value("document.documentElement.scrollWidth - document.documentElement.clientWidth");
        if (!look.print) equal(over, 0, `${one} goes over the side`);
        if (axe) {
          const found = await steps.value(`${axe}; axe.run(document).then((all) => all.violations.map((one) => [one.id, one.nodes.length, one.nodes[0].html.slice(0, 160)]))`);
          equal(found, [], `axe, ${one}`);
        }
        if (pictures) writeFileSync(path.join(pictures, `${name}-${one}.png`), await browser.picture());
      }
    });
  }

  await check("on a phone a card shows what each line costs, without being moved", async () => {
    await browser.look({ width: 360, height: 740 });
    await steps.view("recipes");
    await steps.quiet();
    const sides = await steps.value(`(() => { const table = document.querySelector("#card table");
      return [table.scrollWidth <= table.closest(".wide").clientWidth, [...table.querySelectorAll("th")].filter((one) => one.scope === "col" && one.checkVisibility()).map((one) => one.textContent)]; })()`);
    equal(sides, [true, ["Ingredient", "Quantity", "Cost", "Share"]], "the table fits, and its columns");
  });

  await check("pictures are as wide as the window, also when that changes", async () => {
    await steps.view("dishes");
    for (const width of [360, 1100, 480]) {
      await browser.look({ width, height: 740 });
      // As wide as the window without its margins, and without a bar for scrolling where there is one.
      await steps.until(`Math.abs(document.querySelector("#dishes-picture svg").viewBox.baseVal.width - ${Math.min(640, width - 34)}) <= 16`, 5);
    }
  });

  await check("a card prints on one page, on either face, with the house and the day", async () => {
    await browser.look({});
    await steps.view("recipes");
    await steps.quiet();
    const recipes = await steps.count("#recipe option");
    for (const face of ["costing", "kitchen"]) {
      for (let at = 0; at < recipes; at += 1) {
        await steps.value(`(() => { document.getElementById("recipe").value = "${at}"; const face = document.getElementById("face");
          face.value = "${face}"; document.getElementById("card").replaceChildren(); face.dispatchEvent(new Event("change")); })()`);
        await steps.until(`document.querySelector("#card .${face}")`);
        const foot = await steps.value("document.querySelector('#card .foot').textContent");
        equal([/2026-11-20/.test(foot), foot.startsWith(await steps.text("house"))], [true, true], foot);
        const { data } = await browser.page("Page.printToPDF", { preferCSSPageSize: true });
        const pdf = Buffer.from(data, "base64");
        if (pictures && at === 0) writeFileSync(path.join(pictures, `card-${face}.pdf`), pdf);
        equal(pages(pdf), 1, `pages of the ${face} face of recipe ${at + 1}`);
      }
    }
    return `${recipes} recipes`;
  });
}
