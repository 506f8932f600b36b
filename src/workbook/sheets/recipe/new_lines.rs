//! Lines of a card that were not costed: put in, copied, or named anew, whatever was taken out beside them.

use indexmap::IndexMap;

use crate::kitchen::recipe::RecipeEntry;
use crate::schema::{Column, Label};
use crate::workbook::cells::formula::{NOT_KNOWN, Ref, in_quotes, literal};
use crate::workbook::layout::recipe::{RecipeLayout, typed_lines};

/// What is said where the card was changed in a way that wants costing again.
const CHANGED: &str = "the card was changed: cost again";
/// What is said behind their number.
const NEW: &str = " new, not costed yet: cost again";

/// The longest formula that asks for every ingredient, in bytes; of more lines than it takes only the number is held
/// against what it was.
const LONGEST: usize = 7_000;

/// What `counted` says as long as no line is new, else how many are.
pub(super) fn unless_new(layout: &RecipeLayout, entry: &RecipeEntry, counted: &str) -> String {
    let (items, costs) = (layout.ingredients(), layout.line_costs());
    // Besides the lines the ranges hold the headers, and one the label of the first total.
    let without_cost = format!("COUNTA({items})-COUNTA({costs})-1");
    let other = match known(entry, &items) {
        Some(known) => format!("COUNTA({items})-2<>{known}"),
        None => format!("COUNTA({items})>{}", entry.lines.len().saturating_add(2)),
    };
    // A line whose quantity is not known any more, and was not cleared, may have become one without cost.
    let (amounts, unknown) = (layout.base_quantities(), in_quotes(NOT_KNOWN));
    let mut other_card = elsewhere(layout, entry);
    other_card.push(format!("SUMPRODUCT(({amounts}={unknown})*({costs}={unknown}))>0"));
    let new = format!("IF(OR({other},{without_cost}<>0),MAX(1,{without_cost})&\"{NEW}\",{counted})");
    format!("IF(OR({}),\"{CHANGED}\",{new})", other_card.join(","))
}

/// That what is typed beside a label stands no more where it stood, that the label says another word, or that it is another
/// recipe's card.
fn elsewhere(layout: &RecipeLayout, entry: &RecipeEntry) -> Vec<String> {
    let filled = |label: &Label| !entry.input.typed(label.column()).is_blank();
    let cells =
        FIGURED_BY.iter().filter(|label| filled(label)).filter_map(|label| Some((label, layout.label(*label)?)));
    let mut other = Vec::new();
    let mut first: Option<String> = None;
    for (label, cell) in cells {
        let (at, word) = (cell.cell(), Ref { column: 0, ..cell }.cell());
        other.push(format!("{word}<>\"{}\",ROW({at})<>ROW({word})", label.text()));
        match &first {
            Some(first) => other.push(format!("COLUMN({at})<>COLUMN({first})")),
            None => first = Some(at),
        }
    }
    let named = layout.label(Label::Recipe).zip(entry.input.typed(Label::Recipe.column()).words());
    other.extend(named.and_then(|(cell, name)| literal(name).map(|name| format!("{}<>{name}", cell.cell()))));
    other
}

/// What figures and the name of a dish hang on.
const FIGURED_BY: [Label; 10] = [
    Label::Recipe,
    Label::Makes,
    Label::BatchYield,
    Label::Portions,
    Label::Portion,
    Label::MenuPrice,
    Label::Target,
    Label::QFactor,
    Label::SpiceFactor,
    Label::ServingLoss,
];

/// How many of the lines are among those that were costed: each ingredient counts as often as it stood there, so that one
/// that was copied or named anew is one too many. `None` where one is nothing that a formula may hold.
fn known(entry: &RecipeEntry, items: &str) -> Option<String> {
    let mut times: IndexMap<String, (String, usize)> = IndexMap::new();
    for typed in typed_lines(entry).map(|line| line.typed(Column::Item)).filter(|typed| !typed.is_blank()) {
        let words = literal(typed.words()?)?;
        // A spreadsheet program does not tell small letters from capitals.
        let (_, seen) = times.entry(words.to_lowercase()).or_insert((words, 0));
        *seen = seen.saturating_add(1);
    }
    let each = times
        .values()
        .map(|(words, times)| ["MIN(", &times.to_string(), ",SUMPRODUCT(--(", items, "=", words, ")))"].concat());
    let all = each.collect::<Vec<_>>().join("+");
    (!all.is_empty() && all.len() < LONGEST).then_some(all)
}
