//! Built-in foods on the terminal: one in full, a list to choose from, or what a book's items might borrow.

use super::width::{hang, left, width};
use super::{Emphasis, View, printable};
use crate::food::{Food, FoodMeasure};
use crate::kitchen::Reference;
use crate::number::plain;
use crate::results::figures::percent_in_full;

/// One food in full; several as a list with their numbers.
pub fn foods(foods: &[Reference], view: View) -> String {
    match foods {
        [one] => one.food().map_or_else(String::new, |food| whole(*one, food, view)),
        several => list(several, view),
    }
}

fn list(foods: &[Reference], view: View) -> String {
    let mut out = String::new();
    for food in foods {
        let Some(listed) = food.food() else { continue };
        let kitchen = if food.name() == listed.description() { "" } else { food.name() };
        let text = if kitchen.is_empty() {
            listed.description().to_owned()
        } else {
            format!("{kitchen} ({})", listed.description())
        };
        out.push_str(&hang(&format!("  {}  ", listed.number()), &text, view.width));
    }
    out.push_str("\nMore about one of them: parings food NUMBER\n");
    out
}

fn whole(reference: Reference, food: Food, view: View) -> String {
    let strong = |text: &str| Emphasis::Strong.on(text, view);
    let mut out = format!("{}\n", strong(reference.name()));
    out.push_str(&hang("  ", &format!("SR28 {}, {}: {}", food.number(), food.group(), food.description()), view.width));
    out.push_str(&format!("\n{}\n", strong("Refuse and yield")));
    let yields = percent_in_full(food.trim_yield());
    let refuse = match food.refuse() {
        None => "no refuse is stated: 100 % of it is used".to_owned(),
        Some(refuse) if food.is_nut() => {
            format!("{} % is {}, and nuts come without it: 100 % is used", plain(refuse.percent), refuse.what)
        }
        Some(refuse) if food.counts_fat_as_refuse() => format!(
            "{} % of it as purchased is refuse, the fat cut off counted ({}): the yield is {yields}",
            plain(refuse.percent),
            refuse.what
        ),
        Some(refuse) => {
            format!("{} % of it as purchased is refuse ({}): the yield is {yields}", plain(refuse.percent), refuse.what)
        }
    };
    out.push_str(&hang("  ", &refuse, view.width));
    let measures: Vec<FoodMeasure> = food.measures().collect();
    if !measures.is_empty() {
        out.push_str(&format!("\n{}\n", strong("Measures, of its edible portion unless they say otherwise")));
        let widest = measures.iter().map(|measure| width(&measure.text())).max().unwrap_or(0);
        for measure in measures {
            out.push_str(&format!("  {}  {} g\n", left(&measure.text(), widest), plain(measure.grams())));
        }
    }
    let cooked: Vec<_> = food.cooked().collect();
    if !cooked.is_empty() {
        out.push_str(&format!("\n{}\n", strong("Cooked")));
        for one in cooked {
            let text = format!("{} % from {} to {} ({})", plain(one.percent), one.from, one.to, one.measure);
            out.push_str(&hang("  ", &text, view.width));
        }
    }
    if let Reference::Kitchen(kitchen) = reference
        && !kitchen.note().is_empty()
    {
        out.push_str(&format!("\n{}\n{}", strong("To know"), hang("  ", kitchen.note(), view.width)));
    }
    out.push('\n');
    let source = "Published averages of the United States (SR28, 2015). Your own weights and tests are better. To borrow \
                  from it, write its name or number in Reference food of the item's price row.";
    out.push_str(&hang("", source, view.width));
    out
}

/// Rows to paste: every item with the food that it might borrow from, and others to choose from.
pub fn proposals(proposed: &[(String, Vec<Reference>)], view: View) -> String {
    if proposed.is_empty() {
        return "Every item names its reference food already.\n".to_owned();
    }
    let names: Vec<String> = proposed.iter().map(|(item, _)| printable(item)).collect();
    let widest = names.iter().map(|name| width(name)).max().unwrap_or(0).max("Item".len());
    let mut out = format!(
        "{}  {}\n",
        Emphasis::Strong.on(&left("Item", widest), view),
        Emphasis::Strong.on("Reference food", view)
    );
    for (name, (_, foods)) in names.iter().zip(proposed) {
        let words = match foods.as_slice() {
            [] => "none of this name".to_owned(),
            [one] => one.name().to_owned(),
            [first, others @ ..] => {
                let others: Vec<&str> = others.iter().map(|food| food.name()).collect();
                format!("{} (or else: {})", first.name(), others.join("; "))
            }
        };
        out.push_str(&hang(&format!("{}  ", left(name, widest)), &words, view.width));
    }
    out.push_str("\nNothing was changed. Look at each (parings food NAME) before you paste it: a published food may not be yours.\n");
    out
}
