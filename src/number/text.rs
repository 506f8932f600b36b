//! Text as people and spreadsheets write it, brought to one form before anything is read from it.
//!
//! Takes any text; gives the same text with plain spaces, hyphens, quotes, slashes and digits. Vulgar fractions (½)
//! stay as they are: they say *fraction* more surely than `1/2` does.

use super::Decimal;

/// The most letters that an amount, a pack or a measure has as anybody types it.
const MOST_LETTERS: usize = 300;

/// Whether `text` is too long for an amount, a pack or a measure: it is not looked into.
pub fn is_too_long(text: &str) -> bool {
    text.len() > MOST_LETTERS && text.chars().nth(MOST_LETTERS).is_some()
}

/// `text` with every kind of space as one plain space (none at the ends), every kind of dash as `-`, apostrophe as
/// `'`, double quote as `"`, fraction slash as `/`, full-width forms as ASCII, and invisible characters gone.
pub fn clean(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            // Zero-width characters, direction marks, the soft hyphen, the byte order mark.
            '\u{200B}'..='\u{200F}' | '\u{2060}' | '\u{FEFF}' | '\u{00AD}' => {}
            c if c.is_whitespace() => {
                if !out.is_empty() && !out.ends_with(' ') {
                    out.push(' ');
                }
            }
            '\u{2010}'..='\u{2015}' | '\u{2212}' | '\u{FE63}' | '\u{FF0D}' => out.push('-'),
            '‘' | '’' | 'ʼ' | '´' | '`' | '′' => out.push('\''),
            '“' | '”' | '„' | '″' => out.push('"'),
            '\u{2044}' | '\u{2215}' => out.push('/'),
            '\u{FF01}'..='\u{FF5E}' => {
                out.push(u32::from(c).checked_sub(0xFEE0).and_then(char::from_u32).unwrap_or(c));
            }
            c => out.push(c),
        }
    }
    if out.ends_with(' ') {
        out.pop();
    }
    out
}

/// Numerator and denominator of a vulgar fraction character: `½` is 1 and 2.
pub fn vulgar(c: char) -> Option<(Decimal, Decimal)> {
    let (n, d) = match c {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅐' => (1, 7),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        _ => return None,
    };
    Some((Decimal::from(n), Decimal::from(d)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spaces_dashes_quotes_and_wide_forms_become_plain() {
        assert_eq!(clean("\u{FEFF} 1\u{202F}234\u{00A0}g "), "1 234 g");
        assert_eq!(clean("−5 – 3"), "-5 - 3");
        assert_eq!(clean("1’234 2″ 1⁄2 １２％"), "1'234 2\" 1/2 12%");
        assert_eq!(clean(" \t\n"), "");
    }
}
