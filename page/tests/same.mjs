// The page and the command come to the same: figures as JSON, and workbooks part by part.
import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync } from "node:fs";
import path from "node:path";
import { check, checksums, equal, program, root } from "./steps.mjs";

const TEACHING = ["teaching-kitchen.xlsx"];
const METRIC = ["metric-kitchen-prices.csv", "metric-kitchen.xlsx"];
const MESSY = ["messy-kitchen-recipes.xlsx", "messy-kitchen-supplier.xlsx"];

/** What the command prints, whether the book has errors (status 1) or not. */
function command(folder, words) {
  try {
    return execFileSync(program, words, { cwd: folder, stdio: ["ignore", "pipe", "ignore"], maxBuffer: 1e9 }).toString();
  } catch (fault) {
    if (fault.status !== 1) throw fault;
    return fault.stdout.toString();
  }
}

async function sameJson(steps, folder, names) {
  await steps.fresh();
  await steps.open(names.map((name) => path.join(folder, name)));
  if (/No table/.test(await steps.text("says"))) {
    let status = 0;
    try { execFileSync(program, ["cost", ...names, "--format", "json"], { cwd: folder, stdio: "ignore" }); } catch (fault) { status = fault.status; }
    equal(status, 2, "the command's status where the page finds no table");
    return "no table, for the command either";
  }
  const found = await steps.json(names[0].replace(/\.[^.]*$/, ""));
  const wanted = command(folder, ["cost", ...names, "--format", "json"]);
  if (found !== wanted) throw new Error(`they differ: ${found.length} and ${wanted.length} bytes`);
  return `${found.length} bytes`;
}

async function sameWorkbook(steps, folder, names) {
  await steps.fresh();
  await steps.open(names.map((name) => path.join(folder, name)));
  await steps.view("home");
  const name = names[0].replace(/\.[^.]*$/, ".costed.xlsx");
  const found = checksums(await steps.downloaded(name, () => steps.press("#home-workbook", "Costed workbook")));
  const made = path.join(steps.browser.folder, `command.${name}`);
  command(folder, ["cost", ...names, "-o", made]);
  const wanted = checksums(readFileSync(made));
  const parts = [...new Set([...Object.keys(found), ...Object.keys(wanted)])];
  equal(parts.filter((one) => found[one] !== wanted[one]), [], "parts that differ");
  return `${parts.length} parts`;
}

export async function same(steps) {
  const [samples, files] = ["sample-books", "tests/files"].map((folder) => path.join(root, folder));
  const odd = readdirSync(files).filter((name) => /\.(xlsx|xlsm|ods|xls)$/.test(name));
  for (const [folder, names] of [...[TEACHING, METRIC, MESSY].map((names) => [samples, names]), ...odd.map((name) => [files, [name]])]) {
    await check(`JSON is the command's: ${names.join(" and ")}`, () => sameJson(steps, folder, names));
  }
  for (const names of [TEACHING, METRIC, MESSY]) {
    await check(`the workbook is the command's: ${names.join(" and ")}`, () => sameWorkbook(steps, samples, names));
  }
}
