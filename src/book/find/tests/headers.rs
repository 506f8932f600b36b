//! Headers: what each is of, and what its columns mean.

use super::*;

fn one_kind(header: &str) -> Option<TableKind> {
    let grid = grid(header);
    let sheet = find(&grid);
    match tables(&sheet).as_slice() {
        [table] => Some(table.kind),
        _ => None,
    }
}

#[test]
fn every_kind_is_known_by_its_header() {
    for (header, kind) in [
        ("Test|Role|Part|Weight", TableKind::YieldTests),
        ("Setting|Value", TableKind::Settings),
        ("Dish|Portions|Day", TableKind::Plan),
        ("Dish|Sold", TableKind::Menu),
        ("dish|recipe|portion|menu price", TableKind::Menu),
        ("Recipe|Ingredient|Qty|Unit", TableKind::RecipeLines),
        ("Recipe|Makes", TableKind::RecipeFacts),
        ("Item|Measure|Holds", TableKind::Measures),
        ("Product|Pack size|Case price", TableKind::Prices),
        ("Description|Unit|Cost", TableKind::Prices),
        ("Item|Price|Per", TableKind::Prices),
        ("Item|Pack|Price|Qty", TableKind::Prices),
        ("Item no|Description|UOM|Qty shipped|Unit price|Extended", TableKind::Prices),
        ("Article|Unit|Price €", TableKind::Prices),
        ("Code|Item|Pack|Price/lb", TableKind::Prices),
        ("Prod #|Description|Pack|1-4 cs|5+ cs", TableKind::Prices),
        ("Item|On hand", TableKind::Stock),
        ("Opening|Purchases|Closing", TableKind::Control),
        ("Supplier|Column|Their heading", TableKind::SupplierLayouts),
        ("Supplier|Minimum order", TableKind::Suppliers),
    ] {
        assert_eq!(one_kind(header), Some(kind), "{header}");
    }
    for header in [
        "Ingredient|Qty",
        "Item|Price",
        "Ingredient|Qty|Unit|Cost",
        "Dish|Portions|Sold",
        "Recipe|Makes|Item",
        "Item|Measure|Weighs|Price",
        "Test|Role|Part",
    ] {
        assert_eq!(one_kind(header), None, "{header}");
    }
}

#[test]
fn a_header_that_fits_two_kinds_is_a_problem_and_its_rows_are_not_read() {
    let grid = grid("Item|On hand|Measure|Weighs\nOnions|3|each|100 g\nItem|Price|Per\nLeeks|2|lb");
    let sheet = find(&grid);
    assert_eq!(tables(&sheet).len(), 1);
    assert_eq!(told(&sheet), [(Code::TableAmbiguous, "A1".into())]);
}

#[test]
fn of_two_columns_of_one_meaning_the_canonical_one_wins() {
    let grid = grid("Item|Cost|Price|Per\nOnions|1|2|lb");
    let sheet = find(&grid);
    assert_eq!(rows(tables(&sheet)[0], &[C::Price]), ["2"]);
    assert_eq!(told(&sheet), [(Code::ColumnTwice, "B1".into())]);
}

#[test]
fn an_item_column_of_bare_digits_loses_to_one_of_text() {
    let grid = grid("Item|Description|Price|Per\n100234|Onions|2|lb\n100235|Leeks|3|lb");
    let sheet = find(&grid);
    assert_eq!(rows(tables(&sheet)[0], &[C::Item]), ["Onions", "Leeks"]);
    assert_eq!(told(&sheet), [(Code::ColumnTwice, "A1".into())]);
}

#[test]
fn pack_size_is_the_pack_until_its_rows_are_read() {
    let unit = grid("Item|Units per case|Pack size|UOM|Price\nOil|6|1|gal|40");
    let sheet = find(&unit);
    assert_eq!(rows(tables(&sheet)[0], &[C::PackCount, C::UnitSize, C::SizeUnit, C::Pack]), ["6||gal|1"]);
    let pack = grid("Item|Pack size|Price\nOil|6/1 gal|40");
    let sheet = find(&pack);
    assert_eq!(rows(tables(&sheet)[0], &[C::Pack, C::UnitSize]), ["6/1 gal|"]);
    let both = grid("Item|Pack size|Unit size|Unit|Price\nOil|6/1 gal|1|gal|40");
    let sheet = find(&both);
    assert_eq!(rows(tables(&sheet)[0], &[C::Pack, C::UnitSize]), ["6/1 gal|1"]);
}

#[test]
fn the_unit_in_a_headers_brackets_is_the_columns_default() {
    let grid = grid("Test|Role|Part|Weight (kg)\nCod|main|Fillet|2.5");
    let sheet = find(&grid);
    let table = tables(&sheet)[0];
    assert_eq!(table.heading(C::Weight).unwrap().default.as_deref(), Some("kg"));
    assert_eq!(table.heading(C::Weight).unwrap().text, "Weight (kg)");
    assert_eq!(table.heading(C::Part).unwrap().default, None);
}

#[test]
fn headings_over_two_rows_are_one_heading() {
    // The upper heading stands over two of the lower ones, as where cells are merged.
    let grid = grid(
        "
No. 47
Art.|Article|Packing||Net price||Shelf
No.||per case|unit size|per case|per unit|life
310|Whole milk|4|1 gal|17.20|4.30|14
",
    );
    let sheet = find(&grid);
    let table = tables(&sheet)[0];
    assert_eq!(
        rows(table, &[C::Code, C::Item, C::PackCount, C::UnitSize, C::Price, C::PoundPrice]),
        ["310|Whole milk|4|1 gal|17.2|4.3"]
    );
}
