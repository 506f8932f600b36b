//! How a name is told from the files before it, what it means, and what is printed.

use parings::analysis::why::{NotMeant, Subject};

use crate::cli::{BOOK, Folder};
use crate::support::cost_bytes;

const TWICE: &str = "Item,Pack,Price,Also called
Leeks,10 kg,15.00,poireaux; green onions of winter
Butter,1 kg,8.00,

Test,Role,Part,Weight
Trimming,as purchased,Leeks,10 kg
Trimming,main,Hearts,6 kg
Picking,as purchased,Leeks,10 kg
Picking,main,Hearts,5 kg

Recipe,Crème soup
Portions,4
Menu price,4.00
Ingredient,Qty,Unit
Butter,100,g
";

#[test]
fn names_match_as_everywhere_in_a_book() {
    let (reading, _) = cost_bytes(&[("book.csv", TWICE.as_bytes())]);
    let kitchen = &reading.kitchen;
    let word = |name: &str| Subject::named(kitchen, name).map(|meant| meant.first.name(kitchen).to_owned());
    for name in ["Creme soups", "CRÈME  SOUP", "crème-soup"] {
        let meant = Subject::named(kitchen, name).unwrap();
        assert!(matches!((meant.first, &meant.others[..]), (Subject::Dish(0), [Subject::Recipe(_)])), "{name}");
    }
    assert_eq!(word("poireaux").unwrap(), "Leeks");
    assert_eq!(word("picking: heart").unwrap(), "Hearts");
    match word("hearts") {
        Err(NotMeant::SeveralTests { tests, .. }) => assert_eq!(tests, "“Trimming: Hearts” or “Picking: Hearts”"),
        other => panic!("{other:?}"),
    }
    let near = word("Buter").unwrap_err().to_string();
    assert_eq!(near, "no dish, recipe, part or item is called “Buter”. Did you mean “Butter”?");
    let begun = word("Cr").unwrap_err().to_string();
    assert_eq!(begun, "no dish, recipe, part or item is called “Cr”. Did you mean “Crème soup”?");
    let none = word("Nope").unwrap_err().to_string();
    assert_eq!(
        none,
        "no dish, recipe, part or item is called “Nope”. The book has “Crème soup”, “Hearts”, “Leeks” and “Butter”."
    );
}

#[test]
fn files_stand_first_then_a_name_then_a_line() {
    let folder = Folder::with("book.csv", BOOK);
    // 1 lb of flour at 5.00 for 10 lb is 0.50; 8 oz of butter at 4.00 a lb 2.00; of 8: 2.50 ÷ 8 = 0.3125.
    let ran = folder.run(&["why", "book.csv", "shortbreads"]).ends(0);
    assert!(ran.out.starts_with("Shortbread: $0.31 a portion, 62.5 % of $0.50; the target is 30 %.\n"), "{}", ran.out);
    assert!(ran.out.contains("Food: Butter $0.25 (80 %), Flour $0.06 (20 %)."), "{}", ran.out);
    assert!(ran.out.ends_with("Step by step: parings why book.csv shortbreads --all\n"), "{}", ran.out);
    let ran = folder.run(&["why", "book.csv", "Shortbread", "butter"]).ends(0);
    assert!(ran.out.starts_with("Butter: $0.25 in a portion of Shortbread, 80 % of its food.\n"), "{}", ran.out);
    let ran = folder.run(&["why", "book.csv", "Shortbread", "--all"]).ends(0);
    for part in ["Shortbread (recipe)", "Butter (item)", "One more percent on a price", "= "] {
        assert!(ran.out.contains(part), "{part}: {}", ran.out);
    }
    // A row a step.
    let ran = folder.run(&["why", "book.csv", "Shortbread", "--format", "csv"]).ends(0);
    assert!(ran.out.starts_with("asked,of,of_what,line,name,step,amount,unit,from,file,sheet,cell,currency,as_of\n"));
    let row = "Shortbread,Shortbread,recipe,2,Butter,cost,2,USD,,,,,USD,2026-11-20\n";
    assert!(ran.out.contains(row), "{}", ran.out);
    // One more percent on butter is a hundredth of 0.25 a portion, and 0.0025 ÷ 0.50 is half a point.
    for row in [
        "Shortbread,Shortbread,dish,0,Butter,one percent more,0.0025,,,,,,USD,2026-11-20\n",
        "Shortbread,Shortbread,dish,0,Butter,points of one percent more,0.5,,,,,,USD,2026-11-20\n",
        "Shortbread,Shortbread,dish,0,Flour,one percent more,0.000625,,,,,,USD,2026-11-20\n",
    ] {
        assert!(ran.out.contains(row), "{row}{}", ran.out);
    }
    assert_eq!(folder.names(), ["book.csv"]);
}

#[test]
fn what_cannot_be_asked_is_said_plainly() {
    let folder = Folder::with("book.csv", BOOK);
    folder.run(&["why", "missing.csv", "Shortbread"]).ends(2).complains_of(&["there is no file missing.csv"]);
    folder.run(&["why", "book.csv"]).ends(2).complains_of(&["there is no name to ask about"]);
    folder.run(&["why", "book.csv", "A", "B", "C"]).ends(2).complains_of(&["A, B, C are more than a name and a line"]);
    for empty in [&["why", "book.csv", ""][..], &["why", "book.csv", " "], &["why", "book.csv", "Shortbread", ""]] {
        let told = folder.run(empty).ends(2).err;
        assert!(told.contains("a name to ask about is empty: give the files of the book"), "{told}");
    }
    folder.run(&["why", "book.csv", "Shortbred"]).ends(2).complains_of(&["Did you mean “Shortbread”?"]);
    folder.run(&["why", "book.csv", "Shortbread", "salt"]).ends(2).complains_of(&["has no line “salt”", "“Butter”"]);
}
