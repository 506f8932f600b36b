// @ts-check
// Trim lesson: where weight and money went in every test, how the ways of charging differ, and what using trim saves.
import { picture, sharesInWords, stacked } from "./bars.js";
import { book, onBook } from "./book.js";
import { byId, el, fill, table } from "./dom.js";
import { ask } from "./engine.js";
import { amount, money, percent, size } from "./figures.js";
import { addInPieces } from "./pieces.js";
import { onShow } from "./views.js";
import { work } from "./work.js";

/** What the engine says of trim, once for all views of one book. @type {Promise<any> | null} */
let asked = null;

/** @returns {Promise<any>} */
export function trimOf() {
  asked ??= ask("trim").then(({ said }) => said);
  asked.catch(() => { asked = null; });
  return asked;
}

/** More rows than anybody reads; the workbook has all. */
const MOST = 200;
const KINDS = /** @type {Record<string, string>} */ ({ main: "main", "by-product": "by", waste: "waste" });
/** @param {any} figure */
const cost = (figure) => money(figure, book.overview.currency);

/** Where the weight and the money of a test went: two bars of one length. @param {any} test */
function flow(test) {
  const parts = test.parts.filter((/** @type {any} */ part) => size(part.weight_g) > 0);
  const weight = parts.map((/** @type {any} */ part) =>
    ({ name: part.name, value: size(part.weight_g), words: percent(part.yield_percent), kind: KINDS[part.role] }));
  if (size(test.loss_g) > 0) weight.push({ name: "loss", value: size(test.loss_g), words: `${amount(test.told.loss)} ${test.told.unit}`, kind: "loss" });
  const paid = parts.filter((/** @type {any} */ part) => size(part.cost) > 0).map((/** @type {any} */ part) =>
    ({ name: part.name, value: size(part.cost), words: cost(part.cost), kind: KINDS[part.role] }));
  const instead = `Weight: ${sharesInWords(weight)}. Money: ${sharesInWords(paid)}.`;
  return picture(`${test.name}: weight and money`, instead, paid.length ? 110 : 52, (width) =>
    [...stacked("Where the weight went", weight, width), ...(paid.length ? stacked("Where the money went", paid, width, 58) : [])]);
}

/** @param {any} test */
function testTable(test) {
  const { unit, parts, loss } = test.told;
  const rows = test.parts.map((/** @type {any} */ part, /** @type {number} */ at) => [
    part.name, part.role, amount(parts[at].weight), part.yield_percent ? percent(part.yield_percent) : "",
    part.charged_as ?? "", part.cost ? cost(part.cost) : "", parts[at].cost ? cost(parts[at].cost) : "",
  ]);
  if (loss) rows.push(["Loss: what is missing", "", amount(loss), "", "", "", ""]);
  return table(`${test.name}: what came out, in ${unit}`, ["Part", "Role", ">Weight", ">Yield", "Charged as", ">Bears", `>A ${unit} costs`], rows);
}

/** @param {any} test */
function waysTable(test) {
  const ways = test.ways.filter((/** @type {any} */ way) => way.total !== null);
  if (ways.length < 2 || !ways[0].parts.some((/** @type {any} */ part) => part.charged_as !== null)) return null;
  const borne = ways[0].parts.map((/** @type {any} */ part, /** @type {number} */ at) =>
    [part.name, ...ways.map((/** @type {any} */ way) => cost(way.parts[at].cost))]);
  borne.push(["In all: the same, however it is charged", ...ways.map((/** @type {any} */ way) => cost(way.total))]);
  return table(`${test.name}: however its by-products are charged`, ["Part", ...ways.map((/** @type {any} */ way) => `>${way.way}`)], borne, { class: "totals" });
}

/** The three kitchens over the plan. @param {any} trim @param {string} [where] */
export function kitchens(trim, where = "") {
  if (!trim.plan) return el("p", {}, "The book has no plan (a table with the headings Dish and Portions), so what is saved is not known.");
  const heads = ["The plan", ...trim.plan.kitchens.map((/** @type {any} */ one) => `>Trim ${one.kitchen}`)];
  const line = (/** @type {string} */ words, /** @type {string} */ key) =>
    [words, ...trim.plan.kitchens.map((/** @type {any} */ one) => cost(one[key]))];
  const dishes = trim.dishes.slice(0, MOST).map((/** @type {any} */ dish) =>
    [dish.name, cost(dish.food_binned), cost(dish.food_free), cost(dish.food_credited)]);
  return el("div", {},
    table(`The kitchen three times${where}`, heads, [line("Food in what is served", "in_dishes"), line("and left over", "left_over"),
      line("less what was on hand before", "on_hand"), line("less what selling trim earns", "sold"), line("and making trim usable", "further_cost"),
      line("less haulage spared", "haulage_spared"), line("It all comes to", "comes_to")], { class: "totals" }),
    el("p", { class: "saved" }, trim.plan.saved === null
      ? `Using trim saves at least ${cost(trim.plan.known_saved)}: of some trim nobody says what it would cost to buy.`
      : `Using trim saves ${cost(trim.plan.saved)} over the plan. A credit moves cost between dishes; it saves nothing by itself.`),
    trim.dishes.length > MOST ? el("p", {}, `The first ${MOST} of ${trim.dishes.length} dishes; the workbook has all.`) : null,
    table(`Food in a portion${where}`, ["Dish", ">Trim binned", ">Reused, free", ">Reused, credited"], dishes));
}

/** @param {any} test @param {any} ways */
function lesson(test, ways) {
  const stopped = test.cost === null;
  return el("article", { class: "test" },
    el("h3", {}, test.name), el("p", {}, stopped ? "A problem stops this test." : `${test.item}: what went in costs ${cost(test.cost)} today.`),
    stopped ? null : flow(test), testTable(test), stopped ? null : waysTable(ways));
}

async function draw() {
  const trim = await trimOf();
  const tests = book.overview.tests;
  if (tests.length === 0) {
    fill(byId("trim-body"), el("p", {}, "The book has no yield test. Weigh what goes in and everything that comes out: the form for it is among the empty books."));
    return;
  }
  const rows = trim.savings.slice(0, MOST).map((/** @type {any} */ one) =>
    [one.by_product, one.not_bought ? cost(one.not_bought) : "not known", cost(one.not_sold), cost(one.further_cost), one.saved ? cost(one.saved) : "not known"]);
  const savings = rows.length ? table("What each by-product saves over the plan",
    ["By-product", ">Need not be bought", ">Not sold", ">Making it usable", ">Saved"], rows) : null;
  fill(byId("trim-body"), el("article", {}, el("h3", {}, "What using trim is worth"), kitchens(trim), savings));
  const all = await addInPieces(byId("trim-body"), tests.slice(0, MOST), (/** @type {any} */ test, at) => lesson(test, trim.tests[at]));
  if (all && tests.length > MOST) byId("trim-body").append(el("p", {}, `The first ${MOST} of ${tests.length} tests; the workbook has all.`));
}

/** Sets up the view. */
export function setUpTrim() {
  onShow("trim", () => { work("Working out the trim", draw); });
  onBook(() => { asked = null; });
}
