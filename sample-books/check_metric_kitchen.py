#!/usr/bin/env python3
"""The metric kitchen's answers, worked by hand in exact fractions.

This is the independent opinion on `metric-kitchen-prices.csv` and `metric-kitchen.xlsx`, read together: it knows nothing
of parings and never opens either. Every price, yield and quantity is stated again below, as a cook would say it, and
every figure follows by the arithmetic written beside it. Run it to prove that the two files of answers still say what
the arithmetic says:

    python3 sample-books/check_metric_kitchen.py            compare, exit 1 on any difference
    python3 sample-books/check_metric_kitchen.py --write    write metric-kitchen.answers.tsv anew
    python3 sample-books/check_metric_kitchen.py --tables   print the tables of metric-kitchen.md

Weights are in kilograms, volumes in litres, money in euros. Nothing is rounded before the end.
"""

import pathlib
import sys
from fractions import Fraction as F

from by_hand import Kitchen, pct

HERE = pathlib.Path(__file__).resolve().parent


def kg(kilograms):
    """Kilograms."""
    return F(kilograms)


def g(grams):
    """Grams, in kilograms."""
    return F(grams) / 1000


def litres(number):
    """Litres."""
    return F(number)


def dl(number):
    """Decilitres, in litres."""
    return F(number) / 10


def cl(number):
    """Centilitres, in litres."""
    return F(number) / 100


def eur(text):
    """Euros."""
    return F(text)


# --- What we pay on 20 November 2026 -------------------------------------------------------------------------------
# Per kilogram or litre as purchased, unless the name says otherwise. The pack and its price stand in the comment.

hake = eur("14.90")  # catch weight, per kg, since 16 November; the 15.80 of 1 December does not count yet
trout_each = eur("86.00") / 20  # 20 each
prawns = eur("129.00") / 6  # 6 x 1 kg, the preferred supplier, though the other asks 198.00 for 10 kg
chicken = eur("8.60")  # catch weight, per kg
chicken_legs = eur("78.00") / 10  # 10 kg: what our own legs are worth
chicken_bones = eur("18.00") / 10  # 10 kg: what the carcasses save buying
butter = eur("84.00") / kg(10)  # 20 x 500 g, since 9 November
cream = eur("29.40") / 6  # 6 x 1 l
creme_fraiche = eur("22.50") / 5  # 5 kg
milk = eur("11.50") / 10  # 10 l
egg_each = eur("8.40") / 30  # 30 each
onions = eur("9.80") / 10 / pct(90)  # 10 kg, 90 % usable
shallots = eur("13.50") / 5 / pct(88)  # 5 kg, 88 % usable
leeks = eur("21.00") / 10 / pct("62.5")  # 10 kg, 62.5 % usable
carrots = eur("8.90") / 10 / pct(84)  # 10 kg, 84 % usable
celery_each = eur("16.80") / 12  # 12 each
celery = celery_each / g(550) / pct(80)  # a head weighs 550 g as purchased, 80 % usable
fennel = eur("14.50") / 5 / pct(65)  # 5 kg, 65 % usable
potatoes = eur("23.75") / 25 / pct(82)  # 25 kg, since 16 November, 82 % usable
garlic = eur("7.20") / pct(85)  # 1 kg, 85 % usable
mushrooms = eur("11.70") / 3 / pct(92)  # 3 kg, 92 % usable
lemon_each = eur("9.30") / 30  # 30 each; nobody preferred, so the newest price (16 November) counts
parsley_bunch = eur("9.50") / 10  # 10 bunch
parsley = parsley_bunch / g(90) / pct(75)  # a bunch weighs 90 g as purchased, 75 % is leaf
tarragon_bunch = eur("8.75") / 5  # 5 bunch
tarragon = tarragon_bunch / g(25) / pct(60)  # a bunch weighs 25 g as purchased, 60 % is leaf
chives_bunch = eur("8.00") / 10  # 10 bunch
chives = chives_bunch / g(30) / pct(95)  # a bunch weighs 30 g as purchased, 95 % usable
bay_leaves = eur("3.90") / g(100)  # 100 g
tomatoes_can = eur("34.50") / 6  # 6 x 2,5 kg; a can is 2.5 kg, so it is one of the six
tomato_paste = eur("40.80") / (12 * g(800))  # 12 x 800 g
flour = eur("18.75") / 25  # 25 kg
rice = eur("13.50") / 5  # 5 kg
lentils = eur("14.00") / 5  # 5 kg, dry
loaf = eur("21.60") / 6 / g(900)  # 6 each, a loaf weighs 900 g
pistachios = eur("24.50")  # 1 kg
saffron = eur("34.00") / g(10)  # 10 g
peppercorns = eur("18.50")  # 1 kg
capers = eur("39.90") / (6 * g(700)) / pct(60)  # 6 x 700 g, 60 % when drained
mustard = eur("28.80") / 6  # 6 x 1 kg
olive_oil = eur("178.00") / 20  # 4 x 5 l
sunflower_oil = eur("21.90") / 10  # 10 l
vinegar = eur("7.25") / 5  # 5 l
wine = eur("1128.00") / (240 * cl(75))  # 240 x 75 cl
wine_bottle = eur("1128.00") / 240  # a bottle holds 75 cl
vermouth = eur("102.00") / (12 * cl(75))  # 12 x 750 ml
brandy = eur("96.60") / (6 * cl(70))  # 6 x 70 cl

pepper_pinch = g("0.4")
creme_fraiche_litre = g(980)

# --- Settings --------------------------------------------------------------------------------------------------------
kitchen = Kitchen(
    "metric kitchen",
    sign="€",
    weight=("kg", 1000),
    ml=1000,
    house=(pct(30), pct(5), pct("1.5")),  # target, Q, spice
    step=eur("0.50"),
    tax=pct(10),
    spice_covers_q=False,  # spice is taken on the food alone
)

# --- Yield tests -----------------------------------------------------------------------------------------------------
# Two runs pooled: 12.4 kg and 8.6 kg in.
filleting_hake = kitchen.test(
    "Filleting hake",
    weight=kg("12.4") + kg("8.6"),
    price=hake,
    added=0,
    mains={"Hake fillets": (kg("5.65") + kg("3.9"), None)},
    credits={
        "Hake frames": (kg("1.95") + kg("1.35"), eur("1.20")),
        "Hake heads": (kg("2.3") + kg("1.6"), 0),  # free
        "Hake trim": (g(720) + g(520), pct(50) * hake),  # charged half of what hake costs
    },
    waste={"Hake guts and fins": kg("1.55") + kg("1.05")},
)
hake_fillets, hake_frames = filleting_hake["Hake fillets"], filleting_hake["Hake frames"]
hake_heads, hake_trim = filleting_hake["Hake heads"], filleting_hake["Hake trim"]

# Bought by the piece, weighed once: 20 trout of 6.6 kg together.
trout = 20 * trout_each / kg("6.6")
filleting_trout = kitchen.test(
    "Filleting trout",
    weight=kg("6.6"),
    price=trout,
    added=0,
    mains={"Trout fillets": (kg("3.4"), None)},
    credits={
        "Trout trim": (g(450), pct(40) * trout),
        "Trout frames and heads": (kg("1.85"), 0),
    },
    waste={"Trout guts": g(780)},
)
trout_fillets, trout_trim = filleting_trout["Trout fillets"], filleting_trout["Trout trim"]
trout_frames = filleting_trout["Trout frames and heads"]

peeling = kitchen.test(
    "Peeling prawns",
    weight=kg(3),
    price=prawns,
    added=0,
    mains={"Prawn tails": (kg("1.56"), None)},
    credits={"Prawn shells and heads": (kg("1.32"), pct(10) * prawns)},
    waste={"Prawn veins": g(60)},
)
prawn_tails, prawn_shells = peeling["Prawn tails"], peeling["Prawn shells and heads"]

# Two runs pooled: 8 birds of 13.2 kg and 6 of 9.8 kg.
jointing = kitchen.test(
    "Jointing chicken",
    weight=kg("13.2") + kg("9.8"),
    price=chicken,
    added=0,
    mains={"Chicken breasts": (kg("3.85") + kg("2.9"), None)},
    credits={
        "Chicken legs": (kg("4.3") + kg("3.15"), chicken_legs),  # at market: the price list has legs
        "Chicken carcasses": (kg("3.05") + kg("2.3"), chicken_bones),  # at market: 1 kg saves 1 kg of bones
        "Chicken skin and fat": (g(950) + g(700), pct(20) * chicken),
        "Chicken giblets": (kg("0.65") + kg("0.5"), eur("2.50")),
    },
    waste={"Chicken feet and scraps": g(200) + g(150)},
)
breasts, legs, carcasses = jointing["Chicken breasts"], jointing["Chicken legs"], jointing["Chicken carcasses"]
skin, giblets = jointing["Chicken skin and fat"], jointing["Chicken giblets"]

# Water goes in with the skin and boils away.
rendering = kitchen.test(
    "Rendering chicken fat",
    weight=kg("1.6"),
    price=skin,
    added=g(400),
    mains={"Rendered chicken fat": (g(850), None)},
    credits={"Chicken crackling": (g(240), eur("1.00"))},
    waste={"Fat strainings": g(60)},
)
rendered_fat, crackling = rendering["Rendered chicken fat"], rendering["Chicken crackling"]

# The fat that goes in with the legs is paid for; most of it comes out again and is used on.
confit = kitchen.test(
    "Confit of chicken legs",
    weight=kg("3.2"),
    price=legs,
    added=g(800),
    added_cost=g(800) * rendered_fat,
    mains={"Confit chicken meat": (kg("1.76"), None)},
    credits={"Confit fat": (g(760), eur("1.50")), "Confit leg bones": (g(580), 0)},
    waste={"Confit skin and gristle": g(260)},
)
confit_meat, confit_fat, leg_bones = confit["Confit chicken meat"], confit["Confit fat"], confit["Confit leg bones"]

# --- The book --------------------------------------------------------------------------------------------------------
fish_stock = kitchen.recipe(
    "Fish stock",  # makes 6 l
    [
        ("Hake frames", "2.4 kg", kg("2.4") * hake_frames),
        ("Hake heads", "1.5 kg, free", kg("1.5") * hake_heads),
        ("Trout frames and heads", "900 g, free", g(900) * trout_frames),
        ("Leeks", "500 g ÷ 62.5 %", g(500) * leeks),
        ("Fennel", "300 g ÷ 65 %", g(300) * fennel),
        ("Celery", "200 g ÷ 80 % ÷ 550 g a head", g(200) * celery),
        ("White wine, dry", "1 bottle", wine_bottle),
        ("Flat parsley", "½ bunch as purchased", F(1, 2) * parsley_bunch),
        ("Bay leaves", "2 g", g(2) * bay_leaves),
        ("Black peppercorns", "3 pinch = 1.2 g", 3 * pepper_pinch * peppercorns),
        ("Water", "6.5 l, costs nothing", F(0)),
    ],
    spice=pct(1),
)
fish_stock_litre = fish_stock.by_volume(litres(6))

chicken_stock = kitchen.recipe(
    "Chicken stock",  # makes 8 l
    [
        ("Chicken carcasses", "4 kg", kg(4) * carcasses),
        ("Confit leg bones", "500 g, free", g(500) * leg_bones),
        ("Onions", "600 g ÷ 90 %", g(600) * onions),
        ("Carrots", "400 g ÷ 84 %", g(400) * carrots),
        ("Celery", "1 each as purchased", celery_each),
        ("Leeks", "300 g ÷ 62.5 %", g(300) * leeks),
        ("Bay leaves", "4 g", g(4) * bay_leaves),
        ("Water", "10 l, costs nothing", F(0)),
    ],
    spice=pct(1),
)
chicken_stock_litre = chicken_stock.by_volume(litres(8))

prawn_butter = kitchen.recipe(
    "Prawn butter",  # makes 900 g
    [
        ("Butter", "1 kg", kg(1) * butter),
        ("Prawn shells and heads", "600 g", g(600) * prawn_shells),
        ("Tomato paste", "60 g", g(60) * tomato_paste),
        ("Brandy", "4 cl", cl(4) * brandy),
    ],
)
prawn_butter_kg = prawn_butter.by_weight(g(900))

vermouth_sauce = kitchen.recipe(
    "Vermouth sauce",  # makes 1.4 l
    [
        ("Shallots", "150 g ÷ 88 %", g(150) * shallots),
        ("Butter", "80 g", g(80) * butter),
        ("Dry vermouth", "2.5 dl", dl("2.5") * vermouth),
        ("Fish stock", "1.5 l of 6 l", litres("1.5") * fish_stock_litre),
        ("Cream", "8 dl", dl(8) * cream),
        ("Lemons", "1 each", lemon_each),
    ],
)
vermouth_sauce_litre = vermouth_sauce.by_volume(litres("1.4"))

mayonnaise = kitchen.recipe(
    "Tarragon mayonnaise",  # makes 700 g
    [
        ("Eggs, free range", "3 each", 3 * egg_each),
        ("Wholegrain mustard", "40 g", g(40) * mustard),
        ("White wine vinegar", "3 cl", cl(3) * vinegar),
        ("Sunflower oil", "5.5 dl", dl("5.5") * sunflower_oil),
        ("Tarragon", "1 bunch as purchased", tarragon_bunch),
    ],
)
mayonnaise_kg = mayonnaise.by_weight(g(700))

fish_rillettes = kitchen.recipe(
    "Fish rillettes",  # makes 1.2 kg
    [
        ("Hake trim", "420 g", g(420) * hake_trim),
        ("Trout trim", "280 g", g(280) * trout_trim),
        ("Crème fraîche", "2.5 dl = 245 g", dl("2.5") * creme_fraiche_litre * creme_fraiche),
        ("Butter", "120 g", g(120) * butter),
        ("Shallots", "60 g ÷ 88 %", g(60) * shallots),
        ("Capers", "50 g ÷ 60 %", g(50) * capers),
        ("Chives", "1 bunch as purchased", chives_bunch),
        ("Lemons", "1 each", lemon_each),
    ],
)
fish_rillettes_kg = fish_rillettes.by_weight(kg("1.2"))

mash = kitchen.recipe(
    "Buttered mash",  # makes 3.4 kg, 180 g a portion, 4 % stays in the pot
    [
        ("Potatoes", "2.8 kg ÷ 82 %", kg("2.8") * potatoes),
        ("Milk, whole", "4 dl", dl(4) * milk),
        ("Butter", "300 g", g(300) * butter),
    ],
    portions=kg("3.4") * pct(96) / g(180),
)
mash.by_weight(kg("3.4"))
mash_portion = mash.batch / mash.portions

roast_potatoes = kitchen.recipe(
    "Roast potatoes",  # makes 2.4 kg, 160 g a portion, 2.5 % stays in the tray: 14.625 portions
    [
        ("Potatoes", "3 kg ÷ 82 %", kg(3) * potatoes),
        ("Confit fat", "350 g, 60 % used up", g(350) * confit_fat * pct(60)),
        ("Garlic", "30 g ÷ 85 %", g(30) * garlic),
    ],
    portions=kg("2.4") * pct("97.5") / g(160),
)
roast_potatoes.by_weight(kg("2.4"))
roast_potatoes_portion = roast_potatoes.batch / roast_potatoes.portions

fish_soup = kitchen.recipe(
    "Saffron fish soup",  # makes 7.5 l, 3 % stays in the pot: 7.275 l / 250 ml = 29.1 portions
    [
        ("Olive oil", "1 dl", dl(1) * olive_oil),
        ("Onions", "600 g ÷ 90 %", g(600) * onions),
        ("Fennel", "500 g ÷ 65 %", g(500) * fennel),
        ("Garlic", "40 g ÷ 85 %", g(40) * garlic),
        ("Peeled tomatoes", "1 can of 6", tomatoes_can),
        ("Saffron", "1.5 g", g("1.5") * saffron),
        ("Dry vermouth", "1.5 dl", dl("1.5") * vermouth),
        ("Fish stock", "4.5 l of 6 l", litres("4.5") * fish_stock_litre),
        ("Hake trim", "500 g", g(500) * hake_trim),
        ("Prawn butter", "200 g of 900 g", g(200) * prawn_butter_kg),
    ],
    q_money=eur("0.60"),
    portions=litres("7.5") * pct(97) / F("0.25"),
)

rillettes_toast = kitchen.recipe(
    "Fish rillettes with toast",
    [
        ("Fish rillettes", "800 g of 1.2 kg", g(800) * fish_rillettes_kg),
        ("Sourdough loaf", "600 g of 900 g a loaf", g(600) * loaf),
        ("Fennel", "250 g ÷ 65 %", g(250) * fennel),
        ("Olive oil", "5 cl", cl(5) * olive_oil),
    ],
    portions=10,
)

chicken_rillettes = kitchen.recipe(
    "Chicken rillettes",  # makes 1.8 kg, 90 g a portion: 20
    [
        ("Confit chicken meat", "1.3 kg", kg("1.3") * confit_meat),
        ("Rendered chicken fat", "280 g", g(280) * rendered_fat),
        ("Shallots", "120 g ÷ 88 %", g(120) * shallots),
        ("White wine, dry", "2 dl", dl(2) * wine),
        ("Wholegrain mustard", "50 g", g(50) * mustard),
        ("Flat parsley", "30 g ÷ 75 %", g(30) * parsley),
    ],
    portions=kg("1.8") / g(90),
)

terrine = kitchen.recipe(
    "Giblet terrine",  # makes 1.9 kg, 95 g a portion, 5 % goes in the ends: 19
    [
        ("Chicken giblets", "700 g", g(700) * giblets),
        ("Chicken legs", "900 g ÷ 70 %", g(900) / pct(70) * legs),
        ("Chicken crackling", "120 g", g(120) * crackling),
        ("Eggs, free range", "2 each", 2 * egg_each),
        ("Cream", "2 dl", dl(2) * cream),
        ("Pistachios, shelled", "80 g", g(80) * pistachios),
        ("Brandy", "5 cl", cl(5) * brandy),
        ("Shallots", "100 g ÷ 88 %", g(100) * shallots),
    ],
    spice=pct(2),
    portions=kg("1.9") * pct(95) / g(95),
)

hake_plate = kitchen.recipe(
    "Hake with vermouth sauce",
    [
        ("Hake fillets", "1.6 kg", kg("1.6") * hake_fillets),
        ("Vermouth sauce", "6 dl of 1.4 l", dl(6) * vermouth_sauce_litre),
        ("Buttered mash", "10 of 18.13 portions", 10 * mash_portion),
        ("Leeks", "800 g ÷ 62.5 %", g(800) * leeks),
        ("Butter", "100 g", g(100) * butter),
        ("Chives", "15 g ÷ 95 %", g(15) * chives),
    ],
    portions=10,
)

trout_plate = kitchen.recipe(
    "Trout with capers and brown butter",
    [
        ("Trout fillets", "1.5 kg", kg("1.5") * trout_fillets),
        ("Plain flour", "150 g, 40 % used up", g(150) * flour * pct(40)),
        ("Butter", "250 g", g(250) * butter),
        ("Capers", "100 g ÷ 60 %", g(100) * capers),
        ("Lemons", "2 each", 2 * lemon_each),
        ("Potatoes", "1.8 kg ÷ 82 %", kg("1.8") * potatoes),
        ("Flat parsley", "1 bunch as purchased", parsley_bunch),
    ],
    portions=10,
)

prawn_rice = kitchen.recipe(
    "Prawns with saffron rice",
    [
        ("Prawn tails", "880 g", g(880) * prawn_tails),
        ("Short-grain rice", "640 g", g(640) * rice),
        ("Fish stock", "1.8 l of 6 l", litres("1.8") * fish_stock_litre),
        ("Prawn butter", "160 g of 900 g", g(160) * prawn_butter_kg),
        ("Shallots", "120 g ÷ 88 %", g(120) * shallots),
        ("White wine, dry", "15 cl", cl(15) * wine),
        ("Saffron", "0.8 g", g("0.8") * saffron),
        ("Lemons", "2 each", 2 * lemon_each),
    ],
    portions=8,
)

breast_plate = kitchen.recipe(
    "Chicken breast with tarragon and mushrooms",
    [
        ("Chicken breasts", "1.6 kg", kg("1.6") * breasts),
        ("Button mushrooms", "700 g ÷ 92 %", g(700) * mushrooms),
        ("Shallots", "150 g ÷ 88 %", g(150) * shallots),
        ("Chicken stock", "1 l of 8 l", litres(1) * chicken_stock_litre),
        ("Cream", "4 dl", dl(4) * cream),
        ("Tarragon", "15 g ÷ 60 %", g(15) * tarragon),
        ("Butter", "60 g", g(60) * butter),
        ("Roast potatoes", "10 of 14.625 portions", 10 * roast_potatoes_portion),
    ],
    portions=10,
)

confit_plate = kitchen.recipe(
    "Confit chicken with lentils",
    [
        ("Confit chicken meat", "1.1 kg", kg("1.1") * confit_meat),
        ("Green lentils", "1.6 kg cooked ÷ 230 %", kg("1.6") / pct(230) * lentils),
        ("Chicken stock", "1.5 l of 8 l", litres("1.5") * chicken_stock_litre),
        ("Carrots", "350 g ÷ 84 %", g(350) * carrots),
        ("Onions", "250 g ÷ 90 %", g(250) * onions),
        ("Confit fat", "60 g", g(60) * confit_fat),
        ("Tarragon mayonnaise", "200 g of 700 g", g(200) * mayonnaise_kg),
        ("Flat parsley", "20 g ÷ 75 %", g(20) * parsley),
    ],
    q_percent=pct(3),
    portions=10,
)

kitchen.dish("Saffron fish soup, small", fish_soup, "7.50")
kitchen.dish("Saffron fish soup, large", fish_soup, "10.50", share=F(400, 250) / fish_soup.portions)
kitchen.dish("Fish rillettes with toast", rillettes_toast, "6.50")
kitchen.dish("Chicken rillettes", chicken_rillettes, "6.50")
kitchen.dish(
    "Chicken rillettes, jar to take home",
    chicken_rillettes,
    "8.50",
    target=pct(35),
    share=F(225, 90) / chicken_rillettes.portions,
    tax=pct(5),
)
kitchen.dish("Giblet terrine", terrine, "6.50")
kitchen.dish("Hake with vermouth sauce", hake_plate, "24.00")
kitchen.dish("Trout with capers and brown butter", trout_plate, "21.00")
kitchen.dish("Prawns with saffron rice", prawn_rice, "21.50")
kitchen.dish("Chicken breast with tarragon and mushrooms", breast_plate, "17.50")
kitchen.dish("Confit chicken with lentils", confit_plate, "14.50", target=pct(28))

if __name__ == "__main__":
    answers, paper = HERE / "metric-kitchen.answers.tsv", HERE / "metric-kitchen.md"
    sys.exit(kitchen.main(answers, paper, __doc__, sys.argv[1:]))
