//! Cheaper offers by hand.

use super::repriced;
use crate::analysis::d;

const OTHERS: &str = "\
Recipe,Salad
Portions,1
Ingredient,Qty,Unit
Carrots,800,g
Prawns,1,kg
";

#[test]
fn the_preferred_may_be_the_dearer_one() {
    let prices = "\
Carrots,1 kg,3.00,Fields,2026-10-01,80%,yes
Carrots,1 kg,2.70,Market,2026-10-01,90%,
Carrots,1 kg,1.00,Market,2026-09-01,90%,
Carrots,5 kg,10.00,Depot,2026-12-01,90%,
Prawns,10 kg,100.00,Harbour,2026-10-01,,
";
    let found = repriced(prices, "Prawns,10 kg,120.00,Harbour,2026-11-01,,\n", OTHERS).without_errors();
    // 3.00 ÷ 0.8 = 3.75 a kilo against 2.70 ÷ 0.9 = 3.00; the older row and the one to come do not count. 800 g are a kilo
    // as purchased: 0.60 saved. Prawns have one offer.
    let [carrots] = found.effects.switches.as_slice() else { panic!("one switch") };
    assert_eq!(found.item(carrots.item), "Carrots");
    assert_eq!((carrots.from, carrots.to), (0, 1));
    assert!(carrots.is_preferred && carrots.is_other_supplier);
    assert_eq!((carrots.ep_from, carrots.ep_to, carrots.saving), (d("0.00375"), d("0.003"), d("0.00075")));
    assert_eq!(carrots.worth, Ok(d("0.6")));
}

#[test]
fn a_cheaper_price_per_kilo_may_be_dearer_on_the_plate() {
    let prices = "\
Carrots,1 kg,3.00,Fields,2026-10-01,90%,yes
Carrots,1 kg,2.90,Market,2026-10-01,80%,
";
    // 3.33 against 3.625 of what is eaten.
    assert!(repriced(prices, "", OTHERS).effects.switches.is_empty());
}

#[test]
fn switches_stand_by_worth_and_a_market_price_is_no_offer() {
    let prices = "\
Carrots,1 kg,3.00,Fields,2026-11-01,,
Carrots,1 kg,2.00,Market,2026-10-01,,
Carrots,1 kg,1.00,Depot,2026-09-01,,
Carrots,1 kg,market,Depot,2026-10-15,,
Prawns,10 kg,100.00,Harbour,2026-11-01,,yes
Prawns,2 kg,16.00,Quay,2026-11-01,,
Prawns,3 kg,15.00,Harbour,2026-10-01,,
";
    let found = repriced(prices, "", OTHERS).without_errors();
    // A kilo of the preferred supplier's prawns at 10.00 against 8.00 at the quay: 2.00. The box of 3 kg is not on its
    // newest list. 800 g of carrots: 0.80.
    let told: Vec<_> = found.effects.switches.iter().map(|one| (found.item(one.item), one.worth)).collect();
    assert_eq!(told, [("Prawns", Ok(d("2"))), ("Carrots", Ok(d("0.8")))]);
    let [prawns, carrots] = found.effects.switches.as_slice() else { panic!("two switches") };
    assert!(prawns.is_other_supplier && prawns.is_preferred);
    assert!(carrots.is_other_supplier && !carrots.is_preferred);
    assert_eq!((carrots.to, prawns.to), (1, 5));
}

#[test]
fn a_pack_that_shrank_is_no_offer_any_more() {
    // 1 kg at 3.00 became 800 g at 3.00; the kilo is cheaper, and gone.
    let prices = "Carrots,1 kg,3.00,Fields,2026-10-01,,\nPrawns,10 kg,100.00,Harbour,2026-10-01,,\n";
    let found = repriced(prices, "Carrots,800 g,3.00,Fields,2026-11-01,,\n", OTHERS).without_errors();
    assert_eq!(found.effects.movers.len(), 1);
    assert!(found.effects.switches.is_empty());
}

#[test]
fn offers_by_the_piece_are_compared_through_measures() {
    let prices = "\
Lemons,100 each,50.00,Fields,2026-11-01,,
Lemons,10 kg,40.00,Market,2026-10-01,,
";
    let others = "\
Item,Measure,Weighs,Basis
Lemons,each,100 g,AP

Recipe,Salad
Portions,1
Ingredient,Qty,Unit
Lemons,4,each
";
    // A lemon at 0.50 against 100 g at 4.00 a kilo, 0.40: four of them save 0.40.
    let found = repriced(prices, "", others).without_errors();
    let [lemons] = found.effects.switches.as_slice() else { panic!("one switch") };
    assert_eq!((lemons.ep_from, lemons.ep_to, lemons.worth), (d("0.5"), d("0.4"), Ok(d("0.4"))));
    // Without the measure nothing is said.
    let others = others.replace("Lemons,each,100 g,AP", "Limes,each,100 g,AP");
    assert!(repriced(prices, "", &others).effects.switches.is_empty());
}
