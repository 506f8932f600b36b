//! Cells with a number in them: plain, or in a text before its unit, such as `8 fl oz`.

use parings::number::Decimal;
use parings::schema::{Typed, Value};

/// So many places are kept; what lies behind is cut off, so that parts never come to more than what they are parts of.
const PLACES: u32 = 10;

/// The number in a cell; `None` where there is none, or more than one.
pub fn number(typed: &Typed) -> Option<Decimal> {
    match &typed.value {
        Value::Number(number) => Some(*number),
        Value::Text(text) => around(text).map(|(_, number, _)| number),
        _ => None,
    }
}

/// The cell with its number moved by `shift`, or, where it `weighs` so many grams in words such as `4 lb 2 oz`, with that;
/// `None` where it would come to less than nothing.
pub fn shifted(typed: &Typed, weighs: Option<Decimal>, shift: Decimal) -> Option<Typed> {
    if let Some(grams) = weighs {
        let moved = grams.checked_add(shift)?.trunc_with_scale(PLACES).normalize();
        return (moved >= Decimal::ZERO)
            .then(|| Typed { value: Value::Text(format!("{moved} g")), shown: typed.shown.clone() });
    }
    let moved = number(typed)?.checked_add(shift)?.trunc_with_scale(PLACES).normalize();
    if moved < Decimal::ZERO {
        return None;
    }
    let value = match &typed.value {
        Value::Text(text) => {
            let (before, _, behind) = around(text)?;
            Value::Text(format!("{before}{moved}{behind}"))
        }
        _ => Value::Number(moved),
    };
    Some(Typed { value, shown: typed.shown.clone() })
}

/// The one number of a text, with what stands around it.
fn around(text: &str) -> Option<(&str, Decimal, &str)> {
    let start = text.find(|c: char| c.is_ascii_digit())?;
    let (before, rest) = text.split_at_checked(start)?;
    let end = rest.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rest.len());
    let (number, behind) = rest.split_at_checked(end)?;
    // Fractions, thousands marks and decimal commas are left to those who typed them.
    let plain = !before.contains('-') && !behind.starts_with([',', '/']) && !behind.contains(char::is_numeric);
    plain.then(|| number.parse().ok().map(|number| (before, number, behind)))?
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_number_is_moved_and_what_stands_around_it_stays() {
        let typed = |text: &str| Typed::text(text);
        let by = |text: &str, shift: i64| shifted(&typed(text), None, Decimal::new(shift, 1));
        assert_eq!(by("8 fl oz", 5), Some(typed("8.5 fl oz")));
        assert_eq!(by("$25.00", -50), Some(typed("$20")));
        assert_eq!(by("2,5 kg", 5), None, "a decimal comma");
        assert_eq!(by("1 1/2 cup", 5), None);
        assert_eq!(by("4 each, 12 lb", 5), None);
        assert_eq!(by("½ lb", 5), None);
        assert_eq!(by("to taste", 5), None);
        let weighed = shifted(&typed("4 lb 2 oz"), Some(Decimal::new(1871, 0)), Decimal::new(-5, 1));
        assert_eq!(weighed, Some(typed("1870.5 g")));
        assert_eq!(by("3 lb", -31), None, "less than nothing");
        let shown = Typed { shown: parings::schema::Shown::Percent, ..Typed::number(Decimal::new(88, 2)) };
        assert_eq!(
            shifted(&shown, None, Decimal::new(2, 2)).and_then(|typed| number(&typed)),
            Some(Decimal::new(90, 2))
        );
    }
}
