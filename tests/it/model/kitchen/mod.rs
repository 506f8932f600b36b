//! Kitchens of chance, as plain structures that hold both what is typed and what it means.

pub mod breakdowns;
pub mod lines;
pub mod measures;
pub mod menu;
pub mod prices;
pub mod recipes;

use proptest::collection::vec;
use proptest::prelude::*;

use self::breakdowns::{Breakdown, Input};
use self::lines::Target;
use self::measures::Measure;
use self::menu::{Dish, Settings};
use self::prices::{PriceRow, Sold};
use self::recipes::Recipe;
use super::dice::{Dice, Tape};

/// Something bought.
#[derive(Debug, Clone)]
pub struct Item {
    pub name: &'static str,
    pub sold: Sold,
    pub rows: Vec<PriceRow>,
    pub measures: Vec<Measure>,
}

impl Item {
    /// Whether its price says what a weight of it costs.
    pub fn weighed(&self) -> bool {
        matches!(self.sold, Sold::Weight | Sold::CatchWeight | Sold::CountAndWeight)
    }

    /// Whether a weight of it can be broken down: by its price, or by what a piece weighs.
    pub fn weighable(&self) -> bool {
        self.weighed() || (self.sold == Sold::Count && self.measures.iter().any(|row| row.gauge.name() == "each"))
    }

    /// Whether every row is of the same pack, so that a case is a case.
    pub fn one_pack(&self) -> bool {
        self.rows.windows(2).all(|two| two[0].pack == two[1].pack)
    }
}

/// A whole kitchen.
#[derive(Debug, Clone)]
pub struct Kitchen {
    pub items: Vec<Item>,
    pub breakdowns: Vec<Breakdown>,
    pub recipes: Vec<Recipe>,
    pub dishes: Vec<Dish>,
    pub settings: Settings,
}

impl Kitchen {
    /// The first recipe, where it uses nothing but what is bought whole and is known by weight.
    fn base_recipe(&self) -> Option<&Recipe> {
        let broken = |test: &Breakdown| matches!(test.input, Input::Bought(item) if self.in_base_recipe(item));
        let first = self.recipes.first().filter(|recipe| recipes::is_base(recipe));
        first.filter(|_| !self.breakdowns.iter().any(broken))
    }

    /// Whether the first recipe uses a bought item.
    fn in_base_recipe(&self, item: usize) -> bool {
        self.recipes.first().is_some_and(|recipe| recipe.lines.iter().any(|line| line.target == Target::Bought(item)))
    }

    /// Whether a test breaks down a recipe.
    fn breaks_a_recipe(&self) -> bool {
        self.breakdowns.iter().any(|test| matches!(test.input, Input::Recipe(_)))
    }
}

/// No food's name.
const NAMES: [&str; 7] = ["Quorl", "Vamber", "Drisk", "Tolpa", "Mirrin", "Zandel", "Hobbet"];

/// A, B, C.
fn letter(at: usize) -> char {
    char::from(b'A' + u8::try_from(at % 26).unwrap())
}

fn item(dice: &mut Dice<'_>, at: usize) -> Item {
    let sold = dice.of(&[
        Sold::Weight,
        Sold::Weight,
        Sold::CatchWeight,
        Sold::Volume,
        Sold::Count,
        Sold::CountAndWeight,
        Sold::Cans,
    ]);
    let rows = prices::rows(dice, sold);
    let measures = measures::of_bought(dice, sold);
    Item { name: NAMES[at], sold, rows, measures }
}

/// The tapes from which a kitchen is thrown: one for the settings, one for each item, test, recipe and dish, so that
/// each can be simplified, or left out, on its own.
#[derive(Debug, Clone)]
pub struct Tapes {
    settings: Tape,
    items: Vec<Tape>,
    breakdowns: Vec<Tape>,
    recipes: Vec<Tape>,
    dishes: Vec<Tape>,
    set_menu: Tape,
}

impl Tapes {
    /// The kitchen of these tapes.
    pub fn kitchen(&self) -> Kitchen {
        let mut kitchen = Kitchen {
            items: self.items.iter().enumerate().map(|(at, tape)| item(&mut Dice::new(tape), at)).collect(),
            breakdowns: Vec::new(),
            recipes: Vec::new(),
            dishes: Vec::new(),
            settings: menu::settings(&mut Dice::new(&self.settings)),
        };
        let mut tapes = self.recipes.iter();
        // The first recipe stands before the tests, so that one of them can break it down.
        if let Some(tape) = tapes.next() {
            kitchen.recipes.push(recipes::recipe(&mut Dice::new(tape), &kitchen));
        }
        for tape in &self.breakdowns {
            if let Some(breakdown) = breakdowns::breakdown(&mut Dice::new(tape), &kitchen) {
                kitchen.breakdowns.push(breakdown);
            }
        }
        for tape in tapes {
            kitchen.recipes.push(recipes::recipe(&mut Dice::new(tape), &kitchen));
        }
        for tape in &self.dishes {
            if let Some(dish) = menu::dish(&mut Dice::new(tape), &kitchen) {
                kitchen.dishes.push(dish);
            }
        }
        let set_menu = recipes::set_menu(&mut Dice::new(&self.set_menu), &kitchen);
        kitchen.recipes.extend(set_menu);
        kitchen
    }
}

/// A tape of chance that is no longer than this.
pub fn tape(most: usize) -> impl Strategy<Value = Tape> {
    vec(any::<u16>(), most / 2..most).prop_map(Tape)
}

/// Any kitchen.
pub fn tapes() -> impl Strategy<Value = Tapes> {
    let settings = tape(30);
    let items = vec(tape(120), 1..=NAMES.len());
    let (breakdowns, recipes, dishes) = (vec(tape(160), 0..4), vec(tape(160), 1..6), vec(tape(24), 0..5));
    (settings, items, breakdowns, recipes, dishes, tape(60)).prop_map(
        |(settings, items, breakdowns, recipes, dishes, set_menu)| Tapes {
            settings,
            items,
            breakdowns,
            recipes,
            dishes,
            set_menu,
        },
    )
}
