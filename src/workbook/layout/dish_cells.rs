//! Cells of a dish's facts: beside its row of the menu, where it is said what counts of them; of a dish that is on no
//! menu, on its card and among the settings.

use crate::costing::Costing;
use crate::kitchen::menu::{Dish, MenuRow};
use crate::kitchen::recipe::RecipeEntry;
use crate::kitchen::settings::Setting;
use crate::kitchen::{Field, Kitchen};
use crate::number::BareRule;
use crate::schema::{Column, Label, TableKind};
use crate::workbook::cells::formula::{BLANK, Formula, Ref, YES, needed, not_below_nought, not_if, or_else};
use crate::workbook::context::{Context, share_from};
use crate::workbook::layout::recipe::RecipeLayout;

/// The columns of the menu that say what counts of a dish's facts.
pub const MENU_PRICE_USED: &str = "Menu price used";
pub const TARGET_USED: &str = "Target used";
pub const TAX_USED: &str = "Tax used";

/// A dish with what was typed of it.
struct TypedDish<'a> {
    context: &'a Context<'a>,
    dish: &'a Dish,
    /// Its row of the menu.
    menu: Option<(usize, &'a MenuRow)>,
    /// Its card, and where that stands.
    card: Option<(&'a RecipeEntry, &'a RecipeLayout)>,
}

impl<'a> TypedDish<'a> {
    fn of(context: &'a Context<'_>, dish: &'a Dish) -> Self {
        let entries = &context.kitchen.entries;
        let card = |id: crate::kitchen::RecipeId| {
            Some((entries.recipes.get(id.index())?, context.layout.recipes.get(id.index())?))
        };
        TypedDish {
            context,
            dish,
            menu: dish.row.and_then(|row| Some((row, entries.menu.get(row)?))),
            card: dish.recipe.and_then(card),
        }
    }

    /// The card's cell of a label, where it has one.
    fn on_card(&self, label: Label) -> Option<Ref> {
        let (entry, card) = self.card?;
        // In lists every recipe has a cell for what one of them says.
        let is_blank = entry.input.typed(label.column()).is_blank();
        card.label(label).filter(|_| !(is_blank && self.context.layout.lists.is_some()))
    }

    fn is_broken<T>(menu: Option<&Field<T>>, card: Option<&Field<T>>) -> bool {
        match menu {
            Some(Field::Broken) => true,
            Some(Field::Given(_)) => false,
            Some(Field::Blank) | None => card.is_some_and(Field::is_broken),
        }
    }

    /// The card's menu price where that counts for the dish.
    fn price_on_card(&self, sheet: &str) -> Option<String> {
        let at = self.on_card(Label::MenuPrice).filter(|_| self.dish.portion.is_none())?;
        let cell = at.from(sheet);
        let (_, card) = self.card?;
        Some(while_labelled(card, &at, Label::MenuPrice, sheet, &or_else(&cell, &needed(&cell), BLANK)))
    }

    /// The target where the menu says none: the card's, else the setting's.
    fn target_otherwise(&self, sheet: &str) -> Option<String> {
        let settings = &self.context.kitchen.settings;
        let setting = self.context.settings.value(Setting::TargetFoodCost);
        let setting = setting.filter(|_| !settings.is_broken(Setting::TargetFoodCost)).map(|cell| cell.from(sheet));
        let more = [self.context.settings.more(sheet)];
        let setting = setting.map(|cell| not_if(&more, &or_else(&cell, &needed(&cell), BLANK)));
        let card = self.on_card(Label::Target).zip(self.card).map(|(at, (entry, card))| {
            let cell = at.from(sheet);
            let share = share_from(entry.input.typed(Column::Target), &cell, BareRule::UpToOne);
            let text = or_else(&cell, &share, setting.as_deref().unwrap_or(BLANK));
            while_labelled(card, &at, Label::Target, sheet, &text)
        });
        card.or(setting)
    }

    /// Whether it can be said what its target is.
    fn says_target(&self) -> bool {
        let (menu, card) = (self.menu.map(|(_, row)| &row.target), self.card.map(|(card, _)| &card.target));
        let column = self.menu.and_then(|(row, _)| self.context.input(TableKind::Menu, row, Column::Target));
        !Self::is_broken(menu, card) && (column.is_some() || self.target_otherwise("").is_some())
    }

    /// The tax where the menu says none.
    fn tax_otherwise(&self, sheet: &str) -> String {
        let setting = self.context.settings.value(Setting::TaxIncluded);
        setting.map_or_else(|| "0".to_owned(), |cell| not_below_nought(&cell.from(sheet)))
    }

    fn says_tax(&self) -> bool {
        let settings = &self.context.kitchen.settings;
        match self.menu.map(|(_, row)| &row.tax) {
            Some(Field::Broken) => false,
            Some(Field::Given(_)) => true,
            Some(Field::Blank) | None => !settings.is_broken(Setting::TaxIncluded),
        }
    }
}

/// What is read of a label's value, the cell `at`, as long as it stands beside its label on the card, or in lists all of the
/// recipe stands where it stood.
pub fn while_labelled(card: &RecipeLayout, at: &Ref, label: Label, sheet: &str, text: &str) -> String {
    if let Some(in_place) = card.in_place().filter(|_| card.lines > 0) {
        return not_if(&[format!("{}<>\"{YES}\"", in_place.from(sheet))], text);
    }
    if !card.is_card() {
        return text.to_owned();
    }
    let [cell, word] = [at.column, 0].map(|column| Ref { column, ..at.clone() }.from(sheet));
    not_if(&[format!("{word}<>\"{}\"", label.text()), format!("ROW({cell})<>ROW({word})")], text)
}

/// Where a dish's menu price is read.
pub fn price_cell(context: &Context<'_>, dish: &Dish) -> Option<Ref> {
    match dish.row {
        Some(row) => context.own(TableKind::Menu, row, MENU_PRICE_USED),
        None => context.layout.recipes.get(dish.recipe?.index())?.label(Label::MenuPrice),
    }
}

/// The target as a formula in a row of `sheet`; `None` where nothing says any.
pub fn target_formula(context: &Context<'_>, dish: &Dish, (sheet, at): (&str, u32)) -> Option<String> {
    let typed = TypedDish::of(context, dish);
    match dish.row {
        Some(row) => context
            .own(TableKind::Menu, row, TARGET_USED)
            .filter(|_| typed.says_target())
            .map(|own| own.beside(sheet, at)),
        // It is a dish as long as its card has a price.
        None => typed.target_otherwise(sheet).map(|target| match price_cell(context, dish) {
            Some(price) => or_else(&price.from(sheet), &target, BLANK),
            None => target,
        }),
    }
}

/// The tax within a dish's price as a formula in a row of `sheet`.
pub fn tax_formula(context: &Context<'_>, dish: &Dish, (sheet, at): (&str, u32)) -> String {
    match dish.row.and_then(|row| context.own(TableKind::Menu, row, TAX_USED)) {
        Some(own) => own.beside(sheet, at),
        None => TypedDish::of(context, dish).tax_otherwise(sheet),
    }
}

/// What counts of the facts of a dish, beside its row of the menu: the row's own, else the card's, else the setting's.
pub struct MenuFacts {
    /// Its menu price.
    pub price: Option<Formula>,
    /// Its target.
    pub target: Option<Formula>,
    /// The tax within its price.
    pub tax: Option<Formula>,
}

impl MenuFacts {
    /// Those of a dish of the menu; `None` of one that is not on it.
    pub fn of(context: &Context<'_>, dish: &Dish) -> Option<Self> {
        let typed = TypedDish::of(context, dish);
        let (row, entry) = typed.menu?;
        let sheet = &context.layout.table(TableKind::Menu)?.sheet;
        let cell = |column| context.input(TableKind::Menu, row, column).map(|cell| cell.cell());
        let share = |column, cell: &str, rule| share_from(entry.input.typed(column), cell, rule);
        let price = cell(Column::MenuPrice)
            .map(|cell| or_else(&cell, &needed(&cell), typed.price_on_card(sheet).as_deref().unwrap_or(BLANK)));
        let card_price = typed.card.map(|(card, _)| &card.menu_price).filter(|_| dish.portion.is_none());
        let price = price.filter(|_| !TypedDish::is_broken(Some(&entry.menu_price), card_price));
        let otherwise = typed.target_otherwise(sheet);
        let target = match cell(Column::Target) {
            Some(cell) => {
                let share = share(Column::Target, &cell, BareRule::UpToOne);
                Some(or_else(&cell, &share, otherwise.as_deref().unwrap_or(BLANK)))
            }
            None => otherwise,
        };
        let otherwise = typed.tax_otherwise(sheet);
        let tax = match cell(Column::Tax) {
            Some(cell) => or_else(&cell, &share(Column::Tax, &cell, BareRule::BelowOne), &otherwise),
            None => otherwise,
        };
        Some(MenuFacts {
            price: price.map(|text| Formula::number_or_blank(text, dish.menu_price)),
            target: target.filter(|_| typed.says_target()).map(|text| Formula::number_or_blank(text, dish.target)),
            tax: typed.says_tax().then(|| Formula::number(tax, dish.tax)),
        })
    }
}

/// Where dishes stand among those of one recipe, in one pass over all.
#[derive(Debug, Default)]
pub struct DishesOnCards {
    of: Vec<DishOnCard>,
    /// How many dishes each recipe has.
    every: Vec<u32>,
}

/// How many dishes of its recipe stand before one, and how many of these are costed.
#[derive(Debug, Clone, Copy, Default)]
struct DishOnCard {
    before: u32,
    costed: u32,
}

impl DishesOnCards {
    /// Those of a costing.
    pub fn of(kitchen: &Kitchen, costing: &Costing) -> Self {
        let mut so_far = vec![DishOnCard::default(); kitchen.recipes.len()];
        let mut of = Vec::with_capacity(kitchen.dishes.len());
        for (dish, cost) in kitchen.dishes.iter().zip(&costing.dishes) {
            let place = dish.recipe.and_then(|id| so_far.get_mut(id.index()));
            of.push(place.as_ref().map(|place| **place).unwrap_or_default());
            if let Some(place) = place {
                place.before = place.before.saturating_add(1);
                place.costed = place.costed.saturating_add(u32::from(cost.is_some()));
            }
        }
        DishesOnCards { of, every: so_far.into_iter().map(|place| place.before).collect() }
    }
}

/// Where the figures of a dish stand on the card of its recipe, which no sorting of dishes moves.
pub struct CardRows<'a> {
    card: &'a RecipeLayout,
    first: u16,
    costs: u32,
    against: u32,
}

impl<'a> CardRows<'a> {
    /// Those of the dish at `index`; `None` where it is not costed, or recipes stand in lists.
    pub fn of(context: &'a Context<'_>, index: usize) -> Option<Self> {
        let id = context.kitchen.dishes.get(index)?.recipe?;
        let card = context.layout.recipes.get(id.index()).filter(|card| card.is_card())?;
        context.costing.dishes.get(index)?.as_ref()?;
        let DishOnCard { before, costed } = *context.dishes_on_cards.of.get(index)?;
        let every = context.dishes_on_cards.every.get(id.index()).copied().unwrap_or_default();
        let first = card.own(0, "AP or EP").column;
        // A blank row and the headers stand above them.
        let costs = card.below_totals().saturating_add(2);
        let against = costs.saturating_add(every).saturating_add(1);
        Some(CardRows { card, first, costs: costs.saturating_add(before), against: against.saturating_add(costed) })
    }

    /// The cell of what it adds up to, in the `nth` column.
    pub fn cost(&self, nth: u16) -> Ref {
        Ref::new(self.card.sheet(), self.costs, self.first.saturating_add(nth))
    }

    /// The cell of how it stands, in the `nth` column.
    pub fn against(&self, nth: u16) -> Ref {
        Ref::new(self.card.sheet(), self.against, self.first.saturating_add(nth))
    }
}
