//! Laws of lists of chance beside books of chance: every row is accounted for once, what is taken can be costed, and a list
//! that is taken twice changes nothing.

use std::collections::BTreeMap;

use parings::{ListOptions, Source, read_list};
use proptest::prelude::*;
use proptest::sample::select;

use super::{of_green_valley, tried};
use crate::support::chance;

const ITEMS: &[&str] = &["Onions", "onion", "Carrots", "Butter", "Unsalted butter", "Saffron", "Carots", ""];
const CODES: &[&str] = &["1001", "1002", "1003", "77", "9", ""];
const PACKS: &[&str] = &["50 lb", "25 lb", "36/1 lb", "40 ct", "6/5", "2/20 lb avg", "10 kg", "12 ct 6 lb", ""];
const PRICES: &[&str] = &["$25.00", "26", "0.52", "MKT", "€9", "", "0", "-3", "1,234", "99999999999999999999999999"];
const PERS: &[&str] = &["", "", "lb", "case", "each", "nonsense"];
const SUPPLIERS: &[&str] = &["Green Valley", "The Poultry Man", "Harbour Foods", ""];
const DATES: &[&str] = &["", "2026-10-01", "2026-11-01", "2025-11-01", "2026-12-24", "someday"];
const YIELDS: &[&str] = &["", "", "80%", "150%"];

fn line(yes: bool) -> impl Strategy<Value = String> {
    let preferred = if yes { &["", "yes"][..] } else { &[""][..] };
    (
        (select(ITEMS), select(CODES), select(PACKS), select(PRICES)),
        (select(PERS), select(SUPPLIERS), select(DATES), select(YIELDS), select(preferred)),
    )
        .prop_map(|((item, code, pack, price), (per, supplier, date, left, preferred))| {
            format!("{item},{code},{pack},\"{price}\",{per},{supplier},{date},{left},{preferred}\n")
        })
}

fn table(yes: bool) -> impl Strategy<Value = String> {
    let head = "Item,Code,Pack,Price,Per,Supplier,Date,Yield,Preferred\n";
    prop::collection::vec(line(yes), 1..12).prop_map(move |lines| format!("{head}{}", lines.concat()))
}

proptest! {
    #![proptest_config(chance(24))]

    #[test]
    fn every_row_is_accounted_for_and_once_is_enough(book in table(true), list in table(false), told in any::<bool>()) {
        let options = if told { of_green_valley() } else { ListOptions::default() };
        let Ok(compared) = tried(&book, &[("list.csv", &list)], &options) else { return Ok(()) };
        let found = &compared.list;
        let mut seen: BTreeMap<usize, usize> = BTreeMap::new();
        let rows = found.taken.iter().map(|taken| taken.row).chain(found.held.iter().map(|held| held.row));
        let rows = rows.chain(found.older.iter().map(|older| older.row)).chain(found.already.iter().copied());
        for row in rows.chain(found.unknown.iter().map(|unknown| unknown.row)) {
            *seen.entry(row).or_default() += 1;
        }
        prop_assert!(seen.values().all(|times| *times == 1), "{:?}", seen);
        // What is not among them says what another row says.
        let doubled = found.problems.iter().any(|problem| problem.code.name() == "list-passed-over");
        prop_assert!(seen.len() == found.rows.len() || doubled, "{:?} of {}", seen, found.rows.len());

        // No new row makes two prices of one day.
        let twice = |costing: &parings::Costing| {
            costing.problems.iter().filter(|problem| problem.code.name() == "price-row-twice").count()
        };
        let before = parings::cost(&compared.reading.kitchen, &parings::Scenario::of(&compared.reading.kitchen));
        let (reading, costing) = compared.repriced();
        prop_assert!(twice(&costing) <= twice(&before), "{:#?}", costing.problems);
        let source = Source { name: "list.csv", bytes: list.as_bytes() };
        let again = read_list(&reading, &costing, &[source], &options).unwrap();
        // A code that the list has taught the book may find another row; none is taken twice.
        let new_rows = |list: &parings::PriceList| -> Vec<usize> {
            let older = list.older.iter().map(|older| older.row);
            list.taken.iter().map(|taken| taken.row).chain(older).collect()
        };
        let first = new_rows(found);
        prop_assert!(new_rows(&again).iter().all(|row| !first.contains(row)), "{book}\n{list}\n{:#?}", compared.told());
    }

    #[test]
    fn no_text_is_too_odd_to_be_refused_or_read(list in "[\\PC\n,\"]{0,120}", heading in "\\PC{0,12}") {
        let columns = vec![(parings::schema::Column::Price, heading)];
        let _ = tried(super::BOOK, &[("list.csv", &list)], &ListOptions { columns, ..of_green_valley() });
        let _ = tried(super::BOOK, &[("list.csv", &format!("Item,Price,{list}"))], &of_green_valley());
    }
}
