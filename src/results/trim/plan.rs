//! Plan of a kitchen in money: what must be bought, enough for how many, and the kitchen three times.

use schemars::JsonSchema;
use serde::Serialize;

use super::super::value::{Figure, percent};
use super::super::word::{Word, base};
use super::balance::day_name;
use super::unit_cost;
use crate::analysis::Trim;
use crate::analysis::trim_savings::{Kept, PlanTotals};
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::measure::Base;
use crate::number::Decimal;
use crate::results::purchases;
use crate::results::purchases::Purchase;

/// For how many portions there is enough trim that nothing is bought in for.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "EnoughFor")]
pub struct EnoughFor<'a> {
    /// The by-products that are short, with nothing to buy in their place.
    pub by_products: Vec<&'a str>,
    /// Every dish that wants any of them, day by day. On a day they are cut by one share, in whole portions; what that leaves goes portion by portion in the plan's order.
    pub portions: Vec<PortionsOnDay<'a>>,
    /// Whether every day of the plan was worked out.
    pub whole_plan: bool,
}

/// The portions of a dish on one day.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PortionsOnDay")]
pub struct PortionsOnDay<'a> {
    /// The day, as the plan names it; empty where it names none.
    pub day: &'a str,
    /// The dish or recipe.
    pub name: &'a str,
    /// Portions planned.
    pub planned: Figure,
    /// Portions for which there is enough.
    pub enough: Figure,
}

/// What is served, and the food in a portion in the three kitchens.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "DishInKitchens")]
pub struct DishInKitchens<'a> {
    /// The dish or recipe.
    pub name: &'a str,
    /// How many are planned; null where the plan does not name it.
    pub portions: Option<Figure>,
    /// Food cost of a portion where by-products are binned or sold.
    pub food_binned: Option<Figure>,
    /// Food cost of a portion where they are used and charged nothing.
    pub food_free: Option<Figure>,
    /// Food cost of a portion where they are used and charged as the book says.
    pub food_credited: Option<Figure>,
    /// What a portion costs as the book says, Q and spice within, with what the plan is short of bought in.
    pub planned_portion_cost: Option<Figure>,
    /// Whether any by-product goes into it.
    pub of_trim: bool,
    /// What the trim in a portion is charged: that much of its food cost is food from trim; null where that is not known.
    pub trim_charged: Option<Figure>,
    /// The share of its food that is trim: what its trim would cost to buy, in % of that and the rest of its food as costed; null where nobody says what buying it would cost.
    pub trim_share_percent: Option<Figure>,
    /// Whether that share is at least half; null where it is not known.
    pub made_possible_by_trim: Option<bool>,
    /// Price without tax less the planned portion cost; null without a menu price.
    pub margin: Option<Figure>,
}

/// What using a by-product saves over the plan.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Saving")]
pub struct Saving<'a> {
    /// Which.
    pub by_product: &'a str,
    /// How much of it is used, in grams; null without a plan.
    pub used_g: Option<Figure>,
    /// What buying in its place would cost, per gram; null where nobody says.
    pub buy_in_per_g: Option<Figure>,
    /// What need not be bought for it.
    pub not_bought: Option<Figure>,
    /// What selling it would have brought.
    pub not_sold: Figure,
    /// What making it usable costs.
    pub further_cost: Figure,
    /// What hauling is spared because it leaves on plates.
    pub haulage_spared: Figure,
    /// What is saved: not bought and haulage, less not sold and further cost.
    pub saved: Option<Figure>,
    /// The buy-in price per gram at which using it breaks even; null where none of it is used.
    pub breaks_even_per_g: Option<Figure>,
    /// The credit given to trim that is left over, which no dish has paid for.
    pub unearned_credit: Figure,
}

/// One of the three kitchens over the plan, in money.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "InKitchen")]
pub struct InKitchen {
    /// Which.
    pub kitchen: Word<Kept>,
    /// Food in what is served.
    pub in_dishes: Option<Figure>,
    /// Food left over, bought items, mains and trim, at what it cost; what is sold of it within.
    pub left_over: Option<Figure>,
    /// What was on hand before the plan, at what it would cost today.
    pub on_hand: Option<Figure>,
    /// What selling trim earns: all that is made where none is used, else what is left over and not too old.
    pub sold: Option<Figure>,
    /// What the plan brings into the house: served and left over, less what was on hand and what is sold.
    pub brought_in: Option<Figure>,
    /// What must be bought, before whole packs: brought in and sold together.
    pub purchases: Option<Figure>,
    /// What making trim usable costs; nothing where it is binned.
    pub further_cost: Option<Figure>,
    /// What hauling is spared because trim leaves on plates; nothing where it is binned.
    pub haulage_spared: Option<Figure>,
    /// What is brought in and further cost, less haulage spared. What is saved is this in the kitchen that bins its trim less this in either other.
    pub comes_to: Option<Figure>,
}

/// The plan as a whole, in money.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Plan")]
pub struct Totals {
    /// The three kitchens.
    pub kitchens: Vec<InKitchen>,
    /// What must be bought, before whole packs, what stands in for short trim within; null where nobody says what that is.
    pub purchases: Option<Figure>,
    /// What of that is known: all of it where `purchases` is.
    pub known_purchases: Option<Figure>,
    /// The same in whole packs, where the price is for a pack.
    pub purchases_in_whole_packs: Option<Figure>,
    /// What is really saved by using trim; null where the saving of a part that is used is not known.
    pub saved: Option<Figure>,
    /// What of that is known: all of it where `saved` is.
    pub known_saved: Figure,
    /// For how many whole minutes of labor over the plan that would pay: with more, using trim costs more than it saves. Null
    /// where no wage is given.
    pub labor_minutes: Option<Figure>,
    /// The credit given to trim that is left over, which no dish has paid for.
    pub unearned_credit: Figure,
}

/// An item that the plan must buy, as purchased.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "ToBuy")]
pub struct ToBuy<'a> {
    /// Its name.
    pub item: &'a str,
    /// The unit of the quantities.
    pub base_unit: Word<Base>,
    /// On hand before the plan.
    pub on_hand: Figure,
    /// How much the plan wants.
    pub wanted: Figure,
    /// How much of that stands in for short trim.
    pub stands_in: Figure,
    /// How much is taken from what is on hand.
    pub from_stock: Figure,
    /// How much is to be bought.
    pub to_buy: Figure,
    /// On hand after the plan.
    pub left_over: Figure,
    /// What is to be bought costs, before whole packs.
    pub money: Option<Figure>,
    /// How many whole packs that takes; null where it is bought by weight, volume or the piece.
    pub packs: Option<Figure>,
    /// What it costs in whole packs; as much as is to be bought where it is not bought by the pack.
    pub money_in_whole_packs: Option<Figure>,
    /// How much is to be bought where trim is binned.
    pub to_buy_binned: Figure,
    /// What that costs, before whole packs.
    pub money_binned: Option<Figure>,
}

/// A dish of mains, were the trim that is left over thrown away.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "IfThrownAway")]
pub struct IfThrownAway<'a> {
    /// The dish.
    pub name: &'a str,
    /// Food cost of a portion, by-products charged as the book says.
    pub food_credited: Figure,
    /// Food cost of a portion that bears what nobody used.
    pub food_if_left_over_is_thrown_away: Figure,
}

/// What the plan must buy, in base units as purchased.
pub(crate) fn to_buy<'a>(kitchen: &'a Kitchen, costing: &Costing, trim: &Trim) -> Vec<ToBuy<'a>> {
    let all = trim.balance.iter().flat_map(|balance| purchases::purchases(kitchen, costing, balance));
    let json = all.filter_map(|purchase| {
        let Purchase { used, binned, .. } = purchase;
        Some(ToBuy {
            item: &kitchen.item(used.item)?.name,
            base_unit: base(&costing.item(used.item)?.kind),
            on_hand: Figure(used.on_hand),
            wanted: Figure(used.wanted),
            stands_in: Figure(used.stands_in),
            from_stock: Figure(used.from_stock),
            to_buy: Figure(used.purchase),
            left_over: Figure(used.left_over),
            money: purchase.money.map(Figure),
            packs: purchase.packs.map(|(packs, _)| Figure(packs)),
            money_in_whole_packs: purchase.in_whole_packs.map(Figure),
            to_buy_binned: Figure(binned.purchase),
            money_binned: purchase.money_binned.map(Figure),
        })
    });
    json.collect()
}

/// For how many portions there is enough trim; `None` where none is short but what is bought in.
pub(crate) fn enough_for<'a>(kitchen: &'a Kitchen, trim: &Trim) -> Option<EnoughFor<'a>> {
    let promise = trim.balance.as_ref()?.promise.as_ref()?;
    let portions = promise.portions.iter().map(|one| PortionsOnDay {
        day: day_name(kitchen, one.day),
        name: kitchen.served_name(one.served),
        planned: Figure(one.planned),
        enough: Figure(one.portions),
    });
    let parts = promise.parts.iter().filter_map(|part| Some(kitchen.part(*part)?.name.as_str()));
    Some(EnoughFor { by_products: parts.collect(), portions: portions.collect(), whole_plan: promise.is_whole })
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

pub(super) fn dishes<'a>(kitchen: &'a Kitchen, costing: &Costing, trim: &Trim) -> Vec<DishInKitchens<'a>> {
    let all = trim.worth.iter().flat_map(|worth| worth.dishes.iter().map(move |dish| (worth, dish)));
    let dishes = all.map(|(worth, dish)| {
        let [binned, free, credited] = dish.food;
        DishInKitchens {
            name: kitchen.served_name(dish.served),
            portions: dish.portions.map(Figure),
            food_binned: binned.map(Figure),
            food_free: free.map(Figure),
            food_credited: credited.map(Figure),
            planned_portion_cost: dish.planned.map(Figure),
            of_trim: dish.of_trim,
            trim_charged: worth.within.charged(kitchen, costing, dish.served).map(Figure),
            trim_share_percent: dish.trim_share().and_then(percent),
            made_possible_by_trim: dish.made_possible(),
            margin: dish.margin.map(Figure),
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

pub(super) fn totals(kitchen: &Kitchen, costing: &Costing, trim: &Trim) -> Option<Totals> {
    let plan = trim.worth.as_ref()?.plan.as_ref()?;
    let bought = trim.balance.as_ref().map(|balance| purchases::totals(kitchen, costing, balance)).unwrap_or_default();
    let kitchens = Kept::ALL.into_iter().zip(&plan.totals).map(|(kept, total)| {
        let of = |figure: fn(&PlanTotals) -> Decimal| total.as_ref().map(figure).map(Figure);
        InKitchen {
            kitchen: Word(kept),
            in_dishes: of(|total| total.served),
            left_over: of(|total| total.left_over),
            on_hand: of(|total| total.on_hand),
            sold: of(|total| total.sold),
            brought_in: of(|total| total.brought_in),
            purchases: of(|total| total.purchases),
            further_cost: of(|total| total.further_cost),
            haulage_spared: of(|total| total.haulage),
            comes_to: of(|total| total.comes_to),
        }
    });
    Some(Totals {
        kitchens: kitchens.collect(),
        purchases: bought.money.map(Figure),
        known_purchases: bought.known.map(Figure),
        purchases_in_whole_packs: bought.in_whole_packs.map(Figure),
        saved: plan.saving.map(Figure),
        known_saved: Figure(plan.known_saving),
        labor_minutes: trim.labor_minutes().map(Figure),
        unearned_credit: Figure(plan.unearned),
    })
}
