//! The teaching kitchen: a book that sells a soup made of the shells of its own shrimp dish, and another made of the
//! frames of its ducks. One file per part of the book; the answers stand in `teaching-kitchen.md`.

mod larder;
pub mod lists;
mod recipes;
mod selling;
mod yields;

use rust_xlsxwriter::XlsxError;

use super::pen::{Book, Cell, Paper, row};

/// The whole book.
pub fn book() -> Result<Vec<u8>, XlsxError> {
    let mut book = Book::new("Teaching kitchen", Paper::Letter)?;
    about(&mut book)?;
    larder::prices(&mut book)?;
    larder::measures(&mut book)?;
    yields::tests(&mut book)?;
    recipes::basics(&mut book)?;
    recipes::stocks(&mut book)?;
    recipes::soups(&mut book)?;
    recipes::plates(&mut book)?;
    selling::menu(&mut book)?;
    selling::plan_and_stock(&mut book)?;
    selling::settings(&mut book)?;
    book.bytes()
}

/// A page for people: it holds no table.
fn about(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("About this book", &[96], false)?;
    page.title(
        "Quince and Ladle Teaching Kitchen",
        "An invented kitchen with a short menu, costed on 20 November 2026.",
    )?;
    page.rows(&[
        row!["What comes in whole: head-on shrimp and whole ducks. What is left of them is on the menu too."],
        row!["Shells and heads become a stock, and the stock a soup sold by the cup and by the bowl."],
        row!["Frames and wing tips become a stock, and the stock a soup and two sauces."],
        row!["Skin is rendered: the fat roasts the potatoes, the cracklings go on the lentils."],
        row![""],
        row!["Things to look for:"],
        row!["Shrimp has three prices. The one of 1 December does not count yet: cost the book as of that day and compare."],
        row!["Butter is bought from the supplier we prefer, not the cheaper one. Carrots take the newest price."],
        row!["Shells are charged a fifth of what shrimp costs, heads nothing, frames what chicken backs would cost."],
        row!["The smoked paprika's label was never read: every list of allergens it touches is incomplete."],
        row!["The sherry's price is from August. Is it still right?"],
    ])
}
