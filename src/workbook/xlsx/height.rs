//! Row heights for wrapped text: not every program makes room for wrapped text by itself.

use super::strips::Strips;
use crate::workbook::cells::row::{Cell, Content, Ink, Look, Row};

/// The height of a line in points, as spreadsheet programs have it, and that of a title.
const LINE: u32 = 15;
const TITLE_LINE: u32 = 21;
/// The highest row (common practice, no source: 409 points), in whole lines.
const MOST: u32 = 405;

/// The height in points of a row with wrapped text, where it takes more than one line.
pub(super) fn height_of(row: &Row, widths: &[u16]) -> Option<u32> {
    let heights = row.cells.iter().filter(|cell| wraps(cell)).filter_map(|cell| {
        let (Content::Text(text) | Content::Link { text, .. }) = &cell.content else { return None };
        let lines = u32::try_from(lines_in(text, letters(cell, widths)?)).unwrap_or(MOST);
        let line = if cell.ink == Ink::Title { TITLE_LINE } else { LINE };
        (lines > 1).then(|| lines.saturating_mul(line))
    });
    Some(heights.max()?.min(MOST))
}

/// The cells of a row, with texts wrapped that would be cut by the next cell, or by the end of the page: over the free columns
/// beside them where there are any.
pub(super) fn uncut(mut cells: Vec<Cell>, widths: &[u16], strips: &Strips) -> Vec<Cell> {
    let is_cut = |cell: &Cell, last: u16| {
        let (Content::Text(text) | Content::Link { text, .. }) = &cell.content else { return false };
        let flowing = Cell { look: Look::Flowing(last), content: Content::Blank, ..*cell };
        letters(&flowing, widths).is_some_and(|room| text.contains('\n') || text.chars().count() > room)
    };
    let taken: Vec<u16> = cells.iter().map(|cell| cell.column).collect();
    for cell in &mut cells {
        // What is not printed is read on the screen, where its own cell shows all of it.
        if cell.column > strips.last {
            continue;
        }
        if !matches!(cell.look, Look::General | Look::Words) || matches!(cell.ink, Ink::Header | Ink::OwnHeader) {
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
    matches!(cell.look, Look::Wrapped | Look::Flowing(_)) || matches!(cell.ink, Ink::Header | Ink::OwnHeader)
}

/// How many letters go into a cell. A width counts figures, and letters are narrower than those, but for headers, which
/// are bold: six go where five figures do, and four letters of a title where five do (measured by eye).
fn letters(cell: &Cell, widths: &[u16]) -> Option<usize> {
    let first = usize::from(cell.column);
    let last = if let Look::Flowing(last) = cell.look { usize::from(last).max(first) } else { first };
    let width: usize = widths.get(first..=last)?.iter().map(|width| usize::from(*width)).sum();
    Some(match cell.ink {
        Ink::Header | Ink::OwnHeader => width,
        Ink::Title => width.saturating_mul(4) / 5,
        Ink::Aside => width.saturating_mul(3) / 2,
        _ => width.saturating_mul(6) / 5,
    })
}

/// The lines that a text takes when it is broken between words.
fn lines_in(text: &str, width: usize) -> usize {
    let width = width.max(1);
    text.lines().map(|line| broken(line, width)).sum::<usize>().max(1)
}

fn broken(line: &str, width: usize) -> usize {
    let (mut lines, mut used) = (1_usize, 0_usize);
    for word in line.split(' ') {
        let word = word.chars().count();
        let with_space = used.saturating_add(usize::from(used > 0)).saturating_add(word);
        if with_space <= width {
            used = with_space;
            continue;
        }
        lines = lines.saturating_add(usize::from(used > 0)).saturating_add(word.saturating_sub(1) / width);
        used = if word == 0 { 0 } else { (word - 1) % width + 1 };
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_broken_between_words() {
        assert_eq!(lines_in("", 10), 1);
        assert_eq!(lines_in("short", 10), 1);
        // simmer the | shells and | strain
        assert_eq!(lines_in("simmer the shells and strain", 10), 3);
        assert_eq!(lines_in("one\ntwo", 10), 2);
        // A word of 25 letters takes three lines of ten; what follows goes on in the third.
        assert_eq!(lines_in("abcdefghijklmnopqrstuvwxy and", 10), 3);
        assert_eq!(lines_in("abcdefghijklmnopqrstuvwxy and so", 10), 4);
    }
}
