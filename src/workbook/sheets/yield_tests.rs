//! The Yield tests sheet: weights, today's cost of what went in, and what every part carries of it.

mod adding_up;
mod cost_today;

use crate::costing::{PartCost, Rate, TestCost};
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::{Charge, JointMethod, Part, Test, TestRow, TestWeight, ValueGiven};
use crate::kitchen::{Field, PartId, TestId};
use crate::number::Decimal;
use crate::results::charge_words;
use crate::results::charge_words::ChargeWords;
use crate::results::display_units::DisplayUnit;
use crate::results::figures::per_base_unit;
use crate::results::test_row::{input_per_gram, key_to_share_by, left_to_share, market_charge, way_to_market};
use crate::schema::{Column, Shown, TableKind, Value};
use crate::workbook::cells::formula::{
    Formula, LONGEST, NOT_KNOWN, YES, in_quotes, needed, not_below_nought, not_if, says_other, unless,
};
use crate::workbook::cells::row::{Content, Ink, Look, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::own_columns::OwnCells;
use crate::workbook::layout::{TableLayout, rows_of};
use crate::workbook::sheets::table;

/// What a row is in its test.
#[derive(Debug, Clone, Copy)]
enum RowInTest {
    /// What went in, and in which run.
    Input(TestId, usize),
    /// What was added.
    Added(TestId, usize),
    /// A part, and whether it is the part's first row.
    Part(PartId, bool),
}

/// The rows of the sheet.
pub fn rows(context: &Context<'_>, table: &TableLayout, out: &mut RowSink<'_>) {
    out(table::header(table));
    let places = places(context);
    for (index, input) in rows_of(context.kitchen, TableKind::YieldTests).into_iter().enumerate() {
        let mut sheet = TestsSheet { context, table, index, own: OwnCells::of(table) };
        if let Some(row) = context.kitchen.entries.tests.get(index) {
            if let Field::Given(weight) = &row.weight {
                sheet.weight(row, weight);
            }
            match places.get(index).copied().flatten() {
                Some(RowInTest::Input(test, run)) => sheet.input(test, run),
                Some(RowInTest::Added(test, added)) => sheet.added(test, added),
                Some(RowInTest::Part(part, first)) => sheet.part(row, part, first),
                None => {}
            }
        } else {
            sheet.own.say("Charge read as", "not read");
        }
        let place = places.get(index).copied().flatten();
        let room = |column| (column == Column::FurtherCost && counts_further(context, place)).then(|| context.money());
        out(table::row(table.row(index), table::inputs(context, table, input, &room), sheet.own));
    }
}

/// Whether a further cost typed into a part's row would count: it comes off the value by which it shares, and the part
/// has no other run that would say otherwise.
fn counts_further(context: &Context<'_>, place: Option<RowInTest>) -> bool {
    let Some(RowInTest::Part(id, _)) = place else { return false };
    let test = context.kitchen.test(id.test).filter(|_| context.costing.test(id.test).is_some());
    let part = test.and_then(|test| Some((test, test.parts.get(id.index())?)));
    part.is_some_and(|(test, part)| by_net_value(test, part) && part.rows.len() == 1)
}

/// Whether a part shares what remains by what it sells at less its further cost.
fn by_net_value(test: &Test, part: &Part) -> bool {
    // A lone main takes all that remains: its weight does for a key.
    let by_weight =
        matches!(&part.charge, Charge::Joint { money, grams } if *money == Decimal::ONE && *grams == Decimal::ONE);
    part.is_joint() && test.joint == JointMethod::NetRealizableValue && !by_weight
}

fn places(context: &Context<'_>) -> Vec<Option<RowInTest>> {
    let mut places: Vec<Option<RowInTest>> = vec![None; context.kitchen.entries.tests.len()];
    let mut set = |row: usize, place: RowInTest| {
        if let Some(slot) = places.get_mut(row) {
            *slot = Some(place);
        }
    };
    for (index, test) in context.kitchen.tests.iter().enumerate() {
        let id = TestId::new(index);
        test.runs.iter().enumerate().for_each(|(at, run)| set(run.row, RowInTest::Input(id, at)));
        test.added.iter().enumerate().for_each(|(at, added)| set(added.row, RowInTest::Added(id, at)));
        for (at, part) in test.parts.iter().enumerate() {
            for (nth, row) in part.rows.iter().enumerate() {
                set(*row, RowInTest::Part(PartId::new(id, at), nth == 0));
            }
        }
    }
    places
}

struct TestsSheet<'a> {
    context: &'a Context<'a>,
    table: &'a TableLayout,
    index: usize,
    own: OwnCells<'a>,
}

impl<'a> TestsSheet<'a> {
    fn here(&self, header: &'static str) -> String {
        self.at(self.index, header)
    }

    fn at(&self, row: usize, header: &'static str) -> String {
        self.table.own(row, header).beside(&self.table.sheet, self.table.row(self.index))
    }

    fn cell(&self, column: Column) -> Option<String> {
        Some(self.table.input(self.index, column)?.cell())
    }

    /// Cells added up one by one. More than a formula holds with their keys are taken where they stand; of more than it holds
    /// at all it is as long as none may be, and the figure stands without.
    fn sum(&self, rows: &[usize], header: &'static str) -> String {
        const MOST_KEYED: usize = 40;
        let at = |row: usize| match rows.len() {
            ..=MOST_KEYED => self.at(row, header),
            _ => self.table.own(row, header).unkeyed().beside(&self.table.sheet, self.table.row(self.index)),
        };
        let mut sum = String::new();
        for row in rows {
            sum.push_str(if sum.is_empty() { "" } else { "+" });
            sum.push_str(&at(*row));
            if sum.len() > LONGEST {
                break;
            }
        }
        sum
    }

    /// Grams: live when the weight is one number, as read when it holds a count too.
    fn weight(&mut self, row: &TestRow, weight: &TestWeight) {
        self.own.read("Grams per unit", weight.unit_grams);
        if let Some(count) = weight.count {
            self.own.read("Pieces", count);
        }
        match (&row.input.typed(Column::Weight).value, self.cell(Column::Weight)) {
            (Value::Number(_), Some(cell)) => {
                let text = format!("{}*{}", needed(&cell), self.here("Grams per unit"));
                let text = not_if(&self.renamed(row), &text);
                self.own.figure("Weight in grams", Formula::number(text, weight.grams), Look::Quantity);
            }
            (_, cell) => {
                let mut other = self.renamed(row);
                other.extend(cell.map(|cell| says_other(&cell, row.input.typed(Column::Weight).words())));
                let grams = unless(&other, weight.grams).map_or(Content::Number(weight.grams), Content::Formula);
                self.own.put("Weight in grams", grams, Ink::Reading, Look::Quantity);
            }
        }
    }

    /// That the row says another part, role or unit than it said: rows that were sorted or pasted without the columns of our own
    /// are other ones.
    fn renamed(&self, row: &TestRow) -> Vec<String> {
        let columns = [Column::Part, Column::Role, Column::Unit].into_iter().filter(|_| self.table.roomy);
        let typed = columns.map(|column| (row.input.typed(column), self.cell(column)));
        let other = typed.filter_map(|(typed, cell)| Some(says_other(&cell?, Some(typed.words()?))));
        other.chain(self.table.elsewhere(self.index, &row.input)).collect()
    }

    /// What went in: its cost today, and on the first run the test's totals.
    fn input(&mut self, id: TestId, run: usize) {
        let Some(test) = self.context.kitchen.test(id) else { return };
        let Some(cost) = self.context.costing.test(id) else { return };
        let Some(of_run) = test.runs.get(run) else { return };
        self.cost_today(test.input, of_run.grams, of_run.count);
        if run > 0 {
            return;
        }
        let runs: Vec<usize> = test.runs.iter().map(|run| run.row).collect();
        let pooled = Formula::number(self.sum(&runs, "Weight in grams"), cost.grams);
        self.own.figure("Weight pooled", pooled, Look::Quantity);
        let mut came_in = runs.clone();
        came_in.extend(test.added.iter().map(|added| added.row));
        let came_out: Vec<usize> = test.parts.iter().flat_map(|part| part.rows.iter().copied()).collect();
        let loss = format!("{}-({})", self.sum(&came_in, "Weight in grams"), self.sum(&came_out, "Weight in grams"));
        self.own.figure("Loss in grams", Formula::number(loss, cost.loss_grams), Look::Quantity);
        let adds_up = Formula::text(self.adds_up(test), YES);
        self.own.figure("Test adds up", adds_up, Look::General);
        if !test.added.is_empty() {
            let added: Vec<usize> = test.added.iter().map(|added| added.row).collect();
            let sum = |rows: &[usize]| self.sum(rows, "Weight in grams");
            // No more than was added: beyond that the scale is off.
            let taken_up = format!("MAX(0,MIN({},({})-({})))", sum(&added), sum(&came_out), sum(&runs));
            let taken_up = Formula::number(taken_up, cost.taken_up_grams);
            self.own.figure("Taken up in grams", taken_up, Look::Quantity);
        }
        let mut paid = runs.clone();
        paid.extend(test.added.iter().filter(|added| added.source.is_some()).map(|added| added.row));
        let total = Formula::number(self.sum(&paid, "Cost today"), cost.cost);
        self.own.figure("Cost carried", total, self.context.money());
        if let Some(left) = left_to_share(test, cost) {
            let text = self.left_to_share(test, cost);
            self.own.figure("Left to share", Formula::number(text, left), self.context.money());
        }
        if let Some(per_gram) = input_per_gram(cost) {
            let text = format!("({})/{}", self.sum(&runs, "Cost today"), self.here("Weight pooled"));
            self.own.figure("Cost per gram", Formula::number(text, per_gram), self.context.per_base_unit());
            self.per_unit(per_gram);
        }
    }

    /// What one of the row's own units costs.
    fn per_unit(&mut self, per_gram: Decimal) {
        let row = self.context.kitchen.entries.tests.get(self.index);
        let Some(weight) = row.and_then(|row| row.weight.given()) else { return };
        let unit = DisplayUnit { name: weight.unit.name(), size: weight.unit_grams };
        if let Some(cost) = unit.cost(per_gram) {
            let text = format!("{}*{}", self.here("Cost per gram"), self.here("Grams per unit"));
            self.own.figure("Cost per unit", Formula::number(text, cost), self.context.cost_per_unit());
        }
    }

    fn added(&mut self, id: TestId, at: usize) {
        let Some(test) = self.context.kitchen.test(id) else { return };
        let Some(added) = test.added.get(at) else { return };
        let costs = added.source.is_some_and(|source| !self.is_water(source));
        self.own.say("Charge read as", if costs { "costs as purchased" } else { "costs nothing: no price" });
        if let (Some(source), Some(_)) = (added.source, self.context.costing.test(id)) {
            self.cost_today(source, added.grams, added.count);
        }
    }

    fn part(&mut self, row: &TestRow, id: PartId, first: bool) {
        let Some(test) = self.context.kitchen.test(id.test) else { return };
        let Some(part) = test.parts.get(id.index()) else { return };
        let Some(cost) = self.context.costing.test(id.test) else { return };
        let Some(figures) = cost.parts.get(id.index()) else { return };
        if !first {
            return;
        }
        let pooled = Formula::number(self.sum(&part.rows, "Weight in grams"), part.grams);
        self.own.figure("Weight pooled", pooled, Look::Quantity);
        let head = test.runs.first().map_or(0, |run| run.row);
        let (pooled, all) = (self.here("Weight pooled"), self.at(head, "Weight pooled"));
        let text = format!("IF({}=\"{YES}\",{pooled}/{all},\"{NOT_KNOWN}\")", self.at(head, "Test adds up"));
        self.own.figure("Share of weight", Formula::number(text, figures.fraction), Look::Percent(1));
        self.charge(row, test, part, head, figures);
        self.carried(test, cost, part, head, figures);
    }

    /// What the charge comes to: per gram where it is fixed, as a key where it is a share.
    fn charge(&mut self, row: &TestRow, test: &Test, part: &Part, head: usize, figures: &PartCost) {
        let unit_cost = self.context.per_base_unit();
        self.charge_read_as(row, test, part);
        match &part.charge {
            Charge::Free => {}
            Charge::Fraction(fraction) => {
                self.value(row, *fraction, Look::Percent(2));
                let text = format!("{}*{}", self.here("Value used"), self.at(head, "Cost per gram"));
                self.per_gram(text, figures, unit_cost);
            }
            Charge::Price { money, grams } => {
                self.value(row, *money, self.context.money());
                self.own.read("Value for grams", *grams);
                let text = format!("{}/{}", self.here("Value used"), self.here("Value for grams"));
                self.per_gram(text, figures, unit_cost);
            }
            Charge::Market(buy_in) => {
                let Some(cost) = self.context.costing.item(buy_in.item) else { return };
                // Units of what it stands in for, per gram of the part.
                let Some(units) = market_charge(figures, cost) else { return };
                let mut missed = self.missed(
                    &way_to_market(self.context.kitchen, self.context.costing, buy_in),
                    IngredientSource::Bought(buy_in.item),
                );
                let said = self.cell(Column::InsteadOf).filter(|_| row.instead_of.given().is_some());
                missed.extend(said.map(|cell| format!("{cell}=\"\"")));
                let content = unless(&missed, units).map_or(Content::Number(units), Content::Formula);
                self.own.put("Value used", content, Ink::Reading, Look::General);
                let cell = self
                    .context
                    .ap_cell(buy_in.item)
                    .map_or_else(|| "0".to_owned(), |cell| cell.from(&self.table.sheet));
                let text = format!("{}*{cell}", self.here("Value used"));
                self.per_gram(text, figures, unit_cost);
            }
            Charge::Joint { money, grams } => self.joint_key(row, test, part, *money, *grams),
        }
    }

    /// How it is charged, and its Value in the unit in which that counts: live where its cell is the number.
    fn charge_read_as(&mut self, row: &TestRow, test: &Test, part: &Part) {
        let kitchen = self.context.kitchen;
        let Some(said) = ChargeWords::of(kitchen, test, part, row) else {
            return self.own.say("Charge read as", charge_words::words(kitchen, test, part));
        };
        match self.cell(Column::Value).filter(|_| matches!(row.input.typed(Column::Value).value, Value::Number(_))) {
            Some(cell) => {
                let live = Content::Formula(live(&said, &cell));
                self.own.put("Charge read as", live, Ink::Reading, Look::General);
            }
            None => self.own.say("Charge read as", said.text()),
        }
    }

    fn per_gram(&mut self, text: String, figures: &PartCost, look: Look) {
        if let Some(charge) = figures.charge.and_then(per_base_unit) {
            self.own.figure("Charge per gram", Formula::number(text, charge), look);
        }
    }

    /// The value: live when its cell is the number itself.
    fn value(&mut self, row: &TestRow, value: Decimal, look: Look) {
        let typed = row.input.typed(Column::Value);
        let whole = match (&typed.value, row.value.given()) {
            (Value::Number(number), Some(ValueGiven::Percent(_))) => typed.shown == Shown::Percent && *number == value,
            (Value::Number(number), _) => *number == value,
            _ => false,
        };
        match self.cell(Column::Value).filter(|_| whole) {
            Some(cell) => self.own.figure("Value used", Formula::number(needed(&cell), value), look),
            None => {
                let cell = self.cell(Column::Value).filter(|_| !typed.is_blank());
                self.own.put("Value used", Content::read_of(cell.as_slice(), value), Ink::Reading, look);
            }
        }
    }

    fn joint_key(&mut self, row: &TestRow, test: &Test, part: &Part, money: Decimal, grams: Decimal) {
        let Some(key) = key_to_share_by(part, Rate { money, per: grams }) else { return };
        let pooled = self.here("Weight pooled");
        // A lone main takes all that remains: its weight will do for a key.
        let by_weight = money == Decimal::ONE && grams == Decimal::ONE;
        let text = match (test.joint, by_weight, row.value.given()) {
            (_, true, _) => pooled,
            (
                JointMethod::NetRealizableValue,
                false,
                Some(ValueGiven::Money { amount, .. } | ValueGiven::Bare(amount)),
            ) => {
                self.value(row, *amount, self.context.money());
                self.own.read("Value for grams", grams);
                let further =
                    self.cell(Column::FurtherCost).map_or_else(|| "0".to_owned(), |cell| not_below_nought(&cell));
                let (value, per) = (self.here("Value used"), self.here("Value for grams"));
                format!("{pooled}*MAX(0,{value}/{per}-{further}/{})", self.here("Grams per unit"))
            }
            _ => {
                self.value(row, money, self.context.money());
                self.own.read("Value for grams", grams);
                format!("{pooled}*{}/{}", self.here("Value used"), self.here("Value for grams"))
            }
        };
        self.own.figure("Key to share by", Formula::number(text, key), Look::Quantity);
    }

    /// What the part carries of the cost, per gram and against the price of what went in.
    fn carried(&mut self, test: &Test, cost: &TestCost, part: &Part, head: usize, figures: &PartCost) {
        let left = self.at(head, "Left to share");
        let text = match &part.charge {
            Charge::Joint { .. } => {
                let joint = test.parts.iter().filter(|part| part.is_joint());
                let joint: Vec<usize> = joint.map(|part| part.rows.first().copied().unwrap_or_default()).collect();
                format!("{left}*{}/({})", self.here("Key to share by"), self.sum(&joint, "Key to share by"))
            }
            charge => {
                let own = match charge {
                    Charge::Free => "0".to_owned(),
                    _ => format!("{}*{}", self.here("Weight pooled"), self.here("Charge per gram")),
                };
                format!("IF(ISNUMBER({left}),{own},\"{NOT_KNOWN}\")")
            }
        };
        self.own.figure("Cost carried", Formula::number(text, figures.cost), self.context.money());
        if let Some(per_gram) = figures.rate.and_then(per_base_unit) {
            let text = format!("{}/{}", self.here("Cost carried"), self.here("Weight pooled"));
            self.own.figure("Cost per gram", Formula::number(text, per_gram), self.context.per_base_unit());
            self.per_unit(per_gram);
        }
        if let (Some(factor), true) = (figures.cost_factor, !cost.input_cost.is_zero()) {
            let text = format!("{}/{}", self.here("Cost per gram"), self.at(head, "Cost per gram"));
            self.own.figure("Cost factor", Formula::number(text, factor), Look::Quantity);
        }
    }
}

/// The words for a part's Value, with the amount of its cell.
fn live(said: &ChargeWords, cell: &str) -> Formula {
    let zeros = "0".repeat(said.places as usize);
    let form = if zeros.is_empty() { "0".to_owned() } else { format!("0.{zeros}") };
    let (before, after) = (in_quotes(&said.before), in_quotes(&said.after));
    let text = format!("{before}&IF(ISNUMBER({cell}),TEXT(ROUND({cell},{}),\"{form}\"),\"?\")&{after}", said.places);
    Formula::text(text, said.text())
}
