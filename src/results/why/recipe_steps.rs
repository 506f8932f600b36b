//! Steps of a recipe: every line from its quantity to money, then the batch and the portion.

use super::sources;
use super::step::{OfWhat, StepWord, Walk};
use crate::costing::price::bought::PriceFrom;
use crate::costing::q_and_spice::{FactorFrom, QAndSpice};
use crate::costing::rate::Amount;
use crate::costing::trace::CostedAs;
use crate::costing::{Costing, LineCost, LineTrace, RecipeCost, YieldFrom};
use crate::kitchen::bridge::Basis;
use crate::kitchen::recipe::{Flour, IngredientSource, Line, LineEntry, LineQuantity, QFactor, Recipe, RecipeEntry};
use crate::kitchen::settings::Setting;
use crate::kitchen::{DishId, Kitchen, RecipeId};
use crate::number::{Decimal, Overflow, exact};
use crate::results::display_units::{DisplayUnit, base_unit};
use crate::results::figures::at_most;
use crate::results::line::LineFigures;
use crate::schema::Column;

/// The steps of a recipe; of some of its lines alone, where they are given.
pub(super) fn walk(
    walk: &mut Walk<'_>,
    kitchen: &Kitchen,
    costing: &Costing,
    id: RecipeId,
    only: Option<&[usize]>,
) -> Option<()> {
    let recipe = kitchen.recipe(id)?;
    let entry = kitchen.entries.recipes.get(recipe.entry)?;
    walk.begin(&recipe.name, OfWhat::Recipe);
    let cost = costing.recipe(id);
    let is_asked = |index: usize| only.is_none_or(|only| only.contains(&index));
    for (index, (line, typed)) in recipe.lines.iter().zip(&entry.lines).enumerate().filter(|(at, _)| is_asked(*at)) {
        walk.line(index.saturating_add(1), &typed.item);
        let cost = cost.and_then(|cost| cost.lines.get(index));
        LineSteps { kitchen, costing, line, typed, flour: recipe.flour.as_ref() }.walk(walk, cost);
    }
    walk.whole();
    if let (Some(cost), None) = (cost, only) {
        totals(walk, kitchen, costing, (recipe, entry), cost);
    }
    Some(())
}

/// The dishes of which lines of a recipe count plates.
pub(super) fn courses<'a>(
    costing: &'a Costing,
    id: RecipeId,
    only: Option<&'a [usize]>,
) -> impl Iterator<Item = DishId> + 'a {
    let lines = costing.recipe(id).map(|cost| cost.lines.as_slice()).unwrap_or_default();
    let asked = lines.iter().enumerate().filter(move |(at, _)| only.is_none_or(|only| only.contains(at)));
    asked.filter_map(|(_, line)| match line {
        LineCost::Costed { trace, .. } => match trace.costed_as {
            CostedAs::Plates(_, dish) => Some(dish),
            _ => None,
        },
        LineCost::Uncosted => None,
    })
}

struct LineSteps<'a> {
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    line: &'a Line,
    typed: &'a LineEntry,
    /// What its percentage goes by, where it is one.
    flour: Option<&'a Flour>,
}

impl LineSteps<'_> {
    fn walk(&self, walk: &mut Walk<'_>, cost: Option<&LineCost>) {
        let place = self.typed.input.place(Column::Qty);
        let measured = match &self.line.quantity {
            LineQuantity::Measured(measured) => Some(measured),
            LineQuantity::Unmeasured { measured, .. } => {
                measured.as_ref().filter(|_| matches!(cost, Some(LineCost::Costed { .. })))
            }
        };
        if let (Some(percent), Some(measured)) = (self.typed.percent_of_flour(), measured) {
            let flour = self.flour.map(|flour| {
                let weight = format!("{} {}", at_most(flour.weight.amount, 4), flour.weight.unit);
                let from = if flour.of_batch { ", from what Makes weighs" } else { "" };
                format!("of {weight} of flour{from}: {} {}", at_most(measured.amount, 4), measured.unit)
            });
            let told = format!("{} %", at_most(percent, 4));
            let said = flour.unwrap_or_default();
            walk.step(StepWord::Asked, (Some(percent), "%", told), said, Some(&place));
        } else if let Some(measured) = measured {
            let basis = if self.line.basis == Basis::Ep { "ready to use (EP)" } else { "as purchased (AP)" };
            let prep = self.typed.prep.trim();
            let said = if prep.is_empty() { basis.to_owned() } else { format!("{prep}, {basis}") };
            let told = format!("{} {}", at_most(measured.amount, 4), measured.unit);
            walk.step(StepWord::Asked, (Some(measured.amount), &measured.unit.name(), told), said, Some(&place));
        }
        match cost {
            Some(LineCost::Costed { cost, trace }) => {
                // A figure that does not fit ends the walk of the line before its cost.
                let _ = self.costed(walk, trace);
                walk.money(StepWord::Cost, *cost, "", None);
            }
            Some(LineCost::Uncosted) => {
                let words = match &self.line.quantity {
                    LineQuantity::Unmeasured { words, .. } if !words.is_empty() => words.clone(),
                    _ => "no quantity".to_owned(),
                };
                let why = "a line without a quantity costs nothing here";
                walk.step(StepWord::NotCosted, (None, "", words), why, Some(&place));
            }
            None => walk.step(StepWord::NotCosted, (None, "", "not known".to_owned()), "", Some(&place)),
        }
    }

    fn costed(&self, walk: &mut Walk<'_>, trace: &LineTrace) -> Result<(), Overflow> {
        let (unit, base) = self.units(trace);
        let units = (&unit, base.as_str());
        let (measured, from) = sources::measures(self.kitchen, &trace.measures);
        let said = if measured.is_empty() { String::new() } else { measured };
        let asked = trace.as_asked().value()?;
        walk.amount(StepWord::Measured, asked, units, said, from.as_ref());
        let drawn = trace.as_purchased()?.value()?;
        let told = LineFigures::of(self.line, trace).trim_yield;
        // Of what is made in the house, and of water, all is used but where the line says otherwise.
        let is_trimmed = |from: YieldFrom| {
            let source = trace.costed_as.source();
            let bought = if let IngredientSource::Bought(id) = source { self.costing.item(id) } else { None };
            from != YieldFrom::None || bought.is_some_and(|cost| cost.from != PriceFrom::Water)
        };
        if let Some((left, from)) = told.filter(|(_, from)| is_trimmed(*from)) {
            let own = Some(self.typed.input.place(Column::Yield));
            let (words, place) = sources::trim_yield(self.kitchen, from, own);
            let through = matches!(trace.costed_as, CostedAs::ThroughTest(_));
            let words = if through { format!("{words}, whose cost for what is left counts") } else { words };
            walk.percent(StepWord::Yield, left, words, place.as_ref());
        }
        if drawn != asked {
            let words = match trace.costed_as.source() {
                IngredientSource::Bought(_) => "as purchased",
                _ => "before this line's yield",
            };
            walk.amount(StepWord::Drawn, drawn, units, words, None);
        }
        let (words, place) = self.price(trace);
        walk.rate(StepWord::UnitCost, source_cost(trace)?, units, words, place.as_ref());
        if self.line.used != Decimal::ONE {
            let place = self.typed.input.place(Column::Used);
            walk.percent(StepWord::Used, self.line.used, "so much of it is used up", Some(&place));
        }
        Ok(())
    }

    /// The unit by which the line is told, and the base unit of its price.
    fn units(&self, trace: &LineTrace) -> (DisplayUnit, String) {
        let plain = |name: &str| DisplayUnit { name: name.to_owned(), size: Decimal::ONE };
        match trace.costed_as {
            CostedAs::Portions(_) | CostedAs::Plates(..) => (plain("portion"), "portion".to_owned()),
            CostedAs::Batches(_) => (plain("batch"), "batch".to_owned()),
            _ => {
                let unit = match trace.costed_as.source() {
                    IngredientSource::Bought(id) => DisplayUnit::of_item(self.kitchen, self.costing, id),
                    IngredientSource::Part(part) => {
                        self.kitchen.test(part.test).map(|test| DisplayUnit::of_test(self.kitchen, test))
                    }
                    _ => None,
                };
                let house = || DisplayUnit::of_house(&trace.kind, self.kitchen.settings.volumes);
                (unit.unwrap_or_else(house), base_unit(&trace.kind))
            }
        }
    }

    fn price(&self, trace: &LineTrace) -> sources::PlacedSource {
        let kitchen = self.kitchen;
        match trace.costed_as.source() {
            IngredientSource::Bought(id) => sources::price(kitchen, self.costing, id),
            IngredientSource::Part(part) => {
                let test = kitchen.test(part.test);
                let name = kitchen.part(part).map(|part| part.name.as_str()).unwrap_or_default();
                let of = test.map(|test| test.name.as_str()).unwrap_or_default();
                (format!("{name}, from the yield test {of}"), test.map(|test| test.place.clone()))
            }
            IngredientSource::Made(id) => {
                let recipe = kitchen.recipe(id);
                if let Some(dish) = self.line.dish.and_then(|dish| kitchen.dish(dish)) {
                    let served = dish.portion.as_ref().map_or_else(|| "a portion".to_owned(), ToString::to_string);
                    let of = recipe.map(|recipe| recipe.name.as_str()).unwrap_or_default();
                    return (format!("the dish {}, {served} of {of}", dish.name), Some(dish.place.clone()));
                }
                let name = recipe.map(|recipe| recipe.name.as_str()).unwrap_or_default();
                let what = match trace.costed_as {
                    CostedAs::Portions(_) => "a portion of",
                    CostedAs::Batches(_) => "a batch of",
                    _ => "the recipe",
                };
                (format!("{what} {name}"), recipe.map(|recipe| recipe.place.clone()))
            }
            IngredientSource::Unknown => sources::PlacedSource::default(),
        }
    }
}

/// Money per base unit of the source, before any yield.
fn source_cost(trace: &LineTrace) -> Result<Decimal, Overflow> {
    if trace.is_rate_yielded() {
        exact::div(exact::mul(trace.rate.money, trace.trim_yield)?, trace.rate.per)
    } else {
        trace.rate.unit_cost()
    }
}

fn totals(
    walk: &mut Walk<'_>,
    kitchen: &Kitchen,
    costing: &Costing,
    (recipe, entry): (&Recipe, &RecipeEntry),
    cost: &RecipeCost,
) {
    walk.money(StepWord::Food, cost.food, "all lines together", None);
    let factors = QAndSpice::of_batch(kitchen, &costing.scenario, recipe);
    if factors.is_any() {
        put_on(walk, entry, &factors, (cost.q, cost.spice));
    }
    walk.money(StepWord::Batch, cost.batch, if factors.is_any() { "food, Q and spice" } else { "the food" }, None);
    if let (Some(makes), Some((kind, amount))) = (recipe.makes.first(), &cost.makes) {
        let told = format!("{} {}", at_most(makes.amount, 4), makes.unit);
        let place = entry.input.place(Column::Makes);
        let words = if recipe.makes_computed { "by Portion and Portions" } else { "" };
        walk.step(StepWord::Makes, (Some(*amount), &base_unit(kind), told), words, Some(&place));
    }
    if !recipe.serving_loss.is_zero() {
        walk.percent(
            StepWord::Loss,
            recipe.serving_loss,
            "left in pots and ladles",
            Some(&entry.input.place(Column::ServingLoss)),
        );
    }
    if let (Some(portion), Some(amount)) = (&recipe.portion, cost.portion.and_then(|portion| portion.value().ok())) {
        let told = format!("{} {}", at_most(portion.amount, 4), portion.unit);
        let base = cost.makes.as_ref().map(|(kind, _)| base_unit(kind)).unwrap_or_default();
        walk.step(StepWord::Portion, (Some(amount), &base, told), "", Some(&entry.input.place(Column::Portion)));
    }
    if let Some(portions) = cost.portions.and_then(|portions| Amount::value(portions).ok()) {
        let (words, place) = match recipe.stated_portions {
            Some(_) => ("as the card says", Some(entry.input.place(Column::Portions))),
            None => ("what the batch makes, less serving loss, by the portion", None),
        };
        walk.step(StepWord::Portions, (Some(portions), "", at_most(portions, 2)), words, place.as_ref());
    }
    if let Some(portion_cost) = cost.portion_cost {
        walk.money(StepWord::PortionCost, portion_cost, "the batch by its portions", None);
    }
}

/// Q and spice as they are put on food.
pub(super) fn put_on(walk: &mut Walk<'_>, entry: &RecipeEntry, factors: &QAndSpice, (q, spice): (Decimal, Decimal)) {
    let whose = |from: FactorFrom| if from == FactorFrom::Card { "by its card" } else { "by the settings" };
    let kitchen = walk.tongue.kitchen;
    let place = |from: FactorFrom, column: Column, setting: Setting| match from {
        FactorFrom::Card => Some(entry.input.place(column)),
        FactorFrom::Settings => sources::setting(kitchen, setting),
    };
    if let Some((factor, from)) = factors.q {
        let words = match factor {
            QFactor::Share(share) => format!("{} of the food, {}", walk.tongue.percent(share), whose(from)),
            QFactor::Money(money) => format!("{} a portion, {}", walk.tongue.money(money), whose(from)),
        };
        walk.money(StepWord::Q, q, words, place(from, Column::QFactor, Setting::QFactor).as_ref());
    }
    if let Some((fraction, from)) = factors.spice {
        let on = if factors.spice_covers_q && factors.q.is_some() { "food and Q" } else { "the food" };
        let words = format!("{} of {on}, {}", walk.tongue.percent(fraction), whose(from));
        walk.money(StepWord::Spice, spice, words, place(from, Column::SpiceFactor, Setting::SpiceFactor).as_ref());
    }
}
