//! Card of a recipe: what it costs, and what its cook reads.

use parings::food::{allergens, care};
use parings::kitchen::Kitchen;
use parings::kitchen::recipe::IngredientSource;
use parings::kitchen::yield_test::Role;
use parings::results::dish::DishResult;
use parings::results::recipe::RecipeResult;
use parings::schema::{Column, Value as Cell};
use parings::{Costing, food};
use serde_json::{Value, json};

use crate::engine::Answer;

/// What is typed above the lines of a card and shown as it was typed.
const FACTS: &[(Column, &str)] = &[
    (Column::Makes, "Makes"),
    (Column::Portion, "Portion"),
    (Column::Portions, "Portions"),
    (Column::MenuPrice, "Menu price"),
    (Column::Target, "Target"),
    (Column::QFactor, "Q factor"),
    (Column::SpiceFactor, "Spice factor"),
    (Column::ServingLoss, "Serving loss"),
];

/// The card of a recipe.
pub fn card(kitchen: &Kitchen, costing: &Costing, at: usize) -> Result<Answer, String> {
    let none = || "There is no such recipe.".to_owned();
    let recipe = kitchen.recipes.get(at).ok_or_else(none)?;
    let result = RecipeResult::all(kitchen, costing).nth(at).ok_or_else(none)?;
    let entry = kitchen.entries.recipes.get(recipe.entry).ok_or_else(none)?;
    let text = |column: Column| match &entry.input.typed(column).value {
        Cell::Text(text) => text.clone(),
        _ => String::new(),
    };
    let facts = FACTS.iter().map(|(column, label)| (*label, entry.input.text(*column)));
    let facts: Vec<(&str, String)> = facts.filter(|(_, text)| !text.is_empty()).collect();
    let preps: Vec<&str> = entry.lines.iter().map(|line| line.prep.as_str()).collect();
    let notes: Vec<String> = entry.lines.iter().map(|line| line.input.text(Column::Note)).collect();
    let typed: Vec<[String; 2]> =
        entry.lines.iter().map(|line| [line.input.text(Column::Qty), line.input.text(Column::Unit)]).collect();
    let dishes = DishResult::all(kitchen, costing).filter(|dish| dish.recipe == Some(&recipe.name));
    let dishes: Vec<DishResult<'_>> = dishes.collect();
    let of_trim = recipe.lines.iter().any(|line| match line.source {
        IngredientSource::Part(part) => kitchen.part(part).is_some_and(|part| part.role == Role::ByProduct),
        _ => false,
    });
    let cautions = if of_trim { care::KEPT } else { &[] };
    let mut cautions: Vec<&str> = cautions.iter().map(|caution| caution.text).collect();
    if !result.allergens.is_empty() || !result.allergens_not_stated.is_empty() {
        cautions.push(care::ALLERGENS);
        cautions.push(care::WHO_DECIDES);
    }
    let method = text(Column::Method);
    Answer::of(json!({
        "recipe": result, "facts": facts, "preps": preps, "notes": notes, "typed": typed, "dishes": dishes,
        "method": method, "note": text(Column::Note), "cautions": cautions,
        "contains": words(costing, at, false), "may_contain": words(costing, at, true),
    }))
}

/// The allergens in a cook's words, in the order of the list.
fn words(costing: &Costing, at: usize, may: bool) -> Value {
    let Some(set) = costing.allergens.get(at) else { return Value::Null };
    let carried = if may { &set.may_contain } else { &set.contains };
    let order = |code: &str| allergens::codes().iter().position(|known| *known == code).unwrap_or(usize::MAX);
    let mut found: Vec<(&food::Allergen, Vec<&str>)> = carried
        .iter()
        .map(|(allergen, carried)| (allergen, carried.words.iter().map(|word| &**word).collect()))
        .collect();
    found.sort_by_key(|(allergen, _)| order(allergen.code()));
    let mut said: Vec<&str> = Vec::new();
    for word in found.into_iter().flat_map(|(_, words)| words) {
        if !said.contains(&word) {
            said.push(word);
        }
    }
    json!(said)
}
