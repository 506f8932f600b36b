//! Allergens as a cook writes them: in the words of the price list, never by our codes.

use crate::costing::allergens::Carried;
use crate::food::{Allergen, allergens};

/// The words for what is `carried`, in the order of the list of allergens; a word that names several stands once.
pub fn in_words<'a>(carried: impl Iterator<Item = (&'a Allergen, &'a Carried)>) -> Vec<String> {
    let mut carried: Vec<(&Allergen, &Carried)> = carried.collect();
    carried.sort_by_key(|(allergen, _)| allergens::place(allergen));
    allergens::words_once(carried.into_iter().flat_map(|(_, carried)| &carried.words).map(|word| &**word))
}
