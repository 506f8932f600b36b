//! Order: lists are put in order by one sort of the standard library's, whatever they are of.
//!
//! Its sort comes as a copy for every type that is sorted, of some five kilobytes each: sixty of them are a twentieth of what a
//! page carries. Here places are sorted, and the rows are moved there.

use std::cmp::Ordering;

/// Rows that can be put in order; those that are alike stay as they stand.
pub(crate) trait InOrder<T> {
    /// Puts them in their own order.
    fn put_in_order(&mut self)
    where
        T: Ord;

    /// Puts them in an order.
    fn put_in_order_by(&mut self, compare: impl FnMut(&T, &T) -> Ordering);

    /// Puts them in the order of what each is asked for.
    fn put_in_order_by_key<K: Ord>(&mut self, key: impl FnMut(&T) -> K);
}

impl<T> InOrder<T> for [T] {
    fn put_in_order(&mut self)
    where
        T: Ord,
    {
        self.put_in_order_by(T::cmp);
    }

    fn put_in_order_by(&mut self, mut compare: impl FnMut(&T, &T) -> Ordering) {
        let order = order(self.len(), &mut |one, other| match (self.get(one), self.get(other)) {
            (Some(one), Some(other)) => compare(one, other),
            _ => Ordering::Equal,
        });
        put(self, order);
    }

    fn put_in_order_by_key<K: Ord>(&mut self, mut key: impl FnMut(&T) -> K) {
        self.put_in_order_by(|one, other| key(one).cmp(&key(other)));
    }
}

/// Which row stands at each place when they are in order.
fn order(len: usize, compare: &mut dyn FnMut(usize, usize) -> Ordering) -> Vec<usize> {
    let mut order: Vec<usize> = (0..len).collect();
    order.sort_by(|one, other| compare(*one, *other));
    order
}

/// Moves every row to its place, by swaps along each ring of places.
fn put<T>(rows: &mut [T], mut from: Vec<usize>) {
    for start in 0..from.len() {
        let mut at = start;
        while let Some(next) = from.get_mut(at).map(|next| std::mem::replace(next, at)).filter(|next| *next != at) {
            if next == start {
                break;
            }
            rows.swap(at, next);
            at = next;
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn rows_stand_as_the_standard_library_sorts_them(rows in proptest::collection::vec((0_u8..9, any::<u16>()), 0..60)) {
            let (mut ours, mut theirs) = (rows.clone(), rows.clone());
            ours.put_in_order();
            theirs.sort();
            prop_assert_eq!(&ours, &theirs);
            let (mut ours, mut theirs) = (rows.clone(), rows.clone());
            ours.put_in_order_by_key(|(first, _)| *first);
            theirs.sort_by_key(|(first, _)| *first);
            prop_assert_eq!(&ours, &theirs);
            let (mut ours, mut theirs) = (rows.clone(), rows);
            ours.put_in_order_by(|one, other| other.0.cmp(&one.0));
            theirs.sort_by_key(|(first, _)| std::cmp::Reverse(*first));
            prop_assert_eq!(ours, theirs);
        }
    }
}
