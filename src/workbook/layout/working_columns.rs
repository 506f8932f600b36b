//! Columns of the dishes in How it was figured, to which other sheets refer.

use crate::schema::own_sheets;
use crate::workbook::cells::formula::Ref;
use crate::workbook::layout::sheet_names;

/// The columns of the dishes in How it was figured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WorkingColumn {
    /// The dish.
    Dish,
    /// Its recipe.
    Recipe,
    /// Its share of the batch.
    Share,
    /// Ingredients.
    Food,
    /// Accompaniments.
    Q,
    /// Seasoning.
    Spice,
    /// All three.
    PortionCost,
    /// The menu price without tax.
    ExTax,
}

/// The headers.
pub const HEADERS: [&str; 8] = own_sheets::WORKING;
/// The zero-based row of the dishes' headers.
pub const HEADER_ROW: u32 = 2;

impl WorkingColumn {
    /// Its zero-based column.
    pub fn column(self) -> u16 {
        self as u16
    }

    /// Its header.
    pub fn header(self) -> &'static str {
        HEADERS.get(usize::from(self.column())).copied().unwrap_or_default()
    }

    /// The cell of the dish at `index`.
    pub fn cell(self, index: usize) -> Ref {
        let below = u32::try_from(index).unwrap_or(u32::MAX).saturating_add(1);
        Ref::new(sheet_names::WORKING, HEADER_ROW.saturating_add(below), self.column())
    }
}
