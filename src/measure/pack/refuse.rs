//! Packs that are refused: what makes each one unclear, and what to write instead.

use crate::measure::did_you_mean;
use crate::number::{Decimal, plain};
use crate::problem::{Code, Fault};

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
    let fault = because(text, &format!("has “{word}” in it, which is no unit and no container"));
    let help = format!("{}{}", did_you_mean(word), fault.help);
    Fault { help: help.into(), ..fault }
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
    Fault::new(
        Code::PackNotUnderstood,
        format!("“{text}” has nothing between {a} and {b}"),
        format!("For {a} of {b} write {a}/{b} and the unit; for one number leave out the space."),
    )
}

/// `88s`: a size of fruit.
pub(super) fn fruit_size(text: &str) -> Fault {
    Fault::new(
        Code::PackIsAGrade,
        format!("“{text}” is a size: so many of them fill a full box, and not every pack is one"),
        "Write how many are in the pack, such as 88 ct or 88 ct 40 lb, and put the size in the item's name.",
    )
}

/// `6-May`: what a spreadsheet made of `6/5` or `5/6`, kept as text.
pub(super) fn date(text: &str, day: u32, month: u32) -> Fault {
    let typed = if day == month { format!("{month}/{day}") } else { format!("{month}/{day} or {day}/{month}") };
    Fault::new(
        Code::PackIsADate,
        format!("“{text}” is a date; {typed} was probably typed and a spreadsheet made a date of it"),
        format!("Type it again with its unit, such as {month}/{day} lb: the spreadsheet leaves that alone."),
    )
}

/// `6/10 cans`, `6/10# cans`.
pub(super) fn numbered_can(text: &str, outer: Option<Decimal>, size: Decimal, with_sign: bool) -> Fault {
    let all = outer.and_then(|count| count.checked_mul(size)).map_or_else(String::new, |all| plain(all.normalize()));
    let size = if size == Decimal::new(25, 1) { "2-1/2".to_owned() } else { plain(size) };
    let outer = outer.map_or_else(String::new, |count| format!("{}/", plain(count)));
    let (other, instead) = if with_sign {
        (format!("cans of {size} lb"), format!("{outer}{size} lb cans"))
    } else {
        (format!("{all} cans"), format!("{all} cans"))
    };
    Fault::new(
        Code::PackNotUnderstood,
        format!("“{text}” may be No. {size} cans, or {other}"),
        format!("Write {outer}#{size} for the can's number, or {instead}."),
    )
}

/// `#50`.
pub(super) fn no_such_can(text: &str, size: &str) -> Fault {
    Fault::new(
        Code::PackNotUnderstood,
        format!("“{text}” has #{size} in it, and there is no can of that number"),
        format!("For pounds write the sign behind the number, {size}#, or {size} lb."),
    )
}

/// `No. 1 50 lb`.
pub(super) fn grade_not_can(text: &str, can: &str, content: &str) -> Fault {
    Fault::new(
        Code::PackNotUnderstood,
        format!("“{text}” would be {content} in a {can}, which no can holds"),
        format!("If it is a grade, put it in the item's name and write {content}."),
    )
}

/// `6/#10 (drained 4 lb 2 oz)`.
pub(super) fn drained(text: &str) -> Fault {
    Fault::new(
        Code::PackNotUnderstood,
        format!("“{text}” gives a drained weight, and what is bought is the full can"),
        "Write the can alone, such as 6/#10, and the drained weight as a row in Measures: #10 can, 4 lb 2 oz, EP.",
    )
}

/// `50 lb gross`.
pub(super) fn gross(text: &str) -> Fault {
    Fault::new(
        Code::PackNotUnderstood,
        format!("“{text}” may be a weight with its packing, or a gross of pieces"),
        "Write the net weight, such as 50 lb, or 1 gross for twelve dozen.",
    )
}

/// A count grade.
pub(super) fn grade(text: &str) -> Fault {
    Fault::new(
        Code::PackIsAGrade,
        format!("“{text}” is a count grade: it says how many pieces make a pound, not how much is in the pack"),
        "Write what is in the pack, such as 5 lb or 10/2 lb, and put the grade in the item's name. For packs of so many pieces write 6 x 8 ct.",
    )
}

/// Numbers and no unit; some of them are count grades too.
pub(super) fn ratio(text: &str, factors: &[Decimal], may_be_grade: bool) -> Fault {
    let (or, then) =
        if may_be_grade { (", or is a count grade", " A grade belongs in the item's name.") } else { ("", "") };
    let such_as = packs_of(factors).unwrap_or_else(|| "6/5 lb if it is 6 packs of 5 lb".to_owned());
    Fault::new(
        Code::PackIsARatio,
        format!("“{text}” lacks its unit{or}"),
        format!("Write the unit of the last number, such as {such_as}.{then}"),
    )
}

/// `6/5 lb if it is 6 packs of 5 lb`, with the unit that packs of such a number mostly have (common practice, no source).
fn packs_of(factors: &[Decimal]) -> Option<String> {
    let (last, before) = factors.split_last()?;
    let unit = match last {
        last if *last <= Decimal::TEN => "lb",
        last if *last < Decimal::ONE_HUNDRED => "oz",
        _ => "ml",
    };
    // A slash before halves, thirds, quarters and eighths may be a fraction's.
    let fractions = [2, 3, 4, 8].map(Decimal::from);
    let joint = if factors.len() > 2 || fractions.contains(last) { " x " } else { "/" };
    let all: Vec<String> = factors.iter().map(|number| plain(*number)).collect();
    let outer: Vec<String> = before.iter().map(|number| plain(*number)).collect();
    let packs = if before == [Decimal::ONE] { "pack" } else { "packs" };
    Some(format!("{} {unit} if it is {} {packs} of {} {unit}", all.join(joint), outer.join(" x "), plain(*last)))
}

/// `6/5 case`, `4/6 pk`.
pub(super) fn ratio_of(text: &str, outer: &str) -> Fault {
    Fault::new(
        Code::PackIsARatio,
        format!("“{text}” does not say what the {outer} holds so many of"),
        "Write the unit of the last number, such as 6/5 lb, 24/12 oz or 4 x 6 ct.",
    )
}

/// A fraction that may be n of m; `outer` is what stands before it, such as `4 x `.
pub(super) fn fraction(text: &str, outer: &str, n: Decimal, d: Decimal, unit: &str) -> Fault {
    if unit == "bushel" {
        // However much of one: without its weight it says nothing.
        return Fault::new(
            Code::PackIsAFraction,
            format!("“{text}” is a part of a bushel, or several, without a weight"),
            "Write the weight the supplier gives, such as 20 lb.",
        );
    }
    let decimal = n.checked_div(d).map_or_else(String::new, |value| plain(crate::number::half_up(value, 4)));
    let (n, d) = (plain(n), plain(d));
    Fault::new(
        Code::PackIsAFraction,
        format!("“{text}” may be {n}/{d} of one {unit}, or {n} of {d} {unit}"),
        format!("Write {outer}{decimal} {unit} for the fraction, or {outer}{n} x {d} {unit}."),
    )
}

/// `11/2 gal`: one and a half that lost its space, or eleven.
pub(super) fn unparted(text: &str, n: Decimal, d: Decimal, unit: &str) -> Fault {
    let whole = n.checked_div(Decimal::TEN).map_or(Decimal::ZERO, |tenth| tenth.trunc());
    let part = Decimal::ONE.checked_div(d).unwrap_or(Decimal::ONE);
    let mixed = whole.checked_add(part).map_or_else(String::new, |mixed| plain(crate::number::half_up(mixed, 4)));
    let (n, d, whole) = (plain(n), plain(d), plain(whole));
    Fault::new(
        Code::PackIsAFraction,
        format!("“{text}” may be {whole} 1/{d} {unit} without its space, or {n} of {d} {unit}"),
        format!("Write {mixed} {unit} for the fraction, or {n} x {d} {unit}."),
    )
}

/// `1⁄22 lb`.
pub(super) fn fraction_sign(text: &str) -> Fault {
    Fault::new(
        Code::PackIsAFraction,
        format!("“{text}” has a fraction sign where so many of a size would have a slash"),
        "Write a plain slash or x for so many of a size, such as 6/5 lb, or a decimal for a fraction, such as 1.5 lb.",
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
pub(super) fn dash(text: &str, low: Decimal, high: Decimal, unit: &str) -> Fault {
    let (a, b) = (plain(low), plain(high));
    if low < high {
        Fault::new(
            Code::RangeGiven,
            format!("“{text}” is a range, so the pack has no one weight"),
            format!(
                "If it is billed by weight, write {a}-{b} {unit} avg and {unit} under Per; if not, write one weight. For {a} of {b} write {a}/{b}."
            ),
        )
    } else {
        Fault::new(
            Code::PackNotUnderstood,
            format!("“{text}” has a dash between {a} and {b}, which is no range"),
            format!("For {a} of {b} write {a}/{b} {unit}."),
        )
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

/// A count and a weight that may be one piece's.
pub(super) fn whose_weight(text: &str, count: &str, weight: &str) -> Fault {
    Fault::new(
        Code::PackNotUnderstood,
        format!("“{text}” may mean that each weighs or holds {weight}, or all of them do"),
        format!("Write {count} ct {weight} each, or {count} ct {weight} in all."),
    )
}

/// `6/5 lb 88 ct`.
pub(super) fn one_or_all(text: &str, added: &str) -> Fault {
    because(text, &format!("does not say whether {added} is in one of several or in all of them"))
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
