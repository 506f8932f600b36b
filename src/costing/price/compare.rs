//! Comparison of prices: what one row costs in the kind of base unit that another is priced by, so that two prices can
//! be compared.

use super::bought::{RowCost, bought};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::convert::{Crossing, Wanted, convert};
use crate::costing::conversion::equivalence::{AskedOf, Links};
use crate::costing::rate::Rate;
use crate::kitchen::price::{Item, PriceRow};
use crate::measure::{Pack, Volumes};
use crate::number::{Decimal, exact};

/// The rate of `row`, which costs `cost`, by `kind`. Where it is priced by another kind, the item's own measures and what
/// `packs` say of count and weight join the two; `None` when nothing does, or only through a yield.
pub fn rate_by(
    item: &Item,
    row: &PriceRow,
    cost: &RowCost,
    kind: &BaseUnitKind,
    packs: &[&Pack],
    volumes: Volumes,
) -> Option<Rate> {
    if cost.kind == *kind {
        return Some(cost.ap);
    }
    let mut links = Links::default();
    let quantity = bought(row)?;
    let asked = AskedOf { units: [&quantity.unit, &kind.unit()], prep: None, volumes };
    links.measures(&item.bridge, asked);
    for pack in packs {
        links.pack(pack, 0, volumes);
    }
    let wanted = Wanted::as_purchased(&quantity, &item.name);
    let converted = convert(wanted, kind, &links, volumes).ok()?;
    if converted.crossing != Crossing::None || converted.amount.num <= Decimal::ZERO {
        return None;
    }
    Some(Rate { money: exact::mul(cost.ap.money, converted.amount.den).ok()?, per: converted.amount.num })
}
