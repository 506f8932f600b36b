#!/usr/bin/env python3
"""The teaching kitchen's answers, worked by hand in exact fractions.

This is the independent opinion on `teaching-kitchen.xlsx`: it knows nothing of parings and never opens the workbook.
Every price, yield and quantity is stated again below, as a cook would say it, and every figure follows by the
arithmetic written beside it. Run it to prove that the two files of answers still say what the arithmetic says:

    python3 sample-books/check_teaching_kitchen.py            compare, exit 1 on any difference
    python3 sample-books/check_teaching_kitchen.py --write    write teaching-kitchen.answers.tsv anew
    python3 sample-books/check_teaching_kitchen.py --tables   print the tables of teaching-kitchen.md

Weights are in pounds (avoirdupois, 453.59237 g exactly), volumes in fluid ounces (US, 29.5735295625 ml exactly),
money in US dollars. Nothing is rounded before the end.
"""

import pathlib
import sys
from fractions import Fraction as F

import teaching_kitchen_plan
from by_hand import Kitchen, pct

HERE = pathlib.Path(__file__).resolve().parent

G_PER_LB = F("453.59237")
ML_PER_FLOZ = F("29.5735295625")
CUP, QT, TBSP = 8, 32, F(1, 2)  # fluid ounces


def lb(pounds=0, oz=0):
    """Pounds and ounces, in pounds."""
    return F(pounds) + F(oz) / 16


def grams(g):
    """Grams, in pounds."""
    return F(g) / G_PER_LB


def usd(text):
    """Dollars."""
    return F(text)


# --- What we pay on 20 November 2026 -------------------------------------------------------------------------------
# As purchased, per pound, fluid ounce or piece; the pack and its price stand beside each.
PAID = {
    "White shrimp, head on": (usd("189.00") / 30, "lb"),  # 6/5 lb since 30 October; that of 1 December is yet to come
    "Whole duck": (usd("4.35"), "lb"),  # catch weight, per lb
    "Chicken backs": (usd("27.60") / 40, "lb"),  # 40 lb
    "Eggs, large": (usd("97.20") / 360, "each"),  # 30 dz = 360
    "Butter, unsalted": (usd("118.80") / 36, "lb"),  # 36/1 lb, the preferred supplier, though the other asks $113.40
    "Heavy cream": (usd("58.80") / (12 * QT), "fl oz"),  # 12/1 qt
    "Butternut squash": (usd("28.00") / 35, "lb"),  # 35 lb
    "Yellow onions": (usd("24.50") / 50, "lb"),  # 50 lb
    "Carrots": (usd("31.00") / 50, "lb"),  # 50 lb; nobody preferred, so the newest price (12 November) counts
    "Celery": (usd("38.40") / 24, "each"),  # 24 ct
    "Fennel": (usd("36.00") / 24, "each"),  # 24 ct
    "Apples, tart": (usd("44.00") / 88, "each"),  # 88ct 40#
    "Potatoes, yellow": (usd("26.00") / 50, "lb"),  # 50 lb
    "Grapefruit, ruby": (usd("32.40") / 36, "each"),  # 36 ct
    "Lemons": (usd("42.00") / 140, "each"),  # 140 ct
    "Garlic, peeled": (usd("58.00") / 20, "lb"),  # 4/5 lb, peeled
    "Flat parsley": (usd("45.00") / 60, "bunch"),  # 60 bunches
    "Flour, all-purpose": (usd("21.00") / 50, "lb"),  # 50 lb
    "Green lentils": (usd("38.75") / 25, "lb"),  # 25 lb, dry
    "Pearl barley": (usd("31.20") / 24, "lb"),  # 24/1 lb
    "Honey": (usd("144.00") / 24, "lb"),  # 12/32 oz = 24 lb
    "Tomato paste": (usd("66.60") / 6 / lb(6, 15), "lb"),  # 6/#10 of 6 lb 15 oz
    "Smoked paprika": (usd("81.00") / 6 / lb(oz=18), "lb"),  # 6/18 oz
    "Cider vinegar": (usd("21.60") / (4 * 128), "fl oz"),  # 4/1 gal
    "Olive oil": (usd("132.00") / 12000 * ML_PER_FLOZ, "fl oz"),  # 4 x 3 L = 12,000 ml
    "Dijon mustard": (usd("57.60") / 6000 * G_PER_LB, "lb"),  # 6 x 1 kg = 6,000 g
    "Dry sherry": (usd("135.00") / 9000 * ML_PER_FLOZ, "fl oz"),  # 12 x 750 ml = 9,000 ml
    "Red wine": (usd("99.00") / 9000 * ML_PER_FLOZ, "fl oz"),  # 12 x 750 ml = 9,000 ml
    "Shellfish base": (usd("88.20") / 6, "lb"),  # 6/1 lb: what the shells save buying
}

# --- The house measures ----------------------------------------------------------------------------------------------
onion_cup_diced = grams(160)
honey_cup = grams(339)
parsley_cup_chopped = grams(60)
paprika_tbsp = grams("6.8")
barley_cup = grams(200)
mustard_tbsp = grams(15)
wine_bottle_floz = 750 / ML_PER_FLOZ


def work(paid, card_spice=pct(1)):
    """Works the whole kitchen at what is `paid` for each item, as in `PAID`. `card_spice` is what the card of the shell
    stock adds for peppercorns and the like."""
    # --- What is paid, and what that is for a usable pound -----------------------------------------------------------
    each = {item: price for item, (price, _) in paid.items()}
    shrimp, duck, chicken_backs = each["White shrimp, head on"], each["Whole duck"], each["Chicken backs"]
    egg_each, lemon_each, apple_each = each["Eggs, large"], each["Lemons"], each["Apples, tart"]
    butter, cream_floz = each["Butter, unsalted"], each["Heavy cream"]
    squash = each["Butternut squash"] / pct(84)  # 84 % usable
    onions = each["Yellow onions"] / pct(88)  # 88 % usable
    carrots = each["Carrots"] / pct(82)  # 82 % usable
    celery = each["Celery"] / lb(oz=28) / pct(75)  # a head weighs 28 oz as purchased, 75 % usable
    fennel = each["Fennel"] / lb(oz=14) / pct(60)  # a bulb weighs 14 oz as purchased, 60 % usable
    potatoes = each["Potatoes, yellow"] / pct(81)  # 81 % usable
    grapefruit = each["Grapefruit, ruby"] / lb(1) / pct(52)  # one weighs 1 lb as purchased, 52 % in segments
    garlic = each["Garlic, peeled"]
    parsley_bunch = each["Flat parsley"]
    parsley = parsley_bunch / lb(oz="2.5") / pct(80)  # a bunch weighs 2.5 oz as purchased, 80 % is leaf
    flour, lentils, barley = each["Flour, all-purpose"], each["Green lentils"], each["Pearl barley"]
    honey, tomato_paste, paprika = each["Honey"], each["Tomato paste"], each["Smoked paprika"]
    vinegar_floz, oil_floz, mustard = each["Cider vinegar"], each["Olive oil"], each["Dijon mustard"]
    sherry_floz = each["Dry sherry"]
    wine_bottle = each["Red wine"] * wine_bottle_floz  # the Measures sheet says that a bottle holds 750 ml
    shellfish_base = each["Shellfish base"]

    # --- Settings ----------------------------------------------------------------------------------------------------
    kitchen = Kitchen(
        "teaching kitchen",
        sign="$",
        weight=("lb", G_PER_LB),
        ml=ML_PER_FLOZ,
        house=(pct(30), pct(4), pct(1)),  # target, Q, spice; spice is taken on Q as well
        ending=usd("0.95"),
    )

    # --- Yield tests -------------------------------------------------------------------------------------------------
    # Two runs pooled: 10 lb and 5 lb in.
    peeling = kitchen.test(
        "Peeling shrimp",
        weight=lb(10) + lb(5),
        price=shrimp,
        added=0,
        mains={"Shrimp tails": (lb(4, 15) + lb(2, 7), None)},
        credits={
            "Shrimp shells": (lb(1, 4) + lb(0, 10), pct(20) * shrimp),  # charged a fifth of the shrimp's price
            "Shrimp heads": (lb(3, 8) + lb(1, 13), 0),  # free
        },
        waste={"Veins and legs": lb(0, 3) + lb(0, 1)},
    )
    tails, shells, heads = peeling["Shrimp tails"], peeling["Shrimp shells"], peeling["Shrimp heads"]

    breaking = kitchen.test(
        "Breaking down duck",
        weight=lb(31, 8),
        price=duck,
        added=0,
        mains={"Duck breast": (lb(7, 14), usd("15.50")), "Duck legs": (lb(8, 3), usd("7.25"))},
        credits={
            "Duck frame": (lb(8, 10), chicken_backs),  # at market: 1 lb saves buying 1 lb of chicken backs
            "Duck skin and fat": (lb(4, 4), usd("1.60")),
            "Duck wing tips": (lb(1, 2), 0),
        },
        waste={"Glands and loose bits": lb(0, 9)},
    )
    breast, legs, frame = breaking["Duck breast"], breaking["Duck legs"], breaking["Duck frame"]
    wing_tips = breaking["Duck wing tips"]

    # The legs go on to the oven: the test is charged at what a leg costs today.
    braising = kitchen.test(
        "Braising duck legs",
        weight=lb(8, 3),
        price=legs,
        added=0,
        mains={"Braised duck meat": (lb(4, 2), None)},
        credits={},
        waste={"Leg bones and skin": lb(2, 1)},
    )
    duck_meat = braising["Braised duck meat"]

    # The skin goes into the pot with a pound of water, which boils away.
    rendering = kitchen.test(
        "Rendering duck fat",
        weight=lb(4, 4),
        price=breaking["Duck skin and fat"],
        added=lb(1),
        mains={"Rendered duck fat": (lb(2, 12), None)},
        credits={"Duck cracklings": (lb(0, 9), 0)},
        waste={"Strainings": lb(0, 2)},
    )
    duck_fat, cracklings = rendering["Rendered duck fat"], rendering["Duck cracklings"]

    # --- The book ----------------------------------------------------------------------------------------------------
    shell_stock = kitchen.recipe(
        "Shrimp shell stock",  # makes 8 qt; its card adds 1 % for peppercorns and the like
        [
            ("Shrimp shells", "2 lb", lb(2) * shells),
            ("Shrimp heads", "4 lb, free", lb(4) * heads),
            ("Olive oil", "2 fl oz", 2 * oil_floz),
            ("Yellow onions", "1 lb 8 oz ÷ 88 %", lb(1, 8) * onions),
            ("Garlic, peeled", "2 oz", lb(oz=2) * garlic),
            ("Fennel", "12 oz ÷ 60 % ÷ 14 oz a bulb", lb(oz=12) * fennel),
            ("Celery", "8 oz ÷ 75 % ÷ 28 oz a head", lb(oz=8) * celery),
            ("Tomato paste", "3 oz", lb(oz=3) * tomato_paste),
            ("Dry sherry", "1 cup = 8 fl oz", CUP * sherry_floz),
            ("Flat parsley", "½ bunch as purchased", F(1, 2) * parsley_bunch),
            ("Water", "9 qt, costs nothing", F(0)),
        ],
        spice=card_spice,
    )
    shell_stock_floz = shell_stock.by_volume(8 * QT)

    duck_stock = kitchen.recipe(
        "Duck frame stock",  # makes 6 qt
        [
            ("Duck frame", "6 lb", lb(6) * frame),
            ("Duck wing tips", "12 oz, free", lb(oz=12) * wing_tips),
            ("Yellow onions", "1 lb ÷ 88 %", lb(1) * onions),
            ("Garlic, peeled", "1 oz", lb(oz=1) * garlic),
            ("Carrots", "8 oz ÷ 82 %", lb(oz=8) * carrots),
            ("Celery", "8 oz ÷ 75 % ÷ 28 oz a head", lb(oz=8) * celery),
            ("Tomato paste", "2 oz", lb(oz=2) * tomato_paste),
            ("Red wine", "½ bottle", F(1, 2) * wine_bottle),
            ("Flat parsley", "½ bunch as purchased", F(1, 2) * parsley_bunch),
            ("Water", "8 qt, costs nothing", F(0)),
        ],
    )
    duck_stock_floz = duck_stock.by_volume(6 * QT)

    roux = kitchen.recipe(
        "Brown roux",  # makes 30 oz by weight
        [("Butter, unsalted", "1 lb", lb(1) * butter), ("Flour, all-purpose", "1 lb", lb(1) * flour)],
    )
    roux_lb = roux.by_weight(lb(oz=30))

    dressing = kitchen.recipe(
        "Honey mustard dressing",  # makes 26 fl oz
        [
            ("Olive oil", "2 cup = 16 fl oz", 2 * CUP * oil_floz),
            ("Cider vinegar", "¾ cup = 6 fl oz", F(3, 4) * CUP * vinegar_floz),
            ("Honey", "¼ cup = 84.75 g", F(1, 4) * honey_cup * honey),
            ("Dijon mustard", "2 tbsp = 30 g", 2 * mustard_tbsp * mustard),
            ("Lemons", "1 each", 1 * lemon_each),
        ],
    )
    dressing_floz = dressing.by_volume(26)

    duck_fat_potatoes = kitchen.recipe(
        "Duck fat potatoes",  # makes 4 lb, 5 oz a portion, 5 % stays in the pan: 4 lb x 95 % / 5 oz = 12.16 portions
        [
            ("Potatoes, yellow", "5 lb ÷ 81 %", lb(5) * potatoes),
            ("Rendered duck fat", "8 oz, 40 % used up", lb(oz=8) * duck_fat * pct(40)),
            ("Flat parsley", "2 tbsp chopped = 7.5 g ÷ 80 %", 2 * TBSP / CUP * parsley_cup_chopped * parsley),
        ],
        portions=lb(4) * pct(95) / lb(oz=5),
    )
    duck_fat_potatoes.by_weight(lb(4))
    potato_portion = duck_fat_potatoes.batch / duck_fat_potatoes.portions

    shrimp_soup = kitchen.recipe(
        "Smoky shrimp and butternut soup",  # makes 10 qt, 3 % stays in the pot: 320 x 97 % / 8 fl oz = 38.8 portions
        [
            ("Butter, unsalted", "4 oz", lb(oz=4) * butter),
            ("Yellow onions", "6 cup diced = 960 g ÷ 88 %", 6 * onion_cup_diced * onions),
            ("Garlic, peeled", "3 oz", lb(oz=3) * garlic),
            ("Butternut squash", "8 lb ÷ 84 %", lb(8) * squash),
            ("Smoked paprika", "¼ cup = 4 tbsp = 27.2 g", 4 * paprika_tbsp * paprika),
            ("Tomato paste", "4 oz", lb(oz=4) * tomato_paste),
            ("Dry sherry", "1 cup = 8 fl oz", CUP * sherry_floz),
            ("Shrimp shell stock", "6 qt of 8 qt", 6 * QT * shell_stock_floz),
            ("Brown roux", "12 oz of 30 oz", lb(oz=12) * roux_lb),
            ("Heavy cream", "3 cup = 24 fl oz", 3 * CUP * cream_floz),
            ("Lemons", "3 each", 3 * lemon_each),
        ],
        q_money=usd("0.35"),
        spice=pct(2),
        portions=10 * QT * pct(97) / 8,
    )

    duck_soup = kitchen.recipe(
        "Duck and barley soup",  # makes 9 qt, 4 % stays in the pot: 288 x 96 % / 12 fl oz = 23.04 portions
        [
            ("Rendered duck fat", "3 oz", lb(oz=3) * duck_fat),
            ("Yellow onions", "4 cup diced = 640 g ÷ 88 %", 4 * onion_cup_diced * onions),
            ("Carrots", "1 lb 8 oz ÷ 82 %", lb(1, 8) * carrots),
            ("Celery", "1 lb ÷ 75 % ÷ 28 oz a head", lb(1) * celery),
            ("Pearl barley", "3 cup = 600 g", 3 * barley_cup * barley),
            ("Duck frame stock", "1 batch", duck_stock.batch),
            ("Braised duck meat", "1 lb 8 oz", lb(1, 8) * duck_meat),
            ("Flat parsley", "1 cup chopped = 60 g ÷ 80 %", parsley_cup_chopped * parsley),
            ("Water", "1 qt, costs nothing", F(0)),
        ],
        spice=pct("1.5"),
        portions=9 * QT * pct(96) / 12,
    )

    chilled_shrimp = kitchen.recipe(
        "Chilled shrimp with grapefruit and fennel",
        [
            ("Shrimp tails", "3 lb 2 oz", lb(3, 2) * tails),
            ("Grapefruit, ruby", "2 lb ÷ 52 % ÷ 1 lb each", lb(2) * grapefruit),
            ("Fennel", "1 lb 4 oz ÷ 60 % ÷ 14 oz a bulb", lb(1, 4) * fennel),
            ("Honey mustard dressing", "10 of 26 fl oz", 10 * dressing_floz),
            ("Flat parsley", "½ cup chopped = 30 g ÷ 80 %", F(1, 2) * parsley_cup_chopped * parsley),
        ],
        portions=10,
    )

    duck_breast = kitchen.recipe(
        "Duck breast with honeyed apples",
        [
            ("Duck breast", "4 lb", lb(4) * breast),
            ("Apples, tart", "6 each", 6 * apple_each),
            ("Honey", "½ cup = 169.5 g", F(1, 2) * honey_cup * honey),
            ("Cider vinegar", "½ cup = 4 fl oz", F(1, 2) * CUP * vinegar_floz),
            ("Butter, unsalted", "4 oz", lb(oz=4) * butter),
            ("Duck frame stock", "1 qt of 6 qt", QT * duck_stock_floz),
            ("Duck fat potatoes", "8 of 12.16 portions", 8 * potato_portion),
            ("Flat parsley", "¼ cup chopped = 15 g ÷ 80 %", F(1, 4) * parsley_cup_chopped * parsley),
        ],
        portions=8,
    )

    duck_lentils = kitchen.recipe(
        "Duck and lentil plate",
        [
            ("Braised duck meat", "3 lb", lb(3) * duck_meat),
            ("Green lentils", "5 lb cooked ÷ 240 %", lb(5) / pct(240) * lentils),
            ("Carrots", "1 lb ÷ 82 %", lb(1) * carrots),
            ("Yellow onions", "1 lb ÷ 88 %", lb(1) * onions),
            ("Garlic, peeled", "1 oz", lb(oz=1) * garlic),
            ("Red wine", "½ bottle", F(1, 2) * wine_bottle),
            ("Duck frame stock", "1 qt of 6 qt", QT * duck_stock_floz),
            ("Rendered duck fat", "2 oz", lb(oz=2) * duck_fat),
            ("Honey mustard dressing", "8 of 26 fl oz", 8 * dressing_floz),
            ("Flat parsley", "1 bunch as purchased", parsley_bunch),
        ],
        portions=12,
    )

    lentils_egg = kitchen.recipe(
        "Warm lentils with a soft egg",
        [
            ("Green lentils", "6 oz cooked ÷ 240 %", lb(oz=6) / pct(240) * lentils),
            ("Eggs, large", "1 each", egg_each),
            ("Duck cracklings", "½ oz, free", lb(oz="0.5") * cracklings),
            ("Carrots", "1 oz ÷ 82 %", lb(oz=1) * carrots),
            ("Honey mustard dressing", "1 of 26 fl oz", dressing_floz),
            ("Flat parsley", "1 tbsp chopped = 3.75 g ÷ 80 %", TBSP / CUP * parsley_cup_chopped * parsley),
        ],
        portions=1,
    )

    kitchen.dish("Smoky shrimp soup, cup", shrimp_soup, "5.95")
    kitchen.dish("Smoky shrimp soup, bowl", shrimp_soup, "7.95", share=F(12, 8) / shrimp_soup.portions)
    kitchen.dish("Chilled shrimp with grapefruit and fennel", chilled_shrimp, "16.95")
    kitchen.dish("Duck breast with honeyed apples", duck_breast, "24.95", target=pct(28))
    kitchen.dish("Duck and lentil plate", duck_lentils, "15.95")
    kitchen.dish("Warm lentils with a soft egg", lentils_egg, "7.95", target=pct(25))
    kitchen.dish("Duck and barley soup", duck_soup, "7.95")
    teaching_kitchen_plan.work(kitchen, locals())
    return kitchen


if __name__ == "__main__":
    answers, paper = HERE / "teaching-kitchen.answers.tsv", HERE / "teaching-kitchen.md"
    sys.exit(work(PAID).main(answers, paper, __doc__, sys.argv[1:]))
