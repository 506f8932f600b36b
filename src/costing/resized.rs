//! Costs of a line and of a batch of another size: through the same measure, yield and price as the recipe's own.

use super::line::LineCost;
use super::made::RecipeCost;
use super::rate::Amount;
use crate::kitchen::recipe::Line;
use crate::number::{Decimal, Overflow, exact};

impl LineCost {
    /// What `line`, which costs this, costs at `by` times its quantity; `None` where it is not costed.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn at(&self, line: &Line, by: Amount) -> Result<Option<Decimal>, Overflow> {
        let LineCost::Costed { trace, .. } = self else { return Ok(None) };
        let amount = trace.as_costed()?.times(by.num)?.over(by.den)?;
        Ok(Some(exact::mul(trace.rate.cost_of(amount)?, line.used)?))
    }
}

impl RecipeCost {
    /// The food cost of `by` batches.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn food_at(&self, by: Amount) -> Result<Decimal, Overflow> {
        times(self.food, by)
    }

    /// What `by` batches cost, with the Q and spice of the card.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn batch_at(&self, by: Amount) -> Result<Decimal, Overflow> {
        times(self.batch, by)
    }
}

fn times(money: Decimal, by: Amount) -> Result<Decimal, Overflow> {
    exact::div(exact::mul(money, by.num)?, by.den)
}
