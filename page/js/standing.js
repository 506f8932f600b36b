// @ts-check
// Standing of a dish against its target: said in words, and marked where somebody must look.
import { el } from "./dom.js";

/** @param {string} standing */
export function standingOf(standing) {
  const kind = standing === "over target" || standing === "not costed" ? "warm" : "";
  return el("span", { class: kind }, standing);
}
