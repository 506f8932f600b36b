//! Entries: everything read from a book, row by row and in book order, before any name is looked up.

use super::InputRow;
use super::bridge::MeasureRow;
use super::layout::LayoutRow;
use super::menu::MenuRow;
use super::names::NamesRow;
use super::plan::{ControlRow, CountRow, PlanRow, StockRow};
use super::price::PriceRow;
use super::recipe::RecipeEntry;
use super::settings::SettingRow;
use super::supplier::SupplierTerms;
use super::yield_test::TestRow;
use crate::schema::TableKind;

/// The rows of a book.
#[derive(Debug, Clone, Default)]
#[non_exhaustive]
pub struct Entries {
    /// Price rows.
    pub prices: Vec<PriceRow>,
    /// Measure rows.
    pub measures: Vec<MeasureRow>,
    /// Yield-test rows.
    pub tests: Vec<TestRow>,
    /// Recipes.
    pub recipes: Vec<RecipeEntry>,
    /// Menu rows.
    pub menu: Vec<MenuRow>,
    /// Plan rows.
    pub plan: Vec<PlanRow>,
    /// Stock rows.
    pub stock: Vec<StockRow>,
    /// Rows of stock counts.
    pub counts: Vec<CountRow>,
    /// Control rows.
    pub control: Vec<ControlRow>,
    /// Rows of names.
    pub names: Vec<NamesRow>,
    /// Rows of supplier layouts.
    pub layouts: Vec<LayoutRow>,
    /// Rows of suppliers.
    pub suppliers: Vec<SupplierTerms>,
    /// Settings.
    pub settings: Vec<SettingRow>,
    /// Rows without a name: written back, so that nothing typed is lost.
    pub unread: Vec<(TableKind, InputRow)>,
    /// The ISO 4217 code of the book's currency, by its setting or the signs in its money cells; `None` when neither says.
    pub currency: Option<String>,
}
