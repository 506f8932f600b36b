//! Recipes: named once, labels completed, every ingredient found.

use std::collections::{HashMap, HashSet};

use super::bakers_percentages::Percentages;
use super::courses::Courses;
use super::lookups::{Asker, Lookups};
use super::uncosted::UncostedNames;
use crate::kitchen::bridge::{Basis, Bridge};
use crate::kitchen::menu::Dish;
use crate::kitchen::recipe::{IngredientSource, Line, LineEntry, LineQuantity, Recipe, RecipeEntry};
use crate::kitchen::{Entries, Field, NameKey, RecipeId};
use crate::measure::{Measured, Unit, did_you_mean, measure_name};
use crate::number::{Decimal, plain};
use crate::problem::{Code, Fault, Problem, THERE};
use crate::schema::Column;

/// Registers the names of the recipes. The id of a recipe is its index among the entries.
pub(super) fn list(entries: &Entries, lookups: &mut Lookups, problems: &mut Vec<Problem>) {
    for (index, entry) in entries.recipes.iter().enumerate().filter(|(_, entry)| !entry.name.is_empty()) {
        if let Some(first) = lookups.recipe(&entry.name, RecipeId::new(index)) {
            let fault = Fault::new(
                Code::RecipeTwice,
                format!("“{}” is in the book already, at {THERE}", entry.name),
                "Keep one of the two, or give this one another name.",
            );
            let first = entries.recipes.get(first.index()).unwrap_or(entry);
            let fault = fault.speaking_of(first.input.place(Column::Recipe));
            problems.push(fault.at(entry.input.place(Column::Recipe)));
        }
    }
}

/// Finds the ingredients of every recipe.
pub(super) fn link(
    entries: &Entries,
    lookups: &mut Lookups,
    courses: &Courses<'_>,
    uncosted: &mut UncostedNames,
    problems: &mut Vec<Problem>,
) -> Vec<Recipe> {
    let mut recipes = Vec::new();
    let mut units = KnownUnits { entries, own: None };
    for (index, entry) in entries.recipes.iter().enumerate() {
        let id = RecipeId::new(index);
        let mut recipe = head(index, entry, problems);
        let percentages = Percentages::of(entry, &recipe.makes, problems);
        for line in &entry.lines {
            let weighed = percentages.as_ref().filter(|_| line.is_percent());
            let weighed = weighed.map(|all| line.percent_of_flour().and_then(|percent| all.weight(percent)));
            recipe.lines.push(link_line(id, (line, weighed), (lookups, courses), uncosted, &mut units, problems));
        }
        recipe.flour = percentages.and_then(|all| all.flour);
        // A line that was not read may be anything.
        recipe.broken |=
            entry.name.is_empty() || !entry.unread.is_empty() || recipe.lines.iter().any(|line| line.broken);
        if entry.lines.is_empty() && entry.unread.is_empty() && !entry.name.is_empty() {
            recipe.broken = true;
            problems.push(
                Fault::new(
                    Code::RecipeEmpty,
                    format!("“{}” has no ingredients", entry.name),
                    "Put a line header (Ingredient, Qty, Unit) below its labels and the ingredients below that.",
                )
                .at(entry.input.place(Column::Recipe)),
            );
        }
        recipes.push(recipe);
    }
    // One name, two recipes: which is meant would be a guess, so neither is costed.
    let mut seen: HashMap<NameKey, usize> = HashMap::new();
    let mut twice = HashSet::new();
    for (index, recipe) in recipes.iter().enumerate() {
        if recipe.name.is_empty() {
            continue;
        }
        if let Some(first) = seen.insert(recipe.key.clone(), index) {
            twice.extend([first, index]);
        }
    }
    for (index, recipe) in recipes.iter_mut().enumerate() {
        let is_twice = twice.contains(&index);
        (recipe.broken, recipe.size_broken) = (recipe.broken | is_twice, recipe.size_broken | is_twice);
    }
    recipes
}

fn head(index: usize, entry: &RecipeEntry, problems: &mut Vec<Problem>) -> Recipe {
    let mut makes = entry.makes.given().cloned().unwrap_or_default();
    let portion = entry.portion.given().cloned();
    let stated_portions = entry.portions.given().copied();
    let size_broken = entry.makes.is_broken()
        || entry.portion.is_broken()
        || entry.portions.is_broken()
        || entry.serving_loss.is_broken();
    let broken = size_broken || entry.q.is_broken() || entry.spice.is_broken();
    let serving_loss = entry.serving_loss.given().copied().unwrap_or(Decimal::ZERO);
    let mut makes_computed = false;
    if let (true, Some(portion), Some(portions)) = (makes.is_empty(), &portion, stated_portions) {
        match batch_of(portion.amount, portions, serving_loss) {
            Some(amount) => {
                makes_computed = true;
                makes.push(crate::measure::Measured { amount, unit: portion.unit.clone() });
            }
            None => problems.push(too_large(entry)),
        }
    }
    Recipe {
        name: entry.name.clone(),
        key: NameKey::of(&entry.name),
        entry: index,
        place: entry.input.place(Column::Recipe),
        makes,
        makes_computed,
        portion,
        stated_portions,
        q: entry.q.given().copied(),
        spice: entry.spice.given().copied(),
        serving_loss,
        lines: Vec::new(),
        flour: None,
        bridge: Bridge::default(),
        size_broken,
        broken,
    }
}

/// Notes that a recipe is known by the batch alone, where no dish is sold of it: of one that is sold, the dish is an error
/// if it needs to know more.
pub(super) fn note_batches(entries: &Entries, dishes: &[Dish], problems: &mut Vec<Problem>) {
    let sold: HashSet<RecipeId> = dishes.iter().filter_map(|dish| dish.recipe).collect();
    for (index, recipe) in entries.recipes.iter().enumerate() {
        let unknown = (&recipe.makes, &recipe.portions) == (&Field::Blank, &Field::Blank);
        if unknown && !recipe.name.is_empty() && !sold.contains(&RecipeId::new(index)) {
            problems.push(
                Fault::new(
                    Code::MakesAssumed,
                    format!(
                        "“{}” does not say what it makes, so it counts as one batch and no more is known",
                        recipe.name
                    ),
                    "Add Makes (such as 3 qt) or Portions, unless it is only used by the batch.",
                )
                .at(recipe.input.place(Column::Recipe)),
            );
        }
    }
}

/// Doubts words in which a batch or a portion is told that are no unit, but a slip of the pen away from one: they are taken
/// for measures of the recipe's own. A word of the recipe's name is what it makes: scones are no score. Measures must be
/// attached.
pub(super) fn doubt_units(entries: &Entries, recipes: &[Recipe], problems: &mut Vec<Problem>) {
    for (recipe, entry) in recipes.iter().zip(&entries.recipes) {
        let makes = recipe.makes.iter().filter(|_| !recipe.makes_computed).map(|makes| (Column::Makes, makes));
        let told = makes.chain(recipe.portion.iter().map(|portion| (Column::Portion, portion)));
        for (column, Measured { unit, .. }) in told.filter(|(_, told)| !recipe.bridge.knows(&told.unit)) {
            let Some(slip) = unit.slip_of().filter(|_| !is_named_in(unit, &recipe.name)) else { continue };
            let fault = Fault::new(
                Code::UnitDoubtful,
                format!("“{unit}” is not a unit, so it was taken for a measure of “{}” alone", recipe.name),
                format!("Did you mean {slip}? If it is one, add a Measures row: Item {}, Measure {unit}.", recipe.name),
            );
            problems.push(fault.at(entry.input.place(column)));
        }
    }
}

/// Whether a unit is a word of a name.
fn is_named_in(unit: &Unit, name: &str) -> bool {
    name.split(|c: char| !c.is_alphanumeric()).any(|word| Unit::read(word) == *unit)
}

/// Portion × portions ÷ (1 − serving loss).
fn batch_of(portion: Decimal, portions: Decimal, loss: Decimal) -> Option<Decimal> {
    let kept = Decimal::ONE.checked_sub(loss)?;
    portion.checked_mul(portions)?.checked_div(kept)
}

fn too_large(entry: &RecipeEntry) -> Problem {
    Fault::new(Code::NumberOutOfRange, "the batch is too large to compute", "Check Portion and Portions.")
        .at(entry.input.place(Column::Portions))
}

/// The measures that a kitchen may ask for, whatever of.
struct KnownUnits<'a> {
    entries: &'a Entries,
    /// The kitchen's own, once they are asked for.
    own: Option<HashSet<&'a Unit>>,
}

impl KnownUnits<'_> {
    /// The fault of a unit that nothing in the book knows. Beside a name that the book knows, costing says what is missing.
    fn unknown(&mut self, quantity: &LineQuantity) -> Option<Fault> {
        let LineQuantity::Measured(Measured { unit, .. }) = quantity else { return None };
        let Unit::Own(name) = unit else { return None };
        let entries = self.entries;
        let own = self.own.get_or_insert_with(|| {
            let measures = entries.measures.iter().filter_map(|row| Some(&row.measure.given()?.0));
            let packs = entries.prices.iter().filter_map(|row| Some(&row.pack.given()?.pieces.as_ref()?.unit));
            measures.chain(packs).collect()
        });
        if Unit::parse(name).is_some() || own.contains(unit) {
            return None;
        }
        Some(Fault::new(
            Code::UnitUnknown,
            format!("“{name}” is not a unit, and no Measures row says what one is"),
            format!(
                "{}Write a unit such as lb, cup or each; or add a Measures row that says what one weighs or holds.",
                did_you_mean(name)
            ),
        ))
    }
}

/// The fault of a line's name. Where no name is near, the line may be one that nobody would cost.
fn or_to_taste(fault: Fault) -> Fault {
    if fault.code != Code::NameUnknown || !fault.help.starts_with("Add a price row") {
        return fault;
    }
    let help = format!("{} If it need not be costed, type to taste under Qty.", fault.help);
    Fault { help: help.into(), ..fault }
}

fn link_line(
    id: RecipeId,
    (entry, weighed): (&LineEntry, Option<Option<Measured>>),
    (lookups, courses): (&mut Lookups, &Courses<'_>),
    uncosted: &mut UncostedNames,
    units: &mut KnownUnits<'_>,
    problems: &mut Vec<Problem>,
) -> Line {
    let mut broken =
        entry.quantity.is_broken() || entry.basis.is_broken() || entry.own_yield.is_broken() || entry.used.is_broken();
    let mut quantity =
        entry.quantity.given().cloned().unwrap_or(LineQuantity::Unmeasured { words: String::new(), measured: None });
    match weighed {
        Some(Some(weight)) => quantity = LineQuantity::Measured(weight),
        // Why it is not known is reported; it stays as typed in any size.
        Some(None) => {
            broken = true;
            let percent = entry.percent_of_flour().map(|percent| format!("{} ", plain(percent)));
            quantity = LineQuantity::Unmeasured { words: format!("{}%", percent.unwrap_or_default()), measured: None };
        }
        None => {}
    }
    let prep = if entry.prep.is_empty() { said_in_unit(&mut quantity) } else { Some(entry.prep.clone()) };
    let counted = matches!(&quantity, LineQuantity::Measured(measured) if measured.unit.is_count_like());
    let own_yield = entry.own_yield.given().copied();
    let basis = match entry.basis.given() {
        Some(basis) => *basis,
        None if counted && own_yield.is_none() => Basis::Ap,
        None => Basis::Ep,
    };
    if basis == Basis::Ap && own_yield.is_some() {
        problems.push(
            Fault::new(
                Code::YieldUnused,
                format!("“{}” is asked for as purchased, so its yield is not used", entry.item),
                "Clear Yield, or set Basis to EP.",
            )
            .at(entry.input.place(Column::Yield)),
        );
    }
    let named = lookups.find(&entry.item, Asker::Recipe(id)).map(|source| (source, None));
    let (source, dish) = match named.or_else(|fault| courses.of_name(&entry.item, fault)) {
        Ok((source, None)) => (source, None),
        Ok((source, Some(course))) => {
            problems.extend(course.uncounted(&entry.item, &quantity).map(|fault| fault.at(entry.unit_place())));
            broken |= course.is_stopped(&quantity);
            (source, Some(course.dish))
        }
        Err(fault) => {
            let is_costed = broken || !matches!(quantity, LineQuantity::Unmeasured { .. });
            let place = entry.input.place(Column::Item);
            if !is_costed && fault.code == Code::NameUnknown {
                uncosted.take(&entry.item, place);
            } else {
                problems.push(or_to_taste(fault).at(place));
                problems.extend(units.unknown(&quantity).map(|fault| fault.at(entry.unit_place())));
                broken = true;
            }
            (IngredientSource::Unknown, None)
        }
    };
    Line {
        source,
        dish,
        quantity,
        prep: prep.map(|prep| NameKey::of(&prep)),
        basis,
        own_yield: own_yield.filter(|_| basis == Basis::Ep),
        used: entry.used.given().copied().unwrap_or(Decimal::ONE),
        broken,
    }
}

/// The preparation that a unit such as `cup diced` names, which is taken off it.
fn said_in_unit(quantity: &mut LineQuantity) -> Option<String> {
    let LineQuantity::Measured(Measured { unit, .. }) = quantity else { return None };
    let Unit::Own(name) = &*unit else { return None };
    let (plain, prep) = measure_name(name)?;
    let prep = prep?;
    *unit = plain;
    Some(prep)
}
