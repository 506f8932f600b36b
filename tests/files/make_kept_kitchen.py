"""Makes kept-kitchen.xlsx and kept-kitchen.xlsm: a kitchen's own book with all that people put into one. Needs openpyxl.

The macros of the second are no macros: any bytes do, for nothing runs them here.
"""

import io
import sys
import zipfile
from datetime import date, datetime
from pathlib import Path

from openpyxl import Workbook
from openpyxl.comments import Comment
from openpyxl.formatting.rule import CellIsRule
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.table import Table, TableStyleInfo

HERE = Path(__file__).parent
STRAW = PatternFill("solid", fgColor="FFF4CC")
ROSE = PatternFill("solid", fgColor="FFD9D9")
THIN = Border(bottom=Side(style="hair"))

book = Workbook()
book.properties.created = book.properties.modified = datetime(2026, 11, 1, 9, 0, 0)
prices = book.active
prices.title = "What we pay"
prices["A1"] = "What we pay"
prices["A1"].font = Font(size=16, bold=True)
prices.merge_cells("A1:C1")
prices["A2"] = "Ask for new lists on Mondays."
headers = ["Vendor", "Item no", "Product", "Pack", "Price", "Effective", "Half", "Yield", "Use", "Remark"]
for column, header in enumerate(headers, start=1):
    cell = prices.cell(4, column, header)
    cell.font = Font(bold=True, color="FFFFFF")
    cell.fill = PatternFill("solid", fgColor="24513C")
rows = [
    ("Hill Farm", "H1", "Leeks", "10 lb", 20, date(2026, 11, 2), 0.5, None, "thin ones"),
    ("Hill Farm", "H2", "Potatoes", "50 lb", 30, date(2026, 11, 2), 0.8, None, None),
    ("Brook Dairy", "B7", "Butter", "36/1 lb", 108, date(2026, 11, 3), None, "yes", "unsalted"),
    ("Brook Dairy", "B9", "Cream", "12 qt", 48, date(2026, 11, 3), None, None, None),
]
for at, (vendor, code, item, pack, price, since, share, use, remark) in enumerate(rows, start=5):
    values = [vendor, code, item, pack, price, since, f"=E{at}/2+$M$5", share, use, remark]
    for column, value in enumerate(values, start=1):
        cell = prices.cell(at, column, value)
        cell.fill, cell.border = STRAW, THIN
    prices.cell(at, 4).number_format = "@"
    prices.cell(at, 5).number_format = '"$"#,##0.00'
    prices.cell(at, 6).number_format = "d\\ mmm\\ yyyy"
    prices.cell(at, 7).number_format = "0.00"
    prices.cell(at, 8).number_format = "0%"
    prices.cell(at, 10).alignment = Alignment(wrap_text=True)
    prices.row_dimensions[at].height = 21
prices["E7"].comment = Comment("Call before the tenth.", "the owner")
for letter, width in zip("ABCDEFGHIJ", [14, 9, 20, 11, 11, 13, 9, 8, 6, 24]):
    prices.column_dimensions[letter].width = width
prices["L4"], prices["M4"] = "Dearest", "Added"
prices["L5"], prices["M5"] = "=MAX(E5:E8)", 0
table = Table(displayName="Paid", ref="A4:J8")
table.tableStyleInfo = TableStyleInfo(name="TableStyleLight9", showRowStripes=True)
prices.add_table(table)
vendors = DataValidation(type="list", formula1='"Hill Farm,Brook Dairy"', sqref="A5:A8")
yes = DataValidation(type="list", formula1='"yes,no"', sqref="I5:I200")
for validation in (vendors, yes):
    prices.add_data_validation(validation)
prices.conditional_formatting.add("E5:E8", CellIsRule(operator="greaterThan", formula=["100"], fill=ROSE))
prices.freeze_panes = "D5"
prices.print_area = "A1:J8"
book.defined_names["Products"] = DefinedName("Products", attr_text="'What we pay'!$C$5:$C$8")

card = book.create_sheet("Leek soup")
for at, row in enumerate(
    [
        ("Recipe", "Leek soup"),
        ("Portions", 10),
        ("Menu price", 8),
        ("Ingredient", "Qty", "Unit"),
        ("Leeks", 5, "lb"),
        ("Potatoes", 4, "lb"),
        ("Butter", 1, "lb"),
        ("Cream", 2, "qt"),
    ],
    start=1,
):
    for column, value in enumerate(row, start=1):
        card.cell(at, column, value)
card["A1"].fill = STRAW
card["B5"].comment = Comment("after washing", "the owner")
items = DataValidation(type="list", formula1="=Products", sqref="A5:A40")
card.add_data_validation(items)

settings = book.create_sheet("Settings")
for row in [("Setting", "Value"), ("Costing date", date(2026, 11, 20)), ("Target food cost", "30%")]:
    settings.append(row)
ours = book.create_sheet("Our sums")
ours["A1"], ours["B1"] = "Leeks and butter", "='What we pay'!E5+'What we pay'!E7"
ours.sheet_state = "hidden"

made = io.BytesIO()
book.save(made)


def packed(target, macros):
    """The parts in their order, each of one and the same minute."""
    with zipfile.ZipFile(made) as parts, zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as out:
        for name in parts.namelist():
            data = parts.read(name)
            if macros and name == "[Content_Types].xml":
                data = data.replace(
                    b"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml",
                    b"application/vnd.ms-excel.sheet.macroEnabled.main+xml",
                ).replace(
                    b"</Types>",
                    b'<Default Extension="bin" ContentType="application/vnd.ms-office.vbaProject"/></Types>',
                )
            if macros and name == "xl/_rels/workbook.xml.rels":
                kind = b"http://schemas.microsoft.com/office/2006/relationships/vbaProject"
                relation = b'<Relationship Id="rIdMacros" Type="' + kind + b'" Target="vbaProject.bin"/>'
                data = data.replace(b"</Relationships>", relation + b"</Relationships>")
            out.writestr(zipfile.ZipInfo(name, (2026, 11, 1, 9, 0, 0)), data, zipfile.ZIP_DEFLATED)
        if macros:
            stored = zipfile.ZipInfo("xl/vbaProject.bin", (2026, 11, 1, 9, 0, 0))
            out.writestr(stored, bytes(range(256)) * 4, zipfile.ZIP_STORED)


folder = Path(sys.argv[1]) if len(sys.argv) > 1 else HERE
packed(folder / "kept-kitchen.xlsx", False)
packed(folder / "kept-kitchen.xlsm", True)
