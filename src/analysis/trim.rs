//! Trim analysis: everything the report says, put together once for all its renderings.

use std::borrow::Cow;

use super::balance::Balance;
use super::sweep::{self, Sweep};
use super::where_used::borne_by_dishes;
use crate::analysis::charging_methods;
use crate::analysis::charging_methods::Ways;
use crate::analysis::cost_factor;
use crate::analysis::cost_factor::Factors;
use crate::analysis::missing_input::Lack;
use crate::analysis::run_variation;
use crate::analysis::run_variation::Spread;
use crate::analysis::trim_savings::Worth;
use crate::costing::{Costing, Trial};
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::Role;
use crate::kitchen::{Kitchen, PartId, TestId};
use crate::number::Decimal;

/// What the trim report says. Lists run beside the kitchen's tests.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Trim {
    /// Every test under every way of charging; `None` where it is not costed.
    pub ways: Vec<Option<Ways>>,
    /// Every test run by run.
    pub spreads: Vec<Option<Spread>>,
    /// Cost factors then and now; `None` where no price was kept.
    pub factors: Vec<Option<Result<Factors, Vec<Lack>>>>,
    /// Whether there is enough trim; `None` without a plan, or where a quantity does not fit.
    pub balance: Option<Balance>,
    /// The three kitchens; `None` where a figure does not fit.
    pub worth: Option<Worth>,
    /// The by-products whose charge is moved up and down.
    pub sweeps: Vec<Sweep>,
    /// Money for an hour of labor, where the caller says it.
    pub wage: Option<Decimal>,
}

impl Trim {
    /// The report on a kitchen's costing, with the charges of `swept` moved up and down in steps of `step`.
    pub fn of(kitchen: &Kitchen, costing: &Costing, swept: &[PartId], step: Decimal) -> Self {
        let tests = || (0..kitchen.tests.len()).map(TestId::new);
        let fractions = sweep::fractions(step);
        let balance = Balance::of(kitchen, costing).ok().flatten();
        let worth = Worth::of(kitchen, costing, balance.as_ref()).ok();
        let mut trial = Trial::on(kitchen, Cow::Borrowed(costing));
        Trim {
            ways: tests().map(|id| charging_methods::of(kitchen, costing, id)).collect(),
            spreads: tests().map(|id| run_variation::of(&mut trial, id)).collect(),
            factors: tests().map(|id| cost_factor::of(kitchen, costing, id)).collect(),
            balance,
            worth,
            sweeps: swept.iter().filter_map(|part| sweep::of(&mut trial, *part, &fractions)).collect(),
            wage: None,
        }
    }
}

impl Trim {
    /// For how many whole minutes of labor over the plan the saving would pay; `None` without a wage or a plan.
    pub fn labor_minutes(&self) -> Option<Decimal> {
        self.worth.as_ref()?.plan.as_ref()?.labor_minutes(self.wage?)
    }
}

/// By-products whose charge is moved in the workbook: the others are a command away.
const SWEPT: usize = 1;

impl Trim {
    /// Whether there is anything to report: a test with a by-product.
    pub fn concerns(kitchen: &Kitchen) -> bool {
        kitchen.tests.iter().flat_map(|test| &test.parts).any(|part| part.role == Role::ByProduct)
    }

    /// The report as the costed workbook has it.
    pub fn of_book(kitchen: &Kitchen, costing: &Costing) -> Self {
        let swept: Vec<PartId> = worth_sweeping(kitchen, costing).take(SWEPT).collect();
        Trim::of(kitchen, costing, &swept, sweep::TENTH)
    }
}

/// The by-products whose charge says something: those that a dish is made of, in book order.
pub fn worth_sweeping<'a>(kitchen: &'a Kitchen, costing: &'a Costing) -> impl Iterator<Item = PartId> + 'a {
    let borne = borne_by_dishes(kitchen, costing);
    let by_products = kitchen.test_ids().flat_map(|id| kitchen.part_ids(id));
    let by_products = by_products.filter(|part| kitchen.part(*part).is_some_and(|part| part.role == Role::ByProduct));
    by_products.filter(move |part| borne.contains(&IngredientSource::Part(*part)))
}
