//! The Summary of an edited workbook, as the spreadsheet engine figures it, held against what costing the edited book says.

use parings::Reading;
use parings::costing::{Costing, LineCost};
use parings::results::target_status::TargetStatus;

use super::played::Played;
use crate::recalc::{Original, Value};
use crate::support::options;
use crate::workbook::STAMP;

/// What an edit came to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Verdict {
    /// Every figure is what costing says.
    Same,
    /// Some figures are not known, and say so.
    NotKnown,
    /// A figure is wrong, or an error: the cell, what stands there, and what costing says.
    Wrong(String),
}

/// The verdict; `None` where the edited book cannot be read at all. Where errors are looked for on one sheet alone, what
/// stood in a column that was taken out is missed where it was read, and there anybody sees it.
pub fn judged_on(played: &Played, errors_on: Option<&str>) -> Option<Verdict> {
    if let Some(error) = played.error(errors_on) {
        return Some(Verdict::Wrong(error));
    }
    let saved = played.saved();
    let sources = [parings::Source { name: "edited.xlsx", bytes: &saved }];
    let reading = parings::read(&sources, options()).ok()?;
    let costing = parings::cost(&reading.kitchen, &parings::Scenario::of(&reading.kitchen));
    let (last, _) = played.extent("Summary");
    let header = (1..=last).find(|row| played.text("Summary", *row, 1) == "Dish")?;
    let (mut verdict, mut seen) = (Verdict::Same, 0);
    for row in header + 1..=last {
        let name = played.text("Summary", row, 1);
        if name.starts_with("Pale cells") {
            break;
        }
        if name.is_empty() {
            continue;
        }
        let found = reading.kitchen.dishes.iter().position(|dish| dish.name == name);
        let dish = found.map(|at| (&reading.kitchen.dishes[at], costing.dishes[at].as_ref()));
        let cost = dish.and_then(|(_, cost)| cost);
        let expected = [
            cost.map(|cost| cost.portion_cost),
            dish.and_then(|(dish, _)| dish.menu_price),
            cost.and_then(|cost| cost.food_cost),
            dish.and_then(|(dish, _)| dish.target),
            cost.and_then(|cost| cost.price_at_target),
            cost.and_then(|cost| cost.margin),
        ];
        let standing = played.value("Summary", row, 8);
        let mut known = true;
        for (column, expected) in (2..).zip(expected) {
            let value = played.value("Summary", row, column);
            let expected = expected.map(|figure| Value::Number(figure.to_string().parse().unwrap()));
            match (&value, &expected) {
                (Value::Error(_), _) | (Value::Bool(_), _) | (Value::Number(_), None) => {
                    return Some(Verdict::Wrong(format!(
                        "{name}, column {column}: {value}, costing says {expected:?}"
                    )));
                }
                (Value::Number(_), Some(expected)) if !value.agrees(expected) => {
                    return Some(Verdict::Wrong(format!("{name}, column {column}: {value}, costing says {expected}")));
                }
                (Value::Empty | Value::Text(_), Some(_)) => known = false,
                _ => {}
            }
        }
        let words = dish.map_or(TargetStatus::NotCosted, |(dish, cost)| TargetStatus::of(dish, cost)).words();
        let boasts = [TargetStatus::WithinTarget, TargetStatus::OverTarget].map(TargetStatus::words);
        let said = if let Value::Text(said) = &standing { said.as_str() } else { "" };
        if (said != words && boasts.contains(&said)) || matches!(standing, Value::Error(_) | Value::Number(_)) {
            return Some(Verdict::Wrong(format!("{name} stands as {standing}, costing says {words}")));
        }
        if !known || said != words {
            verdict = Verdict::NotKnown;
        }
        seen += 1;
    }
    if let Some(wrong) = uncosted(played, &reading, &costing) {
        return Some(Verdict::Wrong(wrong));
    }
    if let Some(wrong) = ranking(played, &reading, &costing).or_else(|| dearest(played, &reading, &costing)) {
        return Some(Verdict::Wrong(wrong));
    }
    (seen > 0).then_some(verdict)
}

/// Figures of the sheet Trim that differ from those of the edited book costed again, where its rows are the same.
pub fn trim_differs(played: &Played) -> Option<String> {
    if !played.sheets().iter().any(|sheet| sheet == "Trim") {
        return None;
    }
    let saved = played.saved();
    let sources = [parings::Source { name: "edited.xlsx", bytes: &saved }];
    let reading = parings::read(&sources, options()).ok()?;
    let costing = parings::cost(&reading.kitchen, &parings::Scenario::of(&reading.kitchen));
    let anew = Played::open(&parings::write(&reading, &costing, STAMP).unwrap());
    let (last, wide) = played.extent("Trim");
    if !anew.sheets().iter().any(|sheet| sheet == "Trim") || anew.extent("Trim") != (last, wide) {
        return None;
    }
    let mut cells = (1..=last).flat_map(|row| (1..=wide).map(move |column| (row, column)));
    cells.find_map(|(row, column)| {
        let [here, there] = [played, &anew].map(|played| played.value("Trim", row, column));
        let known = matches!((&here, &there), (Value::Number(_), Value::Number(_)));
        (known && !here.agrees(&there))
            .then(|| format!("Trim, row {row}, column {column}: {here}, costing says {there}"))
    })
}

/// A number of lines without cost that is not what costing counts.
fn uncosted(played: &Played, reading: &Reading, costing: &Costing) -> Option<String> {
    let said = played.text("Summary", 4, 6);
    let Ok(said) = said.strip_prefix("Lines not costed: ")?.parse::<usize>() else { return None };
    let costed: Vec<usize> = costing.recipes.iter().flatten().map(|cost| cost.uncosted_lines()).collect();
    let is_whole = costed.len() == reading.kitchen.recipes.len();
    let counted: usize = costed.iter().sum();
    (is_whole && counted != said).then(|| format!("{said} lines are said not to be costed, costing says {counted}"))
}

/// A row of the ranking whose figure is not its dish's.
fn ranking(played: &Played, reading: &Reading, costing: &Costing) -> Option<String> {
    let (last, _) = played.extent("Summary");
    let header = (1..=last).find(|row| played.text("Summary", *row, 1) == "From the highest food cost down")?;
    let names = (header + 1..=last).map(|row| (row, played.text("Summary", row, 1)));
    for (row, name) in names.take_while(|(_, name)| !name.is_empty()) {
        let Value::Number(_) = played.value("Summary", row, 4) else { continue };
        let dish = reading.kitchen.dishes.iter().position(|dish| dish.name == name);
        let food_cost = dish.and_then(|at| costing.dishes[at].as_ref()?.food_cost);
        let expected = food_cost.map(|figure| Value::Number(figure.to_string().parse().unwrap()));
        if !expected.as_ref().is_some_and(|expected| played.value("Summary", row, 4).agrees(expected)) {
            return Some(format!(
                "{name} is ranked with {}, costing says {expected:?}",
                played.value("Summary", row, 4)
            ));
        }
    }
    None
}

/// A share of the dearest dish that no line of that ingredient has.
fn dearest(played: &Played, reading: &Reading, costing: &Costing) -> Option<String> {
    let (last, _) = played.extent("Summary");
    let (title, named) = (1..=last).find_map(|row| {
        let named = played.text("Summary", row, 6).strip_prefix("The dearest: ").map(str::to_owned);
        Some((row, named?))
    })?;
    let dish = reading.kitchen.dishes.iter().find(|dish| dish.name == named)?;
    let (entry, cost) = (reading.kitchen.recipe(dish.recipe?)?.entry, costing.recipe(dish.recipe?)?);
    let lines = &reading.kitchen.entries.recipes[entry].lines;
    let names = (title + 2..=last).map(|row| (row, played.text("Summary", row, 6)));
    for (row, name) in names.take_while(|(_, name)| !name.is_empty() && name != "all others") {
        let share = played.value("Summary", row, 8);
        let is_of = |(line, cost_of): (&parings::kitchen::recipe::LineEntry, &LineCost)| {
            let LineCost::Costed { cost: money, .. } = cost_of else { return false };
            let expected = (*money / cost.food).to_string().parse().unwrap();
            line.item == name && share.agrees(&Value::Number(expected))
        };
        if matches!(share, Value::Number(_)) && !lines.iter().zip(&cost.lines).any(is_of) {
            return Some(format!("{name} is {share} of {named}, and no line of it is"));
        }
    }
    None
}

/// Whether every number of the Summary is what it was, or is not there any more.
pub fn moves_nothing(original: &Original, played: &Played) -> bool {
    let before = Played::of(original);
    let (last, wide) = before.extent("Summary");
    (1..=last).flat_map(|row| (1..=wide).map(move |column| (row, column))).all(|(row, column)| {
        let (was, is) = (before.value("Summary", row, column), played.value("Summary", row, column));
        !matches!(is, Value::Number(_)) || was.agrees(&is)
    })
}
