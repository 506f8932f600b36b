//! Names of what goes into a recipe, as somebody types them: in full, or what stands before the comma where that is one
//! thing's alone.

use crate::kitchen::NameKey;
use crate::kitchen::recipe::IngredientSource;

/// A name that a line goes by, and what it stands for.
pub(super) struct NamedLine {
    pub key: NameKey,
    pub source: IngredientSource,
    /// The name as spelled on the line.
    pub item: String,
    /// How much of it the line asks for, as somebody would type it; empty where nobody wants to know.
    pub such_as: String,
}

impl NamedLine {
    pub(super) fn of(name: &str, source: IngredientSource, item: &str) -> Self {
        NamedLine { key: NameKey::of(name), source, item: item.to_owned(), such_as: String::new() }
    }
}

/// What bears this name.
pub(super) fn called<'a>(names: &'a [NamedLine], name: &str) -> Option<&'a NamedLine> {
    let key = NameKey::of(name);
    if key.is_empty() {
        return None;
    }
    let head = |named: &&NamedLine| named.item.split_once(',').is_some_and(|(head, _)| NameKey::of(head) == key);
    names.iter().find(|named| named.key == key).or_else(|| {
        let mut alike = names.iter().filter(head);
        let first = alike.next()?;
        alike.all(|other| other.source == first.source).then_some(first)
    })
}
