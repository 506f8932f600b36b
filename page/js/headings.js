// @ts-check
// Headings of supplier's list: asked for where they are not known, shown where they are, and chosen anew either way.
import { byId, button, el, fill } from "./dom.js";
import { say } from "./work.js";

/** What a list must have or mostly has; the rest stands behind a click. */
const FIRST = ["Item", "Pack", "Price", "Per", "Code"];

/** @typedef {[string, string]} Pair a column of ours, and the heading that it stands under */
/** @typedef {{headings: string[], ours: string[], read?: Pair[], likely?: [string, string[]][], why?: string}} Asked */

/** Drop-downs for every column of ours. @param {Asked} asked @param {Map<string, string>} now @param {Set<string>} kept */
function choices(asked, now, kept) {
  const pick = (/** @type {string} */ ours) => {
    const id = `heading-${ours}`;
    const none = kept.has(ours) ? null : el("option", { value: "" }, "not in the list");
    return el("div", { class: "field" }, el("label", { for: id }, ours), el("select", { id, "data-ours": ours }, none,
      asked.headings.map((one) => el("option", { value: one, selected: one === now.get(ours) }, one))));
  };
  const others = asked.ours.filter((ours) => !FIRST.includes(ours));
  const open = others.some((ours) => now.has(ours) && !kept.has(ours));
  return [el("div", { class: "fields" }, FIRST.map(pick)),
    el("details", { open }, el("summary", {}, "More columns"), el("div", { class: "fields" }, others.map(pick)))];
}

/** What is chosen. @returns {Pair[]} */
function chosen() {
  const all = /** @type {HTMLSelectElement[]} */ ([...byId("headings").querySelectorAll("select")]);
  return all.filter((one) => one.value).map((one) => [one.dataset.ours ?? "", one.value]);
}

/** Hands on what was chosen, unless one heading was chosen for two columns. @param {Pair[]} pairs @param {(pairs: Pair[]) => void} use */
function agreed(pairs, use) {
  const both = pairs.filter(([, theirs]) => pairs.filter((pair) => pair[1] === theirs).length > 1);
  if (both.length === 0) use(pairs);
  else say(`“${both[0][1]}” is chosen for ${both.filter((pair) => pair[1] === both[0][1]).map(([ours]) => ours).join(" and ")}: choose it for one of them.`, "bad");
}

/**
 * Asks which of a list's headings is which.
 * @param {Asked} asked
 * @param {Pair[]} said what was said before
 * @param {(pairs: Pair[]) => void} use
 */
export function askHeadings(asked, said, use) {
  const now = new Map(said);
  for (const ours of asked.ours) {
    const likely = asked.likely?.find(([one]) => one === ours.toLowerCase())?.[1][0];
    if (likely && !now.has(ours)) now.set(ours, likely);
  }
  fill(byId("headings"), el("h3", {}, "Which heading is which"), el("p", {}, asked.why), choices(asked, now, new Set()),
    button("Use these headings", () => agreed(chosen(), use), { class: "main" }));
  byId("headings").querySelector("select")?.focus();
}

/**
 * Shows as what the headings of a list were read, to be chosen otherwise.
 * @param {Asked} asked
 * @param {Pair[]} said what was said before
 * @param {(pairs: Pair[]) => void} use
 */
export function showHeadings(asked, said, use) {
  const read = new Map(asked.read);
  const told = new Map(said);
  // What the list says by itself may stand under another heading, but not under none.
  const kept = new Set([...read.keys()].filter((ours) => !told.has(ours)));
  const changed = () => chosen().filter(([ours, theirs]) => told.has(ours) || read.get(ours) !== theirs);
  const words = [...read].map(([ours, theirs]) => (ours === theirs ? ours : `${ours} from “${theirs}”`)).join(", ");
  fill(byId("headings"), el("details", {}, el("summary", {}, `Headings: read were ${words}`),
    el("p", {}, "If one of them is wrong, choose the right heading."), choices(asked, read, kept),
    button("Use these headings", () => agreed(changed(), use))));
}
