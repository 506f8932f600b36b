//! The costing as JSON: numbers as plain decimal strings in full precision, lists in book order.

mod explained;
mod foods;
mod found;
mod reprice;
mod trim;

use serde::Serialize;

pub use explained::explained;
pub use foods::{foods, proposals};
pub use found::found;
pub use reprice::reprice;
pub use trim::trim;

use crate::costing::allergens::Silent;
use crate::costing::{AllergenSet, Costing, LineCost, LineTrace, MeasureFrom, RecipeCost, YieldFrom};
use crate::food::{Allergen, allergens};
use crate::kitchen::bridge::Basis;
use crate::kitchen::menu::Dish;
use crate::kitchen::recipe::{Line, LineEntry, LineQuantity, Recipe, Source};
use crate::kitchen::yield_test::Test;
use crate::kitchen::{InputRow, Kitchen, RecipeId};
use crate::measure::Measured;
use crate::number::{Decimal, exact, plain};
use crate::problem::Problem;
use crate::schema::Column;

/// The version of this format.
const FORMAT: u32 = 1;

/// A whole costing.
#[derive(Debug, Serialize)]
struct Report<'a> {
    parings: &'a str,
    format: u32,
    as_of: String,
    currency: &'a str,
    dishes: Vec<DishJson<'a>>,
    recipes: Vec<RecipeJson<'a>>,
    tests: Vec<TestJson<'a>>,
    problems: Vec<ProblemJson<'a>>,
}

#[derive(Debug, Serialize, Default)]
struct Amount {
    qty: Option<String>,
    unit: Option<String>,
}

#[derive(Debug, Serialize)]
struct DishJson<'a> {
    name: &'a str,
    recipe: Option<&'a str>,
    portion: Amount,
    portion_cost: Option<String>,
    menu_price: Option<String>,
    food_cost_percent: Option<String>,
    target_percent: Option<String>,
    price_at_target: Option<String>,
    margin: Option<String>,
}

#[derive(Debug, Serialize)]
struct RecipeJson<'a> {
    name: &'a str,
    food_cost: Option<String>,
    batch_cost: Option<String>,
    makes: Amount,
    portions: Option<String>,
    portion_cost: Option<String>,
    allergens: Vec<String>,
    may_contain: Vec<String>,
    allergens_not_stated: Vec<String>,
    uncosted_lines: usize,
    lines: Vec<LineJson<'a>>,
}

#[derive(Debug, Serialize)]
struct LineJson<'a> {
    item: &'a str,
    source: Option<&'static str>,
    qty: Option<String>,
    unit: Option<String>,
    basis: &'static str,
    base_qty: Option<String>,
    base_unit: Option<&'static str>,
    yield_percent: Option<String>,
    yield_from: Option<&'static str>,
    measure_from: Option<&'static str>,
    unit_cost: Option<String>,
    cost: Option<String>,
}

#[derive(Debug, Serialize)]
struct TestJson<'a> {
    name: &'a str,
    item: String,
    runs: usize,
    weight_g: Option<String>,
    cost: Option<String>,
    loss_g: Option<String>,
    parts: Vec<PartJson<'a>>,
}

#[derive(Debug, Serialize)]
struct PartJson<'a> {
    name: &'a str,
    role: &'static str,
    weight_g: String,
    yield_percent: Option<String>,
    cost: Option<String>,
    cost_per_g: Option<String>,
    cost_factor: Option<String>,
}

#[derive(Debug, Serialize)]
struct ProblemJson<'a> {
    code: &'static str,
    severity: String,
    file: &'a str,
    sheet: &'a str,
    cell: String,
    message: String,
    help: &'a str,
}

/// The JSON of a costing, pretty-printed, with a final line break.
pub fn costing(kitchen: &Kitchen, costing: &Costing, problems: &[Problem]) -> String {
    let recipes = kitchen.recipes.iter().zip(&costing.recipes).zip(&costing.allergens).enumerate();
    let report = Report {
        parings: env!("CARGO_PKG_VERSION"),
        format: FORMAT,
        as_of: costing.scenario.date.to_string(),
        currency: &kitchen.settings.currency,
        dishes: kitchen.dishes.iter().zip(&costing.dishes).map(|(dish, cost)| dish_json(kitchen, dish, cost)).collect(),
        recipes: recipes
            .map(|(index, ((recipe, cost), set))| {
                recipe_json(kitchen, RecipeId::new(index), recipe, cost.as_ref(), set)
            })
            .collect(),
        tests: kitchen.tests.iter().zip(&costing.tests).map(|(test, cost)| test_json(kitchen, test, cost)).collect(),
        problems: problems.iter().map(problem_json).collect(),
    };
    pretty(&report)
}

/// Pretty-printed, with a final line break. A value made of strings, numbers and lists always has a JSON form.
fn pretty(report: &impl Serialize) -> String {
    let mut text = serde_json::to_string_pretty(report).unwrap_or_default();
    text.push('\n');
    text
}

fn percent(fraction: Decimal) -> Option<String> {
    exact::mul(fraction, Decimal::ONE_HUNDRED).ok().map(plain)
}

fn amount(measured: &Measured) -> Amount {
    Amount { qty: Some(plain(measured.amount)), unit: Some(measured.unit.name()) }
}

fn dish_json<'a>(kitchen: &'a Kitchen, dish: &'a Dish, cost: &Option<crate::costing::DishCost>) -> DishJson<'a> {
    let recipe = dish.recipe.and_then(|id| kitchen.recipe(id));
    let portion = dish.portion.as_ref().or_else(|| recipe.and_then(|recipe| recipe.portion.as_ref()));
    let cost = cost.as_ref();
    DishJson {
        name: &dish.name,
        recipe: recipe.map(|recipe| recipe.name.as_str()),
        portion: portion.map_or_else(|| Amount { qty: Some("1".into()), unit: Some("portion".into()) }, amount),
        portion_cost: cost.map(|cost| plain(cost.portion_cost)),
        menu_price: dish.menu_price.map(plain),
        food_cost_percent: cost.and_then(|cost| cost.food_cost).and_then(percent),
        target_percent: dish.target.and_then(percent),
        price_at_target: cost.and_then(|cost| cost.price_at_target).map(plain),
        margin: cost.and_then(|cost| cost.margin).map(plain),
    }
}

fn recipe_json<'a>(
    kitchen: &'a Kitchen,
    id: RecipeId,
    recipe: &'a Recipe,
    cost: Option<&RecipeCost>,
    set: &AllergenSet,
) -> RecipeJson<'a> {
    let entry = kitchen.entries.recipes.get(recipe.entry);
    let lines = entry.into_iter().flat_map(|entry| &entry.lines).zip(&recipe.lines).enumerate();
    let uncosted = match cost {
        Some(cost) => cost.uncosted_lines(),
        None => recipe.lines.iter().filter(|line| matches!(line.quantity, LineQuantity::Unmeasured { .. })).count(),
    };
    RecipeJson {
        name: &recipe.name,
        food_cost: cost.map(|cost| plain(cost.food)),
        batch_cost: cost.map(|cost| plain(cost.batch)),
        makes: recipe.makes.first().map(amount).unwrap_or_default(),
        portions: cost.and_then(|cost| cost.portions).and_then(|portions| portions.value().ok()).map(plain),
        portion_cost: cost.and_then(|cost| cost.portion_cost).map(plain),
        allergens: listed(set.contains.keys()),
        may_contain: listed(set.may_contain.keys()),
        allergens_not_stated: set.not_stated.iter().map(|silent| silent_name(kitchen, *silent)).collect(),
        uncosted_lines: uncosted,
        lines: lines
            .map(|(index, (entry, line))| line_json(entry, line, cost.and_then(|cost| cost.lines.get(index)), id))
            .collect(),
    }
}

/// Allergens in the order of the list, the kitchen's own words last.
pub fn listed<'a>(found: impl Iterator<Item = &'a Allergen>) -> Vec<String> {
    let order = |code: &str| allergens::codes().iter().position(|known| *known == code).unwrap_or(usize::MAX);
    let mut codes: Vec<String> = found.map(|allergen| allergen.code().to_owned()).collect();
    codes.sort_by_key(|code| order(code));
    codes
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

fn line_json<'a>(entry: &'a LineEntry, line: &Line, cost: Option<&LineCost>, _recipe: RecipeId) -> LineJson<'a> {
    let source = match line.source {
        Source::Bought(_) => Some("bought"),
        Source::Part(_) => Some("fabricated"),
        Source::Made(_) => Some("made"),
        Source::Unknown => None,
    };
    let (qty, unit) = typed_quantity(&entry.input, line);
    let mut json = LineJson {
        item: &entry.item,
        source,
        qty,
        unit,
        basis: line.basis.name(),
        base_qty: None,
        base_unit: None,
        yield_percent: None,
        yield_from: None,
        measure_from: None,
        unit_cost: None,
        cost: None,
    };
    if let Some(LineCost::Costed { cost, trace }) = cost {
        let figures = LineFigures::of(line, trace);
        json.base_qty = figures.base_qty.map(plain);
        json.base_unit = Some(trace.kind.symbol());
        json.unit_cost = figures.unit_cost.map(plain);
        json.measure_from = Some(measure_from(trace));
        json.cost = Some(plain(*cost));
        match line.basis {
            Basis::Ep => {
                json.yield_percent = percent(trace.trim_yield);
                json.yield_from = Some(yield_from(trace));
            }
            Basis::Ap => json.yield_from = Some("none"),
        }
    }
    json
}

/// The quantity and unit of a line as typed; a quantity that is none is `None`.
fn typed_quantity(input: &InputRow, line: &Line) -> (Option<String>, Option<String>) {
    let typed = input.text(Column::Unit);
    let unit = (!typed.is_empty()).then_some(typed);
    match &line.quantity {
        LineQuantity::Measured(measured) => (Some(plain(measured.amount)), unit.or_else(|| Some(measured.unit.name()))),
        LineQuantity::Unmeasured { words, .. } => (None, unit.or_else(|| (!words.is_empty()).then(|| words.clone()))),
    }
}

/// A line's quantity and unit cost on its own basis.
#[derive(Debug, Clone, Copy)]
pub struct LineFigures {
    /// In base units.
    pub base_qty: Option<Decimal>,
    /// Money per base unit.
    pub unit_cost: Option<Decimal>,
}

impl LineFigures {
    /// Those of a costed line.
    pub fn of(line: &Line, trace: &LineTrace) -> Self {
        let amount = if trace.shrinks { trace.amount.times(trace.trim_yield) } else { Ok(trace.amount) };
        let crosses = line.basis == Basis::Ap && trace.basis == Basis::Ep;
        let base_qty = amount.and_then(|amount| if crosses { amount.over(trace.trim_yield) } else { Ok(amount) });
        let unit_cost = trace
            .rate
            .unit_cost()
            .and_then(|unit_cost| if crosses { exact::mul(unit_cost, trace.trim_yield) } else { Ok(unit_cost) });
        LineFigures { base_qty: base_qty.and_then(|amount| amount.value()).ok(), unit_cost: unit_cost.ok() }
    }
}

fn yield_from(trace: &LineTrace) -> &'static str {
    match trace.yield_from {
        YieldFrom::Line => "line",
        YieldFrom::Test(_) => "test",
        YieldFrom::PriceRow(_) => "price row",
        YieldFrom::Reference(_) => "reference",
        YieldFrom::None => "none",
    }
}

fn measure_from(trace: &LineTrace) -> &'static str {
    match trace.measures.iter().max() {
        None => "same kind",
        Some(MeasureFrom::Row(_) | MeasureFrom::Makes) => "measures",
        Some(MeasureFrom::Pack(_)) => "pack",
        Some(MeasureFrom::Can(_) | MeasureFrom::Reference(_)) => "reference",
    }
}

fn test_json<'a>(kitchen: &'a Kitchen, test: &'a Test, cost: &Option<crate::costing::TestCost>) -> TestJson<'a> {
    let cost = cost.as_ref();
    let first = test.runs.first().and_then(|run| kitchen.entries.tests.get(run.row));
    let weight = exact::sum(test.runs.iter().map(|run| run.grams)).ok();
    let parts = test.parts.iter().enumerate().map(|(index, part)| {
        let figures = cost.and_then(|cost| cost.parts.get(index));
        PartJson {
            name: &part.name,
            role: part.role.word(),
            weight_g: plain(part.grams),
            yield_percent: figures.and_then(|part| percent(part.fraction)),
            cost: figures.map(|part| plain(part.cost)),
            cost_per_g: figures.and_then(|part| part.rate).and_then(|rate| rate.unit_cost().ok()).map(plain),
            cost_factor: figures.and_then(|part| part.cost_factor).map(plain),
        }
    });
    TestJson {
        name: &test.name,
        item: first.map(|row| row.part.clone()).unwrap_or_default(),
        runs: test.runs.len(),
        weight_g: weight.map(plain),
        cost: cost.map(|cost| plain(cost.cost)),
        loss_g: cost.map(|cost| plain(cost.loss_grams)),
        parts: parts.collect(),
    }
}

fn problem_json(problem: &Problem) -> ProblemJson<'_> {
    ProblemJson {
        code: problem.code.name(),
        severity: problem.severity().to_string(),
        file: problem.place.file_name(),
        sheet: problem.place.sheet_name(),
        cell: problem.place.cell_ref().map(|cell| cell.to_string()).unwrap_or_default(),
        message: problem.message(),
        help: &problem.help,
    }
}
