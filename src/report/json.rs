//! The costing as JSON: numbers as plain decimal strings in full precision, lists in book order. The types that are
//! written here are also what the published schemas are made from: see [`schema`].

mod breakdown;
mod dish;
mod explained;
mod foods;
mod found;
mod line;
mod problem;
mod recipe;
mod reprice;
pub mod schema;
mod trim;
mod value;
mod word;

use schemars::JsonSchema;
use serde::Serialize;

pub(super) use breakdown::TestJson;
pub(super) use dish::DishJson;
pub use explained::explained;
pub use foods::{foods, proposals};
pub use found::found;
pub(super) use line::LineJson;
pub(super) use recipe::RecipeJson;
pub use reprice::reprice;
pub use trim::trim;
pub(super) use value::{Figure, percent};
pub(super) use word::{Closed, Word, base};

use problem::ProblemJson;
use value::{Day, Format, VERSION};

use crate::costing::Costing;
use crate::costing::allergens::Silent;
use crate::food::{Allergen, allergens};
use crate::kitchen::Kitchen;
use crate::problem::Problem;

/// What a book costs: `parings cost --format json`. Lists are in book order; what is not known is null; percentages are
/// such that "28" is 28 %.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings cost")]
struct Report<'a> {
    /// The version of the program.
    parings: &'a str,
    /// The version of this format.
    format: Format,
    /// The day whose prices count.
    as_of: Day,
    /// The currency of all money, such as USD; empty where the book shows none.
    currency: &'a str,
    /// The dishes sold.
    dishes: Vec<DishJson<'a>>,
    /// The recipes.
    recipes: Vec<RecipeJson<'a>>,
    /// The yield tests.
    tests: Vec<TestJson<'a>>,
    /// Every problem of the book.
    problems: Vec<ProblemJson<'a>>,
}

/// The JSON of a costing, pretty-printed, with a final line break.
pub fn costing(kitchen: &Kitchen, costing: &Costing, problems: &[Problem]) -> String {
    let dishes = kitchen.dishes.iter().zip(&costing.dishes);
    pretty(&Report {
        parings: VERSION,
        format: Format,
        as_of: Day(costing.scenario.date),
        currency: &kitchen.settings.currency,
        dishes: dishes.map(|(dish, cost)| DishJson::of(kitchen, dish, cost.as_ref())).collect(),
        recipes: RecipeJson::all(kitchen, costing).collect(),
        tests: TestJson::all(kitchen, costing).collect(),
        problems: problems.iter().map(ProblemJson::of).collect(),
    })
}

/// Pretty-printed, with a final line break. A value made of strings, numbers and lists always has a JSON form.
fn pretty(report: &impl Serialize) -> String {
    let mut text = serde_json::to_string_pretty(report).unwrap_or_default();
    text.push('\n');
    text
}

/// The codes of allergens in the order of the list, the kitchen's own words last.
fn listed<'a>(found: impl Iterator<Item = &'a Allergen>) -> Vec<String> {
    let mut found: Vec<&Allergen> = found.collect();
    found.sort_by_key(|allergen| allergens::place(allergen));
    found.into_iter().map(|allergen| allergen.code().to_owned()).collect()
}

/// The name of an ingredient that states nothing.
pub fn silent_name(kitchen: &Kitchen, silent: Silent) -> String {
    let name = match silent {
        Silent::Item(id) => kitchen.item(id).map(|item| item.name.clone()),
        Silent::Line(id, index) => kitchen
            .recipe(id)
            .and_then(|recipe| kitchen.entries.recipes.get(recipe.entry)?.lines.get(index))
            .map(|line| line.item.clone()),
        Silent::Input(id) => kitchen.test(id).map(|test| test.name.clone()),
        Silent::Added(row) => kitchen.entries.tests.get(row).map(|row| row.part.clone()),
    };
    name.unwrap_or_default()
}
