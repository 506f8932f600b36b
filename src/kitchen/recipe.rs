//! Recipes as read, cards and flat lists alike, and with their ingredients found.

use super::bridge::{Basis, Bridge};
use super::{DishId, Field, InputRow, ItemId, NameKey, Node, PartId, RecipeId};
use crate::measure::{Measured, Unit};
use crate::number::Decimal;
use crate::problem::Place;
use crate::schema::Column;

/// A recipe as read: its labels and its lines.
#[derive(Debug, Clone)]
pub struct RecipeEntry {
    /// The labels as typed, under the columns of the facts table.
    pub input: InputRow,
    /// The name as spelled.
    pub name: String,
    /// What the batch yields after cooking, in one or two measures.
    pub makes: Field<Vec<Measured>>,
    /// What one portion is.
    pub portion: Field<Measured>,
    /// How many portions, net of serving loss.
    pub portions: Field<Decimal>,
    /// The menu price as typed.
    pub menu_price: Field<Decimal>,
    /// Target food-cost %, as a fraction.
    pub target: Field<Decimal>,
    /// Accompaniments and incidentals.
    pub q: Field<QFactor>,
    /// Seasoning, as a fraction.
    pub spice: Field<Decimal>,
    /// What is left in pots and ladles, as a fraction of the batch.
    pub serving_loss: Field<Decimal>,
    /// Text, carried through.
    pub group: String,
    /// Its lines, in book order.
    pub lines: Vec<LineEntry>,
    /// Lines without an ingredient: written back, so that nothing typed is lost.
    pub unread: Vec<InputRow>,
}

impl RecipeEntry {
    /// A recipe of which only the name is known.
    pub fn bare(input: InputRow, name: String) -> Self {
        RecipeEntry {
            input,
            name,
            makes: Field::Blank,
            portion: Field::Blank,
            portions: Field::Blank,
            menu_price: Field::Blank,
            target: Field::Blank,
            q: Field::Blank,
            spice: Field::Blank,
            serving_loss: Field::Blank,
            group: String::new(),
            lines: Vec::new(),
            unread: Vec::new(),
        }
    }
}

/// Accompaniments and incidentals.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum QFactor {
    /// A fraction of the food cost.
    Share(Decimal),
    /// Money per portion served.
    Money(Decimal),
}

/// A line as read.
#[derive(Debug, Clone)]
pub struct LineEntry {
    /// The cells.
    pub input: InputRow,
    /// The ingredient's name as spelled.
    pub item: String,
    /// How much of it.
    pub quantity: Field<LineQuantity>,
    /// The preparation, which refines the measure; empty when not named.
    pub prep: String,
    /// Its basis, when stated.
    pub basis: Field<Basis>,
    /// A yield of this line alone, as a fraction.
    pub own_yield: Field<Decimal>,
    /// The share of the quantity that is used up, as a fraction.
    pub used: Field<Decimal>,
}

impl LineEntry {
    /// Whether it is in % of the flour.
    pub fn is_percent(&self) -> bool {
        match &self.quantity {
            Field::Given(LineQuantity::Measured(measured)) => measured.unit.is_percent(),
            _ => Unit::read(&self.input.text(Column::Unit)).is_percent(),
        }
    }

    /// How many per cent of the flour it is; `None` of a line in another unit, or without a number.
    pub fn percent_of_flour(&self) -> Option<Decimal> {
        match &self.quantity {
            Field::Given(LineQuantity::Measured(measured)) => measured.unit.is_percent().then_some(measured.amount),
            _ => None,
        }
    }

    /// Where its unit stands: beside its quantity, else within it.
    pub fn unit_place(&self) -> Place {
        self.input.unit_place(Column::Qty)
    }
}

/// How much a line asks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LineQuantity {
    /// A quantity with its unit.
    Measured(Measured),
    /// Nothing that can be costed: `to taste`, a pinch, a blank; with the words that were typed and, where a
    /// Measures row may know the word, how many of it.
    Unmeasured {
        /// The words.
        words: String,
        /// `2 pinches` is two of `pinch`.
        measured: Option<Measured>,
    },
}

/// Where an ingredient comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum IngredientSource {
    /// Bought.
    Bought(ItemId),
    /// A part of a yield test.
    Part(PartId),
    /// Another recipe.
    Made(RecipeId),
    /// Not in the book.
    Unknown,
}

impl IngredientSource {
    /// What bears its cost; none for what is not in the book.
    pub(crate) fn node(self) -> Option<Node> {
        match self {
            IngredientSource::Bought(id) => Some(Node::Item(id)),
            IngredientSource::Part(part) => Some(Node::Test(part.test)),
            IngredientSource::Made(id) => Some(Node::Recipe(id)),
            IngredientSource::Unknown => None,
        }
    }
}

/// A recipe with its ingredients found.
#[derive(Debug, Clone)]
pub struct Recipe {
    /// The name as first spelled.
    pub name: String,
    /// How it is compared.
    pub key: NameKey,
    /// Its entry, as an index into the entries.
    pub entry: usize,
    /// Where it is named.
    pub place: Place,
    /// What the batch yields; empty when only portions are known.
    pub makes: Vec<Measured>,
    /// Whether Makes was computed from Portion and Portions.
    pub makes_computed: bool,
    /// One portion, when known.
    pub portion: Option<Measured>,
    /// Portions stated on the card; computed from Makes and Portion when `None`.
    pub stated_portions: Option<Decimal>,
    /// Q on its own card.
    pub q: Option<QFactor>,
    /// Spice on its own card.
    pub spice: Option<Decimal>,
    /// Serving loss as a fraction.
    pub serving_loss: Decimal,
    /// Its lines, in book order.
    pub lines: Vec<Line>,
    /// The flour that its lines in % go by; `None` where there are none, or it is not known.
    pub flour: Option<Flour>,
    /// Its own conversions.
    pub bridge: Bridge,
    /// Whether a reported problem leaves unknown what it makes, of its lines apart.
    pub(crate) size_broken: bool,
    /// Whether a reported problem stops it.
    pub broken: bool,
}

/// The flour that baker's percentages go by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Flour {
    /// What all of it weighs.
    pub weight: Measured,
    /// Whether that is found from what the batch weighs; else the flour is typed as a weight.
    pub of_batch: bool,
    /// Its lines, as indices.
    pub lines: Vec<usize>,
}

/// A line with its ingredient found.
#[derive(Debug, Clone)]
pub struct Line {
    /// Where the ingredient comes from.
    pub source: IngredientSource,
    /// The dish of the menu that it names, whose recipe is its source: its quantity counts plates of that.
    pub dish: Option<DishId>,
    /// How much: as typed, and the weight of a line in % of the flour.
    pub quantity: LineQuantity,
    /// The preparation asked for.
    pub prep: Option<NameKey>,
    /// AP or EP, stated or by the rule for blank ones.
    pub basis: Basis,
    /// A yield of this line alone.
    pub own_yield: Option<Decimal>,
    /// The share of the quantity that is used up; one when not stated.
    pub used: Decimal,
    /// Whether a reported problem stops it.
    pub broken: bool,
}

impl Line {
    /// The unit asked for, when the line has a quantity.
    pub fn unit(&self) -> Option<&Unit> {
        match &self.quantity {
            LineQuantity::Measured(measured) => Some(&measured.unit),
            LineQuantity::Unmeasured { .. } => None,
        }
    }
}
