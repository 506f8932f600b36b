// @ts-check
// Choice among many: a list to pick from that stays short, with a field above it that finds what is meant.
import { byId, el, fill } from "./dom.js";

const MOST = 300;

/** @typedef {{value: number, words: string}} Entry */

/**
 * Fills a list with the entries that hold what is typed in the field; the one that is chosen stays in it.
 * @param {string} select
 * @param {string} find
 * @param {Entry[]} entries
 */
export function offer(select, find, entries) {
  const list = /** @type {HTMLSelectElement} */ (byId(select));
  const field = /** @type {HTMLInputElement} */ (byId(find));
  const words = field.value.trim().toLowerCase();
  const found = words ? entries.filter((entry) => entry.words.toLowerCase().includes(words)) : entries;
  fill(list, found.slice(0, MOST).map((entry) => el("option", { value: entry.value }, entry.words)));
  const field_ = field.closest(".field");
  if (field_ instanceof HTMLElement) field_.hidden = entries.length <= 12;
  return found.length;
}

/** Chooses an entry, also one that is not in the list now. @param {string} select @param {Entry} entry */
export function choose(select, entry) {
  const list = /** @type {HTMLSelectElement} */ (byId(select));
  if (![...list.options].some((option) => option.value === String(entry.value))) {
    list.prepend(el("option", { value: entry.value }, entry.words));
  }
  list.value = String(entry.value);
}
