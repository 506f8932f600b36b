// @ts-check
// Work that takes time: told while it goes on, and stopped on demand.
import { byId } from "./dom.js";
import { Ended, restart } from "./engine.js";

const SOON = 250;

/** What is done after the engine was ended, for the book to be there again. @type {() => Promise<void>} */
let again = async () => {};
let busy = 0;

/** @param {() => Promise<void>} act */
export function afterEnd(act) {
  again = act;
}

/** Says a sentence to everybody, readers of the screen within. @param {string} words @param {"bad" | ""} [kind] */
export function say(words, kind = "") {
  byId("says").textContent = words;
  byId("says").className = kind;
}

/**
 * Does something, shows after a moment that it goes on, and says what went wrong.
 * @template T
 * @param {string} words
 * @param {() => Promise<T>} act
 * @returns {Promise<T | undefined>}
 */
export async function work(words, act) {
  busy += 1;
  byId("status").setAttribute("aria-busy", "true");
  const began = performance.now();
  const shown = setInterval(() => {
    const seconds = Math.round((performance.now() - began) / 1000);
    if (performance.now() - began < SOON) return;
    byId("work").hidden = false;
    byId("doing").textContent = seconds > 1 ? `${words} … ${seconds} s` : `${words} …`;
  }, 100);
  try {
    return await act();
  } catch (fault) {
    const why = fault instanceof Error ? fault.message : String(fault);
    if (fault instanceof Ended) await again();
    say(why, "bad");
    return undefined;
  } finally {
    clearInterval(shown);
    busy -= 1;
    if (busy === 0) {
      byId("work").hidden = true;
      byId("status").removeAttribute("aria-busy");
    }
  }
}

/** Makes the button for stopping stop. */
export function stoppable() {
  byId("stop").addEventListener("click", () => restart("Stopped. Nothing was changed."));
}
