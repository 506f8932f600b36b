//! Trim: where weight and money went, every way of charging, the plan's balance and purchases, the three kitchens, what is
//! saved, and a charge moved up and down.

use parings::analysis::Trim;
use parings::kitchen::yield_test::Test;
use parings::output::{csv, json, text};
use parings::{Costing, Reading};
use proptest::prelude::*;
use rust_decimal::Decimal;
use serde_json::Value;

use super::{Cells, Stored, Story, WIDE, csv_rows, list, name, on_one_line, shown, shown_in};
use crate::analysis::house::house;
use crate::support::{chance, cost_bytes};

/// Grams in a pound, by which all of these houses buy.
const LB: Decimal = Decimal::from_parts(45_359_237, 0, 0, false, 5);

const WEIGHTS: [&str; 7] = ["on_hand_g", "made_g", "wanted_g", "used_g", "left_over_g", "too_old_g", "short_g"];

/// A book's trim as it is told.
struct Told<'a> {
    reading: &'a Reading,
    costing: &'a Costing,
    trim: Trim,
    json: Value,
    report: String,
    sheet: calamine::Range<calamine::Data>,
    what_if: Option<calamine::Range<calamine::Data>>,
}

fn story(reading: &Reading, costing: &Costing) -> Story {
    let kitchen = &reading.kitchen;
    let mut trim = Trim::of_book(kitchen, costing);
    trim.wage = Some(Decimal::from(18));
    let json: Value = serde_json::from_str(&json::trim(kitchen, costing, &trim, &[])).unwrap();
    let report = on_one_line(&text::trim(kitchen, costing, &trim, WIDE));
    let stored = Stored::open(&parings::write(reading, costing, crate::workbook::STAMP).unwrap());
    let mut story = Story::default();
    let Some(sheet) = stored.sheet("Trim").cloned() else { return story };
    let what_if = stored.sheet("What if").cloned();
    let told = Told { reading, costing, trim, json, report, sheet, what_if };
    told.ways(&mut story);
    told.flow(&mut story);
    told.balance(&mut story);
    told.purchases(&mut story);
    told.kitchens(&mut story);
    told.totals(&mut story);
    told.savings(&mut story);
    told.sweeps(&mut story);
    story
}

/// The name and size in grams of the unit in which a test is told: that of its first weight.
fn unit(reading: &Reading, test: &Test) -> (String, Decimal) {
    let weight = reading.kitchen.entries.tests[test.runs[0].row].weight.given().unwrap();
    (weight.unit.name(), weight.unit_grams)
}

impl Told<'_> {
    fn tests(&self) -> impl Iterator<Item = (&Test, &Value)> {
        self.reading.kitchen.tests.iter().zip(list(&self.json["tests"]))
    }

    /// What every part bears under every way.
    fn ways(&self, story: &mut Story) {
        let mut rows = csv_rows(&csv::ways(&self.reading.kitchen, self.costing, &self.trim)).into_iter();
        for (test, json) in self.tests() {
            for (nth, part) in test.parts.iter().enumerate() {
                let mut told = vec![part.name.clone()];
                for way in list(&json["ways"]) {
                    let bears = list(&way["parts"]).get(nth).map_or(&Value::Null, |part| &part["cost"]);
                    told.push(shown(bears, 2));
                }
                let has_trim = test.parts.iter().any(|part| part.role.word() == "by-product");
                if has_trim && part.role.word() != "waste" && told.len() > 1 {
                    story.told(&self.report, &told);
                }
            }
            for way in list(&json["ways"]) {
                for (nth, part) in test.parts.iter().enumerate() {
                    let row = rows.next().unwrap();
                    let bears = list(&way["parts"]).get(nth).unwrap_or(&Value::Null);
                    let what = format!("{}, {} in csv", part.name, way["way"]);
                    story.text(&what, &row["way"], &way["way"]);
                    story.text(&what, &row["cost"], &bears["cost"]);
                    story.text(&what, &row["cost_per_g"], &bears["cost_per_g"]);
                }
            }
        }
        assert!(rows.next().is_none(), "csv has more ways");
    }

    /// Weight, yield and cost of every part, as the book charges it.
    fn flow(&self, story: &mut Story) {
        let costs = crate::support::json_of(self.reading, self.costing);
        let mut row = self.sheet.row_of(0, "Out of it came").unwrap();
        for (test, json) in self.reading.kitchen.tests.iter().zip(list(&costs["tests"])) {
            if json["cost"].is_null() {
                continue;
            }
            let (_, size) = unit(self.reading, test);
            row = self.sheet.row_of(row, &test.name).unwrap();
            story.cell(&format!("{} on Trim", test.name), self.sheet.at(row, 2), &json["weight_g"], size);
            story.cell(&format!("{} on Trim", test.name), self.sheet.at(row, 6), &json["cost"], Decimal::ONE);
            for part in list(&json["parts"]) {
                let (called, role) = (name(part), part["role"].as_str().unwrap());
                row = self.sheet.row_of(row, &called).unwrap();
                story.cell(&format!("{called} on Trim"), self.sheet.at(row, 2), &part["weight_g"], size);
                let share = self.sheet.at(row, 4);
                story.cell(&format!("{called} on Trim"), share, &part["yield_percent"], Decimal::ONE_HUNDRED);
                if role != "waste" {
                    story.cell(&format!("{called} on Trim"), self.sheet.at(row, 6), &part["cost"], Decimal::ONE);
                }
                let (weight, left) = (shown_in(&part["weight_g"], size, 2), shown(&part["yield_percent"], 1));
                story.told(&self.report, &[called, format!("({role})"), weight, left]);
            }
        }
    }

    /// A row of weights on the sheet.
    fn weights(&self, story: &mut Story, what: &str, row: u32, json: &Value, size: Decimal) {
        for (key, column) in WEIGHTS.into_iter().zip(2..) {
            story.cell(&format!("{what}, {key} on Trim"), self.sheet.at(row, column), &json[key], size);
        }
    }

    /// A row of weights on the terminal.
    fn told_weights(&self, story: &mut Story, called: String, json: &Value, size: Decimal) {
        let told = ["on_hand_g", "made_g", "wanted_g", "left_over_g", "too_old_g", "short_g"]
            .map(|key| if json[key] == "0" { "–".to_owned() } else { shown_in(&json[key], size, 2) });
        story.told(&self.report, &[&[called][..], &told].concat());
    }

    fn balance(&self, story: &mut Story) {
        let mut rows = csv_rows(&csv::balance(&self.reading.kitchen, &self.trim)).into_iter();
        let from = self.sheet.row_of(0, "Is there enough trim for the plan?");
        let mut row = from.unwrap_or_default() + 2;
        let mut days = Vec::new();
        let balance = list(&self.json["balance"]);
        for json in balance {
            let test = self.reading.kitchen.tests.iter().find(|test| test.name == json["test"]).unwrap();
            let (_, size) = unit(self.reading, test);
            let zero = |part: &Value| ["wanted_g", "made_g", "on_hand_g"].iter().all(|key| part[key] == "0");
            let is_told = list(&json["parts"]).iter().any(|part| !zero(part));
            for (part, typed) in list(&json["parts"]).iter().zip(&test.parts) {
                let whole = (String::new(), part);
                let of_days = list(&part["days"]).iter().map(|day| (day["day"].as_str().unwrap().to_owned(), day));
                for (day, json) in std::iter::once(whole).chain(of_days) {
                    let found = rows.next().unwrap();
                    let what = format!("{} {day} in csv", name(part));
                    story.text(&what, &found["part"], &part["name"]);
                    story.text(&what, &found["day"], &Value::from(day));
                    WEIGHTS.iter().for_each(|key| story.text(&what, &found[*key], &json[key]));
                }
                if part["role"] == "waste" || !is_told {
                    continue;
                }
                let keeps = typed.reuse.keeps.map(|days| format!(", keeps {} days", days.normalize()));
                let called =
                    format!("{} ({}{})", name(part), part["role"].as_str().unwrap(), keeps.unwrap_or_default());
                self.told_weights(story, called, part, size);
                for day in list(&part["days"]) {
                    self.told_weights(story, format!("· {}", day["day"].as_str().unwrap()), day, size);
                }
                if !zero(part) {
                    row += 1;
                    assert_eq!(self.sheet.says(row, 0), name(part), "row {row} of Trim");
                    self.weights(story, &name(part), row, part, size);
                    for day in list(&part["days"]) {
                        row += 1;
                        days.push((format!("{}, {}", name(part), day["day"].as_str().unwrap()), row));
                        assert_eq!(self.sheet.says(row, 0), days.last().unwrap().0, "row {row} of Trim");
                        self.weights(story, &days.last().unwrap().0, row, day, size);
                    }
                }
            }
        }
        assert!(rows.next().is_none(), "csv has more weights");
        assert_eq!(balance.is_empty(), from.is_none());
    }

    fn purchases(&self, story: &mut Story) {
        let kitchen = &self.reading.kitchen;
        let rows = csv_rows(&csv::purchases(kitchen, self.costing, &self.trim));
        let Some(all) = rows.last() else { return };
        let mut row = self.sheet.row_of(0, "What the plan must buy, as purchased").unwrap() + 2;
        for (bought, found) in list(&self.json["to_buy"]).iter().zip(&rows) {
            row += 1;
            let called = bought["item"].as_str().unwrap();
            for (key, value) in bought.as_object().unwrap() {
                story.text(&format!("{called}, {key} in csv"), &found[key], value);
            }
            assert_eq!(bought["base_unit"], "g", "a pound is told");
            if bought["wanted"] != "0" {
                let amounts =
                    ["wanted", "from_stock", "to_buy"].map(|key| format!("{} lb", shown_in(&bought[key], LB, 2)));
                let money = ["money", "money_in_whole_packs"].map(|key| shown(&bought[key], 2));
                story.told(&self.report, &[&[called.to_owned()][..], &amounts, &money].concat());
            }
            assert_eq!(self.sheet.says(row, 0), called, "row {row} of Trim");
            for (key, column, size) in [
                ("on_hand", 2, LB),
                ("wanted", 3, LB),
                ("stands_in", 4, LB),
                ("to_buy", 5, LB),
                ("left_over", 6, LB),
                ("money", 7, Decimal::ONE),
                ("packs", 8, Decimal::ONE),
                ("money_in_whole_packs", 9, Decimal::ONE),
                ("to_buy_binned", 11, LB),
                ("money_binned", 12, Decimal::ONE),
            ] {
                story.cell(&format!("{called}, {key} on Trim"), self.sheet.at(row, column), &bought[key], size);
            }
        }
        let plan = &self.json["plan"];
        story.text("purchases in csv", &all["money"], &plan["purchases"]);
        story.text("whole packs in csv", &all["money_in_whole_packs"], &plan["purchases_in_whole_packs"]);
        story.cell("purchases on Trim", self.sheet.at(row + 1, 7), &plan["known_purchases"], Decimal::ONE);
        story.cell("packs on Trim", self.sheet.at(row + 1, 9), &plan["purchases_in_whole_packs"], Decimal::ONE);
        let lead = if plan["purchases"].is_null() { "In all, as far as it is known" } else { "In all" };
        assert_eq!(self.sheet.says(row + 1, 0), lead);
        if list(&self.json["to_buy"]).iter().any(|bought| bought["wanted"] != "0") {
            let sums = ["known_purchases", "purchases_in_whole_packs"].map(|key| shown(&plan[key], 2));
            story.told(&self.report, &[&[lead.to_owned()][..], &sums].concat());
        }
        for (one, found) in
            list(&self.json["enough_for"]["portions"]).iter().zip(csv_rows(&csv::portions(kitchen, &self.trim)))
        {
            story.text("enough for, in csv", &found["dish"], &one["name"]);
            story.text("enough for, in csv", &found["enough"], &one["enough"]);
        }
        let mut row = self.sheet.row_of(0, "Enough trim for").unwrap_or_default();
        for one in list(&self.json["enough_for"]["portions"]) {
            row += 1;
            story.text("enough for, on Trim", &self.sheet.says(row, 0), &one["name"]);
            story.cell("enough for, on Trim", self.sheet.at(row, 2), &one["planned"], Decimal::ONE);
            story.cell("enough for, on Trim", self.sheet.at(row, 3), &one["enough"], Decimal::ONE);
            let [planned, enough] = ["planned", "enough"].map(|key| one[key].as_str().unwrap().to_owned());
            if kitchen.plan.days.len() > 1 {
                let day = one["day"].as_str().unwrap();
                story.told(&self.report, &[format!("{day}: {}", name(one)), planned, enough]);
            } else {
                story.told(&self.report, &[format!("{enough} of {}", name(one))]);
            }
        }
    }

    fn kitchens(&self, story: &mut Story) {
        let Some(mut row) = self.sheet.row_of(0, "Food in a portion") else { return };
        let planned = !self.json["plan"].is_null();
        let has_trim = !list(&self.json["savings"]).is_empty();
        for dish in list(&self.json["dishes"]).iter().filter(|dish| !planned || !dish["portions"].is_null()) {
            row += 1;
            assert_eq!(self.sheet.says(row, 0), name(dish), "row {row} of Trim");
            let keys = ["food_binned", "food_free", "food_credited"];
            for (key, column) in keys.into_iter().zip(2..) {
                let what = format!("{}, {key} on Trim", name(dish));
                story.cell(&what, self.sheet.at(row, column), &dish[key], Decimal::ONE);
            }
            if has_trim {
                let portions = dish["portions"].as_str().unwrap_or("–").to_owned();
                let food = keys.map(|key| shown(&dish[key], 2));
                story.told(&self.report, &[&[name(dish), portions][..], &food].concat());
            }
        }
    }

    fn totals(&self, story: &mut Story) {
        let kitchens = list(&self.json["plan"]["kitchens"]);
        if kitchens.is_empty() {
            return;
        }
        let from = self.sheet.row_of(0, "Food in a portion").unwrap();
        let has_trim = !list(&self.json["savings"]).is_empty();
        for (label, key) in [
            ("In the dishes", "in_dishes"),
            ("and left over", "left_over"),
            ("less what was on hand", "on_hand"),
            ("less what is sold", "sold"),
            ("What the plan brings in", "brought_in"),
            ("and further cost of using trim", "further_cost"),
            ("less haulage spared", "haulage_spared"),
            ("What it comes to", "comes_to"),
            ("To buy, before whole packs", "purchases"),
        ] {
            let row = self.sheet.row_of(from, label).unwrap();
            for (kitchen, column) in kitchens.iter().zip(2..) {
                story.cell(&format!("{label} on Trim"), self.sheet.at(row, column), &kitchen[key], Decimal::ONE);
            }
            // What is nothing in every kitchen is told on the sheet alone.
            if has_trim && ["in_dishes", "left_over", "on_hand", "brought_in", "purchases"].contains(&key) {
                let sums: Vec<String> = kitchens.iter().map(|kitchen| shown(&kitchen[key], 2)).collect();
                story.told(&self.report, &[&[label.to_owned()][..], &sums].concat());
            }
        }
    }

    fn savings(&self, story: &mut Story) {
        let plan = &self.json["plan"];
        let Some(mut row) = self.sheet.row_of(0, "What the plan's trim saves") else { return };
        let used = |one: &&Value| one["used_g"] != "0" || one["not_sold"] != "0";
        let counting: Vec<&Value> = list(&self.json["savings"]).iter().filter(used).collect();
        let parts =
            || self.reading.kitchen.tests.iter().flat_map(|test| test.parts.iter().map(move |part| (test, part)));
        for saving in &counting {
            row += 1;
            let called = saving["by_product"].as_str().unwrap().to_owned();
            let (test, _) = parts().find(|(_, part)| part.name == called).unwrap();
            let (unit, size) = unit(self.reading, test);
            assert_eq!(self.sheet.says(row, 0), called, "row {row} of Trim");
            story.cell(&format!("{called}, used on Trim"), self.sheet.at(row, 2), &saving["used_g"], size);
            // Where it is not known what is saved, neither is what need not be bought told.
            let keys = ["not_bought", "not_sold", "further_cost", "haulage_spared", "saved"];
            for (key, column) in keys.into_iter().zip(3..) {
                let json = if saving["saved"].is_null() && key == "not_bought" { &Value::Null } else { &saving[key] };
                story.cell(&format!("{called}, {key} on Trim"), self.sheet.at(row, column), json, Decimal::ONE);
            }
            let money = keys.map(|key| shown(&saving[key], 2));
            story.told(&self.report, &[&[called, shown_in(&saving["used_g"], size, 2), unit][..], &money].concat());
        }
        story.cell("what is saved, on Trim", self.sheet.at(row + 1, 7), &plan["known_saved"], Decimal::ONE);
        if !counting.is_empty() {
            let minutes = plan["labor_minutes"].as_str().unwrap();
            story.told(&self.report, &[format!("At the wage given, {minutes} minutes of labor")]);
        }
    }

    fn sweeps(&self, story: &mut Story) {
        let mut rows = csv_rows(&csv::sweeps(&self.reading.kitchen, &self.trim)).into_iter();
        let mut row = 0;
        for sweep in list(&self.json["sweeps"]) {
            let sheet = self.what_if.as_ref().unwrap();
            row = sheet.row_of(row, "Charged").unwrap();
            for step in list(&sweep["steps"]) {
                row += 1;
                story.cell("a step on What if", sheet.at(row, 0), &step["charged_percent"], Decimal::ONE_HUNDRED);
                for (key, column) in ["bears", "rest_bears", "total"].into_iter().zip(1..) {
                    story.cell(&format!("{key} on What if"), sheet.at(row, column), &step[key], Decimal::ONE);
                }
                let borne = ["bears", "rest_bears", "total"].map(|key| shown(&step[key], 2));
                story.told(&self.report, &[&[shown(&step["charged_percent"], 1)][..], &borne].concat());
                for dish in list(&step["dishes"]) {
                    let found = rows.next().unwrap();
                    let what = format!("{} at {} in csv", name(dish), step["charged_percent"]);
                    for key in ["charged_percent", "bears", "total", "stopped"] {
                        story.text(&what, &found[key], &step[key]);
                    }
                    for key in ["side", "portion_cost", "food_cost_percent"] {
                        story.text(&what, &found[key], &dish[key]);
                    }
                }
            }
        }
        assert!(rows.next().is_none(), "csv has more steps");
    }
}

proptest! {
    #![proptest_config(chance(8))]

    #[test]
    fn trim_is_told_alike(house in house()) {
        let (reading, costing) = cost_bytes(&[("book.csv", house.book().as_bytes())]);
        let told = story(&reading, &costing).end(0);
        prop_assert!(told.is_ok(), "{}", told.unwrap_err());
    }
}

proptest! {
    #![proptest_config(chance(8))]

    /// Without a plan there are tests, ways and the food of a portion.
    #[test]
    fn trim_without_a_plan_is_told_alike(house in house()) {
        let (reading, costing) = cost_bytes(&[("book.csv", house.book_with("").as_bytes())]);
        let told = story(&reading, &costing).end(0);
        prop_assert!(told.is_ok(), "{}", told.unwrap_err());
    }
}
