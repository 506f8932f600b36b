// @ts-check
// New price list: chosen or dropped, its headings mapped, rows that were held back taken by a tick.
import { contents, onBook } from "./book.js";
import { changes } from "./changes.js";
import { byId, fill } from "./dom.js";
import { ask } from "./engine.js";
import { askHeadings, showHeadings } from "./headings.js";
import { keepFocus, onShow } from "./views.js";
import { say, work } from "./work.js";

/** @type {import("./book.js").File_[]} */
let lists = [];
/** What was said of the lists. */
const terms = {
  /** @type {string[]} */ accepted: [],
  /** @type {[string, string][]} */ columns: [],
};

/** @param {string} id */
const typed = (id) => /** @type {HTMLInputElement} */ (byId(id)).value.trim();

/** Puts the lists beside the book. */
function compare() {
  if (lists.length === 0) {
    say("Choose a supplier's price list first.", "bad");
    return Promise.resolve(undefined);
  }
  return work("Comparing", async () => {
    fill(byId("changes"));
    await ask("forget", { lists: true });
    for (const list of lists) await ask("file", { name: list.name, list: true }, list.bytes.slice());
    const { said } = await ask("reprice", { ...terms, supplier: typed("supplier"), dated: typed("dated") });
    if (said.headings) {
      say("The headings of this list are not known: say which is which.");
      askHeadings(said, terms.columns, mapped);
      return;
    }
    showHeadings(said.columns, terms.columns, mapped);
    fill(byId("changes"), changes(said, accept));
    say(`${lists.map((list) => list.name).join(", ")}: compared with the book. The book itself was not changed.`);
  });
}

/** @param {string[]} items */
function accept(items) {
  terms.accepted = [...terms.accepted, ...items];
  compare().then(keepFocus);
}

/** @param {[string, string][]} columns */
function mapped(columns) {
  terms.columns = columns;
  fill(byId("headings"));
  compare().then(keepFocus);
}

/** @param {Iterable<File>} files */
async function chosen(files) {
  lists = await contents(files);
  terms.accepted = [];
  terms.columns = [];
  fill(byId("headings"));
  fill(byId("lists-open"), lists.map((list) => list.name).join(", "));
  if (lists.length) await compare();
}

/** Sets up the view. */
export function setUpPrices() {
  const input = /** @type {HTMLInputElement} */ (byId("lists"));
  input.addEventListener("change", () => chosen(input.files ?? []));
  byId("choose-lists").addEventListener("click", () => { input.value = ""; input.click(); });
  byId("compare").addEventListener("click", compare);
  byId("sample-list").addEventListener("click", () => work("Opening", async () => {
    const name = "teaching-kitchen-fernhollow.csv";
    const { file } = await ask("built", { name });
    await chosen([new File([/** @type {any} */ (file)], name)]);
  }));
  byId("prices").addEventListener("dragover", (event) => event.preventDefault());
  byId("prices").addEventListener("drop", (event) => {
    event.preventDefault();
    event.stopPropagation();
    document.documentElement.classList.remove("over");
    chosen(event.dataTransfer?.files ?? []);
  });
  onShow("prices", () => {
    const sample = [...document.querySelectorAll("#house, #files-open")].some((one) => one.textContent?.includes("teaching-kitchen.xlsx"));
    byId("sample-list").hidden = !sample;
  });
  onBook(() => { fill(byId("changes")); fill(byId("headings")); lists = []; fill(byId("lists-open")); });
}
