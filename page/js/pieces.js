// @ts-check
// Pieces: what is long is drawn some at a time, and the page answers in between.

/** So many milliseconds at a time: nobody notices that the page was busy. */
const TURN = 12;
/** The last drawing of each element: one that was begun before it ends. @type {WeakMap<Element, object>} */
const last = new WeakMap();

/**
 * Puts what is made of each thing behind what stands in an element; gives whether all of it is there, or the element was taken for
 * another drawing meanwhile.
 * @template T
 * @param {Element} element
 * @param {T[]} things
 * @param {(thing: T, at: number) => Node} make
 * @param {Element} [within] where within the element, if not at its end
 */
export async function addInPieces(element, things, make, within = element) {
  const mine = {};
  last.set(element, mine);
  let began = performance.now();
  for (const [at, thing] of things.entries()) {
    if (performance.now() - began > TURN) {
      await new Promise((done) => { setTimeout(done); });
      if (last.get(element) !== mine) return false;
      began = performance.now();
    }
    within.append(make(thing, at));
  }
  return true;
}
