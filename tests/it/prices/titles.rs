//! What a list says outside its rows: the days in its titles, and headings that nobody knows.

use parings::ListOptions;

use crate::lists::{BOOK, tried, with};

fn undated() -> ListOptions {
    ListOptions { supplier: Some("Green Valley".to_owned()), ..ListOptions::default() }
}

#[test]
fn the_day_in_a_title_is_offered_and_not_taken() {
    let list =
        with(BOOK, "Prices from 9 November 2026,,,\nCode,Item,Pack,Price\n1001,Onions,50 lb,27.00\n", &undated());
    assert_eq!(
        list.told(),
        [
            "list.csv [list-assumed] its prices bear no date, so they count from 2026-11-20, the costing date. If they hold \
          since the day in the title, say --dated 2026-11-09 (list.csv ▸ A1)."
        ]
    );
    assert_eq!(list.taken("Onions").price.date.given().copied(), Some(jiff::civil::date(2026, 11, 20)));
}

#[test]
fn of_several_days_each_is_offered() {
    let list =
        with(BOOK, "Valid Nov 9 2026 to 11/30/2026,,,\nCode,Item,Pack,Price\n1001,Onions,50 lb,27.00\n", &undated());
    assert!(
        list.told()[0].ends_with(
            "If they hold since a day in the title, say which: --dated 2026-11-09 (list.csv ▸ A1), --dated 2026-11-30 \
             (list.csv ▸ A1)."
        ),
        "{:?}",
        list.told()
    );
    // Said already, nothing is offered; without a day in the title the words are as before.
    let dated = ListOptions { dated: Some(jiff::civil::date(2026, 11, 9)), ..undated() };
    assert!(
        with(BOOK, "From 9 Nov 2026,,,\nCode,Item,Pack,Price\n1001,Onions,50 lb,27.00\n", &dated).told().is_empty()
    );
    let plain = with(BOOK, "Produce,,,\nCode,Item,Pack,Price\n1001,Onions,50 lb,27.00\n", &undated());
    assert!(plain.told()[0].ends_with("If they hold since another day, say so with --dated."), "{:?}", plain.told());
}

#[test]
fn the_hint_names_every_heading_that_a_column_could_be_and_codes_as_code() {
    let list = "Artikelnr,Bezeichnung,Marke,Gebinde,ME,Listed,Net amt,Ab\n\
                GV-1001,Onions,Ours,50 lb,cs,29.00,27.00,2026-11-09\n\
                GV-1002,Carrots,Ours,25 lb,cs,22.50,21.00,2026-11-09\n\
                GV-1004,Butter,Theirs,36/1 lb,cs,112.00,108.00,2026-11-09\n";
    let refused =
        tried(BOOK, &[("list.csv", list)], &undated()).err().unwrap().saying(parings::internals::flags_in_words);
    let hint = refused.split("such as ").nth(1).unwrap();
    // GV-1001 has letters and is no name; the brand tells fewer rows apart than the name does.
    assert_eq!(
        hint,
        "--column price=\"Listed\" or --column price=\"Net amt\" --column item=\"Bezeichnung\" or --column item=\"Marke\" \
         --column pack=\"Gebinde\" --column per=\"ME\" --column code=\"Artikelnr\" --column date=\"Ab\""
    );
}
