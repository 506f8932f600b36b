//! What the trim in a portion of a dish is charged, as another sheet reads it of this one.

use super::places::Places;
use super::within;
use crate::analysis::Trim;
use crate::kitchen::plan::Served;
use crate::workbook::cells::formula::Ref;
use crate::workbook::context::Context;
use crate::workbook::layout::sheet_names;

/// Where the charges of the trim in every dish stand.
pub struct TrimCharged<'a> {
    trim: &'a Trim,
    places: Places,
}

impl<'a> TrimCharged<'a> {
    /// Those of a book's Trim sheet.
    pub fn of(context: &Context<'_>, trim: &'a Trim) -> Self {
        TrimCharged { trim, places: Places::of(context, trim) }
    }

    /// What the trim in a portion of the dish is charged, as a formula on `sheet`: grams times what a gram is charged;
    /// `None` where none stands there.
    pub fn text(&self, dish: usize, sheet: &str) -> Option<String> {
        let cell = |row, column| Ref::new(sheet_names::TRIM, row, column).from(sheet);
        let used = self.places.used.by(Served::Dish(dish));
        let terms: Vec<String> = used
            .iter()
            .filter_map(|(part, _, row)| {
                within::held(self.trim, *part)?;
                Some(format!("{}*{}", cell(*row, 1), cell(*self.places.rated.get(part)?, within::CHARGED)))
            })
            .collect();
        (!terms.is_empty()).then(|| terms.join("+"))
    }
}
