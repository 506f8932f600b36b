//! Groups of problems: what is listed one by one, and what is told together because there is too much of it to be read.

use std::collections::HashMap;

use crate::problem::Code;

/// So many problems of one code are listed one by one; more are told together. It keeps every list of problems within what
/// is read, and the sheet of problems far within the links that a sheet may have.
const LISTED: usize = 100;

/// The cells that are named of problems told together.
const NAMED: usize = 10;

/// A line of a list of problems.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ProblemGroup<T> {
    /// A problem by itself.
    One(T),
    /// All problems of one code, the first of them first.
    Many(Vec<T>),
}

/// The lines of a list of `problems`, in their order. Those of one code that are told together stand where its first does.
pub fn grouped<T>(problems: impl IntoIterator<Item = T>, code: impl Fn(&T) -> Code) -> Vec<ProblemGroup<T>> {
    let mut lines: Vec<(Code, Vec<T>)> = Vec::new();
    let mut at: HashMap<Code, usize> = HashMap::new();
    let problems: Vec<T> = problems.into_iter().collect();
    let mut counts: HashMap<Code, usize> = HashMap::new();
    for problem in &problems {
        let count = counts.entry(code(problem)).or_default();
        *count = count.saturating_add(1);
    }
    for problem in problems {
        let code = code(&problem);
        let together = counts.get(&code).is_some_and(|count| *count > LISTED);
        match at.get(&code).and_then(|line| lines.get_mut(*line)).filter(|_| together) {
            Some((_, line)) => line.push(problem),
            None => {
                at.insert(code, lines.len());
                lines.push((code, vec![problem]));
            }
        }
    }
    let group = |(code, mut line): (Code, Vec<T>)| match line.pop() {
        Some(one) if counts.get(&code).is_some_and(|count| *count <= LISTED) => ProblemGroup::One(one),
        last => {
            line.extend(last);
            ProblemGroup::Many(line)
        }
    };
    lines.into_iter().map(group).collect()
}

/// The first cells of many, as they are named one after another: the sheet is said where it is another than before.
/// `cells` gives each as its sheet, the words between, and the cell.
pub fn first_cells(cells: impl Iterator<Item = (String, &'static str, String)>, count: usize) -> String {
    let mut said = String::new();
    let mut sheet_before: Option<String> = None;
    for (sheet, between, cell) in cells.take(NAMED) {
        if !said.is_empty() {
            said.push_str(", ");
        }
        if sheet_before.as_ref() != Some(&sheet) {
            said.push_str(&sheet);
            said.push_str(between);
        }
        said.push_str(&cell);
        sheet_before = Some(sheet);
    }
    let more = count.saturating_sub(NAMED);
    if more > 0 {
        said.push_str(&format!(" and {more} more"));
    }
    said
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn more_than_a_hundred_of_a_code_are_one_line_where_the_first_stands() {
        let many = |count: usize| {
            let mut problems = vec![(Code::PriceOld, 0)];
            problems.extend((1..=count).map(|n| (Code::UnitUnknown, n)));
            problems.insert(2, (Code::PriceOld, 1));
            grouped(problems, |(code, _)| *code)
        };
        assert_eq!(many(100).len(), 102);
        let lines = many(101);
        let [ProblemGroup::One((Code::PriceOld, 0)), ProblemGroup::Many(units), ProblemGroup::One((Code::PriceOld, 1))] =
            lines.as_slice()
        else {
            panic!("{lines:?}")
        };
        assert_eq!((units.len(), units[0], units[100]), (101, (Code::UnitUnknown, 1), (Code::UnitUnknown, 101)));
    }

    #[test]
    fn the_first_ten_cells_are_named() {
        let cells = (1..=12).map(|n| (if n < 3 { "Meat" } else { "Fish" }.to_owned(), "!", format!("C{n}")));
        assert_eq!(first_cells(cells.clone(), 12), "Meat!C1, C2, Fish!C3, C4, C5, C6, C7, C8, C9, C10 and 2 more");
        assert_eq!(first_cells(cells.take(2), 2), "Meat!C1, C2");
    }
}
