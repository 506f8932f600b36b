//! Packs that are refused: what makes each one unclear, and what to write instead.

use crate::number::{Decimal, plain};
use crate::problem::{Code, Fault};

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

/// Whether `n/d` is a fraction that kitchens measure by: halves, thirds, quarters, eighths, below one, in lowest terms.
pub(super) fn is_kitchen_fraction(n: Decimal, d: Decimal) -> bool {
    [(1, 2), (1, 3), (2, 3), (1, 4), (3, 4), (1, 8), (3, 8), (5, 8), (7, 8)]
        .iter()
        .any(|(upper, lower)| Decimal::from(*upper) == n && Decimal::from(*lower) == d)
}

/// Whether no number above one divides both.
pub(super) fn in_lowest_terms(n: u32, d: u32) -> bool {
    let (mut a, mut b) = (n, d);
    while b != 0 {
        (a, b) = (b, a.checked_rem(b).unwrap_or(0));
    }
    a == 1
}

/// Text that follows no known form.
pub(super) fn not_understood(text: &str) -> Fault {
    because(text, "is not a pack")
}

/// [`Code::PackNotUnderstood`] with its reason.
pub(super) fn because(text: &str, reason: &str) -> Fault {
    Fault::new(
        Code::PackNotUnderstood,
        format!("“{text}” {reason}"),
        "Write how many and of what: 50 lb, 6/5 lb, 12 x 750 ml, 24 ct, 30 dz, 88 ct 40 lb, 6/#10 (6 lb 9 oz).",
    )
}

/// A word that is no unit, container or remark.
pub(super) fn unknown_word(text: &str, word: &str) -> Fault {
    because(text, &format!("has “{word}” in it, which is no unit and no container"))
}

/// `24 c`, `2 T`.
pub(super) fn letter(text: &str, letter: &str) -> Fault {
    because(text, &format!("has “{letter}” for a unit, which may be a cup, a spoon, a count or a case: write the word"))
}

/// A number without a unit.
pub(super) fn unit_missing(text: &str, number: Decimal) -> Fault {
    let n = plain(number);
    Fault::new(
        Code::UnitMissing,
        format!("“{text}” does not say {n} of what"),
        format!("Write the unit: {n} lb, {n} ct, or {n}/1 gal."),
    )
}

/// `12 750 ml`.
pub(super) fn two_numbers(text: &str, a: Decimal, b: Decimal) -> Fault {
    let (a, b) = (plain(a), plain(b));
    because(text, &format!("has nothing between {a} and {b}: for {a} of {b} write {a}/{b} and the unit"))
}

/// A count grade.
pub(super) fn grade(text: &str) -> Fault {
    Fault::new(
        Code::PackIsAGrade,
        format!("“{text}” is a count grade: it says how many pieces make a pound, not how much is in the pack"),
        "Write what is in the pack, such as 5 lb or 10/2 lb, and put the grade in the item's name. For packs of so many pieces write 6 x 8 ct.",
    )
}

/// Two numbers and no unit.
pub(super) fn ratio(text: &str) -> Fault {
    Fault::new(
        Code::PackIsARatio,
        format!("“{text}” lacks its unit"),
        "Write the unit of the last number, such as 6/5 lb or 24/12 oz.",
    )
}

/// A fraction that may be n of m; `outer` is what stands before it, such as `4 x `.
pub(super) fn fraction(text: &str, outer: &str, n: Decimal, d: Decimal, unit: &str) -> Fault {
    let decimal = n.checked_div(d).map_or_else(String::new, |value| plain(crate::number::half_up(value, 4)));
    let (n, d) = (plain(n), plain(d));
    Fault::new(
        Code::PackIsAFraction,
        format!("“{text}” may be {n}/{d} of one {unit}, or {n} of {d} {unit}"),
        format!("Write {outer}{decimal} {unit} for the fraction, or {outer}{n} x {d} {unit}."),
    )
}

/// `12 1/2 pt`: twelve and a half, or twelve halves.
pub(super) fn mixed(text: &str, number: Decimal, unit: &str) -> Fault {
    let whole = plain(number.trunc());
    Fault::new(
        Code::PackIsAFraction,
        format!("“{text}” may be {} {unit}, or {whole} of a fraction of one {unit}", plain(number)),
        format!("Write {} {unit}, or {whole}/1/2 {unit} for {whole} halves.", plain(number)),
    )
}

/// Two numbers with a dash.
pub(super) fn dash(text: &str, low: Decimal, high: Decimal) -> Fault {
    let (a, b) = (plain(low), plain(high));
    if low < high {
        Fault::new(
            Code::RangeGiven,
            format!("“{text}” is a range, so the pack has no one weight"),
            format!(
                "If it is billed by weight, write {a}-{b} lb avg and lb under Per; if not, write one weight. For {a} of {b} write {a}/{b}."
            ),
        )
    } else {
        because(text, &format!("has a dash between {a} and {b}: for {a} of {b} write {a}/{b} and the unit"))
    }
}

/// A bushel and nothing else.
pub(super) fn bushel(text: &str) -> Fault {
    Fault::new(
        Code::PackNotUnderstood,
        format!("“{text}” is a bushel without a weight: a bushel weighs something else for every crop"),
        "Write the weight the supplier gives, such as bushel (40 lb) or 40 lb.",
    )
}

/// A count with a small weight behind it.
pub(super) fn whose_weight(text: &str, count: &str, weight: &str) -> Fault {
    because(
        text,
        &format!(
            "may mean that each weighs {weight}, or all of them do: write {count}/{weight} for each, or {count} ct and the weight of all in lb or kg"
        ),
    )
}

/// A bracket that says another total.
pub(super) fn conflict(text: &str, one: &str, other: &str) -> Fault {
    Fault::new(
        Code::PackConflict,
        format!("“{text}” says {one} and {other}"),
        "Keep the one that is right; in brackets belongs the total, or one piece's own.",
    )
}

/// A pack of nothing.
pub(super) fn nothing(text: &str) -> Fault {
    Fault::new(
        Code::NumberOutOfRange,
        format!("“{text}” is a pack of nothing, or of more than can be counted"),
        "Write how much is in it, such as 50 lb.",
    )
}
