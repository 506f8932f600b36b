//! Every row of `containers.tsv` that gives a size: scoops and ladles exactly, cans by their published figures, and those
//! that are no unit here with the reason.

use parings::measure::{Base, Dimension, Unit, Volumes, published};
use rust_decimal::{Decimal, RoundingStrategy};

use super::{d, rows, size};

const TABLE: &str = include_str!("containers.tsv");

/// A US quart and fluid ounce in ml (units.tsv).
const QUART: &str = "946.352946";
const FLUID_OUNCE: &str = "29.5735295625";
const OUNCE: &str = "28.349523125";

/// Kinds and names that are no unit here, and why.
const NOT_UNITS: &[(&str, &str, &str)] = &[
    ("can", "8 oz", "a can named by its ounces says its weight: packs write 24/8 oz"),
    ("can", "case of No. 10 cans", "how many are in a case is for the pack to say, never to be assumed"),
    ("steam-table pan", "", "one maker's usable capacity, no standard; a kitchen's pans stand in its Measures (Holds)"),
    ("egg (US)", "", "what an egg weighs belongs to the item; these are class minimums for the dozen"),
    ("egg (EU)", "", "what an egg weighs belongs to the item; these are ranges"),
];

struct Row {
    kind: &'static str,
    name: &'static str,
    least: Option<Decimal>,
    most: Option<Decimal>,
    unit: &'static str,
}

fn table() -> Vec<Row> {
    rows(TABLE, 10)
        .into_iter()
        .map(|row| {
            let number = |text: &str| (!text.is_empty()).then(|| d(text));
            Row { kind: row[0], name: row[1], least: number(row[3]), most: number(row[4]), unit: row[5] }
        })
        .collect()
}

fn is_no_unit(row: &Row) -> bool {
    NOT_UNITS.iter().any(|(kind, name, _)| *kind == row.kind && (name.is_empty() || *name == row.name))
}

/// `No. 10` of `No. 10, garbanzo beans`.
fn can_name(name: &str) -> &str {
    name.split(',').next().unwrap()
}

#[test]
fn every_row_is_known_or_has_its_reason() {
    let mut counts = [0; 5];
    for row in table() {
        let slot = match row.kind {
            _ if is_no_unit(&row) => 4,
            "scoop" => 0,
            "ladle" => 1,
            "can" => 2,
            "pack" => 3,
            other => panic!("{other} is neither tested nor listed"),
        };
        counts[slot] += 1;
    }
    // 18 pans, 6 + 4 eggs and two cans have their reasons.
    assert_eq!(counts, [13, 7, 27, 2, 30]);
}

#[test]
fn scoops_hold_32_nths_of_a_fluid_ounce() {
    for row in table().iter().filter(|row| row.kind == "scoop") {
        let number = row.name.strip_prefix("No. ").unwrap().split(' ').next().unwrap();
        for volumes in [Volumes::Us, Volumes::Imperial, Volumes::Metric] {
            for spelling in ["#? scoop", "No. ? disher", "scoop #?", "no ? scoops"] {
                let (base, ml) = size(&spelling.replace('?', number), volumes);
                assert_eq!((base, ml * d(number)), (Base::Millilitre, d(QUART)), "{}", row.name);
            }
        }
        // The table prints 32 ÷ N to four places.
        let ounces = size(&format!("#{number} scoop"), Volumes::Us).1 / d(FLUID_OUNCE);
        assert_eq!(ounces.round_dp_with_strategy(4, RoundingStrategy::MidpointAwayFromZero), row.least.unwrap());
    }
    // 946.352946 ÷ 18 = 52.5751636…: a scoop that the table lacks, to the last of 28 digits.
    assert_eq!(size("#18 scoop", Volumes::Us).1, d("52.575163666666666666666666667"));
}

#[test]
fn ladles_hold_the_fluid_ounces_stamped_on_them() {
    for row in table().iter().filter(|row| row.kind == "ladle") {
        let ounces = row.name.strip_suffix(" oz ladle").unwrap();
        for spelling in ["? oz ladle", "?-oz. ladles", "? fl oz ladle"] {
            let (base, ml) = size(&spelling.replace('?', ounces), Volumes::Metric);
            assert_eq!((base, ml), (Base::Millilitre, d(FLUID_OUNCE) * row.least.unwrap()), "{}", row.name);
        }
    }
}

#[test]
fn packs_of_one_size() {
    // A quarter of 453.59237 g; 75 cl.
    for (name, base, size) in [("butter stick", Base::Gram, "113.3980925"), ("wine bottle", Base::Millilitre, "750")] {
        assert_eq!(super::size(name, Volumes::Us), (base, d(size)));
    }
    let table = table();
    let pack = |name: &str| table.iter().find(|row| row.name == name).and_then(|row| row.least).unwrap();
    assert_eq!(pack("butter stick (US)") * d(OUNCE), d("113.3980925"));
    assert_eq!(pack("wine bottle"), d("750"));
}

/// Every published figure of a size lies within the spread that is told to the cook.
#[test]
fn every_published_can_lies_within_its_spread() {
    for row in table().iter().filter(|row| row.kind == "can" && !is_no_unit(row)) {
        let dimension = if row.unit == "oz wt" { Dimension::Mass } else { Dimension::Volume };
        let unit = Unit::read(can_name(row.name));
        let figure = published(&unit).find(|figure| figure.dimension() == dimension);
        let [least, taken, most] = figure.and_then(|figure| figure.spread()).unwrap_or_else(|| panic!("{}", row.name));
        assert!(least <= taken && taken <= most, "{}", row.name);
        assert!(least <= row.least.unwrap(), "{}", row.name);
        assert!(row.most.or(row.least).unwrap() <= most, "{}", row.name);
    }
}

/// The figures taken, from the table's rows: the can maker's own (6 lb 9 oz is 105 oz, 3 qt is 96 fl oz, 1 pt 10 fl oz is
/// 26), else the only one, else the middle of the range (64 to 72 oz, 10½ to 12 oz); cups at 8 fl oz.
#[test]
fn the_figure_taken_is_the_can_makers() {
    for (can, oz, fl_oz) in [
        ("#10", Some("105"), Some("96")),
        ("A10", Some("105"), Some("96")),
        ("#5 squat", Some("68"), Some("64")),
        ("#5", None, Some("56")),
        ("#3 cylinder", Some("51"), Some("46")),
        ("#3", None, Some("32")),
        ("#2½", Some("29"), Some("26")),
        ("#2", Some("20"), Some("18")),
        ("#303", Some("16"), Some("15")),
        ("#300", Some("14.5"), Some("13.5")),
        ("#1 tall", Some("16"), Some("15")),
        ("#1 picnic", Some("11.25"), Some("10")),
        ("#1", None, Some("10")),
    ] {
        let taken = |wanted| published(&Unit::read(can)).find(|one| one.dimension() == wanted)?.in_base();
        assert_eq!(taken(Dimension::Mass), oz.map(|oz| (Base::Gram, d(oz) * d(OUNCE))), "{can}");
        assert_eq!(taken(Dimension::Volume), fl_oz.map(|oz| (Base::Millilitre, d(oz) * d(FLUID_OUNCE))), "{can}");
    }
}
