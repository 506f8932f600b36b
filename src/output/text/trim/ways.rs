//! Charging methods of one test: every way of charging its by-products: who bears what, and that the whole stays the
//! whole.

use indexmap::IndexMap;

use super::super::table::{TextColumn, TextRow, table};
use super::super::{Emphasis, capital, printable};
use super::TrimPage;
use crate::analysis::charging_methods::{Way, Ways};
use crate::analysis::missing_input::Lack;
use crate::kitchen::yield_test::{Role, Test};
use crate::problem::suggest::{first_few, quoted_list};
use crate::results::figures::{NONE, shown};

const COLUMNS: [TextColumn; 6] = [
    TextColumn { header: &["Free"], figures: true },
    TextColumn { header: &["Market"], figures: true },
    TextColumn { header: &["By", "weight"], figures: true },
    TextColumn { header: &["By sales", "value"], figures: true },
    TextColumn { header: &["Net real.", "value"], figures: true },
    TextColumn { header: &["As the", "book says"], figures: true },
];

/// The table, and why a way is missing from it. Nothing for a test without by-products.
pub(super) fn ways(page: &TrimPage<'_>, test: &Test, ways: Option<&Ways>) -> String {
    let by_products = test.parts.iter().any(|part| part.role == Role::ByProduct);
    let Some(ways) = ways.filter(|_| by_products) else { return String::new() };
    let mut out = String::from("\n");
    let bears = |index: usize| {
        let cells = ways.ways.iter().map(|(_, under)| {
            let part = under.as_ref().ok().and_then(|under| under.parts.get(index));
            (part.map_or(NONE.to_owned(), |part| shown(Some(part.cost), page.places)), Emphasis::Plain)
        });
        cells.collect::<Vec<_>>()
    };
    let parts = test.parts.iter().enumerate().filter(|(_, part)| part.role != Role::Waste);
    let mut rows: Vec<TextRow> =
        parts.map(|(index, part)| TextRow { name: printable(&part.name), cells: bears(index) }).collect();
    let totals = ways.ways.iter().map(|(_, under)| {
        (under.as_ref().map_or(NONE.to_owned(), |under| shown(Some(under.total), page.places)), Emphasis::Strong)
    });
    rows.push(TextRow { name: "In all".to_owned(), cells: totals.collect() });
    out.push_str(&table("However they are charged", &COLUMNS, &rows, page.view));
    // Ways that lack the same are told of together.
    let mut lacking: IndexMap<String, Vec<&str>> = IndexMap::new();
    for (way, under) in &ways.ways {
        match under {
            Err(wanting) => lacking.entry(reasons(page, wanting)).or_default().push(way.word()),
            Ok(under) if *way == Way::Market => {
                let kept = test.parts.iter().zip(&under.parts).filter(|(_, under)| under.kept);
                let kept: Vec<&str> = kept.map(|(part, _)| part.name.as_str()).collect();
                if !kept.is_empty() {
                    let text = format!(
                        "Market: nothing says what {} would cost to buy, so there the book's own charge stands.",
                        quoted_list(&kept, "or")
                    );
                    out.push_str(&page.point(&text));
                }
            }
            Ok(_) => {}
        }
    }
    for (reasons, ways) in lacking {
        out.push_str(&page.point(&format!("{}: {reasons}.", capital(&ways.join(", ")))));
    }
    out
}

/// What is wanting, in words: parts without a value in one breath.
fn reasons(page: &TrimPage<'_>, wanting: &[Lack]) -> String {
    let (values, others): (Vec<&Lack>, Vec<&Lack>) = wanting.iter().partition(|lack| matches!(lack, Lack::Value(_)));
    let names: Vec<&str> = values
        .iter()
        .filter_map(|lack| match lack {
            Lack::Value(part) => page.kitchen.part(*part).map(|part| part.name.as_str()),
            _ => None,
        })
        .collect();
    let mut said = Vec::new();
    match names.as_slice() {
        [] => {}
        [_] => said.extend(values.iter().map(|lack| lack.words(page.kitchen))),
        several => said.push(format!("{} have no Value in money", quoted_list(several, "and"))),
    }
    said.extend(first_few(others.iter().map(|lack| lack.words(page.kitchen)), others.len()));
    said.join("; ")
}
