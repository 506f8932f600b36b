// @ts-check
// Changes that new prices bring: dishes, items, what drove them, what was held back, what to do about each problem.
import { bars } from "./bars.js";
import { book } from "./book.js";
import { button, el, table } from "./dom.js";
import { now, stem, take } from "./download.js";
import { counted, money, percent, sentence, size } from "./figures.js";
import { problemItem } from "./problems.js";

/** @param {any} figure */
const cost = (figure) => money(figure, book.overview.currency);
/** A change of a price, with its sign. @param {any} figure */
const change = (figure) => (figure === null ? "" : `${size(figure) > 0 ? "+" : ""}${percent(figure)}`);
/** @param {any} figure */
const signed = (figure) => (figure === null ? "" : `${size(figure) > 0 ? "+" : ""}${cost(figure)}`);

/** What drove a dish, the largest first. @param {any} dish */
function drivers(dish) {
  const all = dish.drivers ?? [];
  if (all.length === 0) return null;
  const shown = all.slice(0, 8).map((/** @type {any} */ one) => ({
    name: one.credit ? `${one.item} (through a credit, the other way)` : one.item,
    value: Math.abs(size(one.change)), words: signed(one.change), kind: size(one.change) > 0 ? "fill over" : "fill",
  }));
  return el("details", {}, el("summary", {}, `What drove ${dish.name}: ${signed(dish.change)} a portion`),
    bars(`What drove ${dish.name}`, shown));
}

/** Rows that were held back, each with a tick where it may be taken all the same. @param {any[]} held @param {(items: string[]) => void} accept */
function heldBack(held, accept) {
  if (held.length === 0) return null;
  const boxes = held.map((one, at) => {
    const id = `held-${at}`;
    const words = `${one.item}: ${one.why}${one.change_percent ? `, ${change(one.change_percent)}` : ""} (${one.cell})`;
    if (!one.may_be_accepted) return el("li", {}, words);
    return el("li", {}, el("input", { type: "checkbox", id, value: one.item }), " ", el("label", { for: id }, words));
  });
  const list = el("ul", { class: "ticks" }, boxes);
  const taken = () => {
    const ticked = /** @type {HTMLInputElement[]} */ ([...list.querySelectorAll("input:checked")]);
    accept(ticked.map((box) => box.value));
  };
  const any = held.some((one) => one.may_be_accepted);
  return el("section", {}, el("h3", {}, "Held back: not in the figures"), list, any ? button("Take the ticked ones", taken) : null);
}

/** @param {any} said */
function downloads(said) {
  const name = stem(book.files[0]?.name ?? "");
  return el("div", { class: "row" },
    button("Costed workbook at the new prices", () => take(`${name}.repriced.xlsx`, "workbook", { of: "repriced", at: now().at }), { class: "main" }),
    button("Book with the new prices in it", () => take(`${name}.new-prices.xlsx`, "new-book", { at: now().at },
      (of) => (of ? `${stem(of.name)}.new-prices.${of.ending}` : `${name}.new-prices.xlsx`))),
    button("Changes as csv", () => take(`${name}.changes.csv`, "csv", { of: "changes" }), { disabled: said.dishes.length === 0 }));
}

/**
 * All that is said of a list.
 * @param {any} said
 * @param {(items: string[]) => void} accept
 */
export function changes(said, accept) {
  const dishes = said.dishes.map((/** @type {any} */ dish) => [
    dish.name, cost(dish.before.portion_cost), cost(dish.now.portion_cost), signed(dish.change),
    dish.now.food_cost_percent ? percent(dish.now.food_cost_percent) : "", dish.target_percent ? percent(dish.target_percent) : "",
    dish.newly_over ? el("span", { class: "warm" }, "newly over target") : "",
  ]);
  const items = said.items.map((/** @type {any} */ item) => [item.name, change(item.change_percent), signed(item.worth)]);
  const over = said.dishes.filter((/** @type {any} */ dish) => dish.newly_over).length;
  const unknown = said.unknown.map((/** @type {any} */ one) => el("li", {}, `${one.item || one.code} (${one.cell}): ${one.question ?? ""} ${one.what_to_do}`));
  const missing = said.missing.map((/** @type {any} */ one) => el("li", {}, `${one.item}: ${one.question ?? ""} ${one.what_to_do}`));
  return [
    el("p", { class: "said" }, `${sentence(counted(said.taken.length, "price"))} taken, ${said.held.length} held back. `
      + `${sentence(counted(said.dishes.length, "dish moves", "dishes move"))}, ${over} newly over target. Costed for ${said.as_of}.`),
    heldBack(said.held, accept),
    downloads(said),
    dishes.length ? table("Dishes that move", ["Dish", ">Before", ">Now", ">Change", ">Food cost now", ">Target", ""], dishes) : null,
    said.dishes.slice(0, 20).map(drivers),
    items.length ? table("Prices that moved", ["Item", ">Price per unit", ">Worth over the basket"], items) : null,
    unknown.length ? el("section", {}, el("h3", {}, "Not in the book"), el("ul", {}, unknown)) : null,
    missing.length ? el("section", {}, el("h3", {}, "Not on the list"), el("ul", {}, missing)) : null,
    said.problems.length ? el("details", {}, el("summary", {}, counted(said.problems.length, "problem")),
      el("ul", { class: "problems" }, said.problems.slice(0, 200).map(problemItem))) : null,
  ].flat().filter((one) => one !== null);
}
