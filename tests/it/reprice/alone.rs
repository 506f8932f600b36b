//! What an item drove is what costing gives when its row alone is new.

use parings::analysis::Effects;
use parings::{Costing, Reading};
use rust_decimal::Decimal;

use super::{Repriced, repriced};

/// Asserts that every driver of every dish is the change that the item's own new rows make; `with` gives the book with the
/// new rows of that item alone.
#[track_caller]
pub fn each_alone(found: &Repriced, with: impl Fn(&str) -> (Reading, Costing)) {
    for mover in &found.effects.movers {
        let name = found.item(mover.item);
        let (alone, costed) = with(name);
        let of_it = Effects::of(&found.old.kitchen, &found.was, &alone.kitchen, &costed);
        for effect in &found.effects.dishes {
            let drivers = effect.drivers.as_ref().unwrap();
            let driver = drivers.items.iter().find(|driver| driver.item == mover.item);
            let driven = driver.map_or(Decimal::ZERO, |driver| driver.change);
            let change =
                of_it.dishes.iter().find(|one| one.dish == effect.dish).map_or(Decimal::ZERO, |one| one.change);
            let most = effect.was.portion_cost.max(effect.now.portion_cost);
            assert!((driven - change).abs() <= most * Decimal::new(1, 18), "{name}: {driven}, not {change}");
        }
    }
}

#[test]
fn a_kitchen_of_every_charge() {
    let prices = "\
Prawns,10 kg,97.31,,2026-10-01
Shells,1 kg,1.07,,2026-10-01
Carrots,7 kg,13.10,,2026-10-01,83%
Lemons,3 each,1.00,,2026-10-01
Wine,750 ml,7.00,,2026-10-01
";
    let others = "\
Setting,Value
Q factor,7%
Spice factor,3%

Test,Run,Role,Part,Weight,Charged as,Value,Instead of
Peeling,1,as purchased,Prawns,10 kg,,,
Peeling,1,added,Lemons,1.1 kg,,,
Peeling,1,main,Large,3.3 kg,by sales value,31 / kg,
Peeling,1,main,Small,2.9 kg,by sales value,17 / kg,
Peeling,1,by-product,Heads,1.7 kg,fraction,13%,
Peeling,1,by-product,Peelings,1.3 kg,market,,300 g Shells per kg
Peeling,1,by-product,Roe,100 g,price,19 / kg,
Simmering,1,as purchased,Stock,9 kg,,,
Simmering,1,main,Glaze,2 kg,,,
Simmering,1,by-product,Froth,1 kg,fraction,11%,

Item,Measure,Weighs,Basis
Lemons,each,97 g,AP

Recipe,Stock
Makes,9 kg
Portion,300 g
Serving loss,3%
Q factor,11%
Ingredient,Qty,Unit
Peelings,1.3,kg
Heads,0.7,kg
Carrots,1.1,kg
Wine,330,ml

Recipe,Bisque
Portions,7
Menu price,9
Ingredient,Qty,Unit
Stock,2,portions
Glaze,150,g
Froth,50,g
Large,700,g
Lemons,2,each

Recipe,Cocktail
Portions,3
Menu price,9
Ingredient,Qty,Unit
Small,330,g
Roe,30,g
Stock,0.1,batch
Bisque,0.25,portion
";
    let rows = [
        "Prawns,10 kg,113.17,,2026-11-01\n",
        "Shells,1 kg,2.99,,2026-11-01\n",
        "Carrots,7 kg,11.30,,2026-11-01,79%\n",
        "Lemons,3 each,1.30,,2026-11-01\n",
        "Wine,750 ml,8.21,,2026-11-01\n",
    ];
    let found = repriced(prices, &rows.concat(), others).without_errors();
    assert_eq!(found.effects.dishes.len(), 2);
    for effect in &found.effects.dishes {
        let drivers = effect.drivers.as_ref().unwrap();
        assert_eq!(drivers.items.len(), 5);
        assert_eq!(drivers.sum(), Ok(effect.now.portion_cost - effect.was.portion_cost));
        assert_eq!((drivers.together, drivers.other), (Decimal::ZERO, Decimal::ZERO));
    }
    each_alone(&found, |name| {
        let row = rows.iter().find(|row| row.starts_with(name)).unwrap();
        let alone = repriced(prices, row, others);
        (alone.new, alone.now)
    });
}
