//! The live word on whether another row has become the better one.

use super::other_rows::Undone;
use crate::costing::ItemCost;
use crate::costing::edible_portion::ComparisonScale;
use crate::costing::price::bought::Rival;
use crate::costing::rate::Amount;
use crate::kitchen::price::{Item, TrimYield};
use crate::number::plain;
use crate::results::figures::factor;
use crate::schema::Column;
use crate::workbook::cells::formula::{Formula, LONGEST, Outcome, Ref};
use crate::workbook::cells::row::Look;
use crate::workbook::layout::TableLayout;
use crate::workbook::layout::own_columns::OwnCells;

/// What is said of the cheapest of several rows.
const CHEAPEST: &str = "cheapest of its day";
const SPEAKS: &str = "another row is cheaper now: cost again";
const NO_PRICE: &str = "another row has no price now: cost again";
const CANNOT_TELL: &str = "this cannot be told any more: cost again";
/// Beside more rivals than this, whose terms no formula would hold, ties are left to costing again.
const MOST_TERMS: usize = 24;

/// What is said while no other row is the better one.
pub(super) fn silent(cost: &ItemCost) -> &'static str {
    if cost.rivals.is_empty() { "" } else { CHEAPEST }
}

/// Says it in the row in use, at `index`: what undoes the choice, or that a rival has become the cheaper one.
pub(super) fn say(
    table: &TableLayout,
    index: usize,
    item: &Item,
    cost: &ItemCost,
    undone: &[Undone],
    own: &mut OwnCells<'_>,
) {
    let cells =
        |keyed| BetterRowCells { table, at: table.row(index), keyed, by_test: matches!(item.trim, TrimYield::Main(_)) };
    let whole = |keyed| {
        let (mut text, error) = match cost.rivals.as_slice() {
            [] => ("\"\"".to_owned(), CANNOT_TELL),
            _ => (cells(keyed).compared(index, cost), NO_PRICE),
        };
        for (condition, said) in undone.iter().rev() {
            text = format!("IF({condition},\"{said}\",{text})");
        }
        format!("IFERROR({text},\"{error}\")")
    };
    let keyed = whole(true);
    // More rivals than a formula holds with their keys are taken where they stand.
    let text = if keyed.len() > LONGEST { whole(false) } else { keyed };
    // It says itself what an error means.
    own.figure("Better row", Formula::bare(text, Outcome::Text(silent(cost).to_owned())), Look::General);
}

const AP: &str = "AP per g, ml, each";
const EP: &str = "EP per g, ml, each";

struct BetterRowCells<'a> {
    table: &'a TableLayout,
    /// The row in which the word stands.
    at: u32,
    /// Whether rows are found by their keys.
    keyed: bool,
    /// Whether a test of trimming gives all rows one yield, so that they are compared as purchased.
    by_test: bool,
}

impl BetterRowCells<'_> {
    fn compared(&self, index: usize, cost: &ItemCost) -> String {
        let (rivals, scale) = (cost.rivals.as_slice(), &cost.scale);
        let (ep, ap) = (self.edible(index, index, scale), scaled(self.own(index, AP), scale.bought));
        let better: Vec<String> = if rivals.len() > MOST_TERMS {
            let all: Vec<String> = rivals.iter().map(|rival| self.compared_cost(*rival)).collect();
            all.chunks(MOST_TERMS).map(|some| less(&format!("MIN({})", some.join(",")), &ep)).collect()
        } else {
            rivals.iter().map(|rival| self.is_better(*rival, (&ep, &ap))).collect()
        };
        format!("IF(OR({}),\"{SPEAKS}\",\"{CHEAPEST}\")", better.join(","))
    }

    fn read(&self, cell: Ref) -> String {
        let cell = if self.keyed { cell } else { cell.unkeyed() };
        cell.beside(&self.table.sheet, self.at)
    }

    fn own(&self, row: usize, header: &'static str) -> String {
        self.read(self.table.own(row, header))
    }

    /// What a row costs in the unit compared, at the price of `priced`.
    fn edible(&self, row: usize, priced: usize, scale: &ComparisonScale) -> String {
        let cost = if !scale.across_yield {
            self.own(priced, AP)
        } else if row == priced {
            self.own(priced, EP)
        } else {
            // At a market price, the last price by the yield of the row that says so.
            format!("{}/{}", self.own(priced, AP), self.own(row, "Yield used"))
        };
        scaled(cost, scale.units)
    }

    /// What a rival is compared by. Taken out, it is no rival; cleared, nobody can tell.
    fn compared_cost(&self, rival: Rival) -> String {
        let cost = self.edible(rival.row, rival.priced, &rival.scale);
        let price = self.table.input(rival.priced, Column::Price);
        let price = price.map_or_else(|| cost.clone(), |price| self.read(price));
        format!("IF(ISERROR({price}),{NEVER},{cost}+0)")
    }

    /// Whether a rival comes before the row in use: it is cheaper per EP unit; or as dear, and cheaper per AP unit, or there as
    /// dear, and the first by name.
    fn is_better(&self, rival: Rival, (ep, ap): (&str, &str)) -> String {
        let its_ap = scaled(self.own(rival.priced, AP), rival.scale.bought);
        let its_ep = self.compared_cost(rival);
        let cheaper_as_purchased = if rival.wins_ties { not_more(&its_ap, ap) } else { less(&its_ap, ap) };
        if self.by_test {
            return if rival.wins_ties { not_more(&its_ep, ep) } else { less(&its_ep, ep) };
        }
        let ties = format!("AND({},{cheaper_as_purchased})", not_more(&its_ep, ep));
        format!("{},{ties}", less(&its_ep, ep))
    }
}

/// A cost per base unit brought to the unit compared, by a reading of the measures that join the two.
fn scaled(cost: String, units: Amount) -> String {
    match factor(units) {
        Some(factor) => format!("{cost}*{}", plain(factor)),
        None => cost,
    }
}

/// The cost of a row that was taken out.
const NEVER: &str = "1E+99";

// A float holds some 15 digits: two costs that are equal in fact may differ in the last of them.
fn less(one: &str, other: &str) -> String {
    format!("{one}<{other}*(1-1E-12)")
}

fn not_more(one: &str, other: &str) -> String {
    format!("{one}<={other}*(1+1E-12)")
}
