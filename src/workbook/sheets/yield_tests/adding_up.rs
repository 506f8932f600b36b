//! What holds a test together: its weights, its runs and its charges, without which no part of it is costed.

use super::TestsSheet;
use crate::costing::TestCost;
use crate::kitchen::yield_test::{Charge, Part, Test};
use crate::number::{Decimal, plain};
use crate::results::figures::per_base_unit;
use crate::schema::{Column, TableKind, Value};
use crate::workbook::cells::formula::{LONGEST, NOT_KNOWN, YES};

impl TestsSheet<'_> {
    /// Whether no more came out than went in, but for what a scale may be off, and the runs are told apart and say the
    /// same of every part as they did.
    pub(super) fn adds_up(&self, test: &Test) -> String {
        let says = |all: &[String]| format!("IF(AND({}),\"{YES}\",\"{NOT_KNOWN}\")", all.join(","));
        let keyed = says(&self.holds(test, true));
        // More runs than a formula holds with their keys are taken where they stand.
        let text = if keyed.len() > LONGEST { says(&self.holds(test, false)) } else { keyed };
        if text.len() > LONGEST { says(&[self.balance()]) } else { text }
    }

    fn balance(&self) -> String {
        format!("ROUND({}*200+{},9)>=0", self.here("Loss in grams"), self.here("Weight pooled"))
    }

    fn holds(&self, test: &Test, keyed: bool) -> Vec<String> {
        let mut all = vec![self.balance()];
        all.extend(self.no_more_rows());
        // A row that is told apart from the others of its run is another run.
        let rows = test.runs.iter().map(|run| run.row).chain(test.added.iter().map(|added| added.row));
        for row in rows.chain(test.parts.iter().flat_map(|part| part.rows.iter().copied())) {
            all.extend([Column::Date, Column::Run].into_iter().filter_map(|column| self.stands(row, column, keyed)));
        }
        for part in &test.parts {
            all.extend(self.agreements(part, Column::Value, keyed));
            all.extend(self.agreements(part, Column::FurtherCost, keyed));
        }
        all
    }

    /// That no more rows name the test than did.
    fn no_more_rows(&self) -> Option<String> {
        let typed = self.context.kitchen.entries.tests.get(self.index)?.input.typed(Column::Test);
        let more = self.context.more_rows(TableKind::YieldTests, Column::Test, typed, &self.table.sheet)?;
        Some(format!("NOT({more})"))
    }

    fn typed_cell(&self, row: usize, column: Column, keyed: bool) -> Option<String> {
        let cell = self.table.input(row, column)?;
        let cell = if keyed { cell } else { cell.unkeyed() };
        Some(cell.beside(&self.table.sheet, self.table.row(self.index)))
    }

    /// Whether what tells a run from others is there still: a number as it was typed.
    fn stands(&self, row: usize, column: Column, keyed: bool) -> Option<String> {
        let cell = self.typed_cell(row, column, keyed)?;
        match &self.context.kitchen.entries.tests.get(row)?.input.typed(column).value {
            Value::Blank => None,
            Value::Number(number) => Some(format!("{cell}={}", plain(*number))),
            _ => Some(format!("{cell}<>\"\"")),
        }
    }

    /// Whether the numbers that the runs of a part have in a column are to each other as they were typed; those beside
    /// words are what they were.
    fn agreements(&self, part: &Part, column: Column, keyed: bool) -> Vec<String> {
        let typed: Vec<(usize, &Value)> = part
            .rows
            .iter()
            .filter_map(|row| Some((*row, &self.context.kitchen.entries.tests.get(*row)?.input.typed(column).value)))
            .filter(|(_, value)| !matches!(value, Value::Blank))
            .collect();
        let [_, _, ..] = typed.as_slice() else { return Vec::new() };
        let cell = |row: usize| self.typed_cell(row, column, keyed);
        let numbers = typed.iter().filter_map(|(row, value)| match value {
            Value::Number(number) => Some((cell(*row)?, *number)),
            _ => None,
        });
        let numbers: Vec<(String, Decimal)> = numbers.collect();
        let is_among_words = numbers.len() < typed.len();
        let first = numbers.first().filter(|_| !is_among_words);
        let all = numbers.iter().skip(usize::from(!is_among_words)).map(|(cell, number)| match first {
            Some((first, as_first)) if number == as_first => format!("{cell}={first}"),
            Some((first, as_first)) => {
                format!("ROUND({cell}*{}-{first}*{},9)=0", plain(*as_first), plain(*number))
            }
            None => format!("{cell}={}", plain(*number)),
        });
        all.collect()
    }

    /// What fixed charges leave of the cost: not known once anything of the test is missed, for then no part of it is
    /// costed.
    pub(super) fn left_to_share(&self, test: &Test, cost: &TestCost) -> String {
        let first = |part: &Part| part.rows.first().copied().unwrap_or_default();
        let joint: Vec<usize> = test.parts.iter().filter(|part| part.is_joint()).map(first).collect();
        let charged = test.parts.iter().zip(&cost.parts).filter(|(part, figures)| {
            !matches!(part.charge, Charge::Free | Charge::Joint { .. })
                && figures.charge.and_then(per_base_unit).is_some()
        });
        let credits: Vec<String> = charged
            .map(|(part, _)| first(part))
            .map(|row| format!("{}*{}", self.at(row, "Weight pooled"), self.at(row, "Charge per gram")))
            .collect();
        let all = self.here("Cost carried");
        let left = if credits.is_empty() { all } else { format!("{all}-({})", credits.join("+")) };
        let (adds_up, keys) = (self.here("Test adds up"), self.sum(&joint, "Key to share by"));
        format!("IF(AND({adds_up}=\"{YES}\",{keys}>0,ROUND({left},9)>=0),{left},\"{NOT_KNOWN}\")")
    }
}
