//! The nearest of a closed list of words (headers, labels, settings, roles) to one that was not found: by edit
//! distance, then by shared words. Names of a book, of which there are many, have rules of their own in
//! `problem::names`.

/// The most suggestions worth reading.
const MOST: usize = 3;

/// Up to three of `known` that a person may have meant by `wanted`, best first.
pub fn nearest<'a>(wanted: &str, known: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    let wanted = wanted.to_lowercase();
    let mut scored: Vec<(usize, &str)> =
        known.into_iter().filter_map(|name| score(&wanted, &name.to_lowercase()).map(|score| (score, name))).collect();
    scored.sort();
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
    const MOST: usize = 6;
    let mut quoted: Vec<String> = texts.iter().take(MOST).map(|text| format!("“{text}”")).collect();
    if texts.len() > MOST {
        quoted.push(format!("{} more", texts.len() - MOST));
    }
    match quoted.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, before)) => format!("{} {joint} {last}", before.join(", ")),
        None => String::new(),
    }
}

/// Lower is nearer; `None` is too far. A shared word counts as three edits.
fn score(wanted: &str, name: &str) -> Option<usize> {
    let letters = |text: &str| text.chars().collect::<Vec<char>>();
    let edits = distance(&letters(wanted), &letters(name));
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

/// The edits from `a` to `b`: letters put in, left out, taken for another, or two neighbours swapped (the optimal string
/// alignment distance).
pub(super) fn distance(a: &[char], b: &[char]) -> usize {
    let mut before: Vec<usize> = Vec::new();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    let mut last: Option<char> = None;
    for (i, from) in a.iter().enumerate() {
        let mut next = vec![i + 1];
        let mut left = i + 1;
        let mut behind: Option<char> = None;
        for (j, to) in b.iter().enumerate() {
            let at = |row: &[usize], j: usize| row.get(j).copied().unwrap_or(usize::MAX - 1);
            let mut here = (at(&row, j + 1) + 1).min(left + 1).min(at(&row, j) + usize::from(from != to));
            if last == Some(*to) && behind == Some(*from) && j > 0 {
                here = here.min(at(&before, j - 1) + 1);
            }
            next.push(here);
            left = here;
            behind = Some(*to);
        }
        last = Some(*from);
        before = std::mem::replace(&mut row, next);
    }
    row.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn edit_distance_of_the_usual_example() {
        let distance =
            |a: &str, b: &str| super::distance(&a.chars().collect::<Vec<_>>(), &b.chars().collect::<Vec<_>>());
        // kitten → sitting: k→s, e→i, +g. The textbook example of Levenshtein's distance.
        assert_eq!(distance("kitten", "sitting"), 3);
        assert_eq!(distance("", "abc"), 3);
        assert_eq!(distance("abc", ""), 3);
        assert_eq!(distance("abc", "abc"), 0);
        // Two neighbours swapped are one edit.
        assert_eq!(distance("parsely", "parsley"), 1);
        assert_eq!(distance("ab", "ba"), 1);
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
