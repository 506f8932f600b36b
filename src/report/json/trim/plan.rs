//! Whether there is enough trim for the plan, and the kitchen three times, as JSON.

use schemars::JsonSchema;
use serde::Serialize;

use super::super::value::Figure;
use super::super::word::{Word, base};
use super::unit_cost;
use crate::analysis::Trim;
use crate::analysis::worth::{Kept, Total};
use crate::costing::Costing;
use crate::costing::rate::Amount;
use crate::kitchen::Kitchen;
use crate::measure::Base;
use crate::number::Decimal;

/// A test in the plan: its weights.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Balance")]
pub(super) struct Balance<'a> {
    /// The test.
    test: &'a str,
    /// What must be broken down, in grams as purchased.
    goes_in_g: Figure,
    /// The same in pieces, where the test counts them.
    pieces: Option<Figure>,
    /// What comes of it.
    parts: Vec<Part<'a>>,
}

/// A part in the plan: its weights in grams. What is on hand and made is used, left over or too old.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PartInPlan")]
struct Part<'a> {
    /// The part.
    name: &'a str,
    /// On hand before the plan.
    on_hand_g: Figure,
    /// Made in the plan.
    made_g: Figure,
    /// Wanted by recipes.
    wanted_g: Figure,
    /// Used by them.
    used_g: Figure,
    /// Left over and still good.
    left_over_g: Figure,
    /// Past the days it may be kept.
    too_old_g: Figure,
    /// Wanted and not there.
    short_g: Figure,
}

/// What is served, and the food in a portion in the three kitchens.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "DishInKitchens")]
pub(super) struct Dish<'a> {
    /// The dish or recipe.
    name: &'a str,
    /// How many are planned; null where the plan does not name it.
    portions: Option<Figure>,
    /// Food cost of a portion where by-products are binned or sold.
    food_binned: Option<Figure>,
    /// Food cost of a portion where they are used and charged nothing.
    food_free: Option<Figure>,
    /// Food cost of a portion where they are used and charged as the book says.
    food_credited: Option<Figure>,
    /// What a portion costs as the book says, Q and spice within, with what the plan is short of bought in.
    planned_portion_cost: Option<Figure>,
    /// Whether it is made of by-products.
    of_trim: bool,
}

/// What using a by-product saves over the plan.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Saving")]
pub(super) struct Saving<'a> {
    /// Which.
    by_product: &'a str,
    /// How much of it is used, in grams; null without a plan.
    used_g: Option<Figure>,
    /// What buying in its place would cost, per gram; null where nobody says.
    buy_in_per_g: Option<Figure>,
    /// What need not be bought for it.
    not_bought: Option<Figure>,
    /// What selling it would have brought.
    not_sold: Figure,
    /// What making it usable costs.
    further_cost: Figure,
    /// What hauling is spared because it leaves on plates.
    haulage_spared: Figure,
    /// What is saved: not bought and haulage, less not sold and further cost.
    saved: Option<Figure>,
    /// The buy-in price per gram at which using it breaks even; null where none of it is used.
    breaks_even_per_g: Option<Figure>,
    /// The credit given to trim that is left over, which no dish has paid for.
    unearned_credit: Figure,
}

/// One of the three kitchens over the plan, in money.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "InKitchen")]
pub(super) struct InKitchen {
    /// Which.
    kitchen: Word<Kept>,
    /// Food in what is served.
    in_dishes: Option<Figure>,
    /// Food left over, mains and trim, at what it cost.
    left_over: Option<Figure>,
    /// What was on hand before the plan, at what it would cost today.
    on_hand: Option<Figure>,
    /// What the plan brings into the house: served and left over, less what was on hand.
    brought_in: Option<Figure>,
}

/// The plan as a whole, in money.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Plan")]
pub(super) struct Totals {
    /// The three kitchens.
    kitchens: Vec<InKitchen>,
    /// What the plan takes of bought items, from the shelf or the supplier, and what is bought in for short trim.
    purchases: Option<Figure>,
    /// What is really saved by using trim; null where the saving of a part that is used is not known.
    saved: Option<Figure>,
    /// Price less portion cost of what is served of trim, over the plan.
    margin_of_trim: Option<Figure>,
    /// The credit given to trim that is left over, which no dish has paid for.
    unearned_credit: Figure,
}

/// An item that the plan must buy, as purchased.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "ToBuy")]
pub(super) struct ToBuy<'a> {
    /// Its name.
    item: &'a str,
    /// The unit of the quantities.
    base_unit: Word<Base>,
    /// How much the plan wants.
    wanted: Figure,
    /// How much is taken from what is on hand.
    from_stock: Figure,
    /// How much is to be bought.
    to_buy: Figure,
    /// What that costs.
    money: Option<Figure>,
}

/// A dish of mains, were the trim that is left over thrown away.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "IfThrownAway")]
pub(super) struct IfThrownAway<'a> {
    /// The dish.
    name: &'a str,
    /// Food cost of a portion, by-products charged as the book says.
    food_credited: Figure,
    /// Food cost of a portion that bears what nobody used.
    food_if_left_over_is_thrown_away: Figure,
}

/// What the plan must buy, in base units as purchased.
pub(super) fn to_buy<'a>(kitchen: &'a Kitchen, costing: &Costing, trim: &Trim) -> Vec<ToBuy<'a>> {
    let items = trim.balance.iter().flat_map(|balance| &balance.purchases.items).filter_map(|balance| {
        let cost = costing.item(balance.item)?;
        let money = cost.ap.cost_of(Amount::of(balance.purchase)).ok();
        Some(ToBuy {
            item: &kitchen.item(balance.item)?.name,
            base_unit: base(&cost.kind),
            wanted: Figure(balance.wanted),
            from_stock: Figure(balance.from_stock),
            to_buy: Figure(balance.purchase),
            money: money.map(Figure),
        })
    });
    items.collect()
}

/// What the mains' dishes cost if trim that is left over is thrown away.
pub(super) fn if_thrown_away<'a>(kitchen: &'a Kitchen, trim: &Trim) -> Vec<IfThrownAway<'a>> {
    let plan = trim.worth.iter().filter_map(|worth| worth.plan.as_ref());
    let dishes = plan.flat_map(|plan| &plan.earned).map(|dish| IfThrownAway {
        name: kitchen.served_name(dish.served),
        food_credited: Figure(dish.food),
        food_if_left_over_is_thrown_away: Figure(dish.alone),
    });
    dishes.collect()
}

pub(super) fn balance<'a>(kitchen: &'a Kitchen, trim: &Trim) -> Vec<Balance<'a>> {
    let tests = trim.balance.iter().flat_map(|balance| kitchen.tests.iter().zip(&balance.tests));
    let json = tests.filter_map(|(test, balance)| {
        let balance = balance.as_ref()?;
        let parts = test.parts.iter().zip(&balance.parts).map(|(part, of)| Part {
            name: &part.name,
            on_hand_g: Figure(of.on_hand),
            made_g: Figure(of.made),
            wanted_g: Figure(of.wanted),
            used_g: Figure(of.used),
            left_over_g: Figure(of.left_over),
            too_old_g: Figure(of.too_old),
            short_g: Figure(of.short),
        });
        Some(Balance {
            test: &test.name,
            goes_in_g: Figure(balance.goes_in),
            pieces: balance.pieces.map(Figure),
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
            portions: dish.portions.map(Figure),
            food_binned: binned.map(Figure),
            food_free: free.map(Figure),
            food_credited: credited.map(Figure),
            planned_portion_cost: dish.planned.map(Figure),
            of_trim: dish.of_trim,
        }
    });
    dishes.collect()
}

pub(super) fn savings<'a>(kitchen: &'a Kitchen, trim: &Trim) -> Vec<Saving<'a>> {
    let parts = trim.worth.iter().flat_map(|worth| &worth.parts).map(|part| Saving {
        by_product: kitchen.part(part.part).map(|part| part.name.as_str()).unwrap_or_default(),
        used_g: part.used.map(Figure),
        buy_in_per_g: unit_cost(part.buy_in),
        not_bought: part.not_bought.map(Figure),
        not_sold: Figure(part.not_sold),
        further_cost: Figure(part.further_cost),
        haulage_spared: Figure(part.haulage),
        saved: part.saved.map(Figure),
        breaks_even_per_g: unit_cost(part.breaks_even_at),
        unearned_credit: Figure(part.unearned),
    });
    parts.collect()
}

pub(super) fn totals(trim: &Trim) -> Option<Totals> {
    let plan = trim.worth.as_ref()?.plan.as_ref()?;
    let kitchens = Kept::ALL.into_iter().zip(&plan.totals).map(|(kept, total)| {
        let of = |figure: fn(&Total) -> Decimal| total.as_ref().map(figure).map(Figure);
        InKitchen {
            kitchen: Word(kept),
            in_dishes: of(|total| total.served),
            left_over: of(|total| total.left_over),
            on_hand: of(|total| total.on_hand),
            brought_in: of(|total| total.brought_in),
        }
    });
    Some(Totals {
        kitchens: kitchens.collect(),
        purchases: plan.purchases.map(Figure),
        saved: plan.saving.map(Figure),
        margin_of_trim: plan.margin_of_trim.map(Figure),
        unearned_credit: Figure(plan.unearned),
    })
}
