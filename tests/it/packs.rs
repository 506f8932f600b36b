//! Packs as price lists write them, against a table worked by hand: understood exactly, or refused for the right reason.

use parings::measure::{Measured, Pack, Volumes, parse_pack};
use parings::number::{Decimal, Marks, plain};
use proptest::prelude::*;

use crate::support::{chance, tsv};

/// What a pack holds, as the table says it: `nominal 6 bag, 30 lb in 6`.
pub fn said(pack: &Pack) -> String {
    let amounts: Vec<String> = [&pack.pieces, &pack.content].into_iter().flatten().map(Measured::to_string).collect();
    let words = [
        pack.nominal.then(|| "nominal".to_owned()),
        Some(amounts.join(", ")).filter(|text| !text.is_empty()),
        pack.containers.map(|count| format!("in {}", plain(count))),
    ];
    words.into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// The weight or volume, else the pieces, in g, ml or pieces; `-` for what has no size.
fn base(pack: &Pack) -> String {
    let amount = pack.content.as_ref().or(pack.pieces.as_ref());
    match amount.map(|amount| amount.in_base(Volumes::Us).unwrap()) {
        Some(Some((base, size))) => format!("{} {base}", plain(size)),
        _ => "-".to_owned(),
    }
}

fn read(text: &str) -> (String, String) {
    match parse_pack(text, Marks::Unknown) {
        Ok(pack) => (said(&pack), base(&pack)),
        Err(fault) => (fault.code.name().to_owned(), "-".to_owned()),
    }
}

#[test]
fn packs_are_what_the_table_says() {
    let rows = tsv(include_str!("packs.tsv"));
    assert!(rows.len() >= 150, "{}", rows.len());
    let wrong: Vec<String> = rows
        .iter()
        .filter_map(|row| {
            let [text, what, size, why] = row.as_slice() else { panic!("{row:?}") };
            let (found, base) = read(text);
            let fine = found == *what && (*size == "-" || base == *size);
            (!fine).then(|| format!("{text}: {what} ({size}; {why}), found {found} ({base})"))
        })
        .collect();
    assert!(wrong.is_empty(), "{}\n{}", wrong.len(), wrong.join("\n"));
}

/// Whatever the numbers, what the help says to write is read, and as it says.
#[test]
fn what_a_bare_ratio_may_be_is_read_so() {
    let mut told = 0;
    for a in 1..=64 {
        for b in (1..=64).chain([400, 750]) {
            let texts = [format!("{a}/{b}"), format!("{a} x {b}"), format!("{a}/{b}/6")];
            for (text, all) in texts.into_iter().zip([a * b, a * b, a * b * 6]) {
                let Err(fault) = parse_pack(&text, Marks::Unknown) else { continue };
                if fault.code.name() != "pack-is-a-ratio" {
                    continue;
                }
                let said = fault.help.split_once("such as ").and_then(|(_, rest)| rest.split_once(" if it is "));
                let (write, _) = said.unwrap_or_else(|| panic!("{text}: {}", fault.help));
                let pack = parse_pack(write, Marks::Unknown).unwrap_or_else(|_| panic!("{text}: {}", fault.help));
                assert_eq!(pack.content.unwrap().amount, Decimal::from(all), "{text}: {write}");
                told += 1;
            }
        }
    }
    assert!(told > 5_000, "{told}");
    let help = |text| parse_pack(text, Marks::Unknown).unwrap_err().help;
    assert_eq!(help("24/12"), "Write the unit of the last number, such as 24/12 oz if it is 24 packs of 12 oz.");
    assert_eq!(help("4/6/8"), "Write the unit of the last number, such as 4 x 6 x 8 lb if it is 4 x 6 packs of 8 lb.");
}

/// Texts that a careful cook would ask about. They never give an amount.
pub const UNCLEAR_PACKS: &[&str] = &[
    "6/5",
    "6 x 5",
    "4/6/8",
    "24",
    "2.5",
    "16/20",
    "16-20",
    "16/20 ct",
    "16-20 ct",
    "21/25 5 lb",
    "5 lb 16/20",
    "U-10",
    "u/12 2 lb",
    "88s",
    "1/2 gal",
    "1⁄2 gal",
    "3/4 lb",
    "1/3 qt",
    "5/8 lb",
    "1/2 case",
    "1/2 gal jug",
    "4/3/4 lb",
    "12 1/2 pt",
    "12 ½ pt",
    "3-4",
    "3-4 lb",
    "3 to 4 lb",
    "10-12 lb",
    "2/10-12 lb",
    "1,234",
    "1.234",
    "1,234 lb",
    "1.250 kg",
    "1 000 g",
    "12 750 ml",
    "6/5 case",
    "4/6 pk",
    "24 ct 8 oz",
    "12 ct 3 lb",
    "24 ct 1 lb",
    "1 dz 8 oz",
    "6 ea 5 lb",
    "2 bags 5 lb",
    "6/5 lb 88 ct",
    "4/10 ct 20 lb",
    "6/10 cans",
    "24/303 can",
    "6/10# cans",
    "#50",
    "No. 1 50 lb",
    "bushel",
    "1 bu",
    "24 C",
    "2 T",
    "6-5 lb",
    "6-May",
    "6/5/2026",
    "50 lb gross",
    "24/can",
    "24/lb",
    "12 per dozen",
    "6/5 lb (28 lb)",
    "4/1 gal (34 lb)",
    "6/#10 (drained 70 oz)",
    "2 cs (24 ct)",
    "1 lb 16 oz",
    "12/32 jug",
    "12 x 750 bottles",
    "case of 24 x 330",
    "case/6/5",
    "40 lb 6 bags",
    "11/2 gal",
    "11⁄2 gal",
    "6/21/2 lb",
    "kg case",
    "1 pinch",
];

#[test]
fn unclear_packs_are_refused() {
    for text in UNCLEAR_PACKS {
        let read = parse_pack(text, Marks::Unknown).map(|pack| said(&pack));
        assert!(read.is_err(), "{text}: {read:?}");
    }
}

/// The cells of the table below the comment `mark` in the grammar, without its header.
fn forms(mark: &str) -> Vec<Vec<&'static str>> {
    let grammar = include_str!("../../src/measure/pack/grammar.md");
    let (_, below) = grammar.split_once(&format!("<!-- {mark} -->\n\n")).expect("the table is there");
    let rows = below.lines().take_while(|line| line.starts_with('|')).skip(2);
    rows.map(|line| line.trim_matches('|').split('|').map(str::trim).collect()).collect()
}

#[test]
fn every_form_of_the_grammar_is_what_it_says() {
    for row in forms("forms") {
        let [form, example, what] = row.as_slice() else { panic!("{row:?}") };
        assert_eq!(read(example).0, *what, "{form}");
    }
    for row in forms("forms refused") {
        let [text, code, why, instead] = row.as_slice() else { panic!("{row:?}") };
        assert_eq!(read(text).0, *code, "{text}: {why}");
        assert!(parse_pack(instead, Marks::Unknown).is_ok(), "{instead}");
    }
    assert!(forms("forms").len() > 40 && forms("forms refused").len() > 20);
}

/// Units as they are written and as they are named; the size that the catalogue gives them plays no part here.
const UNITS: &[(&str, &str)] = &[
    ("lb", "lb"),
    ("LB", "lb"),
    ("lbs.", "lb"),
    ("#", "lb"),
    ("oz", "oz"),
    ("kg", "kg"),
    ("KG", "kg"),
    ("g", "g"),
    ("ml", "ml"),
    ("L", "l"),
    ("ltr", "l"),
    ("cl", "cl"),
    ("gal", "gal"),
    ("qt", "qt"),
    ("fl oz", "fl oz"),
];

/// A positive size of at most two decimals: three behind one mark would be a matter of the column.
fn size() -> impl Strategy<Value = Decimal> {
    (1i64..=99_999, 0u32..=2).prop_map(|(digits, scale)| Decimal::new(digits, scale).normalize())
}

/// Whether `n/size` is a form with a meaning of its own, or none: a kitchen fraction, or 11/2.
fn is_fraction(n: Decimal, size: Decimal) -> bool {
    let lower = [2, 3, 4, 8].iter().any(|lower| Decimal::from(*lower) == size);
    lower && (n < size || n % Decimal::TEN == Decimal::ONE)
}

/// Asserts that `text` is read as `what`.
fn is(text: &str, what: &str) -> Result<(), TestCaseError> {
    let (found, _) = read(text);
    prop_assert_eq!(found, what, "{}", text);
    Ok(())
}

proptest! {
    #![proptest_config(chance(400))]

    #[test]
    fn so_many_of_a_size_is_their_product(n in 1u32..=999, size in size(), unit in proptest::sample::select(UNITS)) {
        let (n, (u, name)) = (Decimal::from(n), unit);
        let (all, s) = (plain(n * size), plain(size));
        let what = format!("{all} {name} in {n}");
        for text in [
            format!("{n} x {s} {u}"), format!("{n}X{s}{u}"), format!("{n} × {s} {u}"), format!("{n}*{s}{u}"),
            format!("{n} of {s} {u}"), format!("{s} {u} x {n}"), format!("case of {n} x {s} {u}"),
            format!("{n} x {s} {u} ({all} {u})"), format!("{n} x {s} {u} ({s} {u})"), format!("({n} x {s} {u})"),
            format!("1 cs ({n} x {s} {u})"), format!("{n} x {s} {u} net wt"), format!("{n} x {s} {u} each"),
        ] {
            is(&text, &what)?;
        }
        is(&format!("{n} x {s} {u} avg"), &format!("nominal {what}"))?;
        is(&format!("{n} x {s} {u} bottles"), &format!("{n} bottle, {what}"))?;
        is(&format!("{s} {u} bag"), &format!("1 bag, {s} {name}"))?;
        is(&format!("{s} {u}"), &format!("{s} {name}"))?;
        is(&format!("{n} ct {s} {u} each"), &format!("{n} each, {all} {name}"))?;
        is(&format!("{n} ct {s} {u} in all"), &format!("{n} each, {s} {name}"))?;
        for text in [format!("{n}/{s} {u}"), format!("CS {n}/{s}{u}"), format!("( {n} / {s} {u} )")] {
            if is_fraction(n, size) { is(&text, "pack-is-a-fraction")? } else { is(&text, &what)? }
        }
    }

    #[test]
    fn fractions_are_taken_with_their_whole_number(n in 1u32..=40, whole in 1u32..=5, eighths in 1u32..=7) {
        // So many eighths in lowest terms: 2/8 is 1/4.
        let (mut upper, mut lower) = (eighths, 8);
        while upper % 2 == 0 { (upper, lower) = (upper / 2, lower / 2); }
        let size = Decimal::from(whole) + Decimal::from(eighths) / Decimal::from(8);
        let all = plain(Decimal::from(n) * size);
        for part in [format!("{whole} {upper}/{lower}"), format!("{whole}-{upper}/{lower}")] {
            is(&format!("{part} lb"), &format!("{} lb", plain(size)))?;
            is(&format!("{n}/{part} lb"), &format!("{all} lb in {n}"))?;
            is(&format!("{n} x {part} kg"), &format!("{all} kg in {n}"))?;
        }
        is(&format!("{upper}/{lower} gal"), "pack-is-a-fraction")?;
        // Halves, and nothing finer, are packed by the jug: so many halves.
        is(&format!("{n}/1/2 gal"), &format!("{} gal in {n}", plain(Decimal::from(n) / Decimal::TWO)))?;
    }

    #[test]
    fn pounds_and_ounces_add_up(n in 1u32..=60, lb in 1u32..=9, oz in 1u32..=15) {
        // An ounce is a sixteenth of a pound: 0.0625.
        let one = Decimal::from(lb) + Decimal::from(oz) * Decimal::new(625, 4);
        let (all, one) = (plain(one * Decimal::from(n)), plain(one));
        is(&format!("{lb} lb {oz} oz"), &format!("{one} lb"))?;
        is(&format!("{n} x {lb} lb {oz} oz"), &format!("{all} lb in {n}"))?;
        for size in ["10", "5", "303", "2-1/2"] {
            let what = format!("{n} #{size} can, {all} lb");
            is(&format!("{n}/#{size} ({lb} lb {oz} oz)"), &what)?;
            is(&format!("{n} x No. {size} cans {lb}lb {oz}oz"), &what)?;
            is(&format!("{n}/#{size}"), &format!("{n} #{size} can"))?;
        }
    }

    #[test]
    fn nested_packs_are_multiplied_through(a in 2u32..=60, b in 4u32..=60, c in 2u32..=60) {
        let (ab, all) = (a * b, a * b * c);
        is(&format!("{a} x {b} x {c} g"), &format!("{all} g in {ab}"))?;
        let what = format!("{all} oz in {ab}");
        if is_fraction(Decimal::from(b), Decimal::from(c)) || (c == 8 && b < 8) {
            is(&format!("{a}/{b}/{c} oz"), if b % 2 == 0 && b < c { &what } else { "pack-is-a-fraction" })?;
        } else {
            is(&format!("{a}/{b}/{c} oz"), &what)?;
        }
    }

    #[test]
    fn counts_are_counted(n in 1u32..=5000, m in 2u32..=60) {
        for text in [
            format!("{n} ct"), format!("{n}ct."), format!("{n} count"), format!("{n}-ct"), format!("{n}/cs"),
            format!("{n} per case"), format!("case of {n}"), format!("case/{n}"), format!("{n} ct/cs"),
        ] {
            is(&text, &format!("{n} each"))?;
        }
        is(&format!("{n} dz"), &format!("{n} dozen"))?;
        is(&format!("{m} x {n} ct"), &format!("{} each in {m}", m * n))?;
        is(&format!("{n} bunches"), &format!("{n} bunch"))?;
        // A weight of all stands beside a count where as much for each were more than 50 kg, which is 110.23 lb.
        let beside = if n == 1 || n * m >= 111 { format!("{n} each, {m} lb") } else { "pack-not-understood".to_owned() };
        is(&format!("{n} ct {m} lb"), &beside)?;
        is(&format!("{m}# {n}ct"), &beside)?;
    }

    #[test]
    fn a_nominal_range_is_its_middle(low in 1u32..=60, more in 1u32..=60) {
        let high = low + more;
        let middle = plain((Decimal::from(low) + Decimal::from(high)) / Decimal::TWO);
        let what = if high <= 2 * low { format!("nominal {middle} lb") } else { "nominal".to_owned() };
        is(&format!("{low}-{high} lb avg"), &what)?;
        is(&format!("{low}–{high}# avg wt"), &what)?;
        is(&format!("{low}-{high} lb"), "range-given")?;
    }
}
