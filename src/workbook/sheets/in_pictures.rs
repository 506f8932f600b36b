//! The sheet In pictures: what every menu price is made of, and how the prices moved that moved most; each picture above
//! the cells it is drawn from.

mod history;
mod price_apart;

use crate::analysis::Trim;
use crate::analysis::price_history::Histories;
use crate::results::price_apart::Apart;
use crate::schema::own_sheets;
use crate::workbook::cells::row::{Cell, Frame, Ink, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::sheet_names;
use history::HistoryPicture;
use price_apart::PriceApart;

/// The first row below the title.
const FIRST: u32 = 3;
/// The height of a row in pixels, as spreadsheet programs have it.
const ROW_PIXELS: u32 = 20;
/// How wide a picture is: as the columns together.
const WIDE: u32 = 770;

/// What the sheet shows.
pub struct Pictures<'a> {
    prices: PriceApart<'a>,
    history: Option<HistoryPicture<'a>>,
}

impl<'a> Pictures<'a> {
    /// Whether there is anything to show.
    pub fn any(context: &Context<'_>) -> bool {
        Apart::any(context.kitchen, context.costing) || Histories::of(context.kitchen, context.costing).is_some()
    }

    /// What there is; `trim` knows what of the dishes' food is trim.
    pub fn of(context: &'a Context<'a>, trim: Option<&'a Trim>) -> Self {
        let prices = PriceApart::of(context, trim, FIRST);
        let history = Histories::of(context.kitchen, context.costing);
        let below = prices.end();
        Pictures { history: history.map(|histories| HistoryPicture { context, histories, start: below }), prices }
    }

    /// The frame of the sheet.
    pub fn frame(&self) -> Frame {
        let (mut pictures, mut groups) = self.prices.pictures();
        if let Some(history) = &self.history {
            pictures.push(history.picture());
            groups.push(history.start);
        }
        let frame = Frame::new(sheet_names::IN_PICTURES, vec![30, 11, 11, 11, 11, 11, 11, 11]);
        Frame { pictures, ..frame.upright().in_groups(groups) }
    }

    /// Its rows.
    pub fn rows(&self, context: &Context<'_>, out: &mut RowSink<'_>) {
        out(Row { row: 0, cells: vec![Cell::text(0, context.mark, Ink::Aside), Cell::back(6)] });
        out(Row { row: 1, cells: vec![Cell::text(0, own_sheets::IN_PICTURES_TITLE, Ink::Title)] });
        self.prices.rows(out);
        if let Some(history) = &self.history {
            history.rows(out);
        }
    }
}

/// How many rows so many pixels cover, and one below them.
fn rows_of(pixels: u32) -> u32 {
    pixels.div_ceil(ROW_PIXELS).saturating_add(1)
}
