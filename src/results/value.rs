//! Values that every record is made of: figures, days, amounts, the version of the format; each with the schema
//! that describes it.

use std::borrow::Cow;
use std::fmt;

use jiff::civil::Date;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};

use crate::measure::Measured;
use crate::number::{Decimal, exact, plain};

/// A figure in full precision, written as a string, so that no reader rounds it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Figure(pub Decimal);

impl fmt::Display for Figure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&plain(self.0))
    }
}

impl Serialize for Figure {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl JsonSchema for Figure {
    fn schema_name() -> Cow<'static, str> {
        "Figure".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A decimal in full precision: no exponent, no thousands marks, no trailing zeros, never -0.",
            "type": "string",
            "pattern": r"^(0|-?[1-9][0-9]*(\.[0-9]*[1-9])?|-?0\.[0-9]*[1-9])$"
        })
    }
}

/// A fraction as a percentage: 0.28 is `28`. `None` where it does not fit.
pub(crate) fn percent(fraction: Decimal) -> Option<Figure> {
    exact::mul(fraction, Decimal::ONE_HUNDRED).ok().map(Figure)
}

/// A day.
#[derive(Debug, Clone, Copy)]
pub struct Day(pub Date);

impl Serialize for Day {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&self.0)
    }
}

impl JsonSchema for Day {
    fn schema_name() -> Cow<'static, str> {
        "Day".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A day as YYYY-MM-DD.",
            "type": "string",
            "pattern": r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"
        })
    }
}

/// A quantity with its unit.
#[derive(Debug, Default, Serialize, JsonSchema)]
#[schemars(rename = "Amount")]
pub struct TypedQuantity {
    /// How many of the unit.
    pub qty: Option<Figure>,
    /// The unit.
    pub unit: Option<String>,
}

impl TypedQuantity {
    /// A quantity as it was read.
    pub fn of(measured: &Measured) -> Self {
        TypedQuantity { qty: Some(Figure(measured.amount)), unit: Some(measured.unit.name()) }
    }
}

/// The version of the format, one for all.
#[derive(Debug, Clone, Copy)]
pub struct FormatVersion;

/// What it is now. It is raised when a key goes, changes its name or comes to mean something else.
const FORMAT: u32 = 1;

impl Serialize for FormatVersion {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_u32(FORMAT)
    }
}

impl JsonSchema for FormatVersion {
    fn schema_name() -> Cow<'static, str> {
        "Format".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "description": "The version of the format.", "type": "integer", "const": FORMAT })
    }
}

/// The version of the program.
pub(crate) const VERSION: &str = env!("CARGO_PKG_VERSION");
