//! The edits by which another row becomes the better one, and those that move cells, columns and sheets: dates and
//! *Preferred* typed or cleared, rows added, cells cut and pasted elsewhere, headers named anew.

use super::edits::{Kind, Table};
use super::played::{Edit, Played};
use crate::recalc::Value;

/// Those of a table, or of a card's lines.
pub fn edits(played: &Played, table: &Table, edits: &mut Vec<(Kind, Edit)>) {
    if table.sheet == "Summary" {
        return;
    }
    let moved = Moved { played, table };
    if table.sheet == "Prices" {
        moved.better(edits);
    }
    if table.sheet == "Settings" {
        moved.another_day(edits);
    }
    if ["Prices", "Yield tests", "Measures", "Menu", "Settings"].contains(&table.sheet.as_str()) {
        moved.added(edits);
    }
    if !["Plan", "Stock", "Control"].contains(&table.sheet.as_str()) {
        // In lists of lines, of which there may be hundreds of thousands, no place is watched.
        if table.sheet != "Lines" {
            moved.cut(edits);
        }
        moved.headers(edits);
    }
    moved.columns(edits);
}

struct Moved<'a> {
    played: &'a Played,
    table: &'a Table,
}

impl Moved<'_> {
    fn sheet(&self) -> String {
        self.table.sheet.clone()
    }

    /// The column under a header.
    fn column(&self, header: &str) -> Option<i32> {
        (1..=self.table.wide).find(|column| self.played.text(&self.table.sheet, self.table.header, *column) == header)
    }

    fn value(&self, row: i32, column: i32) -> Value {
        self.played.value(&self.table.sheet, row, column)
    }

    /// The columns of what people type.
    fn typed_columns(&self) -> impl Iterator<Item = i32> {
        let own = self.played.first_own(&self.table.sheet, self.table.header).unwrap_or(self.table.wide + 1);
        1..own
    }

    fn rows(&self) -> impl Iterator<Item = i32> + use<> {
        self.table.rows.0..=self.table.rows.1
    }

    fn number(&self, row: i32, column: i32, number: f64) -> Edit {
        Edit::Type { sheet: self.sheet(), row, column, number }
    }

    fn say(&self, row: i32, column: i32, words: &str) -> Edit {
        Edit::Say { sheet: self.sheet(), row, column, words: words.to_owned() }
    }

    /// What makes another price row the better one, or this one no longer that.
    fn better(&self, edits: &mut Vec<(Kind, Edit)>) {
        let mut put = |edit| edits.push((Kind::Better, edit));
        for row in self.rows() {
            for header in ["Date", "Until"] {
                let Some(column) = self.column(header) else { continue };
                // The day after the newest that the tests cost on, that of the next row, and long ago.
                for day in [46_347.0, 46_345.0, 45_000.0] {
                    put(self.number(row, column, day));
                }
                if let Value::Number(day) = self.value(row + 1, column) {
                    put(self.number(row, column, day));
                    put(self.number(row, column, day + 1.0));
                }
                put(self.say(row, column, "2026-11-19"));
                put(Edit::Clear { sheet: self.sheet(), row, column });
            }
            if let Some(column) = self.column("Preferred") {
                put(self.say(row, column, "yes"));
                put(self.say(row, column, "no"));
                put(Edit::Clear { sheet: self.sheet(), row, column });
            }
            if let Some((column, Value::Number(price))) = self.column("Price").map(|at| (at, self.value(row, at))) {
                put(self.number(row, column, price * 0.3));
            }
            if let Some((column, Value::Text(_))) = self.column("Price").map(|at| (at, self.value(row, at))) {
                put(self.number(row, column, 7.0));
            }
        }
        // The marks and the days of two rows changed about.
        for (header, row) in
            ["Preferred", "Date"].into_iter().flat_map(|header| self.rows().map(move |row| (header, row)))
        {
            let Some(column) = self.column(header).filter(|_| row < self.table.rows.1) else { continue };
            put(Edit::Then(vec![self.copied(row, row + 1, column), self.copied(row + 1, row, column)]));
        }
    }

    /// What stands in a row, typed into another one.
    fn copied(&self, from: i32, to: i32, column: i32) -> Edit {
        match self.value(from, column) {
            Value::Number(number) => self.number(to, column, number),
            Value::Text(words) => self.say(to, column, &words),
            _ => Edit::Clear { sheet: self.sheet(), row: to, column },
        }
    }

    fn another_day(&self, edits: &mut Vec<(Kind, Edit)>) {
        let Some(row) = self.rows().find(|row| self.value(*row, 1) == Value::Text("Costing date".to_owned())) else {
            return;
        };
        for day in [46_380.0, 46_346.0 - 15.0, 46_346.0 - 40.0, 46_346.0 - 400.0] {
            edits.push((Kind::Better, self.number(row, 2, day)));
        }
        edits.push((Kind::Better, Edit::Clear { sheet: self.sheet(), row, column: 2 }));
    }

    /// Rows typed as others stand, below the table and put in; of prices a newer one, one of the same day and an older one.
    fn added(&self, edits: &mut Vec<(Kind, Edit)>) {
        let (first, last) = self.table.rows;
        for like in self.rows() {
            for (row, put_in) in [(last + 1, false), (first + 1, true)] {
                let line = Edit::Line { sheet: self.sheet(), row, like, put_in };
                let typed = |header: &str, by: &dyn Fn(f64) -> f64| {
                    let column = self.column(header)?;
                    let Value::Number(number) = self.value(like, column) else { return None };
                    Some(self.number(row, column, by(number)))
                };
                for later in [1.0, 0.0, -1.0] {
                    let price = typed("Price", &|price| price * 0.9);
                    let day = typed("Date", &|day| day + later);
                    let weight = typed("Weight", &|weight| weight / 8.0);
                    let changed = [price, day, weight].into_iter().flatten();
                    edits.push((Kind::Row, Edit::Then([line.clone()].into_iter().chain(changed).collect())));
                    if self.table.sheet != "Prices" {
                        break;
                    }
                }
            }
        }
    }

    /// Cells cut: over the one below, into a blank one beside the table and below it, and two changed about.
    fn cut(&self, edits: &mut Vec<(Kind, Edit)>) {
        let (first, last) = self.table.rows;
        let far = (last + 40, self.table.wide + 3);
        for column in self.typed_columns() {
            let filled = |row: &i32| self.value(*row, column) != Value::Empty;
            let Some(row) = self.rows().find(filled) else { continue };
            let cut = |from, to| Edit::Cut { sheet: self.sheet(), from, to };
            let mut put = |edit| edits.push((Kind::Cut, edit));
            let next = if row < last { row + 1 } else { first };
            put(cut((row, column), (next, column)));
            put(cut((row, column), (row, far.1)));
            put(cut((row, column), far));
            let (here, there) = ((row, column), (next, column));
            if next != row && filled(&next) {
                put(Edit::Then(vec![cut(here, far), cut(there, here), cut(far, there)]));
            }
        }
    }

    /// Headers named anew and cleared.
    fn headers(&self, edits: &mut Vec<(Kind, Edit)>) {
        for column in self.typed_columns() {
            edits.push((Kind::Header, self.say(self.table.header, column, "Of last year")));
            edits.push((Kind::Header, Edit::Clear { sheet: self.sheet(), row: self.table.header, column }));
        }
    }

    /// Columns put in, taken out and moved; the sheet named anew, and copied.
    fn columns(&self, edits: &mut Vec<(Kind, Edit)>) {
        let mut put = |edit| edits.push((Kind::Column, edit));
        for column in 1..=self.table.wide {
            put(Edit::DeleteColumn { sheet: self.sheet(), column });
        }
        // A blank column behind the first one makes two tables of one where the book is read.
        for column in [1, self.table.wide] {
            put(Edit::InsertColumn { sheet: self.sheet(), column });
        }
        // The engine moves none through cells that are one, as on cards.
        if self.played.text(&self.table.sheet, 1, 1) != "Recipe" {
            put(Edit::MoveColumn { sheet: self.sheet(), column: 2, by: 1 });
        }
        put(Edit::Rename { sheet: self.sheet(), name: "Ours o'clock".to_owned() });
        put(Edit::CopySheet { sheet: self.sheet() });
    }
}
