//! Kitchens out of a hat: stores, breakdowns and dishes, written as the tables of a book.

#![allow(clippy::indexing_slicing, reason = "indices come from the lengths beside them")]

use proptest::collection::vec;
use proptest::prelude::*;
use rust_decimal::Decimal;

const WORDS: [&str; 8] = ["Amber", "Cobalt", "Ebony", "Fawn", "Garnet", "Jade", "Lilac", "Ochre"];
const ORDER: [&str; 3] = ["first", "second", "third"];

/// Something bought.
#[derive(Debug, Clone)]
pub struct Store {
    /// Price in cents, for the pack or for a pound.
    cents: i64,
    /// Pounds in the pack; none when it is priced by the pound.
    pack_lb: Option<i64>,
    /// Trim yield on the price row, in percent.
    yield_percent: Option<i64>,
}

impl Store {
    /// Hundredths of a cent for a pound, rounded down.
    fn pound(&self) -> i64 {
        self.cents * 100 / self.pack_lb.unwrap_or(1)
    }
}

/// How a by-product is charged.
#[derive(Debug, Clone, Copy)]
enum Charge {
    Free,
    /// Percent of the purchase price.
    Fraction(i64),
    /// The same as money per pound.
    Price(i64),
    /// As a joint product.
    Joint,
}

/// How the joint cost is shared.
#[derive(Debug, Clone, Copy)]
enum Joint {
    Weight,
    SalesValue,
    NetRealizable,
}

/// A part that is not waste: sales value and further cost in cents a pound, the latter below the former.
#[derive(Debug, Clone)]
struct Part {
    value: i64,
    further: i64,
    charge: Charge,
}

/// A yield test with its own store as input.
#[derive(Debug, Clone)]
pub struct Breakdown {
    store: Store,
    mains: Vec<Part>,
    by_products: Vec<Part>,
    joint: Joint,
    /// Per run, ounces of each of seven possible parts (three mains, three by-products, waste), and ounces lost.
    runs: Vec<([i64; 7], i64)>,
}

/// Quarter ounces of something, chosen by kind and number.
#[derive(Debug, Clone)]
struct Line {
    kind: usize,
    pick: usize,
    quarter_oz: i64,
    as_purchased: bool,
}

/// A recipe, made by the pound and served by the ounce.
#[derive(Debug, Clone)]
pub struct Card {
    makes_lb: i64,
    portion_oz: i64,
    menu_cents: Option<i64>,
    /// Percent of the food, or cents a portion.
    q: Option<(bool, i64)>,
    spice_percent: Option<i64>,
    serving_loss_percent: Option<i64>,
    lines: Vec<Line>,
}

/// A kitchen whose book holds no error.
#[derive(Debug, Clone)]
pub struct Kitchen {
    stores: Vec<Store>,
    /// Its yield tests.
    pub breakdowns: Vec<Breakdown>,
    cards: Vec<Card>,
}

fn store() -> impl Strategy<Value = Store> {
    (500_i64..20_000, prop::option::of(1_i64..50), prop::option::of(30_i64..=100))
        .prop_map(|(cents, pack_lb, yield_percent)| Store { cents, pack_lb, yield_percent })
}

fn part() -> impl Strategy<Value = Part> {
    let charge = prop_oneof![
        Just(Charge::Free),
        (1_i64..90).prop_map(Charge::Fraction),
        (1_i64..90).prop_map(Charge::Price),
        Just(Charge::Joint)
    ];
    (2_i64..2_000, 0_i64..100, charge).prop_map(|(value, further, charge)| Part {
        value,
        further: value * further / 100,
        charge,
    })
}

fn breakdown() -> impl Strategy<Value = Breakdown> {
    let joint = prop_oneof![Just(Joint::Weight), Just(Joint::SalesValue), Just(Joint::NetRealizable)];
    let runs = vec((prop::array::uniform7(1_i64..200), 0_i64..60), 1..4);
    (store(), vec(part(), 1..=3), vec(part(), 0..=3), joint, runs).prop_map(
        |(store, mains, by_products, joint, runs)| Breakdown {
            store: Store { yield_percent: None, ..store },
            mains,
            by_products,
            joint,
            runs,
        },
    )
}

fn card() -> impl Strategy<Value = Card> {
    let line = (0_usize..4, any::<usize>(), 1_i64..400, any::<bool>())
        .prop_map(|(kind, pick, quarter_oz, as_purchased)| Line { kind, pick, quarter_oz, as_purchased });
    let money = (
        prop::option::of(100_i64..5_000),
        prop::option::of((any::<bool>(), 0_i64..30)),
        prop::option::of(0_i64..20),
        prop::option::of(1_i64..20),
    );
    (1_i64..40, 1_i64..24, money, vec(line, 1..6)).prop_map(
        |(makes_lb, portion_oz, (menu_cents, q, spice_percent, serving_loss_percent), lines)| Card {
            makes_lb,
            portion_oz,
            menu_cents,
            q,
            spice_percent,
            serving_loss_percent,
            lines,
        },
    )
}

/// Any kitchen.
pub fn kitchen() -> impl Strategy<Value = Kitchen> {
    (vec(store(), 1..5), vec(breakdown(), 1..4), vec(card(), 1..7)).prop_map(|(stores, breakdowns, cards)| Kitchen {
        stores,
        breakdowns,
        cards,
    })
}

impl Breakdown {
    fn main(at: usize, nth: usize) -> String {
        format!("{} {} cut", WORDS[at], ORDER[nth])
    }

    fn by_product(at: usize, nth: usize) -> String {
        format!("{} {} trim", WORDS[at], ORDER[nth])
    }

    fn rows(&self, at: usize, k: Decimal) -> Vec<String> {
        let test = format!("{} breakdown", WORDS[at]);
        let money = |cents: i64| Decimal::new(cents, 2) * k;
        let valued = |part: &Part| format!("{},{}", money(part.value), money(part.further));
        let method = match self.joint {
            Joint::Weight => "by weight",
            Joint::SalesValue => "by sales value",
            Joint::NetRealizable => "net realizable value",
        };
        let mut rows = Vec::new();
        for (run, (ounces, lost)) in self.runs.iter().enumerate() {
            let lead =
                |role: &str, name: &str, ounces: i64| format!("{test},{},{role},{name},{} lb", run + 1, pounds(ounces));
            let weighed = self.mains.len() + self.by_products.len();
            let waste = ounces[6];
            let went_in = ounces[..weighed].iter().sum::<i64>() + waste + lost;
            rows.push(format!("{},,,", lead("as purchased", &Kitchen::input(at), went_in)));
            for (nth, part) in self.mains.iter().enumerate() {
                rows.push(format!("{},{method},{}", lead("main", &Self::main(at, nth), ounces[nth]), valued(part)));
            }
            for (nth, part) in self.by_products.iter().enumerate() {
                let charged = match part.charge {
                    Charge::Free => "free,,".to_owned(),
                    Charge::Fraction(percent) => format!("fraction,{percent}%,"),
                    Charge::Price(percent) => {
                        format!("price,{} / lb,", Decimal::new(self.store.pound() * percent / 100, 4) * k)
                    }
                    Charge::Joint => format!("{method},{}", valued(part)),
                };
                let weight = ounces[self.mains.len() + nth];
                rows.push(format!("{},{charged}", lead("by-product", &Self::by_product(at, nth), weight)));
            }
            rows.push(format!("{},,,", lead("waste", &format!("{} waste", WORDS[at]), waste)));
        }
        rows
    }
}

impl Kitchen {
    fn input(at: usize) -> String {
        format!("{} primal", WORDS[at])
    }

    /// The tables of its book.
    pub fn tables(&self) -> Tables {
        self.written(Decimal::ONE, Decimal::ONE)
    }

    /// The same with all money times `k`.
    pub fn prices(&self, k: Decimal) -> Tables {
        self.written(k, Decimal::ONE)
    }

    /// The same with every recipe's quantities and batch times `factor`.
    pub fn batches(&self, factor: Decimal) -> Tables {
        self.written(Decimal::ONE, factor)
    }

    /// Every main and by-product of a breakdown with its pounds over all runs.
    pub fn all_parts(&self, at: usize) -> impl Iterator<Item = (String, Decimal)> {
        let breakdown = &self.breakdowns[at];
        let names = (0..breakdown.mains.len()).map(move |nth| Breakdown::main(at, nth));
        let names = names.chain((0..breakdown.by_products.len()).map(move |nth| Breakdown::by_product(at, nth)));
        names
            .enumerate()
            .map(|(column, name)| (name, pounds(breakdown.runs.iter().map(|(ounces, _)| ounces[column]).sum())))
    }

    fn written(&self, k: Decimal, factor: Decimal) -> Tables {
        let money = |cents: i64| Decimal::new(cents, 2) * k;
        let price = |name: String, store: &Store| {
            let (pack, per) = store.pack_lb.map_or((String::new(), "lb"), |lb| (format!("{lb} lb"), ""));
            let percent = store.yield_percent.map_or(String::new(), |percent| format!("{percent}%"));
            format!("{name},{pack},{},{per},{percent}", money(store.cents))
        };
        let stores = self.stores.iter().enumerate().map(|(at, store)| price(format!("{} store", WORDS[at]), store));
        let inputs = self.breakdowns.iter().enumerate().map(|(at, test)| price(Self::input(at), &test.store));
        let mut tables = Tables {
            prices: stores.chain(inputs).collect(),
            tests: self.breakdowns.iter().enumerate().flat_map(|(at, test)| test.rows(at, k)).collect(),
            ..Tables::default()
        };
        for (at, card) in self.cards.iter().enumerate() {
            let name = format!("{} dish", WORDS[at]);
            let percent = |percent: Option<i64>| percent.map_or(String::new(), |percent| format!("{percent}%"));
            let q = card.q.map_or(String::new(), |(percent, amount)| {
                if percent { format!("{amount}%") } else { format!("${}", money(amount)) }
            });
            tables.facts.push(format!(
                "{name},{} lb,{} oz,{},{q},{},{}",
                Decimal::from(card.makes_lb) * factor,
                card.portion_oz,
                card.menu_cents.map_or(String::new(), |cents| money(cents).to_string()),
                percent(card.spice_percent),
                percent(card.serving_loss_percent),
            ));
            let lines = card.lines.iter().map(|line| {
                let ounces = Decimal::new(line.quarter_oz * 25, 2) * factor;
                let (item, basis) = self.picked(line, at);
                format!("{name},{item},{ounces},oz,{basis}")
            });
            tables.blocks.push(lines.collect());
        }
        tables
    }

    /// What a line of card number `at` takes, and its basis. A primal is taken as purchased: its test may have several
    /// mains.
    fn picked(&self, line: &Line, at: usize) -> (String, &'static str) {
        let basis = if line.as_purchased { "AP" } else { "EP" };
        let test = line.pick % self.breakdowns.len();
        match line.kind {
            1 => {
                let breakdown = &self.breakdowns[test];
                let nth = line.pick / 7 % (breakdown.mains.len() + breakdown.by_products.len());
                match nth.checked_sub(breakdown.mains.len()) {
                    Some(nth) => (Breakdown::by_product(test, nth), ""),
                    None => (Breakdown::main(test, nth), ""),
                }
            }
            2 => (Self::input(test), "AP"),
            3 if at > 0 => (format!("{} dish", WORDS[line.pick % at]), ""),
            _ => (format!("{} store", WORDS[line.pick % self.stores.len()]), basis),
        }
    }
}

/// Ounces as pounds, exactly, and always with four decimals: three behind a single mark could be thousands.
fn pounds(ounces: i64) -> Decimal {
    Decimal::new(ounces * 625, 4)
}

/// The rows of a book, headers apart; recipe lines in one block for each recipe.
#[derive(Debug, Clone, Default)]
pub struct Tables {
    /// Prices.
    pub prices: Vec<String>,
    /// Yield tests.
    pub tests: Vec<String>,
    /// Recipe facts.
    pub facts: Vec<String>,
    /// Recipe lines, one block a recipe.
    pub blocks: Vec<Vec<String>>,
}

impl Tables {
    /// One file for each kind of table.
    pub fn files(&self) -> Vec<(String, String)> {
        let table = |header: &str, rows: &[String]| format!("{header}\n{}\n", rows.join("\n"));
        let settings = "Setting,Value\nCurrency,USD\nCosting date,2026-11-20\nTarget food cost,30%\n".to_owned();
        [
            ("settings.csv", settings),
            ("prices.csv", table("Item,Pack,Price,Per,Yield", &self.prices)),
            ("tests.csv", table("Test,Run,Role,Part,Weight,Charged as,Value,Further cost", &self.tests)),
            ("facts.csv", table("Recipe,Makes,Portion,Menu price,Q factor,Spice factor,Serving loss", &self.facts)),
            ("lines.csv", table("Recipe,Item,Qty,Unit,Basis", &self.blocks.concat())),
        ]
        .map(|(name, text)| (name.to_owned(), text))
        .to_vec()
    }

    /// All tables below one another in one file.
    pub fn book(&self) -> String {
        self.files().into_iter().map(|(_, text)| text).collect::<Vec<_>>().join("\n")
    }

    /// The same rows in another order.
    pub fn shuffled(&self, seed: u64) -> Self {
        let mut tables = Tables { blocks: vec![self.blocks.concat()], ..self.clone() };
        shuffle(&mut tables.prices, seed);
        shuffle(&mut tables.tests, seed);
        shuffle(&mut tables.facts, seed);
        tables.blocks.iter_mut().for_each(|block| shuffle(block, seed));
        tables
    }
}

/// Puts `rows` into an order that `seed` decides (Fisher and Yates, with Knuth's 64-bit multiplier).
pub fn shuffle<T>(rows: &mut [T], mut seed: u64) {
    for last in (1..rows.len()).rev() {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let bound = u64::try_from(last + 1).unwrap_or(u64::MAX);
        rows.swap(last, usize::try_from((seed >> 33) % bound).unwrap_or(0));
    }
}
