//! Quantities and money as typed, against a table worked by hand: read exactly, or refused for the right reason.

use parings::measure::{
    Base, Measured, MoneyText, QuantityText, Volumes, compound_in_base, parse_money, parse_quantity, parse_several,
};
use parings::number::{Decimal, Marks, plain};
use parings::problem::Fault;
use proptest::prelude::*;

use crate::support::{chance, tsv};

/// A quantity as the table says it: `38 lb + 12 oz`.
fn said(quantity: &QuantityText) -> String {
    match quantity {
        QuantityText::Number(number) => plain(*number),
        QuantityText::Measured(one) => one.to_string(),
        QuantityText::Compound(parts) => parts.iter().map(Measured::to_string).collect::<Vec<_>>().join(" + "),
        QuantityText::Unmeasured(name) => format!("none: {name}").trim_end().to_owned(),
    }
}

/// In g, ml or pieces; nothing for what has no size.
pub fn base(quantity: &QuantityText) -> Option<(Base, Decimal)> {
    match quantity {
        QuantityText::Measured(one) => one.in_base(Volumes::Us).unwrap(),
        QuantityText::Compound(parts) => compound_in_base(parts, Volumes::Us).unwrap(),
        QuantityText::Number(_) | QuantityText::Unmeasured(_) => None,
    }
}

/// Money as the table says it: `0.45 $ per kg`.
fn money(read: MoneyText) -> String {
    let per = read.per.map(|unit| format!("per {unit}"));
    [Some(plain(read.amount)), read.sign, per].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// What the text is and its size, or the code of its problem.
fn read(kind: &str, text: &str) -> (String, Option<(Base, Decimal)>) {
    let quantity = |marks| parse_quantity(text, marks).map(|one| (said(&one), base(&one)));
    let read: Result<_, Fault> = match kind {
        "quantity" => quantity(Marks::Unknown),
        "quantity, comma" => quantity(Marks::CommaDecimal),
        "quantity, point" => quantity(Marks::PointDecimal),
        "several" => parse_several(text, Marks::Unknown).map(|all| {
            let size = if let [one] = all.as_slice() { base(one) } else { None };
            (all.iter().map(said).collect::<Vec<_>>().join(" | "), size)
        }),
        "money" => parse_money(text, Marks::Unknown).map(|read| (money(read), None)),
        other => panic!("no kind {other}"),
    };
    read.unwrap_or_else(|fault| (fault.code.name().to_owned(), None))
}

#[test]
fn quantities_are_what_the_table_says() {
    let rows = tsv(include_str!("quantities.tsv"));
    assert!(rows.len() >= 150, "{}", rows.len());
    let wrong: Vec<String> = rows
        .iter()
        .filter_map(|row| {
            let [kind, text, what, size, why] = row.as_slice() else { panic!("{row:?}") };
            let (found, base) = read(kind, text);
            let base = base.map_or_else(|| "-".to_owned(), |(base, size)| format!("{} {base}", plain(size)));
            let fine = found == *what && (*size == "-" || base == *size);
            (!fine).then(|| format!("{kind} {text}: {what} ({size}; {why}), found {found} ({base})"))
        })
        .collect();
    assert!(wrong.is_empty(), "{}\n{}", wrong.len(), wrong.join("\n"));
}

/// Texts that a careful cook would ask about. They never give an amount.
pub const UNCLEAR_QUANTITIES: &[&str] = &[
    "3-4",
    "3–4 lb",
    "3 to 4",
    "3 or 4 lb",
    "3~4 cups",
    "3 lb - 4 lb",
    "1/2-3/4 cup",
    "1-1 1/2 cups",
    "1 - 1/2 cup",
    "1,234",
    "1.234",
    "1,234 g",
    "11/2 cups",
    "11⁄2 cups",
    "6/5 lb",
    "6/5",
    "1 28 oz can",
    "2 400 g tins",
    "2 (28 oz) cans",
    "2 x 400 g",
    "6-May",
    "1/2/2026",
    "1 bu",
    "38 lb 12",
    "12 oz 38 lb",
    "2 lb+",
    "2 lb or so 3",
    "about 2 lb",
    "3 qt, 2.9 kg",
    "-3 lb",
    "2%",
    "some",
    "1 3/2 cups",
    "1,2,3",
];

#[test]
fn unclear_quantities_are_refused() {
    for text in UNCLEAR_QUANTITIES {
        let read = parse_quantity(text, Marks::Unknown).map(|quantity| said(&quantity));
        assert!(read.is_err(), "{text}: {read:?}");
    }
}

/// Asserts that `text` is read as `what`.
fn is(kind: &str, text: &str, what: &str) -> Result<(), TestCaseError> {
    let (found, _) = read(kind, text);
    prop_assert_eq!(found, what, "{}", text);
    Ok(())
}

/// `digits` with `mark` between its thousands.
fn parted(digits: u64, mark: char) -> String {
    let plain = digits.to_string();
    let mut out = String::new();
    for (at, digit) in plain.chars().enumerate() {
        if at > 0 && (plain.len() - at).is_multiple_of(3) {
            out.push(mark);
        }
        out.push(digit);
    }
    out
}

proptest! {
    #![proptest_config(chance(400))]

    #[test]
    fn a_number_reads_back_in_every_way_to_write_it(whole in 0u64..=9_999_999, cents in 0u32..=99) {
        let number = Decimal::from(whole) + Decimal::new(i64::from(cents), 2);
        let what = plain(number);
        for (thousands, mark) in [(',', '.'), ('.', ','), (' ', '.'), (' ', ','), ('\u{202f}', ','), ('\'', '.'), ('’', ',')] {
            let text = format!("{}{mark}{cents:02}", parted(whole, thousands));
            is("quantity", &text, &what)?;
            is("quantity", &format!("{text} kg"), &format!("{what} kg"))?;
            is("money", &format!("£{text}"), &format!("{what} £"))?;
            is("money", &format!("({text}) €"), &if number.is_zero() { "0 €".to_owned() } else { format!("-{what} €") })?;
            is("money", &format!("$ {text} / lb"), &format!("{what} $ per lb"))?;
        }
        if (1_000..1_000_000).contains(&whole) {
            for mark in [',', '.'] {
                is("quantity", &parted(whole, mark), "number-ambiguous")?;
                is("quantity", &format!("{} g", parted(whole, mark)), "number-ambiguous")?;
            }
            is("quantity, point", &parted(whole, ','), &whole.to_string())?;
            is("quantity, comma", &parted(whole, '.'), &whole.to_string())?;
        }
    }

    #[test]
    fn fractions_read_back(whole in 1u32..=500, seed in 0u32..=6_000, binary in 1u32..=6) {
        // Halves down to sixty-fourths: decimals hold them exactly.
        let lower = 2u32.pow(binary);
        let upper = 1 + seed % (lower - 1);
        let part = Decimal::from(upper) / Decimal::from(lower);
        let (part, sum) = (plain(part), plain(Decimal::from(whole) + part));
        for slash in ['/', '⁄', '∕'] {
            is("quantity", &format!("{upper}{slash}{lower}"), &part)?;
            is("quantity", &format!("{upper}{slash}{lower} cup"), &format!("{part} cup"))?;
            for joint in [" ", "-", " & ", " and ", "+", "\u{a0}"] {
                is("quantity", &format!("{whole}{joint}{upper}{slash}{lower}"), &sum)?;
                is("quantity", &format!("{whole}{joint}{upper}{slash}{lower} lb"), &format!("{sum} lb"))?;
            }
        }
        is("quantity", &format!("{whole} - {upper}/{lower}"), "range-given")?;
        is("quantity", &format!("{whole} to {} {upper}/{lower} lb", whole + 1), "range-given")?;
    }

    #[test]
    fn several_units_add_up_exactly(lb in 1u32..=500, oz in 1u32..=15, kg in 1u32..=50, g in 1u32..=999) {
        // An ounce is 28.349523125 g, a pound sixteen of them.
        let grams = Decimal::from(lb * 16 + oz) * Decimal::new(28_349_523_125, 9);
        for text in [
            format!("{lb} lb {oz} oz"), format!("{lb}lb{oz}oz"), format!("{lb} lb, {oz} oz"), format!("{lb}# {oz} oz."),
            format!("{lb} lbs. and {oz} ozs."), format!("{lb} pounds plus {oz} ounces"), format!("{lb} LB + {oz} OZ"),
        ] {
            let (said, size) = read("quantity", &text);
            prop_assert_eq!(said, format!("{lb} lb + {oz} oz"), "{}", text);
            prop_assert_eq!(size, Some((Base::Gram, grams)), "{}", text);
        }
        let metric = read("quantity", &format!("{kg} kg {g} g")).1;
        prop_assert_eq!(metric, Some((Base::Gram, Decimal::from(kg * 1000 + g))));
        is("quantity", &format!("{oz} oz {lb} lb"), "not-a-number")?;
        is("several", &format!("{lb} each, {kg} kg {g} g"), &format!("{lb} each | {kg} kg + {g} g"))?;
        is("several", &format!("{kg} l ({g} g)"), &format!("{kg} l | {g} g"))?;
    }

    #[test]
    fn a_range_is_never_a_number(low in 1u32..=99, more in 1u32..=99, unit in "( ?(lb|cups|g|each|bunches))?") {
        let high = low + more;
        for joint in ["-", "–", "—", " - ", " to ", " or ", "~"] {
            is("quantity", &format!("{low}{joint}{high}{unit}"), "range-given")?;
            if joint.starts_with(' ') && !unit.is_empty() {
                is("quantity", &format!("{low}{unit}{joint}{high}{unit}"), "range-given")?;
            }
        }
    }
}
