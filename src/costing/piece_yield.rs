//! Yield of a piece: its edible weight (Measures) beside its weight as purchased, which the pack, a row or a test says.
//!
//! Takes priced items with their measures; gives the yield that pieces imply, and what does not go together: edible weights
//! above those as purchased, yields that disagree, a pack that says another weight than Measures.

use super::Costing;
use super::rate::Amount;
use crate::costing::conversion::choose_measure::{choose, ends};
use crate::costing::conversion::convert::{AskedBy, Wanted};
use crate::costing::conversion::equivalence::{Link, MeasureFrom};
use crate::costing::conversion::equivalences_of_item;
use crate::costing::price::bought::ItemCost;
use crate::food::MeasureText;
use crate::in_order::InOrder;
use crate::kitchen::Kitchen;
use crate::kitchen::bridge::Basis;
use crate::kitchen::price::{Item, TrimYield};
use crate::measure::{Measured, Unit};
use crate::number::{Decimal, exact, plain, rounding};
use crate::problem::{Code, Fault, Place, Problem, THERE};
use crate::schema::Column;

/// Yields further apart than this are told: two points.
const APART: Decimal = Decimal::from_parts(2, 0, 0, false, 2);

/// The yield that a piece's two weights imply.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PieceYield {
    /// Its edible weight over its weight as purchased.
    pub ratio: Amount,
    /// The same as a fraction.
    pub fraction: Decimal,
    /// The measure row with the edible weight, as an index into the entries.
    pub row: usize,
}

/// What the pieces of an item say of its yield.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Pieces {
    /// The lowest yield that one of its counted measures implies.
    pub implied: Option<PieceYield>,
    /// Rows with an edible weight that cannot be, as indices into the entries.
    pub faulty: Vec<usize>,
}

/// What the pieces of every item say; with what does not go together.
pub(super) fn all(kitchen: &Kitchen, costing: &mut Costing) {
    let items = kitchen.items.iter().zip(&costing.items);
    let found = items.map(|(item, cost)| cost.as_ref().map(|cost| of_item(kitchen, item, cost)).unwrap_or_default());
    let (pieces, problems): (Vec<Pieces>, Vec<Vec<Problem>>) = found.unzip();
    costing.pieces = pieces;
    costing.problems.extend(problems.into_iter().flatten());
}

/// What the pieces of an item say in the pack of the price row by which it costs `cost`; with what does not go together.
pub(super) fn of_item(kitchen: &Kitchen, item: &Item, cost: &ItemCost) -> (Pieces, Vec<Problem>) {
    let mut problems = Vec::new();
    let pieces = if item.bridge.measures.iter().any(|measure| measure.unit.is_count_like()) {
        Weighing { kitchen, item, cost, problems: &mut problems }.pieces()
    } else {
        Pieces::default()
    };
    (pieces, problems)
}

/// The pieces of one item.
struct Weighing<'a> {
    kitchen: &'a Kitchen,
    item: &'a Item,
    cost: &'a ItemCost,
    problems: &'a mut Vec<Problem>,
}

impl Weighing<'_> {
    fn pieces(mut self) -> Pieces {
        let mut pieces = Pieces::default();
        let mut found: Vec<(PieceYield, bool)> = Vec::new();
        for measure in self.item.bridge.measures.iter().filter(|measure| measure.unit.is_count_like()) {
            let asked = (&measure.unit, measure.prep.as_ref());
            let links = equivalences_of_item::of_item(self.kitchen, self.item, self.cost, asked);
            let link = &Link::of(measure, self.kitchen.settings.volumes);
            let quantity = Measured::new(Decimal::ONE, measure.unit.clone());
            let prep = measure.prep.as_ref();
            let wanted =
                Wanted { quantity: &quantity, prep, basis: Basis::Ap, name: &self.item.name, by: AskedBy::Recipe };
            let serving = choose(&links, wanted, self.kitchen.settings.volumes).links;
            let beside =
                |other: &&&Link| ends(other) == ends(link) && other.basis == Basis::Ap && other.from != link.from;
            let Some(bought) = serving.iter().find(beside) else { continue };
            if link.faulty || bought.faulty {
                pieces.faulty.extend((measure.basis == Basis::Ep).then_some(measure.row));
                continue;
            }
            let Some(ratio) = ratio(link, bought) else { continue };
            if measure.basis == Basis::Ap {
                if matches!(bought.from, MeasureFrom::Pack(_)) && measure.prep.is_none() {
                    self.compare_with_pack(&measure.unit, link, bought, ratio);
                }
                continue;
            }
            // A large one is not what the pack holds on the average.
            if MeasureText::is_size(&measure.prep_text) && bought.prep.is_none() {
                continue;
            }
            if ratio.num > ratio.den {
                pieces.faulty.push(measure.row);
                self.too_heavy(&measure.unit, link, bought);
            } else if let Ok(fraction) = ratio.value() {
                found.push((PieceYield { ratio, fraction, row: measure.row }, measure.prep.is_none()));
            }
        }
        // One that names no preparation speaks for all.
        if found.iter().any(|(_, is_plain)| *is_plain) {
            found.retain(|(_, is_plain)| *is_plain);
        }
        found.put_in_order_by_key(|(piece, _)| (piece.fraction, piece.row));
        if let (Some((least, _)), Some((most, _))) = (found.first(), found.last()) {
            if exact::sub(most.fraction, least.fraction).is_ok_and(|apart| apart > APART) {
                self.two_yields(least, most);
            }
            self.compare_with_stated(least);
            pieces.implied = Some(*least);
        }
        pieces
    }

    fn place(&self, from: MeasureFrom) -> Option<Place> {
        let entries = &self.kitchen.entries;
        match from {
            MeasureFrom::Row(row) => {
                let input = &entries.measures.get(row)?.input;
                let column = if input.typed(Column::Weighs).is_blank() { Column::Holds } else { Column::Weighs };
                Some(input.place(column))
            }
            MeasureFrom::Pack(row) => Some(entries.prices.get(row)?.input.place(Column::Pack)),
            MeasureFrom::TestRow(row) => Some(entries.tests.get(row)?.input.place(Column::Weight)),
            MeasureFrom::Makes | MeasureFrom::Can(_) | MeasureFrom::Reference(_) => None,
        }
    }

    /// What one of `unit` is by a link, in the unit that the measure row names.
    fn said(&self, row: MeasureFrom, unit: &Unit, link: &Link) -> Option<String> {
        let MeasureFrom::Row(index) = row else { return None };
        let equals = self.kitchen.entries.measures.get(index)?.equals.given()?;
        let volumes = self.kitchen.settings.volumes;
        let (_, size) = equals.unit.to_base(volumes)?;
        let one = unit.to_base(volumes).map_or(Decimal::ONE, |(_, one)| one);
        let (all, pieces) = (exact::mul(link.other.as_ref()?.1, one).ok()?, exact::mul(link.one.1, size).ok()?);
        let amount = exact::div(all, pieces).ok()?;
        Some(format!("{} {}", plain(rounding::half_up(amount, 3).normalize()), equals.unit))
    }

    fn too_heavy(&mut self, unit: &Unit, edible: &Link, bought: &Link) {
        let weights = self.said(edible.from, unit, edible).zip(self.said(edible.from, unit, bought));
        let (Some((ep, ap)), Some(place), Some(there)) = (weights, self.place(edible.from), self.place(bought.from))
        else {
            return;
        };
        self.problems.push(
            Fault::new(
                Code::YieldTooHigh,
                format!("1 {} of “{}” is {ep} EP here and {ap} AP at {THERE}", unit.name(), self.item.name),
                "What is left of a piece weighs no more than the piece: correct one of the two, or set Basis here to AP.",
            )
            .speaking_of(there)
            .at(place),
        );
    }

    fn two_yields(&mut self, least: &PieceYield, most: &PieceYield) {
        let places = self.place(MeasureFrom::Row(most.row)).zip(self.place(MeasureFrom::Row(least.row)));
        let (Some((place, there)), Some(high), Some(low)) = (places, percent(most.fraction), percent(least.fraction))
        else {
            return;
        };
        self.problems.push(
            Fault::new(
                Code::YieldDisagrees,
                format!(
                    "the edible weight here implies a yield of {high} % for “{}”, that at {THERE} {low} %; the lower is \
                     used",
                    self.item.name
                ),
                "Weigh both again, as purchased and trimmed.",
            )
            .speaking_of(there)
            .at(place),
        );
    }

    fn compare_with_stated(&mut self, piece: &PieceYield) {
        let Some((stated, row)) = self.cost.row_yield else { return };
        let apart = exact::sub(stated, piece.fraction).map(|apart| apart.abs());
        let Some(input) = self.kitchen.entries.prices.get(row).map(|row| &row.input) else { return };
        let (Some(said), Some(implied)) = (percent(stated), percent(piece.fraction)) else { return };
        if !apart.is_ok_and(|apart| apart > APART) {
            return;
        }
        let used = match self.item.trim {
            TrimYield::Main(_) => "the yield test is used",
            _ if self.cost.kind.is_counted() => "the weight of the piece is used",
            _ => "the price row is used",
        };
        self.problems.push(
            Fault::new(
                Code::YieldDisagrees,
                format!(
                    "the price row says {said} %, the weight of a piece of “{}”, edible and as purchased, gives {implied} \
                     %; {used}",
                    self.item.name
                ),
                "Clear Yield here, or weigh again.",
            )
            .at(input.place(Column::Yield)),
        );
    }

    fn compare_with_pack(&mut self, unit: &Unit, stated: &Link, pack: &Link, ratio: Amount) {
        if exact::is_near(ratio.num, ratio.den) {
            return;
        }
        let weights = self.said(stated.from, unit, stated).zip(self.said(stated.from, unit, pack));
        let (Some((said, packed)), Some(place), Some(there)) =
            (weights, self.place(stated.from), self.place(pack.from))
        else {
            return;
        };
        self.problems.push(
            Fault::new(
                Code::MeasuresDisagree,
                format!(
                    "1 {} of “{}” is {said} here and {packed} by the pack at {THERE}; the pack is used",
                    unit.name(),
                    self.item.name
                ),
                "Weigh a few and correct one of the two; or delete this row: the pack says it.",
            )
            .speaking_of(there)
            .at(place),
        );
    }
}

/// What one link says of a piece over what another does.
fn ratio(one: &Link, other: &Link) -> Option<Amount> {
    let num = exact::mul(one.other.as_ref()?.1, other.one.1).ok()?;
    let den = exact::mul(other.other.as_ref()?.1, one.one.1).ok()?;
    (den > Decimal::ZERO).then_some(Amount { num, den })
}

fn percent(fraction: Decimal) -> Option<String> {
    fraction.checked_mul(Decimal::ONE_HUNDRED).map(|percent| plain(rounding::half_up(percent, 1).normalize()))
}

/// Nothing says what a piece of an item weighs as purchased: its edible weight wants one yield, and it has several mains.
pub(super) fn unweighed(item: &Item) -> Fault {
    Fault::new(
        Code::PieceUnweighed,
        format!(
            "“{}” is broken down into several mains, so its edible weight does not tell what a piece weighs as purchased",
            item.name
        ),
        format!(
            "Add a Measures row: Item {}, what one weighs as purchased under Weighs, Basis AP; or type how many went into \
             the yield test beside their weight, such as 4 each, 12 lb.",
            item.name
        ),
    )
}
