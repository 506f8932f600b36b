//! Table sheets and what all of them share: a header row, then input cells with columns of our own beside them.

use std::ops::Range;

use crate::food::care;
use crate::in_order::InOrder;
use crate::kitchen::InputRow;
use crate::schema::Column;
use crate::workbook::cells::row::{Cell, Frame, Ink, Look, PrintedPage, Row, RowSink, Tab};
use crate::workbook::layout::column_width;
use crate::workbook::layout::inputs::{Inputs, input_cell};
use crate::workbook::layout::own_columns::{OwnCells, say_row};
use crate::workbook::layout::{Slot, TableLayout, rows_of};

/// The frame of a table sheet.
pub fn frame(table: &TableLayout) -> Frame {
    let widths = table.shapes.iter().map(|shape| shape.width).collect();
    let frame = Frame::new(&*table.sheet, widths).frozen(1).tabbed(Tab::Inputs);
    // The name of a row stays in sight and stands again on every page beside the first.
    let names = table.column(Slot::Input(table.kind.name_column())).map_or(0, |column| column.saturating_add(1));
    let names = if names > MOST_NAMES { 0 } else { names };
    let parts = table.slots.iter().position(|slot| matches!(slot, Slot::Own(_)));
    let page = PrintedPage {
        upright: is_narrow(table),
        last_column: table.last_printed(),
        first_columns: names,
        parts: parts.and_then(|at| u16::try_from(at).ok()),
        ..PrintedPage::default()
    };
    Frame { page, frozen_columns: names, ..frame }
}

/// The most columns before and with the name of a row that stay in sight.
const MOST_NAMES: u16 = 3;

/// Whether a table is no wider than an upright page takes at its full size, or little less.
fn is_narrow(table: &TableLayout) -> bool {
    const UPRIGHT: u16 = 110;
    let printed = table.last_printed().map_or(0, |last| usize::from(last).saturating_add(1));
    table.shapes.iter().take(printed).map(|shape| shape.width).sum::<u16>() <= UPRIGHT
}

/// The header row.
pub fn header(table: &TableLayout) -> Row {
    let columns = table.slots.iter().zip(&table.shapes).zip(0_u16..);
    let cells = columns.map(|((slot, shape), column)| match slot {
        Slot::Input(input) => column_width::header(column, table.kind.header(*input), Ink::Header, Some(shape)),
        Slot::Own(header) => column_width::header(column, header, Ink::OwnHeader, Some(shape)),
    });
    Row { row: 0, cells: cells.collect() }
}

/// What is to be said of a header, with its column: the source of the rule that its cells follow.
pub fn told(table: &TableLayout) -> Option<(u16, &'static str)> {
    Some((table.column(Slot::Input(Column::Keeps))?, care::KEEPS))
}

/// How a blank cell of a row looks in which a number would count, by its column; `None` where it would not.
pub type BlankLook<'a> = &'a dyn Fn(Column) -> Option<Look>;

/// Room for whatever may be typed, where nothing is figured yet.
pub const ANYWHERE: BlankLook<'static> = &|_| Some(Look::General);

/// The input cells of a row, and room where more may be typed.
pub fn inputs(inputs: &Inputs<'_>, table: &TableLayout, row: &InputRow, room: BlankLook<'_>) -> Vec<Cell> {
    let slots = table.slots.iter().zip(&table.shapes).zip(0_u16..);
    let cells = slots.filter_map(|((slot, shape), at)| match slot {
        Slot::Input(column) => match input_cell(inputs, table.kind, *column, at, row.typed(*column)) {
            Some(cell) => Some(column_width::fitted(cell, Some(shape))),
            None => room(*column).filter(|_| table.roomy).map(|look| Cell { look, ..Cell::room(at) }),
        },
        Slot::Own(_) => None,
    });
    // With room for those of our own.
    let mut all = Vec::with_capacity(table.slots.len());
    all.extend(cells);
    all
}

/// Those `rows` of a table of nothing but inputs, by their index below its header, which stands above the first.
pub fn typed_rows(inputs: &Inputs<'_>, table: &TableLayout, rows: Range<usize>, out: &mut RowSink<'_>) {
    if rows.start == 0 {
        out(header(table));
    }
    let all = rows_of(inputs.kitchen, table.kind).into_iter().enumerate();
    for (index, typed) in all.take(rows.end).skip(rows.start) {
        let mut own = OwnCells::of(table);
        say_row(table.kind, typed, None, &mut own);
        out(row(table.row(index), self::inputs(inputs, table, typed, ANYWHERE), own));
    }
}

/// One row: inputs and our own, by column.
pub fn row(at: u32, mut cells: Vec<Cell>, mut own: OwnCells<'_>) -> Row {
    own.say_key(at);
    own.seal();
    cells.extend(own.cells);
    cells.put_in_order_by_key(|cell| cell.column);
    Row { row: at, cells }
}
