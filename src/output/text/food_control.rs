//! Food-cost control on the terminal: from the stock to the cost of food sold, the standard, and the gap, item by item.

use super::table::{TextColumn, TextRow, table};
use super::width::{hang, printable};
use super::{Emphasis, View};
use crate::analysis::FoodControl;
use crate::analysis::actual_against_standard::{CellLack, NoStandard};
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::measure::currency;
use crate::results::counted_use::{CountedItemResult, CountedMoneyResult, CountedUseResult, count_lack};
use crate::results::distinguishing_decimals::places;
use crate::results::figures::{NONE, at_most, shown};
use crate::results::food_control::{
    ControlPeriodResult, StandardResult, cell_lack, counted, not_in_standard, periods, standard,
};
use crate::results::value::Figure;
use crate::schema::{Column, TableKind};

const COLUMNS: [TextColumn; 2] =
    [TextColumn { header: &["Money"], figures: true }, TextColumn { header: &["% of", "sales"], figures: true }];

const NO_TABLE: &str = "No period to look at: add a table with Opening, Purchases and Closing (and Period, Sales, Transfers in, \
    Transfers out, Staff meals, Comps, Waste, Trim sold, if you like), or one with Item, Opening and Closing, counted.";

const SEVERAL: &str = "No standard: what was sold bears no period, so it is compared only where the control table has one. \
    Read a book with one period and what was sold in it.";

const NOTHING_SOLD: &str = "No standard: no dish that has a cost says how many were sold. Fill in the column Sold of the menu, \
    or read a list with Dish and Sold beside the book.";

const ITEM_COLUMNS: [TextColumn; 6] = [
    TextColumn { header: &["Used"], figures: true },
    TextColumn { header: &["Standard"], figures: true },
    TextColumn { header: &["Gap"], figures: true },
    TextColumn { header: &["of it", "price"], figures: true },
    TextColumn { header: &["of it", "mix"], figures: true },
    TextColumn { header: &["of it", "use"], figures: true },
];

const COUNTED: &str = "Used is opening + purchases + transfers in − transfers out − closing, the standard what the dishes sold \
    ought to have used by their recipes. Gap = price + mix + use: price is what stock and purchases cost otherwise than at \
    these prices; use is more or less than the recipes say; mix is dearer or cheaper items of one Group in each other's place.";

/// The decimals of an amount.
const AMOUNT_PLACES: u32 = 2;

/// The decimals of a part of the sales: a gap is often some tenths of a point.
const SHARE_PLACES: u32 = 2;

/// The periods one after another, and the standard of the only one.
pub fn food_control(kitchen: &Kitchen, costing: &Costing, control: &FoodControl, view: View) -> String {
    let mut page = FoodControlPage {
        places: currency::minor_digits(&kitchen.settings.currency),
        priced_on: control.priced_on.to_string(),
        view,
        out: String::new(),
    };
    let currency = &kitchen.settings.currency;
    let money = if currency.is_empty() { String::new() } else { format!(", in {}", printable(currency)) };
    for (index, period) in periods(kitchen, control).enumerate() {
        if index > 0 {
            page.out.push('\n');
        }
        page.period(&period, &money);
    }
    if let Some(standard) = standard(kitchen, control) {
        page.out.push('\n');
        page.standard(&standard);
    }
    let counted = counted(kitchen, costing, control);
    if let Some(counted) = &counted {
        if !control.periods.is_empty() {
            page.out.push('\n');
        }
        page.counted(counted, &money);
    }
    let why_not = match control.standard {
        Ok(_) => return page.out,
        // What was counted is held against its standard all the same.
        Err(NoStandard::NoPeriod) if counted.is_some() => return page.out,
        Err(NoStandard::NoPeriod) => NO_TABLE,
        Err(NoStandard::SeveralPeriods) => SEVERAL,
        Err(NoStandard::NothingSold) => NOTHING_SOLD,
    };
    if !control.periods.is_empty() {
        page.out.push('\n');
    }
    page.say(why_not);
    page.out
}

/// What stands in the second column.
enum Share {
    /// Nothing.
    Unsaid,
    /// A part of the sales, in percent or points.
    Of(Option<Figure>),
}

struct FoodControlPage {
    places: u32,
    priced_on: String,
    view: View,
    out: String,
}

impl FoodControlPage {
    fn say(&mut self, text: &str) {
        self.out.push_str(&hang("", text, self.view.width));
    }

    fn point(&mut self, text: &str) {
        self.out.push_str(&hang("- ", text, self.view.width));
    }

    fn period(&mut self, period: &ControlPeriodResult<'_>, money: &str) {
        let name = if period.period.is_empty() { String::new() } else { format!(", {}", printable(period.period)) };
        self.say(&format!("Actual food cost{name}{money}:"));
        let rows: Vec<TextRow> = [
            Some(self.row("Opening", period.opening, Share::Unsaid)),
            Some(self.row("+ Purchases", period.purchases, Share::Unsaid)),
            self.if_any("+ Transfers in", period.transfers_in),
            self.if_any("− Transfers out", period.transfers_out),
            Some(self.row("− Closing", period.closing, Share::Unsaid)),
            Some(self.strong("Cost of food consumed", period.food_consumed, Share::Unsaid)),
            self.if_any("− Staff meals", period.staff_meals),
            self.if_any("− Comps", period.comps),
            self.if_any("− Trim sold", period.trim_sold),
            Some(self.strong("Cost of food sold", period.food_sold, Share::Of(period.food_cost_percent))),
            Some(self.row("Sales", period.sales, Share::Unsaid)),
        ]
        .into_iter()
        .flatten()
        .collect();
        self.out.push_str(&table("", &COLUMNS, &rows, self.view));
        for cell in &period.lacking {
            let means = match cell.because.0 {
                CellLack::Zero => "nothing is a percentage of it",
                CellLack::Blank | CellLack::Unread => "what stands on it is not known",
            };
            self.point(&format!("{} is {}: {means}.", cell.column, cell_lack(cell.because.0)));
        }
        if !period.of_counts.is_empty() {
            self.point(&format!("By the counts item by item: {}.", period.of_counts.join(", ")));
        }
    }

    fn standard(&mut self, standard: &StandardResult<'_>) {
        let portions = standard.portions.map_or_else(|| NONE.to_owned(), |portions| portions.to_string());
        let left_out = !standard.left_out.is_empty();
        let of = if left_out { " of the dishes that are counted" } else { "" };
        self.say(&format!(
            "Standard cost: {portions} portions sold{of}, at what they cost by their recipes and the prices of {}.",
            self.priced_on
        ));
        let is_logged = standard.waste.is_none_or(|waste| !waste.0.is_zero());
        let mut rows = vec![
            self.row("Standard cost", standard.cost, Share::Of(standard.food_cost_percent)),
            self.strong("Actual less standard", standard.variance, Share::Of(standard.variance_points)),
        ];
        if is_logged {
            rows.push(self.row("of it waste written down", standard.waste, Share::Of(standard.waste_points)));
        }
        rows.push(self.row("of it unexplained", standard.unexplained, Share::Of(standard.unexplained_points)));
        self.out.push_str(&table("", &COLUMNS, &rows, self.view));
        for dish in &standard.left_out {
            self.point(&format!("{} is left out: {}.", printable(dish.name), not_in_standard(dish.because.0)));
        }
        if left_out {
            self.say(
                "So the standard is of the rest alone, and what was sold of these stands in the actual cost only.",
            );
        }
    }

    /// The items that were counted, and the gap taken apart.
    fn counted(&mut self, counted: &CountedUseResult<'_>, money: &str) {
        self.say(&format!("Counted item by item, at the prices of {}{money}:", self.priced_on));
        let known = counted.items.iter().filter(|item| item.used.is_some());
        let mut rows: Vec<TextRow> = known.map(|item| self.item(item)).collect();
        if let Some(all) = &counted.money {
            let mut cells = vec![(String::new(), Emphasis::Plain); 2];
            cells.extend(self.effects(Some(all), Emphasis::Strong));
            rows.push(TextRow { name: "All that was counted".to_owned(), cells });
        }
        self.out.push_str(&table("", &ITEM_COLUMNS, &rows, self.view));
        if let Some(rest) = counted.not_counted {
            let rest = shown(Some(rest.0), self.places);
            self.point(&format!(
                "Of what lies between actual and standard, {rest} is of what was not counted, Q and spice within."
            ));
        }
        if let Some(waste) = counted.money.map(|all| all.waste).filter(|waste| !waste.0.is_zero()) {
            let waste = shown(Some(waste.0), self.places);
            self.point(&format!("Mix and use contain {waste} that was written down as thrown away."));
        }
        for item in &counted.items {
            self.price_moved(item);
        }
        for item in &counted.items {
            for cell in &item.lacking {
                let name = printable(item.name);
                let column = if cell.column == TableKind::Counts.header(Column::Item) {
                    String::new()
                } else {
                    format!("{} of ", cell.column)
                };
                self.point(&format!(
                    "{column}{name} is {}: what stands on it is not known.",
                    count_lack(cell.because.0)
                ));
            }
        }
        if counted.items.iter().all(|item| item.standard_use.is_none()) {
            self.point("What ought to have been used is not known: no dish that has a cost says how many were sold.");
        }
        self.say(COUNTED);
    }

    /// That a price was another on the first day than on the last, by which all is reckoned.
    fn price_moved(&mut self, item: &CountedItemResult<'_>) {
        let (Some(first), Some(last)) = (item.opening_price, item.price) else { return };
        if first.0 == last.0 {
            return;
        }
        let places = places(first.0, last.0, self.places);
        let [first, last] = [first, last].map(|price| shown(Some(price.0), places));
        let name = printable(item.name);
        self.point(&format!(
            "The price of {name} moved in the period: {first} a {} at first, {last} at last.",
            item.unit
        ));
    }

    fn item(&self, item: &CountedItemResult<'_>) -> TextRow {
        let amount = |figure: Option<Figure>| match figure {
            Some(figure) => (format!("{} {}", at_most(figure.0, AMOUNT_PLACES), item.unit), Emphasis::Plain),
            None => (NONE.to_owned(), Emphasis::Plain),
        };
        let mut cells = vec![amount(item.used), amount(item.standard_use)];
        cells.extend(self.effects(item.money.as_ref(), Emphasis::Plain));
        TextRow { name: printable(item.name), cells }
    }

    fn effects(&self, money: Option<&CountedMoneyResult>, ink: Emphasis) -> [(String, Emphasis); 4] {
        let cell = |of: fn(&CountedMoneyResult) -> Figure| (shown(money.map(|money| of(money).0), self.places), ink);
        [cell(|money| money.gap), cell(|money| money.of_price), cell(|money| money.of_mix), cell(|money| money.of_use)]
    }

    fn row(&self, name: &str, money: Option<Figure>, share: Share) -> TextRow {
        let cell =
            |figure: Option<Figure>, places: u32| (shown(figure.map(|figure| figure.0), places), Emphasis::Plain);
        let share = match share {
            Share::Unsaid => (String::new(), Emphasis::Plain),
            Share::Of(share) => cell(share, SHARE_PLACES),
        };
        TextRow { name: name.to_owned(), cells: vec![cell(money, self.places), share] }
    }

    /// A row that matters more than others.
    fn strong(&self, name: &str, money: Option<Figure>, share: Share) -> TextRow {
        let mut row = self.row(name, money, share);
        row.cells.iter_mut().for_each(|(_, ink)| *ink = Emphasis::Strong);
        row
    }

    /// A row of what may be left blank; none of what is zero.
    fn if_any(&self, name: &str, money: Option<Figure>) -> Option<TextRow> {
        money.is_none_or(|money| !money.0.is_zero()).then(|| self.row(name, money, Share::Unsaid))
    }
}
