//! The number at the start of a longer text: `1 1/2 cups` is `1 1/2` and `cups`.
//!
//! Takes text that went through [`super::text::clean`]; gives the number's text, unread, and what follows it.

use super::text::vulgar;

/// The digits and marks that `text` starts with, without a mark at their end.
pub fn plain_run(text: &str) -> &str {
    let end = text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '\''))).unwrap_or(text.len());
    let run = text.get(..end).unwrap_or("").trim_end_matches(['.', ',', '\'']);
    if run.starts_with('\'') { "" } else { run }
}

/// The number that `text` starts with and the text after it; `None` when it starts with none.
pub fn leading(text: &str) -> Option<(&str, &str)> {
    let unsigned = text.strip_prefix(['-', '+']).unwrap_or(text);
    let signs = text.len() - unsigned.len();
    let length = signs + unsigned_length(unsigned)?;
    Some((text.get(..length)?, text.get(length..)?))
}

fn unsigned_length(text: &str) -> Option<usize> {
    let run = plain_run(text);
    if run.is_empty() {
        let first = text.chars().next()?;
        return vulgar(first).map(|_| first.len_utf8());
    }
    let rest = text.get(run.len()..)?;
    if !run.bytes().all(|b| b.is_ascii_digit()) {
        return Some(run.len());
    }
    let after = fraction_after(rest);
    Some(run.len() + if after > 0 { after } else { thousands_after(run, rest) })
}

/// What may stand between a whole number and its fraction.
const JOINTS: &[&str] = &[" & ", " + ", " and ", "&", "+", " ", "-"];

/// The length of `/2`, ` 1/2`, `-1/2`, ` & 1/2`, `½` or ` ½` at the start of `rest`, or 0.
fn fraction_after(rest: &str) -> usize {
    let digits = |text: &str| text.bytes().take_while(u8::is_ascii_digit).count();
    if let Some(lower) = rest.strip_prefix('/') {
        return match digits(lower) {
            0 => 0,
            count => 1 + count,
        };
    }
    let part = JOINTS.iter().find_map(|joint| rest.strip_prefix(joint)).unwrap_or(rest);
    let parted = rest.len() - part.len();
    if let Some(c) = part.chars().next().filter(|c| vulgar(*c).is_some()) {
        return parted + c.len_utf8();
    }
    let upper = digits(part);
    match part.get(upper..).and_then(|text| text.strip_prefix('/')).map(digits) {
        Some(lower) if parted > 0 && upper > 0 && lower > 0 => parted + upper + 1 + lower,
        _ => 0,
    }
}

/// The length of ` 234 567,8` after a first group of one to three digits, or 0.
fn thousands_after(run: &str, rest: &str) -> usize {
    let mut length = 0;
    if run.len() > 3 {
        return 0;
    }
    while let Some(group) = rest.get(length..).and_then(|text| text.strip_prefix(' ')).map(plain_run) {
        let digits = group.bytes().take_while(u8::is_ascii_digit).count();
        if digits != 3 || group.contains('\'') {
            break;
        }
        length += 1 + group.len();
        if group.len() > 3 {
            break;
        }
    }
    length
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_number_ends_where_the_unit_begins() {
        for (text, number, rest) in [
            ("12 lb", "12", " lb"),
            ("1.5L", "1.5", "L"),
            ("1 1/2 cups", "1 1/2", " cups"),
            ("1-1/2 cups", "1-1/2", " cups"),
            ("1½cups", "1½", "cups"),
            ("1 & 1/2 cups", "1 & 1/2", " cups"),
            ("1 and ½ cups", "1 and ½", " cups"),
            ("1 and 2", "1", " and 2"),
            ("½ cup", "½", " cup"),
            ("3/4 lb", "3/4", " lb"),
            ("1 234,5 g", "1 234,5", " g"),
            ("12, 15 lb", "12", ", 15 lb"),
            ("3-4 lb", "3", "-4 lb"),
            ("2 28 oz", "2", " 28 oz"),
            ("40#", "40", "#"),
            ("-3 lb", "-3", " lb"),
            (".5 oz", ".5", " oz"),
        ] {
            assert_eq!(leading(text), Some((number, rest)), "{text}");
        }
        assert_eq!(leading("lb"), None);
        assert_eq!(leading("#10 can"), None);
        assert_eq!(leading(""), None);
    }
}
