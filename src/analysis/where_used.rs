//! Reach of one yield test's parts: into parts of later tests, recipes and dishes, through every chain.
//!
//! Takes a kitchen and its costing; gives sets of parts, as indices into the test's own. A line of a bought item counts
//! through its trim test only where it was costed so.

use std::collections::{BTreeSet, HashMap, HashSet};

use crate::costing::{Costing, LineCost};
use crate::kitchen::menu::Dish;
use crate::kitchen::plan::Served;
use crate::kitchen::recipe::{IngredientSource, Recipe};
use crate::kitchen::yield_test::{Charge, Test};
use crate::kitchen::{Kitchen, Node, PartId, RecipeId, TestId, depends};

/// The parts of one test that go into each source.
#[derive(Debug, Clone, Default)]
pub struct Reach {
    parts: HashMap<IngredientSource, BTreeSet<usize>>,
    follows: Follows,
}

/// What is followed through later tests.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Follows {
    /// Money: what is charged at a price of its own holds nothing of what went in.
    #[default]
    Money,
    /// The food itself: whatever comes out holds what went in.
    Food,
}

/// Everything whose cost some dish bears, found in one pass from the dishes back: as [`Reach::of`] of every test has it.
pub fn borne_by_dishes(kitchen: &Kitchen, costing: &Costing) -> HashSet<IngredientSource> {
    let mut borne: HashSet<IngredientSource> =
        kitchen.dishes.iter().filter_map(|dish| dish.recipe).map(IngredientSource::Made).collect();
    for node in kitchen.order.iter().rev() {
        match node {
            Node::Test(id) => {
                let Some(test) = kitchen.test(*id) else { continue };
                let added = || test.added.iter().filter_map(|added| added.source);
                for (index, part) in test.parts.iter().enumerate() {
                    if !borne.contains(&IngredientSource::Part(PartId::new(*id, index))) {
                        continue;
                    }
                    match part.charge {
                        Charge::Joint { .. } => borne.extend(std::iter::once(test.input).chain(added())),
                        Charge::Fraction(_) => borne.extend([test.input]),
                        Charge::Free | Charge::Price { .. } | Charge::Market(_) => {}
                    }
                }
            }
            Node::Recipe(id) if borne.contains(&IngredientSource::Made(*id)) => {
                let Some(recipe) = kitchen.recipe(*id) else { continue };
                borne.extend(sources(kitchen, costing, *id, recipe));
            }
            _ => {}
        }
    }
    borne
}

/// What a recipe is made of: what its lines were costed as, else whatever it names.
fn sources(kitchen: &Kitchen, costing: &Costing, id: RecipeId, recipe: &Recipe) -> Vec<IngredientSource> {
    let Some(cost) = costing.recipe(id) else {
        return depends::of_recipe(&kitchen.items, recipe).collect();
    };
    let used = cost.lines.iter().filter_map(|line| match line {
        LineCost::Costed { trace, .. } => Some(trace.costed_as.source()),
        LineCost::Uncosted => None,
    });
    used.collect()
}

impl Reach {
    /// What bears the cost of the parts of `of`.
    pub fn of(kitchen: &Kitchen, costing: &Costing, of: TestId) -> Self {
        Reach::following(Follows::Money, kitchen, costing, of)
    }

    /// What the parts of `of` go into, whatever that is charged: where what they carry is found.
    pub fn of_food(kitchen: &Kitchen, costing: &Costing, of: TestId) -> Self {
        Reach::following(Follows::Food, kitchen, costing, of)
    }

    fn following(follows: Follows, kitchen: &Kitchen, costing: &Costing, of: TestId) -> Self {
        let mut reach = Reach { follows, ..Reach::default() };
        for index in 0..kitchen.test(of).map_or(0, |test| test.parts.len()) {
            reach.parts.insert(IngredientSource::Part(PartId::new(of, index)), BTreeSet::from([index]));
        }
        for node in &kitchen.order {
            match node {
                Node::Test(id) if *id != of => kitchen.test(*id).into_iter().for_each(|test| reach.test(*id, test)),
                Node::Recipe(id) => {
                    let found = kitchen.recipe(*id).map(|recipe| reach.recipe(kitchen, costing, *id, recipe));
                    reach.note(IngredientSource::Made(*id), found.unwrap_or_default());
                }
                _ => {}
            }
        }
        reach
    }

    /// The parts that go into `dish`.
    pub fn dish(&self, dish: &Dish) -> BTreeSet<usize> {
        dish.recipe.map(|id| self.source(IngredientSource::Made(id))).unwrap_or_default()
    }

    /// The parts that go into what is served: a dish, or a recipe that is none.
    pub fn served(&self, kitchen: &Kitchen, served: Served) -> BTreeSet<usize> {
        match served {
            Served::Dish(index) => kitchen.dishes.get(index).map(|dish| self.dish(dish)).unwrap_or_default(),
            Served::Recipe(id) => self.source(IngredientSource::Made(id)),
        }
    }

    fn source(&self, source: IngredientSource) -> BTreeSet<usize> {
        self.parts.get(&source).cloned().unwrap_or_default()
    }

    fn note(&mut self, source: IngredientSource, parts: BTreeSet<usize>) {
        if !parts.is_empty() {
            self.parts.insert(source, parts);
        }
    }

    /// A later test: what shares its cost holds all that went in; a fraction holds its input; other charges hold nothing.
    fn test(&mut self, id: TestId, test: &Test) {
        let input = self.source(test.input);
        let added = test.added.iter().filter_map(|added| added.source).flat_map(|source| self.source(source));
        let all: BTreeSet<usize> = input.iter().copied().chain(added).collect();
        for (index, part) in test.parts.iter().enumerate() {
            let holds = match part.charge {
                _ if self.follows == Follows::Food => all.clone(),
                Charge::Joint { .. } => all.clone(),
                Charge::Fraction(_) => input.clone(),
                Charge::Free | Charge::Price { .. } | Charge::Market(_) => BTreeSet::new(),
            };
            self.note(IngredientSource::Part(PartId::new(id, index)), holds);
        }
    }

    fn recipe(&self, kitchen: &Kitchen, costing: &Costing, id: RecipeId, recipe: &Recipe) -> BTreeSet<usize> {
        sources(kitchen, costing, id, recipe).into_iter().flat_map(|source| self.source(source)).collect()
    }
}
