//! Steps of a bought item: its price as typed, what is paid in the end, what that buys, and what is left after trimming.

use super::sources;
use super::step::{OfWhat, StepWord, Walk};
use crate::analysis::why::{Choices, StatedYield};
use crate::costing::price::bought::PriceFrom;
use crate::costing::{Costing, Rate, YieldFrom};
use crate::kitchen::Kitchen;
use crate::kitchen::price::{Price, PriceRow};
use crate::kitchen::settings::Setting;
use crate::number::{Decimal, exact};
use crate::problem::Place;
use crate::results::display_units::{DisplayUnit, base_unit};
use crate::schema::Column;

/// Said where what is left bears what its test cost, less what is charged for the rest.
pub(super) const LESS_BY_PRODUCTS: &str = "by that test, its by-products taken off";

/// The steps of an item.
pub(super) fn walk(walk: &mut Walk<'_>, kitchen: &Kitchen, costing: &Costing, choices: &Choices) -> Option<()> {
    let item = kitchen.item(choices.item)?;
    let cost = costing.item(choices.item)?;
    walk.begin(&item.name, OfWhat::Item);
    let (words, place) = sources::price(kitchen, costing, choices.item);
    let unit = DisplayUnit::of_item(kitchen, costing, choices.item)?;
    let base = base_unit(&cost.kind);
    let units = (&unit, base.as_str());
    match cost.from {
        PriceFrom::Row(row) => {
            let row = kitchen.entries.prices.get(row)?;
            if let Some(Price::Money(price)) = row.price.given() {
                walk.money(StepWord::Price, *price, words, place.as_ref());
                charges(walk, kitchen, row, *price, cost.ap.money);
            }
        }
        PriceFrom::TestRow(_) => walk.money(StepWord::Price, cost.ap.money, words, place.as_ref()),
        PriceFrom::Water => walk.money(StepWord::Price, Decimal::ZERO, words, None),
    }
    let pack = match cost.from {
        PriceFrom::Row(row) => kitchen.entries.prices.get(row).map(pack),
        _ => None,
    };
    let (words, place) = pack.unwrap_or_default();
    walk.amount(StepWord::Buys, cost.ap.per, units, words, place.as_ref());
    walk.rate(StepWord::UnitCost, cost.ap.unit_cost().ok()?, units, "as purchased", None);
    if let Some(first) = choices.yields.first() {
        let (words, place) = sources::trim_yield(kitchen, first.from, None);
        walk.percent(StepWord::Yield, first.fraction, words, place.as_ref());
        edible(walk, kitchen, costing, (cost.ap, first), units);
    }
    Some(())
}

/// What is left of it costs: what a yield test of its own makes of its main, else the price by the yield.
fn edible(
    walk: &mut Walk<'_>,
    kitchen: &Kitchen,
    costing: &Costing,
    (ap, stated): (Rate, &StatedYield),
    units: (&DisplayUnit, &str),
) -> Option<()> {
    if let YieldFrom::Test(part) = stated.from {
        let unit = DisplayUnit::of_test(kitchen, kitchen.test(part.test)?);
        let per_gram = costing.part(part)?.rate?.per_unit()?;
        walk.rate(StepWord::Edible, per_gram, (&unit, "g"), LESS_BY_PRODUCTS, None);
    } else {
        let per_unit = ap.after_yield(stated.fraction).and_then(Rate::unit_cost).ok()?;
        walk.rate(StepWord::Edible, per_unit, units, "by weight of what is left", None);
    }
    Some(())
}

/// What stands beside a price and changes what is paid.
fn charges(walk: &mut Walk<'_>, kitchen: &Kitchen, row: &PriceRow, price: Decimal, paid: Decimal) {
    let at = |column: Column| row.input.place(column);
    let within = row.charges.tax_within(kitchen.settings.price_tax).filter(|tax| !tax.is_zero());
    if let Some(tax) = within {
        let own = row.charges.tax.given().map(|_| at(Column::Tax));
        let place = own.or_else(|| sources::setting(kitchen, Setting::PriceTax));
        walk.percent(StepWord::Tax, tax, "taken out of the price", place.as_ref());
        if let Ok(net) = exact::add(Decimal::ONE, tax).and_then(|with| exact::div(price, with)) {
            walk.money(StepWord::ExTax, net, "", None);
        }
    }
    let (further, back) = (row.charges.further.given(), row.charges.credit.given());
    if let Some(money) = further {
        walk.money(StepWord::Further, *money, "comes on top", Some(&at(Column::FurtherCost)));
    }
    if let Some(money) = back {
        walk.money(StepWord::Back, *money, "comes back", Some(&at(Column::Credit)));
    }
    if within.is_some() || further.is_some() || back.is_some() {
        walk.money(StepWord::Paid, paid, "in the end", None);
    }
}

/// What a price is for, as it was typed.
fn pack(row: &PriceRow) -> (String, Option<Place>) {
    match (row.per.given(), row.pack.given()) {
        (Some(per), _) => (format!("the price is for 1 {}", per.unit), Some(row.input.place(Column::Per))),
        (None, Some(pack)) => (format!("the pack {}", pack.read_as), Some(row.input.place(Column::Pack))),
        (None, None) => (String::new(), None),
    }
}
