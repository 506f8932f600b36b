//! The model beside the results: every figure, and how they differ.

use num_bigint::BigInt;
use serde_json::Value;

use super::costing::{Costs, Known, LineCost};
use super::fraction::{Fraction, decimal, whole};

/// What a kitchen's comparison came to.
#[derive(Default)]
pub struct Compared {
    /// How many figures were held against each other.
    pub figures: usize,
    /// Those that differ: path, the model's, the results'.
    pub differences: Vec<String>,
}

/// Within 1e-20, of its size where that is above 1: there a decimal of 28 digits has no 20 behind the point.
fn same(model: &Fraction, found: &Fraction) -> bool {
    let zero = whole(0);
    let abs = |x: Fraction| if x < zero { -x } else { x };
    let size = abs(model.clone()).max(whole(1));
    abs(model - found) * Fraction::from_integer(BigInt::from(10).pow(20)) <= size
}

impl Compared {
    fn fail(&mut self, path: &str, model: &str, found: &Value) {
        self.differences.push(format!("{path}: model {model}, found {found}"));
    }

    /// A figure; none means that the results must have none either.
    fn figure(&mut self, path: &str, model: Option<&Fraction>, found: &Value) {
        self.figures += 1;
        let number = found.as_str().map(decimal);
        match (model, &number) {
            (None, None) => {}
            (Some(model), Some(number)) if same(model, number) => {}
            (Some(model), _) => self.fail(path, &shown(model), found),
            (None, _) => self.fail(path, "none", found),
        }
    }

    fn text(&mut self, path: &str, model: Option<&str>, found: &Value) {
        self.figures += 1;
        if found.as_str() != model {
            self.fail(path, model.unwrap_or("none"), found);
        }
    }
}

/// A fraction as a decimal to read.
fn shown(x: &Fraction) -> String {
    let scale = BigInt::from(10).pow(24);
    let scaled = (x * Fraction::from_integer(scale)).round().to_integer().to_string();
    let (sign, digits) = scaled.strip_prefix('-').map_or(("", scaled.as_str()), |rest| ("-", rest));
    let digits = format!("{digits:0>25}");
    let (before, after) = digits.split_at(digits.len() - 24);
    format!("{sign}{before}.{after}")
}

fn known<T>(known: &Known<T>) -> Option<&T> {
    known.as_ref().ok()
}

fn named<'a>(json: &'a Value, list: &str, name: &str) -> &'a Value {
    let found = json[list].as_array().and_then(|all| all.iter().find(|one| one["name"] == name));
    found.unwrap_or(&Value::Null)
}

/// Holds the JSON of the results against the model.
pub fn compare(costs: &Costs<'_>, json: &Value) -> Compared {
    let mut all = Compared::default();
    tests(&mut all, costs, json);
    recipes(&mut all, costs, json);
    dishes(&mut all, costs, json);
    all
}

fn tests(all: &mut Compared, costs: &Costs<'_>, json: &Value) {
    let hundred = whole(100);
    for (test, cost) in costs.kitchen.breakdowns.iter().zip(&costs.tests) {
        let found = named(json, "tests", &test.name);
        let path = &test.name;
        let shares = known(&cost.cost);
        all.figure(&format!("{path}/weight"), Some(&cost.weight), &found["weight_g"]);
        all.figure(&format!("{path}/cost"), shares.map(|shares| &shares.all), &found["cost"]);
        // Of a test that cannot be costed nothing else need be known.
        if shares.is_none() {
            continue;
        }
        all.figure(&format!("{path}/loss"), Some(&cost.loss), &found["loss_g"]);
        for (at, part) in test.parts.iter().enumerate() {
            let path = format!("{path}/{}", part.name);
            let found = named(found, "parts", &part.name);
            let weight = super::costing::weight(part);
            let yields = &weight / &cost.weight * &hundred;
            all.figure(&format!("{path}/weight"), Some(&weight), &found["weight_g"]);
            all.figure(&format!("{path}/yield"), Some(&yields), &found["yield_percent"]);
            let cost = shares.map(|shares| &shares.parts[at]);
            all.figure(&format!("{path}/cost"), cost, &found["cost"]);
            let per_gram = cost.map(|cost| cost / &weight);
            all.figure(&format!("{path}/cost_per_g"), per_gram.as_ref(), &found["cost_per_g"]);
            let input = shares.map(|shares| &shares.input).filter(|input| **input != whole(0));
            let factor = per_gram.zip(input).map(|(per_gram, input)| per_gram / input);
            all.figure(&format!("{path}/cost_factor"), factor.as_ref(), &found["cost_factor"]);
            // A part without a share bears nothing, to the last digit.
            if cost.is_some_and(|cost| *cost == whole(0)) && found["cost"] != "0" {
                all.fail(&format!("{path}/cost"), "exactly 0", &found["cost"]);
            }
        }
    }
}

fn recipes(all: &mut Compared, costs: &Costs<'_>, json: &Value) {
    for (recipe, cost) in costs.kitchen.recipes.iter().zip(&costs.recipes) {
        let found = named(json, "recipes", &recipe.name);
        let path = &recipe.name;
        let lines = found["lines"].as_array().map_or(&[][..], Vec::as_slice);
        if lines.len() != recipe.lines.len() {
            all.fail(path, &format!("{} lines", recipe.lines.len()), &found["lines"]);
            continue;
        }
        all.figure(&format!("{path}/food_cost"), known(&cost.food), &found["food_cost"]);
        all.figure(&format!("{path}/batch_cost"), known(&cost.batch), &found["batch_cost"]);
        // Of a recipe with a line that cannot be costed nothing else need be known.
        let (Ok(batch), Ok(_)) = (&cost.batch, &cost.food) else { continue };
        for (at, line) in cost.lines.iter().enumerate() {
            let line = line.as_ref().ok().and_then(Option::as_ref);
            one_line(all, &format!("{path}/line {}", at + 1), line, &lines[at]);
        }
        // What is neither made nor portioned is one batch: whether that is a portion is nobody's question.
        let Some(portions) = &cost.portions else { continue };
        all.figure(&format!("{path}/portions"), Some(portions), &found["portions"]);
        all.figure(&format!("{path}/portion_cost"), Some(&(batch / portions)), &found["portion_cost"]);
    }
}

fn one_line(all: &mut Compared, path: &str, cost: Option<&LineCost>, found: &Value) {
    all.figure(&format!("{path}/cost"), cost.map(|cost| &cost.cost), &found["cost"]);
    let Some(LineCost { base: Some(base), yields, .. }) = cost else { return };
    all.text(&format!("{path}/base_unit"), Some(base.dim.base()), &found["base_unit"]);
    all.figure(&format!("{path}/base_qty"), Some(&base.qty), &found["base_qty"]);
    all.figure(&format!("{path}/unit_cost"), Some(&base.unit_cost), &found["unit_cost"]);
    if let Some((yields, from)) = yields {
        let percent = yields * whole(100);
        all.figure(&format!("{path}/yield_percent"), Some(&percent), &found["yield_percent"]);
        all.text(&format!("{path}/yield_from"), Some(from.text()), &found["yield_from"]);
    }
}

fn dishes(all: &mut Compared, costs: &Costs<'_>, json: &Value) {
    let count = json["dishes"].as_array().map_or(0, Vec::len);
    if count != costs.dishes.len() {
        all.fail("dishes", &costs.dishes.len().to_string(), &json["dishes"]);
    }
    for dish in &costs.dishes {
        let found = named(json, "dishes", &dish.name);
        let path = &dish.name;
        all.figure(&format!("{path}/portion_cost"), known(&dish.portion_cost), &found["portion_cost"]);
        all.figure(&format!("{path}/menu_price"), dish.menu_price.as_ref(), &found["menu_price"]);
        all.figure(&format!("{path}/target"), dish.target_percent.as_ref(), &found["target_percent"]);
        all.figure(&format!("{path}/food_cost_percent"), dish.food_cost_percent.as_ref(), &found["food_cost_percent"]);
        all.figure(&format!("{path}/price_at_target"), dish.price_at_target.as_ref(), &found["price_at_target"]);
        all.figure(&format!("{path}/margin"), dish.margin.as_ref(), &found["margin"]);
    }
}
