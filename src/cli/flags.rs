//! Flags in words: how the choices that the library offers are made on the command line.

use crate::analysis::supplier_list::PriceList;
use crate::problem::{Choice, Problem};

/// The words for a choice, as they go on from the sentence before.
pub fn words(choice: &Choice) -> String {
    match choice {
        Choice::Accept(item) => format!(" with --accept \"{item}\""),
        Choice::Supplier => " with --supplier".to_owned(),
        Choice::Dated(None) => " with --dated".to_owned(),
        Choice::Dated(Some(day)) => format!("--dated {day}"),
        Choice::Columns(columns) => format!(", such as {}", mapped(columns)),
        Choice::AsOf => " with --as-of".to_owned(),
    }
}

/// The flags that map columns: for every column each heading that could be it, and one for example where none is known.
fn mapped(columns: &[(String, Vec<String>)]) -> String {
    let flag = |column: &str, heading: &str| format!("--column {column}=\"{heading}\"");
    let flags = |(column, headings): &(String, Vec<String>)| match headings.as_slice() {
        [] if column == "pack" => flag(column, "Case size"),
        [] => flag(column, "Net amt"),
        known => known.iter().map(|heading| flag(column, heading)).collect::<Vec<_>>().join(" or "),
    };
    columns.iter().map(flags).collect::<Vec<_>>().join(" ")
}

/// The problems, with the flags that their helps offer.
pub fn said(problems: &[Problem]) -> Vec<Problem> {
    problems.iter().map(|problem| problem.saying(words)).collect()
}

/// The list, with the flags that its problems and its rows without an item offer.
pub fn said_of_list(list: &mut PriceList) {
    list.problems = said(&list.problems);
    for one in &mut list.unknown {
        one.what_to_do = one.what_to_do.saying(words).into();
    }
}
