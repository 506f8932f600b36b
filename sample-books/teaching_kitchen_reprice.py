#!/usr/bin/env python3
"""What two suppliers' new lists do to the teaching kitchen, worked by hand in exact fractions.

This is the independent opinion on `teaching-kitchen-fernhollow.csv` and `teaching-kitchen-oxbarrow.xlsx` beside
`teaching-kitchen.xlsx`: it knows nothing of parings and opens none of them. The prices that are taken are stated below;
`check_teaching_kitchen.py` is worked once with the old prices and once with the new.

    python3 sample-books/teaching_kitchen_reprice.py            compare, exit 1 on any difference
    python3 sample-books/teaching_kitchen_reprice.py --write    write teaching-kitchen.reprice.tsv anew
    python3 sample-books/teaching_kitchen_reprice.py --tables   print the tables of teaching-kitchen.md

Costed on 23 November 2026, the day of both lists, before and after: no old price changes between the 20th and then.
"""

import sys
from fractions import Fraction as F

from by_hand import finish, fixed
from check_teaching_kitchen import G_PER_LB, HERE, ML_PER_FLOZ, PAID, lb, usd, work
from teaching_kitchen_plan import PLAN, balance, from_store

# --- What is taken of the lists ----------------------------------------------------------------------------------------
# As purchased, in the units of PAID.
TAKEN = {
    # Fernhollow Produce
    "Butternut squash": usd("26.25") / 35,  # 35 lb
    "Yellow onions": usd("27.00") / 50,  # 50 lb
    # 50 lb from both on one day, $33.00 from Fernhollow and $32.00 from Oxbarrow; nobody is preferred and both are 82 %
    # usable, so the cheaper one counts.
    "Carrots": min(usd("33.00"), usd("32.00")) / 50,
    "Fennel": usd("36.00") / 18,  # 18 ct, where it was 24 at the same price
    "Garlic, peeled": usd("54.00") / 20,  # 4/5 lb
    "Flat parsley": usd("48.00") / 60,  # 60 bunches
    "Potatoes, yellow": usd("24.00") / 50,  # 50 lb
    "Apples, tart": usd("48.40") / 88,  # 88ct 40#
    "Grapefruit, ruby": usd("34.20") / 36,  # 36 ct
    # Oxbarrow Foods
    "Whole duck": usd("4.50"),  # by the pound
    "Chicken backs": usd("30.00") / 40,  # 40 lb
    "White shrimp, head on": usd("198.00") / 30,  # 6/5 lb; a new supplier, nobody is preferred, the newest price counts
    "Butter, unsalted": usd("122.40") / 36,  # 36/1 lb, still the preferred supplier
    "Pearl barley": usd("33.60") / 24,  # 24/1 lb
    "Honey": usd("156.00") / 24,  # 12/32 oz
    "Tomato paste": usd("69.93") / 6 / lb(6, 15),  # 6/#10 of 6 lb 15 oz; the row stands twice and is taken once
    "Smoked paprika": usd("78.30") / 6 / lb(oz=18),  # 6/18 oz
    "Shellfish base": usd("91.80") / 6,  # 6/1 lb
    "Olive oil": usd("138.00") / 12000 * ML_PER_FLOZ,  # 4 x 3 L = 12,000 ml
}
# The same as before: celery, mustard, salt, bay leaves. Held back: flour at $0.44 for 50 lb, which looks like the price of
# one pound ($21.00 / 50 = $0.42), and lentils, which jump by $61.00 / $38.75 - 1 = 57 %. Not in the book: leeks, and
# "cider vineger" with a code that the book does not know.
NEW = {item: (TAKEN.get(item, price), unit) for item, (price, unit) in PAID.items()}
BASE = {"lb": G_PER_LB, "fl oz": ML_PER_FLOZ, "each": F(1), "bunch": F(1)}  # grams, millilitres, pieces


def base_units(item):
    """How many grams, millilitres or pieces, whatever the pack is measured in, are one unit of PAID."""
    if item == "Apples, tart":
        return lb(40) * G_PER_LB / 88  # the pack says what it weighs as well, and is priced by that
    return BASE[PAID[item][1]]



# --- What is sold, of which recipe, and how many batches make one portion's share -----------------------------------------
RECIPES = {
    "Smoky shrimp soup, cup": ("Smoky shrimp and butternut soup", F(1)),
    "Smoky shrimp soup, bowl": ("Smoky shrimp and butternut soup", F(12, 8)),
    "Chilled shrimp with grapefruit and fennel": ("Chilled shrimp with grapefruit and fennel", F(1)),
    "Duck breast with honeyed apples": ("Duck breast with honeyed apples", F(1)),
    "Duck and lentil plate": ("Duck and lentil plate", F(1)),
    "Warm lentils with a soft egg": ("Warm lentils with a soft egg", F(1)),
    "Duck and barley soup": ("Duck and barley soup", F(1)),
}
SHORT = ("soup, cup", "soup, bowl", "shrimp", "duck breast", "lentil plate", "soft egg", "barley soup")
PORTIONS = {dish: sum(evening.get(dish, 0) for evening in PLAN) for dish in RECIPES}
# What is bought for the tests goes by what the plan's balance puts in. Backs and base stand in for trim that is never short;
# lentils for cracklings that are, a pound for a pound. What is in the store room is not bought.
GOES_IN = {"White shrimp, head on": "Peeling shrimp", "Whole duck": "Breaking down duck"}
STANDS_IN = ("Chicken backs", "Shellfish base")
TESTS = {
    "Peeling shrimp": ("Shrimp tails", "Shrimp shells", "Shrimp heads"),
    "Breaking down duck": ("Duck breast", "Duck legs", "Duck frame", "Duck skin and fat", "Duck wing tips"),
    "Braising duck legs": ("Braised duck meat",),
}  # rendering duck fat does not move: skin is charged $1.60 whatever a duck costs
STOCKS = {
    "Brown roux": "cost_per_g",
    "Honey mustard dressing": "cost_per_ml",
    "Shrimp shell stock": "cost_per_ml",
    "Duck frame stock": "cost_per_ml",
    "Duck fat potatoes": "cost_per_g",
}


def figures(paid, **how):
    """Every figure of the kitchen at these prices."""
    return {(kind, name, figure): value for kind, name, figure, value in work(paid, **how).answers}


def with_price(item, price):
    """What is paid, but for one item."""
    return {**PAID, item: (price, PAID[item][1])}


def food_of_plan(paid):
    """The food of all that is planned, without Q and without any spice: not even that of the shell stock's card."""
    of, food = figures(paid, card_spice=F(0)), F(0)
    for dish, (recipe, shares) in RECIPES.items():
        food += PORTIONS[dish] * shares * of["recipe", recipe, "food_cost"] / of["recipe", recipe, "portions"]
    return food


def dollars(x, places):
    """Money, the minus before the sign."""
    return f"{'−' if x < 0 else ''}${fixed(abs(x), places)}"


def signed(x, places):
    """A change, with its sign."""
    return f"{'−' if x < 0 else '+'}{fixed(abs(x), places)}"


def quantities():
    """How much of each item must be bought for the plan, in the units of PAID. What a dollar more a pound adds to the food
    of the plan is how many pounds are in it; what is in the store room comes off."""
    goes_in, _, parts = balance()
    before, taken = food_of_plan(PAID), {}
    for item, (price, _) in PAID.items():
        if item in STANDS_IN:
            taken[item] = F(0)
        elif item in GOES_IN:
            taken[item] = goes_in[GOES_IN[item]]
        else:
            taken[item] = food_of_plan(with_price(item, price + 1)) - before
    taken["Green lentils"] += parts["Duck cracklings"]["short"]
    for item, wanted in from_store(parts["Duck cracklings"]["short"]).items():
        assert taken[item] == wanted, f"{item}: the plan takes something else"
        taken[item] = F(0)
    return taken


was, now = figures(PAID), figures(NEW)
alone = {item: figures(with_price(item, price)) for item, price in TAKEN.items()}
basket = quantities()
answers, tables = [], []


def both(kind, name, figure, words):
    """Notes a figure before and after."""
    for when, of in (("was", was), ("now", now)):
        answers.append((kind, name, f"{words}_{when}", of[kind, name, figure]))


# --- Items -------------------------------------------------------------------------------------------------------------
rows = []
for item, price in TAKEN.items():
    before, unit = PAID[item]
    assert before != price, f"{item} does not move"
    base, worth = base_units(item), (price - before) * basket[item]
    answers += [
        ("mover", item, "unit_cost_was", before / base),
        ("mover", item, "unit_cost_now", price / base),
        ("mover", item, "change_percent", 100 * (price / before - 1)),
        ("mover", item, "quantity", basket[item] * base),
        ("mover", item, "worth", worth),
    ]
    rows.append(
        f"| {item} | {unit} | {dollars(before, 4)} | {dollars(price, 4)} | {signed(100 * (price / before - 1), 2)} % |"
        f" {fixed(basket[item], 4)} | {dollars(worth, 4)} |"
    )
tables.append([
    "| item | per | was | now | change | must be bought | worth |",
    "| --- | --- | ---: | ---: | ---: | ---: | ---: |",
    *rows,
])

# --- Dishes ------------------------------------------------------------------------------------------------------------
rows, all_worth = [], F(0)
for dish in RECIPES:
    for figure in ("portion_cost", "food_cost_percent", "margin", "price_at_target"):
        both("dish", dish, figure, figure)
    target = was["dish", dish, "target_percent"]
    over = {when: max(F(0), of["dish", dish, "food_cost_percent"] - target) for when, of in (("was", was), ("now", now))}
    change = now["dish", dish, "portion_cost"] - was["dish", dish, "portion_cost"]
    worth = change * PORTIONS[dish]
    all_worth += worth
    answers += [("dish", dish, f"over_points_{when}", points) for when, points in over.items()]
    answers += [
        ("dish", dish, "change", change),
        ("dish", dish, "portions", F(PORTIONS[dish])),
        ("dish", dish, "worth", worth),
    ]
    portion, percent, at_target = (
        [of["dish", dish, figure] for of in (was, now)]
        for figure in ("portion_cost", "food_cost_percent", "price_at_target")
    )
    rows.append(
        f"| {dish} | {' → '.join(dollars(x, 4) for x in portion)} | {signed(100 * change, 2)} ¢ |"
        f" {' → '.join(fixed(x, 2) for x in percent)} % | {fixed(target, 0)} % |"
        f" {' → '.join(dollars(x, 2) for x in at_target)} | {PORTIONS[dish]} | {dollars(worth, 4)} |"
    )
rows.append(f"| **over the plan** | | | | | | | **{dollars(all_worth, 4)}** |")
tables.append([
    "| dish | portion cost | change | food cost | target | price at target | portions | worth |",
    "| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |",
    *rows,
])

# --- What drove them: each item's price changed alone --------------------------------------------------------------------
drivers = {
    (dish, item): alone[item]["dish", dish, "portion_cost"] - was["dish", dish, "portion_cost"]
    for dish in RECIPES for item in TAKEN
}
for dish in RECIPES:
    change = now["dish", dish, "portion_cost"] - was["dish", dish, "portion_cost"]
    assert sum(drivers[dish, item] for item in TAKEN) == change, f"{dish}: the items do not add up to the change"
    answers += [("driver", f"{dish} > {item}", "change", drivers[dish, item]) for item in TAKEN if drivers[dish, item]]
rows = []
for item in TAKEN:
    cells = [signed(100 * drivers[dish, item], 2) if drivers[dish, item] else "·" for dish in RECIPES]
    if any(drivers[dish, item] for dish in RECIPES):
        rows.append(f"| {item} | " + " | ".join(cells) + " |")
rows.append("| **change** | " + " | ".join(
    f"**{signed(100 * (now['dish', dish, 'portion_cost'] - was['dish', dish, 'portion_cost']), 2)}**" for dish in RECIPES
) + " |")
tables.append([
    "| cents a portion | " + " | ".join(SHORT) + " |", "| --- | " + " | ".join("---:" for _ in SHORT) + " |", *rows,
])

# --- On the way: tests and what recipes make -----------------------------------------------------------------------------
rows = []
for test, parts in TESTS.items():
    both("test", test, "cost", "cost")
    for part in parts:
        both("part", part, "cost", "cost")
        both("part", part, "cost_per_g", "cost_per_g")
        per_lb = [of["part", part, "cost_per_g"] * G_PER_LB for of in (was, now)]
        rows.append(f"| {part} | lb | {dollars(per_lb[0], 4)} | {dollars(per_lb[1], 4)} |")
for recipe, unit in STOCKS.items():
    both("recipe", recipe, "batch_cost", "batch_cost")
    both("recipe", recipe, unit, "unit_cost")
    batch = [of["recipe", recipe, "batch_cost"] for of in (was, now)]
    rows.append(f"| {recipe} | batch | {dollars(batch[0], 4)} | {dollars(batch[1], 4)} |")
tables.append(["| part or recipe | per | was | now |", "| --- | --- | ---: | ---: |", *rows])

# --- The basket ----------------------------------------------------------------------------------------------------------
in_it = [item for item in PAID if basket[item]]
basket_was = sum(basket[item] * PAID[item][0] for item in in_it)
basket_now = sum(basket[item] * NEW[item][0] for item in in_it)
# It is the plan's list before whole packs: what it brings in, and what is sold.
for of, cost in ((was, basket_was), (now, basket_now)):
    assert cost == of["total", "credited", "purchases"], "the basket is not what the plan must buy"
answers += [
    ("index", "plan", "was", basket_was),
    ("index", "plan", "now", basket_now),
    ("index", "plan", "index", basket_now / basket_was),
    ("index", "plan", "counted", F(len(in_it))),
]
tables.append([
    "| basket of the plan | items | was | now | index |",
    "| --- | ---: | ---: | ---: | ---: |",
    f"| what is bought | {len(in_it)} | {dollars(basket_was, 4)} | {dollars(basket_now, 4)} |"
    f" {fixed(100 * basket_now / basket_was, 2)} |",
])

if __name__ == "__main__":
    tsv, paper = HERE / "teaching-kitchen.reprice.tsv", HERE / "teaching-kitchen.md"
    sys.exit(finish("teaching kitchen, new prices", answers, tables, tsv, paper, __doc__, sys.argv[1:]))
