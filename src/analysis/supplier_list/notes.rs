//! Notes said once of a file and not of each of its rows.

use std::collections::{BTreeSet, HashMap};

use indexmap::IndexMap;
use jiff::civil::Date;

use super::candidates::Candidate;
use crate::kitchen::Kitchen;
use crate::kitchen::list::ListOptions;
use crate::problem::{Advice, Choice, Code, Fault, Place, Problem};
use crate::schema::Column;

/// What was seen in which file.
#[derive(Default)]
pub(super) struct ListNotes {
    /// Files of which nothing says whose lists they are.
    pub unknown_supplier: BTreeSet<String>,
    /// Files with rows that bear no date.
    pub undated: BTreeSet<String>,
    /// The days in the titles of files.
    pub titled: HashMap<String, Vec<(Date, Place)>>,
    /// Files without packs.
    pub packless: BTreeSet<String>,
    older: IndexMap<String, OlderRows>,
    doubles: IndexMap<String, (Place, usize)>,
}

/// The rows of a file that are older than the book's.
struct OlderRows {
    first: Place,
    rows: usize,
    dates: (Date, Date),
    newest: Date,
}

impl ListNotes {
    /// Counts a row that is older than the book's newest.
    pub fn older(&mut self, candidate: &Candidate, newest: Date) {
        let date = candidate.date;
        let rows = self.older.entry(candidate.file.clone()).or_insert_with(|| OlderRows {
            first: candidate.price.input.place(Column::Date),
            rows: 0,
            dates: (date, date),
            newest,
        });
        rows.rows = rows.rows.saturating_add(1);
        rows.dates = (rows.dates.0.min(date), rows.dates.1.max(date));
        rows.newest = rows.newest.max(newest);
    }

    /// Counts a row that says again what another says.
    pub fn double(&mut self, candidate: &Candidate) {
        let place = candidate.price.input.place(Column::Item);
        let (_, rows) = self.doubles.entry(candidate.file.clone()).or_insert((place, 0));
        *rows = rows.saturating_add(1);
    }

    /// What to do where prices bear no date and count from `day`: the days in the titles are offered.
    fn offered(&self, file: &str, day: Date) -> Advice {
        const MOST: usize = 3;
        let titled = self.titled.get(file).map_or(&[][..], Vec::as_slice);
        let other = titled.iter().filter(|(date, _)| *date != day);
        let days: Vec<&(Date, Place)> = other.take(MOST).collect();
        let mut advice = match days.as_slice() {
            [] => Advice::from("If they hold since another day, say so").choosing(Choice::Dated(None)),
            [_] => Advice::from("If they hold since the day in the title, say "),
            _ => Advice::from("If they hold since a day in the title, say which: "),
        };
        for (at, (date, place)) in days.into_iter().enumerate() {
            let joint = if at == 0 { "" } else { ", " };
            advice = advice.then(joint).choosing(Choice::Dated(Some(*date))).then(&format!(" ({place})"));
        }
        advice.then(".")
    }

    /// All of it.
    pub fn problems(self, kitchen: &Kitchen, options: &ListOptions) -> Vec<Problem> {
        let mut problems = Vec::new();
        let mut assumed = |file: &str, message: String, help: Advice| {
            problems.push(Fault::new(Code::ListAssumed, message, help).at(Place::file(file)));
        };
        for file in &self.unknown_supplier {
            let message = "nothing says whose list this is, so its rows are matched by their names, and by codes that only \
                           one item has";
            assumed(file, message.to_owned(), Advice::from("Name the supplier").choosing(Choice::Supplier).then("."));
        }
        for file in self.undated.iter().filter(|_| options.dated.is_none()) {
            let day = kitchen.settings.costing_date;
            let message = format!("its prices bear no date, so they count from {day}, the costing date");
            assumed(file, message, self.offered(file, day));
        }
        for file in &self.packless {
            let message = "it does not say what its prices are for, so the packs of the book's rows were taken";
            assumed(file, message.to_owned(), "If a pack has changed, ask the supplier for a list with packs.".into());
        }
        for (_, (place, rows)) in self.doubles {
            let message = if rows == 1 {
                "this row says what another row of the list says; it was taken once".to_owned()
            } else {
                format!("{rows} rows, this one the first, say what other rows of the list say; each was taken once")
            };
            problems.push(Fault::new(Code::ListPassedOver, message, "Nothing to do.").at(place));
        }
        for (_, older) in self.older {
            let (first, last) = older.dates;
            let of = if first == last { format!("of {first}") } else { format!("of {first} to {last}") };
            let (rows, are) =
                if older.rows == 1 { ("1 price".to_owned(), "is") } else { (format!("{} prices", older.rows), "are") };
            let fault = Fault::new(
                Code::ListOlder,
                format!(
                    "{rows} of this list, {of}, {are} older than the book's, the newest of which is of {}",
                    older.newest
                ),
                "They are kept as history and change no price in use. Ask the supplier for the current list.",
            );
            problems.push(fault.at(older.first));
        }
        problems
    }
}
