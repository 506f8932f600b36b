//! Suppliers' new lists beside a book: what is read, what it is matched with, what is taken and what is held back.

mod chance;
mod held;
mod layouts;
mod matched;
mod moved;
mod rows;
mod speed;
mod whose;

use jiff::civil::date;
use parings::analysis::supplier_list::{Held, Move, NotTaken, Taken};
use parings::internals::flags_in_words;
use parings::problem::Problem;
use parings::{Costing, ListOptions, PriceList, ReadError, Reading, Scenario, Source, cost, read_list};
use rust_decimal::Decimal;

use crate::support::cost_bytes;

/// A small book: two suppliers, one history, a second name and a catch weight.
pub const BOOK: &str = "\
Item,Pack,Price,Per,Supplier,Code,Date,Yield,Also called,Preferred
Onions,50 lb,$25.00,,Green Valley,1001,2026-09-01,,,
Onions,50 lb,$26.00,,Green Valley,1001,2026-10-01,90%,,
Carrots,25 lb,$20.00,,Green Valley,1002,2026-10-01,,,
Butter,36/1 lb,$108.00,,Green Valley,1003,2026-10-01,,Unsalted butter,yes
Chicken,2/20 lb avg,$1.80,lb,The Poultry Man,77,2026-10-01,,,
";

/// A book with a list beside it.
pub struct Compared {
    pub reading: Reading,
    pub list: PriceList,
}

fn book(text: &str) -> (Reading, Costing) {
    cost_bytes(&[("book.csv", text.as_bytes())])
}

/// A list compared with a book, or why it cannot be read.
pub fn tried(book_text: &str, files: &[(&str, &str)], options: &ListOptions) -> Result<Compared, ReadError> {
    let (reading, costing) = book(book_text);
    let sources: Vec<Source<'_>> = files.iter().map(|(name, text)| Source { name, bytes: text.as_bytes() }).collect();
    let list = read_list(&reading, &costing, &sources, options)?;
    Ok(Compared { reading, list })
}

/// A list of Green Valley's, dated 1 November, compared with [`BOOK`].
#[track_caller]
pub fn compared(list: &str) -> Compared {
    with(BOOK, list, &of_green_valley())
}

#[track_caller]
pub fn with(book_text: &str, list: &str, options: &ListOptions) -> Compared {
    tried(book_text, &[("list.csv", list)], options).unwrap_or_else(|error| panic!("{error}"))
}

pub fn of_green_valley() -> ListOptions {
    ListOptions { supplier: Some("Green Valley".to_owned()), dated: Some(date(2026, 11, 1)), ..ListOptions::default() }
}

impl Compared {
    #[track_caller]
    pub fn taken(&self, item: &str) -> &Taken {
        let found = self.list.taken.iter().find(|taken| taken.price.item == item);
        found.unwrap_or_else(|| panic!("{item} was not taken: {:#?}", self.told()))
    }

    #[track_caller]
    pub fn moved(&self, item: &str) -> &Move {
        &self.taken(item).moved
    }

    /// The fraction by which the price per unit of an item rose.
    #[track_caller]
    pub fn by(&self, item: &str) -> Decimal {
        self.moved(item).by.unwrap_or_else(|| panic!("{item} is not compared")).normalize()
    }

    #[track_caller]
    pub fn held(&self, item: &str) -> &Held {
        let name = |held: &Held| held.item.and_then(|id| self.reading.kitchen.item(id)).map(|item| item.name.as_str());
        let found = self.list.held.iter().find(|held| name(held) == Some(item));
        found.unwrap_or_else(|| panic!("{item} was not held: {:#?}", self.told()))
    }

    pub fn whys(&self) -> Vec<NotTaken> {
        self.list.held.iter().map(|held| held.why).collect()
    }

    /// The names of the items that the list does not have.
    pub fn missing(&self) -> Vec<&str> {
        let items = self.list.missing.iter().filter_map(|missing| self.reading.kitchen.item(missing.item));
        items.map(|item| item.name.as_str()).collect()
    }

    /// Every problem in full: where, which code, what is said and what to do.
    pub fn told(&self) -> Vec<String> {
        self.list.problems.iter().map(told).collect()
    }

    /// The costing with the list's rows in the book, and that book.
    pub fn repriced(&self) -> (Reading, Costing) {
        let reading = self.reading.with_list(&self.list);
        let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
        (reading, costing)
    }
}

/// A problem in full, as the command line says it.
pub fn told(problem: &Problem) -> String {
    let problem = problem.saying(flags_in_words);
    format!("{} [{}] {}. {}", problem.place, problem.code, problem.message(), problem.help)
}

pub fn dec(text: &str) -> Decimal {
    text.parse().unwrap()
}
