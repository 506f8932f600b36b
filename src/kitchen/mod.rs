//! The kitchen as its book states it: price rows, measures, yield tests, recipes, menu; first as read
//! ([`Entries`]), then with every name resolved and put in cost order ([`Kitchen`]).
//!
//! Takes what `book` read, cell by cell; gives a [`Kitchen`] that `costing` needs no further file for. It decides
//! nothing that depends on a date or on how trim is charged: that is the scenario's.

pub mod bridge;
pub mod days;
pub(crate) mod depends;
pub mod entries;
pub mod field;
pub mod id;
pub mod layout;
pub mod list;
mod loops;
mod measure_index;
pub mod menu;
pub mod name;
pub mod names;
pub(crate) mod order;
pub mod plan;
pub mod price;
pub mod recipe;
pub mod reference;
pub(crate) mod resolve;
pub mod reuse;
pub(crate) mod runs_one_by_one;
pub mod settings;
pub mod supplier;
pub mod yield_test;

pub use entries::Entries;
pub use field::{Field, InputCell, InputRow};
pub use id::{DishId, ItemId, Node, PartId, RecipeId, TestId};
pub use name::NameKey;
pub use reference::Reference;

use menu::Dish;
use plan::{OnHand, OnOrder, Plan, StockCount};
use price::Item;
use recipe::Recipe;
use settings::Settings;
use yield_test::Test;

/// A book with every name resolved.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Kitchen {
    /// The rows as read, in book order; reports write them back.
    pub entries: Entries,
    /// The settings in force.
    pub settings: Settings,
    /// Everything bought, in book order.
    pub items: Vec<Item>,
    /// The yield tests, in book order.
    pub tests: Vec<Test>,
    /// The recipes, in book order.
    pub recipes: Vec<Recipe>,
    /// The dishes sold, in book order.
    pub dishes: Vec<Dish>,
    /// What is planned.
    pub plan: Plan,
    /// What is on hand, in book order.
    pub stock: Vec<OnHand>,
    /// What is on order, in book order.
    pub on_order: Vec<OnOrder>,
    /// What was counted, in book order.
    pub counts: Vec<StockCount>,
    /// Every item, test and recipe once, each after what it depends on. What is in a loop is left out.
    pub order: Vec<Node>,
}

impl Kitchen {
    /// The item of an id made by this kitchen.
    pub fn item(&self, id: ItemId) -> Option<&Item> {
        self.items.get(id.index())
    }

    /// How many items are bought: water and ice from the tap are not.
    pub fn bought_items(&self) -> usize {
        self.items.iter().filter(|item| !item.is_water).count()
    }

    /// The test of an id made by this kitchen.
    pub fn test(&self, id: TestId) -> Option<&Test> {
        self.tests.get(id.index())
    }

    /// The ids of the tests, in book order.
    pub fn test_ids(&self) -> impl Iterator<Item = TestId> {
        (0..self.tests.len()).map(TestId::new)
    }

    /// The ids of a test's parts, in book order.
    pub fn part_ids(&self, test: TestId) -> impl Iterator<Item = PartId> {
        (0..self.test(test).map_or(0, |test| test.parts.len())).map(move |index| PartId::new(test, index))
    }

    /// Every part of every test, in book order.
    pub fn all_parts(&self) -> impl Iterator<Item = PartId> {
        self.test_ids().flat_map(|test| self.part_ids(test))
    }

    /// The part of an id made by this kitchen.
    pub fn part(&self, id: PartId) -> Option<&yield_test::Part> {
        self.test(id.test)?.parts.get(id.index())
    }

    /// The dish that the row at `row` of the menu is, as an index; `None` where it only adds to the sales of another.
    pub fn dish_of_row(&self, row: usize) -> Option<usize> {
        // Rows of the menu come first, in their order.
        let at = self.dishes.partition_point(|dish| dish.row.is_some_and(|other| other < row));
        self.dishes.get(at).is_some_and(|dish| dish.row == Some(row)).then_some(at)
    }

    /// What something served is called.
    pub fn served_name(&self, served: plan::Served) -> &str {
        match served {
            plan::Served::Dish(index) => self.dishes.get(index).map(|dish| dish.name.as_str()),
            plan::Served::Recipe(id) => self.recipe(id).map(|recipe| recipe.name.as_str()),
        }
        .unwrap_or_default()
    }

    /// The dish of an id made by this kitchen.
    pub fn dish(&self, id: DishId) -> Option<&Dish> {
        self.dishes.get(id.index())
    }

    /// The recipe of an id made by this kitchen.
    pub fn recipe(&self, id: RecipeId) -> Option<&Recipe> {
        self.recipes.get(id.index())
    }
}
