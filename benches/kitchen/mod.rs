//! An invented kitchen of any size, written as a spreadsheet program would write it.

use std::ops::Range;

use parings::food::KitchenFood;
use parings::measure::Dimension;
use rust_xlsxwriter::{Format, Workbook, Worksheet, XlsxError};

/// How large a kitchen is.
#[derive(Debug, Clone, Copy)]
pub struct Size {
    /// Rows of the price list.
    pub prices: u32,
    /// Recipes. Every fifth is sold; the others are used by the one after them.
    pub recipes: u32,
    /// Lines of a recipe.
    pub lines: u32,
    /// Yield tests.
    pub tests: u32,
    /// Items that borrow the weight of a cup from a built-in food, by turns one that a row names and the one whose name
    /// they bear; at most a quarter of the items.
    pub borrowing: u32,
    /// Whether recipes stand as cards rather than in lists.
    pub cards: bool,
}

/// A large book, in lists.
#[allow(dead_code, reason = "the usual book is another")]
pub const LARGE: Size = Size { prices: 20_000, recipes: 10_000, lines: 20, tests: 200, borrowing: 0, cards: false };

/// What is put into a cell.
#[derive(Debug, Clone)]
enum Cell {
    Text(String),
    /// Hundredths.
    Number(u32),
    Cents(u32),
    Percent(u32),
    Blank,
}

/// The nth of some words, from the first on again after the last.
fn one_of<'w>(words: &[&'w str], n: u32) -> &'w str {
    words.iter().cycle().nth(n as usize % words.len().max(1)).copied().unwrap_or_default()
}

fn text(text: impl Into<String>) -> Cell {
    Cell::Text(text.into())
}

/// A sheet that is written from the top down.
struct Page<'a> {
    sheet: &'a mut Worksheet,
    row: u32,
    money: Format,
    percent: Format,
}

impl Page<'_> {
    #[expect(clippy::disallowed_types, clippy::float_arithmetic, reason = "a spreadsheet's numbers are floats")]
    fn row(&mut self, cells: &[Cell]) -> Result<(), XlsxError> {
        for (column, cell) in (0..).zip(cells) {
            let hundredths = |number: u32| f64::from(number) / 100.0;
            match cell {
                Cell::Text(text) => self.sheet.write_string(self.row, column, text)?,
                Cell::Number(number) => self.sheet.write_number(self.row, column, hundredths(*number))?,
                Cell::Cents(cents) => {
                    self.sheet.write_number_with_format(self.row, column, hundredths(*cents), &self.money)?
                }
                Cell::Percent(percent) => {
                    self.sheet.write_number_with_format(self.row, column, hundredths(*percent), &self.percent)?
                }
                Cell::Blank => continue,
            };
        }
        self.row += 1;
        Ok(())
    }

    fn words(&mut self, words: &[&str]) -> Result<(), XlsxError> {
        self.row(&words.iter().map(|word| text(*word)).collect::<Vec<_>>())
    }
}

/// The book's bytes.
///
/// # Errors
/// When the library that writes it fails.
pub fn book(size: Size) -> Result<Vec<u8>, XlsxError> {
    part(size, 0..size.recipes)
}

/// The book in files that a reader takes: of as many recipes each as stand on one sheet.
///
/// # Errors
/// When the library that writes them fails.
#[allow(dead_code, reason = "only the large book is ever too large for one file")]
pub fn files(size: Size) -> Result<Vec<Vec<u8>>, XlsxError> {
    let most = 15_000;
    let first = (0..size.recipes).step_by(most as usize);
    first.map(|first| part(size, first..size.recipes.min(first + most))).collect()
}

/// Some of the recipes; with the first of them all the rest of the book.
fn part(size: Size, recipes: Range<u32>) -> Result<Vec<u8>, XlsxError> {
    let mut book = Workbook::new();
    let mut sheet = |name: &str, fill: &dyn Fn(&mut Page<'_>) -> Result<(), XlsxError>| {
        let sheet = book.add_worksheet().set_name(name)?;
        let (money, percent) = (Format::new().set_num_format("$#,##0.00"), Format::new().set_num_format("0.0%"));
        fill(&mut Page { sheet, row: 0, money, percent })
    };
    if recipes.start == 0 {
        sheet("Prices", &|page| prices(page, size))?;
        sheet("Yield tests", &|page| tests(page, size))?;
        sheet("Settings", &settings)?;
    }
    sheet("Recipes", &|page| if size.cards { cards(page, size) } else { lists(page, size, recipes.clone()) })?;
    book.save_to_buffer()
}

/// The built-in food that an item borrows from.
fn lender(size: Size, n: u32) -> Option<KitchenFood> {
    let nth = n / 4;
    if n % 4 != 1 || nth >= size.borrowing {
        return None;
    }
    let has_cups = |food: &KitchenFood| food.measures().any(|one| one.unit().dimension() == Dimension::Volume);
    KitchenFood::all().filter(|food| food.is_plain() && has_cups(food)).nth(nth as usize)
}

/// The name of an item: of every other that borrows, the name of a built-in food.
fn item(size: Size, n: u32) -> String {
    let bearing = lender(size, n).filter(|_| n % 8 == 1);
    bearing.map_or_else(|| format!("Item {n}"), |food| food.name().to_owned())
}

fn settings(page: &mut Page<'_>) -> Result<(), XlsxError> {
    page.words(&["Setting", "Value"])?;
    page.words(&["Currency", "USD"])?;
    page.words(&["Costing date", "2026-11-20"])?;
    page.row(&[text("Target food cost"), Cell::Percent(30)])
}

fn prices(page: &mut Page<'_>, size: Size) -> Result<(), XlsxError> {
    page.words(&["Item", "Pack", "Price", "Supplier", "Date", "Yield", "Allergens", "Group", "Reference food"])?;
    for n in 0..size.prices {
        // By the pound or by the gallon; lines ask in ounces and in cups.
        let pack = if n % 4 == 3 { "4/1 gal" } else { one_of(&["50 lb", "6/5 lb", "140 ct 35 lb"], n) };
        let named = lender(size, n).filter(|_| n % 8 == 5);
        page.row(&[
            text(item(size, n)),
            text(pack),
            Cell::Cents(2_000 + n * 37 % 9_000),
            text(format!("Supplier {}", n % 4)),
            text("2026-11-01"),
            if named.is_some() { Cell::Blank } else { Cell::Percent(70 + n % 30) },
            text(one_of(&["none", "milk", "fish; celery"], n)),
            text(format!("Group {}", n % 12)),
            named.map_or(Cell::Blank, |food| text(food.name())),
        ])?;
    }
    Ok(())
}

fn tests(page: &mut Page<'_>, size: Size) -> Result<(), XlsxError> {
    page.words(&["Test", "Role", "Part", "Weight", "Unit", "Charged as", "Value"])?;
    for n in 0..size.tests {
        let mut row = |role: &str, part: String, weight: u32, charged: [Cell; 2]| {
            let [as_what, value] = charged;
            page.row(&[
                text(format!("Breakdown {n}")),
                text(role),
                text(part),
                Cell::Number(weight),
                text("lb"),
                as_what,
                value,
            ])
        };
        row("as purchased", format!("Item {}", n * 4), 4_000, [Cell::Blank, Cell::Blank])?;
        row("main", format!("Main {n}"), 2_350, [Cell::Blank, Cell::Blank])?;
        row("by-product", format!("Bones {n}"), 900, [text("fraction"), Cell::Percent(20)])?;
        row("waste", "Skin".to_owned(), 400, [Cell::Blank, Cell::Blank])?;
    }
    Ok(())
}

/// The nth line of a recipe: item, quantity, unit.
fn line(size: Size, recipe: u32, nth: u32) -> [Cell; 3] {
    if nth == 0 && !recipe.is_multiple_of(5) {
        return [text(format!("Recipe {}", recipe - 1)), Cell::Number(100), text("qt")];
    }
    if nth == 1 && size.tests > 0 {
        let part = if recipe.is_multiple_of(2) { "Main" } else { "Bones" };
        return [text(format!("{part} {}", recipe % size.tests)), Cell::Number(250), text("lb")];
    }
    let n = (recipe * 7 + nth * 11) % size.prices;
    let unit = if n % 4 == 3 || lender(size, n).is_some() { "cup" } else { "oz" };
    [text(item(size, n)), Cell::Number(25 + nth * 150), text(unit)]
}

/// Whether a recipe is a dish.
fn is_sold(recipe: u32) -> bool {
    recipe % 5 == 4
}

fn cards(page: &mut Page<'_>, size: Size) -> Result<(), XlsxError> {
    for recipe in 0..size.recipes {
        page.row(&[text("Recipe"), text(format!("Recipe {recipe}"))])?;
        page.words(&["Makes", "6 qt"])?;
        page.words(&["Portion", "8 fl oz"])?;
        if is_sold(recipe) {
            page.row(&[text("Menu price"), Cell::Cents(900 + recipe)])?;
        }
        page.words(&["Ingredient", "Qty", "Unit"])?;
        for nth in 0..size.lines {
            page.row(&line(size, recipe, nth))?;
        }
        page.row += 1;
    }
    Ok(())
}

fn lists(page: &mut Page<'_>, size: Size, recipes: Range<u32>) -> Result<(), XlsxError> {
    page.words(&["Recipe", "Makes", "Portion", "Menu price"])?;
    for recipe in recipes.clone() {
        let price = if is_sold(recipe) { Cell::Cents(900 + recipe % 1_000) } else { Cell::Blank };
        page.row(&[text(format!("Recipe {recipe}")), text("6 qt"), text("8 fl oz"), price])?;
    }
    page.row += 1;
    page.words(&["Recipe", "Ingredient", "Qty", "Unit"])?;
    for recipe in recipes {
        for nth in 0..size.lines {
            let [item, quantity, unit] = line(size, recipe, nth);
            page.row(&[text(format!("Recipe {recipe}")), item, quantity, unit])?;
        }
    }
    Ok(())
}
