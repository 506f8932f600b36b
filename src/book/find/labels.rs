//! Labels of a card: where one begins, labels and values in turn, and what to say of what is none.

use super::{Headings, header};
use crate::book::grid::GridRow;
use crate::problem::suggest::did_you_mean;
use crate::problem::{Code, Fault};
use crate::schema::{Label, TableKind, Typed, Value, output};

/// Whether a row is labels and values in turn (`Recipe`, `Soup`, `Portions`, `12`) though it carries the signature of
/// recipe facts: `Recipe` first, no header among the values, and a value that begins with a digit.
pub(super) fn is_label_row(row: &GridRow) -> bool {
    let label = |typed: &Typed| if let Value::Text(text) = &typed.value { Label::read(text) } else { None };
    let value = |typed: &Typed| match &typed.value {
        Value::Text(text) => !crate::schema::header::is_known(text),
        _ => true,
    };
    let mut counted = false;
    let mut first = true;
    for pair in row.cells().chunks(2) {
        let [(at, said), (beside, stated)] = pair else { return false };
        let fits = match label(said) {
            Some((Label::Recipe, _)) => first,
            Some(_) => !first,
            None => false,
        };
        if !fits || at.checked_add(1) != Some(*beside) || !value(stated) {
            return false;
        }
        counted |= !first && stated.seen().starts_with(|c: char| c.is_ascii_digit());
        first = false;
    }
    counted
}

/// Whether a row is one label other than `Recipe` and what stands right beside it, be it a word that is a header too.
pub(super) fn is_one_label(row: &GridRow) -> bool {
    let [(at, Typed { value: Value::Text(said), .. }), (beside, _)] = row.cells() else { return false };
    at.checked_add(1) == Some(*beside) && Label::read(said).is_some_and(|(label, _)| label != Label::Recipe)
}

/// Whether `row` begins a card whose name is also a header (`Recipe`, `Portions`), though together they are the header of
/// a table: it goes on below with labels alone, down to the header of its lines.
pub(super) fn names_a_card(row: &GridRow, below: &[GridRow]) -> bool {
    let text = |typed: &Typed| if let Value::Text(text) = &typed.value { text.clone() } else { String::new() };
    let label = |typed: &Typed| Label::read(&text(typed)).map(|(label, _)| label);
    let [(at, first), (beside, name), rest @ ..] = row.cells() else { return false };
    let adjoins = at.checked_add(1) == Some(*beside);
    let known = |typed: &Typed| crate::schema::header::is_known(&text(typed));
    if !adjoins || label(first) != Some(Label::Recipe) || !known(name) || rest.iter().any(|(_, typed)| known(typed)) {
        return false;
    }
    let lines = |row: &GridRow| {
        let headers = header::header_rows(row, true, &[], &Headings::default());
        headers.iter().any(|header| header.kinds == [TableKind::CardLines])
    };
    let labelled = |row: &GridRow| {
        row.cells().first().is_some_and(|(_, first)| match label(first) {
            Some(label) => label != Label::Recipe,
            None => output::is_card_label(&text(first)),
        })
    };
    below.iter().find(|row| !labelled(row) || lines(row)).is_some_and(lines)
}

/// Whether a card begins in `row`: `Recipe` is its first filled cell, and right beside it stands a name. An empty
/// form begins one too, and a name that is also a header (`Seasoning`), where the next row goes on as a card does.
pub(super) fn starts_card(row: &GridRow, next: Option<&GridRow>) -> bool {
    let label = |typed: &Typed| if let Value::Text(text) = &typed.value { Label::read(text) } else { None };
    let Some((at, first)) = row.cells().first() else { return false };
    if !matches!(label(first), Some((Label::Recipe, _))) {
        return false;
    }
    let goes_on = || {
        next.is_some_and(|next| {
            let goes_on = |(_, typed): &(u32, Typed)| label(typed).is_some_and(|(label, _)| label != Label::Recipe);
            next.cells().first().is_some_and(goes_on)
                || !header::header_rows(next, true, &[], &Headings::default()).is_empty()
        })
    };
    match &row.get(at.saturating_add(1)).value {
        Value::Blank => goes_on(),
        Value::Text(name) => !crate::schema::header::is_known(name) || goes_on(),
        _ => true,
    }
}

/// What to say of a filled cell that stands where a card's label should, with `beside` right of it, in a row of
/// `filled` cells.
pub(super) fn not_a_label(typed: &Typed, beside: &Typed, filled: usize) -> Fault {
    let seen = typed.seen();
    match &typed.value {
        Value::Text(text) if filled == 1 => Fault::new(
            Code::HeadingKept,
            format!("“{text}” stands alone on the card, above its lines, and was taken for a heading"),
            "If it is a label, type its value in the cell right beside it.",
        ),
        Value::Text(text) if !beside.is_blank() => Fault::new(
            Code::LabelUnknown,
            format!("“{text}” is not a label that a card has; it and “{}” were not read", beside.seen()),
            did_you_mean(text, Label::ALL.iter().map(|label| label.text()))
                .unwrap_or_else(|| "To carry text through, type it beside Note or Method.".to_owned()),
        ),
        _ => Fault::new(
            Code::LabelUnknown,
            format!("“{seen}” stands beside a label's value and was not read"),
            "A value stands in the one cell right beside its label: type quantity and unit together, as in “3 qt”.",
        ),
    }
}
