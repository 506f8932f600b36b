//! The workbook of a recipe in another size: a kitchen card to print for it, and for each recipe within it that is scaled
//! as well. It holds no money.

use std::collections::BTreeSet;

use jiff::civil::DateTime;
use rust_xlsxwriter::XlsxError;

use super::binder::Binder;
use super::notes::CellNotes;
use super::page_setup::Paper;
use super::sheet::Drawn;
use super::{to_print, workers};
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::workbook::cells::unprintable::is_unprintable;
use crate::workbook::layout::CardsAsked;
use crate::workbook::sheets::kitchen_cards::scaled::{Scaled, frame, rows, starts};

/// The workbook's bytes.
///
/// # Errors
/// When a card has more rows than a sheet can hold.
pub fn write(
    kitchen: &Kitchen,
    costing: &Costing,
    all: &[Scaled<'_>],
    origins: &[String],
    at: DateTime,
) -> Result<Vec<u8>, XlsxError> {
    let chosen: BTreeSet<_> = all.iter().map(|(id, _)| *id).collect();
    let cards = CardsAsked { chosen: &chosen, ..CardsAsked::USUAL };
    to_print::drawn(kitchen, costing, cards, origins, |context| {
        let paper = Paper::of(context, None);
        workers::hire(|crew| {
            let mut binder = Binder::new(&paper, crew);
            let starts = starts(context, all);
            binder.take(Drawn::of(frame(&starts), CellNotes::new(), |out| rows(context, all, &starts, out))?)?;
            let title = all.first().map(|(_, scaled)| scaled.name).unwrap_or_default();
            binder.bound(&super::stamped(&format!("Kitchen card: {}", short(title)), at)?, Vec::new())
        })
    })
}

/// A name as a title holds it.
fn short(name: &str) -> String {
    const MOST: usize = 100;
    name.chars().filter(|c| !is_unprintable(*c)).take(MOST).collect()
}
