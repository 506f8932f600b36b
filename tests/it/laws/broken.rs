//! Rows that cannot be read, added to a book that can.

use super::kitchen::Tables;

/// Ways of spoiling a recipe named `Broken stew` that touch nothing else.
#[derive(Debug, Clone, Copy)]
pub enum Broken {
    PriceIsText,
    PackIsAGrade,
    PackIsARatio,
    QuantityIsARange,
    NameUnknown,
    UnitUnknown,
    PartsOverweight,
    Loop,
}

impl Broken {
    /// All of them.
    pub const ALL: [Broken; 8] = [
        Broken::PriceIsText,
        Broken::PackIsAGrade,
        Broken::PackIsARatio,
        Broken::QuantityIsARange,
        Broken::NameUnknown,
        Broken::UnitUnknown,
        Broken::PartsOverweight,
        Broken::Loop,
    ];

    /// `tables` with the broken recipe and what spoils it, before all other rows or after them.
    pub fn added_to(self, tables: Tables, first: bool) -> Tables {
        let spoilt = self.rows();
        let [front, back] = if first { [spoilt, tables] } else { [tables, spoilt] };
        Tables {
            prices: [front.prices, back.prices].concat(),
            tests: [front.tests, back.tests].concat(),
            facts: [front.facts, back.facts].concat(),
            blocks: [front.blocks, back.blocks].concat(),
        }
    }

    /// The rows on their own.
    fn rows(self) -> Tables {
        let mut tables = Tables::default();
        let (price, line) = match self {
            Broken::PriceIsText => ("Broken store,10 lb,ask Monday,,", "Broken store,2,lb,"),
            Broken::PackIsAGrade => ("Broken store,16/20 ct,12.00,,", "Broken store,2,lb,"),
            Broken::PackIsARatio => ("Broken store,6/5,12.00,,", "Broken store,2,lb,"),
            Broken::QuantityIsARange => ("Broken store,10 lb,12.00,,", "Broken store,3-4,lb,"),
            Broken::NameUnknown => ("Broken store,10 lb,12.00,,", "Broken nowhere,2,lb,"),
            Broken::UnitUnknown => ("Broken store,10 lb,12.00,,", "Broken store,2,flurbs,"),
            Broken::PartsOverweight => ("Broken store,10 lb,12.00,,", "Broken cut,2,lb,"),
            Broken::Loop => ("Broken store,10 lb,12.00,,", "Broken sauce,2,lb,"),
        };
        tables.prices.push(price.to_owned());
        tables.facts.push("Broken stew,4 lb,8 oz,,,,".to_owned());
        tables.blocks.push(vec![format!("Broken stew,{line}")]);
        match self {
            Broken::PartsOverweight => tables.tests.extend([
                "Broken breakdown,1,as purchased,Broken store,10 lb,,,".to_owned(),
                "Broken breakdown,1,main,Broken cut,11 lb,,,".to_owned(),
            ]),
            Broken::Loop => {
                tables.facts.push("Broken sauce,4 lb,8 oz,,,,".to_owned());
                tables.blocks.push(vec!["Broken sauce,Broken stew,1,lb,".to_owned()]);
            }
            _ => {}
        }
        tables
    }
}
