//! Plan, stock, counts and control: the rows as read, and plan, stock and counts with their names found. Costing never looks at
//! them; the trim balance, the buying list and the control report do.

use jiff::civil::Date;

use super::days::Days;
use super::recipe::IngredientSource;
use super::{Field, InputRow, ItemId, RecipeId};
use crate::measure::Measured;
use crate::number::Decimal;

/// A row of the plan.
#[derive(Debug, Clone)]
pub struct PlanRow {
    /// The cells.
    pub input: InputRow,
    /// The dish's name as spelled.
    pub dish: String,
    /// Portions planned.
    pub portions: Field<Decimal>,
    /// The day they are planned for, as typed; empty when not named.
    pub day: String,
    /// That day, where it is a date.
    pub date: Option<Date>,
}

/// The plan.
#[derive(Debug, Clone, Default)]
pub struct Plan {
    /// The days it names, in order.
    pub days: Days,
    /// What is planned, in book order.
    pub rows: Vec<Planned>,
    /// Rows left out, as indices into the entries: their dish or their portions could not be read, which is reported.
    pub unread: Vec<usize>,
}

/// Portions of something planned for a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Planned {
    /// What is served.
    pub served: Served,
    /// How many portions; never negative.
    pub portions: Decimal,
    /// The day, as an index into the plan's days.
    pub day: usize,
    /// Its row, as an index into the entries.
    pub row: usize,
}

/// What a plan can name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Served {
    /// A dish, as an index into the kitchen's dishes.
    Dish(usize),
    /// A recipe that is no dish, in portions of its card: a staff meal.
    Recipe(RecipeId),
}

/// Something in the store room, a refrigerator or the freezer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OnHand {
    /// What it is: something bought, a part of a yield test or a recipe.
    pub source: IngredientSource,
    /// How much; `None` where that could not be read, which is reported.
    pub amount: Option<Measured>,
    /// Its row, as an index into the entries.
    pub row: usize,
}

/// Something ordered that is not there yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OnOrder {
    /// What is bought.
    pub item: ItemId,
    /// How much; `None` where that could not be read, which is reported.
    pub amount: Option<Measured>,
    /// Its row, as an index into the entries.
    pub row: usize,
}

/// A row of the stock list.
#[derive(Debug, Clone)]
pub struct StockRow {
    /// The cells.
    pub input: InputRow,
    /// The item's or part's name as spelled.
    pub item: String,
    /// What is there.
    pub on_hand: Field<Measured>,
    /// What has been ordered and is not there yet.
    pub on_order: Field<Measured>,
}

/// A row of the stock counts: an item on the first and on the last day of a period, and what came and went between.
#[derive(Debug, Clone)]
pub struct CountRow {
    /// The cells.
    pub input: InputRow,
    /// The item's or part's name as spelled.
    pub item: String,
    /// Counted on the first day.
    pub opening: Field<Measured>,
    /// Bought.
    pub purchased: Field<Measured>,
    /// Came from another kitchen, or the bar.
    pub came_in: Field<Measured>,
    /// Went there.
    pub went_out: Field<Measured>,
    /// Counted on the last day.
    pub closing: Field<Measured>,
    /// Thrown away, as far as it was written down.
    pub thrown: Field<Measured>,
    /// Money paid for all that was bought.
    pub paid: Field<Decimal>,
    /// What it stands in for, or what stands in for it: items of one group; empty where nothing does.
    pub group: String,
}

/// Something that is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StockCount {
    /// What it is: something bought, a part of a yield test or a recipe.
    pub source: IngredientSource,
    /// Its row, as an index into the entries.
    pub row: usize,
}

/// A period of the control table, in money.
#[derive(Debug, Clone)]
pub struct ControlRow {
    /// The cells.
    pub input: InputRow,
    /// The period's name.
    pub period: String,
    /// Its first day.
    pub first_day: Field<Date>,
    /// Its last day.
    pub last_day: Field<Date>,
    /// Opening inventory.
    pub opening: Field<Decimal>,
    /// Purchases.
    pub purchases: Field<Decimal>,
    /// Closing inventory.
    pub closing: Field<Decimal>,
    /// Transfers in.
    pub transfers_in: Field<Decimal>,
    /// Transfers out.
    pub transfers_out: Field<Decimal>,
    /// Staff meals.
    pub staff_meals: Field<Decimal>,
    /// Food given away.
    pub comps: Field<Decimal>,
    /// Food thrown away, as far as it was written down.
    pub waste: Field<Decimal>,
    /// What sold trim fetched.
    pub trim_sold: Field<Decimal>,
    /// Sales, without tax.
    pub sales: Field<Decimal>,
}
