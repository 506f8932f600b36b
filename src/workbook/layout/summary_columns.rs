//! Columns of the Summary: their headers and cells, to which other sheets link.

use crate::schema::own_sheets;
use crate::workbook::cells::formula::Ref;
use crate::workbook::layout::sheet_names;

/// The columns of the Summary.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SummaryColumn {
    /// The dish.
    Dish,
    /// What one portion costs.
    PortionCost,
    /// The menu price as typed.
    MenuPrice,
    /// Portion cost over the price without tax.
    FoodCost,
    /// What it should be.
    Target,
    /// The price that meets the target.
    PriceAtTarget,
    /// Price without tax less portion cost.
    Margin,
    /// Where it stands, in words.
    Standing,
}

/// The headers, exactly.
pub const HEADERS: [&str; 8] = own_sheets::SUMMARY;

/// The zero-based row of the headers.
pub const HEADER_ROW: u32 = 6;

impl SummaryColumn {
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
        Ref::new(sheet_names::SUMMARY, HEADER_ROW.saturating_add(below), self.column())
    }
}
