//! Runs of a test compared.

use jiff::civil::date;
use parings::analysis::{Spread, run_variation};
use parings::{Costing, Reading};

use super::{comes_to, d, errors, only_test, part, read, trial};

fn of(reading: &Reading, costing: &Costing) -> Spread {
    run_variation::of(&mut trial(reading, costing), only_test(reading)).unwrap()
}

/// Ten pounds of cod at 5.00 a pound in every run, and these pounds of fillet; invented.
fn cod(runs: &[(&str, &str)]) -> String {
    let rows: String = runs
        .iter()
        .enumerate()
        .map(|(at, (date, fillet))| {
            let lead = format!("Filleting,{date},Run {},", at + 1);
            format!("{lead}as purchased,Cod,10 lb\n{lead}main,Fillet,{fillet}\n{lead}by-product,Bones,2 lb\n")
        })
        .collect();
    format!(
        "Item,Pack,Price
Cod,10 lb,$50.00

Test,Date,Run,Role,Part,Weight
{rows}
Recipe,Cod plate
Portions,1
Menu price,$30.00
Ingredient,Qty,Unit
Fillet,1,lb

Recipe,Bone plate
Portions,1
Menu price,$30.00
Ingredient,Qty,Unit
Bones,1,lb
"
    )
}

#[test]
fn a_run_far_from_the_others_is_named() {
    let runs = [("2026-03-01", "6 lb"), ("2026-04-01", "6.1 lb"), ("", "6.2 lb"), ("2026-02-01", "4 lb")];
    let (reading, costing) = read(&cod(&runs));
    assert_eq!(errors(&reading, &costing), [""; 0]);
    let spread = of(&reading, &costing);
    let names: Vec<&str> = spread.runs.iter().map(|run| run.run.as_str()).collect();
    assert_eq!(names, ["Run 1", "Run 2", "Run 3", "Run 4"]);
    assert_eq!(spread.dates, Some((date(2026, 2, 1), date(2026, 4, 1))));
    assert_eq!(spread.runs[2].date, None);
    let fillet = &spread.parts[0];
    assert_eq!(fillet.yields, ["0.6", "0.61", "0.62", "0.4"].map(d));
    assert_eq!((fillet.lowest, fillet.highest, fillet.pooled), (3, 2, d("0.5575"))); // 22.3 ÷ 40
    // In order 0.40, 0.60, 0.61, 0.62; a quarter of the way from first to last is 0.55, three quarters 0.6125. Half as much
    // again of 0.0625 is 0.09375: 0.45625 to 0.70625.
    let fences = fillet.fences.unwrap();
    assert_eq!((fences.lower_quartile, fences.upper_quartile), (d("0.55"), d("0.6125")));
    assert_eq!((fences.low, fences.high), (d("0.45625"), d("0.70625")));
    assert_eq!(fillet.far_off, [3]);
    assert_eq!(spread.parts[1].far_off, [0; 0]);

    // A pound for a plate: 5.00 ÷ 0.5575, ÷ 0.62 and ÷ 0.40.
    let main = &spread.mains[0];
    assert_eq!((main.part, main.best, main.worst), (part(&reading, "Fillet"), 2, 3));
    assert_eq!(main.dishes.len(), 1, "the bones are free and bear nothing");
    let dish = main.dishes[0];
    assert_eq!(reading.kitchen.dishes[dish.dish].name, "Cod plate");
    comes_to(dish.pooled.unwrap(), "8.96860987");
    comes_to(dish.best.unwrap(), "8.06451613");
    comes_to(dish.worst.unwrap(), "12.5");

    let noted: Vec<_> = reading.problems.iter().filter(|problem| problem.code.name() == "run-far-off").collect();
    assert_eq!(noted.len(), 1);
    assert_eq!(noted[0].place.to_string(), "book.csv ▸ E14");
    assert_eq!(
        noted[0].message(),
        "this run of “Filleting” is far from the others: “Fillet” is 40.0 % of what went in, elsewhere 60.0 to 62.0 %"
    );
}

#[test]
fn of_three_runs_none_is_named() {
    let (reading, costing) = read(&cod(&[("", "6 lb"), ("", "6.1 lb"), ("", "4 lb")]));
    let spread = of(&reading, &costing);
    assert_eq!((spread.parts[0].fences, spread.dates), (None, None));
    assert_eq!(spread.parts[0].far_off, [0; 0]);
    assert_eq!((spread.parts[0].lowest, spread.parts[0].highest), (2, 1));
    assert!(!reading.problems.iter().any(|problem| problem.code.name() == "run-far-off"));
}

#[test]
fn what_a_scale_may_be_off_is_not_far() {
    // The quartiles fall together, but 0.4 % is within the half percent of a scale.
    let (reading, _) = read(&cod(&[("", "6 lb"), ("", "6 lb"), ("", "6 lb"), ("", "6 lb"), ("", "6.04 lb")]));
    assert!(!reading.problems.iter().any(|problem| problem.code.name() == "run-far-off"));
    let (reading, _) = read(&cod(&[("", "6 lb"), ("", "6 lb"), ("", "6 lb"), ("", "6 lb"), ("", "6.06 lb")]));
    assert!(reading.problems.iter().any(|problem| problem.code.name() == "run-far-off"));
}

#[test]
fn one_run_has_nothing_to_be_compared_with() {
    let (reading, costing) = read(&cod(&[("2026-03-01", "6 lb")]));
    let spread = of(&reading, &costing);
    assert!(spread.mains.is_empty());
    assert_eq!((spread.parts[0].lowest, spread.parts[0].highest, spread.parts[0].pooled), (0, 0, d("0.6")));
}

#[test]
fn one_run_alone_takes_its_own_credits_pieces_and_what_was_added() {
    // Crab at 2.00 a piece, boiled with a pound of salted butter at 3.00. Run a: 10 pieces, 20 lb, 3 lb of meat and 10 lb of
    // shells at 0.50; run b: 5 pieces, 12 lb, 1 lb of meat and 8 lb of shells.
    let (reading, costing) = read(
        r#"Item,Pack,Price
Crab,10 each,$20.00
Butter,10 lb,$30.00

Test,Run,Role,Part,Weight,Charged as,Value
Picking,a,as purchased,Crab,"10 each, 20 lb",,
Picking,a,added,Butter,1 lb,,
Picking,a,main,Crab meat,3 lb,,
Picking,a,by-product,Crab shells,10 lb,price,0.50
Picking,b,as purchased,Crab,"5 each, 12 lb",,
Picking,b,main,Crab meat,1 lb,,
Picking,b,by-product,Crab shells,8 lb,price,0.50

Recipe,Crab plate
Portions,1
Menu price,$30.00
Ingredient,Qty,Unit
Crab meat,1,lb
"#,
    );
    assert_eq!(errors(&reading, &costing), [""; 0]);
    let spread = of(&reading, &costing);
    let dish = spread.mains[0].dishes[0];
    // Pooled: 20 + 10 + 3 of butter − 9 of shells = 24 over 4 lb.
    comes_to(dish.pooled.unwrap(), "6");
    // Run a, 3 of 20 lb: 20 + 3 − 5 = 18 over 3 lb. Run b, 1 of 12: 10 − 4 = 6 over 1 lb.
    assert_eq!((spread.mains[0].best, spread.mains[0].worst), (0, 1));
    comes_to(dish.best.unwrap(), "6");
    comes_to(dish.worst.unwrap(), "6");
}

#[test]
fn a_run_without_the_main_has_no_portion_cost() {
    let book = cod(&[("", "6 lb"), ("", "0 lb")]);
    let (reading, costing) = read(&book);
    let dish = of(&reading, &costing).mains[0].dishes[0];
    comes_to(dish.pooled.unwrap(), "16.66666667"); // 100 ÷ 6
    comes_to(dish.best.unwrap(), "8.33333333"); // 50 ÷ 6
    assert_eq!(dish.worst, None);
}
