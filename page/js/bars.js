// @ts-check
// Pictures: plain bars with their words and figures, drawn so that paper, dark and light are all served.
import { svg } from "./dom.js";

/** As wide as there is room for: letters keep their size on a narrow screen. */
const wide = () => Math.max(260, Math.min(640, document.documentElement.clientWidth - 34));
const ROW = 34;
let many = 0;

/** How each picture is drawn, for when the window is of another width. @type {WeakMap<Element, () => Element>} */
const drawers = new WeakMap();

/**
 * A picture with a title and a text in its place for those who do not see it.
 * @param {string} title
 * @param {string} instead
 * @param {number} height
 * @param {(width: number) => Node[]} draw
 */
export function picture(title, instead, height, draw) {
  const id = `picture-${many++}`;
  const drawn = () => {
    const width = wide();
    const made = svg("svg", { viewBox: `0 0 ${width} ${height}`, role: "img", "aria-labelledby": `${id}-t ${id}-d`, class: "picture" },
      svg("title", { id: `${id}-t` }, title), svg("desc", { id: `${id}-d` }, instead), draw(width));
    drawers.set(made, drawn);
    return made;
  };
  return drawn();
}

/** Draws the pictures anew whenever there is other room for them. */
export function setUpPictures() {
  let last = wide();
  let soon = 0;
  window.addEventListener("resize", () => {
    cancelAnimationFrame(soon);
    soon = requestAnimationFrame(() => {
      if (wide() === last) return;
      last = wide();
      for (const one of document.querySelectorAll("svg.picture")) one.replaceWith(drawers.get(one)?.() ?? one);
    });
  });
}

/** @typedef {{name: string, value: number, words: string, kind?: string, mark?: number | null, marked?: string}} Bar */

/**
 * Bars below one another; where a bar has a mark, a line stands there, such as a target.
 * @param {string} title
 * @param {Bar[]} bars
 */
export function bars(title, bars) {
  const most = Math.max(...bars.map((bar) => Math.max(bar.value, bar.mark ?? 0)), 1e-9);
  const draw = (/** @type {number} */ width) => /** @type {Node[]} */ (bars.flatMap((/** @type {Bar} */ bar, at) => {
    const long = (/** @type {number} */ value) => Math.max(0, (value / most) * (width - 90));
    const top = at * ROW;
    const end = long(bar.value);
    const line = typeof bar.mark === "number" ? long(bar.mark) : null;
    return [
      svg("text", { x: 0, y: top + 12, class: "name" }, bar.name),
      svg("rect", { x: 0, y: top + 17, width: Math.max(end, 1), height: 11, class: bar.kind ?? "fill" }),
      svg("text", { x: (line !== null && line > end - 4 && line < end + 58 ? line : end) + 6, y: top + 27, class: "figure" }, bar.words),
      line === null ? null : svg("line", { x1: line, x2: line, y1: top + 14, y2: top + 31, class: "mark" }),
    ].filter((kid) => kid !== null);
  }));
  const instead = bars.map((bar) => `${bar.name}: ${bar.words}${bar.marked ? `, ${bar.marked}` : ""}`).join("; ");
  return picture(title, instead, bars.length * ROW, draw);
}

/** @typedef {{name: string, value: number, words: string, kind: string}} Share */

/**
 * One bar cut into shares, with a list of them below: its length never changes, only the cuts do.
 * @param {string} title
 * @param {Share[]} shares
 * @param {number} wide
 * @param {number} top
 */
export function stacked(title, shares, wide, top = 0) {
  const whole = shares.reduce((sum, share) => sum + share.value, 0) || 1;
  let from = 0;
  const kids = /** @type {Node[]} */ ([svg("text", { x: 0, y: top + 13, class: "name" }, title)]);
  for (const share of shares) {
    const width = (share.value / whole) * wide;
    kids.push(svg("rect", { x: from, y: top + 20, width, height: 26, class: `share ${share.kind}` }));
    // A figure that has room stands in its share; all of them stand in the table beside it.
    if (width > 64) kids.push(svg("text", { x: from + 6, y: top + 38, class: `on ${share.kind}` }, fitting(share, width)));
    from += width;
  }
  return kids;
}

/** @param {Share} share @param {number} width */
function fitting(share, width) {
  const words = `${share.name} ${share.words}`;
  return words.length * 7.2 < width - 10 ? words : share.words;
}

/** @param {Share[]} shares */
export function sharesInWords(shares) {
  return shares.map((share) => `${share.name} ${share.words}`).join(", ");
}
