//! Recipes that stand on one another, each with an item of its own: what is followed is bounded, and still adds up.

use parings::analysis::reprice::FOLLOWED;
use rust_decimal::Decimal;

use super::{between, close};
use crate::analysis::d;

#[test]
fn a_chain_of_many_recipes_adds_up() {
    let deep = FOLLOWED + 44;
    let (mut prices, mut more, mut facts, mut lines) = (String::new(), String::new(), String::new(), String::new());
    for n in 0..deep {
        prices.push_str(&format!("Item {n},1 kg,1.00,2026-10-01\n"));
        // The first items are the cheapest to grow dear: a cent and n hundredths of it more.
        more.push_str(&format!("Item {n},1 kg,{},2026-11-01\n", Decimal::from(10_100 + n) / Decimal::from(10_000)));
        facts.push_str(&format!("Recipe {n},1 kg,1\n"));
        lines.push_str(&format!("Recipe {n},Item {n},1,kg\n"));
        if let Some(before) = n.checked_sub(1) {
            lines.push_str(&format!("Recipe {n},Recipe {before},1,kg\n"));
        }
    }
    let others = format!(
        "Recipe,Makes,Portions\n{facts}\nRecipe,Item,Qty,Unit\n{lines}\nDish,Recipe\nLast,Recipe {}\n",
        deep - 1
    );
    let old = format!("Item,Pack,Price,Date\n{prices}\n{others}");
    let found = between(&old, &format!("Item,Pack,Price,Date\n{prices}{more}\n{others}")).without_errors();
    let effect = found.dish("Last");
    let drivers = effect.drivers.as_ref().unwrap();
    // 300 items rose by 0.01 and 0.0001 × 0 … 299: 3.00 + 0.0001 × 44,850 = 7.485.
    assert_eq!(effect.change, d("7.485"));
    assert_eq!(drivers.sum(), Ok(effect.change));
    assert_eq!((drivers.items.len(), drivers.other), (FOLLOWED, Decimal::ZERO));
    // The 44 smallest, together: 0.44 + 0.0001 × (0 + … + 43 = 946).
    close(drivers.together, d("0.5346"), "together");
    assert_eq!(found.item(drivers.items[0].item), "Item 299");
}

/// Nine tenths of the one before go into each, so that a decimal rounds at every step.
#[test]
fn what_is_rounded_at_every_step_is_still_no_rest() {
    let (mut prices, mut more, mut facts, mut lines) = (String::new(), String::new(), String::new(), String::new());
    for n in 0..400_u32 {
        prices.push_str(&format!("Item {n},3 kg,{}.37,2026-10-01\n", 2 + n % 90));
        more.push_str(&format!("Item {n},3 kg,{}.11,2026-11-01\n", 2 + n % 83));
        facts.push_str(&format!("Recipe {n},1.1 kg,7,9\n"));
        lines.push_str(&format!("Recipe {n},Item {n},{},g\n", 100 + n % 71));
        if let Some(before) = n.checked_sub(1) {
            lines.push_str(&format!("Recipe {n},Recipe {before},0.9,kg\n"));
        }
    }
    let others = format!("Recipe,Makes,Portions,Menu price\n{facts}\nRecipe,Item,Qty,Unit\n{lines}");
    let old = format!("Item,Pack,Price,Date\n{prices}\n{others}");
    let found = between(&old, &format!("Item,Pack,Price,Date\n{prices}{more}\n{others}")).without_errors();
    assert_eq!(found.effects.dishes.len(), 400);
    for effect in &found.effects.dishes {
        let drivers = effect.drivers.as_ref().unwrap();
        assert_eq!(drivers.sum(), Ok(effect.now.portion_cost - effect.was.portion_cost));
        assert!(drivers.items.len() <= FOLLOWED);
        assert_eq!(drivers.other, Decimal::ZERO);
    }
}
