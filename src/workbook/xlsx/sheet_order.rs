//! The sheets of the costed workbook in their order, and how each is drawn.

use std::collections::BTreeSet;
use std::ops::Range;

use rust_xlsxwriter::XlsxError;

use super::sheet::{Drawn, Pen};
use super::{Asked, notes};
use crate::analysis::{RowYields, Trim};
use crate::kitchen::RecipeId;
use crate::problem::Problem;
use crate::results::changes::Changes;
use crate::results::problem_counts::Counts;
use crate::results::stopped_by::Errors;
use crate::schema::{CarriedSheet, TableKind};
use crate::workbook::context::Context;
use crate::workbook::layout::problem_places::Landed;
use crate::workbook::layout::recipe::RecipeLayout;
use crate::workbook::layout::{Layout, Lists, TableLayout};
use crate::workbook::sheets::cards::Remarks;
use crate::workbook::sheets::{
    cards, carried, changed, lists, plain, prices, problems, settings, summary, table, trim, what_if, working,
    yield_tests,
};

/// What is drawn at one go.
pub(super) enum Leaf<'a> {
    Summary,
    Changed(&'a Changes<'a>),
    Table(&'a TableLayout),
    Card(RecipeId, &'a RecipeLayout),
    Facts(&'a Lists),
    Lines(&'a TableLayout, Range<usize>),
    Settings,
    Trim(&'a Asked<'a, Trim>),
    Carried(&'a CarriedSheet, &'a str),
    Problems,
    Working,
}

/// The sheets as they stand in the costed workbook; with What changed where prices were compared, and Trim where
/// the book has any.
pub(super) fn in_order<'a>(
    layout: &'a Layout,
    carried: &'a [CarriedSheet],
    changes: Option<&'a Changes<'a>>,
    trim: Option<&'a Asked<'a, Trim>>,
) -> Vec<Leaf<'a>> {
    let table = |kind: TableKind| layout.table(kind).map(Leaf::Table);
    let mut order = vec![Leaf::Summary];
    order.extend(changes.map(Leaf::Changed));
    order.extend([TableKind::Menu, TableKind::Plan].into_iter().filter_map(table));
    match &layout.lists {
        None => {
            let cards = layout.recipes.iter().enumerate();
            order.extend(cards.map(|(index, card)| Leaf::Card(RecipeId::new(index), card)));
        }
        Some(lists) => {
            order.push(Leaf::Facts(lists));
            order.extend(lists.sheets.iter().map(|(sheet, recipes)| Leaf::Lines(sheet, recipes.clone())));
        }
    }
    order.extend(trim.map(Leaf::Trim));
    let inputs = [
        TableKind::RecipeLines,
        TableKind::Prices,
        TableKind::Measures,
        TableKind::YieldTests,
        TableKind::Stock,
        TableKind::Control,
        TableKind::SupplierLayouts,
    ];
    order.extend(inputs.into_iter().filter_map(table));
    order.push(Leaf::Settings);
    order.extend(carried.iter().zip(&layout.carried).map(|(sheet, name)| Leaf::Carried(sheet, name)));
    order.extend([Leaf::Problems, Leaf::Working]);
    order
}

/// What the sheets are drawn from.
pub(super) struct Leaves<'a> {
    pub(super) context: &'a Context<'a>,
    pub(super) landed: &'a [Landed],
    pub(super) counts: &'a Counts,
    pub(super) errors: &'a Errors<'a>,
    pub(super) changes: Option<&'a Changes<'a>>,
    pub(super) yields: &'a Asked<'a, RowYields>,
}

impl Leaves<'_> {
    /// What is to be said on a recipe's card.
    fn remarks(&self, id: RecipeId, card: &RecipeLayout) -> Remarks {
        const MOST: usize = 3;
        let landed = |problem: &Problem| {
            self.landed.iter().position(|landed| landed.from == problem.place && landed.code == problem.code)
        };
        // As they stand among the problems, wherever the rows stood before.
        let listed: BTreeSet<usize> = self.errors.stopping_recipe(id).into_iter().filter_map(landed).collect();
        let listed = listed.into_iter().filter_map(|index| self.landed.get(index));
        let told = listed.map(|landed| format!("{}: {}", landed.at.spoken(), landed.message));
        let stopped_by = told.take(MOST).collect();
        let mut here = self.landed.iter().enumerate().filter(|(_, landed)| landed.at.sheet == card.sheet()).peekable();
        let first = here.peek().map(|(index, _)| problems::cell_of(*index));
        Remarks { stopped_by, problems: first.map(|first| (here.count(), first)) }
    }

    /// Draws a leaf, with notes at the cells that problems speak of.
    pub(super) fn draw(&self, leaf: &Leaf<'_>, pen: &mut Pen<'_>) -> Result<Vec<Drawn>, XlsxError> {
        let mut drawn = self.sheets(leaf, pen)?;
        let told = match leaf {
            Leaf::Table(layout) => table::told(layout),
            _ => None,
        };
        for (sheet, _) in &mut drawn {
            notes::put(sheet, told, self.landed)?;
        }
        Ok(drawn)
    }

    /// The sheets of a leaf: one, but of trim.
    fn sheets(&self, leaf: &Leaf<'_>, pen: &mut Pen<'_>) -> Result<Vec<Drawn>, XlsxError> {
        let context = self.context;
        let drawn = match leaf {
            Leaf::Trim(trim) => {
                let trim = trim();
                let mut drawn = vec![pen.sheet(&trim::frame(context, &trim), |out| trim::rows(context, &trim, out))?];
                if !trim.sweeps.is_empty() {
                    drawn.push(pen.sheet(&what_if::frame(&trim), |out| what_if::rows(context, &trim, out))?);
                }
                return Ok(drawn);
            }
            Leaf::Summary => {
                let frame = summary::frame(context);
                pen.sheet(&frame, |out| summary::rows(context, self.counts, self.changes, out))
            }
            Leaf::Changed(changes) => pen.sheet(&changed::frame(changes), |out| changed::rows(context, changes, out)),
            Leaf::Table(layout) => pen.sheet(&table::frame(layout), |out| match layout.kind {
                TableKind::Prices => prices::rows(context, &(self.yields)(), layout, out),
                TableKind::YieldTests => yield_tests::rows(context, layout, out),
                _ => plain::rows(context, layout, out),
            }),
            Leaf::Card(id, card) => {
                let remarks = self.remarks(*id, card);
                pen.sheet(&cards::frame(card), |out| cards::rows(context, *id, &remarks, out))
            }
            Leaf::Facts(lists) => pen.sheet(&table::frame(&lists.facts), |out| lists::facts(context, lists, out)),
            Leaf::Lines(sheet, recipes) => {
                pen.sheet(&table::frame(sheet), |out| lists::lines(context, sheet, recipes.clone(), out))
            }
            Leaf::Settings => pen.sheet(&settings::frame(), |out| settings::rows(context, out)),
            Leaf::Carried(sheet, name) => pen.sheet(&carried::frame(name), |out| carried::rows(context, sheet, out)),
            Leaf::Problems => {
                pen.sheet(&problems::frame(), |out| problems::rows(context, self.landed, self.counts, out))
            }
            Leaf::Working => pen.sheet(&working::frame(), |out| working::rows(context, out)),
        };
        Ok(vec![drawn?])
    }
}
