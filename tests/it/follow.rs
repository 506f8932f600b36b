//! Change a followed cell of a costed workbook: a spreadsheet engine's Summary and parings' own must stay one.

use std::io::{Cursor, Read, Write};

use calamine::{Data, Reader, Xlsx};
use parings::results::target_status::TargetStatus;

use crate::recalc::{Sheets, Value, with_changes};
use crate::support::{cost_bytes, one_in_by_turns};
use crate::workbook::teaching_workbook;

/// Columns of tables and of card lines whose numbers are followed.
const COLUMNS: &[&str] =
    &["Price", "Yield", "Value", "Qty", "Menu price", "Target", "Tax", "Weight", "Used", "Further cost"];
/// Labels of cards and settings whose numbers are followed.
const LABELS: &[&str] = &[
    "Menu price",
    "Target",
    "Q factor",
    "Spice factor",
    "Serving loss",
    "Portions",
    "Target food cost",
    "Menu prices include tax",
    "Price step",
    "Price ending",
];

/// A cell with its number.
#[derive(Debug, Clone, PartialEq)]
pub struct Followed {
    pub sheet: String,
    pub cell: String,
    pub number: f64,
}

/// Every followed number of a costed workbook.
fn followed(bytes: &[u8]) -> Vec<Followed> {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).unwrap();
    let mut found = Vec::new();
    for sheet in book.sheet_names() {
        let values = book.worksheet_range(&sheet).unwrap();
        let formulas = book.worksheet_formula(&sheet).unwrap();
        let is_output = matches!(values.get_value((0, 0)), Some(Data::String(text)) if text.starts_with("Figured by"));
        if is_output {
            continue;
        }
        let mut headers: Vec<Option<String>> = Vec::new();
        for (row, cells) in values.rows().enumerate() {
            let texts: Vec<Option<String>> = cells.iter().map(|cell| cell.get_text()).collect();
            if matches!(texts.first(), Some(Some(first)) if ["Item", "Test", "Dish", "Ingredient", "Setting"].contains(&first.as_str()))
            {
                headers = texts;
                continue;
            }
            let label = texts.first().cloned().flatten().unwrap_or_default();
            if parings::internals::is_card_label(&label) {
                continue;
            }
            for (column, cell) in cells.iter().enumerate() {
                let Data::Float(number) = cell else { continue };
                let under = headers.get(column).cloned().flatten().unwrap_or_default();
                let named = COLUMNS.contains(&under.as_str())
                    || (column == 1 && LABELS.contains(&label.as_str()) && (headers.is_empty() || under == "Value"));
                let at = (u32::try_from(row).unwrap(), u32::try_from(column).unwrap());
                let is_formula = formulas.get_value(at).is_some_and(|text| !text.is_empty());
                if named && !is_formula {
                    let cell = parings::problem::CellRef::new(at.0, at.1).to_string();
                    found.push(Followed { sheet: sheet.clone(), cell, number: *number });
                }
            }
        }
    }
    found
}

trait Text {
    fn get_text(&self) -> Option<String>;
}

impl Text for Data {
    fn get_text(&self) -> Option<String> {
        if let Data::String(text) = self { Some(text.clone()) } else { None }
    }
}

/// The workbook with another number typed into a cell, as a program that does not calculate would leave it.
pub fn typed(bytes: &[u8], change: &Followed, number: f64) -> Vec<u8> {
    edited(bytes, change, &format!("<v>{number}</v>"))
}

/// The workbook with a cell cleared.
pub fn cleared(bytes: &[u8], change: &Followed) -> Vec<u8> {
    edited(bytes, change, "")
}

/// The workbook with another value element in a cell.
fn edited(bytes: &[u8], change: &Followed, value: &str) -> Vec<u8> {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).unwrap();
    let at = book.sheet_names().iter().position(|name| *name == change.sheet).unwrap();
    drop(book.worksheet_range(&change.sheet));
    let part = format!("xl/worksheets/sheet{}.xml", at + 1);
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let mut written = zip::ZipWriter::new(Cursor::new(Vec::new()));
    let unpacked = zip::write::SimpleFileOptions::default().compression_method(zip::CompressionMethod::Stored);
    for index in 0..archive.len() {
        let mut entry = archive.by_index(index).unwrap();
        let name = entry.name().unwrap().into_owned();
        let mut content = Vec::new();
        entry.read_to_end(&mut content).unwrap();
        if name == part {
            let xml = String::from_utf8(content).unwrap();
            let start = xml.find(&format!("<c r=\"{}\"", change.cell)).unwrap();
            let (open, close) =
                (xml[start..].find("<v>").unwrap() + start, xml[start..].find("</v>").unwrap() + start + 4);
            content = format!("{}{value}{}", &xml[..open], &xml[close..]).into_bytes();
        }
        written.start_file(name, unpacked).unwrap();
        written.write_all(&content).unwrap();
    }
    written.finish().unwrap().into_inner()
}

/// The Summary as the engine sees it, against parings' costing of the changed book.
#[track_caller]
fn assert_follows(sheets: &Sheets, changed: &[u8], what: &str) {
    let (reading, costing) = cost_bytes(&[("changed.xlsx", changed)]);
    for (index, (dish, cost)) in reading.kitchen.dishes.iter().zip(&costing.dishes).enumerate() {
        let row = 8 + index;
        let cost = cost.as_ref();
        let figures = [
            ("B", cost.map(|cost| cost.portion_cost)),
            ("C", dish.menu_price),
            ("D", cost.and_then(|cost| cost.food_cost)),
            ("E", dish.target),
            ("F", cost.and_then(|cost| cost.price_at_target)),
            ("G", cost.and_then(|cost| cost.margin)),
        ];
        assert_eq!(sheets.value("Summary", &format!("A{row}")), Value::Text(dish.name.clone()));
        for (column, expected) in figures {
            if cost.is_none() && expected.is_none() {
                let found = sheets.value("Summary", &format!("{column}{row}"));
                assert!(!matches!(found, Value::Number(_)), "{what}: {} has {found} in {column}{row}", dish.name);
            }
            let Some(expected) = expected else { continue };
            let expected: f64 = expected.to_string().parse().unwrap();
            let found = sheets.number("Summary", &format!("{column}{row}"));
            let off = (found - expected).abs() / 1_f64.max(found.abs()).max(expected.abs());
            assert!(off <= 1e-9, "{what}: {} {column}{row} is {found} in the sheet, {expected} by parings", dish.name);
        }
        let words = TargetStatus::of(dish, cost).words();
        assert_eq!(sheets.value("Summary", &format!("H{row}")), Value::Text(words.to_owned()), "{what}");
    }
}

/// The cells that say of the part what `cell` says of it, in all runs of its test: its Value or its Further cost.
fn siblings(reading: &parings::Reading, cell: &Followed) -> Option<Vec<String>> {
    use parings::schema::Column;
    let at = |row: usize, column: Column| {
        let input = &reading.kitchen.entries.tests.get(row)?.input;
        (!input.typed(column).is_blank()).then(|| input.place(column).cell_ref().unwrap().to_string())
    };
    let parts = reading.kitchen.tests.iter().flat_map(|test| &test.parts);
    let mut all = parts.flat_map(|part| {
        [Column::Value, Column::FurtherCost]
            .map(|column| part.rows.iter().filter_map(|row| at(*row, column)).collect::<Vec<_>>())
    });
    all.find(|places| cell.sheet == "Yield tests" && places.contains(&cell.cell))
}

/// Every followed cell of `bytes`, one at a time; of a long book one in twenty-four, of a shorter one every third, and all
/// with the long checks.
/// Lowered a little, so that no yield passes 100 % and no part outweighs what it came from; what went into a test is
/// raised instead.
#[track_caller]
pub fn every_cell_follows(bytes: &[u8], at_least: usize) {
    let cells = followed(bytes);
    assert!(cells.len() >= at_least, "only {} followed cells", cells.len());
    let (mut tried, mut moved) = (0, 0);
    let (reading, costing) = cost_bytes(&[("book.xlsx", bytes)]);
    let inputs: Vec<String> = reading
        .kitchen
        .tests
        .iter()
        .flat_map(|test| test.runs.iter().map(|run| run.row))
        .filter_map(|row| reading.kitchen.entries.tests.get(row))
        .filter_map(|row| row.input.place(parings::schema::Column::Weight).cell_ref())
        .map(|cell| cell.to_string())
        .collect();
    let before = Sheets::open(bytes);
    // One engine for all: what is typed is taken back, and a figure that stayed behind would be met by the next cell.
    let mut sheets = Sheets::open(bytes);
    // Always the same ones: enough of them are known to move a portion cost.
    let runs = one_in_by_turns(if cells.len() < 100 { 3 } else { 40 }, &[]);
    for (_, cell) in cells.iter().enumerate().filter(|(at, _)| runs(*at)) {
        let went_in = cell.sheet == "Yield tests" && inputs.contains(&cell.cell);
        let number = cell.number * if went_in { 1.07 } else { 0.93 };
        // A part's value and further cost stand in every run, and must be the same in all of them.
        let together: Vec<&Followed> = match siblings(&reading, cell) {
            Some(places) => cells.iter().filter(|c| c.sheet == cell.sheet && places.contains(&c.cell)).collect(),
            None => vec![cell],
        };
        let typing = |number: &dyn Fn(&Followed) -> f64| -> Vec<(&str, &str, f64)> {
            together.iter().map(|cell| (cell.sheet.as_str(), cell.cell.as_str(), number(cell))).collect()
        };
        sheets.type_numbers(&typing(&|_| number));
        let changed = together.iter().fold(bytes.to_vec(), |bytes, cell| typed(&bytes, cell, number));
        assert_follows(&sheets, &changed, &format!("{}!{} from {} to {number}", cell.sheet, cell.cell, cell.number));
        let shifts = (7..40).any(|row| {
            let at = format!("B{row}");
            sheets.value("Summary", &at) != before.value("Summary", &at)
        });
        sheets.put_numbers(&typing(&|cell| cell.number));
        tried += 1;
        moved += usize::from(shifts);
    }
    // What stands in a recipe that an error stops moves nothing.
    let stopped = reading.problems_with(&costing).iter().any(parings::problem::Problem::is_error);
    assert!(moved * if stopped { 3 } else { 2 } > tried, "only {moved} of {tried} changes moved a portion cost",);
}

#[test]
fn many_changes_at_once_are_followed() {
    let written = teaching_workbook();
    let mut changed = written.clone();
    let cells: Vec<Followed> = followed(&written).into_iter().filter(|cell| cell.sheet != "Yield tests").collect();
    let mut changes: Vec<(&str, &str, f64)> = Vec::new();
    for (nth, cell) in cells.iter().enumerate() {
        let number = cell.number * [0.91, 0.97, 0.94][nth % 3];
        changed = typed(&changed, cell, number);
        changes.push((&cell.sheet, &cell.cell, number));
    }
    assert_follows(&with_changes(&written, &changes), &changed, "all at once");
}

/// Weights of the plan are readings; money on the Trim sheet is live.
#[test]
fn prices_and_charges_are_followed_into_trim() {
    let written = teaching_workbook();
    let mut changed = written.clone();
    let mut changes: Vec<(&str, &str, f64)> = Vec::new();
    let cells = followed(&written);
    let (reading, _) = cost_bytes(&[("book.xlsx", &written)]);
    let paid = |cell: &Followed| {
        cell.sheet == "Prices"
            && reading.kitchen.entries.prices.iter().any(|row| {
                row.input.place(parings::schema::Column::Price).cell_ref().is_some_and(|at| at.to_string() == cell.cell)
            })
    };
    let charged = |cell: &Followed| siblings(&reading, cell).is_some();
    for (nth, cell) in cells.iter().filter(|cell| paid(cell) || charged(cell)).enumerate() {
        // A part is charged alike in all its runs.
        let number = cell.number * if paid(cell) { [0.91, 1.07, 0.94][nth % 3] } else { 0.9 };
        changed = typed(&changed, cell, number);
        changes.push((&cell.sheet, &cell.cell, number));
    }
    assert!(changes.len() > 40, "{} changes", changes.len());
    let (reading, costing) = cost_bytes(&[("changed.xlsx", &changed)]);
    let anew = Sheets::open(&parings::write(&reading, &costing, crate::workbook::STAMP).unwrap());
    let (followed, before) = (with_changes(&written, &changes), Sheets::open(&written));
    let (mut seen, mut moved, mut asked) = (0, 0, 0);
    for row in 1..260 {
        for column in "ABCDEFGHIJKLMNO".chars() {
            let cell = format!("{column}{row}");
            let value = anew.value("Trim", &cell);
            let Value::Number(_) = value else { continue };
            let found = followed.value("Trim", &cell);
            // What comes of a costing of its own says so once the dish has moved.
            if found == Value::Text("cost again".to_owned()) {
                asked += 1;
                continue;
            }
            assert!(found.agrees(&value), "Trim!{cell} is {found} in the sheet, {value} by parings");
            seen += 1;
            moved += usize::from(!before.value("Trim", &cell).agrees(&found));
        }
    }
    assert!(
        seen > 300 && moved > 100 && (2..12).contains(&asked),
        "{moved} of {seen} figures moved, {asked} ask to cost again"
    );
}
