//! Lines of a recipe: as asked, in base units, and what each costs.

use schemars::JsonSchema;
use serde::Serialize;

use super::value::{Figure, percent};
use super::word::{Word, base, words};
use crate::costing::rate::Amount;
use crate::costing::{LineCost, LineTrace, MeasureFrom, RecipeCost, YieldFrom};
use crate::kitchen::bridge::Basis;
use crate::kitchen::recipe::{IngredientSource, Line, LineEntry, LineQuantity, Recipe};
use crate::measure::{Base, Unit};
use crate::number::{Decimal, exact};
use crate::results::display_units::costed_by;
use crate::schema::Column;

/// A line of a recipe and what it costs. Of a line that is not costed only what was typed is known.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Line")]
pub struct LineResult<'a> {
    /// The ingredient as spelled on the line.
    pub item: &'a str,
    /// Where it comes from; null where the book does not have it.
    pub source: Option<Word<SourceWord>>,
    /// The quantity as typed; null where it is none, as in “to taste”.
    pub qty: Option<Figure>,
    /// The unit as typed.
    pub unit: Option<String>,
    /// Whether the quantity is of the ingredient as purchased or of what is left of it.
    pub basis: Word<Basis>,
    /// The quantity in base units as it meets the price; on an AP line with a measure of the edible portion by way of the yield.
    pub base_qty: Option<Figure>,
    /// Its base unit.
    pub base_unit: Option<Word<Base>>,
    /// How much is left after trimming, in %; null on an AP line, whose measure holds it where one is needed.
    pub yield_percent: Option<Figure>,
    /// Where that yield is from.
    pub yield_from: Option<Word<YieldWord>>,
    /// Where the weight or volume of its measure is from: the least certain step.
    pub measure_from: Option<Word<MeasureWord>>,
    /// Money per base unit, on the line's basis.
    pub unit_cost: Option<Figure>,
    /// What the line costs; null where it is not costed.
    pub cost: Option<Figure>,
    /// That in % of the food cost of the batch; null where it is not costed, or all of it costs nothing.
    pub share_percent: Option<Figure>,
}

words! {
    SourceWord "Source" "Bought; a part of a yield test; or made by another recipe." {
        Bought "bought"
        Fabricated "fabricated"
        Made "made"
    }
    YieldWord "YieldFrom" "The line's own, a trim test, the price row, the edible weight of a piece, a built-in food, or none: 100 %." {
        Line "line"
        Test "test"
        PriceRow "price row"
        Piece "piece"
        Reference "reference"
        None "none"
    }
    MeasureWord "MeasureFrom" "No conversion between weight, volume and pieces was needed; the book's measures; the pack; \
        or a built-in food or published can." {
        SameKind "same kind"
        Measures "measures"
        Pack "pack"
        Reference "reference"
    }
}

impl<'a> LineResult<'a> {
    /// The line at `index` of a recipe; `batch` is `None` where that could not be costed.
    pub fn of(entry: &'a LineEntry, line: &Line, index: usize, batch: Option<&RecipeCost>) -> Self {
        let source = match line.source {
            IngredientSource::Bought(_) => Some(Word(SourceWord::Bought)),
            IngredientSource::Part(_) => Some(Word(SourceWord::Fabricated)),
            IngredientSource::Made(_) => Some(Word(SourceWord::Made)),
            IngredientSource::Unknown => None,
        };
        let cost = batch.and_then(|batch| batch.lines.get(index));
        let is_costed = matches!(cost, Some(LineCost::Costed { .. }));
        let (qty, unit) = typed_quantity(entry, line, is_costed);
        let mut json = LineResult {
            item: &entry.item,
            source,
            qty,
            unit,
            basis: Word(line.basis),
            base_qty: None,
            base_unit: None,
            yield_percent: None,
            yield_from: None,
            measure_from: None,
            unit_cost: None,
            cost: None,
            share_percent: None,
        };
        if let Some(LineCost::Costed { cost, trace }) = cost {
            let figures = LineFigures::of(line, trace);
            // The trim yield of a line as purchased belongs to its measure: the contract of the JSON has null there.
            let (left, from) = figures.trim_yield.filter(|_| line.basis == Basis::Ep).unzip();
            json.base_qty = figures.base_qty.map(Figure);
            json.base_unit = Some(base(&trace.kind));
            json.yield_percent = left.and_then(percent);
            json.yield_from = Some(Word(yield_from(from.unwrap_or(YieldFrom::None))));
            json.unit_cost = figures.unit_cost.map(Figure);
            json.measure_from = Some(Word(measure_from(trace)));
            json.cost = Some(Figure(*cost));
            json.share_percent = batch.and_then(|batch| share_percent(batch, *cost)).map(Figure);
        }
        json
    }
}

/// The quantity and unit of a line as typed. A quantity that is none is `None`: a pinch is one where it is costed.
fn typed_quantity(entry: &LineEntry, line: &Line, is_costed: bool) -> (Option<Figure>, Option<String>) {
    let typed = entry.input.text(Column::Unit);
    let unit = (!typed.is_empty()).then_some(typed);
    if let Some(percent) = entry.percent_of_flour() {
        return (Some(Figure(percent)), unit.or_else(|| Some(Unit::percent().name())));
    }
    match &line.quantity {
        LineQuantity::Measured(measured) => {
            (Some(Figure(measured.amount)), unit.or_else(|| Some(measured.unit.name())))
        }
        LineQuantity::Unmeasured { words, measured } => {
            let qty = measured.as_ref().filter(|_| is_costed).map(|measured| Figure(measured.amount));
            let own = measured.as_ref().map(|measured| measured.unit.name());
            (qty, unit.or(own).or_else(|| (!words.is_empty()).then(|| words.clone())))
        }
    }
}

/// The figures of a costed line that stand behind its cost.
#[derive(Debug, Clone, Copy)]
pub(crate) struct LineFigures {
    /// The quantity in base units as it meets the price; `None` where it does not fit.
    pub base_qty: Option<Decimal>,
    /// Money per base unit; `None` likewise.
    pub unit_cost: Option<Decimal>,
    /// What is left after trimming, as a fraction, and where that is from; `None` on a line as purchased that does not hang on
    /// it.
    pub trim_yield: Option<(Decimal, YieldFrom)>,
}

impl LineFigures {
    /// Those of a line.
    pub fn of(line: &Line, trace: &LineTrace) -> Self {
        let is_told = line.basis == Basis::Ep || trace.is_yielded();
        LineFigures {
            base_qty: trace.as_costed().and_then(Amount::value).ok(),
            unit_cost: trace.rate.unit_cost().ok(),
            trim_yield: is_told.then_some((trace.trim_yield, trace.yield_from)),
        }
    }
}

/// The unit in which a line is typed: what it holds, and what one of it costs, or of a larger one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct TypedUnit {
    /// Base units in one of it, before any yield.
    pub factor: Decimal,
    /// The unit whose cost is told, how many of the typed one that holds, and what it costs in money; `None` where that does not
    /// fit.
    pub told: Option<(String, u32, Decimal)>,
}

impl TypedUnit {
    /// That of a line of which `typed` is the number typed; `None` of none at all, or where it does not fit. Of one per cent of
    /// the flour no cost is told.
    pub fn of((entry, line): (&LineEntry, &Line), trace: &LineTrace, typed: Decimal) -> Option<Self> {
        let factor = trace.as_asked().over(typed).and_then(Amount::value).ok()?;
        Some(TypedUnit { factor, told: if entry.is_percent() { None } else { TypedUnit::told(line, trace, factor) } })
    }

    fn told(line: &Line, trace: &LineTrace, factor: Decimal) -> Option<(String, u32, Decimal)> {
        let unit = line.unit()?.name();
        let (unit, times) = costed_by(&unit);
        let one = Amount::of(exact::mul(factor, Decimal::from(times)).ok()?);
        let crossed = trace.crossing.cross(one, trace.trim_yield).ok()?;
        Some((unit.to_owned(), times, trace.rate.cost_of(crossed).ok()?))
    }
}

/// Base units of what the ingredient is priced by in a gram of it: of a line in % of the flour whose one per cent is `factor`
/// base units. One where that is a weight, too.
pub(crate) fn base_per_gram((entry, line): (&LineEntry, &Line), factor: Decimal) -> Option<Decimal> {
    let percent = entry.percent_of_flour()?;
    let LineQuantity::Measured(weight) = &line.quantity else { return None };
    let grams = exact::mul(weight.amount, weight.unit.grams()?).ok()?;
    let base = exact::mul(factor, percent).ok()?;
    if base == grams { Some(Decimal::ONE) } else { exact::div(base, grams).ok() }
}

/// What a batch weighs by what its recipe makes, in grams.
pub(crate) fn batch_in_grams(recipe: &Recipe) -> Option<Decimal> {
    let batch = recipe.makes.iter().find(|makes| makes.unit.grams().is_some())?;
    exact::mul(batch.amount, batch.unit.grams()?).ok()
}

/// What so much of a batch's food cost is of it, in %; `None` where all of it costs nothing.
fn share_percent(batch: &RecipeCost, cost: Decimal) -> Option<Decimal> {
    batch.share_of_food(cost)?.times(Decimal::ONE_HUNDRED).and_then(Amount::value).ok()
}

/// What so much of a batch's food cost is of it, as a fraction; `None` where all of it costs nothing.
pub(crate) fn share(batch: &RecipeCost, cost: Decimal) -> Option<Decimal> {
    batch.share_of_food(cost)?.value().ok()
}

fn yield_from(from: YieldFrom) -> YieldWord {
    match from {
        YieldFrom::Line => YieldWord::Line,
        YieldFrom::Test(_) => YieldWord::Test,
        YieldFrom::PriceRow(_) => YieldWord::PriceRow,
        YieldFrom::Piece(_) => YieldWord::Piece,
        YieldFrom::Reference(_) => YieldWord::Reference,
        YieldFrom::None => YieldWord::None,
    }
}

fn measure_from(trace: &LineTrace) -> MeasureWord {
    match trace.measures.iter().max() {
        None => MeasureWord::SameKind,
        Some(MeasureFrom::Row(_) | MeasureFrom::Makes | MeasureFrom::TestRow(_)) => MeasureWord::Measures,
        Some(MeasureFrom::Pack(_)) => MeasureWord::Pack,
        Some(MeasureFrom::Can(_) | MeasureFrom::Reference(_)) => MeasureWord::Reference,
    }
}
