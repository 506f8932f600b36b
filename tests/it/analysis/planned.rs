//! A book with its plan gone through: the balance and the three kitchens, found by the names that a test speaks of.

use parings::analysis::balance::{ItemBalance, PartBalance, TestBalance};
use parings::analysis::trim_savings::{DishWorth, PartWorth, PlanWorth};
use parings::analysis::{Balance, Worth};
use parings::kitchen::plan::Served;
use parings::{Costing, Reading};
use rust_decimal::Decimal;

use super::{d, part, read};

/// A book whose plan was gone through.
pub struct Planned {
    pub reading: Reading,
    pub costing: Costing,
    /// `None` without a plan.
    pub balance: Option<Balance>,
    pub worth: Worth,
}

/// Reads a book and goes through its plan.
#[track_caller]
pub fn planned(book: &str) -> Planned {
    let (reading, costing) = read(book);
    let balance = Balance::of(&reading.kitchen, &costing).unwrap();
    let worth = Worth::of(&reading.kitchen, &costing, balance.as_ref()).unwrap();
    Planned { reading, costing, balance, worth }
}

impl Planned {
    #[track_caller]
    pub fn balance(&self) -> &Balance {
        self.balance.as_ref().unwrap()
    }

    /// The balance of a part.
    #[track_caller]
    pub fn part(&self, name: &str) -> &PartBalance {
        self.balance().part(part(&self.reading, name)).unwrap()
    }

    /// Asserts a part's balance, in pounds: on hand, made, wanted, used, left over, too old, short.
    #[track_caller]
    pub fn balances(&self, name: &str, pounds: [&str; 7]) {
        let part = self.part(name);
        let found = [part.on_hand, part.made, part.wanted, part.used, part.left_over, part.too_old, part.short];
        let words = ["on hand", "made", "wanted", "used", "left over", "too old", "short"];
        for ((found, expected), word) in found.into_iter().zip(pounds).zip(words) {
            is(found, d(expected) * LB, &format!("{name}, {word}, in grams"));
        }
    }

    /// What goes into a test.
    #[track_caller]
    pub fn test(&self, name: &str) -> &TestBalance {
        let at = self.reading.kitchen.tests.iter().position(|test| test.name == name).unwrap();
        self.balance().tests[at].as_ref().unwrap()
    }

    /// The balance of a bought item, which the plan must take.
    #[track_caller]
    pub fn item(&self, name: &str) -> ItemBalance {
        self.found_item(name).unwrap_or_else(|| panic!("the plan takes no “{name}”"))
    }

    /// The same, where the plan takes any.
    pub fn found_item(&self, name: &str) -> Option<ItemBalance> {
        let named = |item: &&ItemBalance| self.reading.kitchen.item(item.item).unwrap().name == name;
        self.balance().purchases.items.iter().find(named).copied()
    }

    /// Asserts what is wanted of an item, taken from the shelf and purchased, in pounds.
    #[track_caller]
    pub fn takes(&self, name: &str, pounds: [&str; 3]) {
        let item = self.item(name);
        for ((found, expected), word) in
            [item.wanted, item.from_stock, item.purchase].into_iter().zip(pounds).zip(["wanted", "shelf", "purchase"])
        {
            is(found, d(expected) * LB, &format!("{name}, {word}, in grams"));
        }
    }

    /// What is served, by name.
    pub fn name(&self, served: Served) -> &str {
        match served {
            Served::Dish(index) => &self.reading.kitchen.dishes[index].name,
            Served::Recipe(id) => &self.reading.kitchen.recipe(id).unwrap().name,
        }
    }

    /// A dish, or a recipe that the plan serves, in the three kitchens.
    #[track_caller]
    pub fn dish(&self, name: &str) -> &DishWorth {
        self.worth.dishes.iter().find(|dish| self.name(dish.served) == name).unwrap()
    }

    /// Asserts food per portion: binned, free, credited.
    #[track_caller]
    pub fn food(&self, name: &str, money: [Decimal; 3]) {
        for (found, expected) in self.dish(name).food.into_iter().zip(money) {
            is(found.unwrap_or_else(|| panic!("{name}: not known")), expected, name);
        }
    }

    /// What a by-product saves.
    #[track_caller]
    pub fn saves(&self, name: &str) -> PartWorth {
        let id = part(&self.reading, name);
        *self.worth.parts.iter().find(|part| part.part == id).unwrap()
    }

    #[track_caller]
    pub fn plan(&self) -> &PlanWorth {
        self.worth.plan.as_ref().unwrap()
    }

    /// Asserts the totals: served, left over, on hand and brought in, for each of binned, free and credited.
    #[track_caller]
    pub fn totals(&self, money: [[&str; 4]; 3]) {
        for ((total, expected), kept) in
            self.plan().totals.iter().zip(money).zip(parings::analysis::trim_savings::Kept::ALL)
        {
            let total = total.unwrap_or_else(|| panic!("{kept:?} is not known"));
            let found = [total.served, total.left_over, total.on_hand, total.brought_in];
            for (found, expected) in found.into_iter().zip(expected) {
                is(found, d(expected), kept.word());
            }
        }
    }

    /// The trim report as text, on one line.
    pub fn report(&self) -> String {
        let trim = parings::analysis::Trim::of(&self.reading.kitchen, &self.costing, &[], d("0.5"));
        let view = parings::output::text::View::default();
        let text = parings::output::text::trim(&self.reading.kitchen, &self.costing, &trim, view);
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    }
}

/// Grams in a pound.
pub const LB: Decimal = Decimal::from_parts(45_359_237, 0, 0, false, 5);

/// Asserts that a figure is `expected`, but for the last of 28 digits that a pound in grams and a quotient lose.
#[track_caller]
pub fn is(found: Decimal, expected: Decimal, what: &str) {
    let allowed = Decimal::new(1, 20) * expected.abs().max(Decimal::ONE);
    assert!((found - expected).abs() <= allowed, "{what}: {found} instead of {expected}");
}
