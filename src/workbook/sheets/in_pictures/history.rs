//! Price history of the items that moved most: a line an item over the days, and below the picture the same as a table.

use super::{WIDE, rows_of};
use crate::analysis::price_history::Histories;
use crate::results::figures::percent_at_most;
use crate::schema::TableKind;
use crate::workbook::cells::chart::{Picture, PictureKind, Series, Span, Tint};
use crate::workbook::cells::formula::Formula;
use crate::workbook::cells::row::{Cell, Ink, Look, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::sheet_names;

const HEIGHT: u32 = 330;
const AP: &str = "AP per g, ml, each";

/// Prices over time, from the row `start` on.
pub(super) struct HistoryPicture<'a> {
    pub(super) context: &'a Context<'a>,
    pub(super) histories: Histories,
    pub(super) start: u32,
}

impl HistoryPicture<'_> {
    /// The row of the headers below the picture.
    fn headers(&self) -> u32 {
        self.start.saturating_add(2).saturating_add(rows_of(HEIGHT))
    }

    fn name(&self, nth: usize) -> &str {
        let item = self.histories.items.get(nth).and_then(|history| self.context.kitchen.item(history.item));
        item.map(|item| item.name.as_str()).unwrap_or_default()
    }

    pub(super) fn picture(&self) -> Picture {
        let first = self.headers().saturating_add(1);
        let days = u32::try_from(self.histories.days.len()).unwrap_or_default();
        let span = |column| Span { column, first, last: first.saturating_add(days).saturating_sub(1) };
        let items = || self.histories.items.iter().zip(0_usize..).zip(1_u16..);
        let series = items().map(|((_, nth), column)| Series::new(self.name(nth), span(column), Tint::Line(nth)));
        let told =
            items().map(|((history, nth), _)| format!("{} {} %", self.name(nth), percent_at_most(history.now, 0)));
        Picture {
            title: match self.histories.items.as_slice() {
                // One line has no key.
                [_] => format!("How the price of {} has moved", self.name(0)),
                _ => "How the prices that moved most have moved".to_owned(),
            },
            told: format!(
                "Lines of the price of each item from its first row on, which is 100 %; now: {}",
                told.collect::<Vec<String>>().join("; ")
            ),
            kind: PictureKind::Lines,
            at: (self.start.saturating_add(2), 0),
            size: (WIDE, HEIGHT),
            names: span(0),
            series: series.collect(),
            names_look: Look::General,
            look: Look::Percent(0),
            axes: (Some("Its first price is 100 %".to_owned()), None),
            begins: None,
        }
    }

    pub(super) fn rows(&self, out: &mut RowSink<'_>) {
        out(Row { row: self.start, cells: vec![Cell::text(0, "Prices over time", Ink::Section)] });
        let said =
            "What the supplier of the price in use has asked, as purchased and per unit, from the first dated row on.";
        out(Row { row: self.start.saturating_add(1), cells: vec![Cell::text(0, said, Ink::Plain)] });
        let mut headers = vec![Cell::over(0, "From", true)];
        let items = self.histories.items.iter().zip(0_usize..).zip(1_u16..);
        headers.extend(items.map(|((_, nth), column)| Cell::over_figures(column, self.name(nth))));
        out(Row { row: self.headers(), cells: headers });
        for ((day, nth), row) in self.histories.days.iter().zip(0_usize..).zip(self.headers().saturating_add(1)..) {
            let mut cells = vec![Cell::text(0, day.to_string(), Ink::Reading)];
            for (history, column) in self.histories.items.iter().zip(1_u16..) {
                let Some((price, over)) = history.on.get(nth).copied().flatten() else { continue };
                let cell =
                    |row| self.context.own(TableKind::Prices, row, AP).map(|cell| cell.from(sheet_names::IN_PICTURES));
                let Some((now, first)) = cell(price).zip(cell(history.first)) else { continue };
                let text = if price == history.first { format!("{now}/{now}") } else { format!("{now}/{first}") };
                cells.push(Cell::figure(column, Formula::number(text, over), Look::Percent(1)));
            }
            out(Row { row, cells });
        }
    }
}
