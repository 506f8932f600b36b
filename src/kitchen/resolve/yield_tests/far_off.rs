//! Runs of a yield test that are far from the others: told, since a slip at the scale looks just like that.

use crate::kitchen::Entries;
use crate::kitchen::yield_test::{Part, Role, Test};
use crate::number::{Decimal, Overflow, exact, half_up};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// Notes every run in which a main or by-product lies beyond the fences of all runs.
pub(super) fn tell(test: &Test, entries: &Entries, problems: &mut Vec<Problem>) {
    if test.broken {
        return;
    }
    let mut found: Vec<Vec<String>> = vec![Vec::new(); test.runs.len()];
    for part in test.parts.iter().filter(|part| matches!(part.role, Role::Main | Role::ByProduct)) {
        // What does not fit a decimal is told where it is costed.
        let _unfit = of_part(test, entries, part, &mut found);
    }
    for (run, parts) in test.runs.iter().zip(found).filter(|(_, parts)| !parts.is_empty()) {
        let Some(row) = entries.tests.get(run.row) else { continue };
        let message = format!("this run of “{}” is far from the others: {}", test.name, parts.join("; "));
        let fault = Fault::new(Code::RunFarOff, message, "Check the weights of this run; if they are right, keep it.");
        problems.push(fault.at(row.input.place(Column::Part)));
    }
}

/// Adds to every run that is far off what the part came to in it.
fn of_part(test: &Test, entries: &Entries, part: &Part, found: &mut [Vec<String>]) -> Result<(), Overflow> {
    let yields = test.yields_by_run(entries, part)?;
    let Some(fences) = Test::fences(&yields)? else { return Ok(()) };
    let near = yields.iter().copied().filter(|one| !fences.leave_out(*one));
    let (Some(low), Some(high)) = (near.clone().min(), near.max()) else { return Ok(()) };
    let percent = |fraction: Decimal| exact::mul(fraction, Decimal::ONE_HUNDRED).map(|x| half_up(x, 1));
    let others = format!("{:.1} to {:.1} %", percent(low)?, percent(high)?);
    let weighed = test.grams_by_run(entries, part);
    for ((said, share), grams) in found.iter_mut().zip(&yields).zip(weighed) {
        // A part that a run does not list has been told of.
        if grams.is_some() && fences.leave_out(*share) {
            said.push(format!("“{}” is {:.1} % of what went in, elsewhere {others}", part.name, percent(*share)?));
        }
    }
    Ok(())
}
