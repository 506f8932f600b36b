//! Weight and money of a breakdown side by side: what of each went to the mains, to the by-products, to waste and loss.

use super::TrimSheet;
use super::flow::{lost, share_of_all};
use super::places::Places;
use crate::kitchen::TestId;
use crate::kitchen::yield_test::{Role, Test};
use crate::number::Decimal;
use crate::results::figures::percent_at_most;
use crate::results::weight_flow::FlowShares;
use crate::workbook::cells::chart::{LEAST_SHARE, Labels, Picture, PictureKind, Series, Span, Tint};
use crate::workbook::cells::row::Look;
use crate::workbook::context::Context;

/// The most tests that are shown.
const MOST: usize = 12;
/// The rows of a test: a blank one, its picture, its headers, the weight and the money, and a blank one.
pub(super) const ROWS: u32 = 16;
const PICTURE_ROWS: u32 = 10;
const PICTURE: (u32, u32) = (780, 195);

const SHARES: [(&str, Tint); 4] =
    [("Mains", Tint::Food), ("By-products", Tint::Trim), ("Waste", Tint::Waste), ("Loss", Tint::Loss)];

/// The tests that have by-products and bear money.
pub(super) fn shown(context: &Context<'_>, costed: &[TestId]) -> Vec<TestId> {
    costed.iter().copied().filter(|id| sides(context, *id).is_some()).take(MOST).collect()
}

fn sides<'a>(context: &Context<'a>, id: TestId) -> Option<(&'a Test, FlowShares)> {
    let (test, cost) = (context.kitchen.test(id)?, context.costing.test(id)?);
    let any = test.parts.iter().any(|part| part.role == Role::ByProduct);
    any.then(|| FlowShares::of(context.kitchen, id, test, cost)).flatten().map(|sides| (test, sides))
}

/// The row of the headers below a picture.
fn headers(at: u32) -> u32 {
    at.saturating_add(PICTURE_ROWS).saturating_add(2)
}

/// The rows that begin a test, and that below the last.
pub(super) fn groups(places: &Places) -> Vec<u32> {
    let ends = places.sided.last().map(|(_, at)| at.saturating_add(ROWS));
    // The heading stays with the first.
    places.sides.into_iter().chain(places.sided.iter().skip(1).map(|(_, at)| *at)).chain(ends).collect()
}

/// The pictures: two bars a test.
pub(super) fn pictures(context: &Context<'_>, places: &Places) -> Vec<Picture> {
    places.sided.iter().filter_map(|(id, at)| picture(context, *id, *at)).collect()
}

fn picture(context: &Context<'_>, id: TestId, at: u32) -> Option<Picture> {
    let (test, sides) = sides(context, id)?;
    let first = headers(at).saturating_add(1);
    let span = |column| Span { column, first, last: first.saturating_add(1) };
    let series = SHARES.into_iter().zip(1_u16..).map(|((name, tint), column)| {
        let name = match column {
            1 => with_parts(name, test, Role::Main),
            2 => with_parts(name, test, Role::ByProduct),
            _ => name.to_owned(),
        };
        Series::new(name, span(column), tint).labelled(Labels::Within(LEAST_SHARE))
    });
    let [mains, by_products, waste, loss] = sides.weight.map(|share| percent_at_most(share, 1));
    let [borne, credited] = sides.money.map(|share| percent_at_most(share, 1));
    Some(Picture {
        title: format!("{}: where the weight went, and the money", test.name),
        told: format!(
            "Two bars. Of the weight {mains} % mains, {by_products} % by-products, {waste} % waste, {loss} % loss; of the money {borne} % mains, {credited} % by-products"
        ),
        kind: PictureKind::Shares,
        // Clear of the first column, which stands again on every page.
        at: (at.saturating_add(1), 1),
        size: PICTURE,
        names: span(0),
        series: series.collect(),
        names_look: Look::General,
        look: Look::Percent(0),
        axes: (None, None),
        begins: None,
    })
}

/// `Mains: breast, legs`, as long as a key has room for.
fn with_parts(name: &str, test: &Test, role: Role) -> String {
    const MOST_LETTERS: usize = 45;
    let parts: Vec<&str> = test.parts.iter().filter(|part| part.role == role).map(|part| part.name.as_str()).collect();
    let told = format!("{name}: {}", parts.join(", "));
    if told.chars().count() <= MOST_LETTERS { told } else { name.to_owned() }
}

pub(super) fn write(page: &mut TrimSheet<'_>) {
    let Some(heading) = page.places.sides else { return };
    page.section(heading, "Weight and money side by side: the mains bear what the by-products are not charged");
    for (id, at) in page.places.sided.clone() {
        if let Some((test, sides)) = sides(page.context, id) {
            rows(page, id, at, test, &sides);
        }
    }
}

fn rows(page: &mut TrimSheet<'_>, id: TestId, at: u32, test: &Test, sides: &FlowShares) {
    let row = headers(at);
    page.headers(row, &[&test.name, "Mains", "By-products", "Waste", "Loss"]);
    let (weight, money) = (row.saturating_add(1), row.saturating_add(2));
    page.words(weight, 0, "Of the weight");
    page.words(money, 0, "Of the money");
    for ((role, share), column) in [Role::Main, Role::ByProduct, Role::Waste].into_iter().zip(sides.weight).zip(1..) {
        let parts = page.context.kitchen.part_ids(id).zip(&test.parts).filter(|(_, part)| part.role == role);
        let at: Vec<u32> = parts.filter_map(|(part, _)| page.places.parts.get(&part).copied()).collect();
        let of_weight: Vec<String> = at.iter().map(|row| share_of_all(page.places, id, *row)).collect();
        let of_money: Vec<String> = at.iter().map(|row| Places::cell(*row, 7)).collect();
        sum(page, (weight, column), &of_weight, share);
        let borne = sides.money.get(usize::from(column.saturating_sub(1))).copied();
        sum(page, (money, column), if borne.is_some() { &of_money } else { &[] }, borne.unwrap_or_default());
    }
    let [.., loss] = sides.weight;
    match lost(page, id, test) {
        Some(text) => page.figure(weight, 4, text, loss, Look::Percent(1)),
        None => page.reading(weight, 4, loss, Look::Percent(1)),
    }
    page.reading(money, 4, Decimal::ZERO, Look::Percent(1));
}

fn sum(page: &mut TrimSheet<'_>, (row, column): (u32, u16), terms: &[String], share: Decimal) {
    if terms.is_empty() {
        page.reading(row, column, share, Look::Percent(1));
    } else {
        page.figure(row, column, terms.join("+"), share, Look::Percent(1));
    }
}
