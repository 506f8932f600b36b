//! Screen: what a cook sees of a card without scrolling, worked out from the file.

use std::io::Cursor;

use calamine::{Data, Reader, Xlsx};

use crate::workbook::{costed, costed_together, teaching_workbook};

/// What a window of 1366 × 768 pixels leaves for cells at 100 %, in pixels: besides the bar of the desktop (40) the window's
/// title (32), its ribbon (150), the line for formulas (26), the letters of columns (20), the tabs of sheets (24) and the line
/// below them (24), and left and right the numbers of rows (32) and the bar to scroll by (18). Common practice, no source.
const HIGH: f64 = 768.0 - 40.0 - 32.0 - 150.0 - 26.0 - 20.0 - 24.0 - 24.0;
const WIDE: f64 = 1366.0 - 32.0 - 18.0;
/// A row of the usual height, in points, and the pixels of a point and of a letter of width at 96 to the inch.
const ROW: f64 = 15.0;
const POINT: f64 = 96.0 / 72.0;
const LETTER: f64 = 7.0;

/// The number of an attribute in a tag.
fn attribute(tag: &str, name: &str) -> Option<f64> {
    tag.split(&format!(" {name}=\"")).nth(1)?.split('"').next()?.parse().ok()
}

/// How far down and right the lower right corner of a cell is, rows and columns from nought, in pixels.
fn corner(sheet: &str, row: usize, column: usize) -> (f64, f64) {
    let tags = |name: &str| -> Vec<String> {
        sheet.split(&format!("<{name} ")).skip(1).map(|tag| format!(" {}", tag.split('>').next().unwrap())).collect()
    };
    let rows = tags("row");
    let height = |row: usize| {
        let tag = rows.iter().find(|tag| attribute(tag, "r") == Some((row + 1) as f64));
        tag.and_then(|tag| attribute(tag, "ht")).unwrap_or(ROW)
    };
    let columns = tags("col");
    let width = |column: usize| {
        let at = (column + 1) as f64;
        let of = |tag: &&String| attribute(tag, "min").unwrap() <= at && at <= attribute(tag, "max").unwrap();
        columns.iter().find(of).and_then(|tag| attribute(tag, "width")).unwrap_or(8.43)
    };
    let down: f64 = (0..=row).map(height).sum();
    let right: f64 = (0..=column).map(width).sum();
    (down * POINT, right * LETTER)
}

#[test]
fn what_a_portion_costs_is_in_sight_when_a_card_is_opened() {
    let sample = |file: &str| std::fs::read(format!("{}/sample-books/{file}", env!("CARGO_MANIFEST_DIR"))).unwrap();
    let metric = ["metric-kitchen.xlsx", "metric-kitchen-prices.csv"].map(|file| (file, sample(file)));
    let messy = ["messy-kitchen-recipes.xlsx", "messy-kitchen-supplier.xlsx"].map(|file| (file, sample(file)));
    // Every label filled, with long texts.
    let full = format!(
        "Item,Pack,Price\nLeeks,10 lb,$20.00\n\nRecipe,Leek soup\nMakes,2 qt\nPortion,8 fl oz\nPortions,8\nMenu price,$9.00\n\
         Target,30%\nQ factor,5%\nSpice factor,2%\nServing loss,3%\nGroup,Soups\nNote,{0}\nMethod,{0}\n\
         Ingredient,Qty,Unit\nLeeks,2,lb\n",
        "Sweat the leeks slowly and do not let them color at all. ".repeat(30)
    );
    let mut cards = 0;
    for workbook in [
        teaching_workbook(),
        costed_together(&metric.each_ref().map(|(file, bytes)| (*file, bytes.as_slice()))).2,
        costed_together(&messy.each_ref().map(|(file, bytes)| (*file, bytes.as_slice()))).2,
        costed("full.csv", full.as_bytes()).2,
    ] {
        let mut book: Xlsx<_> = Xlsx::new(Cursor::new(workbook.as_slice())).unwrap();
        let mut archive = zip::ZipArchive::new(Cursor::new(workbook.as_slice())).unwrap();
        for (at, name) in book.sheet_names().into_iter().enumerate() {
            let range = book.worksheet_range(&name).unwrap();
            let text = |row: usize| match range.get((row, 0)) {
                Some(Data::String(text)) => text.clone(),
                _ => String::new(),
            };
            if text(0) != "Recipe" {
                continue;
            }
            let wanted = ["Portion cost", "Cost per unit made", "Batch cost"];
            let row = (0..range.height()).find(|row| wanted.contains(&text(*row).as_str())).unwrap();
            let mut sheet = String::new();
            let part = format!("xl/worksheets/sheet{}.xml", at + 1);
            std::io::Read::read_to_string(&mut archive.by_name(&part).unwrap(), &mut sheet).unwrap();
            let (down, right) = corner(&sheet, row, 1);
            assert!(down <= HIGH && right <= WIDE, "{name}: {} ends {down} down and {right} right", text(row));
            cards += 1;
        }
    }
    assert!(cards > 25, "{cards} cards");
}
