//! Repeating formulas that were saved without a result, as by a program that does not calculate: those of our forms, which
//! say another cell or a word again unless some cell is blank, are worked out. Whatever else a formula may do is left to a
//! spreadsheet program.
//!
//! `IF(test, value, value)`, where a test is `cell=""` or an `OR` of tests, and a value is a cell, `cell&""` or a text.

use crate::book::grid::Grid;
use crate::problem::CellRef;
use crate::schema::{Shown, Typed, Value};

/// The longest formula that is looked at, in bytes.
const LONGEST: usize = 200;

/// Whether a formula may be one.
pub fn may_repeat(formula: &str) -> bool {
    formula.len() <= LONGEST && formula.trim_start().get(..3).is_some_and(|start| start.eq_ignore_ascii_case("IF("))
}

/// Works out the formulas in these cells of a sheet, where they are no more than that.
pub fn work_out(grid: &mut Grid, cells: &[CellRef]) {
    let worked: Vec<(CellRef, Typed)> = cells
        .iter()
        .filter_map(|cell| match &grid.get(cell.row, cell.column).value {
            Value::Formula(formula) => Some((*cell, FormulaReader { rest: formula.trim(), grid }.whole()?)),
            _ => None,
        })
        .collect();
    if !worked.is_empty() {
        grid.replace(worked);
    }
}

/// A formula while it is read.
struct FormulaReader<'a> {
    rest: &'a str,
    grid: &'a Grid,
}

impl<'a> FormulaReader<'a> {
    fn whole(mut self) -> Option<Typed> {
        self.word("IF(")?;
        let test = self.test()?;
        self.word(",")?;
        let then = self.value()?;
        self.word(",")?;
        let otherwise = self.value()?;
        self.word(")")?;
        self.rest.is_empty().then_some(if test { then } else { otherwise })
    }

    /// The word, in capitals or not, and blanks behind it.
    fn word(&mut self, word: &str) -> Option<()> {
        let found = self.rest.get(..word.len()).filter(|start| start.eq_ignore_ascii_case(word))?;
        self.rest = self.rest.get(found.len()..)?.trim_start();
        Some(())
    }

    fn test(&mut self) -> Option<bool> {
        if self.word("OR(").is_none() {
            return self.is_blank();
        }
        let mut any = self.is_blank()?;
        while self.word(",").is_some() {
            any |= self.is_blank()?;
        }
        self.word(")")?;
        Some(any)
    }

    fn is_blank(&mut self) -> Option<bool> {
        let cell = self.cell()?;
        self.word("=")?;
        self.word("\"\"")?;
        Some(cell.is_blank())
    }

    fn value(&mut self) -> Option<Typed> {
        if let Some(rest) = self.rest.strip_prefix('"') {
            let (text, rest) = rest.split_once('"')?;
            self.rest = rest.trim_start();
            return Some(Typed::trimmed(text));
        }
        let cell = self.cell()?.clone();
        if self.word("&").is_none() {
            return Some(cell);
        }
        self.word("\"\"")?;
        // As a text a day or a share would be the number behind it: only what reads the same is said again.
        match (&cell.value, &cell.shown) {
            (Value::Blank | Value::Text(_), _) | (Value::Number(_), Shown::Plain) => Some(Typed::trimmed(&cell.seen())),
            _ => None,
        }
    }

    /// A cell of the same sheet, `$A$9`, whose own value is known.
    fn cell(&mut self) -> Option<&'a Typed> {
        let end = self.rest.find(|c: char| !(c.is_ascii_alphanumeric() || c == '$')).unwrap_or(self.rest.len());
        let name: String = self.rest.get(..end)?.chars().filter(|c| *c != '$').collect();
        let cell = CellRef::named(&name)?;
        self.rest = self.rest.get(end..)?.trim_start();
        let typed = self.grid.get(cell.row, cell.column);
        (typed.lost_formula().is_none() && typed.error().is_none()).then_some(typed)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::grid::{GridBuilder, Room};
    use crate::problem::Place;
    use crate::schema::Limits;

    /// What a formula comes to beside Ducks in A1, the day 2026-11-18 in A2, 12 in A3 and nothing in A4.
    fn worked(formula: &str) -> Typed {
        let mut builder = GridBuilder::new(Place::sheet("form.xlsx", "Form"), Room::of(&Limits::USUAL));
        let date = Typed { value: Value::Date(jiff::civil::date(2026, 11, 18)), shown: Shown::Date };
        let cells = [Typed::text("Ducks"), date, Typed::number(12.into())];
        for (row, typed) in (0..).zip(cells) {
            builder.put(CellRef::new(row, 0), typed).unwrap();
        }
        let at = CellRef::new(0, 3);
        builder.put(at, Typed { value: Value::Formula(formula.to_owned()), shown: Shown::Plain }).unwrap();
        let mut grid = builder.finish();
        assert!(may_repeat(formula) || !formula.starts_with("IF("));
        work_out(&mut grid, &[at]);
        grid.get(0, 3).clone()
    }

    #[test]
    fn what_says_a_cell_or_a_word_again_is_worked_out() {
        assert_eq!(worked("IF($A1=\"\",\"\",$A$1&\"\")"), Typed::text("Ducks"));
        assert_eq!(worked("if( A4=\"\" , \"\" , \"main\" )"), Typed::BLANK);
        assert_eq!(worked("IF(A3=\"\",\"\",\"by-product\")"), Typed::text("by-product"));
        assert_eq!(worked("IF(A1=\"\",\"\",A3&\"\")"), Typed::text("12"));
        let day = worked("IF(OR($A1=\"\",$A$2=\"\"),\"\",$A$2)");
        assert_eq!(day.value, Value::Date(jiff::civil::date(2026, 11, 18)));
        assert!(worked("IF(OR($A1=\"\",$A4=\"\"),\"\",$A$2)").is_blank());
    }

    #[test]
    fn what_calculates_is_left_to_a_spreadsheet_program() {
        for formula in [
            "IF(A1=\"\",\"\",A3*2)",
            "IF(A3>1,\"\",A1)",
            "IF(A1=\"\",\"\",Prices!A1)",
            "IF(A1=\"\",\"\",A2&\"\")",
            "IF(A1=\"\",\"\",\"a\"\"b\")",
            "IF(A1=\"\",\"\",D1)",
            "IF(A1=\"\",\"\"",
            "IF(A1=\"x\",\"\",A1)",
            "A1",
        ] {
            assert!(worked(formula).lost_formula().is_some(), "{formula}");
        }
    }
}
