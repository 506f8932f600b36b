//! Menu mix: the dishes of each group by how often they are ordered and by their contribution margin.
//!
//! After M. L. Kasavana and D. I. Smith, *Menu Engineering* (1982), as textbooks of food cost control tell it: of n dishes
//! one is popular from 70 % of 1/n of the portions sold; its margin is high from the average margin of a portion, each dish
//! weighing as much as was sold of it. Who stands just on either line is above it (the textbooks leave that open).
//!
//! Takes a kitchen and its costing; gives counts of portions, money, and fractions of one.

use indexmap::IndexMap;

use super::trim_savings::at_buy_in;
use crate::costing::Costing;
use crate::kitchen::menu::Dish;
use crate::kitchen::{Field, Kitchen, NameKey};
use crate::number::{Decimal, exact, half_up};

/// The share of an even share from which a dish is popular: 70 %.
pub(crate) const POPULAR_FROM: Decimal = Decimal::from_parts(7, 0, 0, false, 1);
/// With fewer dishes in a group nothing is said of their classes: of three, a fourth of the portions would be popular.
pub(crate) const FEWEST_DISHES: usize = 4;
/// The decimals to which margins are compared, as a spreadsheet would.
const COMPARED_DIGITS: u32 = 9;

/// The menu, group by group in the order of the menu.
#[derive(Debug, Clone)]
pub struct MenuMix {
    /// The groups. Dishes without one are a group without a name.
    pub groups: Vec<MixGroup>,
}

/// The dishes of one group.
#[derive(Debug, Clone)]
pub struct MixGroup {
    /// Its name as first spelled; empty for dishes without one.
    pub name: String,
    /// The dishes of which it is known how many were sold, in the order of the menu.
    pub dishes: Vec<MixDish>,
    /// The others, as indices into the kitchen's dishes.
    pub not_counted: Vec<usize>,
    /// Portions sold; `None` where they do not fit.
    pub sold: Option<Decimal>,
    /// The share of them from which a dish is popular, as a fraction; `None` where no dish is counted.
    pub popular_from: Option<Decimal>,
    /// The margins of all that was sold, in money; `None` where none is known.
    pub margin_in_all: Option<Decimal>,
    /// The average margin of a portion; `None` where none is known, or nothing was sold.
    pub average_margin: Option<Decimal>,
    /// Why the dishes are not put in classes; `None` where they are.
    pub unclassed: Option<Unclassed>,
}

/// Why the dishes of a group are not put in classes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unclassed {
    /// There are too few to compare.
    FewDishes,
    /// Nothing was sold of them, or it does not fit.
    NothingSold,
}

/// A dish in its group.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MixDish {
    /// The dish, as an index into the kitchen's.
    pub dish: usize,
    /// Portions sold.
    pub sold: Decimal,
    /// Of all that was sold of the group, as a fraction.
    pub share: Option<Decimal>,
    /// The contribution margin of a portion; `None` where it has no cost or no menu price.
    pub margin: Option<Decimal>,
    /// Of all that was sold.
    pub margin_in_all: Option<Decimal>,
    /// Its class; `None` where the group has none or its margin is not known.
    pub class: Option<MixClass>,
    /// How it would stand if its trim had to be bought; `None` where it is not made of trim.
    pub at_buy_in: Option<AtBuyIn>,
}

/// A dish made of trim, were that bought, the other dishes as they are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AtBuyIn {
    /// Its margin then; `None` where nobody says what its trim would cost to buy.
    pub margin: Option<Decimal>,
    /// Its class then.
    pub class: Option<MixClass>,
}

/// Where a dish stands: how often it is ordered, and its margin.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum MixClass {
    /// Ordered often, and worth it.
    PopularHigh,
    /// Ordered often, and little is left of it.
    PopularLow,
    /// Worth selling, and seldom ordered.
    SeldomHigh,
    /// Seldom ordered, and little is left of it.
    SeldomLow,
}

impl MixClass {
    /// All four, in the order in which they are shown.
    pub const ALL: [MixClass; 4] =
        [MixClass::PopularHigh, MixClass::PopularLow, MixClass::SeldomHigh, MixClass::SeldomLow];

    fn of(popular: bool, high: bool) -> Self {
        match (popular, high) {
            (true, true) => MixClass::PopularHigh,
            (true, false) => MixClass::PopularLow,
            (false, true) => MixClass::SeldomHigh,
            (false, false) => MixClass::SeldomLow,
        }
    }
}

impl MenuMix {
    /// The mix of a kitchen's dishes under its costing.
    pub fn of(kitchen: &Kitchen, costing: &Costing) -> Self {
        let (bought, of_trim) = at_buy_in(kitchen, costing);
        let margin_in = |costing: &Costing, index: usize| costing.dishes.get(index)?.as_ref()?.margin;
        let mut groups: IndexMap<NameKey, MixGroup> = IndexMap::new();
        for (index, dish) in kitchen.dishes.iter().enumerate() {
            let group = groups.entry(NameKey::of(&dish.group)).or_insert_with(|| MixGroup::empty(dish));
            let Field::Given(sold) = dish.sold else {
                group.not_counted.push(index);
                continue;
            };
            let margin = margin_in(costing, index);
            let is_of_trim = of_trim.get(index).copied().unwrap_or_default();
            group.dishes.push(MixDish {
                dish: index,
                sold,
                share: None,
                margin,
                margin_in_all: margin.and_then(|margin| exact::mul(margin, sold).ok()),
                class: None,
                at_buy_in: is_of_trim.then(|| AtBuyIn { margin: margin_in(&bought, index), class: None }),
            });
        }
        let mut groups: Vec<MixGroup> = groups.into_values().collect();
        groups.iter_mut().for_each(MixGroup::compare);
        MenuMix { groups }
    }
}

impl MixGroup {
    fn empty(dish: &Dish) -> Self {
        MixGroup {
            name: dish.group.trim().to_owned(),
            dishes: Vec::new(),
            not_counted: Vec::new(),
            sold: None,
            popular_from: None,
            margin_in_all: None,
            average_margin: None,
            unclassed: None,
        }
    }

    /// Adds up the group and puts its dishes in their classes.
    fn compare(&mut self) {
        self.sold = exact::sum(self.dishes.iter().map(|dish| dish.sold)).ok();
        self.popular_from = exact::div(POPULAR_FROM, Decimal::from(self.dishes.len())).ok();
        let margins = Margins::of(&self.dishes);
        self.margin_in_all = margins.map(|margins| margins.in_all);
        self.average_margin = margins.and_then(|margins| exact::div(margins.in_all, margins.sold).ok());
        let sold = self.sold.filter(|sold| !sold.is_zero());
        self.unclassed = match sold {
            _ if self.dishes.len() < FEWEST_DISHES => Some(Unclassed::FewDishes),
            None => Some(Unclassed::NothingSold),
            Some(_) => None,
        };
        let dishes = Decimal::from(self.dishes.len());
        for dish in &mut self.dishes {
            dish.share = sold.and_then(|sold| exact::div(dish.sold, sold).ok());
            if self.unclassed.is_some() {
                continue;
            }
            let popular = sold.and_then(|sold| is_popular(dish.sold, sold, dishes));
            let class = |high: Option<bool>| Some(MixClass::of(popular?, high?));
            dish.class = class(margins.zip(dish.margin).and_then(|(margins, margin)| margins.is_high(margin)));
            if let Some(at_buy_in) = &mut dish.at_buy_in {
                let then = margins.and_then(|margins| margins.instead(dish.sold, dish.margin?, at_buy_in.margin?));
                at_buy_in.class = class(then.zip(at_buy_in.margin).and_then(|(then, margin)| then.is_high(margin)));
            }
        }
    }
}

/// Whether so many of all that was sold are popular among so many dishes: sold × dishes ≥ 70 % of all.
fn is_popular(sold: Decimal, all: Decimal, dishes: Decimal) -> Option<bool> {
    Some(exact::mul(sold, dishes).ok()? >= exact::mul(all, POPULAR_FROM).ok()?)
}

/// The margins of a group's dishes together.
#[derive(Debug, Clone, Copy)]
struct Margins {
    /// Portions sold of the dishes whose margin is known.
    sold: Decimal,
    /// Their margins, in money.
    in_all: Decimal,
}

impl Margins {
    /// `None` where no margin is known, or they do not fit.
    fn of(dishes: &[MixDish]) -> Option<Self> {
        let known = || dishes.iter().filter(|dish| dish.margin.is_some());
        known().next()?;
        let in_all = known().map(|dish| dish.margin_in_all).collect::<Option<Vec<Decimal>>>()?;
        Some(Margins { sold: exact::sum(known().map(|dish| dish.sold)).ok()?, in_all: exact::sum(in_all).ok()? })
    }

    /// With the margin of one dish another than it is.
    fn instead(self, sold: Decimal, is: Decimal, would_be: Decimal) -> Option<Self> {
        let more = exact::mul(exact::sub(would_be, is).ok()?, sold).ok()?;
        Some(Margins { in_all: exact::add(self.in_all, more).ok()?, ..self })
    }

    /// Whether a margin is at the average of a portion or above; `None` of no portions.
    fn is_high(self, margin: Decimal) -> Option<bool> {
        if self.sold.is_zero() {
            return None;
        }
        let apart = exact::sub(exact::mul(margin, self.sold).ok()?, self.in_all).ok()?;
        Some(half_up(apart, COMPARED_DIGITS) >= Decimal::ZERO)
    }
}
