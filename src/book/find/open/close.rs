//! End of a table and what is said there: its headings, its columns, which of several is used.

use std::collections::{BTreeSet, HashMap};

use super::{Head, OpenTable};
use crate::book::find::table::Table;
use crate::book::grid::Grid;
use crate::problem::suggest::{did_you_mean, quoted_list};
use crate::problem::{CellRef, Code, Fault, Problem, place};
use crate::schema::header::normal;
use crate::schema::{Column, TableKind, Typed, Value};

impl<'g> OpenTable<'g> {
    /// The table, with what there was to say about it. `None` under an ambiguous header.
    pub fn close(mut self, grid: &Grid) -> (Option<Table<'g>>, Vec<Problem>) {
        let Some(kind) = self.kind else { return (None, self.problems) };
        let mut problems = self.column_problems(grid, kind);
        problems.append(&mut self.heading_problems(grid));
        problems.append(&mut self.problems);
        let ours = self.heads.iter().filter_map(|(at, head)| match head {
            Head::Ours { text } => Some((*at, text.clone())),
            _ => None,
        });
        let ours: Vec<(u32, String)> = ours.collect();
        let mut own = HashMap::new();
        for (at, header) in &ours {
            own.entry(normal(header)).or_insert(*at);
        }
        let columns = self
            .heads
            .into_values()
            .filter_map(|head| match head {
                Head::Known { heading, .. } => Some(heading),
                _ => None,
            })
            .collect();
        let start = grid.place_of(CellRef::new(self.header, 0));
        let mut table = Table { kind, place: start, columns, ours, own, rows: self.rows };
        table.place = grid.place_of(CellRef::new(self.header, table.columns.first().map_or(0, |heading| heading.at)));
        (Some(table), problems)
    }

    /// One note on all headings, and one on what stands alone below the last row and heads nothing: footnotes.
    fn heading_problems(&self, grid: &Grid) -> Vec<Problem> {
        let below = |rows: &usize| *rows < self.rows.len();
        let (headings, footnotes): (Vec<_>, Vec<_>) = self.headings.iter().partition(|(_, _, rows)| below(rows));
        let texts = |these: &[&(CellRef, String, usize)]| {
            quoted_list(&these.iter().map(|(_, text, _)| text.as_str()).collect::<Vec<_>>(), "and")
        };
        let mut problems = Vec::new();
        if let Some((first, ..)) = headings.first() {
            let message = match headings.as_slice() {
                [(_, text, _)] => format!("“{text}” was taken for a heading of the rows below it"),
                several => format!("{} were taken for headings of the rows below them", texts(several)),
            };
            let help = "If one is more than a heading, fill in the rest of its row.";
            problems.push(Fault::new(Code::HeadingKept, message, help).at(grid.place_of(*first)));
        }
        if let Some((first, ..)) = footnotes.first() {
            let (stands, was) = if footnotes.len() == 1 { ("stands", "was") } else { ("stand", "were") };
            let message = format!("{} {stands} below the last row and {was} not read", texts(&footnotes));
            let help = "Nothing to do, unless one should be a row of the table: then fill in the rest of it.";
            problems.push(Fault::new(Code::HeadingKept, message, help).at(grid.place_of(*first)));
        }
        problems
    }

    /// Settles columns of one meaning, and says which columns are not read.
    fn column_problems(&mut self, grid: &Grid, kind: TableKind) -> Vec<Problem> {
        let mut problems = Vec::new();
        if kind == TableKind::Prices {
            self.settle_size();
            problems.extend(self.price_breaks().map(|(at, text)| {
                Fault::new(
                    Code::PriceBreakAssumed,
                    format!("the prices depend on how many are bought: those for {text} were taken"),
                    "If you buy more at a time, name the column of that price Price and leave the other out.",
                )
                .at(grid.place_of(CellRef::new(self.header, at)))
            }));
        }
        for column in kind.columns().iter().map(|def| def.column) {
            self.settle_column(grid, column, &mut problems);
        }
        // What is ordered proves nothing, as what was shipped does.
        let proves = |column: Column| matches!(column, Column::Qty | Column::Weight | Column::Extended);
        let columns = kind.columns().iter().filter(|def| kind != TableKind::Prices || !proves(def.column));
        let headers = || columns.clone().map(|def| def.header);
        for (at, head) in &self.heads {
            if let Head::Ignored { text } = head {
                let (shown, help) = if text.is_empty() {
                    (grid.get(self.header, *at).seen(), None)
                } else {
                    (text.clone(), did_you_mean(text, headers()))
                };
                problems.push(
                    Fault::new(
                        Code::ColumnIgnored,
                        format!("“{shown}” is not a column that parings knows in a table of this kind ({}), so it was not read", kind.name()),
                        help.unwrap_or_else(|| {
                            "Nothing to do, unless it holds something that should count.".to_owned()
                        }),
                    )
                    .at(grid.place_of(CellRef::new(self.header, *at))),
                );
            }
        }
        if let Some((first, _)) = self.stray.values().next() {
            let cells: usize = self.stray.values().map(|(_, cells)| cells).sum();
            let letters: Vec<String> = self.stray.keys().take(5).map(|at| place::column_letters(*at)).collect();
            let more = if self.stray.len() > letters.len() { " and others" } else { "" };
            problems.push(
                Fault::new(
                    Code::ColumnIgnored,
                    format!(
                        "{cells} filled cell{} beside this table, in column {}{more}, {} under no header and {} not read",
                        if cells == 1 { "" } else { "s" },
                        letters.join(", "),
                        if cells == 1 { "stands" } else { "stand" },
                        if cells == 1 { "was" } else { "were" },
                    ),
                    "Nothing to do, unless they hold something that should count: then give the column a header.",
                )
                .at(grid.place_of(*first)),
            );
        }
        problems
    }

    /// Its columns in which more than digits stand.
    fn columns_of_text(&self) -> BTreeSet<u32> {
        let cells = self.rows.iter().flat_map(|row| row.line.cells_within(self.span()));
        cells.filter(|(_, typed)| !is_digits(typed)).map(|(at, _)| *at).collect()
    }

    /// Keeps one of several columns that mean `column`: for an item the one that is not bare digits, then the
    /// canonical header, then the first. The others are ignored, with a note.
    fn settle_column(&mut self, grid: &Grid, column: Column, problems: &mut Vec<Problem>) {
        let same: Vec<(u32, bool, String)> = self
            .heads
            .values()
            .filter_map(|head| match head {
                Head::Known { heading, canonical } if heading.column == column => {
                    Some((heading.at, *canonical, heading.text.clone()))
                }
                _ => None,
            })
            .collect();
        if same.len() < 2 {
            return;
        }
        let texts = if column == Column::Item { self.columns_of_text() } else { BTreeSet::new() };
        let Some(kept) =
            same.iter().max_by_key(|(at, canonical, _)| (texts.contains(at), *canonical, std::cmp::Reverse(*at)))
        else {
            return;
        };
        for (at, _, text) in same.iter().filter(|(at, ..)| *at != kept.0) {
            self.heads.insert(*at, Head::Unused);
            problems.push(
                Fault::new(
                    Code::ColumnTwice,
                    format!("“{text}” and “{}” mean the same; “{}” was used", kept.2, kept.2),
                    format!("If “{text}” should count instead, rename “{}”.", kept.2),
                )
                .at(grid.place_of(CellRef::new(self.header, *at))),
            );
        }
    }
}

/// Whether a cell is nothing but digits, as a code is.
fn is_digits(typed: &Typed) -> bool {
    match &typed.value {
        Value::Blank | Value::Number(_) => true,
        Value::Text(text) => text.bytes().all(|byte| byte.is_ascii_digit()),
        _ => false,
    }
}
