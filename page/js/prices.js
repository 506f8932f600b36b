// @ts-check
// New price list: chosen or dropped, its headings mapped where they are not known, rows that were held back taken by a tick.
import { contents, onBook } from "./book.js";
import { changes } from "./changes.js";
import { byId, button, el, fill } from "./dom.js";
import { ask } from "./engine.js";
import { onShow } from "./views.js";
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
    await ask("forget", { lists: true });
    for (const list of lists) await ask("file", { name: list.name, list: true }, list.bytes.slice());
    const { said } = await ask("reprice", { ...terms, supplier: typed("supplier"), dated: typed("dated") });
    if (said.headings) {
      headings(said);
      fill(byId("changes"));
      byId("headings").querySelector("select")?.focus();
      return;
    }
    fill(byId("changes"), changes(said, accept));
    say(`${lists.map((list) => list.name).join(", ")}: compared with the book. The book itself was not changed.`);
  });
}

/** @param {string[]} items */
function accept(items) {
  terms.accepted = [...terms.accepted, ...items];
  compare();
}

/** Asks which of a list's headings is which of ours. @param {any} asked */
function headings(asked) {
  const guess = new Map(asked.likely.map((/** @type {[string, string[]]} */ [ours, theirs]) => [ours, theirs[0]]));
  const known = new Map(terms.columns);
  const pick = (/** @type {string} */ ours) => {
    const now = known.get(ours) ?? guess.get(ours.toLowerCase()) ?? "";
    const id = `heading-${ours}`;
    return el("div", { class: "field" }, el("label", { for: id }, ours),
      el("select", { id, "data-ours": ours }, el("option", { value: "" }, "not in the list"),
        asked.headings.map((/** @type {string} */ one) => el("option", { value: one, selected: one === now }, one))));
  };
  const [first, rest] = [["Item", "Pack", "Price", "Per", "Code"], asked.ours];
  const others = rest.filter((/** @type {string} */ ours) => !first.includes(ours));
  const use = button("Use these headings", () => {
    const all = /** @type {HTMLSelectElement[]} */ ([...byId("headings").querySelectorAll("select")]);
    terms.columns = all.filter((one) => one.value).map((one) => [one.dataset.ours ?? "", one.value]);
    fill(byId("headings"));
    compare();
  }, { class: "main" });
  fill(byId("headings"), el("h3", {}, "Which heading is which"), el("p", {}, asked.why),
    el("div", { class: "fields" }, first.map(pick)),
    el("details", {}, el("summary", {}, "More columns"), el("div", { class: "fields" }, others.map(pick))), use);
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
