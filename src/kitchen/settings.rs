//! The settings: rows as read, and the values in force.

use jiff::civil::Date;

use super::recipe::QFactor;
use super::{Field, InputRow};
use crate::measure::{Unit, Volumes};
use crate::number::Decimal;

/// A row of the settings table.
#[derive(Debug, Clone)]
pub struct SettingRow {
    /// The cells.
    pub input: InputRow,
    /// Which setting; `None` when it is not known.
    pub setting: Option<Setting>,
    /// What it is set to.
    pub value: Field<SettingValue>,
}

/// The value of a setting, read as its setting wants it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SettingValue {
    /// Words: a house name, a currency.
    Text(String),
    /// A day.
    Date(Date),
    /// A percentage, as a fraction.
    Fraction(Decimal),
    /// A Q factor.
    Q(QFactor),
    /// Yes or no.
    YesNo(bool),
    /// Money or a number of days.
    Number(Decimal),
    /// What cup, pint, fl oz and tbsp mean.
    Volumes(Volumes),
    /// Money for one of a unit of weight.
    PerWeight(Decimal, Unit),
}

/// Declares the settings with the names people type.
macro_rules! settings {
    ($($variant:ident $name:literal)*) => {
        /// A setting that parings knows.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[non_exhaustive]
        pub enum Setting {
            $(#[doc = $name] $variant,)*
        }

        impl Setting {
            /// Every setting, in the order in which they are written.
            pub const ALL: &'static [Setting] = &[$(Setting::$variant,)*];

            /// Its name.
            pub fn name(self) -> &'static str {
                match self { $(Setting::$variant => $name,)* }
            }
        }
    };
}

settings! {
    HouseName "House name"
    Currency "Currency"
    CostingDate "Costing date"
    TargetFoodCost "Target food cost"
    QFactor "Q factor"
    SpiceFactor "Spice factor"
    SpiceCoversQ "Spice covers Q"
    TaxIncluded "Menu prices include tax"
    PriceTax "Prices include tax"
    PriceStep "Price step"
    PriceEnding "Price ending"
    PriceAge "Price age"
    Volumes "Volumes"
    WasteHaulage "Waste haulage"
}

/// The settings in force.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Settings {
    /// The house's name; empty when not named.
    pub house_name: String,
    /// ISO 4217 code; empty when none is known.
    pub currency: String,
    /// The day of costing.
    pub costing_date: Date,
    /// Target food-cost %, as a fraction.
    pub target: Option<Decimal>,
    /// Q for dishes whose card states none.
    pub q: Option<QFactor>,
    /// Spice for dishes whose card states none, as a fraction.
    pub spice: Option<Decimal>,
    /// Whether spice is taken on food and Q, or on food alone.
    pub spice_covers_q: bool,
    /// The rate of tax within menu prices, as a fraction; zero when they have none.
    pub tax: Decimal,
    /// The rate of tax within the prices of what is bought, as a fraction; `None` when they are without.
    pub price_tax: Option<Decimal>,
    /// How a price at target is rounded up.
    pub rounding: PriceRounding,
    /// Days after which a price is old.
    pub price_age: Decimal,
    /// What cup, pint, fl oz and tbsp mean.
    pub volumes: Volumes,
    /// Money for hauling one of a unit of weight.
    pub haulage: Option<(Decimal, Unit)>,
    /// Settings whose cell could not be read: what uses one is stopped.
    pub broken: Vec<Setting>,
}

/// How a price at target is rounded up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum PriceRounding {
    /// Not at all.
    #[default]
    None,
    /// Up to a multiple of a step.
    Step(Decimal),
    /// Up to the next price with this ending.
    Ending(Decimal),
}

impl Settings {
    /// The values in force where a book says nothing, costed on `today`.
    pub fn defaults(today: Date) -> Self {
        Settings {
            house_name: String::new(),
            currency: String::new(),
            costing_date: today,
            target: None,
            q: None,
            spice: None,
            spice_covers_q: true,
            tax: Decimal::ZERO,
            price_tax: None,
            rounding: PriceRounding::None,
            price_age: Decimal::from(60),
            volumes: Volumes::Us,
            haulage: None,
            broken: Vec::new(),
        }
    }

    /// Whether the cell of `setting` could not be read.
    pub fn is_broken(&self, setting: Setting) -> bool {
        self.broken.contains(&setting)
    }
}
