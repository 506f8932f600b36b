//! Packs as price lists write them, against a table worked by hand: understood exactly, or refused for the right reason.

use parings::measure::{Measured, Pack, Volumes, parse_pack};
use parings::number::{Marks, plain};

use crate::support::tsv;

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
];

#[test]
fn unclear_packs_are_refused() {
    for text in UNCLEAR_PACKS {
        let read = parse_pack(text, Marks::Unknown).map(|pack| said(&pack));
        assert!(read.is_err(), "{text}: {read:?}");
    }
}
