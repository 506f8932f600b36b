//! Width of text on a terminal, and fitting it: padding, cutting and wrapping by columns, not by characters.
//!
//! Widths after Unicode Standard Annex 11: a wide character takes two columns, a combining one none.

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

use crate::output::steering::spelled_out;

/// The columns that `text` takes.
pub fn width(text: &str) -> usize {
    UnicodeWidthStr::width(text)
}

/// `text` on one line, without what could steer a terminal or turn the direction of a line: white space of any kind
/// becomes a space, every other such character is spelled out, as in `\u{1b}`.
pub fn printable(text: &str) -> String {
    let line: String = text.chars().map(|c| if c.is_whitespace() { ' ' } else { c }).collect();
    spelled_out(&line, &[]).into_owned()
}

/// `text` with spaces behind it up to `columns`.
pub fn left(text: &str, columns: usize) -> String {
    format!("{text}{}", " ".repeat(columns.saturating_sub(width(text))))
}

/// `text` with spaces before it up to `columns`.
pub fn right(text: &str, columns: usize) -> String {
    format!("{}{text}", " ".repeat(columns.saturating_sub(width(text))))
}

/// `text` broken between words into lines of at most `columns`; a longer word is broken where it must be. At least
/// one line, and no line is empty unless `text` is.
pub fn wrap(text: &str, columns: usize) -> Vec<String> {
    let columns = columns.max(2);
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in words(text) {
        let mut word = word;
        if !line.is_empty() && width(&line) + 1 + width(word) > columns {
            lines.push(std::mem::take(&mut line));
        }
        if !line.is_empty() {
            line.push(' ');
        }
        while line.is_empty() && width(word) > columns {
            let (head, tail) = split(word, columns);
            lines.push(head.to_owned());
            word = tail;
        }
        line.push_str(word);
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// The words of a text; a percent sign stays with its number.
fn words(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = text;
    std::iter::from_fn(move || {
        rest = rest.trim_start_matches(' ');
        let ends = |at: &usize| !rest.get(*at..).is_some_and(|tail| tail.starts_with(" %"));
        let end = rest.match_indices(' ').map(|(at, _)| at).find(ends).unwrap_or(rest.len());
        let (word, tail) = rest.split_at_checked(end)?;
        rest = tail;
        (!word.is_empty()).then_some(word)
    })
}

/// As [`wrap`], with every line after the first indented by `indent`, which counts.
pub fn hang(first: &str, text: &str, columns: usize) -> String {
    let indent = width(first);
    let lines = wrap(text, columns.saturating_sub(indent));
    let mut out = String::new();
    for (at, line) in lines.iter().enumerate() {
        if at == 0 {
            out.push_str(first);
        } else {
            out.push_str(&" ".repeat(indent));
        }
        out.push_str(line);
        out.push('\n');
    }
    out
}

/// At most `lines` lines of `text`, the last one ending in `…` when something was left out.
pub fn wrap_at_most(text: &str, columns: usize, lines: usize) -> Vec<String> {
    let mut all = wrap(text, columns);
    if all.len() > lines {
        all.truncate(lines);
        if let Some(last) = all.last_mut() {
            let (head, _) = split(last, columns.saturating_sub(1).min(width(last)));
            *last = format!("{}…", head.trim_end());
        }
    }
    all
}

/// The longest head of `text` that takes at most `columns`, never nothing, and the rest.
fn split(text: &str, columns: usize) -> (&str, &str) {
    let mut taken = 0;
    let mut at = 0;
    for (start, c) in text.char_indices() {
        taken += c.width().unwrap_or(0);
        if taken > columns && start > 0 {
            break;
        }
        at = start + c.len_utf8();
    }
    text.split_at_checked(at).unwrap_or((text, ""))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wide_and_combining_characters_are_measured() {
        // Annex 11: East Asian wide characters take two columns; U+0301 takes none.
        assert_eq!(width("海老のスープ"), 12);
        assert_eq!(width("cafe\u{301}"), 4);
        assert_eq!(right("1.50", 6), "  1.50");
        assert_eq!(left("海老", 6), "海老  ");
    }

    #[test]
    fn lines_break_between_words_and_inside_only_when_they_must() {
        assert_eq!(wrap("Chilled shrimp with fennel", 14), ["Chilled shrimp", "with fennel"]);
        assert_eq!(wrap("cream $0.09 (12.5 %), salt", 17), ["cream $0.09", "(12.5 %), salt"]);
        assert_eq!(wrap("abcdefgh ij", 3), ["abc", "def", "gh", "ij"]);
        assert_eq!(wrap("海老のスープ", 5), ["海老", "のス", "ープ"]);
        assert_eq!(wrap("", 10), [""]);
        assert_eq!(hang("  → ", "one two three", 11), "  → one two\n    three\n");
        assert_eq!(wrap_at_most("one two three four", 8, 2), ["one two", "three…"]);
        assert_eq!(wrap_at_most("abcdefghijkl", 4, 2), ["abcd", "efg…"]);
    }

    #[test]
    fn cells_cannot_steer_the_terminal() {
        assert_eq!(printable("a\u{1b}[31mb\nc\td\u{7f}\u{9b}"), r"a\u{1b}[31mb c d\u{7f}\u{9b}");
        assert_eq!(printable("a\u{202E}b"), r"a\u{202e}b");
        assert_eq!(printable("Crème brûlée"), "Crème brûlée");
    }
}
