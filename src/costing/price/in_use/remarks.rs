//! Remarks on the choice of a price: why there is none, and what is doubtful about the one in use.

use jiff::civil::Date;

use super::{ChosenRow, Offers};
use crate::costing::price::in_use::among_suppliers::{Assumptions, Pool, SupplierRow};
use crate::costing::price::lent_statements::{Lender, LentStatement};
use crate::kitchen::Kitchen;
use crate::kitchen::price::{Item, TrimYield};
use crate::number::{Decimal, exact, plain, rounding};
use crate::problem::{Code, Fault, Problem, THERE};
use crate::schema::Column;

/// An item none of whose prices counts on `day`.
pub(super) fn no_price(pool: &Pool<'_>, item: &Item, day: Date) -> Option<Problem> {
    let begun = pool.all().map(|(_, entry)| entry.row).filter(|row| row.has_begun(day) && row.until.given().is_some());
    let last = begun.max_by_key(|row| row.until.given().copied());
    let ended = last.and_then(|row| {
        let until = row.until.given()?;
        let fault = Fault::new(
            Code::PricesEnded,
            format!("every price of “{}” has ended by {day}, the last on {until}", item.name),
            "Add a row with the price that counts now; or correct Until.",
        );
        Some(fault.at(row.input.place(Column::Until)))
    });
    ended.or_else(|| {
        let (_, first) = pool.all().next()?;
        let fault = Fault::new(
            Code::PriceMissing,
            format!("“{}” has no price on or before {day}", item.name),
            "Add a price row of that day or before, or cost a later day.",
        );
        Some(fault.at(first.row.input.place(Column::Date)))
    })
}

/// A market price that no price stands before.
pub(super) fn never_priced(item: &Item, market: &SupplierRow<'_>) -> Problem {
    Fault::new(
        Code::PriceMissing,
        format!("“{}” is at market price and has no dated price before", item.name),
        "Type the price paid, or add a row with the last price and its Date.",
    )
    .at(market.row.input.place(Column::Price))
}

/// A market price for which the last price is taken.
pub(super) fn at_market(item: &Item, market: &SupplierRow<'_>, last: &SupplierRow<'_>) -> Problem {
    Fault::new(
        Code::PriceIsMarket,
        format!("“{}” is at market price; the last price, at {THERE}, is used", item.name),
        "Type today's price when you know it.",
    )
    .speaking_of(last.row.input.place(Column::Price))
    .at(market.row.input.place(Column::Price))
}

/// Two suppliers that are both preferred, told at the later row.
pub(super) fn both_preferred(item: &Item, first: &SupplierRow<'_>, second: &SupplierRow<'_>) -> Problem {
    Fault::new(
        Code::PreferredTwice,
        format!("both “{}” and “{}” are preferred for “{}”", first.row.supplier, second.row.supplier, item.name),
        "Leave Preferred on one supplier's row.",
    )
    .at(second.row.input.place(Column::Preferred))
}

/// Two rows of one day by unlike measures, each with the word for its own.
pub(super) fn not_comparable(
    item: &Item,
    (first, one): (&SupplierRow<'_>, &str),
    (second, other): (&SupplierRow<'_>, &str),
) -> Problem {
    Fault::new(
        Code::PricesNotComparable,
        format!("“{}” is priced by {one} at {THERE} and by {other} here, on the same day", item.name),
        "Type yes in Preferred on the row to use; or add to Measures what joins the two, such as what a piece weighs.",
    )
    .speaking_of(first.row.input.place(Column::Price))
    .at(second.row.input.place(Column::Price))
}

/// The price that would be in use if it had not ended.
pub(super) fn ended(item: &Item, offers: &Offers<'_>, chosen: &ChosenRow) -> Option<Problem> {
    offers.pool.all().find(|(_, entry)| entry.row.until.given().is_some())?;
    let endless = offers.choose(Assumptions { assumed: None, endless: true }).ok()?;
    let (before, now) = (offers.pool.get(endless.priced)?, offers.pool.get(chosen.priced)?);
    let until = before.row.until.given().filter(|_| endless.priced != chosen.priced)?;
    let fault = Fault::new(
        Code::PriceEnded,
        format!("this price of “{}” ended on {until}; the one at {THERE} is used", item.name),
        "Nothing to do, unless it was prolonged: then correct Until.",
    );
    Some(fault.speaking_of(now.row.input.place(Column::Price)).at(before.row.input.place(Column::Until)))
}

/// A price in use that is older than the kitchen wants.
pub(super) fn old(kitchen: &Kitchen, item: &Item, priced: &SupplierRow<'_>, day: Date) -> Option<Problem> {
    let age = priced.row.date.given()?.until(day).ok()?;
    let days = age.get_days();
    let allowed = kitchen.settings.price_age;
    let fault = Fault::new(
        Code::PriceOld,
        format!("the price of “{}” is {days} days old", item.name),
        format!("Ask for a new price, or raise the setting Price age (now {allowed} days)."),
    );
    (Decimal::from(days) > allowed).then(|| fault.at(priced.row.input.place(Column::Date)))
}

/// A yield that a row was lent by another supplier's, or that was chosen among several of one day.
pub(super) fn lent(
    kitchen: &Kitchen,
    item: &Item,
    entry: &SupplierRow<'_>,
    stated: &LentStatement<Decimal>,
) -> Vec<Problem> {
    // Where a test of trimming speaks, it does so for every row.
    if matches!(item.trim, TrimYield::Main(_)) {
        return Vec::new();
    }
    let mut problems = Vec::new();
    let here = || entry.row.input.place(Column::Yield);
    let row = |index: usize| kitchen.entries.prices.get(index);
    let (Some(fraction), Some(lender)) = (stated.value.given(), row(stated.row)) else { return problems };
    if stated.lender == Lender::Another {
        let whose = |supplier: &str| match supplier {
            "" => "without a supplier".to_owned(),
            named => format!("of “{named}”"),
        };
        let fault = Fault::new(
            Code::YieldOfAnother,
            format!(
                "no price of “{}” {} states a yield, so that {}, {} % at {THERE}, is used",
                item.name,
                whose(&entry.row.supplier),
                whose(&lender.supplier),
                percent(*fraction)
            ),
            "Type in Yield what is left of it after trimming: test it, for suppliers trim differently.",
        );
        problems.push(fault.speaking_of(lender.input.place(Column::Yield)).at(here()));
    }
    if let Some((other, high)) = stated.beside.and_then(row).and_then(|row| Some((row, row.trim_yield.given()?))) {
        let fault = Fault::new(
            Code::YieldsSeveral,
            format!(
                "two rows of “{}” of one day state a yield, {} % and, at {THERE}, {} %; the lower is used",
                item.name,
                percent(*fraction),
                percent(*high)
            ),
            "Type in Yield of the row in use which of them it has.",
        );
        problems.push(fault.speaking_of(other.input.place(Column::Yield)).at(here()));
    }
    problems
}

fn percent(fraction: Decimal) -> String {
    let percent = exact::mul(fraction, Decimal::ONE_HUNDRED).unwrap_or(Decimal::MAX);
    plain(rounding::half_up(percent, 1).normalize())
}
