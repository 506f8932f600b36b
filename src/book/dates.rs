//! Dates held as text: by a file, or typed by a person and then only where they can be read in one way.

use jiff::civil::Date;

use crate::in_order::InOrder;
use crate::schema::{Shown, Typed, Value};

const MONTHS: [&str; 12] = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/// A cell whose date a file holds as text, `2026-11-25T00:00:00`, of which the day counts; what is no date stays text.
pub fn iso(text: &str) -> Typed {
    match text.trim().get(..10).and_then(|day| day.parse().ok()) {
        Some(day) => Typed { value: Value::Date(day), shown: Shown::Date },
        None => Typed::trimmed(text),
    }
}

/// Reads `2026-11-20`, `2026/11/20`, `20.11.2026`, `20 Nov 2026`, `Nov 20, 2026`, `20-Nov-26`, and `20/11/2026` or
/// `11/20/2026` where one number is above twelve. `None` for what has two readings or none.
pub fn parse(text: &str) -> Option<Date> {
    let text = text.trim();
    if let Some(day) = serial(text) {
        return Some(day);
    }
    let dotted = text.contains('.') && !text.contains('/');
    let parts: Vec<&str> = text
        .split(|c: char| c.is_whitespace() || matches!(c, '-' | '/' | '.' | ','))
        .filter(|part| !part.is_empty())
        .collect();
    let [a, b, c] = parts.as_slice() else { return None };
    let number = |part: &str| part.parse::<u16>().ok().filter(|_| part.chars().all(|c| c.is_ascii_digit()));
    if let Some(month) = month_named(b) {
        return date(number(c)?, c.len(), month, number(a)?);
    }
    if let Some(month) = month_named(a) {
        return date(number(c)?, c.len(), month, number(b)?);
    }
    let (first, second, third) = (number(a)?, number(b)?, number(c)?);
    if a.len() == 4 {
        return date(first, 4, second, third);
    }
    // `26-11-20` may begin with the year.
    if c.len() != 4 && !(c.len() == 2 && (dotted || text.contains('/'))) {
        return None;
    }
    let length = c.len();
    match (first, second) {
        // With points the day comes first, by the custom of every country that writes them.
        _ if dotted => date(third, length, second, first),
        (day, month) if day > 12 => date(third, length, month, day),
        (month, day) if day > 12 => date(third, length, month, day),
        (a, b) if a == b => date(third, length, a, b),
        _ => None,
    }
}

/// The day that a spreadsheet's number for it, written as text, stands for: 46349 is 2026-11-23, for day 0 is 1899-12-30.
/// Only those from 1990 to 2099 can be nothing else under a heading for dates.
fn serial(text: &str) -> Option<Date> {
    let days: i64 = text.parse().ok().filter(|_| text.len() == 5 && text.bytes().all(|b| b.is_ascii_digit()))?;
    if !(32_874..=73_050).contains(&days) {
        return None;
    }
    Date::new(1899, 12, 30).ok()?.checked_add(jiff::Span::new().try_days(days).ok()?).ok()
}

/// The days that three numbers with slashes may mean: `11/12/2026` is two, `11/20/26` is one that was written too short.
pub fn readings(text: &str) -> Vec<Date> {
    let parts: Vec<&str> = text.trim().split(['/', '-']).map(str::trim).collect();
    let [a, b, year] = parts.as_slice() else { return Vec::new() };
    let number = |part: &str| part.parse::<u16>().ok().filter(|_| part.len() <= 4 && !part.starts_with('+'));
    let (Some(first), Some(second), Some(named)) = (number(a), number(b), number(year)) else { return Vec::new() };
    let mut days: Vec<Date> = [(first, second), (second, first)]
        .into_iter()
        .filter_map(|(month, day)| date(named, year.len(), month, day))
        .collect();
    days.put_in_order();
    days.dedup();
    days
}

fn month_named(text: &str) -> Option<u16> {
    let text = text.to_lowercase();
    let at = MONTHS.iter().position(|month| text.starts_with(month))?;
    u16::try_from(at).ok()?.checked_add(1)
}

fn date(year: u16, digits: usize, month: u16, day: u16) -> Option<Date> {
    let year = match digits {
        4 => year,
        2 => year.checked_add(2000)?,
        _ => return None,
    };
    Date::new(i16::try_from(year).ok()?, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date as on;

    #[test]
    fn dates_with_one_reading_are_read() {
        for text in [
            "2026-11-20",
            "2026/11/20",
            "20.11.2026",
            "20 Nov 2026",
            "Nov 20, 2026",
            "20-Nov-26",
            "20/11/2026",
            "11/20/2026",
            "November 20 2026",
            "11/20/26",
            "20.11.26",
            "46346",
        ] {
            assert_eq!(parse(text), Some(on(2026, 11, 20)), "{text}");
        }
        assert_eq!(parse("5/5/2026"), Some(on(2026, 5, 5)));
    }

    #[test]
    fn the_readings_of_a_doubtful_date_are_told() {
        assert_eq!(readings("11/12/2026"), [on(2026, 11, 12), on(2026, 12, 11)]);
        assert_eq!(readings("5-6-2026"), [on(2026, 5, 6), on(2026, 6, 5)]);
        assert_eq!(readings("11/20/26"), [on(2026, 11, 20)]);
        for text in ["31/31/2026", "5/6", "soon", "1/2/3/4", "+5/6/2026", "5/6/20261", ""] {
            assert_eq!(readings(text), [], "{text}");
        }
    }

    #[test]
    fn dates_with_two_readings_or_none_are_not() {
        for text in ["5/6/2026", "5/6/26", "26-11-20", "12345", "soon", "2026-13-01", "31.2.2026", "20", ""] {
            assert_eq!(parse(text), None, "{text}");
        }
    }
}
