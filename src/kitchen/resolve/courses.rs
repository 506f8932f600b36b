//! Courses: lines of a recipe that name a dish of the menu, as a set menu's do. Such a line counts plates of it: its source
//! is the dish's recipe, and how much of that a plate is, the dish says.
//!
//! A recipe, a part or a bought item of the name goes before the dish. Of a recipe that is sold under its own name a
//! portion is the card's; pieces, of which such a recipe makes none, are plates of the dish.

use std::collections::HashMap;

use crate::kitchen::menu::{Dish, plates_in};
use crate::kitchen::recipe::{IngredientSource, Line, LineQuantity, Recipe};
use crate::kitchen::{DishId, Entries, NameKey};
use crate::measure::{Measured, Unit};
use crate::problem::names::Names;
use crate::problem::{Code, Fault, THERE, Want};

/// The dishes of a book by their names.
pub(super) struct Courses<'a> {
    entries: &'a Entries,
    dishes: &'a [Dish],
    /// Which dish bears a name, as an index; `None` where two do.
    named: HashMap<NameKey, Option<usize>>,
    /// The names of dishes that are not their recipes'.
    names: Names,
}

/// The dish that a line names.
pub(super) struct Course<'a> {
    /// The dish.
    pub(super) dish: DishId,
    /// What its recipe is called.
    recipe: &'a str,
    /// Whether its portion could not be read, which is reported.
    broken: bool,
}

impl<'a> Courses<'a> {
    /// Those of a book.
    pub(super) fn of(entries: &'a Entries, dishes: &'a [Dish]) -> Self {
        let mut named = HashMap::new();
        for (index, dish) in dishes.iter().enumerate() {
            named.entry(NameKey::of(&dish.name)).and_modify(|one| *one = None).or_insert(Some(index));
        }
        // A dish under its recipe's name is near where the recipe is.
        let recipe = |dish: &Dish| Some(entries.recipes.get(dish.recipe?.index())?.name.as_str());
        let other = dishes.iter().filter(|dish| recipe(dish).is_some_and(|recipe| recipe != dish.name));
        let names = other.map(|dish| dish.name.as_str()).collect();
        Courses { entries, dishes, named, names }
    }

    /// What `name` stands for on a line where nothing else bears it, which `fault` says.
    ///
    /// # Errors
    /// A fault when it is no dish either, or none whose recipe is known.
    pub(super) fn of_name(&self, name: &str, fault: Fault) -> Result<(IngredientSource, Option<Course<'a>>), Fault> {
        let Some(Want::Name { near, .. }) = fault.want.as_deref() else { return Err(fault) };
        let Some(found) = self.named.get(&NameKey::of(name)) else {
            let near_dish = self.names.near(name);
            return Err(match near_dish.as_ref().and_then(|dish| Some((dish, dish.names.first()?))) {
                None => fault,
                Some((dish, _)) if near.is_empty() => Fault { help: dish.question.as_str().into(), ..fault },
                Some((_, dish)) => {
                    let help = fault.help.replacen('?', &format!(", or the dish “{dish}”?"), 1);
                    Fault { help: help.into(), ..fault }
                }
            });
        };
        let Some(index) = *found else {
            return Err(Fault::new(
                Code::NameTwice,
                format!("two dishes of the menu are called “{name}”"),
                "Give each a name of its own on the menu, and write that one here.",
            ));
        };
        let dish = self.dishes.get(index);
        let recipe = dish.and_then(|dish| dish.recipe).and_then(|id| Some((id, self.entries.recipes.get(id.index())?)));
        match (dish, recipe) {
            (Some(dish), Some((id, entry))) => {
                let course = Course { dish: DishId::new(index), recipe: &entry.name, broken: self.is_broken(dish) };
                Ok((IngredientSource::Made(id), Some(course)))
            }
            (Some(dish), None) => Err(Fault::new(
                Code::NameUnknown,
                format!("“{name}” is a dish of the menu at {THERE}, and its recipe is not in the book"),
                "Add the recipe, or name one in that row of the menu.",
            )
            .speaking_of(dish.place.clone())),
            (None, _) => Err(fault),
        }
    }

    fn is_broken(&self, dish: &Dish) -> bool {
        dish.row.and_then(|row| self.entries.menu.get(row)).is_some_and(|row| row.portion.is_broken())
    }

    /// Pieces of a recipe that is sold under its own name, and neither makes pieces nor has a measure of one, are plates.
    /// Measures must be attached.
    pub(super) fn count_plates(&self, recipes: &mut [Recipe]) {
        let by_piece: Vec<bool> = recipes.iter().map(is_known_by_piece).collect();
        for recipe in recipes {
            let typed = self.entries.recipes.get(recipe.entry).map(|entry| entry.lines.as_slice());
            for (line, typed) in recipe.lines.iter_mut().zip(typed.unwrap_or_default()) {
                let IngredientSource::Made(made) = line.source else { continue };
                let by_piece = by_piece.get(made.index()).copied().unwrap_or_default();
                if by_piece || line.dish.is_some() || !in_pieces(line) {
                    continue;
                }
                let found = self.named.get(&NameKey::of(&typed.item)).copied().flatten();
                let dish = found.and_then(|index| Some((index, self.dishes.get(index)?)));
                if let Some((index, dish)) = dish.filter(|(_, dish)| dish.recipe == Some(made)) {
                    line.dish = Some(DishId::new(index));
                    line.broken |= self.is_broken(dish);
                }
            }
            recipe.broken |= recipe.lines.iter().any(|line| line.broken);
        }
    }
}

fn in_pieces(line: &Line) -> bool {
    matches!(&line.quantity, LineQuantity::Measured(measured) if measured.unit.pieces().is_some())
}

/// Whether it is known what a piece of a recipe is.
fn is_known_by_piece(recipe: &Recipe) -> bool {
    let counts = |unit: &Unit| unit.is_count_like() && !unit.is_portion();
    recipe.makes.iter().any(|makes| counts(&makes.unit))
        || recipe.bridge.broken
        || recipe.bridge.measures.iter().any(|measure| measure.unit.pieces().is_some())
}

impl Course<'_> {
    /// The fault of a quantity that counts no plates.
    pub(super) fn uncounted(&self, name: &str, quantity: &LineQuantity) -> Option<Fault> {
        let measured = counted(quantity).err()?;
        Some(Fault::new(
            Code::YieldUnknown,
            format!("“{name}” is a dish of the menu, and {measured} of it is not known"),
            format!(
                "Write how many portions of it, such as 1 portion; or name its recipe, “{}”, for {measured}.",
                self.recipe
            ),
        ))
    }

    /// Whether a reported problem stops the line.
    pub(super) fn is_stopped(&self, quantity: &LineQuantity) -> bool {
        self.broken || counted(quantity).is_err()
    }
}

/// Whether a quantity counts plates, or is none.
///
/// # Errors
/// The quantity where it is another.
fn counted(quantity: &LineQuantity) -> Result<(), &Measured> {
    match quantity {
        LineQuantity::Measured(measured) if plates_in(&measured.unit).is_none() => Err(measured),
        LineQuantity::Measured(_) | LineQuantity::Unmeasured { .. } => Ok(()),
    }
}
