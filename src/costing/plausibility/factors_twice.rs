//! Q and spice of a course that the settings' are taken on again, in a recipe that is sold, such as a set menu.
//!
//! A course has those of its own card within its cost; the set menu bears the settings' once, on all of it. Where both count
//! somebody has to say which is meant: on the set menu's card, which goes before the settings.

use crate::costing::q_and_spice::{FactorFrom, QAndSpice};
use crate::kitchen::recipe::{IngredientSource, Line, LineEntry, QFactor, Recipe};
use crate::kitchen::{Kitchen, RecipeId};
use crate::measure::Unit;
use crate::number::Decimal;
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// The doubts of a recipe that is sold: of its lines that are plates or portions of another.
pub(super) fn of_sold<'a>(
    kitchen: &'a Kitchen,
    recipe: &'a Recipe,
    lines: &'a [LineEntry],
) -> impl Iterator<Item = Problem> + 'a {
    let taken = QAndSpice::of_dish(kitchen, recipe);
    let takes_q = taken.q.is_some_and(|(q, from)| from == FactorFrom::Settings && is_any(q));
    let takes_spice = taken.spice.is_some_and(|(spice, from)| from == FactorFrom::Settings && spice != Decimal::ZERO);
    recipe.lines.iter().zip(lines).filter_map(move |(line, typed)| {
        let course = kitchen.recipe(course_of(line)?)?;
        let q = takes_q && course.q.is_some_and(is_any);
        let spice = takes_spice && course.spice.is_some_and(|spice| spice != Decimal::ZERO);
        let (what, zero) = match (q, spice) {
            (true, true) => ("Q and spice", "0% under Q factor and Spice factor"),
            (true, false) => ("Q", "0% under Q factor"),
            (false, true) => ("spice", "0% under Spice factor"),
            (false, false) => return None,
        };
        let fault = Fault::new(
            Code::FactorTwice,
            format!(
                "the card of “{}” has {what} of its own, and “{}” takes the setting's on it again",
                typed.item, recipe.name
            ),
            format!(
                "Type on the card of “{}” what it shall have: {zero}, if what its courses have is enough.",
                recipe.name
            ),
        );
        Some(fault.at(typed.input.place(Column::Item)))
    })
}

/// The recipe of which a line is plates or portions.
fn course_of(line: &Line) -> Option<RecipeId> {
    let counts = line.dish.is_some() || line.unit().is_some_and(Unit::is_portion);
    match line.source {
        IngredientSource::Made(id) if counts => Some(id),
        _ => None,
    }
}

fn is_any(q: QFactor) -> bool {
    let (QFactor::Share(amount) | QFactor::Money(amount)) = q;
    !amount.is_zero()
}
