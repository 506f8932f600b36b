//! Items of many measures: what a line takes of them is what it takes of few, and what is not asked for is not in the way.

use super::order::{LINES, MEASURES, PRICES};
use super::{HEAD, asking, costs, json, one, sound, told};
use crate::support::{cost_json, no_errors};

/// A hundred measures that no line asks for, by names of their own and for preparations of their own.
fn others(item: &str) -> Vec<String> {
    let own = (0..50).map(|n| format!("{item},zinc box {n},{} g,AP", 1_000 + n));
    own.chain((0..50).map(|n| format!("{item},\"cup, zested {n}\",{} g,EP", 500 + n))).collect()
}

#[test]
fn among_many_measures_a_line_takes_what_it_takes_among_few() {
    let of = |measures: &[String]| {
        let (prices, measures) = (PRICES.join("\n"), measures.join("\n"));
        let tables = format!(
            "{HEAD}Item,Pack,Price,Supplier,Preferred,Date\n{prices}\n\nItem,Measure,Weighs,Basis\n{measures}\n{}",
            asking(LINES)
        );
        let json = cost_json(&[("book.csv", &tables)]);
        no_errors(&json);
        costs(&json)
    };
    let few: Vec<String> = MEASURES.iter().map(|row| (*row).to_owned()).collect();
    let many = |item| [few.clone(), others(item)].concat();
    assert!(of(&few).iter().all(|cost| cost != "-"));
    for item in ["Chicory", "Peaches", "Carob", "Gem"] {
        assert_eq!(of(&many(item)), of(&few), "{item}");
    }
}

/// At 10.00 a kilo: the nearest ladle and the very one, an own measure by weight and by volume, and a preparation.
#[test]
fn among_many_measures_the_nearest_and_the_way_round_are_found() {
    let ladles: String = (1..=80).map(|n| format!("Carob,{}.5 oz ladle,{} g,\n", n, n * 31 + 15)).collect();
    let boxes: String = (0..60).map(|n| format!("Carob,box {n},{n}1 g,\n")).collect();
    let tables = format!("Item,Pack,Price\nCarob,1 kg,10.00\n\nItem,Measure,Weighs,Holds\n{ladles}{boxes}");
    // The ladle of 7.5 fl oz holds 7 × 31 + 15 = 232 g, box 7 weighs 71 g.
    assert_eq!(sound(&tables, &["Carob,1,7.5 oz ladle,,,", "Carob,1,box 7,,,"]), ["2.32", "0.71"]);
    // 1 fl oz goes by the smallest ladle: 46 g ÷ 1.5. A gallon by the largest: 2,495 g × 128 ÷ 80.5.
    assert_eq!(sound(&tables, &["Carob,1,fl oz,,,", "Carob,1,gal,,,"]), ["0.3066666667", "39.6720496894"]);
    // A tub weighs 300 g and holds 2 cups, so a cup weighs 150 g.
    let tubs = format!(
        "Item,Pack,Price\nCarob,1 kg,10.00\n\nItem,Measure,Weighs,Holds\n{boxes}Carob,tub,300 g,\nCarob,tub,,2 cups\n"
    );
    assert_eq!(sound(&tubs, &["Carob,1,cup,,,"]), ["1.5"]);
}

#[test]
fn among_many_preparations_a_few_are_told_and_how_many_more() {
    let rows: String = (10..70).map(|n| format!("Carob,\"cup, cut {n}\",{} g,\n", 100 + n)).collect();
    let tables = format!("Item,Pack,Price\nCarob,1 kg,10.00\n\nItem,Measure,Weighs,Holds\n{rows}");
    // Cut 27 weighs 127 g.
    assert_eq!(sound(&tables, &["Carob,1,cup,cut 27,,"]), ["1.27"]);
    let json = json(&tables, &["Carob,1,cup,,,"]);
    let [(_, said)] = told(&json, "measure-ambiguous")[..] else { panic!("{json:#}") };
    assert!(said.contains("“cut 10”") && said.contains("“cut 15” and 54 more"), "{said}");
}

/// 12 bunches for 6.00, one of 100 g: 50 g are half a bunch, 0.25, whatever a cup of it weighs when it is chopped.
#[test]
fn preparations_of_another_measure_are_not_in_the_way() {
    let tables = "Item,Pack,Price\nParsley,12 bunch,6.00\n\nItem,Measure,Weighs\nParsley,bunch,100 g\n\
                  Parsley,\"cup, chopped\",60 g\nParsley,\"cup, leaves\",30 g\n";
    assert_eq!(one(tables, "Parsley,50,g,,,"), "0.25");
    assert_eq!(one(tables, "Parsley,1,cup,leaves,,"), "0.15");
    // Where the cup is asked for, it has to be said which.
    let json = json(tables, &["Parsley,1,cup,,,"]);
    assert_eq!(told(&json, "measure-ambiguous").len(), 1, "{json:#}");
}
