//! Costs of a book: its dishes, recipes and yield tests.

use schemars::JsonSchema;
use serde::Serialize;

use super::dish::DishResult;
use super::price_history::PriceHistory;
use super::problem::ProblemResult;
use super::recipe::RecipeResult;
use super::value::{Day, FormatVersion, VERSION};
use super::yield_test::TestResult;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::problem::Problem;

/// What a book costs: `parings cost --format json`. Lists are in book order; what is not known is null; percentages are
/// such that "28" is 28 %.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings cost")]
pub struct CostResults<'a> {
    /// The version of the program.
    pub parings: &'a str,
    /// The version of this format.
    pub format: FormatVersion,
    /// The day whose prices count.
    pub as_of: Day,
    /// The currency of all money, such as USD; empty where the book shows none.
    pub currency: &'a str,
    /// The dishes sold.
    pub dishes: Vec<DishResult<'a>>,
    /// The recipes.
    pub recipes: Vec<RecipeResult<'a>>,
    /// The yield tests.
    pub tests: Vec<TestResult<'a>>,
    /// The bought items whose price in use has moved since an older row, the one that moved most first: at most five.
    pub price_history: Vec<PriceHistory<'a>>,
    /// Every problem of the book.
    pub problems: Vec<ProblemResult<'a>>,
}

/// What a book costs.
pub fn costs<'a>(kitchen: &'a Kitchen, costing: &'a Costing, problems: &'a [Problem]) -> CostResults<'a> {
    CostResults {
        parings: VERSION,
        format: FormatVersion,
        as_of: Day(costing.scenario.date),
        currency: &kitchen.settings.currency,
        dishes: DishResult::all(kitchen, costing).collect(),
        recipes: RecipeResult::all(kitchen, costing).collect(),
        tests: TestResult::all(kitchen, costing).collect(),
        price_history: PriceHistory::all(kitchen, costing),
        problems: problems.iter().map(ProblemResult::of).collect(),
    }
}
