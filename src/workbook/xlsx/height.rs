//! Row heights for wrapped text: not every program makes room for wrapped text by itself.

use super::letters::{EM, SPACE, width};
use super::strips::Strips;
use crate::workbook::cells::formula::{Formula, Outcome};
use crate::workbook::cells::row::{Cell, Content, Ink, Look, Row};
use crate::workbook::layout::column_width;

/// The height of a line in points, as spreadsheet programs have it.
const LINE: u32 = 15;
/// The highest row (common practice, no source: 409 points), in whole lines.
const MOST: u32 = 405;
/// The lines of a long text that are in sight, so that what stands below it is as well.
const IN_SIGHT: u32 = 5;

/// The height in points of a row that is higher than usual: for wrapped text that takes more than one line, or for what is
/// large.
pub(super) fn height_of(row: &Row, widths: &[u16]) -> Option<u32> {
    let heights = row.cells.iter().filter_map(|cell| {
        let line = line(cell.ink);
        let large = is_large(cell.ink).then_some(line);
        let text = match text_of(cell) {
            Some(text) if wraps(cell) => text,
            _ => return large,
        };
        let lines = u32::try_from(lines_in(text, room(cell, widths)?)).unwrap_or(MOST);
        let lines = if cell.ink == Ink::LongFact { lines.min(IN_SIGHT) } else { lines };
        if lines > 1 { Some(lines.saturating_mul(line)) } else { large }
    });
    Some(heights.max()?.min(MOST))
}

/// The text that is seen in a cell.
fn text_of(cell: &Cell) -> Option<&str> {
    match &cell.content {
        Content::Text(text) | Content::Link { text, .. } => Some(text),
        Content::Formula(Formula { result: Outcome::Text(text), .. }) => Some(text),
        _ => None,
    }
}

/// The height of a line of an ink.
fn line(ink: Ink) -> u32 {
    match ink {
        Ink::Title => 21,
        Ink::Wall | Ink::WallFact | Ink::WallLabel | Ink::WallHead => 18,
        Ink::WallTitle => 27,
        Ink::WallRule => 26,
        _ => LINE,
    }
}

/// Whether a row with it is told its height also where it is one line high: pages are measured by it.
fn is_large(ink: Ink) -> bool {
    line(ink) > LINE && ink != Ink::Title
}

/// The cells of a row, with texts wrapped that would be cut by the next cell, or by the end of the page: over the free columns
/// beside them where there are any.
pub(super) fn uncut(mut cells: Vec<Cell>, widths: &[u16], strips: &Strips) -> Vec<Cell> {
    let is_cut = |cell: &Cell, last: u16| {
        let (Content::Text(text) | Content::Link { text, .. }) = &cell.content else { return false };
        let flowing = Cell { look: Look::Flowing(last), content: Content::Blank, ..*cell };
        room(&flowing, widths).is_some_and(|room| text.contains('\n') || width(text) > room)
    };
    let taken: Vec<u16> = cells.iter().map(|cell| cell.column).collect();
    for cell in &mut cells {
        // What is not printed is read on the screen, where its own cell shows all of it.
        if cell.column > strips.last {
            continue;
        }
        if !matches!(cell.look, Look::General | Look::Words)
            || matches!(cell.ink, Ink::Header | Ink::HeaderLink | Ink::OwnHeader)
        {
            continue;
        }
        let next = taken.iter().copied().filter(|column| *column > cell.column).min();
        let known = u16::try_from(widths.len()).unwrap_or(u16::MAX).saturating_sub(1);
        let end = strips.end_of(cell.column).min(known);
        let last = next.map_or(end, |next| next.saturating_sub(1).min(end)).max(cell.column);
        if is_cut(cell, last) {
            // Some programs do not wrap what leads elsewhere: it is to be read first of all.
            if let Content::Link { text, .. } = &cell.content {
                cell.content = Content::Text(text.clone());
                cell.ink = if cell.ink == Ink::Link { Ink::Reading } else { cell.ink };
            }
            let merges = last > cell.column && matches!(cell.content, Content::Text(_));
            cell.look = if merges { Look::Flowing(last) } else { Look::Wrapped };
        }
    }
    cells
}

fn wraps(cell: &Cell) -> bool {
    matches!(cell.look, Look::Wrapped | Look::Flowing(_))
        || matches!(cell.ink, Ink::Header | Ink::HeaderLink | Ink::OwnHeader)
}

/// How wide a text may be in a cell, in parts of an em of its own letters; nothing where the width is not known.
fn room(cell: &Cell, widths: &[u16]) -> Option<u64> {
    /// Kept free, in per cent: programs measure letters a little differently.
    const FREE: u64 = 2;
    let first = usize::from(cell.column);
    let last = if let Look::Flowing(last) = cell.look { usize::from(last).max(first) } else { first };
    let columns = widths.get(first..=last)?;
    // On paper; on the screen figures are narrower, and so are letters. The edges of the cell stay free.
    let edges = if cell.look == Look::Words { 15 } else { 6 };
    let pixels: u64 = columns.iter().map(|width| u64::from(column_width::pixels(*width))).sum();
    let pixels = pixels.saturating_sub(edges);
    let (size, bold) = letters_of(cell.ink);
    // Bold letters are three in a hundred wider.
    let per_cent = FREE.saturating_add(if bold { 103 } else { 100 });
    // A point is four thirds of a pixel.
    let parts = pixels.saturating_mul(EM).saturating_mul(75);
    Some(parts / u64::from(size).saturating_mul(per_cent).max(1))
}

/// The size of the letters of an ink in points, and whether they are bold.
fn letters_of(ink: Ink) -> (u32, bool) {
    match ink {
        Ink::Title => (16, true),
        Ink::Section => (12, true),
        Ink::Aside => (8, false),
        Ink::Wall | Ink::WallFact => (13, false),
        Ink::WallLabel | Ink::WallHead => (13, true),
        Ink::WallTitle => (20, true),
        Ink::Header | Ink::HeaderLink | Ink::OwnHeader | Ink::Label | Ink::Total => (11, true),
        _ => (11, false),
    }
}

/// The lines that a text takes when it is broken between words; a line is so wide, in parts of an em.
fn lines_in(text: &str, room: u64) -> usize {
    let room = room.max(1);
    text.lines().map(|line| broken(line, room)).sum::<usize>().max(1)
}

fn broken(line: &str, room: u64) -> usize {
    let (mut lines, mut used) = (1_usize, 0_u64);
    for word in line.split(' ') {
        let word = width(word);
        let with_space = used.saturating_add(if used > 0 { SPACE } else { 0 }).saturating_add(word);
        if with_space <= room {
            used = with_space;
            continue;
        }
        let more = usize::try_from(word.saturating_sub(1) / room).unwrap_or(usize::MAX);
        lines = lines.saturating_add(usize::from(used > 0)).saturating_add(more);
        used = if word == 0 { 0 } else { (word.saturating_sub(1) % room).saturating_add(1) };
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_broken_between_words() {
        // Ten letters of 1,076 parts: h, n, u; a space has 463.
        let ten = 10_760;
        assert_eq!(lines_in("", ten), 1);
        assert_eq!(lines_in("hun", ten), 1);
        // hhhhhh nnn is 9 × 1076 + 463 = 10,147; with uuuu it is more.
        assert_eq!(lines_in("hhhhhh nnn uuuu", ten), 2);
        assert_eq!(lines_in("h\nu", ten), 2);
        // A word of 25 letters takes three lines of ten; what follows goes on in the third.
        let word = "h".repeat(25);
        assert_eq!(lines_in(&format!("{word} nnn"), ten), 3);
        assert_eq!(lines_in(&format!("{word} nnn uuu"), ten), 4);
    }

    #[test]
    fn a_name_that_fits_takes_one_line() {
        // 41 letters; in Carlito at 11 points 245 pixels, and 2 % are kept free. 34 figures of 7.4 pixels are 251, 33 are 244.
        let name = "Chilled shrimp with grapefruit and fennel";
        let row = Row { row: 0, cells: vec![Cell { look: Look::Wrapped, ..Cell::text(0, name, Ink::Reading) }] };
        assert_eq!(height_of(&row, &[34]), None);
        assert_eq!(height_of(&row, &[33]), Some(30));
    }
}
