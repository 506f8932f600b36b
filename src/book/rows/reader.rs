//! Row reader, one row while it is being read: its cells, what its column headers add, and the problems met.

use super::lost::{is_scientific, lost};
use super::marks::ColumnMarks;
use super::notes::ReadingNotes;
use crate::book::{Card, Table, TableRow};
use crate::kitchen::field::InputCell;
use crate::kitchen::{Field, InputRow};
use crate::measure::{Unit, Volumes, currency};
use crate::number::{Decimal, Marks, plain};
use crate::problem::{Code, Fault, Place, THERE};
use crate::schema::{Column, Shown, TableKind, Typed, Value};

/// What stands in a cell, once what cannot be read at all has been reported.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum CellContent {
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
    /// The setting that the row is about, in the settings table.
    pub(super) about: Option<&'static str>,
    /// Whether its table has a column for packs.
    pub(super) has_pack_column: bool,
    defaults: Vec<(Column, String)>,
    marks: &'a ColumnMarks,
    notes: &'a mut ReadingNotes,
}

impl<'a> Reader<'a> {
    /// The reader of a row of a table.
    pub(super) fn of_row<'g>(
        table: &Table<'g>,
        row: &TableRow<'g>,
        marks: &'a ColumnMarks,
        volumes: Volumes,
        notes: &'a mut ReadingNotes,
    ) -> Self {
        let mut cells = Vec::with_capacity(table.columns.len());
        let mut defaults = Vec::new();
        for heading in &table.columns {
            let typed = table.cell(row, heading.column);
            let (typed, header_said) = without_header(heading.column, typed);
            if !typed.is_blank() {
                let place = table.place_of(row, heading.column);
                cells.push(InputCell { column: heading.column, typed, place });
            }
            if let Some(default) = header_said.or_else(|| heading.default.clone()) {
                defaults.push((heading.column, default));
            }
        }
        if !table.is_fill_in() {
            notes.fill_ins.complete(table.kind, &mut cells, &mut defaults);
        }
        let first = table.columns.first().map_or(Column::Item, |heading| heading.column);
        let has_pack_column =
            table.heading(Column::Pack).is_some() || cells.iter().any(|cell| cell.column == Column::Pack);
        let place = place_of_whole(table.kind, &cells).unwrap_or_else(|| table.place_of(row, first));
        Reader {
            input: InputRow { place, cells },
            kind: table.kind,
            group: row.group.as_ref().map(|group| group.to_string()),
            volumes,
            about: None,
            has_pack_column,
            defaults,
            marks,
            notes,
        }
    }

    /// The reader of cells that were told apart already.
    pub(super) fn of_cells(
        kind: TableKind,
        mut input: InputRow,
        group: Option<String>,
        marks: &'a ColumnMarks,
        volumes: Volumes,
        notes: &'a mut ReadingNotes,
    ) -> Self {
        let mut defaults = Vec::new();
        notes.fill_ins.complete(kind, &mut input.cells, &mut defaults);
        Reader { input, kind, group, volumes, about: None, defaults, marks, notes, has_pack_column: false }
    }

    /// The reader of a card's labels.
    pub(super) fn of_card(
        card: &Card<'_>,
        marks: &'a ColumnMarks,
        volumes: Volumes,
        notes: &'a mut ReadingNotes,
    ) -> Self {
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
            let (typed, header_said) = without_header(column, label.value);
            cells.push(InputCell { column, typed, place: label.place.clone() });
            if let Some(default) = header_said.or_else(|| label.default.clone()) {
                defaults.push((column, default));
            }
        }
        notes.fill_ins.complete(TableKind::RecipeFacts, &mut cells, &mut defaults);
        // What concerns the card as a whole is said at its name, as in a row.
        let place = place_of_whole(TableKind::RecipeFacts, &cells).unwrap_or_else(|| card.place.clone());
        Reader {
            input: InputRow { place, cells },
            kind: TableKind::RecipeFacts,
            group: None,
            volumes,
            about: None,
            has_pack_column: false,
            defaults,
            marks,
            notes,
        }
    }

    /// The name of a column, as messages call it.
    pub(super) fn header(&self, column: Column) -> &'static str {
        match self.about {
            Some(setting) if column == Column::Value => setting,
            _ => self.kind.header(column),
        }
    }

    /// The unit, currency or percent sign in the brackets of a column's header.
    pub(super) fn default_of(&self, column: Column) -> Option<&str> {
        self.defaults.iter().find(|(known, _)| *known == column).map(|(_, default)| default.as_str())
    }

    /// The decimal marks of a column: as its other values have them, else as those of the book.
    pub(super) fn marks(&self, column: Column) -> Marks {
        match self.marks.get(&column).copied().unwrap_or(self.notes.marks) {
            Marks::Unknown if self.is_in_pounds(column) => Marks::Pounds,
            known => known,
        }
    }

    /// Whether the unit beside a number, or in its column's header, is the pound.
    fn is_in_pounds(&self, column: Column) -> bool {
        let beside = match column {
            Column::Qty | Column::Weight | Column::OnHand | Column::OnOrder => self.input.text(Column::Unit),
            Column::UnitSize => self.input.text(Column::SizeUnit),
            _ => String::new(),
        };
        let pound = |text: &str| Unit::parse(text).is_some_and(|unit| unit.is_pound());
        pound(&beside) || self.default_of(column).is_some_and(pound)
    }

    /// Gives the cell of `from`, and what its header says, to `column`, which is blank.
    pub(super) fn move_cell(&mut self, column: Column, from: Column) {
        self.input.move_to(column, from);
        for (known, _) in self.defaults.iter_mut().filter(|(known, _)| *known == from) {
            *known = column;
        }
    }

    /// The unit that the weights of the table are in, as far as they prove it.
    pub(super) fn weighed_in(&self) -> Option<Unit> {
        self.notes.weighed_in.clone()
    }

    /// Reports a fault at a column; the field is broken.
    pub(super) fn fail<T>(&mut self, column: Column, fault: Fault) -> Field<T> {
        self.report(column, fault);
        Field::Broken
    }

    /// Reports that a cell says otherwise than the brackets of its column's header; the field is broken. What they say
    /// is put behind the cell's text, `3 lb [kg]`, because the header it comes from is not written back.
    pub(super) fn fail_against_header<T>(&mut self, column: Column, fault: Fault) -> Field<T> {
        self.keep_header(column);
        self.fail(column, fault)
    }

    /// Puts what the brackets of a column's header say behind the cell's text.
    pub(super) fn keep_header(&mut self, column: Column) {
        let Some(default) = self.default_of(column) else { return };
        let typed = self.input.typed(column);
        let own = match (&typed.value, &typed.shown) {
            // A quantity shown as money is a quantity.
            (Value::Number(_), Shown::Money(_)) if column.holds_money() => typed.seen(),
            (Value::Number(number), _) => plain(*number),
            _ => typed.seen(),
        };
        let said = Typed::text(format!("{own} [{default}]"));
        self.input.set(column, said);
    }

    /// Reports a fault at a column that stops nothing.
    pub(super) fn report(&mut self, column: Column, fault: Fault) {
        let place = self.input.place(column);
        self.notes.problems.push(fault.at(place));
    }

    /// Remembers a currency sign.
    ///
    /// # Errors
    /// A fault when the book is in another currency.
    pub(super) fn sign(&mut self, column: Column, sign: &str) -> Result<(), Fault> {
        let place = self.input.place(column);
        self.notes.sign(sign, place);
        match &self.notes.currency {
            Some(code) if !sign.is_empty() && !currency::fits(sign, code) => Err(Fault::new(
                Code::CurrencyMixed,
                format!("“{sign}” stands here, but the book is in {code}"),
                format!("Type the amount in {code}, or correct the sign or the Currency setting."),
            )),
            _ => Ok(()),
        }
    }

    /// What stands in a column. Error cells and formulas without a value are reported here.
    pub(super) fn content(&mut self, column: Column) -> CellContent {
        let typed = self.input.typed(column).clone();
        if let Some(fault) = lost(&typed) {
            return self.broken(column, fault);
        }
        let fault = match typed.value {
            Value::Blank => return CellContent::Blank,
            Value::Number(number) if typed.shown == Shown::Date => {
                let fault = Fault::new(
                    Code::CellIsADate,
                    format!("{} holds {}, shown as a date or a time", self.header(column), number.normalize()),
                    "Format the cell as text and type again what was meant.",
                );
                self.report(column, fault);
                return CellContent::Broken;
            }
            Value::Number(number) => return CellContent::Number(number, typed.shown),
            Value::Date(date) => return CellContent::Date(date),
            Value::Bool(_) => return CellContent::Text(typed.seen()),
            Value::Text(text) if text.trim().is_empty() => return CellContent::Blank,
            Value::Text(text) if is_scientific(&text) => Fault::new(
                Code::NumberOutOfRange,
                format!("{} holds {text}, which is too large or too small to compute exactly", self.header(column)),
                "Type the number in full, with at most 28 digits.",
            ),
            Value::Text(_) | Value::Error(_) | Value::Formula(_) => return CellContent::Text(typed.seen()),
        };
        self.broken(column, fault)
    }

    /// What stands in a column that wants no percentage: one that is so by the cell's format is what is seen there, as its
    /// text is in a csv. What was typed into it is a hundredth.
    pub(super) fn amount(&mut self, column: Column) -> CellContent {
        match self.content(column) {
            CellContent::Number(_, Shown::Percent) => CellContent::Text(self.input.typed(column).seen()),
            content => content,
        }
    }

    /// Reports what cannot be read at all.
    fn broken(&mut self, column: Column, fault: Fault) -> CellContent {
        // Written back as text, it is met again as what it is.
        let seen = self.input.typed(column).seen();
        self.input.set(column, Typed::text(seen));
        self.report(column, fault);
        CellContent::Broken
    }

    /// A field of text; `None` when it cannot be read. A number or date is taken as it is seen.
    pub(super) fn text(&mut self, column: Column) -> Option<String> {
        match self.content(column) {
            CellContent::Blank => Some(String::new()),
            CellContent::Text(text) => Some(text.trim().to_owned()),
            CellContent::Number(..) | CellContent::Date(_) => Some(self.input.typed(column).seen()),
            CellContent::Broken => None,
        }
    }

    /// A name that the row cannot do without; `None` when it is missing or cannot be read, which is reported. The row
    /// is then kept as one that was not read.
    pub(super) fn name(&mut self, column: Column) -> Option<String> {
        let name = self.name_if_any(column);
        if name.is_none() {
            self.notes.unread.push((self.kind, self.input.clone()));
        }
        name
    }

    /// A name; `None` when it is missing or cannot be read, which is reported.
    pub(super) fn name_if_any(&mut self, column: Column) -> Option<String> {
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
            return None;
        }
        // Two spaces, or one that does not break, are a slip nobody sees.
        Some(name.split_whitespace().collect::<Vec<_>>().join(" "))
    }
}

/// A cell of an amount without what [`Reader::fail_against_header`] put behind it, and that.
fn without_header(column: Column, typed: &Typed) -> (Typed, Option<String>) {
    let split = || {
        let Value::Text(text) = &typed.value else { return None };
        let (own, header) = text.strip_suffix(']')?.rsplit_once(" [")?;
        (column.holds_an_amount() && !own.is_empty()).then(|| (Typed::text(own), Some(header.to_owned())))
    };
    split().unwrap_or_else(|| (typed.clone(), None))
}

/// Where what concerns a row as a whole, or a cell that is not there, is said: at the row's name; without one, at the
/// first of its cells in the order in which they are written back, so that it is said there again.
fn place_of_whole(kind: TableKind, cells: &[InputCell]) -> Option<Place> {
    let order = |column: Column| kind.columns().iter().position(|def| def.column == column);
    let named = cells.iter().find(|cell| cell.column == kind.name_column());
    // A line of a flat list is not the recipe it names.
    let own = |cell: &&InputCell| kind != TableKind::RecipeLines || cell.column != Column::Recipe;
    let first = || cells.iter().filter(own).min_by_key(|cell| order(cell.column));
    named.or_else(first).or(cells.first()).map(|cell| cell.place.clone())
}
