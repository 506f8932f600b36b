// @ts-check
// Take home: what the book comes to, as files. Whatever is being tried, these are of the book as it was opened.
import { book } from "./book.js";
import { byId, button, el, fill } from "./dom.js";
import { now, stem, take } from "./download.js";
import { onShow } from "./views.js";

const TABLES = [
  ["Dishes", "dishes"], ["Lines of all recipes", "lines"], ["Parts of all yield tests", "parts"], ["Problems", "problems"],
];

function draw() {
  const name = stem(book.files[0]?.name ?? "");
  const workbook = () => take(`${name}.costed.xlsx`, "workbook", { of: "book", at: now().at });
  fill(byId("home-workbook"), button("Costed workbook", workbook, { class: "main" }));
  fill(byId("home-tables"), TABLES.map(([words, of]) => el("li", {}, button(`${words} as csv`, () => take(`${name}.${of}.csv`, "csv", { of })))),
    el("li", {}, button("All figures as JSON", () => take(`${name}.costs.json`, "costs", {}))));
}

/** Sets up the view. */
export function setUpHome() {
  onShow("home", draw);
}
