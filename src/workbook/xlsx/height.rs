//! Row heights for wrapped text: not every program makes room for wrapped text by itself.

use crate::workbook::cells::row::{Cell, Content, Ink, Look, Row};

/// The most lines that a row makes room for: a spreadsheet's row ends at 409 points (common practice, no source).
const MOST: u32 = 27;

/// How many lines the longest wrapped text of a row takes.
pub(super) fn lines_of(row: &Row, widths: &[u16]) -> u32 {
    let lines = row.cells.iter().filter(|cell| wraps(cell)).filter_map(|cell| {
        let (Content::Text(text) | Content::Link { text, .. }) = &cell.content else { return None };
        Some(lines_in(text, letters(cell, widths)?))
    });
    lines.max().and_then(|lines| u32::try_from(lines).ok()).unwrap_or(1).min(MOST)
}

fn wraps(cell: &Cell) -> bool {
    matches!(cell.look, Look::Wrapped | Look::Flowing(_)) || matches!(cell.ink, Ink::Header | Ink::OwnHeader)
}

/// How many letters go into a cell. A width counts figures, and letters are narrower than those, but for headers, which
/// are bold: six go where five figures do (measured by eye).
fn letters(cell: &Cell, widths: &[u16]) -> Option<usize> {
    let first = usize::from(cell.column);
    let last = if let Look::Flowing(last) = cell.look { usize::from(last).max(first) } else { first };
    let width: usize = widths.get(first..=last)?.iter().map(|width| usize::from(*width)).sum();
    let bold = matches!(cell.ink, Ink::Header | Ink::OwnHeader);
    Some(if bold { width } else { width.saturating_mul(6) / 5 })
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
