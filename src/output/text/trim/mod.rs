//! Trim report, told as a lesson: the answer first, then where the weight and the money of every yield test went,
//! whether there is enough trim for the plan, who gains by a credit, and what using trim really saves.

mod balance;
mod care;
mod enough;
mod flow;
mod purchases;
mod sweep;
mod ways;
mod worth;

use super::width::hang;
use super::{View, many};
use crate::analysis::Trim;
use crate::costing::Costing;
use crate::food::care as cautions;
use crate::kitchen::{Kitchen, TestId};
use crate::measure::currency;
use crate::number::Decimal;
use crate::results::answer::answer;
use crate::results::distinguishing_decimals;

/// The whole report.
pub fn trim(kitchen: &Kitchen, costing: &Costing, trim: &Trim, view: View) -> String {
    let page = TrimPage { kitchen, costing, view, places: currency::minor_digits(&kitchen.settings.currency) };
    let mut out: String = answer(kitchen, costing, trim, view.width).iter().map(|line| page.say(line)).collect();
    if kitchen.tests.is_empty() {
        out = page.heading();
        out.push_str(&page.say(
            "Trim is reckoned from yield tests, and the book has none. Weigh what goes in and everything that comes out, and \
             add a table Test, Role, Part, Weight. “parings new yield-test --bench” writes the form to print and fill in.",
        ));
        return out;
    }
    if !out.is_empty() {
        out.push('\n');
    }
    out.push_str(&page.heading());
    for (index, test) in kitchen.tests.iter().enumerate() {
        let id = TestId::new(index);
        out.push('\n');
        out.push_str(&flow::flow(&page, id, test));
        out.push_str(&flow::runs(&page, trim.spreads.get(index).and_then(Option::as_ref)));
        out.push_str(&flow::factors(&page, test, trim.factors.get(index).and_then(Option::as_ref)));
        out.push_str(&ways::ways(&page, test, trim.ways.get(index).and_then(Option::as_ref)));
    }
    if trim.worth.is_none() || (trim.balance.is_none() && !kitchen.plan.rows.is_empty()) {
        out.push('\n');
        out.push_str(&page.say(
            "The plan, or what trim is worth, cannot be worked out: a quantity is too large or too small to be computed exactly.",
        ));
    }
    if let Some(balance) = &trim.balance {
        out.push('\n');
        out.push_str(&balance::balance(&page, balance, trim.worth.as_ref()));
        out.push_str(&purchases::purchases(&page, balance));
    }
    if let Some(worth) = trim.worth.as_ref().filter(|worth| !worth.parts.is_empty()) {
        out.push('\n');
        out.push_str(&worth::worth(&page, worth, trim.labor_minutes()));
    }
    for sweep in &trim.sweeps {
        out.push('\n');
        out.push_str(&sweep::sweep(&page, sweep));
    }
    out.push('\n');
    out.push_str(&page.cautions(&care::kept(&page, trim)));
    out
}

/// What everything on the page is written with.
struct TrimPage<'a> {
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    view: View,
    places: u32,
}

impl TrimPage<'_> {
    fn heading(&self) -> String {
        let tests = many(self.kitchen.tests.len(), "yield test", "yield tests");
        let currency = &self.kitchen.settings.currency;
        let money = if currency.is_empty() { String::new() } else { format!(" in {}", super::printable(currency)) };
        self.say(&format!("Costed on {}{money}: {tests}.", self.costing.scenario.date))
    }

    /// A paragraph.
    fn say(&self, text: &str) -> String {
        hang("", &super::printable(text), self.view.width)
    }

    /// Something to heed, with a mark before it.
    fn point(&self, text: &str) -> String {
        hang("- ", &super::printable(text), self.view.width)
    }

    fn cautions(&self, kept: &str) -> String {
        let mut out = super::Emphasis::Strong.on("When trim is kept", self.view);
        out.push('\n');
        for caution in cautions::KEPT {
            let section = caution.section.map(|section| format!(" ({} {section})", cautions::CODE)).unwrap_or_default();
            out.push_str(&self.point(&format!("{}{section}", caution.text)));
        }
        out.push_str(kept);
        out.push_str(&self.point(cautions::ALLERGENS));
        out.push_str(&self.point(cautions::WHO_DECIDES));
        out
    }

    fn money(&self, amount: Decimal) -> String {
        self.money_to(amount, self.places)
    }

    fn money_to(&self, amount: Decimal, places: u32) -> String {
        let sign = currency::sign_of(&self.kitchen.settings.currency);
        format!("{sign}{}", crate::results::figures::shown(Some(amount), places))
    }

    /// Two amounts with as many decimals as tell them apart.
    fn both(&self, one: Decimal, other: Decimal) -> (String, String) {
        let places = distinguishing_decimals::places(one, other, self.places);
        (self.money_to(one, places), self.money_to(other, places))
    }
}
