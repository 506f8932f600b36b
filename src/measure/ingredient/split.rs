//! Split of a name from what is done to it: the parts between commas, and words that stand before or behind the name.

use super::amount::at_start;
use super::found::FoundAmount;
use super::joined::sum;
use super::vocabulary::{AT_WILL, IN_CANS, KINDS, PREP_ENDS, PREP_STARTS, PREPS};
use super::{AmountText, Conventions, IngredientText, brackets};

/// Cuts that stand before a name: `chopped parsley`.
const BEFORE: &[&str] = &["chopped", "diced", "minced", "sliced", "cubed", "julienned", "softened", "melted"];
/// Temperatures before [`POURED`]: hot sauce is another thing than hot water.
const TEMPERATURES: &[&str] = &["cold", "hot", "warm", "boiling", "ice-cold"];
const POURED: &[&str] = &["water", "stock", "broth", "milk"];

/// Meats that are bought minced or diced.
const MEATS: &[&str] = &["beef", "pork", "lamb", "veal", "turkey", "chicken", "meat", "ham", "bacon"];

/// The line that `rest`, which stands behind or around the amount `found`, makes of it.
pub(super) fn name_and_prep(mut found: FoundAmount, rest: &str, how: Conventions) -> IngredientText {
    let (outside, inside) = brackets::taken_out(rest);
    let mut outside = outside;
    of_each(&mut found, &mut outside);
    for text in &inside {
        brackets::take(&mut found, text, how);
    }
    choices(&mut found, &mut outside);
    at_will(&mut found, &mut outside);
    unsized_holder(&mut found);
    let in_cans = matches!(&found.amount, AmountText::Measured(m) if m.unit.is_numbered_can() || m.unit.is_plain_can())
        || matches!(&found.amount, AmountText::Packages { of: Some(unit), .. } if unit.is_plain_can());
    let parts: Vec<&str> = parted(&outside);
    let mut names: Vec<String> = Vec::new();
    let mut prep: Vec<String> = std::mem::take(&mut found.prep);
    for (index, part) in parts.iter().enumerate() {
        let part = part.trim().trim_end_matches(['.', ';', ':']).trim();
        if part.is_empty() || brackets::size_of_each(&mut found, part, how) {
            continue;
        }
        if let Some(more) = part.strip_prefix("plus ") {
            more_of_it(&mut found, more, how);
            prep.push(part.to_owned());
        } else if index == 0 {
            let (name, done) = first_part(without_size(&mut found, part, how), in_cans);
            names.extend(name);
            prep.extend(done);
        } else if is_prep(part) && !(in_cans && IN_CANS.contains(&part)) {
            prep.push(part.to_owned());
        } else {
            names.push(part.to_owned());
        }
    }
    // A size stands before the thing, a measure of one behind it.
    let (sizes, measures): (Vec<String>, Vec<String>) =
        found.name.into_iter().partition(|said| !said.starts_with(|c: char| c.is_ascii_digit()));
    let mut name = names.join(", ");
    if !sizes.is_empty() {
        name = format!("{} {name}", sizes.join(" "));
    }
    if !measures.is_empty() {
        name = format!("{name}, {}", measures.join(", "));
    }
    IngredientText {
        amount: found.amount,
        name: name.trim().trim_start_matches(',').trim().to_owned(),
        prep: prep.join(", "),
        notes: found.notes,
        question: found.question,
    }
}

/// A can, bag or loaf whose size is not said is costed by the pack's, which is noted.
fn unsized_holder(found: &mut FoundAmount) {
    if let AmountText::Measured(one) = &found.amount
        && brackets::is_unsized(&one.unit)
    {
        found.notes.push(format!(
            "how much one {} holds is not said: it is taken from the price's pack or from Measures",
            one.unit
        ));
    }
}

/// `part` without the size of one at its end: `live lobsters 1 1/4 # ea`.
fn without_size<'p>(found: &mut FoundAmount, part: &'p str, how: Conventions) -> &'p str {
    for (at, _) in part.match_indices(' ') {
        let (name, tail) = part.split_at_checked(at).unwrap_or((part, ""));
        let tail = tail.trim_start();
        if tail.starts_with(|c: char| c.is_ascii_digit()) && brackets::size_of_each(found, tail, how) {
            return name;
        }
    }
    part
}

/// The parts between commas, semicolons and dashes with spaces. A decimal comma parts nothing.
fn parted(text: &str) -> Vec<&str> {
    let mut parts = Vec::new();
    let (mut start, mut before) = (0, ' ');
    for (at, c) in text.char_indices() {
        let next = text.get(at + c.len_utf8()..).and_then(|rest| rest.chars().next()).unwrap_or(' ');
        let ends = match c {
            ';' => true,
            ',' => !(before.is_ascii_digit() && next.is_ascii_digit()),
            '-' => before == ' ' && next == ' ',
            _ => false,
        };
        if ends {
            parts.push(text.get(start..at).unwrap_or(""));
            start = at + c.len_utf8();
        }
        before = c;
    }
    parts.push(text.get(start..).unwrap_or(""));
    parts
}

/// The name at the front of a line, and what is done to it.
fn first_part(part: &str, in_cans: bool) -> (Option<String>, Vec<String>) {
    let mut done = Vec::new();
    let mut name = part;
    while let Some((word, rest)) = name.split_once(' ') {
        let (lower, noun) = (word.to_lowercase(), head_noun(rest));
        let is_temperature = TEMPERATURES.contains(&lower.as_str()) && POURED.contains(&noun.as_str());
        let is_cut = is_temperature || BEFORE.contains(&lower.as_str());
        // Minced beef is bought so.
        let is_meat = MEATS.contains(&noun.as_str());
        if !is_cut || in_cans || is_meat {
            break;
        }
        done.push(word.to_owned());
        name = rest.trim_start();
    }
    let lower = name.to_ascii_lowercase();
    let cut = [" to ", " for ", " with ", " w/ ", " if ", " from ", " + a "]
        .iter()
        .filter_map(|joint| lower.find(joint))
        .min();
    if let Some((before, behind)) = cut.and_then(|at| name.split_at_checked(at)) {
        done.push(behind.trim().to_owned());
        name = before;
    }
    (Some(name.trim().to_owned()).filter(|name| !name.is_empty()), done)
}

/// Whether a part between commas says what is done, not what it is.
pub(super) fn is_prep(part: &str) -> bool {
    let lower = part.to_lowercase();
    let words: Vec<&str> = lower.split_whitespace().collect();
    if ["bone in", "bone-in", "shell on", "shell-on"].contains(&lower.as_str()) {
        return false;
    }
    if PREP_STARTS.iter().any(|start| lower.starts_with(start))
        || PREP_ENDS.iter().any(|end| lower.ends_with(end))
        || lower.contains(" for ")
    {
        return true;
    }
    // A grade is a kind: 16/20, 80/20, 70%.
    let is_grade = |word: &str| {
        word.split_once('/').is_some_and(|(a, b)| number(a) && number(b) && a.len() > 1) || word.ends_with('%')
    };
    if let [word] = words.as_slice()
        && is_grade(word)
    {
        return false;
    }
    if lower.starts_with(|c: char| c.is_ascii_digit()) {
        return true;
    }
    let single = words.len() == 1;
    words.iter().any(|word| {
        let state = ["cold", "hot", "warm", "soft", "ends", "over"].contains(word);
        let done = PREPS.contains(word) || (word.ends_with("ed") && !KINDS.contains(word) && word.len() > 3);
        if state { single } else { done }
    })
}

fn number(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit())
}

/// `1 C each: diced onion, celery`, `salt & pepper, 1 T ea`: an amount of each of several things.
fn of_each(found: &mut FoundAmount, outside: &mut String) {
    let lower = outside.to_lowercase();
    let is_behind = lower.ends_with(" ea") || lower.ends_with(" each");
    let before = ["each:", "each ", "ea:", "ea "].iter().find(|each| lower.starts_with(**each));
    if before.is_none() && !is_behind {
        return;
    }
    if let Some(each) = before {
        *outside = outside.get(each.len()..).unwrap_or("").trim().to_owned();
    } else {
        let several = outside.contains('&') || lower.contains(" and ");
        let has_size =
            lower.rsplit(',').next().is_some_and(|last| last.trim().starts_with(|c: char| c.is_ascii_digit()));
        if !several || has_size {
            return;
        }
        let end = outside.rfind(' ').unwrap_or(outside.len());
        outside.truncate(end);
    }
    if outside.contains([',', '&']) || lower.contains(" and ") {
        found.ask(format!("is it so much of each of {}, one line for each?", outside.trim()));
    }
}

/// `butter or margarine`, `or 2 med`.
fn choices(found: &mut FoundAmount, outside: &mut String) {
    let lower = outside.to_ascii_lowercase();
    if let Some(at) = lower.find(", or ") {
        let behind = outside.get(at + 2..).unwrap_or("").to_owned();
        let end = behind.find(',').unwrap_or(behind.len());
        let (choice, after) = behind.split_at_checked(end).unwrap_or((&behind, ""));
        found.notes.push(format!("“{}” was not read", choice.trim()));
        *outside = format!("{}{after}", outside.get(..at).unwrap_or(""));
        return;
    }
    let Some(at) = lower.find(" or ") else { return };
    let before = outside.get(..at).unwrap_or("");
    let behind = outside.get(at + 4..).unwrap_or("");
    let from = before.rfind(',').map_or(0, |comma| comma + 1);
    let to = behind.find(',').unwrap_or(behind.len());
    let (one, other) = (before.get(from..).unwrap_or("").trim(), behind.get(..to).unwrap_or("").trim());
    found.ask(format!("is it {one} or {other} that is to be costed?"));
    *outside = format!("{before}{}", behind.get(to..).unwrap_or(""));
}

/// `salt to taste`, `water as needed`.
fn at_will(found: &mut FoundAmount, outside: &mut String) {
    let lower = outside.to_lowercase();
    let Some(words) = AT_WILL.iter().find(|words| lower.ends_with(&format!(" {words}"))) else { return };
    let end = outside.len().saturating_sub(words.len());
    outside.truncate(end);
    *outside = outside.trim_end_matches([' ', ',']).to_owned();
    if found.amount == AmountText::Unsaid {
        found.amount = AmountText::Unmeasured((*words).to_owned());
    } else {
        found.notes.push(format!("“{words}” was not read"));
    }
}

/// `plus 1 T for the pan` is added; `plus more` cannot be.
fn more_of_it(found: &mut FoundAmount, more: &str, how: Conventions) {
    let added = at_start(more, how).and_then(|(other, _)| match (&found.amount, other.amount) {
        (AmountText::Measured(first), AmountText::Measured(second)) => sum(&[first.clone(), second], how.volumes),
        _ => None,
    });
    match added {
        Some(sum) => {
            found.notes.push(format!("“plus {more}” was added: {sum}"));
            found.amount = AmountText::Measured(sum);
        }
        None => found.notes.push(format!("“plus {more}” was not costed")),
    }
}

/// The noun that the first part of a name ends in, in lower case.
pub(super) fn head_noun(name: &str) -> String {
    let first = name.split(',').next().unwrap_or("");
    let is_word = |word: &&str| word.chars().any(char::is_alphabetic);
    let last = first.split_whitespace().rfind(is_word).unwrap_or("");
    last.trim_matches(|c: char| !c.is_alphabetic()).to_lowercase()
}
