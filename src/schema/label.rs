//! The labels of a recipe card.

use crate::schema::column::Column;
use crate::schema::header;

/// What a label of a card says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Label {
    /// The recipe's name; every card begins with it.
    Recipe,
    /// Batch yield after cooking.
    Makes,
    /// What the batch yields: what it makes, or how many portions.
    BatchYield,
    /// How much one portion is.
    Portion,
    /// How many portions, final and net of serving loss.
    Portions,
    /// What it sells for.
    MenuPrice,
    /// Target food-cost %.
    Target,
    /// Accompaniments and incidentals.
    QFactor,
    /// Seasoning that nobody measures.
    SpiceFactor,
    /// What is left in pots and ladles.
    ServingLoss,
    /// A category, carried through.
    Group,
    /// Text, carried through.
    Note,
    /// How it is made: text, carried through.
    Method,
}

impl Label {
    /// Every label, in the order in which we write them.
    pub const ALL: &'static [Label] = &[
        Label::Recipe,
        Label::Makes,
        Label::BatchYield,
        Label::Portion,
        Label::Portions,
        Label::MenuPrice,
        Label::Target,
        Label::QFactor,
        Label::SpiceFactor,
        Label::ServingLoss,
        Label::Group,
        Label::Note,
        Label::Method,
    ];

    /// The label as we write it.
    pub fn text(self) -> &'static str {
        crate::schema::TableKind::RecipeFacts.header(self.column())
    }

    /// The column that says the same in a list of recipe facts; its synonyms are the label's.
    pub fn column(self) -> Column {
        match self {
            Label::Recipe => Column::Recipe,
            Label::Makes => Column::Makes,
            Label::BatchYield => Column::BatchYield,
            Label::Portion => Column::Portion,
            Label::Portions => Column::Portions,
            Label::MenuPrice => Column::MenuPrice,
            Label::Target => Column::Target,
            Label::QFactor => Column::QFactor,
            Label::SpiceFactor => Column::SpiceFactor,
            Label::ServingLoss => Column::ServingLoss,
            Label::Group => Column::Group,
            Label::Note => Column::Note,
            Label::Method => Column::Method,
        }
    }

    /// The label that `text` states, with a bracketed unit or currency split off; `None` for any other text.
    pub fn read(text: &str) -> Option<(Label, Option<String>)> {
        if !header::is_known(text) {
            return None;
        }
        let read = header::read(text);
        let found = read.meanings().iter().find(|meaning| meaning.kind == crate::schema::TableKind::RecipeFacts)?;
        let label = Label::ALL.iter().copied().find(|label| label.column() == found.column)?;
        Some((label, read.default_of(label.column(), text)))
    }
}
