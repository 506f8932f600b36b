//! Answer of the trim report, in five lines: what is saved, who gains by the credits and who pays them, what is short
//! and what is left. All else is detail.
//!
//! Takes the report; gives sentences of one line each, as far as names allow.

use std::cmp::Reverse;

use super::distinguishing_decimals;
use crate::analysis::Trim;
use crate::analysis::trim_savings::{DishWorth, PlanWorth, Worth, stand_in_cost};
use crate::costing::Costing;
use crate::in_order::InOrder;
use crate::kitchen::{Kitchen, PartId};
use crate::measure::currency;
use crate::number::{Decimal, exact};
use crate::results::display_units::DisplayUnit;
use crate::results::figures::{amount, shown};
use unicode_width::UnicodeWidthStr;

/// The answer. Nothing where the report says nothing of what trim is worth.
pub fn answer(kitchen: &Kitchen, costing: &Costing, trim: &Trim, columns: usize) -> Vec<String> {
    let Some(worth) = &trim.worth else { return Vec::new() };
    let places = currency::minor_digits(&kitchen.settings.currency);
    let told = TrimTelling { kitchen, costing, columns, places };
    if worth.parts.is_empty() {
        return vec!["No recipe uses any trim, so none of it saves anything.".to_owned()];
    }
    let mut lines = match &worth.plan {
        Some(plan) => vec![told.saved(worth, plan)],
        None => vec![
            "What trim saves, and whether there is enough, only a plan can say: a table Dish, Portions.".to_owned(),
        ],
    };
    lines.extend(told.moved(worth));
    lines.extend(told.short(trim));
    lines.extend(worth.plan.as_ref().map(|plan| told.left(plan)));
    lines
}

struct TrimTelling<'a> {
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    columns: usize,
    places: u32,
}

impl TrimTelling<'_> {
    fn money(&self, amount: Decimal, places: u32) -> String {
        let sign = currency::sign_of(&self.kitchen.settings.currency);
        format!("{sign}{}", shown(Some(amount), places))
    }

    fn part(&self, id: PartId) -> &str {
        self.kitchen.part(id).map(|part| part.name.as_str()).unwrap_or_default()
    }

    fn saved(&self, worth: &Worth, plan: &PlanWorth) -> String {
        let counting = || worth.parts.iter().filter(|part| part.counts());
        if counting().next().is_none() {
            return "The plan uses no trim, so nothing is saved by it.".to_owned();
        }
        match plan.saving {
            Some(saving) if saving < Decimal::ZERO => {
                format!("Using trim costs {} more over the plan than it saves.", self.money(saving.abs(), self.places))
            }
            Some(saving) => format!(
                "Using trim saves {} over the plan: what need not be bought, less what using it costs.",
                self.money(saving, self.places)
            ),
            None => {
                let silent = counting().filter(|part| part.saved.is_none()).map(|part| self.part(part.part).to_owned());
                let known = self.money(plan.known_saving, self.places);
                let lead = format!("Using trim saves {known} over the plan, and more or less by what is not known of ");
                self.fit(&lead, silent.collect())
            }
        }
    }

    /// Whose food the credits make cheaper, and whose dearer: the credited kitchen beside the one that uses trim free.
    fn moved(&self, worth: &Worth) -> Vec<String> {
        let planned = worth.plan.is_some();
        let dishes = worth.dishes.iter().filter(|dish| !planned || dish.portions.is_some_and(|some| !some.is_zero()));
        let mut moved: Vec<(Decimal, String, bool)> = dishes.filter_map(|dish| self.by_credit(dish)).collect();
        moved.put_in_order_by_key(|(whole, ..)| Reverse(*whole));
        let side = |gains: bool| -> Vec<String> {
            moved.iter().filter(|(.., gained)| *gained == gains).map(|(_, text, _)| text.clone()).collect()
        };
        if moved.is_empty() {
            return vec!["No credit moves cost from one dish to another.".to_owned()];
        }
        let lines = [("Gain by the credits, a portion: ", side(true)), ("Pay for them: ", side(false))];
        let told = lines.into_iter().filter(|(_, names)| !names.is_empty());
        told.map(|(lead, names)| self.fit(lead, names)).collect()
    }

    /// What the credits do to a dish: over the plan, in words for one portion, and whether it gains.
    fn by_credit(&self, dish: &DishWorth) -> Option<(Decimal, String, bool)> {
        let [_, Some(free), Some(credited)] = dish.food else { return None };
        let by = exact::sub(credited, free).ok().filter(|by| !by.is_zero())?;
        let whole = exact::mul(by.abs(), dish.portions.unwrap_or(Decimal::ONE)).ok()?;
        let by_money = self.money(by.abs(), distinguishing_decimals::places(by.abs(), Decimal::ZERO, self.places));
        let text = format!("{} {by_money}", self.kitchen.served_name(dish.served));
        Some((whole, text, by < Decimal::ZERO))
    }

    fn short(&self, trim: &Trim) -> Option<String> {
        let balance = trim.balance.as_ref()?;
        let short = self.kitchen.all_parts().filter_map(|id| {
            let short = balance.part(id)?.short;
            let test = self.kitchen.test(id.test).filter(|_| !short.is_zero())?;
            let unit = DisplayUnit::of_test(self.kitchen, test);
            let cost = stand_in_cost(self.kitchen, self.costing, self.kitchen.part(id)?, short);
            let cost = cost.map_or_else(
                || "nothing says what to buy instead".to_owned(),
                |cost| format!("{} to buy instead", self.money(cost, self.places)),
            );
            Some(format!("{} {} of {} ({cost})", amount(short, &unit), unit.name, self.part(id)))
        });
        let short: Vec<String> = short.collect();
        Some(if short.is_empty() { "There is enough of all trim.".to_owned() } else { self.fit("Short: ", short) })
    }

    fn left(&self, plan: &PlanWorth) -> String {
        if plan.unearned.is_zero() {
            return "No credit is left that no dish has paid for.".to_owned();
        }
        let unearned =
            self.money(plan.unearned, distinguishing_decimals::places(plan.unearned, Decimal::ZERO, self.places));
        format!("Trim is left over that was given {unearned} of credit, which no dish has paid for.")
    }

    /// `lead` and as many of `names` as stand on the line, one at the least.
    fn fit(&self, lead: &str, names: Vec<String>) -> String {
        let mut line = lead.to_owned();
        let mut rest = names.len();
        for name in &names {
            let comma = if rest == names.len() { "" } else { "; " };
            let after = rest.saturating_sub(1);
            let more = if after == 0 { ".".to_owned() } else { format!(" and {after} more.") };
            if !comma.is_empty() && line.width() + comma.width() + name.width() + more.width() > self.columns {
                return format!("{line} and {rest} more.");
            }
            line.push_str(comma);
            line.push_str(name);
            rest = after;
        }
        format!("{line}.")
    }
}
