//! Recipe cards to fill in: labels with boxes, then lines.

use rust_xlsxwriter::{Format, FormatAlign, FormatBorder, XlsxError};

use super::choices::RECIPES;
use super::columns::{Column, Shape, lines};
use super::form;
use super::pen::{ACCENT, Book, Cell, INK, PALE, Page, RULE};
use super::region::Region;

/// The last column that a label's box reaches over, from the second on; of what may be long, further.
const BOX: u16 = 3;
const LONG_BOX: u16 = 7;
/// Empty lines of a card.
const EMPTY_LINES: u32 = 24;

/// A label of a card: its text, how its value is kept, and its note.
type LabelForm = (&'static str, Shape, &'static str);

/// An example's card: its labels with their values, and its lines.
pub struct Example {
    /// Labels with values.
    pub labels: Vec<(&'static str, Cell)>,
    /// Its lines.
    pub lines: Vec<Vec<Cell>>,
}

impl Example {
    /// The recipe's name.
    pub fn name(&self) -> Option<&'static str> {
        self.labels.iter().find_map(|(label, value)| match value {
            Cell::Text(name) if *label == "Recipe" => Some(*name),
            _ => None,
        })
    }
}

fn labels(region: Region) -> [LabelForm; 12] {
    [
        ("Recipe", Shape::Free, "Its name. Other cards and the menu use it by this name."),
        ("Group", Shape::Free, "Soups, Plates: carried along."),
        (
            "Makes",
            Shape::AsTyped,
            region.pick(
                "What the whole batch gives after cooking.\n\n6 qt\n8 lb\n24 each\n3 qt, 6 lb 4 oz = if you know both",
                "What the whole batch gives after cooking.\n\n5 l\n2.4 kg\n24 each\n3 l, 2.9 kg = if you know both",
            ),
        ),
        ("Portion", Shape::AsTyped, region.pick("What one portion is: 10 fl oz", "What one portion is: 250 ml")),
        ("Portions", Shape::Number, "How many the batch gives. Of Makes, Portion and Portions two are enough."),
        ("Serving loss", Shape::Percent, "What stays in pots and ladles: 4%"),
        ("Menu price", Shape::Money, "What a portion sells for. Blank for stocks and sauces, or if the menu says it."),
        ("Target", Shape::Percent, "Food-cost % to keep to. Blank: the one in Settings."),
        ("Q factor", Shape::Free, "Bread, butter and the like: 5% of the food, or money for a portion with its sign."),
        ("Spice factor", Shape::Percent, "Seasoning nobody measures, in % of the food: 2%"),
        ("Note", Shape::Free, "Anything you want to remember."),
        ("Method", Shape::Free, "How it is made, in a few words."),
    ]
}

/// Adds the sheet with one empty card, to be copied for every recipe.
pub fn empty(book: &mut Book, region: Region) -> Result<(), XlsxError> {
    let columns = lines(region);
    let mut page = sheet(book, "Recipe card", &columns)?;
    page.title(
        "Recipe card",
        "One sheet for each recipe: copy this one before you fill it in, stocks and sauces too.",
    )?;
    for (text, shape, note) in labels(region) {
        let row = page.row();
        form::note(&mut page, row, 0, note)?;
        label(&mut page, text, Cell::Blank, shape, region, false)?;
    }
    page.skip(1);
    let header = page.row();
    page.sheet().set_repeat_rows(header, header)?;
    table(&mut page, region, &columns, &[], EMPTY_LINES)?;
    form::notes(&mut page, header, &columns)?;
    form::lists(&mut page, header + 1, &columns, 100)
}

/// Adds one sheet with the cards of the example.
pub fn examples(book: &mut Book, region: Region, cards: &[Example]) -> Result<(), XlsxError> {
    let columns = lines(region);
    let mut page = sheet(book, "Example recipes", &columns)?;
    page.title("Example recipes", "EXAMPLE – look how it is done, then delete this sheet.")?;
    for card in cards {
        for (text, cell) in &card.labels {
            label(&mut page, text, *cell, Shape::Free, region, true)?;
        }
        table(&mut page, region, &columns, &card.lines, 0)?;
        page.skip(2);
    }
    Ok(())
}

fn sheet<'b>(book: &'b mut Book, name: &str, columns: &[Column]) -> Result<Page<'b>, XlsxError> {
    let widths: Vec<u16> = columns.iter().map(|column| column.width).collect();
    book.sheet(name, &widths, false)
}

/// A label with its box.
fn label(
    page: &mut Page<'_>,
    text: &'static str,
    cell: Cell,
    shape: Shape,
    region: Region,
    example: bool,
) -> Result<(), XlsxError> {
    page.put(0, Cell::Text(text), &Format::new().set_font_color(INK).set_align(FormatAlign::Top))?;
    let mut boxed =
        form::ruled(1, shape, region).set_align(FormatAlign::Left).set_indent(1).set_border(FormatBorder::Hair);
    boxed = boxed.set_border_color(RULE);
    if text == "Recipe" {
        boxed = boxed.set_bold().set_font_color(ACCENT);
    }
    if example {
        boxed = boxed.set_background_color(PALE).set_italic();
    }
    let row = page.row();
    let end = if matches!(text, "Note" | "Method") { LONG_BOX } else { BOX };
    if text == "Method" {
        boxed = boxed.set_text_wrap().set_align(FormatAlign::Top);
        page.sheet().set_row_height(row, 60)?;
    }
    page.sheet().merge_range(row, 1, row, end, "", &boxed)?;
    page.put(1, cell, &boxed)?;
    if shape == Shape::Percent {
        page.sheet().add_data_validation(row, 1, row, 1, &form::percentage()?)?;
    }
    if text == "Recipe" && !example {
        page.sheet().add_data_validation(row, 1, row, 1, &form::typed(RECIPES))?;
    }
    page.skip(1);
    Ok(())
}

fn table(
    page: &mut Page<'_>,
    region: Region,
    columns: &[Column],
    example: &[Vec<Cell>],
    empty: u32,
) -> Result<(), XlsxError> {
    page.header(&form::heads(columns))?;
    form::rows(page, region, columns, example, empty)
}
