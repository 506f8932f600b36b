//! Extent of a sheet: the smallest block of cells that holds what was written.

/// The smallest block of cells that holds some.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Extent {
    pub(super) first: (u32, u16),
    pub(super) last: (u32, u16),
}

impl Extent {
    /// That of one cell.
    pub(super) fn of(row: u32, column: u16) -> Self {
        Extent { first: (row, column), last: (row, column) }
    }

    /// That of both.
    pub(super) fn with(self, other: Extent) -> Self {
        let least = |one: (u32, u16), other: (u32, u16)| (one.0.min(other.0), one.1.min(other.1));
        let most = |one: (u32, u16), other: (u32, u16)| (one.0.max(other.0), one.1.max(other.1));
        Extent { first: least(self.first, other.first), last: most(self.last, other.last) }
    }

    /// That of either, or both.
    pub(super) fn joined(one: Option<Extent>, other: Option<Extent>) -> Option<Extent> {
        one.into_iter().chain(other).reduce(Extent::with)
    }
}
