//! A whole book to fill in: the guide, then a sheet for every kind of table.

use rust_xlsxwriter::XlsxError;

use super::card::{self, Example};
use super::columns::{self, Column};
use super::form::Form;
use super::pen::{Book, Cell};
use super::region::Region;
use super::{choices, example_metric, example_us, guide, rules};

/// What stands in the Note of the example's rows.
pub const MARK: &str = "EXAMPLE – delete this row";

/// The last day of the example's promotion: none that passes while somebody looks at the example.
pub const PROMOTION: Cell = Cell::Day(2036, 12, 31);

/// The first day of the example's period, week 47 of 2026.
pub const FIRST_DAY: Cell = Cell::Day(2026, 11, 16);
/// Its last day.
pub const LAST_DAY: Cell = Cell::Day(2026, 11, 22);

/// Rows of cells of their own.
pub fn owned(rows: &[&[Cell]]) -> Vec<Vec<Cell>> {
    rows.iter().map(|row| row.to_vec()).collect()
}

/// The rows of an example, sheet by sheet.
#[derive(Default)]
pub struct Rows {
    /// Prices.
    pub prices: Vec<Vec<Cell>>,
    /// Measures.
    pub measures: Vec<Vec<Cell>>,
    /// Yield tests.
    pub tests: Vec<Vec<Cell>>,
    /// Recipe cards.
    pub cards: Vec<Example>,
    /// The menu.
    pub menu: Vec<Vec<Cell>>,
    /// The plan.
    pub plan: Vec<Vec<Cell>>,
    /// What is on hand.
    pub stock: Vec<Vec<Cell>>,
    /// What holds for suppliers.
    pub suppliers: Vec<Vec<Cell>>,
    /// What food really cost.
    pub control: Vec<Vec<Cell>>,
    /// What was counted.
    pub counts: Vec<Vec<Cell>>,
}

/// The book, with or without its example.
pub fn book(region: Region, example: bool) -> Result<Vec<u8>, XlsxError> {
    let rows = match (example, region) {
        (false, _) => Rows::default(),
        (true, Region::Us) => example_us::rows(),
        (true, Region::Metric) => example_metric::rows(),
    };
    let about = if example { "To be filled in; the rows in it are an invented example." } else { "To be filled in." };
    let mut book = Book::about("A kitchen's book", about, region.paper())?;
    guide::add(&mut book, region, example)?;
    let mut form = |name, about, columns: &[Column], example: &[Vec<Cell>], empty, wide| {
        Form { name, about, wide, columns, example, empty }.add(&mut book, region)
    };
    form(
        "Prices",
        "One row for each price. When one changes, add a row with its date and keep the old one.",
        &columns::prices(region),
        &rows.prices,
        50,
        true,
    )?;
    form(
        "Measures",
        "What one cup, bunch or piece weighs in your kitchen, where a recipe asks for it so.",
        &columns::measures(region),
        &rows.measures,
        35,
        false,
    )?;
    form(
        "Yield tests",
        "What went in and what came out when something was broken down or cooked. Its rows bear the test's name.",
        &columns::yield_tests(region),
        &rows.tests,
        50,
        true,
    )?;
    if example {
        card::examples(&mut book, region, &rows.cards)?;
    }
    card::empty(&mut book, region)?;
    let mut form = |name, about, columns: &[Column], example: &[Vec<Cell>], empty, wide| {
        Form { name, about, wide, columns, example, empty }.add(&mut book, region)
    };
    form(
        "Menu",
        "What is sold. One recipe may be several dishes: a cup and a bowl.",
        &columns::menu(region),
        &rows.menu,
        30,
        true,
    )?;
    form("Plan", "What will be served.", &columns::plan(region), &rows.plan, 35, false)?;
    form(
        "Stock",
        "What is on hand, trim in the freezer too, and what is on order.",
        &columns::stock(region),
        &rows.stock,
        35,
        false,
    )?;
    form(
        "Suppliers",
        "The least that each of them delivers.",
        &columns::suppliers(region),
        &rows.suppliers,
        25,
        false,
    )?;
    form(
        "Names",
        "What else your kitchen calls something. A supplier's new list does not lose it.",
        &columns::names(region),
        &[],
        35,
        false,
    )?;
    form(
        "Control",
        "What food really cost, a row for each period.",
        &columns::control(region),
        &rows.control,
        25,
        true,
    )?;
    form(
        "Counts",
        "What was counted on the first and the last day of the period: what food really cost, item by item.",
        &columns::counts(region),
        &rows.counts,
        25,
        true,
    )?;
    rules::add(&mut book, region, example)?;
    let stocks: Vec<&'static str> = rows.cards.iter().filter_map(Example::name).collect();
    choices::add(&mut book, region, &stocks)?;
    book.bytes()
}
