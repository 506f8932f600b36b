//! Cells of an ods: its value by the kind that its attributes name.
//!
//! OpenDocument 1.3 part 3, 19.385 (`office:value-type`) and what stands with it; `calcext` is how spreadsheet programs
//! mark an error value.

use std::io::BufRead;

use quick_xml::events::BytesStart;

use super::ContentPart;
use crate::book::error::ReadError;
use crate::book::{dates, format, number};
use crate::number::Decimal;
use crate::schema::{Shown, Typed, Value};

/// What a cell's attributes say.
#[derive(Debug, Default)]
pub(super) struct CellAttributes {
    kind: String,
    value: Option<String>,
    text: Option<String>,
    currency: String,
    formula: Option<String>,
    is_error: bool,
}

impl<R: BufRead> ContentPart<'_, R> {
    /// The cell whose element has begun.
    pub(super) fn cell(&mut self, start: &BytesStart<'_>) -> Result<Typed, ReadError> {
        let said = self.said(start)?;
        let text = self.text()?;
        Ok(said.typed(&text))
    }

    fn said(&self, start: &BytesStart<'_>) -> Result<CellAttributes, ReadError> {
        let mut said = CellAttributes::default();
        for attribute in start.attributes().with_checks(false) {
            let attribute = attribute.map_err(|error| ReadError::damaged(self.file, error))?;
            match attribute.key.0 {
                "office:value-type" => said.kind = self.value(&attribute)?,
                "office:value" | "office:date-value" | "office:time-value" | "office:boolean-value" => {
                    said.value = Some(self.value(&attribute)?);
                }
                "office:string-value" => said.text = Some(self.value(&attribute)?),
                "office:currency" => said.currency = self.value(&attribute)?,
                "table:formula" => said.formula = Some(self.value(&attribute)?),
                "calcext:value-type" => said.is_error = self.value(&attribute)? == "error",
                _ => {}
            }
        }
        Ok(said)
    }
}

impl CellAttributes {
    /// The cell, of which `shown` is the text that a person sees.
    fn typed(self, shown: &str) -> Typed {
        if self.is_error {
            return Typed { value: Value::Error(shown.trim().to_owned()), shown: Shown::Plain };
        }
        let value = self.value.as_deref().unwrap_or(shown);
        match self.kind.as_str() {
            // Programs call a number money only where its format names a currency; a sign before it shows all the same.
            "float" => number::written(value, format::of_text(shown)),
            "percentage" => number::written(value, Shown::Percent),
            "currency" => number::written(
                value,
                match format::of_text(shown) {
                    Shown::Money(sign) => Shown::Money(sign),
                    _ => Shown::Money(self.currency),
                },
            ),
            "date" => dates::iso(value),
            "time" => time(value).unwrap_or_else(|| Typed::trimmed(shown)),
            "boolean" if value.eq_ignore_ascii_case("true") => truth(true),
            "boolean" if value.eq_ignore_ascii_case("false") => truth(false),
            // A formula that was saved without its result has no kind of value.
            "" if shown.is_empty() && self.text.is_none() => match &self.formula {
                Some(formula) => Typed { value: Value::Formula(of_formula(formula)), shown: Shown::Plain },
                None => Typed::BLANK,
            },
            _ => Typed::trimmed(self.text.as_deref().unwrap_or(shown)),
        }
    }
}

fn truth(value: bool) -> Typed {
    Typed { value: Value::Bool(value), shown: Shown::Plain }
}

/// A formula's text without the name of its grammar and its equals sign: `of:=[.A1]*2` is `[.A1]*2`.
fn of_formula(formula: &str) -> String {
    let formula = match formula.split_once(":=") {
        Some((grammar, rest)) if grammar.chars().all(|c| c.is_ascii_alphanumeric()) => rest,
        _ => formula,
    };
    formula.trim_start_matches('=').to_owned()
}

/// A time of day, `PT06H05M00S`, as the part of a day that spreadsheets store; it is shown as a date, which is no
/// quantity.
fn time(text: &str) -> Option<Typed> {
    let (hours, rest) = text.strip_prefix("PT")?.split_once('H')?;
    let (minutes, rest) = rest.split_once('M')?;
    let parts = [hours, minutes, rest.strip_suffix('S')?].map(|part| part.parse::<Decimal>().ok());
    let [Some(hours), Some(minutes), Some(seconds)] = parts else { return None };
    let sixty = Decimal::from(60);
    let minutes = hours.checked_mul(sixty)?.checked_add(minutes)?;
    let day = minutes.checked_mul(sixty)?.checked_add(seconds)?.checked_div(Decimal::from(86_400))?;
    Some(Typed { value: Value::Number(day), shown: Shown::Date })
}
