//! Refusals to scale, in words a cook reads at once.

use crate::number::Overflow;
use crate::problem::names::Names;

/// Why a recipe was not scaled.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum NotScaled {
    /// There is no recipe of that name.
    #[error("no recipe or dish is called “{name}”{near}")]
    NoRecipe {
        /// The name as given.
        name: String,
        /// The nearest names as a question, else which there are, a full stop before it.
        near: String,
    },
    /// There is a dish of that name, and its recipe is not in the book.
    #[error(
        "“{name}” is a dish of the menu, and its recipe is not in the book: add the recipe, or name one in that row"
    )]
    NoRecipeOfDish {
        /// The name as given.
        name: String,
    },
    /// What was typed is no amount.
    #[error("“{text}” is no amount to scale to: give portions, such as 60, or what the recipe makes, such as 3 gal")]
    NoAmount {
        /// What was typed.
        text: String,
    },
    /// What was typed is no portion.
    #[error("“{text}” is no portion: give its size, such as 8 fl oz or 230 g")]
    NoPortion {
        /// What was typed.
        text: String,
    },
    /// What was typed is no number.
    #[error("“{text}” is no number to multiply by: give one such as 2.5 or 1/2")]
    NoNumber {
        /// What was typed.
        text: String,
    },
    /// Nothing, or less.
    #[error("“{text}” is not more than nothing: give an amount above zero")]
    Nothing {
        /// What was typed.
        text: String,
    },
    /// Far more, or far less, than anybody cooks of one recipe.
    #[error("that is {factor} times the recipe: give a size from a ten-thousandth of it to ten thousand times as much")]
    Absurd {
        /// How many times.
        factor: String,
    },
    /// The recipe does not say what would be needed.
    #[error("{reason}")]
    Unknown {
        /// What it does not say, and what to do.
        reason: String,
    },
    /// What is on hand goes into no line.
    #[error("“{text}” is not an amount of anything in “{recipe}”: give how much and of what, such as {example}{near}")]
    NotInIt {
        /// What was typed.
        text: String,
        /// The recipe.
        recipe: String,
        /// How much of what, as a line of the recipe has it.
        example: String,
        /// The nearest names as a question, else which there are, a full stop before it.
        near: String,
    },
    /// What is on hand goes into a line, and is without an amount.
    #[error("“{text}” does not say how much there is: give a number and a unit, such as {example}")]
    NotHowMuch {
        /// What was typed.
        text: String,
        /// How much of it, as a line of the recipe has it.
        example: String,
    },
    /// What is on hand goes into a line, but for a word that is no unit.
    #[error(
        "“{text}” is not an amount of anything in “{recipe}”: “{word}” is neither a unit nor part of a name there. {near}Give how \
         much and of what, such as {example}"
    )]
    NoUnit {
        /// What was typed.
        text: String,
        /// The recipe.
        recipe: String,
        /// The word.
        word: String,
        /// The nearest unit as a question; empty when none is near.
        near: String,
        /// How much of it, as a line of the recipe has it.
        example: String,
    },
    /// What is on hand stands on a line that asks for none of it.
    #[error("“{recipe}” asks for nothing of “{item}”, so no amount of it runs out: give what else there is")]
    NoneAsked {
        /// The ingredient.
        item: String,
        /// The recipe.
        recipe: String,
    },
    /// No line bears the name.
    #[error("no line of “{recipe}” asks for “{item}”{near}")]
    NoLine {
        /// The name as given.
        item: String,
        /// The recipe.
        recipe: String,
        /// The nearest names as a question, else which there are, a full stop before it.
        near: String,
    },
    /// What is on hand cannot be compared with what the recipe takes.
    #[error("how far {on_hand} of “{item}” goes is not known: {why}")]
    NoWay {
        /// How much is on hand.
        on_hand: String,
        /// Of what.
        item: String,
        /// What stands in the way, and what to do.
        why: String,
    },
    /// The recipe is not costed, so what it takes is not known.
    #[error("“{recipe}” is not costed, so what goes into it is not known for sure: mend its errors first")]
    NotCosted {
        /// The recipe.
        recipe: String,
    },
    /// What should come out whole is not counted.
    #[error(
        "“{item}” is not counted in “{recipe}”: only what is asked for by the piece or can, in one unit, comes out whole"
    )]
    NotCounted {
        /// The ingredient.
        item: String,
        /// The recipe.
        recipe: String,
    },
    /// What is on hand is not enough for a whole one.
    #[error("what is on hand is not enough for one whole “{item}”")]
    NotOne {
        /// The ingredient.
        item: String,
    },
    /// A number does not fit.
    #[error("the numbers here are too large or too small to compute exactly: give a smaller size")]
    Overflow,
}

impl From<Overflow> for NotScaled {
    fn from(_: Overflow) -> Self {
        NotScaled::Overflow
    }
}

/// The nearest names as a question, else behind `lead` which there are, with what parts it from the sentence before.
pub(super) fn near(names: &Names, wanted: &str, lead: &str) -> String {
    names.answer(wanted, lead).map(|near| format!(". {near}")).unwrap_or_default()
}
