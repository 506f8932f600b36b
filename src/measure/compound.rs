//! Quantities in several units that add up, `38 lb 12 oz`: their exact sum.
//!
//! Takes the parts; gives the sum in the first unit named, where a decimal holds it, or in the base.

use super::base::{Base, Volumes};
use super::quantity::Measured;
use crate::number::exact::{add, div, mul};
use crate::number::{Decimal, Overflow};

/// Whether the parts are of one kind with ever smaller units.
pub(super) fn descends(parts: &[Measured]) -> bool {
    let sizes: Vec<_> = parts.iter().map(|part| part.unit.to_base(Volumes::Us)).collect();
    sizes.iter().zip(sizes.iter().skip(1)).all(|(a, b)| match (a, b) {
        (Some((base, large)), Some((other, small))) => base == other && large > small,
        _ => false,
    })
}

/// The sum of a compound in its first unit, where a decimal holds it exactly: 38 lb 12 oz is 38.75 lb; 1 tbsp 1 tsp is
/// `None`, as are parts of different kinds.
///
/// # Errors
/// [`Overflow`] when the sum does not fit a decimal.
pub fn compound_in_first(parts: &[Measured], volumes: Volumes) -> Result<Option<Decimal>, Overflow> {
    let Some((base, size)) = parts.first().and_then(|part| part.unit.to_base(volumes)) else {
        return Ok(None);
    };
    let mut total = Decimal::ZERO;
    for part in parts {
        match part.in_base(volumes)? {
            Some((other, amount)) if other == base => total = add(total, amount)?,
            _ => return Ok(None),
        }
    }
    // Ratios of catalogue units that end at all end well before twenty decimals.
    let quotient = div(total, size)?.normalize();
    Ok(if quotient.scale() <= 20 && mul(quotient, size)? == total { Some(quotient) } else { None })
}

/// The sum of a compound's parts in base units; `None` when a part has no size or they are of different kinds.
///
/// # Errors
/// [`Overflow`] when the sum does not fit a decimal.
pub fn compound_in_base(parts: &[Measured], volumes: Volumes) -> Result<Option<(Base, Decimal)>, Overflow> {
    let mut total: Option<(Base, Decimal)> = None;
    for part in parts {
        let Some((base, amount)) = part.in_base(volumes)? else {
            return Ok(None);
        };
        total = match total {
            None => Some((base, amount)),
            Some((other, sum)) if other == base => Some((base, add(sum, amount)?)),
            Some(_) => return Ok(None),
        };
    }
    Ok(total)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{QuantityText, parse_quantity};
    use crate::number::{Marks, plain};

    #[test]
    fn compounds_add_up_exactly_or_say_so() {
        let sum = |text| match parse_quantity(text, Marks::Unknown) {
            Ok(QuantityText::Compound(parts)) => (
                compound_in_first(&parts, Volumes::Us).unwrap().map(plain),
                compound_in_base(&parts, Volumes::Us)
                    .unwrap()
                    .map(|(base, amount)| format!("{} {base}", plain(amount))),
            ),
            other => panic!("{other:?}"),
        };
        // 12 ÷ 16 = 0.75; 38.75 × 453.59237 = 17576.7043375.
        assert_eq!(sum("38 lb 12 oz"), (Some("38.75".to_owned()), Some("17576.7043375 g".to_owned())));
        // 8 ÷ 32 = 0.25; 1.25 × 946.352946 = 1182.9411825.
        assert_eq!(sum("1 qt 8 fl oz"), (Some("1.25".to_owned()), Some("1182.9411825 ml".to_owned())));
        // A teaspoon is a third of a tablespoon: no decimal. 14.78676478125 + 4.92892159375 = 19.715686375.
        assert_eq!(sum("1 tbsp 1 tsp"), (None, Some("19.715686375 ml".to_owned())));
    }
}
