//! Errors that stop a dish: the errors on the way from the dish down to what it is made of.

use std::collections::{HashMap, HashSet, VecDeque};

use crate::costing::Costing;
use crate::kitchen::menu::Dish;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::{InputRow, Kitchen, Node, RecipeId, depends};
use crate::problem::{Code, Place, Problem};

/// The errors of a book by the cell where each stands.
pub struct Errors<'a> {
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    at: HashMap<&'a Place, &'a Problem>,
}

/// So many items, tests and recipes are looked at below a dish, the nearest first. In a chain of thousands that is stopped at
/// its very end every dish would be followed down to it.
const MOST_LOOKED_AT: usize = 1_000;

impl<'a> Errors<'a> {
    /// The errors among `problems`.
    pub fn of(kitchen: &'a Kitchen, costing: &'a Costing, problems: &'a [Problem]) -> Self {
        let errors = || problems.iter().filter(|problem| problem.is_error());
        let at = errors().map(|problem| (&problem.place, problem)).collect();
        let mut errors = Errors { kitchen, costing, at };
        if problems.iter().any(|problem| problem.code == Code::RecipeTwice) {
            errors.stop_firsts();
        }
        errors
    }

    /// A name given twice stops the first recipe of that name too: told is the next one, in the order of the recipes, which
    /// stays when the book is read again.
    fn stop_firsts(&mut self) {
        for entry in &self.kitchen.entries.recipes {
            let twice = self.on(&entry.input).into_iter().find(|problem| problem.code == Code::RecipeTwice);
            if let Some((problem, first)) = twice.and_then(|problem| Some((problem, problem.there.as_ref()?))) {
                self.at.entry(first).or_insert(problem);
            }
        }
    }

    /// The errors that stop `dish`, the nearest first; none when it is costed, or when no cell can be named.
    pub fn stopping(&self, dish: &Dish) -> Vec<&'a Problem> {
        let row = dish.row.and_then(|row| self.kitchen.entries.menu.get(row));
        let found = row.map(|row| self.on(&row.input)).unwrap_or_default();
        self.below(found, dish.recipe)
    }

    /// The errors that stop a recipe, the nearest first; none when it is costed.
    pub fn stopping_recipe(&self, id: RecipeId) -> Vec<&'a Problem> {
        if self.costing.recipe(id).is_some() { Vec::new() } else { self.below(Vec::new(), Some(id)) }
    }

    /// What was found so far, and what is found from a recipe down.
    fn below(&self, mut found: Vec<&'a Problem>, recipe: Option<RecipeId>) -> Vec<&'a Problem> {
        let mut queue: VecDeque<Node> = recipe.map(Node::Recipe).into_iter().collect();
        let mut seen: HashSet<Node> = queue.iter().copied().collect();
        for _ in 0..MOST_LOOKED_AT {
            let Some(node) = queue.pop_front() else { break };
            let (rows, sources) = self.around(node);
            found.extend(rows.into_iter().flat_map(|row| self.on(row)));
            let below = sources.into_iter().filter_map(IngredientSource::node).filter(|node| self.is_stopped(*node));
            queue.extend(below.filter(|node| seen.insert(*node)));
        }
        let mut told: HashSet<*const Problem> = HashSet::new();
        found.retain(|problem| told.insert(std::ptr::from_ref(*problem)));
        found
    }

    fn on(&self, row: &InputRow) -> Vec<&'a Problem> {
        let places = std::iter::once(&row.place).chain(row.cells.iter().map(|cell| &cell.place));
        places.filter_map(|place| self.at.get(place)).copied().collect()
    }

    fn is_stopped(&self, node: Node) -> bool {
        match node {
            Node::Item(id) => self.costing.item(id).is_none(),
            Node::Test(id) => self.costing.test(id).is_none(),
            Node::Recipe(id) => self.costing.recipe(id).is_none(),
        }
    }

    /// The rows in which a node is stated, and what it is made of.
    fn around(&self, node: Node) -> (Vec<&'a InputRow>, Vec<IngredientSource>) {
        let entries = &self.kitchen.entries;
        match node {
            Node::Item(id) => {
                let item = self.kitchen.item(id);
                let rows = item.into_iter().flat_map(|item| &item.rows).filter_map(|row| entries.prices.get(*row));
                (rows.map(|row| &row.input).collect(), Vec::new())
            }
            Node::Test(id) => {
                let Some(test) = self.kitchen.test(id) else { return Default::default() };
                let inputs = test.runs.iter().map(|run| run.row).chain(test.added.iter().map(|added| added.row));
                let all = inputs.chain(test.parts.iter().flat_map(|part| part.rows.iter().copied()));
                let rows = all.filter_map(|row| entries.tests.get(row)).map(|row| &row.input).collect();
                (rows, depends::of_test(test).collect())
            }
            Node::Recipe(id) => {
                let Some(recipe) = self.kitchen.recipe(id) else { return Default::default() };
                let Some(entry) = entries.recipes.get(recipe.entry) else { return Default::default() };
                let rows = std::iter::once(&entry.input).chain(entry.lines.iter().map(|line| &line.input));
                // Nor is a recipe costed of which a line could not be read.
                let rows = rows.chain(&entry.unread);
                // What a line that names a dish asks for, its row of the menu says.
                let dishes = recipe.lines.iter().filter_map(|line| self.kitchen.dish(line.dish?)?.row);
                let rows = rows.chain(dishes.filter_map(|row| Some(&entries.menu.get(row)?.input)));
                (rows.collect(), depends::of_recipe(&self.kitchen.items, recipe).collect())
            }
        }
    }
}
