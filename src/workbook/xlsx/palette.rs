//! Palette of the charts: a colour for everything that is drawn, its edge, and what is written on it.
//!
//! Colours are dark or light. Parts of one bar are dark and light in turn; where one between them is nothing, their edges
//! part them: a white one round dark colours, a dark one round light ones.

use rust_xlsxwriter::{ChartLineDashType, ChartMarkerType, Color};

use crate::workbook::cells::chart::Tint;

const WHITE: u32 = 0xFF_FF_FF;
const DARKEST: u32 = 0x26_32_2E;

/// What is written in charts, and the edge of light colours.
pub(super) const DARK: Color = Color::RGB(DARKEST);

/// The colour of a tint.
pub(super) fn colour(tint: Tint) -> Color {
    Color::RGB(rgb(tint))
}

/// The colour of its edge.
pub(super) fn edge(tint: Tint) -> Color {
    Color::RGB(edge_rgb(tint))
}

/// The colour of what is written on it.
pub(super) fn ink_on(tint: Tint) -> Color {
    Color::RGB(if is_light(tint) { DARKEST } else { WHITE })
}

fn edge_rgb(tint: Tint) -> u32 {
    if is_light(tint) { DARKEST } else { WHITE }
}

/// The dashes of a line, by its place among several.
pub(super) fn dash(nth: usize) -> ChartLineDashType {
    use ChartLineDashType::{Dash, LongDashDot, RoundDot, Solid, SquareDot};
    [Solid, Dash, SquareDot, LongDashDot, RoundDot].into_iter().cycle().nth(nth).unwrap_or(Solid)
}

/// The marks on a line, likewise.
pub(super) fn marker(nth: usize) -> ChartMarkerType {
    use ChartMarkerType::{Circle, Diamond, Square, Triangle, X};
    [Circle, Square, Triangle, Diamond, X].into_iter().cycle().nth(nth).unwrap_or(Circle)
}

fn is_light(tint: Tint) -> bool {
    match tint {
        Tint::Trim | Tint::Waste | Tint::Target | Tint::Spice | Tint::Margin | Tint::Cheaper | Tint::Unseen => true,
        Tint::Food | Tint::TrimLeft | Tint::Loss | Tint::Q | Tint::Tax | Tint::Basket | Tint::Dearer => false,
        Tint::Line(_) => false,
    }
}

/// Red, green and blue, a byte each.
fn rgb(tint: Tint) -> u32 {
    match tint {
        Tint::Food => 0x2F_5D_50,
        Tint::Trim => 0xCF_E3_DA,
        Tint::TrimLeft => 0x4F_85_73,
        Tint::Waste => 0xF5_DC_AE,
        Tint::Loss => 0x6B_5F_52,
        Tint::Target => 0xDD_DB_EE,
        Tint::Q => 0x6A_42_70,
        Tint::Spice => 0xEC_D5_E4,
        Tint::Tax => 0x3D_54_7D,
        Tint::Margin => 0xF6_EF_C6,
        Tint::Basket => 0x48_52_5C,
        Tint::Dearer => 0x93_3D_20,
        Tint::Cheaper => 0xC8_DD_F2,
        Tint::Line(nth) => [0x1F_3F_66, 0x93_55_0E, 0x5C_2E_66, 0x3B_6B_3B, 0x5A_5A_5A]
            .into_iter()
            .cycle()
            .nth(nth)
            .unwrap_or_default(),
        Tint::Unseen => WHITE,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance (WCAG 2.2, definition of that name), of which grey is made.
    #[allow(clippy::float_arithmetic, clippy::disallowed_types, reason = "the standard's own formula is one of floats")]
    fn luminance(rgb: u32) -> f64 {
        let channel = |shift: u32| {
            let share = f64::from((rgb >> shift) & 0xFF) / 255.0;
            if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * channel(16) + 0.7152 * channel(8) + 0.0722 * channel(0)
    }

    #[allow(clippy::float_arithmetic, clippy::disallowed_types, reason = "the standard's own formula is one of floats")]
    fn contrast(one: u32, other: u32) -> f64 {
        let (one, other) = (luminance(one), luminance(other));
        (one.max(other) + 0.05) / (one.min(other) + 0.05)
    }

    /// Parts of one bar, in the order in which they stand.
    const BARS: [&[Tint]; 4] = [
        &[Tint::Food, Tint::Trim, Tint::TrimLeft, Tint::Waste, Tint::Loss],
        &[Tint::Food, Tint::Trim, Tint::Q, Tint::Spice, Tint::Tax, Tint::Margin],
        &[Tint::Food, Tint::Target],
        &[Tint::Dearer, Tint::Cheaper],
    ];

    #[test]
    fn neighbours_are_told_apart_in_grey() {
        // WCAG 2.2, 1.4.11: parts of a picture stand out from those beside them by 3 to 1. Black on white is 21 to 1.
        assert!((contrast(0, WHITE) - 21.0).abs() < 1e-9);
        for pair in BARS.iter().flat_map(|bar| bar.windows(2)) {
            let found = contrast(rgb(pair[0]), rgb(pair[1]));
            assert!(found >= 3.0, "{pair:?}: {found:.2}");
        }
        // Where what stands between them is nothing, two of a kind are parted by an edge that stands out from both.
        for bar in BARS {
            for (one, other) in bar.iter().flat_map(|one| bar.iter().map(move |other| (*one, *other))) {
                let edges = contrast(edge_rgb(one), rgb(one)).min(contrast(edge_rgb(other), rgb(other)));
                let told = contrast(rgb(one), rgb(other)) >= 3.0 || (edge_rgb(one) == edge_rgb(other) && edges >= 3.0);
                assert!(one == other || told, "{one:?} beside {other:?}");
            }
        }
    }

    #[test]
    fn every_colour_stands_out_from_the_paper_or_has_an_edge_that_does() {
        let lines = [0, 1, 2, 3, 4].map(Tint::Line);
        for tint in BARS.iter().flat_map(|bar| bar.iter()).chain(&lines).chain(&[Tint::Basket]) {
            let seen = contrast(rgb(*tint), WHITE).max(contrast(edge_rgb(*tint), WHITE));
            assert!(seen >= 3.0, "{tint:?}: {seen:.2}");
            // WCAG 2.2, 1.4.3: letters by 4.5 to 1.
            let ink = if is_light(*tint) { DARKEST } else { WHITE };
            // Loss is the lightest of the dark ones and holds figures of 9 points like the others.
            assert!(contrast(rgb(*tint), ink) >= 4.0, "{tint:?}: {:.2}", contrast(rgb(*tint), ink));
        }
    }

    #[test]
    fn no_two_things_have_one_colour() {
        let mut all: Vec<u32> = BARS.iter().flat_map(|bar| bar.iter()).map(|tint| rgb(*tint)).collect();
        all.extend([0, 1, 2, 3, 4].map(|nth| rgb(Tint::Line(nth))));
        all.push(rgb(Tint::Basket));
        all.sort_unstable();
        // Food and trim are in two bars, food in three.
        let named = all.len();
        all.dedup();
        assert_eq!(named - all.len(), 3);
    }
}
