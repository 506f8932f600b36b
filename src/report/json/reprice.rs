//! What new prices do, as JSON: what moved, every dish with its drivers, what lies between, the basket, and the lists.

use schemars::JsonSchema;
use serde::Serialize;

use super::problem::ProblemJson;
use super::value::{Day, Format, VERSION};
use super::{Figure, Word, percent, pretty};
use crate::analysis::list::Taken;
use crate::analysis::reprice::{BasketKind, Change, DishEffect, Missing, Mover, Standing, Switch};
use crate::kitchen::yield_test::Role;
use crate::problem::Problem;
use crate::report::changes::{Changes, happened, why};
use crate::report::sheets::prices::base_unit;

/// What new prices do: `parings reprice --format json`. Money and quantities are in full; what is not known is null.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings reprice")]
pub(super) struct Report<'a> {
    /// The version of the program.
    parings: &'a str,
    /// The version of this format.
    format: Format,
    /// The day for which both sides are costed.
    as_of: Day,
    /// The currency of all money, such as USD; empty where the book shows none.
    currency: &'a str,
    /// What a dish's change is worth over: the plan, or one portion where there is no plan.
    worth_over: &'static str,
    /// What the prices are weighed with: the plan, or one batch of each recipe.
    basket: &'static str,
    /// How much dearer the basket is; null where it could not be worked out.
    index: Option<Index<'a>>,
    /// The bought items whose price in use moved, by worth, the largest rise first.
    items: Vec<Item<'a>>,
    /// The dishes whose portion cost moved, by worth, the largest rise first.
    dishes: Vec<Dish<'a>>,
    /// The dishes that cost what they did.
    unmoved: Vec<&'a str>,
    /// The dishes without a cost on one side or both.
    not_costed: Vec<NotCosted<'a>>,
    /// The parts of yield tests of which any part moved.
    parts: Vec<Part<'a>>,
    /// The recipes that others use and whose batch moved.
    recipes: Vec<Recipe<'a>>,
    /// Where another supplier's price, or another pack, is cheaper now, by worth over the basket.
    switches: Vec<SwitchTo<'a>>,
    /// The lists, and whose they are.
    lists: Vec<List<'a>>,
    /// The prices that were taken.
    taken: Vec<TakenRow<'a>>,
    /// The rows that were held back: not in the figures.
    held: Vec<HeldRow<'a>>,
    /// The rows that are about nothing in the book.
    unknown: Vec<UnknownRow<'a>>,
    /// What the book buys of these suppliers and their lists do not have.
    missing: Vec<MissingItem<'a>>,
    /// Every problem of the lists.
    problems: Vec<ProblemJson<'a>>,
}

/// A Laspeyres index: the same quantities at both prices.
#[derive(Debug, Serialize, JsonSchema)]
struct Index<'a> {
    /// The cost now over the cost before; null for a basket that cost nothing.
    laspeyres: Option<Figure>,
    /// What the basket cost.
    before: Figure,
    /// What it costs now.
    now: Figure,
    /// How many items are in it.
    items: usize,
    /// The items left out on both sides.
    left_out: Vec<LeftOut<'a>>,
}

/// An item left out of the index.
#[derive(Debug, Serialize, JsonSchema)]
struct LeftOut<'a> {
    /// The item.
    item: &'a str,
    /// Why.
    reason: &'static str,
}

/// A bought item whose price moved.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MovedItem")]
struct Item<'a> {
    /// The item.
    name: &'a str,
    /// The unit of its costs: g, ml, each, or the name of a kitchen's own measure.
    base_unit: String,
    /// What one unit cost as purchased.
    before: Figure,
    /// What it costs now; null where the two prices are by unlike measures.
    now: Option<Figure>,
    /// By how much it moved.
    change_percent: Option<Figure>,
    /// How much of it the basket has.
    quantity: Option<Figure>,
    /// What the move is worth over the basket.
    worth: Option<Figure>,
}

/// A dish whose portion cost moved. The changes of its drivers, together and other add up to its change exactly.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MovedDish")]
struct Dish<'a> {
    /// The dish.
    name: &'a str,
    /// Before.
    before: Side,
    /// With the new prices.
    now: Side,
    /// By how much a portion's cost moved.
    change: Figure,
    /// Portions planned; null without a plan.
    portions: Option<Figure>,
    /// What the change is worth.
    worth: Option<Figure>,
    /// Its target food-cost percentage.
    target_percent: Option<Figure>,
    /// Whether the new prices put it over its target.
    newly_over: bool,
    /// The items that drove it, the largest first; null where they could not be worked out.
    drivers: Option<Vec<Driver<'a>>>,
    /// What many small ones come to, where they are too many to be followed one by one.
    together: Option<Figure>,
    /// What belongs to no one item.
    other: Option<Figure>,
}

/// A dish on one side.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "DishSide")]
struct Side {
    /// What a portion costs.
    portion_cost: Figure,
    /// Portion cost over the price without tax.
    food_cost_percent: Option<Figure>,
    /// Price without tax less portion cost.
    margin: Option<Figure>,
    /// By how many points it is over its target; 0 when it is not.
    over_points: Option<Figure>,
    /// The menu price that meets the target.
    price_at_target: Option<Figure>,
}

/// What one item moved in a portion.
#[derive(Debug, Serialize, JsonSchema)]
struct Driver<'a> {
    /// The item.
    item: &'a str,
    /// By how much it moved the portion cost.
    change: Figure,
}

/// A dish without a cost.
#[derive(Debug, Serialize, JsonSchema)]
struct NotCosted<'a> {
    /// The dish.
    name: &'a str,
    /// When: before, now, or before and now.
    when: &'static str,
}

/// A part of a yield test of which any part moved.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MovedPart")]
struct Part<'a> {
    /// The test.
    test: &'a str,
    /// The part.
    name: &'a str,
    /// What it is.
    role: Word<Role>,
    /// What it bore of the test's cost: a main's share, a by-product's credit.
    cost_before: Figure,
    /// What it bears now.
    cost_now: Figure,
    /// What a gram of it cost.
    cost_per_g_before: Option<Figure>,
    /// What a gram of it costs now.
    cost_per_g_now: Option<Figure>,
}

/// A recipe that others use.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MovedRecipe")]
struct Recipe<'a> {
    /// The recipe.
    name: &'a str,
    /// What a batch cost.
    batch_before: Figure,
    /// What it costs now.
    batch_now: Figure,
}

/// A cheaper price than the one in use.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Switch")]
struct SwitchTo<'a> {
    /// The item.
    item: &'a str,
    /// The supplier whose price is in use; empty when not named.
    from: &'a str,
    /// The supplier of the cheaper one; the same for another pack.
    to: &'a str,
    /// Whether the one in use is marked Preferred.
    preferred: bool,
    /// The unit of the two costs.
    base_unit: String,
    /// What one edible unit costs at the price in use.
    ep_from: Figure,
    /// What it would cost.
    ep_to: Figure,
    /// What the switch would save over the basket.
    worth: Option<Figure>,
}

/// A list.
#[derive(Debug, Serialize, JsonSchema)]
struct List<'a> {
    /// The file as it was given on the command line.
    file: &'a str,
    /// Whose it is as a whole; empty when nothing says so.
    supplier: &'a str,
}

/// A price that was taken.
#[derive(Debug, Serialize, JsonSchema)]
struct TakenRow<'a> {
    /// The item, as the book spells it.
    item: &'a str,
    /// The supplier.
    supplier: &'a str,
    /// The supplier's code.
    code: &'a str,
    /// Since when it counts.
    date: Option<Day>,
    /// By how much the price per unit moved.
    change_percent: Option<Figure>,
    /// What happened besides, such as a smaller pack.
    happened: Option<String>,
    /// Where it stands.
    cell: String,
}

/// A row that was held back.
#[derive(Debug, Serialize, JsonSchema)]
struct HeldRow<'a> {
    /// The item.
    item: &'a str,
    /// Why.
    why: &'static str,
    /// Whether naming the item takes the price all the same.
    may_be_accepted: bool,
    /// By how much the price per unit would have moved.
    change_percent: Option<Figure>,
    /// Where it stands.
    cell: String,
}

/// A row about nothing in the book.
#[derive(Debug, Serialize, JsonSchema)]
struct UnknownRow<'a> {
    /// The item, as the list spells it.
    item: &'a str,
    /// The supplier's code.
    code: &'a str,
    /// The nearest name, as a question.
    question: Option<&'a str>,
    /// What to do about it.
    what_to_do: &'a str,
    /// Where it stands.
    cell: String,
}

/// An item that its supplier's list does not have.
#[derive(Debug, Serialize, JsonSchema)]
struct MissingItem<'a> {
    /// The item.
    item: &'a str,
    /// What to do about it.
    what_to_do: &'a str,
}

/// The whole report.
pub fn reprice(changes: &Changes<'_>, problems: &[Problem]) -> String {
    let (effects, list) = (changes.effects, changes.list);
    let named = |dish: usize| changes.new.dishes.get(dish).map(|dish| dish.name.as_str()).unwrap_or_default();
    let basket = match effects.basket.as_ref().map(|basket| basket.kind) {
        Ok(BasketKind::Plan) => "plan",
        Ok(BasketKind::Batches) => "one batch of each recipe",
        Err(_) => "not known",
    };
    let cell = |row: usize| list.rows.get(row).map(|row| row.input.place.to_string()).unwrap_or_default();
    let parts = effects.tests.iter().flat_map(|test| &test.parts);
    let report = Report {
        parings: VERSION,
        format: Format,
        as_of: Day(changes.now.scenario.date),
        currency: &changes.new.settings.currency,
        worth_over: if changes.new.plan.rows.is_empty() { "one portion" } else { "plan" },
        basket,
        index: effects.index.as_ref().ok().map(|index| Index {
            laspeyres: index.index.map(Figure),
            before: Figure(index.was),
            now: Figure(index.now),
            items: index.counted,
            left_out: index
                .left_out
                .iter()
                .map(|(item, reason)| LeftOut { item: changes.item(*item), reason: reason.words() })
                .collect(),
        }),
        items: effects.movers.iter().map(|mover| item(changes, mover)).collect(),
        dishes: effects.dishes.iter().map(|effect| dish(changes, named(effect.dish), effect)).collect(),
        unmoved: effects.unmoved.iter().map(|dish| named(*dish)).collect(),
        not_costed: effects
            .uncosted
            .iter()
            .map(|one| NotCosted {
                name: named(one.dish),
                when: match one.when {
                    Missing::Before => "before",
                    Missing::Now => "now",
                    Missing::Both => "before and now",
                },
            })
            .collect(),
        parts: parts.filter_map(|effect| part(changes, effect)).collect(),
        recipes: effects
            .recipes
            .iter()
            .filter_map(|effect| {
                let Change { was, now } = effect.batch;
                let name = &changes.new.recipe(effect.recipe)?.name;
                Some(Recipe { name, batch_before: Figure(was), batch_now: Figure(now) })
            })
            .collect(),
        switches: effects.switches.iter().map(|one| switch(changes, one)).collect(),
        lists: list.suppliers.iter().map(|(file, supplier)| List { file, supplier }).collect(),
        taken: list.taken.iter().map(|taken| taken_row(changes, taken)).collect(),
        held: list
            .held
            .iter()
            .map(|held| HeldRow {
                item: changes.held_name(held),
                why: why(held.why),
                may_be_accepted: held.why.may_be_accepted(),
                change_percent: held.moved.as_ref().and_then(|moved| moved.by).and_then(percent),
                cell: cell(held.row),
            })
            .collect(),
        unknown: list
            .unknown
            .iter()
            .filter_map(|one| {
                let row = list.rows.get(one.row)?;
                let question = one.question.as_deref();
                let (item, code) = (row.item.as_str(), row.code.as_str());
                Some(UnknownRow { item, code, question, what_to_do: &one.what_to_do, cell: cell(one.row) })
            })
            .collect(),
        missing: list
            .missing
            .iter()
            .filter_map(|one| {
                Some(MissingItem { item: &changes.old.item(one.item)?.name, what_to_do: &one.what_to_do })
            })
            .collect(),
        problems: problems.iter().map(ProblemJson::of).collect(),
    };
    pretty(&report)
}

fn item<'a>(changes: &Changes<'a>, mover: &Mover) -> Item<'a> {
    Item {
        name: changes.item(mover.item),
        base_unit: base_unit(&mover.was.kind),
        before: Figure(mover.was.unit_cost),
        now: mover.now_as_was.ok().map(Figure),
        change_percent: mover.fraction.and_then(percent),
        quantity: mover.quantity.map(Figure),
        worth: mover.worth.ok().map(Figure),
    }
}

fn dish<'a>(changes: &Changes<'a>, name: &'a str, effect: &DishEffect) -> Dish<'a> {
    let drivers = effect.drivers.as_ref().ok();
    Dish {
        name,
        before: side(&effect.was),
        now: side(&effect.now),
        change: Figure(effect.change),
        portions: effect.portions.map(Figure),
        worth: effect.worth.as_ref().ok().copied().map(Figure),
        target_percent: changes.new.dishes.get(effect.dish).and_then(|dish| dish.target).and_then(percent),
        newly_over: effect.is_newly_over(),
        drivers: drivers.map(|drivers| {
            let of = |driver: &crate::analysis::reprice::Driver| Driver {
                item: changes.item(driver.item),
                change: Figure(driver.change),
            };
            drivers.items.iter().map(of).collect()
        }),
        together: drivers.map(|drivers| Figure(drivers.together)),
        other: drivers.map(|drivers| Figure(drivers.other)),
    }
}

fn side(standing: &Standing) -> Side {
    Side {
        portion_cost: Figure(standing.portion_cost),
        food_cost_percent: standing.food_cost.and_then(percent),
        margin: standing.margin.map(Figure),
        over_points: standing.over.and_then(percent),
        price_at_target: standing.price_at_target.map(Figure),
    }
}

fn part<'a>(changes: &Changes<'a>, effect: &crate::analysis::reprice::PartEffect) -> Option<Part<'a>> {
    let part = changes.new.part(effect.part)?;
    Some(Part {
        test: &changes.new.test(effect.part.test)?.name,
        name: &part.name,
        role: Word(part.role),
        cost_before: Figure(effect.cost.was),
        cost_now: Figure(effect.cost.now),
        cost_per_g_before: effect.per_gram.map(|change| Figure(change.was)),
        cost_per_g_now: effect.per_gram.map(|change| Figure(change.now)),
    })
}

fn switch<'a>(changes: &Changes<'a>, switch: &Switch) -> SwitchTo<'a> {
    let supplier =
        |row: usize| changes.new.entries.prices.get(row).map(|row| row.supplier.as_str()).unwrap_or_default();
    SwitchTo {
        item: changes.item(switch.item),
        from: supplier(switch.from),
        to: supplier(switch.to),
        preferred: switch.is_preferred,
        base_unit: base_unit(&switch.kind),
        ep_from: Figure(switch.ep_from),
        ep_to: Figure(switch.ep_to),
        worth: switch.worth.ok().map(Figure),
    }
}

fn taken_row<'a>(changes: &Changes<'a>, taken: &'a Taken) -> TakenRow<'a> {
    TakenRow {
        item: changes.old.item(taken.moved.item).map(|item| item.name.as_str()).unwrap_or_default(),
        supplier: &taken.price.supplier,
        code: &taken.price.code,
        date: taken.price.date.given().copied().map(Day),
        change_percent: taken.moved.by.and_then(percent),
        happened: happened(&taken.moved.change),
        cell: taken.price.input.place.to_string(),
    }
}
