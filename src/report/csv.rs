//! Tidy tables as comma-separated text: the dishes of a costing, the problems of a book, what codes mean.
//!
//! Figures are plain decimal strings in full precision, as in the JSON; what is not known is empty. A text cell that a
//! spreadsheet program would run as a formula gets an apostrophe before it.

mod reprice;
mod trim;

use std::borrow::Cow;

use ::csv::Writer;

use super::standing::Standing;
use crate::costing::{Costing, DishCost};
use crate::kitchen::menu::Dish;
use crate::kitchen::{Kitchen, Reference};
use crate::number::{Decimal, exact, plain};
use crate::problem::{Explanation, Problem};

pub use reprice::reprice;
pub(super) use trim::side;
pub use trim::{sweeps, ways};

/// The columns of the dishes.
const DISH_COLUMNS: [&str; 13] = [
    "dish",
    "recipe",
    "portion_qty",
    "portion_unit",
    "portion_cost",
    "menu_price",
    "food_cost_percent",
    "target_percent",
    "price_at_target",
    "margin",
    "standing",
    "currency",
    "as_of",
];

/// The columns of the problems.
const PROBLEM_COLUMNS: [&str; 7] = ["code", "severity", "file", "sheet", "cell", "message", "help"];

/// The columns of the explanations.
const EXPLANATION_COLUMNS: [&str; 14] = [
    "code",
    "severity",
    "group",
    "title",
    "means",
    "matters",
    "example",
    "cell",
    "message",
    "help",
    "instead",
    "not_sure",
    "list",
    "list_instead",
];

/// One row per dish, in book order.
pub fn dishes(kitchen: &Kitchen, costing: &Costing) -> String {
    let as_of = costing.scenario.date.to_string();
    let rows = kitchen.dishes.iter().zip(&costing.dishes);
    table(&DISH_COLUMNS, rows.map(|(dish, cost)| dish_row(kitchen, dish, cost.as_ref(), &as_of)))
}

/// One row per problem, in the order given.
pub fn problems(problems: &[Problem]) -> String {
    let row = |problem: &Problem| {
        let cell = problem.place.cell_ref().map(|cell| cell.to_string()).unwrap_or_default();
        [
            problem.code.name().to_owned(),
            problem.severity().to_string(),
            text(problem.place.file_name()),
            text(problem.place.sheet_name()),
            cell,
            text(&problem.message()),
            text(&problem.help),
        ]
    };
    table(&PROBLEM_COLUMNS, problems.iter().map(row))
}

/// One row per code, in the order given. Examples are csv text within their cells.
pub fn explanations(explanations: &[&Explanation]) -> String {
    let row = |one: &&Explanation| {
        [
            one.code.name().to_owned(),
            one.code.severity().to_string(),
            one.group.to_owned(),
            one.code.title().to_owned(),
            text(&one.means),
            text(&one.matters),
            text(&one.example),
            one.problem.place.within_file(),
            text(&one.problem.message()),
            text(&one.problem.help),
            text(&one.instead),
            text(one.not_sure.as_deref().unwrap_or_default()),
            text(one.list.as_deref().unwrap_or_default()),
            text(one.list_instead.as_deref().unwrap_or_default()),
        ]
    };
    table(&EXPLANATION_COLUMNS, explanations.iter().map(row))
}

fn dish_row(kitchen: &Kitchen, dish: &Dish, cost: Option<&DishCost>, as_of: &str) -> [String; 13] {
    let recipe = dish.recipe.and_then(|id| kitchen.recipe(id));
    let portion = dish.portion.as_ref().or_else(|| recipe.and_then(|recipe| recipe.portion.as_ref()));
    let (qty, unit) = match portion {
        Some(portion) => (plain(portion.amount), text(&portion.unit.name())),
        None => ("1".to_owned(), "portion".to_owned()),
    };
    [
        text(&dish.name),
        recipe.map(|recipe| text(&recipe.name)).unwrap_or_default(),
        qty,
        unit,
        number(cost.map(|cost| cost.portion_cost)),
        number(dish.menu_price),
        percent(cost.and_then(|cost| cost.food_cost)),
        percent(dish.target),
        number(cost.and_then(|cost| cost.price_at_target)),
        number(cost.and_then(|cost| cost.margin)),
        Standing::of(dish, cost).words().to_owned(),
        text(&kitchen.settings.currency),
        as_of.to_owned(),
    ]
}

fn number(figure: Option<Decimal>) -> String {
    figure.map(plain).unwrap_or_default()
}

fn percent(fraction: Option<Decimal>) -> String {
    number(fraction.and_then(|fraction| exact::mul(fraction, Decimal::ONE_HUNDRED).ok()))
}

/// A text cell that no spreadsheet program takes for a formula.
fn text(cell: &str) -> String {
    safe(cell).into_owned()
}

/// Prefixed where a spreadsheet program would start a formula: the usual starts, and their full-width forms.
fn safe(cell: &str) -> Cow<'_, str> {
    match cell.chars().next() {
        Some('=' | '+' | '-' | '@' | '\t' | '\r' | '\n' | '＝' | '＋' | '－' | '＠') => {
            Cow::Owned(format!("'{cell}"))
        }
        _ => Cow::Borrowed(cell),
    }
}

/// One row per food.
pub fn foods(foods: &[Reference]) -> String {
    let row = |reference: &Reference| {
        let food = reference.food()?;
        let refuse = food.refuse();
        let percent = refuse.map(|refuse| plain(refuse.percent)).unwrap_or_default();
        let what = refuse.map_or("", |refuse| refuse.what);
        Some([text(reference.name()), food.number().to_owned(), text(food.description()), percent, text(what)])
    };
    table(&["name", "sr28", "description", "refuse_percent", "refuse"], foods.iter().filter_map(row))
}

/// One row per item, as it may be pasted: the item and the likeliest food.
pub fn proposals(proposed: &[(String, Vec<Reference>)]) -> String {
    let row = |(item, foods): &(String, Vec<Reference>)| {
        [text(item), foods.first().map(|food| text(food.name())).unwrap_or_default()]
    };
    table(&["Item", "Reference food"], proposed.iter().map(row))
}

fn table<const N: usize>(header: &[&str; N], rows: impl Iterator<Item = [String; N]>) -> String {
    let mut writer = Writer::from_writer(Vec::new());
    // Writing to memory fails only for rows of unequal length, which the types rule out.
    let _ = writer.write_record(header);
    for row in rows {
        let _ = writer.write_record(&row);
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_text_starts_a_formula() {
        for (cell, written) in [
            ("=SUM(A1)", "'=SUM(A1)"),
            ("+1", "'+1"),
            ("-2", "'-2"),
            ("@home", "'@home"),
            ("\tx", "'\tx"),
            ("\rx", "'\rx"),
            ("＝1", "'＝1"),
            ("Soup = good", "Soup = good"),
            ("", ""),
        ] {
            assert_eq!(safe(cell), written);
        }
    }

    #[test]
    fn figures_keep_their_sign() {
        assert_eq!(number(Some(Decimal::new(-150, 2))), "-1.5");
        assert_eq!(number(None), "");
    }
}
