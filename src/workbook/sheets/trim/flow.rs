//! Flow of weight and money: a row for every part, and the picture of it.

use super::TrimSheet;
use super::places::Places;
use crate::analysis::Trim;
use crate::kitchen::yield_test::{Role, Test};
use crate::kitchen::{PartId, TestId};
use crate::number::Decimal;
use crate::results::display_units::DisplayUnit;
use crate::results::figures::percent_at_most;
use crate::results::weight_flow::{Becomes, WeightFlow};
use crate::results::{charge_words, loss_words};
use crate::schema::own_sheets;
use crate::workbook::cells::chart::{LEAST_SHARE, Labels, Picture, PictureKind, Series, Span, Tint};
use crate::workbook::cells::formula::Formula;
use crate::workbook::cells::row::{Cell, Look};
use crate::workbook::context::Context;
use crate::workbook::layout::sheet_names;

const HEADERS: [&str; 9] = own_sheets::TRIM_FLOW;
const SHARES: [&str; 6] = ["The picture's figures", "Mains", "Trim used", "Trim left over", "Waste", "Loss"];

/// The picture: one bar a test; none where no test is costed.
pub(super) fn picture(context: &Context<'_>, trim: &Trim, places: &Places) -> Option<Picture> {
    let tests = u32::try_from(places.pictured.len()).ok().filter(|tests| *tests > 0)?;
    let first = places.shares.saturating_add(2);
    let span = |column| Span { column, first, last: first.saturating_add(tests).saturating_sub(1) };
    let tints = [Tint::Food, Tint::Trim, Tint::TrimLeft, Tint::Waste, Tint::Loss];
    let told = places.pictured.iter().filter_map(|id| {
        let (test, cost) = (context.kitchen.test(*id)?, context.costing.test(*id)?);
        let becomes = Becomes::of(context.kitchen, *id, test, cost, trim.balance.as_ref())?;
        let mains = percent_at_most(becomes.shares.first().copied().unwrap_or_default(), 0);
        Some(format!("{} {mains} % mains", test.name))
    });
    let series = SHARES
        .iter()
        .skip(1)
        .zip(tints)
        .zip(1_u16..)
        .map(|((name, tint), column)| Series::new(*name, span(column), tint).labelled(Labels::Within(LEAST_SHARE)));
    Some(Picture {
        title: "What becomes of what goes in".to_owned(),
        told: format!(
            "A bar for every test, divided into mains, trim used, trim left over, waste and loss by weight: {}",
            told.collect::<Vec<String>>().join("; ")
        ),
        kind: PictureKind::Shares,
        // Clear of the first column, which stands again on every page.
        at: (places.picture.0, 1),
        size: (780, places.picture.1.saturating_mul(20)),
        names: span(0),
        series: series.collect(),
        names_look: Look::General,
        look: Look::Percent(0),
        axes: (Some("Share of all the weight that went in".to_owned()), None),
        begins: None,
    })
}

pub(super) fn write(page: &mut TrimSheet<'_>) {
    page.head(page.places.flow, "Where the weight and the money went", &HEADERS);
    page.head(page.places.shares, "What the picture is drawn from", &SHARES);
    for (nth, id) in page.places.pictured.clone().into_iter().enumerate() {
        test(page, id);
        shares(page, id, nth);
    }
}

fn test(page: &mut TrimSheet<'_>, id: TestId) {
    let context = page.context;
    let (Some(test), Some(cost)) = (context.kitchen.test(id), context.costing.test(id)) else { return };
    let Some(title) = page.places.heads.get(&id).copied() else { return };
    let Some(head) = test.runs.first().map(|run| run.row) else { return };
    let own = |header| {
        context.own(crate::schema::TableKind::YieldTests, head, header).map(|cell| cell.from(sheet_names::TRIM))
    };
    let (Some(weight), Some(carried), Some(loss)) = (own("Weight pooled"), own("Cost carried"), own("Loss in grams"))
    else {
        return;
    };
    let unit = DisplayUnit::of_test(context.kitchen, test);
    let flow = WeightFlow::of(cost);
    let in_unit = |grams: Decimal| unit.count(grams).unwrap_or_default();
    let factor = crate::number::plain(unit.size);
    page.words(title, 0, &test.name);
    page.figure(title, 2, format!("{weight}/{factor}"), in_unit(cost.grams), Look::Quantity);
    page.words(title, 3, &unit.name);
    page.figure(title, 6, carried.clone(), cost.cost, context.money());
    if let Some(row) = page.places.added.get(&id).copied() {
        page.words(row, 0, &loss_words::added(&context.kitchen.entries, test));
        page.words(row, 1, Role::Added.word());
        let weights: Vec<String> = test
            .added
            .iter()
            .filter_map(|added| context.own(crate::schema::TableKind::YieldTests, added.row, "Weight in grams"))
            .map(|cell| cell.from(sheet_names::TRIM))
            .collect();
        let text = format!("({})/{factor}", weights.join("+"));
        page.figure(row, 2, text, in_unit(cost.added_grams), Look::Quantity);
        page.words(row, 3, &unit.name);
        if let Some(share) = flow.added() {
            page.figure(row, 4, format!("({})/{weight}", weights.join("+")), share, Look::Percent(1));
        }
    }
    for (index, (part, figures)) in test.parts.iter().zip(&cost.parts).enumerate() {
        let part_id = PartId::new(id, index);
        let Some(row) = page.places.parts.get(&part_id).copied() else { continue };
        let cell = |header| context.part_cell(part_id, header).map(|cell| cell.from(sheet_names::TRIM));
        page.words(row, 0, &part.name);
        page.words(row, 1, part.role.word());
        if let Some(pooled) = cell("Weight pooled") {
            page.figure(row, 2, format!("{pooled}/{factor}"), in_unit(figures.grams), Look::Quantity);
        }
        page.words(row, 3, &unit.name);
        if let Some(share) = cell("Share of weight") {
            page.figure(row, 4, share, figures.fraction, Look::Percent(1));
        }
        if part.role == Role::Waste {
            continue;
        }
        page.words(row, 5, &charge_words::words(context.kitchen, test, part));
        if let Some(bears) = cell("Cost carried") {
            page.figure(row, 6, bears, figures.cost, context.money());
        }
        if let Some(of_money) = flow.of_money(figures) {
            let text = format!("{}/{}", Places::cell(row, 6), Places::cell(title, 6));
            page.figure(row, 7, text, of_money, Look::Percent(1));
        }
        if let Some(per_unit) = figures.rate.and_then(|rate| unit.cost_at(rate)) {
            let text = format!("{}/{}", Places::cell(row, 6), Places::cell(row, 2));
            page.figure(row, 8, text, per_unit, context.money());
        }
    }
    let Some(row) = page.places.losses.get(&id).copied() else { return };
    let name = loss_words::of(test.kind);
    let told = if flow.is_over() { loss_words::OVER } else { name };
    // Weights that add up leave a speck in a spreadsheet's numbers.
    let label = Formula::text(format!("IF(ROUND({loss},6)<0,\"{}\",\"{name}\")", loss_words::OVER), told);
    page.put(row, Cell::figure(0, label, Look::General));
    page.figure(row, 2, format!("ABS({loss})/{factor}"), in_unit(flow.missing_grams()), Look::Quantity);
    page.words(row, 3, &unit.name);
    if let Some(share) = flow.missing() {
        page.figure(row, 4, format!("ABS({loss})/{weight}"), share, Look::Percent(1));
    }
    if let (true, Some(taken_up)) = (page.places.added.contains_key(&id), own("Taken up in grams")) {
        let row = row.saturating_add(1);
        page.words(row, 0, &loss_words::taken_up(&context.kitchen.entries, test));
        page.figure(row, 2, format!("{taken_up}/{factor}"), in_unit(cost.taken_up_grams), Look::Quantity);
        page.words(row, 3, &unit.name);
        if let Some(share) = flow.taken_up() {
            page.figure(row, 4, format!("{taken_up}/{weight}"), share, Look::Percent(1));
        }
    }
}

/// One bar of the picture, as shares of all that went in, so that every bar is as long: of trim, what the plan uses of what it
/// makes; all of it is used where nothing is planned.
fn shares(page: &mut TrimSheet<'_>, id: TestId, nth: usize) {
    let context = page.context;
    let (Some(test), Some(cost)) = (context.kitchen.test(id), context.costing.test(id)) else { return };
    let row = page.places.shares.saturating_add(2).saturating_add(u32::try_from(nth).unwrap_or_default());
    page.words(row, 0, &test.name);
    let Some(becomes) = Becomes::of(context.kitchen, id, test, cost, page.trim.balance.as_ref()) else { return };
    let share_of = |row: u32| share_of_all(page.places, id, row);
    let mut bars: [Vec<String>; 4] = Default::default();
    for (part_id, split) in context.kitchen.part_ids(id).zip(&becomes.parts) {
        let Some(at) = page.places.parts.get(&part_id).map(|row| share_of(*row)) else { continue };
        for (bar, share) in bars.iter_mut().zip(split.unwrap_or_default()).filter(|(_, share)| !share.is_zero()) {
            let is_all = share == Decimal::ONE;
            bar.push(if is_all { at.clone() } else { format!("{at}*{}", crate::number::plain(share)) });
        }
    }
    for ((texts, sum), column) in bars.into_iter().zip(becomes.shares).zip(1_u16..) {
        // What is used and what is left over stands on the plan.
        let of_plan = page.trim.balance.is_some() && (column == 2 || column == 3);
        let planned = if of_plan { page.as_planned() } else { None };
        match planned {
            Some(_) if texts.is_empty() => page.planned(row, column, Decimal::ZERO, Look::Percent(1)),
            Some(planned) => {
                let text = format!("IF({planned},{},\"cost again\")", texts.join("+"));
                page.figure(row, column, text, sum, Look::Percent(1));
            }
            None if texts.is_empty() => page.reading(row, column, Decimal::ZERO, Look::Percent(1)),
            None => page.figure(row, column, texts.join("+"), sum, Look::Percent(1)),
        }
    }
    if let (Some(text), Some(share)) = (lost(page, id, test), becomes.lost) {
        page.figure(row, 5, text, share, Look::Percent(1));
    }
}

/// The share of what stands in a row of a test over all that went in, what was added included.
pub(super) fn share_of_all(places: &Places, id: TestId, row: u32) -> String {
    match places.heads.get(&id).zip(places.added.get(&id)) {
        Some((own, added)) => {
            format!("{}/({}+{})", Places::cell(row, 2), Places::cell(*own, 2), Places::cell(*added, 2))
        }
        None => Places::cell(row, 4),
    }
}

/// What a test loses of all that went in; nothing where more came out.
pub(super) fn lost(page: &TrimSheet<'_>, id: TestId, test: &Test) -> Option<String> {
    let share = share_of_all(page.places, id, *page.places.losses.get(&id)?);
    let head = test.runs.first()?.row;
    let grams = page.context.own(crate::schema::TableKind::YieldTests, head, "Loss in grams")?;
    Some(format!("IF({}<0,0,{share})", grams.from(sheet_names::TRIM)))
}
