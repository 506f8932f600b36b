//! Food-cost control: what the food sold cost by the stock counts, against what the dishes sold ought to have cost by their
//! recipes.
//!
//! Cost of food consumed = opening + purchases + transfers in − transfers out − closing; cost of food sold = that − staff
//! meals − comps − trim sold. After *Basic Kitchen and Food Service Management* (BCcampus, 2015), Monthly Food Costs, which
//! takes off staff meals, promotion and food to the bar; trim that was sold is taken off like them.
//!
//! Takes a kitchen and its costing; gives money and fractions of one.

use crate::costing::Costing;
use crate::kitchen::plan::ControlRow;
use crate::kitchen::{Field, Kitchen};
use crate::number::{Decimal, exact};
use crate::schema::Column;

/// Every period, and the standard where there is one.
#[derive(Debug, Clone)]
pub struct FoodControl {
    /// The periods, in the order of the control table.
    pub periods: Vec<ControlPeriod>,
    /// What was sold of the menu at its portion costs, or why that is not compared.
    pub standard: Result<StandardCost, NoStandard>,
}

/// What a row of the control table comes to. Optional cells that are blank are zero; `None` is not known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ControlPeriod {
    /// Its row, as an index into the entries.
    pub row: usize,
    /// Opening inventory.
    pub opening: Option<Decimal>,
    /// Purchases.
    pub purchases: Option<Decimal>,
    /// Transfers in.
    pub transfers_in: Option<Decimal>,
    /// Transfers out.
    pub transfers_out: Option<Decimal>,
    /// Closing inventory.
    pub closing: Option<Decimal>,
    /// Cost of food consumed.
    pub consumed: Option<Decimal>,
    /// Staff meals.
    pub staff_meals: Option<Decimal>,
    /// Food given away.
    pub comps: Option<Decimal>,
    /// What sold trim fetched.
    pub trim_sold: Option<Decimal>,
    /// Cost of food sold.
    pub food_sold: Option<Decimal>,
    /// Sales.
    pub sales: Option<Decimal>,
    /// Cost of food sold over sales, as a fraction.
    pub food_cost: Option<Decimal>,
    /// Waste that was written down.
    pub waste: Option<Decimal>,
    /// The cells that leave something unknown, in the order of the table.
    pub lacking: Vec<(Column, CellLack)>,
}

/// Why a cell leaves something unknown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CellLack {
    /// Nothing was typed.
    Blank,
    /// It could not be read, which is reported.
    Unread,
    /// Nothing can be a percentage of zero.
    Zero,
}

/// Why nothing is compared with a standard.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoStandard {
    /// There is no control table.
    NoPeriod,
    /// What was sold bears no period, so it belongs to one only where there is but one.
    SeveralPeriods,
    /// No dish says how many were sold and has a cost.
    NothingSold,
}

/// What the dishes sold ought to have cost, and the gap to what the food sold cost.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StandardCost {
    /// The dishes it is of, in the order of the menu.
    pub dishes: Vec<StandardDish>,
    /// The others, as indices into the kitchen's dishes.
    pub left_out: Vec<(usize, NotInStandard)>,
    /// Portions sold; `None` where they do not fit.
    pub portions: Option<Decimal>,
    /// Portions sold times portion cost, of all dishes.
    pub cost: Option<Decimal>,
    /// Over sales, as a fraction.
    pub share: Option<Decimal>,
    /// Cost of food sold less the standard, in money.
    pub variance: Option<Decimal>,
    /// Over sales, as a fraction.
    pub variance_share: Option<Decimal>,
    /// The waste written down over sales, as a fraction.
    pub waste_share: Option<Decimal>,
    /// What the waste written down leaves of the variance, in money.
    pub unexplained: Option<Decimal>,
    /// Over sales, as a fraction.
    pub unexplained_share: Option<Decimal>,
}

/// A dish sold, at its portion cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StandardDish {
    /// The dish, as an index into the kitchen's.
    pub dish: usize,
    /// Portions sold.
    pub sold: Decimal,
    /// What a portion costs.
    pub portion_cost: Decimal,
    /// What all of them cost; `None` where that does not fit.
    pub in_all: Option<Decimal>,
}

/// Why a dish is not in the standard.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotInStandard {
    /// Nothing says how many were sold.
    NoSold,
    /// What says it could not be read.
    SoldUnread,
    /// What a portion costs is not known.
    NoCost,
}

impl FoodControl {
    /// The periods of a kitchen's control table, and what its dishes sold come to under its costing.
    pub fn of(kitchen: &Kitchen, costing: &Costing) -> Self {
        let rows = kitchen.entries.control.iter().enumerate();
        let periods: Vec<ControlPeriod> = rows.map(|(index, row)| ControlPeriod::of(index, row)).collect();
        let standard = match periods.as_slice() {
            [] => Err(NoStandard::NoPeriod),
            [period] => StandardCost::of(kitchen, costing, period).ok_or(NoStandard::NothingSold),
            _ => Err(NoStandard::SeveralPeriods),
        };
        FoodControl { periods, standard }
    }
}

impl ControlPeriod {
    fn of(index: usize, row: &ControlRow) -> Self {
        let mut lacking = Vec::new();
        let mut needed = |column: Column, field: &Field<Decimal>| {
            match field {
                Field::Given(amount) => return Some(*amount),
                Field::Blank => lacking.push((column, CellLack::Blank)),
                Field::Broken => lacking.push((column, CellLack::Unread)),
            }
            None
        };
        let opening = needed(Column::Opening, &row.opening);
        let purchases = needed(Column::Purchases, &row.purchases);
        let closing = needed(Column::Closing, &row.closing);
        let mut or_zero = |column: Column, field: &Field<Decimal>| match field {
            Field::Blank => Some(Decimal::ZERO),
            field => needed(column, field),
        };
        let transfers_in = or_zero(Column::TransfersIn, &row.transfers_in);
        let transfers_out = or_zero(Column::TransfersOut, &row.transfers_out);
        let staff_meals = or_zero(Column::StaffMeals, &row.staff_meals);
        let comps = or_zero(Column::Comps, &row.comps);
        let waste = or_zero(Column::WasteLogged, &row.waste);
        let trim_sold = or_zero(Column::TrimSold, &row.trim_sold);
        let sales = needed(Column::Sales, &row.sales);
        if sales == Some(Decimal::ZERO) {
            lacking.push((Column::Sales, CellLack::Zero));
        }
        let consumed = of_all([opening, purchases, transfers_in], [transfers_out, closing, Some(Decimal::ZERO)]);
        let food_sold = of_all([consumed, Some(Decimal::ZERO), Some(Decimal::ZERO)], [staff_meals, comps, trim_sold]);
        ControlPeriod {
            row: index,
            opening,
            purchases,
            transfers_in,
            transfers_out,
            closing,
            consumed,
            staff_meals,
            comps,
            trim_sold,
            food_sold,
            sales,
            food_cost: over(food_sold, sales),
            waste,
            lacking,
        }
    }
}

impl StandardCost {
    /// `None` where no dish says how many were sold and has a cost.
    fn of(kitchen: &Kitchen, costing: &Costing, period: &ControlPeriod) -> Option<Self> {
        let mut dishes = Vec::new();
        let mut left_out = Vec::new();
        for (index, dish) in kitchen.dishes.iter().enumerate() {
            let cost = costing.dishes.get(index).and_then(Option::as_ref).map(|cost| cost.portion_cost);
            match (&dish.sold, cost) {
                (Field::Given(sold), Some(portion_cost)) => {
                    let in_all = exact::mul(*sold, portion_cost).ok();
                    dishes.push(StandardDish { dish: index, sold: *sold, portion_cost, in_all });
                }
                (Field::Given(_), None) => left_out.push((index, NotInStandard::NoCost)),
                (Field::Blank, _) => left_out.push((index, NotInStandard::NoSold)),
                (Field::Broken, _) => left_out.push((index, NotInStandard::SoldUnread)),
            }
        }
        if dishes.is_empty() {
            return None;
        }
        let portions = exact::sum(dishes.iter().map(|dish| dish.sold)).ok();
        let in_all: Option<Vec<Decimal>> = dishes.iter().map(|dish| dish.in_all).collect();
        let cost = in_all.and_then(|all| exact::sum(all).ok());
        let variance = less(period.food_sold, cost);
        let unexplained = less(variance, period.waste);
        Some(StandardCost {
            dishes,
            left_out,
            portions,
            cost,
            share: over(cost, period.sales),
            variance,
            variance_share: over(variance, period.sales),
            waste_share: over(period.waste, period.sales),
            unexplained,
            unexplained_share: over(unexplained, period.sales),
        })
    }
}

/// All that comes in less all that goes out.
fn of_all(come_in: [Option<Decimal>; 3], go_out: [Option<Decimal>; 3]) -> Option<Decimal> {
    let sum = |parts: [Option<Decimal>; 3]| {
        let parts: Option<Vec<Decimal>> = parts.into_iter().collect();
        exact::sum(parts?).ok()
    };
    less(sum(come_in), sum(go_out))
}

fn less(amount: Option<Decimal>, taken: Option<Decimal>) -> Option<Decimal> {
    exact::sub(amount?, taken?).ok()
}

/// A part of the sales; `None` of none.
fn over(part: Option<Decimal>, sales: Option<Decimal>) -> Option<Decimal> {
    exact::div(part?, sales?).ok()
}
