//! Cooking loss tests, and how repeated tests are averaged.

use std::fmt::Write;

use super::{comes_to, costed, d, exactly, loss_percent, per_lb, per_oz, prints};
use crate::support::{dec, part, recipe, test};

/// A boneless ham roasted and sold as 22 portions of 6 oz: the served weight is what was sold, so what crumbled under
/// the slicer is in the loss.
///
/// B-HAM-ROAST. "Completed Cooked Yield Test Form (Table 5.8)", Wayne Gisslen, Professional Cooking (Wiley;
/// attribution ours), <https://www.johnnyskitchen.us/professional-cooking/completed-cooked-yield-test-form.html>.
#[test]
fn ham_roasted_and_sold_in_portions() {
    let json = costed(
        r#"
Item,Price,Per
Boned ham,3.93,lb

Test,Kind,Role,Part,Weight
Ham roasting,cooking,as purchased,Boned ham,12 lb
Ham roasting,cooking,main,Roast ham,132 oz

Recipe,Roast ham plate
Portions,1
Ingredient,Qty,Unit
Roast ham,6,oz
"#,
    );
    let roasting = test(&json, "Ham roasting");
    prints(&roasting["cost"], "47.16"); // 12 × 3.93
    comes_to(loss_percent(roasting), "31"); // 12 − 8.25 = 3.75 lb; 3.75 ÷ 12 = 31.25 %
    comes_to(loss_percent(roasting), "31.25");
    let ham = part(&json, "Ham roasting", "Roast ham");
    comes_to(dec(&ham["weight_g"]) / d("28.349523125"), "132"); // 22 × 6 oz
    comes_to(dec(&ham["weight_g"]) / d("453.59237"), "8.25");
    prints(&ham["yield_percent"], "68.75");
    // Not printed in what was read of the form:
    comes_to(per_lb(ham), "5.71636364"); // 47.16 ÷ 8.25
    prints(&recipe(&json, "Roast ham plate")["portion_cost"], "2.14363636"); // ÷ 22
}

/// The joints of lamb: name, ounces bought, ounces of bone and skin, ounces lost in cooking, ounces to eat.
/// The table of the book gives the hind-quarter 28 oz of waste and 116 oz to eat; 8 + 21 is 29, which leaves 115.
const JOINTS: [(&str, &str, &str, &str, &str); 8] = [
    ("Breast", "32", "8", "2", "22"),
    ("Fore-quarter", "176", "16", "36", "124"),
    ("Hind-quarter", "144", "8", "21", "115"),
    ("Loin", "67", "8", "11", "48"),
    ("Leg", "72", "13", "15", "44"),
    ("Cutlets", "19", "6.5", "3", "9.5"),
    ("Scrag", "18", "6.5", "1.5", "10"),
    ("Shoulder", "69", "13", "13", "43"),
];

/// Eight joints of lamb, each a test of its own, at 1.00 an ounce so that the cost reads as the ounces bought (the
/// source gives no price here).
///
/// B-BEETON-LAMB. Isabella Beeton, Mrs Beeton's Book of Household Management, p. 558,
/// <https://en.wikisource.org/wiki/Page:Mrs_Beeton%27s_Book_of_Household_Management.djvu/634>.
#[test]
fn joints_of_lamb() {
    let mut prices = String::from("Item,Price,Per\n");
    let mut tests = String::from("Test,Kind,Role,Part,Weight,Unit\n");
    for (joint, bought, bone, _, eatable) in JOINTS {
        writeln!(prices, "Lamb {joint},1.00,oz").unwrap();
        writeln!(tests, "{joint} roasting,cooking,as purchased,Lamb {joint},{bought},oz").unwrap();
        writeln!(tests, "{joint} roasting,cooking,waste,{joint} bone and skin,{bone},oz").unwrap();
        writeln!(tests, "{joint} roasting,cooking,main,Roast {joint},{eatable},oz").unwrap();
    }
    let json = costed(&format!("{prices}\n{tests}"));
    let percent =
        ["68.75", "70.45454545", "79.86111111", "71.64179104", "61.11111111", "50", "55.55555556", "62.31884058"];
    for ((joint, bought, _, cooking_loss, eatable), percent) in JOINTS.into_iter().zip(percent) {
        let name = format!("{joint} roasting");
        let roast = part(&json, &name, &format!("Roast {joint}"));
        prints(&test(&json, &name)["cost"], bought);
        comes_to(dec(&test(&json, &name)["loss_g"]) / d("28.349523125"), cooking_loss);
        prints(&roast["yield_percent"], percent);
        comes_to(per_oz(roast) * d(eatable), bought); // what was bought is what the meat has to carry
    }
}

/// The same eight joints pooled as runs of one test: totals over totals, not the mean of the eight percentages.
///
/// B-BEETON-LAMB, as above; the pooling is ours.
#[test]
fn joints_of_lamb_pooled() {
    let mut book = String::from("Item,Price,Per\nLamb,1.00,oz\n\nTest,Run,Kind,Role,Part,Weight,Unit\n");
    for (run, (_, bought, bone, _, eatable)) in JOINTS.into_iter().enumerate() {
        let run = run + 1;
        writeln!(book, "Lamb roasting,{run},cooking,as purchased,Lamb,{bought},oz").unwrap();
        writeln!(book, "Lamb roasting,{run},cooking,main,Roast lamb,{eatable},oz").unwrap();
        writeln!(book, "Lamb roasting,{run},cooking,waste,Lamb bone and skin,{bone},oz").unwrap();
    }
    let json = costed(&book);
    let roasting = test(&json, "Lamb roasting");
    assert_eq!(roasting["runs"], 8);
    // Bought 32 + 176 + 144 + 67 + 72 + 19 + 18 + 69 = 597; eatable 22 + 124 + 115 + 48 + 44 + 9.5 + 10 + 43 = 415.5;
    // bone and skin 79; lost in cooking 2 + 36 + 21 + 11 + 15 + 3 + 1.5 + 13 = 102.5.
    comes_to(dec(&roasting["weight_g"]) / d("28.349523125"), "597");
    comes_to(dec(&roasting["loss_g"]) / d("28.349523125"), "102.5");
    prints(&roasting["cost"], "597.00000000");
    let roast = part(&json, "Lamb roasting", "Roast lamb");
    prints(&roast["yield_percent"], "69.59798995"); // 415.5 ÷ 597; the mean of the eight is 64.96
    prints(&roast["cost_factor"], "1.43682310"); // 597 ÷ 415.5
    prints(&part(&json, "Lamb roasting", "Lamb bone and skin")["yield_percent"], "13.23283082"); // 79 ÷ 597
}

/// Seven kinds of roast, each with the pounds that went in and came out. Ours is total cooked over total raw; four of
/// the printed figures are means over the separate roasts, which the totals cannot give back, and one is cut short.
///
/// B-LOWE-LOSSES. Belle Lowe, Experimental Cookery (Iowa State College, 1930s; author and date ours),
/// <https://chestofbooks.com/food/science/Experimental-Cookery/The-Average-Cooking-Losses-And-Time-Required-To-Cook-Differe.html>.
#[test]
fn losses_of_seven_kinds_of_roast() {
    let roasts = [
        ("Rib well done", "31.25", "24.625", "21.2"), // 6.625 ÷ 31.25; prints 22.5, a mean
        ("Rib medium", "60.5625", "47.625", "21.3622291"), // prints 21.7, a mean
        ("Ham boiled", "104.3125", "82.75", "20.7"),  // 20.67106052; prints 20.6, cut short
        ("Ham roasted", "126.9375", "94.4375", "25.6"), // 25.60315116; prints 25.6
        ("Veal leg", "107.125", "76.0625", "29.0"),   // 28.99649942; prints 29.0
        ("Lamb leg", "26.6875", "18.8125", "29.50819672"), // prints 28.0, a mean
        ("Pork loin", "74.3125", "56.1875", "24.3902439"), // prints 26.3, a mean
    ];
    let mut prices = String::from("Item,Price,Per\n");
    let mut tests = String::from("Test,Kind,Role,Part,Weight (lb)\n");
    for (cut, raw, cooked, _) in roasts {
        writeln!(prices, "{cut} raw,1.00,lb").unwrap();
        writeln!(tests, "{cut} test,cooking,as purchased,{cut} raw,{raw}").unwrap();
        writeln!(tests, "{cut} test,cooking,main,{cut} cooked,{cooked}").unwrap();
    }
    let json = costed(&format!("{prices}\n{tests}"));
    for (cut, raw, _, loss) in roasts {
        let cooking = test(&json, &format!("{cut} test"));
        comes_to(loss_percent(cooking), loss);
        prints(&cooking["cost"], raw);
    }
}

/// Two runs of one test weigh by their pounds: well done and medium ribs together.
///
/// B-LOWE-LOSSES, as above; the pooling is ours.
#[test]
fn rib_roasts_pooled() {
    let json = costed(
        r#"
Item,Price,Per
Rib,1.00,lb

Test,Date,Kind,Role,Part,Weight
Rib roasting,2026-09-01,cooking,as purchased,Rib,31 lb 4 oz
Rib roasting,2026-09-01,cooking,main,Cooked rib,24 lb 10 oz
Rib roasting,2026-10-01,cooking,as purchased,Rib,60 lb 9 oz
Rib roasting,2026-10-01,cooking,main,Cooked rib,47 lb 10 oz
"#,
    );
    let roasting = test(&json, "Rib roasting");
    assert_eq!(roasting["runs"], 2);
    exactly(&roasting["weight_g"], "41645.449470625"); // 91.8125 × 453.59237
    comes_to(loss_percent(roasting), "21.30701157"); // (91.8125 − 72.25) ÷ 91.8125; the mean of the two is 21.28
    comes_to(per_lb(part(&json, "Rib roasting", "Cooked rib")), "1.27076125"); // 91.8125 ÷ 72.25
}
