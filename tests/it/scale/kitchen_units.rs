//! Kitchen units: amounts as a cook would write them, each worked by hand, and what holds for all of them.

use parings::measure::{
    Measured, QuantityText, Rounding, Unit, Volumes, compound_in_base, in_kitchen_units, parse_quantity,
};
use parings::number::Marks;
use proptest::prelude::*;
use rust_decimal::Decimal;

use crate::support::chance;

const TABLE: &str = include_str!("kitchen_units.tsv");

fn volumes(text: &str) -> Volumes {
    Volumes::parse(text).unwrap()
}

fn words(amount: &str, unit: &str, typed: &str, of: &str, rounding: Rounding) -> String {
    let measured = Measured::new(amount.parse().unwrap(), Unit::read(unit));
    let told = in_kitchen_units(&measured, typed.parse().unwrap(), rounding, volumes(of)).unwrap();
    if told.is_too_little { format!("{} {unit} *", told.parts[0].written) } else { told.words() }
}

#[test]
fn amounts_read_as_a_cook_would_write_them() {
    let rows: Vec<Vec<&str>> =
        TABLE.lines().filter(|line| !line.starts_with('#')).map(|line| line.split('\t').collect()).collect();
    assert!(rows.len() >= 80, "{}", rows.len());
    let mut wrong = Vec::new();
    for row in rows {
        let [amount, unit, typed, of, expected, why] = row[..] else { panic!("{row:?}") };
        let told = words(amount, unit, typed, of, Rounding::Nearest);
        if told != expected {
            wrong.push(format!("{amount} {unit} ({of}): {told}, not {expected}: {why}"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn what_there_is_no_more_of_is_never_rounded_up() {
    for (amount, unit, expected) in [
        // 21.64 oz are 86.56 quarters: 86 of them, and not 87.
        ("21.64", "oz", "1 lb 5 1/2 oz"),
        // 1.3 cups: 1 1/4, and 0.05 cup is 2.4 tsp. The nearest is 1 1/3, which is more.
        ("1.3", "cup", "1 1/4 cups 2 tsp"),
        // 7.9 pieces are 7 whole ones.
        ("7.9", "each", "7"),
        // A third as a decimal, three times over, is one.
        ("0.9999999999999999999999999999", "lb", "1 lb"),
        ("128", "g", "125 g"),
    ] {
        assert_eq!(words(amount, unit, "1", "US", Rounding::Down), expected, "{amount} {unit}");
    }
}

/// The base units of a text such as `1 qt 1 1/3 cups`, read as any cell of a book is.
fn read_back(text: &str, of: Volumes) -> Decimal {
    let size = |one: &Measured| one.in_base(of).unwrap().map_or(one.amount, |(_, base)| base);
    match parse_quantity(text, Marks::PointDecimal).unwrap_or_else(|fault| panic!("{text}: {fault:?}")) {
        QuantityText::Number(number) => number,
        QuantityText::Measured(one) => size(&one),
        QuantityText::Compound(parts) => compound_in_base(&parts, of).unwrap().unwrap().1,
        QuantityText::Unmeasured(words) => panic!("{text}: {words}"),
    }
}

const UNITS: [&str; 24] = [
    "tsp",
    "tbsp",
    "cup",
    "fl oz",
    "pt",
    "qt",
    "gal",
    "g",
    "kg",
    "mg",
    "ml",
    "cl",
    "dl",
    "l",
    "oz",
    "lb",
    "each",
    "dozen",
    "bunch",
    "#10 can",
    "#16 scoop",
    "bushel",
    "imperial pt",
    "portion",
];

proptest! {
    #![proptest_config(chance(400))]

    /// What is shown reads back as what it is said to come to; it lies near what was asked for, and below it where there is no
    /// more.
    #[test]
    fn what_is_shown_converts_back(
        mantissa in 1i64..2_000_000,
        scale in 0u32..5,
        unit in prop::sample::select(UNITS.to_vec()),
        of in prop::sample::select(vec![Volumes::Us, Volumes::Imperial, Volumes::Metric]),
        down in any::<bool>(),
    ) {
        let amount = Measured::new(Decimal::new(mantissa, scale).normalize(), Unit::read(unit));
        let rounding = if down { Rounding::Down } else { Rounding::Nearest };
        let told = in_kitchen_units(&amount, Decimal::ONE, rounding, of).unwrap();
        let asked = amount.in_base(of).unwrap().map_or(amount.amount, |(_, base)| base);
        let said = told.in_base(of).unwrap();
        let apart = (said - asked).abs();
        let noise = Decimal::new(1, 15) * asked.max(Decimal::ONE);
        if told.is_too_little {
            prop_assert!(said <= asked && told.parts.len() == 1);
            return Ok(());
        }
        prop_assert!((read_back(&told.words(), of) - said).abs() <= noise, "{} is {said}", told.words());
        prop_assert!(!down || said <= asked + noise, "{} for {amount}", told.words());
        // At the worst half of the smallest spoon, the eighth of an ounce, the quarter of a thing, or one of many.
        let counted = amount.unit.is_count_like() || unit.contains("scoop");
        let is_one_at_most = counted && !unit.contains("scoop") && asked >= Decimal::ONE;
        let bound = if is_one_at_most { Decimal::ONE } else { asked };
        prop_assert!(apart <= bound, "{} for {amount}", told.words());
        let is_enough = !counted && unit != "bushel" && asked >= Decimal::from(120);
        let times = Decimal::from(if down { 10 } else { 20 });
        prop_assert!(!is_enough || apart * times <= asked, "{} for {amount}", told.words());
        prop_assert!(told.parts.len() <= 2 && told.parts.iter().all(|part| !part.measured.amount.is_zero()));
    }
}
