//! Food-cost control: what the food sold cost by the stock counts, against what the dishes sold ought to have cost by their
//! recipes.
//!
//! Cost of food consumed = opening + purchases + transfers in − transfers out − closing; cost of food sold = that − staff
//! meals − comps − trim sold. After *Basic Kitchen and Food Service Management* (BCcampus, 2015), Monthly Food Costs, which
//! takes off staff meals, promotion and food to the bar; trim that was sold is taken off like them. What was counted item
//! by item, `counted_use` has.
//!
//! Takes a kitchen and its costing; gives money and fractions of one.

use jiff::civil::Date;

use super::counted_use::{CountedUse, Period, StockValues};
use super::standard_use::StandardUse;
use crate::costing::{Costing, Scenario, cost};
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
    /// The day whose prices the standard goes by: the last of the one period, where that says it.
    pub priced_on: Date,
    /// What was counted item by item, where the book has counts and one period at the most.
    pub counted: Option<CountedUse>,
}

/// What a row of the control table comes to. Optional cells that are blank are zero; `None` is not known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ControlPeriod {
    /// Its row, as an index into the entries.
    pub row: usize,
    /// Its first and last day, where it says them.
    pub days: (Option<Date>, Option<Date>),
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
    /// The cells that are blank, for which the counts item by item stand.
    pub of_counts: Vec<Column>,
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
    /// The periods of a kitchen's control table, and what its dishes sold come to under its costing, or at the prices of the
    /// last day of the one period.
    pub fn of(kitchen: &Kitchen, costing: &Costing) -> Self {
        let rows = &kitchen.entries.control;
        let [first, last] = match rows.as_slice() {
            [row] => [&row.first_day, &row.last_day].map(|day| day.given().copied()),
            _ => [None, None],
        };
        let on = |day: Option<Date>, is: &Costing| {
            let day = day.filter(|day| *day != is.scenario.date)?;
            Some(cost(kitchen, &Scenario { date: day, ..costing.scenario.clone() }))
        };
        let at_last = on(last, costing);
        let costing = at_last.as_ref().unwrap_or(costing);
        let at_first = on(first, costing);
        let sold = Sold::of(kitchen, costing);
        let mut counted = if rows.len() > 1 { None } else { sold.counted(kitchen, at_first.as_ref(), costing) };
        let stock = counted.as_ref().map_or(StockValues::NOT_COUNTED, |counted| counted.stock);
        let of = |(index, row)| ControlPeriod::of(index, row, stock);
        let periods: Vec<ControlPeriod> = rows.iter().enumerate().map(of).collect();
        let standard = match periods.as_slice() {
            [] => Err(NoStandard::NoPeriod),
            [period] => StandardCost::of(sold, period).ok_or(NoStandard::NothingSold),
            _ => Err(NoStandard::SeveralPeriods),
        };
        if let (Some(counted), Ok(standard)) = (&mut counted, &standard) {
            counted.held_against(standard.variance);
        }
        FoodControl { periods, standard, priced_on: costing.scenario.date, counted }
    }
}

/// The dishes by whether it is known how many were sold, and at what cost.
struct Sold {
    dishes: Vec<StandardDish>,
    left_out: Vec<(usize, NotInStandard)>,
}

impl Sold {
    fn of(kitchen: &Kitchen, costing: &Costing) -> Self {
        let mut sold = Sold { dishes: Vec::new(), left_out: Vec::new() };
        for (index, dish) in kitchen.dishes.iter().enumerate() {
            let cost = costing.dishes.get(index).and_then(Option::as_ref).map(|cost| cost.portion_cost);
            match (&dish.sold, cost) {
                (Field::Given(portions), Some(portion_cost)) => {
                    let in_all = exact::mul(*portions, portion_cost).ok();
                    sold.dishes.push(StandardDish { dish: index, sold: *portions, portion_cost, in_all });
                }
                (Field::Given(_), None) => sold.left_out.push((index, NotInStandard::NoCost)),
                (Field::Blank, _) => sold.left_out.push((index, NotInStandard::NoSold)),
                (Field::Broken, _) => sold.left_out.push((index, NotInStandard::SoldUnread)),
            }
        }
        sold
    }

    /// What was counted between two days, held against what the dishes ought to have used.
    fn counted(&self, kitchen: &Kitchen, first: Option<&Costing>, last: &Costing) -> Option<CountedUse> {
        let dishes = self.dishes.iter().map(|dish| (dish.dish, dish.sold));
        let standard = StandardUse::of(kitchen, last, dishes).ok().filter(|_| !self.dishes.is_empty());
        CountedUse::of(&Period {
            kitchen,
            first_day: first.unwrap_or(last),
            last_day: last,
            standard: standard.as_ref(),
        })
    }
}

impl ControlPeriod {
    fn of(index: usize, row: &ControlRow, stock: StockValues) -> Self {
        let mut lacking = Vec::new();
        let mut of_counts = Vec::new();
        let mut needed = |column: Column, field: &Field<Decimal>, by_counts: Option<Decimal>| {
            match (field, by_counts) {
                (Field::Given(amount), _) => return Some(*amount),
                (Field::Blank, Some(amount)) => {
                    of_counts.push(column);
                    return Some(amount);
                }
                (Field::Blank, None) => lacking.push((column, CellLack::Blank)),
                (Field::Broken, _) => lacking.push((column, CellLack::Unread)),
            }
            None
        };
        let opening = needed(Column::Opening, &row.opening, stock.opening);
        let purchases = needed(Column::Purchases, &row.purchases, stock.purchases);
        let closing = needed(Column::Closing, &row.closing, stock.closing);
        // Without a transfer in the counts there was none.
        let mut moved = |column: Column, field: &Field<Decimal>, by_counts: Option<Decimal>| match field {
            Field::Blank if by_counts == Some(Decimal::ZERO) => by_counts,
            field => needed(column, field, by_counts),
        };
        let transfers_in = moved(Column::TransfersIn, &row.transfers_in, stock.came_in);
        let transfers_out = moved(Column::TransfersOut, &row.transfers_out, stock.went_out);
        let mut or_zero = |column: Column, field: &Field<Decimal>| match field {
            Field::Blank => Some(Decimal::ZERO),
            field => needed(column, field, None),
        };
        let staff_meals = or_zero(Column::StaffMeals, &row.staff_meals);
        let comps = or_zero(Column::Comps, &row.comps);
        let waste = or_zero(Column::WasteLogged, &row.waste);
        let trim_sold = or_zero(Column::TrimSold, &row.trim_sold);
        let sales = needed(Column::Sales, &row.sales, None);
        if sales == Some(Decimal::ZERO) {
            lacking.push((Column::Sales, CellLack::Zero));
        }
        let consumed = of_all([opening, purchases, transfers_in], [transfers_out, closing, Some(Decimal::ZERO)]);
        let food_sold = of_all([consumed, Some(Decimal::ZERO), Some(Decimal::ZERO)], [staff_meals, comps, trim_sold]);
        ControlPeriod {
            row: index,
            days: (row.first_day.given().copied(), row.last_day.given().copied()),
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
            of_counts,
        }
    }
}

impl StandardCost {
    /// `None` where no dish says how many were sold and has a cost.
    fn of(sold: Sold, period: &ControlPeriod) -> Option<Self> {
        let Sold { dishes, left_out } = sold;
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
