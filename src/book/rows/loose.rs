//! Loose cards: each line as typed becomes the cells of a strict line, which is then read like any other; what had
//! to be taken for granted is a note at the cell, what would be a guess an error with the question.

mod percentages;

use std::collections::{BTreeMap, HashSet};

use super::amounts::{OPEN, is_held};
use super::marks::ColumnMarks;
use super::notes::ReadingNotes;
use super::reader::Reader;
use super::recipes::{head, line as read_line};
use crate::book::{LooseCard, LooseLine};
use crate::kitchen::recipe::RecipeEntry;
use crate::kitchen::{Entries, InputCell, InputRow, NameKey};
use crate::measure::quantity::unmeasured;
use crate::measure::{
    AmountText, Conventions, IngredientText, Measured, Unit, Volumes, parse_line, parse_parts, parse_yield,
};
use crate::number::text::clean;
use crate::number::{Marks, plain};
use crate::problem::{Code, Fault, Place};
use crate::schema::{Column, Shown, TableKind, Typed, Value};

/// A line whose name was parted from its preparation or its percentage, though something may go by both.
#[derive(Debug)]
pub(super) struct Parted {
    /// Its recipe and line, as indexes into the entries.
    at: (usize, usize),
    /// The longer names, the longest first, each with what is left to be done.
    names: Vec<(String, String)>,
    /// Of one that was taken in % of the flour: the line without that, and the heading it stands under.
    plain: Option<(InputRow, Option<String>)>,
}

/// Reads a loose card, the recipe of this index.
pub(super) fn card(
    card: &LooseCard,
    index: usize,
    notes: &mut ReadingNotes,
    volumes: Volumes,
    parted: &mut Vec<Parted>,
) -> RecipeEntry {
    let marks = ColumnMarks::new();
    let how = Conventions { marks: notes.marks, volumes };
    let facts = facts(card, how);
    note_card(card, how, notes);
    let mut recipe = head(Reader::of_cells(TableKind::RecipeFacts, facts, None, &marks, volumes, notes));
    let mut readings: Vec<LineReading> = card.lines.iter().map(|line| LineReading::of(line, how)).collect();
    let plain = percentages::take(&mut readings, how.marks);
    for ((typed, read), plain) in card.lines.iter().zip(readings).zip(plain) {
        let reader =
            Reader::of_cells(TableKind::CardLines, read.row.clone(), typed.group.clone(), &marks, volumes, notes);
        match read_line(reader) {
            Ok(entry) => {
                tell(&read, notes);
                let names = longer_names(&read.text);
                if !names.is_empty() || plain.is_some() {
                    let plain = plain.map(|row| (row, typed.group.clone()));
                    parted.push(Parted { at: (index, recipe.lines.len()), names, plain });
                }
                recipe.lines.push(entry);
            }
            Err(unread) => recipe.unread.push(unread),
        }
    }
    recipe
}

/// The labels of the card.
fn facts(card: &LooseCard, how: Conventions) -> InputRow {
    let cell =
        |column, text: String, place: &Place| InputCell { column, typed: Typed::text(text), place: place.clone() };
    let mut cells = vec![cell(Column::Recipe, card.name.text.clone(), &card.name.place)];
    if let Some(stated) = &card.makes
        && let Some(said) = parse_yield(&stated.text, how)
    {
        if !said.makes.is_empty() {
            let makes: Vec<String> = said.makes.iter().map(Measured::to_string).collect();
            cells.push(cell(Column::Makes, makes.join(", "), &stated.place));
        }
        if let Some(portion) = &said.portion {
            cells.push(cell(Column::Portion, portion.to_string(), &stated.place));
        }
        if let Some(portions) = said.portions {
            let typed = Typed::number(portions);
            cells.push(InputCell { column: Column::Portions, typed, place: stated.place.clone() });
        }
    }
    if let Some(first) = card.method.first() {
        let steps: Vec<&str> = card.method.iter().map(|step| step.text.as_str()).collect();
        cells.push(cell(Column::Method, steps.join("\n"), &first.place));
    }
    InputRow { place: card.name.place.clone(), cells }
}

/// One note on what was taken as what.
fn note_card(card: &LooseCard, how: Conventions, notes: &mut ReadingNotes) {
    let name = &card.name.text;
    let mut taken = Vec::new();
    if card.is_named_by_sheet {
        taken.push("its name from the sheet".to_owned());
    }
    match card.makes.as_ref().map(|stated| (stated, parse_yield(&stated.text, how))) {
        Some((stated, Some(said))) => {
            let exactly = if said.is_about { ", taken as exact" } else { "" };
            taken.push(format!("what it makes from “{}”{exactly}", stated.text));
        }
        _ => taken.push("without a line that says what it makes".to_owned()),
    }
    let lines = card.lines.len();
    let each = if card.whole_lines { ", each in one cell" } else { "" };
    taken.push(format!("{lines} line{}{each}", if lines == 1 { "" } else { "s" }));
    let steps = card.method.len();
    if steps > 0 {
        taken.push(format!("{steps} text{} of Method", if steps == 1 { "" } else { "s" }));
    }
    let fault = Fault::new(
        Code::CardAssumed,
        format!("“{name}” was taken for a recipe: {}", taken.join("; ")),
        "Nothing to do if that is right. To be sure of it, type Recipe before the name, Makes or Portions before what it \
         makes, and Ingredient, Qty and Unit above the lines.",
    );
    notes.problems.push(fault.at(card.name.place.clone()));
}

/// A line as read.
struct LineReading {
    text: IngredientText,
    /// The cells of a strict line.
    row: InputRow,
    /// Where the amount stands.
    amount_at: Place,
}

impl LineReading {
    fn of(line: &LooseLine, how: Conventions) -> LineReading {
        let cell = |column: Column| line.cells.iter().find(|cell| cell.column == column);
        let seen = |column: Column| cell(column).map(|cell| cell.typed.seen().trim().to_owned()).unwrap_or_default();
        let (item, unit) = (seen(Column::Item), seen(Column::Unit));
        let qty = cell(Column::Qty);
        let is_date =
            qty.is_some_and(|cell| matches!(cell.typed.value, Value::Date(_)) || cell.typed.shown == Shown::Date);
        let (amount, how) = match qty.map(|cell| &cell.typed.value) {
            // A spreadsheet's number has no marks of its own.
            Some(Value::Number(number)) => (plain(*number), Conventions { marks: Marks::PointDecimal, ..how }),
            _ => (seen(Column::Qty), how),
        };
        let unit_typed = unit.clone();
        let unit_above = line.unit_above.clone().filter(|_| Unit::parse(&unit).is_none());
        let unit = if unit.is_empty() { unit_above.unwrap_or_default() } else { unit };
        let amount = format!("{amount} {unit}").trim().to_owned();
        let says_unit = !unit.is_empty() && !Unit::read(&unit).is_percent();
        let is_percent = !says_unit && percentages::is_percentage(qty.map(|cell| &cell.typed), &amount, how.marks);
        let is_whole = is_date || is_percent;
        let prep = seen(Column::Prep);
        // A line that its comma parted, as csv does: “butter” and “4 oz”.
        let joined = (!is_whole && amount.is_empty() && !prep.is_empty())
            .then(|| parse_line(&format!("{item}, {prep}"), how))
            .filter(|joined| matches!(joined.amount, AmountText::Measured(_) | AmountText::Packages { .. }))
            .filter(|_| parse_line(&item, how).amount == AmountText::Unsaid);
        let prep = if joined.is_some() { String::new() } else { prep };
        let mut text = match joined {
            Some(joined) => joined,
            None if is_whole => parse_parts("", &item, how),
            None if amount.is_empty() => parse_line(&item, how),
            None => parse_parts(&amount, &item, how),
        };
        if text.name.is_empty() {
            text.name = clean(&item);
        }
        if !prep.is_empty() && !text.take_size(&prep, how) {
            text.prep = if text.prep.is_empty() { prep } else { format!("{}, {prep}", text.prep) };
        }
        let at = |column: Column| cell(column).map_or_else(|| line.place.clone(), |cell| cell.place.clone());
        let amount_at = if qty.is_some() {
            at(Column::Qty)
        } else if cell(Column::Unit).is_some() {
            at(Column::Unit)
        } else {
            at(Column::Item)
        };
        let typed = if amount.is_empty() { item.clone() } else { amount };
        let mut row = InputRow {
            place: at(Column::Item),
            cells: vec![InputCell {
                column: Column::Item,
                typed: Typed::text(text.name.clone()),
                place: at(Column::Item),
            }],
        };
        let mut put = |column: Column, typed: Typed, place: Place| row.cells.push(InputCell { column, typed, place });
        if let (true, Some(qty)) = (is_whole, qty) {
            put(Column::Qty, qty.typed.clone(), at(Column::Qty));
            if is_percent && !unit_typed.is_empty() {
                put(Column::Unit, Typed::text(Unit::percent().name()), at(Column::Unit));
            }
        } else {
            for (column, typed) in strict_cells(&text, &typed) {
                put(column, typed, amount_at.clone());
            }
        }
        if !text.prep.is_empty() {
            put(
                Column::Prep,
                Typed::text(text.prep.clone()),
                cell(Column::Prep).map_or(at(Column::Item), |cell| cell.place.clone()),
            );
        }
        let whole = line.cells.len() == 1 && clean(&item) != text.name;
        if whole {
            put(Column::Note, Typed::text(format!("as typed: {}", clean(&item))), at(Column::Item));
        }
        LineReading { text, row, amount_at }
    }
}

/// The quantity and unit as a strict line has them; nothing for a line without a quantity.
fn strict_cells(text: &IngredientText, typed: &str) -> Vec<(Column, Typed)> {
    let number = |number| if is_held(number) { Typed::number(number) } else { Typed::text(plain(number)) };
    match (&text.amount, text.total()) {
        (_, Some(total)) => vec![(Column::Qty, number(total.amount)), (Column::Unit, Typed::text(total.unit.name()))],
        (AmountText::Bare(many), _) => vec![(Column::Qty, number(*many))],
        (AmountText::Unmeasured(words), _) if unmeasured(words).is_some() => {
            vec![(Column::Qty, Typed::text(words.clone()))]
        }
        (AmountText::Asked, _) => {
            let question = text.question.as_deref().unwrap_or("how much is it?");
            vec![(Column::Qty, Typed::text(format!("{OPEN} “{typed}”: {question}")))]
        }
        _ => Vec::new(),
    }
}

/// Says what was assumed.
fn tell(read: &LineReading, notes: &mut ReadingNotes) {
    let name = &read.text.name;
    if !read.text.notes.is_empty() {
        let fault = Fault::new(
            Code::LineAssumed,
            format!("“{name}”: {}", read.text.notes.join("; ")),
            "Nothing to do if that is right; else type the one quantity that is to be costed.",
        );
        notes.problems.push(fault.at(read.amount_at.clone()));
    }
}

/// The names that a line may be known by with what was taken for preparation, the longest first.
fn longer_names(text: &IngredientText) -> Vec<(String, String)> {
    let parts: Vec<&str> = text.prep.split(", ").filter(|part| !part.is_empty()).collect();
    let mut names: Vec<(String, String)> = (1..=parts.len())
        .filter_map(|count| {
            let (named, left) = parts.split_at_checked(count)?;
            Some((format!("{}, {}", text.name, named.join(", ")), left.join(", ")))
        })
        .collect();
    names.reverse();
    if let [first, rest @ ..] = parts.as_slice() {
        // `chopped tomatoes` is bought so.
        names.push((format!("{first} {}", text.name), rest.join(", ")));
    }
    names
}

/// Gives lines the longer name where the book has something that goes by it, and says which were taken in % of the flour.
pub(super) fn join_names(parted: Vec<Parted>, entries: &mut Entries, notes: &mut ReadingNotes, volumes: Volumes) {
    let known: HashSet<NameKey> = entries
        .prices
        .iter()
        .flat_map(|row| row.aliases.iter().chain([&row.item]))
        .chain(entries.recipes.iter().map(|recipe| &recipe.name))
        .chain(entries.tests.iter().map(|row| &row.part))
        .chain(entries.names.iter().flat_map(|row| &row.aliases))
        .map(|name| NameKey::of(name))
        .collect();
    let is_known = |name: &str| known.contains(&NameKey::of(name));
    let mut of_flour: BTreeMap<usize, Vec<(String, Place)>> = BTreeMap::new();
    for Parted { at: (at, line), names, plain } in parted {
        let Some(line) = entries.recipes.get_mut(at).and_then(|recipe| recipe.lines.get_mut(line)) else {
            continue;
        };
        if let Some((plain, group)) = plain {
            let typed = plain.text(Column::Item);
            if is_known(&typed) {
                let marks = ColumnMarks::new();
                let reader = Reader::of_cells(TableKind::CardLines, plain, group, &marks, volumes, notes);
                if let Ok(entry) = read_line(reader) {
                    *line = entry;
                }
                continue;
            }
            of_flour.entry(at).or_default().push((typed, line.input.place(Column::Item)));
        }
        let Some((name, left)) = names.into_iter().find(|(name, _)| is_known(name)) else { continue };
        line.input.set(Column::Item, Typed::text(name.clone()));
        line.input.set(Column::Prep, Typed::trimmed(&left));
        line.item = name;
        line.prep = left;
    }
    for (at, lines) in of_flour {
        let recipe = entries.recipes.get(at).map(|recipe| recipe.name.as_str()).unwrap_or_default();
        notes.problems.extend(percentages::note(recipe, &lines));
    }
}
