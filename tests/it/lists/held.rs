//! What is held back until it is named, and what no name takes.

use parings::ListOptions;
use parings::analysis::supplier_list::{Change, NotTaken};
use parings::problem::Choice;

use super::{BOOK, compared, dec, of_green_valley, tried, with};

fn accepting(item: &str) -> ListOptions {
    ListOptions { accepted: vec![item.to_owned()], ..of_green_valley() }
}

#[test]
fn a_jump_is_held_back_until_it_is_named() {
    let list = "Code,Item,Pack,Price\n1001,Onions,50 lb,$41.60\n1002,Carrots,25 lb,$8.00\n";
    let held = compared(list);
    assert!(held.list.taken.is_empty());
    assert_eq!(held.whys(), [NotTaken::Jump, NotTaken::Jump]);
    // 41.60 ÷ 26.00 = 1.6, and 8.00 ÷ 20.00 = 0.4.
    assert_eq!(
        held.told(),
        [
            "list.csv ▸ D2 [list-price-jumps] “Onions” rises by 60 % per unit, from $26 for 50 lb at book.csv ▸ C3 to \
             $41.60 for 50 lb, so it was held back. If it is right, take it with --accept \"Onions\"; or allow more than \
             50 % for all.",
            "list.csv ▸ D3 [list-price-jumps] “Carrots” falls by 60 % per unit, from $20 for 25 lb at book.csv ▸ C4 to $8 \
             for 25 lb, so it was held back. If it is right, take it with --accept \"Carrots\"; or allow more than 50 % \
             for all.",
        ]
    );
    // Who calls the library says how: without its words no flag is named, and the choice is there as a value.
    let help = &held.list.problems[0].help;
    assert_eq!(*help, "If it is right, take it; or allow more than 50 % for all.");
    assert_eq!(help.choices().collect::<Vec<_>>(), [&Choice::Accept("Onions".to_owned())]);
    let named = with(BOOK, list, &accepting("onion"));
    assert_eq!((&named.moved("Onions").change, named.by("Onions")), (&Change::Rise, dec("0.6")));
    assert_eq!(named.whys(), [NotTaken::Jump]);
    assert!(named.list.accepted_in_vain.is_empty());
    let wide = with(BOOK, list, &ListOptions { bound: dec("0.6"), ..of_green_valley() });
    assert_eq!(wide.list.taken.len(), 2, "the bound itself is allowed");
}

#[test]
fn a_name_under_which_nothing_is_held_is_told() {
    let list = "Code,Item,Pack,Price\n1001,Onions,50 lb,26.00\n";
    assert_eq!(with(BOOK, list, &accepting("Onions")).list.accepted_in_vain, ["Onions"]);
    assert_eq!(with(BOOK, list, &accepting("Saffron")).list.accepted_in_vain, ["Saffron"]);
}

#[test]
fn a_price_per_pound_where_it_was_per_case_is_held_back() {
    // 0.55 × 50 = 27.50, near 26.00.
    let slip = compared("Code,Item,Pack,Price\n1001,Onions,50 lb,$0.55\n");
    assert_eq!(slip.held("Onions").why, NotTaken::Slip);
    assert_eq!(
        slip.told(),
        [
            "list.csv ▸ D2 [list-unit-slips] “Onions” was $26 for 50 lb at book.csv ▸ C3; $0.55 for 50 lb looks like the \
          price of 1 lb, so it was held back. If so, say in Per or Pack of the list what the price is for; if not, take it \
          with --accept \"Onions\"."
        ]
    );
    // 36 × 1 lb at 3.10: 3.10 × 36 = 111.60, near 108.00.
    let inner = compared("Code,Item,Pack,Price\n1003,Butter,36/1 lb,$3.10\n");
    assert!(inner.told()[0].contains("$3.10 for 36/1 lb looks like the price of 1 lb, so"), "{:#?}", inner.told());
    // Said in so many words it is no slip: 0.55 a pound against 0.52.
    let said = compared("Code,Item,Pack,Price,Per\n1001,Onions,50 lb,$0.55,lb\n");
    assert_eq!(said.moved("Onions").change, Change::Rise);
}

#[test]
fn a_price_per_kilo_where_the_pack_is_in_pounds_is_held_back() {
    // 50 lb are 22.68 kg: 1.20 × 22.68 = 27.21, near 26.00.
    let slip = compared("Code,Item,Pack,Price\n1001,Onions,50 lb,$1.20\n");
    assert!(slip.told()[0].contains("$1.20 for 50 lb looks like the price of 1 kg"), "{:#?}", slip.told());
}

#[test]
fn a_price_per_case_where_it_was_per_pound_is_held_back() {
    let options = ListOptions { supplier: Some("The Poultry Man".to_owned()), ..of_green_valley() };
    // 2 × 20 lb at 1.80 are 72.00.
    let slip = with(BOOK, "Code,Item,Pack,Price,Per\n77,Chicken,2/20 lb avg,$76.00,lb\n", &options);
    assert_eq!(slip.held("Chicken").why, NotTaken::Slip);
    assert_eq!(
        slip.told(),
        [
            "list.csv ▸ D2 [list-unit-slips] “Chicken” was $1.80 per lb at book.csv ▸ C6; $76 per lb looks like the price of \
          the whole pack, so it was held back. If so, say in Per or Pack of the list what the price is for; \
          if not, take it with --accept \"Chicken\"."
        ]
    );
}

#[test]
fn where_the_book_is_the_one_that_slipped_it_is_told() {
    let book = BOOK.replace("$26.00", "$0.52");
    let slip = with(&book, "Code,Item,Pack,Price\n1001,Onions,50 lb,$26.50\n", &of_green_valley());
    assert_eq!(
        slip.told(),
        [
            "list.csv ▸ D2 [list-unit-slips] “Onions” was $0.52 for 50 lb at book.csv ▸ C3, which looks like the price of 1 \
          lb; so $26.50 for 50 lb was held back. If so, correct that row of the book; if not, take it with --accept \
          \"Onions\"."
        ]
    );
    // Both say what they are for: no slip explains it, so it is a jump.
    let said = compared("Code,Item,Pack,Price,Per\n1001,Onions,50 lb,$0.01,lb\n");
    assert_eq!(said.whys(), [NotTaken::Jump]);
}

#[test]
fn a_slip_may_be_accepted_too() {
    let list = "Code,Item,Pack,Price\n1001,Onions,50 lb,$0.55\n";
    assert_eq!(with(BOOK, list, &accepting("Onions")).moved("Onions").change, Change::Fall);
}

#[test]
fn swapped_codes_are_never_taken() {
    let list = "Code,Item,Pack,Price\n1002,Onions,50 lb,$26.00\n1001,Carrots,25 lb,$20.00\n";
    let options = ListOptions { accepted: vec!["Onions".to_owned(), "Carrots".to_owned()], ..of_green_valley() };
    for swapped in [compared(list), with(BOOK, list, &options)] {
        assert!(swapped.list.taken.is_empty());
        assert_eq!(swapped.whys(), [NotTaken::CodeOfAnother, NotTaken::CodeOfAnother]);
        assert_eq!(
            swapped.told(),
            [
                "list.csv ▸ A2 [list-code-swapped] the code 1002 is of “Carrots” at book.csv ▸ F4, but the name is of \
                 “Onions” at book.csv ▸ A2. Ask the supplier which is right, and correct the list, or Code in the book.",
                "list.csv ▸ A3 [list-code-swapped] the code 1001 is of “Onions” at book.csv ▸ F2, but the name is of \
                 “Carrots” at book.csv ▸ A4. Ask the supplier which is right, and correct the list, or Code in the book.",
            ]
        );
        assert_eq!(swapped.missing(), ["Butter"], "both were spoken of");
    }
}

#[test]
fn another_sign_than_the_books_is_an_error_at_its_cell() {
    let euros = compared("Code,Item,Pack,Price\n1001,Onions,50 lb,€26.00\n1002,Carrots,25 lb,$20.00\n");
    assert_eq!(
        euros.told(),
        [
            "list.csv ▸ D2 [currency-mixed] “€” stands here, but the book is in USD. Type the amount in USD, or correct the \
          sign or the Currency setting."
        ]
    );
    assert_eq!(euros.held("Onions").why, NotTaken::Unreadable);
    assert_eq!(euros.list.taken.len(), 1);
    // A book that shows no sign takes what a list says, if the list agrees with itself.
    let bare = BOOK.replace('$', "");
    let mixed = "Code,Item,Pack,Price\n1001,Onions,50 lb,€26.00\n1002,Carrots,25 lb,€20.00\n1003,Butter,36/1 lb,$108\n";
    assert_eq!(with(&bare, mixed, &of_green_valley()).held("Butter").why, NotTaken::Unreadable);
}

#[test]
fn free_of_charge_is_no_ordinary_price() {
    let free = compared("Code,Item,Pack,Price\n1001,Onions,50 lb,$0\n");
    assert_eq!(free.held("Onions").why, NotTaken::Jump);
    let book = BOOK.replace("$26.00", "$0");
    let dear = with(&book, "Code,Item,Pack,Price\n1001,Onions,50 lb,$26\n", &of_green_valley());
    assert!(dear.told()[0].contains("“Onions” was free and is not any more, from $0 for 50 lb"), "{:#?}", dear.told());
    assert!(tried(&book, &[("list.csv", "Code,Price\n1001,0\n")], &of_green_valley()).is_ok());
}
