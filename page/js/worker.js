// @ts-check
// Worker: holds the engine, so that the page stays alive while it works, and can be ended.

/** @type {any} */
let engine = null;

/** @param {string} packed base64 of the gzipped module */
async function start(packed) {
  const text = atob(packed);
  const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  const module = await WebAssembly.compile(await new Response(stream).arrayBuffer());
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

self.onmessage = async ({ data }) => {
  const { id, question, bytes, packed } = data;
  try {
    if (packed) {
      await start(packed);
      self.postMessage({ id });
      return;
    }
    // Handed over, not copied: of a large book that is what a page waits for.
    const answer = ask(question, bytes);
    /** @type {any} */ (self).postMessage({ id, answer }, [answer.buffer]);
  } catch (fault) {
    self.postMessage({ id, fault: lastWords() || String(fault) });
  }
};
