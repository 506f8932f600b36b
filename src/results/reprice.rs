//! New prices and what they do: what moved, every dish with its drivers, what lies between, the basket, and the lists.

pub mod types;

use super::problem::ProblemResult;
use super::value::{Day, FormatVersion, VERSION};
use crate::analysis::reprice::{BasketKind, CostChange, DishEffect, DishFigures, Mover, NotPriced, Switch};
use crate::analysis::supplier_list::Taken;
use crate::problem::Problem;
use crate::results::basket_way::{BasketWay, StepCause};
use crate::results::changes::{Changes, happened, why};
use crate::results::display_units::base_unit;
use crate::results::value::{Figure, percent};
use crate::results::word::Word;
pub(crate) use types::RepriceResults;

use types::{
    BasketStepResult, BasketWayResult, DishSide, DriverResult, HeldRow, IndexResult, LeftOutItem, List, MissingItem,
    MovedDish, MovedItem, MovedPart, MovedRecipe, NotCosted, SwitchTo, TakenRow, UnknownRow,
};

/// What new prices do.
pub fn reprice<'a>(changes: &'a Changes<'a>, problems: &'a [Problem]) -> RepriceResults<'a> {
    let (effects, list) = (changes.effects, changes.list);
    let named = |dish: usize| changes.new.dishes.get(dish).map(|dish| dish.name.as_str()).unwrap_or_default();
    let basket = match effects.basket.as_ref().map(|basket| basket.kind) {
        Ok(BasketKind::Plan) => "plan",
        Ok(BasketKind::Batches) => "one batch of each recipe",
        Err(_) => "not known",
    };
    let cell = |row: usize| list.rows.get(row).map(|row| row.input.place.to_string()).unwrap_or_default();
    let parts = effects.tests.iter().flat_map(|test| &test.parts);
    RepriceResults {
        parings: VERSION,
        format: FormatVersion,
        as_of: Day(changes.now.scenario.date),
        currency: &changes.new.settings.currency,
        worth_over: if changes.new.plan.rows.is_empty() { "one portion" } else { "plan" },
        basket,
        index: effects.index.as_ref().ok().map(|index| IndexResult {
            laspeyres: index.index.map(Figure),
            before: Figure(index.was),
            now: Figure(index.now),
            items: index.counted,
            left_out: index
                .left_out
                .iter()
                .map(|(item, reason)| LeftOutItem { item: changes.item(*item), reason: reason.words() })
                .collect(),
        }),
        way: way(changes),
        items: effects.movers.iter().map(|mover| item(changes, mover)).collect(),
        dishes: dishes(changes),
        unmoved: effects.unmoved.iter().map(|dish| named(*dish)).collect(),
        not_costed: effects
            .uncosted
            .iter()
            .map(|one| NotCosted {
                name: named(one.dish),
                when: match one.when {
                    NotPriced::Before => "before",
                    NotPriced::Now => "now",
                    NotPriced::Both => "before and now",
                },
            })
            .collect(),
        parts: parts.filter_map(|effect| part(changes, effect)).collect(),
        recipes: effects
            .recipes
            .iter()
            .filter_map(|effect| {
                let CostChange { was, now } = effect.batch;
                let name = &changes.new.recipe(effect.recipe)?.name;
                Some(MovedRecipe { name, batch_before: Figure(was), batch_now: Figure(now) })
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
                Some(MissingItem {
                    item: &changes.old.item(one.item)?.name,
                    question: one.question.as_deref(),
                    what_to_do: &one.what_to_do,
                })
            })
            .collect(),
        problems: problems.iter().map(ProblemResult::of).collect(),
    }
}

/// The dishes whose portion cost moved.
pub(crate) fn dishes<'a>(changes: &Changes<'a>) -> Vec<MovedDish<'a>> {
    changes.effects.dishes.iter().map(|effect| dish(changes, effect)).collect()
}

/// The way of the basket; `None` where it is not known, or nothing in it moved.
fn way<'a>(changes: &Changes<'a>) -> Option<BasketWayResult<'a>> {
    let way = BasketWay::of(changes.effects)?;
    let steps = way.steps.iter().map(|step| {
        let (item, items) = match step.by {
            StepCause::Item(at) => (changes.effects.movers.get(at).map(|mover| changes.item(mover.item)), 1),
            StepCause::Others(_, many) => (None, many),
            StepCause::Rest => (None, 0),
        };
        BasketStepResult { item, items, change: Figure(step.change), comes_to: Figure(step.comes_to) }
    });
    Some(BasketWayResult { before: Figure(way.was), steps: steps.collect(), now: Figure(way.now) })
}

fn item<'a>(changes: &Changes<'a>, mover: &Mover) -> MovedItem<'a> {
    MovedItem {
        name: changes.item(mover.item),
        base_unit: base_unit(&mover.was.kind),
        before: Figure(mover.was.unit_cost),
        now: mover.now_as_was.ok().map(Figure),
        change_percent: mover.fraction.and_then(percent),
        quantity: mover.quantity.map(Figure),
        worth: mover.worth.ok().map(Figure),
    }
}

fn dish<'a>(changes: &Changes<'a>, effect: &DishEffect) -> MovedDish<'a> {
    let of_menu = changes.new.dishes.get(effect.dish);
    let drivers = effect.drivers.as_ref().ok();
    MovedDish {
        name: of_menu.map(|dish| dish.name.as_str()).unwrap_or_default(),
        before: side(&effect.was),
        now: side(&effect.now),
        change: Figure(effect.change),
        portions: effect.portions.map(Figure),
        worth: effect.worth.as_ref().ok().copied().map(Figure),
        target_percent: of_menu.and_then(|dish| dish.target).and_then(percent),
        newly_over: effect.is_newly_over(),
        drivers: drivers.map(|drivers| {
            let of = |driver: &crate::analysis::reprice::Driver| DriverResult {
                item: changes.item(driver.item),
                change: Figure(driver.change),
                credit: changes.by_credit(driver).map(Word),
            };
            drivers.items.iter().map(of).collect()
        }),
        together: drivers.map(|drivers| Figure(drivers.together)),
        other: drivers.map(|drivers| Figure(drivers.other)),
    }
}

fn side(standing: &DishFigures) -> DishSide {
    DishSide {
        portion_cost: Figure(standing.portion_cost),
        food_cost_percent: standing.food_cost.and_then(percent),
        margin: standing.margin.map(Figure),
        over_points: standing.over.and_then(percent),
        price_at_target: standing.price_at_target.map(Figure),
    }
}

fn part<'a>(changes: &Changes<'a>, effect: &crate::analysis::reprice::PartEffect) -> Option<MovedPart<'a>> {
    let part = changes.new.part(effect.part)?;
    Some(MovedPart {
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
