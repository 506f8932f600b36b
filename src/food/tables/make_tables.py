#!/usr/bin/env python3
"""Makes the built-in food tables from the reference data that the project was given.

    python3 src/food/tables/make_tables.py FOLDER      write the tables beside this script
    python3 src/food/tables/make_tables.py FOLDER --check   only compare; exit 1 when they differ

FOLDER holds `sr28_measures.tsv`, `sr28_refuse.tsv`, `sr28_cooked_yields.tsv` and `kitchen_measures.tsv`: extracts of the
USDA National Nutrient Database for Standard Reference, Release 28 (US Department of Agriculture, Agricultural Research
Service, 2015; a work of the US government, public domain).

What is dropped: the food group and description repeated in every row, measures that are a weight themselves (oz, lb,
cubic inches), packages and servings whose size is no measure of a kitchen's, and cooked weights of so much raw meat,
which are yields and stand in a table of their own. What is kept is kept to the letter.
"""

import csv
import pathlib
import re
import sys

HERE = pathlib.Path(__file__).resolve().parent

# A measure that says nothing a kitchen could use.
NO_MEASURE = re.compile(
    r"^(oz|ounce|lb|pound|kg|g|gram|cubic inch|serving|servings|NLEA|racc|portion|package|packet|container|carton|"
    r"bottle|box|bag|jar|can|unit|order|drink|tray|packages)\b",
    re.IGNORECASE,
)
YIELD = re.compile(r"\byields?\b", re.IGNORECASE)


def rows(folder, name):
    with open(folder / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE))


def number(text):
    """A decimal without trailing zeros: `10.0` is `10`, `.5` is `0.5`."""
    text = text.strip()
    if text.startswith("."):
        text = "0" + text
    return text.rstrip("0").rstrip(".") if "." in text else text


def made(folder):
    """The tables by file name."""
    measures = rows(folder, "sr28_measures.tsv")
    refuse = rows(folder, "sr28_refuse.tsv")
    cooked = rows(folder, "sr28_cooked_yields.tsv")
    curated = rows(folder, "kitchen_measures.tsv")

    kept = [row for row in measures if not NO_MEASURE.match(row["measure"]) and not YIELD.search(row["measure"])]
    # What the curated foods take as their cup, spoon or piece stays whatever it is called.
    used = {}
    for row in curated:
        wanted = [part.strip() for part in row["sr28_measures_used"].split(" ; ") if part.strip()]
        found = []
        for part in wanted:
            text, grams = part.rsplit(" = ", 1)
            amount, measure = text.split(" ", 1)
            match = [
                m for m in measures
                if m["ndb_no"] == row["ndb_no"] and m["measure"] == measure and number(m["amount"]) == number(amount)
                and number(m["grams"]) == number(grams.removesuffix(" g"))
            ]
            if not match:
                raise SystemExit(f"{row['name']}: {part!r} is no measure of {row['ndb_no']}")
            if not YIELD.search(measure):
                found.append(match[0])
        used[row["name"]] = found
    ids = {(m["ndb_no"], m["seq"]) for m in kept} | {(m["ndb_no"], m["seq"]) for found in used.values() for m in found}
    kept = [m for m in measures if (m["ndb_no"], m["seq"]) in ids]

    foods = {}
    for row in [*kept, *refuse, *cooked]:
        foods[row["ndb_no"]] = (row["food_group"], row["description"])
    for row in curated:
        if row["ndb_no"] and row["ndb_no"] not in foods:
            foods[row["ndb_no"]] = ("", row["sr28_description"])
    tables = {}

    def table(name, header, lines):
        tables[name] = "".join("\t".join(line) + "\n" for line in [header, *lines])

    groups = sorted({group for group, _ in foods.values()})
    table("groups.tsv", ["group", "name"], [[str(at), group] for at, group in enumerate(groups)])
    table("foods.tsv", ["ndb_no", "group", "description"],
          [[ndb, str(groups.index(group)), text] for ndb, (group, text) in sorted(foods.items())])
    table("measures.tsv", ["ndb_no", "seq", "amount", "measure", "grams"],
          [[m["ndb_no"], m["seq"], number(m["amount"]), m["measure"], number(m["grams"])] for m in kept])
    table("refuse.tsv", ["ndb_no", "percent", "what"],
          [[row["ndb_no"], row["refuse_pct"], row["refuse_desc"]] for row in refuse])
    table("cooked.tsv", ["ndb_no", "measure", "from", "to", "percent"],
          [[row["ndb_no"], row["measure"], row["from_stage"], row["to_stage"], number(row["yield_pct"])]
           for row in cooked])
    table("kitchen.tsv", ["name", "category", "ndb_no", "measures", "note"],
          [[row["name"], row["category"], row["ndb_no"], ",".join(m["seq"] for m in used[row["name"]]), row["note"]]
           for row in curated])
    return tables


def main():
    if len(sys.argv) < 2:
        raise SystemExit(__doc__)
    differ = []
    for name, text in made(pathlib.Path(sys.argv[1])).items():
        path = HERE / name
        if "--check" in sys.argv[2:]:
            if not path.exists() or path.read_text(encoding="utf-8") != text:
                differ.append(name)
        else:
            path.write_text(text, encoding="utf-8")
            print(f"{name}: {len(text.encode())} bytes, {text.count(chr(10)) - 1} rows")
    if differ:
        raise SystemExit("not what this script makes: " + ", ".join(differ))


if __name__ == "__main__":
    main()
