//! The nearest of a closed list of words (headers, labels, settings, roles) to one that was not found: by edit
//! distance, then by shared words. Names of a book, of which there are many, have rules of their own in
//! `problem::names`.

use crate::in_order::InOrder;
use strsim::osa_distance;

/// The most suggestions worth reading.
const MOST: usize = 3;

/// Up to three of `known` that a person may have meant by `wanted`, best first.
pub fn nearest<'a>(wanted: &str, known: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    /// No word that is known is nearly as long.
    const MOST_LETTERS: usize = 100;
    let wanted: String = wanted.chars().take(MOST_LETTERS).flat_map(char::to_lowercase).collect();
    let mut scored: Vec<(usize, &str)> =
        known.into_iter().filter_map(|name| score(&wanted, &name.to_lowercase()).map(|score| (score, name))).collect();
    scored.put_in_order();
    scored.dedup_by(|a, b| a.1 == b.1);
    scored.into_iter().take(MOST).map(|(_, name)| name).collect()
}

/// `Did you mean “Onions, yellow” or “Shallots”?`, or nothing when no name is near.
pub fn did_you_mean<'a>(wanted: &str, known: impl IntoIterator<Item = &'a str>) -> Option<String> {
    let near = nearest(wanted, known);
    if near.is_empty() { None } else { Some(format!("Did you mean {}?", quoted_list(&near, "or"))) }
}

/// Texts in quotes as people list them: `“a”, “b” and “c”`; of more than six, how many more there are.
pub fn quoted_list(texts: &[&str], joint: &str) -> String {
    let quoted = first_few(texts.iter().map(|text| format!("“{text}”")), texts.len());
    match quoted.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, before)) => format!("{} {joint} {last}", before.join(", ")),
        None => String::new(),
    }
}

/// The first six of `texts`, of which there are `many`, and how many more: a message must not grow with the book.
pub fn first_few(texts: impl Iterator<Item = String>, many: usize) -> Vec<String> {
    const MOST: usize = 6;
    let mut few: Vec<String> = texts.take(MOST).collect();
    let more = many.saturating_sub(few.len());
    if more > 0 {
        few.push(format!("{more} more"));
    }
    few
}

/// Lower is nearer; `None` is too far. A shared word counts as three edits.
fn score(wanted: &str, name: &str) -> Option<usize> {
    let edits = osa_distance(wanted, name);
    let allowed = wanted.chars().count().max(name.chars().count()) / 3;
    if edits <= allowed.max(1) {
        return Some(edits);
    }
    let words = |text: &str| -> Vec<String> {
        text.split(|c: char| !c.is_alphanumeric())
            .filter(|w| w.chars().count() > 2)
            .map(|w| w.trim_end_matches('s').to_owned())
            .collect()
    };
    let ours = words(wanted);
    let shared = words(name).iter().filter(|word| ours.contains(word)).count();
    if shared > 0 { Some(allowed + 3 + edits.saturating_sub(shared * 3)) } else { None }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_neighbours_swapped_are_one_edit() {
        // ehad → head: e and h swapped. Levenshtein's distance counts two, above the one that a word of four letters allows.
        assert_eq!(nearest("ehad", ["bread", "head"]), ["head"]);
        // kitten → sitting: k→s, e→i, +g. The textbook example of Levenshtein's distance; seven letters allow two.
        assert!(nearest("kitten", ["sitting"]).is_empty());
        assert_eq!(nearest("kitten", ["sitten"]), ["sitten"]);
    }

    #[test]
    fn lists_are_joined_as_people_say_them() {
        assert_eq!(quoted_list(&["a"], "or"), "“a”");
        assert_eq!(quoted_list(&["a", "b", "c"], "and"), "“a”, “b” and “c”");
        let many = ["a", "b", "c", "d", "e", "f", "g", "h"];
        assert_eq!(quoted_list(&many, "and"), "“a”, “b”, “c”, “d”, “e”, “f” and 2 more");
    }

    #[test]
    fn a_slip_and_a_shared_word_are_both_found() {
        let known = ["Onions, yellow", "Carrots", "Shallots"];
        assert_eq!(nearest("carots", known), ["Carrots"]);
        assert_eq!(nearest("onion", known), ["Onions, yellow"]);
        assert!(nearest("saffron", known).is_empty());
    }
}
