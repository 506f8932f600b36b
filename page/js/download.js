// @ts-check
// Files that are taken home.
import { el } from "./dom.js";
import { ask } from "./engine.js";
import { say, work } from "./work.js";

const KINDS = /** @type {Record<string, string>} */ ({
  csv: "text/csv",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
  xlsm: "application/vnd.ms-excel.sheet.macroEnabled.12",
});

/** @param {string} name @param {Uint8Array} bytes */
export function save(name, bytes) {
  const kind = KINDS[name.split(".").at(-1) ?? ""] ?? "application/octet-stream";
  const address = URL.createObjectURL(new Blob([/** @type {any} */ (bytes)], { type: kind }));
  const link = /** @type {HTMLAnchorElement} */ (el("a", { href: address, download: name }));
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** Today, and the moment, as the clock on the wall says. */
export function now() {
  const clock = new Date();
  const here = new Date(clock.getTime() - clock.getTimezoneOffset() * 60_000).toISOString();
  return { today: here.slice(0, 10), at: here.slice(0, 19) };
}

/** A file's name without folders and ending. @param {string} name */
export function stem(name) {
  return name.replace(/^.*[\\/]/, "").replace(/\.[^.]*$/, "") || "book";
}

/**
 * Asks for a file and saves it.
 * @param {string} name
 * @param {string} what
 * @param {object} more
 * @param {(said: any) => string} [named]
 */
export function take(name, what, more, named = () => name) {
  return work(`Making ${name}`, async () => {
    const { said, file } = await ask(what, more);
    save(named(said), file ?? new Uint8Array());
    const more_said = Array.isArray(said?.said) ? ` ${said.said.join(" ")}` : "";
    say(`${named(said)} is among your downloads.${more_said}`);
  });
}
