//! Overview of a book: what a page shows at once of all of it.

use std::collections::BTreeMap;

use parings::costing::RecipeCost;
use parings::kitchen::Kitchen;
use parings::kitchen::yield_test::Test;
use parings::number::Decimal;
use parings::problem::Problem;
use parings::results::costs::{CostResults, costs};
use parings::results::dish::DishResult;
use parings::results::problem_counts::Counts;
use parings::results::recipe::RecipeResult;
use parings::results::value::Figure;
use parings::results::yield_test::TestResult;
use parings::{Costing, Reading};
use serde_json::{Value, json};

use crate::engine::Answer;

/// So many problems of one kind are shown; of more the number.
const SHOWN: usize = 100;

/// What a book holds and costs, without the lines of its recipes.
pub fn overview(reading: &Reading, costing: &Costing, problems: &[Problem], many: bool) -> Result<Answer, String> {
    let kitchen = &reading.kitchen;
    let (shown, more) = shown(problems);
    let counts = Counts::of(problems.iter().map(Problem::severity));
    // Of a large book the lines would be most of what is handed over.
    let CostResults { as_of, currency, dishes, recipes, tests, problems, .. } = costs(kitchen, costing, &shown);
    let recipes: Vec<Value> =
        recipes.iter().zip(&costing.recipes).map(|(one, cost)| recipe(one, cost.as_ref())).collect();
    let tests: Vec<Value> = tests.iter().zip(&kitchen.tests).map(|(result, of)| test(kitchen, result, of)).collect();
    let sheets = reading.sheets.iter().map(|sheet| {
        let name = [sheet.place.file_name(), sheet.place.sheet_name()];
        let name: Vec<&str> = name.into_iter().filter(|part| !part.is_empty()).collect();
        json!({ "sheet": name.join(" ▸ "), "tables": sheet.tables.len(), "output": sheet.is_output, "guide": sheet.is_guide })
    });
    let sheets: Vec<Value> = sheets.collect();
    Answer::of(json!({
        "house": kitchen.settings.house_name, "as_of": as_of, "currency": currency, "many": many,
        "dishes": dishes, "recipes": recipes, "tests": tests, "problems": problems, "more": more,
        "counts": { "error": counts.errors, "warning": counts.warnings, "note": counts.notes },
        "sheets": sheets, "origins": reading.origins,
    }))
}

/// What the dishes cost as tried, and what stops any of them now.
pub fn tried(reading: &Reading, costing: &Costing, problems: &[Problem]) -> Result<Answer, String> {
    let (shown, _) = shown(problems);
    let dishes: Vec<DishResult<'_>> = DishResult::all(&reading.kitchen, costing).collect();
    let stopped: Vec<String> =
        shown.iter().map(|problem| format!("{}: {}", problem.place, problem.message())).collect();
    Answer::of(json!({ "dishes": dishes, "stopped": stopped }))
}

/// A test with its weights and costs by weight in its own unit, that of what went in: nobody buys by the gram.
fn test(kitchen: &Kitchen, result: &TestResult<'_>, test: &Test) -> Value {
    let row = test.runs.first().and_then(|run| kitchen.entries.tests.get(run.row));
    let weight = row.and_then(|row| row.weight.given());
    let (unit, grams) = weight.map_or(("g".to_owned(), Decimal::ONE), |weight| (weight.unit.name(), weight.unit_grams));
    let count = |figure: Figure| figure.0.checked_div(grams).map(Figure);
    let cost = |figure: Figure| figure.0.checked_mul(grams).map(Figure);
    let parts = result
        .parts
        .iter()
        .map(|part| json!({ "weight": count(part.weight_g), "cost": part.cost_per_g.and_then(cost) }));
    let parts: Vec<Value> = parts.collect();
    let loss = result.loss_g.filter(|loss| loss.0 > Decimal::ZERO).and_then(count);
    let told = json!({ "unit": unit, "loss": loss, "parts": parts });
    let mut value = json!(result);
    if let Some(object) = value.as_object_mut() {
        object.insert("told".to_owned(), told);
    }
    value
}

fn recipe(one: &RecipeResult<'_>, cost: Option<&RecipeCost>) -> Value {
    json!({
        "name": one.name, "batch_cost": one.batch_cost, "portion_cost": one.portion_cost, "makes": one.makes,
        "portions": one.portions, "uncosted_lines": one.uncosted_lines, "food_cost": cost.map(|cost| Figure(cost.food)),
    })
}

/// The problems that are shown, the gravest first, and how many more there are of a kind.
fn shown(problems: &[Problem]) -> (Vec<Problem>, BTreeMap<String, usize>) {
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    let mut shown: Vec<Problem> = Vec::new();
    for problem in problems {
        let count = counts.entry(problem.code.to_string()).or_default();
        *count = count.saturating_add(1);
        if *count <= SHOWN {
            shown.push(problem.clone());
        }
    }
    shown.sort_by_key(Problem::severity);
    let more = counts.into_iter().filter(|(_, count)| *count > SHOWN);
    (shown, more.map(|(code, count)| (code, count.saturating_sub(SHOWN))).collect())
}
