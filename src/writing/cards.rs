//! Cards on request: the recipes that have one of their own in the costed workbook where they are too many for all of them
//! to have one.

use std::collections::BTreeSet;

use crate::kitchen::{InputRow, Kitchen, NameKey, RecipeId};
use crate::problem::names::Names;
use crate::schema::Column;
use crate::workbook::xlsx::CardsAsked;

/// Recipes that are to have cards. Up to 200 recipes all have cards, whatever is chosen, or up to as many as
/// [`Cards::up_to`] says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cards {
    up_to: usize,
    chosen: BTreeSet<RecipeId>,
}

impl Default for Cards {
    fn default() -> Self {
        Cards { up_to: CardsAsked::USUAL.up_to, chosen: BTreeSet::new() }
    }
}

/// A name under which there is nothing to put on a card.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("no recipe, dish or group is called “{name}”{}", .near.as_ref().map(|near| format!(". {near}")).unwrap_or_default())]
#[non_exhaustive]
pub struct NoCard {
    /// The name as it was given.
    pub name: String,
    /// The nearest names as a question, else which there are.
    pub near: Option<String>,
}

impl Cards {
    /// Those of the `names`: of a recipe its own, of a dish that of its recipe, of a group those of all its dishes and
    /// recipes.
    ///
    /// # Errors
    /// [`NoCard`] for the first name that is none of these, or the dish of which has no recipe.
    pub fn named<S: AsRef<str>>(kitchen: &Kitchen, names: &[S]) -> Result<Self, NoCard> {
        let mut chosen = BTreeSet::new();
        for name in names {
            let found = Self::of(kitchen, name.as_ref());
            if found.is_empty() {
                return Err(NoCard { name: name.as_ref().to_owned(), near: near(kitchen, name.as_ref()) });
            }
            chosen.extend(found);
        }
        Ok(Cards { chosen, ..Cards::default() })
    }

    /// The same where more than so many recipes are too many for each of them to have a card.
    #[must_use]
    pub fn up_to(self, recipes: usize) -> Self {
        Cards { up_to: recipes, ..self }
    }

    fn of(kitchen: &Kitchen, name: &str) -> Vec<RecipeId> {
        let wanted = NameKey::of(name);
        let ids = || (0..kitchen.recipes.len()).map(RecipeId::new).zip(&kitchen.recipes);
        let own = ids().filter(|(_, recipe)| NameKey::of(&recipe.name) == wanted).map(|(id, _)| id);
        let dishes = kitchen.dishes.iter().filter(|dish| {
            let row = dish.row.and_then(|row| kitchen.entries.menu.get(row));
            NameKey::of(&dish.name) == wanted || row.is_some_and(|row| is_group(&row.input, &wanted))
        });
        let grouped = ids().filter(|(_, recipe)| {
            let entry = kitchen.entries.recipes.get(recipe.entry);
            entry.is_some_and(|entry| is_group(&entry.input, &wanted))
        });
        own.chain(dishes.filter_map(|dish| dish.recipe)).chain(grouped.map(|(id, _)| id)).collect()
    }

    /// As the workbook is asked for them.
    pub(super) fn asked(&self) -> CardsAsked<'_> {
        CardsAsked { up_to: self.up_to, chosen: &self.chosen }
    }
}

fn group(row: &InputRow) -> String {
    row.typed(Column::Group).seen()
}

fn is_group(row: &InputRow, wanted: &NameKey) -> bool {
    let group = group(row);
    !group.trim().is_empty() && NameKey::of(&group) == *wanted
}

fn near(kitchen: &Kitchen, name: &str) -> Option<String> {
    let groups: BTreeSet<String> = (kitchen.entries.menu.iter().map(|row| group(&row.input)))
        .chain(kitchen.entries.recipes.iter().map(|entry| group(&entry.input)))
        .filter(|group| !group.trim().is_empty())
        .collect();
    let recipes = kitchen.recipes.iter().map(|recipe| recipe.name.as_str());
    let dishes = kitchen.dishes.iter().map(|dish| dish.name.as_str());
    let names: BTreeSet<&str> = recipes.chain(dishes).chain(groups.iter().map(String::as_str)).collect();
    names.into_iter().collect::<Names>().answer(name, "The book has")
}
