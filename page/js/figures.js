// @ts-check
// Figures in words: the engine's decimals, rounded for the eye alone. Nothing here is figured on.

/** @typedef {string | null | undefined} Figure */

export const NOT_KNOWN = "not known";

/** Made once: making one takes longer than all that it does. @type {Map<string, Intl.NumberFormat>} */
const formats = new Map();

/** @param {Figure} figure @param {Intl.NumberFormatOptions} options */
function shown(figure, options) {
  const key = JSON.stringify(options);
  const format = formats.get(key) ?? new Intl.NumberFormat("en", options);
  formats.set(key, format);
  // A text goes in whole: no digit is lost on the way to the rounding.
  return format.format(/** @type {any} */ (figure));
}

/**
 * @param {Figure} figure
 * @param {string} currency
 */
export function money(figure, currency) {
  if (figure === null || figure === undefined) return NOT_KNOWN;
  try {
    return shown(figure, { style: "currency", currency, currencyDisplay: "narrowSymbol" });
  } catch {
    // A book without a currency, or with one that the browser does not know.
    return [currency, shown(figure, { minimumFractionDigits: 2, maximumFractionDigits: 2 })].filter(Boolean).join(" ");
  }
}

/** A percentage such as "28.04", which is 28 %. @param {Figure} figure */
export function percent(figure) {
  if (figure === null || figure === undefined) return NOT_KNOWN;
  return `${shown(figure, { minimumFractionDigits: 1, maximumFractionDigits: 1 })} %`;
}

/** A quantity: four digits say all that a scale does. @param {Figure} figure */
export function amount(figure) {
  if (figure === null || figure === undefined) return "";
  return shown(figure, { maximumSignificantDigits: 4 });
}

/** How long a bar is, or which of two stands first. @param {Figure} figure */
export function size(figure) {
  return Number(figure ?? 0);
}

/** Names in their order; made once, for a large book compares a hundred thousand times. */
export const byName = new Intl.Collator().compare;

/** @param {number} count @param {string} one @param {string} [many] */
export function counted(count, one, many = `${one}s`) {
  return `${count === 0 ? "no" : shown(String(count), {})} ${count === 1 ? one : many}`;
}

/** Words as a sentence begins. @param {string} words */
export function sentence(words) {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
