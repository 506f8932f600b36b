//! Baker's percentages in lines of one text: `65% water` is 65 % of the flour, where the card has flour; unless the book has
//! something that goes by all of it, as a 2% milk may.

use super::LineReading;
use crate::food::flour::is_flour;
use crate::kitchen::{InputCell, InputRow};
use crate::measure::ingredient::NamedPercentage;
use crate::measure::{AmountText, Unit, named_percentage};
use crate::number::text::clean;
use crate::number::{Decimal, Marks, PercentText, parse_percent};
use crate::problem::{Code, Fault, Place, Problem};
use crate::schema::{Column, Shown, Typed};

/// Whether an amount says per cent: of a cell that shows one, or in its text.
pub(super) fn is_percentage(typed: Option<&Typed>, amount: &str, marks: Marks) -> bool {
    typed.is_some_and(|typed| typed.shown == Shown::Percent)
        || matches!(parse_percent(amount, marks), Ok(PercentText::Fraction(_)))
}

/// Makes quantities of the percentages of a card's lines that are of its flour; gives for each such line what it was without.
pub(super) fn take(lines: &mut [LineReading], marks: Marks) -> Vec<Option<InputRow>> {
    let named: Vec<Option<NamedPercentage>> = lines.iter().map(|line| of_line(line, marks)).collect();
    let flour = FlourOnCard::of(lines, &named);
    let taken = |(line, named): (&mut LineReading, Option<NamedPercentage>)| {
        let named = named.filter(|named| flour.counts(named))?;
        let plain = line.row.clone();
        let at = line.amount_at.clone();
        let mut put = |column, typed| line.row.cells.push(InputCell { column, typed, place: at.clone() });
        put(Column::Qty, Typed::number(named.percent));
        put(Column::Unit, Typed::text(Unit::percent().name()));
        if line.row.typed(Column::Note).is_blank() {
            let said = format!("as typed: {}", clean(&plain.text(Column::Item)));
            line.row.cells.push(InputCell { column: Column::Note, typed: Typed::text(said), place: at });
        }
        line.row.set(Column::Item, Typed::text(named.name.clone()));
        line.text.name = named.name;
        Some(plain)
    };
    lines.iter_mut().zip(named).map(taken).collect()
}

/// The percentage in the name of a line that says no amount.
fn of_line(line: &LineReading, marks: Marks) -> Option<NamedPercentage> {
    let says_none = line.text.amount == AmountText::Unsaid && line.row.typed(Column::Qty).is_blank();
    named_percentage(&line.text.name, marks).filter(|_| says_none)
}

/// How a card says how much flour it takes.
enum FlourOnCard {
    /// Nothing on it is flour.
    None,
    /// In per cent, as all that goes by it.
    Percent,
    /// By weight: a percentage behind a name may be a kind of it, such as a chocolate's.
    Weighed,
}

impl FlourOnCard {
    fn of(lines: &[LineReading], named: &[Option<NamedPercentage>]) -> Self {
        let mut flour = FlourOnCard::None;
        for (line, named) in lines.iter().zip(named) {
            let name = named.as_ref().map_or(&line.text.name, |named| &named.name);
            let qty = line.row.typed(Column::Qty);
            match named {
                _ if !is_flour(name) => {}
                Some(_) => flour = FlourOnCard::Percent,
                None if qty.is_blank() => {}
                None if is_percentage(Some(qty), &qty.seen(), Marks::Unknown) => flour = FlourOnCard::Percent,
                None => return FlourOnCard::Weighed,
            }
        }
        // Without the word, the one line of 100 % beside others.
        let percentages = || named.iter().flatten().map(|named| named.percent);
        let wholes = percentages().filter(|percent| *percent == Decimal::ONE_HUNDRED).count();
        let is_formula = wholes == 1 && percentages().count() > 1;
        if is_formula && matches!(flour, FlourOnCard::None) { FlourOnCard::Percent } else { flour }
    }

    fn counts(&self, named: &NamedPercentage) -> bool {
        match self {
            FlourOnCard::None => false,
            FlourOnCard::Percent => true,
            FlourOnCard::Weighed => named.leads,
        }
    }
}

/// The note of a recipe whose lines, each as it was typed, were taken in % of the flour.
pub(super) fn note(recipe: &str, lines: &[(String, Place)]) -> Option<Problem> {
    let ((first, place), others) = lines.split_first()?;
    let message = match others.len() {
        0 => format!("“{first}” was taken in % of the flour"),
        1 => format!("“{first}” and one other line of “{recipe}” were taken in % of the flour"),
        others => format!("“{first}” and {others} other lines of “{recipe}” were taken in % of the flour"),
    };
    let help = "Nothing to do if that is right; else type how much it is, such as 2 lb.";
    Some(Fault::new(Code::LineAssumed, message, help).at(place.clone()))
}
