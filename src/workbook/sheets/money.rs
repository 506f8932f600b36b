//! Money of the dearest dish, and where it goes: the lines of its recipe that cost most, live, and their picture.

use crate::kitchen::recipe::RecipeEntry;
use crate::number::Decimal;
use crate::results::dearest::Dearest;
use crate::results::figures::percent_at_most;
use crate::workbook::cells::chart::{Labels, Picture, PictureKind, Series, Span, Tint};
use crate::workbook::cells::formula::{Formula, NOT_KNOWN, Ref, literal, not_if, while_there};
use crate::workbook::cells::row::{Cell, Ink, Look, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::recipe::{RecipeLayout, Total};
use crate::workbook::layout::sheet_names;
use crate::workbook::layout::summary_columns::{HEADER_ROW, SummaryColumn};

/// The most lines that are shown by name; what the others come to stands below them.
const MOST: usize = 8;

/// The columns of the table: what, and its share of the food cost.
const WHAT: u16 = 5;
const SHARE: u16 = 7;

/// Where the money of a dish goes.
pub struct DishMoney<'a> {
    dearest: Dearest<'a>,
    entry: &'a RecipeEntry,
    card: &'a RecipeLayout,
    /// That other settings hold than those it was costed by, or that its portion cost is not known.
    undone: Vec<String>,
}

impl<'a> DishMoney<'a> {
    /// That of the dish with the highest portion cost; `None` where there is nothing to compare.
    pub fn of_dearest(context: &'a Context<'_>) -> Option<Self> {
        let dearest = Dearest::of(context.kitchen, context.costing, MOST)?;
        let card = context.layout.recipes.get(dearest.recipe.index())?;
        let entry = context.kitchen.entries.recipes.get(context.kitchen.recipe(dearest.recipe)?.entry)?;
        let not_known = not_known(context, &dearest.dish.name);
        let undone = [context.settings.more(sheet_names::SUMMARY)].into_iter().chain(not_known).collect();
        Some(DishMoney { dearest, entry, card, undone })
    }

    /// How many rows the table has below its header.
    pub fn len(&self) -> u32 {
        let rows = self.dearest.lines.len().saturating_add(usize::from(self.dearest.others.is_some()));
        u32::try_from(rows).unwrap_or_default()
    }

    /// The picture of the table below `row`, at a place and of a size.
    pub fn picture(&self, row: u32, at: (u32, u16), size: (u32, u32)) -> Picture {
        let first = row.saturating_add(1);
        let span = |column| Span { column, first, last: row.saturating_add(self.len()) };
        Picture {
            title: format!("Where the money goes in {}", self.dearest.dish.name),
            told: self.told(),
            kind: PictureKind::Bars,
            at,
            size,
            names: span(WHAT),
            series: vec![Series::new(HEADER, span(SHARE), Tint::Food).labelled(Labels::Behind)],
            names_look: Look::General,
            look: Look::Percent(0),
            axes: (None, None),
            begins: None,
        }
    }

    /// What the picture shows, in words.
    fn told(&self) -> String {
        let lines = self.dearest.lines.iter().map(|(_, name, share)| (*name, *share));
        let lines = lines.chain(self.dearest.others.map(|others| ("all others", Some(others))));
        let said = lines.map(|(name, share)| format!("{name} {} %", percent_at_most(share.unwrap_or_default(), 0)));
        let said: Vec<String> = said.collect();
        format!("Bars of what each ingredient of {} is of its food cost: {}", self.dearest.dish.name, said.join("; "))
    }

    /// The table from `row` on.
    pub fn rows(&self, row: u32, out: &mut RowSink<'_>) {
        let between = Cell::text(WHAT.saturating_add(1), "", Ink::OwnHeader);
        let named = Cell::text(WHAT, format!("The dearest: {}", self.dearest.dish.name), Ink::Label);
        out(Row { row: row.saturating_sub(1), cells: vec![Cell { look: Look::Words, ..named }] });
        let what = Cell { look: Look::Words, ..Cell::text(WHAT, "Ingredient", Ink::OwnHeader) };
        out(Row { row, cells: vec![what, between, Cell::over_figures(SHARE, HEADER)] });
        let food = self.card.total(Total::Food).from(sheet_names::SUMMARY);
        let shown = self.dearest.lines.iter().map(|(index, name, share)| {
            let line = self.card.own(*index, "Line cost").from(sheet_names::SUMMARY);
            let said = self.card.said(*index, self.entry);
            let text = while_there(&said, sheet_names::SUMMARY, &format!("{line}/{food}"));
            ((*name).to_owned(), not_if(&self.undone, &text), *share)
        });
        let first = row.saturating_add(1);
        let mut rows: Vec<(String, String, Option<Decimal>)> = shown.collect();
        if let Some(others) = self.dearest.others {
            let cell = |row: u32| Ref::new(sheet_names::SUMMARY, row, SHARE).cell();
            let named = self.dearest.lines.len();
            let range =
                format!("{}:{}", cell(first), cell(row.saturating_add(u32::try_from(named).unwrap_or_default())));
            let text = format!("IF(COUNT({range})={named},1-SUM({range}),\"{NOT_KNOWN}\")");
            rows.push(("all others".to_owned(), text, Some(others)));
        }
        for ((name, text, share), row) in rows.into_iter().zip(first..) {
            let mut cells = vec![Cell { look: Look::Words, ..Cell::text(WHAT, name, Ink::Reading) }];
            cells.extend(share.map(|share| Cell::figure(SHARE, Formula::number(text, share), Look::Percent(1))));
            out(Row { row, cells });
        }
    }
}

const HEADER: &str = "Share of food";

/// That no row of the table above has a portion cost of a dish, in whatever order its rows are put; `None` of a name that no
/// formula holds.
fn not_known(context: &Context<'_>, name: &str) -> Option<String> {
    let dishes = u32::try_from(context.kitchen.dishes.len()).ok()?;
    let all = |column: SummaryColumn| {
        let header = Ref { row: HEADER_ROW, ..column.cell(0) };
        // Down to the blank row below them.
        let end = HEADER_ROW.saturating_add(dishes).saturating_add(1);
        format!("{}:{}", header.absolute(), Ref { row: end, ..header }.absolute())
    };
    let (names, costs) = (all(SummaryColumn::Dish), all(SummaryColumn::PortionCost));
    // Words come behind all numbers.
    Some(format!("SUMPRODUCT(({names}={})*({costs}<{MOST_MONEY}))=0", literal(name)?))
}

/// More than any portion costs.
const MOST_MONEY: &str = "1E+30";
