//! One test under every way of charging its by-products: who bears what, and that the whole stays the whole.

use super::super::figures::{NONE, shown};
use super::super::table::{Column, Row, table};
use super::super::{Ink, printable};
use super::Page;
use crate::analysis::ways::{Way, Ways};
use crate::kitchen::yield_test::{Role, Test};

const COLUMNS: [Column; 6] = [
    Column { header: &["Free"], figures: true },
    Column { header: &["Market"], figures: true },
    Column { header: &["By", "weight"], figures: true },
    Column { header: &["By sales", "value"], figures: true },
    Column { header: &["Net real.", "value"], figures: true },
    Column { header: &["As the", "book says"], figures: true },
];

/// The table, and why a way is missing from it. Nothing for a test without by-products.
pub(super) fn ways(page: &Page<'_>, test: &Test, ways: Option<&Ways>) -> String {
    let by_products = test.parts.iter().any(|part| part.role == Role::ByProduct);
    let Some(ways) = ways.filter(|_| by_products) else { return String::new() };
    let mut out = String::from("\n");
    let bears = |index: usize| {
        let cells = ways.ways.iter().map(|(_, under)| {
            let part = under.as_ref().ok().and_then(|under| under.parts.get(index));
            (part.map_or(NONE.to_owned(), |part| shown(Some(part.cost), page.places)), Ink::Plain)
        });
        cells.collect::<Vec<_>>()
    };
    let parts = test.parts.iter().enumerate().filter(|(_, part)| part.role != Role::Waste);
    let mut rows: Vec<Row> =
        parts.map(|(index, part)| Row { name: printable(&part.name), cells: bears(index) }).collect();
    let totals = ways.ways.iter().map(|(_, under)| {
        (under.as_ref().map_or(NONE.to_owned(), |under| shown(Some(under.total), page.places)), Ink::Strong)
    });
    rows.push(Row { name: "In all".to_owned(), cells: totals.collect() });
    out.push_str(&table("However they are charged", &COLUMNS, &rows, page.view));
    for (way, under) in &ways.ways {
        match under {
            Err(wanting) => {
                let reasons: Vec<String> = wanting.iter().map(|lack| lack.words(page.kitchen)).collect();
                out.push_str(&page.point(&format!("{}: {}.", capital(way.word()), reasons.join("; "))));
            }
            Ok(under) if *way == Way::Market => {
                let kept = test.parts.iter().zip(&under.parts).filter(|(_, under)| under.kept);
                let kept: Vec<&str> = kept.map(|(part, _)| part.name.as_str()).collect();
                if !kept.is_empty() {
                    let text = format!(
                        "Market: nothing says what {} would cost to buy, so it is as the book says.",
                        kept.join(", ")
                    );
                    out.push_str(&page.point(&text));
                }
            }
            Ok(_) => {}
        }
    }
    out
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
