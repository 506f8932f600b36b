//! Food-cost control: what the food sold cost by the stock counts, what it ought to have cost by the recipes, and the gap.

use schemars::JsonSchema;
use serde::Serialize;

use super::counted_use::{CountedUseResult, counted_use};
use super::problem::ProblemResult;
use super::value::{Day, Figure, FormatVersion, VERSION, percent};
use super::word::Word;
use crate::analysis::FoodControl;
use crate::analysis::actual_against_standard::{CellLack, ControlPeriod, NoStandard, NotInStandard, StandardCost};
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::number::Decimal;
use crate::problem::Problem;
use crate::schema::TableKind;

/// Actual against standard food cost: `parings control --format json`. Lists are in the order of the book; what is not known
/// is null; percentages are such that "28" is 28 %, and points are differences of such.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings control")]
pub struct FoodControlResults<'a> {
    /// The version of the program.
    pub parings: &'a str,
    /// The version of this format.
    pub format: FormatVersion,
    /// The costing date.
    pub as_of: Day,
    /// The day whose prices the standard goes by: the last of the one period where that says it, else the costing date.
    pub priced_on: Day,
    /// The currency of all money, such as USD; empty where the book shows none.
    pub currency: &'a str,
    /// The periods of the control table.
    pub periods: Vec<ControlPeriodResult<'a>>,
    /// What the dishes sold ought to have cost in the one period that there is; null where that is not compared.
    pub standard: Option<StandardResult<'a>>,
    /// Why it is not compared; null where it is.
    pub no_standard: Option<Word<NoStandard>>,
    /// What was counted item by item; null without counts, and with several periods.
    pub counted: Option<CountedUseResult<'a>>,
    /// Every problem of the book.
    pub problems: Vec<ProblemResult<'a>>,
}

/// A period, in money. What may be left blank is 0 where it is.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "ControlPeriod")]
pub struct ControlPeriodResult<'a> {
    /// Its name; empty where it has none.
    pub period: &'a str,
    /// Its first day; null where it says none.
    pub first_day: Option<Day>,
    /// Its last day; null where it says none.
    pub last_day: Option<Day>,
    /// Opening inventory.
    pub opening: Option<Figure>,
    /// Purchases.
    pub purchases: Option<Figure>,
    /// Transfers in.
    pub transfers_in: Option<Figure>,
    /// Transfers out.
    pub transfers_out: Option<Figure>,
    /// Closing inventory.
    pub closing: Option<Figure>,
    /// Cost of food consumed: opening + purchases + transfers in - transfers out - closing.
    pub food_consumed: Option<Figure>,
    /// Staff meals.
    pub staff_meals: Option<Figure>,
    /// Food given away.
    pub comps: Option<Figure>,
    /// What sold trim fetched.
    pub trim_sold: Option<Figure>,
    /// Cost of food sold: food consumed - staff meals - comps - trim sold.
    pub food_sold: Option<Figure>,
    /// Sales, without tax.
    pub sales: Option<Figure>,
    /// Actual food-cost percent: food sold over sales.
    pub food_cost_percent: Option<Figure>,
    /// Waste that was written down.
    pub waste: Option<Figure>,
    /// The cells that leave something unknown.
    pub lacking: Vec<LackingCell>,
    /// The columns that are blank, for which the counts item by item stand.
    pub of_counts: Vec<&'static str>,
}

/// A cell that leaves something unknown.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LackingCell {
    /// Its column.
    pub column: &'static str,
    /// Why.
    pub because: Word<CellLack>,
}

/// What the dishes sold ought to have cost, and the gap to what the food sold cost.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Standard")]
pub struct StandardResult<'a> {
    /// Portions sold.
    pub portions: Option<Figure>,
    /// What they ought to have cost: sold times portion cost, of all dishes that are counted.
    pub cost: Option<Figure>,
    /// Of the sales.
    pub food_cost_percent: Option<Figure>,
    /// Cost of food sold less the standard; above zero where more was used.
    pub variance: Option<Figure>,
    /// The same in points of the food-cost percent.
    pub variance_points: Option<Figure>,
    /// The part of it that the waste written down explains.
    pub waste: Option<Figure>,
    /// The same in points.
    pub waste_points: Option<Figure>,
    /// What is left of it unexplained.
    pub unexplained: Option<Figure>,
    /// The same in points.
    pub unexplained_points: Option<Figure>,
    /// The dishes that are counted.
    pub dishes: Vec<StandardDishResult<'a>>,
    /// The others.
    pub left_out: Vec<LeftOutDish<'a>>,
}

/// A dish sold, at its portion cost.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "StandardDish")]
pub struct StandardDishResult<'a> {
    /// Its name, as first spelled in the book.
    pub name: &'a str,
    /// Portions sold.
    pub sold: Figure,
    /// What a portion costs.
    pub portion_cost: Figure,
    /// What all of them cost.
    pub cost: Option<Figure>,
}

/// A dish that is not in the standard.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LeftOutDish<'a> {
    /// Its name, as first spelled in the book.
    pub name: &'a str,
    /// Why.
    pub because: Word<NotInStandard>,
}

/// The control of a kitchen.
pub fn food_control<'a>(
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    control: &'a FoodControl,
    problems: &'a [Problem],
) -> FoodControlResults<'a> {
    FoodControlResults {
        parings: VERSION,
        format: FormatVersion,
        as_of: Day(costing.scenario.date),
        priced_on: Day(control.priced_on),
        currency: &kitchen.settings.currency,
        periods: periods(kitchen, control).collect(),
        standard: standard(kitchen, control),
        no_standard: control.standard.as_ref().err().copied().map(Word),
        counted: counted(kitchen, costing, control),
        problems: problems.iter().map(ProblemResult::of).collect(),
    }
}

/// The periods, in the order of the control table.
pub(crate) fn periods<'a>(
    kitchen: &'a Kitchen,
    control: &'a FoodControl,
) -> impl Iterator<Item = ControlPeriodResult<'a>> {
    control.periods.iter().map(|period| ControlPeriodResult::of(kitchen, period))
}

/// The standard of the one period, where there is one.
pub(crate) fn standard<'a>(kitchen: &'a Kitchen, control: &'a FoodControl) -> Option<StandardResult<'a>> {
    let period = control.periods.first()?;
    control.standard.as_ref().ok().map(|standard| StandardResult::of(kitchen, period, standard))
}

/// What was counted item by item, where anything was.
pub(crate) fn counted<'a>(
    kitchen: &'a Kitchen,
    costing: &Costing,
    control: &FoodControl,
) -> Option<CountedUseResult<'a>> {
    let sales = control.periods.first().and_then(|period| period.sales);
    control.counted.as_ref().map(|counted| counted_use(kitchen, costing, counted, sales))
}

fn money(amount: Option<Decimal>) -> Option<Figure> {
    amount.map(Figure)
}

fn points(fraction: Option<Decimal>) -> Option<Figure> {
    fraction.and_then(percent)
}

impl<'a> ControlPeriodResult<'a> {
    fn of(kitchen: &'a Kitchen, period: &ControlPeriod) -> Self {
        let lacking = period.lacking.iter();
        ControlPeriodResult {
            period: kitchen.entries.control.get(period.row).map_or("", |row| &row.period),
            first_day: period.days.0.map(Day),
            last_day: period.days.1.map(Day),
            opening: money(period.opening),
            purchases: money(period.purchases),
            transfers_in: money(period.transfers_in),
            transfers_out: money(period.transfers_out),
            closing: money(period.closing),
            food_consumed: money(period.consumed),
            staff_meals: money(period.staff_meals),
            comps: money(period.comps),
            trim_sold: money(period.trim_sold),
            food_sold: money(period.food_sold),
            sales: money(period.sales),
            food_cost_percent: points(period.food_cost),
            waste: money(period.waste),
            lacking: lacking
                .map(|(column, why)| LackingCell { column: TableKind::Control.header(*column), because: Word(*why) })
                .collect(),
            of_counts: period.of_counts.iter().map(|column| TableKind::Control.header(*column)).collect(),
        }
    }
}

impl<'a> StandardResult<'a> {
    fn of(kitchen: &'a Kitchen, period: &ControlPeriod, standard: &StandardCost) -> Self {
        let name = |index: usize| kitchen.dishes.get(index).map(|dish| dish.name.as_str());
        let dishes = standard.dishes.iter().filter_map(|dish| {
            Some(StandardDishResult {
                name: name(dish.dish)?,
                sold: Figure(dish.sold),
                portion_cost: Figure(dish.portion_cost),
                cost: money(dish.in_all),
            })
        });
        let left_out = standard.left_out.iter();
        StandardResult {
            portions: money(standard.portions),
            cost: money(standard.cost),
            food_cost_percent: points(standard.share),
            variance: money(standard.variance),
            variance_points: points(standard.variance_share),
            waste: money(period.waste),
            waste_points: points(standard.waste_share),
            unexplained: money(standard.unexplained),
            unexplained_points: points(standard.unexplained_share),
            dishes: dishes.collect(),
            left_out: left_out
                .filter_map(|(index, why)| Some(LeftOutDish { name: name(*index)?, because: Word(*why) }))
                .collect(),
        }
    }
}

/// The words for what ails a cell.
pub(crate) fn cell_lack(why: CellLack) -> &'static str {
    match why {
        CellLack::Blank => "blank",
        CellLack::Unread => "not understood",
        CellLack::Zero => "zero",
    }
}

/// The words for why nothing is compared.
pub(crate) fn no_standard(why: NoStandard) -> &'static str {
    match why {
        NoStandard::NoPeriod => "no period",
        NoStandard::SeveralPeriods => "several periods",
        NoStandard::NothingSold => "no dish sold that has a cost",
    }
}

/// The words for why a dish is left out.
pub(crate) fn not_in_standard(why: NotInStandard) -> &'static str {
    match why {
        NotInStandard::NoSold => "no number sold",
        NotInStandard::SoldUnread => "number sold not understood",
        NotInStandard::NoCost => "no portion cost",
    }
}
