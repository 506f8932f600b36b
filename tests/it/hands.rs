//! Hands: what people do to a costed workbook in a spreadsheet program. Every Summary figure must then be what costing
//! the edited book says, or be visibly not known.

mod cards;
mod edits;
mod held_against;
mod kitchen;
mod moved;
mod played;
mod text;

use std::collections::BTreeMap;

use edits::{Kind, all, at_one_go};
use held_against::{Verdict, judged_on, moves_nothing, trim_differs};
use played::{Edit, Played};

use crate::corners::CORNERS;
use crate::recalc::{Original, keep, keeps};
use crate::support::{at_length, one_in_by_turns};
use crate::workbook::{TEACHING_KITCHEN, costed, costed_in_lists, costed_together, teaching_workbook};

/// Of workbooks of which no more than one edit in so many is played, it is by turns which kinds are.
const LARGE: usize = 10;

/// Plays the edits of a costed workbook, one at a time; gives the wrong ones, and prints the counts.
fn play(name: &str, costed: &[u8], every: usize, on: &[&str]) -> Vec<String> {
    play_those(name, costed, every, on, |_| true)
}

/// The same with some of the edits.
fn play_those(
    name: &str,
    costed: &[u8],
    every: usize,
    on: &[&str],
    only: impl Fn(&(Kind, Edit)) -> bool,
) -> Vec<String> {
    let original = Original::read(costed);
    let mut edits = all(&Played::of(&original));
    edits.retain(only);
    edits.retain(|(_, edit)| on.is_empty() || edit.sheet().is_some_and(|sheet| on.contains(&sheet)));
    let (mut counts, mut wrong) = (BTreeMap::<Kind, [usize; 4]>::new(), Vec::new());
    let several = at_one_go(&edits);
    // Some of every kind; of large workbooks, where each takes its time, of every fifth.
    let kinds = one_in_by_turns(if every > LARGE { 5 } else { 1 }, costed);
    let (runs, mut met) = (one_in_by_turns(every, costed), BTreeMap::<Kind, usize>::new());
    edits.retain(|(kind, _)| {
        let nth = met.entry(*kind).or_default();
        *nth += 1;
        (*nth == 1 && kinds(*kind as usize)) || runs(*nth)
    });
    edits.extend(several.into_iter().filter(|_| name == "kitchen.csv"));
    // The sheet Trim once more is as dear as all else together.
    let one_of = if at_length() { 1 } else { 4 };
    let is_kept = |at: usize| at_length() || at.is_multiple_of(3);
    // One model for all that is typed into one cell: it is put back, and a figure that stayed behind would be met next.
    let mut told = 0;
    let (mut typed_into, mut to_put_back) = (Played::of(&original), None);
    for (at, (kind, edit)) in edits.iter().enumerate() {
        // What takes an hour says how far it is.
        if at_length() && at.is_multiple_of(250) {
            println!("{name}: {at} of {} edits, {} wrong", edits.len(), wrong.len());
            wrong.iter().skip(told).for_each(|wrong| println!("  {wrong}"));
            told = wrong.len();
        }
        let mut moved;
        if let Some(before) = to_put_back.take() {
            typed_into.put_back(before);
        }
        to_put_back = typed_into.before(edit);
        let played = if to_put_back.is_some() {
            &mut typed_into
        } else {
            moved = Played::of(&original);
            &mut moved
        };
        played.play(edit);
        // Another engine is to find what this one found.
        if is_kept(at) && keeps() {
            keep(&played.saved());
        }
        let errors_on = (*kind == Kind::Column).then_some("Summary");
        let Some(mut verdict) = judged_on(played, errors_on) else { continue };
        if let Edit::Type { sheet, .. } | Edit::Clear { sheet, .. } = edit
            && (["Plan", "Stock"].contains(&sheet.as_str()) || (at.is_multiple_of(one_of) && moves_trim(played, sheet)))
        {
            verdict = trim_differs(played).map_or(verdict, Verdict::Wrong);
        }
        // What is below nought is refused when it is read, with all that it might touch; live it moves nothing.
        if *kind == Kind::BelowNought && matches!(verdict, Verdict::Wrong(_)) && moves_nothing(&original, played) {
            verdict = Verdict::NotKnown;
        }
        let count = counts.entry(*kind).or_default();
        count[0] += 1;
        match verdict {
            Verdict::Same => count[1] += 1,
            Verdict::NotKnown => count[2] += 1,
            Verdict::Wrong(what) => {
                count[3] += 1;
                wrong.push(format!("{edit:?}: {what}"));
            }
        }
    }
    for (kind, [edits, same, not_known, wrong]) in counts {
        println!("{name}: {kind:?}: {edits} edits, {same} the same, {not_known} not known, {wrong} wrong");
    }
    wrong
}

#[track_caller]
fn none_is_wrong(name: &str, book: &[u8], every: usize) {
    let wrong = play(name, &costed(name, book).2, every, &[]);
    assert!(wrong.is_empty(), "{name}: {} wrong:\n{}", wrong.len(), wrong.join("\n"));
}

/// Whether weights of Trim are drawn from what stands on a sheet.
fn moves_trim(played: &Played, sheet: &str) -> bool {
    ["Yield tests", "Recipes", "Lines"].contains(&sheet) || played.text(sheet, 1, 1) == "Recipe"
}

#[test]
fn the_teaching_kitchen_survives_hands() {
    none_is_wrong("teaching-kitchen.xlsx", TEACHING_KITCHEN, 700);
}

#[test]
fn the_corners_survive_hands() {
    none_is_wrong("corners.csv", CORNERS.as_bytes(), 128);
}

#[test]
fn the_tables_full_of_inputs_survive_hands() {
    none_is_wrong("kitchen.csv", kitchen::KITCHEN.as_bytes(), 256);
}

/// Rows of one day and of others, two suppliers and a third that was preferred, one that ends, one to come, one at the market,
/// and an older one that spells its name in another way.
#[test]
fn a_row_that_becomes_the_better_one_is_never_silent() {
    let book = "Item,Supplier,Pack,Price,Date,Until,Preferred\n\
                Leeks,North,10 lb,20.00,2026-11-01,,\nLeeks,South,10 lb,22.00,2026-11-01,,\n\
                Leeks,North,10 lb,19.00,2026-10-01,,\nLeeks,West,20 lb,30.00,2026-09-01,,\n\
                Lentils,North,25 lb,20.00,2026-10-01,,yes\nLentils,South,25 lb,15.00,2026-11-01,,\n\
                Flour,North,50 lb,20.00,2026-11-01,2026-11-30,\nFlour,North,50 lb,22.00,2026-12-01,,\n\
                Flours,North,50 lb,18.00,2026-09-01,,\n\
                Butter,North,36 lb,108.00,2026-10-01,,\nButter,North,36 lb,MKT,2026-11-10,,\n\
                Salt,,3 lb,2.00,,,\n\n\
                Recipe,Soup\nPortions,4\nMenu price,9.00\nIngredient,Qty,Unit\n\
                Leeks,2,lb\nLentils,1,lb\nFlour,4,oz\nButter,4,oz\nSalt,1,oz\n\n\
                Setting,Value\nCurrency,USD\nCosting date,2026-11-20\nTarget food cost,30%\n";
    let only = |(kind, _): &(Kind, Edit)| matches!(kind, Kind::Better | Kind::Row);
    let wrong = play_those("rows.csv", &costed("rows.csv", book.as_bytes()).2, 3, &["Prices", "Settings"], only);
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}

/// A Measures row says what a pinch weighs; one whose number is cleared is one pinch, as where none was typed.
#[test]
fn a_pinch_whose_number_is_cleared_is_one() {
    let book = "Item,Pack,Price\nPepper,1 lb,9.00\nLeeks,10 lb,20.00\n\nItem,Measure,Weighs\nPepper,pinch,0.3 g\n\n\
                Recipe,Soup\nPortions,4\nMenu price,9.00\nIngredient,Qty,Unit\nPepper,3,pinch\nLeeks,2,lb\n\n\
                Setting,Value\nCurrency,USD\nCosting date,2026-11-20\nTarget food cost,30%\n";
    let only = |(kind, _): &(Kind, Edit)| matches!(kind, Kind::Clear);
    let wrong = play_those("pinch.csv", &costed("pinch.csv", book.as_bytes()).2, 1, &["Soup"], only);
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}

/// Measures by weight and by volume, two of one unit for two preparations, a bottle that the pack holds as well, and a pinch:
/// rows cut over others, headers that say something else, a preparation cleared, a price taken out.
#[test]
fn measures_and_what_asks_for_them_are_never_silent() {
    let book = "Item,Pack,Price,Yield\nOnions,50 lb,26.00,88%\nCelery,24 each,38.40,75%\nRed wine,12 x 750 ml,99.00,\n\
                Peppercorns,1 lb,14.00,\n\nItem,Measure,Weighs,Holds,Basis\nOnions,\"cup, diced\",160 g,,EP\n\
                Onions,\"cup, sliced\",115 g,,EP\nCelery,each,28 oz,,AP\nRed wine,bottle,,750 ml,AP\n\
                Peppercorns,pinch,0.4 g,,EP\n\nRecipe,Soup\nPortions,4\nMenu price,9.00\n\
                Ingredient,Qty,Unit,Prep\nOnions,6,cup,diced\nCelery,8,oz,\nRed wine,0.5,bottle,\n\
                Peppercorns,3,pinch,\n\nDish,Recipe,Portion,Menu price\nSoup,,,9.00\nSoup for two,Soup,2 portions,16.00\n\n\
                Setting,Value\nCurrency,USD\nCosting date,2026-11-20\nTarget food cost,30%\n";
    let only = |(kind, _): &(Kind, Edit)| matches!(kind, Kind::Cut | Kind::Header | Kind::Column | Kind::Delete);
    let on = ["Prices", "Measures", "Menu", "Soup"];
    let wrong = play_those("measures.csv", &costed("measures.csv", book.as_bytes()).2, 2, &on, only);
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn the_templates_survive_hands() {
    for file in ["us.xlsx", "metric.xlsx"] {
        let book = std::fs::read(format!("{}/templates/{file}", env!("CARGO_MANIFEST_DIR"))).unwrap();
        none_is_wrong(file, &book, 256);
    }
}

#[test]
fn the_metric_kitchen_survives_hands() {
    none_of_both_is_wrong(["metric-kitchen.xlsx", "metric-kitchen-prices.csv"], 4000);
}

#[test]
fn the_messy_kitchen_survives_hands() {
    none_of_both_is_wrong(["messy-kitchen-recipes.xlsx", "messy-kitchen-supplier.xlsx"], 4000);
}

/// Of a sample of two files.
#[track_caller]
fn none_of_both_is_wrong(files: [&str; 2], every: usize) {
    let sample = |file: &str| std::fs::read(format!("{}/sample-books/{file}", env!("CARGO_MANIFEST_DIR"))).unwrap();
    let bytes = files.map(sample);
    let both = [(files[0], bytes[0].as_slice()), (files[1], bytes[1].as_slice())];
    let wrong = play(files[0], &costed_together(&both).2, every, &[]);
    assert!(wrong.is_empty(), "{}: {} wrong:\n{}", files[0], wrong.len(), wrong.join("\n"));
}

/// Where recipes are too many for cards the lines of all stand in one list, in which sorting takes them from one recipe's
/// rows to another's.
#[test]
fn the_lists_survive_hands() {
    let mut book = "Item,Pack,Price\nLeeks,10 lb,$20.00\nButter,1 lb,$4.00\nCream,1 qt,$3.00\n\n".to_owned();
    for at in 0..24 {
        let (leeks, butter) = (1 + at % 5, 1 + at % 7);
        let own = if at == 7 { "Q factor,5%\nSpice factor,2%\nTarget,31%\nServing loss,3%\n" } else { "" };
        let (left, used) = if at % 3 == 1 { ("90%", "50%") } else { ("", "") };
        book.push_str(&format!(
            "Recipe,Soup {at}\nPortions,4\nMenu price,$9.00\n{own}Ingredient,Qty,Unit,Yield,Used\n\
             Leeks,{leeks},lb,{left},\nButter,{butter},oz,,{used}\nSalt,to taste,,,\n\n"
        ));
    }
    none_in_lists_is_wrong(&book, 36, &["Recipes", "Lines"]);
}

/// Dishes of recipes in lists: hands on the prices, the dishes and the settings that all of them stand on.
#[test]
fn dishes_of_listed_recipes_survive_hands_on_what_they_stand_on() {
    let mut book =
        "Setting,Value\nTarget food cost,30%\nQ factor,5%\n\nItem,Pack,Price,Yield\nLeeks,10 lb,$20.00,60%\n\
                    Butter,1 lb,$4.00,\nCream,1 qt,$3.00,\nRice,50 lb,$40.00,\n\nRecipe,Leek stock\nMakes,2 qt\n\
                    Ingredient,Qty,Unit\nLeeks,3,lb\n\n"
            .to_owned();
    for at in 0..20 {
        let (of_bought, of_stock) = (["Butter", "Cream", "Rice"][at % 3], 1 + at % 4);
        let measure = if of_bought == "Cream" { "cup" } else { "oz" };
        book.push_str(&format!(
            "Recipe,Plate {at:03}\nPortions,{}\nMenu price,${}.00\nIngredient,Qty,Unit\n{of_bought},{},{measure}\n\
             Leek stock,{of_stock},cup\n\n",
            1 + at % 6,
            4 + at % 9,
            1 + at % 5
        ));
    }
    none_in_lists_is_wrong(&book, 36, &["Prices", "Summary", "Settings"]);
}

/// On some sheets of a workbook in which all recipes stand in lists.
#[track_caller]
fn none_in_lists_is_wrong(book: &str, every: usize, on: &[&str]) {
    let wrong = play("in lists", &costed_in_lists(book).2, every, on);
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}

/// 16 breasts and 8 plates of lentils changed about: as many portions in all, and other food. More shells in the stock: other
/// weights of trim, and grams of it in a portion.
#[test]
fn a_plan_with_two_amounts_changed_about_is_another_plan_and_so_is_a_recipe() {
    let workbook = teaching_workbook();
    let before = crate::recalc::Sheets::open(&workbook);
    let is = |sheet: &str, cell: String, text: &str| {
        before.value(sheet, &cell) == crate::recalc::Value::Text(text.to_owned())
    };
    let row = |sheet: &str, text: &str| (1..500).find(|row| is(sheet, format!("A{row}"), text)).unwrap();
    let heading = row("Trim", "The weights above stand on");
    let of = |text: &str| (heading..500).find(|row| is("Trim", format!("A{row}"), text)).unwrap();
    let [all, drawn, stock, roux] =
        ["All, plan and stock too", "Recipes and yield tests", "Shrimp shell stock", "Brown roux"].map(of);
    let stands = |changes: &[(&str, &str, f64)]| {
        let sheets = crate::recalc::with_changes(&workbook, changes);
        [all, drawn, stock, roux].map(|row| sheets.value("Trim", &format!("B{row}")).to_string().contains("yes"))
    };
    assert_eq!(stands(&[]), [true; 4]);
    assert_eq!(stands(&[("Plan", "B4", 8.0), ("Plan", "B6", 16.0)]), [false, true, true, true]);
    let first = format!("B{}", row("Shrimp shell stock", "Ingredient") + 1);
    assert_eq!(stands(&[("Shrimp shell stock", &first, 3.0)]), [false, false, false, true]);
}
