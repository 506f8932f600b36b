//! Lines of a recipe in a list, as long as they stand where they stood: its rows, those of others among them, its facts.

use crate::kitchen::InputRow;
use crate::kitchen::recipe::RecipeEntry;
use crate::schema::output::LINES_IN_PLACE;
use crate::schema::{Column, Label};
use crate::workbook::cells::formula::{Ref, elsewhere};
use crate::workbook::layout::recipe::{Facts, RecipeLayout, below, is_same, name_before, name_in_lists, typed_lines};

impl RecipeLayout {
    /// How many rows of a list name the recipe as its row of facts does: those of its lines, the same with the rows at
    /// either end, and those below the list, which ends with the row `last`. A formula in its row of facts, with what it
    /// comes to as long as no line was moved, added or taken out; `None` on a card, and where it has no lines.
    pub fn rows_of_its_name(&self, entry: &RecipeEntry, last: u32) -> Option<(String, usize)> {
        let Facts::Row(table, index) = &self.facts else { return None };
        let named = table.input(*index, Column::Recipe)?.cell();
        let column = self.input(0, Column::Recipe)?.column;
        let (first, end) = (self.first_line, self.line_row(self.lines.checked_sub(1)?));
        let ranges = [(first, end), (first.saturating_sub(1), end.saturating_add(1)), (last, below(last))];
        let counts =
            ranges.map(|(first, last)| format!("SUMPRODUCT(--({}={named}))", self.in_list(column, first, last)));
        let name = name_in_lists(entry);
        let is_named = |line: &InputRow| is_same(name_before(line, &name), &name);
        let own = typed_lines(entry).filter(|line| is_named(line)).count();
        let is_last = end == last && typed_lines(entry).last().is_some_and(is_named);
        Some((counts.join("+"), own.saturating_mul(2).saturating_add(usize::from(is_last))))
    }

    /// That the recipe stands twice in the list of recipes, which ends at its zero-based row `end_of_facts`, or that lines of
    /// others stand among its own: then one of them has more lines than it is costed with, and none can tell which. Where a
    /// recipe was but named anew its lines are nobody's, and no other recipe has more. `None` as above.
    pub fn others_within(&self, entry: &RecipeEntry, end_of_facts: u32) -> Option<String> {
        let Facts::Row(table, index) = &self.facts else { return None };
        let named = table.input(*index, Column::Recipe)?;
        let column = self.input(0, Column::Recipe)?.column;
        let (first, end) = (self.first_line, self.line_row(self.lines.checked_sub(1)?));
        let within = self.in_list(column, first, end);
        let own = format!("SUMPRODUCT(--({within}={}))", named.cell());
        let name = name_in_lists(entry);
        let others = typed_lines(entry).filter(|line| !is_same(name_before(line, &name), &name)).count();
        let all = |row| Ref { row, ..named.clone() }.absolute();
        let times = |name: &str| format!("SUMPRODUCT(--({}:{}={name}))", all(0), all(end_of_facts));
        let (twice, known) = (times(&named.cell()), times(&self.input(0, Column::Recipe)?.from(self.facts_sheet())));
        Some(format!("OR({twice}>1,AND(COUNTA({within})-{own}<>{others},OR({own}>0,{known}>0)))"))
    }

    /// The cell that says whether its lines stand where they stood; `None` on a card.
    pub fn in_place(&self) -> Option<Ref> {
        match &self.facts {
            Facts::Row(table, index) => Some(table.own(*index, LINES_IN_PLACE)),
            Facts::Card(..) => None,
        }
    }

    /// That the recipe's name in a list, or what else its row of facts says, stands no more where it stood.
    pub fn facts_elsewhere(&self, entry: &RecipeEntry) -> Vec<String> {
        let Facts::Row(table, index) = &self.facts else { return Vec::new() };
        let name = table.input(*index, Column::Recipe).filter(|_| table.roomy);
        // Read from a card, it has no column of its own.
        let name = name.filter(|_| entry.input.typed(Column::Recipe).is_blank());
        let name = name.map(|cell| elsewhere(&cell, 0, Label::Recipe.text()));
        name.into_iter().flatten().chain(table.elsewhere(*index, &entry.input)).collect()
    }
}
