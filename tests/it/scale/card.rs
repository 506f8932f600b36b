//! Kitchen cards of a recipe in another size: what a cook reads and nothing that costs, passed over when it is read as a book.

use std::io::Cursor;

use calamine::{Data, Reader, Xlsx};
use jiff::civil::date;
use parings::analysis::Resized;
use parings::analysis::resize::{Request, Size};
use parings::{Options, Source, read, write_scaled};

use super::support::{by, request};
use crate::support::cost_bytes;
use crate::workbook::TEACHING_KITCHEN;

fn written(name: &str, book: &[u8], request: &Request) -> Vec<u8> {
    let (reading, costing) = cost_bytes(&[(name, book)]);
    let resized = Resized::of(&reading.kitchen, &costing, request).unwrap();
    write_scaled(&reading, &costing, &resized, date(2026, 11, 20).at(9, 0, 0, 0)).unwrap()
}

/// The rows that are filled, their cells parted by bars.
fn told(workbook: &[u8]) -> Vec<String> {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(workbook)).unwrap();
    assert_eq!(book.sheet_names(), ["Kitchen cards"]);
    let formulas = book.worksheet_formula("Kitchen cards").unwrap();
    assert!(formulas.used_cells().all(|(.., formula)| formula.is_empty()), "it stands alone");
    let range = book.worksheet_range("Kitchen cards").unwrap();
    let texts = range.rows().map(|row| {
        let cells = row.iter().map(|cell| match cell {
            Data::Empty => String::new(),
            other => other.to_string().trim().to_owned(),
        });
        cells.filter(|cell| !cell.is_empty()).collect::<Vec<_>>().join(" | ")
    });
    texts.filter(|row| !row.is_empty()).collect()
}

/// Thrice the stock of the sample: 2 lb of shells are 6, 12 oz of fennel 2 lb 4 oz, 9 qt of water 27, 6 3/4 gal.
#[test]
fn a_cook_reads_quantities_that_can_be_measured_and_no_money() {
    let bytes = written("teaching-kitchen.xlsx", TEACHING_KITCHEN, &by("Shrimp shell stock", "3"));
    let rows = told(&bytes);
    assert!(rows[0].starts_with("Figured by parings"), "{rows:#?}");
    let begins = [
        "Shrimp shell stock | A kitchen card in another size",
        // 8 qt × 3.
        "Makes | 6 gal",
        "Scaled | 3 × the recipe: season to taste",
        "Note | Crustaceans pass into the stock and into all that is made of it.",
        "Qty | Unit | Ingredient | How",
        "6 | lb | Shrimp shells",
        "12 | lb | Shrimp heads",
    ];
    assert_eq!(rows[1..=begins.len()], begins);
    for row in [
        "2 1/4 | lb | Fennel | trimmed; keep the fronds",
        // 1.5 lb × 3.
        "4 1/2 | lb | Yellow onions",
        "6 3/4 | gal | Water",
        "as needed | Bay leaves",
        "1. | Roast shells and heads in the oil",
        "Contains | Crustaceans, Celery, Sulfites",
        "Shrimp shells | 2 days, the day it is made is the first",
    ] {
        assert!(rows.iter().any(|known| known == row), "{row} is not among {rows:#?}");
    }
    assert!(rows.iter().all(|row| !row.contains('$')), "{rows:#?}");
}

#[test]
fn recipes_within_have_cards_of_their_own() {
    let mut asked = request("Duck and barley soup", Size::By("2".to_owned()));
    asked.with_sub_recipes = true;
    let rows = told(&written("teaching-kitchen.xlsx", TEACHING_KITCHEN, &asked));
    let cards: Vec<&String> = rows.iter().filter(|row| row.ends_with("A kitchen card in another size")).collect();
    assert_eq!(cards.len(), 2, "{cards:?}");
    assert!(cards[1].starts_with("Duck frame stock"), "{cards:?}");
    assert!(rows.iter().any(|row| row == "Make first | Duck frame stock"), "{rows:#?}");
}

#[test]
fn it_is_no_book() {
    let bytes = written("teaching-kitchen.xlsx", TEACHING_KITCHEN, &by("Shrimp shell stock", "3"));
    let reading = read(&[Source { name: "card.xlsx", bytes: &bytes }], Options::on(date(2026, 11, 20))).unwrap();
    assert!(reading.kitchen.recipes.is_empty() && reading.kitchen.items.is_empty());
}

/// What a user types is text, whatever it begins with; a recipe has a card above 200 recipes too. A row that could not be read
/// as a line is not scaled, and does not keep its quantity either.
#[test]
fn text_stays_text_and_every_recipe_has_a_card() {
    let mut book = "Item,Price,Per\n@Leeks,2.00,lb\n".to_owned();
    for number in 0..230 {
        book.push_str(&format!(
            "\nRecipe,@Stew {number}\nMakes,2 qt\nNote,=A1\nIngredient,Qty,Unit\n@Leeks,2,lb\n=1+1,2,lb\n"
        ));
    }
    let rows = told(&written("book.csv", book.as_bytes(), &by("@Stew 229", "2.5")));
    for row in ["@Stew 229 | A kitchen card in another size", "Makes | 1 1/4 gal", "5 | lb | @Leeks", "Note | =A1"] {
        assert!(rows.iter().any(|known| known == row), "{row} is not among {rows:#?}");
    }
    let unread = rows.iter().find(|row| row.ends_with("=1+1")).unwrap();
    assert!(!unread.starts_with('2'), "{unread}");
}
