//! The trim within a gram of every part: what it would cost to buy, and what it is charged as the book was costed.

use super::TrimSheet;
use super::places::Places;
use crate::analysis::Trim;
use crate::analysis::trim_savings::TrimHeld;
use crate::kitchen::PartId;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::{Part, Role, Test};
use crate::number::Decimal;
use crate::schema::TableKind;
use crate::workbook::layout::sheet_names;

/// The columns among the rates.
const BOUGHT: u16 = 13;
pub(super) const CHARGED: u16 = 14;

/// The cell of what the trim within a gram of a part would cost to buy; `None` where there is none, or nobody says.
pub(super) fn bought_cell(page: &TrimSheet<'_>, id: PartId) -> Option<String> {
    held(page.trim, id)?.bought?;
    Some(Places::cell(*page.places.rated.get(&id)?, BOUGHT))
}

/// The cell of what the trim within a gram of a part is charged; `None` where there is none.
pub(super) fn charged_cell(page: &TrimSheet<'_>, id: PartId) -> Option<String> {
    held(page.trim, id)?;
    Some(Places::cell(*page.places.rated.get(&id)?, CHARGED))
}

/// The trim within a gram of a part; `None` of none.
pub(super) fn held(trim: &Trim, id: PartId) -> Option<TrimHeld> {
    let held = trim.worth.as_ref()?.within.part(id);
    (held.bought != Some(Decimal::ZERO) || !held.charged.is_zero()).then_some(held)
}

/// Both of a part: a by-product is trim itself, a main holds as much of what went in as it bears of its cost.
pub(super) fn write(page: &mut TrimSheet<'_>, row: u32, id: PartId, test: &Test, part: &Part) {
    let Some(held) = held(page.trim, id) else { return };
    let look = page.context.per_base_unit();
    let texts = match part.role {
        // What buying it costs, and what it costs, as they stand in this row.
        Role::ByProduct => Some([Places::cell(row, 10), Places::cell(row, 1)]),
        _ => of_input(page, row, id, test),
    };
    match (held.bought, &texts) {
        (Some(bought), Some([text, _])) => page.figure(row, BOUGHT, text.clone(), bought, look.clone()),
        (Some(bought), None) => page.planned(row, BOUGHT, bought, look.clone()),
        (None, _) => page.words(row, BOUGHT, "not known"),
    }
    match texts {
        Some([_, text]) => page.figure(row, CHARGED, text, held.charged, look),
        None => page.planned(row, CHARGED, held.charged, look),
    }
}

/// The trim that went into a test, times what a gram bears over the cost of all. `None` where a recipe went in, whose trim
/// stands in no cell, where some of it is not known, or where all of it cost nothing.
fn of_input(page: &TrimSheet<'_>, row: u32, id: PartId, test: &Test) -> Option<[String; 2]> {
    page.context.costing.test(id.test).filter(|cost| !cost.cost.is_zero())?;
    let head = test.runs.first()?.row;
    let own =
        |row, header| page.context.own(TableKind::YieldTests, row, header).map(|cell| cell.from(sheet_names::TRIM));
    let whole = own(head, "Cost carried")?;
    let added = test.added.iter().filter_map(|added| Some((added.source?, own(added.row, "Weight in grams")?)));
    let (mut bought, mut charged) = (Vec::new(), Vec::new());
    for (source, weight) in std::iter::once((test.input, own(head, "Weight pooled")?)).chain(added) {
        match source {
            IngredientSource::Bought(_) | IngredientSource::Unknown => {}
            IngredientSource::Made(_) => return None,
            IngredientSource::Part(part) if held(page.trim, part).is_some() => {
                bought.push(format!("{weight}*{}", bought_cell(page, part)?));
                charged.push(format!("{weight}*{}", charged_cell(page, part)?));
            }
            IngredientSource::Part(_) => {}
        }
    }
    let per_gram = Places::cell(row, 1);
    let text = |terms: Vec<String>| format!("IF({whole}=0,0,({})*{per_gram}/{whole})", terms.join("+"));
    (!bought.is_empty()).then(|| [text(bought), text(charged)])
}
