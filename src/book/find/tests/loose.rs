//! Loose cards: recipes as kitchens type them.

use super::*;

/// The loose cards of a sheet: name, what it makes, and its lines as their cells.
fn loose(sheet: &SheetTables<'_>) -> Vec<String> {
    let of_card = |card: &crate::book::LooseCard| {
        let lines = card.lines.iter().map(|line| {
            let cells: Vec<String> =
                line.cells.iter().map(|cell| format!("{:?} {}", cell.column, cell.typed.seen())).collect();
            cells.join(", ")
        });
        let makes = card.makes.as_ref().map_or("-", |makes| makes.text.as_str());
        format!("{} [{makes}] {} / {}", card.name.text, lines.collect::<Vec<_>>().join(" | "), card.method.len())
    };
    let cards =
        sheet.found.iter().filter_map(|found| if let Found::Loose(card) = found { Some(of_card(card)) } else { None });
    cards.collect()
}

#[test]
fn recipes_without_the_word_are_known_by_name_and_yield() {
    for (drawing, cards) in [
        // Whole lines, a step below.
        (
            "Split pea\nServes 12\n2 lb peas, rinsed\nsalt\n1. Simmer it all.",
            "Split pea [Serves 12] Item 2 lb peas, rinsed | Item salt / 1",
        ),
        // Name, amount; a heading; a total.
        (
            "Tartar\nMakes abt 2 qt\nINGREDIENTS|AMT\nmayo|1 qt\nTOTAL|3",
            "Tartar [Makes abt 2 qt] Item mayo, Qty 1 qt / 0",
        ),
        // Quantity, unit, name, prep, without headings.
        (
            "Slaw\n3 qt\n4|lb|cabbage|shaved\n1|C|mayo",
            "Slaw [3 qt] Qty 4, Unit lb, Item cabbage, Prep shaved | Qty 1, Unit C, Item mayo / 0",
        ),
        // A name above a line header and no yield; the sheet's name.
        ("Gravy\nQty|Unit|Item\n1|lb|butter", "Gravy [-] Qty 1, Unit lb, Item butter / 0"),
        ("Qty|Unit|Item\n1|lb|butter", "S [-] Qty 1, Unit lb, Item butter / 0"),
    ] {
        let grid = grid(drawing);
        let sheet = find(&grid);
        assert_eq!(loose(&sheet), [cards], "{drawing}");
        assert_eq!(sheet.standing, SheetState::Read);
    }
}

#[test]
fn loose_cards_stand_side_by_side_and_below_a_table_of_ours() {
    let beside = grid("Cake| | |Curd\nmakes 2 cakes| | |1 kg\neggs|6| |lemons|8\nflour|400 g| |sugar|300 g");
    assert_eq!(
        loose(&find(&beside)),
        [
            "Cake [makes 2 cakes] Item eggs, Qty 6 | Item flour, Qty 400 g / 0",
            "Curd [1 kg] Item lemons, Qty 8 | Item sugar, Qty 300 g / 0"
        ]
    );
    let below = grid("Item|Price|Per\nLeeks|2|lb\n\nLeek soup\nServes 4\nleeks|2 lb\nItem|On hand\nLeeks|3 lb");
    let sheet = find(&below);
    assert_eq!(loose(&sheet), ["Leek soup [Serves 4] Item leeks, Qty 2 lb / 0"]);
    assert_eq!(tables(&sheet).len(), 2);
    assert_eq!(rows(tables(&sheet)[0], &[C::Item]), ["Leeks"]);
}

#[test]
fn what_is_no_recipe_is_not_taken_for_one() {
    for drawing in [
        "Call the fishmonger\nName|Phone\nAna|555",
        "Order\nItem|Qty|Price\nOnions|2|3.00",
        "Spring list\nItem|Pack|Price|Qty\nOnions|50 lb|2|1",
        "Deliveries\n\nMonday\n2 trays",
    ] {
        let grid = grid(drawing);
        assert_eq!(loose(&find(&grid)), Vec::<String>::new(), "{drawing}");
    }
}
