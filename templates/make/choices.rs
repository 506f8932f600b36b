//! Names to choose from: what was typed on the other sheets, each once, so that drop-down lists can show it. Recipes stand
//! on sheets of their own, which no range lists: those that no menu names are typed here.
//!
//! The sheet fills itself in and is passed over when the book is read.

use rust_xlsxwriter::{Format, Formula, XlsxError};

use super::form;
use super::pen::{Book, INK, PALE, RULE};
use super::region::Region;

/// The sheet.
pub const SHEET: &str = "Names to choose from";

/// Where an item, a part or a recipe may be chosen.
pub const EVERYTHING: &str =
    "=OFFSET('Names to choose from'!$A$5,0,0,MAX(1,MAX('Names to choose from'!$H$5:$H$444)),1)";
/// Where a recipe may be.
pub const RECIPES: &str = "=OFFSET('Names to choose from'!$B$5,0,0,MAX(1,MAX('Names to choose from'!$J$5:$J$104)),1)";

/// The first row of names, zero-based, and how many of each kind there are: items, parts, typed recipes, dishes.
const FIRST: u32 = 4;
const ITEMS: u32 = 200;
const PARTS: u32 = 140;
const TYPED: u32 = 40;
const DISHES: u32 = 60;

/// Adds the sheet, with the names of recipes that no menu names.
pub fn add(book: &mut Book, region: Region, typed: &[&'static str]) -> Result<(), XlsxError> {
    let widths = [34, 34, 34, 2, 2, 2, 12, 12, 12, 12];
    let mut page = book.sheet(SHEET, &widths, false)?;
    page.title(SHEET, "The first two columns fill themselves in. Lists on the other sheets offer what stands there.")?;
    // A formula without a stated result would be stored as 0, which names a thing.
    page.sheet().set_formula_result_default("");
    let heads = ["Everything a recipe may use", "Recipes, and dishes", "Stocks, sauces, doughs: type their names here"];
    page.lasting_header(&heads, 0)?;
    let said = Format::new().set_font_color(INK).set_italic().set_font_color(INK);
    let recipes = TYPED + DISHES;
    let all = ITEMS + PARTS + recipes;
    for at in 0..all {
        let row = FIRST + at;
        // Column G holds all names, H the number of each that is not there above it; I and J those of recipes.
        let raw = if at < ITEMS {
            format!("=INDEX(Prices!$A$5:$A$204,{})&\"\"", at + 1)
        } else if at < ITEMS + PARTS {
            format!("=INDEX('Yield tests'!$C$5:$C$204,{})&\"\"", at - ITEMS + 1)
        } else {
            format!("=I{}", FIRST + 1 + at - ITEMS - PARTS)
        };
        let sheet = page.sheet();
        sheet.write_formula(row, 6, Formula::new(raw))?;
        sheet.write_formula(row, 7, Formula::new(number("G", row, all)))?;
        sheet.write_formula_with_format(row, 0, Formula::new(named("G", "H", at, all)), &said)?;
        if at < recipes {
            let raw = if at < TYPED {
                format!("=C{}&\"\"", row + 1)
            } else {
                let nth = at - TYPED + 1;
                let [dish, recipe] = ["A", "B"].map(|column| format!("INDEX(Menu!${column}$5:${column}$204,{nth})"));
                format!("=IF({recipe}=\"\",{dish},{recipe})&\"\"")
            };
            sheet.write_formula(row, 8, Formula::new(raw))?;
            sheet.write_formula(row, 9, Formula::new(number("I", row, recipes)))?;
            sheet.write_formula_with_format(row, 1, Formula::new(named("I", "J", at, recipes)), &said)?;
        }
        if at < TYPED {
            let format = form::ruled(2, super::columns::Shape::Free, region).set_border_bottom_color(RULE);
            match typed.get(usize::try_from(at).unwrap_or(usize::MAX)) {
                Some(name) => sheet.write_string_with_format(row, 2, *name, &format.set_background_color(PALE))?,
                None => sheet.write_blank(row, 2, &format)?,
            };
        }
    }
    for column in 3..=9 {
        page.sheet().set_column_hidden(column)?;
    }
    page.sheet().set_print_area(0, 0, FIRST + TYPED, 2)?;
    Ok(())
}

/// The last row of so many names.
fn last(count: u32) -> u32 {
    FIRST + count
}

/// The number of a name among those that differ; nothing where it stands above as well.
fn number(column: &str, row: u32, count: u32) -> String {
    let (here, first, end) = (row + 1, FIRST + 1, last(count));
    let numbers = if column == "G" { "H" } else { "J" };
    format!(
        "=IF({column}{here}=\"\",\"\",IF(MATCH({column}{here},{column}${first}:{column}${end},0)={},MAX({numbers}${FIRST}:{numbers}{row})+1,\"\"))",
        row - FIRST + 1
    )
}

/// The name of a number.
fn named(column: &str, numbers: &str, at: u32, count: u32) -> String {
    let (first, end) = (FIRST + 1, last(count));
    format!(
        "=IFERROR(INDEX(${column}${first}:${column}${end},MATCH({},${numbers}${first}:${numbers}${end},0)),\"\")",
        at + 1
    )
}
