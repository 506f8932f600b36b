// @ts-check
// Credit: a by-product charged at anything from nothing to the price of what it was cut from. The dish that makes it and the dish
// that uses it stand side by side, over one bar whose length stands still. What is saved stands apart and does not move.
import { picture, sharesInWords, stacked } from "./bars.js";
import { book } from "./book.js";
import { byId, el, fill } from "./dom.js";
import { money, percent, size } from "./figures.js";
import { trimOf } from "./trim.js";

/** @type {any} */
let trim = null;
let inBook = "";
/** @param {any} figure */
const cost = (figure) => money(figure, book.overview.currency);
/** @param {string} id */
const value = (id) => /** @type {HTMLInputElement} */ (byId(id)).value;

const SIDES = /** @type {Record<string, string>} */ ({
  "made beside it": "Makes it: sold beside the trim", "made of it": "Uses it: made of the trim", both: "Makes it and uses it",
});

/** What a dish is to cost at the most, as the book has it. @param {string} name */
function target(name) {
  const own = book.overview.dishes.find((/** @type {any} */ dish) => dish.name === name)?.target_percent;
  return own ? `, target ${percent(own)}` : "";
}

/** @param {any} dish @param {any} first */
function dishAt(dish, first) {
  const way = dish.portion_cost === first.portion_cost ? "as when it is free"
    : size(dish.portion_cost) > size(first.portion_cost) ? `dearer than the ${cost(first.portion_cost)} when it is free`
      : `cheaper than the ${cost(first.portion_cost)} when it is free`;
  return el("li", {}, el("strong", {}, dish.name), el("span", { class: "large" }, cost(dish.portion_cost)),
    el("span", {}, dish.food_cost_percent ? `${percent(dish.food_cost_percent)} food cost${target(dish.name)}` : ""), el("span", { class: "quiet" }, way));
}

/** Draws one step; all hundred and one were worked out before, so that a finger is followed. */
function draw() {
  const sweep = trim.sweeps[Number(value("credit-of"))];
  const step = sweep?.steps[Number(value("credit"))];
  if (!step) return;
  const at = `${value("credit")} %`;
  byId("credit").setAttribute("aria-valuetext", `${at} of the price it was bought at`);
  const own = value("credit") === inBook ? ", as in the book" : "";
  fill(byId("credit-now"), `${at} of the purchase price, weight for weight${own}`);
  if (step.stopped) {
    fill(byId("credit-dishes"), el("p", { class: "warm" }, `At ${at} the test cannot be costed: its by-products would take more than was paid.`));
    fill(byId("credit-bar"));
    fill(byId("credit-total"));
    return;
  }
  const groups = Object.entries(SIDES).map(([side, words]) => {
    const dishes = step.dishes.map((/** @type {any} */ dish, /** @type {number} */ index) => ({ dish, first: sweep.steps[0].dishes[index] }));
    const of = dishes.filter((/** @type {any} */ one) => one.dish.side === side && one.dish.portion_cost !== null);
    return of.length ? el("div", { class: "side" }, el("h4", {}, words),
      el("ul", {}, of.map((/** @type {any} */ one) => dishAt(one.dish, one.first)))) : null;
  });
  fill(byId("credit-dishes"), groups);
  const shares = [
    { name: "Everything else bears", value: size(step.rest_bears), words: cost(step.rest_bears), kind: "main" },
    { name: sweep.by_product, value: size(step.bears), words: cost(step.bears), kind: "by" },
  ];
  const title = `What was paid, ${cost(step.total)}, and who bears it`;
  fill(byId("credit-bar"), picture(title, sharesInWords(shares), 52, (width) => stacked(title, shares, width)));
  fill(byId("credit-total"), `${sweep.by_product} ${cost(step.bears)}, everything else ${cost(step.rest_bears)}: together ${cost(step.total)}, wherever the slider stands.`);
}

/** The step that is the book's own charge, to begin with; nothing where it is none of the steps. @param {string} name */
function ownStep(name) {
  const parts = book.overview.tests.flatMap((/** @type {any} */ test) => test.parts);
  const factor = Number(parts.find((/** @type {any} */ part) => part.name === name)?.cost_factor ?? NaN) * 100;
  return Math.abs(factor - Math.round(factor)) < 1e-6 && factor <= 100 ? String(Math.round(factor)) : "";
}

function chosen() {
  const sweep = trim.sweeps[Number(value("credit-of"))];
  inBook = ownStep(sweep.by_product);
  /** @type {HTMLInputElement} */ (byId("credit")).value = inBook || "0";
  const saving = trim.savings.find((/** @type {any} */ one) => one.by_product === sweep.by_product);
  const known = trim.plan && saving?.saved;
  fill(byId("credit-saved"), known
    ? `${sweep.by_product}: what need not be bought saves ${cost(saving.saved)} over the plan, at any credit.`
    : "What using it saves is not known: the book has no plan, or nobody says what would be bought in its place.");
  draw();
}

/** Fills the lesson for the book that is open. */
export async function drawCredit() {
  trim = await trimOf();
  const none = trim.sweeps.length === 0;
  byId("credit-lesson").hidden = none;
  byId("credit-none").hidden = !none;
  if (none) return;
  fill(byId("credit-of"), trim.sweeps.map((/** @type {any} */ sweep, /** @type {number} */ at) => el("option", { value: at }, sweep.by_product)));
  chosen();
}

/** Sets up the lesson. */
export function setUpCredit() {
  byId("credit").addEventListener("input", draw);
  byId("credit-of").addEventListener("change", chosen);
}
