//! The Settings sheet: every setting with what it means in brackets behind its name, and a box for its value.

use rust_xlsxwriter::{Format, FormatAlign, FormatBorder, XlsxError};

use super::columns::{Others, Shape, YES_NO};
use super::form;
use super::pen::{Book, Cell, INK, PALE, RULE, pct};
use super::region::Region;

/// A setting: its name and meaning, how its value is kept, its value, and the words to choose from.
struct Rule {
    text: &'static str,
    shape: Shape,
    value: Cell,
    choices: &'static [&'static str],
    others: Others,
}

const fn rule(text: &'static str, shape: Shape) -> Rule {
    Rule { text, shape, value: Cell::Blank, choices: &[], others: Others::Taken }
}

impl Rule {
    const fn with(mut self, choices: &'static [&'static str], others: Others) -> Rule {
        self.choices = choices;
        self.others = others;
        self
    }

    const fn says(mut self, value: Cell) -> Rule {
        self.value = value;
        self
    }
}

/// The settings; those of the `example` are filled in.
#[rustfmt::skip]
fn rules(region: Region, example: bool) -> Vec<Rule> {
    let shown = |cell: Cell| if example { cell } else { Cell::Blank };
    vec![
        rule("House name (stands above the Summary)", Shape::Free),
        rule("Currency (its code)", Shape::Free).says(Cell::Text(region.pick("USD", "EUR"))).with(&["USD", "CAD", "AUD", "NZD", "EUR", "GBP", "CHF"], Others::Doubted),
        rule("Costing date (the day whose prices count; blank: today)", Shape::Day),
        rule("Target food cost (for dishes without a target of their own: 30%)", Shape::Percent).says(shown(pct(30.0))),
        rule("Q factor (bread, butter and the like: 4% of the food, or money for a portion with its sign)", Shape::Free).says(shown(region.pick(pct(4.0), Cell::Blank))),
        rule("Spice factor (seasoning nobody measures, in % of the food: 2%)", Shape::Percent),
        rule("Spice covers Q (whether spice is taken on Q as well; blank: yes)", Shape::Free).with(YES_NO, Others::Refused),
        rule("Menu prices include tax (the rate of tax within menu prices: 8%, or no)", Shape::Free).says(shown(region.pick(Cell::Blank, pct(10.0)))),
        rule("Price step (prices at target go up to a multiple of this: 0.25)", Shape::Money).says(shown(region.pick(Cell::Blank, region.money(0.5)))),
        rule("Price ending (or up to the next price with this ending: 0.95; fill one of the two)", Shape::Money).says(shown(region.pick(region.money(0.95), Cell::Blank))),
        rule("Price age (days after which a price is called old; blank: 60)", Shape::Number),
        rule("Volumes (what cup, pint, fl oz and spoons are)", Shape::Free).says(Cell::Text(region.pick("US", "Metric"))).with(&["US", "Imperial", "Metric"], Others::Refused),
        rule(region.pick("Waste haulage (money per weight: 0.06 / lb; for what using trim is worth)", "Waste haulage (money per weight: 0.12 / kg; for what using trim is worth)"), Shape::AsTyped),
    ]
}

/// Adds the sheet.
pub fn add(book: &mut Book, region: Region, example: bool) -> Result<(), XlsxError> {
    let mut page = book.sheet("Settings", &[84, 18], false)?;
    let about = if example {
        "They hold for the whole book; a card or the menu may say otherwise. Type yours over the example's."
    } else {
        "They hold for the whole book; a card or the menu may say otherwise. All of them may stay blank."
    };
    page.title("Settings", about)?;
    page.lasting_header(&["Setting", "Value"], 0)?;
    for rule in rules(region, example) {
        let name =
            Format::new().set_font_color(INK).set_border_bottom(FormatBorder::Hair).set_border_bottom_color(RULE);
        page.put(0, Cell::Text(rule.text), &name)?;
        let mut boxed = form::ruled(1, rule.shape, region).set_align(FormatAlign::Left).set_indent(1);
        if !matches!(rule.value, Cell::Blank) {
            boxed = boxed.set_background_color(PALE);
        }
        page.put(1, rule.value, &boxed)?;
        if !rule.choices.is_empty() {
            let (row, list) = (page.row(), form::choice(rule.choices, rule.others)?);
            page.sheet().add_data_validation(row, 1, row, 1, &list)?;
        }
        if rule.shape == Shape::Percent {
            let row = page.row();
            page.sheet().add_data_validation(row, 1, row, 1, &form::percentage()?)?;
        }
        page.skip(1);
    }
    Ok(())
}
