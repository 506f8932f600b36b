//! Rows of the measures table.

use super::reader::Reader;
use crate::kitchen::Field;
use crate::kitchen::bridge::{Basis, MeasureRow};
use crate::measure::{Dimension, Measured, Unit, measure_name};
use crate::problem::{Code, Fault};
use crate::schema::Column;

/// Reads a measure row; `None` when it has no item.
pub(super) fn row(mut reader: Reader<'_>) -> Option<MeasureRow> {
    let item = reader.name(Column::Item)?;
    let measure = reader.measure();
    let equals = reader.equals();
    let measure = reader.of_another_kind(measure, &equals);
    let basis = reader.basis();
    Some(MeasureRow { item, measure, equals, basis, input: reader.input })
}

impl Reader<'_> {
    /// `cup, sliced`: the unit and the preparation.
    fn measure(&mut self) -> Field<(Unit, Option<String>)> {
        let Some(text) = self.text(Column::Measure) else { return Field::Broken };
        if text.is_empty() {
            let fault = Fault::new(
                Code::MeasureIncomplete,
                "this row does not say which measure it is about",
                "Type the measure, such as cup, bunch or each.",
            );
            return self.fail(Column::Measure, fault);
        }
        match measure_name(&text) {
            Some(measure) => Field::Given(measure),
            None => {
                let fault = Fault::new(
                    Code::MeasureNotUnderstood,
                    format!("“{text}” names no one measure"),
                    "Type one measure, and its preparation behind a comma: cup, or cup, diced. Under Weighs or Holds \
                     comes what one of it does.",
                );
                self.fail(Column::Measure, fault)
            }
        }
    }

    /// The measure, where what it equals is of another kind than itself: a pound of nothing weighs 450 g.
    fn of_another_kind(
        &mut self,
        measure: Field<(Unit, Option<String>)>,
        equals: &Field<Measured>,
    ) -> Field<(Unit, Option<String>)> {
        let (Field::Given((unit, _)), Field::Given(equals)) = (&measure, equals) else { return measure };
        let (what, help) = match unit.dimension() {
            dimension if dimension != equals.unit.dimension() => return measure,
            Dimension::Volume => {
                ("a volume", "Type what it weighs in Weighs. What a cup or pint holds is said by the setting Volumes.")
            }
            _ => ("a weight", "Type what it holds in Holds, or a measure that is no weight, such as cup or each."),
        };
        let fault = Fault::new(
            Code::MeasureNotUnderstood,
            format!("{unit} is {what} already, and this row says that it is {equals}"),
            help,
        );
        self.fail(Column::Measure, fault)
    }

    fn equals(&mut self) -> Field<Measured> {
        let weighs = self.of_kind(Column::Weighs, Dimension::Mass);
        let holds = self.of_kind(Column::Holds, Dimension::Volume);
        match (weighs, holds) {
            (Field::Broken, _) | (_, Field::Broken) => Field::Broken,
            (Field::Given(weighs), Field::Blank) => Field::Given(weighs),
            (Field::Blank, Field::Given(holds)) => Field::Given(holds),
            (Field::Blank, Field::Blank) => {
                let fault = Fault::new(
                    Code::MeasureIncomplete,
                    "this row says neither what the measure weighs nor what it holds",
                    "Type a weight such as 4 oz or 110 g in Weighs, or a volume such as 2 qt or 2 l in Holds.",
                );
                self.fail(Column::Weighs, fault)
            }
            (Field::Given(_), Field::Given(_)) => {
                let fault = Fault::new(
                    Code::MeasureIncomplete,
                    "this row says both what the measure weighs and what it holds",
                    "Give the weight and the volume a row each.",
                );
                self.fail(Column::Holds, fault)
            }
        }
    }

    fn of_kind(&mut self, column: Column, wanted: Dimension) -> Field<Measured> {
        match self.measured(column) {
            Field::Given(measured) if measured.unit.dimension() != wanted => {
                let is_weight = wanted == Dimension::Mass;
                let (kind, example) = if is_weight { ("weight", "4 oz or 110 g") } else { ("volume", "2 qt or 2 l") };
                let fault = Fault::new(
                    Code::MeasureIncomplete,
                    format!("{} is {measured}, which is not a {kind}", self.header(column)),
                    format!("Type a {kind} such as {example}."),
                );
                self.fail(column, fault)
            }
            field => field,
        }
    }

    /// AP or EP.
    pub(super) fn basis(&mut self) -> Field<Basis> {
        let Some(text) = self.text(Column::Basis) else { return Field::Broken };
        match text.to_lowercase().replace(['.', ' '], "").as_str() {
            "" => Field::Blank,
            "ap" | "aspurchased" => Field::Given(Basis::Ap),
            "ep" | "edibleportion" => Field::Given(Basis::Ep),
            _ => {
                let fault = Fault::new(
                    Code::BasisUnknown,
                    format!("the basis is “{text}”"),
                    "Type AP (as purchased) or EP (edible portion), or leave it blank.",
                );
                self.fail(Column::Basis, fault)
            }
        }
    }
}
