//! Sizes, the trade's bare numbers: count grades, kitchen fractions, sizes of cans.
//!
//! Takes numbers as they stand in a pack; says whether they are one of those. Knows no text.

use crate::number::Decimal;

/// Count grades of shellfish and the like: how many pieces make a pound. From memory.
const GRADES: &[(u32, u32)] = &[
    (2, 4),
    (4, 6),
    (6, 8),
    (6, 9),
    (8, 10),
    (8, 12),
    (10, 12),
    (10, 15),
    (10, 20),
    (13, 15),
    (15, 20),
    (16, 20),
    (20, 25),
    (20, 30),
    (21, 25),
    (21, 30),
    (26, 30),
    (30, 40),
    (31, 35),
    (31, 40),
    (36, 40),
    (40, 50),
    (40, 60),
    (41, 50),
    (43, 50),
    (50, 60),
    (51, 60),
    (60, 70),
    (60, 80),
    (61, 70),
    (70, 90),
    (71, 90),
    (80, 100),
    (80, 120),
    (90, 110),
    (91, 110),
    (90, 120),
    (100, 120),
    (100, 150),
    (100, 200),
    (110, 130),
    (130, 150),
    (150, 200),
    (150, 250),
    (200, 300),
    (250, 350),
    (300, 500),
];

/// Whether `a/b ct` is a count grade.
pub(super) fn is_grade(a: Decimal, b: Decimal) -> bool {
    GRADES.iter().any(|(low, high)| Decimal::from(*low) == a && Decimal::from(*high) == b)
}

/// Whether `a/b` is a grade that nobody would write for a pack: 13/15, or one that begins above a round five (16/20,
/// 21/25, 91/110).
pub(super) fn is_surely_grade(a: Decimal, b: Decimal) -> bool {
    let five = Decimal::from(5);
    let begins_above_five = a > Decimal::TEN && a.checked_rem(five) == Some(Decimal::ONE);
    is_grade(a, b) && (begins_above_five || a == Decimal::from(13))
}

/// The numbers that cans go by, most of them US ones (FDA and trade lists of common can sizes; 211 and 404 from memory).
const CANS: &[&str] = &["1", "2", "2-1/2", "3", "5", "10", "211", "300", "303", "404"];

/// Whether a can of this number exists; `2-1/2` or `5 squat` as it stands in a can's name.
pub(super) fn is_can_size(size: &str) -> bool {
    size.split(' ').next().is_some_and(|number| CANS.contains(&number))
}

/// Whether a bare number beside *can* may be its size. One may not: so many of one can are so many cans either way.
pub(super) fn may_be_can_size(number: Decimal) -> bool {
    [(2, 0), (25, 1), (3, 0), (5, 0), (10, 0), (211, 0), (300, 0), (303, 0), (404, 0)]
        .iter()
        .any(|(digits, scale)| Decimal::new(*digits, *scale) == number)
}

/// Whether `n/d` is a fraction that kitchens measure by: halves, thirds, quarters, eighths, below one, in lowest terms.
pub(super) fn is_kitchen_fraction(n: Decimal, d: Decimal) -> bool {
    [(1, 2), (1, 3), (2, 3), (1, 4), (3, 4), (1, 8), (3, 8), (5, 8), (7, 8)]
        .iter()
        .any(|(upper, lower)| Decimal::from(*upper) == n && Decimal::from(*lower) == d)
}

/// Whether `n/d` may be a mixed number that lost its space: `11/2` for `1 1/2`, `21/4`. Nobody packs eleven or 21.
pub(super) fn may_be_mixed(n: Decimal, d: Decimal) -> bool {
    n > Decimal::TEN && n.checked_rem(Decimal::TEN) == Some(Decimal::ONE) && is_kitchen_fraction(Decimal::ONE, d)
}

/// Whether no number above one divides both.
pub(super) fn in_lowest_terms(n: u32, d: u32) -> bool {
    let (mut a, mut b) = (n, d);
    while b != 0 {
        (a, b) = (b, a.checked_rem(b).unwrap_or(0));
    }
    a == 1
}
