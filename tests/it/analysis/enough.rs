//! Enough trim for how many portions: books worked with a pencil, and every small plan tried out. All books invented.

use parings::analysis::balance::Promise;
use proptest::collection::vec;
use proptest::prelude::*;
use rust_decimal::Decimal;

use super::planned::{Planned, planned};
use super::{d, errors};

/// The days and dishes of a promise: planned, and enough for.
#[track_caller]
fn promises(of: &Planned, expected: &[(&str, &str, &str, &str)]) {
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    let promise = of.balance().promise.as_ref().expect("a promise");
    assert!(promise.is_whole);
    let days = &of.reading.kitchen.plan.days.names;
    let found: Vec<(String, &str, Decimal, Decimal)> = promise
        .portions
        .iter()
        .map(|one| (days[one.day].clone(), of.name(one.served), one.planned, one.portions))
        .collect();
    let expected: Vec<(String, &str, Decimal, Decimal)> =
        expected.iter().map(|(day, dish, planned, enough)| ((*day).to_owned(), *dish, d(planned), d(enough))).collect();
    assert_eq!(found, expected);
}

/// A plate leaves 0.2 lb of shells; a portion of butter wants a quarter pound; a quart of stock a pound, a bowl half a quart.
fn prawns(keeps: &str, plan: &str, on_hand: &str) -> Planned {
    planned(&format!(
        "Item,Pack,Price
Prawns,10 lb,$60.00

Test,Role,Part,Weight,Charged as,Keeps
Peeling,as purchased,Prawns,10 lb,,
Peeling,main,Tails,5 lb,,
Peeling,by-product,Shells,2 lb,free,{keeps}

Recipe,Plate
Portions,10
Ingredient,Qty,Unit
Tails,5,lb

Recipe,Butter
Portions,4
Ingredient,Qty,Unit
Shells,1,lb

Recipe,Stock
Makes,4 qt
Ingredient,Qty,Unit
Shells,4,lb

Recipe,Soup
Portions,8
Ingredient,Qty,Unit
Stock,4,qt

Dish,Portions,Day
{plan}
Item,On hand
{on_hand}"
    ))
}

#[test]
fn a_day_serves_what_earlier_days_left_as_long_as_it_keeps() {
    // Monday makes 20 × 0.2 = 4 lb; 12 of butter take 3. Tuesday, the second day, has 1 lb: 4 of 10. Wednesday has none.
    let plan = "Plate,20,Mon\nButter,12,Mon\nButter,10,Tue\nButter,4,Wed\n";
    let of = prawns("2", plan, "");
    promises(&of, &[("Mon", "Butter", "12", "12"), ("Tue", "Butter", "10", "4"), ("Wed", "Butter", "4", "0")]);
    // What is not served on Tuesday stays on Wednesday, its third day, but is none: Tuesday takes all that there is.
    let plan = "Plate,20,Mon\nButter,3,Tue\nButter,20,Wed\n";
    // 4 lb: Tuesday 0.75, Wednesday 3.25, 13 of 20. With two days nothing is left on Wednesday.
    promises(&prawns("3", plan, ""), &[("Tue", "Butter", "3", "3"), ("Wed", "Butter", "20", "13")]);
    promises(&prawns("2", plan, ""), &[("Tue", "Butter", "3", "3"), ("Wed", "Butter", "20", "0")]);
    // Made tomorrow, it serves nobody today.
    let plan = "Butter,2,Mon\nPlate,20,Tue\nButter,9,Tue\n";
    promises(&prawns("", plan, ""), &[("Mon", "Butter", "2", "0"), ("Tue", "Butter", "9", "9")]);
}

#[test]
fn stock_of_the_trim_and_of_what_is_made_of_it_counts() {
    // 3 qt of stock on hand are 6 bowls, 1 lb of shells makes 1 qt more, 2 bowls; 1.5 lb on hand leave half a pound, 1 bowl.
    promises(&prawns("", "Soup,12,\n", "Stock,3 qt\nShells,1 lb\n"), &[("", "Soup", "12", "8")]);
    promises(&prawns("", "Soup,12,\n", "Stock,3 qt\nShells,1.5 lb\n"), &[("", "Soup", "12", "9")]);
    // As much as is wanted: nothing is promised, for nothing is short.
    assert!(prawns("", "Soup,12,\n", "Stock,6 qt\n").balance().promise.is_none());
    // What is on hand counts as made on the first day: its second day is Tuesday, and it keeps for one.
    let plan = "Soup,2,Mon\nSoup,12,Tue\n";
    promises(&prawns("1", plan, "Stock,3 qt\nShells,1 lb\n"), &[("Mon", "Soup", "2", "2"), ("Tue", "Soup", "12", "4")]);
}

#[test]
fn who_wants_the_same_trim_is_cut_by_one_share() {
    // 4 lb. Butter 12 × 0.25 = 3, soup 8 × 0.5 = 4, 7 wanted. With just under 5 ÷ 8 of each, 7 and 4 whole portions, 3.75
    // are taken; 5 of soup would be 4.25. The quarter pound left is one more of butter, whoever stands first.
    let of = prawns("", "Plate,20,\nButter,12,\nSoup,8,\n", "");
    promises(&of, &[("", "Butter", "12", "8"), ("", "Soup", "8", "4")]);
    assert!(of.balance().promise.as_ref().unwrap().is_shared);
    let of = prawns("", "Plate,20,\nSoup,8,\nButter,12,\n", "");
    promises(&of, &[("", "Soup", "8", "4"), ("", "Butter", "12", "8")]);
    let report = of.report();
    assert!(report.contains("There is enough for 4 of Soup and 8 of Butter."), "{report}");
    assert!(report.contains("cut by one share, in whole portions"), "{report}");
}

/// Birds of 10 lb of meat and 8 lb of bones; a plate takes a pound of both.
fn birds(plates: i64) -> Planned {
    planned(&format!(
        "Item,Pack,Price,Per
Bird,20 lb CW,$2.00,lb

Test,Role,Part,Weight,Charged as
Cutting,as purchased,Bird,\"1 each, 20 lb\",
Cutting,main,Meat,10 lb,
Cutting,by-product,Bones,8 lb,free

Recipe,Pie
Portions,1
Ingredient,Qty,Unit
Meat,1,lb
Bones,1,lb

Dish,Portions
Pie,{plates}
"
    ))
}

#[test]
fn whole_pieces_make_more_trim_at_once() {
    // 10 plates are one bird: 8 lb of bones, 8 plates. 12 are two: 16 lb, enough. 20 are two: 16 plates, although 9 are not
    // served by one bird.
    promises(&birds(10), &[("", "Pie", "10", "8")]);
    assert!(birds(12).balance().promise.is_none());
    promises(&birds(20), &[("", "Pie", "20", "16")]);
    // No bird is cut for its bones: so many plates as take b birds, more than 10 × (b − 1), must do with 8 × b. That goes up
    // to 4 birds: 31 plates and one more are 32. 41 would take 5 birds, whose bones are enough for 40.
    promises(&birds(3_000), &[("", "Pie", "3000", "32")]);
}

#[test]
fn what_can_be_bought_in_is_no_promise() {
    let of = planned(
        "Item,Pack,Price
Bird,20 lb,$40.00
Bones,10 lb,$10.00

Test,Role,Part,Weight,Charged as
Cutting,as purchased,Bird,20 lb,
Cutting,main,Meat,10 lb,
Cutting,by-product,Bones,8 lb,free

Recipe,Broth
Portions,1
Ingredient,Qty,Unit
Cutting: Bones,1,lb

Dish,Portions
Broth,5
",
    );
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    // Bones have a price row of their name: 5 lb are bought for 5.00.
    assert!(of.balance().promise.is_none());
    super::planned::is(of.plan().purchases.unwrap(), d("5"), "purchases");
}

// --- Every number of portions tried ------------------------------------------------------------------------------------

/// A house with one test, one main, one by-product; all weights in ounces.
#[derive(Debug, Clone)]
struct Small {
    /// Whole pieces that the test takes in, where it counts them.
    pieces: Option<i64>,
    main: i64,
    trim: i64,
    keeps: Option<i64>,
    /// Of main, of trim, quarts of stock in a portion of every dish.
    dishes: Vec<(i64, i64, i64)>,
    /// Ounces of trim in a quart of stock.
    stock: i64,
    /// Dish, portions, on which of the days.
    plan: Vec<(usize, i64, usize)>,
    /// Which days these are.
    days: Vec<i64>,
    /// Ounces of main and of trim, quarts of stock.
    on_hand: (i64, i64, i64),
}

fn small() -> impl Strategy<Value = Small> {
    let test = (prop::option::of(1_i64..4), 1_i64..12, 1_i64..12, prop::option::of(1_i64..5));
    let dish = prop_oneof![
        (1_i64..6, Just(0_i64), Just(0_i64)),
        (Just(0_i64), 1_i64..6, Just(0_i64)),
        (Just(0_i64), Just(0_i64), 1_i64..3),
        (0_i64..4, 0_i64..4, 0_i64..3),
    ];
    let plan = vec((any::<usize>(), 0_i64..13, any::<usize>()), 1..9);
    let on_hand = (0_i64..8, 0_i64..20, 0_i64..5);
    (test, vec(dish, 1..4), 1_i64..6, plan, vec(1_i64..3, 1..4), on_hand).prop_map(
        |((pieces, main, trim, keeps), dishes, stock, plan, gaps, on_hand)| {
            let days: Vec<i64> = gaps
                .iter()
                .scan(0, |day, gap| {
                    *day += gap;
                    Some(*day)
                })
                .collect();
            // Every day is planned for, in order, so that the plan knows all of them.
            let all = (0..days.len()).map(|day| (0, 0, day));
            let rows = plan.into_iter().map(|(dish, portions, day)| (dish % dishes.len(), portions, day % days.len()));
            let plan = all.chain(rows).collect();
            Small { pieces, main, trim, keeps, dishes, stock, plan, days, on_hand }
        },
    )
}

impl Small {
    fn book(&self) -> String {
        let Small { main, trim, .. } = self;
        let all = main + trim + 1;
        let count = self.pieces.map_or(String::new(), |pieces| format!("{pieces} each, "));
        let keeps = self.keeps.map_or(String::new(), |days| days.to_string());
        let mut book = format!(
            "Item,Pack,Price\nBeast,10 lb,$60.00\n\nTest,Role,Part,Weight,Charged as,Keeps\n\
             Cutting,as purchased,Beast,\"{count}{all} oz\",,\nCutting,main,Loin,{main} oz,,\n\
             Cutting,by-product,Bones,{trim} oz,free,{keeps}\n\n\
             Recipe,Stock\nMakes,4 qt\nIngredient,Qty,Unit\nBones,{},oz\n\n",
            4 * self.stock
        );
        for (nth, (main, trim, quarts)) in self.dishes.iter().enumerate() {
            book.push_str(&format!("Recipe,Dish {nth}\nPortions,1\nIngredient,Qty,Unit\nWater,1,qt\n"));
            for (item, amount, unit) in [("Loin", main, "oz"), ("Bones", trim, "oz"), ("Stock", quarts, "qt")] {
                if *amount > 0 {
                    book.push_str(&format!("{item},{amount},{unit}\n"));
                }
            }
            book.push('\n');
        }
        book.push_str(&self.planned(|_, portions| portions));
        let (main, trim, quarts) = self.on_hand;
        book + &format!("\nItem,On hand\nLoin,{main} oz\nBones,{trim} oz\nStock,{quarts} qt\n")
    }

    /// The plan, with so many portions in each of its rows.
    fn planned(&self, portions: impl Fn(usize, i64) -> i64) -> String {
        let rows = self.plan.iter().enumerate();
        let rows = rows
            .map(|(at, (dish, many, day))| format!("Dish {dish},{},Day {}\n", portions(at, *many), self.days[*day]));
        format!("Dish,Portions,Day\n{}", rows.collect::<String>())
    }

    /// Portions of every dish on a day, and the dishes in the order in which the day's rows name them.
    fn of_day(&self, day: usize) -> (Vec<i64>, Vec<usize>) {
        let (mut portions, mut order) = (vec![0; self.dishes.len()], Vec::new());
        for (dish, many, _) in self.plan.iter().filter(|row| row.2 == day) {
            portions[*dish] += many;
            if !order.contains(dish) {
                order.push(*dish);
            }
        }
        (portions, order)
    }

    fn wants_trim(&self, dish: usize) -> bool {
        self.dishes[dish].1 > 0 || self.dishes[dish].2 > 0
    }
}

/// What there is in the small house, in parts of an ounce of which `unit` make one, so that all of it is whole.
#[derive(Debug, Clone)]
struct There {
    unit: i64,
    main: i64,
    /// Of trim by the day on which it was made.
    trim: Vec<(i64, i64)>,
    quarts: i64,
}

impl There {
    fn before(small: &Small) -> Self {
        let unit = small.main * small.pieces.unwrap_or(1);
        let (main, trim, quarts) = small.on_hand;
        // What is on hand counts as made on the first day.
        There { unit, main: main * unit, trim: vec![(small.days[0], trim * unit)], quarts }
    }

    /// Goes through a day; whether trim is short.
    fn day(&mut self, small: &Small, day: i64, portions: &[i64]) -> bool {
        // The day of making is the first.
        self.trim.retain(|(made, _)| small.keeps.is_none_or(|keeps| day - made < keeps));
        let sum = |of: fn(&(i64, i64, i64)) -> i64| -> i64 {
            small.dishes.iter().zip(portions).map(|(dish, many)| of(dish) * many).sum()
        };
        let main = sum(|dish| dish.0) * self.unit;
        let quarts = sum(|dish| dish.2);
        let from_stock = quarts.min(self.quarts);
        self.quarts -= from_stock;
        let wanted = (sum(|dish| dish.1) + (quarts - from_stock) * small.stock) * self.unit;
        // Mains decide what goes in: whole pieces where they are counted.
        let missing = (main - self.main).max(0);
        let (made_main, made_trim) = match small.pieces {
            // `missing` ounces are missing × pieces ÷ main of them.
            Some(pieces) => {
                let whole = (missing * pieces + small.main * self.unit - 1) / (small.main * self.unit);
                (whole * small.main * self.unit / pieces, whole * small.trim * self.unit / pieces)
            }
            None => (missing, missing * small.trim / small.main),
        };
        self.main = self.main + made_main - main;
        self.trim.push((day, made_trim));
        let mut wanted = wanted;
        for (_, there) in &mut self.trim {
            let taken = wanted.min(*there);
            *there -= taken;
            wanted -= taken;
        }
        wanted > 0
    }
}

/// The most portions of every day by the rule as it is told, every number tried: the largest share of the plan for which no
/// trim is short, then one portion more by turns.
fn most(small: &Small) -> Vec<Vec<i64>> {
    let mut there = There::before(small);
    let mut all = Vec::new();
    for (nth, day) in small.days.iter().enumerate() {
        let (planned, order) = small.of_day(nth);
        let is_short = |portions: &[i64]| there.clone().day(small, *day, portions);
        let users: Vec<usize> = order.into_iter().filter(|dish| small.wants_trim(*dish)).collect();
        // Every share at which a portion falls away, as a fraction: portions over planned.
        let mut shares: Vec<(i64, i64)> = vec![(1, 1)];
        for user in users.iter().filter(|user| planned[**user] > 0) {
            shares.extend((0..planned[*user]).map(|many| (many, planned[*user])));
        }
        shares.sort_by(|(a, b), (c, d)| (c * b).cmp(&(a * d)));
        let at = |(many, of): (i64, i64)| -> Vec<i64> {
            let mut portions = planned.clone();
            users.iter().for_each(|user| portions[*user] = planned[*user] * many / of);
            portions
        };
        let mut portions = shares.into_iter().map(at).find(|portions| !is_short(portions)).expect("none at all");
        loop {
            let before = portions.clone();
            for user in &users {
                let mut with = portions.clone();
                with[*user] += 1;
                if with[*user] <= planned[*user] && !is_short(&with) {
                    portions = with;
                }
            }
            if portions == before {
                break;
            }
        }
        there.day(small, *day, &portions);
        all.push(portions);
    }
    all
}

proptest! {
    #![proptest_config(crate::support::chance(32))]

    #[test]
    fn no_more_portions_could_be_served(small in small()) {
        let of = planned(&small.book());
        prop_assert_eq!(errors(&of.reading, &of.costing), [""; 0], "{}", small.book());
        let most = most(&small);
        let all_is_there = (0..small.days.len()).all(|day| most[day] == small.of_day(day).0);
        let promise: Option<&Promise> = of.balance().promise.as_ref();
        prop_assert_eq!(promise.is_none(), all_is_there, "{:?}\n{}", most, small.book());
        let Some(promise) = promise else { return Ok(()) };
        prop_assert!(promise.is_whole);
        for one in &promise.portions {
            let dish: usize = of.name(one.served).trim_start_matches("Dish ").parse().unwrap();
            prop_assert_eq!(one.portions, Decimal::from(most[one.day][dish]), "{:?}\n{}", one, small.book());
            prop_assert!(small.wants_trim(dish));
        }
        // Alone on its day, a dish is served the largest number of all for which nothing is short.
        let mut there = There::before(&small);
        for (nth, day) in small.days.iter().enumerate() {
            let planned = small.of_day(nth).0;
            let mut users = (0..planned.len()).filter(|dish| small.wants_trim(*dish) && planned[*dish] > 0);
            if let (Some(user), None) = (users.next(), users.next()) {
                let enough = |many: &i64| {
                    let mut portions = planned.clone();
                    portions[user] = *many;
                    !there.clone().day(&small, *day, &portions)
                };
                prop_assert_eq!((0..=planned[user]).rev().find(enough), Some(most[nth][user]));
            }
            there.day(&small, *day, &most[nth]);
        }
        // Served so, nothing is short, by parings' own account.
        let left = std::cell::RefCell::new(most.clone());
        let fewer = small.book().replace(&small.planned(|_, many| many), &small.planned(|at, many| {
            let (dish, _, day) = small.plan[at];
            let served = many.min(left.borrow()[day][dish]);
            left.borrow_mut()[day][dish] -= served;
            served
        }));
        let again = planned(&fewer);
        let short = again.balance().tests.iter().flatten().flat_map(|test| &test.parts).any(|part| !part.short.is_zero());
        prop_assert!(!short, "{fewer}");
    }
}

/// The law is asked of plans where something is short, shared, too old or whole.
#[test]
fn small_plans_run_short_in_every_way() {
    use proptest::strategy::ValueTree;
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let mut seen = [0; 4];
    for _ in 0..400 {
        let small = small().new_tree(&mut runner).unwrap().current();
        let most = most(&small);
        let cut: Vec<usize> = (0..small.days.len()).filter(|day| most[*day] != small.of_day(*day).0).collect();
        let shared = cut.iter().any(|day| {
            let planned = small.of_day(*day).0;
            (0..planned.len()).filter(|dish| small.wants_trim(*dish) && most[*day][*dish] > 0).count() > 1
        });
        let here = [
            !cut.is_empty(),
            shared,
            !cut.is_empty() && small.pieces.is_some(),
            cut.iter().any(|day| *day > 0) && small.keeps.is_some(),
        ];
        seen.iter_mut().zip(here).for_each(|(seen, here)| *seen += i32::from(here));
    }
    assert!(seen.iter().all(|seen| *seen >= 30), "{seen:?}");
}
