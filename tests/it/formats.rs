//! Every kind of workbook through the same door: the same book saved as xls, xlsb and ods says the same.
//!
//! `tests/files` holds books that LibreOffice saved from the xlsx files which stand here or in `sample-books`
//! (`soffice --headless --convert-to xls`, and `ods`); no spreadsheet program here writes xlsb, so
//! [`xlsb`] writes it, and calamine, a reader of its own, confirms that it is one.

pub mod hostile;
mod kinds;
mod opinion;
mod xls;
pub mod xlsb;

use parings::Source;
use parings::internals::{Grid, grids};

use crate::support::{cost_bytes, dish, json_of, no_errors};
use crate::workbook::TEACHING_KITCHEN;

const KINDS_XLS: &[u8] = include_bytes!("../files/kinds.xls");
const KINDS_ODS: &[u8] = include_bytes!("../files/kinds.ods");
const KITCHEN_XLS: &[u8] = include_bytes!("../files/teaching-kitchen.xls");
const KITCHEN_ODS: &[u8] = include_bytes!("../files/teaching-kitchen.ods");

/// The sheets of a file.
#[track_caller]
fn sheets(name: &str, bytes: &[u8]) -> Vec<Grid> {
    grids(&Source { name, bytes }).unwrap_or_else(|error| panic!("{error}"))
}

/// The teaching kitchen saved in each kind.
fn kitchens() -> [(&'static str, Vec<u8>); 3] {
    [
        ("teaching-kitchen.xls", KITCHEN_XLS.to_vec()),
        ("teaching-kitchen.ods", KITCHEN_ODS.to_vec()),
        ("teaching-kitchen.xlsb", xlsb::written(&sheets("a.xlsx", TEACHING_KITCHEN))),
    ]
}

#[test]
fn the_teaching_kitchen_costs_the_same_in_every_format() {
    let (reading, costing) = cost_bytes(&[("teaching-kitchen.xlsx", TEACHING_KITCHEN)]);
    let expected = json_of(&reading, &costing).to_string();
    for (name, bytes) in kitchens() {
        let (reading, costing) = cost_bytes(&[(name, &bytes)]);
        let found = json_of(&reading, &costing).to_string().replace(name, "teaching-kitchen.xlsx");
        assert!(found == expected, "{name}: the JSON differs from that of the xlsx");
    }
}

#[test]
fn another_reader_sees_the_same_cells() {
    for (name, bytes) in kitchens() {
        let compared = opinion::agrees(name, &bytes, &sheets(name, &bytes));
        assert!(compared > 900, "{name}: only {compared} cells");
    }
    assert!(opinion::agrees("kinds.xls", KINDS_XLS, &sheets("kinds.xls", KINDS_XLS)) > 50);
}

/// 12,5 kg for 31,25 € is 2,50 € a kilo; 400 g of it for two portions is 0,50 € a portion.
#[test]
fn a_csv_in_any_encoding_and_with_any_separator_costs_the_same() {
    let book = "Item|Pack|Price|Also called\nCrème fraîche|12,5 kg|31,25 €|\"Crème\nde la crème\"\n\n\
                Recipe|Purée\nPortions|2\nMenu price|4,00 €\nIngredient|Qty|Unit\nCrème fraîche|0,4|kg\n";
    for separator in [",", ";", "\t"] {
        // Between commas, a decimal comma stands in quotation marks.
        let quoted = |field: &str| if field.contains(separator) { format!("\"{field}\"") } else { field.to_owned() };
        let fields = |line: &str| line.split('|').map(quoted).collect::<Vec<_>>().join(separator);
        let text = book.split('\n').map(fields).collect::<Vec<_>>().join("\r\n");
        let utf16 = |bytes: fn(u16) -> [u8; 2]| ["\u{FEFF}", &text].concat().encode_utf16().flat_map(bytes).collect();
        let western: Vec<u8> = text.chars().map(|c| if c == '€' { 0x80 } else { u8::try_from(c).unwrap() }).collect();
        for (encoding, bytes) in [
            ("UTF-8", text.clone().into_bytes()),
            ("UTF-8 with a mark", ["\u{FEFF}", &text].concat().into_bytes()),
            ("UTF-16, little end first", utf16(u16::to_le_bytes)),
            ("UTF-16, big end first", utf16(u16::to_be_bytes)),
            ("Windows-1252", western),
        ] {
            let (reading, costing) = cost_bytes(&[("book.csv", &bytes)]);
            let json = json_of(&reading, &costing);
            no_errors(&json);
            assert_eq!(dish(&json, "Purée")["portion_cost"], "0.5", "{encoding}, {separator:?}");
            assert_eq!(json["currency"], "EUR", "{encoding}, {separator:?}");
        }
    }
}
