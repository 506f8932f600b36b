// @ts-check
// Worker: holds the engine, so that the page stays alive while it works, and can be ended.

/** @type {any} */
let engine = null;

/** @param {string} packed base64 of the packed module */
async function start(packed) {
  const text = atob(packed);
  const module = await WebAssembly.compile(unpacked(Uint8Array.from(text, (letter) => letter.charCodeAt(0))));
  /** @type {Record<string, Record<string, () => number>>} */
  const imports = {};
  // The writing library asks JavaScript for the time, through a binding that nobody generates: the page's own stamp replaces it.
  for (const { module: from, name } of WebAssembly.Module.imports(module)) (imports[from] ??= {})[name] = () => 0;
  const instance = await WebAssembly.instantiate(module, imports);
  engine = instance.exports;
}

/** @param {number} at @param {number} length */
function read(at, length) {
  return new Uint8Array(engine.memory.buffer, at, length).slice();
}

/** @param {object} question @param {Uint8Array | undefined} bytes */
function ask(question, bytes) {
  const line = new TextEncoder().encode(JSON.stringify(question) + "\n");
  const length = line.length + (bytes?.length ?? 0);
  const at = engine.parings_room(length);
  const room = new Uint8Array(engine.memory.buffer, at, length);
  room.set(line);
  if (bytes) room.set(bytes, line.length);
  const answered = engine.parings_ask();
  return read(engine.parings_answer(), answered);
}

/** What the engine said last. */
function lastWords() {
  try {
    const length = engine.parings_last_words();
    return new TextDecoder().decode(read(engine.parings_answer(), length));
  } catch {
    return "";
  }
}

/** So much of a list is handed over at a time: the page is deaf while it takes a message in. */
const PIECE = 500;

/** Hands an answer over: its file as it is, long lists piece by piece. @param {number} id @param {Uint8Array} answer */
function hand(id, answer) {
  const end = answer.indexOf(10);
  const said = JSON.parse(new TextDecoder().decode(end < 0 ? answer : answer.subarray(0, end)));
  // A list alone goes by this name.
  if (Array.isArray(said.ok)) said.ok = { all: said.ok };
  for (const [name, list] of Object.entries(said.ok ?? {})) {
    if (!Array.isArray(list) || list.length <= PIECE) continue;
    for (let at = 0; at < list.length; at += PIECE) self.postMessage({ id, name, piece: list.slice(at, at + PIECE) });
    said.ok[name] = [];
  }
  const file = end < 0 ? null : answer.subarray(end + 1);
  // Handed over, not copied: of a large book that is what a page waits for.
  /** @type {any} */ (self).postMessage({ id, said, file }, file ? [file.buffer] : []);
}

self.onmessage = async ({ data }) => {
  const { id, question, bytes, packed } = data;
  try {
    if (packed) {
      await start(packed);
      self.postMessage({ id, said: { ok: null }, file: null });
      return;
    }
    hand(id, ask(question, bytes));
  } catch (fault) {
    self.postMessage({ id, fault: lastWords() || String(fault) });
  }
};
