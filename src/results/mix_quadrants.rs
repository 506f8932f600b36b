//! Quadrants of a group of dishes: where the two lines stand, and how far the picture goes.

use crate::analysis::menu_mix::MixGroup;
use crate::number::{Decimal, exact};

/// How far beyond the outermost dish the picture goes.
pub(crate) const BEYOND: Decimal = Decimal::from_parts(115, 0, 0, false, 2);

/// How high above the edge below the words of its corners stand, of all the height: clear of the axis.
pub(crate) const LIFTED: Decimal = Decimal::from_parts(4, 0, 0, false, 2);

/// The lines and the edges.
#[derive(Debug, Clone, Copy)]
pub(crate) struct MixQuadrants {
    /// The portions from which a dish is popular.
    pub popular: Decimal,
    /// The margin from which one is high.
    pub average: Decimal,
    /// Beyond the most that was sold of a dish.
    pub most: Decimal,
    /// The least margin, nothing at the most.
    pub least: Decimal,
    /// Where the words of the corners below stand.
    pub low: Decimal,
    /// Beyond the highest margin.
    pub highest: Decimal,
}

impl MixQuadrants {
    /// Those of a group whose dishes are in classes.
    pub(crate) fn of(group: &MixGroup) -> Option<Self> {
        if group.unclassed.is_some() {
            return None;
        }
        let margins = || group.dishes.iter().filter_map(|dish| dish.margin);
        let least = margins().min()?.min(Decimal::ZERO);
        let highest = exact::mul(margins().max()?, BEYOND).ok()?;
        Some(MixQuadrants {
            popular: exact::mul(group.popular_from?, group.sold?).ok()?,
            average: group.average_margin?,
            most: exact::mul(group.dishes.iter().map(|dish| dish.sold).max()?, BEYOND).ok()?,
            least,
            low: exact::add(least, exact::mul(highest, LIFTED).ok()?).ok()?,
            highest,
        })
    }
}
