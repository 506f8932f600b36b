//! Head of the Summary: what stands above the dishes, and is said of all of them together.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::{SECOND, SummaryNotes};
use crate::kitchen::RecipeId;
use crate::number::Decimal;
use crate::results::figures::percent_in_full;
use crate::results::target_status::TargetStatus;
use crate::workbook::cells::formula::{Formula, Ref};
use crate::workbook::cells::row::{Cell, Content, Ink, Look, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::Slot;
use crate::workbook::layout::recipe::Total;
use crate::workbook::layout::sheet_names;
use crate::workbook::layout::summary_columns::{self, SummaryColumn};

/// What stands above the dishes.
pub(super) fn head(context: &Context<'_>, said: &SummaryNotes<'_>, contents: u32, out: &mut RowSink<'_>) {
    let SummaryNotes { counts, changes, .. } = said;
    let settings = &context.kitchen.settings;
    out(Row { row: 0, cells: vec![Cell::text(0, context.mark, Ink::Aside)] });
    let what = context.what_costs();
    let title = if settings.house_name.is_empty() {
        format!("What {what}")
    } else {
        format!("{}: what {what}", settings.house_name)
    };
    out(Row { row: 1, cells: vec![Cell::text(0, title, Ink::Title)] });
    let date = Content::Date(context.costing.scenario.date);
    let date = Cell { column: 1, content: date, ink: Ink::Reading, look: Look::Date };
    let sheets =
        Cell::link(SECOND.saturating_add(2), "All sheets", &Ref::new(sheet_names::SUMMARY, contents, 0), Ink::Reading);
    let mut cells = vec![Cell::text(0, "Costed on", Ink::Label), date];
    cells.extend(in_all(context));
    cells.push(sheets);
    out(Row { row: 2, cells });
    let problems = Ref::new(sheet_names::PROBLEMS, 0, 0);
    let link = Cell::link(1, counts.words(), &problems, Ink::Reading);
    let mut cells = vec![Cell::text(0, "Problems", Ink::Label), link];
    cells.extend(lines_not_costed(context));
    out(Row { row: 3, cells });
    if let Some(tax) = tax_within(context) {
        let told = Cell::text(1, tax, Ink::Reading);
        out(Row { row: 4, cells: vec![Cell::text(0, "Tax", Ink::Label), told] });
    }
    if let Some(changes) = changes {
        let held = changes.list.held.len();
        let at_old = if held == 1 { "stands at its old price" } else { "stand at their old prices" };
        let taken = changes.list.taken.len();
        let text = if held == 0 {
            format!("{taken} taken: see What changed")
        } else {
            format!("{taken} taken; {held} HELD BACK, which {at_old} in these figures: see What changed")
        };
        let link = Cell::link(1, text, &Ref::new(sheet_names::CHANGED, 0, 0), Ink::Reading);
        out(Row { row: 5, cells: vec![Cell::text(0, "New prices", Ink::Label), link] });
    }
}

/// How many dishes are over their target, and how many are not costed, as they stand now.
fn in_all(context: &Context<'_>) -> Option<Cell> {
    let dishes = context.kitchen.dishes.len();
    if dishes == 0 {
        return None;
    }
    // From the header to the blank row below, so that the ends stand when the first or the last dish is taken out.
    let cell = |row| Ref::new(sheet_names::SUMMARY, row, SummaryColumn::Standing.column()).cell();
    let all = format!("{}:{}", cell(summary_columns::HEADER_ROW), cell(SummaryColumn::Standing.cell(dishes).row));
    let now = |wanted: TargetStatus| {
        let each = context.kitchen.dishes.iter().zip(&context.costing.dishes);
        each.filter(|(dish, cost)| TargetStatus::of(dish, cost.as_ref()) == wanted).count()
    };
    let (over, stopped) = (TargetStatus::OverTarget, TargetStatus::NotCosted);
    let of = if dishes == 1 { "of 1 dish".to_owned() } else { format!("of {dishes} dishes") };
    let count = |status: TargetStatus| format!("COUNTIF({all},\"{}\")", status.words());
    let text = format!("{}&\" {of} {}, \"&{}&\" {}\"", count(over), over.words(), count(stopped), stopped.words());
    let told = format!("{} {of} {}, {} {}", now(over), over.words(), now(stopped), stopped.words());
    let column = SummaryColumn::MenuPrice.column();
    Some(Cell { ink: Ink::Label, ..Cell::figure(column, Formula::text(text, told), Look::General) })
}

/// How many lines of all recipes have no cost, as they stand now, or that there are new ones.
fn lines_not_costed(context: &Context<'_>) -> Option<Cell> {
    let costed = (0..context.kitchen.recipes.len()).map(RecipeId::new);
    let told = costed.filter(|id| context.costing.recipe(*id).is_some());
    let told = told.filter_map(|id| context.total(id, Total::Uncosted));
    let lists = context.layout.lists.as_ref();
    let (listed, on_cards): (Vec<Ref>, Vec<Ref>) =
        told.partition(|cell| lists.is_some_and(|lists| lists.facts.sheet == cell.sheet));
    let on_cards: Vec<String> = on_cards.iter().map(|cell| cell.from(sheet_names::SUMMARY)).collect();
    let text = match lists {
        Some(lists) => {
            let column = lists.facts.column(Slot::Own(Total::Uncosted.label()))?;
            let cell = |row| Ref::new(Arc::clone(&lists.facts.sheet), row, column);
            let over = cell(0).from(sheet_names::SUMMARY);
            // From the header to the blank row below, so that the ends stand when the first or the last recipe is taken out.
            let all = format!("{over}:{}", cell(lists.facts.row(lists.facts.rows)).absolute());
            let is_whole = format!("AND({over}=\"{}\",COUNT({all})={})", Total::Uncosted.label(), listed.len());
            let sum = [vec![format!("SUM({all})")], on_cards].concat().join("+");
            format!("IFERROR(IF({is_whole},\"{UNCOSTED}\"&({sum}),\"{NEW_LINES}\"),\"{NEW_LINES}\")")
        }
        None if on_cards.is_empty() => return None,
        None => {
            // Words in a sum of terms are an error, and those on a card say that it has new lines.
            format!("IFERROR(\"{UNCOSTED}\"&({}),\"{NEW_LINES}\")", on_cards.join("+"))
        }
    };
    let column = SummaryColumn::PriceAtTarget.column();
    let told = Formula::text(text, format!("{UNCOSTED}{}", context.costing.uncosted_lines()));
    Some(Cell { ink: Ink::Reading, ..Cell::figure(column, told, Look::Words) })
}

const UNCOSTED: &str = "Lines not costed: ";
const NEW_LINES: &str = "Lines not costed: some are new, cost again";

/// How tax stands within the menu prices; `None` where there is none.
fn tax_within(context: &Context<'_>) -> Option<String> {
    let rates: BTreeSet<Decimal> = context.kitchen.dishes.iter().map(|dish| dish.tax.normalize()).collect();
    let rates: Vec<String> = rates.into_iter().filter(|rate| !rate.is_zero()).map(percent_in_full).collect();
    (!rates.is_empty()).then(|| {
        format!(
            "Menu price and price at target hold tax ({}); food cost % and margin are without it.",
            rates.join(" or ")
        )
    })
}
