//! Flow of weight and money through a yield test: every share of it that is shown.

use crate::analysis::Balance;
use crate::costing::{PartCost, TestCost};
use crate::kitchen::yield_test::{Role, Test};
use crate::kitchen::{Kitchen, TestId};
use crate::number::{Decimal, exact, half_up};

/// The shares of a test, each over what went in as purchased.
#[derive(Debug, Clone, Copy)]
pub struct WeightFlow<'a> {
    cost: &'a TestCost,
    /// All that went in, in grams, added included; or of the parts, where the scale was off by more.
    whole: Decimal,
}

impl<'a> WeightFlow<'a> {
    /// That of a test's cost.
    pub fn of(cost: &'a TestCost) -> Self {
        let went_in = cost.all_grams().unwrap_or(cost.grams);
        let came_out = exact::sum(cost.parts.iter().map(|part| part.grams)).unwrap_or_default();
        WeightFlow { cost, whole: went_in.max(came_out) }
    }

    /// What was added.
    pub fn added(&self) -> Option<Decimal> {
        self.cost.of_input(self.cost.added_grams)
    }

    /// What is missing, in grams; or what the scale is over.
    pub fn missing_grams(&self) -> Decimal {
        self.cost.loss_grams.abs()
    }

    /// Whether more came out than went in.
    pub fn is_over(&self) -> bool {
        self.cost.loss_grams < Decimal::ZERO
    }

    /// What is missing, or over.
    pub fn missing(&self) -> Option<Decimal> {
        self.cost.of_input(self.missing_grams())
    }

    /// What was taken up of what was added.
    pub fn taken_up(&self) -> Option<Decimal> {
        self.cost.of_input(self.cost.taken_up_grams)
    }

    /// A part's cost over all that went in cost; `None` where that was nothing.
    pub fn of_money(&self, part: &PartCost) -> Option<Decimal> {
        exact::div(part.cost, self.cost.cost).ok()
    }

    /// The length of a bar of so many grams, where all of it has so many marks; whatever is there at all has one.
    pub fn marks(&self, grams: Decimal, all: i64) -> usize {
        let marks = exact::mul(grams, Decimal::from(all)).and_then(|marks| exact::div_to_last_digit(marks, self.whole));
        let marks = marks.ok().and_then(|marks| i64::try_from(half_up(marks, 0)).ok()).unwrap_or_default();
        let least = i64::from(grams > Decimal::ZERO);
        usize::try_from(marks.clamp(least, all)).unwrap_or_default()
    }
}

/// The weight and the money of a test side by side, each as shares that come to one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FlowShares {
    /// Mains, by-products, waste and loss, over all that went in.
    pub weight: [Decimal; 4],
    /// What mains and by-products bear, over all that it cost.
    pub money: [Decimal; 2],
}

impl FlowShares {
    /// Those of a test; `None` where it cost nothing, or a share does not fit.
    pub fn of(kitchen: &Kitchen, id: TestId, test: &Test, cost: &TestCost) -> Option<Self> {
        let becomes = Becomes::of(kitchen, id, test, cost, None)?;
        becomes.parts.iter().all(Option::is_some).then_some(())?;
        let [mains, used, left, waste] = becomes.shares;
        let flow = WeightFlow::of(cost);
        let borne = |role: Role| {
            let parts = test.parts.iter().zip(&cost.parts).filter(|(part, _)| part.role == role);
            let shares: Option<Vec<Decimal>> = parts.map(|(_, figures)| flow.of_money(figures)).collect();
            exact::sum(shares?).ok()
        };
        Some(FlowShares {
            weight: [mains, exact::add(used, left).ok()?, waste, becomes.lost?],
            money: [borne(Role::Main)?, borne(Role::ByProduct)?],
        })
    }
}

/// What becomes of all that went into a test, as shares that come to one: of trim, what the plan uses of what it makes; all
/// of it is used where nothing is planned.
#[derive(Debug, Clone)]
pub struct Becomes {
    /// Of every part, beside the test's own, how much of it is mains, trim used, trim left over, and waste; `None` of a part
    /// whose share does not fit.
    pub parts: Vec<Option<[Decimal; 4]>>,
    /// Mains, trim used, trim left over, and waste.
    pub shares: [Decimal; 4],
    /// What is missing; nothing where more came out than went in.
    pub lost: Option<Decimal>,
}

impl Becomes {
    /// That of a test under a plan's `balance`; `None` where all that went in does not fit.
    pub fn of(
        kitchen: &Kitchen,
        id: TestId,
        test: &Test,
        cost: &TestCost,
        balance: Option<&Balance>,
    ) -> Option<Becomes> {
        /// The decimals of how much of a part is left over, which stand in formulas.
        const PLACES: u32 = 6;
        cost.all_grams()?;
        let mut becomes = Becomes { parts: Vec::new(), shares: [Decimal::ZERO; 4], lost: None };
        for (part_id, (part, figures)) in kitchen.part_ids(id).zip(test.parts.iter().zip(&cost.parts)) {
            let left = balance.and_then(|balance| balance.part(part_id)).and_then(|part| {
                let left = exact::add(part.left_over, part.too_old).ok()?.min(part.made);
                exact::div(left, part.made).ok()
            });
            let left = half_up(left.unwrap_or_default(), PLACES);
            let (none, all_of_it) = (Decimal::ZERO, Decimal::ONE);
            let split = match part.role {
                Role::Main => [all_of_it, none, none, none],
                Role::ByProduct => [none, exact::sub(all_of_it, left).unwrap_or_default(), left, none],
                _ => [none, none, none, all_of_it],
            };
            let Some(of_all) = cost.of_all(figures.grams) else {
                becomes.parts.push(None);
                continue;
            };
            for (sum, share) in becomes.shares.iter_mut().zip(split) {
                *sum = exact::mul(of_all, share).and_then(|more| exact::add(*sum, more)).unwrap_or(*sum);
            }
            becomes.parts.push(Some(split));
        }
        becomes.lost = cost.of_all(cost.lost_grams());
        Some(becomes)
    }
}
