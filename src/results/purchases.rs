//! Purchases of a plan: what must be bought of every item, what that costs before whole packs and in them, and what all of
//! it comes to.

use crate::analysis::balance::{Balance, ItemBalance, Purchases};
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::number::Decimal;

/// An item that the plan takes or the stock list holds.
#[derive(Debug, Clone, Copy)]
pub struct Purchase {
    /// It, where trim is used; in base units of its price as purchased.
    pub used: ItemBalance,
    /// It, where trim is binned.
    pub binned: ItemBalance,
    /// What is to be bought costs, before whole packs; `None` where that does not fit.
    pub money: Option<Decimal>,
    /// Whole packs, and what one holds; `None` where it is bought by weight, volume or the piece.
    pub packs: Option<(Decimal, Decimal)>,
    /// What it costs in whole packs; as much as is wanted where it is not bought by the pack.
    pub in_whole_packs: Option<Decimal>,
    /// What is to be bought where trim is binned costs, before whole packs.
    pub money_binned: Option<Decimal>,
}

/// What all of it comes to, in money.
#[derive(Debug, Clone, Copy, Default)]
pub struct PurchaseTotals {
    /// Before whole packs; `None` where nobody says what is bought for trim that is short.
    pub money: Option<Decimal>,
    /// What of that is known.
    pub known: Option<Decimal>,
    /// In whole packs; `None` likewise.
    pub in_whole_packs: Option<Decimal>,
    /// Where trim is binned, before whole packs; `None` likewise.
    pub money_binned: Option<Decimal>,
}

/// Every item, in book order.
pub fn purchases(kitchen: &Kitchen, costing: &Costing, balance: &Balance) -> Vec<Purchase> {
    let money = |item: &ItemBalance| Purchases::money(costing, item.item, item.purchase).ok();
    let all = balance.all_items().into_iter().map(|(used, binned)| {
        let packs = Purchases::whole_packs(kitchen, costing, used.item, used.purchase);
        Purchase {
            money: money(&used),
            packs: packs.map(|packs| (packs.packs, packs.holds)),
            in_whole_packs: packs.map_or_else(|| money(&used), |packs| Some(packs.money)),
            money_binned: money(&binned),
            used,
            binned,
        }
    });
    all.collect()
}

/// What all of it comes to.
pub fn totals(kitchen: &Kitchen, costing: &Costing, balance: &Balance) -> PurchaseTotals {
    let sums = balance.purchases.sums(costing).ok();
    PurchaseTotals {
        money: sums.and_then(|sums| sums.purchases),
        known: sums.map(|sums| sums.known),
        in_whole_packs: balance.purchases.in_whole_packs(kitchen, costing),
        money_binned: balance.purchases_binned.sums(costing).ok().and_then(|sums| sums.purchases),
    }
}
