//! The Problems sheet: every problem that concerns a cell of this workbook, with a link to it.

use crate::report::context::Context;
use crate::report::names;
use crate::report::problems::{Counts, Landed};
use crate::report::row::{Cell, Content, Frame, Ink, Look, Row, Rows};

const HEADERS: [&str; 5] = ["Severity", "Where", "What", "What to do", "Code"];

/// The frame of the sheet.
pub fn frame() -> Frame {
    Frame::new(names::PROBLEMS, vec![12, 24, 70, 60, 26]).frozen(3)
}

/// Its rows.
pub fn rows(context: &Context<'_>, problems: &[Landed], counts: &Counts, out: &mut Rows<'_>) {
    out(Row { row: 0, cells: vec![Cell::text(0, context.mark, Ink::Reading)] });
    out(Row { row: 1, cells: vec![Cell::text(0, counts.words(), Ink::Plain)] });
    let headers = HEADERS.iter().zip(0_u16..).map(|(header, at)| Cell::text(at, *header, Ink::OwnHeader));
    out(Row { row: 2, cells: headers.collect() });
    for (problem, row) in problems.iter().zip(3_u32..) {
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
