//! A table of one column of names and several of short cells, laid out to a width.
//!
//! Names wrap; the other columns are as wide as what stands in them. Where figures leave too little room for names,
//! each row becomes a block of its own, one cell a line.

use super::width::{left, right, width, wrap_at_most};
use super::{Emphasis, View};

/// The space between columns.
const GAP: usize = 2;
/// The narrowest column of names.
const NARROWEST: usize = 12;
/// The most lines of one name.
const NAME_LINES: usize = 3;

/// A column beside the names.
#[derive(Debug, Clone, Copy)]
pub struct TextColumn {
    /// The words of its header, one or two lines.
    pub header: &'static [&'static str],
    /// Whether it holds figures, which stand at its right edge.
    pub figures: bool,
}

/// A row: its name, and one cell for each column.
#[derive(Debug, Clone)]
pub struct TextRow {
    /// What it is about.
    pub name: String,
    /// The cells with their inks.
    pub cells: Vec<(String, Emphasis)>,
}

/// The table of `rows`, whose names stand under `names`.
pub fn table(names: &str, columns: &[TextColumn], rows: &[TextRow], view: View) -> String {
    let widths: Vec<usize> = columns.iter().enumerate().map(|(at, column)| widest(column, at, rows)).collect();
    let beside: usize = widths.iter().map(|columns| columns + GAP).sum();
    let room = view.width.saturating_sub(beside);
    if room < NARROWEST {
        return blocks(columns, rows, view);
    }
    let longest = rows.iter().map(|row| width(&row.name)).max().unwrap_or(0).max(width(names));
    aligned(names, room.min(longest), columns, &widths, rows, view)
}

fn widest(column: &TextColumn, at: usize, rows: &[TextRow]) -> usize {
    let header = column.header.iter().map(|line| width(line)).max().unwrap_or(0);
    rows.iter().filter_map(|row| row.cells.get(at)).map(|(text, _)| width(text)).max().unwrap_or(0).max(header)
}

fn aligned(names: &str, room: usize, columns: &[TextColumn], widths: &[usize], rows: &[TextRow], view: View) -> String {
    let mut out = String::new();
    let height = columns.iter().map(|column| column.header.len()).max().unwrap_or(1);
    for line in 0..height {
        // Headers stand on the last line, just above their figures.
        let word = |header: &[&'static str]| {
            let from_the_last = height.saturating_sub(line).saturating_sub(1);
            header.iter().rev().nth(from_the_last).copied().unwrap_or("")
        };
        let cells = columns.iter().map(|column| (word(column.header), Emphasis::Strong));
        push_line(&mut out, (word_of(names, line, height), Emphasis::Strong), room, columns, widths, cells, view);
    }
    for row in rows {
        let lines = wrap_at_most(&row.name, room, NAME_LINES);
        let mut lines = lines.iter().map(String::as_str);
        let cells = row.cells.iter().map(|(text, ink)| (text.as_str(), *ink));
        push_line(&mut out, (lines.next().unwrap_or(""), Emphasis::Plain), room, columns, widths, cells, view);
        for line in lines {
            out.push_str(line);
            out.push('\n');
        }
    }
    out
}

fn word_of(names: &str, line: usize, height: usize) -> &str {
    if line + 1 == height { names } else { "" }
}

fn push_line<'a>(
    out: &mut String,
    (name, ink): (&str, Emphasis),
    room: usize,
    columns: &[TextColumn],
    widths: &[usize],
    cells: impl Iterator<Item = (&'a str, Emphasis)>,
    view: View,
) {
    let mut line = ink.on(name, view);
    line.push_str(&" ".repeat(room.saturating_sub(width(name))));
    for (at, ((column, columns), (text, ink))) in columns.iter().zip(widths).zip(cells).enumerate() {
        line.push_str(&" ".repeat(GAP));
        let last = at + 1 == widths.len();
        let padded = match (column.figures, last) {
            (true, _) => right(text, *columns),
            (false, true) => text.to_owned(),
            (false, false) => left(text, *columns),
        };
        line.push_str(&ink.on(&padded, view));
    }
    out.push_str(line.trim_end());
    out.push('\n');
}

fn blocks(columns: &[TextColumn], rows: &[TextRow], view: View) -> String {
    let mut out = String::new();
    let label = |column: &TextColumn| column.header.join(" ");
    let labels = columns.iter().map(|column| width(&label(column))).max().unwrap_or(0);
    for row in rows {
        for line in wrap_at_most(&row.name, view.width, NAME_LINES) {
            out.push_str(&Emphasis::Strong.on(&line, view));
            out.push('\n');
        }
        for (column, (text, ink)) in columns.iter().zip(&row.cells) {
            out.push_str(&format!("  {}  {}\n", left(&label(column), labels), ink.on(text, view)));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    const COLUMNS: [TextColumn; 2] = [
        TextColumn { header: &["Menu", "price"], figures: true },
        TextColumn { header: &["Standing"], figures: false },
    ];

    fn row(name: &str, price: &str) -> TextRow {
        TextRow {
            name: name.into(),
            cells: vec![(price.into(), Emphasis::Plain), ("within target".into(), Emphasis::Good)],
        }
    }

    #[test]
    fn figures_stand_at_the_right_and_names_wrap() {
        let rows = [row("Soup", "5.95"), row("A plate with a long name", "16.95")];
        // 34 columns: 5 and 13 for the cells, two gaps of 2, which leaves 12 for names.
        let text = table("Dish", &COLUMNS, &rows, View { width: 34, color: false });
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(
            lines,
            [
                "               Menu",
                "Dish          price  Standing",
                "Soup           5.95  within target",
                "A plate with  16.95  within target",
                "a long name",
            ]
        );
    }

    #[test]
    fn figures_too_wide_for_a_table_become_blocks() {
        let rows = [row("Soup", "12345678901234567890")];
        let text = table("Dish", &COLUMNS, &rows, View { width: 30, color: false });
        assert_eq!(text, "Soup\n  Menu price  12345678901234567890\n  Standing    within target\n");
    }
}
