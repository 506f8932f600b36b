//! Trim balance of the plan: what it makes, wants and leaves of every part, in grams.

use schemars::JsonSchema;
use serde::Serialize;

use super::super::value::Figure;
use super::super::word::Word;
use crate::analysis::Trim;
use crate::analysis::balance::PartBalance;
use crate::kitchen::Kitchen;
use crate::kitchen::yield_test::Role;

/// A test in the plan: its weights.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Balance")]
pub struct TestInPlan<'a> {
    /// The test.
    pub test: &'a str,
    /// What must be broken down, in grams as purchased.
    pub goes_in_g: Figure,
    /// The same in pieces, where the test counts them.
    pub pieces: Option<Figure>,
    /// What comes of it.
    pub parts: Vec<PartInPlan<'a>>,
}

/// A part in the plan, with its weights over all of it.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PartInPlan")]
pub struct PartInPlan<'a> {
    /// The part.
    pub name: &'a str,
    /// What it is.
    pub role: Word<Role>,
    /// Its weights.
    #[serde(flatten)]
    pub weights: Weights,
    /// Day by day, where it is short on one day and left over from another; empty where the figures above cannot be misread.
    pub days: Vec<DayOfPart<'a>>,
}

/// A part on one day of the plan.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PartOnDay")]
pub struct DayOfPart<'a> {
    /// The day, as the plan names it.
    pub day: &'a str,
    /// Its weights.
    #[serde(flatten)]
    pub weights: Weights,
}

/// Weights of a part in grams, over the plan or on a day of it. On hand and made is used, left over or too old; wanted is used
/// or short.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct Weights {
    /// On hand before it begins.
    pub on_hand_g: Figure,
    /// Made in it.
    pub made_g: Figure,
    /// Wanted by recipes.
    pub wanted_g: Figure,
    /// Used by them.
    pub used_g: Figure,
    /// Left over when it ends, and still good.
    pub left_over_g: Figure,
    /// Past the days it may be kept.
    pub too_old_g: Figure,
    /// Wanted and not there.
    pub short_g: Figure,
}

impl Weights {
    fn of(of: &PartBalance) -> Self {
        Weights {
            on_hand_g: Figure(of.on_hand),
            made_g: Figure(of.made),
            wanted_g: Figure(of.wanted),
            used_g: Figure(of.used),
            left_over_g: Figure(of.left_over),
            too_old_g: Figure(of.too_old),
            short_g: Figure(of.short),
        }
    }
}

/// The name of a day of the plan; empty where it names none.
pub(super) fn day_name(kitchen: &Kitchen, day: usize) -> &str {
    kitchen.plan.days.names.get(day).map(String::as_str).unwrap_or_default()
}

/// The weights of every test that is costed; none without a plan.
pub(crate) fn balance<'a>(kitchen: &'a Kitchen, trim: &Trim) -> Vec<TestInPlan<'a>> {
    let Some(all) = &trim.balance else { return Vec::new() };
    let tests = kitchen.test_ids().zip(kitchen.tests.iter().zip(&all.tests));
    let json = tests.filter_map(|(id, (test, balance))| {
        let balance = balance.as_ref()?;
        let parts = kitchen.part_ids(id).zip(test.parts.iter().zip(&balance.parts)).map(|(id, (part, of))| {
            let days = all.by_day(id).into_iter();
            PartInPlan {
                name: &part.name,
                role: Word(part.role),
                weights: Weights::of(of),
                days: days
                    .map(|(day, of)| DayOfPart { day: day_name(kitchen, day), weights: Weights::of(&of) })
                    .collect(),
            }
        });
        Some(TestInPlan {
            test: &test.name,
            goes_in_g: Figure(balance.goes_in),
            pieces: balance.pieces.map(Figure),
            parts: parts.collect(),
        })
    });
    json.collect()
}
