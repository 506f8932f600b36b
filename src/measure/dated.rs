//! Text that is a date, because a spreadsheet made one of `6/5` before the cell became text: `6-May`, `6/5/2026`.
//!
//! Takes text that went through `clean`; gives the day and month.

const MONTHS: &[&str] = &["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/// Day and month of a text that is nothing but a date. Without a day (`May 2026`) it is the first; where both numbers
/// may be the month, the first is taken for it.
pub(super) fn date_as_text(text: &str) -> Option<(u32, u32)> {
    let marks: Vec<char> = text.chars().filter(|c| !c.is_ascii_alphanumeric()).collect();
    let Some(&mark) = marks.first() else {
        // `6May`.
        let digits_first = text.starts_with(|c: char| c.is_ascii_digit());
        let at = text.find(|c: char| c.is_ascii_digit() != digits_first)?;
        let (one, other) = text.split_at_checked(at)?;
        return date_as_text(&format!("{one}-{other}"));
    };
    if !matches!(mark, '-' | '/' | '.' | ' ') || marks.iter().any(|other| *other != mark) {
        return None;
    }
    let parts: Vec<&str> = text.split(mark).collect();
    let number = |part: &str| if part.len() <= 4 { part.parse::<u32>().ok() } else { None };
    let month = |part: &str| {
        let name = part.to_ascii_lowercase();
        let at = MONTHS.iter().position(|month| *month == name)?;
        u32::try_from(at + 1).ok()
    };
    let is_year = |part: &str| part.len() == 4 && (part.starts_with("19") || part.starts_with("20"));
    match parts.as_slice() {
        [named, day] | [day, named] if month(named).is_some() => {
            Some((number(day).map(|day| if (1..=31).contains(&day) { day } else { 1 })?, month(named)?))
        }
        [day, named, year] if month(named).is_some() => number(year).and_then(|_| Some((number(day)?, month(named)?))),
        [year, month, day] | [month, day, year] if is_year(year) && mark != ' ' => {
            let (day, month) = (number(day)?, number(month)?);
            let is_date = |day: u32, month: u32| (1..=31).contains(&day) && (1..=12).contains(&month);
            if is_date(day, month) { Some((day, month)) } else { is_date(month, day).then_some((month, day)) }
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::date_as_text;

    #[test]
    fn dates_are_told_from_packs() {
        for (text, date) in [
            ("6-May", Some((6, 5))),
            ("6May", Some((6, 5))),
            ("6lb", None),
            ("6a7", None),
            ("May-06", Some((6, 5))),
            ("May 2026", Some((1, 5))),
            ("6-May-26", Some((6, 5))),
            ("6/5/2026", Some((5, 6))),
            ("25/6/2026", Some((25, 6))),
            ("2026-06-05", Some((5, 6))),
            ("6/5", None),
            ("4/6/8", None),
            ("6 lb", None),
            ("12 mar lb", None),
            ("40/40/2000", None),
            ("", None),
        ] {
            assert_eq!(date_as_text(text), date, "{text}");
        }
    }
}
