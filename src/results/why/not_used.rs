//! Price rows and yields that were passed over, each with the reason in words.

use schemars::JsonSchema;
use serde::Serialize;

use super::sources;
use super::step::Tongue;
use crate::analysis::why::{Choices, StatedYield, Why, WhyNot};
use crate::costing::price::bought::PriceFrom;
use crate::costing::{Costing, LineCost, YieldFrom};
use crate::kitchen::Kitchen;
use crate::kitchen::price::PriceRow;
use crate::kitchen::recipe::IngredientSource;
use crate::problem::Place;
use crate::results::value::{Figure, percent};
use crate::schema::Column;

/// A price row or a yield that was passed over.
#[derive(Debug, Clone, Serialize, JsonSchema)]
#[schemars(rename = "NotUsed")]
pub struct NotUsed {
    /// The item.
    pub item: String,
    /// What it says: supplier, date, pack and price; or who states the yield.
    pub says: String,
    /// Money per base unit as purchased; null for a yield, and where it is not known.
    pub unit_cost: Option<Figure>,
    /// The yield in %; null for a price.
    pub yield_percent: Option<Figure>,
    /// Why it is not used.
    pub why: String,
    /// The file in which it stands; empty where it is from no file.
    pub file: String,
    /// The sheet; empty in a csv, and where it is from no file.
    pub sheet: String,
    /// The cell, such as C14; empty likewise.
    #[schemars(regex(pattern = r"^([A-Z]+[1-9][0-9]*)?$"))]
    pub cell: String,
}

impl NotUsed {
    /// All that was passed over for the items of `why`.
    pub(super) fn all(kitchen: &Kitchen, costing: &Costing, why: &Why) -> Vec<NotUsed> {
        let of_items = why.choices.iter().flat_map(|choices| of_item(kitchen, costing, choices));
        of_items.chain(behind_lines(kitchen, costing, why)).collect()
    }
}

fn of_item(kitchen: &Kitchen, costing: &Costing, choices: &Choices) -> Vec<NotUsed> {
    let item = kitchen.item(choices.item).map(|item| item.name.clone()).unwrap_or_default();
    let used = costing.item(choices.item).and_then(|cost| match cost.from {
        PriceFrom::Row(row) => kitchen.entries.prices.get(row),
        _ => None,
    });
    let rows = choices.rows.iter().filter_map(|passed| {
        let row = kitchen.entries.prices.get(passed.row)?;
        let cost = costing.rows.get(passed.row).and_then(Option::as_ref);
        // A market price says no money of its own.
        let cost = cost.filter(|_| passed.why != WhyNot::Market).and_then(|cost| cost.ap.unit_cost().ok());
        let place = row.input.place(Column::Price);
        let why = reason(passed.why, row, used);
        Some(one(&item, sources::row_words(kitchen, row), (cost.map(Figure), None), why, Some(&place)))
    });
    let tongue = Tongue { kitchen };
    let first = choices.yields.first();
    // One that says the same gives way to nothing.
    let is_other = |stated: &&StatedYield| first.is_some_and(|first| first.fraction != stated.fraction);
    let yields = choices.yields.iter().skip(1).filter(is_other).map(|stated| {
        let (words, place) = sources::trim_yield(kitchen, stated.from, None);
        let why = first.map(|first| before(first, stated)).unwrap_or_default();
        let says = format!("{}, {words}", tongue.percent(stated.fraction));
        one(&item, says, (None, percent(stated.fraction)), why, place.as_ref())
    });
    rows.chain(yields).collect()
}

fn one(
    item: &str,
    says: String,
    (unit_cost, yield_percent): (Option<Figure>, Option<Figure>),
    why: String,
    place: Option<&Place>,
) -> NotUsed {
    NotUsed {
        item: item.to_owned(),
        says,
        unit_cost,
        yield_percent,
        why,
        file: place.map(|place| place.file_name().to_owned()).unwrap_or_default(),
        sheet: place.map(|place| place.sheet_name().to_owned()).unwrap_or_default(),
        cell: place.and_then(|place| place.cell_ref()).map(|cell| cell.to_string()).unwrap_or_default(),
    }
}

/// The yields that give way to one of a line's own.
fn behind_lines(kitchen: &Kitchen, costing: &Costing, why: &Why) -> Vec<NotUsed> {
    let mut behind = Vec::new();
    let mut only = why.lines.as_deref();
    for id in &why.way.recipes {
        let asked = only.take();
        let Some((recipe, cost)) = kitchen.recipe(*id).zip(costing.recipe(*id)) else { continue };
        for (index, line) in cost.lines.iter().enumerate() {
            let LineCost::Costed { trace, .. } = line else { continue };
            let is_asked = asked.is_none_or(|asked| asked.contains(&index));
            let IngredientSource::Bought(item) = trace.costed_as.source() else { continue };
            if !is_asked || trace.yield_from != YieldFrom::Line {
                continue;
            }
            let choices = why.choices.iter().find(|choices| choices.item == item);
            let Some(stated) = choices.and_then(|choices| choices.yields.first()) else { continue };
            let (words, place) = sources::trim_yield(kitchen, stated.from, None);
            let says = format!("{}, {words}", Tongue { kitchen }.percent(stated.fraction));
            let name = kitchen.item(item).map(|item| item.name.as_str()).unwrap_or_default();
            let why = format!("a line of {} has a Yield of its own", recipe.name);
            behind.push(one(name, says, (None, percent(stated.fraction)), why, place.as_ref()));
        }
    }
    behind
}

/// Why a price row is not in use, beside the one that is.
fn reason(why: WhyNot, row: &PriceRow, used: Option<&PriceRow>) -> String {
    let day = |row: &PriceRow| row.date.given().map_or_else(|| "no date".to_owned(), ToString::to_string);
    let used_day = used.map(day).unwrap_or_default();
    let supplier = used.map(|row| row.supplier.as_str()).filter(|name| !name.is_empty());
    match why {
        WhyNot::Later => format!("it begins on {}", day(row)),
        WhyNot::Ended => {
            let until = row.until.given().map(ToString::to_string).unwrap_or_default();
            format!("it ended on {until}")
        }
        WhyNot::Older => "it is older: there is a newer price for this pack of this supplier".to_owned(),
        WhyNot::NotPreferred => match supplier {
            Some(name) => format!("{name} is preferred"),
            None => "another row is preferred".to_owned(),
        },
        WhyNot::NewerElsewhere => match supplier {
            Some(name) => format!("the price of {name} is newer ({used_day})"),
            None => format!("another price is newer ({used_day})"),
        },
        WhyNot::Dearer => "of the same day, it is dearer for what is left after trimming".to_owned(),
        WhyNot::NoCheaper => "it costs the same, and the other comes first by name".to_owned(),
        WhyNot::Market => "it says the market's price: the last price in money counts".to_owned(),
        WhyNot::NotComparable => "it is not the newest, or its unit cannot be compared".to_owned(),
        WhyNot::Contradicted => "another row says otherwise for the same pack and day".to_owned(),
        WhyNot::NotRead => "a cell of it could not be read".to_owned(),
        WhyNot::NoneInUse => "no price of this item is in use".to_owned(),
    }
}

/// Why a yield gives way to the first.
fn before(first: &StatedYield, other: &StatedYield) -> String {
    match first.from {
        YieldFrom::Test(_) => "a yield test of your own comes first".to_owned(),
        YieldFrom::PriceRow(_) if matches!(other.from, YieldFrom::PriceRow(_)) => {
            "the yield of the row in use, or of the newest of its supplier, comes first".to_owned()
        }
        YieldFrom::PriceRow(_) => "the yield on the price row comes first".to_owned(),
        YieldFrom::Piece(_) => "what is left of a piece, by Measures, comes first".to_owned(),
        _ => "it belongs to a price row that is not in use".to_owned(),
    }
}
