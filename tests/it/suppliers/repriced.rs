//! Suppliers' files as new lists beside small books that buy of them: what is taken, held back and unknown, as a buyer
//! expects by `NAME.expected.tsv`.

use jiff::civil::date;
use parings::analysis::supplier_list::NotTaken;
use parings::kitchen::Field;
use parings::kitchen::price::Price;
use parings::{ListOptions, Options, Scenario, Source};
use rust_decimal::Decimal;
use rust_decimal::RoundingStrategy;

/// What becomes of a row of the book.
#[derive(Clone, Copy)]
enum Becomes {
    /// The list's price is taken: so much money, and by how much one unit rose, by hand.
    Taken(&'static str, &'static str),
    /// It is held back.
    Held(NotTaken),
}
use Becomes::{Held, Taken};

/// What a kitchen buys: its own name, pack, price, *Per*, the supplier's code; and what becomes of it.
type Bought = (&'static str, &'static str, &'static str, &'static str, &'static str, Becomes);

/// The list of each file, what is bought of it, and how many products of the buyer's table are not.
const LISTS: &[(&str, &[Bought], usize)] = &[
    (
        "bakery-quote.xls",
        &[
            // 31.20 / 30.00.
            ("Baguette", "24 x 10 oz", "30.00", "", "BR-15", Taken("31.20", "0.04")),
            // 12.95 a kilo; 200.00 / 20 kg = 10.00 a kilo before.
            ("Dark chocolate", "8 x 2.5 kg", "200.00", "", "FC-10", Taken("12.95", "0.295")),
            // 8 loaves of 32 oz, as the list writes it, is asked about.
            ("Sourdough loaf", "8 x 32 oz", "36.00", "", "BR-14", Held(NotTaken::Unreadable)),
        ],
        36 - 3,
    ),
    (
        "cash-carry.ods",
        &[
            // 11.49 / 10.00.
            ("Flour", "16 kg", "10.00", "", "100021", Taken("11.49", "0.149")),
            // 12.29 / 5.00 is more than half dearer.
            ("Bread flour", "16 kg", "5.00", "", "100022", Held(NotTaken::Jump)),
            // 22.50 each, of an outer of four.
            ("Olive oil", "4 x 5 l", "85.00", "", "100095", Held(NotTaken::Unreadable)),
        ],
        43 - 3,
    ),
    (
        "dairy-list.xls",
        &[
            // 17.20 / 16.00.
            ("Milk", "4/1 gal", "16.00", "", "310", Taken("17.20", "0.075")),
            // 16.40 / 8.20 is twice as much.
            ("Low fat milk", "4/1 gal", "8.20", "", "312", Held(NotTaken::Jump)),
        ],
        31 - 2,
    ),
    (
        "dry-goods.csv",
        &[
            // 21.75 / 20.00.
            ("Flour", "50 lb", "20.00", "", "00112", Taken("21.75", "0.0875")),
            // 41.80 / 20.90 is twice as much.
            ("Semolina", "25 kg", "20.90", "", "00120", Held(NotTaken::Jump)),
        ],
        43 - 2,
    ),
    (
        "fish-eur.csv",
        &[
            // 27.90 / 25.00.
            ("Turbot", "", "25.00", "kg", "1101", Taken("27.90", "0.116")),
            // 24.80 / 10.00.
            ("Sole", "", "10.00", "kg", "1110", Held(NotTaken::Jump)),
        ],
        35 - 2,
    ),
    (
        "produce-weekly.xlsx",
        &[
            // 42.50 / 40.00.
            ("Red apples", "88 ct", "40.00", "", "2101", Taken("42.50", "0.0625")),
            // 23.60 / 11.80 is twice as much.
            ("Bananas", "40 lb", "11.80", "", "2120", Held(NotTaken::Jump)),
            ("Broccoli crowns", "20 lb", "26.00", "", "2201", Held(NotTaken::Withdrawn)),
        ],
        42 - 3,
    ),
    (
        "quantity-breaks.csv",
        &[
            // The price of 1-4 cases: 33.00 / 30.00.
            ("Ground tomatoes", "6/#10", "30.00", "", "TC-1002", Taken("33.00", "0.1")),
            // 43.29 / 39.00.
            ("Tomato paste", "6/111 oz", "39.00", "", "TC-1005", Taken("43.29", "0.11")),
        ],
        36 - 2,
    ),
    (
        "specialty-imports.ods",
        &[
            // 31.25 / 25.00.
            ("Cumin", "5 lb", "25.00", "", "SP012", Taken("31.25", "0.25")),
            // A drained weight, and a jar without another.
            ("Preserved lemons", "1 gal", "28.00", "", "CO109", Held(NotTaken::Unreadable)),
        ],
        36 - 2,
    ),
    (
        "two-prices.xlsx",
        &[
            // 58.00 / 50.00.
            ("Cheddar", "2/10 lb", "50.00", "", "004410", Taken("58.00", "0.16")),
            ("Smoked gouda", "2/6 lb", "50.00", "", "004435", Held(NotTaken::Withdrawn)),
            // 64.50 a case of 10 lb and 6.54 a pound do not go together.
            ("Bacon bits", "2/5 lb", "60.00", "", "005125", Held(NotTaken::Unreadable)),
        ],
        33 - 3,
    ),
];

#[test]
fn a_new_list_does_to_a_small_book_what_a_buyer_expects() {
    let mut wrong = Vec::new();
    for (name, bought, others) in LISTS {
        let rows = bought.iter().map(|(item, pack, price, per, code, _)| {
            format!("{item},{pack},{price},{per},The supplier,{code},2026-10-01")
        });
        let text = format!(
            "Item,Pack,Price,Per,Supplier,Code,Date\n{}\nSalt,1 lb,1.00,,Another,1,2026-10-01\n",
            rows.collect::<Vec<_>>().join("\n")
        );
        let source = Source { name: "book.csv", bytes: text.as_bytes() };
        let reading = parings::read(&[source], Options::on(date(2026, 11, 25))).unwrap();
        let costing = parings::cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
        let options = ListOptions {
            supplier: Some("The supplier".to_owned()),
            dated: Some(date(2026, 11, 23)),
            ..ListOptions::default()
        };
        let bytes = super::file(name);
        let list = parings::read_list(&reading, &costing, &[Source { name, bytes: &bytes }], &options).unwrap();
        for (item, .., code, becomes) in *bought {
            let taken = list.taken.iter().find(|taken| list.rows[taken.row].code == *code);
            let held = list.held.iter().find(|held| list.rows[held.row].code == *code).map(|held| held.why);
            let is_right = match (becomes, taken, held) {
                (Taken(money, by), Some(taken), None) => {
                    let price = &taken.price.price;
                    *price == Field::Given(Price::Money(dec(money)))
                        && taken.moved.by.map(|by| by.round_dp_with_strategy(6, RoundingStrategy::MidpointAwayFromZero))
                            == Some(dec(by))
                }
                (Held(why), None, Some(held)) => held == *why,
                _ => false,
            };
            if !is_right {
                let taken = taken.map(|taken| (&taken.price.price, taken.moved.by));
                wrong.push(format!("{name} {item}: taken {taken:?}, held {held:?}"));
            }
        }
        let all = (list.taken.len() + list.held.len(), list.unknown.len(), list.missing.len());
        if all != (bought.len(), *others, 0) {
            wrong.push(format!("{name}: {all:?} taken or held, unknown, missing; not {} and {others}", bought.len()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

fn dec(text: &str) -> Decimal {
    text.parse().unwrap()
}
