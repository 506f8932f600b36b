//! Whose list it is: told, by the file's name, by a title.

use parings::ListOptions;

use super::{BOOK, Compared, of_green_valley, tried};

fn named(file: &str, text: &str) -> Compared {
    let options = ListOptions { supplier: None, ..of_green_valley() };
    tried(BOOK, &[(file, text)], &options).unwrap_or_else(|error| panic!("{error}"))
}

const LIST: &str = "Code,Item,Pack,Price\n1001,Onions,50 lb,27.00\n";

#[test]
fn the_files_name_tells() {
    for file in ["lists/green-valley_2026-11.csv", "Green Valley (Nov).csv", "GREENVALLEY nov.csv"] {
        let list = named(file, LIST);
        assert_eq!(list.list.suppliers, [(file.to_owned(), "Green Valley".to_owned())]);
        assert_eq!(
            list.told(),
            [format!(
                "{file} [list-assumed] by the file's name, this was taken for the list of “Green Valley”. If it is another \
                 supplier's, name that one with --supplier."
            )]
        );
    }
    // “The” is not said in every name, and a part of a word is no name.
    assert_eq!(named("poultry man.csv", LIST).list.suppliers[0].1, "The Poultry Man");
    assert_eq!(named("evergreen valleys.csv", LIST).list.suppliers[0].1, "");
    assert_eq!(named("green valley and the poultry man.csv", LIST).list.suppliers[0].1, "");
}

#[test]
fn a_title_above_the_headings_tells() {
    let list = named("list.csv", &format!("\"Prices of Green Valley, week 45\"\n\n{LIST}"));
    assert_eq!(list.list.suppliers[0].1, "Green Valley");
    assert_eq!(
        list.told(),
        [
            "list.csv ▸ A1 [list-assumed] by this title, this was taken for the list of “Green Valley”. If it is another \
          supplier's, name that one with --supplier."
        ]
    );
    // Beside other titles, and above headings that nobody knows.
    let list = ListOptions { columns: vec![(parings::schema::Column::Price, "Netto".to_owned())], ..of_green_valley() };
    let list = ListOptions { supplier: None, ..list };
    let odd = "Green Valley,Tel. 555 0100,Week 45\n\nArt.,Item,Gebinde,Netto\n1001,Onions,50 lb,27.00\n";
    let odd = tried(BOOK, &[("list.csv", odd)], &list).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(odd.list.suppliers[0].1, "Green Valley");
    let two = named("list.csv", &format!("From Green Valley to The Poultry Man\n\n{LIST}"));
    assert_eq!(two.list.suppliers[0].1, "");
}

#[test]
fn a_supplier_whose_name_is_part_of_anothers_is_not_meant() {
    let book = format!("{BOOK}Salt,3 lb,$2.00,,Green Valley Dairy,5,2026-10-01,,,\n");
    let options = ListOptions { supplier: None, ..of_green_valley() };
    let list = tried(&book, &[("green-valley-dairy.csv", LIST)], &options).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(list.list.suppliers[0].1, "Green Valley Dairy");
}

#[test]
fn what_is_told_comes_first_and_rows_come_before_it() {
    let options = ListOptions { supplier: Some("the poultry MAN".to_owned()), ..of_green_valley() };
    let text = "Supplier,Item,Pack,Price,Per\n,Chicken,2/20 lb avg,1.90,lb\nGreen Valley,Onions,50 lb,27.00,\n";
    let list = tried(BOOK, &[("green valley.csv", text)], &options).unwrap_or_else(|error| panic!("{error}"));
    let suppliers: Vec<&str> = list.list.taken.iter().map(|taken| taken.price.supplier.as_str()).collect();
    assert_eq!(suppliers, ["The Poultry Man", "Green Valley"]);
    assert!(list.told().is_empty(), "{:#?}", list.told());
}
