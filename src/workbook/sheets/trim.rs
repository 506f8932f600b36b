//! The Trim sheet: where the weight and the money of every yield test went, whether there is enough for the plan, the
//! kitchen three times, and below it the rates that these stand on.
//!
//! Weights of the plan and grams a portion takes are readings: they change with quantities and portions, and want the book
//! to be costed again; they say so once plan, stock, recipes or yields are others. Money is live: prices, values and
//! credits may be changed.

mod balance;
mod charged;
mod drawn_on;
mod enough;
mod flow;
mod held;
mod kitchens;
mod places;
mod planned;
mod purchases;
mod rates;
mod sides;
mod taken;
mod totals;
mod within;

use std::collections::BTreeMap;

pub use charged::TrimCharged;
use places::Places;
use planned::StandsOn;

use crate::analysis::Trim;
use crate::food::care;
use crate::in_order::InOrder;
use crate::number::{Decimal, plain};
use crate::results::answer::answer;
use crate::schema::own_sheets;
use crate::workbook::cells::formula::Ref;
use crate::workbook::cells::row::{Cell, Frame, Ink, Look, PrintedPage as Paper, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::sheet_names;

/// Headers of columns that hold words; the others stand above figures.
const WORDS: [&str; 8] = ["Part", "Unit", "Role", "Charged as", "Carries", "of", "Day", "What trim is to it"];

/// The letters of a line of the answer: as wide as the first columns together.
const ANSWER_WIDTH: usize = 140;

/// The frame of the sheet.
pub fn frame(context: &Context<'_>, trim: &Trim) -> Frame {
    let places = Places::of(context, trim);
    let frame = Frame::new(sheet_names::TRIM, vec![34, 12, 12, 12, 12, 22, 13, 12, 12, 13, 13, 13, 13, 13, 13]);
    let pictures = flow::picture(context, trim, &places).into_iter().chain(sides::pictures(context, &places));
    let mut groups = places.headings();
    groups.extend(sides::groups(&places));
    groups.put_in_order();
    let frame = frame.in_groups(groups);
    // What the weights stand on is for the screen.
    let page = Paper { last_row: Some(places.stands.saturating_sub(1)), ..frame.page };
    Frame { pictures: pictures.collect(), frozen_columns: 1, page, ..frame }
}

/// Its rows.
pub fn rows(context: &Context<'_>, trim: &Trim, out: &mut RowSink<'_>) {
    let places = Places::of(context, trim);
    let stands_on = StandsOn::of(context, trim);
    let mut page = TrimSheet { context, trim, places: &places, stands_on, cells: BTreeMap::new() };
    page.put(0, Cell::text(0, context.mark, Ink::Aside));
    page.put(0, Cell::back(7));
    if !trim.sweeps.is_empty() {
        let what_if = Ref::new(sheet_names::WHAT_IF, 0, 0);
        page.put(0, Cell::link(6, sheet_names::WHAT_IF, &what_if, Ink::Reading));
    }
    page.put(1, Cell::text(0, own_sheets::TRIM_TITLE, Ink::Title));
    page.answer();
    flow::write(&mut page);
    sides::write(&mut page);
    balance::write(&mut page);
    enough::write(&mut page);
    purchases::write(&mut page);
    kitchens::write(&mut page);
    held::write(&mut page);
    page.cautions();
    rates::write(&mut page);
    page.stands();
    for (row, mut cells) in page.cells {
        cells.put_in_order_by_key(|cell| cell.column);
        out(Row { row, cells });
    }
}

/// The sheet while it is written.
struct TrimSheet<'a> {
    context: &'a Context<'a>,
    trim: &'a Trim,
    places: &'a Places,
    stands_on: StandsOn,
    cells: BTreeMap<u32, Vec<Cell>>,
}

impl TrimSheet<'_> {
    fn put(&mut self, row: u32, cell: Cell) {
        self.cells.entry(row).or_default().push(cell);
    }

    fn section(&mut self, row: u32, title: &str) {
        self.put(row, Cell::text(0, title, Ink::Section));
    }

    fn headers(&mut self, row: u32, headers: &[&str]) {
        for (header, column) in headers.iter().zip(0_u16..) {
            self.put(row, Cell::over(column, header, WORDS.contains(header)));
        }
    }

    /// A heading above a table, and its headers below it.
    fn head(&mut self, row: u32, title: &str, headers: &[&str]) {
        self.section(row, title);
        self.headers(row.saturating_add(1), headers);
    }

    /// A heading, a line that says how to read the table, and its headers.
    fn told_head(&mut self, row: u32, title: &str, told: &str, headers: &[&str]) {
        self.section(row, title);
        self.sentence(row.saturating_add(1), told);
        self.headers(row.saturating_add(2), headers);
    }

    /// A sentence that stands alone in its row: it begins beside the column that stands on every strip again, where all but
    /// the first would cut it.
    fn sentence(&mut self, row: u32, text: &str) {
        self.put(row, Cell { look: flowing(text), ..Cell::text(1, text, Ink::Plain) });
    }

    fn reading(&mut self, row: u32, column: u16, number: Decimal, look: Look) {
        self.put(row, Cell::number(column, number, Ink::Reading, look));
    }

    fn figure(&mut self, row: u32, column: u16, text: String, result: Decimal, look: Look) {
        self.put(row, Cell::figure(column, crate::workbook::cells::formula::Formula::number(text, result), look));
    }

    /// Money that comes of a costing of its own: it stands while the live cells that it hangs on and the plan are what they
    /// were, and else asks to cost again.
    fn while_stand(&mut self, row: u32, column: u16, cells: &[(String, Decimal)], money: Decimal) {
        let cells = cells.iter().map(|(cell, was)| format!("ABS({cell}-{})<0.000000001", plain(*was)));
        let stand: Vec<String> = self.as_planned().into_iter().chain(cells).collect();
        // Words in arithmetic are an error, which some programs pass over where another argument says no.
        let text = format!("IF(IFERROR(AND({}),FALSE),{},\"cost again\")", stand.join(","), plain(money));
        self.figure(row, column, text, money, self.context.money());
    }

    fn words(&mut self, row: u32, column: u16, text: &str) {
        let look = if column == 0 { Look::General } else { Look::Words };
        self.put(row, Cell { look, ..Cell::text(column, text, Ink::Reading) });
    }

    /// The answer in words, as the book was costed: the tables below are live, these lines are not.
    fn answer(&mut self) {
        let lines = answer(self.context.kitchen, self.context.costing, self.trim, ANSWER_WIDTH);
        if lines.is_empty() {
            return;
        }
        let day = self.context.costing.scenario.date;
        let title = format!("In short, as costed on {day}: cost again after a change");
        self.put(self.places.answer, Cell::text(0, title, Ink::Section));
        for (line, row) in lines.into_iter().zip(self.places.answer.saturating_add(1)..) {
            self.put(row, Cell::text(0, line, Ink::Reading));
        }
    }

    fn cautions(&mut self) {
        let start = self.places.cautions;
        self.put(start, Cell::text(0, "When trim is kept", Ink::Section));
        let kept = care::KEPT.iter().map(|caution| match caution.section {
            Some(section) => format!("{} ({} {section})", caution.text, care::CODE),
            None => caution.text.to_owned(),
        });
        let all = kept.chain([care::ALLERGENS.to_owned(), care::WHO_DECIDES.to_owned()]);
        for (text, row) in all.zip(start.saturating_add(1)..) {
            self.sentence(row, &text);
        }
    }
}

/// How a sentence is shown: a long one wraps over the columns that are beside each other on paper.
fn flowing(text: &str) -> Look {
    const LAST: u16 = 7;
    const LETTERS: usize = 85;
    if text.chars().count() > LETTERS { Look::Flowing(LAST) } else { Look::General }
}
