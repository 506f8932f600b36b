// @ts-check
// Views: one of them is shown, chosen by its button above.
import { onBook } from "./book.js";
import { byId } from "./dom.js";
import { say } from "./work.js";

/** @type {Map<string, () => void>} */
const shows = new Map();
let current = "";

/** @returns {HTMLElement[]} */
const sections = () => [...document.querySelectorAll("main > section")].map((one) => /** @type {HTMLElement} */ (one));
/** @returns {HTMLElement[]} */
const buttons = () => [...document.querySelectorAll("nav button")].map((one) => /** @type {HTMLElement} */ (one));

/** What is done when a view comes up and has not been drawn for this book. @param {string} name @param {() => void} act */
export function onShow(name, act) {
  shows.set(name, act);
}

/** @type {Set<string>} */
const drawn = new Set();

/** Shows a view. @param {string} name @param {boolean} [quiet] whether the focus stays where it is */
export function show(name, quiet = false) {
  current = name;
  for (const section of sections()) section.hidden = section.id !== name;
  for (const one of buttons()) {
    if (one.dataset.view === name) one.setAttribute("aria-current", "page");
    else one.removeAttribute("aria-current");
  }
  if (!drawn.has(name)) {
    drawn.add(name);
    shows.get(name)?.();
  }
  if (quiet) return;
  byId(name).querySelector("h2")?.focus();
}

/** Whether what had the focus is gone or out of sight. */
const lost = () => !document.activeElement || document.activeElement === document.body || document.activeElement.getClientRects().length === 0;

/** Sees to it that a key goes somewhere: to the view's heading where what was pressed is gone. */
export function keepFocus() {
  if (lost()) byId(current).querySelector("h2")?.focus();
}

/** Sets up the buttons. */
export function setUpViews() {
  for (const one of buttons()) {
    one.addEventListener("click", () => {
      // What was said was of something else.
      say("");
      show(one.dataset.view ?? "");
    });
  }
  for (const heading of document.querySelectorAll("main > section > h2")) heading.setAttribute("tabindex", "-1");
  onBook((overview) => {
    drawn.clear();
    const bad = overview?.counts.error > 0;
    if (overview) {
      show(current && current !== "problems" && !bad ? current : bad ? "problems" : "dishes", true);
      keepFocus();
    } else for (const section of sections()) section.hidden = true;
  });
}
