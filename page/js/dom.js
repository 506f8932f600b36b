// @ts-check
// Elements: made here and nowhere else, so that what stands in a book is text on the page and never markup.

/** @typedef {Node | string | number | null | undefined | false} Kid */

const SVG = "http://www.w3.org/2000/svg";

/**
 * An element with attributes and what is in it. Attributes that begin with `on` are listeners.
 * @param {string} tag
 * @param {Record<string, any>} [attributes]
 * @param {...(Kid | Kid[])} kids
 * @returns {HTMLElement}
 */
export function el(tag, attributes = {}, ...kids) {
  return /** @type {HTMLElement} */ (filled(document.createElement(tag), attributes, kids));
}

/**
 * An element of a picture.
 * @param {string} tag
 * @param {Record<string, any>} [attributes]
 * @param {...(Kid | Kid[])} kids
 */
export function svg(tag, attributes = {}, ...kids) {
  return filled(document.createElementNS(SVG, tag), attributes, kids);
}

/**
 * @param {Element} element
 * @param {Record<string, any>} attributes
 * @param {(Kid | Kid[])[]} kids
 */
function filled(element, attributes, kids) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? "" : String(value));
  }
  element.append(...texts(kids));
  return element;
}

/** @param {(Kid | Kid[])[]} kids */
function texts(kids) {
  const there = kids.flat().filter((kid) => kid !== null && kid !== undefined && kid !== false && kid !== "");
  return /** @type {(Node | string)[]} */ (there.map((kid) => (typeof kid === "number" ? String(kid) : kid)));
}

/**
 * Puts other things into an element.
 * @param {Element} element
 * @param {...(Kid | Kid[])} kids
 */
export function fill(element, ...kids) {
  element.replaceChildren(...texts(kids));
}

/**
 * The element of that id; the page has every one that is asked for.
 * @param {string} id
 * @returns {HTMLElement}
 */
export function byId(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no ${id}`);
  return found;
}

/**
 * A button.
 * @param {string} words
 * @param {() => void} act
 * @param {Record<string, any>} [attributes]
 */
export function button(words, act, attributes = {}) {
  return el("button", { type: "button", onclick: act, ...attributes }, words);
}

/** @param {string} head */
const columnOf = (head) => [/^~?>/.test(head) ? "number" : "", head.startsWith("~") ? "roomy" : ""].filter(Boolean).join(" ") || null;

/** A row of a table with these heads. @param {string[]} heads @param {(Kid | Kid[])[]} row */
export function tableRow(heads, row) {
  return el("tr", {}, row.map((kid, at) => {
    const kids = Array.isArray(kid) ? kid : [kid];
    return at === 0 ? el("th", { scope: "row" }, kids) : el("td", { class: columnOf(heads[at]) }, kids);
  }));
}

/**
 * A table with its head. A column whose head begins with `>` holds numbers, one that begins with `~` gives way on a narrow screen:
 * what it says stands in another column there (class `narrow`).
 * @param {string} caption
 * @param {string[]} heads
 * @param {(Kid | Kid[])[][]} rows
 * @param {Record<string, any>} [attributes]
 */
export function table(caption, heads, rows, attributes = {}) {
  const head = heads.map((words) => el("th", { scope: "col", class: columnOf(words) }, words.replace(/^~?>?/, "")));
  const body = rows.map((row) => tableRow(heads, row));
  const made = el("table", attributes, el("caption", {}, caption), el("thead", {}, el("tr", {}, head)), el("tbody", {}, body));
  // Wide tables are moved within themselves, also by keyboard.
  return el("div", { class: "wide", tabindex: 0, role: "region", "aria-label": caption }, made);
}
