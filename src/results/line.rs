//! Lines of a recipe: as asked, in base units, and what each costs.

use schemars::JsonSchema;
use serde::Serialize;

use super::value::{Figure, percent};
use super::word::{Closed, Word, base};
use crate::costing::rate::Amount;
use crate::costing::{LineCost, LineTrace, MeasureFrom, YieldFrom};
use crate::kitchen::InputRow;
use crate::kitchen::bridge::Basis;
use crate::kitchen::recipe::{Line, LineEntry, LineQuantity, Source};
use crate::measure::Base;
use crate::number::Decimal;
use crate::schema::Column;

/// A line of a recipe and what it costs. Of a line that is not costed only what was typed is known.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Line")]
pub(crate) struct LineResult<'a> {
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
    /// The quantity in base units, on the line's basis.
    pub base_qty: Option<Figure>,
    /// Its base unit.
    pub base_unit: Option<Word<Base>>,
    /// How much is left after trimming, in %; null on an AP line.
    pub yield_percent: Option<Figure>,
    /// Where that yield is from.
    pub yield_from: Option<Word<YieldWord>>,
    /// Where the weight or volume of its measure is from: the least certain step.
    pub measure_from: Option<Word<MeasureWord>>,
    /// Money per base unit, on the line's basis.
    pub unit_cost: Option<Figure>,
    /// What the line costs; null where it is not costed.
    pub cost: Option<Figure>,
}

/// Declares closed lists that are of the reports alone: name, meaning, words.
macro_rules! words {
    ($($name:ident $schema:literal $means:literal { $($variant:ident $word:literal)* })*) => {
        $(
            #[doc = $means]
            #[derive(Debug, Clone, Copy, PartialEq, Eq)]
            pub(crate) enum $name {
                $($variant,)*
            }

            impl Closed for $name {
                const NAME: &'static str = $schema;
                const MEANS: &'static str = $means;

                fn all() -> Vec<Self> {
                    vec![$($name::$variant,)*]
                }

                fn word(self) -> &'static str {
                    match self { $($name::$variant => $word,)* }
                }
            }
        )*
    };
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
    /// A line; `cost` is `None` where its recipe could not be costed.
    pub fn of(entry: &'a LineEntry, line: &Line, cost: Option<&LineCost>) -> Self {
        let source = match line.source {
            Source::Bought(_) => Some(Word(SourceWord::Bought)),
            Source::Part(_) => Some(Word(SourceWord::Fabricated)),
            Source::Made(_) => Some(Word(SourceWord::Made)),
            Source::Unknown => None,
        };
        let is_costed = matches!(cost, Some(LineCost::Costed { .. }));
        let (qty, unit) = typed_quantity(&entry.input, line, is_costed);
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
        };
        if let Some(LineCost::Costed { cost, trace }) = cost {
            let figures = LineFigures::of(trace);
            json.base_qty = figures.base_qty.map(Figure);
            json.base_unit = Some(base(&trace.kind));
            json.unit_cost = figures.unit_cost.map(Figure);
            json.measure_from = Some(Word(measure_from(trace)));
            json.cost = Some(Figure(*cost));
            match line.basis {
                Basis::Ep => {
                    json.yield_percent = percent(trace.trim_yield);
                    json.yield_from = Some(Word(yield_from(trace)));
                }
                Basis::Ap => json.yield_from = Some(Word(YieldWord::None)),
            }
        }
        json
    }
}

/// The quantity and unit of a line as typed. A quantity that is none is `None`: a pinch is one where it is costed.
fn typed_quantity(input: &InputRow, line: &Line, is_costed: bool) -> (Option<Figure>, Option<String>) {
    let typed = input.text(Column::Unit);
    let unit = (!typed.is_empty()).then_some(typed);
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

/// A line's quantity and unit cost on its own basis.
#[derive(Debug, Clone, Copy)]
struct LineFigures {
    /// In base units.
    base_qty: Option<Decimal>,
    /// Money per base unit.
    unit_cost: Option<Decimal>,
}

impl LineFigures {
    /// Those of a costed line.
    fn of(trace: &LineTrace) -> Self {
        let base_qty = trace.as_costed().and_then(Amount::value).ok();
        LineFigures { base_qty, unit_cost: trace.rate.unit_cost().ok() }
    }
}

fn yield_from(trace: &LineTrace) -> YieldWord {
    match trace.yield_from {
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
