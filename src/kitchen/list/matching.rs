//! Matching of a list's rows to the items of the book: by supplier and code, then by name and other names; never by
//! guess.

use std::collections::{HashMap, HashSet};

use crate::kitchen::price::PriceRow;
use crate::kitchen::{ItemId, Kitchen, NameKey};
use crate::problem::names::{Bearer, Names};

/// What a row of a list is about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Match {
    /// This item. `supplier` is that of the book's rows with the row's code, where the list does not say whose it is.
    Item {
        /// The item.
        item: ItemId,
        /// The supplier of that code; `None` when the list says whose it is, or the book does not.
        supplier: Option<String>,
    },
    /// Its code is of one item and its name of another: the book's rows of both, as indices into the entries.
    Swapped {
        /// The row with the code.
        code: usize,
        /// A row of the item with the name.
        name: usize,
    },
    /// Its code is of several items, and its name of none.
    CodeOfSeveral(Vec<ItemId>),
    /// Nothing in the book.
    Nothing,
}

/// The rows of a book that bear one code.
#[derive(Debug, Default)]
struct Coded {
    /// The items, each with its first row that bears it.
    items: Vec<(ItemId, usize)>,
    /// Whether they are of several suppliers.
    suppliers: HashSet<NameKey>,
}

/// The codes and names of a book, ready to be looked up.
#[derive(Debug)]
pub struct Matcher<'k> {
    kitchen: &'k Kitchen,
    by_supplier: HashMap<(NameKey, String), Coded>,
    by_code: HashMap<String, Coded>,
    names: HashMap<NameKey, ItemId>,
    /// Other names; `None` where two items share one, so that it stands for neither.
    others: HashMap<NameKey, Option<ItemId>>,
    near: Names,
}

impl<'k> Matcher<'k> {
    /// The codes and names of `kitchen`.
    pub fn of(kitchen: &'k Kitchen) -> Self {
        let mut matcher = Matcher {
            kitchen,
            by_supplier: HashMap::new(),
            by_code: HashMap::new(),
            names: HashMap::new(),
            others: HashMap::new(),
            near: Names::default(),
        };
        let ids = || (0..kitchen.items.len()).map(ItemId::new);
        for (id, item) in ids().zip(&kitchen.items) {
            matcher.names.insert(item.key.clone(), id);
            matcher.near.add(&item.name, Bearer::Bought);
        }
        for (id, item) in ids().zip(&kitchen.items) {
            for index in &item.rows {
                let Some(row) = kitchen.entries.prices.get(*index) else { continue };
                matcher.add(id, *index, row);
            }
        }
        for row in &kitchen.entries.names {
            if let Some(id) = matcher.named(&row.item) {
                row.aliases.iter().for_each(|alias| matcher.also(alias, id));
            }
        }
        matcher
    }

    fn add(&mut self, id: ItemId, index: usize, row: &PriceRow) {
        if !row.code.is_empty() {
            let (supplier, code) = (NameKey::of(&row.supplier), row.code.to_lowercase());
            let of_supplier = self.by_supplier.entry((supplier.clone(), code.clone())).or_default();
            let of_code = self.by_code.entry(code).or_default();
            of_code.suppliers.insert(supplier);
            for coded in [of_supplier, of_code] {
                if !coded.items.iter().any(|(known, _)| *known == id) {
                    coded.items.push((id, index));
                }
            }
        }
        row.aliases.iter().for_each(|alias| self.also(alias, id));
    }

    /// Takes another name of an item.
    fn also(&mut self, alias: &str, id: ItemId) {
        let key = NameKey::of(alias);
        if self.names.contains_key(&key) {
            return;
        }
        match self.others.get(&key) {
            None => {
                self.others.insert(key, Some(id));
                self.near.add(alias, Bearer::Bought);
            }
            Some(Some(known)) if *known == id => {}
            Some(_) => {
                self.others.insert(key, None);
            }
        }
    }

    /// The item of a name or of one of its other names.
    pub fn named(&self, name: &str) -> Option<ItemId> {
        let key = NameKey::of(name);
        self.names.get(&key).copied().or_else(|| self.others.get(&key).copied().flatten())
    }

    /// What `row` is about.
    pub fn find(&self, row: &PriceRow) -> Match {
        let named = if row.item.is_empty() { None } else { self.named(&row.item) };
        let unknown_supplier = row.supplier.is_empty();
        let code = row.code.to_lowercase();
        let coded = match (row.code.is_empty(), unknown_supplier) {
            (true, _) => None,
            (false, true) => self.by_code.get(&code),
            (false, false) => self.by_supplier.get(&(NameKey::of(&row.supplier), code)),
        };
        let items = coded.map_or(&[][..], |coded| coded.items.as_slice());
        let supplier = || {
            let only = coded.filter(|coded| unknown_supplier && coded.suppliers.len() == 1)?;
            let (_, index) = only.items.first()?;
            let supplier = &self.kitchen.entries.prices.get(*index)?.supplier;
            (!supplier.is_empty()).then(|| supplier.clone())
        };
        match (items, named) {
            ([], None) => Match::Nothing,
            ([], Some(item)) => Match::Item { item, supplier: None },
            (several, Some(item)) if several.iter().any(|(known, _)| *known == item) => {
                Match::Item { item, supplier: supplier() }
            }
            ([(item, _)], None) => Match::Item { item: *item, supplier: supplier() },
            // A code that several suppliers use for several things says nothing while nobody knows whose list it is.
            ([_, _, ..], Some(item)) if unknown_supplier => Match::Item { item, supplier: None },
            ([(_, code), ..], Some(item)) => match self.first_row(item) {
                Some(name) => Match::Swapped { code: *code, name },
                None => Match::Item { item, supplier: None },
            },
            (several, None) => Match::CodeOfSeveral(several.iter().map(|(item, _)| *item).collect()),
        }
    }

    fn first_row(&self, item: ItemId) -> Option<usize> {
        self.kitchen.item(item)?.rows.first().copied()
    }

    /// `Did you mean “Onions, yellow” or “Shallots”?`, or nothing when no name is near.
    pub fn did_you_mean(&self, name: &str) -> Option<String> {
        if name.is_empty() { None } else { self.near.did_you_mean(name) }
    }
}
