#!/usr/bin/env python3
"""Writes the invented suppliers' workbooks of this folder.

    python3 make.py            (needs openpyxl; for xls and ods, LibreOffice)

The four .xlsx come out byte for byte alike each time (with the same version
of openpyxl). The two .xls and the two .ods are made as .xlsx first and
converted with soffice, which puts its own date into them. The .csv files
were written by hand. All suppliers, brands and goods are invented.
"""
import datetime
import io
import os
import re
import subprocess
import tempfile
import zipfile

from openpyxl import Workbook
from openpyxl.styles import Alignment, Font, PatternFill

HERE = os.path.dirname(os.path.abspath(__file__))
STAMP = datetime.datetime(2026, 11, 23, 6, 0, 0)
GREY = PatternFill("solid", fgColor="D9D9D9")
H = "hidden"  # as first cell: the row is hidden, the cells follow


def fill(ws, rows, width):
    """Puts rows into the sheet. A str that stands alone in a list is a group
    heading, merged over the whole width."""
    for n, row in enumerate(rows, 1):
        hide = bool(row) and row[0] == H
        if hide:
            row = row[1:]
        for c, v in enumerate(row, 1):
            if v is not None:
                ws.cell(n, c, v.replace("{r}", str(n)) if isinstance(v, str) else v)
        if len(row) == 1 and isinstance(row[0], str) and width > 1:
            ws.merge_cells(start_row=n, start_column=1, end_row=n, end_column=width)
            ws.cell(n, 1).font = Font(bold=True)
            ws.cell(n, 1).fill = GREY
            ws.cell(n, 1).alignment = Alignment(horizontal="center")
        if hide:
            ws.row_dimensions[n].hidden = True


def bold(ws, *rows):
    for r in rows:
        for cell in ws[r]:
            cell.font = Font(bold=True)


def widths(ws, *sizes):
    for letter, size in zip("ABCDEFGHIJ", sizes):
        ws.column_dimensions[letter].width = size


def numbers(ws, columns, form):
    for letter in columns:
        for cell in ws[letter]:
            if isinstance(cell.value, (int, float)):
                cell.number_format = form


def book(title, creator):
    wb = Workbook()
    wb.properties.creator = creator
    wb.properties.created = STAMP
    wb.active.title = title
    return wb, wb.active


def produce():
    wb, ws = book("WK48", "Brindlefen Produce")
    rows = [
        ["BRINDLEFEN PRODUCE - WEEKLY MARKET SHEET"],
        ["Prices good 11/23/26 - 11/28/26     order by 10pm     MKT = call for price"],
        [],
        ["Code", "Item", "Size / Count", "Unit", "Price", "Remarks"],
        ["PRODUCE"],
        [2101, "Apples, red crisp", "88ct", "CS", 42.50, None],
        [2102, "Apples, green tart", "100ct", "CS", 39.75, None],
        [2110, "Avocado, hass ripe", "48ct", "CS", 54.00, "up"],
        [2120, "Bananas, green tip", "40#", "CS", 23.60, None],
        [2131, "Grapefruit, ruby", "36ct", "CS", 31.20, None],
        [2140, "Lemons, choice", "165ct", "CS", 38.50, None],
        [2141, "Limes", "200ct", "CS", 44.00, None],
        [2150, "Oranges, navel", "72ct", "CS", "MKT", "new crop"],
        [2160, "Strawberries", "8/1#", "FLAT", 26.80, None],
        [2161, "Raspberries", "12/6oz", "FLAT", 33.00, "limited"],
        ["VEGETABLES"],
        [2201, "Broccoli crowns", "20#", "CS", 27.40, "DISC / SUB 2202"],
        [2202, "Broccoli, bunched", "14's", "CS", 24.50, None],
        [2205, "Cauliflower", "12's", "CS", 29.75, None],
        [2210, "Celery", "24's", "CS", 33.60, None],
        [2215, "Cucumbers, slicer", "24ct", "CS", 18.00, None],
        [2216, "Cucumbers, long seedless", "12ct", "CS", "OUT", "back Thurs"],
        [2220, "Eggplant", "1 1/9 bu", "CS", 22.75, None],
        [2230, "Peppers, green lg", "25#", "CS", 24.00, None],
        [2231, "Peppers, red", "11#", "CS", 25.30, None],
        [2240, "Squash, zucchini med", "1/2 bu", "CS", 17.85, None],
        [2250, "Tomatoes, vine ripe", "4x6 count", "CS", 28.80, "2 layer"],
        [2251, "Tomatoes, field", "5x6 25#", "CS", 23.50, None],
        [2252, "Tomatoes, grape", "12/1pt", "FLAT", 21.60, None],
        ["LETTUCE & HERBS"],
        [2301, "Lettuce, iceberg", "24ct", "CS", 36.00, None],
        [2302, "Lettuce, romaine", "24ct", "CS", 32.40, "short - OK to sub 2303?"],
        [2303, "Romaine hearts", "12/3ct", "CS", 34.20, None],
        [2310, "Spring mix", "3#", "EA", 8.25, None],
        [2320, "Basil", "1#", "EA", 10.40, None],
        [2321, "Cilantro", "30 bu", "CS", 25.50, "or .95 ea bu"],
        [2322, "Parsley, flat", "60ct", "CS", "39.00 / 1.10 bu", None],
        ["ROOTS"],
        [2401, "Beets, red loose", "25#", "BG", 16.75, None],
        [2402, "Carrots, jumbo", "50#", "BG", 26.00, None],
        [2403, "Carrots, bunched w/ tops", "24's", "CS", 30.00, None],
        [2410, "Garlic, peeled", "4/5#", "CS", 62.00, None],
        [2411, "Garlic, peeled", "5#", "JAR", 16.50, None],
        [2420, "Onions, yellow jumbo", "50#", "BG", 18.50, None],
        [2421, "Onions, green", "48's", "CS", 27.36, None],
        [2422, "Shallots, peeled", "5#", "BG", 19.95, None],
        [2430, "Potatoes, russet 80ct", "50#", "CS", 23.00, None],
        [2431, "Potatoes, fingerling mixed", None, "CS", 41.00, None],
        [2440, "Parsnips", "20/1#", "CS", 28.00, "DISC"],
        [2450, "Turnips, purple top", "25#", "BG", "mkt", None],
        [],
        ["Split cases + $2.00.  Prices subject to change without notice."],
    ]
    fill(ws, rows, 6)
    bold(ws, 4)
    numbers(ws, "E", "0.00")
    widths(ws, 8, 30, 14, 8, 16, 26)
    return wb


def two_price():
    wb, ws = book("Price List", "Larkmuir Wholesale")
    rows = [
        ["LARKMUIR WHOLESALE", None, None, None, None, None, None, None],
        ["Customer: Copper Ladle", None, None, None, None, "Date:", datetime.date(2026, 11, 23), None],
        ["Item #", "Description of goods", "Brand", "Pack", "Avg wt", "Case price", "Lb price", "Status"],
        ["CHEESE"],
        ["004410", "Cheddar mild loaf", "Pellwood", "2/10 lb", 20, 58.00, 2.90, None],
        ["004411", "Cheddar sharp white print", "Pellwood", "1/10 lb", 10, 34.50, 3.45, None],
        ["004420", "Swiss style sliced .75 oz", "Pellwood", "8/1.5 lb", 12, 47.40, 3.95, None],
        ["004431", "Hard grating cheese wheel, aged 12 mo", "Veltamar", "1 whl", 18, None, 8.65, "catch wt"],
        ["004432", "Grated hard cheese, fcy", "Veltamar", "4/5 lb", 20, 103.00, 5.15, None],
        [H, "004435", "Smoked gouda style loaf", "Pellwood", "2/6 lb", 12, 52.20, 4.35, "DISC"],
        ["004440", "Goat cheese log plain", "Milkmere", "12/4 oz", 3, 31.50, None, None],
        ["004445", "Fresh mozzarella ciliegine", "Nonna Trisk", "2/3 lb cup", 6, 25.50, 4.25, None],
        ["004450", "Cream cheese loaf", "Milkmere", "6/3 lb", 18, 48.60, 2.70, None],
        ["DELI MEATS"],
        ["005101", "Ham pullman 4x6", "Marlpit", "2/13 lb avg", 26, None, 3.10, "catch wt"],
        ["005102", "Turkey breast oven roasted", "Marlpit", "2/9 lb avg", 18, None, 4.55, "catch wt"],
        ["005110", "Salami hard 4x4", "Marlpit", "3/5 lb avg", 15, 72.00, 4.80, None],
        [H, "005112", "Mortadella w/ pistachio", "Marlpit", "2/7 lb avg", 14, None, 4.99, "discontinued - use 005110"],
        ["005120", "Pepperoni sliced 14-16/oz", "Nonna Trisk", "2/12.5 lb", 25, 86.25, 3.45, None],
        ["005125", "Bacon bits cooked", "Marlpit", "2/5 lb", 10, 64.50, 6.54, None],
        ["005130", "Corned beef brisket flat ckd", "Marlpit", "3 pc", 24, None, 6.25, "catch wt"],
        ["FROZEN"],
        ["006201", "Chicken tender breaded", "Hensdell", "2/5 lb", 10, 36.90, 3.69, None],
        ["006202", "Chicken wing 1st & 2nd jt", "Hensdell", "4/10 lb", 40, 98.00, 2.45, None],
        ["006210", "Beef patty 3/1 80/20", "Marlpit", "30/5.33 oz", 10, 41.90, 4.19, "10 lb cs"],
        ["006220", "Fries crinkle 1/2", "Pellwood", "6/5 lb", 30, 31.50, 1.05, None],
        [H, "006222", "Fries waffle", "Pellwood", "6/4.5 lb", 27, 38.61, 1.43, "DISC"],
        ["006230", "Corn IQF", "Pellwood", "1/20 lb", 20, 21.80, 1.09, None],
        ["006231", "Spinach chopped", "Pellwood", "12/3 lb", 36, 43.20, 1.20, None],
        ["006240", "Phyllo dough", "Ombrel", "12/1 lb", 12, 34.80, 2.90, None],
        ["006250", "Ice cream mix vanilla", "Milkmere", "6/.5 gal", None, 36.60, None, None],
        ["PANTRY"],
        ["007301", "Walnut halves & pcs", None, "1/25 lb", 25, 98.75, 3.95, None],
        ["007302", "Almonds sliced blanched", None, "25 lb", 25, 131.25, 5.25, None],
        ["007303", "Pine nuts", None, "1/5 lb", 5, 72.45, 14.49, None],
        ["007310", "Raisins seedless", None, "30 lb", 30, 61.50, 2.05, None],
        ["007320", "Lentils brown", "Ombrel", "20 lb", 20, 17.80, 0.98, None],
        ["007330", "Peanut butter creamy", None, "6/5 lb", 30, 58.50, 1.95, None],
        ["NON FOOD"],
        ["009001", "Foam free clamshell 9x9x3", None, "200 ct", None, 39.00, None, None],
        ["009002", "Oven cleaner aerosol", None, "6/19 oz", None, 33.30, None, "hazmat"],
        [],
        ["Catch weight goods are billed at actual weight x lb price."],
    ]
    fill(ws, rows, 8)
    bold(ws, 1, 3)
    numbers(ws, "FG", "#,##0.00")
    ws["G2"].number_format = "mm/dd/yy"
    widths(ws, 10, 38, 13, 13, 8, 11, 10, 26)
    return wb


def meat():
    wb, ws = book("BOXED BEEF & PORK", "Marrowick Packing")
    rows = [
        ["MARROWICK PACKING CO", None, None, None, None, None],
        ["Beef & pork cut sheet - all $/cwt FOB plant unless noted", None, None, None, None, None],
        ["Price date", "46349", None, None, None, None],
        [],
        ["Prod #", "Item / spec", "Pc wt", "Pcs/bx", "Amt", "Notes"],
        ["BEEF - CHOICE"],
        [1091, "109E RIB RST-RDY LIP-ON CAP OFF  BI", "18/22", 3, 1045.00, None],
        [1121, "112A RIBEYE LIP-ON BNLS  LT", "13 DN", 5, 1128.00, None],
        [1122, "112A RIBEYE LIP-ON BNLS  HVY", "13/UP", 5, 1089.00, None],
        [1141, "114A CLOD RST RDY  XT", "15/21", 3, 318.50, None],
        [1161, "116A CHUCK ROLL 1PC NK OFF", "15/21", 3, 402.00, None],
        [1201, "120 BRISKET DECKLE OFF BNLS", "10/14", 5, 441.75, None],
        [1211, "121D INSIDE SKIRT PLD", None, None, 8.35, "/lb  4/10# vac"],
        [1302, "130 SHORT RIBS BI 3-BONE  3x10# tray", "10#", 3, 6.48, "per lb"],
        [1671, "167A KNUCKLE PLD", "9/13", 6, 334.00, None],
        [1681, "168 TOP INSIDE ROUND  1/4 TRIM", "17/23", 3, 327.25, None],
        [1701, "170A GOOSENECK ROUND  HL OFF", "22/30", 2, 309.00, None],
        [1801, "180 STRIP LOIN 0x1 BNLS", "11/14", 5, 879.00, None],
        [1841, "184 TOP BUTT BNLS", "12/UP", 5, 461.00, "184B +.22/lb"],
        [1851, "185A FLAP MEAT", None, None, 7.95, "/lb"],
        [1852, "185D TRI-TIP PLD", "2/3", 12, 538.00, None],
        [1891, "189A TNDRLN S/M ON DEF PSMO", "5/UP", 12, 1389.00, None],
        [1931, "193 FLANK STK", "1.5/UP", 20, 612.00, "LTD"],
        ["BEEF - PORTION & GROUND"],
        [2361, "136 GRND BF 81/19 CHUB", "10#", 6, 298.00, "60# bx"],
        [2362, "1136 GRND BF PTY 4/1 80/20", "40 ct", None, 42.50, "per 10# cs"],
        [2891, "1189A FILET CTR CUT 8 OZ", "8 oz", 20, 18.90, "/lb"],
        [2801, "1180 STRIP STK CTR CUT 12 OZ", "12 oz", 14, 10.75, "ea"],
        ["PORK"],
        [4011, "401A HAM TRMD BI 20/23", "20/23", 2, 96.00, None],
        [4061, "406A BUTT BNLS 1/4", "7/9", 8, 148.00, None],
        [4082, "408 BELLY SKLS SQ CUT", "11/13", 4, 209.50, None],
        [4101, "410 LOIN BI 1/4 TRIM", "18/22", 2, 131.00, None],
        [4131, "413 LOIN BNLS STRAP ON", "8/10", 6, 172.00, None],
        [4151, "415 TENDERLOIN 1.25 DN", "1.25 DN", 30, 244.00, "12/2pk vac"],
        [4161, "416A SPARERIB ST STYLE", "2.5/DN", 12, 231.00, None],
        [4221, "422 BACK RIBS 2/DN", "2/DN", 15, 296.00, None],
        [4181, "418 TRIMMINGS 72%", "60# combo bx", None, 88.00, None],
        ["OFFAL / BONES"],
        [7011, "LIVER BF SLCD SKND", "10#", 1, 21.50, "box"],
        [7031, "OXTAIL DISJ", None, None, 6.10, "lb"],
        [7041, "MARROW BONES CTR CUT 2\"", None, None, 75.00, "50# bx"],
        [7051, "TRIPE HONEYCOMB SCALDED", None, None, "CALL", None],
        [7061, "CAUL FAT FZ", "10/1#", 10, 31.00, None],
    ]
    fill(ws, rows, 6)
    bold(ws, 1, 5)
    numbers(ws, "E", "0.00")
    widths(ws, 9, 42, 14, 8, 10, 18)
    return wb


def farm():
    wb, ws = book("Sheet1", "Fallowpip Farm")
    lines = [
        "Fallowpip Farm  -  what we have this week",
        "nov 23   text Wren before noon, deliver weds + sat",
        None,
        "carrots bunched  2.50 ea",
        "carrots loose no tops 1.40/lb",
        "beets red or gold, bunch  2.75",
        "turnips hakurei  3.00 bu",
        "radish (easter)  2.00 bunch",
        "watermelon radish  2.25 lb",
        "leeks  3.25 lb",
        "potatos fingerling 2.60 #  /  50# bag 105",
        "potatoes yellow  50 lb bag 48.00",
        "sunchokes  4 lb",
        "celeriac   3.00 each or 2.20 lb",
        None,
        "GREENS",
        "kale lacinato   2.25 bunch, 24 bunch box 48",
        "chard   2.25",
        "spinach  8.00 / lb washed",
        "salad mix  3# bag $27",
        "arugula 3# bag $29.50",
        "cabbage green  1.10 lb (heads abt 4 lb)",
        "cabbage savoy   same",
        "brussel sprouts on stalk   4.50 ea",
        "brussel sprouts loose  3.75 lb 10 lb min",
        None,
        "squash",
        "butternut  1.25 lb",
        "delicata  1.50 lb    20 lb box 27.00",
        "kabocha  - all gone sorry!",
        "pie pumpkins 3.00-4.00 ea",
        None,
        "herbs: thyme rosemary sage 2.00 bunch",
        "parsley 2.00",
        "bay leaf fresh   4 oz  6.00",
        None,
        "Eggs & other",
        "eggs mixed large  6.50 doz",
        "eggs pullet  5.00 dz / 15 dz case 67.50",
        "honey qt 18.00   5 gal pail 310",
        "chickens whole 4-5 lb  5.75 lb frozen",
        "duck eggs 1/2 doz  5.50",
        "pork shoulder, bone in  6.25/lb ~ 8 lb",
        "lard 1 pt  7.00",
        "cider 1/2 gal 7.50,  case of 9  63.00",
        "apples seconds  bushel 28",
        "micros: pea shoots 1/4 lb  5.00, sunflwr same",
        None,
        "dont forget our boxes back! $3 each if not",
    ]
    fill(ws, [[x] if x else [] for x in lines], 1)
    widths(ws, 60)
    return wb


def dairy():
    wb, ws = book("Dairy", "Milkmere Dairy Cooperative")
    rows = [
        ["Milkmere Dairy Cooperative", None, None, None, None, None, None, None],
        ["Wholesale list No. 47", None, None, None, None, "effective 11/23/26", None, None],
        [],
        ["Art.", "Article", "Packing", None, "Net price", None, "Shelf", "Remarks"],
        ["No.", None, "per case", "unit size", "per case", "per unit", "life (d)", None],
        ["MILK & CREAM"],
        [310, "Whole milk 3.5%", 4, "1 gal", "$ 17.20", "$ 4.30", 14, None],
        [311, "Whole milk 3.5% bag-in-box", 1, "5 gal", "$ 20.90", "$ 20.90", 14, None],
        [312, "2% milk", 4, "1 gal", "$ 16.40", "$ 4.10", 14, None],
        [313, "Buttermilk", 9, "1/2 gal", "$ 22.05", "$ 2.45", 21, None],
        [320, "Heavy cream 36%", 12, "1 qt", "$ 59.40", "$ 4.95", 30, None],
        [321, "Heavy cream 40% manufacturing", 9, "1/2 gal", "$ 84.60", "$ 9.40", 30, None],
        [322, "Half & half", 12, "1 qt", "$ 27.60", "$ 2.30", 30, None],
        [323, "Half & half creamers", 360, ".375 oz", "$ 14.40", "$ 0.04", 120, None],
        [330, "Sour cream", 4, "5 lb", "$ 33.00", "$ 8.25", 45, None],
        [331, "Creme fraiche", 6, "1 lb", "$ 33.90", "$ 5.65", 45, None],
        ["YOGURT & FRESH CHEESE"],
        [340, "Yogurt plain whole milk", 6, "32 oz", "$ 19.50", "$ 3.25", 40, None],
        [341, "Yogurt strained 5%", 1, "10 lb", "$ 23.80", None, 35, "pail"],
        [342, "Yogurt vanilla cup", 12, "6 oz", "$ 11.40", "$ 0.95", 35, None],
        [350, "Ricotta whole milk", 6, "3 lb", "$ 41.40", "$ 6.90", 30, None],
        [351, "Cottage cheese small curd", 4, "5 lb", "$ 39.80", "$ 9.95", 25, None],
        [352, "Mascarpone", 6, "500 g", "$ 39.00", "$ 6.50", 60, None],
        [355, "Quark", 2, "5 kg", "$ 58.00", "$ 29.00", 30, "replaces 354"],
        ["BUTTER"],
        [360, "Butter unsalted 82% prints", 36, "1 lb", "$ 120.60", "$ 3.35", 120, None],
        [361, "Butter salted prints", 36, "1 lb", "$ 120.60", "$ 3.35", 120, None],
        [362, "Butter unsalted block", 1, "55 lb", "$ 173.25", "$ 3.15", 180, "unit price per lb"],
        [363, "Butter chips foil", 720, "5 g", "$ 43.20", "$ 0.06", 90, None],
        [364, "Butter whipped tub", 2, "5 lb", "$ 39.60", "$ 19.80", 60, None],
        [365, "Clarified butter", 4, "5 lb", "$ 104.00", "$ 26.00", 180, None],
        ["CHEESE"],
        [371, "Farmhouse cheddar block", 1, "40 lb", "$ 134.00", "$ 3.35/lb", 180, "catch wt +/- 1 lb"],
        [372, "Washed rind wheel", 2, "5 lb avg", None, "$ 9.80/lb", 60, "catch wt"],
        [373, "Mozzarella low moist. loaf", 8, "6 lb", "$ 126.72", "$ 2.64/lb", 90, None],
        [374, "Mozzarella fresh 4 oz balls", 12, "8 oz", "$ 41.40", "$ 3.45", 25, None],
        [375, "Halloumi style", 20, "250 g", "$ 86.00", "$ 4.30", 180, "wdrn 12/1 - sub 376"],
        [376, "Grilling cheese", 20, "8.8 oz", "$ 82.00", "$ 4.10", 180, "new"],
        ["OTHER"],
        [380, "Eggs large white loose", 30, "dozen", "$ 84.00", "$ 2.80", 30, None],
        [381, "Eggs hard cooked peeled", 1, "25 lb", "$ 62.50", None, 45, None],
        [390, "Crate deposit", 1, "ea", "$ 2.50", None, None, None],
    ]
    fill(ws, rows, 8)
    for area in ("C4:D4", "E4:F4", "B4:B5", "H4:H5"):
        ws.merge_cells(area)
    bold(ws, 1, 4, 5)
    widths(ws, 7, 34, 9, 11, 12, 12, 9, 22)
    return wb


def bakery():
    wb, ws = book("Quote", "Crumbrook Bakery & Pastry Supply")
    rows = [
        ["Crumbrook Bakery & Pastry Supply", None, None, None, None],
        ["Quotation 2611-088", None, None, "Date", "23.11.2026"],
        ["Article", "Prod. code", "Unit", "Unit cost", "Comment"],
        ["BREAD"],
        ["Brioche bun 4\" seeded", "BR-10", "case 6 x 12 ct", "$ 34.56", None],
        ["Ciabatta roll 3 oz par-baked", "BR-11", "case 96 ct", "$38.40/cs", None],
        ["Sourdough pan loaf sliced", "BR-14", "8 loaves x 32 oz", "USD 36.80", None],
        ["Baguette frozen", "BR-15", "24 x 10 oz", "$31.20", None],
        ["Flour tortilla 12\"", "BR-20", "6/12 ct", "$25.92", None],
        ["Corn tortilla 6\"", "BR-21", "case 12 dz", "$11.52", None],
        ["Pizza dough ball", "BR-25", "20/19 oz", "$27.55", None],
        ["Gluten free hamburger bun", "BR-30", "each, 4 pk", "$5.40 ea", "cs of 8: $40.00"],
        ["PASTRY"],
        ["Croissant all butter RTB 3.25 oz", "PA-01", "cs 64", "$ 67.20", None],
        ["Puff pastry sheet 10x15", "PA-02", "20 x 12 oz", "$ 51.00", None],
        ["Tart shell 3.25\"", "PA-05", "135 ct", "$ 94.50", None],
        ["Cheesecake plain 10\" uncut", "PA-10", "2/5 lb", "$ 58.00", None],
        ["Chocolate layer cake 14 slice", "PA-11", "2 ct", "$ 63.00", "$31.50 per cake"],
        ["Cookie dough choc chunk", "PA-15", "213 x 1.5 oz", "$ 61.77", None],
        ["Profiteroles unfilled", "PA-20", "bag 1 kg", "14.20 $", None],
        ["FILLINGS & CHOCOLATE"],
        ["Almond paste 66%", "FC-01", "7 lb can", "$ 49.35", None],
        ["Pastry cream powder", "FC-02", "5 kg bag", "$ 41.50", None],
        ["Apricot glaze", "FC-03", "pail 12 kg", "$ 50.40", None],
        ["Dark couverture 58% callets", "FC-10", "8 x 2.5 kg", "$ 12.95/kg", None],
        ["White couverture callets", "FC-11", "bag 2.5 kg", "$ 34.75", None],
        ["Cocoa butter", "FC-12", "3 kg pail", "$ 84.00", "price up 12/1"],
        ["Hazelnut praline paste 50%", "FC-15", "5 kg", "$ 118.75", None],
        ["Fondant white", "FC-20", "50# pail", "$1.12/lb", None],
        ["Raspberry puree 10% sugar", "FC-30", "6 x 1 kg", "$ 9.90/kg", None],
        ["Passion fruit puree", "FC-31", "6 x 1 kg", "$ 78.00", None],
        ["BASICS"],
        ["Gelatin leaf silver", "BA-01", "1 kg box (400 leaves)", "$ 46.00", None],
        ["Gelatin powder 225 bloom", "BA-02", "1 lb", "$ 14.40", None],
        ["Isomalt", "BA-03", "11 lb", "$ 37.95", None],
        ["Glucose syrup DE42", "BA-04", "pail 13.2 lb", "$ 29.70", None],
        ["Vanilla bean grade A", "BA-10", "1/4 lb", "$ 62.00", "also $2.10/bean"],
        ["Almond flour blanched", "BA-15", "25 lb", "$ 4.85 lb", None],
        ["Pastry flour", "BA-16", "50# bag", "$ 22.50 / 21.50 pallet", None],
        ["Fresh yeast", "BA-18", "24/1 lb", "$1.35 ea", None],
        ["SUPPLIES"],
        ["Cake board 10\" rd", "SU-01", "100 ct", "$ 24.00", None],
        ["Piping bag 18\" disp.", "SU-02", "roll 100", "$ 19.50", None],
        ["Sheet pan spray release", "SU-03", "6 x 14 oz", "$ 27.30", None],
        [],
        ["Thank you for your business!"],
    ]
    fill(ws, rows, 5)
    bold(ws, 1, 3)
    widths(ws, 34, 11, 22, 22, 18)
    return wb


def cash():
    wb, ws = book("Trade prices", "Hobbleby Cash & Carry")
    s = "46349"
    rows = [
        ["HOBBLEBY CASH & CARRY  trade price file", None, None, None, None, None, None, None],
        ["Code", "Product", "Outer", "Size", "Price", "Per", "VAT", "Valid from"],
        ["100021", "Plain flour", 1, "16kg", "£11.49", "sack", "Z", s],
        ["100022", "Strong white bread flour", 1, "16kg", "£12.29", "sack", "Z", s],
        ["100035", "Caster sugar", 1, "10kg", "£13.80", "bag", "Z", s],
        ["100036", "Icing sugar", 4, "3kg", "£22.80", "outer", "Z", s],
        ["100048", "Basmati rice", 1, "20kg", "£31.00", "sack", "Z", s],
        ["100060", "Chopped tomatoes", 6, "2.5kg", "£14.94", "case", "Z", s],
        ["100061", "Tomato puree double conc.", 12, "800g", "£24.00", "case", "Z", s],
        ["100062", "Baked beans", 6, "2.62kg", "£17.52", "case", "Z", s],
        ["100070", "Chickpeas in water", 6, "A10", "£16.50", "case", "Z", s],
        ["100081", "Tuna chunks in brine", 6, "1.88kg", "£54.60", "case", "Z", s],
        ["100090", "Rapeseed oil BIB", 1, "20ltr", "£33.40", "each", "Z", s],
        ["100091", "Extended life frying oil", 1, "20L", "£29.95", "each", "Z", s],
        ["100095", "Pomace olive oil", 4, "5L", "£22.50", "each", "Z", s],
        ["100101", "Malt vinegar", 4, "5L", "£9.60", "case", "Z", s],
        ["100110", "Mayonnaise", 1, "10L", "£18.70", "tub", "Z", s],
        ["100111", "Mayonnaise sachets", 200, "10ml", "£8.40", "box", "Z", s],
        ["100120", "Fine sea salt", 1, "6kg", "£4.98", "tub", "Z", s],
        ["100121", "Ground black pepper", 1, "500g", "£7.25", "tub", "Z", s],
        ["200210", "Unsalted butter 250g", 40, "250g", "£66.00", "case", "Z", s],
        ["200211", "Semi skimmed milk", 1, "2L", "£1.55", "each", "Z", s],
        ["200215", "Double cream", 6, "2L", "£9.20", "ea", "Z", s],
        ["200220", "Mature cheddar block", 4, "5kg", "£5.80", "kg", "Z", s],
        ["200221", "Grated mozzarella/cheddar 80/20", 6, "2kg", "£59.40", "case", "Z", s],
        ["200230", "Free range eggs medium", 15, "dozen", "£34.50", "box", "Z", s],
        ["200231", "Eggs large tray", 1, "30s", "£6.45", "tray", "Z", s],
        ["300305", "Chicken breast fillet 5kg", 2, "5kg", "£49.00", "case", "Z", s],
        ["300310", "Back bacon rindless", 1, "2.27kg", "£13.62", "pack", "Z", s],
        ["300311", "Pork sausages thick 8s", 1, "4.54kg", "£19.50", "box", "Z", s],
        ["300320", "Lamb leg bone in frozen", 1, "c. 2kg", "£9.75", "kg", "Z", s],
        ["300330", "Cod fillets 5-6oz battered", 24, "170g", "£41.28", "box", "Z", s],
        ["300340", "Beef mince", None, None, "£7.10", None, "Z", s],
        ["300350", "Chips 14mm", 4, "2.27kg", "£11.80", "case", "Z", s],
        ["300351", "Garden peas frozen", 12, "907g", "99p", "pack", "Z", s],
        ["300360", "Vanilla ice cream", 1, "4L", "2 for £11", "tub", "S", s],
        ["400410", "Cola", 24, "330ml", "£10.99", "case", "S", s],
        ["400411", "Still water", 24, "500ml", "£4.80", "case", "S", s],
        ["400420", "Filter coffee sachets 3pt", 50, "60g", "£29.50", "case", "Z", s],
        ["400421", "One cup tea bags", 1, "1100s", "£18.15", "bag", "Z", s],
        ["500510", "Washing up liquid", 2, "5L", "£7.50", "case", "S", s],
        ["500511", "Thick bleach", 2, "5L", "£5.90", "case", "S", s],
        ["500512", "Oven cleaner spray", 6, "750ml", "£14.94", "case", "S", s],
        ["500520", "Blue centrefeed 2ply", 6, "150m", "£11.70", "pack", "S", s],
        ["500525", "Heavy duty refuse sacks", 200, "18x29x39", "£19.99", "box", "S", s],
        [None, "Z = zero rated   S = standard rated, VAT to be added", None, None, None, None, None, None],
    ]
    fill(ws, rows, 8)
    for row in ws.iter_rows(min_row=3, min_col=8, max_col=8):
        for cell in row:
            cell.number_format = "@"
    bold(ws, 1, 2)
    widths(ws, 9, 34, 7, 10, 11, 8, 6, 11)
    return wb


def imports():
    wb, ws = book("Order conf", "Vessarin Specialty Imports")
    ext = "=ROUND(D{r}*E{r},2)"

    def line(code, text, pack, qty, cost, note=None):
        return [code, text, pack, qty, cost, ext, note]

    rows = [
        ["VESSARIN SPECIALTY IMPORTS", None, None, None, None, None, None],
        ["Order confirmation 88-2107", None, None, None, "Ship date", "23.11.2026", None],
        [],
        ["Prod #", "Description of goods", "Pk/Sz", "Qty", "Unit cost", "Amt", "Note"],
        ["SPICES"],
        line("SP011", "Paprika smoked sweet", "1 kg tin", 2, 18.40),
        line("SP012", "Cumin seed whole", "5 lb jar", 1, 31.25),
        line("SP013", "Saffron threads", "1 oz", 1, 92.00),
        line("SP014", "Saffron threads", "10 x 1 g", 1, 38.50),
        line("SP015", "Cinnamon sticks 3\"", "1 lb", 3, 9.60),
        line("SP016", "Star anise", "12 oz", 2, 11.40),
        line("SP017", "Peppercorn pink dried", "8 oz jar", 2, 13.20),
        [H, "SP018", "Long pepper", "1 lb", 0, 27.00, ext, "discontinued"],
        line("SP019", "Chili flakes", "25#", 1, 78.75),
        line("SP020", "Za'atar blend", "6/1 lb", 1, 51.60),
        ["CONDIMENTS & OILS"],
        line("CO101", "Truffle oil white", "6/250 ml", 1, 81.00),
        line("CO102", "Walnut oil", "1 L tin", 3, 22.60),
        line("CO103", "Aged balsamic 8 yr", "6 x 500 ml", 1, 99.00),
        line("CO104", "Tahini", "2/18 lb", 1, 97.20),
        line("CO105", "Harissa", "12/200 g tube", 1, 34.80),
        line("CO106", "Pomegranate molasses", "12/10 fl oz", 1, 47.40),
        line("CO107", "Fish sauce", "6/1.89 L", 1, 52.50),
        line("CO108", "White miso", "10 kg", 1, 74.50),
        line("CO109", "Preserved lemons", "1 gal jar (8 lb DW)", 2, 29.90),
        [H, "CO110", "Yuzu juice", "6/750 ml", 0, 168.00, ext, "disc. sub CO111"],
        line("CO111", "Yuzu juice", "12/360 ml", 1, 171.00, "new pack, was CO110"),
        line("CO112", "Olives green castel", "2/2.5 kg", 2, 37.50),
        ["GRAINS, PULSES, NOODLES"],
        line("GR201", "Bomba rice", "10/1 kg", 1, 76.00),
        line("GR202", "Lentils small green", "25 lb", 1, 52.50),
        line("GR203", "Freekeh cracked", "4/5 lb", 1, 44.00),
        line("GR204", "Soba noodles", "10/10.6 oz", 2, 38.20),
        line("GR205", "Rice paper 22 cm", "44/12 oz", 1, 72.60),
        line("GR206", "Chestnuts cooked vac", "12 x 400 g", 1, 63.60),
        ["COLD"],
        line("CD301", "Air dried ham bnls", "ca. 7 kg", 6.84, 19.90, "cost per kg"),
        line("CD302", "Sheep cheese wheel 6 mo", "2/6# avg", 12.35, 11.25, "lb"),
        line("CD303", "Duck leg confit", "12 ct", 1, 58.20),
        line("CD304", "Goose fat", "6/320 g", 1, 41.70),
        line("CD305", "White anchovy marinated", "1 kg tray", 2, 24.60),
        line("CD306", "Escargot shells & meat", "4 dz kit", 1, 44.00, "?"),
        line("CD302", "Sheep cheese wheel - RETURN moldy", "2/6# avg", -5.90, 11.25, "credit, lb"),
        ["NON FOOD"],
        line("NF901", "Bamboo skewer 6\"", "16/100 ct", 1, 24.00),
        line("NF902", "Cedar plank 5x8", "24 ea", 1, 31.20),
        [None, "Handling", None, 1, 15.00, ext, None],
        [None, "Total", None, None, None, "=SUM(F6:F47)", None],
    ]
    fill(ws, rows, 7)
    bold(ws, 1, 4, len(rows))
    numbers(ws, "E", "#,##0.00")
    for row in range(6, len(rows) + 1):
        ws.cell(row, 6).number_format = "#,##0.00"
    widths(ws, 8, 34, 20, 7, 10, 11, 20)
    return wb


def save_xlsx(wb, path):
    """Saves with a fixed time stamp, inside and on the parts of the zip."""
    raw = io.BytesIO()
    wb.save(raw)
    stamp = STAMP.strftime("%Y-%m-%dT%H:%M:%SZ").encode()
    with zipfile.ZipFile(raw) as old, zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            data = old.read(name)
            if name == "docProps/core.xml":
                data = re.sub(rb"(<dcterms:modified[^>]*>)[^<]*", rb"\g<1>" + stamp, data)
            new.writestr(zipfile.ZipInfo(name, STAMP.timetuple()[:6]), data,
                         zipfile.ZIP_DEFLATED)


def convert(wb, name, kind):
    with tempfile.TemporaryDirectory() as tmp:
        save_xlsx(wb, os.path.join(tmp, name + ".xlsx"))
        subprocess.run(["soffice", "--headless", "-env:UserInstallation=file://" + tmp + "/profile",
                        "--convert-to", kind, "--outdir", HERE,
                        os.path.join(tmp, name + ".xlsx")],
                       check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


if __name__ == "__main__":
    for name, make in (("produce-weekly", produce), ("two-prices", two_price),
                       ("meat-packer", meat), ("farm-list", farm)):
        save_xlsx(make(), os.path.join(HERE, name + ".xlsx"))
    convert(dairy(), "dairy-list", "xls")
    convert(bakery(), "bakery-quote", "xls")
    convert(cash(), "cash-carry", "ods")
    convert(imports(), "specialty-imports", "ods")
