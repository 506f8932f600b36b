//! The table on the terminal, and the worst problems beside it, against figures worked by hand.

use super::{BOOK, BROKEN, Folder};

/// The line that costs a pound of flour, 10 lb of which are 5.00: 0.50.
const FLOUR: &str = "Ingredient,Qty,Unit,Basis\nFlour,1,lb,AP\n";

#[test]
fn the_dishes_over_target_come_first_and_figures_are_rounded_half_up() {
    let menu = "\nDish,Target\nButter roll,\nShortbread,\nPlain dough,\nSaffron bun,\n";
    let dough = format!("\nRecipe,Plain dough\nPortions,1\n{}", FLOUR.replace(",1,", ",2,"));
    let folder = Folder::with("book.csv", format!("{BOOK}{BROKEN}{dough}{menu}"));
    let ran = folder.run(&["cost", "book.csv"]).ends(1);
    // Shortbread: 1 lb flour 0.50 + 8 oz butter 2.00 = 2.50, ÷ 8 = 0.3125; ÷ 0.50 = 62.5 %; ÷ 30 % = 1.04166…;
    // margin 0.50 − 0.3125 = 0.1875.
    // Butter roll: 0.50 ÷ 4 = 0.125, half up 0.13; ÷ 2.00 = 6.25 %, half up 6.3; ÷ 30 % = 0.41666…; margin 1.875,
    // half up 1.88.
    // Plain dough: 2 × 0.50 = 1.00, ÷ 30 % = 3.333…; no menu price. Saffron is not in the book.
    let lines: Vec<&str> = ran.out.lines().collect();
    assert_eq!(
        lines,
        [
            "Costed on 2026-11-20 in USD: 4 dishes, 1 over target, 1 not costed.",
            "",
            "             Portion   Menu    Food  Target  Price at",
            "Dish            cost  price  cost %       %    target  Margin  Standing",
            "Shortbread      0.31   0.50    62.5    30.0      1.04    0.19  over target",
            "Butter roll     0.13   2.00     6.3    30.0      0.42    1.88  within target",
            "Plain dough     1.00      –       –    30.0      3.33       –  no menu price",
            "Saffron bun        –   9.00       –    30.0         –       –  not costed",
            "",
            "Saffron bun is not costed because of book.csv ▸ A27 (name-unknown).",
        ],
        "{}",
        ran.out
    );
}

#[test]
fn money_has_the_decimals_of_its_currency() {
    let yen = BOOK.replace('$', "").replace("Costing date,2026-11-20", "Costing date,2026-11-20\nCurrency,JPY");
    let folder = Folder::with("book.csv", yen.replace("5.00", "1250").replace("4.00", "800").replace("2.00", "150"));
    let ran = folder.run(&["book.csv"]);
    // A pound of ten for 1250 is 125, ÷ 4 = 31.25; 150 − 31.25 = 118.75; 31.25 ÷ 30 % = 104.17; ÷ 150 = 20.83 %.
    let roll = ran.out.lines().find(|line| line.starts_with("Butter roll")).unwrap();
    let figures: Vec<&str> = roll.split_whitespace().skip(2).take(6).collect();
    assert_eq!(figures, ["31", "150", "20.8", "30.0", "104", "119"], "{}", ran.out);
}

#[test]
fn long_and_wide_names_keep_the_table_within_a_hundred_columns() {
    let long = "Slow-braised shoulder with everything that the garden and the cellar could be talked into giving";
    let wide = "海老と帆立のスープ、青葱と生姜を添えて、季節の野菜とともに召し上がれ、どうぞごゆっくり";
    let cards: String = [long, wide, "Cafe\u{301} cream"]
        .iter()
        .map(|name| format!("\nRecipe,{name}\nPortions,1\nMenu price,$3\n{FLOUR}"))
        .collect();
    let folder = Folder::with("book.csv", format!("{BOOK}{cards}"));
    let ran = folder.run(&["book.csv"]).ends(0);
    let width = unicode_width::UnicodeWidthStr::width;
    for line in ran.out.lines() {
        assert!(width(line) <= 100, "{line}");
    }
    // Wherever the name ends, the standing begins in one column.
    let rows = ran.out.lines().filter(|line| line.contains(" target") && !line.starts_with("Costed"));
    let starts: Vec<usize> = rows
        .filter_map(|row| row.find("within target").or(row.find("over target")).map(|at| width(&row[..at])))
        .collect();
    assert_eq!(starts.len(), 5, "{}", ran.out);
    assert!(starts.iter().all(|start| *start == starts[0]), "{starts:?}\n{}", ran.out);
}

#[test]
fn the_worst_three_problems_stand_beside_the_table() {
    let lines = "Saffron,1,g\nSumac,1,g\nFlour,3-4,lb\nMace,1,g\n";
    let folder = Folder::with("my book.csv", format!("{BOOK}{BROKEN}{lines}"));
    let ran = folder.run(&["my book.csv", "--as-of", "2026-11-20"]).ends(1);
    assert_eq!(ran.err.matches("\n  error: my book.csv ▸ ").count(), 3, "{}", ran.err);
    let ran = ran.complains_of(&[
        "5 problems: 5 errors; the worst three:",
        "[name-unknown]",
        "\n    → ",
        "See all: parings check \"my book.csv\" --as-of 2026-11-20\n",
    ]);
    assert!(!ran.out.contains("[name-unknown]"));
}

#[test]
fn a_book_without_a_dish_says_how_to_make_one() {
    let unsold: String =
        BOOK.lines().filter(|line| !line.starts_with("Menu price")).map(|l| format!("{l}\n")).collect();
    let folder = Folder::with("book.csv", unsold);
    let ran = folder.run(&["book.csv"]).ends(0);
    assert!(ran.out.contains("2 recipes, no dish.") && ran.out.contains("Menu price"), "{ran:#?}");
}
