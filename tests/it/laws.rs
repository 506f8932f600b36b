//! Laws that hold for any book: shares add up, order changes nothing, batches and prices scale, a broken row harms only
//! what depends on it, and depth costs no more than length.
//!
//! Kitchens are generated, written as CSV books and costed through the tool's own reading. Where two ways of adding the
//! same quotients may part in the last of 28 digits, figures are compared to 1e-20 of their size.

mod broken;
pub mod figures;
pub mod kitchen;

use proptest::prelude::*;
use rust_decimal::Decimal;

use crate::support::{at_length, cost_json, dec, no_errors, recipe};
use broken::Broken;
use figures::{Figures, figures, is_money, same, times};
use kitchen::kitchen;

/// The figures of a book in one file, which must hold no error.
fn of(book: &str) -> Figures {
    let json = cost_json(&[("book.csv", book)]);
    no_errors(&json);
    figures(&json)
}

/// Asserts that two books have the same figures under the same names, to 1e-20.
fn assert_same(left: &Figures, right: &Figures) -> Result<(), TestCaseError> {
    prop_assert!(left.keys().eq(right.keys()), "{:?}\n{:?}", left.keys(), right.keys());
    for (key, value) in left {
        prop_assert!(same(value, &right[key]), "{key}: {value} and {}", right[key]);
    }
    Ok(())
}

proptest! {
    #![proptest_config(crate::support::chance(8))]

    /// The parts of a test add up to its cost, to the last digit: waste costs nothing, the last joint part takes the
    /// rest.
    #[test]
    fn parts_add_up_to_the_cost_of_their_test(kitchen in kitchen()) {
        let json = cost_json(&[("book.csv", &kitchen.tables().book())]);
        no_errors(&json);
        let tests = json["tests"].as_array().cloned().unwrap_or_default();
        prop_assert_eq!(tests.len(), kitchen.breakdowns.len());
        for test in tests {
            let parts = test["parts"].as_array().cloned().unwrap_or_default();
            prop_assert!(!parts.is_empty());
            let sum: Decimal = parts.iter().map(|part| dec(&part["cost"])).sum();
            prop_assert_eq!(sum, dec(&test["cost"]), "{}", test);
            let weights: Decimal = parts.iter().map(|part| dec(&part["weight_g"])).sum();
            prop_assert_eq!(weights + dec(&test["loss_g"]), dec(&test["weight_g"]), "{}", test);
        }
    }

    /// Recipes that use up everything that came out of a breakdown cost what went in.
    #[test]
    fn using_everything_costs_what_went_in(kitchen in kitchen()) {
        let mut tables = kitchen.tables();
        for breakdown in 0..kitchen.breakdowns.len() {
            let name = format!("All of {breakdown}");
            tables.facts.push(format!("{name},1 lb,1 lb,,,,"));
            tables.blocks.push(kitchen.all_parts(breakdown).map(|(part, lb)| format!("{name},{part},{lb},lb,")).collect());
        }
        let json = cost_json(&[("book.csv", &tables.book())]);
        no_errors(&json);
        for (at, test) in json["tests"].as_array().cloned().unwrap_or_default().iter().enumerate() {
            let all = recipe(&json, &format!("All of {at}"));
            prop_assert!(same(&all["food_cost"], &test["cost"]), "{} and {}", all["food_cost"], test["cost"]);
        }
    }

    /// The order of rows changes no figure, lines of a recipe and rows of a test included.
    #[test]
    fn row_order_changes_no_figure(kitchen in kitchen(), seed: u64) {
        let tables = kitchen.tables();
        assert_same(&of(&tables.book()), &of(&tables.shuffled(seed).book()))?;
    }

    /// Nor does the order of files, to the last digit.
    #[test]
    fn file_order_changes_no_figure(kitchen in kitchen(), seed: u64) {
        let tables = kitchen.tables();
        let files = tables.files();
        let as_given = |files: &[(String, String)]| {
            let files: Vec<_> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
            let json = cost_json(&files);
            no_errors(&json);
            figures(&json)
        };
        let mut moved = files.clone();
        kitchen::shuffle(&mut moved, seed);
        let expected = as_given(&files);
        prop_assert_eq!(&expected, &as_given(&moved));
        prop_assert_eq!(&expected, &of(&tables.book()));
    }

    /// Twice the quantities and twice the batch: twice the food, the same portion.
    #[test]
    fn doubling_a_batch_doubles_its_cost(kitchen in kitchen()) {
        let once = of(&kitchen.tables().book());
        let twice = of(&kitchen.batches(Decimal::TWO).book());
        prop_assert!(once.keys().eq(twice.keys()));
        for (key, value) in &once {
            let doubled = key.starts_with("recipes/")
                && (key.contains("/lines/") && ["/cost", "/qty", "/base_qty"].iter().any(|figure| key.ends_with(figure))
                    || ["/food_cost", "/batch_cost", "/makes/qty", "/portions"].iter().any(|figure| key.ends_with(figure)));
            let expected = match doubled {
                true => times(value, Decimal::TWO),
                // A portion is half as much of twice the batch.
                false if key.ends_with("/share") => times(value, Decimal::new(5, 1)),
                false => value.clone(),
            };
            prop_assert!(same(&expected, &twice[key]), "{key}: {value} became {}", twice[key]);
        }
    }

    /// All prices times k: every cost times k, every weight, yield and percentage as it was.
    #[test]
    fn scaling_all_prices_scales_every_cost(kitchen in kitchen(), hundredths in 10_i64..1000) {
        let k = Decimal::new(hundredths, 2);
        let before = of(&kitchen.tables().book());
        let after = of(&kitchen.prices(k).book());
        prop_assert!(before.keys().eq(after.keys()));
        for (key, value) in &before {
            let expected = if is_money(key) { times(value, k) } else { value.clone() };
            prop_assert!(same(&expected, &after[key]), "{key}: {value} became {} at {k}", after[key]);
        }
    }

    /// A row that cannot be read, wherever it stands, stops the recipe that depends on it and changes no figure of any
    /// other.
    #[test]
    fn a_broken_row_harms_only_what_depends_on_it(kitchen in kitchen(), which in 0..Broken::ALL.len(), first: bool) {
        let tables = kitchen.tables();
        let broken = Broken::ALL[which];
        let json = cost_json(&[("book.csv", &broken.added_to(tables.clone(), first).book())]);
        let errors = json["problems"].as_array().into_iter().flatten().filter(|p| p["severity"] == "error").count();
        prop_assert!(errors > 0, "{broken:?} went unreported");
        prop_assert!(recipe(&json, "Broken stew")["food_cost"].is_null(), "{broken:?} was costed");
        prop_assert!(recipe(&json, "Broken stew")["portion_cost"].is_null(), "{broken:?} was costed");
        let mut others = figures(&json);
        others.retain(|key, _| !key.contains("Broken"));
        prop_assert_eq!(others, of(&tables.book()), "{:?}", broken);
    }
}

/// A book of recipes `Level 0` to `Level n`, each making one; `Level 0` is a piece of stores at 0.25, and `lines` gives
/// what each later level is made of.
fn levels(names: impl IntoIterator<Item = (String, Vec<String>)>) -> String {
    let mut facts = String::from("Recipe,Makes,Portion\nLevel 0,1 each,1 each\n");
    let mut lines = String::from("Recipe,Item,Qty,Unit\nLevel 0,Piece of stores,1,each\n");
    for (name, below) in names {
        facts.push_str(&format!("{name},1 each,1 each\n"));
        for item in below {
            lines.push_str(&format!("{name},{item},1,each\n"));
        }
    }
    format!("Setting,Value\nCurrency,USD\n\nItem,Price,Per\nPiece of stores,0.25,each\n\n{facts}\n{lines}")
}

/// Each level uses the one below twice: sixty levels hold the leaf 2^60 times, and each is visited once.
#[test]
fn a_diamond_sixty_levels_deep_costs_at_once() {
    let book = levels((1..=60).map(|n| (format!("Level {n}"), vec![format!("Level {}", n - 1); 2])));
    let json = cost_json(&[("book.csv", &book)]);
    no_errors(&json);
    // 2^60 = 1,152,921,504,606,846,976; a quarter of it.
    assert_eq!(dec(&recipe(&json, "Level 60")["food_cost"]), Decimal::from(288_230_376_151_711_744_u64));
}

/// The same with two recipes to a level, each of which uses both of the level below.
#[test]
fn a_crossed_diamond_sixty_levels_deep_costs_at_once() {
    let below = |n: u32| {
        if n == 1 { vec!["Level 0".to_owned(); 2] } else { vec![format!("Left {}", n - 1), format!("Right {}", n - 1)] }
    };
    let book = levels((1..=60).flat_map(|n| [(format!("Left {n}"), below(n)), (format!("Right {n}"), below(n))]));
    let json = cost_json(&[("book.csv", &book)]);
    no_errors(&json);
    for top in ["Left 60", "Right 60"] {
        assert_eq!(dec(&recipe(&json, top)["food_cost"]), Decimal::from(288_230_376_151_711_744_u64));
    }
}

/// How deep a chain is costed, on how small a stack: 200 bytes a level, which no walk that calls itself gets by with.
fn on_a_small_stack(check: fn(usize)) {
    let deep = if at_length() { 10_000 } else { 2_500 };
    let stack = std::thread::Builder::new().stack_size(deep * 200);
    stack.spawn(move || check(deep)).unwrap().join().unwrap();
}

/// A chain of recipes, written from the top down so that each is read before what it needs.
#[test]
fn a_chain_thousands_deep_costs() {
    on_a_small_stack(|deep| {
        let book = levels((1..=deep).rev().map(|n| (format!("Level {n}"), vec![format!("Level {}", n - 1)])));
        let json = cost_json(&[("book.csv", &book)]);
        no_errors(&json);
        assert_eq!(dec(&recipe(&json, &format!("Level {deep}"))["food_cost"]), Decimal::new(25, 2));
    });
}

/// The same chain closed into a ring is a loop that is named, not an endless walk; a recipe beside it is costed.
#[test]
fn a_ring_thousands_long_is_reported() {
    on_a_small_stack(|deep| {
        let ring = (1..=deep).map(|n| (format!("Ring {n}"), vec![format!("Ring {}", n % deep + 1)]));
        let json = cost_json(&[("book.csv", &levels(ring))]);
        let named = json["problems"].as_array().into_iter().flatten().any(|problem| problem["code"] == "recipe-loop");
        assert!(named, "no loop was reported");
        assert!(recipe(&json, "Ring 1")["food_cost"].is_null());
        assert_eq!(dec(&recipe(&json, "Level 0")["food_cost"]), Decimal::new(25, 2));
    });
}
