#!/usr/bin/env python3
"""Writes the xlsx, xls and ods books of this folder.

Needs openpyxl, and soffice for the xls and ods books and for one xlsx
whose sums are kept as formulas with their results.

Each book below is text: `@sheet NAME` begins a sheet, a line is a row,
`|` parts the cells.  A plain number is a number; `$1.50` a number shown as
money; `12%` a number shown as a percentage; `~0.5` a number shown as a
fraction (1/2); `^1/2` what a sheet makes of 1/2 typed into a plain cell,
the 2nd of January; `=...` a formula; all else is text.
"""
import datetime
import os
import re
import shutil
import subprocess
import tempfile

import openpyxl
from openpyxl.styles import Font

HERE = os.path.dirname(os.path.abspath(__file__))


def put(cell, text):
    if re.fullmatch(r"-?\d+(\.\d+)?", text):
        cell.value = float(text) if "." in text else int(text)
    elif re.fullmatch(r"\$\d+(\.\d+)?", text):
        cell.value = float(text[1:])
        cell.number_format = '"$"0.00'
    elif re.fullmatch(r"\d+(\.\d+)?%", text):
        cell.value = round(float(text[:-1]) / 100, 4)
        cell.number_format = "0.0%" if "." in text else "0%"
    elif re.fullmatch(r"~\d*\.?\d+", text):
        cell.value = float(text[1:])
        cell.number_format = "# ?/?"
    elif text.startswith("^1/2"):
        cell.value = datetime.datetime(2026, 1, 2)
        cell.number_format = "d-mmm"
    elif text:
        cell.value = text
        if text.startswith("="):
            cell.number_format = "0.00"


def write(text, path):
    book = openpyxl.Workbook()
    book.remove(book.active)
    sheet, row = None, 0
    for line in text.strip("\n").split("\n"):
        if line.startswith("@sheet "):
            sheet, row = book.create_sheet(line[7:]), 0
            sheet.column_dimensions["A"].width = 24
            continue
        row += 1
        cells = [part.strip() for part in line.split("|")]
        for column, part in enumerate(cells, 1):
            put(sheet.cell(row, column), part)
        first = cells[0]
        if first.isupper() and len([c for c in cells if c]) == 1:
            sheet.cell(row, 1).font = Font(bold=True)
    book.properties.creator = "the kitchen"
    book.properties.created = datetime.datetime(2026, 1, 5)
    book.save(path)


def main():
    for (name, kind), text in BOOKS.items():
        target = os.path.join(HERE, name + "." + kind)
        with tempfile.TemporaryDirectory() as place:
            plain = os.path.join(place, name + ".xlsx")
            write(text, plain)
            if kind == "xlsx" and "=" not in text:
                shutil.copy(plain, target)
                continue
            out = os.path.join(place, "out")
            subprocess.run(
                ["soffice", "-env:UserInstallation=file://" + place + "/profile",
                 "--headless", "--convert-to", kind, "--outdir", out, plain],
                check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            shutil.copy(os.path.join(out, name + "." + kind), target)


BOOKS = {
    ("diner", "xlsx"): """
@sheet Meatloaf
Yield: 30 portions @ 6 oz

QTY | UNIT | ITEM | | METHOD
8 | lb | ground beef 80/20 | | Sweat onion and celery in butter, cool.
2 | lb | ground pork | | Soak bread in milk, squeeze.
2 | lb | onion, sm dice | | Mix everything by hand, don't overwork.
1 | lb | celery, sm dice | | Make 3 loaves in hotel pans.
4 | oz | unsltd btr | | 325 to 155 inside, abt 1 hr 15.
1 | lb | white bread, crust off (crusts to crumbs) | | Glaze last 20 min.
1 | pt | whl milk
10 | ea | lg eggs
2 | T | salt
1 | T | blk pepper
For the glaze:
1 | qt | ketchup
1 | C | brn sugar
~0.5 | C | cider vin
@sheet Brown Gravy
Makes 1 1/2 gal

QTY | UNIT | ITEM | | METHOD
1 | lb | unsltd btr | | Roux to peanut butter color.
1 | lb | AP flour | | Whisk in hot stock in thirds.
~1.5 | gal | beef stock (from base) | | Simmer 30, skim.
| | drippings from meatloaf | | Strain.
2 | T | worc. sauce
1 | t | blk pepper
| | s+p | | tt
@sheet Mash
Serves 50

QTY | UNIT | ITEM | | METHOD
20 | lb | russets, peeled, quartered | | Start cold, salted water. Drain, steam dry.
2 | lb | unsltd btr | | Rice while hot. Butter first,
2 | qt | whl milk | | then hot milk + cream.
1 | qt | hvy crm
~0.25 | C | salt
2 | t | wht pepper
@sheet Pancake Batter
Yield: 32 portions @ 6 oz

QTY | UNIT | ITEM | | METHOD
3 | lb | AP flour | | Sift dry.
6 | oz | sugar | | Whisk wet, butter last.
2 | oz | bkg pwdr | | Combine - leave lumps. Rest 20 min.
1 | T | salt
1 | doz | lg eggs
3 | qt | whl milk
12 | oz | unsltd btr, melted
2 | T | vanilla
@sheet Blue Plate
1 plate

QTY | UNIT | ITEM | | METHOD
1 | slice | Meatloaf | | 6 oz slice, mark on flat top
8 | oz | Mash | | #8 scoop x 2
3 | oz | Brown Gravy | | ladle
4 | oz | frz peas | |
~0.5 | oz | unsltd btr | | on peas
1 | ea | dinner roll
@sheet PRICES
ITEM | PACK SIZE | CASE $
flour, AP | 50 lb | $22.50
sugar, gran | 50 lb | $40.00
sugar, brown | 25 lb | $26.25
baking powder | 5 lb | $12.00
salt | 25 lb | $10.00
pepper, black | 5 lb | $55.00
pepper, white | 1 lb | $24.00
vanilla | 1 qt | $28.80
eggs, large | 15 doz | $45.00
milk, whole | 4/1 gal | $16.80
cream, heavy | 12/1 qt | $57.60
butter, unsalted | 36/1 lb | $126.00
potatoes, russet | 50 lb | $25.00
onions | 50 lb | $27.50
celery | 30 ct | $38.40
ground beef 80/20 | 4/10 lb | $156.00
ground pork | 10 lb | $27.00
white bread | 24 oz loaf | $2.10
ketchup | 6/#10 | $39.00
cider vinegar | 4/1 gal | $26.40
worcestershire | 1 gal | $14.00
beef base | 1 lb | $8.40
frozen peas | 12/2.5 lb | $42.00
dinner rolls | 10 doz | $30.00
""",
    ("smokehouse", "xlsx"): """
@sheet Sheet1
SMOKEHOUSE COST CARDS - keep updated!!

Rub, house
| about 5 #
Item | Qty | | $ per | Ext
brn sugar | 2 | # | $1.05 | =B6*D6
paprika, sweet | 1 | # | $6.40 | =B7*D7
kosher salt | 1 | # | $0.80 | =B8*D8
blk pepper, coarse | 8 | oz | $0.70 | =B9*D9
gran garlic | 4 | oz | $0.45 | =B10*D10
gran onion | 4 | oz | $0.42 | =B11*D11
cayenne | 1 | oz | $0.60 | =B12*D12
TOTAL | | | | =SUM(E6:E12)

Pulled Pork
| 22 # cooked (abt 50% loss)
Item | Qty | | $ per | Ext
pork butt, bone in | 44 | # | $1.95 | =B18*D18
Rub, house | 2 | # | $3.80 | =B19*D19
yel mustard | 1 | pt | $1.10 | =B20*D20
apple juice (spritz) | 1/2 | gal | $5.00 | $2.50
hickory | 1/4 case | | | $4.00
TOTAL | | | | =SUM(E18:E22)
bones to beans

Red Sauce
| Makes 2 gal
Item | Qty | | $ per | Ext
ketchup | 1 | #10 can | $6.50 | =B29*D29
cider vin | 1/2 | gal | $6.60 | $3.30
brn sugar | 3 | # | $1.05 | =B31*D31
molasses | 2 | C | $1.25 | =B32*D32
worc | 1 | C | $0.90 | =B33*D33
Rub, house | 1/2 | # | $3.80 | $1.90
onion, grated, w/ juice | 2 | lg | $0.45 | =B35*D35
water | some
TOTAL | | | | =SUM(E29:E36)

Pit Beans
| 60 @ 4 oz
Item | Qty | | $ per | Ext
navy beans, dry | 6 | # | $0.95 | =B42*D42
pork bones from butts | 3-4 | ea
pulled pork, ends + bits | 2 | #
Red Sauce | 1 | qt | $2.40 | =B45*D45
onions, yel, diced | 2 | # | $0.55 | =B46*D46
mustard powder | 2 | T | $0.10 | =B47*D47
TOTAL | | | | =SUM(E42:E47)
""",
    ("catering", "xlsx"): """
@sheet salads
Beet + Goat Cheese | | | | | Kale Caesar
Serves 12 | | | | | Yield: 24 portions @ 4 oz
| | | | |
4 | lb | beets, red, roasted, peeled, wedges | | | 6 | bch | lacinato kale, stemmed, ribbons
1 | log | goat cheese, crumbled | | | 1/2 | lb | parm, shaved
8 | oz | baby arugula | | | | | parm rinds to soup
1 | C | walnuts, toasted | | | For the dressing:
2 | ea | oranges, supremed (juice to vin) | | | 8 | ea | yolks
For the vinaigrette: | | | | | 12 | ea | anchovy filets
1/2 | C | EVOO | | | 6 | clv | garlic, microplaned
3 | T | sherry vin | | | | | juice of 3 lemons
1 | t | dijon | | | 1 | qt | canola
 | | S&P | | | 1/2 | C | EVOO
 | | | | | 1 | loaf | sourdough, torn, croutons

Potato Salad | | | | | Pearl Couscous
Serves 40 | | | | | 2 half hotel pans
| | | | |
15 | lb | red bliss, skin on, 1" dice | | | 5 | lb | pearl couscous
1 | doz | eggs, hard cooked, chopped | | | 2 | pt | cherry toms, halved
1/2 | gal | mayo | | | 4 | ea | cukes, English, dice
1 | C | whole grain must | | | 3 | bch | parsley, chopped
1 1/2 | bch | celery, fine dice | | | 1 | bch | mint, chopped
2 | bch | scallion, sliced | | | 4 | ea | lemons, zest + juice
1/2 | C | cider vin | | | 1 1/2 | C | EVOO
 | pinch | cayenne | | | 1 | # | feta, crumbled (opt.)
@sheet hot
Prune + Olive Chix | | | | | Wild Rice Pilaf
Serves 30 (1 thigh ea) | | | | | Serves 50, 1/2 C ea
| | | | |
30 | ea | chix thigh, bnls sknls | | | 4 | lb | wild rice blend
3 | C | prunes, pitted | | | 1 1/2 | gal | veg stock (scraps)
2 | C | green olives | | | 1 | lb | mirepoix, sm
1 | C | capers + a bit of brine | | | 1/2 | lb | unsltd btr
2 | hd | garlic, puree | | | 1 | C | dried cranberry
1 | C | red wine vin | | | 2 | C | pecans, toasted, chopped
2 | C | white wine | | | 4 | ea | bay lf
2 | C | brown sug
1/4 | C | dry oregano
1 | bch | parsley, to finish
""",
    ("bakery", "xlsx"): """
@sheet doughs
BRIOCHE
2 kg / 4 loaves @ 500 g
| g | US | %
bread flour | 900 | 2 # | 100%
sugar | 110 | 1/2 C + 1 T | 12%
salt | 18 | 1 T | 2%
yeast, instant | 11 | 1 T + 1/2 t | 1.2%
eggs, cold | 450 | 9 lg | 50%
whole milk, cold | 90 | 6 T | 10%
btr, unsltd, soft | 450 | 1 # | 50%
| 2029 | | 225.2%
egg wash - 1 egg + splash milk

COUNTRY LOAF
2 loaves @ 900 g raw
| g | US | %
bread flour | 800 | | 80%
whole wheat | 200 | | 20%
water, 30 C | 720 | | 72%
LEVAIN | 200 | | 20%
salt | 22 | | 2.2%
| 1942
rice flour for dusting

LEVAIN
400 g
| g | US | %
bread flour | 90 | | 50%
whole wheat | 90 | | 50%
water | 180 | | 100%
old starter | 40 | | 22%
@sheet pastry
PASTRY CREAM
~1.6 kg
| g | US
milk, whole | 1000 | 1 ltr
yolks | 240 | 12 lg
sugar | 250 | 1 1/4 C
cornstarch | 90 | 3/4 C
btr, unsltd | 100 | 7 T
vanilla bean | | 1 ea

SWEET DOUGH
1.15 kg (4 shells, 23 cm)
| g | US
AP flour | 500 | 4 C
icing sugar | 190 | 1 1/2 C
btr, unsltd, cold | 300 | 10 1/2 oz
almond flour | 60 | 2/3 C
eggs | 100 | 2 lg
salt | 5 | 1 t scant

FRUIT TART
1 tart, 23 cm, cuts 8
| g | US
SWEET DOUGH | 285 | 1 shell
PASTRY CREAM | 450
strawberries, hulled, halved | 350 | 3/4 #
blueberries | 100 | 1/2 pt-ish
kiwi, peeled, sliced | | 2 ea
apricot glaze | 60 | few T
@sheet prices
item | bought as | price | per kg
bread flour | 25 kg | 21.25 | =C2/25
AP flour | 25 kg | 20.00 | =C3/25
whole wheat flour | 25 kg | 23.75 | =C4/25
almond flour | 5 kg | 55.00 | =C5/5
rice flour | 5 kg | 9.50 | =C6/5
sugar | 25 kg | 27.50 | =C7/25
icing sugar | 10 kg | 16.00 | =C8/10
salt, fine | 25 kg | 10.00 | =C9/25
cornstarch | 5 kg | 11.00 | =C10/5
yeast, instant | 500 g | 4.75 | 9.50
butter, unsalted | 10 kg | 86.00 | =C12/10
eggs, large | 30 ct tray | 7.50
milk, whole | 1 ltr | 1.10
vanilla beans | 10 ea | 24.00
strawberries | 4 kg flat | 26.00 | =C16/4
blueberries | 125 g punnet | 2.20
kiwi | 30 ct | 13.50
apricot glaze | 6 kg pail | 31.20 | =C19/6
""",
    ("curry-house", "xlsx"): """
@sheet curries
Base Gravy
makes 2 gal
10 lb onions, yellow, rough chop | | Onions in oil + salt, 45 min, lid on. | | biggest cost is tomato
1 lb garlic, peeled | | Garlic + ginger 10 min.
1 lb ginger, peeled | | Spices, bloom.
2 #10 cans tomatoes, crushed | | Tomato, water, 1 hr. Blend smooth. | | 11.00
3 C veg oil
1/4 C turmeric
1/2 C chili powder, mild
2 Tbsp kosher salt
water to cover

Garam Masala
abt 1 lb
1/2 lb coriander seed | | Toast each by itself.
4 oz cumin seed | | Cool. Grind. Sieve.
2 oz black pepper
1 oz green cardamom (shells on)
1 oz cinnamon, broken
2 T cloves
2 whole nutmegs
10-12 bay leaves

Butter Chicken
25 portions @ 8 oz
8 # bnls sknls chix thigh, cubed | | Marinate overnight.
For the marinade: | | Skewer, char.
1 qt yogurt, plain | | Gravy + butter + cream to nappe.
2 T garam masala | | Chicken in at the end.
juice of 4 lemons
1/4 C ginger garlic paste
For the sauce:
3 qt base gravy
1 lb unsltd btr
1 qt hvy cream
2 T honey | | | | or jaggery if we have
1 T fenugreek lvs, crushed
handful cilantro stems, chopped

Dal
3 gal
6 lb red lentils, washed | | Boil lentils w turmeric till soft.
2 T turmeric | | Fry the rest in ghee, pour over.
1 lb ghee
2 qt base gravy
3 T cumin seed
a dozen green chilies, slit
1/2 case tomatoes, roma, diced
2 bunches cilantro, leaves
salt

Raita
1/2 gal +
2 qt yogurt, plain
3 cukes, seeded, grated (peels to pickle)
1 bch mint, chopped
1 T cumin seed, toasted
pinch sugar
salt to taste
@sheet what we pay
onions, yellow | 50 lb | $27.50
garlic, peeled | 5 lb | $16.00
ginger | 30 lb | $54.00
tomatoes, crushed | 6/#10 | $33.00
tomatoes, roma | 25 lb case | $22.50
oil, veg | 35 lb | $38.50
turmeric | 1 lb | $8.00
chili powder | 1 lb | $12.00
kosher salt | 3 lb | $2.40
coriander seed | 5 lb | $21.00
cumin seed | 1 lb | $9.60
black pepper | 1 lb | $11.00
cardamom, green | 8 oz | $19.00
cinnamon | 1 lb | $10.40
cloves | 1 lb | $18.40
nutmeg, whole | 1 lb (abt 80) | $24.00
bay lvs | 4 oz | $5.20
chix thigh bnls sknls | 40 lb | $98.00
yogurt, plain | 5 lb tub | $8.50
lemons | 140 ct | $44.80
butter, unsltd | 36/1 lb | $129.60
hvy cream | 12/1 qt | $62.40
honey | 5 lb | $19.50
fenugreek lvs | 4 oz | $3.60
cilantro | 30 ct | $24.00
red lentils | 20 lb | $21.00
ghee | 5 lb | $29.50
chilies, green | 5 lb | $12.50
cukes | 24 ct | $19.20
mint | bunch | $1.25
sugar | 50 lb | $40.00
""",
    ("church-supper", "xls"): """
@sheet Supper
CHICKEN AND NOODLES
Feeds 100
Chickens, whole | six | stewed, picked
skins and bones | all | back in the pot for broth
Egg noodles, wide | twenty pounds |
Carrots | ten pounds | coins
Celery | four bunches | sliced
Onions | a dozen big | chopped
Butter | three pounds |
Flour | two pounds | for thickening
Frozen peas | two bags | Verna brings them
Salt and pepper | to taste
1. Stew chickens Friday. Pick.
2. Make gravy from broth, butter and flour.
3. Boil noodles Saturday, fold all together.

COLE SLAW
100 half cup servings
Cabbage | eight heads | shredded
Carrots | five pounds | grated
SLAW DRESSING | one batch |

SLAW DRESSING
about 5 quarts
Salad dressing | one gallon | the white kind
Sugar | two cups |
Vinegar | a pint |
Celery seed | two tablespoons |
Cream | ^1/2 | quart

SHEET CAKE
4 cakes, cut 48 each
Flour | eight cups |
Sugar | eight cups |
Butter or margarine | eight sticks |
Cocoa | one cup | heaping
Buttermilk | a quart less a cup |
Eggs | eight |
Soda | four teaspoons |
Vanilla | four caps |
Pecans | two or three cups | chopped

PUNCH
5 gal bowl
Pineapple juice | four 46 oz cans |
Ginger ale | six 2 liter |
Lime sherbet | half gallon |
Oranges | half a dozen | sliced
""",
    ("juice-bar", "ods"): """
@sheet recipes
Green Juice
4 x 350 ml
kale | 1 | bch | stems in too
cucumber | 2 | ea
apple, green | 4 | ea | core in
celery | 1/2 | bch
lemon, peeled | 1 | ea | peel to syrup
ginger | 30 | g

Ginger Shot
20 x 60 ml
ginger | 1.2 | kg | scrub, don't peel
lemon | 12 | ea | peeled
honey | 150 | ml
turmeric root | 100 | g
cayenne | pinch

Almond Milk
4 ltr
almonds, raw | 1 | kg | soak o/n
water, filtered | 4 | ltr
dates, pitted | 8 | ea
sea salt | 1/2 | tsp
vanilla | 2 | tsp

Lemon Syrup
1.4 ltr
sugar | 1 | kg
water | 1 | ltr
lemon peels | from 12 | | what's left of the shots
mint stems | handful

Acai Bowl
1 bowl
acai pulp, frz | 2 | pack | 100 g ea
banana, frz | 1 1/2 | ea
Almond Milk | 120 | ml
granola | 1/3 | C
strawbs | 4-5 | ea | sliced
coconut flakes | some | | on top
honey | drizzle
@sheet prices
what | size | $
kale | bch | 2.20
cucumber | ea | 0.90
apple, green | kg | 3.20
celery | bch | 2.40
lemon | ea | 0.35
ginger | kg | 6.50
turmeric root | kg | 14.00
honey | 1 kg | 12.00
cayenne | 50 g | 2.50
almonds, raw | 5 kg | 52.00
dates, pitted | 1 kg | 9.00
sea salt | 1 kg | 2.00
vanilla | 100 ml | 14.00
sugar | 10 kg | 11.50
acai pulp, frz | 40 x 100 g | 58.00
banana | kg | 1.90
granola | 2 kg | 17.00
strawberries | 500 g | 5.00
coconut flakes | 500 g | 6.50
""",
}

if __name__ == "__main__":
    main()
