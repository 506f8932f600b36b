#!/usr/bin/env python3
"""Checks the unit table that the tests hold the catalogue to (it/units/units.tsv) against the library pint.

pint computes in fractions here, so every comparison is exact. The same rows stand against the catalogue itself in
it/units/table.rs, so the catalogue and pint agree wherever pint knows the unit.
"""

import csv
import re
import sys
from fractions import Fraction
from pathlib import Path

try:
    import pint
except ImportError:
    sys.exit("check_units: the Python library pint is not installed (python3 -m pip install pint)")

TABLE = Path(__file__).parent / "it" / "units" / "units.tsv"
CATALOGUE = Path(__file__).parent.parent / "src" / "measure" / "catalogue.toml"
BASES = {"mass": "gram", "volume": "milliliter"}
# The rows that pint defines; fewer would mean that the table lost some.
LEAST = 39


def blocks(text, kind):
    """The keys of every [[kind]] of the catalogue, as text."""
    for block in re.split(r"^\[\[", text, flags=re.M)[1:]:
        if block.startswith(kind + "]]"):
            yield dict(re.findall(r'^(\w+) = "([^"]*)"', block, flags=re.M))


def main():
    registry = pint.UnitRegistry(non_int_type=Fraction)
    checked, wrong = 0, []
    with TABLE.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE))
    sizes = {row["unit_id"]: Fraction(row["factor_fraction"]) for row in rows if row["factor_fraction"]}
    for row in rows:
        if not row["factor_fraction"]:
            continue
        if Fraction(row["factor_to_base"]) != Fraction(row["factor_fraction"]):
            wrong.append(f"{row['unit_id']}: its decimal and its fraction differ")
        if not row["pint_unit"]:
            continue
        size = registry.Quantity(Fraction(1), row["pint_unit"]).to(BASES[row["dimension"]]).magnitude
        checked += 1
        if Fraction(size) != Fraction(row["factor_fraction"]):
            wrong.append(f"{row['unit_id']}: {row['factor_fraction']} here, {size} in pint")

    # The catalogue's own numbers: the same id under the setting that the row is of.
    suffixes = {"base": "", "us": "", "imperial": "_imp", "metric": "_metric"}
    in_catalogue = 0
    for unit in blocks(CATALOGUE.read_text(encoding="utf-8"), "unit"):
        for key, suffix in suffixes.items():
            table = sizes.get(unit["id"] + suffix)
            if key in unit and table is not None:
                in_catalogue += 1
                if Fraction(unit[key]) != table:
                    wrong.append(f"{unit['id']}: {unit[key]} in the catalogue, {table} in the table")

    if checked < LEAST:
        wrong.append(f"only {checked} rows could be checked, not {LEAST}")
    if in_catalogue < 50:
        wrong.append(f"only {in_catalogue} sizes of the catalogue were found, not 50")
    for line in wrong:
        print(f"check_units: {line}", file=sys.stderr)
    if wrong:
        return 1
    print(f"check_units: {checked} units equal pint {pint.__version__}, {in_catalogue} sizes of the catalogue the table")
    return 0


if __name__ == "__main__":
    sys.exit(main())
