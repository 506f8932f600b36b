//! The sheet What changed: new prices beside the old. What was is a constant, what is now is live, and so is the
//! difference.

mod dishes;
mod in_short;
mod lists;
mod prices;
mod way;
mod within;

use crate::analysis::reprice::Mover;
use crate::in_order::InOrder;
use crate::number::Decimal;
use crate::results::changes::Changes;
use crate::results::figures::at_most;
use crate::schema::own_sheets;
use crate::workbook::cells::chart::{Labels, Picture, PictureKind, Series, Span, Tint};
use crate::workbook::cells::formula::Formula;
use crate::workbook::cells::row::{Cell, Frame, Ink, Look, PrintedPage, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::sheet_names;

/// The most items in the picture: as many as can be told apart.
const PICTURED: usize = 12;
/// The height of a bar and of what stands round them, in pixels.
const BAR: u32 = 26;
const AROUND: u32 = 110;
/// The height of a row in pixels, as spreadsheet programs have it.
const ROW_PIXELS: u32 = 20;
/// The first row below the title and what is said there.
const FIRST: u32 = 5;

/// The frame of the sheet.
pub fn frame(context: &Context<'_>, changes: &Changes<'_>) -> Frame {
    let frame = Frame::new(sheet_names::CHANGED, vec![30, 12, 11, 11, 12, 11, 10, 12, 10, 11, 16]);
    let pictures = [picture(context, changes), way::picture(context, changes)];
    let mut groups = way::groups(changes);
    groups.push(detail(changes));
    rows(context, changes, &mut |row| {
        groups.extend(row.cells.iter().any(|cell| cell.ink == Ink::Section).then_some(row.row));
    });
    groups.put_in_order();
    groups.dedup();
    let frame = frame.in_groups(groups);
    // Page one is for the owner; what it comes from follows.
    let page = PrintedPage { begins: vec![detail(changes)], ..frame.page };
    Frame { pictures: pictures.into_iter().flatten().collect(), page, ..frame }
}

/// The row with which the second page begins.
fn detail(changes: &Changes<'_>) -> u32 {
    FIRST.saturating_add(in_short::rows(changes))
}

/// The movers that the picture shows: those that matter most, costlier or cheaper.
fn pictured<'a>(changes: &Changes<'a>) -> Vec<(usize, &'a Mover)> {
    let mut shown: Vec<(usize, &Mover)> =
        changes.effects.movers.iter().enumerate().filter(|(_, mover)| !mover.size().is_zero()).collect();
    shown.put_in_order_by_key(|(at, mover)| (std::cmp::Reverse(mover.size()), *at));
    shown.truncate(PICTURED);
    shown.put_in_order_by_key(|(at, _)| *at);
    shown
}

/// Rows that the picture takes, with one free below it; none where there is none.
fn picture_rows(changes: &Changes<'_>) -> u32 {
    match u32::try_from(pictured(changes).len()).unwrap_or_default() {
        0 => 0,
        bars => height(bars).div_ceil(ROW_PIXELS).saturating_add(1),
    }
}

fn height(bars: u32) -> u32 {
    bars.saturating_mul(BAR).saturating_add(AROUND)
}

/// The picture stands below the title, and its cells below the items.
fn picture(context: &Context<'_>, changes: &Changes<'_>) -> Option<Picture> {
    let bars = u32::try_from(pictured(changes).len()).ok().filter(|bars| *bars > 0)?;
    let first = prices::pictured_row(changes);
    let span = |column| Span { column, first, last: first.saturating_add(bars).saturating_sub(1) };
    let said = pictured(changes).into_iter().filter_map(|(_, mover)| {
        let name = &changes.new.item(mover.item)?.name;
        Some(format!("{name} {}", at_most(mover.worth.ok()?, 2)))
    });
    Some(Picture {
        title: format!("What the new prices cost, or save, over {}", changes.basket()),
        told: format!(
            "Bars of what each moved price is worth, costlier to the right: {}",
            said.collect::<Vec<String>>().join("; ")
        ),
        kind: PictureKind::Bars,
        at: (detail(changes), 0),
        size: (900, height(bars)),
        names: span(0),
        series: vec![Series::new("Worth", span(prices::WORTH), Tint::Basket).labelled(Labels::Behind)],
        names_look: Look::General,
        look: context.money(),
        axes: (None, None),
        begins: None,
    })
}

/// Its rows.
pub fn rows(context: &Context<'_>, changes: &Changes<'_>, out: &mut RowSink<'_>) {
    let mut page = Writing { context, changes, row: 0, out };
    page.put(vec![Cell::text(0, context.mark, Ink::Aside), Cell::back(8)]);
    page.put(vec![Cell::text(0, "What changed", Ink::Title)]);
    let day = changes.now.scenario.date;
    page.say(&format!("Costed on {day}, before and after. {}", own_sheets::CHANGED_SAID));
    lists::files(&mut page);
    page.row = FIRST;
    in_short::write(&mut page);
    page.row = detail(changes).saturating_add(picture_rows(changes));
    prices::movers(&mut page);
    prices::pictured(&mut page);
    way::way(&mut page);
    prices::index(&mut page);
    dishes::dishes(&mut page);
    dishes::drivers(&mut page);
    within::within(&mut page);
    prices::switches(&mut page);
    lists::rest(&mut page);
}

/// The sheet while it is written, from the top down.
struct Writing<'a, 'o> {
    context: &'a Context<'a>,
    changes: &'a Changes<'a>,
    row: u32,
    out: &'a mut RowSink<'o>,
}

impl Writing<'_, '_> {
    fn put(&mut self, cells: Vec<Cell>) {
        (self.out)(Row { row: self.row, cells });
        self.row = self.row.saturating_add(1);
    }

    fn say(&mut self, text: &str) {
        self.put(vec![Cell::text(0, text, Ink::Plain)]);
    }

    /// A heading and the headers below it; headers in `words` stand over words.
    fn head(&mut self, title: &str, headers: &[&str], words: &[&str]) {
        self.row = self.row.saturating_add(1);
        self.put(vec![Cell::text(0, title, Ink::Section)]);
        self.headers(headers, words);
    }

    fn headers(&mut self, headers: &[&str], words: &[&str]) {
        let cells = headers.iter().zip(0_u16..).map(|(header, at)| Cell::over(at, header, words.contains(header)));
        self.put(cells.collect());
    }

    /// A cell of the row above the one that is being written.
    fn above(&self, column: u16) -> String {
        crate::workbook::cells::formula::Ref::new(sheet_names::CHANGED, self.row.saturating_sub(1), column).cell()
    }

    /// A cell of the row that is being written.
    fn here(&self, column: u16) -> String {
        crate::workbook::cells::formula::Ref::new(sheet_names::CHANGED, self.row, column).cell()
    }
}

/// A figure from before: a constant.
fn before(column: u16, number: Decimal, look: Look) -> Cell {
    Cell::number(column, number, Ink::Reading, look)
}

/// A live figure.
fn live(column: u16, text: impl Into<String>, result: Decimal, look: Look) -> Cell {
    Cell::figure(column, Formula::number(text, result), look)
}

/// Words beside figures.
fn words(column: u16, text: impl Into<String>) -> Cell {
    Cell { look: Look::Words, ..Cell::text(column, text, Ink::Reading) }
}
