// @ts-check
// Start: files are chosen or dropped, a sample is opened, an empty book is taken home.
import { book, built, contents, costFor, onBook, open } from "./book.js";
import { byId, button, el, fill } from "./dom.js";
import { take } from "./download.js";
import { work } from "./work.js";

const SAMPLES = [
  ["Teaching kitchen, US measures", ["teaching-kitchen.xlsx"]],
  ["Small restaurant, metric, in two files", ["metric-kitchen-prices.csv", "metric-kitchen.xlsx"]],
];
const EMPTY = [
  ["Book, US measures", "us-book.xlsx"],
  ["Book, metric", "metric-book.xlsx"],
  ["Form for a yield test, US measures", "us-bench-form.xlsx"],
  ["Form for a yield test, metric", "metric-bench-form.xlsx"],
];

/** Whether the next files are put beside those that are open. */
let beside = false;

/** @param {Iterable<File>} files @param {boolean} also */
async function chosen(files, also) {
  const all = [...files];
  if (all.length === 0) return;
  await work("Reading", async () => open(await contents(all), also && book.files.length > 0));
}

function dropping() {
  const whole = document.documentElement;
  const over = (/** @type {DragEvent} */ event) => {
    event.preventDefault();
    whole.classList.toggle("over", event.type === "dragover");
  };
  for (const type of ["dragover", "dragleave"]) whole.addEventListener(type, /** @type {any} */ (over));
  whole.addEventListener("drop", (event) => {
    over(event);
    // A list dropped among the new prices is a list: that view takes it before.
    const added = event.target instanceof Element && event.target.closest("#book") !== null;
    chosen(event.dataTransfer?.files ?? [], added);
  });
}

/** @param {HTMLInputElement} input @param {boolean} also */
function choose(input, also) {
  beside = also;
  input.value = "";
  input.click();
}

/** @param {any} overview */
function shown(overview) {
  document.body.classList.toggle("open", Boolean(overview));
  byId("book").hidden = !overview;
  if (!overview) return;
  const names = book.files.map((file) => file.name).join(", ");
  const house = overview.house || names;
  fill(byId("house"), house);
  fill(byId("files-open"), house === names ? "" : names);
  const day = /** @type {HTMLInputElement} */ (byId("day"));
  // Set anew it would forget what is being typed.
  if (day.value !== overview.as_of) day.value = overview.as_of;
  byId("many").hidden = !overview.many;
}

/** Sets up what stands at the top of the page. */
export function setUpStart() {
  const input = /** @type {HTMLInputElement} */ (byId("files"));
  input.addEventListener("change", () => chosen(input.files ?? [], beside));
  byId("choose").addEventListener("click", () => choose(input, false));
  byId("new").addEventListener("click", () => choose(input, false));
  byId("add").addEventListener("click", () => choose(input, true));
  const day = /** @type {HTMLInputElement} */ (byId("day"));
  let typing = 0;
  // A day that is typed digit by digit is none in between, or one of the year 20.
  day.addEventListener("change", () => {
    clearTimeout(typing);
    typing = setTimeout(() => { if (day.value && day.validity.valid && day.value !== book.overview?.as_of) costFor(day.value); }, 500);
  });
  byId("own-day").addEventListener("click", () => costFor(""));
  fill(byId("samples"), SAMPLES.map(([words, names]) => el("li", {}, button(String(words), () => {
    work("Opening", async () => open(await built(/** @type {string[]} */ (names)), false));
  }))));
  fill(byId("empty"), EMPTY.map(([words, name]) => el("li", {}, button(words, () => {
    take(name, "built", { name });
  }))));
  dropping();
  onBook(shown);
}
