//! Invoices: what a price is for by *Per* and by what was shipped and billed, what changes what it costs, and rows that are
//! no price. Every figure is worked by hand beside it.

use parings::ListOptions;
use parings::analysis::supplier_list::NotTaken;
use parings::problem::Code;
use parings::{Options, Scenario, Source};
use rust_decimal::Decimal;

use crate::recalc::{Sheets, Value, assert_recalculates, with_changes};
use crate::support::{cost_bytes, options};

/// Money and base units of each price row of a csv book, and the codes of the problems that are no notes.
fn rows(book: &str) -> (Vec<Option<(String, String)>>, Vec<Code>) {
    let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
    let told = reading.problems_with(&costing);
    let codes = told.iter().filter(|p| p.severity() != parings::problem::Severity::Note).map(|p| p.code).collect();
    let row = |cost: &parings::costing::RowCost| {
        let plain = |number: Decimal| number.normalize().to_string();
        (plain(cost.ap.money), plain(cost.ap.per))
    };
    (costing.rows.iter().map(|cost| cost.as_ref().map(row)).collect(), codes)
}

/// What one row costs: money, grams, millilitres or pieces.
fn one(header: &str, row: &str) -> Result<(String, String), Code> {
    let (rows, codes) = rows(&format!("{header}\n{row}\n"));
    match (rows.first().cloned().flatten(), codes.first()) {
        (_, Some(code)) => Err(*code),
        (Some((money, per)), None) => Ok((money, per)),
        (None, None) => panic!("{row} is passed over"),
    }
}

/// The words of *Per* beside packs: by the contract. 50 lb are 50 × 453.59237 g, 12 × 750 ml are 9000 ml.
#[test]
fn per_says_the_pack_one_of_it_or_asks() {
    let pack = |words: &[&str], pack: &str, wanted: Result<&str, Code>| {
        for per in words {
            let got = one("Item,Pack,UOM,Price", &format!("Thing,{pack},{per},$12.00")).map(|(_, per)| per);
            assert_eq!(got.as_deref().map_err(|code| *code), wanted, "{pack} by {per}");
        }
    };
    let whole = ["CS", "case", "BX", "box", "FLAT", "carton"];
    let one_unit = ["BG", "SACK", "BTL", "JAR", "TUB", "PK", "CT", "each", "EA"];
    pack(&whole, "50 lb", Ok("22679.6185"));
    pack(&whole, "12/750 ml", Ok("9000"));
    pack(&whole, "24 ct", Ok("24"));
    pack(&one_unit, "50 lb", Ok("22679.6185"));
    pack(&one_unit, "1/50#", Ok("22679.6185"));
    pack(&one_unit, "12/750 ml", Err(Code::PerAmbiguous));
    pack(&["BG", "SACK", "BTL", "JAR", "TUB"], "24 ct", Ok("24"));
    pack(&["each", "EA", "CT"], "24 ct", Err(Code::PerAmbiguous));
    // Catch weight: the pack is about.
    pack(&["lb", "LB"], "2/10 lb", Ok("453.59237"));
    pack(&["kg"], "2/10 lb", Ok("1000"));
    pack(&["dz"], "15 dz", Ok("12"));
}

#[test]
fn without_a_pack_a_package_word_is_one_package_and_a_case_is_of_nothing() {
    assert_eq!(one("Item,Price,Per", "Thyme,$2.00,bag"), Ok(("2".into(), "1".into())));
    assert_eq!(one("Item,Pack,UOM,Price", "Potatoes,,CS,$41.00"), Err(Code::PackMissing));
}

const INVOICE: &str = "Item,Pack,UOM,Qty,Weight (lb),Unit price,Extended";

/// What a line comes to proves what its price is for.
#[test]
fn extension_and_weight_prove_what_a_price_is_for() {
    for (row, wanted) in [
        // 2 × 118.80 = 237.60: the case, 36 lb.
        ("Butter,36/1 lb,CS,2,72,118.80,237.60", Ok(("118.8", "16329.32532"))),
        // 40 × 3.64 = 145.60: the pound, though it says case.
        ("Beef,4/10 lb,CS,1,40,3.64,145.60", Ok(("3.64", "453.59237"))),
        // 6.35 × 7.42 = 47.117, to the cent 47.12.
        ("Blue cheese,1/6 lb avg,CS,1,6.35,7.42,47.12", Ok(("7.42", "453.59237"))),
        // 2 × 12 × 5.35 = 128.40: one of the twelve.
        ("Wine,12/750 ml,BTL,2,,5.35,128.40", Ok(("5.35", "750"))),
        // 2 × 5.35 = 10.70 is two packs or two bottles.
        ("Wine,12/750 ml,BTL,2,,5.35,10.70", Err(Code::PerAmbiguous)),
        // Two jars of 18 oz weigh 36 oz = 2.25 lb.
        ("Pepper,6/18 oz,EA,2,2.25,13.86,27.72", Ok(("13.86", "510.29141625"))),
        // 3 × 2.31 = 6.93 and 191.62 × 2.31 = 442.6422; 442.66 is two cents more.
        ("Pork,8/8 lb,CS,3,191.62,2.31,442.66", Err(Code::ExtensionDisagrees)),
        ("Pork,8/8 lb,CS,3,191.62,2.31,442.65", Ok(("2.31", "453.59237"))),
        // Nothing was shipped, so nothing is proved.
        ("Sausage,2/5 lb,CS,0,,31.20,0.00", Ok(("31.2", "4535.9237"))),
        // 6.84 of a ham of about 7 lb are pounds.
        ("Ham,7 lb avg,CS,6.84,,19.90,136.12", Ok(("19.9", "453.59237"))),
    ] {
        let wanted = wanted.map(|(money, per): (&str, &str)| (money.to_owned(), per.to_owned()));
        assert_eq!(one(INVOICE, row), wanted, "{row}");
    }
}

/// Of two prices the one that the goods go by counts; the other checks it.
#[test]
fn a_case_price_and_a_pound_price_check_each_other() {
    let header = "Item,Pack,Case price,Lb price";
    let lb = "453.59237".to_owned();
    // 20 × 2.90 = 58.00.
    assert_eq!(one(header, "Cheddar,2/10 lb,58.00,2.90"), Ok(("58".into(), "9071.8474".into())));
    // 36 × 1.39 = 50.04, but a third of a cent in each pound is rounding: 50.00 ÷ 36 = 1.3889.
    assert_eq!(one(header, "Butter,36/1 lb,50.00,1.39").map(|(money, _)| money), Ok("50".into()));
    assert_eq!(one(header, "Bacon,2/5 lb,64.50,6.54"), Err(Code::PricesDisagree));
    assert_eq!(one(header, "Ham,2/13 lb avg,,3.10"), Ok(("3.1".into(), lb.clone())));
    assert_eq!(one(header, "Salami,3/5 lb avg,72.00,4.80"), Ok(("4.8".into(), lb.clone())));
    assert_eq!(one(header, "Wheel,1 whl,,8.65"), Ok(("8.65".into(), lb)));
}

/// (107.00 ÷ 1.07 + 5.00 − 2.50) ÷ 10 kg = 102.50 for 10000 g.
#[test]
fn charges_change_what_is_paid() {
    let header = "Item,Pack,Price,Freight,Deposit,Tax";
    let paid = |setting: &str, row: &str| {
        let (rows, codes) = rows(&format!("Setting,Value\n{setting}\n\n{header}\n{row}\n"));
        assert!(codes.is_empty(), "{codes:?}");
        rows[0].clone().unwrap().0
    };
    assert_eq!(paid("Prices include tax,7%", "Fish,10 kg,$107.00,5.00,2.50,"), "102.5");
    // The row's own rate: 119.00 ÷ 1.19 = 100.00.
    assert_eq!(paid("Prices include tax,7%", "Fish,10 kg,$119.00,,,19%"), "100");
    assert_eq!(paid("Prices include tax,no", "Fish,10 kg,$119.00,,,19%"), "119");
    assert_eq!(paid("Currency,USD", "Fish,10 kg,$119.00,1.00,,19%"), "120");
}

/// Where the setting says 7 % and no, or something that is neither, it is open whether the row's own tax is within its price:
/// the row is not costed, in whatever order they stand (found by kitchens of chance). A tax of nothing is the same either way.
#[test]
fn a_tax_that_may_be_within_or_not_is_not_guessed() {
    let header = "Item,Pack,Price,Tax";
    let paid = |settings: [&str; 2], tax: &str| {
        let settings = settings.map(|value| format!("Prices include tax,{value}\n")).concat();
        rows(&format!("Setting,Value\n{settings}\n{header}\nFish,10 kg,$119.00,{tax}\n")).0[0].clone()
    };
    for settings in [["7%", "no"], ["no", "7%"], ["some", "some"]] {
        assert_eq!(paid(settings, "19%"), None, "{settings:?}");
        assert_eq!(paid(settings, ""), None, "{settings:?}");
        assert_eq!(paid(settings, "0%").map(|(money, _)| money), Some("119".into()), "{settings:?}");
    }
}

#[test]
fn a_credit_above_the_price_is_an_error() {
    assert_eq!(one("Item,Pack,Price,Credit", "Milk,1 gal,$2.00,$3.00"), Err(Code::NumberOutOfRange));
}

/// (60 × 11.00 + 20 × 12.00) ÷ 80 lb = 900 ÷ 80 lb: 80 × 453.59237 g.
#[test]
fn catch_weights_are_averaged_by_weight() {
    let book = "Code,Item,Pack,UOM,Weight (lb),Unit price,Extended\n\
                210018,Ribeye,14 lb avg,LB,60,$11.00,$660.00\n\
                210018,Ribeye,14 lb avg,LB,20,$12.00,$240.00\n";
    let (rows, codes) = rows(book);
    assert!(codes.is_empty(), "{codes:?}");
    assert_eq!(rows, [Some(("900".into(), "36287.3896".into()))]);
}

#[test]
fn rows_that_are_no_price_are_passed_over_and_told() {
    let book = format!(
        "{INVOICE}\n\
         Cheese,6/5 lb,CS,3,90,84.15,252.45\n\
         CR - Cheese torn bag,6/5 lb,CS,-1,-30,84.15,-84.15\n\
         DEPOSIT - CRATE,,EA,4,,2.00,8.00\n\
         FUEL SURCHARGE,,,1,,6.75,6.75\n\
         DELIVERY,,,,,7.50,7.50\n\
         SUBTOTAL,,,,,,183.05\n\
         SALES TAX 7 %,,,,,,12.81\n"
    );
    let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
    assert_eq!(costing.rows.len(), 1);
    let told = reading.problems_with(&costing);
    let passed = told.iter().filter(|problem| matches!(problem.code, Code::InvoiceLinePassedOver | Code::TotalSkipped));
    assert_eq!(passed.count(), 6);
}

/// What is offered no more is never taken from a list, and says what is offered instead.
#[test]
fn what_is_withdrawn_is_held_back_from_a_list() {
    let book = "Item,Pack,Price,Supplier,Code,Date\nBroccoli,20 lb,$27.00,Green Valley,2201,2026-11-01\n";
    let reading = parings::read(&[Source { name: "book.csv", bytes: book.as_bytes() }], options()).unwrap();
    let costing = parings::cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
    let list = "Code,Item,Pack,Price,Remarks\n2201,Broccoli,20 lb,$27.40,DISC / SUB 2202\n";
    let source = Source { name: "list.csv", bytes: list.as_bytes() };
    let asked = ListOptions { supplier: Some("Green Valley".into()), ..ListOptions::default() };
    let list = parings::read_list(&reading, &costing, &[source], &asked).unwrap();
    assert!(list.taken.is_empty());
    assert_eq!(list.held.iter().map(|held| held.why).collect::<Vec<_>>(), [NotTaken::Withdrawn]);
    let told = list.problems.iter().find(|problem| problem.code == Code::ItemWithdrawn).unwrap();
    assert_eq!(told.message(), "“Broccoli” is withdrawn, 2202 offered instead");
}

/// A remark that asks or speaks of a while withdraws nothing.
#[test]
fn a_remark_that_asks_withdraws_nothing() {
    for (remark, withdrawn) in [
        ("DISC", true),
        ("SUB 2202", true),
        ("discontinued - use 005110", true),
        ("wdrn 12/1 - sub 376", true),
        ("short - OK to sub 2303?", false),
        ("sub TC-1021 til 12/10", false),
        ("replaces 354", false),
        ("new pack", false),
    ] {
        let (_, codes) = rows(&format!("Item,Pack,Price,Remarks\nThing,10 lb,$1.00,{remark}\n"));
        assert_eq!(codes.contains(&Code::ItemWithdrawn), withdrawn, "{remark}");
    }
}

#[test]
fn days_are_read_as_lists_write_them() {
    for text in ["11/23/26", "23.11.2026", "23.11.26", "46349"] {
        let book = format!("Item,Pack,Price,Valid from\nOnions,50 lb,$20.00,{text}\n");
        let options = Options::on(jiff::civil::date(2026, 11, 25));
        let reading = parings::read(&[Source { name: "book.csv", bytes: book.as_bytes() }], options).unwrap();
        let date = reading.kitchen.entries.prices[0].date.given().copied();
        assert_eq!(date, Some(jiff::civil::date(2026, 11, 23)), "{text}");
    }
}

/// The column under a header of the sheet Prices.
fn column(sheets: &Sheets, header: &str) -> String {
    let columns = ('A'..='Z').map(String::from).chain(('A'..='Z').map(|letter| format!("A{letter}")));
    let is = |column: &String| sheets.value("Prices", &format!("{column}1")) == Value::Text(header.to_owned());
    columns.into_iter().find(is).unwrap_or_else(|| panic!("no column {header}"))
}

/// The cell on the sheet takes tax out, further cost on and the credit off, and follows what is typed:
/// (107.00 ÷ 1.07 + 5.00 − 2.50) ÷ 10000 g = 0.01025; with freight of 10.00 it is 107.50 ÷ 10000 g.
#[test]
fn the_sheet_of_prices_figures_charges_live() {
    let book = "Setting,Value\nPrices include tax,7%\n\n\
                Item,Pack,Price,Freight,Deposit,Tax\n\
                Fish,10 kg,$107.00,5.00,2.50,\n\
                Wine,6/750 ml,$119.00,,,19%\n\n\
                Recipe,Fish stew\nPortions,4\nIngredient,Qty,Unit\nFish,2,kg\nWine,1,l\n";
    let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
    let bytes = parings::write(&reading, &costing, crate::workbook::STAMP).unwrap();
    assert_recalculates(&bytes, "charges on prices");
    let sheets = Sheets::open(&bytes);
    let ap = format!("{}2", column(&sheets, "AP per g, ml, each"));
    assert!(Value::Number(0.01025).agrees(&sheets.value("Prices", &ap)), "{:?}", sheets.value("Prices", &ap));
    let freight = format!("{}2", column(&sheets, "Further cost"));
    let typed = with_changes(&bytes, &[("Prices", &freight, 10.0)]);
    assert!(Value::Number(0.01075).agrees(&typed.value("Prices", &ap)), "{:?}", typed.value("Prices", &ap));
}

/// What an output says is read again as it was: a price that was proved to be for the pound says so by itself.
#[test]
fn what_was_proved_is_written_so_that_it_is_read_again() {
    let book = format!("{INVOICE}\nBeef,4/10 lb,CS,1,40,$3.64,145.60\nWine,12/750 ml,BTL,2,,5.35,128.40\n");
    let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
    let bytes = parings::write(&reading, &costing, crate::workbook::STAMP).unwrap();
    let (_, again) = cost_bytes(&[("again.xlsx", &bytes)]);
    let rate = |costing: &parings::Costing| -> Vec<_> { costing.rows.iter().flatten().map(|row| row.ap).collect() };
    assert_eq!(rate(&again), rate(&costing));
    assert_eq!(rate(&costing).len(), 2);
}

/// Ounces of a liquid are asked about, and each of the answers is one.
#[test]
fn ounces_of_a_liquid_are_asked_about_once() {
    for (row, asked) in [
        ("Olive oil,6/101 oz", true),
        ("Olive oil,6/101 fl oz", false),
        ("Olive oil,6/101 oz wt", false),
        ("Tuna in oil,6/66.5 oz", false),
        ("Cream cheese,12/8 oz", false),
        ("Black pepper,6/18 oz", false),
    ] {
        let (_, codes) = rows(&format!("Item,Pack,Price\n{row},$10.00\n"));
        assert_eq!(codes.contains(&Code::OuncesDoubtful), asked, "{row}");
    }
    // 384 oz are 24 lb; 25.30 lb were shipped, so they are fluid ounces of cream, which weighs more. As much as it says
    // is by weight: 6 × 114 oz = 42.75 lb.
    let invoice = |line: &str| format!("{INVOICE}\nButter,36/1 lb,CS,2,72.00,118.80,237.60\n{line}\n");
    let (_, codes) = rows(&invoice("Cream,12/32 OZ,CS,1,25.30,58.44,58.44"));
    assert_eq!(codes, [Code::OuncesDoubtful]);
    let (_, codes) = rows(&invoice("Oil,6/114 OZ,CS,1,42.75,39.90,39.90"));
    assert_eq!(codes, []);
}
