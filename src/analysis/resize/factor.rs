//! Factors: how many times its own size a recipe is wanted, as a ratio, so that it is divided once.

use super::NotScaled;
use crate::costing::Costing;
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::convert::NoConversion;
use crate::costing::made;
use crate::costing::rate::Amount;
use crate::kitchen::recipe::Recipe;
use crate::kitchen::{Kitchen, RecipeId};
use crate::measure::{Measured, QuantityText, Unit, parse_quantity};
use crate::number::{Decimal, Marks, decimal, exact, plain};

/// The most times that a recipe is scaled up; down, as many. Common sense, no source.
const MOST: Decimal = Decimal::from_parts(10_000, 0, 0, false, 0);

/// A recipe, and what its size is said in.
pub(super) struct AskedSize<'a> {
    pub kitchen: &'a Kitchen,
    pub costing: &'a Costing,
    pub recipe: RecipeId,
    /// The dish that was named.
    pub dish: Option<usize>,
    /// Another portion.
    pub portion: Option<&'a str>,
}

impl AskedSize<'_> {
    /// The factor to so many portions, or so much of what the recipe makes.
    pub(super) fn to(&self, text: &str) -> Result<Amount, NotScaled> {
        let recipe = self.kitchen.recipe(self.recipe).ok_or(NotScaled::Overflow)?;
        let wanted = match amounts(text)? {
            TypedSize::Number(number) => return self.portions_or_pieces(recipe, number),
            TypedSize::Measured(wanted) => wanted,
        };
        if let [one] = wanted.as_slice() {
            if one.unit.is_portion() {
                return self.portions_or_pieces(recipe, one.amount);
            }
            if one.unit.is_batch() {
                return Ok(Amount::of(one.amount));
            }
        }
        let makes = recipe.makes.first().ok_or_else(|| NotScaled::Unknown {
            reason: format!(
                "“{}” does not say how much it makes: add Makes to its card, such as 3 qt, or scale it by portions",
                recipe.name
            ),
        })?;
        let (_, size) = BaseUnitKind::of(&makes.unit, self.kitchen.settings.volumes);
        let mut base = Amount::of(Decimal::ZERO);
        for part in &wanted {
            let amount = self.made(recipe, part)?;
            base = added(base, amount)?;
        }
        Ok(base.over(exact::mul(makes.amount, size)?)?)
    }

    /// So much of what a recipe makes, in base units of it. A bare ounce of what is poured is a fluid one.
    fn made(&self, recipe: &Recipe, wanted: &Measured) -> Result<Amount, NotScaled> {
        let found = made::in_makes(self.kitchen, recipe, wanted).or_else(|stop| match stop {
            NoConversion::Fault(_) if wanted.unit.is_bare_ounce() => {
                let poured = Measured::new(wanted.amount, Unit::fluid_ounce());
                made::in_makes(self.kitchen, recipe, &poured)
            }
            stop => Err(stop),
        });
        found.map_err(|stop| match stop {
            NoConversion::Overflow => NotScaled::Overflow,
            _ => {
                let makes = recipe.makes.iter().map(Measured::to_string).collect::<Vec<_>>().join(", ");
                let reason = format!(
                    "“{}” makes {makes}, and the book does not say how much of that {wanted} is: give the size in the \
                     measure of Makes, or write two under it, such as 3 qt, 2.9 kg",
                    recipe.name
                );
                NotScaled::Unknown { reason }
            }
        })
    }

    /// The factor to so many portions; of what is counted and has no portions, to so many pieces.
    fn portions_or_pieces(&self, recipe: &Recipe, wanted: Decimal) -> Result<Amount, NotScaled> {
        if let Some(portions) = self.portions()? {
            return Ok(Amount::of(wanted).times(portions.den)?.over(portions.num)?);
        }
        if let Some(makes) = recipe.makes.first().filter(|makes| makes.unit.is_count_like()) {
            let (_, size) = BaseUnitKind::of(&makes.unit, self.kitchen.settings.volumes);
            return Ok(Amount::of(wanted).over(exact::mul(makes.amount, size)?)?);
        }
        let reason = match recipe.makes.first() {
            Some(makes) => format!(
                "“{}” does not say how many portions it gives: add Portion or Portions to its card, or scale it by what it \
                 makes, such as {makes}",
                recipe.name
            ),
            None => format!(
                "“{}” says neither how much it makes nor how many portions it gives: add them to its card, or scale it by \
                 a factor",
                recipe.name
            ),
        };
        Err(NotScaled::Unknown { reason })
    }

    /// How many portions a batch gives: of the portion asked for, of the dish named, else of the card's.
    pub(super) fn portions(&self) -> Result<Option<Amount>, NotScaled> {
        let Some(recipe) = self.kitchen.recipe(self.recipe) else { return Ok(None) };
        let of = |portion: &Measured| made::portions_of(self.kitchen, recipe, portion).ok();
        if let Some(text) = self.portion {
            let no_portion = || NotScaled::NoPortion { text: text.trim().to_owned() };
            let Ok(TypedSize::Measured(sizes)) = amounts(text) else { return Err(no_portion()) };
            let [size] = sizes.as_slice() else { return Err(no_portion()) };
            let found = of(size).or_else(|| {
                let poured = Measured::new(size.amount, Unit::fluid_ounce());
                size.unit.is_bare_ounce().then(|| of(&poured)).flatten()
            });
            return found.map(Some).ok_or_else(|| NotScaled::Unknown {
                reason: format!(
                    "how many portions of {size} “{}” gives is not known: write under Makes how much it makes in that kind \
                     of measure",
                    recipe.name
                ),
            });
        }
        if let Some(index) = self.dish {
            let share = self.costing.dishes.get(index).and_then(Option::as_ref).map(|dish| dish.share);
            if let Some(share) = share.filter(|share| !share.num.is_zero()) {
                return Ok(Some(Amount { num: share.den, den: share.num }));
            }
        }
        if let Some(cost) = self.costing.recipe(self.recipe) {
            return Ok(cost.portions);
        }
        // It is not costed, and says all the same how many it gives.
        let stated = recipe.stated_portions.map(Amount::of);
        Ok(stated.or_else(|| recipe.portion.as_ref().and_then(of)).filter(|portions| portions.num > Decimal::ZERO))
    }
}

/// What a size says.
enum TypedSize {
    Number(Decimal),
    Measured(Vec<Measured>),
}

/// An amount above nothing.
fn amounts(text: &str) -> Result<TypedSize, NotScaled> {
    let no_amount = || NotScaled::NoAmount { text: text.trim().to_owned() };
    let nothing = || NotScaled::Nothing { text: text.trim().to_owned() };
    if text.trim().starts_with(['-', '−']) {
        return Err(nothing());
    }
    let (typed, sum) = match parse_quantity(text, Marks::Unknown) {
        Ok(QuantityText::Number(number)) => (TypedSize::Number(number), number),
        Ok(QuantityText::Measured(one)) => {
            let amount = one.amount;
            (TypedSize::Measured(vec![one]), amount)
        }
        Ok(QuantityText::Compound(parts)) => {
            let sum = exact::sum(parts.iter().map(|part| part.amount))?;
            (TypedSize::Measured(parts), sum)
        }
        Ok(QuantityText::Unmeasured(_)) | Err(_) => return Err(no_amount()),
    };
    if sum > Decimal::ZERO { Ok(typed) } else { Err(nothing()) }
}

/// The sum of two ratios.
fn added(one: Amount, other: Amount) -> Result<Amount, NotScaled> {
    if one.num.is_zero() {
        return Ok(other);
    }
    let num = exact::add(exact::mul(one.num, other.den)?, exact::mul(other.num, one.den)?)?;
    Ok(Amount { num, den: exact::mul(one.den, other.den)? })
}

/// A factor as typed: `2.5`, `1 1/2`, `2.5x`, `1/3`.
pub(super) fn times(text: &str) -> Result<Amount, NotScaled> {
    let bare = text.trim().trim_end_matches(['x', '×', '*']).trim_end();
    let number = decimal::parse(bare, Marks::Unknown).map_err(|_| NotScaled::NoNumber { text: text.to_owned() })?;
    if number <= Decimal::ZERO {
        return Err(NotScaled::Nothing { text: text.trim().to_owned() });
    }
    // A third is kept as one.
    let third = bare.split_once('/').filter(|(upper, _)| !upper.contains([' ', '-', '+', '&']));
    let ratio = third.and_then(|(upper, lower)| {
        let whole = |text: &str| decimal::parse(text, Marks::Unknown).ok().filter(Decimal::is_integer);
        Some(Amount { num: whole(upper)?, den: whole(lower)? })
    });
    Ok(ratio.filter(|ratio| ratio.den > Decimal::ZERO).unwrap_or(Amount::of(number)))
}

/// Whether anybody would cook so much of one recipe, or so little.
pub(super) fn within_reason(factor: Amount) -> Result<(), NotScaled> {
    let value = factor.value()?;
    let least = exact::mul(value, MOST)?;
    if value > MOST || least < Decimal::ONE {
        let shown = value.round_sf_with_strategy(6, rust_decimal::RoundingStrategy::MidpointAwayFromZero);
        return Err(NotScaled::Absurd { factor: plain(shown.unwrap_or(value)) });
    }
    Ok(())
}
