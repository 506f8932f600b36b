//! New prices, told: what moved, what it does to the dishes and why, the basket as a whole, and what is left to do.

mod dishes;
mod lists;
mod prices;
mod within;

use jiff::civil::Date;

use super::width::hang;
use super::{Emphasis, View, printable};
use crate::measure::currency;
use crate::number::Decimal;
use crate::results::changes::Changes;

/// The most rows of a table; the others are counted.
const MOST: usize = 25;

/// The whole report.
pub fn reprice(changes: &Changes<'_>, view: View) -> String {
    let places = currency::minor_digits(&changes.new.settings.currency);
    let page = RepricePage { changes, view, places };
    let mut out = page.heading();
    out.push_str(&lists::files(&page));
    let sections = [
        lists::held(&page),
        prices::movers(&page),
        dishes::dishes(&page),
        dishes::reasons(&page),
        within::within(&page),
        prices::index(&page),
        prices::switches(&page),
        lists::unknown(&page),
        lists::missing(&page),
    ];
    for section in sections.iter().filter(|section| !section.is_empty()) {
        out.push('\n');
        out.push_str(section);
    }
    out
}

/// What everything on the page is written with.
struct RepricePage<'a> {
    changes: &'a Changes<'a>,
    view: View,
    places: u32,
}

impl RepricePage<'_> {
    fn heading(&self) -> String {
        let day = self.changes.now.scenario.date;
        let currency = &self.changes.new.settings.currency;
        let money = if currency.is_empty() { String::new() } else { format!(" in {}", printable(currency)) };
        let moved = self.changes.moved_from.map(|from| {
            format!(
                " The book's own day is {from}; the new prices count from {day} only, so both sides are of that day."
            )
        });
        let mut out = self.say(&format!("Costed on {day}{money}, before and after.{}", moved.unwrap_or_default()));
        let dates = self.changes.list.taken.iter().filter_map(|taken| taken.price.date.given());
        let later: Vec<Date> = dates.copied().filter(|date| *date > day).collect();
        if let Some(last) = later.iter().max() {
            let count = if later.len() == 1 { "counts" } else { "count" };
            out.push_str(&self.say(&format!(
                "{} {count} from a later day and {} nothing here: --as-of {last} costs that day.",
                super::many(later.len(), "new price", "new prices"),
                if later.len() == 1 { "changes" } else { "change" },
            )));
        }
        out
    }

    fn title(&self, text: &str) -> String {
        format!("{}\n", Emphasis::Strong.on(&printable(text), self.view))
    }

    /// A paragraph.
    fn say(&self, text: &str) -> String {
        hang("", &printable(text), self.view.width)
    }

    /// One of several.
    fn point(&self, text: &str) -> String {
        hang("- ", &printable(text), self.view.width)
    }

    fn money(&self, amount: Decimal) -> String {
        let sign = currency::sign_of(&self.changes.new.settings.currency);
        format!("{sign}{}", crate::results::figures::shown(Some(amount), self.places))
    }

    /// Money with its sign: `+0.12`.
    fn moved(&self, amount: Decimal, places: u32) -> String {
        let shown = crate::results::figures::shown(Some(amount), places);
        if amount > Decimal::ZERO && !shown.starts_with('-') { format!("+{shown}") } else { shown }
    }

    /// What is not shown of a long table.
    fn more(&self, rows: usize) -> String {
        match rows.saturating_sub(MOST) {
            0 => String::new(),
            more => self.say(&format!("… and {more} more: --format csv or json has them all.")),
        }
    }
}
