//! What a figure stands on: the recipes, yield tests and items on the way down from it, the nearest first.

use std::collections::{HashSet, VecDeque};

use super::subject::Subject;
use crate::costing::{Costing, LineCost};
use crate::kitchen::recipe::{IngredientSource, Line};
use crate::kitchen::{ItemId, Kitchen, Node, RecipeId, TestId, depends};

/// So many recipes, tests and items are walked, the nearest first. A chain may be thousands deep.
const MOST: usize = 500;

/// What a figure stands on. The nearest stand first.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct OnTheWay {
    /// Recipes.
    pub recipes: Vec<RecipeId>,
    /// Yield tests.
    pub tests: Vec<TestId>,
    /// What is bought.
    pub items: Vec<ItemId>,
    /// Whether there is more than is walked.
    pub is_cut: bool,
}

impl OnTheWay {
    /// The nearest of what `subject` stands on; of some lines alone, of those.
    pub fn of(kitchen: &Kitchen, costing: &Costing, subject: Subject, lines: Option<&[usize]>) -> Self {
        OnTheWay::within(MOST, kitchen, costing, subject, lines)
    }

    /// All that `subject` stands on, likewise.
    pub(super) fn all(kitchen: &Kitchen, costing: &Costing, subject: Subject, lines: Option<&[usize]>) -> Self {
        OnTheWay::within(usize::MAX, kitchen, costing, subject, lines)
    }

    fn within(most: usize, kitchen: &Kitchen, costing: &Costing, subject: Subject, lines: Option<&[usize]>) -> Self {
        let mut way = OnTheWay::default();
        let mut queue: VecDeque<Node> = subject.node(kitchen).into_iter().collect();
        let mut seen: HashSet<Node> = queue.iter().copied().collect();
        let mut lines = lines;
        while let Some(node) = queue.pop_front() {
            let known = way.recipes.len().saturating_add(way.tests.len()).saturating_add(way.items.len());
            if known >= most {
                way.is_cut = true;
                break;
            }
            match node {
                Node::Recipe(id) => way.recipes.push(id),
                Node::Test(id) => way.tests.push(id),
                Node::Item(id) => way.items.push(id),
            }
            let below = below(kitchen, costing, node, lines.take()).into_iter().filter_map(IngredientSource::node);
            queue.extend(below.filter(|node| seen.insert(*node)));
        }
        way
    }
}

/// What a node is costed from; where it is not costed, what it names.
fn below(kitchen: &Kitchen, costing: &Costing, node: Node, only: Option<&[usize]>) -> Vec<IngredientSource> {
    match node {
        Node::Item(_) => Vec::new(),
        Node::Test(id) => kitchen.test(id).map(|test| depends::of_test(test).collect()).unwrap_or_default(),
        Node::Recipe(id) => {
            let Some(recipe) = kitchen.recipe(id) else { return Vec::new() };
            let is_asked = |index: usize| only.is_none_or(|only| only.contains(&index));
            let lines = recipe.lines.iter().enumerate().filter(|(index, _)| is_asked(*index));
            let costs = costing.recipe(id).map(|cost| cost.lines.as_slice()).unwrap_or_default();
            let source = |(index, line): (usize, &Line)| match costs.get(index) {
                Some(LineCost::Costed { trace, .. }) => Some(trace.costed_as.source()),
                Some(LineCost::Uncosted) => None,
                None => Some(line.source),
            };
            lines.filter_map(source).collect()
        }
    }
}
