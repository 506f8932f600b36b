//! Formula of a table's last row as it goes on in the rows below: what is relative moves, what a dollar sign holds stays.

use super::ranges::{cell, column_number, name};

/// The formula `down` rows further down and `right` columns further right; `None` where that cannot be told for certain.
pub(super) fn carried(formula: &str, down: u32, right: u32) -> Option<String> {
    let mut out = String::with_capacity(formula.len());
    let mut rest = formula;
    while let Some(first) = rest.chars().next() {
        let length = match first {
            '"' | '\'' => quoted(rest, first)?,
            // A table's own column, or another file.
            '[' => bracketed(rest)?,
            c if is_word(c) => {
                let length = rest.find(|c: char| !is_word(c)).unwrap_or(rest.len());
                let (word, after) = rest.split_at_checked(length)?;
                let call_or_sheet = after.starts_with(['(', '!', '[']);
                // Whole rows, `5:5`, are seldom and not followed.
                if after.starts_with(':') && word.trim_start_matches('$').bytes().all(|byte| byte.is_ascii_digit()) {
                    return None;
                }
                if call_or_sheet {
                    out.push_str(word);
                } else {
                    out.push_str(&moved(word, down, right)?);
                }
                rest = after;
                continue;
            }
            c => c.len_utf8(),
        };
        let (same, after) = rest.split_at_checked(length)?;
        out.push_str(same);
        rest = after;
    }
    Some(out)
}

fn is_word(c: char) -> bool {
    c.is_alphanumeric() || matches!(c, '$' | '_' | '.' | '\\')
}

/// How long what stands between two marks is; a doubled mark is part of it.
fn quoted(text: &str, mark: char) -> Option<usize> {
    let mut at = 1_usize;
    loop {
        at = at.checked_add(text.get(at..)?.find(mark)?)?.checked_add(1)?;
        match text.get(at..)?.strip_prefix(mark) {
            Some(_) => at = at.checked_add(1)?,
            None => return Some(at),
        }
    }
}

/// How long what stands between brackets is, brackets within counted; an apostrophe frees the next sign.
fn bracketed(text: &str) -> Option<usize> {
    let (mut depth, mut free) = (0_u32, false);
    for (at, c) in text.char_indices() {
        match c {
            _ if free => free = false,
            '\'' => free = true,
            '[' => depth = depth.checked_add(1)?,
            ']' => {
                depth = depth.checked_sub(1)?;
                if depth == 0 {
                    return at.checked_add(1);
                }
            }
            _ => {}
        }
    }
    None
}

/// A word of a formula moved, if it is a cell; a name or a number as it is. `None` where it would leave the sheet.
fn moved(word: &str, down: u32, right: u32) -> Option<String> {
    let (fixed_column, rest) = word.strip_prefix('$').map_or((false, word), |rest| (true, rest));
    let letters = rest.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(rest.len());
    let (column, row) = rest.split_at_checked(letters)?;
    let (fixed_row, row) = row.strip_prefix('$').map_or((false, row), |row| (true, row));
    if row.is_empty() {
        // A name, or whole columns: those with a dollar sign hold, bare ones move only sideways.
        let bare_column = !fixed_column && right > 0 && column_number(column).is_some() && !column.is_empty();
        return if bare_column { None } else { Some(word.to_owned()) };
    }
    let Some((at_row, at_column)) = cell(&format!("{column}{row}")) else { return Some(word.to_owned()) };
    let at_row = if fixed_row { at_row } else { at_row.checked_add(down)? };
    let at_column = if fixed_column { at_column } else { at_column.checked_add(right)? };
    let plain = name((at_row, at_column));
    let (letters, digits) = plain.split_at_checked(plain.find(|c: char| c.is_ascii_digit())?)?;
    cell(&plain)?;
    let dollar = |fixed: bool| if fixed { "$" } else { "" };
    Some(format!("{}{letters}{}{digits}", dollar(fixed_column), dollar(fixed_row)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn relative_cells_move_and_the_rest_stays() {
        for (formula, wanted) in [
            ("C10*$B$2+D$1*$A10", "C12*$B$2+D$1*$A12"),
            ("IF(A10=\"B10\",'It''s A10'!B10,LOG10(C10))", "IF(A12=\"B10\",'It''s A10'!B12,LOG10(C12))"),
            ("SUM(C$2:C10)/1E5", "SUM(C$2:C12)/1E5"),
            ("Prices[[#This Row],[Price]]*tax_rate+[1]S1!A10", "Prices[[#This Row],[Price]]*tax_rate+[1]S1!A12"),
            ("VLOOKUP(A10,B:C,2,FALSE)", "VLOOKUP(A12,B:C,2,FALSE)"),
            ("Sheet2!A10", "Sheet2!A12"),
        ] {
            assert_eq!(carried(formula, 2, 0).as_deref(), Some(wanted), "{formula}");
        }
        assert_eq!(carried("A1+$B2", 1, 1).as_deref(), Some("B2+$B3"));
        for formula in ["SUM(5:5)", "A1048576", "\"open", "Table[open"] {
            assert_eq!(carried(formula, 1, 0), None, "{formula}");
        }
    }
}
