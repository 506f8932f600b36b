//! Cells of csv tables: text that no spreadsheet program takes for a formula, and figures as they are.

use std::borrow::Cow;

use crate::number::Decimal;
use crate::results::value::Figure;
use crate::results::word::{Closed, Word};

/// A cell. There is no way to make one of a book's text but [`CsvCell::text`], so none goes out unguarded.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct CsvCell(String);

impl CsvCell {
    /// Text from a book.
    pub fn text(text: &str) -> Self {
        CsvCell(guarded(text).into_owned())
    }

    /// A word of ours.
    pub fn word(word: &'static str) -> Self {
        CsvCell(word.to_owned())
    }

    /// One of a closed list; blank where it is not known.
    pub fn of<T: Closed>(word: Option<Word<T>>) -> Self {
        CsvCell(word.map(|word| word.0.word().to_owned()).unwrap_or_default())
    }

    /// A figure; blank where it is not known.
    pub fn figure(figure: Option<Figure>) -> Self {
        CsvCell(figure.map(|figure| figure.to_string()).unwrap_or_default())
    }

    /// A number; blank where it is not known.
    pub fn number(number: Option<Decimal>) -> Self {
        CsvCell::figure(number.map(Figure))
    }

    /// How many.
    pub fn count(count: usize) -> Self {
        CsvCell(count.to_string())
    }

    /// A day, as YYYY-MM-DD.
    pub fn day(day: jiff::civil::Date) -> Self {
        CsvCell(day.to_string())
    }
}

impl AsRef<[u8]> for CsvCell {
    fn as_ref(&self) -> &[u8] {
        self.0.as_bytes()
    }
}

/// What a spreadsheet program begins a formula with; the full-width forms where it runs in Chinese or Japanese.
const STARTS: [char; 8] = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];

/// What parts cells or rows for a program that is set to another separator than the comma.
const PARTS: [char; 4] = [';', '\t', '\r', '\n'];

/// An apostrophe before every formula: at the start of the text, and where another program would see the start of a
/// cell, behind a semicolon, tab or line break. Blanks, quotation marks and what does not show hide none. Text that
/// begins with a tab or line break has one too.
fn guarded(text: &str) -> Cow<'_, str> {
    let marked = text.starts_with(['\t', '\r', '\n']);
    if !marked && !text.contains(STARTS) {
        return Cow::Borrowed(text);
    }
    let hides = |c: char| {
        let shows_nothing = c.is_whitespace() || c.is_control() || matches!(c, '\u{feff}' | '\u{200b}');
        (shows_nothing || c == '"') && !PARTS.contains(&c)
    };
    let mut safe = String::with_capacity(text.len().saturating_add(1));
    if marked {
        safe.push('\'');
    }
    for piece in text.split_inclusive(PARTS) {
        if piece.trim_start_matches(hides).starts_with(STARTS) {
            safe.push('\'');
        }
        safe.push_str(piece);
    }
    Cow::Owned(safe)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every way in which a cell, or what another separator makes of it, may begin a formula.
    #[test]
    fn no_text_starts_a_formula() {
        for (cell, written) in [
            ("=SUM(A1)", "'=SUM(A1)"),
            ("+1", "'+1"),
            ("-2", "'-2"),
            ("@home", "'@home"),
            ("＝1", "'＝1"),
            ("＋1", "'＋1"),
            ("－1", "'－1"),
            ("＠a", "'＠a"),
            ("\tx", "'\tx"),
            ("\rx", "'\rx"),
            ("\nx", "'\nx"),
            // What does not show before it.
            (" =1", "' =1"),
            ("\u{a0}\u{feff}\u{200b}\u{1}=1", "'\u{a0}\u{feff}\u{200b}\u{1}=1"),
            ("\"=1\"", "'\"=1\""),
            // For a program that parts cells at semicolons or tabs, whose rows end at every line break.
            ("Soup;=1", "Soup;'=1"),
            ("Soup; =1; @x", "Soup;' =1;' @x"),
            ("Soup;\"\"=1", "Soup;'\"\"=1"),
            ("Soup\t-1", "Soup\t'-1"),
            ("Soup\r\n+1\n－1", "Soup\r\n'+1\n'－1"),
            ("=1;=2", "'=1;'=2"),
            ("\t=1", "'\t'=1"),
        ] {
            assert_eq!(CsvCell::text(cell), CsvCell(written.to_owned()), "{cell:?}");
        }
    }

    #[test]
    fn other_text_stays_as_it_is() {
        for cell in [
            "",
            "Soup = good",
            "Half-and-half",
            "a@b",
            "Salt; pepper",
            "Salt, pepper",
            "'=1",
            "1-2",
            "Say \"aah\"",
            "one\ntwo",
            "Soup ;",
            "#10 can",
            "½ cup",
            "−1",
            "50 %",
        ] {
            assert_eq!(CsvCell::text(cell), CsvCell(cell.to_owned()), "{cell:?}");
        }
    }

    #[test]
    fn figures_keep_their_sign() {
        assert_eq!(CsvCell::number(Some(Decimal::new(-150, 2))), CsvCell("-1.5".to_owned()));
        assert_eq!(CsvCell::number(None), CsvCell::default());
    }
}
