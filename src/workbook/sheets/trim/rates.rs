//! The rates that the three kitchens stand on, per gram: what every part carries, and what those who use it pay.

use super::TrimSheet;
use super::places::Places;
use super::within;
use crate::analysis::trim_savings::{Kept, bought_per_gram, own_rate, sells_at};
use crate::costing::Costing;
use crate::kitchen::plan::Served;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::reuse::Otherwise;
use crate::kitchen::yield_test::{Charge, Part, Role, Test};
use crate::kitchen::{PartId, TestId};
use crate::number::Decimal;
use crate::results::figures::per_base_unit;
use crate::schema::TableKind;
use crate::workbook::cells::row::Look;
use crate::workbook::layout::sheet_names;

const HEADERS: [&str; 15] = [
    "Per gram",
    "As costed",
    "Carries, binned",
    "Carries, free",
    "Carries, credited",
    "Users pay, binned",
    "Users pay, free",
    "Users pay, credited",
    "Grams used",
    "Grams short",
    "Buying in",
    "Bought per gram",
    "Grams sold",
    "Trim within, to buy",
    "Trim within, as charged",
];
const USES: [&str; 4] = ["A portion of", "takes", "", "of"];

/// The column of what a part carries in a kitchen; what users pay stands three further on.
fn carries(kept: Kept) -> u16 {
    match kept {
        Kept::Binned => 2,
        Kept::Free => 3,
        Kept::Credited => 4,
    }
}

/// The cell of what a part carries in a kitchen.
pub(super) fn carried_cell(places: &Places, id: PartId, kept: Kept) -> Option<String> {
    Some(Places::cell(*places.rated.get(&id)?, carries(kept)))
}

/// The cell of what users of a part pay in a kitchen.
pub(super) fn paid_cell(places: &Places, id: PartId, kept: Kept) -> Option<String> {
    Some(Places::cell(*places.rated.get(&id)?, carries(kept).saturating_add(3)))
}

/// The cell of what buying in the place of a part costs.
pub(super) fn buy_in_cell(places: &Places, id: PartId) -> Option<String> {
    Some(Places::cell(*places.rated.get(&id)?, 10))
}

/// The cell of the grams that are sold where trim is used.
pub(super) fn sold_cell(places: &Places, id: PartId) -> Option<String> {
    Some(Places::cell(*places.rated.get(&id)?, 12))
}

pub(super) fn write(page: &mut TrimSheet<'_>) {
    page.head(page.places.rates, "The rates behind it", &HEADERS);
    page.head(page.places.uses, "What a portion takes of every part", &USES);
    let Some(worth) = &page.trim.worth else { return };
    for id in page.places.pictured.clone() {
        let Some(test) = page.context.kitchen.test(id) else { continue };
        if let Some(row) = page.places.went_in.get(&id).copied() {
            page.words(row, 0, &format!("What goes into {}", test.name));
        }
        for (kept, costing) in Kept::ALL.into_iter().zip(&worth.kitchens) {
            went_in(page, id, test, kept, costing);
        }
        for (index, part) in test.parts.iter().enumerate() {
            let part_id = PartId::new(id, index);
            let Some(row) = page.places.rated.get(&part_id).copied() else { continue };
            readings(page, row, part_id, part);
            within::write(page, row, part_id, test, part);
            for (kept, costing) in Kept::ALL.into_iter().zip(&worth.kitchens) {
                own(page, row, part_id, test, part, kept, costing);
                users(page, row, part_id, part, kept, costing);
            }
        }
    }
    let (kitchen, places) = (page.context.kitchen, page.places);
    for (served, id, grams, row) in places.used.all() {
        let name = kitchen.part(id).map(|part| part.name.as_str()).unwrap_or_default();
        taken(page, row, served, name, grams, "g");
    }
    for (served, id, batches, row) in places.seasoned.all() {
        let name = kitchen.recipe(id).map(|recipe| recipe.name.as_str()).unwrap_or_default();
        taken(page, row, served, name, batches, "batches");
    }
}

fn taken(page: &mut TrimSheet<'_>, row: u32, served: Served, name: &str, amount: Decimal, unit: &str) {
    page.words(row, 0, page.context.kitchen.served_name(served));
    page.drawn(row, 1, amount, Look::Quantity);
    page.words(row, 2, unit);
    page.words(row, 3, name);
}

/// What does not depend on the kitchen: the rate as costed, the plan's weights, what buying in costs.
fn readings(page: &mut TrimSheet<'_>, row: u32, id: PartId, part: &Part) {
    let context = page.context;
    page.words(row, 0, &part.name);
    let costed = context.costing.part(id).and_then(|part| part.rate).and_then(per_base_unit);
    let cell = context.part_cell(id, "Cost per gram").map(|cell| cell.from(sheet_names::TRIM));
    if let (Some(costed), Some(cell)) = (costed, cell) {
        page.figure(row, 1, cell, costed, context.per_base_unit());
    }
    if let Some(balance) = page.trim.balance.as_ref().and_then(|balance| balance.part(id)).copied() {
        page.planned(row, 8, balance.used, Look::Quantity);
        page.planned(row, 9, balance.short, Look::Quantity);
        if sells_at(part).is_some() {
            page.planned(row, 12, balance.left_of_made, Look::Quantity);
        }
    }
    let Some(cell) = part.buy_in.as_ref().and_then(|buy_in| context.ap_cell(buy_in.item)) else { return };
    if let Some((units, rate)) = bought_per_gram(context.kitchen, context.costing, part) {
        page.reading(row, 11, units, Look::Quantity);
        page.figure(
            row,
            10,
            format!("{}*{}", Places::cell(row, 11), cell.from(sheet_names::TRIM)),
            rate,
            context.per_base_unit(),
        );
    }
}

/// What a test takes in, in money: as costed, and what its inputs cost more or less in this kitchen.
fn went_in(page: &mut TrimSheet<'_>, id: TestId, test: &Test, kept: Kept, costing: &Costing) {
    let (Some(row), Some(cost)) = (page.places.went_in.get(&id).copied(), costing.test(id)) else { return };
    let look = page.context.money();
    match went_in_formula(page, test, kept) {
        Some(text) => page.figure(row, carries(kept), text, cost.cost, look),
        None => page.planned(row, carries(kept), cost.cost, look),
    }
}

fn went_in_formula(page: &TrimSheet<'_>, test: &Test, kept: Kept) -> Option<String> {
    let head = test.runs.first()?.row;
    let own =
        |row, header| page.context.own(TableKind::YieldTests, row, header).map(|cell| cell.from(sheet_names::TRIM));
    let mut text = own(head, "Cost carried")?;
    let added = test.added.iter().filter_map(|added| Some((added.source?, own(added.row, "Weight in grams")?)));
    for (source, weight) in std::iter::once((test.input, own(head, "Weight pooled")?)).chain(added) {
        match source {
            IngredientSource::Bought(_) | IngredientSource::Unknown => {}
            // What a recipe costs in another kitchen stands in no cell.
            IngredientSource::Made(_) => return None,
            IngredientSource::Part(part) => {
                let costed = Places::cell(*page.places.rated.get(&part)?, 1);
                text.push_str(&format!("+{weight}*({}-{costed})", paid_cell(page.places, part, kept)?));
            }
        }
    }
    Some(text)
}

/// Whether a part shares what remains in a kitchen.
fn is_joint(part: &Part, kept: Kept) -> bool {
    part.role == Role::Main || (part.is_joint() && kept == Kept::Credited)
}

fn own(page: &mut TrimSheet<'_>, row: u32, id: PartId, test: &Test, part: &Part, kept: Kept, costing: &Costing) {
    let Some(rate) = own_rate(costing, id).and_then(per_base_unit) else { return };
    let look = page.context.per_base_unit();
    let text = if is_joint(part, kept) { joint(page, id, test, kept) } else { fixed(page, id, test, part, kept) };
    match text {
        Some(text) => page.figure(row, carries(kept), text, rate, look),
        None => page.planned(row, carries(kept), rate, look),
    }
}

/// What is charged outright; `None` where it is a constant.
fn fixed(page: &TrimSheet<'_>, id: PartId, test: &Test, part: &Part, kept: Kept) -> Option<String> {
    if kept != Kept::Credited || part.charge == Charge::Free {
        return None;
    }
    let cell = |header| page.context.part_cell(id, header).map(|cell| cell.from(sheet_names::TRIM));
    let charge = cell("Charge per gram")?;
    match part.charge {
        Charge::Fraction(_) => {
            let head = test.runs.first()?.row;
            let own =
                |header| page.context.own(TableKind::YieldTests, head, header).map(|cell| cell.from(sheet_names::TRIM));
            let went_in = Places::cell(*page.places.went_in.get(&id.test)?, carries(kept));
            let (value, cost, weight) = (cell("Value used")?, own("Cost carried")?, own("Weight pooled")?);
            Some(format!("{charge}+{value}*({went_in}-{cost})/{weight}"))
        }
        _ => Some(charge),
    }
}

/// A share of what remains of what went in.
fn joint(page: &TrimSheet<'_>, id: PartId, test: &Test, kept: Kept) -> Option<String> {
    let cell = |index: usize, header| {
        page.context.part_cell(PartId::new(id.test, index), header).map(|cell| cell.from(sheet_names::TRIM))
    };
    let mut remains = Places::cell(*page.places.went_in.get(&id.test)?, carries(kept));
    let mut keys = Vec::new();
    let mut weighing = 0_usize;
    for (index, other) in test.parts.iter().enumerate() {
        let other_id = PartId::new(id.test, index);
        if is_joint(other, kept) {
            keys.push(cell(index, "Key to share by")?);
            weighing = weighing.saturating_add(usize::from(!other.grams.is_zero()));
        } else if let Some(rate) = carried_cell(page.places, other_id, kept).filter(|_| takes(other, kept)) {
            remains.push_str(&format!("-{rate}*{}", cell(index, "Weight pooled")?));
        }
    }
    let (key, weight) = (cell(id.index(), "Key to share by")?, cell(id.index(), "Weight pooled")?);
    if weighing == 1 {
        // It takes all, whatever it is worth.
        return Some(format!("({remains})/{weight}"));
    }
    Some(format!("({remains})*{key}/({})/{weight}", keys.join("+")))
}

/// Whether a part that shares nothing takes something off the top.
fn takes(part: &Part, kept: Kept) -> bool {
    match kept {
        Kept::Binned => part.role == Role::ByProduct && part.reuse.otherwise != Otherwise::Binned,
        Kept::Free => false,
        Kept::Credited => part.role == Role::ByProduct && part.charge != Charge::Free,
    }
}

/// Whether something would be bought in for a part were the plan another: then all who use it pay for that.
fn may_run_short(page: &TrimSheet<'_>, id: PartId, part: &Part) -> bool {
    let balance = page.trim.balance.as_ref().and_then(|balance| balance.part(id));
    part.buy_in.is_some() && balance.is_some_and(|balance| !balance.wanted.is_zero())
}

/// What users pay: what it carries; in the kitchen that bins its trim, and for what is short, what buying in costs.
fn users(page: &mut TrimSheet<'_>, row: u32, id: PartId, part: &Part, kept: Kept, costing: &Costing) {
    let Some(rate) = costing.part(id).and_then(|part| part.rate).and_then(per_base_unit) else {
        return;
    };
    let own = Places::cell(row, carries(kept));
    let bought = Places::cell(row, 10);
    let short = costing.scenario.bought_in.get(&id).filter(|bought_in| !bought_in.bought.is_zero());
    let text = match short {
        _ if kept == Kept::Binned && part.role == Role::ByProduct => bought,
        Some(_) => {
            let (used, short) = (Places::cell(row, 8), Places::cell(row, 9));
            format!("({used}*{own}+{short}*{bought})/({used}+{short})")
        }
        None => match page.as_planned().filter(|_| may_run_short(page, id, part)) {
            Some(stands) => format!("IF({stands},{own},\"cost again\")"),
            None => own,
        },
    };
    let look = page.context.per_base_unit();
    page.figure(row, carries(kept).saturating_add(3), text, rate, look);
}
