// @ts-check
// Problems: at their cells, the gravest first, with what to type instead.
import { book, onBook } from "./book.js";
import { byId, el, fill } from "./dom.js";
import { counted, sentence } from "./figures.js";
import { onShow } from "./views.js";

const WORDS = /** @type {Record<string, string>} */ ({ error: "Error", warning: "Warning", note: "Note" });

/** Where a problem is, in words. @param {any} problem */
export function place(problem) {
  return [problem.file, problem.sheet, problem.cell].filter(Boolean).join(" ▸ ");
}

/** @param {any} problem */
export function problemItem(problem) {
  return el("li", { class: problem.severity },
    el("p", { class: "at" }, el("strong", {}, WORDS[problem.severity] ?? ""), " ", el("span", {}, place(problem))),
    el("p", {}, sentence(problem.message)),
    el("p", { class: "help" }, problem.help));
}

function draw() {
  const { problems, more, counts, sheets } = book.overview;
  const words = `${counted(counts.error, "error")}, ${counted(counts.warning, "warning")}, ${counted(counts.note, "note")}.`;
  const stop = counts.error > 0 ? " An error stops the dishes that it touches; all others are costed." : "";
  fill(byId("problems-said"), sentence(words) + stop);
  fill(byId("problems-list"), problems.map(problemItem));
  const rest = Object.entries(more).map(([code, count]) => el("li", {}, `${code}: ${count} more of this kind`));
  fill(byId("problems-more"), rest);
  const read = sheets.map((/** @type {any} */ one) => {
    const what = one.output || one.guide ? "passed over" : one.tables ? counted(one.tables, "table") : "nothing was read";
    return el("li", {}, `${one.sheet}: ${what}`);
  });
  fill(byId("sheets"), read);
}

/** Sets up the view. */
export function setUpProblems() {
  onShow("problems", draw);
  onBook((overview) => {
    const count = overview ? overview.counts.error + overview.counts.warning + overview.counts.note : 0;
    fill(byId("problems-tab"), count ? `Problems (${count})` : "Problems");
  });
}
