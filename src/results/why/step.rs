//! Steps from a quantity to money, one after the other, each with where it comes from.

use schemars::JsonSchema;
use serde::Serialize;

use crate::analysis::why::Subject;
use crate::kitchen::Kitchen;
use crate::kitchen::yield_test::Role;
use crate::measure::currency;
use crate::number::{Decimal, exact, half_up};
use crate::problem::Place;
use crate::results::display_units::DisplayUnit;
use crate::results::figures::{at_most, shown};
use crate::results::value::Figure;
use crate::results::word::{Word, words};

/// One step on the way to a figure.
#[derive(Debug, Clone, Serialize, JsonSchema)]
#[schemars(rename = "Step")]
pub struct WhyStepResult {
    /// What the step belongs to: the name of the dish, recipe, yield test or item.
    pub of: String,
    /// Which of these it is.
    pub of_what: Word<OfWhat>,
    /// The number of the line, of what went into a test or came out of it, counted from 1; 0 for what is of all of them.
    pub line: usize,
    /// What the step is about: the ingredient or part; empty for what is of all of them.
    pub name: String,
    /// What is done.
    pub step: Word<StepWord>,
    /// The figure of this step; null where it is no number, or not known.
    pub amount: Option<Figure>,
    /// What it counts: g, ml or each; % for a percentage; the currency for money, with “per g” behind it for money by the unit;
    /// empty for a bare number.
    pub unit: String,
    /// Where it comes from, in words.
    pub from: String,
    /// The file in which it was typed; empty where it was not.
    pub file: String,
    /// The sheet; empty in a csv, and where it was not typed.
    pub sheet: String,
    /// The cell, such as C14; empty where it was not typed.
    #[schemars(regex(pattern = r"^([A-Z]+[1-9][0-9]*)?$"))]
    pub cell: String,
    /// The figure as a person reads it.
    #[serde(skip)]
    pub told: String,
}

words! {
    WhatAsked "WhatAsked" "What is asked about." {
        Dish "dish"
        Recipe "recipe"
        Main "main of a yield test"
        ByProduct "by-product of a yield test"
        Waste "waste of a yield test"
        Item "bought item"
    }
    OfWhat "OfWhat" "A dish, a recipe, a yield test, or something bought." {
        Dish "dish"
        Recipe "recipe"
        Test "yield test"
        Item "item"
    }
    StepWord "StepWord" "What is done in a step. Of a line: asked, measured, left after trimming, drawn, times unit cost, used, \
        makes its cost; lines make the food cost, with Q and spice the batch, by portions the portion cost. Of a dish \
        within a set menu: the batch by its share of that makes the plate cost. Of a yield test: \
        what went in is shared by what came out. Of an item: its price becomes money per unit." {
        Asked "asked"
        Measured "measured"
        Yield "yield"
        Drawn "drawn"
        UnitCost "unit cost"
        Used "used"
        Cost "cost"
        NotCosted "not costed"
        Food "food cost"
        Q "Q"
        Spice "spice"
        Batch "batch cost"
        Makes "makes"
        Loss "serving loss"
        Portion "portion"
        Portions "portions"
        PortionCost "portion cost"
        BatchFood "food cost of the batch"
        OfBatch "cost of the batch"
        Share "share of the batch"
        Plate "plate cost"
        MenuPrice "menu price"
        Tax "tax within"
        ExTax "price without tax"
        Percent "food cost %"
        Target "target %"
        Over "over target"
        AtTarget "price at target"
        Margin "margin"
        WentIn "went in"
        Added "added"
        AllThatWentIn "all that went in"
        CameOut "came out"
        Charge "charge"
        Credit "credit"
        LeftToShare "left to share"
        ShareOfRest "share of what is left"
        Borne "borne"
        ByWeight "cost by weight"
        Lost "lost"
        Price "price"
        Further "further cost"
        Back "credit on the price"
        Paid "paid"
        Buys "buys"
        Edible "cost after trimming"
    }
}

impl WhatAsked {
    /// What `subject` is.
    pub(super) fn of(kitchen: &Kitchen, subject: Subject) -> Self {
        match subject {
            Subject::Dish(_) => WhatAsked::Dish,
            Subject::Recipe(_) => WhatAsked::Recipe,
            Subject::Item(_) => WhatAsked::Item,
            Subject::Part(id) => match kitchen.part(id).map(|part| part.role) {
                Some(Role::Main) => WhatAsked::Main,
                Some(Role::ByProduct) => WhatAsked::ByProduct,
                _ => WhatAsked::Waste,
            },
        }
    }
}

/// Money and amounts as people read them.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tongue<'a> {
    /// The kitchen.
    pub kitchen: &'a Kitchen,
}

impl Tongue<'_> {
    /// Money to the cent; what would vanish, to its first digit.
    pub fn money(self, amount: Decimal) -> String {
        self.money_to(amount, 0, 0)
    }

    /// Money by the unit: one decimal more, where that says anything, and two digits at the least.
    pub fn rate(self, amount: Decimal) -> String {
        let places = currency::minor_digits(&self.kitchen.settings.currency);
        let more = u32::from(half_up(amount, places.saturating_add(1)) != half_up(amount, places));
        self.money_to(amount, more, 1)
    }

    /// Money for one of a unit: `$1.26 a lb`, `$0.30 each`.
    pub fn rate_of(self, amount: Decimal, unit: &str) -> String {
        let article = match unit {
            "each" => "",
            _ if unit.starts_with(['a', 'e', 'i', 'o', 'u']) => "an ",
            _ => "a ",
        };
        format!("{} {article}{unit}", self.rate(amount))
    }

    /// Money with `more` decimals than coins have; `further` digits behind its first.
    fn money_to(self, amount: Decimal, more: u32, further: u32) -> String {
        /// The most decimals that are worth reading.
        const MOST: u32 = 8;
        let iso = &self.kitchen.settings.currency;
        let mut places = currency::minor_digits(iso).saturating_add(more);
        let is_small = |places: u32| amount.abs() < Decimal::new(1, places.saturating_sub(further));
        while places < MOST && !amount.is_zero() && is_small(places) {
            places = places.saturating_add(1);
        }
        let told = shown(Some(amount), places);
        // Its minus stands before the sign of the currency.
        match told.strip_prefix('-') {
            Some(less) => format!("-{}{less}", currency::sign_of(iso)),
            None => format!("{}{told}", currency::sign_of(iso)),
        }
    }

    /// An amount in base units, in the unit by which it is told; in its base unit, `base`, where it is a small part of it.
    pub fn amount(self, amount: Decimal, unit: &DisplayUnit, base: &str) -> String {
        let small = Decimal::new(1, 1);
        match unit.count(amount) {
            Some(count) if count >= small || amount.is_zero() => {
                let places = if count < Decimal::ONE { 3 } else { 2 };
                format!("{} {}", at_most(count, places), unit.name)
            }
            _ => format!("{} {base}", at_most(amount, 2)),
        }
    }

    /// A fraction as a percentage.
    pub fn percent(self, fraction: Decimal) -> String {
        format!("{} %", at_most(exact::mul(fraction, Decimal::ONE_HUNDRED).unwrap_or_default(), 1))
    }

    /// The word for money.
    pub fn currency(self) -> String {
        self.kitchen.settings.currency.clone()
    }

    /// The words for money by the unit.
    pub fn per(self, unit: &str) -> String {
        format!("{} per {unit}", self.kitchen.settings.currency).trim_start().to_owned()
    }
}

/// A walk: the steps so far, and what the next ones belong to.
pub(super) struct Walk<'a> {
    /// How figures are told.
    pub tongue: Tongue<'a>,
    /// The steps.
    pub steps: Vec<WhyStepResult>,
    of: String,
    of_what: OfWhat,
    line: usize,
    name: String,
}

impl<'a> Walk<'a> {
    /// A walk that has not begun.
    pub fn new(kitchen: &'a Kitchen) -> Self {
        let tongue = Tongue { kitchen };
        Walk { tongue, steps: Vec::new(), of: String::new(), of_what: OfWhat::Dish, line: 0, name: String::new() }
    }

    /// What follows belongs to this, as a whole.
    pub fn begin(&mut self, of: &str, of_what: OfWhat) {
        self.of = of.to_owned();
        self.of_what = of_what;
        self.whole();
    }

    /// What follows belongs to its `line`.
    pub fn line(&mut self, line: usize, name: &str) {
        self.line = line;
        self.name = name.to_owned();
    }

    /// What follows belongs to it as a whole.
    pub fn whole(&mut self) {
        self.line(0, "");
    }

    /// A step: its figure with its unit, as it is told, and where it comes from.
    pub fn step(
        &mut self,
        step: StepWord,
        (amount, unit, told): (Option<Decimal>, &str, String),
        from: impl Into<String>,
        place: Option<&Place>,
    ) {
        let cell = place.and_then(|place| place.cell_ref());
        let place = place.filter(|_| cell.is_some());
        self.steps.push(WhyStepResult {
            of: self.of.clone(),
            of_what: Word(self.of_what),
            line: self.line,
            name: self.name.clone(),
            step: Word(step),
            amount: amount.map(Figure),
            unit: unit.to_owned(),
            from: from.into(),
            file: place.map(|place| place.file_name().to_owned()).unwrap_or_default(),
            sheet: place.map(|place| place.sheet_name().to_owned()).unwrap_or_default(),
            cell: cell.map(|cell| cell.to_string()).unwrap_or_default(),
            told,
        });
    }

    /// A step in money.
    pub fn money(&mut self, step: StepWord, amount: Decimal, from: impl Into<String>, place: Option<&Place>) {
        let (currency, told) = (self.tongue.currency(), self.tongue.money(amount));
        self.step(step, (Some(amount), &currency, told), from, place);
    }

    /// A step in percent.
    pub fn percent(&mut self, step: StepWord, fraction: Decimal, from: impl Into<String>, place: Option<&Place>) {
        let percent = exact::mul(fraction, Decimal::ONE_HUNDRED).ok();
        let told = self.tongue.percent(fraction);
        self.step(step, (percent, "%", told), from, place);
    }

    /// A step in base units.
    pub fn amount(
        &mut self,
        step: StepWord,
        amount: Decimal,
        (unit, base): (&DisplayUnit, &str),
        from: impl Into<String>,
        place: Option<&Place>,
    ) {
        let told = self.tongue.amount(amount, unit, base);
        self.step(step, (Some(amount), base, told), from, place);
    }

    /// A step in money by the base unit, told by a larger one.
    pub fn rate(
        &mut self,
        step: StepWord,
        per_base: Decimal,
        (unit, base): (&DisplayUnit, &str),
        from: impl Into<String>,
        place: Option<&Place>,
    ) {
        let told = unit
            .cost(per_base)
            .map_or_else(|| self.tongue.rate(per_base), |cost| self.tongue.rate_of(cost, &unit.name));
        let per = self.tongue.per(base);
        self.step(step, (Some(per_base), &per, told), from, place);
    }
}
