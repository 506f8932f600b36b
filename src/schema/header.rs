//! Header texts as they are compared: without case, spacing and punctuation, `#` read as *no*, and a bracketed unit or
//! currency split off.

use std::collections::HashMap;
use std::sync::LazyLock;

use crate::measure::currency;
use crate::schema::column::{Column, ColumnDef};
use crate::schema::table_signature::TableKind;

/// What a header can mean in one kind of table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Meaning {
    /// The kind of table.
    pub kind: TableKind,
    /// The column it is there.
    pub column: Column,
    /// Whether it is the column's canonical header there, not a synonym.
    pub canonical: bool,
}

/// A header as it was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HeaderText {
    /// Its normal form, without the brackets.
    pub key: String,
    /// What stood in brackets, `kg` of `Weight (kg)`: the column's unit or currency.
    pub default: Option<String>,
}

impl HeaderText {
    /// What it can mean, in each kind of table; nothing for a header that no kind knows.
    pub fn meanings(&self) -> &'static [Meaning] {
        meanings(&self.key)
    }

    /// The unit, currency or percent sign that it gives `column`, as which `text` was read: what stands in brackets, the
    /// sign of `Yield %`, which a batch cannot have, and the sign and unit of `Price €` and `Price/lb`.
    pub fn default_of(&self, column: Column, text: &str) -> Option<String> {
        let in_words = || match column {
            Column::BatchYield => text.contains('%').then(|| "%".to_owned()),
            Column::Price | Column::PoundPrice => money_said(text),
            _ => None,
        };
        self.default.clone().or_else(in_words)
    }
}

/// What the header of a price says of currency and unit without brackets: `€` of `Price €`, `€/kg` of `Price €/kg`, `per lb`
/// of `Lb price`.
fn money_said(text: &str) -> Option<String> {
    let sign = currency::signs().find(|sign| !sign.contains(char::is_alphabetic) && text.contains(sign));
    let lower = text.to_lowercase();
    let words = || lower.split(|c: char| !c.is_alphabetic());
    let unit = [("lb", ["lb", "lbs", "pound"]), ("kg", ["kg", "kilo", "kilogram"])]
        .into_iter()
        .find(|(_, names)| words().any(|word| names.contains(&word)));
    match (sign, unit) {
        (Some(sign), Some((unit, _))) => Some(format!("{sign}/{unit}")),
        (Some(sign), None) => Some(sign.to_owned()),
        (None, Some((unit, _))) => Some(format!("per {unit}")),
        (None, None) => None,
    }
}

/// The letters and digits of a header's normal form: in lower case, `#` as `no`.
fn letters(text: &str) -> impl Iterator<Item = char> {
    text.chars().flat_map(|c| {
        let (hash, kept) = (c == '#', c.is_alphanumeric());
        let no = if hash { "no" } else { "" };
        no.chars().chain(c.to_lowercase().filter(move |_| kept))
    })
}

/// The normal form of a header: letters and digits in lower case, `#` as `no`.
pub fn normal(text: &str) -> String {
    letters(text).collect()
}

/// Whether two texts have the same normal form, told without allocating.
pub fn same(a: &str, b: &str) -> bool {
    /// The plain letters and digits of an ASCII text, in lower case.
    fn plain(text: &str) -> impl Iterator<Item = u8> {
        text.bytes().filter(u8::is_ascii_alphanumeric).map(|byte| byte.to_ascii_lowercase())
    }
    let simple = |text: &str| text.bytes().all(|byte| byte.is_ascii() && byte != b'#');
    /// The first letter or digit, where it is plain whatever comes after it.
    fn head(text: &str) -> Option<u8> {
        let first = text.bytes().find(|byte| byte.is_ascii_alphanumeric() || !byte.is_ascii() || *byte == b'#');
        first.filter(u8::is_ascii_alphanumeric).map(|byte| byte.to_ascii_lowercase())
    }
    // Nearly all pairs differ at once, and one of them may be long.
    match (head(a), head(b)) {
        (Some(a), Some(b)) if a != b => false,
        _ if simple(a) && simple(b) => plain(a).eq(plain(b)),
        _ => letters(a).eq(letters(b)),
    }
}

/// Reads a header cell. Brackets are split off, save where their words are part of a header, as in `Item (#)`.
pub fn read(text: &str) -> HeaderText {
    let key = normal(text);
    if meanings(&key).is_empty()
        && let Some(before) = text.trim_end().strip_suffix(['$', '€', '£'])
    {
        // `Case $` and a lone `$` stand over prices.
        return HeaderText { key: format!("{}price", normal(before)), default: None };
    }
    match bracketed(text) {
        Some((before, inside)) if meanings(&key).is_empty() || normal(inside).is_empty() => {
            HeaderText { key: normal(before), default: Some(inside.to_owned()) }
        }
        _ => HeaderText { key, default: None },
    }
}

/// Whether `text` is a header of some kind, told without allocating: for looking over every cell of a sheet.
pub fn is_known(text: &str) -> bool {
    /// Longer than the normal form of any header.
    const LONGEST: usize = 32;
    if text.ends_with(['$', '€', '£']) {
        return !read(text).meanings().is_empty();
    }
    let mut key = [0_u8; LONGEST];
    let mut length = 0;
    let known = |key: &[u8]| has_shape(key) && std::str::from_utf8(key).is_ok_and(|key| !meanings(key).is_empty());
    for char in text.chars() {
        let lower = u8::try_from(char.to_ascii_lowercase()).unwrap_or(0);
        let letters: &[u8] = match char {
            '#' => b"no",
            '(' | '[' if length > 0 && key.get(..length).is_some_and(known) => return true,
            _ if lower.is_ascii_alphanumeric() => &[lower],
            // Our headers have none but plain letters; the sign of a currency is none.
            _ if !char.is_ascii() && char.is_alphanumeric() => return false,
            _ => &[],
        };
        let Some(free) = key.get_mut(length..length + letters.len()) else { return false };
        free.copy_from_slice(letters);
        length += letters.len();
    }
    length > 0 && key.get(..length).is_some_and(known)
}

/// Whether some header begins with the letter of `key` and is as long: most cells of a sheet fail this.
fn has_shape(key: &[u8]) -> bool {
    /// For each first letter, the lengths that occur, one bit each.
    static SHAPES: LazyLock<[u32; 26]> = LazyLock::new(|| {
        let mut shapes = [0; 26];
        for header in TableKind::ALL.iter().flat_map(|kind| kind.columns()).flat_map(ColumnDef::headers) {
            let key = normal(header);
            if let Some(lengths) = letter(key.as_bytes()).and_then(|letter| shapes.get_mut(letter)) {
                *lengths |= bit(key.len());
            }
        }
        shapes
    });
    fn letter(key: &[u8]) -> Option<usize> {
        key.first().and_then(|first| first.checked_sub(b'a')).map(usize::from)
    }
    fn bit(length: usize) -> u32 {
        u32::try_from(length).ok().and_then(|length| 1_u32.checked_shl(length)).unwrap_or(0)
    }
    letter(key).and_then(|letter| SHAPES.get(letter)).is_some_and(|lengths| lengths & bit(key.len()) != 0)
}

/// What every normal form can mean.
fn meanings(key: &str) -> &'static [Meaning] {
    static KNOWN: LazyLock<HashMap<String, Vec<Meaning>>> = LazyLock::new(|| {
        let mut known: HashMap<String, Vec<Meaning>> = HashMap::new();
        for kind in TableKind::ALL.iter().copied() {
            for def in kind.columns() {
                for header in def.headers() {
                    let meanings = known.entry(normal(header)).or_default();
                    // `Yield` and `Yield %` are one normal form: the canonical one, met first, stays.
                    if !meanings.iter().any(|m| m.kind == kind && m.column == def.column) {
                        meanings.push(Meaning { kind, column: def.column, canonical: header == def.header });
                    }
                }
            }
        }
        known
    });
    KNOWN.get(key).map_or(&[], Vec::as_slice)
}

/// `Weight (kg)` as `Weight` and `kg`; `None` without brackets at the end or with nothing in or before them.
fn bracketed(text: &str) -> Option<(&str, &str)> {
    let text = text.trim();
    let (open, close) = if text.ends_with(')') { ('(', ')') } else { ('[', ']') };
    let (before, inside) = text.strip_suffix(close)?.rsplit_once(open)?;
    let (before, inside) = (before.trim(), inside.trim());
    if before.is_empty() || inside.is_empty() { None } else { Some((before, inside)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn means(text: &str, kind: TableKind) -> Option<Column> {
        read(text).meanings().iter().find(|m| m.kind == kind).map(|m| m.column)
    }

    #[test]
    fn case_spacing_and_punctuation_do_not_matter() {
        assert_eq!(means("  PACK / size ", TableKind::Prices), Some(Column::Pack));
        assert_eq!(means("E.P. %", TableKind::Prices), Some(Column::Yield));
        assert_eq!(means("menu-price", TableKind::Menu), Some(Column::MenuPrice));
        assert_eq!(means("Ingredient:", TableKind::CardLines), Some(Column::Item));
    }

    #[test]
    fn a_hash_is_a_number_so_an_item_number_is_a_code() {
        for text in ["Item #", "Item No.", "item no", "ITEM#", "Item (#)"] {
            assert_eq!(means(text, TableKind::Prices), Some(Column::Code), "{text}");
        }
    }

    #[test]
    fn sameness_is_that_of_normal_forms() {
        for (a, b) in [("Food cost %", "foodCOST"), ("Item #", "item no"), ("Crème", "CRÈME"), ("", " - "), ("#", "NO")]
        {
            assert!(same(a, b) && normal(a) == normal(b), "{a} {b}");
        }
        for (a, b) in [("Food cost", "Food costs"), ("#", "n"), ("é", "e"), ("a", "")] {
            assert!(!same(a, b) && normal(a) != normal(b), "{a} {b}");
        }
    }

    #[test]
    fn brackets_hold_the_default_of_the_column() {
        let weight = read("Weight (kg)");
        assert_eq!((weight.key.as_str(), weight.default.as_deref()), ("weight", Some("kg")));
        assert_eq!(read("Price [USD]").default.as_deref(), Some("USD"));
        assert_eq!(read("Yield (%)").default.as_deref(), Some("%"));
        assert_eq!(read("Price ($ )").default.as_deref(), Some("$"));
        assert_eq!(read("Price").default, None);
        assert_eq!(read("(kg)"), HeaderText { key: "kg".into(), default: None });
        assert_eq!(read("Weight ()"), HeaderText { key: "weight".into(), default: None });
    }

    #[test]
    fn a_synonym_is_told_from_the_canonical_header() {
        let canonical =
            |text: &str| read(text).meanings().iter().find(|m| m.kind == TableKind::Prices).unwrap().canonical;
        assert!(canonical("item"));
        assert!(!canonical("Product"));
        assert!(canonical("Yield %"), "only punctuation apart from the canonical header");
    }

    #[test]
    fn the_quick_look_agrees_with_reading() {
        for kind in TableKind::ALL.iter().copied() {
            for header in kind.columns().iter().flat_map(crate::schema::ColumnDef::headers) {
                assert!(is_known(header) && is_known(&format!(" {} ", header.to_uppercase())), "{header}");
                assert!(is_known(&format!("{header} (kg)")), "{header} (kg)");
            }
        }
        for text in ["", "()", "Onions, yellow", "6/5 lb", "Prix d’achat", &"x".repeat(40), "38.45", "Pricey"] {
            assert!(!is_known(text), "{text}");
        }
    }

    #[test]
    fn within_a_kind_no_header_means_two_columns() {
        for kind in TableKind::ALL.iter().copied() {
            let mut seen = HashMap::new();
            for def in kind.columns() {
                for header in def.headers() {
                    let before = seen.insert(normal(header), def.column);
                    assert!(before.is_none_or(|column| column == def.column), "{header} in {}", kind.name());
                }
            }
        }
    }

    #[test]
    fn required_columns_are_those_of_the_signature() {
        for kind in TableKind::ALL.iter().copied() {
            let required: Vec<_> = kind
                .columns()
                .iter()
                .filter(|def| def.role == crate::schema::ColumnNeed::Required)
                .map(|def| def.column)
                .collect();
            let mut all = kind.signature().all.to_vec();
            all.sort_by_key(|c| kind.columns().iter().position(|def| def.column == *c));
            assert_eq!(required, all, "{}", kind.name());
            for column in kind.signature().any {
                assert!(kind.column(*column).is_some(), "{column:?} in {}", kind.name());
            }
        }
    }
}
