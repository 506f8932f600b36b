//! Unprintable characters: only cells can hold them, where they are written by their codes. In titles, notes, headers and what
//! is told of a picture they would leave a workbook that no program opens.

/// Whether `c` is a control character, or U+FFFE or U+FFFF, which stand for none and which no XML may hold (XML 1.0, 2.2).
pub(crate) fn is_unprintable(c: char) -> bool {
    c.is_control() || matches!(c, '\u{FFFE}' | '\u{FFFF}')
}
