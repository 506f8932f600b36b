//! Supplier of a list: as the caller says, else by the one supplier of the book whose name stands in the file's name or
//! in a title above its header row.

use super::headers::rows_above;
use crate::book::grid::Grid;
use crate::kitchen::{Entries, NameKey};
use crate::problem::spelling::words;
use crate::problem::{Advice, CellRef, Choice, Code, Fault, Place, Problem};
use crate::schema::Value;

/// Whose list a file is.
pub(super) enum WhoseList {
    /// The caller says so.
    Told(String),
    /// The file's name says so.
    Name(String),
    /// A title says so, at its cell.
    Title(String, Place),
    /// Nothing says so.
    Unknown,
}

impl WhoseList {
    /// Whose list `file` with the sheets `grids` is, in the book of `entries`.
    pub fn of(file: &str, grids: &[Grid], entries: &Entries, told: Option<&str>) -> Self {
        let suppliers = Suppliers::of(entries);
        if let Some(told) = told {
            return WhoseList::Told(suppliers.spelled(told));
        }
        let base = file.rsplit(['/', '\\']).next().unwrap_or(file);
        let stem = base.rsplit_once('.').map_or(base, |(stem, _)| stem);
        if let Some(supplier) = suppliers.only_one_in(stem) {
            return WhoseList::Name(supplier);
        }
        let titles = grids.iter().flat_map(|grid| {
            rows_above(grid).flat_map(move |row| {
                row.cells().iter().filter_map(move |(at, typed)| match &typed.value {
                    Value::Text(text) => Some((text, grid.place_of(CellRef::new(row.row, *at)))),
                    _ => None,
                })
            })
        });
        let mut found: Option<(String, Place)> = None;
        for (text, place) in titles {
            for supplier in suppliers.all_in(text) {
                match &found {
                    Some((known, _)) if *known != supplier => return WhoseList::Unknown,
                    Some(_) => {}
                    None => found = Some((supplier, place.clone())),
                }
            }
        }
        found.map_or(WhoseList::Unknown, |(supplier, place)| WhoseList::Title(supplier, place))
    }

    /// The supplier, as the book spells it.
    pub fn supplier(&self) -> Option<String> {
        match self {
            WhoseList::Told(supplier) | WhoseList::Name(supplier) | WhoseList::Title(supplier, _) => {
                Some(supplier.clone())
            }
            WhoseList::Unknown => None,
        }
    }

    /// What to say of a supplier that was assumed.
    pub fn note(&self, file: &str) -> Option<Problem> {
        let (supplier, by, place) = match self {
            WhoseList::Name(supplier) => (supplier, "the file's name", Place::file(file)),
            WhoseList::Title(supplier, place) => (supplier, "this title", place.clone()),
            WhoseList::Told(_) | WhoseList::Unknown => return None,
        };
        let fault = Fault::new(
            Code::ListAssumed,
            format!("by {by}, this was taken for the list of “{supplier}”"),
            Advice::from("If it is another supplier's, name that one").choosing(Choice::Supplier).then("."),
        );
        Some(fault.at(place))
    }
}

/// The suppliers of a book, as first spelled, with the words of their names.
struct Suppliers(Vec<(String, NameKey, Vec<String>)>);

impl Suppliers {
    fn of(entries: &Entries) -> Self {
        let mut known: std::collections::HashSet<&str> = std::collections::HashSet::new();
        let mut all: Vec<(String, NameKey, Vec<String>)> = Vec::new();
        let named = entries.prices.iter().map(|row| row.supplier.as_str());
        for name in named.chain(entries.layouts.iter().map(|row| row.supplier.as_str())) {
            // Most rows repeat a spelling.
            if name.is_empty() || !known.insert(name) {
                continue;
            }
            let key = NameKey::of(name);
            if !all.iter().any(|(_, other, _)| *other == key) {
                let words = plain_words(name);
                let named = match words.as_slice() {
                    [first, rest @ ..] if first == "the" && !rest.is_empty() => rest.to_vec(),
                    _ => words,
                };
                all.push((name.to_owned(), key, named));
            }
        }
        Suppliers(all)
    }

    /// `name` as the book spells it.
    fn spelled(&self, name: &str) -> String {
        let key = NameKey::of(name);
        self.0.iter().find(|(_, known, _)| *known == key).map_or(name.trim(), |(spelled, ..)| spelled).to_owned()
    }

    fn only_one_in(&self, text: &str) -> Option<String> {
        let mut all = self.all_in(text);
        all.pop().filter(|_| all.is_empty())
    }

    /// Every supplier whose name stands in `text` as whole words, written together or not; one whose name is part of
    /// another's that stands there too is not meant.
    fn all_in(&self, text: &str) -> Vec<String> {
        let text = plain_words(text);
        let found: Vec<&(String, NameKey, Vec<String>)> =
            self.0.iter().filter(|(_, _, name)| !name.is_empty() && has_run(&text, &name.concat())).collect();
        let is_part = |one: &&&(String, NameKey, Vec<String>)| {
            found.iter().any(|other| other.2.len() > one.2.len() && has_run(&other.2, &one.2.concat()))
        };
        found.iter().filter(|one| !is_part(one)).map(|(name, ..)| name.clone()).collect()
    }
}

/// The words of a text without the marks between them; a file's name has dots, brackets and lines for spaces.
fn plain_words(text: &str) -> Vec<String> {
    let spaced: String =
        text.chars().map(|c| if c.is_alphanumeric() || c == '\'' || c == '’' { c } else { ' ' }).collect();
    words(&spaced)
}

/// Whether some words of `text` in a row, written together, are `name`.
fn has_run(text: &[String], name: &str) -> bool {
    (0..text.len()).any(|start| {
        let mut rest = name;
        for word in text.iter().skip(start) {
            match rest.strip_prefix(word.as_str()) {
                Some("") => return true,
                Some(left) => rest = left,
                None => return false,
            }
        }
        false
    })
}
