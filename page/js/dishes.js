// @ts-check
// Dishes: a table that is sorted and filtered, those over their target first, and each against its target in a picture.
import { bars } from "./bars.js";
import { book, onBook } from "./book.js";
import { openCard } from "./card.js";
import { byId, button, el, fill, table, tableRow } from "./dom.js";
import { byName, counted, money, percent, size } from "./figures.js";
import { addInPieces } from "./pieces.js";
import { standingOf } from "./standing.js";
import { onShow } from "./views.js";

const MOST = 200;
/** So many fill a screen; those below it come in pieces. */
const FIRST = 40;
const HEADS = ["Dish", ">Portion cost", ">Menu price", ">Food cost", ">Target", ">Price at target", ">Margin", "Standing"];
const ORDERS = /** @type {Record<string, (a: any, b: any) => number>} */ ({
  standing: (a, b) => rank(a) - rank(b) || size(b.food_cost_percent) - size(a.food_cost_percent),
  book: () => 0,
  name: (a, b) => byName(a.name, b.name),
  cost: (a, b) => size(b.portion_cost) - size(a.portion_cost),
  percent: (a, b) => size(b.food_cost_percent) - size(a.food_cost_percent),
  margin: (a, b) => size(a.margin) - size(b.margin),
});
const RANKS = ["over target", "not costed", "no menu price", "no target", "within target"];

/** Where the card of each recipe is. @type {Map<string, number>} */
let cards = new Map();

/** @type {Map<string, any[]>} */
const orders = new Map();

/** @param {any} dish */
const rank = (dish) => RANKS.indexOf(dish.standing);
/** @param {string} id */
const chosen = (id) => /** @type {HTMLInputElement} */ (byId(id)).value;

/** @param {any} dish */
function row(dish) {
  const { currency } = book.overview;
  const at = cards.get(dish.recipe);
  const name = at === undefined ? dish.name : button(dish.name, () => openCard(at), { class: "link" });
  // On a narrow screen the last column is out of sight.
  const over = dish.standing === "over target" ? el("span", { class: "warm narrow", "aria-hidden": "true" }, dish.standing) : null;
  return [
    [name, over], money(dish.portion_cost, currency), dish.menu_price ? money(dish.menu_price, currency) : "",
    dish.food_cost_percent ? percent(dish.food_cost_percent) : "", dish.target_percent ? percent(dish.target_percent) : "",
    dish.price_at_target ? money(dish.price_at_target, currency) : "", dish.margin ? money(dish.margin, currency) : "",
    standingOf(dish.standing),
  ];
}

/** @param {any[]} dishes */
function againstTarget(dishes) {
  const known = dishes.filter((dish) => dish.food_cost_percent).slice(0, 20);
  if (known.length === 0) return null;
  const shown = known.map((dish) => ({
    name: dish.name, value: size(dish.food_cost_percent), words: percent(dish.food_cost_percent),
    mark: dish.target_percent ? size(dish.target_percent) : null,
    marked: dish.target_percent ? `target ${percent(dish.target_percent)}` : "no target",
    kind: dish.standing === "over target" ? "fill over" : "fill",
  }));
  return el("figure", {}, el("figcaption", {}, "Food cost of the dishes shown, with a line at the target of each."),
    bars("Food cost against target", shown));
}

/** All dishes in an order, put so once: a field that is typed into filters them at every letter. @param {string} by @returns {any[]} */
function inOrder(by) {
  const known = orders.get(by) ?? [...book.overview.dishes].sort(ORDERS[by] ?? ORDERS.book);
  orders.set(by, known);
  return known;
}

function draw() {
  const all = book.overview.dishes;
  const words = chosen("dishes-find").trim().toLowerCase();
  const only = chosen("dishes-only");
  const found = inOrder(chosen("dishes-order")).filter((dish) =>
    (!only || dish.standing === only) && (!words || dish.name.toLowerCase().includes(words)));
  const over = all.filter((/** @type {any} */ dish) => dish.standing === "over target").length;
  const stopped = all.filter((/** @type {any} */ dish) => dish.standing === "not costed").length;
  const shown = found.slice(0, MOST);
  const cut = found.length > MOST ? ` The first ${MOST} of ${found.length} are shown: find others by their names.` : "";
  fill(byId("dishes-said"), `${counted(all.length, "dish", "dishes")}: ${over} over target, ${stopped} not costed.${cut}`);
  fill(byId("dishes-table"), shown.length ? table("Dishes", HEADS, shown.slice(0, FIRST).map(row)) : el("p", {}, "No dish is like that."));
  const body = byId("dishes-table").querySelector("tbody");
  if (body) addInPieces(byId("dishes-table"), shown.slice(FIRST), (dish) => tableRow(HEADS, row(dish)), body);
  fill(byId("dishes-picture"), againstTarget(shown));
}

/** Sets up the view. */
export function setUpDishes() {
  onShow("dishes", draw);
  onBook((overview) => {
    orders.clear();
    cards = new Map(overview?.recipes.map((/** @type {any} */ recipe, /** @type {number} */ at) => [recipe.name, at]).reverse());
  });
  for (const id of ["dishes-find", "dishes-only", "dishes-order"]) byId(id).addEventListener("input", draw);
}
