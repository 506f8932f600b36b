//! Sources of measures, yields and prices in words, each with its cell.

use super::step::Tongue;
use crate::costing::price::bought::PriceFrom;
use crate::costing::{Costing, MeasureFrom, YieldFrom};
use crate::food::Food;
use crate::kitchen::price::{Price, PriceRow};
use crate::kitchen::settings::Setting;
use crate::kitchen::{ItemId, Kitchen};
use crate::number::plain;
use crate::problem::Place;
use crate::schema::Column;

/// A source: its words, and where it stands.
pub(super) type PlacedSource = (String, Option<Place>);

/// The measures passed through; empty words for none.
pub(super) fn measures(kitchen: &Kitchen, steps: &[MeasureFrom]) -> PlacedSource {
    let mut place = None;
    let words = steps.iter().map(|step| match step {
        MeasureFrom::Row(row) => {
            let row = kitchen.entries.measures.get(*row);
            place = row.map(|row| row.input.place(Column::Measure));
            row.map(|row| {
                let said = [Column::Weighs, Column::Holds].map(|column| row.input.text(column)).concat();
                format!("1 {} = {said}, by Measures", row.input.text(Column::Measure))
            })
            .unwrap_or_default()
        }
        MeasureFrom::Makes => "by what the batch makes in its two measures".to_owned(),
        MeasureFrom::TestRow(row) => {
            place = kitchen.entries.tests.get(*row).map(|row| row.input.place(Column::Weight));
            "by pieces that a yield test counted and weighed".to_owned()
        }
        MeasureFrom::Pack(row) => {
            let row = kitchen.entries.prices.get(*row);
            place = row.map(|row| row.input.place(Column::Pack));
            let pack = row.and_then(|row| row.pack.given()).map(|pack| pack.read_as.clone()).unwrap_or_default();
            format!("by its pack, {pack}")
        }
        MeasureFrom::Can(figure) => format!("published for a {}: {figure}", figure.can()),
        MeasureFrom::Reference(measure) => {
            let number = measure.food().map_or("", Food::number);
            format!("{} = {} g, published (SR28 {number})", measure.text(), plain(measure.grams()))
        }
    });
    let words: Vec<String> = words.collect();
    (words.join(", then "), place)
}

/// Where a yield is from.
pub(super) fn trim_yield(kitchen: &Kitchen, from: YieldFrom, line: Option<Place>) -> PlacedSource {
    match from {
        YieldFrom::Line => ("this line's own Yield".to_owned(), line),
        YieldFrom::Test(part) => {
            let test = kitchen.test(part.test);
            let name = test.map(|test| test.name.as_str()).unwrap_or_default();
            (format!("the yield test {name}"), test.map(|test| test.place.clone()))
        }
        YieldFrom::PriceRow(row) => {
            ("Yield of the price row".to_owned(), price_row(kitchen, row).map(|row| row.input.place(Column::Yield)))
        }
        YieldFrom::Piece(row) => {
            let place = kitchen.entries.measures.get(row).map(|row| row.input.place(Column::Weighs));
            ("what is left of a piece, by Measures".to_owned(), place)
        }
        YieldFrom::Reference(food) => (format!("a published average, {}", food.spoken()), None),
        YieldFrom::None => ("no yield is stated: all of it".to_owned(), None),
    }
}

fn price_row(kitchen: &Kitchen, row: usize) -> Option<&PriceRow> {
    kitchen.entries.prices.get(row)
}

/// The price in use of an item: `Oxbarrow, 2026-11-10, 50 lb`.
pub(super) fn price(kitchen: &Kitchen, costing: &Costing, id: ItemId) -> PlacedSource {
    match costing.item(id).map(|cost| cost.from) {
        Some(PriceFrom::Row(row)) => match price_row(kitchen, row) {
            Some(row) => (row_words(kitchen, row), Some(row.input.place(Column::Price))),
            None => PlacedSource::default(),
        },
        Some(PriceFrom::TestRow(row)) => {
            let place = kitchen.entries.tests.get(row).map(|row| row.input.place(Column::Price));
            ("the price paid in its yield test".to_owned(), place)
        }
        Some(PriceFrom::Water) => ("water and ice cost nothing".to_owned(), None),
        None => PlacedSource::default(),
    }
}

/// A price row by supplier, date, pack and price as they were typed.
pub(super) fn row_words(kitchen: &Kitchen, row: &PriceRow) -> String {
    let date = row.date.given().map(ToString::to_string).unwrap_or_else(|| "no date".to_owned());
    let pack = row.pack.given().map(|pack| pack.read_as.clone()).unwrap_or_default();
    let per = row.per.given().map(|per| format!("per {}", per.unit)).unwrap_or_default();
    let price = match row.price.given() {
        Some(Price::Money(price)) => format!("at {}", Tongue { kitchen }.money(*price)),
        Some(Price::Market) => "at the market's price".to_owned(),
        None => String::new(),
    };
    let filled = |words: &[&str], joint: &str| {
        words.iter().copied().filter(|word| !word.is_empty()).collect::<Vec<_>>().join(joint)
    };
    let bought = filled(&[&pack, &price, &per], " ");
    filled(&[row.supplier.as_str(), &date, &bought], ", ")
}

/// Where a setting stands; `None` where the book does not set it.
pub(super) fn setting(kitchen: &Kitchen, setting: Setting) -> Option<Place> {
    let row = kitchen.entries.settings.iter().find(|row| row.setting == Some(setting))?;
    Some(row.input.place(Column::Value))
}
