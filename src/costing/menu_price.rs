//! Menu prices: tax taken out and put back, food-cost %, margin, and the price that meets a target.

use crate::kitchen::settings::PriceRounding;
use crate::number::{Decimal, Overflow, exact, rounding};

/// The decimals at which a dish counts as over its target.
const OVER_PLACES: u32 = 9;

/// Menu price without the tax within it.
///
/// # Errors
/// [`Overflow`] when it does not fit.
pub fn without_tax(menu_price: Decimal, tax: Decimal) -> Result<Decimal, Overflow> {
    if tax.is_zero() { Ok(menu_price) } else { exact::div(menu_price, exact::add(Decimal::ONE, tax)?) }
}

/// The menu price at which `portion_cost` is `target` of the price without tax, rounded up as the house rounds.
///
/// # Errors
/// [`Overflow`] when it does not fit, or the target is zero.
pub fn at_target(
    portion_cost: Decimal,
    target: Decimal,
    tax: Decimal,
    house: PriceRounding,
) -> Result<Decimal, Overflow> {
    let with_tax = exact::mul(portion_cost, exact::add(Decimal::ONE, tax)?)?;
    round(exact::div(with_tax, target)?, house)
}

/// `price` up to the house's step or ending; a price already on it stays.
fn round(price: Decimal, house: PriceRounding) -> Result<Decimal, Overflow> {
    match house {
        PriceRounding::None => Ok(price),
        PriceRounding::Step(step) => exact::mul(rounding::round_up_steps(exact::div(price, step)?), step),
        PriceRounding::Ending(ending) => {
            let whole = rounding::round_up_steps(exact::sub(price, ending)?).max(Decimal::ZERO);
            exact::add(whole, ending)
        }
    }
}

/// By how much of one a food-cost fraction is over its target; zero when it is not.
///
/// # Errors
/// [`Overflow`] when it does not fit.
pub fn over(food_cost: Decimal, target: Decimal) -> Result<Decimal, Overflow> {
    let over = exact::sub(food_cost, target)?;
    Ok(if rounding::half_up(over, OVER_PLACES) > Decimal::ZERO { over } else { Decimal::ZERO })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn d(text: &str) -> Decimal {
        text.parse().unwrap()
    }

    #[test]
    fn a_price_on_the_step_stays_and_others_go_up() {
        // 2.10 ÷ 0.30 = 7.00, on a step of 0.25; 2.11 ÷ 0.30 = 7.0333…, up to 7.25.
        let step = PriceRounding::Step(d("0.25"));
        assert_eq!(at_target(d("2.10"), d("0.30"), Decimal::ZERO, step), Ok(d("7.00")));
        assert_eq!(at_target(d("2.11"), d("0.30"), Decimal::ZERO, step), Ok(d("7.25")));
    }

    #[test]
    fn an_ending_is_reached_from_below_and_never_below_itself() {
        // 2.10 ÷ 0.30 = 7.00 → 7.95; 2.385 ÷ 0.30 = 7.95 stays; 0.03 ÷ 0.30 = 0.10 → 0.95.
        let ending = PriceRounding::Ending(d("0.95"));
        assert_eq!(at_target(d("2.10"), d("0.30"), Decimal::ZERO, ending), Ok(d("7.95")));
        assert_eq!(at_target(d("2.385"), d("0.30"), Decimal::ZERO, ending), Ok(d("7.95")));
        assert_eq!(at_target(d("0.03"), d("0.30"), Decimal::ZERO, ending), Ok(d("0.95")));
    }

    #[test]
    fn tax_is_taken_out_and_put_back() {
        // 11.00 with 10 % within is 10.00; a cost of 3.00 at 30 % is 10.00, with tax 11.00.
        assert_eq!(without_tax(d("11.00"), d("0.10")), Ok(d("10")));
        assert_eq!(at_target(d("3.00"), d("0.30"), d("0.10"), PriceRounding::None), Ok(d("11")));
    }

    #[test]
    fn a_target_of_zero_is_a_fault() {
        assert_eq!(at_target(Decimal::ONE, Decimal::ZERO, Decimal::ZERO, PriceRounding::None), Err(Overflow));
    }
}
