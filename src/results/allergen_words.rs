//! Allergens in words: as a cook writes them, by the codes of the list, and who states nothing of them.

use crate::costing::allergens::{Carried, Silent};
use crate::food::{Allergen, allergens};
use crate::in_order::InOrder;
use crate::kitchen::Kitchen;

/// The words for what is `carried`, in the order of the list of allergens; a word that names several stands once.
pub fn in_words<'a>(carried: impl Iterator<Item = (&'a Allergen, &'a Carried)>) -> Vec<String> {
    let mut carried: Vec<(&Allergen, &Carried)> = carried.collect();
    carried.put_in_order_by_key(|(allergen, _)| allergens::place(allergen));
    allergens::words_once(carried.into_iter().flat_map(|(_, carried)| &carried.words).map(|word| &**word))
}

/// The codes of allergens in the order of the list, the kitchen's own words last.
pub fn listed<'a>(found: impl Iterator<Item = &'a Allergen>) -> Vec<String> {
    let mut found: Vec<&Allergen> = found.collect();
    found.put_in_order_by_key(|allergen| allergens::place(allergen));
    found.into_iter().map(|allergen| allergen.code().to_owned()).collect()
}

/// The name of an ingredient that states nothing.
pub fn silent_name(kitchen: &Kitchen, silent: Silent) -> String {
    let name = match silent {
        Silent::Item(id) => kitchen.item(id).map(|item| item.name.clone()),
        Silent::Line(id, index) => kitchen
            .recipe(id)
            .and_then(|recipe| kitchen.entries.recipes.get(recipe.entry)?.lines.get(index))
            .map(|line| line.item.clone()),
        Silent::Input(id) => kitchen.test(id).map(|test| test.name.clone()),
        Silent::Added(row) => kitchen.entries.tests.get(row).map(|row| row.part.clone()),
    };
    name.unwrap_or_default()
}
