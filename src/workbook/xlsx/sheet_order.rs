//! The sheets of the costed workbook in their order, and how each is drawn.

use std::collections::BTreeSet;
use std::ops::Range;
use std::sync::OnceLock;

use rust_xlsxwriter::XlsxError;

use super::notes::CellNotes;
use super::row_writer::BLOCK;
use super::sheet::Drawn;
use super::{OnDemand, notes};
use crate::analysis::{RowYields, Trim};
use crate::kitchen::RecipeId;
use crate::kitchen::menu::Dish;
use crate::problem::Problem;
use crate::results::changes::Changes;
use crate::results::problem_counts::Counts;
use crate::results::stopped_by::Errors;
use crate::schema::{CarriedSheet, TableKind};
use crate::workbook::cells::formula::Ref;
use crate::workbook::cells::row::{Frame, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::problem_places::Landed;
use crate::workbook::layout::recipe::RecipeLayout;
use crate::workbook::layout::sheet_names;
use crate::workbook::layout::{Layout, Lists, TableLayout};
use crate::workbook::sheets::cards::Remarks;
use crate::workbook::sheets::prices::PriceRows;
use crate::workbook::sheets::summary::SummaryNotes;
use crate::workbook::sheets::{
    cards, carried, changed, food_cost, groups, in_pictures, kitchen_cards, lists, menu_mix, plain, prices, problems,
    settings, summary, table, trim, what_if, working, yield_tests,
};

/// What is drawn at one go.
pub(super) enum Leaf<'a> {
    Summary,
    Changed(&'a Changes<'a>),
    /// Rows of a table.
    Table(&'a TableLayout, ListPart),
    Card(RecipeId, &'a RecipeLayout),
    KitchenCards,
    /// Rows of the table of facts.
    Facts(&'a Lists, ListPart),
    /// Lines of some recipes; whether the sheet begins and ends with them.
    Lines {
        sheet: &'a TableLayout,
        recipes: Range<usize>,
        begins: bool,
        ends: bool,
    },
    Settings,
    /// The menu by popularity and margin, where the book says how many were sold.
    MenuMix,
    /// Actual against standard food cost, where the book has a control table or counts.
    FoodCost,
    /// Trim, and the sheets that are drawn from the same report: whether there is anything to show in pictures.
    Trim(&'a OnDemand<'a, Trim>, bool),
    /// What there is to show in pictures, where the book has no trim.
    InPictures,
    Carried(&'a CarriedSheet, &'a str),
    Problems,
    Working,
}

/// Some of the rows of a list, by their index below its header, which stands above the first.
pub(super) struct ListPart {
    rows: Range<usize>,
    ends: bool,
}

impl ListPart {
    /// All rows of a table.
    pub(super) fn whole(table: &TableLayout) -> Self {
        ListPart { rows: 0..table.rows, ends: true }
    }

    /// The rows of a table, so many on the sheet at one go, header included, that what is drawn of them and not yet bound takes
    /// little memory.
    fn all(table: &TableLayout) -> impl Iterator<Item = Self> + use<> {
        /// Whole blocks of rows, so that each of those is known when it is drawn.
        const ROWS: usize = (BLOCK as usize).saturating_mul(8);
        let end = table.rows;
        let below_header = |row: usize| row.saturating_sub(1);
        (0..=end).step_by(ROWS).map(move |row| {
            let next = below_header(row.saturating_add(ROWS));
            ListPart { rows: below_header(row)..next.min(end), ends: next >= end }
        })
    }

    fn begins(&self) -> bool {
        self.rows.start == 0
    }

    pub(super) fn rows(&self) -> Range<usize> {
        self.rows.clone()
    }

    /// Its rows on the sheet of a table: the last with all that may stand below them.
    pub(super) fn on_sheet(&self, table: &TableLayout) -> Range<u32> {
        let start = if self.begins() { 0 } else { table.row(self.rows.start) };
        start..if self.ends { u32::MAX } else { table.row(self.rows.end) }
    }
}

/// Which of the sheets are there that a book may have something for.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct ShownSheets {
    /// Menu mix.
    pub(super) mix: bool,
    /// Food cost.
    pub(super) control: bool,
    /// In pictures.
    pub(super) pictures: bool,
}

/// The sheets as they stand in the costed workbook; with What changed where prices were compared, and Trim where
/// the book has any; and Menu mix, Food cost and In pictures where there is anything to show.
pub(super) fn in_order<'a>(
    layout: &'a Layout,
    carried: &'a [CarriedSheet],
    changes: Option<&'a Changes<'a>>,
    trim: Option<&'a OnDemand<'a, Trim>>,
    ShownSheets { mix, control, pictures }: ShownSheets,
) -> Vec<Leaf<'a>> {
    let table = |kind: TableKind| {
        let table = layout.table(kind)?;
        Some(Leaf::Table(table, ListPart::whole(table)))
    };
    let mut order = vec![Leaf::Summary];
    order.extend(changes.map(Leaf::Changed));
    order.extend([TableKind::Menu, TableKind::Plan].into_iter().filter_map(table));
    let mut cards = layout.recipes.iter().enumerate().filter(|(_, recipe)| recipe.is_card()).peekable();
    let any = cards.peek().is_some();
    order.extend(cards.map(|(index, card)| Leaf::Card(RecipeId::new(index), card)));
    order.extend(any.then_some(Leaf::KitchenCards));
    if let Some(lists) = &layout.lists {
        order.extend(ListPart::all(&lists.facts).map(|part| Leaf::Facts(lists, part)));
        order.extend(lists.sheets.iter().flat_map(|(sheet, recipes)| lines(sheet, recipes)));
    }
    order.extend(mix.then_some(Leaf::MenuMix));
    order.extend(control.then_some(Leaf::FoodCost));
    match trim {
        Some(trim) => order.push(Leaf::Trim(trim, pictures)),
        None => order.extend(pictures.then_some(Leaf::InPictures)),
    }
    order.extend(table(TableKind::RecipeLines));
    let prices = layout.table(TableKind::Prices).into_iter();
    order.extend(prices.flat_map(|table| ListPart::all(table).map(|part| Leaf::Table(table, part))));
    let inputs = [
        TableKind::Measures,
        TableKind::YieldTests,
        TableKind::Stock,
        TableKind::Counts,
        TableKind::Control,
        TableKind::Names,
        TableKind::SupplierLayouts,
        TableKind::Suppliers,
    ];
    order.extend(inputs.into_iter().filter_map(table));
    order.push(Leaf::Settings);
    order.extend(carried.iter().zip(&layout.carried).map(|(sheet, name)| Leaf::Carried(sheet, name)));
    order.extend([Leaf::Problems, Leaf::Working]);
    order
}

impl Leaf<'_> {
    /// The names of its sheets; none of a piece that does not begin one.
    pub(super) fn sheets(&self) -> Vec<&str> {
        vec![match self {
            Leaf::Summary => sheet_names::SUMMARY,
            Leaf::Changed(_) => sheet_names::CHANGED,
            Leaf::Table(table, part) => return part.begins().then_some(&*table.sheet).into_iter().collect(),
            Leaf::Card(_, card) => card.sheet(),
            Leaf::KitchenCards => sheet_names::KITCHEN_CARDS,
            Leaf::Facts(lists, part) => return part.begins().then_some(&*lists.facts.sheet).into_iter().collect(),
            Leaf::Lines { sheet, begins, .. } => return begins.then_some(&*sheet.sheet).into_iter().collect(),
            Leaf::Settings => sheet_names::of_table(TableKind::Settings),
            Leaf::Trim(_, true) => return vec![sheet_names::TRIM, sheet_names::IN_PICTURES],
            Leaf::Trim(_, false) => sheet_names::TRIM,
            Leaf::MenuMix => sheet_names::MENU_MIX,
            Leaf::FoodCost => sheet_names::FOOD_COST,
            Leaf::InPictures => sheet_names::IN_PICTURES,
            Leaf::Carried(_, name) => name,
            Leaf::Problems => sheet_names::PROBLEMS,
            Leaf::Working => sheet_names::WORKING,
        }]
    }
}

/// A row of a table; the first, its header, leads back to the Summary.
fn led_back(row: Row) -> Row {
    if row.row == 0 { row.leading_back() } else { row }
}

/// So many recipes at one go: enough to be worth a worker's while, few enough to be passed on soon, and while a processor
/// still has them at hand.
const RECIPES: usize = 8;

/// A sheet of lines, as it is drawn.
fn lines<'a>(sheet: &'a TableLayout, all: &Range<usize>) -> impl Iterator<Item = Leaf<'a>> + use<'a> {
    let all = all.clone();
    all.clone().step_by(RECIPES).map(move |start| {
        let end = start.saturating_add(RECIPES).min(all.end);
        Leaf::Lines { sheet, recipes: start..end, begins: start == all.start, ends: end == all.end }
    })
}

/// What the sheets are drawn from.
pub(super) struct Leaves<'a> {
    pub(super) context: &'a Context<'a>,
    pub(super) landed: &'a [Landed],
    /// Where they stand on the sheet of problems.
    pub(super) lines: &'a problems::Lines<'a>,
    pub(super) counts: &'a Counts,
    pub(super) errors: &'a Errors<'a>,
    pub(super) changes: Option<&'a Changes<'a>>,
    pub(super) yields: &'a OnDemand<'a, RowYields>,
    /// What all parts of the Prices sheet are drawn from, once one of them is.
    pub(super) prices: OnceLock<PriceRows>,
    /// The names of all sheets but the first.
    pub(super) sheets: &'a [String],
    /// Where kitchen cards begin.
    pub(super) kitchen_cards: &'a [(RecipeId, u32)],
}

impl<'a> Leaves<'a> {
    /// Why a dish is not costed, and where that is listed.
    fn stopped_by(&self, dish: &Dish) -> (String, Option<Ref>) {
        let stopping = self.errors.stopping(dish);
        let at = |problem: &&'a Problem| self.lines.met(&problem.place, problem.code);
        match stopping.iter().find_map(at).and_then(|index| Some((index, self.landed.get(index)?))) {
            Some((index, landed)) => {
                (format!("{}: {}", landed.at.spoken(), landed.message), Some(self.lines.cell_of(index)))
            }
            None => ("see the sheet Problems".to_owned(), None),
        }
    }

    /// What is to be said on a recipe's card.
    fn remarks(&self, id: RecipeId, card: &RecipeLayout) -> Remarks {
        const MOST: usize = 3;
        let landed = |problem: &'a Problem| self.lines.met(&problem.place, problem.code);
        // As they stand among the problems, wherever the rows stood before.
        let listed: BTreeSet<usize> = self.errors.stopping_recipe(id).into_iter().filter_map(landed).collect();
        let listed = listed.into_iter().filter_map(|index| self.landed.get(index));
        let told = listed.map(|landed| format!("{}: {}", landed.at.spoken(), landed.message));
        let stopped_by = told.take(MOST).collect();
        let mut here =
            self.landed.iter().enumerate().filter(|(_, landed)| *landed.at.sheet == *card.sheet()).peekable();
        let first = here.peek().map(|(index, _)| self.lines.cell_of(*index));
        let kitchen_card =
            self.kitchen_cards.iter().find(|(of, _)| *of == id).map(|(_, start)| kitchen_cards::place(*start));
        Remarks { stopped_by, problems: first.map(|first| (here.count(), first)), kitchen_card }
    }

    /// Draws a leaf, with notes at the cells that problems speak of: one sheet or a piece of one, but of trim, which is
    /// worked out here so that the other sheets need not wait for it.
    pub(super) fn draw(&self, leaf: &Leaf<'_>) -> Result<Vec<Drawn>, XlsxError> {
        let context = self.context;
        let sheet = |frame: Frame, rows: &dyn Fn(&mut RowSink<'_>)| {
            let notes = notes::of(&frame.name, None, self.landed);
            Drawn::of(frame, notes, |out| rows(out))
        };
        let list = |layout: &TableLayout, part: &ListPart, rows: &dyn Fn(&mut RowSink<'_>)| {
            let groups = if part.begins() { groups::of(context, layout) } else { Vec::new() };
            let frame = table::frame(layout).in_groups(groups);
            let notes = notes::of(&frame.name, table::told(layout), self.landed);
            let rows = |out: &mut RowSink<'_>| rows(&mut |row| out(led_back(row)));
            Drawn::of_list(frame, notes, Some(part.on_sheet(layout)), rows)
        };
        let drawn = match leaf {
            Leaf::Trim(trim, in_pictures) => {
                let trim = trim();
                let mut drawn = vec![sheet(trim::frame(context, &trim), &|out| trim::rows(context, &trim, out))?];
                if !trim.sweeps.is_empty() {
                    drawn.push(sheet(what_if::frame(context, &trim), &|out| what_if::rows(context, &trim, out))?);
                }
                if *in_pictures {
                    let shown = in_pictures::Pictures::of(context, Some(&trim));
                    drawn.push(sheet(shown.frame(), &|out| shown.rows(context, out))?);
                }
                return Ok(drawn);
            }
            Leaf::MenuMix => {
                let mix = menu_mix::MixSheet::of(context);
                sheet(mix.frame(), &|out| mix.rows(out))
            }
            Leaf::FoodCost => sheet(food_cost::frame(context.kitchen), &|out| food_cost::rows(context, out)),
            Leaf::InPictures => {
                let shown = in_pictures::Pictures::of(context, None);
                sheet(shown.frame(), &|out| shown.rows(context, out))
            }
            Leaf::Summary => sheet(summary::frame(context), &|out| {
                let sheets = self.sheets.to_vec();
                let said = SummaryNotes {
                    counts: self.counts,
                    changes: self.changes,
                    sheets,
                    stopped_by: &|dish| self.stopped_by(dish),
                };
                summary::rows(context, &said, out);
            }),
            Leaf::Changed(changes) => {
                sheet(changed::frame(context, changes), &|out| changed::rows(context, changes, out))
            }
            Leaf::Table(layout, part) => list(layout, part, &|out| match layout.kind {
                TableKind::Prices => {
                    let known = self.prices.get_or_init(|| PriceRows::of(context, (self.yields)()));
                    prices::rows(context, known, layout, part.rows(), out);
                }
                TableKind::YieldTests => yield_tests::rows(context, layout, out),
                _ => plain::rows(context, layout, out),
            }),
            Leaf::Card(id, card) => {
                let remarks = self.remarks(*id, card);
                sheet(cards::frame(card), &|out| cards::rows(context, *id, &remarks, out))
            }
            Leaf::KitchenCards => sheet(kitchen_cards::frame(self.kitchen_cards), &|out| {
                kitchen_cards::rows(context, self.kitchen_cards, out);
            }),
            Leaf::Facts(lists, part) => list(&lists.facts, part, &|out| lists::facts(context, lists, part.rows(), out)),
            Leaf::Lines { sheet, recipes, begins, ends } => {
                let groups = if *begins { groups::of(context, sheet) } else { Vec::new() };
                let frame = table::frame(sheet).in_groups(groups);
                let notes = if *begins { notes::of(&frame.name, None, self.landed) } else { CellNotes::new() };
                Drawn::of_list(frame, notes, (*begins && *ends).then_some(0..u32::MAX), |out| {
                    if *begins {
                        out(led_back(table::header(sheet)));
                    }
                    lists::lines(context, sheet, recipes.clone(), out);
                })
            }
            Leaf::Settings => sheet(settings::frame(), &|out| settings::rows(context, &mut |row| out(led_back(row)))),
            Leaf::Carried(from, name) => sheet(carried::frame(name), &|out| carried::rows(context, from, out)),
            Leaf::Problems => {
                sheet(problems::frame(self.lines), &|out| problems::rows(context, self.lines, self.counts, out))
            }
            Leaf::Working => sheet(working::frame(context), &|out| working::rows(context, out)),
        };
        Ok(vec![drawn?])
    }
}
