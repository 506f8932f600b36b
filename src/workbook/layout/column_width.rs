//! Column widths, and where a header stands, by what is in it.

use crate::kitchen::InputRow;
use crate::number::plain;
use crate::schema::as_written;
use crate::schema::{Column, TableKind, Value};
use crate::workbook::cells::row::{Cell, Content, Ink, Look};
use crate::workbook::layout::Slot;

/// The shape of a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ColumnShape {
    /// Its width in characters.
    pub width: u16,
    /// Whether it holds figures.
    pub figures: bool,
    /// Whether the column before it does, so that words want to stand clear of them.
    pub after_figures: bool,
}

/// Rows that are looked at: enough to know how long the texts of a long list are.
const LOOKED_AT: usize = 400;
/// The narrowest and the widest column of what is typed; longer texts wrap.
const NARROWEST: usize = 6;
const WIDEST: usize = 34;
/// The width of a column of recipes' names.
const NAME: u16 = 30;
/// The longest number for which a column is made wider.
const LONGEST_NUMBER: usize = 12;
/// The width of a column of figures of our own.
const FIGURE: u16 = 11;

/// The shapes of a table's columns.
pub fn of(kind: TableKind, slots: &[Slot], rows: &[&InputRow]) -> Vec<ColumnShape> {
    // The rows of a card do not hold its name, those of a list do: the column is as wide for both.
    let named = matches!(kind, TableKind::RecipeLines | TableKind::RecipeFacts);
    let shape = |slot: &Slot| match slot {
        Slot::Input(Column::Recipe) if named => ColumnShape { width: NAME, figures: false, after_figures: false },
        Slot::Input(column) => of_input(kind.header(*column), *column, rows),
        Slot::Own(header) => of_own(header),
    };
    let mut shapes: Vec<ColumnShape> = slots.iter().map(shape).collect();
    let mut before = false;
    let first_own = slots.iter().position(|slot| matches!(slot, Slot::Own(_)));
    for (at, shape) in shapes.iter_mut().enumerate() {
        // Behind the last input's box words stand clear as well.
        shape.after_figures = before || first_own == Some(at);
        before = shape.figures;
    }
    shapes
}

fn of_input(header: &str, column: Column, rows: &[&InputRow]) -> ColumnShape {
    let (mut longest, mut numbers, mut filled) = (0_usize, 0_usize, 0_usize);
    for typed in rows.iter().take(LOOKED_AT).map(|row| row.typed(column)).filter(|typed| !typed.is_blank()) {
        filled = filled.saturating_add(1);
        let is_number = matches!(typed.value, Value::Number(_) | Value::Date(_));
        numbers = numbers.saturating_add(usize::from(is_number));
        // A number may be shown with a sign, marks and two decimals.
        let room = if is_number { 4 } else { 1 };
        let length = match &typed.value {
            // As wide when it is read again: with the sign that it was given, cut to what a spreadsheet holds.
            Value::Number(number) => plain(*number).len().min(LONGEST_NUMBER),
            Value::Text(text) => text.lines().map(|line| line.chars().count()).max().unwrap_or_default(),
            _ => typed.seen().chars().count(),
        };
        longest = longest.max(length.saturating_add(room));
    }
    let word = header.split(' ').map(|word| word.chars().count()).max().unwrap_or_default().saturating_add(2);
    let width = longest.clamp(NARROWEST.max(word), WIDEST);
    ColumnShape {
        width: u16::try_from(width).unwrap_or(FIGURE),
        figures: numbers.saturating_mul(2) > filled,
        after_figures: false,
    }
}

/// The columns of quantities on a card hold the values of its labels and totals, too.
pub const VALUES: u16 = 12;

/// How wide a column comes to paper in pixels, of which 96 make an inch: its figures are as wide as those of Carlito at 11
/// points (as LibreOffice 7.4 prints them; on the screen they are 7 pixels).
pub fn pixels(width: u16) -> u32 {
    u32::from(width).saturating_mul(74).saturating_div(10).saturating_add(6)
}

/// Widens the columns of a card whose cells hold more than its lines, and narrows those of words, which wrap, until it fits
/// a page that stands upright, or else one that lies.
pub fn to_a_card(slots: &[Slot], last_printed: Option<u16>, shapes: &mut [ColumnShape]) {
    /// The width of the narrower paper upright, A4, and of the narrower one lying, Letter, in pixels: at 82 % letters of 11
    /// points are 9 points high.
    const PAGES: [u32; 2] = [697 * 100 / 82, 960 * 100 / 82];
    let narrowest = |slot: &Slot| match slot {
        Slot::Input(Column::Item) => 18,
        Slot::Input(Column::Unit) => 8,
        _ => 9,
    };
    for (slot, shape) in slots.iter().zip(&mut *shapes) {
        shape.width = match slot {
            Slot::Input(Column::Item) => shape.width.max(30),
            Slot::Input(Column::Qty) => shape.width.max(VALUES),
            Slot::Input(Column::Unit) => shape.width.max(9),
            Slot::Own("AP or EP") => 6,
            Slot::Own("Yield used" | "Share of cost") => 7,
            Slot::Own("Unit costed") => 8,
            Slot::Own("Cost per unit") => 10,
            _ => shape.width,
        };
    }
    let printed = last_printed.map_or(0, |last| usize::from(last).saturating_add(1));
    let Some(shapes) = shapes.get_mut(..printed) else { return };
    let narrowed = |page: u32| {
        let mut shapes = shapes.to_vec();
        while shapes.iter().map(|shape| pixels(shape.width)).sum::<u32>() > page {
            let words = slots.iter().zip(&mut shapes);
            let words = words.filter(|(slot, shape)| !shape.figures && shape.width > narrowest(slot));
            let (_, widest) = words.max_by_key(|(_, shape)| shape.width)?;
            widest.width = widest.width.saturating_sub(1);
        }
        Some(shapes)
    };
    // Where neither is wide enough it comes in strips, as wide as it is.
    if let Some(fitting) = PAGES.into_iter().find_map(narrowed) {
        shapes.copy_from_slice(&fitting);
    }
}

fn of_own(header: &str) -> ColumnShape {
    let words = |width| ColumnShape { width, figures: false, after_figures: false };
    match header {
        "Pack read as" | "Charge read as" | "Measure read as" | "On hand read as" | "Better row" => words(24),
        "Recipe used" => words(30),
        "Source" => words(26),
        "Allergens found" | "May contain found" | "Allergens not stated" => words(26),
        "Row used" | "Yield from" | "Standing" => words(16),
        "Yield used" | "Share of cost" => ColumnShape { width: 8, figures: true, after_figures: false },
        as_written::HEADER => words(12),
        "Row key" | "Cost unit" | "Unit costed" | "Figured in" | "AP or EP" => words(9),
        _ => ColumnShape { width: FIGURE, figures: true, after_figures: false },
    }
}

/// A header above its column.
pub fn header(column: u16, text: &str, ink: Ink, shape: Option<&ColumnShape>) -> Cell {
    let look = match shape {
        Some(ColumnShape { figures: true, .. }) => Look::OverFigures,
        Some(ColumnShape { after_figures: true, .. }) => Look::Words,
        _ => Look::General,
    };
    Cell { look, ..Cell::text(column, text, ink) }
}

/// Text as it fits its column: wrapped where it is longer than that is wide, clear of figures before it.
pub fn fitted(cell: Cell, shape: Option<&ColumnShape>) -> Cell {
    let wider = |text: &str, shape: &ColumnShape| {
        let room = usize::from(shape.width).saturating_mul(6) / 5;
        text.contains('\n') || text.chars().count() > room
    };
    match (&cell.content, &cell.look, shape) {
        (Content::Text(text), Look::General, Some(shape)) if wider(text, shape) => Cell { look: Look::Wrapped, ..cell },
        (Content::Text(_) | Content::Link { .. }, Look::General, Some(ColumnShape { after_figures: true, .. })) => {
            Cell { look: Look::Words, ..cell }
        }
        _ => cell,
    }
}
