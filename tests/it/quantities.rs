//! Quantities and money as typed, against a table worked by hand: read exactly, or refused for the right reason.

use parings::measure::{
    Base, Measured, MoneyText, QuantityText, Volumes, compound_in_base, parse_money, parse_quantity, parse_several,
};
use parings::number::{Decimal, Marks, plain};
use parings::problem::Fault;

use crate::support::tsv;

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
