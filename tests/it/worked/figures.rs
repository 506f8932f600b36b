//! Figures that an example may expect: the closed list, and where each stands in what a book costs to.

use parings::analysis::{Way, charging_methods};
use parings::{Costing, Reading};
use rust_decimal::{Decimal, RoundingStrategy};
use serde_json::Value;

use super::example::Row;
use crate::support::{cost_bytes, json_of};
use crate::workbook::STAMP;

/// A figure of the list.
pub struct Figure {
    /// How an example names it.
    pub name: &'static str,
    from: From,
}

/// Where a figure is from.
enum From {
    /// This key of the JSON.
    Key(&'static str),
    /// This key, which is by the gram, for so many grams.
    PerGram(&'static str, &'static str),
    /// This key, which is in grams, told in units of so many grams.
    InGrams(&'static str, &'static str),
    /// One key in % of another.
    Percent(&'static str, &'static str),
    /// What a part bears under a way of charging.
    Under(Way),
}

const fn key(name: &'static str, key: &'static str) -> Figure {
    Figure { name, from: From::Key(key) }
}

const fn figure(name: &'static str, from: From) -> Figure {
    Figure { name, from }
}

// The pound and the ounce by definition (1959), not by our own list of units.
const LB: &str = "453.59237";
const OZ: &str = "28.349523125";
const KG: &str = "1000";

/// Of what, and which figures it has.
pub const FIGURES: &[(&str, &[Figure])] = &[
    (
        "recipe",
        &[
            key("food cost", "food_cost"),
            key("batch cost", "batch_cost"),
            key("portions", "portions"),
            key("portion cost", "portion_cost"),
            key("uncosted lines", "uncosted_lines"),
        ],
    ),
    (
        "dish",
        &[
            key("portion cost", "portion_cost"),
            key("menu price", "menu_price"),
            key("food cost %", "food_cost_percent"),
            key("target %", "target_percent"),
            key("price at target", "price_at_target"),
            key("margin", "margin"),
        ],
    ),
    (
        "line",
        &[
            key("cost", "cost"),
            key("unit cost", "unit_cost"),
            key("source", "source"),
            key("basis", "basis"),
            key("yield %", "yield_percent"),
            key("yield from", "yield_from"),
            key("measure from", "measure_from"),
        ],
    ),
    (
        "test",
        &[
            key("cost", "cost"),
            key("item", "item"),
            key("runs", "runs"),
            figure("weight in lb", From::InGrams("weight_g", LB)),
            figure("weight in oz", From::InGrams("weight_g", OZ)),
            figure("weight in kg", From::InGrams("weight_g", KG)),
            figure("loss in lb", From::InGrams("loss_g", LB)),
            figure("loss in oz", From::InGrams("loss_g", OZ)),
            figure("loss in kg", From::InGrams("loss_g", KG)),
            figure("loss %", From::Percent("loss_g", "weight_g")),
        ],
    ),
    (
        "part",
        &[
            key("yield %", "yield_percent"),
            key("role", "role"),
            key("cost", "cost"),
            key("cost factor", "cost_factor"),
            figure("cost per lb", From::PerGram("cost_per_g", LB)),
            figure("cost per oz", From::PerGram("cost_per_g", OZ)),
            figure("cost per kg", From::PerGram("cost_per_g", KG)),
            figure("weight in lb", From::InGrams("weight_g", LB)),
            figure("weight in oz", From::InGrams("weight_g", OZ)),
            figure("weight in kg", From::InGrams("weight_g", KG)),
            figure("cost if free", From::Under(Way::Free)),
            figure("cost if by weight", From::Under(Way::Weight)),
            figure("cost if by sales value", From::Under(Way::SalesValue)),
            figure("cost if net realizable value", From::Under(Way::NetRealizableValue)),
        ],
    ),
    ("problem", &[key("severity", "severity")]),
];

/// A figure as found.
enum Found {
    Number(Decimal),
    Word(String),
    NotKnown,
}

impl Found {
    fn of(value: &Value) -> Self {
        match value {
            Value::Null => Found::NotKnown,
            Value::String(text) => text.parse().map_or_else(|_| Found::Word(text.clone()), Found::Number),
            other => Found::of(&Value::String(other.to_string())),
        }
    }

    /// A number reckoned here, without the last digits of its quotients, which would tip a half.
    fn reckoned(number: Option<Decimal>) -> Self {
        number.map_or(Found::NotKnown, |number| Found::Number(half_up(number, 20)))
    }
}

/// What a book costs to.
pub struct Outcome {
    reading: Reading,
    costing: Costing,
    json: Value,
}

impl Outcome {
    /// Costs a book of csv text.
    pub fn of(book: &str) -> Self {
        let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
        let json = json_of(&reading, &costing);
        Outcome { reading, costing, json }
    }

    /// Its costed workbook.
    pub fn workbook(&self) -> Vec<u8> {
        parings::write(&self.reading, &self.costing, STAMP).unwrap()
    }

    /// The errors of the book that are not expected.
    pub fn errors_beside(&self, expected: &[Row]) -> impl Iterator<Item = String> {
        let problems = self.json["problems"].as_array().into_iter().flatten();
        let listed = |code: &Value| expected.iter().any(|row| row.of == "problem" && row.name == *code);
        problems.filter(move |one| one["severity"] == "error" && !listed(&one["code"])).map(|one| {
            let [code, cell, message, help] = ["code", "cell", "message", "help"].map(|key| one[key].as_str().unwrap());
            format!("{code} at {cell} of the csv: {message}. {help}")
        })
    }

    /// Whether a figure is as expected; else what there is instead.
    pub fn compare(&self, row: &Row) -> Result<(), String> {
        let expected = row.expected.as_str();
        let exact = expected.strip_prefix("exactly ");
        let wanted: Option<Decimal> = exact.unwrap_or(expected).parse().ok();
        let found = match (self.find(row)?, wanted) {
            (Found::Number(found), Some(wanted)) => {
                let found = if exact.is_some() { found } else { half_up(found, wanted.scale()) };
                if found == wanted {
                    return Ok(());
                }
                found.to_string()
            }
            (Found::Number(found), None) => found.normalize().to_string(),
            (Found::Word(found), _) if found == expected => return Ok(()),
            (Found::Word(found), _) => found,
            (Found::NotKnown, _) if expected == "not known" => return Ok(()),
            (Found::NotKnown, _) => "not known".to_owned(),
        };
        Err(format!("expected {expected}, it is {found}"))
    }

    fn find(&self, row: &Row) -> Result<Found, String> {
        let Row { of, name, figure, .. } = row;
        let figures = FIGURES.iter().find(|(known, _)| known == of);
        let all = || FIGURES.iter().map(|(known, _)| *known).collect::<Vec<_>>().join(", ");
        let (_, figures) = figures.ok_or_else(|| format!("“{of}” is none of {}", all()))?;
        let all = || figures.iter().map(|known| known.name).collect::<Vec<_>>().join(", ");
        let known = figures.iter().find(|known| known.name == figure);
        let known = known.ok_or_else(|| format!("a {of} has no figure “{figure}”; it has {}", all()))?;
        let one = self.named(of, name)?;
        let number = |key: &str| one[key].as_str().and_then(|text| text.parse::<Decimal>().ok());
        Ok(match known.from {
            From::Key(key) => Found::of(&one[key]),
            From::PerGram(key, grams) => Found::reckoned(number(key).map(|rate| rate * decimal(grams))),
            From::InGrams(key, grams) => Found::reckoned(number(key).map(|weight| weight / decimal(grams))),
            From::Percent(key, of) => Found::reckoned(
                number(key).zip(number(of)).and_then(|(part, all)| (part * Decimal::ONE_HUNDRED).checked_div(all)),
            ),
            From::Under(way) => self.under(way, name),
        })
    }

    /// The recipe, dish, line, test, part or problem of this name. A line is `Recipe > Item`; a part may be told by its test.
    fn named(&self, of: &str, name: &str) -> Result<&Value, String> {
        let (list, inner, key) = match of {
            "line" => ("recipes", Some("lines"), "item"),
            "part" => ("tests", Some("parts"), "name"),
            "test" => ("tests", None, "name"),
            "dish" => ("dishes", None, "name"),
            "problem" => ("problems", None, "code"),
            _ => ("recipes", None, "name"),
        };
        let outer = || self.json[list].as_array().into_iter().flatten();
        let all: Vec<(&str, &Value)> = match inner {
            None => outer().map(|one| ("", one)).collect(),
            Some(inner) => outer()
                .flat_map(|one| {
                    let within = one["name"].as_str().unwrap_or_default();
                    one[inner].as_array().into_iter().flatten().map(move |one| (within, one))
                })
                .collect(),
        };
        let (within, wanted) = name.split_once(" > ").map_or((None, name), |(within, name)| (Some(within), name));
        let mut found =
            all.iter().filter(|(outer, one)| one[key] == wanted && within.is_none_or(|within| within == *outer));
        let there = || {
            let names: Vec<String> = all.iter().map(|(_, one)| format!("“{}”", one[key].as_str().unwrap())).collect();
            if names.is_empty() { String::new() } else { format!("; there are {}", names.join(", ")) }
        };
        match (found.next(), found.next()) {
            (None, _) => Err(format!("there is no {of} “{name}”{}", there())),
            (Some(_), Some(_)) if of != "problem" => {
                Err(format!("several are called so: write the {} before it and “ > ”", list.trim_end_matches('s')))
            }
            (Some((_, one)), _) => Ok(one),
        }
    }

    /// What a part bears under a way; the test that has it is costed under every way.
    fn under(&self, way: Way, name: &str) -> Found {
        let name = name.split_once(" > ").map_or(name, |(_, name)| name);
        let kitchen = &self.reading.kitchen;
        let place = kitchen
            .test_ids()
            .zip(&kitchen.tests)
            .find_map(|(id, test)| Some((id, test.parts.iter().position(|part| part.name == name)?)));
        let Some((id, at)) = place else { return Found::NotKnown };
        let ways = charging_methods::of(kitchen, &self.costing, id);
        let under = ways.and_then(|ways| ways.ways.into_iter().find(|(known, _)| *known == way));
        under.and_then(|(_, under)| under.ok()).map_or(Found::NotKnown, |under| Found::Number(under.parts[at].cost))
    }
}

fn decimal(text: &str) -> Decimal {
    text.parse().unwrap()
}

/// Half up (away from zero), as books print.
fn half_up(number: Decimal, places: u32) -> Decimal {
    number.round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero)
}
