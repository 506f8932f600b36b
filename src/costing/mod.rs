//! Costing: bought, fabricated and made items in one pass, each visited once, in cost order.
//!
//! Takes a [`Kitchen`] and a [`Scenario`]; gives a [`Costing`]: figures with their provenance, and the problems met.
//! Sees no file, clock or terminal. What a problem stops is `None`; everything else is costed.

pub(crate) mod allergens;
pub(crate) mod conversion;
pub(crate) mod dish;
pub(crate) mod edible_portion;
mod item_yield;
pub(crate) mod line;
pub(crate) mod made;
pub(crate) mod menu_price;
pub(crate) mod piece_yield;
mod plausibility;
pub(crate) mod price;
pub(crate) mod q_and_spice;
pub(crate) mod rate;
mod resized;
pub(crate) mod scenario;
mod stock_units;
mod sub_recipe;
pub(crate) mod trace;
pub(crate) mod what_if;
pub(crate) mod yield_test;

pub use allergens::{AllergenPath, AllergenSet, Carried, Silent};
pub use conversion::base_unit::BaseUnitKind;
pub use conversion::convert::Crossing;
pub use conversion::equivalence::MeasureFrom;
pub use dish::{DishCost, Plate, ServedAs};
pub use line::LineCost;
pub use made::RecipeCost;
pub use piece_yield::{PieceYield, Pieces};
pub use price::bought::{ItemCost, PriceFrom, Rival, RowCost};
pub use price::in_use::RowState;
pub use rate::{Amount, Rate};
pub use scenario::{BoughtIn, Charging, Scenario, Unused};
pub use trace::{CostedAs, LineTrace, YieldFrom};
pub use what_if::Trial;
pub use yield_test::cost::{PartCost, TestCost, WentIn};

use crate::food::Allergen;
use crate::kitchen::{DishId, ItemId, Kitchen, Node, PartId, RecipeId, TestId};
use crate::problem::Problem;

/// The costs of a kitchen under one scenario. Lists run beside the kitchen's own.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Costing {
    /// The scenario.
    pub scenario: Scenario,
    /// What every price row costs per unit, whether it is used or not.
    pub rows: Vec<Option<RowCost>>,
    /// Why every price row is used or not.
    pub row_states: Vec<RowState>,
    /// The items.
    pub items: Vec<Option<ItemCost>>,
    /// What their pieces say of their yields.
    pub pieces: Vec<piece_yield::Pieces>,
    /// The yield tests.
    pub tests: Vec<Option<TestCost>>,
    /// The recipes.
    pub recipes: Vec<Option<RecipeCost>>,
    /// The dishes.
    pub dishes: Vec<Option<DishCost>>,
    /// What of a batch a plate is, of the dishes that lines of costed recipes name.
    pub plates: Vec<Option<Plate>>,
    /// The allergens of every recipe, costed or not.
    pub allergens: Vec<AllergenSet>,
    /// The allergens of every yield test, which all its parts carry.
    pub test_allergens: Vec<AllergenSet>,
    /// What was met on the way.
    pub problems: Vec<Problem>,
}

impl Costing {
    /// The cost of an item.
    pub fn item(&self, id: ItemId) -> Option<&ItemCost> {
        self.items.get(id.index())?.as_ref()
    }

    /// The cost of a test.
    pub fn test(&self, id: TestId) -> Option<&TestCost> {
        self.tests.get(id.index())?.as_ref()
    }

    /// The cost of a part.
    pub fn part(&self, id: PartId) -> Option<&PartCost> {
        self.test(id.test)?.parts.get(id.index())
    }

    /// What an allergen came by into `start`, a recipe or a test: the nodes after it on a shortest way, down to the item that
    /// states it. `may` asks for what may be in it.
    pub fn way_of(&self, start: Node, allergen: &Allergen, may: bool) -> Vec<Node> {
        let mut way = Vec::new();
        let mut at = start;
        // Every step is nearer to the item; a way longer than there are nodes would be none.
        let most = self.items.len().saturating_add(self.tests.len()).saturating_add(self.recipes.len());
        while way.len() <= most {
            let set = match at {
                Node::Item(_) => return way,
                Node::Test(id) => self.test_allergens.get(id.index()),
                Node::Recipe(id) => self.allergens.get(id.index()),
            };
            let found =
                set.and_then(|set| if may { set.may_contain.get(allergen) } else { set.contains.get(allergen) });
            let Some(next) = found.and_then(|carried| carried.way.next) else { return way };
            way.push(next);
            at = next;
        }
        way
    }

    /// The same under another scenario, before it is costed: without the lines of its recipes, which are most of it, without
    /// allergens, which are much of the rest, and without problems.
    fn under(&self, scenario: Scenario) -> Self {
        let bare = |cost: &Option<RecipeCost>| cost.as_ref().map(RecipeCost::without_lines);
        Costing {
            scenario,
            rows: self.rows.clone(),
            row_states: self.row_states.clone(),
            items: self.items.clone(),
            pieces: self.pieces.clone(),
            tests: self.tests.clone(),
            recipes: self.recipes.iter().map(bare).collect(),
            dishes: self.dishes.clone(),
            plates: self.plates.clone(),
            allergens: Vec::new(),
            test_allergens: Vec::new(),
            problems: Vec::new(),
        }
    }

    /// What of a batch a plate of a dish is that a line names.
    pub fn plate(&self, id: DishId) -> Option<Plate> {
        self.plates.get(id.index()).copied().flatten()
    }

    /// The cost of a recipe.
    pub fn recipe(&self, id: RecipeId) -> Option<&RecipeCost> {
        self.recipes.get(id.index())?.as_ref()
    }

    /// Lines without cost, of all recipes that are costed.
    pub(crate) fn uncosted_lines(&self) -> usize {
        self.recipes.iter().flatten().map(RecipeCost::uncosted_lines).sum()
    }
}

/// Costs `kitchen` under `scenario`.
pub fn cost(kitchen: &Kitchen, scenario: &Scenario) -> Costing {
    let priced = price::in_use::all(kitchen, scenario);
    let mut costing = Costing {
        scenario: scenario.clone(),
        rows: priced.rows,
        row_states: priced.states,
        items: priced.items,
        pieces: Vec::new(),
        tests: kitchen.tests.iter().map(|_| None).collect(),
        recipes: kitchen.recipes.iter().map(|_| None).collect(),
        dishes: Vec::with_capacity(kitchen.dishes.len()),
        plates: vec![None; kitchen.dishes.len()],
        allergens: Vec::new(),
        test_allergens: Vec::new(),
        problems: priced.problems,
    };
    piece_yield::all(kitchen, &mut costing);
    for node in &kitchen.order {
        match node {
            Node::Item(_) => {}
            Node::Test(id) => {
                let cost = yield_test::cost::cost(kitchen, &mut costing, *id);
                if let Some(slot) = costing.tests.get_mut(id.index()) {
                    *slot = cost;
                }
            }
            Node::Recipe(id) => {
                let cost = made::cost(kitchen, &mut costing, *id);
                if let Some(slot) = costing.recipes.get_mut(id.index()) {
                    *slot = cost;
                }
            }
        }
    }
    for dish in &kitchen.dishes {
        let cost = dish::cost(kitchen, &mut costing, dish);
        costing.dishes.push(cost);
    }
    let doubts = plausibility::doubts(kitchen, &costing);
    costing.problems.extend(doubts);
    let of_stock = stock_units::problems(kitchen, &costing);
    costing.problems.extend(of_stock);
    (costing.allergens, costing.test_allergens) = allergens::all(kitchen, &costing);
    costing
}
