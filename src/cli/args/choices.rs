//! Choices of flags: what can be said behind them, a word each.

use clap::ValueEnum;

use crate::kitchen::Kitchen;

/// What a csv table of a costing has a row for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum TableRows {
    /// Every dish.
    Dishes,
    /// Every recipe.
    Recipes,
    /// Every line of every recipe.
    Lines,
    /// Every part of every yield test.
    Parts,
}

impl TableRows {
    /// What is printed where nothing is chosen: what costs something, where nothing is sold.
    pub fn usual(kitchen: &Kitchen) -> Self {
        let is_unsold = kitchen.dishes.is_empty() && !kitchen.recipes.is_empty();
        if is_unsold { TableRows::Recipes } else { TableRows::Dishes }
    }
}

/// What a csv table of the trim report has a row for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum TrimRows {
    /// Every part under every way of charging.
    Ways,
    /// Every part in the plan, day by day where it is short on one day and left over from another.
    Balance,
    /// Every bought item of the plan, and all of them.
    Purchases,
    /// Every dish and day for which trim is short that nothing is bought in for.
    Portions,
}

/// What a csv table of food-cost control has a row for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
pub enum ControlRows {
    /// Every period.
    #[default]
    Periods,
    /// Every item that was counted.
    Items,
}

/// How results are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// A table to read.
    Table,
    /// JSON, figures in full.
    Json,
    /// Comma-separated values, figures in full.
    Csv,
}

/// When to colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Color {
    /// On a terminal that shows it.
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}
