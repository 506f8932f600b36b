//! The order of costing: every item, test and recipe after what it depends on; loops found.
//!
//! One pass with an explicit stack (Tarjan's strongly connected components), so depth costs no recursion.

use std::collections::{HashMap, HashSet};

use super::loops::LoopTelling;
use super::menu::Dish;
use super::price::Item;
use super::recipe::{IngredientSource, Recipe};
use super::yield_test::Test;
use super::{Entries, ItemId, Node, RecipeId, TestId, depends};
use crate::problem::Problem;

/// All nodes, each after what it depends on. What is in a loop is marked broken; only there does a node stand before
/// something that it depends on.
pub(super) fn order(
    (entries, dishes): (&Entries, &[Dish]),
    items: &[Item],
    tests: &mut [Test],
    recipes: &mut [Recipe],
    problems: &mut Vec<Problem>,
) -> Vec<Node> {
    let graph = Graph::of(items, tests, recipes);
    let mut order = Vec::with_capacity(graph.edges.len());
    for component in graph.components() {
        let looped = match component.as_slice() {
            [one] => graph.edges.get(*one).is_some_and(|edges| edges.contains(one)),
            _ => true,
        };
        if !looped {
            order.extend(component.into_iter().map(|index| graph.node(index)));
            continue;
        }
        let way: Vec<Node> = graph.loop_in(&component).into_iter().map(|index| graph.node(index)).collect();
        problems.extend(LoopTelling { entries, items, tests, recipes, dishes }.problem(&way));
        for index in &component {
            match graph.node(*index) {
                Node::Test(id) => tests.get_mut(id.index()).into_iter().for_each(|test| test.broken = true),
                Node::Recipe(id) => recipes.get_mut(id.index()).into_iter().for_each(|recipe| recipe.broken = true),
                Node::Item(_) => {}
            }
        }
        order.extend(component.into_iter().map(|index| graph.node(index)));
    }
    order
}

/// Who depends on whom, by one running number over items, tests and recipes.
struct Graph {
    items: usize,
    tests: usize,
    edges: Vec<Vec<usize>>,
}

impl Graph {
    fn of(items: &[Item], tests: &[Test], recipes: &[Recipe]) -> Self {
        let mut graph = Graph { items: items.len(), tests: tests.len(), edges: Vec::new() };
        graph.edges.extend(items.iter().map(|_| Vec::new()));
        for test in tests {
            let edges = depends::of_test(test).filter_map(|source| graph.number_of(source)).collect();
            graph.edges.push(edges);
        }
        for recipe in recipes {
            let edges = depends::of_recipe(items, recipe).filter_map(|source| graph.number_of(source)).collect();
            graph.edges.push(edges);
        }
        graph
    }

    fn number_of(&self, source: IngredientSource) -> Option<usize> {
        match source {
            IngredientSource::Bought(id) => Some(id.index()),
            IngredientSource::Part(part) => Some(self.items.saturating_add(part.test.index())),
            IngredientSource::Made(id) => Some(self.items.saturating_add(self.tests).saturating_add(id.index())),
            IngredientSource::Unknown => None,
        }
    }

    fn node(&self, number: usize) -> Node {
        match number.checked_sub(self.items) {
            None => Node::Item(ItemId::new(number)),
            Some(rest) => match rest.checked_sub(self.tests) {
                None => Node::Test(TestId::new(rest)),
                Some(rest) => Node::Recipe(RecipeId::new(rest)),
            },
        }
    }

    /// The strongly connected components, dependencies first.
    fn components(&self) -> Vec<Vec<usize>> {
        let mut tarjan = Tarjan {
            graph: self,
            seen: vec![None; self.edges.len()],
            low: vec![0; self.edges.len()],
            on_stack: vec![false; self.edges.len()],
            stack: Vec::new(),
            next: 0,
            found: Vec::new(),
        };
        for start in 0..self.edges.len() {
            tarjan.visit(start);
        }
        tarjan.found
    }

    /// A way back to its start inside `component`, as short as any: from its first recipe, or its first test when no recipe
    /// is in it.
    fn loop_in(&self, component: &[usize]) -> Vec<usize> {
        let recipe = component.iter().copied().filter(|n| matches!(self.node(*n), Node::Recipe(_))).min();
        let Some(start) = recipe.or_else(|| component.iter().copied().min()) else { return Vec::new() };
        let component: HashSet<usize> = component.iter().copied().collect();
        let mut came_from: HashMap<usize, usize> = HashMap::new();
        let mut queue = std::collections::VecDeque::from([start]);
        while let Some(at) = queue.pop_front() {
            for next in self.edges.get(at).into_iter().flatten() {
                if *next == start {
                    let mut path = vec![start, at];
                    let mut back = at;
                    while back != start {
                        let Some(before) = came_from.get(&back) else { break };
                        back = *before;
                        path.push(back);
                    }
                    path.reverse();
                    return path;
                }
                if component.contains(next) && !came_from.contains_key(next) {
                    came_from.insert(*next, at);
                    queue.push_back(*next);
                }
            }
        }
        vec![start, start]
    }
}

struct Tarjan<'a> {
    graph: &'a Graph,
    seen: Vec<Option<usize>>,
    low: Vec<usize>,
    on_stack: Vec<bool>,
    stack: Vec<usize>,
    next: usize,
    found: Vec<Vec<usize>>,
}

impl Tarjan<'_> {
    fn visit(&mut self, start: usize) {
        if self.seen_at(start).is_some() {
            return;
        }
        let mut work: Vec<(usize, usize)> = vec![(start, 0)];
        self.enter(start);
        while let Some((at, edge)) = work.pop() {
            let next = self.graph.edges.get(at).and_then(|edges| edges.get(edge)).copied();
            match next {
                Some(next) => {
                    work.push((at, edge.saturating_add(1)));
                    match self.seen_at(next) {
                        None => {
                            self.enter(next);
                            work.push((next, 0));
                        }
                        Some(order) if self.on_stack.get(next).copied().unwrap_or(false) => self.lower(at, order),
                        Some(_) => {}
                    }
                }
                None => {
                    self.leave(at);
                    if let Some((parent, _)) = work.last().copied() {
                        let low = self.low.get(at).copied().unwrap_or(usize::MAX);
                        self.lower(parent, low);
                    }
                }
            }
        }
    }

    fn seen_at(&self, node: usize) -> Option<usize> {
        self.seen.get(node).copied().flatten()
    }

    fn enter(&mut self, node: usize) {
        if let (Some(seen), Some(low), Some(on)) =
            (self.seen.get_mut(node), self.low.get_mut(node), self.on_stack.get_mut(node))
        {
            *seen = Some(self.next);
            *low = self.next;
            *on = true;
        }
        self.next = self.next.saturating_add(1);
        self.stack.push(node);
    }

    fn lower(&mut self, node: usize, to: usize) {
        if let Some(low) = self.low.get_mut(node) {
            *low = (*low).min(to);
        }
    }

    /// When `node` is the root of its component, takes the component off the stack.
    fn leave(&mut self, node: usize) {
        if self.low.get(node).copied() != self.seen_at(node) {
            return;
        }
        let mut component = Vec::new();
        while let Some(member) = self.stack.pop() {
            if let Some(on) = self.on_stack.get_mut(member) {
                *on = false;
            }
            component.push(member);
            if member == node {
                break;
            }
        }
        component.reverse();
        self.found.push(component);
    }
}
