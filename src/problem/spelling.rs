//! Names reduced to what counts when spellings are compared: no case, accents, apostrophes, dashes or plural endings.
//!
//! Takes a name as typed; gives its words. Whether two names are one is decided by all of their words in order
//! (`kitchen::NameKey`), whether they are near by `problem::names`.

use std::borrow::Cow;

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// Letters that Unicode does not take apart, as they are written without them.
const LETTERS: &[(char, &str)] =
    &[('œ', "oe"), ('æ', "ae"), ('ø', "o"), ('ß', "ss"), ('ł', "l"), ('đ', "d"), ('ı', "i")];

/// Plurals that no ending tells.
const ODD: &[(&str, &str)] = &[
    ("leaves", "leaf"),
    ("loaves", "loaf"),
    ("calves", "calf"),
    ("halves", "half"),
    ("geese", "goose"),
    ("feet", "foot"),
    ("gas", "gas"),
];

/// The words of a name and the marks between them (`,`, `:`, `/`, `&` …), each a text of its own, in order. Spaces and
/// dashes part words and are gone.
pub fn words(name: &str) -> Vec<String> {
    plain(name).split_whitespace().map(|word| singular(word).into_owned()).collect()
}

/// The same, run together.
pub fn run_together(name: &str) -> String {
    plain(name).split_whitespace().map(singular).collect()
}

/// A name without case, accents and what is silent, with spaces round its marks.
fn plain(name: &str) -> String {
    let mut plain = String::with_capacity(name.len());
    let heard = name.chars().filter(|c| !is_silent(*c));
    if name.is_ascii() {
        // Unicode takes none of it apart, and most names are such.
        heard.for_each(|c| push(&mut plain, c.to_ascii_lowercase()));
    } else {
        heard.nfkd().flat_map(char::to_lowercase).for_each(|c| push(&mut plain, c));
    }
    plain
}

fn push(plain: &mut String, c: char) {
    match c {
        c if c.is_ascii_alphanumeric() => plain.push(c),
        c if is_combining_mark(c) => {}
        c if c.is_alphanumeric() => match LETTERS.iter().find(|(letter, _)| *letter == c) {
            Some((_, letters)) => plain.push_str(letters),
            None => plain.push(c),
        },
        c if c.is_whitespace() || matches!(c, '-' | '_' | '−' | '\u{2010}'..='\u{2015}') => plain.push(' '),
        // What a vulgar fraction comes apart into.
        '⁄' => plain.push_str(" / "),
        c => plain.extend([' ', c, ' ']),
    }
}

/// Apostrophes, and what is not seen: soft hyphens, joiners, marks of order.
fn is_silent(c: char) -> bool {
    matches!(c, '\'' | '’' | '‘' | '`' | '´' | 'ʼ' | '\u{AD}' | '\u{200B}'..='\u{200F}' | '\u{2060}' | '\u{FEFF}')
}

/// `word` without a plain English plural ending; one and many come to the same, which need not be a word.
fn singular(word: &str) -> Cow<'_, str> {
    // What ends otherwise is no plural, and ends as no plural does without its s.
    if !word.ends_with(['s', 'e', 't']) {
        return Cow::Borrowed(word);
    }
    if let Some((_, one)) = ODD.iter().find(|(many, _)| *many == word) {
        return Cow::Borrowed(one);
    }
    let cut = |text: &str, by: usize| text.get(..text.len().saturating_sub(by)).unwrap_or(text).to_owned();
    let ends = |text: &str, endings: &[&str]| endings.iter().any(|ending| text.ends_with(ending));
    let single = match word {
        _ if word.chars().count() < 4 || ends(word, &["ss", "us", "is"]) => word.to_owned(),
        _ if word.ends_with("ies") => format!("{}y", cut(word, 3)),
        _ if ends(word, &["oes", "shes", "ches", "xes", "sses", "zes", "uses"]) => cut(word, 2),
        _ if word.ends_with('s') => cut(word, 1),
        _ => word.to_owned(),
    };
    // A plural does not tell whether its one has an e: quiches and peaches, cookies and berries. So none has.
    Cow::Owned(match single.as_str() {
        one if one.chars().count() < 3 => single,
        one if one.ends_with("ie") => format!("{}y", cut(one, 2)),
        one if ends(one, &["oe", "she", "che", "xe", "sse", "ze", "use"]) => cut(one, 1),
        _ => single,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_its_words_and_marks() {
        assert_eq!(words("  Jalapeño–peppers, RED "), ["jalapeno", "pepper", ",", "red"]);
        assert_eq!(words("Bœuf/œufs"), ["boeuf", "/", "oeuf"]);
        assert_eq!(words("Devil’s food"), words("devils' food"));
        assert_eq!(words("½ & 1/2"), ["1", "/", "2", "&", "1", "/", "2"]);
        assert!(words(" - ").is_empty());
    }

    #[test]
    fn one_and_many_come_to_the_same() {
        for (one, many) in [
            ("tomato", "tomatoes"),
            ("berry", "berries"),
            ("leaf", "leaves"),
            ("radish", "radishes"),
            ("cookie", "cookies"),
            ("pie", "pies"),
            ("quiche", "quiches"),
            ("mousse", "mousses"),
            ("roe", "roes"),
            ("octopus", "octopuses"),
            ("house", "houses"),
            ("goose", "geese"),
            ("olive", "olives"),
            ("box", "boxes"),
            ("glass", "glasses"),
        ] {
            assert_eq!(singular(one), singular(many), "{one}");
        }
        for same in ["bass", "asparagus", "couscous", "gas", "swiss", "peas"] {
            assert_eq!(words(same).concat(), if same == "peas" { "pea" } else { same });
        }
    }
}
