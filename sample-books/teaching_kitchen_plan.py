"""The teaching kitchen's plan, worked by hand in exact fractions: whether there is enough trim, and what it is worth.

It is called by `check_teaching_kitchen.py`, whose prices, tests and recipes it stands on, and never opens the workbook.
Weights are in pounds, money in dollars. The plan is two evenings, 24 and 25 November; whatever is kept is kept for two
days at the least, the day of its making the first, and what is on hand counts as made on the 24th: nothing is too old.
"""

from fractions import Fraction as F

from by_hand import ceiling, fixed, plain

QT = 32  # fluid ounces


def lb(pounds=0, oz=0):
    """Pounds and ounces, in pounds."""
    return F(pounds) + F(oz) / 16


# --- What is in a portion, in pounds of every part -------------------------------------------------------------------
# Shell stock: 2 lb of shells and 4 lb of heads in 8 qt. The soup takes 6 qt of it for 38.8 cups of 8 fl oz.
CUPS = F(10 * QT * 97, 100) / 8
CUP = {"Shrimp shells": F(6, 8) * lb(2) / CUPS, "Shrimp heads": F(6, 8) * lb(4) / CUPS}
# Frame stock: 6 lb of frame and 12 oz of wing tips in 6 qt.
STOCK_QT = {"Duck frame": lb(6) / 6, "Duck wing tips": lb(oz=12) / 6}
# Potatoes: 8 oz of fat of which 40 % is used up, in 4 lb x 95 % / 5 oz = 12.16 portions.
POTATOES = lb(oz=8) * F(40, 100) / (lb(4) * F(95, 100) / lb(oz=5))
# Barley soup: a batch is 9 qt x 96 % / 12 fl oz = 23.04 portions, and takes a whole batch of stock.
BOWLS = F(9 * QT * 96, 100) / 12

PORTIONS = {
    "Smoky shrimp soup, cup": CUP,
    "Smoky shrimp soup, bowl": {part: pounds * F(12, 8) for part, pounds in CUP.items()},
    "Chilled shrimp with grapefruit and fennel": {"Shrimp tails": lb(3, 2) / 10},
    "Duck breast with honeyed apples": {
        "Duck breast": lb(4) / 8,
        "Rendered duck fat": 8 * POTATOES / 8,
        **{part: pounds / 8 for part, pounds in STOCK_QT.items()},
    },
    "Duck and lentil plate": {
        "Braised duck meat": lb(3) / 12,
        "Rendered duck fat": lb(oz=2) / 12,
        **{part: pounds / 12 for part, pounds in STOCK_QT.items()},
    },
    "Warm lentils with a soft egg": {"Duck cracklings": lb(oz="0.5")},
    "Duck and barley soup": {
        "Braised duck meat": lb(1, 8) / BOWLS,
        "Rendered duck fat": lb(oz=3) / BOWLS,
        **{part: 6 * pounds / BOWLS for part, pounds in STOCK_QT.items()},
    },
}

# --- The plan, and what is on hand before it -------------------------------------------------------------------------
PLAN = [
    {
        "Chilled shrimp with grapefruit and fennel": 24,
        "Smoky shrimp soup, cup": 20,
        "Duck breast with honeyed apples": 16,
        "Duck and lentil plate": 12,
        "Warm lentils with a soft egg": 8,
    },
    {
        "Smoky shrimp soup, cup": 24,
        "Smoky shrimp soup, bowl": 30,
        "Duck and barley soup": 23,
        "Chilled shrimp with grapefruit and fennel": 12,
    },
]
ON_HAND = {"Shrimp shells": lb(1, 8), "Duck frame": lb(5)}
# In the store room, in the units of the prices: pounds, and 2.25 L in fluid ounces of 29.5735295625 ml.
STORE = {"Butter, unsalted": lb(12), "Green lentils": F("9.5"), "Dry sherry": 2250 / F("29.5735295625")}


def from_store(stand_ins):
    """What the plan takes of it, where so many pounds of lentils stand in for cracklings; all of it is there."""
    batches = (44 + 30 * F(12, 8)) / CUPS  # of the soup: 44 cups and 30 bowls of 1½
    taken = {
        # 4 oz and 12 of the 30 oz of a roux of a pound; 4 oz for 8 of the 16 duck breasts.
        "Butter, unsalted": batches * (lb(oz=4) + F(12, 30) * lb(1)) + 16 * lb(oz=4) / 8,
        # Dry, 240 % when cooked: 5 lb for 12 plates, 6 oz for each of 8.
        "Green lentils": lb(5) / F(240, 100) + 8 * lb(oz=6) / F(240, 100) + stand_ins,
        # A cup, and one for 6 of 8 qt of shell stock.
        "Dry sherry": batches * (8 + F(6, 8) * 8),
    }
    assert all(taken[item] <= STORE[item] for item in STORE), "the store room is not enough"
    return taken

# --- The tests: what goes in, what comes out ---------------------------------------------------------------------------
# Name: (what goes in, its pounds, pieces, {main: pounds}, {by-product: pounds}); those that use others' parts first.
TESTS = {
    "Braising duck legs": ("Duck legs", lb(8, 3), None, {"Braised duck meat": lb(4, 2)}, {}),
    "Rendering duck fat": (
        "Duck skin and fat", lb(4, 4), None, {"Rendered duck fat": lb(2, 12)}, {"Duck cracklings": lb(oz=9)},
    ),
    "Peeling shrimp": (
        "White shrimp, head on", lb(15), None,
        {"Shrimp tails": lb(7, 6)}, {"Shrimp shells": lb(1, 14), "Shrimp heads": lb(5, 5)},
    ),
    "Breaking down duck": (
        "Whole duck", lb(31, 8), 6,
        {"Duck breast": lb(7, 14), "Duck legs": lb(8, 3)},
        {"Duck frame": lb(8, 10), "Duck skin and fat": lb(4, 4), "Duck wing tips": lb(1, 2)},
    ),
}
FIGURES = ("on_hand", "made", "wanted", "used", "left_over", "short")


def balance():
    """Goes through both evenings. Gives {test: pounds in}, {test: pieces}, {part: figures in pounds}."""
    parts = {part: dict.fromkeys(FIGURES, F(0)) for *_, mains, others in TESTS.values() for part in {**mains, **others}}
    there = {part: ON_HAND.get(part, F(0)) for part in parts}
    for part, pounds in ON_HAND.items():
        parts[part]["on_hand"] = pounds
    goes_in, pieces = dict.fromkeys(TESTS, F(0)), dict.fromkeys(TESTS, F(0))
    for evening in PLAN:
        wanted = dict.fromkeys(parts, F(0))
        for dish, portions in evening.items():
            for part, pounds in PORTIONS[dish].items():
                wanted[part] += portions * pounds
        for test, (source, weight, count, mains, others) in TESTS.items():
            # What is there comes off first; the main that wants most decides, in whole ducks.
            missing = {part: wanted[part] - min(there[part], wanted[part]) for part in {**mains, **others}}
            pounds = max(missing[part] * weight / out for part, out in mains.items())
            if count:
                whole = ceiling(pounds * count / weight)
                pieces[test] += whole
                pounds = whole * weight / count
            goes_in[test] += pounds
            if source in wanted:
                wanted[source] += pounds
            for part, out in {**mains, **others}.items():
                made = pounds * out / weight
                used = min(there[part] + made, wanted[part])
                there[part] += made - used
                for figure, more in (("made", made), ("wanted", wanted[part]), ("used", used)):
                    parts[part][figure] += more
                parts[part]["short"] += wanted[part] - used
    for part, figures in parts.items():
        figures["left_over"] = there[part]
        assert figures["on_hand"] + figures["made"] == figures["used"] + figures["left_over"], part
    return goes_in, pieces, parts


def work(kitchen, on):
    """Notes every answer and table of the plan. `on` holds the prices, tests and recipes of the script."""
    grams, answer, money = kitchen.grams, kitchen.answer, kitchen.money
    goes_in, pieces, parts = balance()
    order = ["Peeling shrimp", "Breaking down duck", "Braising duck legs", "Rendering duck fat"]
    rows = []
    for test in order:
        _, _, count, mains, others = TESTS[test]
        answer("goes in", test, "goes_in_g", goes_in[test] * grams)
        if count:
            answer("goes in", test, "pieces", pieces[test])
        whole = f"{plain(pieces[test])} whole, " if count else ""
        rows.append(f"| {test}: {whole}{fixed(goes_in[test], 4)} lb go in | | | | | | |")
        for part in {**mains, **others}:
            figures = parts[part]
            for figure in FIGURES:
                answer("balance", part, f"{figure}_g", figures[figure] * grams)
            rows.append(f"| {part} | " + " | ".join(fixed(figures[figure], 4) for figure in FIGURES) + " |")
    kitchen.tables.append([
        "| in pounds | on hand | made | wanted | used | left over | short |",
        "| --- | ---: | ---: | ---: | ---: | ---: | ---: |",
        *rows,
    ])

    # --- What a pound costs in each kitchen -----------------------------------------------------------------------------
    # What stands in for a pound of each by-product, at today's prices.
    buy = {
        "Shrimp shells": lb(oz=2) * on["shellfish_base"],
        "Shrimp heads": lb(oz="0.5") * on["shellfish_base"],
        "Duck frame": lb(1) * on["chicken_backs"],
        "Duck skin and fat": 10 * on["oil_floz"],
        "Duck wing tips": lb(1) * on["chicken_backs"],
        "Duck cracklings": lb(1) * on["lentils"],
    }
    sold = {"Duck skin and fat": F("0.80")}  # all others go in the bin
    # Cracklings run short: who wants them shares what the lentils in their place cost.
    cracklings = parts["Duck cracklings"]
    blended = cracklings["short"] * buy["Duck cracklings"] / cracklings["wanted"]

    def rates(shells, frame, skin_credit, skin_paid, cracklings_paid, paid):
        """What users pay for a pound. Credits are what comes off the mains; `paid` what the other by-products cost."""
        tails = (15 * on["shrimp"] - lb(1, 14) * shells) / lb(7, 6)
        remainder = lb(31, 8) * on["duck"] - lb(8, 10) * frame - lb(4, 4) * skin_credit
        keys = lb(7, 14) * F("15.50") + lb(8, 3) * F("7.25")  # by sales value
        breast, legs = remainder * F("15.50") / keys, remainder * F("7.25") / keys
        return {
            "Shrimp tails": tails,
            "Duck breast": breast,
            "Duck legs": legs,
            "Braised duck meat": lb(8, 3) * legs / lb(4, 2),
            "Duck skin and fat": skin_paid,
            "Rendered duck fat": lb(4, 4) * skin_paid / lb(2, 12),
            "Duck cracklings": cracklings_paid,
            **paid,
        }

    others = ("Shrimp shells", "Shrimp heads", "Duck frame", "Duck wing tips")
    fifth, backs = F(20, 100) * on["shrimp"], on["chicken_backs"]
    kitchens = {
        "binned": rates(0, 0, sold["Duck skin and fat"], buy["Duck skin and fat"], buy["Duck cracklings"],
                        {part: buy[part] for part in others}),
        "free": rates(0, 0, 0, F(0), blended, dict.fromkeys(others, F(0))),
        "credited": rates(fifth, backs, F("1.60"), F("1.60"), blended,
                          {"Shrimp shells": fifth, "Shrimp heads": F(0), "Duck frame": backs, "Duck wing tips": F(0)}),
    }
    # As the recipes above were costed: cracklings free, none of them bought.
    as_costed = {**kitchens["credited"], "Duck cracklings": F(0)}

    # --- Dishes ----------------------------------------------------------------------------------------------------------
    # Food alone: the 1 % on the shell stock's card stays out.
    stock, soup = on["shell_stock"], on["shrimp_soup"]
    bare_soup = soup.food - F(6, 8) * (stock.batch - stock.food)
    food = {
        "Smoky shrimp soup, cup": bare_soup / CUPS,
        "Smoky shrimp soup, bowl": bare_soup * F(12, 8) / CUPS,
        "Chilled shrimp with grapefruit and fennel": on["chilled_shrimp"].food / 10,
        "Duck breast with honeyed apples": on["duck_breast"].food / 8,
        "Duck and lentil plate": on["duck_lentils"].food / 12,
        "Warm lentils with a soft egg": on["lentils_egg"].food,
        "Duck and barley soup": on["duck_soup"].food / BOWLS,
    }
    planned = {dish: sum(evening.get(dish, 0) for evening in PLAN) for dish in food}
    costs = {
        dish: {
            name: food[dish] + sum(pounds * (rate[part] - as_costed[part]) for part, pounds in PORTIONS[dish].items())
            for name, rate in kitchens.items()
        }
        for dish in food
    }
    rows = []
    for dish, cost in costs.items():
        answer("planned", dish, "portions", planned[dish])
        for name in kitchens:
            answer("planned", dish, f"food_{name}", cost[name])
        rows.append(f"| {dish} | {planned[dish]} | " + " | ".join(money(cost[name], 4) for name in kitchens) + " |")
    kitchen.tables.append([
        "| food in a portion | portions | trim binned | reused, free | reused, credited |",
        "| --- | ---: | ---: | ---: | ---: |",
        *rows,
    ])
    # The house's Q and spice on top, where the lentils bought in for cracklings make a difference.
    egg = "Warm lentils with a soft egg"
    answer("planned", egg, "planned_portion_cost", costs[egg]["credited"] * F("1.04") * F("1.01"))

    # --- Over the plan ---------------------------------------------------------------------------------------------------
    mains = [main for *_, mains, _ in TESTS.values() for main in mains]
    credit = {"binned": {}, "free": {}, "credited": {
        "Shrimp shells": fifth, "Duck frame": backs, "Duck skin and fat": F("1.60")}}
    further, eaten = {"Duck frame": F("0.15")}, {"Duck cracklings": 1, "Duck skin and fat": F(75, 100)}
    used = {part: parts[part]["used"] for part in buy}
    further_cost = {part: used[part] * further.get(part, F(0)) for part in buy}
    # What would have been sold was never hauled.
    haulage = {part: F(0) if part in sold else used[part] * eaten.get(part, 0) * F("0.06") for part in buy}
    totals = {}
    for name, rate in kitchens.items():
        in_dishes = sum(planned[dish] * cost[name] for dish, cost in costs.items())
        held = {part: rate[part] if part in mains else credit[name].get(part, F(0)) for part in parts}
        left_over = sum(parts[part]["left_over"] * held[part] for part in parts)
        on_hand = sum(parts[part]["on_hand"] * held[part] for part in parts)
        # The store room: what stands in for cracklings that are short comes out of it. Every kitchen leaves it alike, or what
        # they bring in could not be compared: who bins cracklings buys what stands in for all the others.
        there = {"Butter, unsalted": on["butter"], "Green lentils": on["lentils"], "Dry sherry": on["sherry_floz"]}
        taken = from_store(cracklings["short"])
        left_over += sum((STORE[item] - taken[item]) * price for item, price in there.items())
        on_hand += sum(STORE[item] * price for item, price in there.items())
        # Who bins trim sells all of it that is made, and holds it until then at that price; who uses it, what is left of it.
        if name == "binned":
            fetched = sum(parts[part]["made"] * price for part, price in sold.items())
            left_over += fetched
        else:
            fetched = sum(min(parts[part]["left_over"], parts[part]["made"]) * price for part, price in sold.items())
        to_buy = in_dishes + left_over - on_hand
        brought_in = to_buy - fetched
        using = (F(0), F(0)) if name == "binned" else (sum(further_cost.values()), sum(haulage.values()))
        totals[name] = (in_dishes, left_over, on_hand, fetched, brought_in, to_buy, *using, brought_in + using[0] - using[1])
    binned, free, credited = (totals[name][4] for name in kitchens)
    assert free == credited, "a credit makes money"
    assert binned - free == sum(used[part] * buy[part] for part in buy) - sum(
        (parts[part]["made"] - min(parts[part]["left_over"], parts[part]["made"])) * value
        for part, value in sold.items()), "the bin costs something else"
    words = ("in_dishes", "left_over", "on_hand", "sold", "brought_in", "purchases", "further_cost", "haulage_spared", "comes_to")
    rows = []
    for at, word in enumerate(words):
        for name in kitchens:
            answer("total", name, word, totals[name][at])
        rows.append(f"| {word.replace('_', ' ')} | " + " | ".join(money(totals[name][at], 4) for name in kitchens) + " |")
    kitchen.tables.append([
        "| over the plan | trim binned | reused, free | reused, credited |", "| --- | ---: | ---: | ---: |", *rows,
    ])

    # --- What is saved -----------------------------------------------------------------------------------------------------
    rows, all_saved = [], F(0)
    for part in buy:
        left, made = parts[part]["left_over"], parts[part]["made"]
        not_bought = used[part] * buy[part]
        not_sold = (made - min(left, made)) * sold.get(part, F(0))
        saved = not_bought - not_sold - further_cost[part] + haulage[part]
        all_saved += saved
        figures = (not_bought, not_sold, further_cost[part], haulage[part], saved)
        for word, figure in zip(("not_bought", "not_sold", "further_cost", "haulage_spared", "saved"), figures):
            answer("saving", part, word, figure)
        rows.append(f"| {part} | {fixed(used[part], 4)} lb | " + " | ".join(money(figure, 4) for figure in figures) + " |")
    answer("total", "plan", "saved", all_saved)
    assert totals["binned"][-1] - totals["free"][-1] == all_saved, "the columns differ by something else"
    answer("total", "plan", "purchases", totals["credited"][5])
    rows.append(f"| **in all** | | | | | | **{money(all_saved, 4)}** |")
    kitchen.tables.append([
        "| what is saved | used | not bought | not sold | further cost | haulage spared | saved |",
        "| --- | ---: | ---: | ---: | ---: | ---: | ---: |",
        *rows,
    ])

    # --- What is not earned ------------------------------------------------------------------------------------------------
    # What was on hand is used first, so all that is left was made. Of skin and fat only what 0.80 does not make good.
    left = {part: parts[part]["left_over"] for part in buy}
    of_shrimp = left["Shrimp shells"] * fifth
    of_duck = left["Duck frame"] * backs + left["Duck skin and fat"] * (F("1.60") - F("0.80"))
    answer("total", "plan", "unearned_credit", of_shrimp + of_duck)
    # Over the mains that were made, those of ducks by what they bear; legs lose half their weight in the oven.
    rate = kitchens["credited"]
    bears = {main: parts[main]["made"] * rate[main] for main in ("Duck breast", "Duck legs")}
    more = {main: of_duck * rate[main] / sum(bears.values()) for main in bears}
    more["Shrimp tails"] = of_shrimp / parts["Shrimp tails"]["made"]
    more["Braised duck meat"] = lb(8, 3) * more["Duck legs"] / lb(4, 2)
    for dish, pounds in PORTIONS.items():
        added = sum(amount * more.get(part, F(0)) for part, amount in pounds.items())
        if added:
            answer("earned", dish, "food_if_left_over_is_thrown_away", costs[dish]["credited"] + added)

    # --- How much of a dish is trim ----------------------------------------------------------------------------------------
    # As costed, the shell stock's 1 % within. Rendered fat holds the skin that went into it.
    as_served = {**food, "Smoky shrimp soup, cup": soup.food / CUPS, "Smoky shrimp soup, bowl": soup.food * F(12, 8) / CUPS}
    charged = {"Shrimp shells": fifth, "Duck frame": backs, "Duck skin and fat": F("1.60")}
    rendered = lb(4, 4) / lb(2, 12)
    for dish, pounds in PORTIONS.items():
        trim = {"Duck skin and fat" if part == "Rendered duck fat" else part: amount for part, amount in pounds.items()}
        if "Rendered duck fat" in pounds:
            trim["Duck skin and fat"] *= rendered
        bought = sum(amount * buy[part] for part, amount in trim.items() if part in buy)
        rest = as_served[dish] - sum(amount * charged.get(part, F(0)) for part, amount in trim.items())
        answer("planned", dish, "trim_share_percent", 100 * bought / (bought + rest))
