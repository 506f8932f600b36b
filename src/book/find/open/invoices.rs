//! Rows of an invoice that are no goods and are known by where they stand: the head of the next page, and remarks under a
//! line. Those that are known by what they say are passed over where rows are read.

use super::{Head, Heading, OpenTable};
use crate::book::find::header::quantity_break;
use crate::book::grid::Grid;
use crate::measure::is_market;
use crate::problem::{CellRef, Code, Fault};
use crate::schema::{Column, TableKind, Typed, Value};

/// What is told of a row that is no price.
pub(in crate::book) fn passed_over(text: &str, why: &str) -> Fault {
    Fault::new(
        Code::InvoiceLinePassedOver,
        format!("“{}” {why}: it is no price and was passed over", text.trim()),
        "Nothing to do, unless it is something you buy: then give it a pack or unit and a price.",
    )
}

/// Whether the only cell of a row is a remark to the line above it or to the page: box weights, what was not shipped,
/// `(CONTINUED)`, a sentence in the column of the items.
pub(super) fn is_remark(only: &Typed, at: u32, item: Option<u32>) -> bool {
    /// From so many words on, what stands among the items is a sentence.
    const SENTENCE: usize = 6;
    let Value::Text(text) = &only.value else { return false };
    let plain = text.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
    let of_line = ["wts", "wt:", "weights", "box weights", "out of stock", "not shipped", "continued", "sub for"]
        .iter()
        .any(|start| plain.starts_with(start));
    let sentence = item == Some(at) && at > 0 && text.split_whitespace().count() >= SENTENCE;
    of_line || (sentence && text.chars().any(char::is_lowercase))
}

impl OpenTable<'_> {
    /// Takes the rows of a table of prices right above `header`, the same header on the next page, for that page's head,
    /// where they say neither what a price is for nor both an item and a number for a price.
    pub(in crate::book::find) fn next_page(&mut self, grid: &Grid, header: u32) {
        /// How far apart its rows stand: remarks between them are no rows.
        const NEAR: u32 = 3;
        if self.kind != Some(TableKind::Prices) {
            return;
        }
        let mut above = header;
        while let Some(line) = self.rows.last().map(|row| row.line)
            && above.saturating_sub(line.row) <= NEAR
            && self.is_page_head(line)
        {
            above = line.row;
            let (at, text) = line.cells().first().map_or((0, String::new()), |(at, typed)| (*at, typed.seen()));
            let place = grid.place_of(CellRef::new(above, at));
            self.problems.push(passed_over(&text, "belongs to the head of a page").at(place));
            self.rows.pop();
        }
    }

    fn is_page_head(&self, line: &crate::book::grid::GridRow) -> bool {
        let cell = |column| self.column_at(column).map(|at| line.get(at));
        let is_number = |typed: &&Typed| matches!(typed.value, Value::Number(_));
        let blank = |column| cell(column).is_some_and(Typed::is_blank);
        let nameless = blank(Column::Item) && blank(Column::Pack);
        let is_priced = |typed: &&Typed| is_number(typed) || is_market(&typed.seen());
        nameless || (!self.says_what_for(line) && !cell(Column::Price).as_ref().is_some_and(is_priced))
    }

    /// A size beside packs that say all is the size of the goods, and is not read. Where the packs are bare numbers, it is
    /// the size of one of so many.
    pub(super) fn settle_size(&mut self) {
        let (Some(pack), None) = (self.column_at(Column::Pack), self.column_at(Column::PackCount)) else { return };
        let is_bare = |typed: &Typed| match &typed.value {
            Value::Number(_) => true,
            Value::Text(text) => text.trim().bytes().all(|byte| byte.is_ascii_digit()),
            _ => typed.is_blank(),
        };
        if self.rows.iter().all(|row| is_bare(row.line.get(pack))) {
            return;
        }
        for head in self.heads.values_mut() {
            if let Head::Known { heading: Heading { column: Column::UnitSize, text, .. }, canonical: false } = head {
                *head = Head::Ignored { text: std::mem::take(text) };
            }
        }
    }

    /// What was assumed of prices that depend on how many are bought.
    pub(super) fn price_breaks(&self) -> Option<(u32, String)> {
        self.heads.iter().find_map(|(at, head)| match head {
            Head::Known { heading, .. }
                if heading.column == Column::Price && quantity_break(&heading.text).is_some() =>
            {
                Some((*at, heading.text.clone()))
            }
            _ => None,
        })
    }
}
