//! Packs as price lists write them, read and refused.

use super::*;
use crate::number::plain;
use proptest::prelude::*;

/// `pieces | content`, with a `~` when nominal and the containers in front; or the code of the fault.
fn read(text: &str) -> String {
    match parse_pack(text, Marks::Unknown) {
        Ok(pack) => [
            pack.nominal.then(|| "~".to_owned()),
            pack.containers.map(|count| format!("{} of", plain(count))),
            pack.pieces.as_ref().map(Measured::to_string),
            pack.pieces.as_ref().and(pack.content.as_ref()).map(|_| "|".to_owned()),
            pack.content.as_ref().map(Measured::to_string),
        ]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
        .join(" "),
        Err(fault) => fault.code.to_string(),
    }
}

fn expect(table: &[(&str, &str)]) {
    for (text, pack) in table {
        assert_eq!(read(text), *pack, "{text}");
    }
}

#[test]
fn weights_and_volumes() {
    expect(&[
        ("50 lb", "50 lb"),
        ("50#", "50 lb"),
        ("50 LBS.", "50 lb"),
        ("lb", "1 lb"),
        ("2 1/2 lb", "2.5 lb"),
        ("2½ lb", "2.5 lb"),
        ("2-1/2 lb", "2.5 lb"),
        ("1.5 L", "1.5 l"),
        ("half gal", "0.5 gal"),
        ("half-gallon", "0.5 gal"),
        ("½ gal", "0.5 gal"),
        ("6 lb 9 oz", "6.5625 lb"),
        ("50-lb", "50 lb"),
    ]);
}

#[test]
fn packs_of_several() {
    expect(&[
        // 6 × 5 = 30.
        ("6/5 lb", "6 of 30 lb"),
        ("6/5LB", "6 of 30 lb"),
        ("6 / 5 lb.", "6 of 30 lb"),
        ("4/1 gal", "4 of 4 gal"),
        // 12 × 32 = 384.
        ("12/32 oz", "12 of 384 oz"),
        ("1/50#", "1 of 50 lb"),
        ("12 x 750 ml", "12 of 9000 ml"),
        ("12X750ML", "12 of 9000 ml"),
        // 6 × 2.5 = 15.
        ("6x2.5kg", "6 of 15 kg"),
        ("6x2,5kg", "6 of 15 kg"),
        ("6 × 2½ kg", "6 of 15 kg"),
        ("6/2 1/2 lb", "6 of 15 lb"),
        // Twelve half pints: 6 pt. Twelve thirds: 4 pt, multiplied before divided.
        ("12/1/2 pt", "12 of 6 pt"),
        ("12/1/3 pt", "12 of 4 pt"),
        ("12 half pints", "12 of 6 pt"),
        ("12/half pt", "12 of 6 pt"),
        // 4 × 6 × 8 = 192.
        ("4/6/8 oz", "24 of 192 oz"),
        ("6 of 5 lb", "6 of 30 lb"),
        ("2/4 lb", "2 of 8 lb"),
        ("3/5 lb", "3 of 15 lb"),
        ("6/5 lb each", "6 of 30 lb"),
        // 6 × 6.5625 = 39.375.
        ("6/6 lb 9 oz", "6 of 39.375 lb"),
        ("6/5 lb (30 lb)", "6 of 30 lb"),
        ("6/5 lb (5 lb)", "6 of 30 lb"),
    ]);
}

#[test]
fn counts() {
    expect(&[
        ("24 ct", "24 each"),
        ("24ct.", "24 each"),
        ("24-ct", "24 each"),
        ("80 count", "80 each"),
        ("30 dz", "30 dozen"),
        ("500/cs", "500 each"),
        ("24 ct/cs", "24 each"),
        ("24 per case", "24 each"),
        ("6/12 ct", "6 of 72 each"),
        ("12/24 ct", "12 of 288 each"),
        ("6 x 8 ct", "6 of 48 each"),
        ("case of 24", "24 each"),
        ("1 case of 24 ct", "24 each"),
        ("1 bunch", "1 bunch"),
        ("12 bn", "12 bunch"),
        ("24/bunch", "24 bunch"),
        ("each", "1 each"),
        ("ea", "1 each"),
        ("1 cs", "1 case"),
        ("2 dz (24 ct)", "2 dozen"),
        ("1,500 ct", "number-ambiguous"),
    ]);
}

#[test]
fn count_and_weight_are_both_known() {
    expect(&[
        ("140 ct 35 lb", "140 each | 35 lb"),
        ("88ct 40#", "88 each | 40 lb"),
        ("40# 88ct", "88 each | 40 lb"),
        ("88 ct, 40 lb", "88 each | 40 lb"),
        ("88 ct (40 lb)", "88 each | 40 lb"),
        ("40 lb (88 ct)", "88 each | 40 lb"),
        ("88 ct / 40 lb case", "88 each | 40 lb"),
        ("24 heads 35 lb", "24 head | 35 lb"),
        ("bushel (40 lb)", "40 lb"),
        ("1 1/9 bu 50 lb", "50 lb"),
        ("1 each 12 lb", "1 each | 12 lb"),
    ]);
}

#[test]
fn containers() {
    expect(&[
        ("50 lb bag", "1 bag | 50 lb"),
        ("35# JIB", "1 jib | 35 lb"),
        ("Glass 100 g", "1 glass | 100 g"),
        ("50 lb/bag", "1 bag | 50 lb"),
        ("bag 50 lb", "1 bag | 50 lb"),
        ("bag of 50 lb", "1 bag | 50 lb"),
        ("BIB 5 gal", "1 bib | 5 gal"),
        ("bag-in-box 5 gal", "1 bib | 5 gal"),
        ("5 gal pail", "1 pail | 5 gal"),
        ("6/5 lb bags", "6 of 6 bag | 30 lb"),
        ("6/5 lb case", "6 of 30 lb"),
        ("6/5 lb/cs", "6 of 30 lb"),
        ("case of 6/5 lb", "6 of 30 lb"),
        ("1 cs (6/5 lb)", "6 of 30 lb"),
        ("6 bottles 750 ml", "6 bottle | 4500 ml"),
        ("12 x 750 ml bottles", "12 of 12 bottle | 9000 ml"),
        ("case 88 ct 40 lb", "88 each | 40 lb"),
    ]);
}

#[test]
fn cans_with_and_without_their_label_weight() {
    expect(&[
        ("6/#10", "6 #10 can"),
        ("6xA10", "6 #10 can"),
        ("6 x A10 tins", "6 #10 can"),
        ("#10 can", "1 #10 can"),
        ("6 #10 cans", "6 #10 can"),
        ("6/No. 10", "6 #10 can"),
        ("24/#2½", "24 #2-1/2 can"),
        // 6 × (6 + 9/16) = 39.375.
        ("6/#10 (6 lb 9 oz)", "6 #10 can | 39.375 lb"),
        ("6/#10 6 lb 9 oz", "6 #10 can | 39.375 lb"),
        ("#10 can (6 lb 9 oz)", "1 #10 can | 6.5625 lb"),
    ]);
}

#[test]
fn nominal_packs() {
    expect(&[
        ("2/10 lb avg", "~ 2 of 20 lb"),
        ("14-16 lb avg", "~ 15 lb"),
        ("14–16# average", "~ 15 lb"),
        ("10 lb CW", "~ 10 lb"),
        ("10 lb c/w", "~ 10 lb"),
        ("10 lb catch weight", "~ 10 lb"),
        ("12/up", "~"),
        ("12 lb & up", "~ 12 lb"),
        ("8/10 lb avg", "~"),
        ("~10 lb", "~ 10 lb"),
        ("ca. 7 kg", "~ 7 kg"),
        ("c. 2kg", "~ 2 kg"),
    ]);
}

#[test]
fn what_is_unclear_is_refused_with_its_own_reason() {
    expect(&[
        ("", "pack-missing"),
        ("16/20 ct", "pack-is-a-grade"),
        ("16-20 ct", "pack-is-a-grade"),
        ("U-10", "pack-is-a-grade"),
        ("U10", "pack-is-a-grade"),
        ("U/15 5 lb", "pack-is-a-grade"),
        ("16/20 ct 5 lb", "pack-is-a-grade"),
        ("6/5", "pack-is-a-ratio"),
        ("6 x 5", "pack-is-a-ratio"),
        ("16/20", "pack-is-a-grade"),
        ("1/2 gal", "pack-is-a-fraction"),
        ("3/4 lb", "pack-is-a-fraction"),
        ("1/3 lb", "pack-is-a-fraction"),
        ("5/8 lb", "pack-is-a-fraction"),
        ("1/2 case", "pack-is-a-fraction"),
        ("1/2 gal jug", "pack-is-a-fraction"),
        ("4/3/4 lb", "pack-is-a-fraction"),
        ("12 1/2 pt", "pack-is-a-fraction"),
        ("bushel", "pack-not-understood"),
        ("1 bu", "pack-not-understood"),
        ("1/2 bu", "pack-is-a-fraction"),
        ("24", "unit-missing"),
        ("24 C", "pack-not-understood"),
        ("2 T", "pack-not-understood"),
        ("14-16 lb", "range-given"),
        ("6-5 lb", "pack-not-understood"),
        ("24 ct 8 oz", "pack-not-understood"),
        ("6 ea 5 lb", "pack-not-understood"),
        ("2 bags 5 lb", "pack-not-understood"),
        ("2 bags (5 lb)", "pack-not-understood"),
        ("24/can", "pack-not-understood"),
        ("24/lb", "pack-not-understood"),
        ("12 750 ml", "pack-not-understood"),
        ("6/5 lb (28 lb)", "pack-conflict"),
        ("2 dz (20 ct)", "pack-conflict"),
        ("4/1 gal (34 lb)", "pack-not-understood"),
        ("0 lb", "number-out-of-range"),
        ("6/5 wizzles", "pack-not-understood"),
        ("6/5 lb wizzles", "pack-not-understood"),
        ("(", "pack-not-understood"),
        ("6/5 lb (30 lb) x", "pack-not-understood"),
        ("9999999999999999999999999999/9999999999999999999999999999 lb", "number-out-of-range"),
    ]);
}

#[test]
fn a_pack_says_how_it_was_read() {
    let said = |text| parse_pack(text, Marks::Unknown).unwrap().read_as;
    assert_eq!(said("6/5 lb"), "6 × 5 lb = 30 lb");
    assert_eq!(said("50#"), "50 lb");
    assert_eq!(said("12/1/2 pt"), "12 × 1/2 pt = 6 pt");
    assert_eq!(said("140 ct 35 lb"), "140 each, 35 lb in all");
    assert_eq!(said("6/#10 (6 lb 9 oz)"), "6 #10 can of 6.5625 lb = 39.375 lb");
    assert_eq!(said("12/up"), "nominal");
    assert_eq!(said("14-16 lb avg"), "15 lb (nominal)");
}

#[test]
fn what_a_refusal_proposes_reads_well() {
    let help = |text| parse_pack(text, Marks::Unknown).unwrap_err().help;
    assert_eq!(help("1/2 gal"), "Write 0.5 gal for the fraction, or 1 x 2 gal.");
    assert_eq!(help("4/3/4 lb"), "Write 4 x 0.75 lb for the fraction, or 4 x 3 x 4 lb.");
    expect(&[
        ("0.5 gal", "0.5 gal"),
        ("1 x 2 gal", "1 of 2 gal"),
        ("4 x 0.75 lb", "4 of 3 lb"),
        ("4 x 3 x 4 lb", "12 of 48 lb"),
    ]);
    assert_eq!(help("12 1/2 pt"), "Write 12.5 pt, or 12/1/2 pt for 12 halves.");
    expect(&[("12.5 pt", "12.5 pt")]);
}

#[test]
fn several_are_told_from_one() {
    let several = |text| parse_pack(text, Marks::Unknown).unwrap().is_of_several();
    for text in ["6/5 lb", "24 ct", "1 dz", "6/#10", "12 bunch"] {
        assert!(several(text), "{text}");
    }
    for text in ["50 lb", "1/50#", "1 each", "50 lb bag", "#10 can"] {
        assert!(!several(text), "{text}");
    }
}

#[test]
fn a_pack_from_its_own_columns() {
    let size = Measured::new(Decimal::from(5), Unit::read("lb"));
    let pack = Pack::from_parts(Some(Decimal::from(6)), size.clone()).unwrap();
    assert_eq!((pack.containers, pack.read_as.as_str()), (Some(Decimal::from(6)), "6 × 5 lb = 30 lb"));
    assert_eq!(Pack::from_parts(None, size).unwrap().content.unwrap().amount, Decimal::from(5));
    let eggs = Pack::from_parts(Some(Decimal::from(15)), Measured::new(Decimal::ONE, Unit::read("dz"))).unwrap();
    assert_eq!(eggs.pieces_in(&Unit::read("dozen")), Some(Decimal::from(15)));
    assert!(Pack::from_parts(Some(Decimal::ZERO), Measured::new(Decimal::ONE, Unit::read("kg"))).is_err());
}

proptest! {
    #[test]
    fn no_text_panics(
        text in "\\PC*",
        close in "([0-9½]{1,3}|/|x|-| |lb|oz|ct|#|#10|\\(|\\)|case|bag|avg|up|of|half|per|gal|ea|bu|,|\\.){0,12}",
    ) {
        for marks in [Marks::Unknown, Marks::CommaDecimal] {
            let _ = parse_pack(&text, marks);
            let _ = parse_pack(&close, marks);
        }
    }
}
