//! Matching by code, name and other names; what matches nothing; what is missing.

use parings::ListOptions;

use super::{BOOK, compared, of_green_valley, with};

#[test]
fn a_code_matches_whatever_the_supplier_calls_it() {
    let list = "Item no,Description,Pack,Price\n1001,ONION YEL JBO,50 lb,27.00\n";
    let taken = compared(list);
    let price = &taken.taken("Onions").price;
    assert_eq!((price.code.as_str(), price.supplier.as_str()), ("1001", "Green Valley"));
}

#[test]
fn another_name_matches_and_the_row_is_spelled_as_the_book_spells_it() {
    let taken = compared("Description,Pack,Price\nunsalted  BUTTER,36/1 lb,110.00\n");
    let price = &taken.taken("Butter").price;
    assert_eq!((price.item.as_str(), price.code.as_str()), ("Butter", "1003"));
}

#[test]
fn what_matches_nothing_is_listed_with_what_to_do() {
    let list = "Code,Item,Pack,Price\n2001,Carrots baby,5 lb,9.00\n2002,Saffron,1 oz,80.00\n,Parsley,6 lb,9.00\n2003,,6 lb,9.00\n";
    let none = compared(list);
    assert!(none.list.taken.is_empty() && none.list.problems.is_empty());
    let told: Vec<String> = none
        .list
        .unknown
        .iter()
        .map(|one| format!("{} {}", one.question.clone().unwrap_or_default(), one.what_to_do))
        .collect();
    assert_eq!(
        told,
        [
            "Did you mean “Carrots”? If it is an item of the book, write “Carrots baby” in Also called of it, or 2001 in \
             Code; if it is new, add a row to Prices.",
            " If it is an item of the book, write “Saffron” in Also called of it, or 2002 in Code; if it is new, add a row \
             to Prices.",
            " If it is an item of the book, write “Parsley” in Also called of it; if it is new, add a row to Prices.",
            " If it is an item of the book, write the code 2003 in Code of it; if it is new, add a row to Prices.",
        ]
    );
}

#[test]
fn faults_of_what_is_not_bought_are_nobodys_business() {
    let list = "Code,Item,Pack,Price\n3001,Prawns 16/20,16/20 ct,80.00\n1001,Onions,6/5,27.00\n";
    let faults = compared(list);
    assert_eq!(faults.list.unknown.len(), 1);
    let told = faults.told();
    assert!(told.len() == 1 && told[0].starts_with("list.csv ▸ C3 [pack-is-a-ratio]"), "{told:#?}");
}

#[test]
fn a_code_of_another_supplier_says_nothing() {
    let options = ListOptions { supplier: Some("Harbour Foods".to_owned()), ..of_green_valley() };
    let other = with(BOOK, "Code,Item,Pack,Price\n1001,Tuna loin,10 lb,140.00\n", &options);
    assert_eq!((other.list.unknown.len(), other.list.taken.len()), (1, 0));
}

#[test]
fn a_code_without_a_supplier_matches_only_when_one_item_has_it() {
    let unknown = ListOptions { supplier: None, ..of_green_valley() };
    let list = "Code,Description,Pack,Price\n1001,Yellow,50 lb,27.00\n";
    let one = with(BOOK, list, &unknown);
    assert_eq!(one.taken("Onions").price.supplier, "Green Valley", "the code is theirs");
    assert_eq!(
        one.told(),
        [
            "list.csv [list-assumed] nothing says whose list this is, so its rows are matched by their names, and by codes \
          that only one item has. Name the supplier with --supplier."
        ]
    );
    let book = format!("{BOOK}Tuna,10 lb,$140.00,,Harbour Foods,1001,2026-10-01,,,\n");
    let two = with(&book, list, &unknown);
    assert!(two.list.taken.is_empty());
    let advice = &two.list.unknown[0].what_to_do;
    assert_eq!(
        *advice,
        "In the book the code 1001 is of “Onions” and “Tuna”. Say whose list this is, or correct Code in the book."
    );
    assert!(
        advice.saying(parings::internals::flags_in_words).contains("whose list this is with --supplier, or correct")
    );
    // Its name tells it apart.
    let named = with(&book, "Code,Description,Pack,Price\n1001,Onions,50 lb,27.00\n", &unknown);
    assert_eq!(named.taken("Onions").price.code, "1001");
}

#[test]
fn what_the_list_does_not_have_is_listed() {
    let list = compared("Code,Item,Pack,Price\n1001,Onions,50 lb,27.00\n");
    assert_eq!(list.missing(), ["Carrots", "Butter"], "chicken is another supplier's");
    assert_eq!(
        list.list.missing[0].what_to_do,
        "The price of 2026-10-01 stays in use. Ask whether “Green Valley” still sells it, or under which code."
    );
}

#[test]
fn what_is_missing_is_met_with_what_may_be_it() {
    let list =
        compared("Code,Item,Pack,Price\n1001,Onions,50 lb,27.00\n1003,Butter,36/1 lb,110\n2001,Carrots baby,5 lb,9\n");
    assert_eq!(list.missing(), ["Carrots"]);
    let carrots = &list.list.missing[0];
    assert_eq!(carrots.question.as_deref(), Some("Did you mean “Carrots baby”?"));
    assert_eq!(
        carrots.what_to_do,
        "The price of 2026-10-01 stays in use. If that is it, write its name in Also called, or its code in Code."
    );
}

#[test]
fn another_code_under_an_items_name_is_another_thing_where_the_list_has_its_own() {
    let list = "Code,Item,Pack,Price\n1003,Butter,36/1 lb,110.00\n1099,Butter,30/1 lb,60.00\n";
    let two = compared(list);
    assert_eq!((two.list.taken.len(), two.list.taken[0].row), (1, 0));
    assert_eq!(
        two.list.unknown[0].what_to_do,
        "The list has “Butter” under its code of the book as well. If this is another pack or kind of it that you buy, add \
         a row to Prices with the code 1099."
    );
    // Alone it is the item under a new code.
    let one = compared("Code,Item,Pack,Price\n1099,Butter,36/1 lb,110.00\n");
    assert_eq!(one.taken("Butter").price.code, "1099");
}

#[test]
fn a_file_may_name_the_supplier_row_by_row() {
    let list = "Vendor,Code,Item,Pack,Price,Per\nGreen Valley,1001,Onions,50 lb,27.00,\nThe Poultry Man,77,Chicken,2/20 lb avg,1.90,lb\n";
    let both = with(BOOK, list, &ListOptions { supplier: None, ..of_green_valley() });
    assert_eq!(both.list.taken.len(), 2);
    assert_eq!(both.missing(), ["Carrots", "Butter"]);
    assert_eq!(both.told(), [] as [&str; 0]);
}
