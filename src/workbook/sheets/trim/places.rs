//! Places of everything on the Trim sheet, fixed before the first cell is written.

use std::collections::BTreeMap;

use crate::analysis::Trim;
use crate::food::care;
use crate::kitchen::plan::Served;
use crate::kitchen::yield_test::Role;
use crate::kitchen::{ItemId, PartId, RecipeId, TestId};
use crate::workbook::cells::formula::Ref;
use crate::workbook::context::Context;
use crate::workbook::layout::sheet_names;

use super::taken::TakenByPortion;
use super::totals::TOTALS;

/// Rows, zero-based.
#[derive(Debug, Default)]
pub(super) struct Places {
    /// The heading of the answer; its lines below it.
    pub answer: u32,
    /// The heading of the first table.
    pub flow: u32,
    /// A test's own row in it.
    pub heads: BTreeMap<TestId, u32>,
    /// Every part in it.
    pub parts: BTreeMap<PartId, u32>,
    /// What went in with a test's input, below the test's own row; none where nothing did.
    pub added: BTreeMap<TestId, u32>,
    /// A test's loss, below its parts; what was taken up stands below that where something was added.
    pub losses: BTreeMap<TestId, u32>,
    /// The heading of weight and money side by side; none where no test has a by-product.
    pub sides: Option<u32>,
    /// Every test there, with its first row; its picture, its headers and two rows stand below that.
    pub sided: Vec<(TestId, u32)>,
    /// The heading of the picture's figures; a row a test below its header.
    pub shares: u32,
    /// Tests in the picture.
    pub pictured: Vec<TestId>,
    /// The upper row of the picture, and how many rows it covers.
    pub picture: (u32, u32),
    /// The heading of the balance; `None` without a plan.
    pub balance: Option<u32>,
    /// Every part in it.
    pub balanced: BTreeMap<PartId, u32>,
    /// The days of a part that would be misread in one row, as indices into the plan's, each with its row.
    pub days: Vec<(PartId, usize, u32)>,
    /// The heading of the portions that there is enough trim for; `None` where none is short but what is bought in.
    pub enough: Option<u32>,
    /// The heading of what must be bought; `None` without a plan.
    pub purchases: Option<u32>,
    /// Every item in it.
    pub purchased: BTreeMap<ItemId, u32>,
    /// What it comes to.
    pub bought: Option<u32>,
    /// The heading of the three kitchens.
    pub kitchens: u32,
    /// What is served, each with its row.
    pub served: Vec<(Served, u32)>,
    /// The first of the rows of totals; `None` without a plan.
    pub totals: Option<u32>,
    /// The heading of what is saved; `None` without a plan.
    pub saved: Option<u32>,
    /// Every part in it.
    pub savers: BTreeMap<PartId, u32>,
    /// The heading of how much of a dish is trim.
    pub held: u32,
    /// Every dish in it.
    pub holders: Vec<(Served, u32)>,
    /// The heading of the cautions.
    pub cautions: u32,
    /// The heading of the rates.
    pub rates: u32,
    /// What goes into every test.
    pub went_in: BTreeMap<TestId, u32>,
    /// Every part's rates.
    pub rated: BTreeMap<PartId, u32>,
    /// The heading of what portions take.
    pub uses: u32,
    /// The parts that are taken, in grams.
    pub used: TakenByPortion<PartId>,
    /// The recipes within whose card adds Q or spice, in batches.
    pub seasoned: TakenByPortion<RecipeId>,
    /// The heading of what the weights stand on, the last table.
    pub stands: u32,
}

/// The most lines of the answer.
const ANSWER_LINES: u32 = 5;

/// Hands out rows.
struct Next(u32);

impl Next {
    fn row(&mut self) -> u32 {
        let row = self.0;
        self.0 = self.0.saturating_add(1);
        row
    }

    /// A heading with its headers; gives the heading's row.
    fn head(&mut self) -> u32 {
        self.0 = self.0.saturating_add(1);
        let row = self.row();
        self.row();
        row
    }

    /// A heading with a line of text between it and its headers.
    fn told_head(&mut self) -> u32 {
        let row = self.head();
        self.row();
        row
    }
}

impl Places {
    pub(super) fn of(context: &Context<'_>, trim: &Trim) -> Self {
        /// No more rows than a page has.
        const PICTURE: u32 = 30;
        let kitchen = context.kitchen;
        let mut places = Places::default();
        let mut next = Next(2);
        places.answer = next.row();
        next.0 = next.0.saturating_add(ANSWER_LINES);
        let costed: Vec<TestId> = kitchen.test_ids().filter(|id| context.costing.test(*id).is_some()).collect();
        places.pictured.clone_from(&costed);
        let rows = u32::try_from(costed.len()).unwrap_or(u32::MAX).saturating_mul(2).saturating_add(8).min(PICTURE);
        places.picture = (next.0.saturating_add(1), rows);
        next.0 = next.0.saturating_add(rows).saturating_add(1);
        places.flow = next.head();
        for test in &costed {
            places.heads.insert(*test, next.row());
            let added = kitchen.test(*test).is_some_and(|test| !test.added.is_empty());
            if added {
                places.added.insert(*test, next.row());
            }
            for part in kitchen.part_ids(*test) {
                places.parts.insert(part, next.row());
            }
            places.losses.insert(*test, next.row());
            if added {
                next.row();
            }
        }
        for test in super::sides::shown(context, &costed) {
            if places.sides.is_none() {
                next.row();
                places.sides = Some(next.row());
            }
            places.sided.push((test, next.0));
            next.0 = next.0.saturating_add(super::sides::ROWS);
        }
        if let Some(balance) = &trim.balance {
            places.balance = Some(next.told_head());
            for part in
                kitchen.all_parts().filter(|part| kitchen.part(*part).is_some_and(|part| part.role != Role::Waste))
            {
                let touched = balance
                    .part(part)
                    .is_some_and(|part| !(part.wanted.is_zero() && part.made.is_zero() && part.on_hand.is_zero()));
                if touched {
                    places.balanced.insert(part, next.row());
                    let days = balance.by_day(part).into_iter();
                    places.days.extend(days.map(|(day, _)| (part, day, next.row())));
                }
            }
            if let Some(promise) = &balance.promise {
                places.enough = Some(next.told_head());
                next.0 = next.0.saturating_add(u32::try_from(promise.portions.len()).unwrap_or(u32::MAX));
            }
            places.purchases = Some(next.told_head());
            places.purchased = balance.all_items().iter().map(|(item, _)| (item.item, next.row())).collect();
            places.bought = Some(next.row());
        }
        if let Some(worth) = &trim.worth {
            places.kitchens = next.told_head();
            let planned = worth.plan.is_some();
            for dish in worth.dishes.iter().filter(|dish| !planned || dish.portions.is_some()) {
                places.served.push((dish.served, next.row()));
            }
            if planned {
                places.totals = Some(next.0);
                next.0 = next.0.saturating_add(TOTALS);
                places.saved = Some(next.head());
                for part in worth.parts.iter().filter(|part| part.counts()) {
                    places.savers.insert(part.part, next.row());
                }
                // The sum, what it says, and the labor that it pays for.
                next.0 = next.0.saturating_add(3);
            }
            places.held = next.told_head();
            for dish in worth.dishes.iter().filter(|dish| dish.of_trim && (!planned || dish.portions.is_some())) {
                places.holders.push((dish.served, next.row()));
            }
        }
        places.cautions = next.row().saturating_add(1);
        next.0 = places.cautions.saturating_add(u32::try_from(care::KEPT.len()).unwrap_or_default()).saturating_add(3);
        places.shares = next.head();
        next.0 = next.0.saturating_add(u32::try_from(costed.len()).unwrap_or_default());
        places.rates = next.head();
        for test in &costed {
            places.went_in.insert(*test, next.row());
            for part in kitchen.part_ids(*test) {
                if kitchen.part(part).is_some_and(|part| part.role != Role::Waste) {
                    places.rated.insert(part, next.row());
                }
            }
        }
        places.uses = next.head();
        let takes = |served: Served| {
            let uses = &trim.worth.as_ref()?.uses;
            match served {
                Served::Dish(index) => uses.dishes.get(index).cloned().flatten(),
                Served::Recipe(_) => uses.portion(kitchen, context.costing, served).ok().flatten(),
            }
        };
        for (served, _) in &places.served {
            let Some(takes) = takes(*served) else { continue };
            for (part, grams) in takes.parts {
                places.used.push(*served, part, grams, next.row());
            }
            for (recipe, batches) in takes.recipes {
                let seasoned = context.costing.recipe(recipe).is_some_and(|cost| cost.batch != cost.food);
                if seasoned {
                    places.seasoned.push(*served, recipe, batches, next.row());
                }
            }
        }
        places.stands = next.head();
        places
    }

    /// The headings of its tables, of which none is best cut.
    pub(super) fn headings(&self) -> Vec<u32> {
        let some = [self.balance, self.enough, self.purchases, self.saved];
        let others = [self.flow, self.kitchens, self.held, self.cautions, self.shares, self.rates, self.uses];
        some.into_iter().flatten().chain(others).filter(|row| *row > 0).collect()
    }

    /// A cell of this sheet, as a formula on it names it.
    pub(super) fn cell(row: u32, column: u16) -> String {
        Ref::new(sheet_names::TRIM, row, column).cell()
    }
}
