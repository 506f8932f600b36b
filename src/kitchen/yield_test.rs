//! Yield tests: the rows as read, and tests pooled over their runs.

use jiff::civil::Date;

use super::recipe::IngredientSource;
use super::reuse::{BuyIn, Otherwise, PerWeight, Reuse};
use super::{Field, InputRow, ItemId, NameKey};
use crate::measure::{Dimension, Measured, Unit};
use crate::number::{Decimal, Overflow, exact};
use crate::problem::{Code, Fault, Place};

/// A row of the yield-test table.
#[derive(Debug, Clone)]
pub struct TestRow {
    /// The cells.
    pub input: InputRow,
    /// The test's name as spelled here.
    pub test: String,
    /// When the run was made.
    pub date: Field<Date>,
    /// The run's own mark.
    pub run: String,
    /// What the row is.
    pub role: Field<Role>,
    /// The name of what went in or came out.
    pub part: String,
    /// Its weight, and its count where one was given too.
    pub weight: Field<TestWeight>,
    /// Trim or cooking, when stated.
    pub kind: Field<TestKind>,
    /// How it is charged.
    pub charge: Field<Charged>,
    /// The value that the charge or the joint method needs.
    pub value: Field<ValueGiven>,
    /// Money per Unit to make it usable or saleable.
    pub further_cost: Field<Decimal>,
    /// Money per Unit paid in the test.
    pub price: Field<Decimal>,
    /// What it saves buying.
    pub instead_of: Field<InsteadOf>,
    /// What happens to it when it is not used.
    pub otherwise: Field<Otherwise>,
    /// The share of its weight that leaves on plates when it is reused, as a fraction.
    pub eaten: Field<Decimal>,
    /// Days it may be kept under the house rule.
    pub keeps: Field<Decimal>,
}

impl TestRow {
    /// The sales value of the part: its Value as money for so many grams. `None` where that is no money, or not by weight.
    pub fn sales_value(&self) -> Option<PerWeight> {
        let (money, per) = self.value.given()?.money()?;
        let grams = match per {
            Some(unit) => unit.grams().filter(|_| unit.dimension() == Dimension::Mass)?,
            None => self.weight.given()?.unit_grams,
        };
        Some(PerWeight { money, grams })
    }

    /// Which breakdown the row belongs to: rows of a test that name the same date and run are one.
    pub fn breakdown(&self) -> (Option<Date>, String) {
        (self.date.given().copied(), self.run.to_lowercase())
    }
}

/// What a row of a yield test is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Role {
    /// What went in, at its billed weight.
    AsPurchased,
    /// Water, brine or fat that went in with it.
    Added,
    /// What the breakdown is for.
    Main,
    /// What else can be used.
    ByProduct,
    /// What cannot.
    Waste,
}

impl Role {
    /// The word for it, as typed in the Role column.
    pub fn word(self) -> &'static str {
        match self {
            Role::AsPurchased => "as purchased",
            Role::Added => "added",
            Role::Main => "main",
            Role::ByProduct => "by-product",
            Role::Waste => "waste",
        }
    }
}

/// What kind of loss a test measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum TestKind {
    /// Trimming, boning, peeling.
    #[default]
    Trim,
    /// Cooking.
    Cooking,
}

/// What a row weighs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TestWeight {
    /// In grams.
    pub grams: Decimal,
    /// Pieces, where a count was given too.
    pub count: Option<Decimal>,
    /// The unit that money per Unit is for.
    pub unit: Unit,
    /// Grams in one of that unit.
    pub unit_grams: Decimal,
}

/// The words of the Charged as column.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Charged {
    /// At nothing.
    Free,
    /// At a fraction of the AP price per weight.
    Fraction,
    /// At a price.
    Price,
    /// At what it would cost to buy.
    Market,
    /// A share of the joint cost.
    Joint(JointMethod),
}

impl Charged {
    /// The word for it, as typed in the Charged as column.
    pub fn word(self) -> &'static str {
        match self {
            Charged::Free => "free",
            Charged::Fraction => "fraction",
            Charged::Price => "price",
            Charged::Market => "market",
            Charged::Joint(method) => method.word(),
        }
    }
}

/// How a joint cost is spread.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum JointMethod {
    /// By weight.
    Weight,
    /// By sales value.
    SalesValue,
    /// By sales value less further cost.
    NetRealizableValue,
}

impl JointMethod {
    /// The word for it, as typed in the Charged as column.
    pub fn word(self) -> &'static str {
        match self {
            JointMethod::Weight => "by weight",
            JointMethod::SalesValue => "by sales value",
            JointMethod::NetRealizableValue => "net realizable value",
        }
    }
}

/// A cell of the Value column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ValueGiven {
    /// A percentage, as a fraction of one.
    Percent(Decimal),
    /// Money, with its own unit if it names one.
    Money {
        /// The amount.
        amount: Decimal,
        /// For one of this; `None` is the row's Unit.
        per: Option<Unit>,
    },
    /// A bare number: what it means depends on how the part is charged.
    Bare(Decimal),
}

impl ValueGiven {
    /// The money it is where money is wanted, with the unit that it names, if any: else it is for the row's Unit. `None` of a
    /// percentage.
    pub fn money(&self) -> Option<(Decimal, Option<&Unit>)> {
        match self {
            ValueGiven::Money { amount, per } => Some((*amount, per.as_ref())),
            ValueGiven::Bare(amount) => Some((*amount, None)),
            ValueGiven::Percent(_) => None,
        }
    }
}

/// A sales value less a further cost, both money for so many grams; the money for the grams of the value.
///
/// # Errors
/// [`Overflow`] when it does not fit.
pub(crate) fn net_value(value: (Decimal, Decimal), further: (Decimal, Decimal)) -> Result<Decimal, Overflow> {
    // value − further cost × grams of the value ÷ grams of the further cost.
    let further = exact::div(exact::mul(further.0, value.1)?, further.1)?;
    exact::sub(value.0, further)
}

/// `2 oz Shellfish base per lb`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InsteadOf {
    /// How much of the item.
    pub amount: Measured,
    /// The item's name.
    pub item: String,
    /// For so much of the by-product.
    pub per: Measured,
}

/// A test, pooled over its runs.
#[derive(Debug, Clone)]
pub struct Test {
    /// The name as first spelled.
    pub name: String,
    /// How it is compared.
    pub key: NameKey,
    /// Its first row.
    pub place: Place,
    /// What kind of loss it measures.
    pub kind: TestKind,
    /// What was broken down.
    pub input: IngredientSource,
    /// What its rows name as broken down where they disagree, which stops the test: nothing tells which of them it is.
    pub contested: Vec<ItemId>,
    /// Its runs, in book order.
    pub runs: Vec<Run>,
    /// What went in with it.
    pub added: Vec<Added>,
    /// What came out, in book order.
    pub parts: Vec<Part>,
    /// How the joint remainder is spread.
    pub joint: JointMethod,
    /// Whether a reported problem stops it.
    pub broken: bool,
    /// Whether its rows leave open what it measures, or what of it is main, so that what it broke down has no yield that is
    /// known.
    pub unclear: bool,
}

impl Test {
    /// The fault of a test whose mains have nothing that the joint cost could be shared by.
    pub fn nothing_to_share_by(&self) -> Fault {
        Fault::new(
            Code::ValueMissing,
            format!("no main of “{}” has a weight and a value above zero", self.name),
            "Check the Weight and Value of its mains.",
        )
    }
}

/// One breakdown.
#[derive(Debug, Clone)]
pub struct Run {
    /// Its as purchased row, as an index into the entries.
    pub row: usize,
    /// What went in, in grams.
    pub grams: Decimal,
    /// Pieces that went in, where given.
    pub count: Option<Decimal>,
}

/// What went in besides.
#[derive(Debug, Clone)]
pub struct Added {
    /// Its row, as an index into the entries.
    pub row: usize,
    /// Where it comes from; `None` costs nothing.
    pub source: Option<IngredientSource>,
    /// Its weight in grams.
    pub grams: Decimal,
    /// Pieces of it, where given.
    pub count: Option<Decimal>,
}

/// What came out of a test.
#[derive(Debug, Clone)]
pub struct Part {
    /// The name as first spelled.
    pub name: String,
    /// How it is compared.
    pub key: NameKey,
    /// Main, by-product or waste.
    pub role: Role,
    /// Its rows, one a run at the most, as indices into the entries.
    pub rows: Vec<usize>,
    /// Its pooled weight in grams.
    pub grams: Decimal,
    /// How it is charged.
    pub charge: Charge,
    /// What is bought when there is not enough of it: *Instead of*, else the item of its own name.
    pub buy_in: Option<BuyIn>,
    /// What reusing it takes and saves.
    pub reuse: Reuse,
    /// Its own conversions.
    pub bridge: super::bridge::Bridge,
}

impl Part {
    /// Whether it takes a share of the joint remainder.
    pub fn is_joint(&self) -> bool {
        matches!(self.charge, Charge::Joint { .. })
    }
}

/// How a part is charged, ready to compute.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Charge {
    /// At nothing.
    Free,
    /// At this fraction of the input's cost per weight.
    Fraction(Decimal),
    /// At `money` for `grams`.
    Price {
        /// Money.
        money: Decimal,
        /// For so many grams.
        grams: Decimal,
    },
    /// At what it would cost to buy what it stands in for.
    Market(BuyIn),
    /// A share of the joint remainder, by weight × `money` ÷ `grams`.
    Joint {
        /// What one `grams` of it is worth for the key: 1 by weight, its value, or its net value.
        money: Decimal,
        /// For so many grams.
        grams: Decimal,
    },
}
