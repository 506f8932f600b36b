//! Words for what scaling does to a recipe, and for what it does not know.

use super::{ScaledLineResult, ScaledRecipe};
use crate::analysis::resize::{Limit, held_in};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::{Amount, Costing};
use crate::kitchen::Kitchen;
use crate::measure::{Base, Measured, Rounding, Unit, Volumes, in_kitchen_units};
use crate::number::{Decimal, Overflow, exact};
use crate::results::figures::{NONE, shown};

/// Who says so.
pub const NOT_KNOWN_HEAD: &str = "What scaling does not know (common practice)";

/// What scaling does not know.
pub const NOT_KNOWN: [&str; 5] = [
    "Seasoning: salt, spice and heat do not grow in step with the rest. Hold some back and taste.",
    "Evaporation: a wider pan loses more in the same time, a deeper one less. Go by how much is left, not by the clock.",
    "Cooking time: more in the oven or the pot takes longer to heat through, and longer to chill. Check the core.",
    "Leavening: yeast, baking powder and soda are seldom multiplied exactly. Try a large batch once before it counts.",
    "The method: amounts, pan sizes and times that stand in it are those of the recipe as written.",
];

/// Stands for a quantity that could not be read.
pub const NOT_SCALED: &str = "not scaled";

/// Stands for an ingredient where none is.
pub const NO_INGREDIENT: &str = "(no ingredient)";

/// Whether a line that is told in `unit` is measured in metric units.
pub(super) fn is_metric(kitchen: &Kitchen, unit: Option<&Unit>) -> bool {
    match unit {
        Some(unit) if unit.is_metric() => true,
        Some(unit) if unit.grams().is_some() => false,
        _ => kitchen.settings.volumes == Volumes::Metric,
    }
}

/// Whether what is counted is more than a tenth more or less than it would be at `factor`, counted `by` times.
pub(super) fn is_far_off(kind: &BaseUnitKind, by: Amount, factor: Amount) -> bool {
    const A_TENTH: Decimal = Decimal::from_parts(1, 0, 0, false, 1);
    let apart = || {
        let (by, factor) = (by.value()?, factor.value()?);
        Ok::<_, Overflow>(exact::sub(by, factor)?.abs() > exact::mul(factor, A_TENTH)?)
    };
    matches!(kind, BaseUnitKind::Each | BaseUnitKind::Own(_)) && apart().unwrap_or(false)
}

/// By how much more or less is measured than asked for: `+0.1 oz`, `-3 g`; of what is not weighed, in the volume or by the
/// piece.
pub fn more_of_line(line: &ScaledLineResult<'_>) -> String {
    let counted = line.measured.first().and_then(|part| part.unit.as_deref()).filter(|unit| *unit != "each");
    match (line.more_g, line.more, line.more_unit.map(|unit| unit.0)) {
        (Some(grams), ..) => signed(grams.0, if line.is_metric { "g" } else { "oz" }),
        (None, Some(more), Some(Base::Millilitre)) => signed(more.0, if line.is_metric { "ml" } else { "fl oz" }),
        (None, Some(more), Some(_)) => signed(more.0, counted.unwrap_or_default()),
        _ => NONE.to_owned(),
    }
}

/// By how much more or less is measured in all, where a weight is known of any line.
pub fn more_of_all(recipe: &ScaledRecipe<'_>) -> Option<String> {
    let known = recipe.lines.iter().filter(|line| line.more_g.is_some());
    let metric = known.clone().filter(|line| line.is_metric).count();
    let all = known.count();
    let unit = if metric.saturating_mul(2) > all { "g" } else { "oz" };
    recipe.more_g.filter(|_| all > 0).map(|more| signed(more.0, unit))
}

/// A difference in a unit with its sign, to a hundredth.
fn signed(base: Decimal, unit: &str) -> String {
    const PLACES: u32 = 2;
    let size = Unit::parse(unit).and_then(|unit| unit.to_base(Volumes::Us)).map_or(Decimal::ONE, |(_, size)| size);
    let amount = shown(exact::div_to_last_digit(base, size).ok(), PLACES);
    let amount = amount.trim_end_matches('0').trim_end_matches('.');
    let signed = match amount {
        "0" | "-0" | "" => "0".to_owned(),
        less if less.starts_with('-') => less.to_owned(),
        more => format!("+{more}"),
    };
    format!("{signed} {unit}").trim_end().to_owned()
}

/// What is left of something on hand, as a kitchen measures it; nothing where nothing is. A package that is begun is told in
/// what is left in it.
pub(super) fn left(kitchen: &Kitchen, costing: &Costing, limit: &Limit) -> String {
    let Limit { left, on_hand, source, .. } = limit;
    if left.amount.is_zero() {
        return String::new();
    }
    let told = |left: &Measured, of: Decimal| in_kitchen_units(left, of, Rounding::Down, kitchen.settings.volumes).ok();
    let whole = told(left, on_hand.amount).filter(|told| told.is_count_of(left.amount, on_hand.amount));
    let held = || held_in(kitchen, costing, *source, left).and_then(|held| told(&held, held.amount));
    let words = whole.or_else(held).or_else(|| told(left, on_hand.amount));
    words.map(|left| left.words()).unwrap_or_default()
}
