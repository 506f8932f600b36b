// @ts-check
// Dishes: a table that is sorted and filtered, those over their target first, and each against its target in a picture.
import { bars } from "./bars.js";
import { book, onBook } from "./book.js";
import { openCard } from "./card.js";
import { byId, button, el, fill, table } from "./dom.js";
import { byName, counted, money, percent, size } from "./figures.js";
import { standingOf } from "./standing.js";
import { onShow } from "./views.js";

const MOST = 200;
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

function draw() {
  const all = book.overview.dishes;
  const words = chosen("dishes-find").trim().toLowerCase();
  const only = chosen("dishes-only");
  const found = all.filter((/** @type {any} */ dish) =>
    (!only || dish.standing === only) && (!words || dish.name.toLowerCase().includes(words)));
  found.sort(ORDERS[chosen("dishes-order")] ?? ORDERS.book);
  const over = all.filter((/** @type {any} */ dish) => dish.standing === "over target").length;
  const stopped = all.filter((/** @type {any} */ dish) => dish.standing === "not costed").length;
  const shown = found.slice(0, MOST);
  const cut = found.length > MOST ? ` The first ${MOST} of ${found.length} are shown: find others by their names.` : "";
  fill(byId("dishes-said"), `${counted(all.length, "dish", "dishes")}: ${over} over target, ${stopped} not costed.${cut}`);
  const heads = ["Dish", ">Portion cost", ">Menu price", ">Food cost", ">Target", ">Price at target", ">Margin", "Standing"];
  fill(byId("dishes-table"), shown.length ? table("Dishes", heads, shown.map(row)) : el("p", {}, "No dish is like that."));
  fill(byId("dishes-picture"), againstTarget(shown));
}

/** Sets up the view. */
export function setUpDishes() {
  onShow("dishes", draw);
  onBook((overview) => {
    cards = new Map(overview?.recipes.map((/** @type {any} */ recipe, /** @type {number} */ at) => [recipe.name, at]).reverse());
  });
  for (const id of ["dishes-find", "dishes-only", "dishes-order"]) byId(id).addEventListener("input", draw);
}
