//! The Problems sheet: every problem that concerns a cell of this workbook, with a link to it.

use crate::results::problem_counts::Counts;
use crate::workbook::cells::formula::Ref;
use crate::workbook::cells::row::{Cell, Content, Frame, Ink, Look, Row, Rows};
use crate::workbook::context::Context;
use crate::workbook::layout::problem_places::Landed;
use crate::workbook::layout::sheet_names;

const HEADERS: [&str; 5] = ["Severity", "Where", "What", "What to do", "Code"];

/// The frame of the sheet.
pub fn frame() -> Frame {
    Frame::new(sheet_names::PROBLEMS, vec![10, 22, 52, 48, 22]).frozen(HEADER_ROW.saturating_add(1))
}

/// The zero-based row of the headers.
const HEADER_ROW: u32 = 2;

/// The cell of the problem at `index`.
pub fn cell_of(index: usize) -> Ref {
    let below = u32::try_from(index).unwrap_or(u32::MAX).saturating_add(1);
    Ref::new(sheet_names::PROBLEMS, HEADER_ROW.saturating_add(below), 0)
}

/// Its rows.
pub fn rows(context: &Context<'_>, problems: &[Landed], counts: &Counts, out: &mut Rows<'_>) {
    out(Row { row: 0, cells: vec![Cell::text(0, context.mark, Ink::Aside), Cell::back(4)] });
    out(Row { row: 1, cells: vec![Cell::text(0, counts.words(), Ink::Plain)] });
    let headers = HEADERS.iter().zip(0_u16..).map(|(header, at)| Cell::text(at, *header, Ink::OwnHeader));
    out(Row { row: HEADER_ROW, cells: headers.collect() });
    for (index, problem) in problems.iter().enumerate() {
        let row = cell_of(index).row;
        let link =
            Content::Link { text: problem.at.spoken(), sheet: problem.at.sheet.clone(), cell: problem.at.cell() };
        let wrapped = |column, text: &str| Cell {
            column,
            content: Content::Text(text.to_owned()),
            ink: Ink::Reading,
            look: Look::Wrapped,
        };
        let cells = vec![
            wrapped(0, &problem.severity.to_string()),
            Cell { column: 1, content: link, ink: Ink::Reading, look: Look::Wrapped },
            wrapped(2, &problem.message),
            wrapped(3, &problem.help),
            wrapped(4, problem.code.name()),
        ];
        out(Row { row, cells });
    }
}
