//! The kinds of table and the signatures of their header rows.

use crate::schema::column::{Column, ColumnDef};
use crate::schema::tables;

/// A kind of table, known by its header row.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[non_exhaustive]
pub enum TableKind {
    /// What breaking down a bought item gave: one row per part.
    YieldTests,
    /// House-wide settings.
    Settings,
    /// How many portions of which dish are planned.
    Plan,
    /// The dishes and what they are sold for.
    Menu,
    /// Recipes' lines as one flat list.
    RecipeLines,
    /// Recipes' labels as columns.
    RecipeFacts,
    /// What a measure of an item weighs or holds.
    Measures,
    /// Price rows.
    Prices,
    /// What is on hand.
    Stock,
    /// Opening and closing count per item.
    Counts,
    /// Opening, purchases and closing per period.
    Control,
    /// What else the kitchen calls things, apart from the price list.
    Names,
    /// Under which headings a supplier's lists have their columns.
    SupplierLayouts,
    /// What holds for a supplier: the least that is delivered.
    Suppliers,
    /// The lines of one recipe card; only inside a card.
    CardLines,
}

/// What a header row must and must not have to be of a kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Signature {
    /// All of these.
    pub all: &'static [Column],
    /// And one of these, unless there are none.
    pub any: &'static [Column],
    /// None of these.
    pub none: &'static [Column],
}

impl Signature {
    /// Whether a header row with the columns `has` is of the kind. `has_foreign` answers for the columns that must
    /// not be there, which may belong to other kinds.
    pub fn fits(&self, has: impl Fn(Column) -> bool, has_foreign: impl Fn(Column) -> bool) -> bool {
        self.all.iter().all(|column| has(*column))
            && (self.any.is_empty() || self.any.iter().any(|column| has(*column)))
            && !self.none.iter().any(|column| has_foreign(*column))
    }
}

impl TableKind {
    /// Every kind, in the order in which signatures are tried.
    pub const ALL: &'static [TableKind] = &[
        TableKind::YieldTests,
        TableKind::Settings,
        TableKind::Plan,
        TableKind::Menu,
        TableKind::RecipeLines,
        TableKind::RecipeFacts,
        TableKind::Measures,
        TableKind::Prices,
        TableKind::Stock,
        TableKind::Counts,
        TableKind::Control,
        TableKind::Names,
        TableKind::SupplierLayouts,
        TableKind::Suppliers,
        TableKind::CardLines,
    ];

    /// What people call a table of this kind, for messages.
    pub fn name(self) -> &'static str {
        match self {
            TableKind::YieldTests => "yield tests",
            TableKind::Settings => "settings",
            TableKind::Plan => "plan",
            TableKind::Menu => "menu",
            TableKind::RecipeLines => "recipe lines",
            TableKind::RecipeFacts => "recipe facts",
            TableKind::Measures => "measures",
            TableKind::Prices => "prices",
            TableKind::Stock => "stock",
            TableKind::Counts => "stock counts",
            TableKind::Control => "control",
            TableKind::Names => "names",
            TableKind::SupplierLayouts => "supplier layouts",
            TableKind::Suppliers => "suppliers",
            TableKind::CardLines => "card lines",
        }
    }

    /// Its columns, in the order in which we write them.
    pub fn columns(self) -> &'static [ColumnDef] {
        match self {
            TableKind::YieldTests => tables::YIELD_TESTS,
            TableKind::Settings => tables::SETTINGS,
            TableKind::Plan => tables::PLAN,
            TableKind::Menu => tables::MENU,
            TableKind::RecipeLines => tables::RECIPE_LINES,
            TableKind::RecipeFacts => tables::RECIPE_FACTS,
            TableKind::Measures => tables::MEASURES,
            TableKind::Prices => tables::PRICES,
            TableKind::Stock => tables::STOCK,
            TableKind::Counts => tables::COUNTS,
            TableKind::Control => tables::CONTROL,
            TableKind::Names => tables::NAMES,
            TableKind::SupplierLayouts => tables::SUPPLIER_LAYOUTS,
            TableKind::Suppliers => tables::SUPPLIERS,
            TableKind::CardLines => tables::CARD_LINES,
        }
    }

    /// The definition of `column` in this kind, if the kind has it.
    pub fn column(self, column: Column) -> Option<&'static ColumnDef> {
        self.columns().iter().find(|def| def.column == column)
    }

    /// The canonical header of `column` in this kind; empty when the kind does not have it.
    pub fn header(self, column: Column) -> &'static str {
        self.column(column).map_or("", |def| def.header)
    }

    /// The column that names what a row is about.
    pub fn name_column(self) -> Column {
        match self {
            TableKind::YieldTests => Column::Part,
            TableKind::Settings => Column::Setting,
            TableKind::Plan | TableKind::Menu => Column::Dish,
            TableKind::RecipeFacts => Column::Recipe,
            TableKind::Control => Column::Opening,
            TableKind::SupplierLayouts | TableKind::Suppliers => Column::Supplier,
            TableKind::RecipeLines
            | TableKind::CardLines
            | TableKind::Measures
            | TableKind::Prices
            | TableKind::Names
            | TableKind::Counts
            | TableKind::Stock => Column::Item,
        }
    }

    /// What its header row must and must not have.
    pub fn signature(self) -> Signature {
        use Column as C;
        let (all, any, none): (&'static [C], &'static [C], &'static [C]) = match self {
            TableKind::YieldTests => (&[C::Test, C::Role, C::Part, C::Weight], &[], &[]),
            TableKind::Settings => (&[C::Setting, C::Value], &[], &[]),
            TableKind::Plan => {
                (&[C::Dish, C::Portions], &[], &[C::Recipe, C::Portion, C::MenuPrice, C::Target, C::Sold])
            }
            TableKind::Menu => (&[C::Dish], &[C::Recipe, C::Portion, C::MenuPrice, C::Target, C::Sold], &[C::Portions]),
            TableKind::RecipeLines => (&[C::Recipe, C::Item, C::Qty], &[], &[C::Dish]),
            TableKind::RecipeFacts => {
                (&[C::Recipe], &[C::Makes, C::BatchYield, C::Portion, C::Portions], &[C::Item, C::Dish])
            }
            TableKind::Measures => (&[C::Item, C::Measure], &[C::Weighs, C::Holds], &[C::Price, C::Qty, C::Recipe]),
            TableKind::Prices => (
                &[C::Item, C::Price],
                &[C::Pack, C::SizeUnit, C::UnitSize, C::Per],
                &[C::Recipe, C::OnHand, C::Weighs, C::Holds],
            ),
            TableKind::Stock => (&[C::Item, C::OnHand], &[], &[]),
            TableKind::Counts => (&[C::Item, C::OpeningCount, C::ClosingCount], &[], &[C::Price]),
            TableKind::Control => (&[C::Opening, C::Purchases, C::Closing], &[], &[C::Item]),
            TableKind::Names => (
                &[C::Item, C::AlsoCalled],
                &[],
                &[
                    C::Price,
                    C::Pack,
                    C::Per,
                    C::Recipe,
                    C::Qty,
                    C::OnHand,
                    C::Measure,
                    C::Weighs,
                    C::Holds,
                    C::Test,
                    C::Dish,
                ],
            ),
            TableKind::SupplierLayouts => (&[C::Supplier, C::OurColumn, C::TheirHeading], &[], &[]),
            // A supplier's list may say it in every row.
            TableKind::Suppliers => (&[C::Supplier, C::MinimumOrder], &[], &[C::Item, C::Price]),
            TableKind::CardLines => (&[C::Item, C::Qty], &[], &[C::Recipe]),
        };
        Signature { all, any, none }
    }

    /// Whether a row whose only content is text in its first cell can be a complete row of this kind (a dish of
    /// the recipe of that name, a recipe of one portion, a setting left open, `Salt`), so that only capitals or a
    /// closing colon make it a heading.
    pub fn name_alone_is_a_row(self) -> bool {
        matches!(
            self,
            TableKind::CardLines | TableKind::Menu | TableKind::RecipeFacts | TableKind::Settings | TableKind::Plan
        )
    }

    /// Whether headings may stand between its rows: in all but the control table, whose rows are periods.
    pub fn has_headings(self) -> bool {
        self != TableKind::Control
    }
}
