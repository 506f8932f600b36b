//! Books of chance through the whole way: read, costed, written, and read again as the same book.

use parings::{Scenario, Source, cost, read, write};
use proptest::prelude::*;

use super::edited::{Edited, edited};
use super::random::book;
use crate::recalc::recalculated;
use crate::support::{chance, json_of, options};
use crate::workbook::STAMP;
use crate::written::same_when_written;

/// A book read, costed and written, with its figures.
pub fn through(name: &str, bytes: &[u8]) -> Result<(serde_json::Value, Vec<u8>), TestCaseError> {
    let failed = |error: &dyn std::fmt::Display| TestCaseError::fail(format!("{name}: {error}"));
    let reading = read(&[Source { name, bytes }], options()).map_err(|error| failed(&error))?;
    let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
    crate::analysis::laws::holds(&reading, &costing)?;
    crate::wire::schemas::all_met(&reading, &costing);
    let written = write(&reading, &costing, STAMP).map_err(|error| failed(&error))?;
    Ok((json_of(&reading, &costing), written))
}

/// The first part in which two workbooks differ.
pub fn difference(one: &[u8], other: &[u8]) -> String {
    let parts = |bytes: &[u8]| -> Vec<(String, String)> {
        let mut zip = zip::ZipArchive::new(std::io::Cursor::new(bytes)).unwrap();
        (0..zip.len())
            .map(|at| {
                let mut entry = zip.by_index(at).unwrap();
                let name = entry.name().unwrap().into_owned();
                let mut text = Vec::new();
                std::io::Read::read_to_end(&mut entry, &mut text).unwrap();
                (name, String::from_utf8_lossy(&text).into_owned())
            })
            .collect()
    };
    let (one, other) = (parts(one), parts(other));
    let names = |parts: &[(String, String)]| parts.iter().map(|(name, _)| name.clone()).collect::<Vec<_>>();
    if names(&one) != names(&other) {
        return format!("{:?}\n{:?}", names(&one), names(&other));
    }
    let mut said = String::new();
    for ((name, a), (_, b)) in one.iter().zip(&other).filter(|(a, b)| a != b) {
        let at = a.bytes().zip(b.bytes()).take_while(|(a, b)| a == b).count();
        let around = |text: &str| {
            let bytes = text.as_bytes();
            String::from_utf8_lossy(&bytes[at.saturating_sub(120).min(bytes.len())..(at + 200).min(bytes.len())])
                .into_owned()
        };
        said.push_str(&format!("{name} at {at}:\n  {}\n  {}\n", around(a), around(b)));
    }
    said
}

/// Asserts that the costed workbook of a book is the same book: the same figures, and byte for byte the same when written.
pub fn same_again(name: &str, bytes: &[u8]) -> Result<(), TestCaseError> {
    let (first, once) = through(name, bytes)?;
    let (second, twice) = through("book.costed.xlsx", &once)?;
    for list in ["dishes", "recipes", "tests"] {
        prop_assert_eq!(
            &first[list],
            &second[list],
            "{} differ:\nFIRST {:#}\nSECOND {:#}",
            list,
            first["problems"],
            second["problems"]
        );
    }
    prop_assert!(
        once == twice,
        "{}\nFIRST {:#}\nSECOND {:#}",
        difference(&once, &twice),
        first["problems"],
        second["problems"]
    );
    Ok(())
}

proptest! {
    #![proptest_config(chance(8))]

    #[test]
    fn a_workbook_of_chance_is_the_same_book_when_costed(book in book()) {
        same_again("book.xlsx", &book.xlsx())?;
    }

    #[test]
    fn a_workbook_of_chance_is_the_same_book_when_written(book in book()) {
        same_when_written(&[("book.xlsx", &book.xlsx())])?;
    }

    #[test]
    fn a_csv_of_chance_is_the_same_book_when_written(book in book()) {
        same_when_written(&[("book.csv", book.csv().as_bytes())])?;
    }

    #[test]
    fn a_sound_book_typed_over_is_the_same_book_when_written(book in edited()) {
        same_when_written(&[("book.xlsx", &book.xlsx())])?;
    }

    #[test]
    fn a_sound_book_typed_over_is_the_same_book_when_costed(book in edited()) {
        same_again("book.xlsx", &book.xlsx())?;
    }

    #[test]
    fn every_formula_of_a_sound_book_typed_over_recalculates(book in edited()) {
        let (_, written) = through("book.xlsx", &book.without_rubbish().xlsx())?;
        for cell in recalculated(&written) {
            prop_assert!(cell.stored.agrees(&cell.fresh), "{cell}");
        }
    }

    /// Without rubbish, so that no number is beyond what a spreadsheet computes with 15 digits.
    #[test]
    fn every_formula_of_a_book_of_chance_recalculates(book in book()) {
        let book = book.without_rubbish();
        for (name, bytes) in [("book.xlsx", book.xlsx()), ("book.csv", book.csv().into_bytes())] {
            let (_, written) = through(name, &bytes)?;
            for cell in recalculated(&written) {
                prop_assert!(cell.stored.agrees(&cell.fresh), "{name}: {cell}\n{}", book.csv());
            }
        }
    }

    #[test]
    fn a_csv_of_chance_is_the_same_book_when_costed(book in book()) {
        same_again("book.csv", book.csv().as_bytes())?;
    }
}

/// The book that is typed over costs whole, so that typing over it reaches every figure.
#[test]
fn the_book_that_is_typed_over_is_sound() {
    let (json, _) = through("book.xlsx", &Edited::default().xlsx()).unwrap();
    crate::support::no_errors(&json);
    for (list, figure, count) in [("recipes", "food_cost", 6), ("tests", "cost", 3), ("dishes", "food_cost_percent", 4)]
    {
        let known = json[list].as_array().unwrap().iter().filter(|one| !one[figure].is_null()).count();
        assert_eq!((known, json[list].as_array().unwrap().len()), (count, count), "{list}");
    }
}
