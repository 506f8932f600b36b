//! XML text of cells: what no XML may hold, and what spreadsheet programs would take for something else, escaped.

use crate::workbook::cells::number::push_digits;

/// Appends `text` as it stands between tags. A character that no XML may hold is written by its code, `_x0007_`
/// (ECMA-376 part 1, 22.9.2.19, `ST_Xstring`).
pub fn push_escaped(out: &mut Vec<u8>, text: &str) {
    let mut rest = text.as_bytes();
    while let Some((before, [special, after @ ..])) = split_at_special(rest) {
        out.extend_from_slice(before);
        rest = after;
        match (special, after) {
            (b'&', _) => out.extend_from_slice(b"&amp;"),
            (b'<', _) => out.extend_from_slice(b"&lt;"),
            (b'>', _) => out.extend_from_slice(b"&gt;"),
            (b'\t' | b'\n', _) => out.push(*special),
            // U+FFFE and U+FFFF are no characters; in UTF-8 they are EF BF BE and EF BF BF.
            (0xEF, [0xBF, last @ (0xBE | 0xBF), after @ ..]) => {
                out.extend_from_slice(if *last == 0xBE { b"_xFFFE_" } else { b"_xFFFF_" });
                rest = after;
            }
            (0xEF, _) => out.push(0xEF),
            _ => out.extend_from_slice(format!("_x{special:04X}_").as_bytes()),
        }
    }
    out.extend_from_slice(rest);
}

/// What stands before the first byte that may not stand as it is, and the bytes from there on.
fn split_at_special(bytes: &[u8]) -> Option<(&[u8], &[u8])> {
    let at = bytes.iter().position(|byte| SPECIAL.get(usize::from(*byte)) == Some(&true))?;
    bytes.split_at_checked(at)
}

/// Which bytes may not stand as they are, or begin a character that may not.
#[expect(clippy::indexing_slicing, reason = "worked out when it is compiled")]
const SPECIAL: [bool; 256] = {
    let mut special = [false; 256];
    let mut byte = 0;
    while byte < special.len() {
        special[byte] = byte < 0x20 || byte == 0xEF;
        byte += 1;
    }
    special[b'&' as usize] = true;
    special[b'<' as usize] = true;
    special[b'>' as usize] = true;
    special
};

/// Appends the text of a cell: as [`push_escaped`], and what looks like an escaped character in it is escaped itself.
pub fn push_text(out: &mut Vec<u8>, text: &str) {
    let mut rest = text;
    while let Some(at) = code(rest) {
        let (before, after) = rest.split_at_checked(at).unwrap_or((rest, ""));
        push_escaped(out, before);
        out.extend_from_slice(b"_x005F_");
        rest = after.strip_prefix('_').unwrap_or_default();
    }
    push_escaped(out, rest);
}

/// Appends `text` as it stands between the quotation marks of an attribute.
pub fn push_attribute(out: &mut Vec<u8>, text: &str) {
    if !text.bytes().fold(false, |any, byte| any | matches!(byte, b'&' | b'<' | b'>' | b'"' | b'\n')) {
        return out.extend_from_slice(text.as_bytes());
    }
    for byte in text.bytes() {
        match byte {
            b'&' => out.extend_from_slice(b"&amp;"),
            b'<' => out.extend_from_slice(b"&lt;"),
            b'>' => out.extend_from_slice(b"&gt;"),
            b'"' => out.extend_from_slice(b"&quot;"),
            b'\n' => out.extend_from_slice(b"&#xA;"),
            other => out.push(other),
        }
    }
}

/// Where the first text of the form `_x0041_` begins.
fn code(text: &str) -> Option<usize> {
    let mut from = 0_usize;
    while let Some(found) = text.get(from..)?.find("_x") {
        let at = from.saturating_add(found);
        let is_code = match text.as_bytes().get(at.saturating_add(2)..at.saturating_add(7)) {
            Some([digits @ .., b'_']) => digits.iter().all(u8::is_ascii_hexdigit),
            _ => false,
        };
        if is_code {
            return Some(at);
        }
        from = at.saturating_add(1);
    }
    None
}

/// Whether a reader would drop white space from the ends of `text`, were it not told to keep it.
pub fn is_to_be_kept(text: &str) -> bool {
    const WHITE: [char; 3] = ['\t', '\n', ' '];
    text.starts_with(WHITE) || text.ends_with(WHITE)
}

/// Appends a whole number.
pub fn push_number(out: &mut Vec<u8>, number: u64) {
    push_digits(out, number, 0);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(text: &str) -> String {
        let mut out = Vec::new();
        push_text(&mut out, text);
        String::from_utf8(out).unwrap()
    }

    #[test]
    fn text_is_escaped_by_the_standards() {
        // XML 1.0, 2.4: markup. ECMA-376 part 1, 22.9.2.19: what XML cannot hold, and what would be taken for that.
        assert_eq!(text("a < b & c > \"d\""), "a &lt; b &amp; c &gt; \"d\"");
        assert_eq!(text("bell\u{7}, tab\t, line\n, return\r"), "bell_x0007_, tab\t, line\n, return_x000D_");
        assert_eq!(text("\u{FFFE}é\u{FFFF}\u{FFFD}"), "_xFFFE_é_xFFFF_\u{FFFD}");
        assert_eq!(text("_x0041_"), "_x005F_x0041_");
        assert_eq!(text("__x0041_x0042_ _x00é_ _x004"), "__x005F_x0041_x005F_x0042_ _x00é_ _x004");
        assert_eq!(text("_x005F_x0041_"), "_x005F_x005F_x005F_x0041_");
        assert_eq!(text(""), "");
    }

    #[test]
    fn whole_numbers_are_their_digits() {
        for (number, digits) in [(0, "0"), (7, "7"), (1_048_576, "1048576"), (u64::MAX, "18446744073709551615")] {
            let mut out = Vec::new();
            push_number(&mut out, number);
            assert_eq!(String::from_utf8(out).unwrap(), digits);
        }
    }
}
