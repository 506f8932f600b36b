//! Way from what the basket cost to what it costs: a row a step, live, and the bars that show it.

use super::{ROW_PIXELS, Writing, before, height, live, prices};
use crate::number::Decimal;
use crate::results::basket_way::{BasketStep, BasketWay, StepCause};
use crate::results::changes::Changes;
use crate::results::figures::at_most;
use crate::workbook::cells::chart::{Labels, Picture, PictureKind, Series, Span, Tint};
use crate::workbook::cells::row::{Cell, Ink, Look};
use crate::workbook::context::Context;

/// What the picture is drawn from; lengths below nothing are those of a basket that others pay for.
const HEADERS: [&str; 11] = [
    "Step",
    "Adds",
    "Comes to",
    "Carried by",
    "The basket",
    "Costs more",
    "Costs less",
    "More, below 0",
    "Less, below 0",
    "As added",
    "As taken off",
];

/// The row of its heading: a blank one stands above it.
fn heading(changes: &Changes<'_>) -> u32 {
    let drawn = u32::try_from(super::pictured(changes).len()).unwrap_or_default();
    prices::pictured_row(changes).saturating_add(drawn).saturating_add(1)
}

/// How many rows the table has: what it cost, the steps, what it costs.
fn len(way: &BasketWay) -> u32 {
    u32::try_from(way.steps.len()).unwrap_or_default().saturating_add(2)
}

/// The row of its first step but one: what the basket cost.
fn first(changes: &Changes<'_>, way: &BasketWay) -> u32 {
    heading(changes).saturating_add(2).saturating_add(height(len(way)).div_ceil(ROW_PIXELS)).saturating_add(1)
}

/// The rows with which the picture and its heading begin, the table, and the next thing.
pub(super) fn groups(changes: &Changes<'_>) -> Vec<u32> {
    let way = BasketWay::of(changes.effects);
    way.map(|way| {
        let first = first(changes, &way);
        vec![heading(changes), first.saturating_sub(1), first.saturating_add(len(&way))]
    })
    .unwrap_or_default()
}

fn name(changes: &Changes<'_>, by: StepCause) -> String {
    match by {
        StepCause::Item(at) => {
            changes.effects.movers.get(at).map(|mover| changes.item(mover.item)).unwrap_or_default().to_owned()
        }
        StepCause::Others(_, 1) => "1 other item".to_owned(),
        StepCause::Others(_, many) => format!("{many} other items"),
        StepCause::Rest => "no one item".to_owned(),
    }
}

/// The picture, between the heading and the table.
pub(super) fn picture(context: &Context<'_>, changes: &Changes<'_>) -> Option<Picture> {
    let way = BasketWay::of(changes.effects)?;
    let begins = first(changes, &way);
    let span = |column| Span { column, first: begins, last: begins.saturating_add(len(&way)).saturating_sub(1) };
    let series = |column: u16, tint, labels| {
        let name = HEADERS.get(usize::from(column)).copied().unwrap_or_default();
        Series::new(name, span(column), tint).labelled(labels)
    };
    let steps = way.steps.iter().map(|step| format!("{} {}", name(changes, step.by), at_most(step.change, 2)));
    let axis = way.begins.map(|_| "This axis does not begin at nothing".to_owned());
    Some(Picture {
        title: format!("The way from the old prices to the new, over {}", changes.basket()),
        told: format!(
            "Bars from {} before to {} now, a step for each item that moved: {}",
            at_most(way.was, 2),
            at_most(way.now, 2),
            steps.collect::<Vec<String>>().join("; ")
        ),
        kind: PictureKind::Shares,
        at: (heading(changes).saturating_add(1), 0),
        size: (900, height(len(&way))),
        names: span(0),
        series: vec![
            series(3, Tint::Unseen, Labels::None),
            series(4, Tint::Basket, Labels::Within(least(&way))),
            series(5, Tint::Dearer, Labels::None),
            series(6, Tint::Cheaper, Labels::None),
            Series { name: "Costs more".to_owned(), ..series(7, Tint::Dearer, Labels::None) },
            Series { name: "Costs less".to_owned(), ..series(8, Tint::Cheaper, Labels::None) },
            series(9, Tint::Unseen, Labels::Added),
            series(10, Tint::Unseen, Labels::TakenOff),
        ],
        names_look: Look::General,
        look: context.money(),
        axes: (axis, None),
        begins: way.begins,
    })
}

/// The least total that is labelled: every one.
fn least(way: &BasketWay) -> Decimal {
    way.was.min(way.now)
}

/// The heading, room for the picture, and what that is drawn from.
pub(super) fn way(page: &mut Writing<'_, '_>) {
    let changes = page.changes;
    let Some(way) = BasketWay::of(changes.effects) else { return };
    page.row = heading(changes);
    let title = format!("The way from what {} cost to what it costs", changes.basket());
    page.put(vec![Cell::text(0, title, Ink::Section)]);
    page.row = first(changes, &way).saturating_sub(1);
    page.put(HEADERS.iter().zip(0_u16..).map(|(header, at)| Cell::over(at, header, false)).collect());
    let money = page.context.money();
    let basket = page.here(2);
    page.put(vec![
        Cell::text(0, "Before", Ink::Reading),
        before(2, way.was, money.clone()),
        live(4, basket, way.was, money.clone()),
    ]);
    for step in &way.steps {
        let cells = row(page, step);
        page.put(cells);
    }
    let last = page.above(2);
    let basket = page.here(2);
    page.put(vec![
        Cell::text(0, "Now", Ink::Reading),
        live(2, last, way.now, money.clone()),
        live(4, basket, way.now, money),
    ]);
}

fn row(page: &Writing<'_, '_>, step: &BasketStep) -> Vec<Cell> {
    let (changes, money) = (page.changes, page.context.money());
    let name = Cell::text(0, name(changes, step.by), Ink::Reading);
    let change = match step.by {
        StepCause::Item(at) => live(1, prices::worth_cell(changes, at).cell(), step.change, money.clone()),
        StepCause::Others(ends, _) => {
            let [first, last] = ends.map(|at| prices::worth_cell(changes, at).cell());
            live(1, format!("SUM({first}:{last})"), step.change, money.clone())
        }
        StepCause::Rest => before(1, step.change, money.clone()),
    };
    let (by, was, now) = (page.here(1), page.above(2), page.here(2));
    let (low, high) = (format!("MIN({was},{now})"), format!("MAX({was},{now})"));
    let [above, below] = step.bar.length;
    let is_more = step.change > Decimal::ZERO;
    let length = |column, is_of, sign: &str, text: &str, length: Decimal| {
        let result = if is_of { length } else { Decimal::ZERO };
        live(column, format!("IF({by}{sign}0,{text},0)"), result, money.clone())
    };
    let up = format!("MAX(0,{high})-MAX(0,{low})");
    let down = format!("MIN(0,{low})-MIN(0,{high})");
    let size = |is_of| if is_of { step.size } else { Decimal::ZERO };
    vec![
        name,
        change,
        live(2, format!("{was}+{by}"), step.comes_to, money.clone()),
        live(3, format!("MAX(0,{low})+MIN(0,{high})"), step.bar.base, money.clone()),
        length(5, is_more, ">", &up, above),
        length(6, !is_more, "<", &up, above),
        length(7, is_more, ">", &down, below),
        length(8, !is_more, "<", &down, below),
        live(9, format!("MAX(0,{by})"), size(is_more), money.clone()),
        live(10, format!("MAX(0,-{by})"), size(!is_more), money.clone()),
    ]
}
