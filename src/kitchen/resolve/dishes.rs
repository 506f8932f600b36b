//! The dishes sold: menu rows first, then every recipe with a menu price that the menu does not name.

use std::collections::{HashMap, HashSet};

use super::lookups::Lookups;
use super::sales::Sales;
use crate::kitchen::menu::{Dish, MenuRow};
use crate::kitchen::recipe::RecipeEntry;
use crate::kitchen::settings::{Setting, Settings};
use crate::kitchen::{Entries, Field, NameKey, RecipeId};
use crate::measure::{Measured, Volumes};
use crate::number::Decimal;
use crate::problem::names::Names;
use crate::problem::{Code, Fault, Place, Problem, THERE, Want};
use crate::schema::Column;

/// Lists the dishes in book order.
pub(super) fn list(
    entries: &Entries,
    settings: &Settings,
    lookups: &Lookups,
    problems: &mut Vec<Problem>,
) -> Vec<Dish> {
    let mut dishes: Vec<Dish> = Vec::new();
    let mut named: HashSet<RecipeId> = HashSet::new();
    let recipe_names: Names = entries.recipes.iter().map(|entry| entry.name.as_str()).collect();
    let sales = Sales::of(&entries.menu, problems);
    let on_menu = entries.menu.iter().filter(|row| !row.is_sales_alone()).map(|row| row.dish.as_str());
    let known: Names = entries.recipes.iter().map(|entry| entry.name.as_str()).chain(on_menu).collect();
    for (index, row) in entries.menu.iter().enumerate() {
        if sales.adds_to_another(index, row) {
            continue;
        }
        let is_known = || lookups.recipe_named(&row.dish).is_some() || known.near(&row.dish).is_some();
        if row.is_sales_alone() && !is_known() {
            problems.push(not_on_menu(row));
            continue;
        }
        let dish = from_menu(index, row, entries, settings, lookups, &recipe_names, problems);
        named.extend(dish.recipe);
        dishes.push(dish);
    }
    for (index, entry) in entries.recipes.iter().enumerate() {
        let id = RecipeId::new(index);
        let sold = matches!(entry.menu_price, Field::Given(_) | Field::Broken);
        let first_of_name = lookups.recipe_named(&entry.name) == Some(id);
        if sold && first_of_name && !named.contains(&id) {
            dishes.push(from_card(id, entry, settings));
        }
    }
    refuse_twice(&mut dishes, problems);
    for dish in &mut dishes {
        dish.sold = sales.sold(&dish.name, dish.row);
        check_price(dish, entries, problems);
    }
    dishes
}

fn not_on_menu(row: &MenuRow) -> Problem {
    Fault::new(
        Code::SaleNotOnMenu,
        format!("“{}” was sold, and is no dish or recipe of this book", row.dish),
        "Nothing to do where it is costed elsewhere: it is left out. Otherwise add its recipe, or its name to the menu.",
    )
    .at(row.input.place(Column::Dish))
}

/// One name, two dishes: which is meant would be a guess, so neither is costed.
fn refuse_twice(dishes: &mut [Dish], problems: &mut Vec<Problem>) {
    let mut first_of: HashMap<NameKey, Place> = HashMap::new();
    let mut twice = HashSet::new();
    for dish in &*dishes {
        let key = NameKey::of(&dish.name);
        let Some(first) = first_of.get(&key) else {
            first_of.insert(key, dish.place.clone());
            continue;
        };
        problems.push(
            Fault::new(
                Code::DishTwice,
                format!("“{}” is already on the menu at {THERE}", dish.name),
                "Give each portion a name of its own, such as “cup” and “bowl”.",
            )
            .speaking_of(first.clone())
            .at(dish.place.clone()),
        );
        twice.insert(key);
    }
    for dish in dishes {
        dish.broken |= twice.contains(&NameKey::of(&dish.name));
    }
}

fn from_menu(
    index: usize,
    row: &MenuRow,
    entries: &Entries,
    settings: &Settings,
    lookups: &Lookups,
    recipe_names: &Names,
    problems: &mut Vec<Problem>,
) -> Dish {
    let (wanted, column) =
        if row.recipe.is_empty() { (&row.dish, Column::Dish) } else { (&row.recipe, Column::Recipe) };
    let recipe = lookups.recipe_named(wanted);
    if recipe.is_none() {
        let near = recipe_names.near(wanted);
        let names = near.as_ref().map(|near| near.names.clone()).unwrap_or_default();
        let help = near.map_or_else(
            || "Name its recipe in the Recipe column, or add the recipe.".to_owned(),
            |near| near.question,
        );
        let want = Want::Name { name: wanted.clone(), near: names, may_be_bought: false };
        let message = format!("there is no recipe called “{wanted}”");
        problems.push(Fault::new(Code::NameUnknown, message, help).wanting(want).at(row.input.place(column)));
    }
    let card = recipe.and_then(|id| entries.recipes.get(id.index()));
    let own_portion = row.portion.given();
    let one_portion = |own: &Measured| own.unit.is_portion() && own.amount == Decimal::ONE;
    let at_card_portion = own_portion.is_none_or(one_portion)
        || card
            .and_then(|card| card.portion.given())
            .is_some_and(|portion| own_portion.is_some_and(|own| is_same(own, portion, settings.volumes)));
    let menu_price = match (&row.menu_price, card) {
        (Field::Blank, Some(card)) if at_card_portion => card.menu_price.clone(),
        (price, _) => price.clone(),
    };
    let target = match (&row.target, card) {
        (Field::Blank, Some(card)) => card.target.clone(),
        (target, _) => target.clone(),
    };
    let broken = recipe.is_none()
        || row.portion.is_broken()
        || menu_price.is_broken()
        || target.is_broken()
        || row.tax.is_broken()
        || settings_broken(settings, &target, &row.tax);
    Dish {
        name: row.dish.clone(),
        place: row.input.place(Column::Dish),
        row: Some(index),
        recipe,
        portion: if at_card_portion { None } else { own_portion.cloned() },
        menu_price: menu_price.given().copied(),
        target: in_force(&target, settings),
        tax: row.tax.given().copied().unwrap_or(settings.tax),
        group: match card {
            Some(card) if row.group.is_empty() => card.group.clone(),
            _ => row.group.clone(),
        },
        sold: Field::Blank,
        broken,
    }
}

/// The target of a dish: its own, else the setting's. One that could not be read is not made good by the setting.
fn in_force(target: &Field<Decimal>, settings: &Settings) -> Option<Decimal> {
    match target {
        Field::Given(target) => Some(*target),
        Field::Blank => settings.target,
        Field::Broken => None,
    }
}

fn from_card(id: RecipeId, entry: &RecipeEntry, settings: &Settings) -> Dish {
    Dish {
        name: entry.name.clone(),
        place: entry.input.place(Column::MenuPrice),
        row: None,
        recipe: Some(id),
        portion: None,
        menu_price: entry.menu_price.given().copied(),
        target: in_force(&entry.target, settings),
        tax: settings.tax,
        group: entry.group.clone(),
        sold: Field::Blank,
        broken: entry.menu_price.is_broken()
            || entry.target.is_broken()
            || settings_broken(settings, &entry.target, &Field::Blank),
    }
}

/// Whether two portions are one, such as 1 cup and 8 fl oz.
fn is_same(own: &Measured, card: &Measured, volumes: Volumes) -> bool {
    own == card || own.in_base(volumes).is_ok_and(|base| base.is_some() && Ok(base) == card.in_base(volumes))
}

/// A dish that would take a setting that could not be read is stopped.
fn settings_broken(settings: &Settings, target: &Field<Decimal>, tax: &Field<Decimal>) -> bool {
    let taken = [
        (Setting::TargetFoodCost, matches!(target, Field::Blank)),
        (Setting::TaxIncluded, matches!(tax, Field::Blank)),
        (Setting::PriceStep, true),
        (Setting::PriceEnding, true),
        (Setting::QFactor, true),
        (Setting::SpiceFactor, true),
        (Setting::SpiceCoversQ, true),
    ];
    taken.iter().any(|(setting, used)| *used && settings.is_broken(*setting))
}

fn check_price(dish: &mut Dish, entries: &Entries, problems: &mut Vec<Problem>) {
    let Some(price) = dish.menu_price else { return };
    if price > Decimal::ZERO {
        return;
    }
    dish.broken = true;
    let row = dish.row.and_then(|row| entries.menu.get(row));
    let place = row.map_or_else(|| dish.place.clone(), |row| row.input.place(Column::MenuPrice));
    problems.push(
        Fault::new(
            Code::PriceBelowZero,
            format!("the menu price of “{}” is {}", dish.name, price.normalize()),
            "Type a price above zero, or leave it blank.",
        )
        .at(place),
    );
}
