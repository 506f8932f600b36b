//! Whether there is enough trim for the plan, and the kitchen three times, as JSON.

use serde::Serialize;

use super::unit_cost;
use crate::analysis::Trim;
use crate::analysis::worth::{Kept, Total};
use crate::costing::Costing;
use crate::costing::rate::Amount;
use crate::kitchen::Kitchen;
use crate::number::{Decimal, plain};

#[derive(Debug, Serialize)]
pub(super) struct Balance<'a> {
    test: &'a str,
    goes_in_g: String,
    pieces: Option<String>,
    parts: Vec<Part<'a>>,
}

#[derive(Debug, Serialize)]
struct Part<'a> {
    name: &'a str,
    on_hand_g: String,
    made_g: String,
    wanted_g: String,
    used_g: String,
    left_over_g: String,
    too_old_g: String,
    short_g: String,
}

#[derive(Debug, Serialize)]
pub(super) struct Dish<'a> {
    name: &'a str,
    portions: Option<String>,
    food_binned: Option<String>,
    food_free: Option<String>,
    food_credited: Option<String>,
    planned_portion_cost: Option<String>,
    of_trim: bool,
}

#[derive(Debug, Serialize)]
pub(super) struct Saving<'a> {
    by_product: &'a str,
    used_g: Option<String>,
    buy_in_per_g: Option<String>,
    not_bought: Option<String>,
    not_sold: String,
    further_cost: String,
    haulage_spared: String,
    saved: Option<String>,
    breaks_even_per_g: Option<String>,
    unearned_credit: String,
}

#[derive(Debug, Serialize)]
pub(super) struct InKitchen {
    kitchen: &'static str,
    in_dishes: Option<String>,
    left_over: Option<String>,
    on_hand: Option<String>,
    brought_in: Option<String>,
}

#[derive(Debug, Serialize)]
pub(super) struct Totals {
    kitchens: Vec<InKitchen>,
    purchases: Option<String>,
    saved: Option<String>,
    margin_of_trim: Option<String>,
    unearned_credit: String,
}

#[derive(Debug, Serialize)]
pub(super) struct ToBuy<'a> {
    item: &'a str,
    base_unit: &'static str,
    wanted: String,
    from_stock: String,
    to_buy: String,
    money: Option<String>,
}

#[derive(Debug, Serialize)]
pub(super) struct IfThrownAway<'a> {
    name: &'a str,
    food_credited: String,
    food_if_left_over_is_thrown_away: String,
}

/// What the plan must buy, in base units as purchased.
pub(super) fn to_buy<'a>(kitchen: &'a Kitchen, costing: &Costing, trim: &Trim) -> Vec<ToBuy<'a>> {
    let items = trim.balance.iter().flat_map(|balance| &balance.items).filter_map(|balance| {
        let cost = costing.item(balance.item)?;
        let money = cost.ap.cost_of(Amount::of(balance.purchase)).ok();
        Some(ToBuy {
            item: &kitchen.item(balance.item)?.name,
            base_unit: cost.kind.symbol(),
            wanted: plain(balance.wanted),
            from_stock: plain(balance.from_stock),
            to_buy: plain(balance.purchase),
            money: money.map(plain),
        })
    });
    items.collect()
}

/// What the mains' dishes cost if trim that is left over is thrown away.
pub(super) fn if_thrown_away<'a>(kitchen: &'a Kitchen, trim: &Trim) -> Vec<IfThrownAway<'a>> {
    let plan = trim.worth.iter().filter_map(|worth| worth.plan.as_ref());
    let dishes = plan.flat_map(|plan| &plan.earned).map(|dish| IfThrownAway {
        name: kitchen.served_name(dish.served),
        food_credited: plain(dish.food),
        food_if_left_over_is_thrown_away: plain(dish.alone),
    });
    dishes.collect()
}

pub(super) fn balance<'a>(kitchen: &'a Kitchen, trim: &Trim) -> Vec<Balance<'a>> {
    let tests = trim.balance.iter().flat_map(|balance| kitchen.tests.iter().zip(&balance.tests));
    let json = tests.filter_map(|(test, balance)| {
        let balance = balance.as_ref()?;
        let parts = test.parts.iter().zip(&balance.parts).map(|(part, of)| Part {
            name: &part.name,
            on_hand_g: plain(of.on_hand),
            made_g: plain(of.made),
            wanted_g: plain(of.wanted),
            used_g: plain(of.used),
            left_over_g: plain(of.left_over),
            too_old_g: plain(of.too_old),
            short_g: plain(of.short),
        });
        Some(Balance {
            test: &test.name,
            goes_in_g: plain(balance.goes_in),
            pieces: balance.pieces.map(plain),
            parts: parts.collect(),
        })
    });
    json.collect()
}

pub(super) fn dishes<'a>(kitchen: &'a Kitchen, trim: &Trim) -> Vec<Dish<'a>> {
    let dishes = trim.worth.iter().flat_map(|worth| &worth.dishes).map(|dish| {
        let [binned, free, credited] = dish.food;
        Dish {
            name: kitchen.served_name(dish.served),
            portions: dish.portions.map(plain),
            food_binned: binned.map(plain),
            food_free: free.map(plain),
            food_credited: credited.map(plain),
            planned_portion_cost: dish.planned.map(plain),
            of_trim: dish.of_trim,
        }
    });
    dishes.collect()
}

pub(super) fn savings<'a>(kitchen: &'a Kitchen, trim: &Trim) -> Vec<Saving<'a>> {
    let parts = trim.worth.iter().flat_map(|worth| &worth.parts).map(|part| Saving {
        by_product: kitchen.part(part.part).map(|part| part.name.as_str()).unwrap_or_default(),
        used_g: part.used.map(plain),
        buy_in_per_g: unit_cost(part.buy_in),
        not_bought: part.not_bought.map(plain),
        not_sold: plain(part.not_sold),
        further_cost: plain(part.further_cost),
        haulage_spared: plain(part.haulage),
        saved: part.saved.map(plain),
        breaks_even_per_g: unit_cost(part.breaks_even_at),
        unearned_credit: plain(part.unearned),
    });
    parts.collect()
}

pub(super) fn totals(trim: &Trim) -> Option<Totals> {
    let plan = trim.worth.as_ref()?.plan.as_ref()?;
    let kitchens = Kept::ALL.into_iter().zip(&plan.totals).map(|(kept, total)| {
        let of = |figure: fn(&Total) -> Decimal| total.as_ref().map(figure).map(plain);
        InKitchen {
            kitchen: kept.word(),
            in_dishes: of(|total| total.served),
            left_over: of(|total| total.left_over),
            on_hand: of(|total| total.on_hand),
            brought_in: of(|total| total.brought_in),
        }
    });
    Some(Totals {
        kitchens: kitchens.collect(),
        purchases: plan.purchases.map(plain),
        saved: plan.saving.map(plain),
        margin_of_trim: plan.margin_of_trim.map(plain),
        unearned_credit: plain(plan.unearned),
    })
}
