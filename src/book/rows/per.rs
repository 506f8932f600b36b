//! Per, what one price is for: the pack as written, one unit of it, or a weight, volume or count.

use super::packs::unit_unknown;
use super::reader::Reader;
use crate::kitchen::Field;
use crate::measure::{Measured, Pack, QuantityText, Unit, parse_pack, parse_quantity};
use crate::number::Decimal;
use crate::problem::{Code, Fault};
use crate::schema::Column;

/// What *Per*, or the text behind a price's slash, says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Per {
    /// Nothing, or a word for the whole pack: the pack as written.
    Pack,
    /// A word for one package or piece, which is the pack or one of its units.
    One(Unit),
    /// So much of a unit.
    Measured(Measured),
    /// What is not understood, and has been reported.
    Broken,
}

impl Per {
    /// Whether the price is for a weight or volume, whatever the pack says.
    pub(super) fn is_by_amount(&self) -> bool {
        matches!(self, Per::Measured(measured) if !measured.unit.is_count_like())
    }

    /// What the pack makes of it; `None` where it may be the pack or one of its units.
    pub(super) fn of_pack(&self, pack: &Field<Pack>) -> Option<Field<Measured>> {
        match (self, pack) {
            (Per::Broken, _) => Some(Field::Broken),
            (Per::Pack, _) => Some(Field::Blank),
            (Per::Measured(measured), _) => Some(Field::Given(measured.clone())),
            (Per::One(unit), Field::Blank) => Some(Field::Given(Measured::new(Decimal::ONE, unit.clone()))),
            (Per::One(_), Field::Broken) => Some(Field::Blank),
            (Per::One(unit), Field::Given(pack)) => {
                let is_one = !pack.is_of_several() || (*unit != Unit::each() && pack.is_loose_count());
                is_one.then_some(Field::Blank)
            }
        }
    }
}

impl Reader<'_> {
    /// What one price is for, as it is said.
    pub(super) fn per(&mut self, behind_slash: Option<String>) -> Per {
        let Some(typed) = self.text(Column::Per) else { return Per::Broken };
        let column = if typed.is_empty() { Column::Price } else { Column::Per };
        let text = match (typed.is_empty(), behind_slash) {
            (true, None) => return Per::Pack,
            (true, Some(per)) => per,
            (false, Some(per)) if Unit::read(&per) != Unit::read(&typed) => {
                let fault = Fault::new(
                    Code::UnitTwice,
                    format!("the price is per {per}, but Per says {typed}"),
                    "Keep one of the two.",
                );
                self.keep_header(Column::Price);
                self.report(Column::Per, fault);
                return Per::Broken;
            }
            (false, _) => typed,
        };
        let bare = text.trim().trim_start_matches("per ").trim_start_matches('/').trim().to_owned();
        match said(&bare) {
            Some(per) => per,
            None => match parse_quantity(&bare, self.marks(Column::Per)) {
                Ok(QuantityText::Measured(measured)) if is_for_one(&measured) => Per::Measured(measured),
                _ => match parse_pack(&bare, self.marks(Column::Per)) {
                    // `tray 500 g`: one package, and what is in it.
                    Ok(Pack { content: Some(content), nominal: false, .. }) => Per::Measured(content),
                    _ => {
                        self.report(column, unit_unknown(&bare));
                        Per::Broken
                    }
                },
            },
        }
    }
}

/// What a word says.
fn said(word: &str) -> Option<Per> {
    let lower = word.to_lowercase();
    if matches!(lower.trim_end_matches('.'), "ca" | "outer") {
        return Some(Per::Pack);
    }
    let unit = Unit::parse(word)?;
    Some(if unit.is_whole_pack() {
        Per::Pack
    } else if unit == Unit::each() || unit.is_package() {
        Per::One(unit)
    } else {
        Per::Measured(Measured::new(Decimal::ONE, unit))
    })
}

/// Whether so much may be what a price is for. Nobody sells by 21.50 pallets: that is a second price.
fn is_for_one(measured: &Measured) -> bool {
    measured.amount > Decimal::ZERO
        && (matches!(measured.unit, Unit::Standard(_)) || measured.amount.normalize().scale() == 0)
}
