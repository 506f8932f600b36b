//! The rows of lists sorted by what they are about: those about an item of the book, made ready to be appended to it.

use std::collections::HashSet;

use jiff::civil::Date;

use super::fill::{self, Complete};
use super::notes::ListNotes;
use super::past::Past;
use super::{Held, NotTaken, PriceList, Unknown};
use crate::costing::price::in_use::HistoryKey;
use crate::in_order::InOrder;
use crate::kitchen::list::matching::{Match, Matcher};
use crate::kitchen::list::{ListOptions, ListRow};
use crate::kitchen::price::PriceRow;
use crate::kitchen::{Field, ItemId, NameKey};
use crate::problem::suggest::quoted_list;
use crate::problem::{Advice, Choice, Code, Fault, THERE};
use crate::schema::Column;

/// A row about an item of the book.
pub(super) struct Candidate {
    /// The list's row.
    pub row: usize,
    /// The item.
    pub item: ItemId,
    /// The supplier, code and pack, as they are compared.
    pub history: HistoryKey,
    /// Since when.
    pub date: Date,
    /// The file.
    pub file: String,
    /// What would be appended to the book.
    pub price: PriceRow,
}

/// The rows so far.
#[derive(Default)]
pub(super) struct Sorted {
    pub candidates: Vec<Candidate>,
    /// The items that the lists speak of.
    pub seen: HashSet<ItemId>,
    /// The suppliers whose lists they are.
    suppliers: HashSet<NameKey>,
    /// Their names as spelled.
    spelled: HashSet<String>,
}

impl Sorted {
    /// Whether the lists are those of `supplier`.
    pub fn is_whose(&self, supplier: &str) -> bool {
        !supplier.is_empty() && (self.spelled.contains(supplier) || self.suppliers.contains(&NameKey::of(supplier)))
    }

    /// Puts aside rows that bear the name of an item but a code that the book does not know, where the lists also have the
    /// item under its code: they are another thing of that name, or another pack of it that the kitchen does not buy.
    pub fn part_from_codes(&mut self, past: &Past<'_>, out: &mut PriceList) {
        let key = |candidate: &Candidate| (candidate.item, candidate.history.0.clone());
        let known = |candidate: &Candidate| past.knows_code(candidate.item, &candidate.history);
        let coded: HashSet<(ItemId, NameKey)> =
            self.candidates.iter().filter(|candidate| known(candidate) == Some(true)).map(key).collect();
        let (others, candidates) = std::mem::take(&mut self.candidates)
            .into_iter()
            .partition(|candidate| known(candidate) == Some(false) && coded.contains(&key(candidate)));
        self.candidates = candidates;
        for Candidate { row, price, .. } in others {
            let what_to_do = format!(
                "The list has “{}” under its code of the book as well. If this is another pack or kind of it that you buy, \
                 add a row to Prices with the code {}.",
                price.item, price.code
            );
            out.unknown.push(Unknown { row, question: None, what_to_do: what_to_do.into() });
        }
        out.unknown.put_in_order_by_key(|unknown| unknown.row);
    }

    /// Takes the next row of a list.
    pub fn take(
        &mut self,
        list: ListRow,
        file: &str,
        (matcher, past, options): (&Matcher<'_>, &Past<'_>, &ListOptions),
        out: &mut PriceList,
        notes: &mut ListNotes,
    ) {
        let ListRow { row, problems } = list;
        let at = out.rows.len();
        out.rows.push(row.clone());
        if !row.supplier.is_empty() && !self.spelled.contains(&row.supplier) {
            self.suppliers.insert(NameKey::of(&row.supplier));
            self.spelled.insert(row.supplier.clone());
        }
        let (item, supplier) = match matcher.find(&row) {
            Match::Item { item, supplier } => (item, supplier.unwrap_or_else(|| row.supplier.clone())),
            Match::Swapped { code, name } => {
                let rows = past.row(code).zip(past.row(name));
                out.problems.extend(rows.map(|(c, n)| swapped(&row, c, n).at(row.input.place(Column::Code))));
                let spoken_of = rows.into_iter().flat_map(|(code, name)| [&code.item, &name.item]);
                self.seen.extend(spoken_of.filter_map(|name| matcher.named(name)));
                out.held.push(Held { row: at, item: None, moved: None, why: NotTaken::CodeOfAnother });
                return;
            }
            Match::CodeOfSeveral(items) => {
                let names: Vec<&str> =
                    items.iter().filter_map(|id| past.kitchen.item(*id)).map(|item| item.name.as_str()).collect();
                let of = format!("In the book the code {} is of {}.", row.code, quoted_list(&names, "and"));
                let what_to_do = Advice::from(of)
                    .then(" Say whose list this is")
                    .choosing(Choice::Supplier)
                    .then(", or correct Code in the book.");
                out.unknown.push(Unknown { row: at, question: None, what_to_do });
                return;
            }
            Match::Nothing => {
                out.unknown.push(unknown(at, &row, matcher));
                return;
            }
        };
        self.seen.insert(item);
        let broken = row.price.is_broken() || row.pack.is_broken() || row.per.is_broken() || row.date.is_broken();
        let unreadable = broken || row.trim_yield.is_broken() || row.until.is_broken();
        out.problems.extend(problems);
        let unread = Held { row: at, item: Some(item), moved: None, why: NotTaken::Unreadable };
        if row.withdrawn {
            // What is offered no more has no price that counts from now on.
            out.held.push(Held { why: NotTaken::Withdrawn, ..unread });
            return;
        }
        if unreadable || row.charges.is_broken() {
            out.held.push(unread);
            return;
        }
        let date = match row.date {
            Field::Given(date) => date,
            _ => {
                notes.undated.insert(file.to_owned());
                options.dated.unwrap_or(past.kitchen.settings.costing_date)
            }
        };
        let today = past.costing.scenario.date;
        if let Some(until) = row.until.given().filter(|until| **until < date.max(today)) {
            let name = past.kitchen.item(item).map_or(row.item.as_str(), |item| item.name.as_str());
            let fault = Fault::new(
                Code::ListEnded,
                format!("this price of “{name}” ended on {until}, before {}", date.max(today)),
                Advice::from("Ask for the price that counts now; or correct Until, or cost an earlier day")
                    .choosing(Choice::AsOf)
                    .then("."),
            );
            out.problems.push(fault.at(row.input.place(Column::Until)));
            out.held.push(Held { row: at, item: Some(item), moved: None, why: NotTaken::Ended });
            return;
        }
        match fill::complete(past, item, &row, &supplier, date) {
            Ok(Complete { price, history, packless }) => {
                if packless {
                    notes.packless.insert(file.to_owned());
                }
                self.candidates.push(Candidate { row: at, item, history, date, file: file.to_owned(), price });
            }
            Err(fault) => {
                out.held.push(unread);
                out.problems.push(fault.at(row.input.place(Column::Price)));
            }
        }
    }
}

fn unknown(at: usize, row: &PriceRow, matcher: &Matcher<'_>) -> Unknown {
    let question = matcher.did_you_mean(&row.item);
    let name = match (row.item.is_empty(), row.code.is_empty()) {
        (true, _) => format!("the code {} in Code of it", row.code),
        (false, true) => format!("“{}” in Also called of it", row.item),
        (false, false) => format!("“{}” in Also called of it, or {} in Code", row.item, row.code),
    };
    let what_to_do = format!("If it is an item of the book, write {name}; if it is new, add a row to Prices.");
    Unknown { row: at, question, what_to_do: what_to_do.into() }
}

/// The fault of a row whose code is of the book's row `code` and whose name is of its row `name`.
fn swapped(row: &PriceRow, code: &PriceRow, name: &PriceRow) -> Fault {
    Fault::new(
        Code::ListCodeSwapped,
        format!(
            "the code {} is of “{}” at {THERE}, but the name is of “{}” at {}",
            row.code,
            code.item,
            name.item,
            name.input.place(Column::Item)
        ),
        "Ask the supplier which is right, and correct the list, or Code in the book.",
    )
    .speaking_of(code.input.place(Column::Code))
}
