//! What using trim is worth: the three kitchens, what is short bought in, and what is saved, worked with a pencil. All
//! books invented.

use rust_decimal::Decimal;

use super::planned::{LB, Planned, is, planned};
use super::{d, errors, part, per_lb};

/// Ten pounds of prawns at 6.00 give five of tails and two of shells. Shells are charged 10 % of 6.00, 0.60 a pound, so
/// the tails bear 60 − 1.20 = 58.80, 11.76 a pound; without a credit 12.00. What stands in for a pound of shells costs
/// 2 × 16.00 ÷ 16 = 2.00. The house adds Q 5 %, the stock's card 10 % of spice.
fn prawns(instead: &str, rest: &str) -> String {
    format!(
        "Setting,Value
Q factor,5%

Item,Pack,Price
Prawns,10 lb,$60.00
Shellfish base,1 lb,$16.00

Test,Role,Part,Weight,Charged as,Value,Instead of
Peeling,as purchased,Prawns,10 lb,,,
Peeling,main,Tails,5 lb,,,
Peeling,by-product,Shells,2 lb,fraction,10%,{instead}

Recipe,Plate
Portions,10
Ingredient,Qty,Unit
Tails,5,lb

Recipe,Stock
Makes,4 qt
Portion,1 qt
Spice factor,10%
Ingredient,Qty,Unit
Shells,4,lb

Recipe,Bisque
Portions,8
Ingredient,Qty,Unit
Stock,2,qt

Recipe,Butter
Portions,4
Ingredient,Qty,Unit
Shells,1,lb

Dish,Menu price
Plate,20.00
Bisque,8.00
Butter,5.00
{rest}"
    )
}

const BASE: &str = "2 oz Shellfish base per lb";
const PLAN: &str = "\nDish,Portions\nPlate,20\nBisque,16\nButter,8\n";

fn ratio(num: &str, den: &str) -> Decimal {
    d(num) / d(den)
}

#[track_caller]
fn sound(of: &Planned) {
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
}

#[test]
fn what_is_short_is_bought_in_and_shared_by_all_who_want_it() {
    let of = planned(&prawns(BASE, PLAN));
    sound(&of);
    // 4 lb of shells made, 6 wanted (see the balance): (4 × 0.60 + 2 × 2.00) ÷ 6 = 16/15 a pound, free 4.00 ÷ 6 = 2/3.
    // A portion of bisque or of butter takes a quarter pound; of the plate half a pound of tails.
    of.food("Plate", [d("6"), d("6"), d("5.88")]);
    for dish in ["Bisque", "Butter"] {
        of.food(dish, [d("0.5"), ratio("1", "6"), ratio("4", "15")]);
    }
    // With the stock's spice and the house's Q: 4/15 × 1.10 × 1.05, 4/15 × 1.05, 5.88 × 1.05.
    for (dish, planned, margin) in
        [("Bisque", "0.308", Some("7.692")), ("Butter", "0.28", Some("4.72")), ("Plate", "6.174", Some("13.826"))]
    {
        is(of.dish(dish).planned.unwrap(), d(planned), dish);
        assert_eq!(of.dish(dish).margin.map(|margin| super::rounded(margin, 20).normalize()), margin.map(d), "{dish}");
        assert_eq!(of.dish(dish).of_trim, dish != "Plate");
    }
    // Served: 20 × 6 + 24 × 0.50; 20 × 6 + 24 ÷ 6; 20 × 5.88 + 24 × 4/15. Nothing is left.
    of.totals([["132", "0", "0", "132"], ["124", "0", "0", "124"], ["124", "0", "0", "124"]]);
    // 20 lb of prawns, and what stands in for 2 lb of shells.
    is(of.plan().purchases.unwrap(), d("124"), "purchases");
    // 4 lb used at 2.00. The base in the house is used for nothing else.
    let shells = of.saves("Shells");
    is(shells.used.unwrap(), d("4") * LB, "used");
    assert_eq!(per_lb(shells.buy_in).normalize(), d("2"));
    is(shells.not_bought.unwrap(), d("8"), "not bought");
    is(shells.saved.unwrap(), d("8"), "saved");
    assert_eq!((shells.not_sold, shells.further_cost, shells.haulage, shells.unearned), Default::default());
    is(of.plan().saving.unwrap(), d("8"), "saving");
    is(of.plan().known_saving, d("8"), "saving known");
    // Without a shortage the bisque costs 0.25 × 0.60 × 1.10 × 1.05 = 0.17325, the butter 0.15 × 1.05 = 0.1575.
    let report = of.report();
    let says = "2.00 lb of Shells are short: what stands in for it, Shellfish base, costs $4.00. A portion of Bisque from \
                $0.17 to $0.31, of Butter from $0.16 to $0.28.";
    assert!(report.contains(says), "{report}");
    // The book's own figures do not move.
    let bisque = of.costing.dishes[1].as_ref().unwrap();
    is(bisque.portion_cost, d("0.17325"), "as the book says");
}

#[test]
fn without_a_buy_in_what_is_short_makes_unknown_and_not_nothing() {
    let of = planned(&prawns("", PLAN));
    sound(&of);
    // The plate stands in every kitchen: its tails bear what they bear.
    of.food("Plate", [d("6"), d("6"), d("5.88")]);
    is(of.dish("Plate").planned.unwrap(), d("6.174"), "planned");
    for dish in ["Bisque", "Butter"] {
        assert_eq!(of.dish(dish).food, [None; 3], "{dish}");
        assert_eq!((of.dish(dish).planned, of.dish(dish).margin), (None, None), "{dish}");
    }
    assert_eq!(of.plan().totals, [None; 3]);
    let shells = of.saves("Shells");
    assert_eq!((shells.buy_in, shells.not_bought, shells.saved), (None, None, None));
    is(shells.used.unwrap(), d("4") * LB, "used");
    let plan = of.plan();
    assert_eq!((plan.purchases, plan.saving, plan.known_saving), (None, None, d("0")));
    // 4 of 6 lb, a quarter pound a portion of either: with 11 ÷ 16 of each, 11 and 5 whole portions take all of it.
    let report = of.report();
    assert!(report.contains("There is enough for 11 of Bisque and 5 of Butter."), "{report}");
    assert!(report.contains("Nothing says what “Shells” would cost to buy"), "{report}");
}

#[test]
fn the_most_portions_are_whole_where_they_come_out_whole() {
    // 30 butter want 7.5 lb and 4 are made: 30 × 4 ÷ 7.5 = 16.
    let of = planned(&prawns("", "\nDish,Portions\nPlate,20\nButter,30\n"));
    assert!(of.report().contains("There is enough for 16 of Butter."), "{}", of.report());
    // 6 plates make 1.2 lb, of which 9 butter want 2.25: 9 × 1.2 ÷ 2.25 = 4.8. 7 plates: 1.4, 5.6. 5 plates: 1, 4.
    for (plates, butter) in [("6", "4"), ("7", "5"), ("5", "4"), ("3", "2"), ("15", "12")] {
        let of = planned(&prawns("", &format!("\nDish,Portions\nPlate,{plates}\nButter,13\n")));
        let says = format!("There is enough for {butter} of Butter.");
        assert!(of.report().contains(&says), "{says} {}", of.report());
    }
    // Three pounds of tails of ten: 1 lb of tails makes ⅔ lb of shells. A third of a pound a portion: 2, whatever is lost
    // in the digits of thirds.
    let thirds = prawns("", "\nDish,Portions\nPlate,2\nButter,5\n").replace("main,Tails,5 lb", "main,Tails,3 lb");
    let of = planned(&thirds.replace("Butter\nPortions,4", "Butter\nPortions,3"));
    assert!(of.report().contains("There is enough for 2 of Butter."), "{}", of.report());
}

#[test]
fn a_shortage_that_only_a_recipe_meets_speaks_of_the_recipe() {
    let of = planned(&prawns("", "\nDish,Portions\nPlate,10\nStock,4\n"));
    // 2 lb made, 4 wanted: two quarts of four.
    assert!(of.report().contains("There is enough for 2 of Stock."), "{}", of.report());
}

#[test]
fn what_is_on_hand_is_brought_in_by_nobody() {
    let of = planned(&prawns(
        BASE,
        &format!("{PLAN}\nItem,On hand\nTails,2 lb\nShells,1 lb\nPrawns,5 lb\nStock,2 qt\nShellfish base,3 lb\n"),
    ));
    sound(&of);
    // See the balance: 16 lb go in, 0.2 lb of shells are left. Credited: served 20 × 5.88 + 24 × 0.15 = 121.20; left
    // 0.2 × 0.60; on hand 2 × 11.76 of tails, 0.60 of shells, half a batch of stock of 4 lb, 1.20. Free: tails 2 × 12.
    // Binned: served 20 × 6 + 24 × 0.50, on hand 24.00 of tails and 2 lb at 2.00 in the stock; no shells.
    // In the store room 5 lb of prawns at 6.00, all used, and 3 lb of base at 16.00, all left: who bins buys the 8 oz, 8.00,
    // that stand in for 4 lb of shells, and leaves the same store room.
    of.totals([["132", "48", "106", "74"], ["120", "48", "102", "66"], ["121.2", "48.12", "103.32", "66"]]);
    // 16 lb of prawns less the 5 on the shelf.
    is(of.plan().purchases.unwrap(), d("66"), "purchases");
    is(of.saves("Shells").saved.unwrap(), d("8"), "saved");
    is(of.saves("Shells").unearned, d("0.12"), "unearned");
}

#[test]
fn a_recipe_that_is_no_dish_counts_in_the_totals() {
    let of = planned(&prawns(BASE, "\nDish,Portions\nPlate,20\nStock,4\n"));
    sound(&of);
    // Four quarts take the 4 lb of shells that the plates leave. Its own spice is in the planned cost alone.
    of.food("Stock", [d("2"), d("0"), d("0.6")]);
    let stock = of.dish("Stock");
    is(stock.planned.unwrap(), d("0.66"), "planned");
    assert_eq!((stock.portions, stock.margin, stock.of_trim), (Some(d("4")), None, true));
    of.totals([["128", "0", "0", "128"], ["120", "0", "0", "120"], ["120", "0", "0", "120"]]);
    // Dishes that the plan does not name stand beside it.
    assert_eq!(of.dish("Bisque").portions, None);
    of.food("Bisque", [d("0.5"), d("0"), d("0.15")]);
}

#[test]
fn without_a_plan_the_three_kitchens_stand_and_nothing_is_summed() {
    let of = planned(&prawns(BASE, ""));
    sound(&of);
    assert!(of.balance.is_none() && of.worth.plan.is_none());
    of.food("Plate", [d("6"), d("6"), d("5.88")]);
    of.food("Bisque", [d("0.5"), d("0"), d("0.15")]);
    assert_eq!(of.dish("Bisque").portions, None);
    // What is saved depends on how much is used, which nobody knows.
    let shells = of.saves("Shells");
    assert_eq!(per_lb(shells.buy_in).normalize(), d("2"));
    assert_eq!((shells.used, shells.not_bought, shells.saved, shells.breaks_even_at), (None, None, None, None));
}

#[test]
fn a_total_without_a_dish_is_no_total() {
    let broken = "\nRecipe,Mystery\nPortions,4\nIngredient,Qty,Unit\nSaffron,1,oz\n";
    let of = planned(&prawns(BASE, &format!("{broken}\nDish,Portions\nPlate,20\nButter,16\nMystery,8\n")));
    assert_eq!(of.plan().totals, [None; 3]);
    // What the rest needs is known all the same.
    is(of.plan().purchases.unwrap(), d("120"), "purchases");
    is(of.plan().saving.unwrap(), d("8"), "saving");
}

/// The same prawns with a shell row of one's choice: charged, value, further cost, instead of, otherwise, eaten, keeps.
fn reused(shells: &str, plan: &str) -> String {
    format!(
        "Setting,Value
Waste haulage,$0.10 / lb

Item,Pack,Price
Prawns,10 lb,$60.00
Shellfish base,1 lb,$16.00

Test,Role,Part,Weight,Charged as,Value,Further cost,Instead of,Otherwise,Eaten,Keeps
Peeling,as purchased,Prawns,10 lb,,,,,,,
Peeling,main,Tails,5 lb,,,,,,,
Peeling,by-product,Shells,2 lb,{shells}

Recipe,Plate
Portions,10
Ingredient,Qty,Unit
Tails,5,lb

Recipe,Butter
Portions,4
Ingredient,Qty,Unit
Shells,1,lb

Dish,Menu price
Plate,20.00
Butter,5.00

Dish,Portions,Day
{plan}"
    )
}

/// Asserts what a by-product is not bought, not sold, takes further and spares in haulage, what is saved, and the price a
/// pound at which it breaks even.
#[track_caller]
fn saves(of: &Planned, money: [&str; 5], breaks_even: &str) {
    let part = of.saves("Shells");
    let found = [part.not_bought.unwrap(), part.not_sold, part.further_cost, part.haulage, part.saved.unwrap()];
    for ((found, expected), word) in
        found.into_iter().zip(money).zip(["not bought", "not sold", "further cost", "haulage", "saved"])
    {
        is(found, d(expected), word);
    }
    is(per_lb(part.breaks_even_at), d(breaks_even), "breaks even at");
}

#[test]
fn what_is_binned_spares_haulage_where_it_is_eaten() {
    let of = planned(&reused(&format!("fraction,10%,0.25,{BASE},binned,50%,"), "Plate,20,\nButter,16,\n"));
    sound(&of);
    // 4 lb: 8.00 of base; 4 × 0.25; half of 4 lb leaves on plates, at 0.10; (1.00 − 0.20) ÷ 4 a pound.
    saves(&of, ["8", "0", "1", "0.2", "7.2"], "0.2");
    is(of.plan().saving.unwrap(), d("7.2"), "saving");
    // What is not eaten is hauled all the same.
    let of = planned(&reused(&format!("fraction,10%,0.25,{BASE},,,"), "Plate,20,\nButter,16,\n"));
    saves(&of, ["8", "0", "1", "0", "7"], "0.25");
}

#[test]
fn what_would_have_been_sold_is_a_credit_of_the_binned_kitchen() {
    let sold = format!("fraction,10%,0.25,{BASE},sold 0.80 / lb,50%,");
    let of = planned(&reused(&sold, "Plate,20,\nButter,8,\n"));
    sound(&of);
    // 4 lb made, 2 used, 2 left that can be sold still: 2 × 0.80 is given up, 2 × 0.25 spent, nothing was ever hauled.
    saves(&of, ["4", "1.6", "0.5", "0", "1.9"], "1.05");
    // Binned: tails (60 − 2 × 0.80) ÷ 5 = 11.68 a pound.
    of.food("Plate", [d("5.84"), d("6"), d("5.88")]);
    of.food("Butter", [d("0.5"), d("0"), d("0.15")]);
    // 20 × 5.84 + 8 × 0.50; 20 × 6; 20 × 5.88 + 8 × 0.15 and 2 lb left at 0.60. Binned, all 4 lb are sold at 0.80, and stand
    // among what is left until then; used, the 2 lb that are left.
    of.totals([["120.8", "3.2", "0", "120.8"], ["120", "0", "0", "118.4"], ["118.8", "1.2", "0", "118.4"]]);
    let lists = of.plan().totals.map(|total| total.unwrap()).map(|total| (total.purchases, total.sold));
    // 20 lb of prawns at 6.00, and 4 oz of base at 16.00 a pound for who bins.
    for ((purchases, sold), (list, price)) in lists.into_iter().zip([("124", "3.2"), ("120", "1.6"), ("120", "1.6")]) {
        is(purchases, d(list), "the list");
        is(sold, d(price), "sold");
    }
    // Sold for more than their credit, the two pounds that are left have earned it.
    assert_eq!(of.saves("Shells").unearned, Decimal::ZERO);
    // Keeps its own day: Monday's 2 lb are too old on Tuesday, and Tuesday's 1 lb can be sold. 4 of 5 lb earn nothing.
    let of = planned(&reused(&format!("{sold}1"), "Plate,20,Mon\nButter,8,Mon\nPlate,5,Tue\n"));
    saves(&of, ["4", "3.2", "0.5", "0", "0.3"], "1.85");
    // Monday's two at 0.60.
    is(of.saves("Shells").unearned, d("1.2"), "unearned");
}

#[test]
fn mains_bear_the_credit_of_what_they_left_and_nobody_used() {
    let plan = "Plate,20,\nButter,8,\n";
    let shells = format!("fraction,10%,,{BASE},,,");
    let only = |of: &Planned| {
        let [earned] = of.plan().earned[..] else { panic!("{:?}", of.plan().earned) };
        assert_eq!(of.name(earned.served), "Plate");
        is(earned.food, d("5.88"), "as credited");
        earned.alone
    };
    // 4 lb made, 2 left at 0.60: 1.20 over 10 lb of tails, 0.06 for the half pound of a plate.
    let of = planned(&reused(&shells, plan));
    is(of.plan().unearned, d("1.2"), "unearned");
    is(only(&of), d("5.94"), "if thrown away");
    // 100 lb on hand are used first: the 4 lb made are left, and 98 more. A plate never costs more than 6.00, which is what
    // it costs without any credit.
    let of = planned(&format!("{}\nItem,On hand\nShells,100 lb\n", reused(&shells, plan)));
    is(of.plan().unearned, d("61.2"), "unearned");
    is(only(&of), d("6"), "if thrown away");
    // Nothing left, nothing borne.
    let of = planned(&reused(&shells, "Plate,20,\nButter,16,\n"));
    assert_eq!((of.plan().unearned, of.plan().earned.len()), (d("0"), 0));
}

#[test]
fn joint_products_are_by_products_in_the_other_kitchens() {
    let of = planned(&reused(&format!("by weight,,,{BASE},,,"), "Plate,20,\nButter,8,\n"));
    sound(&of);
    // 60 ÷ 7 a pound of either, half a pound and a quarter; without a credit the tails bear 12.00.
    of.food("Plate", [d("6"), d("6"), ratio("30", "7")]);
    of.food("Butter", [d("0.5"), d("0"), ratio("15", "7")]);
    let totals = of.plan().totals.map(|total| total.unwrap());
    // Served (20 × 30 + 8 × 15) ÷ 7, left 2 × 60 ÷ 7: 120 in all.
    is(totals[2].served, ratio("720", "7"), "served");
    is(totals[2].left_over, ratio("120", "7"), "left over");
    for (total, expected) in totals.iter().zip(["124", "120", "120"]) {
        is(total.brought_in, d(expected), "brought in");
    }
}

#[test]
fn what_is_short_of_one_test_is_paid_by_what_the_next_makes() {
    let of = planned(
        "Item,Pack,Price
Bird,20 lb,$40.00
Lard,10 lb,$30.00
Bacon,10 lb,$50.00

Test,Role,Part,Weight,Charged as,Value,Instead of
Cutting,as purchased,Bird,20 lb,,,
Cutting,main,Breast,8 lb,,,
Cutting,by-product,Skin,2 lb,price,1.00,1 lb Lard per lb
Rendering,as purchased,Skin,2 lb,,,
Rendering,main,Fat,1 lb,,,
Rendering,by-product,Cracklings,0.5 lb,fraction,10%,1 lb Bacon per lb

Recipe,Plate
Portions,1
Menu price,20.00
Ingredient,Qty,Unit
Breast,1,lb

Recipe,Spread
Portions,1
Menu price,9.00
Ingredient,Qty,Unit
Fat,1,lb

Recipe,Salad
Portions,1
Menu price,5.00
Ingredient,Qty,Unit
Cracklings,0.5,lb

Dish,Portions
Plate,8
Spread,2
Salad,1
",
    );
    sound(&of);
    // 8 lb of breast want 20 lb of bird, which give 2 lb of skin; 2 lb of fat want 4, and give 1 lb of cracklings.
    of.balances("Skin", ["0", "2", "4", "2", "0", "0", "2"]);
    of.balances("Cracklings", ["0", "1", "0.5", "0.5", "0.5", "0", "0"]);
    // Credited: breast (40 − 2) ÷ 8 = 4.75. Skin (2 × 1 + 2 × 3) ÷ 4 = 2.00, so 2 lb cost 4.00; cracklings 10 % of 2.00,
    // fat 4.00 − 0.5 × 0.20 = 3.90. Free: skin 6 ÷ 4 = 1.50, fat 3.00. Binned: skin 3.00, fat 6.00, cracklings 5.00.
    of.food("Plate", [d("5"), d("5"), d("4.75")]);
    of.food("Spread", [d("6"), d("3"), d("3.9")]);
    of.food("Salad", [d("2.5"), d("0"), d("0.1")]);
    // 8 × 5 + 2 × 6 + 2.50; 8 × 5 + 2 × 3; 8 × 4.75 + 2 × 3.90 + 0.10, and half a pound of cracklings left at 0.20.
    of.totals([["54.5", "0", "0", "54.5"], ["46", "0", "0", "46"], ["45.9", "0.1", "0", "46"]]);
    // 20 × 2.00 and 2 × 3.00.
    is(of.plan().purchases.unwrap(), d("46"), "purchases");
    is(of.saves("Skin").saved.unwrap(), d("6"), "skin saves"); // 2 × 3.00
    is(of.saves("Cracklings").saved.unwrap(), d("2.5"), "cracklings save"); // 0.5 × 5.00
    is(of.saves("Cracklings").unearned, d("0.1"), "unearned");
    is(of.plan().saving.unwrap(), d("8.5"), "54.50 − 46.00");
    assert!(of.dish("Spread").of_trim && of.dish("Salad").of_trim && !of.dish("Plate").of_trim);
}

#[test]
fn trim_that_goes_in_with_something_else_is_trim_too() {
    let of = planned(
        "Item,Pack,Price
Bird,20 lb,$40.00
Pork,10 lb,$20.00
Lard,10 lb,$30.00

Test,Role,Part,Weight,Charged as,Instead of
Cutting,as purchased,Bird,20 lb,,
Cutting,main,Breast,8 lb,,
Cutting,by-product,Fat,2 lb,free,1 lb Lard per lb
Confit,as purchased,Pork,10 lb,,
Confit,added,Fat,2 lb,,
Confit,main,Confit of pork,6 lb,,

Recipe,Plate
Portions,1
Menu price,20.00
Ingredient,Qty,Unit
Confit of pork,1,lb

Dish,Portions
Plate,3
",
    );
    sound(&of);
    // 3 lb of confit want 5 lb of pork and 1 lb of fat, of which there is none: 3.00 for lard.
    of.balances("Fat", ["0", "0", "1", "0", "0", "0", "1"]);
    // Six pounds: 20.00 of pork and 2 lb at 3.00.
    of.food("Plate", [ratio("26", "6"), ratio("26", "6"), ratio("26", "6")]);
    assert!(of.dish("Plate").of_trim);
    // Without a plan the part is listed, for a test takes it.
    let mut book = String::from(
        "Item,Pack,Price\nBird,20 lb,$40.00\nPork,10 lb,$20.00\n\nTest,Role,Part,Weight,Charged as\n\
         Cutting,as purchased,Bird,20 lb,\nCutting,main,Breast,8 lb,\nCutting,by-product,Fat,2 lb,free\n",
    );
    let alone = planned(&book);
    assert!(alone.worth.parts.is_empty());
    book.push_str("Confit,as purchased,Pork,10 lb,\nConfit,added,Fat,2 lb,\nConfit,main,Confit of pork,6 lb,\n");
    let taken = planned(&book);
    assert_eq!(taken.worth.parts.len(), 1, "{:?}", taken.worth.parts);
}

#[test]
fn what_could_not_be_read_of_a_part_leaves_its_worth_unknown() {
    let of = planned(&reused(&format!("fraction,10%,,{BASE},,plenty,"), "Plate,20,\nButter,16,\n"));
    let shells = of.saves("Shells");
    assert_eq!((shells.buy_in, shells.saved), (None, None));
    assert_eq!(of.plan().saving, None);
    // The book's own figures stand.
    assert_eq!(of.dish("Butter").food[0], None);
    is(of.dish("Butter").food[2].unwrap(), d("0.15"), "credited");
}

#[test]
fn grams_of_a_part_are_counted_through_recipes_and_not_through_tests() {
    let of = planned(&prawns(BASE, ""));
    let shells = part(&of.reading, "Shells");
    let bisque = &of.worth.uses.dishes[1].as_ref().unwrap();
    is(bisque.parts[&shells], d("0.25") * LB, "grams of shells in a portion of bisque");
    assert_eq!(bisque.parts.len(), 1);
}
