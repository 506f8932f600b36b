//! Four quadrants of a group: a point a dish by what was sold of it and its margin, the two lines, and the word for each
//! quadrant in its corner. The ends of lines and the corners stand beside the table, live, and not on paper.

use super::{Block, MARGIN, SHEET, SOLD};
use crate::analysis::menu_mix::{MixClass, MixDish, POPULAR_FROM};
use crate::in_order::InOrder;
use crate::number::{Decimal, plain};
use crate::results::figures::at_most;
use crate::results::menu_mix::class;
use crate::results::mix_quadrants::{BEYOND, LIFTED, MixQuadrants};
use crate::workbook::cells::chart::{Labels, Picture, PictureKind, Series, Span, Tint};
use crate::workbook::cells::formula::{Formula, Ref};
use crate::workbook::cells::row::{Cell, Ink, Look, Row, RowSink};
use crate::workbook::context::Context;

/// The most dishes in one picture: as many as can be told apart.
const MOST: usize = 20;
const SIZE: (u32, u32) = (900, 440);
/// The rows that it covers, of twenty pixels each.
const ROWS: u32 = 23;
/// The columns of the ends of lines and corners: what they are, across, up.
const NAME: u16 = 10;
const ACROSS: u16 = 11;
const UP: u16 = 12;
/// The picture of a group, below its row of lines.
pub(super) struct Quadrants {
    start: u32,
    lines: MixQuadrants,
}

impl Quadrants {
    /// That of a group whose dishes are in classes.
    pub(super) fn of(block: &Block<'_>) -> Option<Self> {
        let lines = MixQuadrants::of(block.group)?;
        Some(Quadrants { start: block.lines().saturating_add(2), lines })
    }

    /// The row with which it begins.
    pub(super) fn start(&self) -> u32 {
        self.start
    }

    /// The row below it.
    pub(super) fn end(&self) -> u32 {
        self.start.saturating_add(ROWS)
    }

    /// The dishes in it: those sold most.
    fn dishes<'m>(block: &Block<'m>) -> Vec<(usize, &'m MixDish)> {
        let known = block.group.dishes.iter().enumerate().filter(|(_, dish)| dish.margin.is_some());
        let mut dishes: Vec<(usize, &MixDish)> = known.collect();
        dishes.put_in_order_by(|one, other| other.1.sold.cmp(&one.1.sold).then(one.0.cmp(&other.0)));
        dishes.truncate(MOST);
        dishes
    }

    pub(super) fn picture(&self, context: &Context<'_>, block: &Block<'_>) -> Picture {
        let cell = |row, column| Span::cell(row, column);
        let dishes = Quadrants::dishes(block);
        let mut series: Vec<Series> = Vec::new();
        let mut told = Vec::new();
        for (index, dish) in &dishes {
            let row = block.row(*index);
            let name = context.kitchen.dishes.get(dish.dish).map(|dish| dish.name.as_str()).unwrap_or_default();
            let of = Series::new(name, cell(row, MARGIN), Tint::Food).plotted_over(cell(row, SOLD)).named_by(row, 0);
            series.push(of.labelled(Labels::NameRight));
            if let (Some(of), Some(margin)) = (dish.class, dish.margin) {
                told.push(format!("{name} {} at {}, {}", plain(dish.sold), at_most(margin, 2), class(of)));
            }
        }
        for (nth, name) in [(0, "Popular from"), (2, "High margin from")] {
            let first = self.start.saturating_add(nth);
            let span = |column| Span { column, first, last: first.saturating_add(1) };
            series.push(Series::new(name, span(UP), Tint::Line(1)).plotted_over(span(ACROSS)));
        }
        for (nth, of) in (4..).zip(MixClass::ALL) {
            let row = self.start.saturating_add(nth);
            let side = match of {
                MixClass::PopularHigh | MixClass::PopularLow => Labels::NameLeft,
                MixClass::SeldomHigh | MixClass::SeldomLow => Labels::NameRight,
            };
            series.push(
                Series::new(class(of), cell(row, UP), Tint::Unseen).plotted_over(cell(row, ACROSS)).labelled(side),
            );
        }
        let title = match block.group.name.as_str() {
            "" => "Which dishes are ordered, and which are worth it".to_owned(),
            name => format!("{name}: which dishes are ordered, and which are worth it"),
        };
        Picture {
            title,
            told: format!("Dishes by portions sold and margin in four quadrants: {}", told.join("; ")),
            kind: PictureKind::Points,
            at: (self.start, 0),
            size: SIZE,
            names: Span { column: 0, first: block.row(0), last: block.lines().saturating_sub(1) },
            series,
            names_look: Look::General,
            look: context.money(),
            axes: (
                Some("Margin of a portion; high from the level line".to_owned()),
                Some("Portions sold; popular from the upright line".to_owned()),
            ),
            begins: None,
        }
    }

    /// The ends of the lines and the corners, beside the picture.
    pub(super) fn rows(&self, block: &Block<'_>, out: &mut RowSink<'_>) {
        let MixQuadrants { popular, average, most, least, low, highest } = self.lines;
        let (sold, margins) = (block.all(SOLD), block.all(MARGIN));
        let line = |column| Ref::new(SHEET, block.lines(), column).from(SHEET);
        let popular = (format!("{}*{}/COUNT({sold})", plain(POPULAR_FROM), line(SOLD)), popular);
        let average = (line(MARGIN), average);
        let nothing = || ("0".to_owned(), Decimal::ZERO);
        let most = || (format!("MAX({sold})*{}", plain(BEYOND)), most);
        let bottom = || (format!("MIN(0,MIN({margins}))"), least);
        let top = || (format!("MAX({margins})*{}", plain(BEYOND)), highest);
        let low = || (format!("{}+{}*{}", bottom().0, top().0, plain(LIFTED)), low);
        let points = [
            ("Popular from", popular.clone(), bottom()),
            ("Popular from", popular, top()),
            ("High from", nothing(), average.clone()),
            ("High from", most(), average),
            (class(MixClass::PopularHigh), most(), top()),
            (class(MixClass::PopularLow), most(), low()),
            (class(MixClass::SeldomHigh), nothing(), top()),
            (class(MixClass::SeldomLow), nothing(), low()),
        ];
        for ((name, across, up), row) in points.into_iter().zip(self.start..) {
            let figure = |column, (text, result): (String, Decimal)| {
                Cell::figure(column, Formula::number(text, result), Look::General)
            };
            let cells = vec![Cell::text(NAME, name, Ink::Aside), figure(ACROSS, across), figure(UP, up)];
            out(Row { row, cells });
        }
    }
}
