//! Steps of a method, in the order in which a cook takes them.

/// The steps of a method as typed: its lines, where it has several; else its sentences and what semicolons part. Numbers
/// that stand before steps are left out.
pub(super) fn of(method: &str) -> Vec<&str> {
    let lines: Vec<&str> = method.lines().map(unnumbered).filter(|line| !line.is_empty()).collect();
    if lines.len() > 1 {
        return lines;
    }
    lines.into_iter().flat_map(sentences).map(unnumbered).filter(|step| !step.is_empty()).collect()
}

/// A step without the number, dash or dot that stands before it.
fn unnumbered(text: &str) -> &str {
    let text = text.trim();
    let rest = text.trim_start_matches(|letter: char| letter.is_ascii_digit());
    if rest.len() < text.len() {
        // `2. Strain`, but not `2.5 cups` or `2 cups`.
        let marked = rest.strip_prefix(['.', ')', ':']).filter(|rest| rest.starts_with(' '));
        return marked.map_or(text, str::trim_start);
    }
    text.strip_prefix(['-', '–', '•', '*']).filter(|rest| rest.starts_with(' ')).map_or(text, str::trim_start)
}

/// What a full stop or a semicolon ends.
fn sentences(line: &str) -> Vec<&str> {
    let (mut parts, mut from) = (Vec::new(), 0);
    let mut within = 0_u32;
    for (at, letter) in line.char_indices() {
        match letter {
            '(' => within = within.saturating_add(1),
            ')' => within = within.saturating_sub(1),
            _ => {}
        }
        let after = at.saturating_add(letter.len_utf8());
        let is_end = match letter {
            ';' => true,
            '.' | '!' | '?' => {
                ends_sentence(line.get(from..at).unwrap_or_default(), line.get(after..).unwrap_or_default())
            }
            _ => false,
        };
        if is_end && within == 0 {
            let end = if letter == ';' { at } else { after };
            parts.push(line.get(from..end).unwrap_or_default());
            from = after;
        }
    }
    parts.push(line.get(from..).unwrap_or_default());
    parts
}

/// Whether a full stop between these ends a sentence: behind a word, and a new one begins.
fn ends_sentence(before: &str, after: &str) -> bool {
    /// Shorter words before a full stop are cut ones: `St. Lucia`, `approx. 3`, `1. Sweat`.
    const SHORT: usize = 3;
    let word = before.rsplit(' ').next().unwrap_or_default();
    let begins = after.strip_prefix(' ').and_then(|rest| rest.trim_start().chars().next());
    begins.is_some_and(|letter| letter.is_uppercase() || letter.is_ascii_digit())
        && (word.chars().count() >= SHORT || word.ends_with(')'))
        && !word.chars().all(|letter| letter.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_method_is_read_step_by_step() {
        for (method, steps) in [
            ("", &[][..]),
            ("Simmer.", &["Simmer."]),
            (
                "Roast shells; add the rest; simmer 40 minutes; strain.",
                &["Roast shells", "add the rest", "simmer 40 minutes", "strain."],
            ),
            ("Sweat onions. Add stock, 2.5 qt. Blend.", &["Sweat onions.", "Add stock, 2.5 qt. Blend."]),
            ("Bake (turn once; baste) until done. Rest.", &["Bake (turn once; baste) until done.", "Rest."]),
            ("1. Sweat onions. 2. Add stock.", &["Sweat onions.", "Add stock."]),
            ("1) Peel\n\n2) Dice; wash\n", &["Peel", "Dice; wash"]),
            ("- Peel\n- 3 turns in the mill", &["Peel", "3 turns in the mill"]),
        ] {
            assert_eq!(of(method), steps, "{method}");
        }
    }
}
