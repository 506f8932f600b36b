//! The price row that a row of a list becomes: spelled as the book spells it, with the pack of the book where the list
//! says none, and without what a supplier cannot know.

use jiff::civil::Date;

use super::past::{MatchedBy, Past};
use crate::costing::price::in_use::{HistoryKey, history_of};
use crate::costing::price::preferred_supplier::is_preferred;
use crate::kitchen::field::InputCell;
use crate::kitchen::layout::OF_LISTS;
use crate::kitchen::price::PriceRow;
use crate::kitchen::{Field, InputRow, ItemId, NameKey};
use crate::problem::{Advice, Choice, Code, Fault};
use crate::schema::{Column, Shown, Typed, Value};

/// The columns of a pack and what the price is for.
const PACK: [Column; 5] = [Column::Pack, Column::PackCount, Column::UnitSize, Column::SizeUnit, Column::Per];

/// A row of a list, complete.
pub(super) struct Complete {
    /// What would be appended to the book.
    pub price: PriceRow,
    /// Its supplier, code and pack, as they are compared.
    pub history: HistoryKey,
    /// Whether the list does not say its pack.
    pub packless: bool,
}

/// The row to append for `row` of a list, which is about `item`.
///
/// # Errors
/// A [`Fault`] when neither the list nor the book says what the price is for.
pub(super) fn complete(
    past: &Past<'_>,
    item: ItemId,
    row: &PriceRow,
    supplier: &str,
    date: Date,
) -> Result<Complete, Fault> {
    let name = past.kitchen.item(item).map_or(row.item.as_str(), |item| item.name.as_str());
    let of_lists = |cell: &&InputCell| OF_LISTS.contains(&cell.column);
    let mut input =
        InputRow { place: row.input.place.clone(), cells: row.input.cells.iter().filter(of_lists).cloned().collect() };
    input.set(Column::Item, Typed::text(name));
    if !supplier.is_empty() {
        input.set(Column::Supplier, Typed::text(supplier));
    }
    input.set(Column::Date, Typed { value: Value::Date(date), shown: Shown::Date });
    let mut price = PriceRow {
        input,
        item: name.to_owned(),
        supplier: supplier.to_owned(),
        date: Field::Given(date),
        ..row.clone()
    };
    if price.code.is_empty()
        && let Some(code) = past.only_code(item, &NameKey::of(supplier))
    {
        code.clone_into(&mut price.code);
        price.input.set(Column::Code, Typed::text(code));
    }
    let packless = price.pack == Field::Blank && price.per == Field::Blank;
    let mut history = history_of(&price);
    if packless {
        let says = |index: usize| {
            past.row(index).is_some_and(|row| {
                let broken = row.pack.is_broken() || row.per.is_broken();
                !broken && (row.pack.given().is_some() || row.per.given().is_some())
            })
        };
        let found = past
            .of_supplier(item, &history, date, says)
            .filter(|(_, by)| *by == MatchedBy::Code || row.code.is_empty());
        let Some(before) = found.and_then(|(index, _)| past.row(index)) else { return Err(no_pack()) };
        price.pack = before.pack.clone();
        price.per = before.per.clone();
        for column in PACK {
            let typed = before.input.typed(column);
            if !typed.is_blank() {
                price.input.set(column, typed.clone());
            }
        }
        history = history_of(&price);
    }
    keep_preferred(past, item, &mut price, &history, date);
    Ok(Complete { price, history, packless })
}

fn no_pack() -> Fault {
    Fault::new(
        Code::PackMissing,
        "the list does not say what the price is for, and neither does a row of the book with this supplier and code",
        Advice::from("Give the list a column Pack or Per, or say which of its columns that is")
            .choosing(Choice::Columns(vec![("pack".to_owned(), Vec::new())]))
            .then("."),
    )
}

/// *Preferred* is said of a pack: where that pack is succeeded by another, it goes on to be said of the new one.
fn keep_preferred(past: &Past<'_>, item: ItemId, price: &mut PriceRow, history: &HistoryKey, date: Date) {
    let Some((before, _)) = past.of_supplier(item, history, date, |_| true) else { return };
    let Some(before) = past.row(before).map(history_of).filter(|before| before != history) else { return };
    let rows = past.history(item, &before).iter().filter_map(|index| past.row(*index));
    if is_preferred(rows, date) {
        price.preferred = Field::Given(true);
        price.input.set(Column::Preferred, Typed::text("yes"));
    }
}
