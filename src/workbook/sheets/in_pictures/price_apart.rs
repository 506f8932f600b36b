//! Menu prices taken apart: a bar a dish, and below the picture a row a dish, live.

use super::{WIDE, rows_of};
use crate::analysis::Trim;
use crate::number::{Decimal, plain};
use crate::results::figures::at_most;
use crate::results::price_apart::Apart;
use crate::schema::own_sheets;
use crate::workbook::cells::chart::{Labels, Picture, PictureKind, Series, Span, Tint};
use crate::workbook::cells::formula::{Formula, Ref, not_if};
use crate::workbook::cells::row::{Cell, Ink, Look, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::dish_cells::CardRows;
use crate::workbook::layout::sheet_names;
use crate::workbook::sheets::dish_formulas::DishFormulas;
use crate::workbook::sheets::trim::TrimCharged;

/// The dishes in one picture: with names of two lines each, and the title of the sheet above, it and its table are a page.
const IN_ONE: usize = 10;

/// The parts of a price, from the second column on.
const TINTS: [Tint; 6] = [Tint::Food, Tint::Trim, Tint::Q, Tint::Spice, Tint::Tax, Tint::Margin];
const PRICE: u16 = 7;
/// The longest sum of trim that leaves room in its formula for the food.
const LONGEST_TERMS: usize = 4_000;

/// The menu prices in their parts.
pub(super) struct PriceApart<'a> {
    context: &'a Context<'a>,
    all: Vec<Apart>,
    charged: Option<TrimCharged<'a>>,
    start: u32,
}

/// Dishes in one picture: the row of its heading, and where in the list they begin.
struct PictureDishes<'a> {
    at: u32,
    dishes: &'a [Apart],
}

impl PictureDishes<'_> {
    fn height(&self) -> u32 {
        self.len().saturating_mul(30).saturating_add(110)
    }

    fn len(&self) -> u32 {
        u32::try_from(self.dishes.len()).unwrap_or_default()
    }

    /// The row of the headers below the picture.
    fn headers(&self) -> u32 {
        self.at.saturating_add(1).saturating_add(rows_of(self.height()))
    }

    /// The row below its last dish, and a blank one.
    fn end(&self) -> u32 {
        self.headers().saturating_add(self.len()).saturating_add(2)
    }
}

impl<'a> PriceApart<'a> {
    pub(super) fn of(context: &'a Context<'a>, trim: Option<&'a Trim>, start: u32) -> Self {
        let worth = trim.and_then(|trim| trim.worth.as_ref());
        let all = Apart::all(context.kitchen, context.costing, worth);
        PriceApart { context, all, charged: trim.map(|trim| TrimCharged::of(context, trim)), start }
    }

    fn blocks(&self) -> impl Iterator<Item = PictureDishes<'_>> {
        let mut at = self.start;
        self.all.chunks(IN_ONE).map(move |dishes| {
            let block = PictureDishes { at, dishes };
            at = block.end();
            block
        })
    }

    /// The row below all of it.
    pub(super) fn end(&self) -> u32 {
        self.blocks().last().map_or(self.start, |block| block.end())
    }

    /// The pictures, and the rows with which each begins.
    pub(super) fn pictures(&self) -> (Vec<Picture>, Vec<u32>) {
        self.blocks().map(|block| (self.picture(&block), block.at)).unzip()
    }

    fn picture(&self, block: &PictureDishes<'_>) -> Picture {
        let first = block.headers().saturating_add(1);
        let span = |column| Span { column, first, last: first.saturating_add(block.len()).saturating_sub(1) };
        let least = Apart::least_labelled(block.dishes);
        let columns = own_sheets::PRICES_APART.iter().skip(1).zip(1_u16..).zip(TINTS);
        // What no dish has is not named.
        let any = |column: u16| block.dishes.iter().any(|apart| apart.part(column).is_some_and(|part| !part.is_zero()));
        let series = columns
            .filter(|((_, column), _)| any(*column))
            .map(|((name, column), tint)| Series::new(*name, span(column), tint).labelled(Labels::Within(least)));
        let told = block.dishes.iter().filter_map(|apart| {
            let dish = self.context.kitchen.dishes.get(apart.dish)?;
            Some(format!("{} {}, margin {}", dish.name, at_most(apart.price, 2), at_most(apart.margin, 2)))
        });
        Picture {
            title: "What a menu price is made of".to_owned(),
            told: format!(
                "A bar for every dish, as long as its menu price, divided into food, food from trim, Q, spice, tax and margin: {}",
                told.collect::<Vec<String>>().join("; ")
            ),
            kind: PictureKind::Shares,
            at: (block.at.saturating_add(1), 0),
            size: (WIDE, block.height()),
            names: span(0),
            series: series.collect(),
            names_look: Look::General,
            look: self.context.money(),
            axes: (None, None),
            begins: None,
        }
    }

    pub(super) fn rows(&self, out: &mut RowSink<'_>) {
        for block in self.blocks() {
            out(Row { row: block.at, cells: vec![Cell::text(0, "Menu prices taken apart", Ink::Section)] });
            let headers =
                own_sheets::PRICES_APART.iter().zip(0_u16..).map(|(header, at)| Cell::over(at, header, false));
            out(Row { row: block.headers(), cells: headers.collect() });
            for (apart, row) in block.dishes.iter().zip(block.headers().saturating_add(1)..) {
                out(Row { row, cells: self.dish(apart, row).unwrap_or_default() });
            }
        }
    }

    fn dish(&self, apart: &Apart, row: u32) -> Option<Vec<Cell>> {
        let (context, sheet) = (self.context, sheet_names::IN_PICTURES);
        let dish = context.kitchen.dishes.get(apart.dish)?;
        let formulas = DishFormulas::of(context, apart.dish, (sheet, row))?;
        let card = CardRows::of(context, apart.dish);
        let money = || context.money();
        let at = |column: u16| Ref::new(sheet, row, column).cell();
        let figure = |column, text, result| Cell::figure(column, Formula::number(text, result), money());
        // Without its price nothing is known of it: its row of the menu may say another recipe.
        let no_price = [format!("ISTEXT({})", at(PRICE))];
        let part = |column, text: String, result| figure(column, not_if(&no_price, &text), result);
        let or_nothing = |column, text: Option<String>, result| match text {
            Some(text) => part(column, text, result),
            None => Cell::number(column, Decimal::ZERO, Ink::Reading, money()),
        };
        let food = formulas.food_cost(apart.dish);
        let of_card = |nth| card.as_ref().map(|card| card.cost(nth).from(sheet));
        let q = of_card(1).or_else(|| formulas.q(&format!("({food})")));
        let spice = of_card(2).or_else(|| formulas.spice(&format!("({food})"), &at(3)));
        let price = formulas.menu_price()?;
        let ex_tax = formulas.ex_tax(&at(PRICE));
        let parts: Vec<String> = (1..=4).map(at).collect();
        Some(vec![
            Cell::text(0, &dish.name, Ink::Reading),
            part(1, format!("{food}-{}", at(2)), apart.food),
            or_nothing(2, self.trim(apart, &food), apart.trim),
            or_nothing(3, q, apart.q),
            or_nothing(4, spice, apart.spice),
            figure(5, format!("{}-{ex_tax}", at(PRICE)), apart.tax),
            figure(6, format!("{ex_tax}-({})", parts.join("+")), apart.margin),
            figure(PRICE, price, apart.price),
        ])
    }

    /// What the trim in it is charged, live where every part of it stands in a cell: else what it was while its food is what
    /// it was. `None` where there is none.
    fn trim(&self, apart: &Apart, food: &str) -> Option<String> {
        let terms = self.charged.as_ref().and_then(|charged| charged.text(apart.dish, sheet_names::IN_PICTURES));
        match terms {
            Some(terms) if terms.len() < LONGEST_TERMS => Some(format!("MIN({food},{terms})")),
            _ if apart.trim.is_zero() => None,
            _ => {
                let cost = self.context.costing.dishes.get(apart.dish)?.as_ref()?;
                let was = plain(cost.food);
                Some(format!("IF(ABS({food}-{was})<0.000000001,{},\"cost again\")", plain(apart.trim)))
            }
        }
    }
}
