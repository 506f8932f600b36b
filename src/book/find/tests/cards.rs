//! Cards: labels, then lines.

use super::*;

fn cards<'s, 'g>(sheet: &'s SheetTables<'g>) -> Vec<&'s Card<'g>> {
    sheet
        .found
        .iter()
        .filter_map(|found| match found {
            Found::Card(card) => Some(card),
            Found::Table(_) | Found::Loose(_) => None,
        })
        .collect()
}

#[test]
fn a_card_is_labels_then_lines() {
    let grid = grid(
        "
Recipe|Onion soup
Makes|3 qt
Portion (fl oz)|8
Seasoning|2
Ingredient|Qty|Unit|Aisle
Onions|2|lb|7
FOR THE TOP
Bread|12|slices
Salt
Item|Qty|Unit
Ice|1|lb
Total|||9
Recipe|Stock
Portions|4
Product|Amount
Bones|5 lb
Item|Price|Per
Onions|1|lb
",
    );
    let sheet = find(&grid);
    let found = cards(&sheet);
    assert_eq!(found.len(), 2);
    let soup = found[0];
    assert_eq!(soup.place.within_file(), "S!A1");
    let labels: Vec<_> = soup.labels.iter().map(|l| (l.label, l.value.seen(), l.place.within_file())).collect();
    assert_eq!(
        labels,
        [
            (Label::Recipe, "Onion soup".into(), "S!B1".into()),
            (Label::Makes, "3 qt".into(), "S!B2".into()),
            (Label::Portion, "8".into(), "S!B3".into()),
            (Label::SpiceFactor, "2".into(), "S!B4".into()),
        ]
    );
    assert_eq!(soup.label(Label::Portion).unwrap().default.as_deref(), Some("fl oz"));
    assert_eq!(soup.lines.len(), 2, "the second line header has other columns");
    assert_eq!(rows(&soup.lines[0], &[C::Item, C::Qty, C::Unit]), ["Onions|2|lb", "Bread|12|slices", "Salt||"]);
    assert_eq!(soup.lines[0].rows[1].group.as_deref(), Some("FOR THE TOP"));
    assert_eq!(rows(&soup.lines[1], &[C::Item, C::Qty]), ["Ice|1"]);
    assert_eq!(found[1].label(Label::Recipe).unwrap().value.seen(), "Stock");
    assert_eq!(rows(&found[1].lines[0], &[C::Item, C::Qty]), ["Bones|5 lb"]);
    assert_eq!(rows(tables(&sheet)[0], &[C::Item, C::Price]), ["Onions|1"]);
    assert_eq!(
        told(&sheet),
        [(Code::ColumnIgnored, "D5".into()), (Code::HeadingKept, "A7".into()), (Code::TotalSkipped, "A12".into()),]
    );
}

#[test]
fn our_own_readings_and_totals_on_a_card_are_skipped_silently() {
    let grid = grid(
        "
Recipe|Onion soup|Portions used|12
Makes|3 qt|Makes in g, ml, each|2839.06
Ingredient|Qty|Unit|Line cost
Onions|2|lb|4
Food cost| | |4
Portion cost| | |0.33
Allergens found|none
",
    );
    let sheet = find(&grid);
    assert_eq!(told(&sheet), []);
    assert_eq!(cards(&sheet)[0].labels.len(), 2);
    assert_eq!(rows(&cards(&sheet)[0].lines[0], &[C::Item]), ["Onions"]);
}

#[test]
fn labels_may_stand_beside_one_another_and_strays_are_told() {
    let grid = grid("Recipe|Soup|Portions|12\nMakes|3|qt\nChef|Ana\nOur favourite\nIngredient|Qty\nOnions|1 lb");
    let sheet = find(&grid);
    let labels: Vec<_> = cards(&sheet)[0].labels.iter().map(|l| (l.label, l.value.seen())).collect();
    assert_eq!(labels, [(Label::Recipe, "Soup".into()), (Label::Portions, "12".into()), (Label::Makes, "3".into())]);
    assert_eq!(
        told(&sheet),
        [(Code::LabelUnknown, "C2".into()), (Code::LabelUnknown, "A3".into()), (Code::HeadingKept, "A4".into()),]
    );
}

#[test]
fn labels_in_one_row_are_told_from_a_header_by_their_values() {
    for (drawing, is_card) in [
        ("Recipe|Soup|Makes|3 qt\nIngredient|Qty\nLeeks|1 lb", true),
        ("Recipe|Soup|Portion|8 fl oz|Portions|12\nIngredient|Qty\nLeeks|1 lb", true),
        ("Recipe|Season|Makes|Cuisine\nSoup|Winter|3 qt|French", false),
        ("Recipe|Portion|Portions|2024\nSoup|8 fl oz|12|x", false),
    ] {
        let grid = grid(drawing);
        let sheet = find(&grid);
        assert_eq!((cards(&sheet).len(), tables(&sheet).len()), if is_card { (1, 0) } else { (0, 1) }, "{drawing}");
    }
}

#[test]
fn a_label_left_open_and_a_header_row_are_told_apart() {
    let grid = grid("Recipe|Soup\nMenu price\nIngredient|Qty\nOnions|1 lb\nRecipe|Ingredient|Qty\nStew|Beef|2 lb");
    let sheet = find(&grid);
    let card = cards(&sheet)[0];
    assert!(card.label(Label::MenuPrice).unwrap().value.is_blank());
    assert_eq!(rows(&card.lines[0], &[C::Item]), ["Onions"]);
    assert_eq!(tables(&sheet)[0].kind, TableKind::RecipeLines);
    assert_eq!(told(&sheet), []);
}

#[test]
fn an_empty_form_is_no_card_but_a_nameless_one_is() {
    let form = grid("Recipe\nMakes\nIngredient|Qty");
    let sheet = find(&form);
    assert!(sheet.found.is_empty() && sheet.problems.is_empty());
    assert_eq!(sheet.standing, SheetState::Read);
    let nameless = grid("Recipe\nMakes|3 qt\nIngredient|Qty\nOnions|1 lb");
    let sheet = find(&nameless);
    assert!(cards(&sheet)[0].label(Label::Recipe).unwrap().value.is_blank());
}

#[test]
fn lone_text_in_a_card_is_a_line() {
    let grid = grid("Recipe|Soup\nIngredient|Qty\nSalt\nFor the top:\n | |\nChives");
    let sheet = find(&grid);
    let lines = &cards(&sheet)[0].lines[0];
    assert_eq!(rows(lines, &[C::Item]), ["Salt", "Chives"]);
    assert_eq!(lines.rows[1].group.as_deref(), Some("For the top"));
}
