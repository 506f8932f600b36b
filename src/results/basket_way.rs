//! Way from what the basket cost to what it costs: what each item that moved adds or takes off, one after the other, and
//! the bars that show it. The steps add up to the difference.

use crate::analysis::reprice::{Effects, Mover};
use crate::in_order::InOrder;
use crate::number::{Decimal, Overflow, exact};

/// The most items that have a step of their own: as many as can be told apart.
const MOST: usize = 10;

/// The way from the old basket to the new one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct BasketWay {
    /// What the basket cost.
    pub was: Decimal,
    /// The steps: what makes it dearer first, then what makes it cheaper, what is told together last.
    pub steps: Vec<BasketStep>,
    /// What it costs.
    pub now: Decimal,
    /// Where an axis begins that shows the steps and not chiefly what stayed; `None` for nothing.
    pub begins: Option<Decimal>,
}

/// One step of the way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct BasketStep {
    /// What makes it.
    pub by: StepCause,
    /// What it adds, below zero what it takes off.
    pub change: Decimal,
    /// How much that is.
    pub size: Decimal,
    /// What the basket comes to with it.
    pub comes_to: Decimal,
    /// Its bar.
    pub bar: Bar,
}

/// What makes a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum StepCause {
    /// An item, as an index among the movers.
    Item(usize),
    /// The movers from the first of these to the last, of which none has a step of its own and so many moved the basket.
    Others([usize; 2], usize),
    /// What no move of an item explains.
    Rest,
}

/// The bar of a step: parts behind one another, on either side of nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Bar {
    /// What carries it and is not seen.
    pub base: Decimal,
    /// How long it is above nothing, and below.
    pub length: [Decimal; 2],
}

impl Bar {
    /// That between two levels.
    fn between(one: Decimal, other: Decimal) -> Result<Self, Overflow> {
        let (low, high, none) = (one.min(other), one.max(other), Decimal::ZERO);
        Ok(Bar {
            base: exact::add(low.max(none), high.min(none))?,
            length: [exact::sub(high.max(none), low.max(none))?, exact::sub(low.min(none), high.min(none))?],
        })
    }
}

impl BasketWay {
    /// That of new prices; `None` where the basket is not known, or nothing in it moved.
    pub(crate) fn of(effects: &Effects) -> Option<Self> {
        let index = effects.index.as_ref().ok()?;
        Self::between(index.was, index.now, &effects.movers).ok().flatten()
    }

    fn between(was: Decimal, now: Decimal, movers: &[Mover]) -> Result<Option<Self>, Overflow> {
        let worth = |mover: &Mover| mover.worth.ok().filter(|worth| !worth.is_zero());
        let mut by_size: Vec<(usize, Decimal)> =
            movers.iter().enumerate().filter_map(|(at, mover)| Some((at, worth(mover)?))).collect();
        if by_size.is_empty() {
            return Ok(None);
        }
        // Movers stand by worth. Of equals the outer ones have steps, so that those without are neighbours.
        let outer =
            |at: usize, worth: Decimal| if worth > Decimal::ZERO { at } else { movers.len().saturating_sub(at) };
        by_size.put_in_order_by_key(|(at, worth)| (std::cmp::Reverse(worth.abs()), outer(*at, *worth)));
        let together = by_size.split_off(by_size.len().min(MOST));
        by_size.put_in_order_by_key(|(at, _)| *at);
        let mut changes: Vec<(StepCause, Decimal)> =
            by_size.iter().map(|(at, worth)| (StepCause::Item(*at), *worth)).collect();
        let shown = exact::sum(changes.iter().map(|(_, change)| *change))?;
        let left = exact::sub(exact::sub(now, was)?, shown)?;
        let ends = || together.iter().map(|(at, _)| *at);
        if let (Some(first), Some(last)) = (ends().min(), ends().max()) {
            let sum = exact::sum(together.iter().map(|(_, worth)| *worth))?;
            let of_all = if exact::is_near(left, sum) { left } else { sum };
            changes.push((StepCause::Others([first, last], together.len()), of_all));
        }
        let told = exact::sum(changes.iter().map(|(_, change)| *change))?;
        let rest = exact::sub(exact::sub(now, was)?, told)?;
        if rest.abs() > ROUNDING {
            changes.push((StepCause::Rest, rest));
        }
        let mut level = was;
        let mut steps = Vec::new();
        for (by, change) in changes {
            let before = level;
            level = exact::add(level, change)?;
            steps.push(BasketStep {
                by,
                change,
                size: change.abs(),
                comes_to: level,
                bar: Bar::between(before, level)?,
            });
        }
        let levels = steps.iter().map(|step| step.comes_to).chain([was, now]);
        let (low, high) = levels.fold((was, was), |(low, high), level| (low.min(level), high.max(level)));
        Ok(Some(BasketWay { was, steps, now, begins: begins(low, high)? }))
    }
}

/// What of a sum is rounding.
const ROUNDING: Decimal = Decimal::from_parts(1, 0, 0, false, 12);

/// A round number as far below the lowest level as that is below the highest, where the levels lie close together.
fn begins(low: Decimal, high: Decimal) -> Result<Option<Decimal>, Overflow> {
    let between = exact::sub(high, low)?;
    let from = exact::sub(low, between)?;
    if between.is_zero() || from <= between {
        return Ok(None);
    }
    let (mut unit, ten) = (Decimal::ONE, Decimal::TEN);
    while unit > between {
        unit = exact::div(unit, ten)?;
    }
    while exact::mul(unit, ten)? <= between {
        unit = exact::mul(unit, ten)?;
    }
    let step = exact::mul(unit, Decimal::from(5))?;
    exact::mul(exact::div(from, step)?.trunc(), step).map(Some)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn money(text: &str) -> Decimal {
        text.parse().unwrap()
    }

    fn bar(one: &str, other: &str) -> [Decimal; 3] {
        let bar = Bar::between(money(one), money(other)).unwrap();
        [bar.base, bar.length[0], bar.length[1]]
    }

    #[test]
    fn a_bar_lies_between_two_levels_on_either_side_of_nothing() {
        // From 10 up to 12 and back: carried by 10, 2 long.
        assert_eq!(bar("10", "12"), ["10", "2", "0"].map(money));
        assert_eq!(bar("12", "10"), ["10", "2", "0"].map(money));
        // From 1 down to -2: nothing carries it, 1 above nothing and 2 below.
        assert_eq!(bar("1", "-2"), ["0", "1", "-2"].map(money));
        // From -1 to -3: carried by -1, 2 long downwards.
        assert_eq!(bar("-1", "-3"), ["-1", "0", "-2"].map(money));
    }

    #[test]
    fn an_axis_begins_at_a_round_number_where_little_moves() {
        let of = |low: &str, high: &str| begins(money(low), money(high)).unwrap();
        // 500 to 530: 30 below 500 is 470, in fifties 450.
        assert_eq!(of("500", "530"), Some(money("450")));
        // 9.63 to 9.71: 0.08 below is 9.55, in steps of 0.05 as well.
        assert_eq!(of("9.63", "9.71"), Some(money("9.55")));
        // 40 to 90: from nothing.
        assert_eq!(of("40", "90"), None);
        assert_eq!(of("40", "40"), None);
    }
}
