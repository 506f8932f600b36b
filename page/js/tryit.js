// @ts-check
// Try it: a price, a yield, a portion or a menu price moved. The book is read and costed as if that stood in it, and stays as it is.
import { book, onBook } from "./book.js";
import { offer } from "./choice.js";
import { drawCredit } from "./credit.js";
import { byId, button, el, fill, table } from "./dom.js";
import { now, stem, take } from "./download.js";
import { ask } from "./engine.js";
import { byName, counted, money, percent } from "./figures.js";
import { kitchens, trimOf } from "./trim.js";
import { slider } from "./slider.js";
import { standingOf } from "./standing.js";
import { onShow } from "./views.js";
import { say, work } from "./work.js";

const MOST = 200;
const SORTED = 2000;
/** @type {any[]} */
let knobs = [];
/** What is moved: the knob's place among all, and where it stands. @type {Map<number, string>} */
const moves = new Map();
let asking = false;
let wanted = false;

/** Only dishes that differ, first those that cross their target. @param {any} tried */
function draw(tried) {
  const rows = tried.dishes.map((/** @type {any} */ dish, /** @type {number} */ at) => ({ dish, was: book.overview.dishes[at] }))
    .filter((/** @type {any} */ one) => ["portion_cost", "menu_price", "food_cost_percent"].some((key) => one.dish[key] !== one.was[key]));
  const crossed = rows.filter((/** @type {any} */ one) => one.dish.standing !== one.was.standing);
  const words = crossed.map((/** @type {any} */ one) => `${one.dish.name} is now ${one.dish.standing}; in the book it is ${one.was.standing}.`);
  fill(byId("tried-said"), moves.size === 0 ? "Nothing is moved here: every dish is as in the book. The credit above moves for itself."
    : words.length ? words.join(" ") : `Tried: ${counted(rows.length, "dish changes", "dishes change")}, none crosses its target.`);
  const { currency } = book.overview;
  const both = (/** @type {any} */ one, /** @type {string} */ key, /** @type {(figure: any) => string} */ say_) => [
    one.was[key] ? say_(one.was[key]) : "", one.dish[key] ? say_(one.dish[key]) : ""];
  const cells = rows.slice(0, MOST).map((/** @type {any} */ one) => [one.dish.name, ...both(one, "portion_cost", (figure) => money(figure, currency)),
    ...both(one, "food_cost_percent", percent), ...both(one, "margin", (figure) => money(figure, currency)), standingOf(one.dish.standing)]);
  const heads = ["Dish", ">Portion, book", ">tried", ">Food cost, book", ">tried", ">Margin, book", ">tried", "Standing as tried"];
  fill(byId("tried-table"), cells.length ? table("Only tried: none of this is in the book", heads, cells, { class: "tried" }) : null,
    rows.length > MOST ? el("p", {}, `The first ${MOST} of ${rows.length} dishes that change.`) : null);
  fill(byId("tried-stopped"), tried.stopped.map((/** @type {string} */ one) => el("li", {}, one)));
  byId("tried-save").hidden = moves.size === 0;
}

/** Asks for what is moved now; moves that come meanwhile are asked for once, by their last stand. */
async function costed() {
  if (asking) { wanted = true; return; }
  asking = true;
  try {
    do {
      wanted = false;
      draw((await ask("try", { moves: [...moves].map(([knob, at]) => ({ knob, value: at })) })).said);
    } while (wanted);
  } catch (fault) {
    say(fault instanceof Error ? fault.message : String(fault), "bad");
  } finally {
    asking = false;
  }
}

function offered() {
  const kind = /** @type {HTMLSelectElement} */ (byId("knob-kind")).value;
  const of = knobs.map((knob, at) => ({ knob, at })).filter((one) => one.knob.kind === kind);
  // Those of a large book stay in its order: putting them in another takes longer than anybody waits.
  if (of.length <= SORTED) of.sort((a, b) => byName(a.knob.name, b.knob.name));
  const found = offer("knob-name", "knob-find", of.map(({ knob, at }) => ({ value: at, words: `${knob.name}${knob.detail ? `, ${knob.detail}` : ""}` })));
  /** @type {HTMLButtonElement} */ (byId("knob-add")).disabled = found === 0;
}

/** @param {number} at @param {string | null} to where it stands; nothing is as in the book */
function moved(at, to) {
  if (to === null) moves.delete(at);
  else moves.set(at, to);
  costed();
}

function added() {
  const at = Number(/** @type {HTMLSelectElement} */ (byId("knob-name")).value);
  if (!byId("knobs").querySelector(`#knob-${at}`)) byId("knobs").append(slider(knobs[at], at, book.overview.currency, moved));
  /** @type {HTMLElement} */ (byId("knobs").querySelector(`#knob-${at}`)).focus();
}

async function start() {
  knobs = (await ask("knobs")).said.all;
  moves.clear();
  fill(byId("knobs"));
  offered();
  await costed();
  fill(byId("try-kitchens"), kitchens(await trimOf(), ", as the book stands"));
  await drawCredit();
}

/** Sets up the view. */
export function setUpTrying() {
  onShow("try", () => { work("Preparing", start); });
  onBook(() => { moves.clear(); knobs = []; });
  byId("knob-kind").addEventListener("change", () => {
    // What was sought was of another kind.
    /** @type {HTMLInputElement} */ (byId("knob-find")).value = "";
    offered();
  });
  byId("knob-find").addEventListener("input", offered);
  byId("knob-add").addEventListener("click", added);
  fill(byId("tried-save"), button("Save as tried", () => {
    take(`${stem(book.files[0]?.name ?? "")}.tried.costed.xlsx`, "workbook", { of: "tried", at: now().at });
  }), el("p", { class: "quiet" }, "A costed workbook of what was tried, with a sheet that says so. The book's own downloads stand under Take home."));
}
