//! Loops among recipes and yield tests, told in full: at the line that leads on from the first recipe, with the dishes of
//! the menu by which lines lead.

use super::menu::Dish;
use super::price::Item;
use super::recipe::{Line, LineEntry, Recipe};
use super::yield_test::Test;
use super::{Entries, NameKey, Node, RecipeId, depends};
use crate::problem::{Code, Fault, Place, Problem};
use crate::schema::Column;

/// Tells loops.
pub(super) struct LoopTelling<'a> {
    pub(super) entries: &'a Entries,
    pub(super) items: &'a [Item],
    pub(super) tests: &'a [Test],
    pub(super) recipes: &'a [Recipe],
    pub(super) dishes: &'a [Dish],
}

impl LoopTelling<'_> {
    /// The problem of a way that ends where it begins.
    pub(super) fn problem(&self, way: &[Node]) -> Option<Problem> {
        let (start, next) = (*way.first()?, *way.get(1)?);
        let steps = way.windows(2).filter_map(|pair| Some(self.step(*pair.first()?, *pair.get(1)?)));
        let first = format!("“{}”", self.name(start));
        let path: Vec<String> = std::iter::once(first.clone()).chain(steps).collect();
        let help = match (way.len(), self.leading(start, next)) {
            (2, Some((line, _))) if line.dish.is_some() => {
                "One of its lines names a dish that is served of it: name another recipe or dish there.".to_owned()
            }
            (2, _) => format!(
                "Give {first} a price row, if it is bought by that name too: inside its own recipe the name then means what is \
                 bought. Else give that line its right name."
            ),
            _ => "Take one of them out of the other, or name the bought product instead.".to_owned(),
        };
        let message = format!("{first} contains itself: {}", by_its_ends(path).join(" → "));
        Some(Fault::new(Code::RecipeLoop, message, help).at(self.place(start, next)?))
    }

    fn recipe(&self, id: RecipeId) -> Option<&Recipe> {
        self.recipes.get(id.index())
    }

    fn name(&self, node: Node) -> &str {
        match node {
            Node::Item(id) => self.items.get(id.index()).map(|item| item.name.as_str()),
            Node::Test(id) => self.tests.get(id.index()).map(|test| test.name.as_str()),
            Node::Recipe(id) => self.recipe(id).map(|recipe| recipe.name.as_str()),
        }
        .unwrap_or_default()
    }

    /// The line of a recipe that leads to `next`, and as typed.
    fn leading(&self, from: Node, next: Node) -> Option<(&Line, &LineEntry)> {
        let Node::Recipe(id) = from else { return None };
        let recipe = self.recipe(id)?;
        let leads = |line: &&Line| depends::of_line(self.items, line).any(|source| source.node() == Some(next));
        let at = recipe.lines.iter().position(|line| leads(&line))?;
        recipe.lines.get(at).zip(self.entries.recipes.get(recipe.entry)?.lines.get(at))
    }

    /// What a step leads to; the dish too, where its line names one.
    fn step(&self, from: Node, to: Node) -> String {
        let name = self.name(to);
        let dish = self.leading(from, to).and_then(|(line, _)| self.dishes.get(line.dish?.index()));
        match dish.map(|dish| dish.name.as_str()) {
            Some(dish) if NameKey::of(dish) == NameKey::of(name) => format!("the dish “{dish}”"),
            Some(dish) => format!("the dish “{dish}” of “{name}”"),
            None => format!("“{name}”"),
        }
    }

    fn place(&self, start: Node, next: Node) -> Option<Place> {
        if let Some((_, typed)) = self.leading(start, next) {
            return Some(typed.input.place(Column::Item));
        }
        match start {
            Node::Recipe(id) => self.recipe(id).map(|recipe| recipe.place.clone()),
            Node::Test(id) => self.tests.get(id.index()).map(|test| test.place.clone()),
            Node::Item(_) => None,
        }
    }
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
