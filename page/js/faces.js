// @ts-check
// Faces of a card: what the recipe costs on one, what its cook reads on the other, each a page on paper.
import { bars } from "./bars.js";
import { book } from "./book.js";
import { el, table } from "./dom.js";
import { stem } from "./download.js";
import { amount, money, percent, size } from "./figures.js";
import { standingOf } from "./standing.js";

/** @typedef {{recipe: any, facts: [string, string][], preps: string[], notes: string[], typed: [string, string][], dishes: any[],
 *   method: string, note: string, cautions: string[], contains: string[], may_contain: string[]}} Card */

const SOURCES = /** @type {Record<string, string>} */ ({ bought: "bought", fabricated: "a yield test", made: "a recipe" });

/** @param {[string, string][]} facts */
const factsList = (facts) => el("dl", { class: "facts" }, facts.flatMap(([label, text]) => [el("dt", {}, label), el("dd", {}, text)]));

/** @param {Card} card */
function allergens(card) {
  const silent = card.recipe.allergens_not_stated;
  const known = card.contains.length ? card.contains.join(", ") : silent.length ? "not known: ask before serving" : "none stated";
  return factsList(/** @type {[string, string][]} */ ([
    ["Contains", known],
    ["May contain", card.may_contain.join(", ")],
    ["Not known of", silent.join(", ")],
  ].filter(([, text]) => text)));
}

/** What was typed of a line's quantity, else what was read. @param {Card} card @param {number} at */
function quantity(card, at) {
  const [qty, unit] = card.typed[at] ?? ["", ""];
  const line = card.recipe.lines[at];
  return qty || unit ? [qty, unit].filter(Boolean).join(" ") : [amount(line.qty), line.unit ?? ""].filter(Boolean).join(" ");
}

/** @param {any} recipe @param {(figure: any) => string} of @returns {[string, string][]} */
function portions(recipe, of) {
  return recipe.portions ? [["Portions", amount(recipe.portions)], ["A portion of the batch", of(recipe.portion_cost)]] : [];
}

/** What Q factor and spice add to a portion. @param {any} dish */
const added = (dish) => [dish.q, dish.spice].filter((figure) => size(figure) > 0);

/** Whose card it is: without a name of the house that of the file. */
const house = () => book.overview.house || book.files.map((file) => stem(file.name)).join(", ");

/** @param {Card} card */
export function costingFace(card) {
  const { currency, as_of: day } = book.overview;
  const { recipe } = card;
  const of = (/** @type {any} */ figure) => (figure === null ? "not costed" : money(figure, currency));
  const rows = recipe.lines.map((/** @type {any} */ line, /** @type {number} */ at) => {
    const how = [line.basis, line.yield_percent ? percent(line.yield_percent) : "", SOURCES[line.source] ?? ""];
    return [
      [line.item, card.preps[at] ? `, ${card.preps[at]}` : "", el("span", { class: "narrow quiet" }, how.filter(Boolean).join(", "))],
      quantity(card, at), ...how, of(line.cost), line.share_percent ? percent(line.share_percent) : "",
    ];
  });
  const sold = card.dishes.map((dish) => [dish.name, of(dish.food_cost), added(dish).map(of).join(" + "),
    of(dish.portion_cost), dish.menu_price ? of(dish.menu_price) : "",
    dish.food_cost_percent ? percent(dish.food_cost_percent) : "", dish.target_percent ? percent(dish.target_percent) : "",
    dish.margin ? of(dish.margin) : "", standingOf(dish.standing)]);
  const shares = recipe.lines.filter((/** @type {any} */ line) => size(line.share_percent) > 0);
  shares.sort((/** @type {any} */ a, /** @type {any} */ b) => size(b.cost) - size(a.cost));
  return el("article", { class: "face costing" },
    el("h3", {}, recipe.name), factsList(card.facts), card.note ? el("p", {}, card.note) : null,
    table("What goes in", ["Ingredient", ">Quantity", "~AP or EP", "~>Yield", "~From", ">Cost", ">Share"], rows),
    factsList([["Food cost of the batch", of(recipe.food_cost)], ["With Q and spice", of(recipe.batch_cost)],
      ...portions(recipe, of), ["Lines not costed", String(recipe.uncosted_lines)]]),
    sold.length ? table("On the menu", ["Dish", "~>Food", "~>Q and spice", ">Portion cost", ">Menu price", ">Food cost", ">Target", ">Margin", "Standing"], sold) : null,
    allergens(card),
    shares.length ? el("figure", { class: "aside" }, el("figcaption", {}, "Where the money goes."),
      bars(`Where the money goes in ${recipe.name}`, shares.slice(0, 12).map((/** @type {any} */ line) =>
        ({ name: line.item, value: size(line.share_percent), words: percent(line.share_percent) })))) : null,
    el("p", { class: "foot" }, `${house()}, costed for ${day}. Made by, date: ____________  Checked by, date: ____________`));
}

/** @param {Card} card */
export function kitchenFace(card) {
  const lines = card.recipe.lines.map((/** @type {any} */ line, /** @type {number} */ at) =>
    [line.item, quantity(card, at), [card.preps[at], card.notes[at]].filter(Boolean).join("; ")]);
  const steps = card.method.split(/\r?\n|;\s+|(?<=\.)\s+(?=[A-Z])/).map((step) => step.trim()).filter(Boolean);
  return el("article", { class: "face kitchen" },
    el("h3", {}, card.recipe.name), factsList(card.facts.filter(([label]) => ["Makes", "Portion", "Portions"].includes(label))),
    table("Ingredients", ["Ingredient", ">Quantity", "How"], lines),
    steps.length ? el("ol", {}, steps.map((step) => el("li", {}, step))) : el("p", {}, "No method stands in the book."),
    allergens(card), card.cautions.map((caution) => el("p", { class: "caution" }, caution)),
    el("p", { class: "foot" }, `${house()}, as of ${book.overview.as_of}.`));
}
