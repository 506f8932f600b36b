// @ts-check
// Engine: the worker as the page sees it. One question after another; Stop ends the worker and starts another.
import { byId } from "./dom.js";

/** @typedef {{said: any, file: Uint8Array | null}} Answer */

/** The question was stopped by the user, or the engine by a fault. */
export class Ended extends Error {}

/** @type {Worker | null} */
let worker = null;
/** @type {Promise<any> | null} */
let ready = null;
let next = 0;
/** Who waits for an answer, and the pieces of its long lists that have come. */
/** @typedef {{resolve: (answer: any) => void, reject: (why: Error) => void, lists: Map<string, any[][]>}} Waiting */
/** @type {Map<number, Waiting>} */
const waiting = new Map();

function started() {
  const script = byId("worker").textContent ?? "";
  const address = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
  worker = new Worker(address);
  URL.revokeObjectURL(address);
  worker.onmessage = ({ data }) => answered(data);
  worker.onerror = (event) => restart(`The engine could not start: ${event.message}`);
  ready = posted({ packed: (byId("engine").textContent ?? "").trim() });
  ready.catch(() => {});
}

/** @param {any} data */
function answered(data) {
  const one = waiting.get(data.id);
  if (data.piece) {
    one?.lists.set(data.name, [...(one.lists.get(data.name) ?? []), data.piece]);
    return;
  }
  waiting.delete(data.id);
  if (!one) return;
  if (data.fault !== undefined) {
    // Where in the code it was is for nobody who reads this.
    restart(`The engine stopped, and was started anew: ${data.fault.replace(/^panicked at [^\n]*\n/, "")}.`, one);
    return;
  }
  const { said, file } = data;
  for (const [name, pieces] of one.lists) said.ok[name] = pieces.flat();
  if (said.no !== undefined) one.reject(new Error(said.no));
  else one.resolve({ said: said.ok, file });
}

/**
 * Ends the worker, with whatever it does, and starts another.
 * @param {string} why
 * @param {{reject: (why: Error) => void}} [also]
 */
export function restart(why, also) {
  worker?.terminate();
  const left = [...waiting.values(), ...(also ? [also] : [])];
  waiting.clear();
  started();
  for (const one of left) one.reject(new Ended(why));
}

/** @param {object} message @param {Transferable[]} [handed] @returns {Promise<Answer>} */
function posted(message, handed = []) {
  const id = next++;
  return new Promise((resolve, reject) => {
    waiting.set(id, { resolve, reject, lists: new Map() });
    worker?.postMessage({ id, ...message }, handed);
  });
}

/**
 * Asks the engine.
 * @param {string} what
 * @param {object} [more]
 * @param {Uint8Array} [bytes]
 */
export async function ask(what, more = {}, bytes) {
  if (!worker) started();
  await ready;
  return posted({ question: { ask: what, ...more }, bytes }, bytes ? [bytes.buffer] : []);
}

/** Starts the engine while nobody waits, and costs a sample apart: a browser compiles each function when it is first used. */
export async function warm() {
  if (!worker) started();
  await ready;
  // A comfort: without it the first book takes a little longer.
  await ask("warm", { at: "2026-11-20T09:00:00" }).catch(() => {});
}
