//! Today's cost of what goes into a test, and what leads from its weight to its price.

use super::TestsSheet;
use crate::costing::YieldFrom;
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::price::bought::PriceFrom;
use crate::costing::yield_test::input_cost::WayToPrice;
use crate::kitchen::recipe::IngredientSource;
use crate::number::{Decimal, plain};
use crate::results::test_row::CostToday;
use crate::schema::Column;
use crate::workbook::cells::formula::{Formula, needed, unless};
use crate::workbook::cells::row::{Content, Ink, Look};
use crate::workbook::layout::recipe::Total;
use crate::workbook::measure_guards;
use crate::workbook::sheets::prices::yield_cell;

impl TestsSheet<'_> {
    /// Today's unit cost of `source`, and what this weight (or count) of it costs.
    pub(super) fn cost_today(&mut self, source: IngredientSource, grams: Decimal, count: Option<Decimal>) {
        let (kitchen, costing) = (self.context.kitchen, self.context.costing);
        let Some(today) = CostToday::of(kitchen, costing, source, grams, count) else { return };
        let look = self.context.per_base_unit();
        match self.unit_cost_cell(source) {
            Some(cell) => self.own.figure("AP per g, ml, each", Formula::number(cell, today.unit_cost), look),
            None => self.own.put("AP per g, ml, each", Content::Number(today.unit_cost), Ink::Reading, look),
        }
        let Some(spent) = today.cost else { return };
        let text = if today.kind == BaseUnitKind::Each && count.is_some() {
            format!("{}*{}", self.here("Pieces"), self.here("AP per g, ml, each"))
        } else {
            let units = unless(&self.missed(&today.way, source), today.units_per_gram);
            let units = units.map_or(Content::Number(today.units_per_gram), Content::Formula);
            self.own.put("Priced units per gram", units, Ink::Reading, Look::General);
            let (weight, units) = (self.here("Weight in grams"), self.here("Priced units per gram"));
            format!("{weight}*{units}*{}", self.here("AP per g, ml, each"))
        };
        self.own.figure("Cost today", Formula::number(text, spent), self.context.money());
    }

    /// What would undo a way from a weight to the unit of a price: a measure is cleared, the yield is another.
    pub(super) fn missed(&self, way: &WayToPrice, source: IngredientSource) -> Vec<String> {
        let (context, sheet) = (self.context, &self.table.sheet);
        let mut missed = measure_guards::missed(context, &way.measures, source, sheet);
        let crossed = way.crossed.and_then(|(fraction, from)| {
            let cell = match (from, source) {
                (YieldFrom::Test(part), _) => context.part_cell(part, "Share of weight"),
                (from, IngredientSource::Bought(id)) => yield_cell(context, id, from),
                _ => None,
            };
            Some(format!("ROUND({}-{},9)<>0", cell?.from(sheet), plain(fraction)))
        });
        missed.extend(crossed);
        missed
    }

    /// The formula that says what one unit of `source` costs.
    fn unit_cost_cell(&self, source: IngredientSource) -> Option<String> {
        let sheet = &self.table.sheet;
        match source {
            IngredientSource::Bought(id) => {
                let cost = self.context.costing.item(id)?;
                if cost.from == PriceFrom::TestRow(self.index) {
                    self.cell(Column::Price).map(|price| format!("{}/{}", needed(&price), self.here("Grams per unit")))
                } else {
                    self.context.ap_cell(id).map(|cell| cell.from(sheet))
                }
            }
            IngredientSource::Part(part) => self.context.part_cell(part, "Cost per gram").map(|cell| cell.from(sheet)),
            IngredientSource::Made(id) => self.context.total(id, Total::UnitCost).map(|cell| cell.from(sheet)),
            IngredientSource::Unknown => None,
        }
    }

    /// Whether it is water that has no price.
    pub(super) fn is_water(&self, source: IngredientSource) -> bool {
        let IngredientSource::Bought(item) = source else { return false };
        self.context.costing.item(item).is_some_and(|cost| cost.from == PriceFrom::Water)
    }
}
