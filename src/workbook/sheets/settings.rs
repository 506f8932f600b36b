//! The Settings sheet: the values in force, whatever they came from.

use crate::schema::{Column, TableKind};
use crate::workbook::cells::row::{Cell, Frame, Ink, Row, RowSink, Tab};
use crate::workbook::context::Context;
use crate::workbook::layout::inputs::input_cell;
use crate::workbook::layout::sheet_names;

/// The frame of the sheet.
pub fn frame() -> Frame {
    Frame::new(sheet_names::of_table(TableKind::Settings), vec![28, 30]).frozen(1).tabbed(Tab::Inputs).upright()
}

/// Its rows.
pub fn rows(context: &Context<'_>, out: &mut RowSink<'_>) {
    let header = [Column::Setting, Column::Value].into_iter().zip(0_u16..);
    let header = header.map(|(column, at)| Cell::text(at, TableKind::Settings.header(column), Ink::Header));
    out(Row { row: 0, cells: header.collect() });
    for (line, row) in context.settings.lines.iter().zip(1_u32..) {
        let name = input_cell(context, TableKind::Settings, Column::Setting, 0, &line.name);
        let value = input_cell(context, TableKind::Settings, Column::Value, 1, &line.value);
        let value = value.map(|cell| Cell { ink: Ink::Fact, ..cell });
        out(Row { row, cells: name.into_iter().chain(value).collect() });
    }
}
