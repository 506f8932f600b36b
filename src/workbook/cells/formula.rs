//! Live formulas: references to cells, put together with the result that the engine computed.

use std::sync::Arc;

mod guards;

use crate::number::Decimal;
use crate::problem::place::{push_column, push_row};
use crate::workbook::cells::unprintable::is_unprintable;

pub use guards::{
    BLANK, elsewhere, is_typed, needed, not_as_typed, not_below_nought, not_if, or_else, says_other, unless,
    while_filled, while_there,
};

/// A formula with its result.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Formula {
    /// The formula, without the equals sign, and without what stands round a figure.
    pub text: String,
    /// Whether it is a figure that may come to an error.
    guarded: bool,
    /// What the engine computed.
    pub result: Outcome,
}

/// The result of a formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Outcome {
    /// A number.
    Number(Decimal),
    /// Text; empty where there is nothing to say yet.
    Text(String),
}

/// The longest formula that is written: a spreadsheet program takes 8,192 characters.
pub const LONGEST: usize = 8_000;

/// What a cell says of what holds.
pub const YES: &str = "yes";

/// What a figure says that cannot be figured: something it stands on was cleared or taken out.
pub const NOT_KNOWN: &str = "not known";

/// What ends a figure that stands only where a condition holds.
const OR_NOT_KNOWN: &str = ",\"not known\")";

/// What stands round a figure whose text may come to an error.
const GUARD: [&str; 2] = ["IFERROR(", OR_NOT_KNOWN];

impl Formula {
    /// A formula whose result is a number, or [`NOT_KNOWN`] where something that it stands on is no number.
    pub fn number(text: impl Into<String>, result: Decimal) -> Self {
        Formula::guarded(text.into(), Outcome::Number(result))
    }

    /// A formula whose result is a number once `cell` is filled, and nothing before.
    pub fn number_once_filled(cell: &str, text: &str, result: Option<Decimal>) -> Self {
        match result {
            Some(result) => Formula::number(text, result),
            None => Formula::blank(or_else(cell, text, BLANK)),
        }
    }

    /// A formula whose result is a number, or nothing as long as what it stands on is blank.
    pub fn number_or_blank(text: impl Into<String>, result: Option<Decimal>) -> Self {
        let text = text.into();
        match result {
            Some(result) => Formula::number(text, result),
            None => Formula::blank(text),
        }
    }

    fn blank(text: String) -> Self {
        Formula::guarded(text, Outcome::Text(String::new()))
    }

    /// A formula whose result is text, or [`NOT_KNOWN`] where something that it stands on is an error.
    pub fn text(text: impl Into<String>, result: impl Into<String>) -> Self {
        Formula::guarded(text.into(), Outcome::Text(result.into()))
    }

    /// A formula that says itself what an error means, or passes it on.
    pub fn bare(text: String, result: Outcome) -> Self {
        Formula { text, guarded: false, result }
    }

    fn guarded(text: String, result: Outcome) -> Self {
        // Words in arithmetic are an error, and so is a row that was taken out; a cell of the same sheet passes both on.
        let guarded = !text.bytes().all(|byte| byte.is_ascii_alphanumeric());
        Formula { text, guarded, result }
    }

    /// The formula as it is written, in its parts, without the equals sign.
    pub fn parts(&self) -> [&str; 3] {
        let [before, after] = if self.guarded { GUARD } else { [""; 2] };
        [before, &self.text, after]
    }

    /// The formula as it is written.
    pub fn whole(&self) -> String {
        self.parts().concat()
    }

    /// How long it is as it is written, in bytes.
    pub fn length(&self) -> usize {
        self.parts().iter().fold(0_usize, |length, part| length.saturating_add(part.len()))
    }
}

/// A cell of the workbook.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ref {
    /// Its sheet.
    pub sheet: Arc<str>,
    /// Zero-based row.
    pub row: u32,
    /// Zero-based column.
    pub column: u16,
    /// What tells its row from others; `None` where rows are not sorted.
    pub key: Option<Key>,
}

/// What tells a row from the others of its table, wherever people have moved it to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Key {
    /// Zero-based column of the keys.
    pub column: u16,
    /// Zero-based last row of the table, which begins below the first row of its sheet.
    pub last: u32,
    /// What stands there in this row.
    pub text: KeyText,
    /// Whether the row is looked for where it has moved. A formula that looks through a column on which itself hangs would
    /// go round in a circle: there the figure is [`NOT_KNOWN`] once the row has moved.
    pub looked_up: bool,
}

/// The text of a key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum KeyText {
    /// The table's letter and the row in which it was written: `P17`.
    Row(char),
    /// Words of ours.
    Words(&'static str),
}

impl KeyText {
    /// Appends the text that stands in a zero-based `row`.
    fn push(self, out: &mut String, row: u32) {
        match self {
            KeyText::Row(letter) => {
                out.push(letter);
                push_row(out, u64::from(row).saturating_add(1));
            }
            KeyText::Words(words) => out.push_str(words),
        }
    }
}

/// The rows of a sheet (ECMA-376 part 1, 18.3.1.73, as programs write them).
const ROWS: u64 = 1_048_576;

impl Ref {
    /// The cell at a zero-based `row` and `column` of `sheet`.
    pub fn new(sheet: impl Into<Arc<str>>, row: u32, column: u16) -> Self {
        Ref { sheet: sheet.into(), row, column, key: None }
    }

    /// The cell in a row that has a key.
    pub fn keyed(self, key: Key) -> Self {
        Ref { key: Some(key), ..self }
    }

    /// The cell as it stands, wherever its row goes.
    pub fn unkeyed(self) -> Self {
        Ref { key: None, ..self }
    }

    /// What stands in its row in the column of keys.
    pub fn key_text(&self) -> Option<String> {
        let mut text = String::new();
        self.key?.text.push(&mut text, self.row);
        Some(text)
    }

    /// `C14`.
    pub fn cell(&self) -> String {
        cell(self.row, self.column)
    }

    /// As a formula of another row or sheet reads it, on `sheet`: `$C$14`, or `'Yield tests'!$C$14` from elsewhere, which
    /// stays what it is when the row of the formula moves; and where the row of the cell may move, found by its key.
    pub fn from(&self, sheet: &str) -> String {
        let mut out = String::new();
        self.push_from(&mut out, sheet);
        out
    }

    /// Appends it as [`Ref::from`] has it.
    pub fn push_from(&self, out: &mut String, sheet: &str) {
        let elsewhere = (*self.sheet != *sheet).then_some(&*self.sheet);
        let at = |out: &mut String, column: u16, row: u64| {
            if let Some(sheet) = elsewhere {
                push_quoted(out, sheet);
                out.push('!');
            }
            push_fixed(out, column, row);
        };
        let row = u64::from(self.row).saturating_add(1);
        let Some(key) = self.key else { return at(out, self.column, row) };
        // What most of them take.
        out.reserve(160);
        out.push_str("IF(");
        // Beside words of ours stands what people type: cut and pasted elsewhere, it is looked for where it stood.
        let is_typed = matches!(key.text, KeyText::Words(_));
        if is_typed {
            out.push_str("AND(ROW(");
            at(out, self.column, row);
            out.push_str(")=ROW(");
            at(out, key.column, row);
            out.push_str("),COLUMN(");
            at(out, self.column, row);
            out.push_str(")=COLUMN(");
            at(out, self.column, 1);
            out.push_str("),");
        }
        at(out, key.column, row);
        out.push_str("=\"");
        key.text.push(out, self.row);
        out.push_str(if is_typed { "\")," } else { "\"," });
        at(out, self.column, row);
        // Where nothing has moved, which is nearly always, nothing is looked for.
        if key.looked_up {
            // From the header to the blank row below, so that the ends stand when the first or the last row is deleted.
            let last = u64::from(key.last).saturating_add(2).min(ROWS);
            let range = |out: &mut String, column: u16| {
                at(out, column, 1);
                out.push(':');
                push_fixed(out, column, last);
            };
            out.push_str(",INDEX(");
            range(out, self.column);
            out.push_str(",MATCH(\"");
            key.text.push(out, self.row);
            out.push_str("\",");
            range(out, key.column);
            out.push_str(",0)))");
        } else {
            out.push_str(",\"");
            out.push_str(NOT_KNOWN);
            out.push_str("\")");
        }
    }

    /// As a formula in `row` of `sheet` reads it: a cell of its own row is named by its place beside it.
    pub fn beside(&self, sheet: &str, row: u32) -> String {
        if *self.sheet == *sheet && self.row == row { self.cell() } else { self.from(sheet) }
    }

    /// `$C$14`.
    pub fn absolute(&self) -> String {
        let mut out = String::new();
        push_fixed(&mut out, self.column, u64::from(self.row).saturating_add(1));
        out
    }

    /// As a name stands for it: `'Yield tests'!$C$14`.
    pub fn fixed(&self) -> String {
        let mut out = quoted(&self.sheet);
        out.push('!');
        push_fixed(&mut out, self.column, u64::from(self.row).saturating_add(1));
        out
    }

    /// As a link leads to it: `'Yield tests'!C14`.
    pub fn linked(&self) -> String {
        let mut out = quoted(&self.sheet);
        out.push('!');
        out.push_str(&self.cell());
        out
    }

    /// As people name it: `Yield tests!C14`.
    pub fn spoken(&self) -> String {
        format!("{}!{}", self.sheet, self.cell())
    }
}

/// The cell at a zero-based `row` and `column`: `C14`.
pub fn cell(row: u32, column: u16) -> String {
    let mut out = String::with_capacity(8);
    push_cell(&mut out, row, column);
    out
}

/// Appends the cell at a zero-based `row` and `column`.
pub fn push_cell(out: &mut String, row: u32, column: u16) {
    push_column(out, u32::from(column));
    push_row(out, u64::from(row).saturating_add(1));
}

/// Appends `$C$14`, of a zero-based column and the number of a row.
fn push_fixed(out: &mut String, column: u16, row: u64) {
    out.push('$');
    push_column(out, u32::from(column));
    out.push('$');
    push_row(out, row);
}

/// Words as a formula says them.
pub fn in_quotes(words: &str) -> String {
    let mut out = String::with_capacity(words.len().saturating_add(2));
    out.push('"');
    for (at, part) in words.split('"').enumerate() {
        if at > 0 {
            out.push_str("\"\"");
        }
        out.push_str(part);
    }
    out.push('"');
    out
}

/// The longest text that a formula may hold in quotes, in UTF-16 units (ECMA-376 part 1, 18.17.2.2, as programs read it).
const LONGEST_LITERAL: usize = 255;

/// Words in a formula, in quotes; `None` of those that no formula may hold, or that some program reads otherwise in a cell:
/// what looks like the code of a character, spaces at the ends.
pub fn literal(words: &str) -> Option<String> {
    // Nearly all are short, and of letters that need no second look.
    let is_short = words.len() <= LONGEST_LITERAL || words.encode_utf16().count() <= LONGEST_LITERAL;
    let is_ascii = words.bytes().fold(true, |all, byte| all & matches!(byte, b' '..=b'~'));
    let is_printable = || is_ascii || !words.contains(is_unprintable);
    let fits = is_short && words.trim() == words && !words.contains("_x") && is_printable();
    fits.then(|| in_quotes(words))
}

/// A sheet's name in quotes, as formulas want it.
pub fn quoted(sheet: &str) -> String {
    let mut out = String::new();
    push_quoted(&mut out, sheet);
    out
}

fn push_quoted(out: &mut String, sheet: &str) {
    out.push('\'');
    if sheet.as_bytes().contains(&b'\'') {
        out.push_str(&sheet.replace('\'', "''"));
    } else {
        out.push_str(sheet);
    }
    out.push('\'');
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_is_named_from_its_own_sheet_and_from_elsewhere() {
        let cell = Ref::new("Chef's soup", 13, 2);
        assert_eq!(cell.from("Chef's soup"), "$C$14");
        assert_eq!(cell.from("Summary"), "'Chef''s soup'!$C$14");
        assert_eq!(cell.beside("Chef's soup", 13), "C14");
        assert_eq!(cell.spoken(), "Chef's soup!C14");
    }

    #[test]
    fn a_figure_stands_while_its_cells_say_what_they_said() {
        let cell = |row| Ref::new("Lines", row, 1);
        let there = [(cell(4), "Leeks".to_owned()), (cell(5), "12\" pan".to_owned())];
        assert_eq!(
            while_there(&there, "Summary", "A1"),
            "IF(AND('Lines'!$B$5=\"Leeks\",'Lines'!$B$6=\"12\"\" pan\"),A1,\"not known\")"
        );
        // What no formula may hold is not asked.
        assert_eq!(while_there(&[(cell(4), "two\nlines".to_owned())], "Summary", "A1"), "A1");
        assert_eq!((literal(&"x".repeat(256)), literal(&"x".repeat(255)).map(|text| text.len())), (None, Some(257)));
    }

    #[test]
    fn a_row_that_may_move_is_found_by_its_key() {
        let key = |looked_up| Key { column: 23, last: 8, text: KeyText::Row('P'), looked_up };
        let cell = |looked_up| Ref::new("Prices", 4, 10).keyed(key(looked_up));
        assert_eq!(
            cell(true).from("Summary"),
            "IF('Prices'!$X$5=\"P5\",'Prices'!$K$5,INDEX('Prices'!$K$1:$K$10,MATCH(\"P5\",'Prices'!$X$1:$X$10,0)))"
        );
        assert_eq!(cell(false).from("Prices"), "IF($X$5=\"P5\",$K$5,\"not known\")");
        let words = Key { column: 0, last: 8, text: KeyText::Words("Q factor"), looked_up: true };
        assert_eq!(
            Ref::new("Settings", 4, 1).keyed(words).from("Settings"),
            "IF(AND(ROW($B$5)=ROW($A$5),COLUMN($B$5)=COLUMN($B$1),$A$5=\"Q factor\"),$B$5,\
             INDEX($B$1:$B$10,MATCH(\"Q factor\",$A$1:$A$10,0)))"
        );
        assert_eq!(cell(true).beside("Prices", 4), "K5");
    }
}
