//! One row while it is being read: its cells, what its column headers add, and the problems met.

use std::collections::HashMap;

use crate::book::{Card, Table, TableRow};
use crate::kitchen::field::InputCell;
use crate::kitchen::{Field, InputRow};
use crate::measure::Volumes;
use crate::number::{Decimal, Marks, evidence};
use crate::problem::{Code, Fault, Place, Problem, THERE};
use crate::schema::{Column, Shown, TableKind, Typed, Value};

/// What reading collects besides rows.
#[derive(Debug, Default)]
pub(super) struct Notes {
    /// Problems of single cells.
    pub(super) problems: Vec<Problem>,
    /// Currency signs, each with its first place.
    pub(super) signs: Vec<(String, Place)>,
    /// Rows without a name, which no reader can take.
    pub(super) unread: Vec<(TableKind, InputRow)>,
}

impl Notes {
    /// Remembers a currency sign seen at `place`.
    pub(super) fn sign(&mut self, sign: &str, place: Place) {
        if !sign.is_empty() && !self.signs.iter().any(|(known, _)| known == sign) {
            self.signs.push((sign.to_owned(), place));
        }
    }
}

/// Which decimal mark each column shows.
pub(super) type ColumnMarks = HashMap<Column, Marks>;

/// What the texts of every column prove about decimal marks. A column that proves both proves nothing.
pub(super) fn marks_of(table: &Table<'_>) -> ColumnMarks {
    let mut marks: HashMap<Column, Option<Marks>> = HashMap::new();
    for row in &table.rows {
        for heading in &table.columns {
            let Value::Text(text) = &table.cell(row, heading.column).value else { continue };
            let Some(proof) = evidence(text) else { continue };
            marks
                .entry(heading.column)
                .and_modify(|known| *known = known.filter(|known| *known == proof))
                .or_insert(Some(proof));
        }
    }
    marks.into_iter().filter_map(|(column, marks)| Some((column, marks?))).collect()
}

/// What stands in a cell, once what cannot be read at all has been reported.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Content {
    Blank,
    Text(String),
    Number(Decimal, Shown),
    Date(jiff::civil::Date),
    Broken,
}

/// A row being read.
pub(super) struct Reader<'a> {
    /// Its cells; tidied as they are understood.
    pub(super) input: InputRow,
    /// The kind of table, for the names of columns.
    pub(super) kind: TableKind,
    /// The heading it stands under.
    pub(super) group: Option<String>,
    /// What cup, pint, fl oz and tbsp mean.
    pub(super) volumes: Volumes,
    defaults: Vec<(Column, String)>,
    marks: &'a ColumnMarks,
    notes: &'a mut Notes,
}

impl<'a> Reader<'a> {
    /// The reader of a row of a table.
    pub(super) fn of_row<'g>(
        table: &Table<'g>,
        row: &TableRow<'g>,
        marks: &'a ColumnMarks,
        volumes: Volumes,
        notes: &'a mut Notes,
    ) -> Self {
        let mut cells = Vec::new();
        let mut defaults = Vec::new();
        for heading in &table.columns {
            let typed = table.cell(row, heading.column);
            if !typed.is_blank() {
                let place = table.place_of(row, heading.column);
                cells.push(InputCell { column: heading.column, typed: typed.clone(), place });
            }
            if let Some(default) = &heading.default {
                defaults.push((heading.column, default.clone()));
            }
        }
        // What concerns a row as a whole, or a cell that is not there, is said at the row's name.
        let named = cells.iter().find(|cell| cell.column == table.kind.name_column());
        let first = table.columns.first().map_or(Column::Item, |heading| heading.column);
        let place = named.or(cells.first()).map_or_else(|| table.place_of(row, first), |cell| cell.place.clone());
        Reader {
            input: InputRow { place, cells },
            kind: table.kind,
            group: row.group.as_ref().map(|group| group.to_string()),
            volumes,
            defaults,
            marks,
            notes,
        }
    }

    /// The reader of a card's labels.
    pub(super) fn of_card(card: &Card<'_>, marks: &'a ColumnMarks, volumes: Volumes, notes: &'a mut Notes) -> Self {
        let mut cells: Vec<InputCell> = Vec::new();
        let mut defaults = Vec::new();
        for label in &card.labels {
            let column = label.label.column();
            if label.value.is_blank() {
                continue;
            }
            if let Some(known) = cells.iter().find(|cell| cell.column == column) {
                let fault = Fault::new(
                    Code::LabelTwice,
                    format!("{} is stated here and at {THERE}; the first is used", label.label.text()),
                    "Keep one of them.",
                )
                .speaking_of(known.place.clone());
                notes.problems.push(fault.at(label.place.clone()));
                continue;
            }
            cells.push(InputCell { column, typed: label.value.clone(), place: label.place.clone() });
            if let Some(default) = &label.default {
                defaults.push((column, default.clone()));
            }
        }
        Reader {
            input: InputRow { place: card.place.clone(), cells },
            kind: TableKind::RecipeFacts,
            group: None,
            volumes,
            defaults,
            marks,
            notes,
        }
    }

    /// The name of a column, as messages call it.
    pub(super) fn header(&self, column: Column) -> &'static str {
        self.kind.header(column)
    }

    /// The unit, currency or percent sign in the brackets of a column's header.
    pub(super) fn default_of(&self, column: Column) -> Option<&str> {
        self.defaults.iter().find(|(known, _)| *known == column).map(|(_, default)| default.as_str())
    }

    /// The decimal marks of a column.
    pub(super) fn marks(&self, column: Column) -> Marks {
        self.marks.get(&column).copied().unwrap_or_default()
    }

    /// Reports a fault at a column; the field is broken.
    pub(super) fn fail<T>(&mut self, column: Column, fault: Fault) -> Field<T> {
        self.report(column, fault);
        Field::Broken
    }

    /// Reports a fault at a column that stops nothing.
    pub(super) fn report(&mut self, column: Column, fault: Fault) {
        let place = self.input.place(column);
        self.notes.problems.push(fault.at(place));
    }

    /// Remembers a currency sign.
    pub(super) fn sign(&mut self, column: Column, sign: &str) {
        let place = self.input.place(column);
        self.notes.sign(sign, place);
    }

    /// What stands in a column. Error cells and formulas without a value are reported here.
    pub(super) fn content(&mut self, column: Column) -> Content {
        let typed = self.input.typed(column).clone();
        let formula = |formula: &str| {
            Fault::new(
                Code::FormulaWithoutValue,
                format!("the formula {formula} was saved without its result"),
                "Open the file in a spreadsheet program and save it once, or type the value.",
            )
        };
        let error = |error: &str| {
            Fault::new(Code::CellError, format!("the cell shows {error}"), "Mend the formula, or type the value.")
        };
        let fault = match typed.value {
            Value::Blank => return Content::Blank,
            Value::Number(number) if typed.shown == Shown::Date => Fault::new(
                Code::CellIsADate,
                format!("{} holds {}, shown as a date or a time", self.header(column), number.normalize()),
                "Format the cell as text and type again what was meant.",
            ),
            Value::Number(number) => return Content::Number(number, typed.shown),
            Value::Date(date) => return Content::Date(date),
            Value::Bool(_) => return Content::Text(typed.seen()),
            Value::Text(text) if text.trim().is_empty() => return Content::Blank,
            Value::Text(text) if text.starts_with('=') && text.len() > 1 => formula(&text),
            Value::Text(text) if is_error(&text) => error(&text),
            Value::Text(text) if is_scientific(&text) => Fault::new(
                Code::NumberOutOfRange,
                format!("{} holds {text}, which is too large or too small to compute exactly", self.header(column)),
                "Type the number in full, with at most 28 digits.",
            ),
            Value::Text(text) => return Content::Text(text),
            Value::Error(text) => error(&text),
            Value::Formula(text) => formula(&format!("={text}")),
        };
        // Written back as text, it is met again as what it is.
        let seen = self.input.typed(column).seen();
        self.input.set(column, Typed::text(seen));
        self.report(column, fault);
        Content::Broken
    }

    /// A field of text; `None` when it cannot be read. A number or date is taken as it is seen.
    pub(super) fn text(&mut self, column: Column) -> Option<String> {
        match self.content(column) {
            Content::Blank => Some(String::new()),
            Content::Text(text) => Some(text.trim().to_owned()),
            Content::Number(..) | Content::Date(_) => Some(self.input.typed(column).seen()),
            Content::Broken => None,
        }
    }

    /// A name that the row cannot do without; `None` when it is missing, which is reported.
    pub(super) fn name(&mut self, column: Column) -> Option<String> {
        let name = self.text(column)?;
        if name.is_empty() {
            let header = self.header(column);
            self.report(
                column,
                Fault::new(
                    Code::RowNotUnderstood,
                    format!("this row has no {header}, so it is not read"),
                    format!("Fill {header}, or clear the row."),
                ),
            );
            let unread = self.input.clone();
            self.notes.unread.push((self.kind, unread));
            return None;
        }
        Some(name)
    }
}

/// Whether `text` is a number with an exponent, as the grid holds numbers that no decimal can.
fn is_scientific(text: &str) -> bool {
    let number =
        |part: &str| part.chars().any(|c| c.is_ascii_digit()) && part.chars().all(|c| c.is_ascii_digit() || c == '.');
    let unsigned = |part: &str| part.trim_start_matches(['-', '+']).to_owned();
    text.trim().split_once(['e', 'E']).is_some_and(|(a, b)| number(&unsigned(a)) && number(&unsigned(b)))
}

/// Whether `text` is what a spreadsheet shows for an error.
fn is_error(text: &str) -> bool {
    const ERRORS: &[&str] =
        &["#REF!", "#N/A", "#VALUE!", "#DIV/0!", "#NAME?", "#NUM!", "#NULL!", "#GETTING_DATA", "#SPILL!", "#CALC!"];
    ERRORS.contains(&text.trim())
}
