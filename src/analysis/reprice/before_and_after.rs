//! The same kitchen before and after new prices: both sides, and which item of one is which of the other.

use std::collections::HashMap;

use crate::costing::Costing;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::{ItemId, Kitchen};

/// Both sides. Recipes, tests, parts and dishes have the same ids in both; items are matched by name.
pub(super) struct Pair<'a> {
    /// The kitchen before.
    pub(super) old: &'a Kitchen,
    /// Its costing.
    pub(super) was: &'a Costing,
    /// The kitchen with the new rows.
    pub(super) new: &'a Kitchen,
    /// Its costing.
    pub(super) now: &'a Costing,
    /// The new id of every old item.
    to_new: Vec<Option<ItemId>>,
}

impl<'a> Pair<'a> {
    pub(super) fn of(old: &'a Kitchen, was: &'a Costing, new: &'a Kitchen, now: &'a Costing) -> Self {
        let ids = (0..new.items.len()).map(ItemId::new);
        let by_name: HashMap<_, _> = new.items.iter().map(|item| &item.key).zip(ids).collect();
        let to_new = old.items.iter().map(|item| by_name.get(&item.key).copied()).collect();
        Pair { old, was, new, now, to_new }
    }

    /// The new id of an old item.
    pub(super) fn new_id(&self, old: ItemId) -> Option<ItemId> {
        self.to_new.get(old.index()).copied().flatten()
    }

    /// Every old item that is still there, with its old and its new id, in book order.
    pub(super) fn items(&self) -> impl Iterator<Item = (ItemId, ItemId)> {
        let ids = self.to_new.iter().enumerate();
        ids.filter_map(|(index, new)| Some((ItemId::new(index), (*new)?)))
    }

    /// An old source as the new kitchen knows it.
    pub(super) fn new_source(&self, old: IngredientSource) -> IngredientSource {
        match old {
            IngredientSource::Bought(id) => self.new_id(id).map_or(IngredientSource::Unknown, IngredientSource::Bought),
            other => other,
        }
    }
}
