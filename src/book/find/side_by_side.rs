//! Open tables of a sheet, side by side from left to right: which of them a cell stands under, or nearest to.

use super::open::OpenTable;
use crate::schema::TableKind;

/// The tables that go on, no two of which share a column.
#[derive(Debug, Default)]
pub(super) struct SideBySide<'g> {
    tables: Vec<OpenTable<'g>>,
    /// The first and last column of each.
    spans: Vec<(u32, u32)>,
    /// How many of them are lines of a card.
    lines: usize,
}

impl<'g> SideBySide<'g> {
    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.tables.is_empty()
    }

    /// The first and last column of each, from left to right.
    pub fn spans(&self) -> &[(u32, u32)] {
        &self.spans
    }

    /// Whether the lines of a card are among them.
    pub fn has_lines(&self) -> bool {
        self.lines > 0
    }

    /// The only one.
    pub fn only(&mut self) -> Option<&mut OpenTable<'g>> {
        if let [only] = self.tables.as_mut_slice() { Some(only) } else { None }
    }

    /// The one that begins in this column.
    pub fn beginning_at(&mut self, column: u32) -> Option<&mut OpenTable<'g>> {
        let at = self.spans.binary_search_by_key(&column, |span| span.0).ok()?;
        self.tables.get_mut(at)
    }

    /// The one that a column belongs to.
    pub fn over(&self, column: u32) -> Option<&OpenTable<'g>> {
        let at = self.spans.partition_point(|span| span.1 < column);
        self.tables.get(at).filter(|_| self.spans.get(at).is_some_and(|span| span.0 <= column))
    }

    /// Takes out those that share a column with `span`.
    pub fn take_under(&mut self, span: (u32, u32)) -> Vec<OpenTable<'g>> {
        let from = self.spans.partition_point(|open| open.1 < span.0);
        let to = self.spans.partition_point(|open| open.0 <= span.1).max(from);
        self.spans.drain(from..to);
        let ended: Vec<OpenTable<'g>> = self.tables.drain(from..to).collect();
        self.lines = self.lines.saturating_sub(ended.iter().filter(|table| is_lines(table)).count());
        ended
    }

    /// Adds one that shares no column with the others.
    pub fn add(&mut self, table: OpenTable<'g>) {
        let span = table.span();
        let at = self.spans.partition_point(|open| open.0 < span.0);
        self.lines = self.lines.saturating_add(usize::from(is_lines(&table)));
        self.spans.insert(at, span);
        self.tables.insert(at, table);
    }

    /// Takes out all of them.
    pub fn take_all(&mut self) -> Vec<OpenTable<'g>> {
        std::mem::take(self).tables
    }

    /// Parts `cells`, in the order of their columns, among the tables they stand under, else the nearest, and has each
    /// table take its own.
    pub fn share<C>(
        &mut self,
        cells: impl Iterator<Item = C>,
        column: impl Fn(&C) -> u32,
        take: impl FnMut(&mut OpenTable<'g>, &[C]),
    ) {
        let shares = shares(&self.spans, cells, column);
        self.give(&shares, |at| at, take);
    }

    /// As [`SideBySide::share`], but the tables that begin in `row` get none.
    pub fn share_among_older<C>(
        &mut self,
        row: u32,
        cells: impl Iterator<Item = C>,
        column: impl Fn(&C) -> u32,
        take: impl FnMut(&mut OpenTable<'g>, &[C]),
    ) {
        let of_each = self.tables.iter().zip(&self.spans).enumerate();
        let older = of_each.filter(|(_, (table, _))| table.start().row < row);
        let (places, spans): (Vec<usize>, Vec<(u32, u32)>) = older.map(|(at, (_, span))| (at, *span)).unzip();
        let shares = shares(&spans, cells, column);
        self.give(&shares, |at| places.get(at).copied().unwrap_or(at), take);
    }

    fn give<C>(
        &mut self,
        shares: &[(usize, Vec<C>)],
        place: impl Fn(usize) -> usize,
        mut take: impl FnMut(&mut OpenTable<'g>, &[C]),
    ) {
        for (at, share) in shares {
            if let Some(table) = self.tables.get_mut(place(*at)) {
                take(table, share);
            }
        }
    }
}

/// The cells that stand under each of `spans` or are nearest to it; of two equally near to the left one.
fn shares<C>(spans: &[(u32, u32)], cells: impl Iterator<Item = C>, column: impl Fn(&C) -> u32) -> Vec<(usize, Vec<C>)> {
    let mut shares: Vec<(usize, Vec<C>)> = Vec::new();
    for cell in cells {
        let at = column(&cell);
        let right = spans.partition_point(|span| span.1 < at);
        let left = right.checked_sub(1);
        let from_left = left.and_then(|left| spans.get(left)).map(|span| at.saturating_sub(span.1));
        let from_right = spans.get(right).map(|span| span.0.saturating_sub(at));
        let nearest = match (left, from_left, from_right) {
            (Some(left), Some(to_left), Some(to_right)) if to_left <= to_right => left,
            (Some(left), _, None) => left,
            _ => right,
        };
        match shares.last_mut() {
            Some((last, share)) if *last == nearest => share.push(cell),
            _ => shares.push((nearest, vec![cell])),
        }
    }
    shares
}

fn is_lines(table: &OpenTable<'_>) -> bool {
    table.kind() == Some(TableKind::CardLines)
}

#[cfg(test)]
mod tests {
    use super::shares;

    /// What the rule says, cell by cell and table by table.
    fn nearest(spans: &[(u32, u32)], at: u32) -> usize {
        let apart = |span: &(u32, u32)| span.0.saturating_sub(at).max(at.saturating_sub(span.1));
        let (place, _) = spans.iter().enumerate().min_by_key(|(_, span)| (apart(span), span.0)).unwrap();
        place
    }

    #[test]
    fn a_cell_goes_to_the_table_above_it_or_the_nearest() {
        for spans in [vec![(2, 4)], vec![(0, 1), (3, 3), (9, 12)], vec![(5, 6), (7, 7), (20, 21)]] {
            for step in 1..4 {
                let cells = (0..30).step_by(step);
                let shared = shares(&spans, cells.clone(), |at| *at);
                let told: Vec<(usize, u32)> =
                    shared.iter().flat_map(|(table, share)| share.iter().map(|at| (*table, *at))).collect();
                let expected: Vec<(usize, u32)> = cells.map(|at| (nearest(&spans, at), at)).collect();
                assert_eq!(told, expected, "{spans:?}");
                assert!(shared.windows(2).all(|two| two[0].0 != two[1].0), "each table once: {shared:?}");
            }
        }
    }
}
