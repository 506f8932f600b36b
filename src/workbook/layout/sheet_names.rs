//! Sheet names: ours, one for every card, and those of carried sheets, all distinct and all allowed.

use std::collections::HashSet;

use unicode_normalization::UnicodeNormalization;

use crate::schema::TableKind;
use crate::workbook::cells::unprintable::is_unprintable;
use crate::workbook::layout::own_columns::Beside;

/// The first sheet.
pub const SUMMARY: &str = "Summary";
/// Every problem with its cell.
pub const PROBLEMS: &str = "Problems";
/// Where every figure came from.
pub const WORKING: &str = "How it was figured";

/// Recipes as a cook reads them, a page each.
pub const KITCHEN_CARDS: &str = "Kitchen cards";
/// New prices beside the old.
pub const CHANGED: &str = "What changed";
/// What becomes of trim, and what it is worth.
pub const TRIM: &str = "Trim";
/// Menu prices and the history of prices, in pictures.
pub const IN_PICTURES: &str = "In pictures";
/// Dishes by what was sold of them and by their margin.
pub const MENU_MIX: &str = "Menu mix";
/// Actual against standard food cost.
pub const FOOD_COST: &str = "Food cost";
/// Charges moved up and down.
pub const WHAT_IF: &str = "What if";

/// Lines of a flat list that name no recipe.
pub const LINES_NOT_READ: &str = "Lines not read";

/// Names of what is figured, now or in other reports.
const FIGURED: &[&str] =
    &[SUMMARY, PROBLEMS, WORKING, TRIM, WHAT_IF, CHANGED, KITCHEN_CARDS, IN_PICTURES, MENU_MIX, FOOD_COST];

/// The most characters of a sheet's name (ECMA-376 part 1, 18.2.19).
const MOST: usize = 31;

/// The name of the sheet of a kind of table.
pub fn of_table(kind: TableKind) -> &'static str {
    match kind {
        TableKind::YieldTests => "Yield tests",
        TableKind::Settings => "Settings",
        TableKind::Plan => "Plan",
        TableKind::Menu => "Menu",
        TableKind::Measures => "Measures",
        TableKind::Prices => "Prices",
        TableKind::Stock => "Stock",
        TableKind::Counts => "Counts",
        TableKind::Control => "Control",
        TableKind::Names => "Names",
        TableKind::SupplierLayouts => "Supplier layouts",
        TableKind::Suppliers => "Suppliers",
        TableKind::RecipeFacts => "Recipes",
        TableKind::RecipeLines | TableKind::CardLines => "Lines",
    }
}

/// Hands out distinct names.
#[derive(Debug, Default)]
pub struct SheetNames {
    /// By what they are told apart by.
    taken: HashSet<String>,
}

impl SheetNames {
    /// A set in which our own names are taken; those of what is figured where that is written.
    pub fn new(beside: Beside) -> Self {
        let figured = if beside == Beside::Figures { FIGURED } else { &[] };
        let ours = TableKind::ALL.iter().map(|kind| of_table(*kind)).chain([LINES_NOT_READ]);
        let ours = ours.chain(figured.iter().copied());
        // Spreadsheet programs keep this name for themselves.
        let reserved = ours.chain(["History"]);
        SheetNames { taken: reserved.map(told_apart_by).collect() }
    }

    /// Takes a name of ours that only large books have.
    pub fn take(&mut self, name: &str) {
        self.taken.insert(told_apart_by(name));
    }

    /// The name of a card's sheet.
    pub fn card(&mut self, recipe: &str) -> String {
        self.distinct(&allowed(recipe), "")
    }

    /// The name of a carried sheet; one of ours becomes `NAME (yours)`.
    pub fn carried(&mut self, sheet: &str) -> String {
        let name = allowed(sheet);
        if self.taken.contains(&told_apart_by(&name)) {
            self.distinct(&name, " (yours)")
        } else {
            self.distinct(&name, "")
        }
    }

    fn distinct(&mut self, name: &str, ending: &str) -> String {
        let mut tried = with_ending(name, ending);
        let mut count = 1_u32;
        while !self.taken.insert(told_apart_by(&tried)) {
            count = count.saturating_add(1);
            tried = with_ending(name, &format!("{ending} {count}"));
        }
        tried
    }
}

/// A name without what some program passes over when it compares sheet names: case (one folds to capitals, another to small
/// letters), width, composed or not, and signs that nobody sees (from memory; two names too many told apart do no harm, one
/// too few and the workbook is damaged).
fn told_apart_by(name: &str) -> String {
    let unseen = |c: &char| matches!(c, '\u{AD}' | '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{2064}' | '\u{FE00}'..='\u{FE0F}' | '\u{FEFF}');
    let seen = name.nfkc().filter(|c| !unseen(c));
    // Letter by letter: a sigma at the end of a word is one all the same.
    seen.flat_map(char::to_uppercase).flat_map(char::to_lowercase).nfkc().collect()
}

fn with_ending(name: &str, ending: &str) -> String {
    // Spreadsheet programs count UTF-16 units.
    let room = MOST.saturating_sub(ending.encode_utf16().count());
    let mut cut = String::new();
    let mut used = 0_usize;
    for c in name.chars() {
        used = used.saturating_add(c.len_utf16());
        if used > room {
            break;
        }
        cut.push(c);
    }
    format!("{}{ending}", cut.trim_end_matches(is_edge))
}

/// What a sheet's name may not begin or end with.
fn is_edge(c: char) -> bool {
    c == '\'' || c.is_whitespace()
}

/// `name` without the signs that sheet names may not hold.
fn allowed(name: &str) -> String {
    // An exclamation mark is allowed, but some programs take the first for the end of the name and cannot open the workbook.
    let refused = |c: char| matches!(c, '[' | ']' | ':' | '*' | '?' | '/' | '\\' | '!');
    let signs = |c: char| match c {
        c if refused(c) || is_unprintable(c) => ' ',
        // Inches stay inches. The library that writes formulas takes the straight sign for the beginning of a text, even
        // within a name, and mixes up what follows.
        '"' => '”',
        c => c,
    };
    let clean: String = name.chars().map(signs).collect();
    let words: Vec<&str> = clean.split_whitespace().collect();
    let mut name = String::new();
    for c in words.join(" ").chars() {
        // It also takes a word before a bracket for a function, and writes newer ones by other names.
        if c == '(' && name.ends_with(|before: char| before.is_ascii_alphanumeric() || before == '.') {
            name.push(' ');
        }
        name.push(c);
    }
    let name = name.trim_matches(is_edge);
    if name.is_empty() { "Sheet".to_owned() } else { name.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_cut_cleaned_and_told_apart() {
        let mut names = SheetNames::new(Beside::Figures);
        assert_eq!(names.card("Soup: hot/cold [new]?"), "Soup hot cold new");
        assert_eq!(names.card("soup HOT cold new"), "soup HOT cold new 2");
        assert_eq!(names.card("A very long name of a soup that nobody says twice"), "A very long name of a soup that");
        assert_eq!(names.card("A very long name of a soup that nobody says thrice"), "A very long name of a soup th 2");
        assert_eq!(names.card("Prices"), "Prices 2");
        assert_eq!(names.card("'''"), "Sheet");
        assert_eq!(names.card("' 'Stew'?'"), "Stew");
        assert_eq!(names.card("Broth\u{FFFE}\u{1}"), "Broth");
        assert_eq!(names.card("Pizza 12\" (thin)"), "Pizza 12” (thin)");
        assert_eq!(names.card("BASE(tomato)!"), "BASE (tomato)");
        assert_eq!(names.carried("Summary"), "Summary (yours)");
        assert_eq!(names.carried("Notes"), "Notes");
    }

    #[test]
    fn names_that_some_program_takes_for_one_are_told_apart() {
        let mut names = SheetNames::new(Beside::Figures);
        for (one, other) in [
            ("Straße", "STRASSE 2"),
            ("Σούπας", "ΣΟΎΠΑΣ 2"),
            ("Caf\u{E9}", "cafe\u{301} 2"),
            ("ＭＥＮＵ ａ", "menu a 2"),
            ("Stew", "Ste\u{200B}w 2"),
            ("İnci", "i̇nci 2"),
        ] {
            assert_eq!(names.card(one), one);
            assert_eq!(names.card(other.trim_end_matches(" 2")), other);
        }
    }

    #[test]
    fn a_book_leaves_the_names_of_what_is_figured() {
        let mut names = SheetNames::new(Beside::Nothing);
        assert_eq!(names.card("Summary"), "Summary");
        assert_eq!(names.carried("Problems"), "Problems");
        assert_eq!(names.carried("Prices"), "Prices (yours)");
    }

    #[test]
    fn a_carried_name_is_carried_as_itself_the_second_time() {
        let mut names = SheetNames::new(Beside::Figures);
        assert_eq!(names.carried("Summary (yours)"), "Summary (yours)");
    }
}
