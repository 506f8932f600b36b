//! Inputs that a sheet is made from: the kitchen's rows, where they stand, and how what was typed is shown.

use std::sync::Arc;

use crate::kitchen::Kitchen;
use crate::measure::currency;
use crate::number::Decimal;
use crate::schema::{Column, Shown, TableKind, Typed, Value};
use crate::workbook::cells::row::{Cell, Content, Ink, Look};
use crate::workbook::layout::Layout;

/// Everything that a sheet of inputs is made from.
#[derive(Debug, Clone, Copy)]
pub struct Inputs<'a> {
    /// The kitchen.
    pub kitchen: &'a Kitchen,
    /// Where everything stands.
    pub layout: &'a Layout,
}

impl Inputs<'_> {
    /// The currency's sign; empty when no currency is known.
    pub fn sign(&self) -> &str {
        &self.layout.sign
    }

    /// Money to the currency's smallest coin.
    pub fn money(&self) -> Look {
        self.money_with(0)
    }

    /// Money for one of a cook's units: a decimal more, for what is bought by the spoon.
    pub fn cost_per_unit(&self) -> Look {
        self.money_with(1)
    }

    /// What an ingredient adds to a portion: two decimals more, for many come to less than the smallest coin.
    pub fn small_cost(&self) -> Look {
        self.money_with(2)
    }

    /// Money per base unit: small, so with four decimals more.
    pub fn per_base_unit(&self) -> Look {
        self.money_with(4)
    }

    fn money_with(&self, more: u32) -> Look {
        let places = currency::minor_digits(&self.kitchen.settings.currency).saturating_add(more);
        Look::Money { sign: Arc::clone(&self.layout.sign), places }
    }
}

/// An input cell as the user left it; `None` for a blank one, which stays blank.
pub fn input_cell(inputs: &Inputs<'_>, kind: TableKind, column: Column, at: u16, typed: &Typed) -> Option<Cell> {
    let (content, look) = match &typed.value {
        Value::Blank => return None,
        Value::Text(text) => (Content::Text(text.clone()), Look::General),
        Value::Number(number) => (Content::Number(*number), number_look(inputs, kind, column, *number, &typed.shown)),
        Value::Date(date) => (Content::Date(*date), Look::Date),
        Value::Bool(yes) => (Content::Bool(*yes), Look::General),
        Value::Error(text) => (Content::Text(text.clone()), Look::General),
        Value::Formula(text) => (Content::Text(format!("={text}")), Look::General),
    };
    Some(Cell { column: at, content, ink: Ink::Input, look })
}

fn number_look(inputs: &Inputs<'_>, kind: TableKind, column: Column, number: Decimal, shown: &Shown) -> Look {
    match shown {
        Shown::Percent => Look::Percent(percent_places(number)),
        Shown::Money(sign) if sign.is_empty() => Look::RegionMoney,
        Shown::Money(sign) if *sign == *inputs.layout.sign => {
            typed_money(inputs, Arc::clone(&inputs.layout.sign), number)
        }
        Shown::Money(sign) => typed_money(inputs, sign.as_str().into(), number),
        Shown::Fraction => Look::Fraction,
        Shown::Date => Look::Date,
        Shown::Plain if kind != TableKind::Settings && column.holds_money() && !inputs.sign().is_empty() => {
            typed_money(inputs, Arc::clone(&inputs.layout.sign), number)
        }
        Shown::Plain => Look::General,
    }
}

/// Money as typed: all of its decimals, up to six.
fn typed_money(inputs: &Inputs<'_>, sign: Arc<str>, number: Decimal) -> Look {
    let coin = currency::minor_digits(&inputs.kitchen.settings.currency);
    Look::Money { sign, places: number.normalize().scale().clamp(coin, coin.max(6)) }
}

/// Decimals of a percentage as typed: 0.285 is 28.5 %.
pub fn percent_places(fraction: Decimal) -> u32 {
    fraction.normalize().scale().saturating_sub(2).min(4)
}
