//! Packs in trade notation: `50 lb`, `6/5 lb`, `12 x 750 ml`, `140 ct 35 lb`, `6/#10 (6 lb 9 oz)`.
//!
//! Takes a pack cell's text; gives what is in the pack (pieces, weight or volume, or both) and how it was read, or a
//! fault that says what is unclear and what to write instead. `lex` cuts the text, `remarks` takes off what stands around
//! the amounts, `group` reads one amount, `read` a row of them, `amounts` and `draft` put two statements together;
//! `grades` and `sizes` know the trade's bare numbers; every refusal stands in `refuse`.
#![doc = ""]
#![doc = include_str!("grammar.md")]

mod amounts;
mod draft;
mod grades;
mod group;
mod lex;
mod package;
mod read;
mod refuse;
mod remarks;
mod sizes;

use super::dated::date_as_text;
use super::quantity::Measured;
use super::unit::Unit;
use crate::number::exact::mul;
use crate::number::text::{clean, is_too_long};
use crate::number::{Decimal, Marks};
use crate::problem::{Code, Fault};

/// What a pack holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pack {
    /// The text as it stands in the cell.
    pub text: String,
    /// How many inner packs a pack such as `6/5 lb` says it has; they are nameless, and no *each*.
    pub containers: Option<Decimal>,
    /// Pieces or named containers: 24 each, 30 dozen, 12 `bunch`, 6 `#10 can`, 1 `bag`.
    pub pieces: Option<Measured>,
    /// The whole weight or volume, in the unit named: 30 lb.
    pub content: Option<Measured>,
    /// Whether the amounts are nominal (`avg`, `CW`, `12/up`): the bill goes by weight, so *Per* must say the unit.
    pub nominal: bool,
    /// How it was read, in plain words: `6 × 5 lb = 30 lb`.
    pub read_as: String,
}

impl Pack {
    /// A pack from its own columns: how many, of what size. A missing `count` is one.
    ///
    /// # Errors
    /// [`Code::NumberOutOfRange`] when there is nothing in it, or more than can be counted.
    pub fn from_parts(count: Option<Decimal>, size: Measured) -> Result<Pack, Fault> {
        let said = match count {
            Some(count) => format!("{} × {size}", crate::number::plain(count)),
            None => size.to_string(),
        };
        let total = mul(count.unwrap_or(Decimal::ONE), size.amount).map_err(|_| refuse::nothing(&said))?;
        if total <= Decimal::ZERO {
            return Err(refuse::nothing(&said));
        }
        let all = Measured::new(total, size.unit);
        let read_as = if count.is_some() { format!("{said} = {all}") } else { said.clone() };
        let counts = all.unit.is_count_like();
        // Six of 8 each are six packages; six of one each are pieces.
        let containers = count.filter(|count| !counts || (*count != total && !all.unit.is_numbered_can()));
        Ok(Pack {
            text: said,
            containers,
            pieces: counts.then(|| all.clone()),
            content: (!counts).then_some(all),
            nominal: false,
            read_as,
        })
    }

    /// Whether it holds more than one inner pack or piece, so that *each* may mean one of them.
    pub fn is_of_several(&self) -> bool {
        let sized = self.pieces.as_ref().and_then(|pieces| {
            let size = pieces.unit.to_base(super::Volumes::Us).map_or(Decimal::ONE, |(_, size)| size);
            mul(pieces.amount, size).ok()
        });
        self.containers.is_some_and(|count| count > Decimal::ONE) || sized.is_some_and(|count| count > Decimal::ONE)
    }

    /// One of its inner packs, where that comes out exactly: 32 oz of `6/32 oz`. Nothing for a pack of pieces.
    pub fn one_of_several(&self) -> Option<Measured> {
        let (content, count) = (self.content.as_ref()?, self.containers?);
        let amount = content.amount.checked_div(count)?;
        (amount.checked_mul(count)? == content.amount).then(|| Measured::new(amount.normalize(), content.unit.clone()))
    }

    /// Whether it says nothing but how many single pieces it holds: `24 ct`, `15 dz`.
    pub fn is_loose_count(&self) -> bool {
        self.content.is_none()
            && self.containers.is_none_or(|count| count == Decimal::ONE)
            && self.pieces.as_ref().is_some_and(|pieces| matches!(pieces.unit, Unit::Standard(_)))
    }

    /// How many units a pack of several has, and one of them: 12 and `32 oz` of `12/32 oz`, 24 and `1 each` of `24 ct`.
    pub fn one_unit(&self) -> Option<(Decimal, Measured)> {
        match (self.containers, &self.pieces) {
            (Some(count), _) if self.content.is_some() => Some((count, self.one_of_several()?)),
            (Some(count), Some(pieces)) => {
                let each = pieces.amount.checked_div(count)?;
                Some((count, Measured::new(each.normalize(), pieces.unit.clone())))
            }
            (None, Some(pieces)) => Some((pieces.amount, Measured::new(Decimal::ONE, pieces.unit.clone()))),
            _ => None,
        }
    }

    /// What `unit` of pieces the pack counts, if it counts in that unit.
    pub fn pieces_in(&self, unit: &Unit) -> Option<Decimal> {
        self.pieces.as_ref().filter(|pieces| pieces.unit == *unit).map(|pieces| pieces.amount)
    }
}

/// Reads a pack.
///
/// # Errors
/// [`Code::PackMissing`] for a blank; [`Code::PackIsADate`], [`Code::PackIsAGrade`], [`Code::PackIsARatio`], [`Code::PackIsAFraction`],
/// [`Code::RangeGiven`], [`Code::UnitMissing`], [`Code::PackConflict`] for the unclear forms of those names;
/// [`Code::PackNotUnderstood`] with its reason for the rest.
pub fn parse_pack(text: &str, marks: Marks) -> Result<Pack, Fault> {
    if is_too_long(text) {
        return Err(refuse::not_understood(text));
    }
    let plain = clean(text);
    if plain.is_empty() {
        return Err(Fault::new(
            Code::PackMissing,
            "there is no pack",
            "Write what the price buys, such as 50 lb or 6/5 lb.",
        ));
    }
    if let Some((day, month)) = date_as_text(&plain) {
        return Err(refuse::date(&plain, day, month));
    }
    // `c. 2 kg` is about two kilos; a cup has no point before its number.
    let about = plain.strip_prefix("c.").map(|rest| format!("about {}", rest.trim_start()));
    let pack = read::read(&plain, lex::lex(about.as_deref().unwrap_or(&plain), marks)?)?;
    // `11⁄2 lb` with the sign that only fractions have.
    if text.contains('\u{2044}') && pack.containers.is_some() {
        return Err(refuse::fraction_sign(&plain));
    }
    Ok(pack)
}

#[cfg(test)]
mod tests;
