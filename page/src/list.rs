//! New price lists beside the book: what they do, what has to be said of them, and the book with their prices.

use jiff::civil::DateTime;
use parings::kitchen::layout;
use parings::kitchen::list::ListHeading;
use parings::problem::Choice;
use parings::results::reprice::reprice as changes_of;
use parings::{ListOptions, ReadError, Reading, Repriced, patch_book, reprice as put_beside, write_book};
use serde_json::{Value, json};

use crate::engine::{Answer, File, date, sources};
use crate::question::Terms;
use crate::wording;

/// What the lists do to the book, or which of its headings have to be named first.
pub fn reprice(reading: Reading, lists: &[File], terms: &Terms) -> Result<(Answer, Option<Repriced>), String> {
    let mut options = ListOptions::default();
    for (ours, theirs) in &terms.columns {
        let column = layout::column_named(ours).ok_or_else(|| format!("there is no column “{ours}”"))?;
        options.columns.push((column, theirs.clone()));
    }
    options.supplier = Some(terms.supplier.trim().to_owned()).filter(|name| !name.is_empty());
    options.dated = if terms.dated.is_empty() { None } else { Some(date(&terms.dated)?) };
    options.accepted.clone_from(&terms.accepted);
    let repriced = match put_beside(reading, &sources(lists), &options, false) {
        Ok(repriced) => repriced,
        Err(error) => return Ok((asking(&error)?, None)),
    };
    let mut problems = wording::said(&repriced.list.problems);
    let known = repriced.before.problems_with(&repriced.was);
    let now = repriced.after.problems_with(&repriced.now);
    problems.extend(wording::said(&now).into_iter().filter(|problem| !known.contains(problem)));
    let mut shown = repriced.clone();
    for one in &mut shown.list.unknown {
        one.what_to_do = one.what_to_do.saying(wording::words).into();
    }
    let mut said = serde_json::to_value(changes_of(&shown.changes(), &problems)).map_err(|error| error.to_string())?;
    if let Some(said) = said.as_object_mut() {
        said.insert("columns".to_owned(), columns(&repriced.list.headings));
    }
    Ok((Answer::of(said)?, Some(repriced)))
}

/// The headings of lists that were understood, and under which of them each column of ours was read.
fn columns(headings: &[ListHeading]) -> Value {
    let texts: Vec<&str> = headings.iter().map(|heading| heading.text.as_str()).collect();
    let read = headings.iter().filter_map(|heading| Some((layout::word_of(heading.read_as?)?, &heading.text)));
    let (read, ours): (Vec<_>, Vec<&str>) = (read.collect(), layout::words().collect());
    json!({ "headings": texts, "read": read, "ours": ours })
}

/// What a list that was not understood asks for: the headings it has, and what each could be.
fn asking(error: &ReadError) -> Result<Answer, String> {
    let ReadError::NoPriceList { detail, headings, .. } = error else {
        return Err(error.saying(wording::words));
    };
    let likely = detail.choices().find_map(|choice| match choice {
        Choice::Columns(columns) => Some(columns.clone()),
        _ => None,
    });
    if headings.is_empty() {
        return Err(error.saying(wording::words));
    }
    let ours: Vec<&str> = layout::words().collect();
    Answer::of(json!({
        "headings": headings, "likely": likely.unwrap_or_default(), "ours": ours, "why": error.saying(wording::words),
    }))
}

/// The file that holds the book's prices with the new rows in it, else all of the book written anew.
pub fn new_book(files: &[File], repriced: &Repriced, at: DateTime) -> Result<Answer, String> {
    let of_book = sources(files);
    match patch_book(&of_book, repriced) {
        Ok(patched) => {
            let name = of_book.get(patched.source).map(|source| source.name).unwrap_or_default();
            let how = format!("It is {name} with the new prices in it; all else is as it was.");
            let mut said = vec![if patched.added.is_empty() {
                "No new price was taken: it is as it was.".to_owned()
            } else {
                how
            }];
            if of_book.len() > 1 {
                said.push("Read it in the place of that file, beside the others.".to_owned());
            }
            said.extend(patched.said);
            Answer::both(json!({ "name": name, "ending": patched.ending, "said": said }), patched.bytes)
        }
        Err(why) => {
            let bytes = write_book(&repriced.after, at).map_err(|error| error.to_string())?;
            let name = of_book.first().map(|source| source.name).unwrap_or_default();
            let said = format!(
                "It holds what was typed in the book, written anew, without its colors, comments and drop-down lists. The file \
                 itself was not copied, for {}.",
                why.reason
            );
            Answer::both(json!({ "name": name, "ending": "xlsx", "said": [said] }), bytes)
        }
    }
}
