//! The edits of recipe cards, and of the lists of more recipes than have cards: labels and cells filled, numbers changed,
//! lines added.

use super::edits::Kind;
use super::played::{Edit, Played};
use crate::recalc::Value;

/// What is typed into a blank cell beside a label, or under a header of the lines.
const TYPED: &[(&str, f64)] = &[
    ("Menu price", 9.5),
    ("Target", 0.31),
    ("Q factor", 0.06),
    ("Spice factor", 0.03),
    ("Serving loss", 0.04),
    ("Yield", 0.85),
    ("Used", 0.9),
];

/// Every edit of the cards and the lists.
pub fn edits(played: &Played) -> Vec<(Kind, Edit)> {
    let mut edits = Vec::new();
    for sheet in played.sheets() {
        let first = played.text(&sheet, 1, 1);
        let (last, wide) = played.extent(&sheet);
        match sheet.as_str() {
            "Recipes" | "Lines" => {
                // One row is as another.
                let few = Lines { played, sheet: &sheet, header: 1, end: last.min(12), wide };
                few.numbers(&mut edits);
                if sheet == "Lines" {
                    Lines { end: last, ..few }.added(last + 1, &mut edits);
                }
            }
            _ if first == "Recipe" => {
                let header = (1..=last).find(|row| played.text(&sheet, *row, 1) == "Ingredient").unwrap();
                let blank = |row: &i32| played.value(&sheet, *row, 1) == Value::Empty;
                let end = (header + 1..=last + 1).find(blank).unwrap() - 1;
                let card = Lines { played, sheet: &sheet, header, end, wide };
                for row in 2..header {
                    let label = played.text(&sheet, row, 1);
                    if played.has_ground_of(&sheet, (row, 2), (header + 1, 1)) {
                        card.number(row, 2, &label, &mut edits);
                    }
                }
                card.numbers(&mut edits);
                card.added(end + 2, &mut edits);
            }
            _ => {}
        }
    }
    edits
}

/// Lines on a sheet: the row of their header, their last row, and the last column of anything.
struct Lines<'a> {
    played: &'a Played,
    sheet: &'a str,
    header: i32,
    end: i32,
    wide: i32,
}

impl Lines<'_> {
    /// A number in a cell, over one that stands there or into a blank one.
    fn number(&self, row: i32, column: i32, named: &str, edits: &mut Vec<(Kind, Edit)>) {
        let (kind, number) = match self.played.value(self.sheet, row, column) {
            Value::Number(number) => (Kind::Change, number * 1.1),
            Value::Empty => {
                (Kind::Fill, TYPED.iter().find(|(known, _)| *known == named).map_or(2.0, |(_, number)| *number))
            }
            // A number where words stood.
            Value::Text(_) if named == "Qty" => (Kind::Fill, 2.0),
            _ => return,
        };
        edits.push((kind, Edit::Type { sheet: self.sheet.to_owned(), row, column, number }));
        if kind == Kind::Change {
            let typed = Edit::Type { sheet: self.sheet.to_owned(), row, column, number: -number };
            edits.push((Kind::BelowNought, typed));
        }
    }

    /// Numbers in the input cells of the lines, and in their quantities, blank or not.
    fn numbers(&self, edits: &mut Vec<(Kind, Edit)>) {
        for column in 1..=self.wide {
            let header = self.played.text(self.sheet, self.header, column);
            for row in self.header + 1..=self.end {
                if self.played.is_formula(self.sheet, row, column) || matches!(header.as_str(), "Note" | "Group") {
                    continue;
                }
                if header == "Qty" || self.played.is_input(self.sheet, row, column) {
                    self.number(row, column, &header, edits);
                }
            }
        }
    }

    /// Lines added: put in above the first one, in the midst, below the last and at `below`; typed into the blank row; and one
    /// copied with its formulas.
    fn added(&self, below: i32, edits: &mut Vec<(Kind, Edit)>) {
        let (first, mid) = (self.header + 1, i32::midpoint(self.header + 1, self.end + 1));
        let sheet = || self.sheet.to_owned();
        for (row, like) in [(first, self.end), (mid, first), (mid, mid), (self.end + 1, first), (below, first)] {
            edits.push((Kind::Line, Edit::Line { sheet: sheet(), row, like, put_in: true }));
        }
        for like in [first, mid, self.end] {
            edits.push((Kind::Line, Edit::Line { sheet: sheet(), row: self.end + 1, like, put_in: false }));
            edits.push((Kind::Line, Edit::Copy { sheet: sheet(), row: mid, like }));
            if like != mid {
                edits.push((Kind::Line, Edit::Instead { sheet: sheet(), like, gone: mid }));
            }
        }
    }
}

const SOUP: &str = "Item,Pack,Price\nLeeks,10 lb,$20.00\nButter,1 lb,$4.00\nCream,1 qt,$3.00\n\nRecipe,Leek soup\n\
                    Portions,4\nMenu price,$9.00\nIngredient,Qty,Unit\nLeeks,2,lb\nButter,2,oz\nCream,1,pt\n";

#[test]
fn a_line_copied_and_another_taken_out_is_one_that_was_not_costed() {
    let costed = crate::workbook::costed("soup.csv", SOUP.as_bytes()).2;
    let row_of = |played: &Played, text: &str| (1..40).find(|row| played.text("Leek soup", *row, 1) == text).unwrap();
    let first = row_of(&Played::open(&costed), "Leeks");
    let said = |edit: Edit| {
        let mut played = Played::open(&costed);
        played.play(&edit);
        played.value("Leek soup", row_of(&played, "Lines not costed"), 2)
    };
    let sheet = || "Leek soup".to_owned();
    assert_eq!(said(Edit::Delete { sheet: sheet(), row: first }), Value::Number(0.0), "one is taken out, that is all");
    let new = Value::Text("1 new, not costed yet: cost again".to_owned());
    for (like, gone) in [(first, first + 1), (first + 2, first), (first + 1, first + 2)] {
        assert_eq!(said(Edit::Instead { sheet: sheet(), like, gone }), new, "{like} for {gone}");
    }
}
