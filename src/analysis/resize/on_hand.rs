//! What is on hand, for how much of a recipe it is enough, and what is left of it once the scarcest is used up.

use super::held_text::HeldText;
use super::names::NamedLine;
use super::{NotScaled, needs};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::convert::NoConversion;
use crate::costing::rate::Amount;
use crate::costing::trace::CostedAs;
use crate::costing::yield_test::input_cost;
use crate::costing::{Costing, LineCost};
use crate::kitchen::recipe::{IngredientSource, Line, LineQuantity};
use crate::kitchen::{Kitchen, RecipeId};
use crate::measure::{Measured, Rounding, in_kitchen_units};
use crate::number::{Decimal, exact};

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
    let typed = HeldText { kitchen, names: names(kitchen, costing, recipe)?, recipe: &name };
    let mut limits: Vec<Limit> = Vec::new();
    for text in texts {
        let (on_hand, named) = typed.apart(text)?;
        if on_hand.amount <= Decimal::ZERO {
            return Err(NotScaled::Nothing { text: text.trim().to_owned() });
        }
        let no_way = |why: String| NotScaled::NoWay { on_hand: on_hand.to_string(), item: named.item.clone(), why };
        if !is_weighed_alike(kitchen, costing, recipe, named.source)? {
            return Err(no_way(THROUGH_TEST.to_owned()));
        }
        let held = input_cost::on_hand(kitchen, costing, named.source, &on_hand).map_err(|stop| match stop {
            NoConversion::Fault(fault) => no_way(format!("{}. {}", fault.message, fault.help)),
            NoConversion::Known => NotScaled::NotCosted { recipe: named.item.clone() },
            NoConversion::Overflow => NotScaled::Overflow,
        })?;
        let need = needs::of(kitchen, costing, recipe, named.source)?;
        if need <= Decimal::ZERO {
            return Err(NotScaled::NoneAsked { item: named.item.clone(), recipe: name });
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
            let such_as = such_as(kitchen, line, &typed.item);
            for name in std::iter::once(typed.item.as_str()).chain(also) {
                names.push(NamedLine { such_as: such_as.clone(), ..NamedLine::of(name, line.source, &typed.item) });
            }
        }
    }
    Ok(names)
}

/// What a line asks for as somebody would type it: `2 lb Leeks`, `4 Eggs`.
fn such_as(kitchen: &Kitchen, line: &Line, item: &str) -> String {
    let told = match &line.quantity {
        LineQuantity::Measured(typed) => {
            in_kitchen_units(typed, typed.amount, Rounding::Nearest, kitchen.settings.volumes).ok()
        }
        LineQuantity::Unmeasured { .. } => None,
    };
    format!("{} {item}", told.map_or_else(|| "4 lb".to_owned(), |told| told.words()))
}

/// What is said of what is bought by the piece and goes in by the weight of what a yield test leaves of it.
const THROUGH_TEST: &str = "it is priced by the piece and goes in by weight through its yield test. Ask for portions, or for \
                            what the recipe makes, instead";

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
