"""What the hand-worked kitchens share: rounding and writing numbers, and a kitchen that works its tests, recipes and
dishes in exact fractions and keeps every figure.

It knows nothing of parings and never opens a workbook. A script states one kitchen's prices, yields and quantities, in
the units of its choice, and ends with `Kitchen.main`. Nothing is rounded before the end.
"""

import sys
from decimal import ROUND_HALF_UP, Decimal, localcontext
from fractions import Fraction as F


def pct(percent):
    """A percentage, as a fraction of one."""
    return F(percent) / 100


# --- Rounding and writing numbers --------------------------------------------------------------------------------------
def half_up(x, places):
    """Rounds half away from zero, as a spreadsheet's ROUND does."""
    scaled = abs(x) * 10**places
    whole = scaled.numerator // scaled.denominator
    whole += 2 * (scaled - whole) >= 1
    return F(whole if x >= 0 else -whole, 10**places)


def ceiling(x):
    """The next whole number up."""
    return F(-(-x.numerator // x.denominator))


def fixed(x, places):
    """So many decimals."""
    rounded = half_up(F(x), places)
    return f"{Decimal(rounded.numerator) / Decimal(rounded.denominator):,.{places}f}"


def plain(x):
    """A terminating decimal without its trailing zeros."""
    return f"{(Decimal(x.numerator) / Decimal(x.denominator)).normalize():f}"


def digits(x):
    """A plain decimal of 30 significant digits, exact when it terminates sooner."""
    with localcontext() as context:
        context.prec, context.rounding = 30, ROUND_HALF_UP
        text = f"{Decimal(x.numerator) / Decimal(x.denominator):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def finish(name, answers, tables, tsv, paper, usage, arguments):
    """Compares answers and tables with the files beside the script, or writes the answers, or prints the tables. Gives
    the exit status."""
    lines = ["kind\tname\tfigure\tfraction\tdecimal"]
    lines += [f"{kind}\t{name}\t{figure}\t{x}\t{digits(x)}" for kind, name, figure, x in answers]
    text = "\n".join(lines) + "\n"
    if arguments == ["--write"]:
        tsv.write_text(text, encoding="utf-8")
        return 0
    if arguments == ["--tables"]:
        print("\n\n".join("\n".join(table) for table in tables))
        return 0
    if arguments:
        print(usage, file=sys.stderr)
        return 2
    wrong = []
    if not tsv.exists() or tsv.read_text(encoding="utf-8") != text:
        wrong.append(f"{tsv.name} differs from the arithmetic: run with --write and look at what moved")
    written = set(paper.read_text(encoding="utf-8").splitlines()) if paper.exists() else set()
    wrong += [f"{paper.name} lacks the row: {row}" for table in tables for row in table if row not in written]
    for line in wrong:
        print(line, file=sys.stderr)
    print(f"{name}: {len(answers)} figures, {len(wrong)} differences")
    return 1 if wrong else 0


class Kitchen:
    """One kitchen on paper. `weight` and `volume` are the units its script reckons in: (name, grams), millilitres.

    `house` are the factors of dishes whose card is silent: (target, Q, spice). Prices go up to the next `step` or
    `ending`, one of the two. `tax` is the rate within menu prices.
    """

    def __init__(self, name, sign, weight, ml, house, ending=None, step=None, tax=F(0), spice_covers_q=True):
        self.name, self.sign, self.ml = name, sign, ml
        self.weight_unit, self.grams = weight
        self.target, self.q, self.spice = house
        self.ending, self.step, self.tax, self.spice_covers_q = ending, step, tax, spice_covers_q
        without_tax = "without tax | " if tax else ""
        self.dishes = [
            f"| dish | portion cost | menu price | {without_tax}food cost | target | price at target | margin |"
            " standing |",
            f"| --- | ---: | ---: | {'---: | ' if tax else ''}---: | ---: | ---: | ---: | --- |",
        ]
        self.steps = []  # from batch to portion, a line for each dish
        self.answers = []  # (kind, name, figure, value)
        self.tables = []  # markdown, in the order of the paper

    def money(self, x, places):
        """Money with so many decimals."""
        return f"{self.sign}{fixed(x, places)}"

    def answer(self, kind, name, figure, value):
        """Notes one expected value."""
        self.answers.append((kind, name, figure, F(value)))

    def test(self, name, weight, price, added, mains, credits, waste, added_cost=F(0)):
        """Works one test: what went in, less the credits, shared over the mains.

        `mains` is {part: (weight, sales value per unit or None)}, `credits` {part: (weight, charge per unit)}. With
        sales values the remainder is shared by weight x value; a single main takes all of it. Gives the cost per unit
        of weight by part.
        """
        cost = weight * price + added_cost
        came_out = sum(w for w, _ in mains.values()) + sum(w for w, _ in credits.values()) + sum(waste.values())
        loss = weight + added - came_out
        remainder = cost - sum(w * r for w, r in credits.values())
        keys = {part: w * (value or 1) for part, (w, value) in mains.items()}
        costs = {part: remainder * key / sum(keys.values()) for part, key in keys.items()}
        costs.update({part: w * r for part, (w, r) in credits.items()})
        costs.update({part: F(0) for part in waste})
        assert sum(costs.values()) == cost, f"{name}: parts do not add up to what was paid"
        weights = {part: w for part, (w, _) in {**mains, **credits}.items()} | waste

        unit, money = self.weight_unit, self.money
        self.answer("test", name, "weight_g", weight * self.grams)
        self.answer("test", name, "cost", cost)
        self.answer("test", name, "loss_g", loss * self.grams)
        went_in = f"{plain(weight)} {unit} at {money(price, 4)}"
        went_in += f" and {money(added_cost, 4)} added" if added_cost else ""
        rows = [f"| {name}: {went_in} | | | {money(cost, 4)} | |"]
        for part, w in weights.items():
            per_unit = costs[part] / w
            self.answer("part", part, "weight_g", w * self.grams)
            self.answer("part", part, "yield_percent", 100 * w / weight)
            self.answer("part", part, "cost", costs[part])
            self.answer("part", part, "cost_per_g", per_unit / self.grams)
            self.answer("part", part, "cost_factor", per_unit / price)
            rows.append(
                f"| {part} | {plain(w)} {unit} | {fixed(100 * w / weight, 2)} % | {money(costs[part], 4)} |"
                f" {money(per_unit, 4)} |"
            )
        rows.append(f"| *loss* | {plain(loss)} {unit} | {fixed(100 * loss / weight, 2)} % | | |")
        self.tables.append([f"| part | weight | yield | cost | per {unit} |", "| --- | ---: | ---: | ---: | ---: |", *rows])
        return {part: costs[part] / w for part, w in weights.items()}

    def recipe(self, name, lines, **factors):
        """Works one recipe: see `Recipe`."""
        return Recipe(self, name, lines, **factors)

    def price_at(self, cost, target, tax):
        """The price at which a portion costs its target, with tax put back, up to the next step or ending."""
        wanted = cost / target * (1 + tax)
        if self.step:
            return ceiling(half_up(wanted / self.step, 9)) * self.step
        return max(0, ceiling(half_up(wanted - self.ending, 9))) + self.ending

    def dish(self, name, recipe, menu_price, target=None, share=None, tax=None):
        """One portion on the menu. `share` is its part of the batch when it is not the card's own portion: it then
        takes that share of food and of % Q, a whole money Q, and spice on its own food and Q."""
        target = self.target if target is None else target
        tax = self.tax if tax is None else tax
        q_percent, q_money, spice = recipe.factors()
        share = share or 1 / F(recipe.portions)
        food = recipe.food * share
        q = q_percent * food + q_money
        cost = food + q + spice * (food + q if self.spice_covers_q else food)
        menu_price = F(menu_price)
        bare_price = menu_price / (1 + tax)
        money, portions = self.money, plain(F(recipe.portions))
        times = plain(share * recipe.portions)
        if q_money:
            of_food = f"{times} × {fixed(recipe.food, 6)} ÷ {portions}"
            total = f"({of_food} + {money(q_money, 2)}) × {plain(1 + spice)}"
            if not self.spice_covers_q:
                total = f"{of_food} × {plain(1 + spice)} + {money(q_money, 2)}"
            self.steps.append(f"- {name}: {total} = {money(cost, 4)}.")
        else:
            factors = f"{plain(1 + q_percent)} × {plain(1 + spice)}"
            if not self.spice_covers_q:
                factors = plain(1 + q_percent + spice)
            more = f"{times} × " if times != "1" else ""
            self.steps.append(
                f"- {name}: {more}{fixed(recipe.food, 6)} × {factors} ÷ {portions} = {money(cost, 4)}."
            )
        self.answer("dish", name, "portion_cost", cost)
        self.answer("dish", name, "menu_price", menu_price)
        self.answer("dish", name, "food_cost_percent", 100 * cost / bare_price)
        self.answer("dish", name, "target_percent", 100 * target)
        self.answer("dish", name, "price_at_target", self.price_at(cost, target, tax))
        self.answer("dish", name, "margin", bare_price - cost)
        without_tax = f"{money(bare_price, 4)} | " if self.tax else ""
        self.dishes.append(
            f"| {name} | {money(cost, 4)} | {money(menu_price, 2)} | {without_tax}"
            f"{fixed(100 * cost / bare_price, 2)} % |"
            f" {fixed(100 * target, 0)} % | {money(self.price_at(cost, target, tax), 2)} |"
            f" {money(bare_price - cost, 4)} |"
            f" {'over' if half_up(cost / bare_price - target, 9) > 0 else 'within'} |"
        )

    def main(self, tsv, paper, usage, arguments):
        """Compares, or writes, or prints. Gives the exit status."""
        return finish(self.name, self.answers, [*self.tables, self.dishes, self.steps], tsv, paper, usage, arguments)


class Recipe:
    """A batch: its lines, the Q and spice of its own card, what it makes or how many it serves."""

    def __init__(self, kitchen, name, lines, q_percent=None, q_money=None, spice=None, portions=None):
        self.kitchen, self.name, self.lines, self.portions = kitchen, name, lines, portions
        self.q_percent, self.q_money, self.own_spice = q_percent, q_money, spice
        self.food = sum((cost for _, _, cost in lines), F(0))
        # The card's own factors travel with the batch into other recipes; the house's are for dishes alone.
        self.q = (q_percent or 0) * self.food + (q_money or 0) * (portions or 0)
        self.batch = self.food + self.q + (spice or 0) * self.spiced(self.q)
        answer, money = kitchen.answer, kitchen.money
        answer("recipe", name, "food_cost", self.food)
        answer("recipe", name, "batch_cost", self.batch)
        if portions:
            answer("recipe", name, "portions", portions)
            answer("recipe", name, "portion_cost", self.batch / portions)
        for number, (item, _, cost) in enumerate(lines, start=1):
            answer("line", f"{name} > {number} > {item}", "cost", cost)
        rows = [f"| {item} | {how} | {money(cost, 6)} |" for item, how, cost in lines]
        rows.append(f"| **food cost of the batch** | | **{money(self.food, 6)}** |")
        if self.batch != self.food:
            rows.append(f"| **with the card's own factors** | | **{money(self.batch, 6)}** |")
        kitchen.tables.append([f"| {name} | how | cost |", "| --- | --- | ---: |", *rows])

    def spiced(self, q):
        """What the spice factor is taken on: the food, and Q as well where the house says so."""
        return self.food + (q if self.kitchen.spice_covers_q else 0)

    def by_volume(self, made):
        """Cost per unit of volume of what the batch makes."""
        self.kitchen.answer("recipe", self.name, "cost_per_ml", self.batch / (made * self.kitchen.ml))
        return self.batch / made

    def by_weight(self, made):
        """Cost per unit of weight of what the batch makes."""
        self.kitchen.answer("recipe", self.name, "cost_per_g", self.batch / (made * self.kitchen.grams))
        return self.batch / made

    def factors(self):
        """Q in %, Q in money a portion and spice of a dish: the card's, and the house's where the card is silent."""
        q_percent = self.kitchen.q if self.q_percent is None and self.q_money is None else self.q_percent or F(0)
        spice = self.kitchen.spice if self.own_spice is None else self.own_spice
        return q_percent, self.q_money or F(0), spice
