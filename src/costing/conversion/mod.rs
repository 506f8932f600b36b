//! Conversion from the quantity that a line asks for to the base unit of a price: by kind, by what a kitchen measured,
//! by a pack, or by what a built-in food lends.

pub(crate) mod base_unit;
pub(crate) mod borrowed_measures;
pub(crate) mod cans;
pub(crate) mod choose_measure;
pub(crate) mod convert;
pub(crate) mod equivalence;
pub(crate) mod equivalences_of_food;
pub(crate) mod equivalences_of_item;
pub(crate) mod no_conversion;
pub(crate) mod ounces;
pub(crate) mod package;
