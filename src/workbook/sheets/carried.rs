//! A user's sheet that holds no table of ours, written as it was read.

use crate::schema::{CarriedSheet, Column, TableKind};
use crate::workbook::cells::row::{Cell, Frame, Ink, Row, RowSink};
use crate::workbook::layout::inputs::{Inputs, input_cell};

/// The frame of a carried sheet.
pub fn frame(name: &str) -> Frame {
    Frame::new(name, Vec::new())
}

/// Its rows.
pub fn rows(inputs: &Inputs<'_>, sheet: &CarriedSheet, out: &mut RowSink<'_>) {
    let mut pending: Option<Row> = None;
    for (row, column, typed) in &sheet.cells {
        let Ok(column) = u16::try_from(*column) else { continue };
        let cell = input_cell(inputs, TableKind::Settings, Column::Value, column, typed);
        let Some(cell) = cell.map(|cell| Cell { ink: Ink::Plain, ..cell }) else { continue };
        match &mut pending {
            Some(open) if open.row == *row => open.cells.push(cell),
            _ => {
                if let Some(done) = pending.replace(Row { row: *row, cells: vec![cell] }) {
                    out(done);
                }
            }
        }
    }
    if let Some(done) = pending {
        out(done);
    }
}
