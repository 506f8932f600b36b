//! By how much every bought item moves the cost of one thing: a sparse list, and the sum that such lists are made with.
//!
//! A list names the items that move most and holds the rest as one sum, so that a kitchen whose recipes stand on one
//! another ten thousand deep needs no more room than one list a recipe.

use crate::costing::rate::Amount;
use crate::in_order::InOrder;
use crate::kitchen::ItemId;
use crate::number::{Decimal, exact};

/// How many items are followed singly through one recipe or part. No dish has as many ingredients; of more, the smallest are
/// told together.
pub const FOLLOWED: usize = 256;

/// By how much items move the cost of one thing, in money.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(in crate::analysis) struct Moves {
    /// The items, in the order of their ids; none of nothing.
    pub(in crate::analysis) items: Vec<(ItemId, Decimal)>,
    /// What all others come to.
    pub(in crate::analysis) together: Decimal,
}

/// A sum of moves. What does not fit a decimal, or vanishes below the smallest, is left out: whoever compares the sum with
/// what really moved tells the difference.
pub(in crate::analysis) struct Sum {
    amounts: Vec<Option<Decimal>>,
    touched: Vec<ItemId>,
    together: Decimal,
}

impl Sum {
    /// A sum over so many items.
    pub(in crate::analysis) fn over(items: usize) -> Self {
        Sum { amounts: vec![None; items], touched: Vec::new(), together: Decimal::ZERO }
    }

    /// Adds what one item moves.
    pub(in crate::analysis) fn add(&mut self, item: ItemId, amount: Decimal) {
        let Some(slot) = self.amounts.get_mut(item.index()) else { return };
        if slot.is_none() {
            self.touched.push(item);
        }
        let before = slot.unwrap_or_default();
        *slot = Some(exact::add(before, amount).unwrap_or(before));
    }

    /// Adds all of `moves`, times `by`.
    pub(in crate::analysis) fn add_times(&mut self, moves: &Moves, by: Amount) {
        let times = |amount: Decimal| by.times(amount).and_then(Amount::value).ok();
        for (item, amount) in &moves.items {
            if let Some(amount) = times(*amount) {
                self.add(*item, amount);
            }
        }
        let together = times(moves.together).unwrap_or_default();
        self.together = exact::add(self.together, together).unwrap_or(self.together);
    }

    /// Adds all of `moves`.
    pub(in crate::analysis) fn add_all(&mut self, moves: &Moves) {
        self.add_times(moves, Amount::of(Decimal::ONE));
    }

    /// Takes all of `moves` away.
    pub(in crate::analysis) fn take_away(&mut self, moves: &Moves) {
        self.add_times(moves, Amount::of(Decimal::NEGATIVE_ONE));
    }

    /// The moves, of more than [`FOLLOWED`] the largest; the sum is empty again.
    pub(in crate::analysis) fn finish(&mut self) -> Moves {
        let mut items = Vec::with_capacity(self.touched.len());
        for item in self.touched.drain(..) {
            let amount = self.amounts.get_mut(item.index()).and_then(Option::take).unwrap_or_default();
            if !amount.is_zero() {
                items.push((item, amount));
            }
        }
        let mut together = std::mem::take(&mut self.together);
        if items.len() > FOLLOWED {
            items.put_in_order_by_key(|(item, amount)| (std::cmp::Reverse(amount.abs()), *item));
            for (_, amount) in items.drain(FOLLOWED..) {
                together = exact::add(together, amount).unwrap_or(together);
            }
        }
        items.put_in_order_by_key(|(item, _)| *item);
        Moves { items, together }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_many_items_the_smallest_are_told_together() {
        // 1 + 2 + … + 258, of which 1 and 2 are beyond the 256 largest: 3 together.
        let mut sum = Sum::over(258);
        for index in 0..258_u32 {
            sum.add(ItemId::new(index as usize), Decimal::from(index + 1));
        }
        let moves = sum.finish();
        assert_eq!((moves.items.len(), moves.together), (FOLLOWED, Decimal::from(3)));
        assert_eq!(moves.items.first(), Some(&(ItemId::new(2), Decimal::from(3))));
        // Twice of it: 2 × 3 = 6 together; and the sum was empty before.
        sum.add_times(&moves, Amount::of(Decimal::TWO));
        let twice = sum.finish();
        assert_eq!((twice.items.len(), twice.together), (FOLLOWED, Decimal::from(6)));
        assert_eq!(sum.finish(), Moves::default());
    }

    #[test]
    fn what_cancels_is_no_move() {
        let mut sum = Sum::over(1);
        sum.add(ItemId::new(0), Decimal::TEN);
        let moves = sum.finish();
        sum.add_all(&moves);
        sum.take_away(&moves);
        assert_eq!(sum.finish(), Moves::default());
    }
}
