//! Formula text moved to another row, as a spreadsheet program moves it when rows are sorted.

/// The formula of a cell that is sorted `by` rows further down. References on the same sheet follow the row unless a `$`
/// holds them; references to other sheets stay. LibreOffice was seen to sort so; DEVELOPERS.md tells how.
pub fn moved(formula: &str, by: i32) -> String {
    let chars: Vec<char> = formula.chars().collect();
    let mut out = String::new();
    let mut at = 0;
    while at < chars.len() {
        let c = chars[at];
        if c == '"' || c == '\'' {
            let end = closing(&chars, at);
            out.extend(&chars[at..end]);
            at = end;
        } else if c.is_ascii_alphabetic() || c == '$' || c == '_' {
            let end = (at..chars.len()).find(|n| !is_word(chars[*n])).unwrap_or(chars.len());
            let word: String = chars[at..end].iter().collect();
            let elsewhere = out.ends_with('!') || chars.get(end) == Some(&'!') || elsewhere_by_range(&out);
            let call = chars.get(end) == Some(&'(');
            out.push_str(&if elsewhere || call { word } else { row_moved(&word, by) });
            at = end;
        } else if c.is_ascii_digit() || c == '.' {
            // A number, with its exponent.
            let end = (at..chars.len())
                .find(|n| !(chars[*n].is_ascii_alphanumeric() || chars[*n] == '.'))
                .unwrap_or(chars.len());
            out.extend(&chars[at..end]);
            at = end;
        } else {
            out.push(c);
            at += 1;
        }
    }
    out
}

/// The formula of a cell of the sheet `home` when a cell of `sheet` is cut and pasted elsewhere: references to it go along,
/// ranges stay. `None` where it reads that cell nowhere.
pub fn redirected(formula: &str, home: &str, sheet: &str, from: (i32, i32), to: (i32, i32)) -> Option<String> {
    with_cells(formula, home, |at, partner| (at == (sheet, from) && partner.is_none()).then_some(to))
}

/// The formula of a cell of the sheet `home` before a row of `sheet` is taken out: ranges that end or begin there are one row
/// shorter. `None` where there are none.
pub fn shortened(formula: &str, home: &str, sheet: &str, gone: i32) -> Option<String> {
    with_cells(formula, home, |(on, (row, column)), partner| {
        let (partner, _) = partner.filter(|_| on == sheet && row == gone)?;
        (partner != row).then(|| (row + (partner - row).signum(), column))
    })
}

/// The formula with other cells in it, as `other` gives them for a cell on its sheet, and for the other end of its range.
/// `None` where it gives none.
fn with_cells(
    formula: &str,
    home: &str,
    other: impl Fn((&str, (i32, i32)), Option<(i32, i32)>) -> Option<(i32, i32)>,
) -> Option<String> {
    let words = words(formula, home);
    let (mut out, mut is_other) = (String::new(), false);
    for (at, word) in words.iter().enumerate() {
        let text = |at: Option<usize>| at.and_then(|at| words.get(at)).map_or("", |word| word.text.as_str());
        let partner = if text(Some(at + 1)) == ":" {
            cell_of(text(Some(at + 2)))
        } else if text(at.checked_sub(1)) == ":" {
            cell_of(text(at.checked_sub(2)))
        } else {
            None
        };
        let cell = cell_of(&word.text).filter(|_| text(Some(at + 1)) != "(");
        match cell.and_then(|cell| other((&word.sheet, cell), partner)) {
            Some(cell) => {
                out.push_str(&named(&word.text, cell));
                is_other = true;
            }
            None => out.push_str(&word.text),
        }
    }
    is_other.then_some(out)
}

/// A word of a formula, and the sheet on which it is if it is a cell.
struct Word {
    text: String,
    sheet: String,
}

fn words(formula: &str, home: &str) -> Vec<Word> {
    let chars: Vec<char> = formula.chars().collect();
    let (mut words, mut at, mut on) = (Vec::new(), 0, home.to_owned());
    while at < chars.len() {
        let c = chars[at];
        let mut end = match c {
            '"' | '\'' => closing(&chars, at),
            _ if is_word(c) => (at..chars.len()).find(|n| !is_word(chars[*n])).unwrap_or(chars.len()),
            _ => at + 1,
        };
        let mut text: String = chars[at..end].iter().collect();
        if chars.get(end) == Some(&'!') && c != '"' {
            on = text.trim_matches('\'').replace("''", "'");
            text.push('!');
            end += 1;
        } else if chars.get(end) != Some(&':') && c != ':' {
            words.push(Word { text, sheet: std::mem::replace(&mut on, home.to_owned()) });
            at = end;
            continue;
        }
        words.push(Word { text, sheet: on.clone() });
        at = end;
    }
    words
}

/// The row and column of `$B7`.
fn cell_of(word: &str) -> Option<(i32, i32)> {
    let plain = word.replace('$', "");
    let digits = plain.find(|c: char| c.is_ascii_digit())?;
    let (letters, row) = plain.split_at(digits);
    if letters.is_empty() || letters.len() > 3 || !letters.bytes().all(|c| c.is_ascii_uppercase()) {
        return None;
    }
    let column = letters.bytes().fold(0, |column, c| column * 26 + i32::from(c - b'A') + 1);
    Some((row.parse().ok()?, column))
}

/// Another cell, as fixed as `like` is.
fn named(like: &str, (row, mut column): (i32, i32)) -> String {
    let mut letters = String::new();
    while column > 0 {
        let letter = u8::try_from((column - 1) % 26).unwrap() + b'A';
        letters.insert(0, char::from(letter));
        column = (column - 1) / 26;
    }
    let fixed = |is: bool| if is { "$" } else { "" };
    format!("{}{letters}{}{row}", fixed(like.starts_with('$')), fixed(like[1..].contains('$')))
}

fn is_word(c: char) -> bool {
    c.is_alphanumeric() || matches!(c, '$' | '_' | '.')
}

/// Whether what follows is the end of a range on another sheet: `Prices!A1:` before it.
fn elsewhere_by_range(out: &str) -> bool {
    let Some(start) = out.strip_suffix(':') else { return false };
    start.trim_end_matches(is_word).ends_with('!')
}

/// Where what begins with a quotation mark at `at` ends; a doubled mark is part of it.
fn closing(chars: &[char], at: usize) -> usize {
    let mark = chars[at];
    let mut n = at + 1;
    while n < chars.len() {
        if chars[n] == mark {
            if chars.get(n + 1) != Some(&mark) {
                return n + 1;
            }
            n += 1;
        }
        n += 1;
    }
    n
}

/// `B7` as `B9`; `B$7` and what is no cell as they are.
fn row_moved(word: &str, by: i32) -> String {
    let digits = word.find(|c: char| c.is_ascii_digit()).unwrap_or(word.len());
    let (column, row) = word.split_at(digits);
    let letters = column.strip_prefix('$').unwrap_or(column);
    let is_cell = (1..=3).contains(&letters.len()) && letters.chars().all(|c| c.is_ascii_uppercase());
    match row.parse::<i32>() {
        Ok(row) if is_cell && row + by < 1 => "#REF!".to_owned(),
        Ok(row) if is_cell => format!("{column}{}", row + by),
        _ => word.to_owned(),
    }
}

#[test]
fn what_is_relative_on_the_same_sheet_follows_its_row() {
    let cases = [
        ("=B7/$K7+C$7*$A$1", "=B9/$K9+C$7*$A$1"),
        ("='Yield tests'!B7+Prices!C7:D8+B7", "='Yield tests'!B7+Prices!C7:D8+B9"),
        ("=IF(B7=\"B7\",LOG10(B7),1E7)+SUM(B7:B8)", "=IF(B9=\"B7\",LOG10(B9),1E7)+SUM(B9:B10)"),
        ("='Chef''s B7'!B7&\"a\"\"B7\"", "='Chef''s B7'!B7&\"a\"\"B7\""),
        ("=INDEX($K:$K,MATCH(\"P7\",$X:$X,0))", "=INDEX($K:$K,MATCH(\"P7\",$X:$X,0))"),
    ];
    for (formula, expected) in cases {
        assert_eq!(moved(formula, 2), expected);
    }
}

#[test]
fn what_reads_a_cell_that_is_cut_goes_along_with_it() {
    let cases = [
        ("=B7/$B$7+C$7", "Soup", Some("=D9/$D$9+C$7")),
        ("='Yield tests'!B7+Soup!$B7+B7", "Menu", Some("='Yield tests'!B7+Soup!$D9+B7")),
        ("=SUM(B7:B9)+IF(\"B7\"=\"\",1,B$7)", "Soup", Some("=SUM(B7:B9)+IF(\"B7\"=\"\",1,D$9)")),
        ("=B8+BB7+LOG10(B70)", "Soup", None),
        ("=B7:B9+B7", "Soup", Some("=B7:B9+D9")),
    ];
    for (formula, home, expected) in cases {
        assert_eq!(redirected(formula, home, "Soup", (7, 2), (9, 4)).as_deref(), expected, "{formula}");
    }
}

#[test]
fn ranges_are_shorter_when_their_last_or_first_row_goes() {
    let cases = [
        ("=SUM($B$5:$B$7)+B7", "Soup", Some("=SUM($B$5:$B$6)+B7")),
        ("=SUM(Soup!B7:C9)+SUM(B5:B7)", "Menu", Some("=SUM(Soup!B8:C9)+SUM(B5:B7)")),
        ("=SUM(B7:C7)", "Soup", None),
        ("=SUM(B6:C8)&\"B5:B7\"", "Soup", None),
    ];
    for (formula, home, expected) in cases {
        assert_eq!(shortened(formula, home, "Soup", 7).as_deref(), expected, "{formula}");
    }
}
