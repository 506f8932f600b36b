//! The order of costing: every item, test and recipe after what it depends on; loops found and named in full.
//!
//! One pass with an explicit stack (Tarjan's strongly connected components), so depth costs no recursion.

use std::collections::{HashMap, HashSet};

use super::price::Item;
use super::recipe::{IngredientSource, Recipe};
use super::yield_test::Test;
use super::{ItemId, Node, RecipeId, TestId, depends};
use crate::problem::{Code, Fault, Problem};

/// All nodes, each after what it depends on. What is in a loop is marked broken; only there does a node stand before
/// something that it depends on.
pub(super) fn order(
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
        report(&graph, &component, items, tests, recipes, problems);
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

    /// A way from `start` back to itself inside `component`, as short as any.
    fn loop_through(&self, start: usize, component: &[usize]) -> Vec<usize> {
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

fn report(
    graph: &Graph,
    component: &[usize],
    items: &[Item],
    tests: &[Test],
    recipes: &[Recipe],
    problems: &mut Vec<Problem>,
) {
    let name = |number: &usize| match graph.node(*number) {
        Node::Item(id) => items.get(id.index()).map(|item| item.name.as_str()).unwrap_or_default(),
        Node::Test(id) => tests.get(id.index()).map(|test| test.name.as_str()).unwrap_or_default(),
        Node::Recipe(id) => recipes.get(id.index()).map(|recipe| recipe.name.as_str()).unwrap_or_default(),
    };
    // The loop is told from its first recipe, or its first test when no recipe is in it.
    let recipe = component.iter().copied().filter(|n| matches!(graph.node(*n), Node::Recipe(_))).min();
    let Some(start) = recipe.or_else(|| component.iter().copied().min()) else { return };
    let place = match graph.node(start) {
        Node::Recipe(id) => recipes.get(id.index()).map(|recipe| recipe.place.clone()),
        Node::Test(id) => tests.get(id.index()).map(|test| test.place.clone()),
        Node::Item(_) => None,
    };
    let Some(place) = place else { return };
    let path = graph.loop_through(start, component);
    let path = by_its_ends(path.iter().map(|n| format!("“{}”", name(n))).collect());
    // Inside a recipe its own name is what is bought by that name.
    let by_dish = match graph.node(start) {
        Node::Recipe(id) => recipes.get(id.index()).is_some_and(|recipe| {
            recipe.lines.iter().any(|line| line.dish.is_some() && line.source == IngredientSource::Made(id))
        }),
        Node::Item(_) | Node::Test(_) => false,
    };
    let help = match component {
        [_] if by_dish => {
            "One of its lines names a dish that is served of it: name another recipe or dish there.".to_owned()
        }
        [_] => format!(
            "Give {} a price row, if it is bought by that name too: inside its own recipe the name then means what is bought. \
             Else give that line its right name.",
            path.first().cloned().unwrap_or_default()
        ),
        _ => "Take one of them out of the other, or name the bought product instead.".to_owned(),
    };
    problems.push(
        Fault::new(
            Code::RecipeLoop,
            format!("{} contains itself: {}", path.first().cloned().unwrap_or_default(), path.join(" → ")),
            help,
        )
        .at(place),
    );
}

/// A long way by its first and last steps, and how many are between.
fn by_its_ends(mut steps: Vec<String>) -> Vec<String> {
    const MOST: usize = 12;
    const ENDS: usize = 4;
    if steps.len() > MOST {
        let between = ENDS..steps.len().saturating_sub(ENDS);
        let left_out = format!("{} more", between.len());
        steps.splice(between, [left_out]);
    }
    steps
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_way_is_told_by_its_ends() {
        let steps = |count: usize| (1..=count).map(|n| n.to_string()).collect::<Vec<_>>();
        assert_eq!(by_its_ends(steps(12)), steps(12));
        assert_eq!(by_its_ends(steps(1_001)).join(" → "), "1 → 2 → 3 → 4 → 993 more → 998 → 999 → 1000 → 1001");
    }
}
