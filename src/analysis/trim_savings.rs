//! Savings by using trim: one kitchen and one plan three times, with the trim binned, reused free, and reused with the
//! book's credits.
//!
//! All in food cost: the Q and spice of recipes' own cards are left out, for they are taken on the credits too and would
//! grow with them. The kitchens differ in what by-products are charged and in who must buy; the weights are one balance's.

mod dishes;
mod earned;
mod of_trim;
mod parts;
mod totals;
mod trim_share;
mod trim_sold;

use std::collections::BTreeMap;

use super::balance::Balance;
use super::portion_usage::Uses;
use crate::costing::price::bought::PriceFrom;
use crate::costing::q_and_spice::QAndSpice;
use crate::costing::rate::Amount;
use crate::costing::scenario::BoughtIn;
use crate::costing::what_if::again;
use crate::costing::yield_test::at_market::buy_in_rate;
use crate::costing::{Charging, Costing, Rate, Scenario};
use crate::kitchen::depends::Reached;
use crate::kitchen::plan::Served;
use crate::kitchen::yield_test::{Part, Role};
use crate::kitchen::{Kitchen, Node, PartId};
use crate::number::{Decimal, Overflow, exact, half_up};
pub(crate) use dishes::portion_cost;
pub use earned::Earned;
use of_trim::OfTrim;
pub(crate) use parts::own_rate;
pub use trim_share::{FoodOfTrim, TrimHeld, TrimWithin};
pub use trim_sold::sells_at;

/// One of the three kitchens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Kept {
    /// By-products go in the bin or are sold; what would be made of them is bought.
    Binned,
    /// By-products are used and charged nothing.
    Free,
    /// By-products are used and charged as the book says.
    Credited,
}

impl Kept {
    /// All three, in the order in which they are shown.
    pub const ALL: [Kept; 3] = [Kept::Binned, Kept::Free, Kept::Credited];

    /// What it is called.
    pub fn word(self) -> &'static str {
        match self {
            Kept::Binned => "binned",
            Kept::Free => "reused, free",
            Kept::Credited => "reused, credited",
        }
    }
}

/// What using trim is worth.
#[derive(Debug, Clone)]
pub struct Worth {
    /// The three kitchens as costed, in the order of [`Kept::ALL`]: food alone, what is short bought in. Without the lines of
    /// their recipes, so that those of one kitchen only are held at a time.
    pub kitchens: [Costing; 3],
    /// The book's own costing with what is short bought in, Q and spice within; likewise without lines.
    pub planned: Costing,
    /// Grams of every part that a portion takes.
    pub uses: Uses,
    /// The trim within every part and recipe.
    pub within: TrimWithin,
    /// The dishes, in menu order, then other recipes that the plan serves.
    pub dishes: Vec<DishWorth>,
    /// The plan's totals; `None` without a plan.
    pub plan: Option<PlanWorth>,
    /// By-products that something uses, in book order.
    pub parts: Vec<PartWorth>,
}

/// A dish in the three kitchens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DishWorth {
    /// What is served.
    pub served: Served,
    /// Portions planned; `None` when the plan does not name it.
    pub portions: Option<Decimal>,
    /// Food cost of a portion in each kitchen, in the order of [`Kept::ALL`]; `None` where it is not known.
    pub food: [Option<Decimal>; 3],
    /// Portion cost as the book says, with what is short bought in, Q and spice within.
    pub planned: Option<Decimal>,
    /// Whether any trim goes into it, straight or through a recipe or another test.
    pub of_trim: bool,
    /// How much of a portion's food is trim; `None` where nobody says what buying that would cost.
    pub trim: Option<FoodOfTrim>,
    /// Price without tax less the planned portion cost.
    pub margin: Option<Decimal>,
}

/// The totals of a plan in one kitchen, in money.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PlanTotals {
    /// Food in the dishes served.
    pub served: Decimal,
    /// Food left over, bought items, mains and trim, at what it cost; what is sold of it within.
    pub left_over: Decimal,
    /// On hand before the plan, at what it would cost today.
    pub on_hand: Decimal,
    /// What trim is sold for: all that is made where none is used, else what is left over and not too old.
    pub sold: Decimal,
    /// Served and left over, less what was on hand and what is sold: what the plan brings into the house.
    pub brought_in: Decimal,
    /// What must be purchased, before whole packs: brought in and sold together.
    pub purchases: Decimal,
    /// Labour, fuel and packing to use trim; nothing where none is used.
    pub further_cost: Decimal,
    /// Hauling that is spared because trim leaves on plates; nothing where none is used.
    pub haulage: Decimal,
    /// What is brought in, with what using trim costs and spares: the kitchens differ in it by what is saved.
    pub comes_to: Decimal,
}

/// The plan in the three kitchens.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanWorth {
    /// The totals, in the order of [`Kept::ALL`]; `None` where a dish is not known.
    pub totals: [Option<PlanTotals>; 3],
    /// What must be purchased where trim is used, before whole packs, what stands in for short trim within; `None` where
    /// nobody says what that is.
    pub purchases: Option<Decimal>,
    /// What is really saved by using trim; `None` where the saving of a part that is used is not known.
    pub saving: Option<Decimal>,
    /// The saving of the parts of which it is known.
    pub known_saving: Decimal,
    /// The credit given to all trim that is left over, which no dish has paid for, in money.
    pub unearned: Decimal,
    /// The planned dishes that would bear it if it were thrown away.
    pub earned: Vec<Earned>,
}

impl PlanWorth {
    /// Whole minutes of labor over the plan that use up what is known to be saved, at a wage in money an hour; `None` where
    /// that is nothing, or they do not fit.
    pub fn labor_minutes(&self, wage: Decimal) -> Option<Decimal> {
        const MINUTES: Decimal = Decimal::from_parts(60, 0, 0, false, 0);
        let money = self.known_saving.max(Decimal::ZERO);
        Some(exact::div(exact::mul(money, MINUTES).ok()?, wage).ok()?.floor())
    }
}

impl DishWorth {
    /// The share of its food that is trim, as a fraction. `None` where that is not known, or it has no food.
    pub fn trim_share(&self) -> Option<Decimal> {
        self.trim?.share()
    }

    /// Whether trim makes it possible: at least half of its food is trim. `None` where that is not known.
    pub fn made_possible(&self) -> Option<bool> {
        let share = half_up(self.trim_share()?, SHARE_DIGITS);
        Some(exact::mul(share, Decimal::TWO).is_ok_and(|twice| twice >= Decimal::ONE))
    }
}

/// The decimals to which a share is compared with a half, as a spreadsheet would.
const SHARE_DIGITS: u32 = 9;

impl PartWorth {
    /// Whether the plan gains or loses by its being kept for use.
    pub fn counts(&self) -> bool {
        self.used.is_some_and(|used| !used.is_zero()) || !self.not_sold.is_zero()
    }
}

/// What using one by-product saves over the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PartWorth {
    /// The by-product.
    pub part: PartId,
    /// Grams used; `None` without a plan.
    pub used: Option<Decimal>,
    /// What buying in its place would cost, by weight; `None` where nobody says.
    pub buy_in: Option<Rate>,
    /// Need not be bought, in money over the plan; `None` where that is not known.
    pub not_bought: Option<Decimal>,
    /// What it would have fetched if it had been sold, in money over the plan.
    pub not_sold: Decimal,
    /// Labour, fuel and packing to make it usable, in money over the plan.
    pub further_cost: Decimal,
    /// Hauling that is spared because it leaves on plates, in money over the plan.
    pub haulage: Decimal,
    /// What is saved: not bought, less not sold, less further cost, plus haulage; `None` where that is not known.
    pub saved: Option<Decimal>,
    /// The buy-in price at which using it breaks even, by weight; `None` when none of it is used.
    pub breaks_even_at: Option<Rate>,
    /// The credit given to what is left over, which no dish has paid for.
    pub unearned: Decimal,
}

impl Worth {
    /// The three kitchens of a book, under its costing `costing` and its plan's `balance`.
    ///
    /// # Errors
    /// [`Overflow`] when a figure does not fit.
    pub fn of(kitchen: &Kitchen, costing: &Costing, balance: Option<&Balance>) -> Result<Self, Overflow> {
        let buy_ins = buy_ins(kitchen, costing);
        let short = balance.map(|balance| short(kitchen, balance, &buy_ins)).unwrap_or_default();
        // Charges move what tests reach, and leaving seasoning out what recipes that have some reach.
        let moved = Reached::by_any(kitchen, |node| match node {
            Node::Test(_) => true,
            Node::Recipe(id) => {
                let of_batch = |recipe| QAndSpice::of_batch(kitchen, &costing.scenario, recipe);
                kitchen.recipe(id).map(of_batch).is_some_and(|added| added.is_any())
            }
            Node::Item(_) => false,
        });
        let under = |charging: Charging, bought_in: &BTreeMap<PartId, BoughtIn>, food_alone: bool| {
            let base = costing.scenario.clone();
            let scenario = Scenario { charging, bought_in: bought_in.clone(), food_alone, ..base };
            again(kitchen, costing, scenario, &moved)
        };
        let kitchens = [
            under(Charging::Binned, &all_bought(&buy_ins), true),
            under(Charging::Free, &short, true),
            under(Charging::AsTheBookSays, &short, true),
        ];
        let planned = under(Charging::AsTheBookSays, &short, false);
        let uses = Uses::of(kitchen, costing)?;
        let of_trim = OfTrim::of(kitchen, costing);
        let within = TrimWithin::of(kitchen, costing, &buy_ins)?;
        let dishes = dishes::dishes(kitchen, &kitchens, &planned, balance, |served| {
            Ok((of_trim.serves(kitchen, served), within.food(kitchen, costing, served)?))
        })?;
        let [_, _, credited] = &kitchens;
        let parts = parts::parts(kitchen, &uses, credited, balance, &buy_ins)?;
        let plan = match balance {
            Some(balance) => Some(totals::plan(kitchen, &kitchens, balance, &dishes, &parts)?),
            None => None,
        };
        Ok(Worth { kitchens, planned, uses, within, dishes, plan, parts })
    }
}

/// The book's costing as it would be if every user of trim paid what that would cost to buy; and which dishes are made of
/// trim, by their index.
pub(crate) fn at_buy_in(kitchen: &Kitchen, costing: &Costing) -> (Costing, Vec<bool>) {
    let moved = Reached::by_any(kitchen, |node| matches!(node, Node::Test(_)));
    let bought_in = all_bought(&buy_ins(kitchen, costing));
    let scenario = Scenario { bought_in, ..costing.scenario.clone() };
    let of_trim = OfTrim::of(kitchen, costing);
    let dishes = (0..kitchen.dishes.len()).map(|index| of_trim.serves(kitchen, Served::Dish(index))).collect();
    (again(kitchen, costing, scenario, &moved), dishes)
}

/// Every by-product bought in wholly.
fn all_bought(buy_ins: &BTreeMap<PartId, Option<Rate>>) -> BTreeMap<PartId, BoughtIn> {
    let bought = |at: &Option<Rate>| BoughtIn { there: Decimal::ZERO, bought: Decimal::ONE, at: *at };
    buy_ins.iter().map(|(part, at)| (*part, bought(at))).collect()
}

/// Every by-product with what buying in its place would cost.
fn buy_ins(kitchen: &Kitchen, costing: &Costing) -> BTreeMap<PartId, Option<Rate>> {
    let by_products = kitchen.all_parts().filter_map(|id| Some((id, kitchen.part(id)?)));
    let by_products = by_products.filter(|(_, part)| part.role == Role::ByProduct);
    by_products.map(|(id, part)| (id, buy_in_of(kitchen, costing, part))).collect()
}

/// What buying in the place of a part costs, by weight; `None` where nobody says, or what is said is not known.
pub(crate) fn buy_in_of(kitchen: &Kitchen, costing: &Costing, part: &Part) -> Option<Rate> {
    let buy_in = part.buy_in.as_ref().filter(|_| !part.reuse.unread)?;
    buy_in_rate(kitchen, costing, buy_in).ok()
}

/// What so many grams of a part would cost to buy; `None` where nobody says, or it does not fit.
pub(crate) fn stand_in_cost(kitchen: &Kitchen, costing: &Costing, part: &Part, grams: Decimal) -> Option<Decimal> {
    buy_in_of(kitchen, costing, part)?.cost_of(Amount::of(grams)).ok()
}

/// How many base units of what is bought in the place of a gram of a part, and what that gram costs then. `None` where
/// nobody says, for water, and where it does not fit.
pub(crate) fn bought_per_gram(kitchen: &Kitchen, costing: &Costing, part: &Part) -> Option<(Decimal, Decimal)> {
    let cost = buy_in_of(kitchen, costing, part)?.per_unit()?;
    let item = costing.item(part.buy_in.as_ref()?.item).filter(|item| item.from != PriceFrom::Water)?;
    Some((exact::div(cost, item.ap.unit_cost().ok()?).ok()?, cost))
}

/// The parts of which there is not enough.
fn short(kitchen: &Kitchen, balance: &Balance, buy_ins: &BTreeMap<PartId, Option<Rate>>) -> BTreeMap<PartId, BoughtIn> {
    let short = kitchen.all_parts().filter_map(|id| {
        let part = balance.part(id).filter(|part| !part.short.is_zero())?;
        let at = buy_ins.get(&id).copied().flatten();
        Some((id, BoughtIn { there: part.used, bought: part.short, at }))
    });
    short.collect()
}
