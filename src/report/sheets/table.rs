//! What all table sheets share: a header row, then input cells with columns of our own beside them.

use crate::kitchen::InputRow;
use crate::report::context::{Context, input_cell};
use crate::report::layout::{Slot, TableLayout};
use crate::report::row::{Cell, Content, Frame, Ink, Look, Row};
use crate::schema::Column;

/// The frame of a table sheet.
pub fn frame(table: &TableLayout) -> Frame {
    let widths = table.slots.iter().map(|slot| match slot {
        Slot::Input(Column::Item | Column::Part | Column::Dish | Column::Recipe | Column::Test) => 30,
        Slot::Input(Column::Pack | Column::Supplier | Column::InsteadOf | Column::AlsoCalled | Column::Allergens) => 20,
        Slot::Input(_) => 13,
        Slot::Own("Pack read as" | "Charge read as" | "Measure read as" | "Better row" | "Recipe used") => 26,
        Slot::Own(_) => 16,
    });
    Frame::new(&table.sheet, widths.collect()).frozen(1)
}

/// The header row.
pub fn header(table: &TableLayout) -> Row {
    let cells = table.slots.iter().zip(0_u16..).map(|(slot, column)| match slot {
        Slot::Input(input) => Cell::text(column, table.kind.header(*input), Ink::Header),
        Slot::Own(header) => Cell::text(column, *header, Ink::OwnHeader),
    });
    Row { row: 0, cells: cells.collect() }
}

/// The input cells of a row.
pub fn inputs(context: &Context<'_>, table: &TableLayout, row: &InputRow) -> Vec<Cell> {
    let slots = table.slots.iter().zip(0_u16..);
    slots
        .filter_map(|(slot, at)| match slot {
            Slot::Input(column) => input_cell(context, table.kind, *column, at, row.typed(*column)),
            Slot::Own(_) => None,
        })
        .collect()
}

/// Collects the cells of our own for one row of a table.
pub struct Own<'a> {
    table: &'a TableLayout,
    /// The cells so far.
    pub cells: Vec<Cell>,
}

impl<'a> Own<'a> {
    /// None yet.
    pub fn of(table: &'a TableLayout) -> Self {
        Own { table, cells: Vec::new() }
    }

    /// Puts `content` under `header`.
    pub fn put(&mut self, header: &'static str, content: Content, ink: Ink, look: Look) {
        if let Some(column) = self.table.column(Slot::Own(header)) {
            self.cells.push(Cell { column, content, ink, look });
        }
    }

    /// Puts a reading in words.
    pub fn say(&mut self, header: &'static str, text: impl Into<String>) {
        let text = text.into();
        if !text.is_empty() {
            self.put(header, Content::Text(text), Ink::Reading, Look::General);
        }
    }

    /// Puts a reading that is a number.
    pub fn read(&mut self, header: &'static str, number: crate::number::Decimal) {
        self.put(header, Content::Number(number), Ink::Reading, Look::General);
    }

    /// Puts a figure.
    pub fn figure(&mut self, header: &'static str, formula: crate::report::formula::Formula, look: Look) {
        self.put(header, Content::Formula(formula), Ink::Figure, look);
    }
}

/// One row: inputs and our own, by column.
pub fn row(at: u32, mut cells: Vec<Cell>, own: Own<'_>) -> Row {
    cells.extend(own.cells);
    cells.sort_by_key(|cell| cell.column);
    Row { row: at, cells }
}
