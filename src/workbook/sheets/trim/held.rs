//! Share of trim in a dish, at what that would cost to buy, and what the dish earns. No sum: a plate with a little trim
//! on it would be sold without.

use super::TrimSheet;
use super::kitchens;
use super::places::Places;
use super::within::{bought_cell, charged_cell};
use crate::analysis::trim_savings::{DishWorth, FoodOfTrim, Kept};
use crate::kitchen::plan::Served;
use crate::workbook::cells::formula::{Formula, LONGEST};
use crate::workbook::cells::row::{Cell, Look};
use crate::workbook::layout::dish_cells::CardRows;
use crate::workbook::layout::sheet_names;
use crate::workbook::layout::summary_columns::SummaryColumn;
use crate::workbook::sheets::unchanged_rows::AGAIN;

const HEADERS: [&str; 6] = [
    "How much of a dish is trim",
    "Trim, to buy",
    "Rest of its food",
    "Of its food",
    "Margin a portion",
    "What trim is to it",
];
const POSSIBLE: &str = "made possible by trim";
const SOME: &str = "holds some trim";

pub(super) fn write(page: &mut TrimSheet<'_>) {
    let Some(worth) = &page.trim.worth else { return };
    if page.places.holders.is_empty() {
        return;
    }
    page.told_head(
        page.places.held,
        "How much of a dish is trim, and what the dish earns",
        "Of its food: what its trim would cost to buy, beside that and the rest of its food as costed. Where it is half or more, trim makes the dish possible.",
        &HEADERS,
    );
    for (served, row) in page.places.holders.clone() {
        if let Some(dish) = worth.dishes.iter().find(|dish| dish.served == served) {
            holder(page, dish, row);
        }
    }
}

fn holder(page: &mut TrimSheet<'_>, dish: &DishWorth, row: u32) {
    let context = page.context;
    page.words(row, 0, context.kitchen.served_name(dish.served));
    margin(page, dish, row);
    let (Some(food), Some(share), Some(possible)) = (dish.trim, dish.trim_share(), dish.made_possible()) else {
        page.words(row, 5, "not known");
        return;
    };
    amounts(page, dish, food, row);
    let [bought, rest, of_food] = [1, 2, 3].map(|column| Places::cell(row, column));
    let text = format!("IF({bought}+{rest}=0,0,{bought}/({bought}+{rest}))");
    page.figure(row, 3, text, share, Look::Percent(1));
    let text = format!("IF(ROUND({of_food},9)>=0.5,\"{POSSIBLE}\",\"{SOME}\")");
    let word = Formula::text(text, if possible { POSSIBLE } else { SOME });
    page.put(row, Cell::figure(5, word, Look::Words));
}

/// What its trim would cost to buy, and the rest of its food.
fn amounts(page: &mut TrimSheet<'_>, dish: &DishWorth, food: FoodOfTrim, row: u32) {
    let look = page.context.money();
    let (mut bought, mut charged) = (Vec::new(), Vec::new());
    for (part, _, at) in page.places.used.by(dish.served) {
        let grams = Places::cell(*at, 1);
        bought.extend(bought_cell(page, *part).map(|cell| format!("{grams}*{cell}")));
        charged.extend(charged_cell(page, *part).map(|cell| format!("-{grams}*{cell}")));
    }
    let (bought, charged) = (bought.join("+"), charged.concat());
    let kitchens = page.places.served.iter().find(|(served, _)| *served == dish.served).map(|(_, row)| *row);
    match (kitchens, dish.served) {
        (Some(at), Served::Dish(_)) if bought.len().max(charged.len()) < LONGEST && !bought.is_empty() => {
            page.figure(row, 1, bought, food.bought, look.clone());
            page.figure(row, 2, format!("MAX(0,{}{charged})", Places::cell(at, 5)), food.rest, look);
        }
        _ => {
            page.planned(row, 1, food.bought, look.clone());
            page.planned(row, 2, food.rest, look);
        }
    }
}

/// What a portion earns; live where nothing is bought in for it.
fn margin(page: &mut TrimSheet<'_>, dish: &DishWorth, row: u32) {
    let (Some(margin), Served::Dish(index)) = (dish.margin, dish.served) else { return };
    let context = page.context;
    let costed = context.costing.dishes.get(index).and_then(Option::as_ref).and_then(|dish| dish.margin);
    let live = CardRows::of(context, index)
        .map_or_else(|| SummaryColumn::Margin.cell(index), |card| card.against(4))
        .from(sheet_names::TRIM);
    let at = page.places.served.iter().find(|(served, _)| *served == dish.served).map(|(_, row)| *row);
    match (costed, at, dish.food) {
        // Another plan may leave credit that is not earned.
        (Some(costed), ..) if costed == margin => {
            let text =
                page.as_planned().map_or_else(|| live.clone(), |stands| format!("IF({stands},{live},\"{AGAIN}\")"));
            page.figure(row, 4, text, margin, context.money());
        }
        (Some(costed), Some(at), [.., Some(credited)]) => {
            let stands = [(live, costed), (Places::cell(at, kitchens::column(Kept::Credited)), credited)];
            page.while_stand(row, 4, &stands, margin);
        }
        _ => page.planned(row, 4, margin, context.money()),
    }
}
