//! Texts made at random from a kitchen's alphabet, and rows of the tables with something changed: nothing may panic, and
//! nothing may come out that its text cannot mean.
//!
//! A short run goes with every test. A long one: `PARINGS_BABBLE_SECONDS=600 cargo test babbled_at_length -- --ignored`;
//! `PARINGS_BABBLE_SEED` asks for other texts.

use std::time::{Duration, Instant};

use parings::measure::{Pack, QuantityText, Unit, Volumes, compound_in_base, parse_money, parse_pack};
use parings::measure::{parse_quantity, parse_several};
use parings::number::{Decimal, Marks, evidence};

use crate::packs::{UNCLEAR_PACKS, said};
use crate::quantities::UNCLEAR_QUANTITIES;
use crate::support::{at_length, tsv};

const MARKS: [Marks; 3] = [Marks::Unknown, Marks::PointDecimal, Marks::CommaDecimal];

/// What a price list or a recipe is written with. What stands together here is taken together.
const ALPHABET: &[&str] = &[
    "0", "1", "2", "3", "4", "5", "6", "8", "9", "10", "12", "16", "20", "24", "50", "88", "100", "300", "750", "1000",
    "/", "/", "/", "-", "–", "x", "X", "×", "*", "@", "#", "#10", "A10", "No. 10", ".", ",", ";", ":", "'", "\"", "(",
    ")", "[", "]", "+", "&", "%", "=", "~", "±", "½", "⅓", "¼", "⅞", "⅐", "⁄", " ", " ", " ", " ", "\u{a0}",
    "\u{202f}", "lb", "lbs", "oz", "fl oz", "kg", "g", "ml", "l", "ltr", "cl", "gal", "qt", "pt", "cup", "T", "t", "C",
    "M", "ct", "count", "dz", "doz", "gross", "ea", "each", "pc", "cs", "case", "bag", "box", "ctn", "tub", "jug",
    "can", "cans", "tin", "bottle", "bunch", "head", "portion", "bu", "bushel", "flat", "avg", "approx", "cw", "c/w",
    "up", "net wt", "drained", "of", "per", "to", "or", "and", "plus", "in all", "total", "half", "U", "under", "May",
    "to taste", "pinch", "handful", "$", "€", "£", "USD", "kr", "²", "٣", "１", "é", "ß", "💶", "\u{200b}", "\0", "\t",
    "s", "'s",
];

/// A stream of numbers from a seed (splitmix64: Steele, Lea and Flood 2014).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn below(&mut self, end: usize) -> usize {
        usize::try_from(self.roll() % u64::try_from(end).unwrap()).unwrap()
    }

    fn pick<'a>(&mut self, from: &[&'a str]) -> &'a str {
        from[self.below(from.len())]
    }
}

/// A text of chance.
fn babble(dice: &mut Dice) -> String {
    (0..=dice.below(9)).map(|_| dice.pick(ALPHABET)).collect()
}

/// `row` with one to three things taken out, put in, doubled, exchanged or cut off.
fn mutated(row: &str, dice: &mut Dice) -> String {
    let mut text: Vec<char> = row.chars().collect();
    for _ in 0..=dice.below(3) {
        let at = dice.below(text.len() + 1);
        match dice.below(5) {
            0 if at < text.len() => drop(text.remove(at)),
            1 if at < text.len() => text.insert(at, text[at]),
            2 if at + 1 < text.len() => text.swap(at, at + 1),
            3 => text.truncate(at),
            _ => drop(text.splice(at..at, dice.pick(ALPHABET).chars())),
        }
    }
    text.into_iter().collect()
}

/// What must hold of every pack that is read.
fn check_pack(text: &str, pack: &Pack) {
    let amounts: Vec<_> = [&pack.pieces, &pack.content].into_iter().flatten().collect();
    assert!(pack.nominal || !amounts.is_empty(), "{text:?} holds nothing");
    assert!(!pack.read_as.is_empty(), "{text:?} does not say how it was read");
    assert!(amounts.iter().all(|amount| amount.amount > Decimal::ZERO), "{text:?}");
    assert!(pack.containers.is_none_or(|count| count > Decimal::ZERO), "{text:?}");
    assert!(pack.content.as_ref().is_none_or(|content| !content.unit.is_count_like()), "{text:?}");
    assert!(pack.pieces.as_ref().is_none_or(|pieces| pieces.unit.is_count_like()), "{text:?}");
    // Without a letter or a number sign no unit is named.
    let names_a_unit = text.contains(|c: char| c.is_alphabetic() || c == '#' || c == '＃');
    assert!(names_a_unit || amounts.is_empty(), "{text:?} was read as {}", said(pack));
    for volumes in [Volumes::Us, Volumes::Imperial, Volumes::Metric] {
        amounts.iter().for_each(|amount| _ = amount.in_base(volumes));
    }
    let _ = (pack.one_of_several(), pack.is_of_several());
    // Capitals and spaces at the ends say nothing.
    let shouted = parse_pack(&format!(" {}\u{a0}", text.to_ascii_uppercase()), Marks::Unknown);
    assert_eq!(shouted.as_ref().map(said), Ok(said(pack)), "{text:?}");
}

/// What must hold of every quantity that is read.
fn check_quantity(text: &str, quantity: &QuantityText) {
    match quantity {
        QuantityText::Number(number) => assert!(*number >= Decimal::ZERO, "{text:?}"),
        QuantityText::Measured(one) => {
            assert!(one.amount >= Decimal::ZERO, "{text:?}");
            // A third has 28 decimals, and with a whole number before them more digits than are read. A kitchen's own
            // measure of chance, such as `m ofs`, may have a name that is read as another.
            if Unit::parse(&one.unit.name()).is_some() && one.amount.scale() < 20 {
                let again = parse_quantity(&one.to_string(), Marks::PointDecimal);
                assert_eq!(again.as_ref(), Ok(quantity), "{text:?} is {one} and does not read back");
            }
        }
        QuantityText::Compound(parts) => {
            assert!(parts.len() > 1 && parts.iter().all(|part| part.amount >= Decimal::ZERO), "{text:?}");
            assert!(compound_in_base(parts, Volumes::Us).is_ok_and(|sum| sum.is_some()) || text.len() > 25, "{text:?}");
        }
        QuantityText::Unmeasured(_) => {}
    }
}

/// Reads `text` in every way.
fn read(text: &str) {
    for marks in MARKS {
        match parse_pack(text, marks) {
            Ok(pack) if marks == Marks::Unknown => check_pack(text, &pack),
            Ok(_) => {}
            Err(fault) => assert!(!fault.message.is_empty() && !fault.help.is_empty()),
        }
        match parse_quantity(text, marks) {
            Ok(quantity) => check_quantity(text, &quantity),
            Err(fault) => assert!(!fault.message.is_empty() && !fault.help.is_empty()),
        }
        let _ = (parse_several(text, marks), parse_money(text, marks), parings::internals::decimal::parse(text, marks));
    }
    let _ = (evidence(text), Unit::parse(text), Unit::own(text));
}

/// Texts until `is_enough` says so; gives how many.
fn run(seed: u64, is_enough: impl Fn(u64) -> bool) -> u64 {
    let rows: Vec<&str> = tsv(include_str!("packs.tsv"))
        .iter()
        .map(|row| row[0])
        .chain(tsv(include_str!("quantities.tsv")).iter().map(|row| row[1]))
        .collect();
    let mut dice = Dice(seed);
    let mut count = 0;
    while !is_enough(count) {
        read(&babble(&mut dice));
        let row = dice.pick(&rows);
        read(&mutated(row, &mut dice));
        unclear_stays_unclear(&mut dice);
        count += 3;
    }
    count
}

/// An unclear text stays so in capitals, between spaces, with spaces of another kind.
fn unclear_stays_unclear(dice: &mut Dice) {
    let spaced = |text: &str, dice: &mut Dice| {
        let space = dice.pick(&[" ", "  ", "\u{a0}", "\t", "\u{2009}", " \u{200b}"]);
        format!("{}{}", dice.pick(&["", " ", "\u{feff}"]), text.replace(' ', space))
    };
    let pack = spaced(dice.pick(UNCLEAR_PACKS), dice);
    for text in [&pack, &pack.to_ascii_uppercase()] {
        let read = parse_pack(text, Marks::Unknown);
        assert!(read.is_err(), "{text:?} was read as {read:?}");
    }
    let quantity = spaced(dice.pick(UNCLEAR_QUANTITIES), dice);
    let read = parse_quantity(&quantity, Marks::Unknown);
    assert!(read.is_err(), "{quantity:?} was read as {read:?}");
}

#[test]
fn babbled_text_is_read_or_refused() {
    let enough = if at_length() { 90_000 } else { 3_000 };
    run(20_261_125, |count| count >= enough);
}

#[test]
#[ignore = "runs for as long as PARINGS_BABBLE_SECONDS says, ten minutes unless set"]
fn babbled_at_length() {
    let asked = |name: &str| std::env::var(name).ok().and_then(|value| value.parse::<u64>().ok());
    let end = Instant::now() + Duration::from_secs(asked("PARINGS_BABBLE_SECONDS").unwrap_or(600));
    let count = run(asked("PARINGS_BABBLE_SEED").unwrap_or(1), |_| Instant::now() >= end);
    println!("{count} texts were read");
}
