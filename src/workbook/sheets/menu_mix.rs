//! The sheet Menu mix: the dishes of every group by what was sold of them and by their margin, with what may be tried, and
//! below each group its picture of four quadrants.
//!
//! Live: what was sold, prices, costs, and so margins, lines and classes follow. What a dish would leave if its trim were
//! bought is a costing of its own, and stands while its group is what it was.

mod quadrants;

use crate::analysis::MenuMix;
use crate::analysis::menu_mix::{AtBuyIn, FEWEST_DISHES, MixClass, MixDish, MixGroup, POPULAR_FROM, Unclassed};
use crate::in_order::InOrder;
use crate::kitchen::Kitchen;
use crate::number::{Decimal, plain};
use crate::results::menu_mix::{class, to_try, unclassed};
use crate::schema::own_sheets;
use crate::workbook::cells::formula::{BLANK, Formula, NOT_KNOWN, Ref, not_if};
use crate::workbook::cells::row::{Cell, Frame, Ink, Look, PrintedPage, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::sheet_names;
use crate::workbook::sheets::dish_formulas::{DishFormulas, while_a_dish};
use crate::workbook::sheets::dish_group::regrouped;
use crate::workbook::sheets::sales::SalesCells;
use crate::workbook::sheets::unchanged_rows::AGAIN;
use quadrants::Quadrants;

const SHEET: &str = sheet_names::MENU_MIX;
/// The first row below the title and what is said of it.
const FIRST: u32 = 4;
/// The columns, after the dish: words, then figures, so that none stand close to one another.
const CLASS: u16 = 1;
const TRY: u16 = 2;
const BOUGHT_CLASS: u16 = 3;
const SOLD: u16 = 4;
const SHARE: u16 = 5;
const MARGIN: u16 = 6;
const MARGINS: u16 = 7;
const BOUGHT: u16 = 8;
/// Beyond what is printed: what was sold of a dish whose margin is known.
const COUNTED: u16 = 10;

/// How many of the dishes are in another group than they were: all of them in the row of what is said, and one by one,
/// beyond the corners of the pictures.
const REGROUPED: u16 = 13;
/// From here on sums of some of a dish's rows of sales, where they are many.
const SUMS: u16 = 15;
/// The row with how many were regrouped.
const SAID_ROW: u32 = 2;

/// What a dish is said to be whose margin is not known.
const NO_MARGIN: &str = "no margin to compare";

const SAID: &str = "Of n dishes in a group one is popular from 70 % of 1/n of the portions sold; its margin is high from the \
    average margin of a portion (Kasavana and Smith, 1982). The lower row of each group has both lines.";

/// Whether there is anything to show.
pub fn any(kitchen: &Kitchen) -> bool {
    kitchen.dishes.iter().any(|dish| dish.sold.given().is_some())
}

/// The sheet.
pub struct MixSheet<'a> {
    context: &'a Context<'a>,
    mix: MenuMix,
    sales: SalesCells<'a>,
}

/// A group where it stands.
struct Block<'m> {
    group: &'m MixGroup,
    /// The row of its heading.
    start: u32,
}

impl Block<'_> {
    fn headers(&self) -> u32 {
        self.start.saturating_add(1)
    }

    /// The row of its dish at `index`.
    fn row(&self, index: usize) -> u32 {
        let below = u32::try_from(index).unwrap_or(u32::MAX);
        self.headers().saturating_add(1).saturating_add(below)
    }

    /// The row below its dishes, with the lines.
    fn lines(&self) -> u32 {
        self.row(self.group.dishes.len())
    }

    /// The cells of a column, as a formula reads them.
    fn all(&self, column: u16) -> String {
        let first = Ref::new(SHEET, self.row(0), column).from(SHEET);
        format!("{first}:{}", Ref::new(SHEET, self.lines().saturating_sub(1), column).from(SHEET))
    }

    /// The row below all of it.
    fn end(&self) -> u32 {
        Quadrants::of(self).map_or(self.lines(), |quadrants| quadrants.end()).saturating_add(2)
    }
}

impl<'a> MixSheet<'a> {
    /// The sheet of a costing.
    pub fn of(context: &'a Context<'a>) -> Self {
        MixSheet { context, mix: MenuMix::of(context.kitchen, context.costing), sales: SalesCells::of(context) }
    }

    fn blocks(&self) -> impl Iterator<Item = Block<'_>> {
        let mut start = FIRST;
        self.mix.groups.iter().filter(|group| !group.dishes.is_empty()).map(move |group| {
            let block = Block { group, start };
            start = block.end();
            block
        })
    }

    /// The frame of the sheet.
    pub fn frame(&self) -> Frame {
        let pictures = self.blocks().filter_map(|block| Some(Quadrants::of(&block)?.picture(self.context, &block)));
        let frame = Frame::new(SHEET, vec![24, 17, 31, 17, 7, 9, 9, 12, 10, 3, 10]);
        let groups = self.blocks().flat_map(|block| [Some(block.start), Quadrants::of(&block).map(|one| one.start())]);
        let frame = frame.in_groups(groups.flatten().collect());
        let page = PrintedPage {
            last_column: Some(BOUGHT),
            last_row: self.blocks().last().map(|block| block.end()),
            ..frame.page
        };
        Frame { pictures: pictures.collect(), page, ..frame }
    }

    /// Its rows.
    pub fn rows(&self, out: &mut RowSink<'_>) {
        out(Row { row: 0, cells: vec![Cell::text(0, self.context.mark, Ink::Aside), Cell::back(TRY)] });
        out(Row { row: 1, cells: vec![Cell::text(0, own_sheets::MENU_MIX_TITLE, Ink::Title)] });
        let said = Cell { look: Look::Flowing(BOUGHT), ..Cell::text(0, SAID, Ink::Plain) };
        let end = self.blocks().last().map_or(FIRST, |block| block.lines());
        let all = [FIRST, end].map(|row| Ref::new(SHEET, row, REGROUPED).from(SHEET)).join(":");
        let all = Cell::figure(REGROUPED, Formula::number(format!("SUM({all})"), Decimal::ZERO), Look::General);
        out(Row { row: SAID_ROW, cells: vec![said, all] });
        for block in self.blocks() {
            let name = if block.group.name.is_empty() { "Without a group" } else { &block.group.name };
            out(Row { row: block.start, cells: vec![Cell::text(0, name, Ink::Section)] });
            let words = [CLASS, BOUGHT_CLASS, TRY];
            let headers = own_sheets::MENU_MIX.iter().zip(0_u16..);
            let mut headers: Vec<Cell> =
                headers.map(|(header, column)| Cell::over(column, header, words.contains(&column))).collect();
            headers.push(Cell::over_figures(COUNTED, "Counted"));
            headers.push(Cell::over_figures(REGROUPED, "Regrouped"));
            out(Row { row: block.headers(), cells: headers });
            for (index, dish) in block.group.dishes.iter().enumerate() {
                out(Row { row: block.row(index), cells: self.dish(&block, dish, block.row(index)) });
            }
            out(Row { row: block.lines(), cells: self.lines(&block) });
            if let Some(quadrants) = Quadrants::of(&block) {
                quadrants.rows(&block, out);
            }
        }
    }

    /// The lines of a group: what was sold in all, from which share a dish is popular, the average margin.
    fn lines(&self, block: &Block<'_>) -> Vec<Cell> {
        let (group, money) = (block.group, || self.context.money());
        let mut cells = vec![Cell::text(0, "All; popular from, high margin from", Ink::Label)];
        let figure = |column, text: String, result: Option<Decimal>, look| {
            result.map(|result| Cell::figure(column, Formula::number(while_grouped(&text), result), look))
        };
        let count = format!("COUNT({})", block.all(SOLD));
        cells.extend(figure(SOLD, format!("SUM({})", block.all(SOLD)), group.sold, Look::General));
        let popular = format!("{}/{count}", plain(POPULAR_FROM));
        cells.extend(figure(SHARE, popular, group.popular_from, Look::Percent(1)));
        let average = format!("{}/SUM({})", Ref::new(SHEET, block.lines(), MARGINS).cell(), block.all(COUNTED));
        cells.extend(figure(MARGIN, average, group.average_margin, money()));
        cells.extend(figure(MARGINS, format!("SUM({})", block.all(MARGINS)), group.margin_in_all, money()));
        cells
    }

    fn dish(&self, block: &Block<'_>, dish: &MixDish, row: u32) -> Vec<Cell> {
        let (context, group) = (self.context, block.group);
        let money = || context.money();
        let at = |column: u16| Ref::new(SHEET, row, column).cell();
        let Some(of) = context.kitchen.dishes.get(dish.dish) else { return Vec::new() };
        let (sold, sums) = self.sales.sold(&of.name, dish.sold, (SHEET, row), SUMS);
        let mut cells = vec![Cell::text(0, &of.name, Ink::Reading), Cell::figure(SOLD, sold, Look::General)];
        cells.extend(sums);
        if let Some(share) = dish.share {
            let text = format!("{}/SUM({})", at(SOLD), block.all(SOLD));
            cells.push(Cell::figure(SHARE, Formula::number(while_grouped(&text), share), Look::Percent(1)));
        }
        let formulas = DishFormulas::of(context, dish.dish, (SHEET, row));
        if let (Some(formulas), Some(margin)) = (formulas, dish.margin)
            && let Some(price) = formulas.menu_price()
        {
            let text = format!("{}-({})", formulas.ex_tax(&format!("({price})")), formulas.portion_cost(dish.dish));
            let text = while_a_dish(context, of, SHEET, text);
            cells.push(Cell::figure(MARGIN, Formula::number(text, margin), money()));
        }
        if let Some(in_all) = dish.margin_in_all {
            let text = format!("{}*{}", at(MARGIN), at(SOLD));
            cells.push(Cell::figure(MARGINS, Formula::number(text, in_all), money()));
        }
        let counted = format!("IF(ISNUMBER({}),{},0)", at(MARGINS), at(SOLD));
        let counts = if dish.margin_in_all.is_some() { dish.sold } else { Decimal::ZERO };
        cells.push(Cell::figure(COUNTED, Formula::number(counted, counts), Look::General));
        cells.extend(regrouped(context, of, SHEET).map(|other| {
            Cell::figure(REGROUPED, Formula::number(format!("IF({other},1,0)"), Decimal::ZERO), Look::General)
        }));
        let words = |column, text: String, says: &str| Cell {
            ink: Ink::Reading,
            ..Cell::figure(column, Formula::text(text, says), Look::Wrapped)
        };
        let (text, says) = (class_of(block, &at(SOLD), &at(MARGIN)), said_of(group, dish));
        cells.push(words(CLASS, text, says));
        let advice = MixClass::ALL.iter().rev().fold(BLANK.to_owned(), |otherwise, of| {
            format!("IF({}=\"{}\",\"{}\",{otherwise})", at(CLASS), class(*of), to_try(*of))
        });
        let says = dish.class.map(to_try).unwrap_or_default();
        cells.push(words(TRY, advice, says));
        if let Some(bought) = &dish.at_buy_in {
            cells.extend(self.bought(block, (dish, bought), &at(MARGIN)));
        }
        cells.put_in_order_by_key(|cell| cell.column);
        cells
    }

    /// What a dish would leave if its trim were bought, while the group is what it was.
    fn bought(&self, block: &Block<'_>, (dish, bought): (&MixDish, &AtBuyIn), margin: &str) -> Vec<Cell> {
        let group = block.group;
        let (Some(then), Some(now), Some(in_all), Some(sold)) =
            (bought.margin, dish.margin, group.margin_in_all, group.sold)
        else {
            return vec![Cell::text(BOUGHT_CLASS, NOT_KNOWN, Ink::Reading)];
        };
        let sum = |column| format!("SUM({})", block.all(column));
        let stands = [(margin.to_owned(), now), (sum(MARGINS), in_all), (sum(SOLD), sold)];
        let stands = stands.map(|(cell, was)| format!("ABS({cell}-{})<0.000001", plain(was))).join(",");
        let stands = format!("{}=0,{stands}", any_regrouped());
        let text = |then: String| format!("IF(IFERROR(AND({stands}),FALSE),{then},\"{AGAIN}\")");
        let mut cells = vec![Cell::figure(BOUGHT, Formula::number(text(plain(then)), then), self.context.money())];
        if let Some(then) = bought.class {
            let formula = Formula::text(text(format!("\"{}\"", class(then))), class(then));
            cells.push(Cell { ink: Ink::Reading, ..Cell::figure(BOUGHT_CLASS, formula, Look::Wrapped) });
        }
        cells
    }
}

/// How many dishes are in another group.
fn any_regrouped() -> String {
    Ref::new(SHEET, SAID_ROW, REGROUPED).from(SHEET)
}

/// What is said of a group as long as all dishes are in theirs.
fn while_grouped(text: &str) -> String {
    not_if(&[format!("{}>0", any_regrouped())], text)
}

/// The class of a dish of which so many were sold at such a margin.
fn class_of(block: &Block<'_>, sold: &str, margin: &str) -> String {
    let (all_sold, all_margins, counted) = (block.all(SOLD), block.all(MARGINS), block.all(COUNTED));
    let popular = format!("ROUND({sold}*COUNT({all_sold})-{}*SUM({all_sold}),9)>=0", plain(POPULAR_FROM));
    let high = format!("ROUND({margin}*SUM({counted})-SUM({all_margins}),9)>=0");
    let either = |one, other| format!("IF({high},\"{}\",\"{}\")", class(one), class(other));
    let classes = format!(
        "IF({popular},{},{})",
        either(MixClass::PopularHigh, MixClass::PopularLow),
        either(MixClass::SeldomHigh, MixClass::SeldomLow)
    );
    format!(
        "IF({}>0,\"{AGAIN}\",IF(COUNT({all_sold})<{FEWEST_DISHES},\"{}\",IF(SUM({all_sold})=0,\"{}\",IF(AND(ISNUMBER({sold}),\
         ISNUMBER({margin}),SUM({counted})<>0),{classes},\"{NO_MARGIN}\"))))",
        any_regrouped(),
        unclassed(Unclassed::FewDishes),
        unclassed(Unclassed::NothingSold)
    )
}

/// What it comes to.
fn said_of(group: &MixGroup, dish: &MixDish) -> &'static str {
    match (group.unclassed, dish.class) {
        (Some(why), _) => unclassed(why),
        (None, Some(of)) => class(of),
        (None, None) => NO_MARGIN,
    }
}
