//! Formulas of a dish, from the totals of its recipe and what was typed: wherever they stand, they say the same, and no
//! sheet that may be taken out or sorted lies between.

use crate::costing::DishCost;
use crate::costing::dish::ServedAs;
use crate::costing::q_and_spice::QAndSpice;
use crate::kitchen::RecipeId;
use crate::kitchen::menu::Dish;
use crate::kitchen::recipe::{QFactor, Recipe};
use crate::kitchen::settings::{PriceRounding, Setting};
use crate::number::{BareRule, Decimal, plain};
use crate::results::dish;
use crate::results::target_status::TargetStatus;
use crate::schema::{Column, Label, TableKind};
use crate::workbook::cells::formula::{
    Formula, NOT_KNOWN, Ref, is_typed, needed, not_as_typed, not_below_nought, not_if, or_else,
};
use crate::workbook::context::Context;
use crate::workbook::layout::dish_cells::{CardRows, price_cell, target_formula, tax_formula, while_labelled};
use crate::workbook::layout::recipe::{RecipeLayout, Total};
use crate::workbook::sheets::served_share::{self, ServedShare};

/// The formulas of a dish that is costed, for a row of a sheet.
pub struct DishFormulas<'a> {
    context: &'a Context<'a>,
    dish: &'a Dish,
    cost: &'a DishCost,
    recipe: &'a Recipe,
    id: RecipeId,
    card: &'a RecipeLayout,
    /// The sheet on which they stand, and the zero-based row.
    at: (&'a str, u32),
}

impl<'a> DishFormulas<'a> {
    /// Those of the dish at `index`; `None` when it is not costed.
    pub fn of(context: &'a Context<'_>, index: usize, at: (&'a str, u32)) -> Option<Self> {
        let dish = context.kitchen.dishes.get(index)?;
        let cost = context.costing.dishes.get(index)?.as_ref()?;
        let id = dish.recipe?;
        let recipe = context.kitchen.recipe(id)?;
        Some(DishFormulas { context, dish, cost, recipe, id, card: context.layout.recipes.get(id.index())?, at })
    }

    fn total(&self, total: Total) -> String {
        self.card.total(total).from(self.at.0)
    }

    /// A label of the recipe's card as a formula reads it, with what counts where it is blank.
    fn label(&self, label: Label, rule: BareRule, blank: &str) -> Option<String> {
        served_share::label(self.context, (self.recipe, self.card), label, rule, blank, self.at.0)
    }

    /// A setting; cleared, it is nothing, which is what stands in for all that a dish takes from them.
    fn setting(&self, setting: Setting) -> Option<String> {
        self.context.settings.value(setting).map(|cell| not_below_nought(&cell.from(self.at.0)))
    }

    /// Its share of the batch.
    pub fn share(&self) -> String {
        let share = ServedShare::of(self.context, self.dish, self.cost.plate(), self.at);
        share.map(|share| share.text()).unwrap_or_default()
    }

    /// Its share of the food.
    pub fn food(&self, share: &str) -> String {
        format!("{share}*{}", self.total(Total::Food))
    }

    /// Its Q, the card's or else the setting's; `None` where there is none and none may be typed.
    pub fn q(&self, food: &str) -> Option<String> {
        let setting = self.setting(Setting::QFactor).zip(self.context.kitchen.settings.q);
        let Some(cell) = self.card.label(Label::QFactor).map(|cell| cell.from(self.at.0)) else {
            return setting.and_then(|(cell, q)| self.q_of(q, cell, food));
        };
        match (self.recipe.q, setting) {
            (Some(QFactor::Share(_)) | None, None) => {
                Some(format!("{}*{food}", self.label(Label::QFactor, BareRule::MustSay, "0")?))
            }
            (Some(QFactor::Share(_)) | None, Some((setting, QFactor::Share(_)))) => {
                Some(format!("{}*{food}", self.label(Label::QFactor, BareRule::MustSay, &setting)?))
            }
            (of_card, setting) => {
                let otherwise = match setting {
                    // Without portions it is not known on how many it falls.
                    Some((setting, q)) => self.q_of(q, setting, food).unwrap_or(format!("\"{NOT_KNOWN}\"")),
                    None => "0".to_owned(),
                };
                let own = match of_card {
                    Some(QFactor::Money(_)) => self.q_of(QFactor::Money(Decimal::ZERO), cell.clone(), food)?,
                    _ => format!("{}*{food}", self.label(Label::QFactor, BareRule::MustSay, "0")?),
                };
                let own =
                    if of_card.is_some() { format!("IF({},{own},\"{NOT_KNOWN}\")", is_typed(&cell)) } else { own };
                Some(format!("IF({cell}=\"\",{otherwise},{own})"))
            }
        }
    }

    /// The Q that a cell says: a share of the food, or money for every portion.
    fn q_of(&self, q: QFactor, cell: String, food: &str) -> Option<String> {
        Some(match (q, self.cost.served) {
            (QFactor::Share(_), _) => format!("{cell}*{food}"),
            (QFactor::Money(_), ServedAs::Batches(many)) => {
                self.context.costing.recipe(self.id)?.portions?;
                format!("{cell}*{}*{}", plain(many), self.total(Total::Portions))
            }
            (QFactor::Money(_), _) => match dish::qs(self.cost)? {
                qs if qs == Decimal::ONE => cell,
                qs => format!("{cell}*{}", plain(qs)),
            },
        })
    }

    /// Its spice, the card's or else the setting's; `None` where there is none and none may be typed.
    pub fn spice(&self, food: &str, q: &str) -> Option<String> {
        let setting = self.context.kitchen.settings.spice.and_then(|_| self.setting(Setting::SpiceFactor));
        let blank = setting.as_deref().unwrap_or("0");
        let factor = match self.card.label(Label::SpiceFactor) {
            Some(_) => self.label(Label::SpiceFactor, BareRule::BelowOne, blank)?,
            None => setting?,
        };
        let covers_q = QAndSpice::of_dish(self.context.kitchen, self.recipe).spice_covers_q;
        Some(format!("{factor}*{}", self.context.spiced(covers_q, (food, q), self.at.0)))
    }

    /// What a portion costs, where its card says it, or else from the recipe's totals at one go.
    pub fn portion_cost(&self, index: usize) -> String {
        if let Some(card) = CardRows::of(self.context, index) {
            return card.cost(3).from(self.at.0);
        }
        let food = self.whole_food();
        let q = self.q(&food);
        let spice = self.spice(&food, q.as_deref().unwrap_or("0"));
        [Some(food), q, spice].into_iter().flatten().collect::<Vec<_>>().join("+")
    }

    fn whole_food(&self) -> String {
        self.food(&self.share())
    }

    /// What its food costs, likewise.
    pub fn food_cost(&self, index: usize) -> String {
        CardRows::of(self.context, index).map_or_else(|| self.whole_food(), |card| card.cost(0).from(self.at.0))
    }

    /// The menu price as typed.
    pub fn menu_price(&self) -> Option<String> {
        menu_price(self.context, self.dish, self.at)
    }

    /// The target.
    pub fn target(&self) -> Option<String> {
        target_formula(self.context, self.dish, self.at)
    }

    /// What counts of its menu price and of its target, of a dish that is on no menu.
    pub fn facts(&self) -> (Option<Formula>, Option<Formula>) {
        (
            self.menu_price().map(|text| Formula::number_or_blank(text, self.dish.menu_price)),
            self.target().map(|text| Formula::number_or_blank(text, self.dish.target)),
        )
    }

    /// The price without tax.
    pub fn ex_tax(&self, price: &str) -> String {
        format!("{price}/(1+{})", tax_formula(self.context, self.dish, self.at))
    }

    /// The price that meets the target, stepped as the house does as long as a setting says so.
    pub fn price_at_target(&self, portion_cost: &str, target: &str) -> String {
        let tax = tax_formula(self.context, self.dish, self.at);
        let price = format!("{portion_cost}*(1+{tax})/{target}");
        let house = self.context.kitchen.settings.rounding;
        match (house, self.setting(Setting::PriceStep), self.setting(Setting::PriceEnding)) {
            (PriceRounding::Step(_), Some(step), _) => {
                or_else(&step, &format!("ROUNDUP(ROUND({price}/{step},9),0)*{step}"), &price)
            }
            (PriceRounding::Ending(_), _, Some(ending)) => {
                or_else(&ending, &format!("MAX(0,ROUNDUP(ROUND({price}-{ending},9),0))+{ending}"), &price)
            }
            _ => price,
        }
    }

    /// How it stands against its menu price and its target, where these are the cells beside one another for it.
    pub fn against(&self, cells: &ComparedCells<'_>) -> Against {
        let (dish, cost) = (self.dish, self.cost);
        let ComparedCells { portion_cost, price, target, food_cost } = *cells;
        let menu_price = self.menu_price();
        let ex_tax = self.ex_tax(price);
        let once_priced =
            |text: String, result| menu_price.is_some().then(|| Formula::number_once_filled(price, &text, result));
        let own_target = self.target();
        let at_target = own_target.is_some().then(|| {
            let text = self.price_at_target(portion_cost, target);
            Formula::number_once_filled(target, &text, cost.price_at_target)
        });
        Against {
            food_cost: once_priced(format!("{portion_cost}/({ex_tax})"), cost.food_cost),
            margin: once_priced(format!("{ex_tax}-{portion_cost}"), cost.margin),
            at_target,
            standing: self.standing(portion_cost, food_cost, own_target.is_some().then_some(target)),
            menu_price: menu_price.map(|text| Formula::number_or_blank(text, dish.menu_price)),
            target: own_target.map(|text| Formula::number_or_blank(text, dish.target)),
        }
    }

    /// Where it stands, in words: what was cleared or taken out is said, and never within target.
    fn standing(&self, portion_cost: &str, food_cost: &str, target: Option<&str>) -> Formula {
        let says = |status: TargetStatus| format!("\"{}\"", status.words());
        let compared = match target {
            Some(target) => format!(
                "IF(ISNUMBER({target}),IF(ROUND({food_cost}-{target},9)>0,{},{}),{})",
                says(TargetStatus::OverTarget),
                says(TargetStatus::WithinTarget),
                says(TargetStatus::NoTarget),
            ),
            None => says(TargetStatus::NoTarget),
        };
        let text = format!(
            "IF(ISNUMBER({portion_cost}),IF(ISNUMBER({food_cost}),{compared},{}),{})",
            says(TargetStatus::NoMenuPrice),
            says(TargetStatus::NotCosted)
        );
        Formula::text(text, TargetStatus::of(self.dish, Some(self.cost)).words())
    }
}

/// Cells that hold what is compared of a dish.
#[derive(Debug, Clone, Copy)]
pub struct ComparedCells<'c> {
    /// What a portion costs.
    pub portion_cost: &'c str,
    /// Its menu price.
    pub price: &'c str,
    /// Its target.
    pub target: &'c str,
    /// Its food cost over the price without tax.
    pub food_cost: &'c str,
}

/// How a dish stands: each figure where something may say it.
#[derive(Debug, Clone)]
pub struct Against {
    /// Its menu price.
    pub menu_price: Option<Formula>,
    /// Portion cost over the price without tax.
    pub food_cost: Option<Formula>,
    /// What that should be.
    pub target: Option<Formula>,
    /// The price that meets the target.
    pub at_target: Option<Formula>,
    /// Price without tax less portion cost.
    pub margin: Option<Formula>,
    /// Where it stands, in words.
    pub standing: Formula,
}

/// A figure of a dish as long as it is one: while its row stands on the menu, where it stood, with what it said, and no
/// second one of its name, or the price on its card; and as long as no setting was added.
pub fn while_a_dish(context: &Context<'_>, dish: &Dish, sheet: &str, figure: String) -> String {
    let menu = TableKind::Menu;
    let mut gone = vec![context.settings.more(sheet)];
    match dish.row.and_then(|row| Some((row, context.kitchen.entries.menu.get(row)?))) {
        Some((row, entry)) => {
            gone.extend(context.more_rows(menu, Column::Dish, entry.input.typed(Column::Dish), sheet));
            for column in [Column::Dish, Column::Recipe, Column::Portion] {
                let typed = entry.input.typed(column);
                let Some(cell) = context.input(menu, row, column) else { continue };
                gone.push(not_as_typed(&cell.from(sheet), typed));
                gone.extend(context.elsewhere(menu, row, column, sheet).filter(|_| !typed.is_blank()));
            }
        }
        None => {
            gone.extend(price_cell(context, dish).map(|cell| format!("{}=\"\"", cell.from(sheet))));
            // Without the header of its dishes a menu is read as a list of recipes, and theirs are there twice.
            let over = context.input(menu, 0, Column::Dish).map(|cell| Ref { row: 0, ..cell }.unkeyed());
            gone.extend(over.map(|over| format!("{}<>\"{}\"", over.from(sheet), menu.header(Column::Dish))));
        }
    }
    not_if(&gone, &figure)
}

/// The menu price of a dish, costed or not, in a row of a sheet.
pub fn menu_price(context: &Context<'_>, dish: &Dish, (sheet, row): (&str, u32)) -> Option<String> {
    let cell = price_cell(context, dish)?;
    let read = cell.beside(sheet, row);
    if dish.row.is_some() {
        return Some(read);
    }
    let card = context.layout.recipes.get(dish.recipe?.index())?;
    Some(while_labelled(card, &cell, Label::MenuPrice, sheet, &needed(&read)))
}
