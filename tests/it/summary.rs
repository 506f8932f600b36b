//! The Summary of a book without a menu: what each recipe costs, its portion too. Worked by hand.
//!
//! Nine pounds of leeks at 2.00 are 18.00: 144 fl oz are served of the pot, twelve portions of 12, 1.50 each; a gallon of 1 1/4 is
//! 14.40. Six pounds of flour at 1.00 make 24 rolls of 0.25, two a portion: 0.50. A pound of leeks is 2.00, and no more is known.

use crate::cli::Folder;
use crate::recalc::{Sheets, Value as Cell, assert_recalculates, with_changes};
use crate::workbook::costed;

const BOOK: &str = "\
Setting,Value
Currency,USD
Costing date,2026-11-20

Item,Pack,Price,Yield
Leeks,10 lb,$20.00,100%
Flour,10 lb,$10.00,100%

Recipe,Leek soup
Makes,\"1 gal 1 qt\"
Portion,12 fl oz
Serving loss,10%
Ingredient,Qty,Unit
Leeks,9,lb

Recipe,Rolls
Makes,24 each
Portion,2 each
Ingredient,Qty,Unit
Flour,6,lb

Recipe,Sauce
Ingredient,Qty,Unit
Leeks,1,lb
";

fn text(text: &str) -> Cell {
    Cell::Text(text.to_owned())
}

fn row(sheets: &Sheets, name: &str) -> usize {
    (1..60).find(|row| sheets.value("Summary", &format!("A{row}")) == text(name)).unwrap_or_else(|| panic!("no {name}"))
}

#[test]
fn a_book_without_a_menu_says_what_its_recipes_cost() {
    let (_, _, written) = costed("book.csv", BOOK.as_bytes());
    assert_recalculates(&written, "no menu");
    let (_, _, again) = costed("book.costed.xlsx", &written);
    assert!(again == written, "costed again it is another book");
    let sheets = Sheets::open(&written);
    assert_eq!(sheets.value("Summary", "A2"), text("What the recipes cost"));
    let headers = ["Recipe", "Batch cost", "Cost per unit", "made", "Portion cost", "Portion"];
    let header = row(&sheets, "Recipe");
    assert_eq!(
        ('A'..='F').map(|at| sheets.value("Summary", &format!("{at}{header}"))).collect::<Vec<_>>(),
        headers.map(text)
    );
    // No empty table of dishes above.
    assert!((1..60).all(|row| sheets.value("Summary", &format!("A{row}")) != text("Dish")));
    let told = |name: &str| {
        let row = row(&sheets, name);
        let near = |cell| if let Cell::Number(n) = cell { Cell::Number((n * 1e9).round() / 1e9) } else { cell };
        ('B'..='F').map(|at| near(sheets.value("Summary", &format!("{at}{row}")))).collect::<Vec<_>>()
    };
    let number = Cell::Number;
    assert_eq!(told("Leek soup"), [number(18.0), number(14.4), text("per gal"), number(1.5), text("12 fl oz")]);
    assert_eq!(told("Rolls"), [number(6.0), number(0.25), text("per each"), number(0.5), text("2 each")]);
    assert_eq!(told("Sauce"), [number(2.0), Cell::Empty, Cell::Empty, Cell::Empty, Cell::Empty]);
    // They follow: 18 lb of leeks make a portion 3.00.
    let card = |label: &str| (1..40).find(|row| sheets.value("Leek soup", &format!("A{row}")) == text(label)).unwrap();
    let changed = with_changes(&written, &[("Leek soup", &format!("B{}", card("Leeks")), 18.0)]);
    let portion = changed.number("Summary", &format!("E{}", row(&sheets, "Leek soup")));
    assert!((portion - 3.0).abs() < 1e-9, "{portion}");
    let table = Folder::with("book.csv", BOOK).run(&["cost", "book.csv"]).ends(0).out;
    assert!(table.contains("Leek soup  18.00  1.25 gal        12     1.50\n"), "{table}");
}

/// With a dish they are made for others, as ever.
#[test]
fn with_a_menu_the_others_are_told_below_it() {
    let sold = format!("{BOOK}\nDish,Recipe,Menu price\nSoup,Leek soup,$6.00\n");
    let (_, _, written) = costed("book.csv", sold.as_bytes());
    let sheets = Sheets::open(&written);
    assert_eq!(sheets.value("Summary", "A2"), text("What the menu costs"));
    assert!(row(&sheets, "Dish") < row(&sheets, "Made for other dishes"));
    assert_eq!(sheets.value("Summary", &format!("E{}", row(&sheets, "Rolls"))), Cell::Empty);
}

/// More recipes than have cards stand in a list, to which the Summary leads.
#[test]
fn without_cards_the_summary_leads_to_the_list() {
    let mut book = BOOK.to_owned();
    for n in 0..200 {
        book.push_str(&format!("\nRecipe,Leek water {n}\nMakes,1 qt\nIngredient,Qty,Unit\nLeeks,1,oz\n"));
    }
    let (_, _, written) = costed("book.csv", book.as_bytes());
    let sheets = Sheets::open(&written);
    assert_eq!(sheets.value("Summary", "A8"), text("What each of 203 recipes costs: Recipes"));
}
