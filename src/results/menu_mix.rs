//! Menu mix: the dishes of every group by how often they are ordered and by their margin, and what to try for each.

use schemars::JsonSchema;
use serde::Serialize;

use super::problem::ProblemResult;
use super::value::{Day, Figure, FormatVersion, VERSION, percent};
use super::word::Word;
use crate::analysis::MenuMix;
use crate::analysis::menu_mix::{FEWEST_DISHES, MixClass, MixDish, MixGroup, Unclassed};
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::number::{Decimal, exact};
use crate::problem::Problem;

/// The menu by popularity and margin: `parings mix --format json`. Lists are in the order of the menu; what is not known is
/// null; percentages are such that "28" is 28 %.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings mix")]
pub struct MenuMixResults<'a> {
    /// The version of the program.
    pub parings: &'a str,
    /// The version of this format.
    pub format: FormatVersion,
    /// The day whose prices count.
    pub as_of: Day,
    /// The currency of all money, such as USD; empty where the book shows none.
    pub currency: &'a str,
    /// The groups of the menu; dishes without one are a group without a name.
    pub groups: Vec<MixGroupResult<'a>>,
    /// Every problem of the book.
    pub problems: Vec<ProblemResult<'a>>,
}

/// The dishes of one group.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MixGroup")]
pub struct MixGroupResult<'a> {
    /// Its name; empty for dishes without a group.
    pub name: &'a str,
    /// Portions sold of all its dishes.
    pub sold: Option<Figure>,
    /// The share of these from which a dish is popular: 70 % of an even share.
    pub popular_from_percent: Option<Figure>,
    /// The margins of all that was sold of the dishes whose margin is known.
    pub margin_in_all: Option<Figure>,
    /// Their average by portion, from which a margin is high.
    pub average_margin: Option<Figure>,
    /// Why its dishes are not put in classes; null where they are.
    pub unclassed: Option<Word<Unclassed>>,
    /// The dishes of which it is known how many were sold.
    pub dishes: Vec<MixDishResult<'a>>,
    /// The others.
    pub not_counted: Vec<NotCountedResult<'a>>,
}

/// A dish in its group.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MixDish")]
pub struct MixDishResult<'a> {
    /// Its name, as first spelled in the book.
    pub name: &'a str,
    /// Portions sold.
    pub sold: Figure,
    /// Of all portions sold of its group.
    pub sold_percent: Option<Figure>,
    /// The price without tax less the portion cost; null without either.
    pub margin: Option<Figure>,
    /// The margin of all that was sold of it.
    pub margin_in_all: Option<Figure>,
    /// Where it stands; null where its group is not put in classes, or its margin is not known.
    pub class: Option<Word<MixClass>>,
    /// What may be tried for it; null without a class.
    pub to_try: Option<&'static str>,
    /// Whether it is made of trim, whose charge is the kitchen's own choice.
    pub made_of_trim: bool,
    /// Its margin if its trim had to be bought; null where it is not made of trim, or nobody says what that would cost.
    pub margin_at_buy_in: Option<Figure>,
    /// Where it would stand then, the other dishes as they are.
    pub class_at_buy_in: Option<Word<MixClass>>,
}

/// A dish that is left out of its group.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "NotCountedDish")]
pub struct NotCountedResult<'a> {
    /// Its name, as first spelled in the book.
    pub name: &'a str,
    /// Why.
    pub because: Word<NotCounted>,
}

/// Why a dish is left out of its group.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotCounted {
    /// Nothing says how many were sold.
    NoSold,
    /// What says it could not be read.
    SoldUnread,
}

impl NotCounted {
    /// What reports say.
    pub fn words(self) -> &'static str {
        match self {
            NotCounted::NoSold => "no number sold",
            NotCounted::SoldUnread => "number sold not understood",
        }
    }
}

/// The mix of a menu.
pub fn menu_mix<'a>(
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    mix: &'a MenuMix,
    problems: &'a [Problem],
) -> MenuMixResults<'a> {
    MenuMixResults {
        parings: VERSION,
        format: FormatVersion,
        as_of: Day(costing.scenario.date),
        currency: &kitchen.settings.currency,
        groups: groups(kitchen, mix).collect(),
        problems: problems.iter().map(ProblemResult::of).collect(),
    }
}

/// The groups of a menu, in its order.
pub(crate) fn groups<'a>(kitchen: &'a Kitchen, mix: &'a MenuMix) -> impl Iterator<Item = MixGroupResult<'a>> {
    mix.groups.iter().map(|group| MixGroupResult::of(kitchen, group))
}

impl<'a> MixGroupResult<'a> {
    fn of(kitchen: &'a Kitchen, group: &'a MixGroup) -> Self {
        let not_counted = group.not_counted.iter().filter_map(|index| {
            let dish = kitchen.dishes.get(*index)?;
            let because = if dish.sold.is_broken() { NotCounted::SoldUnread } else { NotCounted::NoSold };
            Some(NotCountedResult { name: &dish.name, because: Word(because) })
        });
        MixGroupResult {
            name: &group.name,
            sold: group.sold.map(Figure),
            popular_from_percent: group.popular_from.and_then(percent),
            margin_in_all: group.margin_in_all.map(Figure),
            average_margin: group.average_margin.map(Figure),
            unclassed: group.unclassed.map(Word),
            dishes: group.dishes.iter().filter_map(|dish| MixDishResult::of(kitchen, dish)).collect(),
            not_counted: not_counted.collect(),
        }
    }
}

impl<'a> MixDishResult<'a> {
    fn of(kitchen: &'a Kitchen, dish: &MixDish) -> Option<Self> {
        Some(MixDishResult {
            name: &kitchen.dishes.get(dish.dish)?.name,
            sold: Figure(dish.sold),
            sold_percent: dish.share.and_then(percent),
            margin: dish.margin.map(Figure),
            margin_in_all: dish.margin_in_all.map(Figure),
            class: dish.class.map(Word),
            to_try: dish.class.map(to_try),
            made_of_trim: dish.at_buy_in.is_some(),
            margin_at_buy_in: dish.at_buy_in.and_then(|at| at.margin).map(Figure),
            class_at_buy_in: dish.at_buy_in.and_then(|at| at.class).map(Word),
        })
    }
}

/// The words for a class.
pub(crate) fn class(class: MixClass) -> &'static str {
    match class {
        MixClass::PopularHigh => "popular, high margin",
        MixClass::PopularLow => "popular, low margin",
        MixClass::SeldomHigh => "seldom ordered, high margin",
        MixClass::SeldomLow => "seldom ordered, low margin",
    }
}

/// What may be tried for a dish of a class, as the trade advises; common practice, no source.
pub(crate) fn to_try(class: MixClass) -> &'static str {
    match class {
        MixClass::PopularHigh => "Keep it as it is: the same portion, the same quality, easy to find on the menu.",
        MixClass::PopularLow => {
            "See what makes it dear: portion, garnish, trim that goes unused; then try a little more for it."
        }
        MixClass::SeldomHigh => {
            "Let guests see it: a better place on the menu, a plainer name, a word from the server."
        }
        MixClass::SeldomLow => {
            "Change it or take it off, unless guests come for it or it uses up what another dish leaves."
        }
    }
}

/// The words for why there are no classes.
pub(crate) fn unclassed(why: Unclassed) -> &'static str {
    match why {
        Unclassed::FewDishes => "fewer than four dishes",
        Unclassed::NothingSold => "nothing sold",
    }
}

/// How many more dishes a group wants to be put in classes.
pub(crate) fn dishes_wanting(group: &MixGroupResult<'_>) -> usize {
    FEWEST_DISHES.saturating_sub(group.dishes.len())
}

/// How much less of a dish's margin would be left if its trim had to be bought; `None` where that is not known.
pub(crate) fn less_at_buy_in(dish: &MixDishResult<'_>) -> Option<Decimal> {
    exact::sub(dish.margin?.0, dish.margin_at_buy_in?.0).ok()
}
