//! Fill-ins: the columns of ours in tables that we write because something is missing, and what tells the rows of a book
//! apart that they are about. Like all of our own columns they are skipped when they are read again.

use crate::schema::{Column, Typed, Value};

/// Columns of ours in the tables of a fill-in: what a cell would answer, and what is known already.
pub const COLUMNS: &[&str] =
    &[ASKED_AT, WHY, PACK_THERE, PRICE_THERE, PUBLISHED, PUBLISHED_BY, "Choice 1", "Choice 2", "Choice 3", "Choice 4"];

/// The column that makes a table one of a fill-in: the cell of the book that asks. A row of it that was left as it was
/// written is none, and one about a row of the book completes that row.
pub const ASKED_AT: &str = "Asked at";

/// Why it is asked.
pub const WHY: &str = "Why";

/// The pack that the book's row has, by which rows of one item are told apart.
pub const PACK_THERE: &str = "Pack in the book";

/// The price that the book's row has.
pub const PRICE_THERE: &str = "Price in the book";

/// What a published table says of the measure.
pub const PUBLISHED: &str = "Published weight";

/// Which table that is.
pub const PUBLISHED_BY: &str = "Published in";

/// What to choose an item from: the nearest names, and [`A_NEW_ITEM`].
pub const CHOICES: [&str; 4] = ["Choice 1", "Choice 2", "Choice 3", "Choice 4"];

/// Chosen as an item, it is none: the name is of something that the book has not.
pub const A_NEW_ITEM: &str = "a new item";

/// The columns of a pack.
pub const PACK: [Column; 4] = [Column::Pack, Column::PackCount, Column::UnitSize, Column::SizeUnit];

/// A row's pack as its cells show it; without what the header's brackets add, which the row as typed does not have.
pub fn pack_seen<'t>(typed: impl Fn(Column) -> Option<&'t Typed>) -> String {
    let parts = PACK.into_iter().filter_map(typed).map(|typed| match &typed.value {
        Value::Text(text) => match text.strip_suffix(']').and_then(|text| text.rsplit_once(" [")) {
            Some((own, _)) if !own.is_empty() => own.trim().to_owned(),
            _ => text.trim().to_owned(),
        },
        _ => typed.seen(),
    });
    parts.filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ")
}
