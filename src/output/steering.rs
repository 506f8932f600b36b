//! Steering characters: what a terminal obeys instead of showing, and what turns the direction of the text behind it.
//!
//! Takes text from a book; says which characters these are, and spells them out. Every writer of text goes by this one
//! rule: reports and messages show them as `\u{1b}`, JSON holds them escaped, csv keeps every byte.

use std::borrow::Cow;

/// Whether `c` is a control character (C0, DEL, C1) or opens or closes a piece of text in a direction of its own
/// (Unicode Standard Annex 9, 2: embeddings, overrides and isolates).
pub fn steers(c: char) -> bool {
    c.is_control() || matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}')
}

/// `text` with its steering characters spelled out, those of `kept` left as they are.
pub fn spelled_out<'a>(text: &'a str, kept: &[char]) -> Cow<'a, str> {
    let is_spelled = |c: char| steers(c) && !kept.contains(&c);
    if !text.contains(is_spelled) {
        return Cow::Borrowed(text);
    }
    let mut shown = String::with_capacity(text.len().saturating_add(16));
    for c in text.chars() {
        if is_spelled(c) { shown.extend(c.escape_unicode()) } else { shown.push(c) }
    }
    Cow::Owned(shown)
}

/// JSON `text` with the steering characters that its strings hold as JSON escapes them (RFC 8259, 7). Line feeds stand
/// between the strings; all other characters of C0 are escaped already.
pub fn escaped_in_json(text: String) -> String {
    let is_raw = |c: char| steers(c) && c != '\n';
    if !text.contains(is_raw) {
        return text;
    }
    let mut escaped = String::with_capacity(text.len().saturating_add(16));
    for c in text.chars() {
        if is_raw(c) { escaped.push_str(&format!("\\u{:04x}", u32::from(c))) } else { escaped.push(c) }
    }
    escaped
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_steers_is_spelled_out_and_all_else_stays() {
        assert_eq!(
            spelled_out("a\u{1b}]0;b\u{7}\u{9b}c\u{7f}\u{202e}d\u{2069}", &[]),
            r"a\u{1b}]0;b\u{7}\u{9b}c\u{7f}\u{202e}d\u{2069}"
        );
        assert_eq!(spelled_out("a\nb\tc\rd", &['\n', '\t']), "a\nb\tc\\u{d}d");
        // A zero-width joiner, a direction mark and a family of three belong to names.
        for same in ["Crème brûlée", "שקשוקה\u{200f}", "👨\u{200d}👩\u{200d}👧", "\\u{1b}"] {
            assert_eq!(spelled_out(same, &[]), same);
        }
    }

    #[test]
    fn json_holds_them_escaped() {
        let json = serde_json::to_string_pretty(&["a\u{1b}\u{9b}\u{7f}\u{202e}\u{2066}\n"]).unwrap();
        let escaped = escaped_in_json(json);
        assert_eq!(escaped, "[\n  \"a\\u001b\\u009b\\u007f\\u202e\\u2066\\n\"\n]");
        let back: Vec<String> = serde_json::from_str(&escaped).unwrap();
        assert_eq!(back, ["a\u{1b}\u{9b}\u{7f}\u{202e}\u{2066}\n"]);
    }
}
