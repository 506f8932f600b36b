//! Subject of a question: the dish, recipe, part or item that a name means, by the rules of names in a book.
//!
//! A dish goes before a recipe, a recipe before a part, what is made in the house before what is bought; `Test: Part` names a
//! part together with its test.

use crate::kitchen::{ItemId, Kitchen, NameKey, Node, PartId, RecipeId};
use crate::problem::names::{Bearer, Names};
use crate::problem::suggest::quoted_list;

/// What is asked about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Subject {
    /// A dish, as an index into the menu.
    Dish(usize),
    /// A recipe.
    Recipe(RecipeId),
    /// A part of a yield test.
    Part(PartId),
    /// Something bought.
    Item(ItemId),
}

/// What a name means.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Meant {
    /// What is meant first.
    pub first: Subject,
    /// What else bears the name.
    pub others: Vec<Subject>,
}

/// Why a name means nothing.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NotMeant {
    /// Nothing bears it.
    #[error("no dish, recipe, part or item is called “{name}”{}", question(.near.as_deref()))]
    Unknown {
        /// The name.
        name: String,
        /// The nearest names as a question, else which there are.
        near: Option<String>,
    },
    /// Parts of several tests bear it.
    #[error("“{name}” comes out of several yield tests. Name the test as well: {tests}")]
    SeveralTests {
        /// The name.
        name: String,
        /// The names that tell them apart.
        tests: String,
    },
    /// The recipe has no line of that ingredient.
    #[error("“{of}” has no line “{name}”{}", question(.near.as_deref()))]
    NoLine {
        /// What was asked about.
        of: String,
        /// The name of the line.
        name: String,
        /// The nearest names, or where it is instead.
        near: Option<String>,
    },
}

fn question(near: Option<&str>) -> String {
    near.map(|near| format!(". {near}")).unwrap_or_default()
}

impl Subject {
    /// Its name.
    pub fn name(self, kitchen: &Kitchen) -> &str {
        match self {
            Subject::Dish(index) => kitchen.dishes.get(index).map(|dish| dish.name.as_str()),
            Subject::Recipe(id) => kitchen.recipe(id).map(|recipe| recipe.name.as_str()),
            Subject::Part(id) => kitchen.part(id).map(|part| part.name.as_str()),
            Subject::Item(id) => kitchen.item(id).map(|item| item.name.as_str()),
        }
        .unwrap_or_default()
    }

    /// The recipe that it is a portion of, or is.
    pub fn recipe(self, kitchen: &Kitchen) -> Option<RecipeId> {
        match self {
            Subject::Dish(index) => kitchen.dishes.get(index)?.recipe,
            Subject::Recipe(id) => Some(id),
            Subject::Part(_) | Subject::Item(_) => None,
        }
    }

    /// What of the book's costs it is first made from.
    pub fn node(self, kitchen: &Kitchen) -> Option<Node> {
        match self {
            Subject::Dish(_) | Subject::Recipe(_) => self.recipe(kitchen).map(Node::Recipe),
            Subject::Part(id) => Some(Node::Test(id.test)),
            Subject::Item(id) => Some(Node::Item(id)),
        }
    }

    /// Everything that can be asked about, in book order.
    pub fn all(kitchen: &Kitchen) -> Vec<Subject> {
        let dishes = (0..kitchen.dishes.len()).map(Subject::Dish);
        let recipes = (0..kitchen.recipes.len()).map(|index| Subject::Recipe(RecipeId::new(index)));
        let parts = kitchen.all_parts().map(Subject::Part);
        let items = (0..kitchen.items.len()).map(|index| Subject::Item(ItemId::new(index)));
        dishes.chain(recipes).chain(parts).chain(items).collect()
    }

    /// What `name` means.
    ///
    /// # Errors
    /// [`NotMeant`] when nothing bears it, or parts of several tests do.
    pub fn named(kitchen: &Kitchen, name: &str) -> Result<Meant, NotMeant> {
        let wanted = NameKey::of(name);
        let own = bearing(kitchen, &wanted);
        let found = if own.is_empty() { also(kitchen, &wanted).map(|key| bearing(kitchen, &key)) } else { Some(own) };
        let found = found.unwrap_or_default();
        let Some((first, others)) = found.split_first() else {
            return Err(NotMeant::Unknown { name: name.to_owned(), near: names(kitchen).answer(name, "The book has") });
        };
        let parts = || found.iter().filter(|subject| matches!(subject, Subject::Part(_)));
        if matches!(first, Subject::Part(_)) && parts().count() > 1 {
            let pairs: Vec<String> = parts().map(|part| pair(kitchen, *part)).collect();
            let pairs: Vec<&str> = pairs.iter().map(String::as_str).collect();
            return Err(NotMeant::SeveralTests { name: name.to_owned(), tests: quoted_list(&pairs, "or") });
        }
        Ok(Meant { first: *first, others: others.to_vec() })
    }
}

/// `Test: Part`.
fn pair(kitchen: &Kitchen, subject: Subject) -> String {
    let test = match subject {
        Subject::Part(id) => kitchen.test(id.test).map(|test| test.name.as_str()),
        _ => None,
    };
    format!("{}: {}", test.unwrap_or_default(), subject.name(kitchen))
}

/// Everything of this very name, a part also by its test's.
fn bearing(kitchen: &Kitchen, wanted: &NameKey) -> Vec<Subject> {
    let is_named = |subject: &Subject| {
        NameKey::of(subject.name(kitchen)) == *wanted
            || (matches!(subject, Subject::Part(_)) && NameKey::of(&pair(kitchen, *subject)) == *wanted)
    };
    Subject::all(kitchen).into_iter().filter(is_named).collect()
}

/// The name of what is also called `wanted`.
fn also(kitchen: &Kitchen, wanted: &NameKey) -> Option<NameKey> {
    let is_it = |aliases: &[String]| aliases.iter().any(|alias| NameKey::of(alias) == *wanted);
    let kept = kitchen.entries.names.iter().find(|row| is_it(&row.aliases)).map(|row| &row.item);
    let sold = || kitchen.entries.prices.iter().find(|row| is_it(&row.aliases)).map(|row| &row.item);
    kept.or_else(sold).map(|name| NameKey::of(name))
}

fn names(kitchen: &Kitchen) -> Names {
    let mut names = Names::default();
    for subject in Subject::all(kitchen) {
        let bearer = match subject {
            Subject::Item(_) => Bearer::Bought,
            Subject::Part(_) => Bearer::ByProduct,
            Subject::Dish(_) | Subject::Recipe(_) => Bearer::Made,
        };
        names.add(subject.name(kitchen), bearer);
    }
    names
}
