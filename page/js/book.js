// @ts-check
// Book: the files that are open, and what all of the page shows of them.
import { now } from "./download.js";
import { ask } from "./engine.js";
import { say, work } from "./work.js";

/** @typedef {{name: string, bytes: Uint8Array}} File_ */

/** What is open: the files as they were chosen, and the engine's overview. */
export const book = {
  /** @type {File_[]} */ files: [],
  /** @type {any} */ overview: null,
  /** The day to cost for, where it is not the book's own. */
  day: "",
};

/** @type {((overview: any) => void)[]} */
const listeners = [];

/** What is done whenever another book is open, or none. @param {(overview: any) => void} act */
export function onBook(act) {
  listeners.push(act);
}

function told() {
  for (const act of listeners) act(book.overview);
}

/** Hands the files over anew and opens them. @param {File_[]} files */
async function opened(files) {
  await ask("forget");
  // Copies: what is handed over is gone.
  for (const file of files) await ask("file", { name: file.name }, file.bytes.slice());
  return (await ask("open", { today: now().today, day: book.day })).said;
}

/** The files without copies of one another, which would be read as a second kitchen, and what there is to say of that. @param {File_[]} files */
function once(files) {
  /** @type {File_[]} */
  const all = [];
  /** @type {string[]} */
  const twice = [];
  for (const file of files) {
    const same = all.find((one) => one.bytes.length === file.bytes.length && one.bytes.every((byte, at) => byte === file.bytes[at]));
    if (same) twice.push(`${file.name} ${same.name === file.name ? "was given twice" : `is a copy of ${same.name}`}: it is read once.`);
    else all.push(file);
  }
  return { all, twice };
}

/**
 * Opens files: beside those that are open, or in their place. What could not be opened leaves no book.
 * @param {File_[]} files
 * @param {boolean} beside
 */
export function open(files, beside) {
  return work(`Reading ${files.map((file) => file.name).join(", ")}`, async () => {
    const others = beside ? book.files.filter((one) => files.every((file) => file.name !== one.name)) : [];
    const { all, twice } = once([...others, ...files]);
    const instead = beside && others.length < book.files.length ? ["What had that name before was replaced."] : [];
    const before = book.day;
    if (!beside) book.day = "";
    try {
      book.overview = await opened(all);
      book.files = all;
    } catch (fault) {
      book.day = before;
      await restored();
      if (book.overview && fault instanceof Error) fault.message = fault.message.replace(/\.?$/, ". The book that was open still is.");
      throw fault;
    }
    told();
    say([`${all.map((file) => file.name).join(", ")} ${all.length === 1 ? "is" : "are"} open.`, ...instead, ...twice].join(" "));
  });
}

/** The book that was open before, after something failed or was stopped; nothing where it cannot be had. */
export async function restored() {
  if (!book.overview) return;
  try {
    book.overview = await opened(book.files);
  } catch {
    book.overview = null;
    book.files = [];
  }
  told();
}

/** Costs the book for another day; nothing is the book's own. @param {string} day */
export function costFor(day) {
  return work("Costing", async () => {
    const before = book.day;
    try {
      book.day = day;
      book.overview = await opened(book.files);
    } catch (fault) {
      book.day = before;
      await restored();
      throw fault;
    }
    told();
    say(`Costed for ${book.overview.as_of}.`);
  });
}

/** @param {Iterable<File>} chosen @returns {Promise<File_[]>} */
export function contents(chosen) {
  return Promise.all([...chosen].map(async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) })));
}

/** Files that the page brings along. @param {string[]} names */
export async function built(names) {
  const files = [];
  for (const name of names) files.push({ name, bytes: (await ask("built", { name })).file ?? new Uint8Array() });
  return files;
}
