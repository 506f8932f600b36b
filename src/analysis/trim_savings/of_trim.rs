//! Users of trim: recipes and yield tests into which a by-product goes, through whatever chain.
//!
//! Takes a kitchen and the book's own costing, whose lines know which of them are costed through a trim test. What is not
//! costed is judged by what its lines name.

use std::collections::HashSet;

use crate::costing::{Costing, LineCost};
use crate::kitchen::plan::Served;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::Role;
use crate::kitchen::{Kitchen, Node, RecipeId, depends};

/// The recipes and tests into which trim goes.
#[derive(Debug, Default)]
pub(super) struct OfTrim {
    nodes: HashSet<Node>,
}

impl OfTrim {
    /// All of them, in one pass in the order of costing.
    pub(super) fn of(kitchen: &Kitchen, costing: &Costing) -> Self {
        let mut found = OfTrim::default();
        for node in &kitchen.order {
            let sources: Vec<IngredientSource> = match node {
                Node::Item(_) => continue,
                Node::Test(id) => kitchen
                    .test(*id)
                    .into_iter()
                    .flat_map(|test| {
                        std::iter::once(test.input).chain(test.added.iter().filter_map(|added| added.source))
                    })
                    .collect(),
                Node::Recipe(id) => sources_of(kitchen, costing, *id),
            };
            if sources.into_iter().any(|source| found.holds(kitchen, source)) {
                found.nodes.insert(*node);
            }
        }
        found
    }

    /// Whether what is served is made of trim.
    pub(super) fn serves(&self, kitchen: &Kitchen, served: Served) -> bool {
        let recipe = match served {
            Served::Dish(index) => kitchen.dishes.get(index).and_then(|dish| dish.recipe),
            Served::Recipe(id) => Some(id),
        };
        recipe.is_some_and(|id| self.holds(kitchen, IngredientSource::Made(id)))
    }

    /// Whether a source is trim or made of it.
    fn holds(&self, kitchen: &Kitchen, source: IngredientSource) -> bool {
        match source {
            IngredientSource::Part(id) => {
                kitchen.part(id).is_some_and(|part| part.role == Role::ByProduct)
                    || self.nodes.contains(&Node::Test(id.test))
            }
            IngredientSource::Made(id) => self.nodes.contains(&Node::Recipe(id)),
            IngredientSource::Bought(_) | IngredientSource::Unknown => false,
        }
    }
}

/// What the lines of a recipe take.
fn sources_of(kitchen: &Kitchen, costing: &Costing, id: RecipeId) -> Vec<IngredientSource> {
    let Some(recipe) = kitchen.recipe(id) else { return Vec::new() };
    let Some(cost) = costing.recipe(id) else { return depends::of_recipe(&kitchen.items, recipe).collect() };
    let sources = cost.lines.iter().filter_map(|line| match line {
        LineCost::Costed { trace, .. } => Some(trace.costed_as.source()),
        LineCost::Uncosted => None,
    });
    sources.collect()
}
