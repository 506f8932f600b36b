//! Edits between two spellings, as far as they are few enough for a slip.

/// The edits between two texts (insertions, deletions, substitutions and neighbours swapped, the optimal string alignment),
/// if there are no more than `most`. Only what so few edits can reach is looked at, so it takes as long as the texts are.
pub fn edits_within(a: &[char], b: &[char], most: usize) -> Option<usize> {
    let far = most.saturating_add(1);
    let at = |row: &[usize], column: usize| row.get(column).copied().unwrap_or(far);
    let mut before_last: Vec<usize> = vec![far; b.len().saturating_add(1)];
    let mut last: Vec<usize> = (0..=b.len()).map(|column| column.min(far)).collect();
    let mut edits: Vec<usize> = before_last.clone();
    for (row, letter) in a.iter().enumerate() {
        edits.fill(far);
        if let Some(first) = edits.first_mut() {
            *first = row.saturating_add(1).min(far);
        }
        let (from, to) = (row.saturating_sub(most), row.saturating_add(most).saturating_add(1).min(b.len()));
        let mut least = at(&edits, 0);
        for (column, other) in b.iter().enumerate().take(to).skip(from) {
            let same = usize::from(letter != other);
            let mut fewest = at(&last, column).saturating_add(same);
            fewest = fewest.min(at(&last, column.saturating_add(1)).saturating_add(1));
            fewest = fewest.min(at(&edits, column).saturating_add(1));
            let before = |text: &[char], place: usize| place.checked_sub(1).and_then(|place| text.get(place).copied());
            if before(a, row) == Some(*other) && before(b, column) == Some(*letter) {
                fewest = fewest.min(at(&before_last, column.saturating_sub(1)).saturating_add(1));
            }
            if let Some(edit) = edits.get_mut(column.saturating_add(1)) {
                *edit = fewest.min(far);
            }
            least = least.min(fewest);
        }
        // A swap looks two rows back.
        if least > most && last.iter().all(|edits| *edits > most) {
            return None;
        }
        // The oldest row is written over next.
        std::mem::swap(&mut before_last, &mut last);
        std::mem::swap(&mut last, &mut edits);
    }
    Some(at(&last, b.len())).filter(|edits| *edits <= most)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(500) })]

        /// An independent library counts them all.
        #[test]
        fn as_many_as_a_library_counts(a in "[abcé]{0,9}", b in "[abcé]{0,9}", most in 0_usize..5) {
            let counted = strsim::osa_distance(&a, &b);
            let [a, b] = [a, b].map(|text| text.chars().collect::<Vec<_>>());
            prop_assert_eq!(edits_within(&a, &b, most), Some(counted).filter(|counted| *counted <= most));
        }
    }
}
