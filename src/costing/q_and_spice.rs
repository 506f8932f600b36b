//! Q and spice: what a card or the settings put on food for accompaniments, incidentals and seasoning.
//!
//! Q is a share of the food, or money for every portion served, whatever its size. Spice is a share of food and Q, or of
//! food alone where *Spice covers Q* says no. A card's own replace the settings', which count for dishes alone. Takes a
//! recipe; gives what is put on its batch or on a dish of it.

use super::conversion::convert::NoConversion;
use super::dish::ServedAs;
use super::rate::Amount;
use super::scenario::Scenario;
use crate::kitchen::Kitchen;
use crate::kitchen::recipe::{QFactor, Recipe};
use crate::kitchen::settings::Setting;
use crate::number::rounding::round_up_steps;
use crate::number::{Decimal, Overflow, exact};
use crate::problem::{Code, Fault};

/// Which cell of the book a factor is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FactorFrom {
    /// The recipe's own card.
    Card,
    /// The settings.
    Settings,
}

/// The Q and spice in force for a batch or a dish.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct QAndSpice {
    /// Q, and where it is from; `None` where nothing is put on.
    pub q: Option<(QFactor, FactorFrom)>,
    /// Spice as a fraction, and where it is from; `None` where nothing is put on.
    pub spice: Option<(Decimal, FactorFrom)>,
    /// Whether spice is taken on Q, too.
    pub spice_covers_q: bool,
    /// Whether that setting could not be read.
    is_guess: bool,
}

/// Q and spice in money.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct QAndSpiceMoney {
    pub(super) q: Decimal,
    pub(super) spice: Decimal,
    /// Food, Q and spice together.
    pub(super) total: Decimal,
}

impl QAndSpice {
    /// What a batch bears: its own card's; none where food alone counts.
    pub fn of_batch(kitchen: &Kitchen, scenario: &Scenario, recipe: &Recipe) -> Self {
        let of_card = Self::none(kitchen).or(recipe.q, recipe.spice, FactorFrom::Card);
        if scenario.food_alone { Self::none(kitchen) } else { of_card }
    }

    /// What a dish bears: the card's, else the settings'.
    pub fn of_dish(kitchen: &Kitchen, recipe: &Recipe) -> Self {
        let settings = &kitchen.settings;
        Self::none(kitchen).or(recipe.q, recipe.spice, FactorFrom::Card).or(
            settings.q,
            settings.spice,
            FactorFrom::Settings,
        )
    }

    fn none(kitchen: &Kitchen) -> Self {
        let settings = &kitchen.settings;
        let is_guess = settings.is_broken(Setting::SpiceCoversQ);
        QAndSpice { q: None, spice: None, spice_covers_q: settings.spice_covers_q, is_guess }
    }

    fn or(self, q: Option<QFactor>, spice: Option<Decimal>, from: FactorFrom) -> Self {
        let (q, spice) = (q.map(|q| (q, from)), spice.map(|spice| (spice, from)));
        QAndSpice { q: self.q.or(q), spice: self.spice.or(spice), ..self }
    }

    /// Whether anything is put on.
    pub fn is_any(&self) -> bool {
        self.q.is_some() || self.spice.is_some()
    }

    fn spice_fraction(&self) -> Decimal {
        self.spice.map_or(Decimal::ZERO, |(fraction, _)| fraction)
    }

    /// What is put on `food`. `portions` is asked only for a Q in money: on how many portions that falls.
    ///
    /// # Errors
    /// That of `portions`; a [`NoConversion`] where a figure does not fit, or where what spice is taken on is a guess.
    pub(super) fn on(
        &self,
        food: Decimal,
        portions: impl FnOnce() -> Result<Amount, NoConversion>,
    ) -> Result<QAndSpiceMoney, NoConversion> {
        let q = match self.q {
            None => Decimal::ZERO,
            Some((QFactor::Share(share), _)) => exact::mul(food, share)?,
            Some((QFactor::Money(money), _)) => portions()?.times(money)?.value()?,
        };
        let fraction = self.spice_fraction();
        if self.is_guess && !fraction.is_zero() && !q.is_zero() {
            return Err(NoConversion::Known);
        }
        let spiced = if self.spice_covers_q { exact::add(food, q)? } else { food };
        let spice = exact::mul(spiced, fraction)?;
        Ok(QAndSpiceMoney { q, spice, total: exact::sum([food, q, spice])? })
    }

    /// What one unit of money of food is with Q and spice: a Q in money moves with nothing.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn factor(&self) -> Result<Decimal, Overflow> {
        let q = match self.q {
            Some((QFactor::Share(share), _)) => share,
            Some((QFactor::Money(_), _)) | None => Decimal::ZERO,
        };
        let with_q = exact::add(Decimal::ONE, q)?;
        let spiced = if self.spice_covers_q { with_q } else { Decimal::ONE };
        exact::add(with_q, exact::mul(spiced, self.spice_fraction())?)
    }
}

/// On how many portions a Q in money falls: on one, whatever its size; by the portion on as many as are served, a begun one
/// whole, and by the batch on as many as that has. `None` where those are not known.
///
/// # Errors
/// [`Overflow`] when it does not fit.
pub fn portions_bearing_q(served: ServedAs, portions_of_batch: Option<Amount>) -> Result<Option<Amount>, Overflow> {
    Ok(match served {
        ServedAs::OfPortion(_) | ServedAs::OfMakes => Some(Amount::ONE),
        // A sliver of a portion still takes one.
        ServedAs::Portions(portions) => Some(Amount::of(round_up_steps(portions).max(Decimal::ONE))),
        ServedAs::Batches(batches) => portions_of_batch.map(|portions| portions.times(batches)).transpose()?,
    })
}

/// The fault of a Q in money on a card that does not say how many portions it makes.
pub(super) fn portions_wanted(recipe: &Recipe) -> NoConversion {
    NoConversion::Fault(Fault::new(
        Code::PortionUnclear,
        format!("Q in money is per portion, and “{}” does not say how many portions it makes", recipe.name),
        "Add Portions, or Makes and Portion; or write Q as a percentage.",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn d(text: &str) -> Decimal {
        text.parse().unwrap()
    }

    fn of(q: Option<QFactor>, spice: &str, spice_covers_q: bool) -> QAndSpice {
        let from = FactorFrom::Card;
        QAndSpice { q: q.map(|q| (q, from)), spice: Some((d(spice), from)), spice_covers_q, is_guess: false }
    }

    #[test]
    fn the_factor_is_what_a_share_puts_on_food() {
        // 20.00 of food, Q 10 %: 2.00. Spice 5 %: of 22.00 it is 1.10, in all 23.10 = 20 × 1.155; of 20.00 it is 1.00, in
        // all 23.00 = 20 × 1.15.
        for (covers, spice, total, factor) in [(true, "1.10", "23.10", "1.155"), (false, "1.00", "23.00", "1.15")] {
            let both = of(Some(QFactor::Share(d("0.10"))), "0.05", covers);
            let added = both.on(d("20"), || Err(NoConversion::Known)).unwrap();
            assert_eq!((added.q, added.spice, added.total), (d("2.00"), d(spice), d(total)));
            assert_eq!(both.factor(), Ok(d(factor)));
        }
    }

    #[test]
    fn a_q_in_money_falls_on_portions_and_moves_with_nothing() {
        // 0.30 on 4 portions is 1.20; spice 10 % of 20.00 + 1.20 is 2.12. One more of food is 1.10 more.
        let both = of(Some(QFactor::Money(d("0.30"))), "0.10", true);
        let added = both.on(d("20"), || Ok(Amount::of(d("4")))).unwrap();
        assert_eq!((added.q, added.spice, added.total), (d("1.20"), d("2.12"), d("23.32")));
        assert_eq!(both.factor(), Ok(d("1.10")));
    }

    #[test]
    fn a_begun_portion_bears_a_whole_q() {
        let portions =
            |served| portions_bearing_q(served, Some(Amount::of(d("12")))).unwrap().unwrap().value().unwrap();
        assert_eq!(portions(ServedAs::Portions(d("2.5"))), d("3"));
        assert_eq!(portions(ServedAs::Portions(d("0.25"))), d("1"));
        assert_eq!(portions(ServedAs::OfPortion(Amount::of(d("1.5")))), d("1"));
        // Half a batch of 12 portions.
        assert_eq!(portions(ServedAs::Batches(d("0.5"))), d("6"));
        assert_eq!(portions_bearing_q(ServedAs::Batches(d("1")), None), Ok(None));
    }
}
