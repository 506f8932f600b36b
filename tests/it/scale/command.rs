//! The command `scale`: its report, csv, exit status, and the file that it writes.

use crate::cli::Folder;

const BOOK: &str = "\
Setting,Value
Currency,USD
Costing date,2026-11-20

Item,Price,Per,Date
Leeks,2.00,lb,2026-11-01
Eggs,0.25,each,2026-11-01
Milk,1.00,qt,2026-11-01
Salt,0.50,lb,2026-11-01

Recipe,Custard
Makes,1 qt
Portions,8
Ingredient,Qty,Unit
Eggs,3,each
Milk,2,cup
Leeks,3,oz
Salt,,to taste
";

/// Two and a half times: 7.5 eggs are 8 at 0.25, 5 cups of milk 1 1/4 qt, 7.5 oz of leeks as they are at 2.00 ÷ 16.
/// 1.875 + 1.25 + 0.9375 = 4.0625, and 0.125 more as measured: 3.08 %. 4.0625 ÷ 20 = 0.203125.
#[test]
fn quantities_come_first_then_what_they_cost() {
    let folder = Folder::with("book.csv", BOOK);
    let ran = folder.run(&["scale", "book.csv", "custard", "--by", "2.5"]);
    assert_eq!(ran.code, 0, "{ran:#?}");
    assert!(ran.out.starts_with("Custard, 20 portions: 2.5 × the recipe, which makes 2 1/2 qt.\n"), "{}", ran.out);
    let rows: Vec<String> = ran.out.lines().map(|line| line.split_whitespace().collect::<Vec<_>>().join(" ")).collect();
    for row in [
        "Ingredient Measure Exactly More or less exactly measured Differs",
        "Eggs 8 7.5 +0.5 1.88 2.00 +0.13",
        "Milk 1 1/4 qt 5 cup 0 fl oz 1.25 1.25 0.00",
        "Leeks 7 1/2 oz 7.5 oz 0 oz 0.94 0.94 0.00",
        "Salt to taste as it is – – – –",
        "In all 0 oz 4.06 4.19 +0.13",
        "Measured so, the food costs 0.13 more (3.08 %). The food of a portion costs 0.20. Costed on",
        "What scaling does not know (common practice)",
    ] {
        assert!(rows.iter().any(|known| known == row), "{row} is not among {rows:#?}");
    }
    // Said once.
    assert_eq!(ran.out.matches("common practice").count(), 1);
}

/// A ten-thousandth of the recipe is 0.0003 eggs, 0.0002 cups and 0.0003 oz: nothing of it is told as none. 0.42 times it
/// takes 3 × 0.42 = 1.26 eggs, of which 1 is 21 % less: told with what to do about it, and on the card.
#[test]
fn little_is_not_nothing_and_whole_ones_far_off_are_told() {
    let folder = Folder::with("book.csv", BOOK);
    let printed = folder.run(&["scale", "book.csv", "Custard", "--by", "0.0001"]).ends(0).out;
    // 8 portions × 0.0001.
    assert!(printed.starts_with("Custard, 0.0008 portions: 0.0001 × the recipe"), "{printed}");
    let rows: Vec<String> = printed.lines().map(|line| line.split_whitespace().collect::<Vec<_>>().join(" ")).collect();
    for begins in ["Eggs 0.0003 * 0.0003 ", "Milk 0.0002 cup * 0.0002 cup ", "Leeks 0.0003 oz * 0.0003 oz "] {
        assert!(rows.iter().any(|row| row.starts_with(begins)), "{begins} is not in {rows:#?}");
    }
    let printed = folder.run(&["scale", "book.csv", "Custard", "--by", "0.42", "-o", "card.xlsx"]).ends(0).out;
    let words = printed.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("Eggs: 1 instead of 1.26; with --whole \"Eggs\" all the rest follows it."), "{printed}");
    assert!(!words.contains("Milk: "), "{printed}");
    let card = std::fs::read(folder.path("card.xlsx")).unwrap();
    let mut card: calamine::Xlsx<_> = calamine::Reader::new(std::io::Cursor::new(card)).unwrap();
    let cells = calamine::Reader::worksheet_range(&mut card, "Kitchen cards").unwrap();
    assert!(cells.used_cells().any(|(.., cell)| *cell == "(exactly 1.26)"), "{cells:?}");
}

#[test]
fn csv_has_a_row_for_every_line() {
    let folder = Folder::with("book.csv", BOOK);
    let ran = folder.run(&["scale", "book.csv", "Custard", "--to", "20", "--format", "csv"]);
    let lines: Vec<&str> = ran.out.lines().collect();
    assert_eq!(lines.len(), 5, "{}", ran.out);
    // 8 ÷ 3 times what the recipe says; half an egg more, at 0.25.
    assert!(
        lines[1].starts_with("Custard,2.5,Eggs,,7.5,each,8,no,no,2.6666666666666666666666666667,0.5,each,,1.875,2,")
    );
    assert_eq!(lines[4], "Custard,2.5,Salt,,,,to taste,no,no,,,,,,,,USD,2026-11-20");
}

#[test]
fn a_card_is_written_where_it_is_asked_for_and_over_no_book() {
    let folder = Folder::with("book.csv", BOOK);
    let args = ["scale", "book.csv", "Custard", "--to", "20"];
    assert_eq!(folder.run(&args).code, 0);
    assert_eq!(folder.names(), ["book.csv"], "nothing is written unasked");
    let ran = folder.run(&[&args[..], &["-o", "card.xlsx"]].concat());
    assert!(ran.code == 0 && ran.err.contains("Wrote card.xlsx"), "{ran:#?}");
    // Written over, as long as nobody has touched it.
    assert_eq!(folder.run(&[&args[..], &["-o", "card.xlsx"]].concat()).code, 0);
    assert_eq!(folder.run(&[&args[..], &["-o", "book.csv"]].concat()).code, 2);
    // It is no book.
    let ran = folder.run(&["cost", "card.xlsx"]);
    assert!(ran.code == 2 && ran.err.contains("no table"), "{ran:#?}");
}

#[test]
fn what_cannot_be_scaled_is_said_and_nothing_is_printed() {
    let folder = Folder::with("book.csv", BOOK);
    for (size, says) in [
        (&["--to", "0"][..], "above zero"),
        (&["--by", "-2"], "above zero"),
        (&["--to", "-3 gal"], "above zero"),
        (&["--by", "2", "--to", "3"], "cannot be used with"),
        (&[], "required"),
        (&["--from", "12 Duck eggs"], "is not an amount of anything in “Custard”"),
    ] {
        let ran = folder.run(&[&["scale", "book.csv", "Custard"], size].concat());
        assert!(ran.code == 2 && ran.out.is_empty() && ran.err.contains(says), "{size:?}: {ran:#?}");
    }
    let ran = folder.run(&["scale", "book.csv", "Custerd", "--by", "2"]);
    assert!(ran.code == 2 && ran.err.contains("Did you mean “Custard”?"), "{ran:#?}");
}

/// A ten-thousandth of it is little, and no nothing.
#[test]
fn what_is_very_little_is_told_by_its_first_digits() {
    let folder = Folder::with("book.csv", BOOK);
    let ran = folder.run(&["scale", "book.csv", "custard", "--by", "0.0001"]).ends(0);
    assert!(ran.out.starts_with("Custard, 0.0008 portions: 0.0001 × the recipe"), "{}", ran.out);
    let eggs = ran.out.lines().find(|line| line.starts_with("Eggs")).unwrap();
    assert!(eggs.contains(" 0.0003 "), "{eggs}");
    let milk = ran.out.lines().find(|line| line.starts_with("Milk")).unwrap();
    assert!(milk.contains(" 0.0002 cup "), "{milk}");
}
