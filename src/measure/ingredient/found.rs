//! Findings of a text: how much it says, and what it says besides.

use super::AmountText;

/// An amount, and what else its words say.
#[derive(Debug, Clone)]
pub(super) struct FoundAmount {
    /// How much.
    pub amount: AmountText,
    /// Words that belong to the name: a size.
    pub name: Vec<String>,
    /// Words that say what is done: `juice`, `heaping`.
    pub prep: Vec<String>,
    /// What was taken for granted.
    pub notes: Vec<String>,
    /// What must be asked.
    pub question: Option<String>,
}

impl FoundAmount {
    /// No amount.
    pub fn nothing() -> Self {
        FoundAmount {
            amount: AmountText::Unsaid,
            name: Vec::new(),
            prep: Vec::new(),
            notes: Vec::new(),
            question: None,
        }
    }

    /// `amount` and nothing else.
    pub fn of(amount: AmountText) -> Self {
        FoundAmount { amount, ..FoundAmount::nothing() }
    }

    /// No figure, and why.
    pub fn asking(question: String) -> Self {
        FoundAmount { amount: AmountText::Asked, question: Some(question), ..FoundAmount::nothing() }
    }

    /// Makes it a question; the first question stands.
    pub fn ask(&mut self, question: String) {
        self.amount = AmountText::Asked;
        self.question.get_or_insert(question);
    }
}
