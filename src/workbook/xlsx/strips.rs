//! Strips of a sheet on paper: one page wide where its letters stay large enough, or else several pages side by side, each
//! beginning with the first columns.
//!
//! Worked out for the narrower and the lower of both papers, Letter and A4, so that a sheet is divided alike on either.

use crate::in_order::InOrder;
use crate::workbook::cells::row::Frame;
use crate::workbook::layout::column_width;

/// What the margins leave of the narrower paper, in pixels of which 96 make an inch: A4 upright (8.27 inches), Letter lying
/// (11 inches), an inch less.
const UPRIGHT: u32 = 697;
const LYING: u32 = 960;
/// What they leave of the lower one: Letter upright (11 inches), A4 lying (8.27 inches), 1.3 inches less.
const UPRIGHT_HEIGHT: u32 = 931;
const LYING_HEIGHT: u32 = 668;
/// The least scale, in per cent: letters of 11 points come to no less than 9.
pub(super) const LEAST: u32 = 82;
/// The scale of strips.
const STRIP: u32 = 85;
/// What is kept free of a strip and of a page, in per cent: programs measure letters a little differently.
const USED: u32 = 98;
/// The least scale of a sheet whose pages begin where it says: 93 % of 13 points are 12.1.
const LEAST_LARGE: u32 = 93;

/// How a sheet is divided.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Strips {
    /// Whether the page stands upright.
    pub(super) upright: bool,
    /// The columns with which the second strip and those after it begin; none where one page is wide enough.
    pub(super) breaks: Vec<u16>,
    /// The last column on paper.
    pub(super) last: u16,
    /// What its letters come to, in per cent.
    pub(super) scale: u32,
    /// What they come to where a program is told how much, and does not measure.
    set: u32,
}

/// How the rows of a sheet come to pages.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) enum Pages {
    /// As the program fits them, as many as it takes.
    Fitted,
    /// All on one, as the program fits them.
    One,
    /// At this scale, in per cent, and beginning with these rows besides the first: programs that fit a sheet to pages pass over
    /// where those are to begin.
    Set(u32, Vec<u32>),
}

/// The width of a column in pixels on paper.
fn pixels(frame: &Frame, column: u16) -> u32 {
    const USUAL: u16 = 8;
    column_width::pixels(frame.widths.get(usize::from(column)).copied().unwrap_or(USUAL))
}

impl Strips {
    /// Those of a sheet whose cells go to the column `filled`, as far as that is known.
    pub(super) fn of(frame: &Frame, filled: Option<u16>) -> Self {
        let known = u16::try_from(frame.widths.len()).unwrap_or(u16::MAX).saturating_sub(1);
        let last = frame.page.last_column.unwrap_or_else(|| filled.unwrap_or(known));
        let width =
            |first: u16, end: u16| (first..end).map(|column| pixels(frame, column)).fold(0, u32::saturating_add);
        let end = last.saturating_add(1);
        let all = width(0, end).max(1);
        let scale = |room: u32| (room.saturating_mul(100) / all).min(100);
        let set = |room: u32| scale(room.saturating_mul(USED) / 100).max(LEAST);
        if frame.page.upright && scale(UPRIGHT) >= LEAST {
            return Strips { upright: true, breaks: Vec::new(), last, scale: scale(UPRIGHT), set: set(UPRIGHT) };
        }
        if scale(LYING) >= LEAST {
            return Strips { upright: false, breaks: Vec::new(), last, scale: scale(LYING), set: set(LYING) };
        }
        let room = LYING.saturating_mul(USED) / STRIP;
        let repeated = width(0, frame.page.first_columns);
        let mut breaks = Vec::new();
        let mut begins = 0;
        while begins < end {
            let room = if begins == 0 { room } else { room.saturating_sub(repeated) };
            // At least one column, however wide.
            let mut next = begins.saturating_add(1).max(frame.page.first_columns);
            while next < end && width(begins, next.saturating_add(1)) <= room {
                next = next.saturating_add(1);
            }
            let parts = frame.page.parts.filter(|parts| next < end && (begins.saturating_add(1)..next).contains(parts));
            begins = parts.unwrap_or(next);
            if begins < end {
                breaks.push(begins);
            }
        }
        Strips { upright: false, breaks, last, scale: STRIP, set: STRIP }
    }

    /// The last column of the strip that a column stands in.
    pub(super) fn end_of(&self, column: u16) -> u16 {
        let next = self.breaks.iter().find(|begins| **begins > column);
        next.map_or(self.last, |begins| begins.saturating_sub(1))
    }

    /// The height of a page in pixels of paper.
    fn height(&self) -> u32 {
        if self.upright { UPRIGHT_HEIGHT } else { LYING_HEIGHT }
    }

    /// The height of a page in pixels of the sheet, at a scale in per cent.
    fn page(&self, scale: u32) -> u32 {
        self.height().saturating_mul(USED) / scale.max(1)
    }

    /// How its rows come to pages; they are as high as `heights` says, in points, and `repeated` of them stand again on every
    /// page.
    pub(super) fn pages(&self, frame: &Frame, last_row: u32, heights: &[(u32, u32)], repeated: u32) -> Pages {
        let last_row = frame.page.last_row.unwrap_or(last_row);
        let is_whole = self.breaks.is_empty();
        if is_whole && frame.page.begins.is_empty() {
            let mut rows = Heights::of(heights);
            // Heights of rows are the same in every program: nothing is kept free.
            let least = self.height().saturating_mul(100) / LEAST;
            let mut all = 0_u32;
            for row in 0..=blocks_end(frame, last_row) {
                all = all.saturating_add(rows.of_row(row));
                if all > least {
                    break;
                }
            }
            // What would spill over comes nearer together.
            if all <= least {
                return if all <= self.page(self.scale) { Pages::Fitted } else { Pages::One };
            }
        }
        let set = if frame.page.begins.is_empty() { self.set } else { self.for_each(frame, last_row, heights) };
        let begins = self.begins(frame, last_row, heights, repeated, set);
        if is_whole && begins.is_empty() { Pages::Fitted } else { Pages::Set(set, begins) }
    }

    /// The largest scale at which those pages are pages that are it at the least.
    fn for_each(&self, frame: &Frame, last_row: u32, heights: &[(u32, u32)]) -> u32 {
        let (mut rows, mut begins) = (Heights::of(heights), frame.page.begins.iter().copied().peekable());
        let least = self.page(LEAST_LARGE.min(self.set));
        let (mut highest, mut used) = (0, 0_u32);
        for row in 0..=last_row {
            if begins.next_if_eq(&row).is_some() {
                highest = if used <= least { used.max(highest) } else { highest };
                used = 0;
            }
            used = used.saturating_add(rows.of_row(row));
        }
        highest = if used <= least { used.max(highest) } else { highest };
        let scales = (LEAST_LARGE..=self.set).rev();
        scales.into_iter().find(|scale| self.page(*scale) >= highest).unwrap_or(self.set)
    }

    /// The rows with which pages begin, where groups of rows or pictures are not to be cut.
    fn begins(&self, frame: &Frame, last_row: u32, heights: &[(u32, u32)], repeated: u32, set: u32) -> Vec<u32> {
        /// The most that a sheet may have (common practice, no source).
        const MOST: usize = 1_000;
        if frame.pictures.is_empty() && frame.page.groups.is_empty() && frame.page.begins.is_empty() {
            return Vec::new();
        }
        let page = self.page(set);
        let mut above = Heights::of(heights);
        let head = (0..repeated).map(|row| above.of_row(row)).fold(0, u32::saturating_add);
        let fresh = page.saturating_sub(head);
        let mut blocks = blocks(frame, last_row, heights).into_iter().peekable();
        let mut wanted = frame.page.begins.iter().copied().peekable();
        let (mut breaks, mut used, mut begins, mut rows) = (Vec::new(), 0_u32, 0_u32, Heights::of(heights));
        let end = blocks_end(frame, last_row);
        for row in 0..=end {
            let height = rows.of_row(row);
            let mut needed = height;
            while let Some((_, of_block)) = blocks.next_if(|(first, _)| *first <= row) {
                if of_block <= fresh {
                    needed = needed.max(of_block);
                }
            }
            let is_wanted = wanted.next_if_eq(&row).is_some();
            if (is_wanted || used.saturating_add(needed) > page) && row > begins.max(repeated) {
                breaks.push(row);
                if breaks.len() == MOST {
                    break;
                }
                (used, begins) = (head, row);
            }
            used = used.saturating_add(height);
        }
        breaks
    }
}

/// The height of rows in pixels, asked from the top down.
struct Heights<'a> {
    higher: std::iter::Peekable<std::slice::Iter<'a, (u32, u32)>>,
}

impl<'a> Heights<'a> {
    fn of(heights: &'a [(u32, u32)]) -> Self {
        Heights { higher: heights.iter().peekable() }
    }

    fn of_row(&mut self, row: u32) -> u32 {
        const USUAL: u32 = 20;
        while self.higher.next_if(|(known, _)| *known < row).is_some() {}
        match self.higher.peek() {
            Some((known, points)) if *known == row => points.saturating_mul(4) / 3,
            _ => USUAL,
        }
    }
}

/// The last row that something stands on, pictures included.
fn blocks_end(frame: &Frame, last_row: u32) -> u32 {
    // As rows of the usual height: rather too far than not far enough.
    let below = |at: u32, height: u32| at.saturating_add(height.div_ceil(20));
    frame.pictures.iter().map(|picture| below(picture.at.0, picture.size.1)).fold(last_row, u32::max)
}

/// What is not to be cut: its first row and its height, from the top down. Of groups each ends where the next begins.
fn blocks(frame: &Frame, last_row: u32, heights: &[(u32, u32)]) -> Vec<(u32, u32)> {
    let mut rows = Heights::of(heights);
    let ends = frame.page.groups.iter().skip(1).copied().chain([last_row.saturating_add(1)]);
    let group = |(first, end): (u32, u32)| {
        let height = (first..end).map(|row| rows.of_row(row)).fold(0, u32::saturating_add);
        (first, height)
    };
    let mut blocks: Vec<(u32, u32)> = frame.page.groups.iter().copied().zip(ends).map(group).collect();
    // A little more, for programs whose rows are lower.
    blocks.extend(frame.pictures.iter().map(|picture| (picture.at.0, picture.size.1.saturating_add(20))));
    blocks.put_in_order();
    blocks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workbook::cells::row::PrintedPage;

    fn strips(widths: Vec<u16>, page: PrintedPage) -> Strips {
        Strips::of(&Frame { page, ..Frame::new("A", widths) }, None)
    }

    #[test]
    fn a_sheet_is_upright_lying_or_in_strips_as_it_is_wide() {
        // 10 × 80 pixels in 697: 87 %. 12 × 80 = 960: 72 % upright, below 82 %; it lies, at its full size.
        let upright = PrintedPage { upright: true, ..PrintedPage::default() };
        let of = |columns: usize| strips(vec![10; columns], upright.clone());
        assert_eq!((of(10).upright, of(10).scale, of(10).breaks.len()), (true, 87, 0));
        assert_eq!((of(12).upright, of(12).scale, of(12).breaks.len()), (false, 100, 0));
        // 30 × 80 in strips of 960 × 98 / 85 = 1106 pixels: 13 columns, then the first again and 12 more.
        let page = PrintedPage { first_columns: 1, ..PrintedPage::default() };
        assert_eq!(strips(vec![10; 30], page.clone()).breaks, [13, 25]);
        // Between inputs and figures, where that comes first; nothing is gained by a third strip.
        assert_eq!(strips(vec![10; 30], PrintedPage { parts: Some(9), ..page.clone() }).breaks, [9, 21]);
        let whole = strips(vec![10; 21], PrintedPage { parts: Some(9), ..page });
        assert_eq!((whole.breaks.clone(), whole.end_of(8), whole.end_of(9)), (vec![9], 8, 20));
    }

    #[test]
    fn a_group_begins_a_page_that_it_would_else_be_cut_by() {
        // Upright at 100 %: 931 × 98 / 100 = 912 pixels, 45 rows of 20. The second group ends at row 50.
        let page = PrintedPage { upright: true, groups: vec![1, 30, 51], ..PrintedPage::default() };
        let frame = Frame { page, ..Frame::new("A", vec![10]) };
        let strips = Strips::of(&frame, None);
        assert_eq!(strips.pages(&frame, 60, &[], 1), Pages::Set(100, vec![30]));
        // With rows twice as high it would not fit a page either: 29 × 40 pixels. It is cut where the page ends.
        let high: Vec<(u32, u32)> = (1..=60).map(|row| (row, 30)).collect();
        assert_eq!(strips.pages(&frame, 60, &high, 1), Pages::Set(100, vec![23, 30, 51]));
    }

    #[test]
    fn a_page_that_would_spill_over_comes_nearer_together() {
        // 45 rows of 20 are a page of 912 pixels; at 82 % it holds 931 / 82 % = 1135, 56 rows.
        let frame =
            Frame { page: PrintedPage { upright: true, ..PrintedPage::default() }, ..Frame::new("A", vec![10]) };
        let of = |frame: &Frame, rows: u32| Strips::of(frame, None).pages(frame, rows.saturating_sub(1), &[], 0);
        assert_eq!([45, 56, 57].map(|rows| of(&frame, rows)), [Pages::Fitted, Pages::One, Pages::Fitted]);
        // What is not printed counts for nothing.
        let cut = Frame { page: PrintedPage { last_row: Some(53), ..frame.page.clone() }, ..frame.clone() };
        assert_eq!(of(&cut, 80), Pages::One);
        // Where a page is to begin, it begins.
        let begins = Frame { page: PrintedPage { begins: vec![10, 20], ..frame.page.clone() }, ..frame };
        assert_eq!(of(&begins, 30), Pages::Set(100, vec![10, 20]));
    }
}
