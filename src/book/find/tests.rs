//! Tests of finding tables and cards. Sheets are drawn as text: `|` between cells, a line per row. What is expected
//! follows from the rules on finding tables, cell by cell.

mod cards;
mod headers;
mod loose;

use super::*;
use crate::book::grid::{Grid, GridBuilder, Room};
use crate::problem::{CellRef, Code, Place};
use crate::schema::{Column as C, Label, TableKind, Typed};

/// A grid from its drawing; the first line is row 1. Numbers become numbers.
fn grid(drawing: &str) -> Grid {
    let mut grid = GridBuilder::new(Place::sheet("a.xlsx", "S"), Room::of(&crate::schema::Limits::USUAL));
    for (row, line) in (0..).zip(drawing.trim_matches('\n').lines()) {
        for (column, cell) in (0..).zip(line.split('|')) {
            let cell = cell.trim();
            let typed = match cell.parse() {
                Ok(number) => Typed::number(number),
                Err(_) if cell.is_empty() => continue,
                Err(_) => Typed::text(cell),
            };
            grid.put(CellRef::new(row, column), typed).unwrap();
        }
    }
    grid.finish()
}

/// A table's rows as the text of some of its columns.
fn rows(table: &Table<'_>, columns: &[C]) -> Vec<String> {
    let row =
        |row: &TableRow<'_>| columns.iter().map(|column| table.cell(row, *column).seen()).collect::<Vec<_>>().join("|");
    table.rows.iter().map(row).collect()
}

/// Codes with the cells they stand at.
fn told(sheet: &SheetTables<'_>) -> Vec<(Code, String)> {
    sheet
        .problems
        .iter()
        .map(|p| (p.code, p.place.cell_ref().map_or_else(String::new, |cell| cell.to_string())))
        .collect()
}

fn tables<'s, 'g>(sheet: &'s SheetTables<'g>) -> Vec<&'s Table<'g>> {
    sheet
        .found
        .iter()
        .filter_map(|found| match found {
            Found::Table(table) => Some(table),
            Found::Card(_) | Found::Loose(_) => None,
        })
        .collect()
}

#[test]
fn a_header_stands_anywhere_and_title_rows_above_it() {
    let grid = grid(
        "
Spring price list

 | | Pack | Item | Price
 | | 50 lb | Onions | 38.45

 | | 6/5 lb | Shrimp | 61
",
    );
    let sheet = find(&grid);
    let found = tables(&sheet);
    assert_eq!(found[0].place.to_string(), "a.xlsx ▸ S!C3");
    assert_eq!(
        rows(found[0], &[C::Item, C::Pack, C::Price, C::Supplier]),
        ["Onions|50 lb|38.45|", "Shrimp|6/5 lb|61|"]
    );
    assert_eq!(found[0].place_of(&found[0].rows[1], C::Price).within_file(), "S!E6");
    assert_eq!(found[0].rows[1].row(), 5);
    assert_eq!(told(&sheet), []);
    assert_eq!(sheet.standing, SheetState::Read);
}

#[test]
fn more_than_a_title_above_is_told() {
    let grid = grid("Title\nChef | Ana\nItem|Price|Per\nOnions|2|lb");
    assert_eq!(told(&find(&grid)), [(Code::RowsNotRead, "A1".into())]);
}

#[test]
fn tables_stand_below_one_another_and_a_repeated_header_is_skipped() {
    let grid = grid(
        "
Item|Price|Per
Onions|2|lb
Item|Price|Per
Leeks|3|lb
Dish|Portions
Soup|40
Item|Price|Pack
Salt|9|50 lb
",
    );
    let sheet = find(&grid);
    let found = tables(&sheet);
    let kinds: Vec<_> = found.iter().map(|table| table.kind).collect();
    assert_eq!(kinds, [TableKind::Prices, TableKind::Plan, TableKind::Prices]);
    assert_eq!(rows(found[0], &[C::Item]), ["Onions", "Leeks"]);
    assert_eq!(rows(found[1], &[C::Dish, C::Portions]), ["Soup|40"]);
    assert_eq!(rows(found[2], &[C::Item, C::Pack]), ["Salt|50 lb"]);
    assert_eq!(told(&sheet), []);
}

#[test]
fn tables_stand_side_by_side_with_an_empty_column_between() {
    let grid = grid(
        "
Item|Price|Per| |Dish|Portions
Onions|2|lb| |Soup|40
Leeks|3|lb| |Pie|12
Item|On hand| | |Stew|7
Leeks|5 lb| | |Hash|9
",
    );
    let sheet = find(&grid);
    let found = tables(&sheet);
    assert_eq!(found.len(), 3);
    assert_eq!(rows(found[0], &[C::Item, C::Per]), ["Onions|lb", "Leeks|lb"]);
    assert_eq!(rows(found[1], &[C::Dish, C::Portions]), ["Soup|40", "Pie|12", "Stew|7", "Hash|9"]);
    assert_eq!(rows(found[2], &[C::Item, C::OnHand]), ["Leeks|5 lb"]);
    assert_eq!(told(&sheet), []);
}

#[test]
fn a_gap_in_a_header_does_not_cut_the_table() {
    let grid = grid("Item| |Price|Per| |Supplier\nOnions|x|2|lb| |North\n");
    let sheet = find(&grid);
    let found = tables(&sheet);
    assert_eq!(rows(found[0], &[C::Item, C::Price, C::Supplier]), ["Onions|2|North"]);
    assert_eq!(told(&sheet), [(Code::ColumnIgnored, "B2".into())], "what stands under no header is told");
}

/// What stands behind an empty column may look like another table, and is none where both headers are a menu's.
#[test]
fn a_gap_behind_the_dish_does_not_cut_the_menu() {
    for drawing in [
        "Dish| |Recipe|Portion|Menu price\nSoup, cup| |Soup|8 fl oz|4.50\n",
        "Recipe|Portion|Menu price| |Dish\nSoup|8 fl oz|4.50| |Soup, cup\n",
        "Item|Price|Per| |Dish| |Recipe|Portion| |Menu price\nLeeks|2|lb| |Soup, cup| |Soup|8 fl oz| |4.50\n",
    ] {
        let grid = grid(drawing);
        let sheet = find(&grid);
        let menu = *tables(&sheet).last().unwrap();
        assert_eq!(menu.kind, TableKind::Menu, "{drawing}");
        let columns = [C::Dish, C::Recipe, C::Portion, C::MenuPrice];
        let seen: Vec<String> = columns.iter().map(|column| menu.cell(&menu.rows[0], *column).seen()).collect();
        assert_eq!(seen, ["Soup, cup", "Soup", "8 fl oz", "4.5"], "{drawing}");
        assert_eq!(told(&sheet), [], "{drawing}");
    }
    // Makes is no header of a menu, and a plan has no recipes: two tables, or one and a column beside it.
    for (drawing, kinds) in [
        ("Dish| |Recipe|Makes|Portion\nSoup| |Stock|3 qt|8 fl oz\n", vec![TableKind::RecipeFacts]),
        ("Dish|Portions| |Recipe|Portion\nSoup|40| |Stock|8 fl oz\n", vec![TableKind::Plan, TableKind::RecipeFacts]),
        ("Dish|Sold| |Recipe|Portion\nSoup|40| |Stock|8 fl oz\n", vec![TableKind::Menu, TableKind::RecipeFacts]),
    ] {
        let grid = grid(drawing);
        let sheet = find(&grid);
        let found: Vec<TableKind> = tables(&sheet).iter().map(|table| table.kind).collect();
        assert_eq!(found, kinds, "{drawing}");
    }
}

#[test]
fn headings_group_the_rows_below_them() {
    let grid = grid(
        "
Item|Price|Per
PRODUCE
Onions|2|lb
For the freezer:
Peas|3|lb
",
    );
    let sheet = find(&grid);
    let table = tables(&sheet)[0];
    assert_eq!(rows(table, &[C::Item]), ["Onions", "Peas"]);
    let groups: Vec<_> = table.rows.iter().map(|row| row.group.as_deref()).collect();
    assert_eq!(groups, [Some("PRODUCE"), Some("For the freezer")]);
    assert_eq!(told(&sheet), [(Code::HeadingKept, "A2".into())], "one note for all of them");
    assert_eq!(
        sheet.problems[0].message(),
        "“PRODUCE” and “For the freezer:” were taken for headings of the rows below them"
    );
}

#[test]
fn what_stands_alone_below_the_last_row_heads_nothing() {
    let grid = grid("Item|Price|Per\nDAIRY\nMilk|2|gal\nPaid in 30 days\nClaims at once\n");
    let sheet = find(&grid);
    assert_eq!(told(&sheet), [(Code::HeadingKept, "A2".into()), (Code::HeadingKept, "A4".into())]);
    assert_eq!(
        sheet.problems[1].message(),
        "“Paid in 30 days” and “Claims at once” stand below the last row and were not read"
    );
}

#[test]
fn a_total_below_a_price_list_is_no_item() {
    let grid = grid("Item|Pack|Price\nMilk|1 gal|2\nTotal||2\nTotal|5 lb|9");
    let sheet = find(&grid);
    assert_eq!(rows(tables(&sheet)[0], &[C::Item]), ["Milk", "Total"], "what has a pack is for sale");
    assert_eq!(told(&sheet), [(Code::TotalSkipped, "A3".into())]);
}

#[test]
fn a_name_alone_is_a_row_where_it_can_be_one() {
    let menu = grid("Dish|Recipe|Sold\nMAINS\nOnion soup");
    let sheet = find(&menu);
    assert_eq!(rows(tables(&sheet)[0], &[C::Dish]), ["Onion soup"]);
    assert_eq!(told(&sheet), [(Code::HeadingKept, "A2".into())]);
    let coded = grid("Code|Item|Price|Per\n |Saffron\n |SPICES\nx1|Salt|1|lb");
    let sheet = find(&coded);
    assert_eq!(
        rows(tables(&sheet)[0], &[C::Item]),
        ["Saffron", "Salt"],
        "not in the first column: a row without price"
    );
}

#[test]
fn unknown_columns_are_ignored_and_told_ours_silently() {
    let grid = grid("Item|Aisle|Price|Per|Pack read as|EP cost per unit\nOnions|7|2|lb|453.59|0.005");
    let sheet = find(&grid);
    assert_eq!(told(&sheet), [(Code::ColumnIgnored, "B1".into())]);
    assert_eq!(tables(&sheet)[0].columns.len(), 3);
}

#[test]
fn what_stands_beside_a_table_is_told_once() {
    let grid = grid("Item|Price|Per\nOnions|2|lb|call first\n | | |and here\n | | | |there");
    let sheet = find(&grid);
    assert_eq!(rows(tables(&sheet)[0], &[C::Item]), ["Onions"]);
    assert_eq!(told(&sheet), [(Code::ColumnIgnored, "D2".into())]);
    assert!(sheet.problems[0].message().starts_with("3 filled cells beside this table, in column D, E"));
}

#[test]
fn output_sheets_are_passed_over_and_others_are_named() {
    let ours = grid("Figured by parings 0.1\nDish|Portions\nSoup|4");
    assert_eq!((find(&ours).standing, find(&ours).found.len(), find(&ours).problems.len()), (SheetState::Output, 0, 0));
    let notes = grid("Call the fishmonger\nName|Phone\nAna|555");
    let sheet = find(&notes);
    assert_eq!(sheet.standing, SheetState::NotRead);
    assert_eq!(told(&sheet), [(Code::SheetNotRead, String::new())]);
    assert_eq!(find(&grid("")).standing, SheetState::Empty);
}

#[test]
fn a_sheet_that_is_nearly_a_table_says_what_it_lacks() {
    for (drawing, hint) in [
        (
            "Item|Price\nOnions|2",
            "Row 1 would be the header of prices with one of “Pack”, “Size unit”, “Unit size”, “Per” too.",
        ),
        ("Test|Role|Weight\nCod|main|2", "Row 1 would be the header of yield tests with “Part” too."),
        (
            "Prices\nItem|Pack|Price|Holds\nOnions|50 lb|2|1",
            "Row 2 would be the header of prices, but for its column “Holds”, which belongs elsewhere.",
        ),
        (
            "All prices $/cwt\nCode|Item|Price\n1|Ribs|298",
            "Row 2 would be the header of prices with one of “Pack”, “Size unit”, “Unit size”, “Per” too. A1 says “$/cwt”: type \
             Per in D2, and cwt below it in every row that says nothing else; where the row does, its own unit, such as lb or \
             each, or what the box holds, such as 10 lb.",
        ),
        (
            "onions|50 lb|27.5\nginger|30 lb|54\ncloves|1 lb|18.4",
            "These look like prices without headings. Put a row above row 1, and type Item in A1, Pack in B1 and Price in C1 of \
             it, if that is what stands below.",
        ),
        (
            "what|size|$\nkale|bunch|2.2\nginger|kg|6.5\nsugar|10 kg|11.5",
            "These look like prices. Type Item in A1 instead of “what”, Unit in B1 instead of “size” and Price in C1 instead of \
             “$”, if that is what stands below.",
        ),
    ] {
        let grid = grid(drawing);
        let sheet = find(&grid);
        assert_eq!(sheet.problems[0].code, Code::SheetNotRead);
        assert_eq!(sheet.problems[0].help, hint);
    }
}

#[test]
fn a_title_that_says_what_prices_are_for_is_asked_about_where_packs_say_otherwise() {
    let doubts = |drawing: &str| {
        let grid = grid(drawing);
        find(&grid).problems.iter().filter(|problem| problem.code == Code::PerAmbiguous).count()
    };
    assert_eq!(doubts("PRICES $/CWT\nItem|Pack|Price\nRibs|60 lb|298"), 1);
    assert_eq!(doubts("PRICES $/CWT\nItem|Pack|Price|Per\nRibs|60 lb|298|cwt"), 0);
    assert_eq!(doubts("Prices this week\nItem|Pack|Price\nRibs|60 lb|298"), 0);
}

#[test]
fn the_head_of_the_next_page_is_passed_over() {
    let grid = grid(
        "
Item no|Description|Pack|UOM|Price
1|Onions|50 lb|BG|20
QUELLMOOR|||Invoice no|4471902
|(CONTINUED)
Item no|Description|Pack|UOM|Price
2|Leeks|10 lb|CS|12
",
    );
    let sheet = find(&grid);
    assert_eq!(rows(tables(&sheet)[0], &[C::Code, C::Item]), ["1|Onions", "2|Leeks"]);
    assert_eq!(told(&sheet).iter().filter(|(code, _)| *code == Code::InvoiceLinePassedOver).count(), 2);
}

#[test]
fn what_costs_as_the_market_has_it_is_no_head_of_a_page() {
    let grid = grid("Item|Pack|Price\nLeeks|1 lb|4\nPrawns||MKT\nItem|Pack|Price\nOnions|1 lb|2\n");
    let sheet = find(&grid);
    assert_eq!(rows(tables(&sheet)[0], &[C::Item, C::Price]), ["Leeks|4", "Prawns|MKT", "Onions|2"]);
}

/// A header that is repeated ends no rows of a table that is no list of prices: only invoices have heads of pages.
#[test]
fn rows_above_a_repeated_header_of_another_table_are_kept() {
    let rows_of = |text: &str, columns: &[C]| {
        let grid = grid(text);
        let sheet = find(&grid);
        assert!(!told(&sheet).iter().any(|(code, _)| *code == Code::InvoiceLinePassedOver), "{text}");
        tables(&sheet).iter().flat_map(|table| rows(table, columns)).collect::<Vec<_>>()
    };
    let menu = "Dish|Menu price|Sold\nToast|6|3\nRusk|5|3\n\nDish|Menu price|Sold\nBun|3|1\n";
    assert_eq!(rows_of(menu, &[C::Dish, C::Sold]), ["Toast|3", "Rusk|3", "Bun|1"]);
    let measures = "Item|Measure|Weighs\nLeeks|each|90 g\nItem|Measure|Weighs\nRye|cup|102 g\n";
    assert_eq!(rows_of(measures, &[C::Item, C::Measure]), ["Leeks|each", "Rye|cup"]);
    let lines = "Recipe|Item|Qty|Unit\nToast|Rye|1|lb\nRecipe|Item|Qty|Unit\nRusk|Rye|2|lb\n";
    assert_eq!(rows_of(lines, &[C::Recipe, C::Item]), ["Toast|Rye", "Rusk|Rye"]);
    let tests = "Test|Role|Part|Weight\nHake|main|Fillet|5 lb\nTest|Role|Part|Weight\nCod|main|Loin|4 lb\n";
    assert_eq!(rows_of(tests, &[C::Test, C::Part]), ["Hake|Fillet", "Cod|Loin"]);
}
