//! Suppliers' files as their offices write them, read as a book's price table and as a new list: every product is read as a
//! buyer reads it, or met with a question; nothing else is taken for a price.
//!
//! The files and the readings are in `tests/suppliers`, made by hand by somebody who knew nothing of this program.

mod expected;
mod repriced;

use std::collections::BTreeMap;
use std::path::Path;

use expected::{Cost, Line, Product};
use jiff::civil::date;
use parings::costing::RowCost;
use parings::kitchen::Field;
use parings::kitchen::price::{Price, PriceRow};
use parings::problem::{Code, Severity};
use parings::{Costing, Options, Reading, Scenario, Source};
use rust_decimal::Decimal;

/// The files, and how many products of each are read, and asked about.
const FILES: &[(&str, usize, usize)] = &[
    ("bakery-quote.xls", 29, 7),
    ("broadline-invoice.csv", 33, 5),
    ("cash-carry.ods", 36, 7),
    ("dairy-list.xls", 31, 0),
    ("dry-goods.csv", 35, 8),
    ("farm-list.xlsx", 0, 40),
    ("fish-eur.csv", 29, 6),
    ("meat-packer.xlsx", 0, 35),
    ("pdf-lines.csv", 0, 30),
    ("produce-weekly.xlsx", 32, 10),
    ("quantity-breaks.csv", 34, 2),
    ("specialty-imports.ods", 34, 2),
    ("two-prices.xlsx", 29, 3),
];

/// Readings of ours that differ from the buyer's and may stand: file, row and why.
const ARGUABLE: &[(&str, u32, &str)] = &[(
    "two-prices.xlsx",
    25,
    "30 patties of 5.33 oz are 9.99 lb, as the buyer says too; the case is 41.90 either way, 0.1 % dearer by the pound",
)];

fn file(name: &str) -> Vec<u8> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/suppliers").join(name);
    std::fs::read(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// What a file comes to.
#[derive(Default)]
struct Count {
    right: usize,
    asked: Vec<String>,
    wrong: Vec<String>,
}

/// The problems of a row that ask: errors, and warnings that the weight may be another.
fn asks(reading: &Reading, costing: &Costing) -> BTreeMap<u32, Vec<Code>> {
    let mut rows: BTreeMap<u32, Vec<Code>> = BTreeMap::new();
    for problem in reading.problems_with(costing) {
        // A sheet that is not read says so at the row that is nearly its header.
        let asks = problem.severity() == Severity::Error
            || matches!(
                problem.code,
                Code::GlazeInWeight | Code::OuncesDoubtful | Code::PriceIsMarket | Code::SheetNotRead
            );
        // Two rows of one item and pack are both read; which of them is meant is the kitchen's to say.
        if let (true, Some(cell)) = (asks && problem.code != Code::PriceRowTwice, problem.place.cell_ref()) {
            rows.entry(cell.row + 1).or_default().push(problem.code);
        }
    }
    rows
}

/// Whether a row costs what one of the buyer's fractions says.
fn agrees(row: &PriceRow, cost: &RowCost, expected: &[Cost]) -> bool {
    let mut ours = vec![(cost.ap.money, cost.ap.per, cost.kind.symbol())];
    if let Some(pack) = row.pack.given().filter(|_| row.per == Field::Blank) {
        ours.extend(pack.containers.map(|count| (cost.ap.money, count, "each")));
        ours.extend(pack.pieces.as_ref().map(|pieces| {
            let size = pieces.unit.to_base(parings::measure::Volumes::Us).map_or(Decimal::ONE, |(_, size)| size);
            (cost.ap.money, pieces.amount * size, "each")
        }));
    }
    expected.iter().any(|buyer| {
        // a/b = c/d as ad = cb, which is exact.
        ours.iter()
            .any(|(money, per, base)| *base == buyer.base && *money * buyer.amount * buyer.size == buyer.money * *per)
    })
}

fn judge(
    name: &str,
    product: Option<&Product>,
    line: &Line,
    found: Option<(&PriceRow, Option<&RowCost>)>,
    asked: Option<&Vec<Code>>,
    count: &mut Count,
) {
    let at = format!("{name} row {}", line.row);
    let priced = found.and_then(|(row, cost)| {
        let cost = cost.filter(|_| matches!(row.price, Field::Given(Price::Money(_))))?;
        Some((row, cost))
    });
    let Some(product) = product else {
        if let (Some(_), None) = (priced, asked) {
            count.wrong.push(format!("{at} is no product and was taken for a price"));
        }
        return;
    };
    match (priced, asked) {
        (_, Some(codes)) => count.asked.push(format!("{at} {}: {codes:?}", product.item)),
        (None, None) => count.wrong.push(format!("{at} {} was passed over in silence", product.item)),
        (Some((row, cost)), None) => {
            let same_code = row.code == product.code;
            let same_item = row.item == product.item.split_whitespace().collect::<Vec<_>>().join(" ");
            if !same_code || !same_item {
                count.wrong.push(format!(
                    "{at}: {:?} {:?} is read for {:?} {:?}",
                    row.code, row.item, product.code, product.item
                ));
            } else if product.open || !agrees(row, cost, &product.costs) {
                count.wrong.push(format!(
                    "{at} {}: {} for {} {}, not {}",
                    product.item,
                    cost.ap.money,
                    cost.ap.per,
                    cost.kind.symbol(),
                    product.pack
                ));
            } else {
                count.right += 1;
            }
        }
    }
}

fn read(name: &str) -> Count {
    let bytes = file(name);
    let stem = name.split('.').next().unwrap();
    let lines = expected::lines(&String::from_utf8(file(&format!("{stem}.expected.tsv"))).unwrap());
    // The files speak of prices from 23 November on.
    let options = Options::on(date(2026, 11, 25));
    let reading = parings::read(&[Source { name, bytes: &bytes }], options).unwrap();
    let costing = parings::cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
    let asks = asks(&reading, &costing);
    let refused = reading.kitchen.entries.prices.is_empty() && !asks.is_empty();
    let mut count = Count::default();
    let rows = &reading.kitchen.entries.prices;
    let at = |row: u32| {
        rows.iter()
            .zip(&costing.rows)
            .find(|(price, _)| price.input.place.cell_ref().is_some_and(|cell| cell.row + 1 == row))
    };
    for line in &lines {
        let product = line.product.as_ref();
        let whole = if refused { asks.values().next() } else { None };
        let found = at(line.row).map(|(row, cost)| (row, cost.as_ref()));
        judge(name, product, line, found, asks.get(&line.row).or(whole), &mut count);
    }
    count
}

#[test]
fn every_row_of_a_suppliers_file_is_read_as_a_buyer_reads_it_or_asked_about() {
    let mut faults = Vec::new();
    for (name, right, asked) in FILES {
        let mut count = read(name);
        let arguable =
            |text: &String| ARGUABLE.iter().any(|(file, row, _)| text.starts_with(&format!("{file} row {row} ")));
        let before = count.wrong.len();
        count.wrong.retain(|text| !arguable(text));
        let argued = before - count.wrong.len();
        println!(
            "{name}: {} right, {} asked, {argued} arguable, {} wrong",
            count.right,
            count.asked.len(),
            count.wrong.len()
        );
        for asked in &count.asked {
            println!("    asked {asked}");
        }
        for wrong in &count.wrong {
            println!("    WRONG {wrong}");
        }
        if !count.wrong.is_empty() || (count.right, count.asked.len()) != (*right, *asked) {
            faults.push(*name);
        }
    }
    assert!(faults.is_empty(), "{faults:?}");
}

/// As a supplier's new list a file says of every product what it says as a table of prices, or is refused in words that
/// say what to ask for.
#[test]
fn a_new_list_is_read_as_the_same_file_in_a_book_is() {
    let options = Options::on(date(2026, 11, 25));
    let small = "Item,Code,Pack,Price\nSomething else,0,50 lb,1.00\n";
    let book = parings::read(&[Source { name: "book.csv", bytes: small.as_bytes() }], options).unwrap();
    let costing = parings::cost(&book.kitchen, &Scenario::of(&book.kitchen));
    for (name, ..) in FILES {
        let bytes = file(name);
        let source = Source { name, bytes: &bytes };
        let list = parings::read_list(&book, &costing, &[source], &parings::ListOptions::default());
        if matches!(*name, "farm-list.xlsx" | "pdf-lines.csv") {
            let refused = list.err().unwrap().to_string();
            assert!(refused.contains("Ask the supplier for the same list as a spreadsheet or csv"), "{refused}");
            continue;
        }
        if *name == "meat-packer.xlsx" {
            // Its title says $/cwt, a dozen of its rows something else: the book's packs are not taken for it.
            let refused = list.err().unwrap().to_string();
            assert!(refused.contains("says “$/cwt” in A2") && refused.contains("Add a column Per: cwt"), "{refused}");
            continue;
        }
        let list = list.unwrap_or_else(|error| panic!("{error}"));
        // Nothing in the book bears its names or codes, so nothing is taken.
        assert!(list.taken.is_empty() && list.unknown.len() == list.rows.len(), "{name}");
        let as_book = parings::read(&[Source { name, bytes: &bytes }], options).unwrap();
        let rows = &as_book.kitchen.entries.prices;
        assert_eq!(list.rows.len(), rows.len(), "{name}");
        for (of_list, of_book) in list.rows.iter().zip(rows) {
            let said = |row: &PriceRow| {
                (row.item.clone(), row.code.clone(), row.price.clone(), row.per.clone(), row.pack.clone())
            };
            assert_eq!(said(of_list), said(of_book), "{name}");
        }
    }
}
