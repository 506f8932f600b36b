// @ts-check
// Card of a recipe: which is shown, and which of its faces.
import { book } from "./book.js";
import { choose, offer } from "./choice.js";
import { byId, button, el, fill } from "./dom.js";
import { ask } from "./engine.js";
import { costingFace, kitchenFace } from "./faces.js";
import { onShow, show } from "./views.js";
import { work } from "./work.js";

const entries = () => book.overview.recipes.map((/** @type {any} */ recipe, /** @type {number} */ value) => ({ value, words: recipe.name }));

/** How many cards were asked for: the last is shown, also where another comes later. */
let asked = 0;

/** @param {number} at */
async function draw(at) {
  asked += 1;
  const mine = asked;
  const { said: card } = await ask("card", { recipe: at });
  if (mine !== asked) return;
  const face = /** @type {HTMLInputElement} */ (byId("face")).value;
  fill(byId("card"), face === "kitchen" ? kitchenFace(card) : costingFace(card));
  choose("recipe", entries()[at]);
}

/** Shows the card of a recipe. @param {number} at */
export function openCard(at) {
  show("recipes");
  return work("Opening the card", () => draw(at));
}

function list() {
  /** @type {HTMLInputElement} */ (byId("recipe-find")).value = "";
  offer("recipe", "recipe-find", entries());
  if (book.overview.recipes.length === 0) fill(byId("card"), el("p", {}, "The book has no recipe."));
  else work("Opening the card", () => draw(0));
}

/** Sets up the view. */
export function setUpCards() {
  onShow("recipes", list);
  const again = () => work("Opening the card", () => draw(Number(/** @type {HTMLSelectElement} */ (byId("recipe")).value)));
  byId("recipe").addEventListener("change", again);
  byId("recipe-find").addEventListener("input", () => { if (offer("recipe", "recipe-find", entries())) again(); });
  byId("face").addEventListener("change", again);
  fill(byId("print-card"), button("Print this card", () => window.print()));
}
