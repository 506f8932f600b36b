//! The Prices sheet: every price row with what it costs per unit, and why it is used or not.

mod better_row;
mod other_rows;
mod paid;

use std::ops::Range;

use crate::analysis::row_yields::{RowYield, RowYields};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::price::bought::PriceFrom;
use crate::costing::{ItemCost, RowCost, RowState, YieldFrom};
use crate::kitchen::price::{Item, Price, PriceRow, TrimYield};
use crate::kitchen::{Field, ItemId};
use crate::number::{BareRule, Decimal, plain};
use crate::results::display_units::{DisplayUnit, base_unit};
use crate::results::figures::{for_each, unit_cost};
use crate::schema::{Column, Shown, TableKind, Typed, Value};
use crate::workbook::cells::formula::{
    Formula, NOT_KNOWN, Ref, in_quotes, needed, not_as_typed, not_if, or_else, says_other, unless, while_filled,
};
use crate::workbook::cells::row::{Content, Ink, Look, RowSink};
use crate::workbook::context::{AP, AP_THAT_COUNTS, Context, share_from};
use crate::workbook::layout::own_columns::OwnCells;
use crate::workbook::layout::{TableLayout, rows_of};
use crate::workbook::sheets::table;
use other_rows::OtherRows;

/// What is known of all price rows before one is drawn.
pub struct PriceRows {
    yields: RowYields,
    /// Whose each is.
    items: Vec<Option<ItemId>>,
}

impl PriceRows {
    /// Of the rows of which these are the yields.
    pub fn of(context: &Context<'_>, yields: RowYields) -> Self {
        let mut items = vec![None; context.kitchen.entries.prices.len()];
        for (id, item) in context.kitchen.items.iter().enumerate() {
            for row in &item.rows {
                if let Some(slot) = items.get_mut(*row) {
                    *slot = Some(ItemId::new(id));
                }
            }
        }
        PriceRows { yields, items }
    }
}

/// Those `rows` of the sheet, by their index below its header, which stands above the first.
pub fn rows(context: &Context<'_>, known: &PriceRows, table: &TableLayout, rows: Range<usize>, out: &mut RowSink<'_>) {
    if rows.start == 0 {
        out(table::header(table));
    }
    let inputs = rows_of(context.kitchen, TableKind::Prices).into_iter().enumerate();
    for (index, input) in inputs.take(rows.end).skip(rows.start) {
        let mut own = OwnCells::of(table);
        let item = known.items.get(index).copied().flatten();
        let item = item.and_then(|id| Some((id, context.kitchen.item(id)?)));
        match context.kitchen.entries.prices.get(index) {
            Some(row) => {
                let cells = RowCells { context, table, index, trim_yield: known.yields.row(index) };
                cells.own(row, item, &mut own);
            }
            None => own.say("Row used", RowState::Broken.word()),
        }
        let room = |column| room(context, table, (index, item.map(|(_, item)| item)), column);
        out(table::row(table.row(index), table::inputs(context, table, input, &room), own));
    }
}

/// The blank cells of a row that count once they are filled.
fn room(
    context: &Context<'_>,
    table: &TableLayout,
    (index, item): (usize, Option<&Item>),
    column: Column,
) -> Option<Look> {
    let has_price = context.costing.rows.get(index).is_some_and(Option::is_some);
    match column {
        Column::FurtherCost | Column::Credit if has_price => Some(context.money()),
        Column::Tax if has_price && context.kitchen.settings.price_tax.is_some() => Some(Look::Percent(1)),
        Column::Yield if has_price && may_be_stated(context, table, index, item) => Some(Look::Percent(1)),
        _ => None,
    }
}

/// The cells of our own of one price row.
struct RowCells<'a> {
    context: &'a Context<'a>,
    table: &'a TableLayout,
    index: usize,
    trim_yield: RowYield,
}

impl RowCells<'_> {
    fn cell(&self, header: &'static str) -> String {
        self.table.own(self.index, header).cell()
    }

    fn own(&self, row: &PriceRow, item: Option<(ItemId, &Item)>, own: &mut OwnCells<'_>) {
        let (context, index) = (self.context, self.index);
        let state = context.costing.row_states.get(index).copied().unwrap_or(RowState::Broken);
        own.say("Row used", state.word());
        let Some(cost) = context.costing.rows.get(index).and_then(Option::as_ref) else { return };
        match (&row.per, &row.pack) {
            (Field::Given(per), _) => own.say("Pack read as", format!("price per {per}")),
            (_, Field::Given(pack)) => own.say("Pack read as", pack.read_as.clone()),
            _ => {}
        }
        own.put("Pack in g, ml, each", self.pack_read(row, cost.ap.per), Ink::Reading, Look::General);
        own.say("Figured in", base_unit(&cost.kind));
        if row.price == Field::Given(Price::Market) {
            // Its last price may be the better one, by its own yield.
            self.yield_used(item.map(|(_, item)| item), own);
            return;
        }
        let (Some(price), Some(ap)) = (self.table.input(index, Column::Price), self.trim_yield.ap) else { return };
        let paid = paid::formula(context, self.table, index, row, needed(&price.cell()));
        let text = self.as_billed(row, format!("{paid}/{}", self.cell("Pack in g, ml, each")));
        own.figure(AP, Formula::number(text, ap), context.per_base_unit());
        let unit = DisplayUnit::of_price(&cost.kind, row.unit(), context.kitchen.settings.volumes);
        own.say("Cost unit", &unit.name);
        own.read("Units per cost unit", unit.size);
        self.cost_per_unit(["AP per g, ml, each", "AP cost per unit"], ap, &unit, own);
        let in_use = item.and_then(|(id, _)| context.costing.item(id)).filter(|_| state == RowState::InUse);
        if let Some(ep) = self.yield_cells(cost, item, in_use, own) {
            self.cost_per_unit(["EP per g, ml, each", "EP cost per unit"], ep, &unit, own);
        }
        if let (Some((id, item)), Some(in_use)) = (item, in_use) {
            self.counted(row, (id, item), in_use, ap, own);
        }
    }

    /// What was read of its pack, or of the parts of it: live where those are numbers. It stands as long as the row says of the
    /// same item the same words: rows that were sorted or pasted without the columns of our own are other ones.
    fn pack_read(&self, row: &PriceRow, per: Decimal) -> Content {
        let value = |column: &Column| &row.input.typed(*column).value;
        let columns: &[Column] = match &row.per {
            Field::Given(_) => &[Column::Per],
            _ if !row.input.typed(Column::Pack).is_blank() => &[Column::Pack],
            _ => &[Column::PackCount, Column::UnitSize, Column::SizeUnit],
        };
        let (mut numbers, mut counted, mut missed) = (Vec::new(), Vec::new(), Vec::new());
        for column in columns {
            let Some(cell) = self.table.input(self.index, *column).map(|cell| cell.cell()) else { continue };
            match value(column) {
                Value::Blank => {}
                Value::Number(number) => {
                    numbers.push(*number);
                    counted.push(cell);
                }
                _ => missed.push(self.says_other(&cell, row.input.typed(*column))),
            }
        }
        let item = self.table.input(self.index, Column::Item).filter(|_| self.table.roomy);
        missed.extend(item.map(|item| self.says_other(&item.cell(), row.input.typed(Column::Item))));
        // On the others nothing hangs.
        let state = self.context.costing.row_states.get(self.index);
        if matches!(state, Some(RowState::InUse | RowState::Dearer)) {
            missed.extend(self.table.elsewhere(self.index, &row.input));
            missed.extend(self.filled(row));
            missed.extend(self.impossible_yield());
        }
        match for_each(per, &numbers) {
            Some(each) if !numbers.is_empty() => {
                let counted: Vec<String> = counted.iter().map(|cell| needed(cell)).collect();
                let text = format!("{}*{}", counted.join("*"), plain(each));
                Content::Formula(Formula::number(not_if(&missed, &text), per))
            }
            _ => {
                missed.extend(counted.iter().zip(&numbers).map(|(cell, number)| format!("{cell}<>{}", plain(*number))));
                unless(&missed, per).map_or(Content::Number(per), Content::Formula)
            }
        }
    }

    /// That a cell was filled which was blank, and would say something else of what the price is for.
    fn filled(&self, row: &PriceRow) -> impl Iterator<Item = String> {
        const SAYING: [Column; 5] = [Column::Pack, Column::PackCount, Column::UnitSize, Column::SizeUnit, Column::Per];
        let typed = SAYING.map(|column| (column, row.input.typed(column)));
        let blank = typed.into_iter().filter(|(_, typed)| self.table.roomy && typed.is_blank());
        blank.filter_map(|(column, typed)| Some(not_as_typed(&self.table.input(self.index, column)?.cell(), typed)))
    }

    /// That a yield stands in the row which nothing has: the row is at fault then, also for what is used as purchased.
    fn impossible_yield(&self) -> Option<String> {
        let cell = self.table.input(self.index, Column::Yield).filter(|_| self.table.roomy)?.cell();
        let typed = self.typed_yield(self.index);
        let most = match (&typed.value, &typed.shown) {
            (Value::Blank, _) | (Value::Number(_), Shown::Percent) => 1,
            // A bare number above 1 is a percentage.
            (Value::Number(_), _) => 100,
            _ => return None,
        };
        Some(format!("OR({cell}>{most},AND({cell}<>\"\",{cell}<=0))"))
    }

    /// That a cell does not say what it said; in a long list, that it was cleared.
    fn says_other(&self, cell: &str, typed: &Typed) -> String {
        says_other(cell, typed.words().filter(|_| self.table.roomy))
    }

    /// A figure of the row as long as what was billed, and proves what the price is for, is what it was.
    fn as_billed(&self, row: &PriceRow, text: String) -> String {
        let is_blank = |column: &Column| row.input.typed(*column).is_blank();
        if [Column::Weight, Column::Extended, Column::PoundPrice].iter().all(is_blank) {
            return text;
        }
        let moved = |column: Column| {
            let was = match &row.input.typed(column).value {
                Value::Number(number) => plain(*number),
                Value::Text(words) => in_quotes(words),
                _ => return None,
            };
            Some(format!("{}<>{was}", self.table.input(self.index, column)?.cell()))
        };
        let all = [Column::Price, Column::Qty, Column::Weight, Column::Extended, Column::PoundPrice];
        not_if(&all.into_iter().filter_map(moved).collect::<Vec<_>>(), &text)
    }

    /// Whether another row has become the better one, and what the row in use costs as long as none has.
    fn counted(
        &self,
        row: &PriceRow,
        (id, item): (ItemId, &Item),
        in_use: &ItemCost,
        ap: Decimal,
        own: &mut OwnCells<'_>,
    ) {
        let (context, table, index) = (self.context, self.table, self.index);
        if !context.is_contested(id, in_use) {
            return;
        }
        let others = OtherRows { context, table, index, row, item, has_rivals: !in_use.rivals.is_empty() };
        better_row::say(table, index, item, in_use, &others.undone(), own);
        let speaks = format!("{}<>\"{}\"", self.cell("Better row"), better_row::silent(in_use));
        let text = not_if(&[speaks], &self.cell(AP));
        own.figure(AP_THAT_COUNTS, Formula::number(text, ap), context.per_base_unit());
    }

    /// The yield that leads from AP to EP, and the EP unit cost, which is given back.
    fn yield_cells(
        &self,
        cost: &RowCost,
        item: Option<(ItemId, &Item)>,
        in_use: Option<&ItemCost>,
        own: &mut OwnCells<'_>,
    ) -> Option<Decimal> {
        let (context, here) = (self.context, &self.table.sheet);
        if let (Some(_), Some(TrimYield::Main(part))) = (in_use, item.map(|(_, item)| &item.trim)) {
            let figures = context.costing.part(*part);
            let rate = figures.and_then(|part| part.rate).and_then(unit_cost);
            let cells = context.part_cell(*part, "Share of weight").zip(context.part_cell(*part, "Cost per gram"));
            if let (Some(figures), Some(rate), Some((share, per_gram))) = (figures, rate, cells) {
                own.figure("Yield used", Formula::number(share.from(here), figures.fraction), Look::Percent(1));
                own.say("Yield from", "yield test");
                if cost.kind == BaseUnitKind::Mass {
                    let text = per_gram.from(here);
                    own.figure("EP per g, ml, each", Formula::number(text, rate), context.per_base_unit());
                    return Some(rate);
                }
            }
            return None;
        }
        self.yield_used(item.map(|(_, item)| item), own);
        let ep = self.trim_yield.ep?;
        let text = format!("{}/{}", self.cell("AP per g, ml, each"), self.cell("Yield used"));
        own.figure("EP per g, ml, each", Formula::number(text, ep), context.per_base_unit());
        Some(ep)
    }

    /// The yield of the row where no trim test speaks, and where it is from.
    fn yield_used(&self, item: Option<&Item>, own: &mut OwnCells<'_>) {
        let RowYield { fraction, from, unstated, .. } = self.trim_yield;
        let typed = self.table.input(self.index, Column::Yield).map(|cell| cell.cell());
        let own_text = |cell: &str| share_from(self.typed_yield(self.index), cell, BareRule::UpToOne);
        let otherwise = match from {
            YieldFrom::PriceRow(row) if row == self.index => unstated.map_or_else(not_known, plain),
            YieldFrom::PriceRow(row) => self.lent(row),
            YieldFrom::Piece(row) => self.implied(row, fraction),
            _ => plain(fraction),
        };
        let text = match (typed, from) {
            (Some(cell), YieldFrom::PriceRow(row)) if row == self.index => {
                Some(or_else(&cell, &own_text(&cell), &otherwise))
            }
            (Some(cell), _) if may_be_stated(self.context, self.table, self.index, item) => {
                Some(or_else(&cell, &own_text(&cell), &otherwise))
            }
            (_, YieldFrom::PriceRow(_)) => Some(otherwise),
            _ => None,
        };
        match text {
            Some(text) => own.figure("Yield used", Formula::number(text, fraction), Look::Percent(1)),
            None => own.put("Yield used", Content::Number(fraction), Ink::Reading, Look::Percent(1)),
        }
        own.say("Yield from", self.yield_from(from));
    }

    fn typed_yield(&self, row: usize) -> &Typed {
        let row = self.context.kitchen.entries.prices.get(row);
        row.map_or(&Typed::BLANK, |row| row.input.typed(Column::Yield))
    }

    /// The yield that another row states, as long as it stands where it stood.
    fn lent(&self, row: usize) -> String {
        let cell = self.table.input(row, Column::Yield);
        let cell = cell.map(|cell| cell.beside(&self.table.sheet, self.table.row(self.index))).unwrap_or_default();
        let cut = self.context.elsewhere(TableKind::Prices, row, Column::Yield, &self.table.sheet);
        not_if(cut.as_slice(), &share_from(self.typed_yield(row), &cell, BareRule::UpToOne))
    }

    /// The yield that a piece's weight implies, as long as the measure says it.
    fn implied(&self, row: usize, fraction: Decimal) -> String {
        let cell = self.context.measure_cell(row).map(|cell| cell.from(&self.table.sheet));
        while_filled(cell.as_slice(), fraction).map_or_else(|| plain(fraction), |formula| formula.text)
    }

    fn yield_from(&self, from: YieldFrom) -> String {
        let none = || "none stated".to_owned();
        match from {
            YieldFrom::PriceRow(row) if row == self.index => "this row".to_owned(),
            YieldFrom::PriceRow(row) => {
                self.table.input(row, Column::Yield).map(|cell| cell.cell()).unwrap_or_default()
            }
            YieldFrom::Piece(row) => {
                let cell = self.context.input(TableKind::Measures, row, Column::Measure);
                cell.map_or_else(none, |cell| format!("weight of a piece, {}", cell.spoken()))
            }
            YieldFrom::Reference(food) => food.spoken(),
            _ => none(),
        }
    }

    /// What one of the units costs by which the item is bought, from what a base unit does.
    fn cost_per_unit(
        &self,
        [from, to]: [&'static str; 2],
        unit_cost: Decimal,
        unit: &DisplayUnit,
        own: &mut OwnCells<'_>,
    ) {
        if let Some(cost) = unit.cost(unit_cost) {
            let text = format!("{}*{}", self.cell(from), self.cell("Units per cost unit"));
            own.figure(to, Formula::number(text, cost), self.context.cost_per_unit());
        }
    }
}

fn not_known() -> String {
    format!("\"{NOT_KNOWN}\"")
}

/// Whether a yield typed into the row at `index` would count: it is the one in use, no trim test speaks, and no other
/// row stands for it at a market price.
fn may_be_stated(context: &Context<'_>, table: &TableLayout, index: usize, item: Option<&Item>) -> bool {
    let is_market = |row: &usize| {
        context.kitchen.entries.prices.get(*row).is_some_and(|row| row.price == Field::Given(Price::Market))
    };
    let by_rows = item.is_some_and(|item| {
        matches!(item.trim, TrimYield::None | TrimYield::SeveralTests) && !item.rows.iter().any(is_market)
    });
    table.roomy && by_rows && context.costing.row_states.get(index) == Some(&RowState::InUse)
}

/// Where the yield of an item stands that price rows state, or may state yet, as `from` says.
pub fn yield_cell(context: &Context<'_>, id: ItemId, from: YieldFrom) -> Option<Ref> {
    let item = context.kitchen.item(id)?;
    let in_use = |row: &&usize| context.costing.row_states.get(**row) == Some(&RowState::InUse);
    let row = *item.rows.iter().find(in_use)?;
    context.costing.rows.get(row)?.as_ref()?;
    let table = context.layout.table(TableKind::Prices)?;
    let stated = matches!(from, YieldFrom::PriceRow(_));
    let may_be = table.input(row, Column::Yield).is_some() && may_be_stated(context, table, row, Some(item));
    (stated || may_be).then(|| table.own(row, "Yield used"))
}

/// Where an item's price came from, in words: the row, or the yield test's.
pub fn price_from(context: &Context<'_>, cost: &ItemCost) -> String {
    match cost.from {
        PriceFrom::Row(row) => context.input(TableKind::Prices, row, Column::Price).map(|cell| cell.spoken()),
        PriceFrom::TestRow(row) => context.input(TableKind::YieldTests, row, Column::Price).map(|cell| cell.spoken()),
        PriceFrom::Water => Some("water costs nothing unless priced".to_owned()),
    }
    .unwrap_or_default()
}
