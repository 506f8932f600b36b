//! Reference foods: the built-in food from which an item borrows measures and yield.
//!
//! Takes what a price row's *Reference food* says, or an item's name; gives the food. Names are compared as all names in
//! a book are.

use std::collections::HashMap;
use std::sync::LazyLock;

use super::NameKey;
use crate::food::{Food, KitchenFood, kitchen_names, listed};
use crate::problem::suggest;

/// So many foods are worth proposing.
const MOST: usize = 3;

/// A built-in food, by its kitchen name or as SR28 lists it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Reference {
    /// By a kitchen name: `onion, yellow`.
    Kitchen(KitchenFood),
    /// By its number or description in SR28.
    Listed(Food),
}

/// The kitchen names in all their spellings; of two foods of one spelling, the first.
static SPELLINGS: LazyLock<HashMap<NameKey, KitchenFood>> = LazyLock::new(|| {
    let mut spellings = HashMap::new();
    for food in KitchenFood::all() {
        for spelling in food.spellings() {
            spellings.entry(NameKey::of(&spelling)).or_insert(food);
        }
    }
    spellings
});

/// The foods by their descriptions.
static DESCRIPTIONS: LazyLock<HashMap<NameKey, Food>> =
    LazyLock::new(|| Food::all().map(|food| (NameKey::of(food.description()), food)).collect());

impl Reference {
    /// The food that `text` names: a kitchen name (`onion, yellow`), a number (`11282`, `SR28 11282`) or a description
    /// (`Onions, raw`).
    pub fn named(text: &str) -> Option<Reference> {
        if let Some(food) = Reference::kitchen(&NameKey::of(text)) {
            return Some(Reference::Kitchen(food));
        }
        let number = text.trim().trim_start_matches("SR28").trim();
        if let Some(food) = Food::by_number(&format!("{number:0>5}")).filter(|_| !number.is_empty()) {
            return Some(Reference::Listed(food));
        }
        DESCRIPTIONS.get(&NameKey::of(text)).copied().map(Reference::Listed)
    }

    /// The food of this kitchen name.
    pub fn kitchen(key: &NameKey) -> Option<KitchenFood> {
        SPELLINGS.get(key).copied()
    }

    /// The food in SR28.
    pub fn food(self) -> Option<Food> {
        match self {
            Reference::Kitchen(food) => food.food(),
            Reference::Listed(food) => Some(food),
        }
    }

    /// What it is called: `onion, yellow`, or the description in SR28.
    pub fn name(self) -> &'static str {
        match self {
            Reference::Kitchen(food) => food.name(),
            Reference::Listed(food) => food.description(),
        }
    }

    /// Its name and where it stands: `onion, yellow (SR28 11282)`.
    pub fn spoken(self) -> String {
        match self.food() {
            Some(food) => format!("{} (SR28 {})", self.name(), food.number()),
            None => self.name().to_owned(),
        }
    }

    /// A few foods that an item of this name may borrow from, the likeliest first: the one that bears its name, then those
    /// that kitchens call so; else what the list has.
    pub fn proposed(name: &str) -> Vec<Reference> {
        let bearing = Reference::kitchen(&NameKey::of(name)).map(Reference::Kitchen);
        let mut found: Vec<Reference> = bearing.into_iter().collect();
        for food in kitchen_names(name).into_iter().map(Reference::Kitchen) {
            if !found.contains(&food) {
                found.push(food);
            }
        }
        if found.is_empty() {
            found.extend(listed(name).into_iter().map(Reference::Listed));
        }
        found.truncate(MOST);
        found
    }

    /// The names of a few foods that may be meant by `text` and that fit, as a list to choose from; `None` when there are
    /// none. What kitchens call by a name of its own is meant before what a nutritionist lists.
    pub fn near(text: &str, fits: impl Fn(Reference) -> bool) -> Option<String> {
        /// So many of the list are looked at.
        const LOOKED_AT: usize = 50;
        let names = |foods: &mut dyn Iterator<Item = Reference>| -> Vec<&'static str> {
            foods.filter(|food| fits(*food)).map(Reference::name).take(MOST).collect()
        };
        let mut found = names(&mut kitchen_names(text).into_iter().map(Reference::Kitchen));
        if found.is_empty() {
            found = names(&mut listed(text).into_iter().take(LOOKED_AT).map(Reference::Listed));
        }
        Some(suggest::quoted_list(&found, "or")).filter(|list| !list.is_empty())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_food_is_found_by_name_number_and_description() {
        for text in ["Onion, yellow", "yellow onions", "ONIONS, YELLOW"] {
            assert_eq!(Reference::named(text).unwrap().spoken(), "onion, yellow (SR28 11282)", "{text}");
        }
        for text in ["11282", "SR28 11282", "Onions, raw"] {
            assert_eq!(Reference::named(text).unwrap().spoken(), "Onions, raw (SR28 11282)", "{text}");
        }
        // A number whose leading zero a spreadsheet dropped: 01123 Egg, whole, raw, fresh.
        assert_eq!(Reference::named("1123").unwrap().name(), "Egg, whole, raw, fresh");
        assert_eq!((Reference::named("unicorn"), Reference::named("")), (None, None));
    }
}
