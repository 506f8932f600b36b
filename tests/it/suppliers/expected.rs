//! What a buyer reads out of a supplier's file: the tables beside the files in `tests/suppliers`, made by hand.

use parings::measure::Unit;
use rust_decimal::Decimal;

/// A line of an expected table.
pub struct Line {
    /// The row of the sheet, from 1.
    pub row: u32,
    /// The product; `None` for a row that is none.
    pub product: Option<Product>,
}

/// What a buyer understands of a product.
pub struct Product {
    pub item: String,
    pub code: String,
    pub pack: String,
    /// What one price costs, in every unit in which the buyer worked it out: money, for so many, of this.
    pub costs: Vec<Cost>,
    /// Whether a buyer would not go on without an answer, or there is no price.
    pub open: bool,
}

/// Money for so much of a unit, as the buyer's fraction says it.
#[derive(Debug, Clone, PartialEq)]
pub struct Cost {
    pub money: Decimal,
    pub amount: Decimal,
    /// Its unit's size in grams, millilitres or pieces.
    pub size: Decimal,
    /// `g`, `ml` or `each`.
    pub base: &'static str,
}

/// The lines of an expected table.
pub fn lines(text: &str) -> Vec<Line> {
    text.lines().skip(1).filter(|line| !line.is_empty()).map(line).collect()
}

fn line(text: &str) -> Line {
    let fields: Vec<&str> = text.split('\t').collect();
    let field = |at: usize| fields.get(at).copied().unwrap_or("");
    let row = field(0).parse().unwrap_or_else(|_| panic!("{text}"));
    if fields.len() < 7 {
        assert!(field(1).starts_with("not a product"), "{text}");
        return Line { row, product: None };
    }
    let open = field(6).starts_with("unknown") || field(6).starts_with("none");
    let costs = if open { Vec::new() } else { [field(6), field(8)].into_iter().flat_map(costs).collect() };
    assert!(open || !costs.is_empty(), "no cost was understood in {text}");
    let product = Product { item: field(1).into(), code: field(2).into(), pack: field(3).into(), costs, open };
    Line { row, product: Some(product) }
}

/// Every `money/amount unit` and, where it leads, `money per unit` in a text.
fn costs(text: &str) -> Vec<Cost> {
    let mut found = Vec::new();
    let parts = text.split([';', ',', ':', '=']).map(str::trim);
    for (at, part) in parts.enumerate() {
        let (money, rest) = match part.split_once('/') {
            Some((money, rest)) => (money, rest),
            // The quotient behind a fraction is rounded, so only what stands alone counts.
            None if at == 0 && part.contains(" per ") => match part.split_once(" per ") {
                Some((money, unit)) => found_alone(&mut found, money, unit),
                None => continue,
            },
            None => continue,
        };
        let money = money.rsplit(' ').next().unwrap_or("");
        let (Ok(money), Some((amount, unit))) = (money.parse(), rest.trim().split_once(' ')) else { continue };
        let Ok(amount) = amount.parse() else { continue };
        found.extend(cost(money, amount, unit.split(" if ").next().unwrap_or(unit)));
    }
    found
}

fn found_alone<'t>(found: &mut Vec<Cost>, money: &'t str, unit: &'t str) -> (&'t str, &'t str) {
    if let Ok(money) = money.parse() {
        found.extend(cost(money, Decimal::ONE, unit));
    }
    ("", "")
}

fn cost(money: Decimal, amount: Decimal, unit: &str) -> Option<Cost> {
    let (size, base) = size_of(unit.trim())?;
    Some(Cost { money, amount, size, base })
}

/// A unit's size. Bunches, cans, sheets and bushels are pieces.
fn size_of(unit: &str) -> Option<(Decimal, &'static str)> {
    use parings::measure::{Base, Volumes};
    match Unit::parse(unit).and_then(|unit| unit.to_base(Volumes::Us)) {
        Some((Base::Gram, size)) => Some((size, "g")),
        Some((Base::Millilitre, size)) => Some((size, "ml")),
        Some((Base::Each, size)) => Some((size, "each")),
        None => Some((Decimal::ONE, "each")),
    }
}
