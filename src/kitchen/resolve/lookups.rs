//! Every name of a book and what it stands for: parts and recipes before price rows, aliases last.

use std::collections::HashMap;

use crate::kitchen::bridge::Bridge;
use crate::kitchen::price::{Item, TrimYield};
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::Role;
use crate::kitchen::{ItemId, NameKey, PartId, RecipeId, TestId};
use crate::measure::{Conventions, Volumes, parse_parts};
use crate::number::Marks;
use crate::problem::names::{Bearer, Names};
use crate::problem::suggest::first_few;
use crate::problem::{Code, Fault, Want};

/// The parts of yield tests that bear one name.
#[derive(Debug, Default)]
struct PartsOfName {
    /// Those that may be used, each with the name of its test.
    used: Vec<(PartId, String)>,
    /// Those that are thrown away.
    waste: Vec<PartId>,
}

/// The names of a book.
#[derive(Debug, Default)]
pub(super) struct Lookups {
    items: Vec<Item>,
    item_keys: HashMap<NameKey, ItemId>,
    aliases: HashMap<NameKey, Option<ItemId>>,
    parts: HashMap<NameKey, PartsOfName>,
    pairs: HashMap<NameKey, (PartId, Role)>,
    recipes: HashMap<NameKey, RecipeId>,
    /// Other names of what is made in the house, each with its name; none where two things go by it.
    also: HashMap<NameKey, Option<String>>,
    names: Names,
}

/// Who asks: inside a recipe its own name means the price row; a test never means its own parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Asker {
    /// A line of this recipe.
    Recipe(RecipeId),
    /// A row of this test.
    Test(TestId),
    /// Anyone else.
    Other,
}

/// Names of what comes out of a tap or an ice machine; common practice, no source.
const WATER: &[&str] = &[
    "water",
    "ice",
    "ice water",
    "iced water",
    "cold water",
    "hot water",
    "warm water",
    "boiling water",
    "tap water",
    "ice cubes",
    "crushed ice",
    "water, cold",
    "water, hot",
    "water, boiling",
];

/// What to do when waste is used after all.
pub(super) const WASTE_USED: &str = "Set its Role to by-product if it is kept and used.";

impl Lookups {
    /// The item of this name, made if it is new.
    pub(super) fn item_for(&mut self, name: &str) -> ItemId {
        let key = NameKey::of(name);
        if let Some(id) = self.item_keys.get(&key) {
            return *id;
        }
        let id = ItemId::new(self.items.len());
        self.items.push(Item {
            name: name.to_owned(),
            key: key.clone(),
            rows: Vec::new(),
            is_water: WATER.iter().any(|water| NameKey::of(water) == key),
            test_price: None,
            bridge: Bridge::default(),
            trim: TrimYield::None,
            counted: None,
            broken: false,
        });
        self.item_keys.insert(key, id);
        self.names.add(name, Bearer::Bought);
        id
    }

    /// The item of an id.
    pub(super) fn item_mut(&mut self, id: ItemId) -> Option<&mut Item> {
        self.items.get_mut(id.index())
    }

    /// The item under this name or alias, bought ones only.
    pub(super) fn bought(&self, name: &str) -> Option<ItemId> {
        let key = NameKey::of(name);
        self.item_keys.get(&key).copied().or_else(|| self.aliases.get(&key).copied().flatten())
    }

    /// Registers an alias; `false` when another item already answers to it.
    pub(super) fn alias(&mut self, alias: &str, id: ItemId) -> bool {
        let key = NameKey::of(alias);
        if let Some(owner) = self.item_keys.get(&key) {
            return *owner == id;
        }
        match self.aliases.get(&key) {
            Some(Some(owner)) if *owner == id => true,
            Some(_) => {
                self.aliases.insert(key, None);
                false
            }
            None => {
                self.aliases.insert(key, Some(id));
                self.names.add(alias, Bearer::Bought);
                true
            }
        }
    }

    /// Registers a recipe; the earlier one of the same name, if there is one.
    pub(super) fn recipe(&mut self, name: &str, id: RecipeId) -> Option<RecipeId> {
        let key = NameKey::of(name);
        if let Some(first) = self.recipes.get(&key) {
            return Some(*first);
        }
        self.recipes.insert(key, id);
        self.names.add(name, Bearer::Made);
        None
    }

    /// Whether something bought or made in the house bears this name.
    pub(super) fn is_known(&self, name: &str) -> bool {
        let key = NameKey::of(name);
        self.bought(name).is_some() || self.is_made(&key)
    }

    fn is_made(&self, key: &NameKey) -> bool {
        self.recipes.contains_key(key) || self.parts.contains_key(key) || self.pairs.contains_key(key)
    }

    /// Registers another name of `name`, which is known; `false` when something else answers to it.
    pub(super) fn also(&mut self, alias: &str, name: &str) -> bool {
        let (key, of) = (NameKey::of(alias), NameKey::of(name));
        if key != of && self.is_made(&key) {
            return false;
        }
        // In-house beats bought, by its other names as well.
        if !self.is_made(&of) {
            return self.bought(name).is_some_and(|id| self.alias(alias, id));
        }
        if key == of {
            return true;
        }
        if self.item_keys.contains_key(&key) || self.aliases.contains_key(&key) {
            return false;
        }
        match self.also.get(&key) {
            Some(Some(known)) if NameKey::of(known) == of => true,
            Some(_) => {
                self.also.insert(key, None);
                false
            }
            None => {
                self.also.insert(key, Some(name.to_owned()));
                self.names.add(alias, Bearer::Made);
                true
            }
        }
    }

    /// The recipe of this name.
    pub(super) fn recipe_named(&self, name: &str) -> Option<RecipeId> {
        let key = NameKey::of(name);
        let also = || self.recipes.get(&NameKey::of(self.also.get(&key)?.as_ref()?));
        self.recipes.get(&key).or_else(also).copied()
    }

    /// Registers a part.
    pub(super) fn part(&mut self, test: &str, name: &str, role: Role, id: PartId) {
        let named = self.parts.entry(NameKey::of(name)).or_default();
        match role {
            Role::Waste => named.waste.push(id),
            _ => named.used.push((id, test.to_owned())),
        }
        self.pairs.insert(NameKey::of_pair(test, name), (id, role));
        match role {
            Role::Main => self.names.add(name, Bearer::Main),
            Role::ByProduct => self.names.add(name, Bearer::ByProduct),
            Role::Waste | Role::AsPurchased | Role::Added => {}
        }
    }

    /// The nearest names as a question, if any are near.
    pub(super) fn suggestion(&self, name: &str) -> Option<String> {
        self.names.did_you_mean(name)
    }

    /// What `name` stands for.
    ///
    /// # Errors
    /// A fault when it is not in the book, or stands for two things.
    pub(super) fn find(&mut self, name: &str, asker: Asker) -> Result<IngredientSource, Fault> {
        let key = NameKey::of(name);
        match self.also.get(&key) {
            Some(Some(own)) => {
                let own = own.clone();
                return self.find_own(&own, NameKey::of(&own), asker);
            }
            Some(None) => {
                return Err(Fault::new(
                    Code::NameTwice,
                    format!("two things are also called “{name}”"),
                    "Write its own name here.",
                ));
            }
            None => {}
        }
        self.find_own(name, key, asker)
    }

    /// What bears `name` itself, or is bought under it.
    fn find_own(&mut self, name: &str, key: NameKey, asker: Asker) -> Result<IngredientSource, Fault> {
        let recipe = self.recipes.get(&key).copied();
        if let (Some(own), Asker::Recipe(asking)) = (recipe, asker)
            && own == asking
        {
            return Ok(self.bought(name).map_or(IngredientSource::Made(own), IngredientSource::Bought));
        }
        if let Some(part) = self.find_part(name, &key, asker)? {
            return match recipe {
                None => Ok(IngredientSource::Part(part)),
                Some(_) => Err(Fault::new(
                    Code::NameTwice,
                    format!("“{name}” is both a part of a yield test and a recipe"),
                    "Give one of them another name.",
                )),
            };
        }
        if let Some(recipe) = recipe {
            return Ok(IngredientSource::Made(recipe));
        }
        if let Some(item) = self.item_keys.get(&key) {
            return Ok(IngredientSource::Bought(*item));
        }
        match self.aliases.get(&key) {
            Some(Some(item)) => return Ok(IngredientSource::Bought(*item)),
            Some(None) => {
                return Err(Fault::new(
                    Code::NameTwice,
                    format!("two items are also called “{name}”"),
                    "Write the item's own name here.",
                ));
            }
            None => {}
        }
        if WATER.iter().any(|water| NameKey::of(water) == key) {
            return Ok(IngredientSource::Bought(self.item_for(name)));
        }
        Err(self.unknown(name))
    }

    /// Whether a yield test throws away what bears this name.
    pub(super) fn is_wasted(&self, name: &str) -> bool {
        self.parts.get(&NameKey::of(name)).is_some_and(|named| !named.waste.is_empty())
    }

    fn find_part(&self, name: &str, key: &NameKey, asker: Asker) -> Result<Option<PartId>, Fault> {
        let waste =
            |name: &str| Fault::new(Code::NameUnknown, format!("“{name}” is waste in its yield test"), WASTE_USED);
        if let Some((part, role)) = self.pairs.get(key) {
            return if *role == Role::Waste { Err(waste(name)) } else { Ok(Some(*part)) };
        }
        let ours = |part: &PartId| asker == Asker::Test(part.test);
        let Some(named) = self.parts.get(key) else { return Ok(None) };
        // One test has few parts of one name; many tests may have one each.
        let own = named.used.iter().filter(|(part, _)| ours(part));
        let own = if matches!(asker, Asker::Test(_)) { own.count() } else { 0 };
        let others = || named.used.iter().filter(|(part, _)| !ours(part));
        match (named.used.len().saturating_sub(own), others().next()) {
            (0, _) | (_, None) => {
                let wasted = named.waste.iter().any(|part| !ours(part));
                let elsewhere = self.item_keys.contains_key(key) || self.recipes.contains_key(key);
                if wasted && !elsewhere { Err(waste(name)) } else { Ok(None) }
            }
            (1, Some((part, _))) => Ok(Some(*part)),
            (several, _) => {
                let names = first_few(others().map(|(_, test)| format!("“{test}: {name}”")), several);
                Err(Fault::new(
                    Code::PartInTwoTests,
                    format!("“{name}” comes out of {several} yield tests"),
                    format!("Name the test as well: {}.", names.join(" or ")),
                ))
            }
        }
    }

    /// The fault of a name that is not in the book.
    pub(super) fn unknown(&self, name: &str) -> Fault {
        let near = self.names.near(name);
        let names = near.as_ref().map(|near| near.names.clone()).unwrap_or_default();
        let help = match near {
            Some(near) if self.with_prep(name).is_some() => {
                let (bare, prep) = self.with_prep(name).unwrap_or_default();
                let question = self.names.did_you_mean(&bare).unwrap_or(near.question);
                format!("{question} “{prep}” belongs under Prep.")
            }
            Some(near) if near.may_be_second_name => {
                format!(
                    "{} If “{name}” is your second name for it, type that under Also called on its price row, or in a table \
                     Names.",
                    near.question
                )
            }
            Some(near) => near.question,
            None => {
                "Add a price row, a recipe or a yield-test part of this name, or correct the spelling; if the price \
                     list has it under another name, type yours there under Also called."
                    .to_owned()
            }
        };
        Fault::new(Code::NameUnknown, format!("“{name}” has no price, no recipe and no yield test"), help)
            .wanting(Want::Name { name: name.to_owned(), near: names, may_be_bought: true })
    }

    /// A name that holds a preparation behind a comma, without it, and the preparation.
    fn with_prep(&self, name: &str) -> Option<(String, String)> {
        let how = Conventions { marks: Marks::Unknown, volumes: Volumes::Us };
        let line = parse_parts("", name, how);
        (name.contains(',') && !line.prep.is_empty() && !line.name.is_empty()).then_some((line.name, line.prep))
    }

    /// The items collected, to be completed; no item is made after this.
    pub(super) fn take_items(&mut self) -> Vec<Item> {
        std::mem::take(&mut self.items)
    }
}
