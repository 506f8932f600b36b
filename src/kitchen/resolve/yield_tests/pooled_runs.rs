//! A yield test while its rows are gathered: runs told apart, weights pooled, the balance checked.

use indexmap::IndexMap;
use jiff::civil::Date;

use crate::kitchen::bridge::Bridge;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::reuse::Reuse;
use crate::kitchen::yield_test::{Added, Charge, JointMethod, Part, Role, Run, Test, TestKind, TestRow, TestWeight};
use crate::kitchen::{Entries, NameKey};
use crate::measure::Unit;
use crate::number::rounding::half_up;
use crate::number::{Decimal, exact, plain};
use crate::problem::{Code, Fault, Problem};
use crate::schema::{Column, TableKind};

/// Which breakdown a row belongs to.
type RunKey = (Option<Date>, String);

/// A test while its rows are being gathered.
pub(super) struct Gathering {
    test: Test,
    runs: IndexMap<RunKey, Vec<NameKey>>,
    inputs: IndexMap<RunKey, usize>,
    input_name: Option<String>,
    kind: Option<TestKind>,
    of_two_kinds: bool,
    parts: IndexMap<NameKey, Part>,
}

impl Gathering {
    /// A test of which `first` is the first row.
    pub(super) fn new(first: &TestRow, key: NameKey) -> Self {
        Gathering {
            test: Test {
                name: first.test.clone(),
                key,
                place: first.input.place(Column::Test),
                kind: TestKind::Trim,
                input: IngredientSource::Unknown,
                contested: Vec::new(),
                runs: Vec::new(),
                added: Vec::new(),
                parts: Vec::new(),
                joint: JointMethod::Weight,
                broken: false,
                unclear: false,
            },
            runs: IndexMap::new(),
            inputs: IndexMap::new(),
            input_name: None,
            kind: None,
            of_two_kinds: false,
            parts: IndexMap::new(),
        }
    }

    fn fail(&mut self, problems: &mut Vec<Problem>, row: &TestRow, column: Column, fault: Fault) {
        self.test.broken = true;
        problems.push(fault.at(row.input.place(column)));
    }

    /// A row of this test that was not read may be any of its parts.
    pub(super) fn miss_unread(&mut self, entries: &Entries) {
        let rows = entries.unread.iter().filter(|(kind, _)| *kind == TableKind::YieldTests).map(|(_, row)| row);
        self.test.broken |= rows.into_iter().any(|row| NameKey::of(&row.text(Column::Test)) == self.test.key);
    }

    /// Takes a row of the test.
    pub(super) fn take(&mut self, index: usize, row: &TestRow, problems: &mut Vec<Problem>) {
        let fields_broken = row.date.is_broken()
            || row.kind.is_broken()
            || row.charge.is_broken()
            || row.value.is_broken()
            || row.further_cost.is_broken()
            || row.instead_of.is_broken()
            || row.price.is_broken();
        self.test.broken |= fields_broken;
        self.take_kind(row, problems);
        let run = row.breakdown();
        let (Some(role), Some(weight)) = (row.role.given().copied(), row.weight.given()) else {
            self.test.broken = true;
            return self.name_only(run, index, row, problems);
        };
        self.runs.entry(run.clone()).or_default();
        match role {
            Role::AsPurchased => self.take_input(run, index, row, weight, problems),
            Role::Added => {
                let (grams, count) = (weight.grams, weight.count);
                self.test.added.push(Added { row: index, source: None, grams, count });
            }
            Role::Main | Role::ByProduct | Role::Waste => self.take_part(run, role, index, row, weight, problems),
        }
    }

    /// Takes the name of a row whose role or weight could not be read, so that who uses what it names is stopped by that,
    /// and neither told that there is no such thing nor costed without the test.
    fn name_only(&mut self, run: RunKey, index: usize, row: &TestRow, problems: &mut Vec<Problem>) {
        let role = match row.role.given() {
            Some(Role::Added) => return,
            Some(Role::AsPurchased) => {
                if self.has_input(&run, row, problems) {
                    return;
                }
                self.input_name.get_or_insert_with(|| row.part.clone());
                self.inputs.insert(run, index);
                self.test.runs.push(Run { row: index, grams: Decimal::ZERO, count: None });
                return;
            }
            Some(role) => *role,
            None => {
                self.test.unclear = true;
                Role::Main
            }
        };
        let key = NameKey::of(&row.part);
        self.know_role(&key, role);
        let new = || Part {
            name: row.part.clone(),
            key: key.clone(),
            role,
            rows: vec![index],
            grams: Decimal::ZERO,
            charge: Charge::Free,
            buy_in: None,
            reuse: Reuse::default(),
            bridge: Bridge::default(),
        };
        self.parts.entry(key.clone()).or_insert_with(new);
        self.runs.entry(run).or_default().push(key);
    }

    fn take_kind(&mut self, row: &TestRow, problems: &mut Vec<Problem>) {
        let Some(kind) = row.kind.given().copied() else { return };
        if self.kind.is_some_and(|known| known != kind) {
            self.of_two_kinds = true;
            let fault = Fault::new(
                Code::TestNotUnderstood,
                format!("“{}” is both a trim and a cooking test", self.test.name),
                "Give trimming and cooking tests of their own: the cooked test takes the trimmed part as purchased.",
            );
            self.fail(problems, row, Column::Kind, fault);
        }
        self.kind = Some(kind);
        self.test.kind = kind;
    }

    /// Whether another row than this one says what went into a run; then neither of them says what a piece weighs, for the
    /// order of rows would choose.
    fn has_input(&mut self, run: &RunKey, row: &TestRow, problems: &mut Vec<Problem>) -> bool {
        let Some(first) = self.inputs.get(run) else { return false };
        self.test.runs.iter_mut().filter(|one| one.row == *first).for_each(|one| one.count = None);
        let fault = Fault::new(
            Code::TestNotUnderstood,
            format!("“{}” has two as purchased rows in one run", self.test.name),
            "Mark repeats of the test with a Date or a Run on every row.",
        );
        self.fail(problems, row, Column::Role, fault);
        true
    }

    fn take_input(
        &mut self,
        run: RunKey,
        index: usize,
        row: &TestRow,
        weight: &TestWeight,
        problems: &mut Vec<Problem>,
    ) {
        if self.has_input(&run, row, problems) {
            return;
        }
        match &self.input_name {
            Some(name) if NameKey::of(name) != NameKey::of(&row.part) => {
                let fault = Fault::new(
                    Code::TestNotUnderstood,
                    format!("“{}” breaks down “{name}” in one run and “{}” in another", self.test.name, row.part),
                    "Give the other breakdown a test name of its own.",
                );
                self.fail(problems, row, Column::Part, fault);
            }
            Some(_) => {}
            None => self.input_name = Some(row.part.clone()),
        }
        if weight.grams <= Decimal::ZERO {
            let fault = Fault::new(
                Code::NumberOutOfRange,
                format!("“{}” weighs nothing", row.part),
                "Type the weight that went in, as billed.",
            );
            return self.fail(problems, row, Column::Weight, fault);
        }
        self.inputs.insert(run, index);
        self.test.runs.push(Run { row: index, grams: weight.grams, count: weight.count });
    }

    /// Notes where another row gives a part another role.
    fn know_role(&mut self, key: &NameKey, role: Role) {
        self.test.unclear |= self.parts.get(key).is_some_and(|part| part.role != role);
    }

    fn take_part(
        &mut self,
        run: RunKey,
        role: Role,
        index: usize,
        row: &TestRow,
        weight: &TestWeight,
        problems: &mut Vec<Problem>,
    ) {
        let key = NameKey::of(&row.part);
        self.know_role(&key, role);
        let in_run = self.runs.entry(run).or_default();
        if in_run.contains(&key) {
            let fault = Fault::new(
                Code::TestNotUnderstood,
                format!("“{}” stands twice in one run of “{}”", row.part, self.test.name),
                "Add the weights up in one row, or mark repeats of the test with a Date or a Run.",
            );
            return self.fail(problems, row, Column::Part, fault);
        }
        in_run.push(key.clone());
        match self.parts.get_mut(&key) {
            None => {
                let part = Part {
                    name: row.part.clone(),
                    key: key.clone(),
                    role,
                    rows: vec![index],
                    grams: weight.grams,
                    charge: Charge::Free,
                    buy_in: None,
                    reuse: Reuse::default(),
                    bridge: Bridge::default(),
                };
                self.parts.insert(key, part);
            }
            Some(part) if part.role != role => {
                let fault = Fault::new(
                    Code::ChargeConflict,
                    format!("“{}” is {} in one run and {} in another", row.part, part.role.word(), role.word()),
                    "Give it the same Role in every run.",
                );
                self.fail(problems, row, Column::Role, fault);
            }
            Some(part) => {
                part.rows.push(index);
                match exact::add(part.grams, weight.grams) {
                    Ok(grams) => part.grams = grams,
                    Err(_) => self.test.broken = true,
                }
            }
        }
    }

    /// The test, checked as far as its rows alone allow.
    pub(super) fn finish(mut self, entries: &Entries, problems: &mut Vec<Problem>) -> Test {
        if self.of_two_kinds {
            // If it is of trimming, no other yield counts for what it broke down.
            self.test.kind = TestKind::Trim;
            self.test.unclear = true;
        }
        self.test.parts = self.parts.drain(..).map(|(_, part)| part).collect();
        self.check_runs(entries, problems);
        self.check_names(entries, problems);
        if !self.test.broken {
            check_balance(&mut self.test, entries, problems);
        }
        self.test
    }

    /// Every run needs its input; a part absent from a run counts as nothing there.
    fn check_runs(&mut self, entries: &Entries, problems: &mut Vec<Problem>) {
        let missing_input = self.runs.keys().any(|run| !self.inputs.contains_key(run));
        if missing_input || self.inputs.is_empty() {
            if !self.test.broken {
                problems.push(
                    Fault::new(
                        Code::TestNotUnderstood,
                        format!("a run of “{}” does not say what went in", self.test.name),
                        "Add a row with Role as purchased and the billed weight; Date and Run must be the same on all \
                         rows of a run.",
                    )
                    .at(self.test.place.clone()),
                );
            }
            self.test.broken = true;
        }
        if !self.test.broken && !self.test.parts.iter().any(|part| part.role == Role::Main) {
            self.test.broken = true;
            problems.push(
                Fault::new(
                    Code::MainMissing,
                    format!("“{}” has no main", self.test.name),
                    "Set the Role of what the breakdown is for to main.",
                )
                .at(self.test.place.clone()),
            );
        }
        for (run, names) in &self.runs {
            let Some(input) = self.inputs.get(run).and_then(|index| entries.tests.get(*index)) else { continue };
            for part in self.test.parts.iter().filter(|part| !names.contains(&part.key)) {
                problems.push(
                    Fault::new(
                        Code::PartMissingInRun,
                        format!("“{}” is not in this run of “{}”; it counts as 0 there", part.name, self.test.name),
                        "Add its row with the weight, or with 0.",
                    )
                    .at(input.input.place(Column::Part)),
                );
            }
        }
    }

    fn check_names(&mut self, entries: &Entries, problems: &mut Vec<Problem>) {
        let Some(input) = self.input_name.as_deref() else { return };
        let key = NameKey::of(input);
        let Some(part) = self.test.parts.iter().find(|part| part.key == key) else { return };
        let place = part.rows.first().and_then(|row| entries.tests.get(*row)).map(|row| row.input.place(Column::Part));
        let done = if self.test.kind == TestKind::Cooking { "cooked" } else { "trimmed" };
        problems.push(
            Fault::new(
                Code::PartNamedAsInput,
                format!("“{}” is both what went in and what came out", part.name),
                format!("Name what came out differently, for example “{}, {done}”.", part.name),
            )
            .at(place.unwrap_or_else(|| self.test.place.clone())),
        );
        self.test.broken = true;
    }
}

/// What came out may not weigh more than what went in: an error beyond 0.5 %, a note within it.
fn check_balance(test: &mut Test, entries: &Entries, problems: &mut Vec<Problem>) {
    let weigh = || -> Result<(Decimal, Decimal), exact::Overflow> {
        let went_in = exact::sum(test.runs.iter().map(|run| run.grams))?;
        let added = exact::sum(test.added.iter().map(|added| added.grams))?;
        let came_out = exact::sum(test.parts.iter().map(|part| part.grams))?;
        Ok((went_in, exact::sub(came_out, exact::add(went_in, added)?)?))
    };
    let first = test.runs.first().and_then(|run| entries.tests.get(run.row));
    let place = first.map_or_else(|| test.place.clone(), |row| row.input.place(Column::Weight));
    let Ok((went_in, over)) = weigh() else {
        test.broken = true;
        let fault = Fault::new(Code::NumberOutOfRange, "the weights are too large to add up", "Check the weights.");
        problems.push(fault.at(place));
        return;
    };
    if over <= Decimal::ZERO {
        return;
    }
    let weight = first.and_then(|row| row.weight.given());
    let excess = format!("what came out of “{}” weighs {} more than what went in", test.name, in_unit_of(weight, over));
    // Half a percent is what a kitchen scale may be off; 3-costing rule, common practice.
    let beyond = exact::mul(over, Decimal::from(200)).is_ok_and(|scaled| scaled > went_in);
    if beyond {
        test.broken = true;
        let help = "Check the weights; water, brine or fat that went in is a row with Role added.";
        problems.push(Fault::new(Code::PartsOverweight, excess, help).at(place));
    } else {
        problems.push(
            Fault::new(Code::PartsSlightlyOver, excess, "Nothing to do: within 0.5 % a scale may be off.").at(place),
        );
    }
}

/// Grams as a cook reads them beside `weight`: in its unit, to two decimals, or four where there is less than one of it.
fn in_unit_of(weight: Option<&TestWeight>, grams: Decimal) -> String {
    let own = weight.and_then(|weight| Some((exact::div(grams, weight.unit_grams).ok()?, weight.unit.name())));
    let (amount, unit) = own.unwrap_or_else(|| (grams, Unit::gram().name()));
    let shown = half_up(amount, if amount < Decimal::ONE { 4 } else { 2 });
    if shown.is_zero() { format!("less than 0.0001 {unit}") } else { format!("{} {unit}", plain(shown)) }
}
