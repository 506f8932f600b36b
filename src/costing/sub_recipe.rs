//! Lines of what is made in the house: by the portion, by the batch, by a measure of it, or by plates of a dish of the menu.

use super::dish;
use super::line::Coster;
use super::rate::{Amount, Rate};
use super::trace::{CostedAs, LineTrace, YieldFrom};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::convert::{Crossing, NoConversion};
use crate::costing::conversion::equivalences_of_item;
use crate::costing::conversion::equivalences_of_item::{no_makes, no_portions};
use crate::kitchen::RecipeId;
use crate::kitchen::menu::plates_in;
use crate::kitchen::recipe::Recipe;
use crate::measure::{Measured, Unit};
use crate::number::{Decimal, Overflow, exact};

impl Coster<'_> {
    /// What stops a line of a recipe that has no cost itself: what is asked of its amount whatever it costs, so that it need
    /// not be asked once the recipe is mended; else nothing more than the recipe says itself.
    fn unmade(&self, recipe: &Recipe, quantity: &Measured) -> NoConversion {
        if recipe.broken || self.line.dish.is_some() || quantity.unit.is_portion() || quantity.unit.is_batch() {
            return NoConversion::Known;
        }
        let Some(makes) = recipe.makes.first() else { return no_makes(&recipe.name) };
        let (kind, _) = BaseUnitKind::of(&makes.unit, self.volumes());
        let asked = (&quantity.unit, &kind);
        let links = equivalences_of_item::of_recipe(self.kitchen, recipe, asked, self.line.prep.as_ref());
        if self.is_liquid_ounce(&quantity.unit, &kind) {
            return NoConversion::Known;
        }
        match self.convert(quantity, &kind, &links) {
            Err(NoConversion::Fault(fault)) => NoConversion::Fault(fault),
            _ => NoConversion::Known,
        }
    }

    pub(super) fn made(&mut self, id: RecipeId, quantity: &Measured) -> Result<LineTrace, NoConversion> {
        let recipe = self.kitchen.recipe(id).ok_or(NoConversion::Known)?;
        if id == self.recipe {
            return Err(NoConversion::Known);
        }
        let Some(cost) = self.costing.recipe(id) else { return Err(self.unmade(recipe, quantity)) };
        let (batch, portions, unit_rate) = (cost.batch, cost.portions, cost.unit_rate());
        if let Some(id_of_dish) = self.line.dish {
            let plates = plates_in(&quantity.unit).ok_or(NoConversion::Known)?;
            let amount = Amount::of(exact::mul(quantity.amount, plates)?);
            let dish = self.kitchen.dish(id_of_dish).ok_or(NoConversion::Known)?;
            let plate = dish::plate(self.kitchen, cost, dish, recipe);
            // What is wrong with it is told of the dish, unless something else stops that.
            let plate = plate.map_err(|stop| if dish.broken { stop } else { NoConversion::Known })?;
            let Amount { num, den } = plate.share;
            let rate = Rate { money: exact::mul(batch, num)?, per: den };
            if let Some(slot) = self.costing.plates.get_mut(id_of_dish.index()) {
                *slot = Some(plate);
            }
            return Ok(self.counted(CostedAs::Plates(id, id_of_dish), amount, rate)?);
        }
        if quantity.unit.is_portion() {
            let portions = portions.ok_or_else(|| no_portions(&recipe.name))?;
            let rate = Rate { money: exact::mul(batch, portions.den)?, per: portions.num };
            return Ok(self.counted(CostedAs::Portions(id), Amount::of(quantity.amount), rate)?);
        }
        if quantity.unit.is_batch() {
            let rate = Rate { money: batch, per: Decimal::ONE };
            return Ok(self.counted(CostedAs::Batches(id), Amount::of(quantity.amount), rate)?);
        }
        let (kind, rate) = unit_rate.ok_or_else(|| no_makes(&recipe.name))?;
        let mut quantity = quantity.clone();
        let asked = (&quantity.unit, &kind);
        let links = equivalences_of_item::of_recipe(self.kitchen, recipe, asked, self.line.prep.as_ref());
        if self.is_liquid_ounce(&quantity.unit, &kind) && self.convert(&quantity, &kind, &links).is_err() {
            self.warn_of_ounce();
            quantity.unit = Unit::fluid_ounce();
        }
        let converted = self.convert(&quantity, &kind, &links)?;
        let counted = self.counted(CostedAs::Named(self.line.source), converted.amount, rate)?;
        Ok(LineTrace { kind, measures: converted.through, ..counted })
    }

    /// So many of something made in the house, at a cost each, after the line's own yield.
    fn counted(&self, costed_as: CostedAs, amount: Amount, rate: Rate) -> Result<LineTrace, Overflow> {
        let own = self.line.own_yield;
        Ok(LineTrace {
            costed_as,
            amount,
            kind: BaseUnitKind::Each,
            basis: self.line.basis,
            crossing: Crossing::None,
            measures: Vec::new(),
            trim_yield: own.unwrap_or(Decimal::ONE),
            yield_from: if own.is_some() { YieldFrom::Line } else { YieldFrom::None },
            rate: own.map_or(Ok(rate), |own| rate.after_yield(own))?,
        })
    }
}
