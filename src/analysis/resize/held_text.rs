//! Text of what is on hand: how much of which ingredient of a recipe, or why it says neither.

use super::NotScaled;
use super::names::{NamedLine, called};
use crate::kitchen::Kitchen;
use crate::kitchen::recipe::IngredientSource;
use crate::measure::{Measured, QuantityText, Unit, compound_in_first, did_you_mean, parse_quantity};
use crate::number::Marks;
use crate::problem::names::Names;

/// What is needed to read it.
pub(super) struct HeldText<'a> {
    pub kitchen: &'a Kitchen,
    /// What goes into the recipe.
    pub names: Vec<NamedLine>,
    /// The recipe's name.
    pub recipe: &'a str,
}

impl HeldText<'_> {
    /// An amount and the ingredient that it is of: `4 lb Shrimp shells`, `6 Eggs`, `Leeks 2 lb 4 oz`.
    ///
    /// # Errors
    /// [`NotScaled`] that says which of the two is missing, and how to give it.
    pub(super) fn apart(&self, text: &str) -> Result<(Measured, &NamedLine), NotScaled> {
        let words: Vec<&str> = text.split_whitespace().collect();
        let mut refused = called(&self.names, text.trim()).map(|named| not_how_much(text, named));
        for at in 1..words.len() {
            let Some((first, last)) = words.split_at_checked(at) else { continue };
            for (amount, name) in [(first, last), (last, first)] {
                let name = name.join(" ");
                let Some(named) = called(&self.names, name.strip_prefix("of ").unwrap_or(&name)) else { continue };
                match self.amount(&amount.join(" "), text, named) {
                    Ok(amount) => return Ok((amount, named)),
                    Err(why) => refused = refused.or(Some(why)),
                }
            }
        }
        Err(refused.unwrap_or_else(|| self.not_in_it(text)))
    }

    /// How much of an ingredient there is.
    fn amount(&self, amount: &str, text: &str, named: &NamedLine) -> Result<Measured, NotScaled> {
        let measured = match parse_quantity(amount, Marks::Unknown) {
            Ok(QuantityText::Number(number)) => Some(Measured::new(number, Unit::each())),
            Ok(QuantityText::Measured(one)) => Some(one),
            Ok(QuantityText::Compound(parts)) => {
                let sum = compound_in_first(&parts, self.kitchen.settings.volumes)?;
                sum.zip(parts.first()).map(|(sum, first)| Measured::new(sum, first.unit.clone()))
            }
            Ok(QuantityText::Unmeasured(_)) | Err(_) => None,
        };
        let measured = measured.ok_or_else(|| not_how_much(text, named))?;
        if self.is_known(named.source, &measured.unit) {
            return Ok(measured);
        }
        let word = measured.unit.name();
        Err(NotScaled::NoUnit {
            text: text.trim().to_owned(),
            recipe: self.recipe.to_owned(),
            near: did_you_mean(&word),
            word,
            example: named.such_as.clone(),
        })
    }

    /// Whether a unit is one of the catalogue's, or a measure that the book has of this ingredient: no other word is a unit.
    fn is_known(&self, source: IngredientSource, unit: &Unit) -> bool {
        let kitchen = self.kitchen;
        let bridge = match source {
            IngredientSource::Bought(id) => kitchen.item(id).map(|item| &item.bridge),
            IngredientSource::Part(part) => kitchen.part(part).map(|part| &part.bridge),
            IngredientSource::Made(made) => kitchen.recipe(made).map(|made| &made.bridge),
            IngredientSource::Unknown => None,
        };
        Unit::parse(&unit.name()).is_some()
            || bridge.is_some_and(|bridge| bridge.measures.iter().any(|measure| measure.unit == *unit))
    }

    fn not_in_it(&self, text: &str) -> NotScaled {
        let known: Names = self.names.iter().map(|named| named.item.as_str()).collect();
        let is_name = |c: char| c.is_alphabetic();
        // The longest end of the text that is near a name: the amount before it is no part of one.
        let ends = text.match_indices(' ').map(|(at, _)| text.get(at..).unwrap_or_default().trim());
        let mut ends = std::iter::once(text.trim()).chain(ends).filter(|end| end.starts_with(is_name));
        let near = ends.find_map(|end| known.did_you_mean(end)).or_else(|| known.answer(text, "It takes"));
        NotScaled::NotInIt {
            text: text.trim().to_owned(),
            recipe: self.recipe.to_owned(),
            example: self.names.first().map(|named| named.such_as.clone()).unwrap_or_default(),
            near: near.map(|near| format!(". {near}")).unwrap_or_default(),
        }
    }
}

fn not_how_much(text: &str, named: &NamedLine) -> NotScaled {
    NotScaled::NotHowMuch { text: text.trim().to_owned(), example: named.such_as.clone() }
}
