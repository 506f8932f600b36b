//! The days of a plan: in which order they come and how far apart they are.
//!
//! Takes what stands in the Day column, row by row; gives the days in order. Dates, whole numbers (`3`, `Day 3`) and
//! weekdays put themselves in order and say how many days lie between; other words come in the order in which they first
//! appear, and how far apart they are is not known.

use indexmap::IndexMap;
use jiff::civil::Date;

use super::NameKey;
use crate::in_order::InOrder;

/// The days of a plan, in order.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Days {
    /// What each is called, as first typed; empty for rows that name no day.
    pub names: Vec<String>,
    /// Days from the first to each, where that is known.
    pub apart: Option<Vec<i64>>,
}

const WEEKDAYS: [(&str, &str); 7] = [
    ("monday", "mon"),
    ("tuesday", "tue"),
    ("wednesday", "wed"),
    ("thursday", "thu"),
    ("friday", "fri"),
    ("saturday", "sat"),
    ("sunday", "sun"),
];

/// What a day cell says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum DayCell {
    Date(Date),
    Number(i64),
    /// Days after Monday.
    Weekday(i64),
    Words,
}

impl Days {
    /// The days of these cells, each its text and the date it is, if it is one; and for every cell its day, as an index into
    /// the names.
    pub fn of<'a>(cells: impl IntoIterator<Item = (&'a str, Option<Date>)>) -> (Self, Vec<usize>) {
        let mut found: IndexMap<NameKey, (String, DayCell)> = IndexMap::new();
        let mut of_cell = Vec::new();
        for (text, date) in cells {
            let said = said(text, date);
            // `Mon` and `Monday`, `3` and `Day 3`, 1 December typed in two ways: one day.
            let key = match said {
                DayCell::Date(date) => NameKey::of(&date.to_string()),
                DayCell::Number(number) => NameKey::of(&format!("day {number}")),
                DayCell::Weekday(after) => NameKey::of(&format!("weekday {after}")),
                DayCell::Words => NameKey::of(text),
            };
            let entry = found.entry(key);
            of_cell.push(entry.index());
            entry.or_insert_with(|| (text.to_owned(), said));
        }
        let (names, said): (Vec<String>, Vec<DayCell>) = found.into_values().unzip();
        let Some(positions) = positions(&said) else { return (Days { names, apart: None }, of_cell) };
        let mut order: Vec<usize> = (0..names.len()).collect();
        let position = |day: &usize| positions.get(*day).copied().unwrap_or_default();
        order.put_in_order_by_key(position);
        let first = order.first().map(position).unwrap_or_default();
        let mut place = vec![0; names.len()];
        for (at, day) in order.iter().enumerate() {
            place.get_mut(*day).into_iter().for_each(|place| *place = at);
        }
        let sorted = order.iter().filter_map(|day| names.get(*day).cloned()).collect();
        let apart = order.iter().map(|day| position(day).saturating_sub(first)).collect();
        let of_cell = of_cell.iter().map(|day| place.get(*day).copied().unwrap_or_default()).collect();
        (Days { names: sorted, apart: Some(apart) }, of_cell)
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.names.len()
    }

    /// Whether there is none: nothing is planned.
    pub fn is_empty(&self) -> bool {
        self.names.is_empty()
    }

    /// Whether any day is named.
    pub fn are_named(&self) -> bool {
        self.names.iter().any(|name| !name.is_empty())
    }

    /// Days from one to another, both indices into the names, where that is known.
    pub fn between(&self, from: usize, to: usize) -> Option<i64> {
        let apart = self.apart.as_ref()?;
        apart.get(to)?.checked_sub(*apart.get(from)?)
    }
}

fn said(text: &str, date: Option<Date>) -> DayCell {
    if let Some(date) = date {
        return DayCell::Date(date);
    }
    let lower = text.trim().to_lowercase();
    let word = lower.trim_end_matches('.');
    // Three letters or more of a weekday: `tues`, `thurs`.
    let weekday = WEEKDAYS.iter().position(|(whole, short)| whole.starts_with(word) && word.starts_with(short));
    if let Some(after) = weekday.and_then(|at| i64::try_from(at).ok()) {
        return DayCell::Weekday(after);
    }
    let number = lower.strip_prefix("day").map_or(lower.as_str(), str::trim_start);
    number.parse().map_or(DayCell::Words, DayCell::Number)
}

/// Where each stands on one scale of days; `None` unless all are of one kind that has one.
fn positions(said: &[DayCell]) -> Option<Vec<i64>> {
    match said.first()? {
        DayCell::Date(first) => {
            let days = |other: &DayCell| match other {
                DayCell::Date(date) => {
                    date.since((jiff::Unit::Day, *first)).ok().map(|span| i64::from(span.get_days()))
                }
                _ => None,
            };
            said.iter().map(days).collect()
        }
        DayCell::Number(_) => {
            said.iter().map(|said| if let DayCell::Number(number) = said { Some(*number) } else { None }).collect()
        }
        DayCell::Weekday(_) => {
            let after: Vec<i64> = said
                .iter()
                .map(|said| if let DayCell::Weekday(after) = said { Some(*after) } else { None })
                .collect::<Option<_>>()?;
            Some(from_shortest_week(&after))
        }
        DayCell::Words => None,
    }
}

/// Weekdays name no week: they are taken to lie as close together as they can, `Fri, Sat, Sun, Mon` in four days. Where
/// two beginnings are as close, the one named first counts.
fn from_shortest_week(after: &[i64]) -> Vec<i64> {
    let from = |start: i64| -> Vec<i64> { after.iter().map(|day| day.saturating_sub(start).rem_euclid(7)).collect() };
    let span = |start: &&i64| from(**start).into_iter().max().unwrap_or_default();
    after.iter().min_by_key(span).map_or_else(Vec::new, |start| from(*start))
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    fn of(cells: &[&str]) -> (String, Option<Vec<i64>>, Vec<usize>) {
        let (days, of_cell) = Days::of(cells.iter().map(|text| (*text, text.parse().ok())));
        (days.names.join(" "), days.apart, of_cell)
    }

    #[test]
    fn days_that_have_an_order_come_in_it() {
        for (cells, names, apart, of_cell) in [
            (&["2026-11-27", "2026-11-25"][..], "2026-11-25 2026-11-27", &[0, 2][..], &[1, 0][..]),
            (&["2026-12-01", "2026-11-28"], "2026-11-28 2026-12-01", &[0, 3], &[1, 0]),
            (&["3", "Day 1", "day 3"], "Day 1 3", &[0, 2], &[1, 0, 1]),
            (&["Tue", "Mon", "Tuesday"], "Mon Tue", &[0, 1], &[1, 0, 1]),
            // From Friday over the weekend to Monday are 3 days; from Monday to Sunday would be 6.
            (&["Mon", "Fri", "Sat", "Sun"], "Fri Sat Sun Mon", &[0, 1, 2, 3], &[3, 0, 1, 2]),
            (&["Mon", "Thurs."], "Mon Thurs.", &[0, 3], &[0, 1]),
        ] {
            assert_eq!(of(cells), (names.to_owned(), Some(apart.to_vec()), of_cell.to_vec()), "{cells:?}");
        }
    }

    #[test]
    fn other_words_come_as_they_appear() {
        for (cells, names) in [
            (&["Lunch", "Dinner", "lunch"][..], "Lunch Dinner"),
            (&["Tue", "Banquet", "Mon"], "Tue Banquet Mon"),
            (&["2", "2026-11-27"], "2 2026-11-27"),
            (&["Mo", "T"], "Mo T"),
        ] {
            let (seen, apart, _) = of(cells);
            assert_eq!((seen.as_str(), apart), (names, None), "{cells:?}");
        }
    }

    #[test]
    fn days_are_counted_only_where_they_are_known() {
        let (days, _) = Days::of([("a", Some(date(2026, 11, 27))), ("b", Some(date(2026, 12, 2)))]);
        assert_eq!((days.between(0, 1), days.between(1, 0), days.between(0, 2)), (Some(5), Some(-5), None));
        let (none, of_cell) = Days::of([("", None), ("", None)]);
        assert_eq!((none.len(), none.are_named(), none.between(0, 0), of_cell), (1, false, None, vec![0, 0]));
        assert!(Days::of([]).0.is_empty());
    }
}
