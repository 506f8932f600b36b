//! The metric kitchen: a restaurant that buys whole fish and whole birds, and keeps its recipes as flat lists in grams,
//! litres and euros. Its prices come as csv from the bookkeeper; the answers stand in `metric-kitchen.md`.

pub mod prices;
mod recipes;
mod selling;
mod yields;

use rust_xlsxwriter::XlsxError;

use super::pen::{Book, Cell, Paper, row};

/// Euros and cents, the sign behind the number.
#[allow(clippy::disallowed_types, reason = "the writing library takes floats")]
fn eur(euros: f64) -> Cell {
    Cell::Money(euros, "#,##0.00\\ \"€\"")
}

/// All but the prices.
pub fn book() -> Result<Vec<u8>, XlsxError> {
    let mut book = Book::new("Metric kitchen", Paper::A4)?;
    about(&mut book)?;
    yields::tests(&mut book)?;
    recipes::measures(&mut book)?;
    recipes::facts(&mut book)?;
    recipes::lines(&mut book)?;
    selling::menu(&mut book)?;
    selling::plan_and_stock(&mut book)?;
    selling::settings(&mut book)?;
    book.bytes()
}

/// A page for people: it holds no table.
fn about(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("About this book", &[96], false)?;
    page.title("Heron and Samphire", "An invented restaurant of forty seats, costed on 20 November 2026.")?;
    page.rows(&[
        row![
            "Prices are not here: the bookkeeper exports them as metric-kitchen-prices.csv. The two are read together."
        ],
        row!["What comes in whole: hake, trout, prawns and chickens. Fillets, tails and breasts go on plates."],
        row!["Frames and heads become fish stock, and that a soup, a sauce and the rice. Shells become prawn butter."],
        row!["Trim of the fish becomes rillettes. Carcasses and bones become chicken stock."],
        row!["Legs are cooked in the birds' own fat: for a plate, and for rillettes. Giblets go into the terrine."],
        row![""],
        row!["Things to look for:"],
        row!["Hake has three prices. The one of 1 December does not count yet."],
        row!["Trout are bought by the piece and costed by weight: the test knows how many pieces were how heavy."],
        row!["Menu prices hold 10 % tax, the jar to take home 5 %. Food cost % is taken on what is left without it."],
        row!["Prawns come from the supplier we prefer, though the other is cheaper. Lemons take the newest price."],
        row!["The saffron states no allergens: every list it touches is incomplete. The brandy's price is from July."],
    ])
}
