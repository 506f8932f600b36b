//! The words of counted things brought to one form: lower case, singular, can sizes alike.
//!
//! Takes a measure as a cook writes it (`Bunches`, `No. 10 cans`, `2″ hotel pan`); gives its one name.

use crate::number::text::clean;

/// Words whose plural is not made by the rules of [`singular`].
const ODD: &[(&str, &str)] = &[
    ("leaves", "leaf"),
    ("loaves", "loaf"),
    ("halves", "half"),
    ("calves", "calf"),
    ("knives", "knife"),
    ("cookies", "cookie"),
    ("brownies", "brownie"),
    ("pies", "pie"),
    ("smoothies", "smoothie"),
    ("feet", "foot"),
    ("geese", "goose"),
    ("dozens", "dozen"),
    ("gas", "gas"),
];

/// `text` with its last word in the singular. English endings; words of one or two letters stay.
pub fn singular(text: &str) -> String {
    let start = text.rfind(' ').map_or(0, |space| space + 1);
    let (before, word) = text.split_at_checked(start).unwrap_or(("", text));
    format!("{before}{}", singular_word(word))
}

/// `text` with its last word in the plural: English endings, of what [`singular`] brings back.
pub(super) fn plural(text: &str) -> String {
    let start = text.rfind(' ').map_or(0, |space| space + 1);
    let (before, word) = text.split_at_checked(start).unwrap_or(("", text));
    if let Some((many, _)) = ODD.iter().find(|(_, one)| *one == word) {
        return format!("{before}{many}");
    }
    let ending = if ["ch", "sh", "x", "ss"].iter().any(|ending| word.ends_with(ending)) { "es" } else { "s" };
    format!("{before}{word}{ending}")
}

fn singular_word(word: &str) -> String {
    if let Some((_, one)) = ODD.iter().find(|(many, _)| *many == word) {
        return (*one).to_owned();
    }
    let cut = |ending: &str, instead: &str| word.strip_suffix(ending).map(|stem| format!("{stem}{instead}"));
    if word.chars().count() < 3 || ["ss", "us", "is", "'s"].iter().any(|ending| word.ends_with(ending)) {
        return word.to_owned();
    }
    cut("ies", "y")
        .or_else(|| {
            ["ches", "shes", "xes", "sses", "oes"].iter().find_map(|ending| cut(ending, ending.strip_suffix("es")?))
        })
        .or_else(|| cut("s", ""))
        .unwrap_or_else(|| word.to_owned())
}

/// The one form of a measure that is no catalogue name: plain quotes, lower case, singular.
pub(super) fn own_name(text: &str) -> String {
    let text = clean(text).to_lowercase();
    let text = text.trim_end_matches(['.', ',', ' ']);
    match can_size(text) {
        Some(size) => format!("#{size} can"),
        None => singular(text),
    }
}

/// Shapes that tell cans of one number apart, and how else they are written; facts of the trade, from the published
/// tables of can sizes.
const SHAPES: &[(&str, &[&str])] = &[
    ("cylinder", &["cylinder", "cyl.", "cyl"]),
    ("squat", &["squat", "sqt"]),
    ("picnic", &["picnic", "(picnic)"]),
    ("tall", &["tall"]),
];

/// The size in `#10`, `#10 can`, `no. 10 tin`, `a10`, `#2½ cans`, `#3 cyl`: `10`, `2-1/2`, `3 cylinder`. Takes lower case.
///
/// A10 is the British name of the No. 10 can (from memory).
pub(super) fn can_size(text: &str) -> Option<String> {
    let text =
        ["cans", "can", "tins", "tin", "cn"].iter().find_map(|word| text.strip_suffix(word)).unwrap_or(text).trim();
    let size = match text.strip_prefix('a') {
        Some(rest) if rest.starts_with(|c: char| c.is_ascii_digit()) => rest,
        _ => ["#", "no.", "no ", "nr.", "nr ", "size "].iter().find_map(|sign| text.strip_prefix(sign))?.trim(),
    };
    can_number(size).filter(|(_, length)| *length == size.len()).map(|(size, _)| size)
}

/// The can size at the start of `text`, which stands behind `#`, `No.` or `A`, and its length: `10`, `2½`, `3 cylinder`.
pub(super) fn can_number(text: &str) -> Option<(String, usize)> {
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    let (number, after) = text.split_at_checked(digits)?;
    if number.is_empty() || number.len() > 4 {
        return None;
    }
    let half = ["½", " ½", " 1/2", "-1/2", ".5"].iter().find(|half| after.starts_with(**half));
    let mut length = digits + half.map_or(0, |half| half.len());
    let mut size = if half.is_some() { format!("{number}-1/2") } else { number.to_owned() };
    let behind = text.get(length..).unwrap_or("");
    let words = behind.trim_start_matches([' ', '-']);
    let shape = SHAPES.iter().find_map(|(shape, spellings)| {
        let rest = spellings.iter().find_map(|spelling| {
            let (word, rest) = words.split_at_checked(spelling.len())?;
            word.eq_ignore_ascii_case(spelling).then_some(rest)
        })?;
        (!rest.starts_with(char::is_alphanumeric)).then_some((*shape, rest))
    });
    if let Some((shape, rest)) = shape {
        length = text.len() - rest.len();
        size = format!("{size} {shape}");
    }
    Some((size, length))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plurals_lose_their_endings() {
        for (many, one) in [
            ("bunches", "bunch"),
            ("boxes", "box"),
            ("slices", "slice"),
            ("leaves", "leaf"),
            ("berries", "berry"),
            ("cookies", "cookie"),
            ("potatoes", "potato"),
            ("cases", "case"),
            ("hotel pans", "hotel pan"),
            ("glasses", "glass"),
            ("glass", "glass"),
            ("asparagus", "asparagus"),
            ("cs", "cs"),
            ("", ""),
        ] {
            assert_eq!(singular(many), one);
        }
    }

    #[test]
    fn can_sizes_have_one_name() {
        for text in ["#10", "#10 can", "# 10 cans", "No. 10", "no 10 tin", "A10", "a10 cans"] {
            assert_eq!(own_name(text), "#10 can", "{text}");
        }
        for text in ["#2½", "#2 1/2 cans", "No. 2-1/2", "#2.5 can"] {
            assert_eq!(own_name(text), "#2-1/2 can", "{text}");
        }
        for (text, name) in [
            ("#3 cylinder", "#3 cylinder can"),
            ("No. 3 cyl. cans", "#3 cylinder can"),
            ("#5 squat can", "#5 squat can"),
            ("No. 1 (picnic)", "#1 picnic can"),
            ("#1 Tall", "#1 tall can"),
            ("#303", "#303 can"),
        ] {
            assert_eq!(own_name(text), name, "{text}");
            assert_eq!(own_name(name), name, "{text}");
        }
        assert_eq!(can_size("#3 taller"), None);
        assert_eq!(own_name("2″ Hotel Pans"), "2\" hotel pan");
        assert_eq!(own_name("#"), "#");
        assert_eq!(own_name("apple"), "apple");
    }
}
