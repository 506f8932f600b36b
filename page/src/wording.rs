//! Words for the choices that the library leaves to its caller, as they are made on the page.

use parings::Problem;
use parings::problem::Choice;

/// The words for a choice, as they go on from the sentence before.
pub fn words(choice: &Choice) -> String {
    match choice {
        Choice::Accept(item) => format!(" by ticking “{item}” among the rows that were held back"),
        Choice::Supplier => " under “Whose list”".to_owned(),
        Choice::Dated(None) => " under “Prices from”".to_owned(),
        Choice::Dated(Some(day)) => format!("{day} under “Prices from”"),
        Choice::Columns(_) => " under “Which heading is which”".to_owned(),
        Choice::AsOf => " under “Cost for the day”".to_owned(),
        _ => String::new(),
    }
}

/// The problems, with those words.
pub fn said(problems: &[Problem]) -> Vec<Problem> {
    problems.iter().map(|problem| problem.saying(words)).collect()
}
