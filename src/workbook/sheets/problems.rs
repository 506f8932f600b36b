//! The Problems sheet: every problem that concerns a cell of this workbook, with a link to it; more than a
//! hundred of one code on one line.

use std::collections::HashMap;

use crate::problem::{Code, Place};
use crate::results::problem_counts::Counts;
use crate::results::problem_groups::{ProblemGroup, first_cells, grouped};
use crate::schema::own_sheets;
use crate::workbook::cells::formula::Ref;
use crate::workbook::cells::row::{Cell, Content, Frame, Ink, Look, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::problem_places::Landed;
use crate::workbook::layout::sheet_names;

const HEADERS: [&str; 5] = own_sheets::PROBLEMS;

/// The frame of the sheet. A place leads to its cell, and some programs do not wrap what leads elsewhere: its column is as wide
/// as the longest, and the sentences beside it take what is left.
pub fn frame(problems: &Lines<'_>) -> Frame {
    const NARROWEST: usize = 22;
    const WIDEST: usize = 36;
    let letters = |place: &Landed| place.at.spoken().chars().count();
    let longest = problems.lines.iter().filter_map(|line| match line {
        ProblemGroup::One((_, place)) => Some(letters(place)),
        ProblemGroup::Many(members) => members.first().map(|(_, place)| letters(place)),
    });
    let place = longest.max().unwrap_or_default().clamp(NARROWEST, WIDEST);
    let more = u16::try_from(place.saturating_sub(NARROWEST)).unwrap_or_default();
    let what = more.div_ceil(2);
    let what_to_do = more.saturating_sub(what);
    let widths =
        vec![9, 22_u16.saturating_add(more), 50_u16.saturating_sub(what), 46_u16.saturating_sub(what_to_do), 22];
    Frame::new(sheet_names::PROBLEMS, widths).frozen(HEADER_ROW.saturating_add(1))
}

/// The zero-based row of the headers.
const HEADER_ROW: u32 = 2;

/// Its lines and where each problem stands among them.
#[derive(Debug)]
pub struct Lines<'a> {
    lines: Vec<ProblemGroup<(usize, &'a Landed)>>,
    /// The line of each problem.
    line_of: Vec<usize>,
    /// The first problem of a place and code where it was met.
    first_of: HashMap<(&'a Place, Code), usize>,
}

impl<'a> Lines<'a> {
    /// The lines for `problems`, in their order.
    pub fn of(problems: &'a [Landed]) -> Self {
        let lines = grouped(problems.iter().enumerate(), |(_, problem)| problem.code);
        let mut line_of = vec![0; problems.len()];
        for (line, group) in lines.iter().enumerate() {
            let members = match group {
                ProblemGroup::One(one) => std::slice::from_ref(one),
                ProblemGroup::Many(members) => members.as_slice(),
            };
            for (index, _) in members {
                if let Some(of) = line_of.get_mut(*index) {
                    *of = line;
                }
            }
        }
        let mut first_of = HashMap::new();
        for (index, problem) in problems.iter().enumerate() {
            first_of.entry((&problem.from, problem.code)).or_insert(index);
        }
        Lines { lines, line_of, first_of }
    }

    /// The problem of this code that was met at `place`.
    pub fn met(&self, place: &'a Place, code: Code) -> Option<usize> {
        self.first_of.get(&(place, code)).copied()
    }

    /// The cell of the problem at `index`.
    pub fn cell_of(&self, index: usize) -> Ref {
        let line = self.line_of.get(index).copied().unwrap_or_default();
        Ref::new(sheet_names::PROBLEMS, row_of(line), 0)
    }
}

/// The zero-based row of a line.
fn row_of(line: usize) -> u32 {
    let below = u32::try_from(line).unwrap_or(u32::MAX).saturating_add(1);
    HEADER_ROW.saturating_add(below)
}

/// Its rows.
pub fn rows(context: &Context<'_>, problems: &Lines<'_>, counts: &Counts, out: &mut RowSink<'_>) {
    out(Row { row: 0, cells: vec![Cell::text(0, context.mark, Ink::Aside), Cell::back(4)] });
    out(Row { row: 1, cells: vec![Cell::text(0, counts.words(), Ink::Plain)] });
    let headers = HEADERS.iter().zip(0_u16..).map(|(header, at)| Cell::text(at, *header, Ink::OwnHeader));
    out(Row { row: HEADER_ROW, cells: headers.collect() });
    for (line, group) in problems.lines.iter().enumerate() {
        let (problem, what) = match group {
            ProblemGroup::One((_, problem)) => (*problem, problem.message.clone()),
            ProblemGroup::Many(members) => match members.first() {
                Some((_, first)) => (*first, together(members)),
                None => continue,
            },
        };
        let link = Content::Link { text: problem.at.spoken(), to: Box::new(problem.at.clone()) };
        let wrapped = |column, text: &str| Cell {
            column,
            content: Content::Text(text.to_owned()),
            ink: Ink::Reading,
            look: Look::Wrapped,
        };
        let cells = vec![
            wrapped(0, &problem.severity.to_string()),
            Cell { column: 1, content: link, ink: Ink::Reading, look: Look::Wrapped },
            wrapped(2, &what),
            wrapped(3, &problem.help),
            wrapped(4, problem.code.name()),
        ];
        out(Row { row: row_of(line), cells });
    }
}

/// What is said of problems that stand on one line.
fn together(members: &[(usize, &Landed)]) -> String {
    let cells = members.iter().map(|(_, problem)| (problem.at.sheet.to_string(), "!", problem.at.cell()));
    let first = members.first().map(|(_, first)| first.message.as_str()).unwrap_or_default();
    format!("{} of this kind, at {}. The first: {first}", members.len(), first_cells(cells, members.len()))
}
