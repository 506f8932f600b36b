//! The Settings sheet: the values in force, whatever they came from.

use crate::report::context::Context;
use crate::report::inputs::input_cell;
use crate::report::names;
use crate::report::row::{Cell, Frame, Ink, Row, Rows, Tab};
use crate::schema::{Column, TableKind};

/// The frame of the sheet.
pub fn frame() -> Frame {
    Frame::new(names::of_table(TableKind::Settings), vec![28, 30]).frozen(1).tabbed(Tab::Inputs).upright()
}

/// Its rows.
pub fn rows(context: &Context<'_>, out: &mut Rows<'_>) {
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
