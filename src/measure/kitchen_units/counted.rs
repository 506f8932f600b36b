//! Amounts counted: whole, in halves and quarters where the recipe counts so or there is less than one.

use super::{InKitchenUnits, KitchenPart, Rounding, steps};
use crate::measure::standard::StandardUnit;
use crate::measure::{Measured, Unit, Volumes};
use crate::number::{Decimal, Overflow, exact, plain};

const HALF: Decimal = Decimal::from_parts(5, 0, 0, false, 1);
const QUARTER: Decimal = Decimal::from_parts(25, 0, 0, false, 2);

/// Pieces, cans, bunches: whole ones, in the halves or quarters in which the recipe counts, in quarters of less than one.
pub(super) fn pieces(
    amount: Decimal,
    unit: &Unit,
    typed: Decimal,
    rounding: Rounding,
) -> Result<Option<InKitchenUnits>, Overflow> {
    let counts_in = |step: Decimal| exact::div(typed, step).is_ok_and(|many| many.is_integer());
    let step = if amount < Decimal::ONE {
        QUARTER
    } else if counts_in(Decimal::ONE) || amount >= Decimal::TEN {
        Decimal::ONE
    } else if !counts_in(HALF) && counts_in(QUARTER) && amount < Decimal::from(3) {
        QUARTER
    } else if counts_in(QUARTER) {
        HALF
    } else {
        Decimal::ONE
    };
    in_steps(amount, unit, step, rounding)
}

/// Of what is in no ladder (bushels, bottles of wine): in quarters, halves or whole ones by its size.
pub(super) fn in_parts(amount: Decimal, unit: &Unit, rounding: Rounding) -> Result<Option<InKitchenUnits>, Overflow> {
    let step = match amount {
        few if few < Decimal::from(4) => QUARTER,
        some if some < Decimal::TEN => HALF,
        _ => Decimal::ONE,
    };
    in_steps(amount, unit, step, rounding)
}

/// Pieces and dozens of them: in dozens where those are whole.
pub(super) fn many(
    amount: Decimal,
    unit: StandardUnit,
    typed: Decimal,
    rounding: Rounding,
    volumes: Volumes,
) -> Result<Option<InKitchenUnits>, Overflow> {
    let size = unit.to_base(volumes);
    if size == Decimal::ONE {
        return pieces(amount, &Unit::Standard(unit), typed, rounding);
    }
    let single = steps(exact::mul(amount, size)?, Decimal::ONE, rounding)?;
    if single.is_zero() {
        return Ok(None);
    }
    let whole = exact::div(single, size)?;
    let part = match whole.is_integer() {
        true => KitchenPart::decimal(whole, Unit::Standard(unit)),
        false => KitchenPart::decimal(single, Unit::each()),
    };
    Ok(Some(InKitchenUnits::one(part)))
}

fn in_steps(
    amount: Decimal,
    unit: &Unit,
    step: Decimal,
    rounding: Rounding,
) -> Result<Option<InKitchenUnits>, Overflow> {
    let many = exact::mul(steps(amount, step, rounding)?, step)?;
    if many.is_zero() {
        return Ok(None);
    }
    let whole = many.trunc();
    let part = match exact::sub(many, whole)? {
        part if part.is_zero() => None,
        part if part == HALF => Some("1/2"),
        part if part == QUARTER => Some("1/4"),
        _ => Some("3/4"),
    };
    let written = match part {
        None => plain(whole),
        Some(part) if whole.is_zero() => part.to_owned(),
        Some(part) => format!("{} {part}", plain(whole)),
    };
    let measured = Measured::new(many.normalize(), unit.clone());
    Ok(Some(InKitchenUnits::one(KitchenPart { measured, written })))
}
