//! What is on hand, for how much of a recipe it is enough, and what is left of it once the scarcest is used up.

use super::names::{NamedLine, called};
use super::refusal::near;
use super::{NotScaled, needs};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::rate::Amount;
use crate::costing::trace::CostedAs;
use crate::costing::yield_test::input_cost;
use crate::costing::{Costing, LineCost};
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::{Kitchen, RecipeId};
use crate::measure::{Measured, QuantityText, Unit, compound_in_first, parse_quantity};
use crate::number::{Decimal, Marks, exact};
use crate::problem::names::Names;

/// Something on hand, of which a recipe takes some.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Limit {
    /// What it is called on the line.
    pub item: String,
    /// What it is.
    pub source: IngredientSource,
    /// How much there is.
    pub on_hand: Measured,
    /// For how many times the recipe that is enough.
    pub enough_for: Amount,
    /// Whether it says how much can be made.
    pub binds: bool,
    /// What is left of it, in the unit in which it was given.
    pub left: Measured,
}

/// What is on hand, and how many times the recipe the scarcest of it allows.
pub(super) fn all(
    kitchen: &Kitchen,
    costing: &Costing,
    recipe: RecipeId,
    texts: &[String],
) -> Result<(Amount, Vec<Limit>), NotScaled> {
    let name = kitchen.recipe(recipe).map(|recipe| recipe.name.clone()).unwrap_or_default();
    if costing.recipe(recipe).is_none() {
        return Err(NotScaled::NotCosted { recipe: name });
    }
    let names = names(kitchen, costing, recipe)?;
    let mut limits: Vec<Limit> = Vec::new();
    for text in texts {
        let (on_hand, named) = apart(text, &names, kitchen).ok_or_else(|| not_in_it(text, &name, &names))?;
        if on_hand.amount <= Decimal::ZERO {
            return Err(NotScaled::Nothing { text: text.trim().to_owned() });
        }
        let no_way = || NotScaled::NoWay { on_hand: on_hand.to_string(), item: named.item.clone() };
        let is_compared = is_weighed_alike(kitchen, costing, recipe, named.source)?;
        let held = input_cost::on_hand(kitchen, costing, named.source, &on_hand).ok().filter(|_| is_compared);
        let held = held.ok_or_else(no_way)?;
        let need = needs::of(kitchen, costing, recipe, named.source)?;
        if need <= Decimal::ZERO {
            return Err(not_in_it(text, &name, &names));
        }
        let enough_for = Amount { num: held, den: need };
        let left = on_hand.clone();
        limits.push(Limit { item: named.item.clone(), source: named.source, on_hand, enough_for, binds: false, left });
    }
    let mut least: Option<(Decimal, Amount)> = None;
    for limit in &limits {
        let value = limit.enough_for.value()?;
        if least.is_none_or(|(least, _)| value < least) {
            least = Some((value, limit.enough_for));
        }
    }
    let (value, factor) = least.ok_or_else(|| NotScaled::NoAmount { text: String::new() })?;
    for limit in &mut limits {
        limit.binds = limit.enough_for.value()? == value;
    }
    Ok((factor, limits))
}

/// What is left of everything once `factor` times the recipe is made.
pub(super) fn use_up(limits: &mut [Limit], factor: Amount) -> Result<(), NotScaled> {
    for limit in limits {
        // As much of what is on hand as of what it would be enough for.
        let used = super::multiplied(factor, Amount { num: limit.enough_for.den, den: limit.enough_for.num })?;
        let taken = super::multiplied(Amount::of(limit.on_hand.amount), used)?.value()?;
        let left = exact::sub(limit.on_hand.amount, taken)?;
        let left = crate::number::half_up(left.max(Decimal::ZERO), 20).normalize();
        limit.left = Measured::new(left, limit.on_hand.unit.clone());
    }
    Ok(())
}

/// The names of everything that goes into a recipe, and into the recipes within it.
fn names(kitchen: &Kitchen, costing: &Costing, recipe: RecipeId) -> Result<Vec<NamedLine>, NotScaled> {
    let mut names = Vec::new();
    for (id, _) in needs::batches_within(kitchen, costing, recipe, Decimal::ONE)? {
        for (typed, line, cost) in needs::lines(kitchen, costing, id) {
            if !matches!(cost, LineCost::Costed { .. }) || line.source == IngredientSource::Unknown {
                continue;
            }
            let also = match line.source {
                IngredientSource::Bought(item) => kitchen.item(item).map(|item| item.name.as_str()),
                IngredientSource::Part(part) => kitchen.part(part).map(|part| part.name.as_str()),
                IngredientSource::Made(made) => kitchen.recipe(made).map(|made| made.name.as_str()),
                IngredientSource::Unknown => None,
            };
            for name in std::iter::once(typed.item.as_str()).chain(also) {
                names.push(NamedLine::of(name, line.source, &typed.item));
            }
        }
    }
    Ok(names)
}

/// An amount and the ingredient that it is of: `4 lb Shrimp shells`, `6 Eggs`, `Leeks 2 lb 4 oz`.
fn apart<'a>(text: &str, names: &'a [NamedLine], kitchen: &Kitchen) -> Option<(Measured, &'a NamedLine)> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let found = |amount: &[&str], name: &[&str]| {
        let name = name.join(" ");
        let named = called(names, name.strip_prefix("of ").unwrap_or(&name))?;
        let measured = match parse_quantity(&amount.join(" "), Marks::Unknown).ok()? {
            QuantityText::Number(number) => Measured::new(number, Unit::each()),
            QuantityText::Measured(one) => one,
            QuantityText::Compound(parts) => {
                let amount = compound_in_first(&parts, kitchen.settings.volumes).ok()??;
                Measured::new(amount, parts.first()?.unit.clone())
            }
            QuantityText::Unmeasured(_) => return None,
        };
        is_known(kitchen, named.source, &measured.unit).then_some((measured, named))
    };
    (1..words.len()).find_map(|at| {
        let (first, last) = words.split_at_checked(at)?;
        found(first, last).or_else(|| found(last, first))
    })
}

/// Whether a unit is one of the catalogue's, or a measure that the book has of this ingredient: no other word is a unit.
fn is_known(kitchen: &Kitchen, source: IngredientSource, unit: &Unit) -> bool {
    let bridge = match source {
        IngredientSource::Bought(id) => kitchen.item(id).map(|item| &item.bridge),
        IngredientSource::Part(part) => kitchen.part(part).map(|part| &part.bridge),
        IngredientSource::Made(made) => kitchen.recipe(made).map(|made| &made.bridge),
        IngredientSource::Unknown => None,
    };
    Unit::parse(&unit.name()).is_some()
        || bridge.is_some_and(|bridge| bridge.measures.iter().any(|measure| measure.unit == *unit))
}

fn not_in_it(text: &str, recipe: &str, names: &[NamedLine]) -> NotScaled {
    let known: Names = names.iter().map(|named| named.item.as_str()).collect();
    let is_name = |c: char| c.is_alphabetic();
    // The longest end of the text that is near a name: the amount before it is no part of one.
    let ends = text.match_indices(' ').map(|(at, _)| text.get(at..).unwrap_or_default().trim());
    let ends = std::iter::once(text.trim()).chain(ends).filter(|end| end.starts_with(is_name));
    let question = ends.map(|end| near(&known, end)).find(|question| !question.is_empty()).unwrap_or_default();
    NotScaled::NotInIt { text: text.trim().to_owned(), recipe: recipe.to_owned(), near: question }
}

/// Whether what the lines take of a source is told in what it is held in: through a trim test it is weighed.
fn is_weighed_alike(
    kitchen: &Kitchen,
    costing: &Costing,
    recipe: RecipeId,
    source: IngredientSource,
) -> Result<bool, NotScaled> {
    let IngredientSource::Bought(item) = source else { return Ok(true) };
    let by_weight = costing.item(item).is_some_and(|cost| cost.kind == BaseUnitKind::Mass);
    let mut through_test = false;
    for (id, _) in needs::batches_within(kitchen, costing, recipe, Decimal::ONE)? {
        through_test |= needs::lines(kitchen, costing, id).any(|(_, line, cost)| match cost {
            LineCost::Costed { trace, .. } => {
                line.source == source && matches!(trace.costed_as, CostedAs::ThroughTest(_))
            }
            LineCost::Uncosted => false,
        });
    }
    Ok(by_weight || !through_test)
}
