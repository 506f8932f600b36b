//! Files as suppliers send them: odd headings, title rows, several tables.

use parings::internals::flags_in_words;
use parings::kitchen::layout::column_named;
use parings::problem::Choice;
use parings::schema::Column;
use parings::{ListOptions, ReadError};
use rust_xlsxwriter::{ExcelDateTime, Format, Workbook};

use super::{BOOK, compared, of_green_valley, tried, with};
use crate::support::{cost_bytes, cost_json};

fn mapping(columns: &[(&str, &str)]) -> ListOptions {
    let columns = columns.iter().map(|(word, heading)| (column_named(word).unwrap(), (*heading).to_owned()));
    ListOptions { columns: columns.collect(), ..of_green_valley() }
}

const ODD: &str =
    "Art.,Bezeichnung,Gebinde,Net amt,Price\n1001,Onions,50 lb,27.00,31.00\n1002,Carrots,25 lb,21.00,24.00\n";

#[test]
fn odd_headings_are_named_on_the_command_line() {
    let options = mapping(&[("code", "Art."), ("item", "bezeichnung"), ("Pack", "Gebinde"), ("price", "NET AMT")]);
    let list = with(BOOK, ODD, &options);
    let money = |item: &str| list.moved(item).new.as_ref().unwrap().ap.money.to_string();
    assert_eq!(["Onions", "Carrots"].map(money), ["27", "21"], "the net amount, not the price");
}

#[test]
fn odd_headings_are_remembered_in_the_book() {
    let layouts = "
Supplier,Column,Their heading
green valley,Code,Art.
Green Valley,item,Bezeichnung
Green Valley,Pack size,Gebinde
Green Valley,Price,Net amt
The Poultry Man,Price,Gebinde
";
    let book = format!("{BOOK}{layouts}");
    let list = with(&book, ODD, &of_green_valley());
    assert_eq!(list.list.taken.len(), 2);
    assert_eq!(list.moved("Onions").new.as_ref().unwrap().ap.money.to_string(), "27");
    // The command line comes first.
    let asked = with(&book, ODD, &mapping(&[("price", "Price")]));
    assert_eq!(asked.moved("Onions").new.as_ref().unwrap().ap.money.to_string(), "31");
}

#[test]
fn layouts_are_carried_through_the_costed_workbook() {
    let book = format!("{BOOK}\nSupplier,Column,Their heading,Note\nGreen Valley,Price,Net amt,since May\n");
    let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
    assert!(reading.problems.is_empty(), "{:#?}", reading.problems);
    let written = parings::write(&reading, &costing, crate::workbook::STAMP).unwrap();
    let (again, costed) = cost_bytes(&[("book.xlsx", &written)]);
    let row = &again.kitchen.entries.layouts[0];
    assert_eq!((row.supplier.as_str(), row.column.given()), ("Green Valley", Some(&Column::Price)));
    assert_eq!(row.input.text(Column::Note), "since May");
    assert_eq!(parings::write(&again, &costed, crate::workbook::STAMP).unwrap(), written);
}

#[test]
fn a_column_that_price_lists_do_not_have_is_an_error() {
    let json =
        cost_json(&[("book.csv", "Supplier,Column,Their heading\nGreen Valley,Prise,Net\nGreen Valley,Code,\n")]);
    let told: Vec<String> = json["problems"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|problem| problem["severity"] == "error")
        .map(|problem| format!("{} {} {}", problem["cell"], problem["message"], problem["help"]))
        .collect();
    assert_eq!(
        told,
        [
            r#""B2" "“Prise” is not a column of price lists" "Did you mean “Price”?""#,
            r#""A3" "this row does not say under which heading the supplier has it" "Fill Their heading as it stands in the supplier's list, or clear the row.""#,
        ]
    );
}

#[test]
fn headings_that_nobody_knows_are_listed_with_the_option_that_maps_them() {
    let refused = tried(
        BOOK,
        &[("list.csv", "GREEN VALLEY PRODUCE CO\n\nNr.,Bezeichnung,Gebinde,Net amt\n1001,Onions,50 lb,27.00\n")],
        &of_green_valley(),
    );
    assert_eq!(
        refused.err().unwrap().saying(flags_in_words),
        "list.csv has no header row with a price and an item or code, as parings knows them. Row 3 reads “Nr.”, \
         “Bezeichnung”, “Gebinde”, “Net amt”: say which is which, such as --column price=\"Net amt\" --column \
         item=\"Bezeichnung\" --column pack=\"Gebinde\" --column code=\"Nr.\""
    );
    let refused = tried(BOOK, &[("list.csv", "Item,Pack,Net amt\nOnions,50 lb,27.00\n")], &of_green_valley());
    assert_eq!(
        refused.err().unwrap().saying(flags_in_words),
        "list.csv has no header row with a price and an item or code, as parings knows them. Row 1 reads “Item”, “Pack”, \
         “Net amt”: say which is which, such as --column price=\"Net amt\""
    );
    let book = format!("{BOOK}\nSupplier,Column,Their heading\nGreen Valley,Price,Net amt\n");
    let unknown = ListOptions { supplier: None, ..of_green_valley() };
    let refused = tried(&book, &[("list.csv", "Item,Pack,Net amt\nOnions,50 lb,27.00\n")], &unknown);
    let error = refused.err().unwrap();
    let told = error.saying(flags_in_words);
    assert!(told.ends_with("or name the supplier with --supplier, if Supplier layouts in the book say it"), "{told}");
    // Without a caller's words it is a whole sentence, and what a page needs for its own controls is there as values.
    assert!(
        error.to_string().ends_with("say which is which; or name the supplier, if Supplier layouts in the book say it"),
        "{error}"
    );
    let ReadError::NoPriceList { detail, headings, .. } = &error else { panic!("{error}") };
    assert_eq!(headings, &["Item", "Pack", "Net amt"]);
    let columns = Choice::Columns(vec![("price".to_owned(), vec!["Net amt".to_owned()])]);
    assert_eq!(detail.choices().collect::<Vec<_>>(), [&columns, &Choice::Supplier]);
}

#[test]
fn a_heading_that_no_list_has_is_refused() {
    let refused =
        tried(BOOK, &[("list.csv", "Item,Pack,Price\nOnions,50 lb,27.00\n")], &mapping(&[("price", "Net amnt")]));
    assert_eq!(
        refused.err().unwrap().to_string(),
        "list.csv has no column “Net amnt”. Its headings are “Item”, “Pack” and “Price”"
    );
}

#[test]
fn title_rows_headings_blank_rows_totals_and_a_second_table() {
    let list = "\
Green Valley Produce
Week 45

Code,Item,Pack,Price
PRODUCE
1001,Onions,50 lb,27.00

1002,Carrots,25 lb,21.00
,Total,,48.00

Dairy of the week

Description,Code,Pack size,Case price
Butter,1003,36/1 lb,110.00
";
    let all = compared(list);
    assert_eq!(all.list.taken.len(), 3);
    let told: Vec<String> =
        all.told().iter().map(|line| line.split(']').next().unwrap_or_default().to_owned()).collect();
    assert_eq!(told, ["list.csv ▸ A5 [heading-kept", "list.csv ▸ B9 [total-skipped", "list.csv ▸ A11 [heading-kept"]);
}

#[test]
fn only_the_prices_of_a_file_are_taken() {
    let list = "Code,Item,Pack,Price\n1001,Onions,50 lb,27.00\n\nDish,Menu price\nSoup,9.00\n\nRecipe,Soup\nPortions,4\nIngredient,Qty,Unit\nOnions,2,lb\n";
    let prices = compared(list);
    assert_eq!(prices.list.taken.len(), 1);
    assert_eq!(
        prices.told(),
        [
            "list.csv [list-passed-over] this file also holds menu and recipe cards, which were passed over. Nothing to do: \
          of a new list only the prices are taken."
        ]
    );
}

/// Codes as numbers, prices with a sign that the format shows, dates as dates, and tables on two sheets.
#[test]
fn a_workbook_is_read_as_it_is() {
    let mut workbook = Workbook::new();
    let money = Format::new().set_num_format("$#,##0.00");
    let day = Format::new().set_num_format("yyyy-mm-dd");
    for (name, code, item, pack, price) in
        [("Produce", 1001.0, "ONION YEL", "50 lb", 27.0), ("Dairy", 1003.0, "BUTTER UNS", "36/1 lb", 113.4)]
    {
        let sheet = workbook.add_worksheet();
        sheet.set_name(name).unwrap();
        sheet.write(0, 0, "GREEN VALLEY").unwrap();
        for (at, header) in (0..).zip(["Item #", "Description", "Pack/Size", "Case price", "Effective", "Brand"]) {
            sheet.write(2, at, header).unwrap();
        }
        sheet.write(3, 0, code).unwrap();
        sheet.write(3, 1, item).unwrap();
        sheet.write(3, 2, pack).unwrap();
        sheet.write_with_format(3, 3, price, &money).unwrap();
        let date = ExcelDateTime::from_ymd(2026, 11, 2).unwrap();
        sheet.write_with_format(3, 4, &date, &day).unwrap();
        sheet.write(3, 5, "Ours").unwrap();
    }
    let bytes = workbook.save_to_buffer().unwrap();
    let (reading, costing) = cost_bytes(&[("book.csv", BOOK.as_bytes())]);
    let source = parings::Source { name: "november.xlsx", bytes: &bytes };
    let list = parings::read_list(&reading, &costing, &[source], &ListOptions::default()).unwrap();
    let taken: Vec<String> = list
        .taken
        .iter()
        .map(|taken| format!("{} {} {:?}", taken.price.item, taken.price.date.given().unwrap(), taken.moved.by))
        .collect();
    // 27.00 ÷ 26.00 does not end; 113.40 ÷ 108.00 = 1.05.
    assert_eq!(taken.len(), 2);
    assert!(taken[0].starts_with("Onions 2026-11-02 Some(0.03846153"), "{taken:?}");
    assert_eq!(taken[1], "Butter 2026-11-02 Some(0.05)");
    let places: Vec<String> =
        list.problems.iter().map(|problem| format!("{} {}", problem.place, problem.code)).collect();
    assert_eq!(
        places,
        [
            "november.xlsx ▸ Produce!A1 list-assumed",
            "november.xlsx ▸ Produce!F3 column-ignored",
            "november.xlsx ▸ Dairy!F3 column-ignored",
        ]
    );
}

#[test]
fn a_list_with_quantities_to_order_is_a_price_list() {
    let list = compared("Qty,Code,Item,Pack,Price,On hand\n,1001,Onions,50 lb,27.00,3\n");
    assert_eq!(list.list.taken.len(), 1);
}
