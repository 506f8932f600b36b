// @ts-check
// Slider of a knob: moved by finger, by the arrow keys, or by a number beside it, and moved back.
import { button, el, fill } from "./dom.js";
import { amount, money } from "./figures.js";

const WHAT = /** @type {Record<string, string>} */ ({
  price: "Price of", yield: "Yield of", credit: "Credit of", portion: "Portion of", "menu-price": "Menu price of",
});

/** @param {any} knob @param {string} at @param {string} currency */
function inWords(knob, at, currency) {
  return knob.unit ? `${amount(at)} ${knob.unit}` : money(at, currency);
}

/** Where a knob stands when so much is typed: beyond its ends it does not go. @param {any} knob @param {string} typed */
function within(knob, typed) {
  if (typed === knob.now) return typed;
  if (Number(typed) > Math.max(Number(knob.high), Number(knob.now))) return knob.high;
  return Number(typed) < Number(knob.low) ? knob.low : typed;
}

/**
 * The slider of a knob; `moved` is told where it stands, or nothing where it stands as in the book.
 * @param {any} knob
 * @param {number} at
 * @param {string} currency
 * @param {(at: number, to: string | null) => void} moved
 */
export function slider(knob, at, currency, moved) {
  const id = `knob-${at}`;
  const words = `${WHAT[knob.kind]} ${knob.name}`;
  const short = String(Number(Number(knob.now).toPrecision(6)));
  const ends = { min: knob.low, max: knob.high };
  const shown = el("output", { for: id }, inWords(knob, knob.now, currency));
  const range = /** @type {HTMLInputElement} */ (el("input", { type: "range", id, ...ends, step: knob.step, value: knob.now }));
  const number = /** @type {HTMLInputElement} */ (el("input", { type: "number", ...ends, step: "any", value: short, "aria-label": `${words}, exactly` }));
  const move = (/** @type {string} */ typed) => {
    if (typed === "" || Number.isNaN(Number(typed))) return;
    const to = within(knob, typed);
    const own = inWords(knob, knob.now, currency);
    const ends = `; from ${inWords(knob, knob.low, currency)} to ${inWords(knob, knob.high, currency)} can be tried`;
    fill(shown, (to === knob.now ? own : `${inWords(knob, to, currency)}, in the book ${own}`) + (to === typed ? "" : ends));
    range.setAttribute("aria-valuetext", inWords(knob, to, currency));
    moved(at, to === knob.now ? null : to);
  };
  range.addEventListener("input", () => { number.value = range.value; move(range.value); });
  // What is being typed is left alone; then the number is the one that is tried.
  number.addEventListener("input", () => { range.value = number.value; move(number.value); });
  number.addEventListener("change", () => { number.value = number.value === "" ? short : within(knob, number.value); });
  const back = button("As in the book", () => { range.value = knob.now; number.value = short; move(knob.now); range.focus(); });
  return el("li", { class: "knob" }, el("label", { for: id }, words, knob.detail ? ` (${knob.detail})` : ""), range, number, back, shown);
}
