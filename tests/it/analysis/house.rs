//! Houses out of a hat: yield tests that follow on each other, recipes of what they make, stock and a plan of several days.
//!
//! Only numbers, so that proptest can shrink them; written as the tables of a book without errors. Tests and cards come by
//! turns, and each takes only what stands before it.

use proptest::collection::vec;
use proptest::prelude::*;
use rust_decimal::Decimal;

/// How a by-product is charged. What comes of another test is charged at no money that could be more than it cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Charge {
    Free,
    Fraction,
    Price,
    Market,
    Joint,
}

#[derive(Debug, Clone)]
struct ByProduct {
    ounces: i64,
    charge: Charge,
    /// Percent of what the input costs, for charges and for what it fetches.
    percent: i64,
    /// Cents a pound of what it stands in for.
    instead: Option<i64>,
    sold: bool,
    further: Option<i64>,
    eaten: i64,
    keeps: Option<i64>,
}

#[derive(Debug, Clone)]
struct Test {
    /// Of which kind what goes in is, and which of them.
    input: (u8, usize),
    /// Cents a pound, where it is bought.
    cents: i64,
    pieces: Option<i64>,
    /// Ounces added of a bought item.
    added: Option<i64>,
    mains: Vec<(i64, i64)>,
    by_products: Vec<ByProduct>,
    lost: i64,
    by_value: bool,
}

/// Kind, which of them, quarter ounces, percent used, percent of yield.
type Line = (u8, usize, i64, Option<i64>, Option<i64>);

#[derive(Debug, Clone)]
struct Card {
    makes_lb: i64,
    portion_oz: i64,
    priced: bool,
    q: Option<i64>,
    spice: Option<i64>,
    serving_loss: Option<i64>,
    lines: Vec<Line>,
}

/// A house.
#[derive(Debug, Clone)]
pub struct House {
    stages: Vec<(Test, Card)>,
    /// Which card, portions, day.
    pub plan: Vec<(usize, i64, i64)>,
    /// Kind, which of them, ounces.
    stock: Vec<(u8, usize, i64)>,
}

fn by_product() -> impl Strategy<Value = ByProduct> {
    let charge = prop_oneof![
        Just(Charge::Free),
        Just(Charge::Fraction),
        Just(Charge::Price),
        Just(Charge::Market),
        Just(Charge::Joint)
    ];
    let reuse = (
        prop_oneof![5 => (10_i64..900).prop_map(Some), 1 => Just(None)],
        any::<bool>(),
        prop::option::of(0_i64..100),
        0_i64..=100,
        prop::option::of(0_i64..3),
    );
    (1_i64..60, charge, 0_i64..30, reuse).prop_map(
        |(ounces, charge, percent, (instead, sold, further, eaten, keeps))| ByProduct {
            ounces,
            charge,
            percent,
            instead,
            sold,
            further,
            eaten,
            keeps,
        },
    )
}

fn test() -> impl Strategy<Value = Test> {
    let goes_in = (0_u8..5, any::<usize>(), 100_i64..2_000, prop::option::of(1_i64..8), prop::option::of(1_i64..20));
    let comes_out = (vec((1_i64..120, 1_i64..2_000), 1..4), vec(by_product(), 0..4), 0_i64..40, any::<bool>());
    (goes_in, comes_out).prop_map(|((kind, pick, cents, pieces, added), (mains, by_products, lost, by_value))| Test {
        input: (kind, pick),
        cents,
        pieces,
        added,
        mains,
        by_products,
        lost,
        by_value,
    })
}

fn card() -> impl Strategy<Value = Card> {
    let percent = || prop::option::weighted(0.2, 1_i64..=100);
    let line = (0_u8..8, any::<usize>(), 1_i64..400, percent(), percent());
    let factors = (
        any::<bool>(),
        prop::option::of(0_i64..10),
        prop::option::of(0_i64..10),
        prop::option::weighted(0.3, 1_i64..20),
    );
    (1_i64..20, 1_i64..24, factors, vec(line, 1..5)).prop_map(
        |(makes_lb, portion_oz, (priced, q, spice, serving_loss), lines)| Card {
            makes_lb,
            portion_oz,
            priced,
            q,
            spice,
            serving_loss,
            lines,
        },
    )
}

/// Any house.
pub fn house() -> impl Strategy<Value = House> {
    let plan = vec((any::<usize>(), 0_i64..60, 0_i64..4), 1..8);
    let stock = vec((0_u8..5, any::<usize>(), 1_i64..200), 0..5);
    (vec((test(), card()), 2..6), plan, stock).prop_map(|(stages, plan, stock)| House { stages, plan, stock })
}

/// Ounces as pounds, with four decimals always: three behind a mark could be thousands.
fn pounds(ounces: i64) -> Decimal {
    Decimal::new(ounces * 625, 4)
}

fn money(cents: i64) -> Decimal {
    Decimal::new(cents, 2)
}

fn or_blank(number: Option<impl ToString>, unit: &str) -> String {
    number.map_or(String::new(), |number| format!("{}{unit}", number.to_string()))
}

impl House {
    /// The names of the mains, or of the by-products, of tests before `stage`.
    fn parts(&self, stage: usize, mains: bool) -> Vec<String> {
        let all = self.stages[..stage].iter().enumerate();
        all.flat_map(|(at, (test, _))| {
            let count = if mains { test.mains.len() } else { test.by_products.len() };
            let word = if mains { "cut" } else { "trim" };
            (0..count).map(move |nth| format!("Test {at} {word} {nth}"))
        })
        .collect()
    }

    /// What goes into the test of a stage: a part that came before, a card that came before, else something bought.
    fn input(&self, stage: usize) -> (String, bool) {
        let (kind, pick) = self.stages[stage].0.input;
        let (trim, mains) = (self.parts(stage, false), self.parts(stage, true));
        match kind {
            1 | 2 if !trim.is_empty() => (trim[pick % trim.len()].clone(), false),
            4 if !mains.is_empty() => (mains[pick % mains.len()].clone(), false),
            3 if stage > 0 => (format!("Card {}", pick % stage), false),
            _ => (format!("Beast {stage}"), true),
        }
    }

    fn tests(&self) -> String {
        let mut rows =
            String::from("Test,Role,Part,Weight,Charged as,Value,Further cost,Instead of,Otherwise,Eaten,Keeps\n");
        for (stage, (test, _)) in self.stages.iter().enumerate() {
            let (input, bought) = self.input(stage);
            let out: i64 = test.mains.iter().map(|main| main.0).sum::<i64>()
                + test.by_products.iter().map(|part| part.ounces).sum::<i64>();
            let count = test.pieces.map_or(String::new(), |pieces| format!("{pieces} each; ")).replace("; ", ", ");
            let weight = format!("\"{count}{} lb\"", pounds(out + test.lost));
            rows.push_str(&format!("Test {stage},as purchased,{input},{weight},,,,,,,\n"));
            if let Some(added) = test.added {
                rows.push_str(&format!("Test {stage},added,Store,{} lb,,,,,,,\n", pounds(added)));
            }
            let method = if test.by_value { "by sales value" } else { "by weight" };
            for (nth, (ounces, value)) in test.mains.iter().enumerate() {
                let lead = format!("Test {stage},main,Test {stage} cut {nth},{} lb", pounds(*ounces));
                rows.push_str(&format!("{lead},{method},{},,,,,\n", money(*value)));
            }
            for (nth, part) in test.by_products.iter().enumerate() {
                // Never more than 30 % of what the input costs, so that all that is sold or credited is less than the whole.
                let cents = test.cents * part.percent / 100;
                let charged = match part.charge {
                    Charge::Price if bought => format!("price,{} / lb", money(cents)),
                    Charge::Market if bought && part.instead.is_some() => "market,".to_owned(),
                    Charge::Fraction | Charge::Price | Charge::Market => format!("fraction,{}%", part.percent),
                    Charge::Joint => format!("{method},{} / lb", money(part.percent + 1)),
                    Charge::Free => "free,".to_owned(),
                };
                let instead = part.instead.map_or(String::new(), |_| format!("1 lb Stand-in {stage}.{nth} per lb"));
                // What comes of another test sells for a cent: it may have cost next to nothing.
                let fetches = if bought { money(cents) } else { money(1) };
                let otherwise = if part.sold { format!("sold {fetches} / lb") } else { "binned".to_owned() };
                rows.push_str(&format!(
                    "Test {stage},by-product,Test {stage} trim {nth},{} lb,{charged},{},{instead},{otherwise},{}%,{}\n",
                    pounds(part.ounces),
                    or_blank(part.further.map(money), ""),
                    part.eaten,
                    or_blank(part.keeps, ""),
                ));
            }
        }
        rows
    }

    fn prices(&self) -> String {
        let mut rows = String::from("Item,Pack,Price,Per\nStore,10 lb,12.50,\n");
        for (stage, (test, _)) in self.stages.iter().enumerate() {
            rows.push_str(&format!("Beast {stage},20 lb CW,{},lb\n", money(test.cents)));
            for (nth, part) in test.by_products.iter().enumerate() {
                // At market it is what a charge may be; the price of a pound of the beast when it is charged otherwise.
                let at_market = part.charge == Charge::Market && self.input(stage).1;
                let cents = if at_market { test.cents * part.percent / 100 } else { part.instead.unwrap_or(100) };
                rows.push_str(&format!("Stand-in {stage}.{nth},10 lb CW,{},lb\n", money(cents.max(1))));
            }
        }
        rows
    }

    fn cards(&self) -> String {
        let mut facts = String::from("Recipe,Makes,Portion,Menu price,Q factor,Spice factor,Serving loss\n");
        let mut lines = String::from("Recipe,Item,Qty,Unit,Yield,Used\n");
        for (stage, (_, card)) in self.stages.iter().enumerate() {
            facts.push_str(&format!(
                "Card {stage},{} lb,{} oz,{},{},{},{}\n",
                card.makes_lb,
                card.portion_oz,
                if card.priced { "25.00" } else { "" },
                or_blank(card.q, "%"),
                or_blank(card.spice, "%"),
                or_blank(card.serving_loss, "%")
            ));
            let (mains, trim) = (self.parts(stage + 1, true), self.parts(stage + 1, false));
            for (kind, pick, quarter_oz, used, own_yield) in &card.lines {
                let (item, unit) = match kind {
                    0 | 1 => (mains[pick % mains.len()].clone(), "oz"),
                    2..=4 if !trim.is_empty() => (trim[pick % trim.len()].clone(), "oz"),
                    5 if stage > 0 => (format!("Card {}", pick % stage), "oz"),
                    6 if stage > 0 => (format!("Card {}", pick % stage), "portion"),
                    // Edible portion of what has one main, through its test.
                    7 if self.stages[stage].0.mains.len() == 1 && self.input(stage).1 => {
                        (format!("Beast {stage}"), "oz")
                    }
                    _ => ("Store".to_owned(), "oz"),
                };
                lines.push_str(&format!(
                    "Card {stage},{item},{},{unit},{},{}\n",
                    Decimal::new(quarter_oz * 25, 2),
                    or_blank(*own_yield, "%"),
                    or_blank(*used, "%")
                ));
            }
        }
        format!("{facts}\n{lines}")
    }

    fn on_hand(&self) -> String {
        let mut rows = String::from("Item,On hand\n");
        let all = self.stages.len();
        let by_products = self.stages.iter().enumerate().flat_map(|(stage, (test, _))| {
            (0..test.by_products.len()).map(move |nth| format!("Stand-in {stage}.{nth}"))
        });
        let stand_ins: Vec<String> = by_products.collect();
        for (kind, pick, ounces) in &self.stock {
            let parts = [self.parts(all, true), self.parts(all, false)].concat();
            let item = match kind {
                0 | 1 => parts[pick % parts.len()].clone(),
                2 => format!("Card {}", pick % all),
                4 if !stand_ins.is_empty() => stand_ins[pick % stand_ins.len()].clone(),
                _ => "Store".to_owned(),
            };
            rows.push_str(&format!("{item},{} lb\n", pounds(*ounces)));
        }
        rows
    }

    /// The plan's rows in an order that `seed` decides, its days so many days later, its names in capitals or not.
    pub fn planned(&self, seed: u64, later: i64, capitals: bool) -> String {
        let mut plan = self.plan.clone();
        if seed != 0 {
            crate::laws::kitchen::shuffle(&mut plan, seed);
        }
        let mut rows = String::from("Dish,Portions,Day\n");
        for (pick, portions, day) in plan {
            let name = format!("{} {}", if capitals { "CARD" } else { "Card" }, pick % self.stages.len());
            rows.push_str(&format!("{name},{portions},2026-12-{:02}\n", 1 + later + 2 * day));
        }
        rows
    }

    /// The book with this plan.
    pub fn book_with(&self, plan: &str) -> String {
        let settings = "Setting,Value\nCurrency,USD\nCosting date,2026-11-20\nQ factor,4%\nSpice factor,1%\n\
                        Waste haulage,$0.06 / lb\n";
        [settings, &self.prices(), &self.tests(), &self.cards(), plan, &self.on_hand()].join("\n")
    }

    /// The book.
    pub fn book(&self) -> String {
        self.book_with(&self.planned(0, 0, false))
    }
}
