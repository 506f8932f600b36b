//! The menu mix on the terminal: a table a group, what to try, and how it is judged.

use super::table::{TextColumn, TextRow, table};
use super::width::{hang, printable};
use super::{Emphasis, View, capital, many};
use crate::analysis::MenuMix;
use crate::analysis::menu_mix::{MixClass, Unclassed};
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::measure::currency;
use crate::number::plain;
use crate::results::figures::{PERCENT_PLACES, shown};
use crate::results::menu_mix::{MixDishResult, MixGroupResult, class, dishes_wanting, groups, less_at_buy_in, to_try};
use crate::results::value::Figure;

const COLUMNS: [TextColumn; 5] = [
    TextColumn { header: &["Sold"], figures: true },
    TextColumn { header: &["% of", "group"], figures: true },
    TextColumn { header: &["Margin"], figures: true },
    TextColumn { header: &["Margin", "in all"], figures: true },
    TextColumn { header: &["Class"], figures: false },
];

const JUDGED: &str = "How it is judged (Kasavana and Smith, 1982): of n dishes in a group one is popular from 70 % of 1/n of \
    the portions sold; its margin is high from the average margin of a portion sold. The classes compare dishes; they do not \
    say what guests would do.";

const OF_TRIM: &str = "What trim is charged is the kitchen's own choice, and a low charge makes a dish that uses it look rich: \
    so its margin is also told as if the trim were bought, where that is known.";

/// The groups one after another. Where no menu says how many were sold: what to type.
pub fn menu_mix(kitchen: &Kitchen, costing: &Costing, mix: &MenuMix, view: View) -> String {
    let groups: Vec<MixGroupResult<'_>> = groups(kitchen, mix).collect();
    let counted = groups.iter().any(|group| !group.dishes.is_empty());
    if !counted {
        return hang("", nothing_sold(kitchen), view.width);
    }
    let mut page = MenuMixPage { places: currency::minor_digits(&kitchen.settings.currency), view, out: String::new() };
    let currency = &kitchen.settings.currency;
    let money = if currency.is_empty() { String::new() } else { format!(" in {}", printable(currency)) };
    page.say(&format!("Menu mix at the prices of {}{money}.", costing.scenario.date));
    let is_grouped = groups.iter().any(|group| !group.name.is_empty());
    for group in &groups {
        page.group(group, is_grouped);
    }
    page.out.push('\n');
    if groups.iter().flat_map(|group| &group.dishes).any(|dish| dish.made_of_trim) {
        page.say(OF_TRIM);
    }
    page.say(JUDGED);
    page.out
}

fn nothing_sold(kitchen: &Kitchen) -> &'static str {
    if kitchen.dishes.is_empty() {
        "No dish to compare: add a Menu table with Dish, Menu price and Sold."
    } else {
        "Nothing says how many were sold: fill in the column Sold of the menu, or read a list with Dish and Sold beside the \
         book."
    }
}

struct MenuMixPage {
    places: u32,
    view: View,
    out: String,
}

impl MenuMixPage {
    fn say(&mut self, text: &str) {
        self.out.push_str(&hang("", text, self.view.width));
    }

    fn point(&mut self, text: &str) {
        self.out.push_str(&hang("- ", text, self.view.width));
    }

    fn group(&mut self, group: &MixGroupResult<'_>, is_grouped: bool) {
        self.out.push('\n');
        if !group.dishes.is_empty() {
            let name = match (group.name, is_grouped) {
                ("", false) => String::new(),
                ("", true) => "Without a group: ".to_owned(),
                (name, _) => format!("{}: ", printable(name)),
            };
            let sold = group.sold.map_or_else(|| "too many".to_owned(), |sold| sold.to_string());
            let dishes = many(group.dishes.len(), "dish", "dishes");
            let mut text = format!("{name}{dishes}, {sold} sold.");
            if let (None, Some(from), Some(average)) =
                (group.unclassed, group.popular_from_percent, group.average_margin)
            {
                let (from, average) = (shown(Some(from.0), PERCENT_PLACES), shown(Some(average.0), self.places));
                text.push_str(&format!(" Popular from {from} % of them, high margin from {average}."));
            }
            self.say(&text);
            let rows: Vec<TextRow> = group.dishes.iter().map(|dish| self.row(dish)).collect();
            self.out.push_str(&table("Dish", &COLUMNS, &rows, self.view));
        } else if !group.name.is_empty() {
            self.say(&format!("{}:", printable(group.name)));
        }
        match group.unclassed {
            Some(why) if !group.dishes.is_empty() => self.unclassed(group, why.0),
            _ => self.what_to_try(group),
        }
        for dish in &group.dishes {
            self.at_buy_in(dish);
        }
        for dish in &group.not_counted {
            self.point(&format!("{} is left out: {}.", printable(dish.name), dish.because.0.words()));
        }
    }

    fn row(&self, dish: &MixDishResult<'_>) -> TextRow {
        let figure =
            |figure: Option<Figure>, places: u32| (shown(figure.map(|figure| figure.0), places), Emphasis::Plain);
        let class = dish.class.map_or("–", |of| class(of.0));
        let ink = match dish.class.map(|class| class.0) {
            Some(MixClass::PopularHigh) => Emphasis::Good,
            Some(MixClass::SeldomLow) => Emphasis::Doubt,
            _ => Emphasis::Plain,
        };
        let cells = vec![
            (plain(dish.sold.0), Emphasis::Plain),
            figure(dish.sold_percent, PERCENT_PLACES),
            figure(dish.margin, self.places),
            figure(dish.margin_in_all, self.places),
            (class.to_owned(), ink),
        ];
        TextRow { name: printable(dish.name), cells }
    }

    /// Why there are no classes.
    fn unclassed(&mut self, group: &MixGroupResult<'_>, why: Unclassed) {
        let text = match why {
            Unclassed::FewDishes => format!(
                "No classes: at least four dishes of one group are compared; {} would make it so.",
                many(dishes_wanting(group), "more dish", "more dishes")
            ),
            Unclassed::NothingSold => "No classes: nothing was sold of these dishes.".to_owned(),
        };
        self.point(&text);
    }

    /// What may be tried, class by class.
    fn what_to_try(&mut self, group: &MixGroupResult<'_>) {
        for of in MixClass::ALL {
            let dishes = group.dishes.iter().filter(|dish| dish.class.is_some_and(|class| class.0 == of));
            let names: Vec<String> = dishes.map(|dish| printable(dish.name)).collect();
            if !names.is_empty() {
                self.point(&format!("{}: {}. {}", capital(class(of)), names.join("; "), to_try(of)));
            }
        }
        for dish in group.dishes.iter().filter(|dish| dish.margin.is_none()) {
            self.point(&format!("{} has no margin to compare: no cost or no menu price.", printable(dish.name)));
        }
    }

    /// How a dish made of trim would stand if that were bought.
    fn at_buy_in(&mut self, dish: &MixDishResult<'_>) {
        // Without a margin there is nothing to compare it with.
        if !dish.made_of_trim || dish.margin.is_none() {
            return;
        }
        let name = printable(dish.name);
        let Some(margin) = dish.margin_at_buy_in.filter(|_| less_at_buy_in(dish).is_some()) else {
            return self.point(&format!("{name} uses trim; what buying that would cost is not known."));
        };
        let class = match dish.class_at_buy_in {
            Some(then) if dish.class != Some(then) => format!(" ({})", class(then.0)),
            _ => String::new(),
        };
        let margin = shown(Some(margin.0), self.places);
        self.point(&format!("{name} uses trim; if that were bought, its margin would be {margin}{class}."));
    }
}
