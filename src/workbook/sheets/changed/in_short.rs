//! Page one for the owner: what purchases cost more or less, the dishes over their targets and the price that each would
//! need, what is held back, and what to do.

use super::{Writing, before, dishes, live, prices, words};
use crate::analysis::reprice::DishEffect;
use crate::in_order::InOrder;
use crate::number::Decimal;
use crate::results::changes::Changes;
use crate::results::target_status::TargetStatus;
use crate::workbook::cells::row::{Cell, Ink};

/// The most dishes and names that are listed.
const MOST: usize = 10;

/// A row of the page.
enum PageLine<'a> {
    Blank,
    Title(String),
    Headers(Vec<&'static str>),
    Purchases,
    Dish(&'a DishEffect),
    Say(String),
}

const PURCHASES: [&str; 4] = ["Purchases", "Before", "Now", "More or less"];

/// How many rows it takes, with a blank one below.
pub(super) fn rows(changes: &Changes<'_>) -> u32 {
    u32::try_from(lines(changes).len()).unwrap_or_default()
}

fn lines<'a>(changes: &Changes<'a>) -> Vec<PageLine<'a>> {
    let mut lines = vec![PageLine::Title("What purchases cost, more or less".to_owned())];
    match &changes.effects.index {
        Ok(_) => lines.extend([PageLine::Headers(PURCHASES.to_vec()), PageLine::Purchases]),
        Err(lack) => lines.push(PageLine::Say(format!(
            "It is not known over {}, for {}.",
            changes.basket(),
            lack.words(changes.new)
        ))),
    }
    lines.push(PageLine::Blank);
    let mut over: Vec<&DishEffect> = changes.effects.dishes.iter().filter(|effect| effect.now.is_over()).collect();
    // Those that the new prices put there first.
    over.put_in_order_by_key(|effect| !effect.is_newly_over());
    lines.push(PageLine::Title("Dishes that moved and are over their target".to_owned()));
    if over.is_empty() {
        lines.push(PageLine::Say("None.".to_owned()));
    } else {
        lines.push(PageLine::Headers(over_headers()));
        lines.extend(over.iter().take(MOST).map(|effect| PageLine::Dish(effect)));
        lines.extend(more(&over).map(|more| PageLine::Say(format!("{more}, among the dishes below."))));
    }
    let within: Vec<&str> = (changes.effects.dishes.iter())
        .filter(|effect| effect.is_no_longer_over())
        .filter_map(|effect| changes.new.dishes.get(effect.dish).map(|dish| dish.name.as_str()))
        .collect();
    if !within.is_empty() {
        lines.push(PageLine::Say(format!("Within their target again: {}.", listed(&within))));
    }
    lines.push(PageLine::Blank);
    lines.push(PageLine::Title("Held back: not in the figures of this workbook".to_owned()));
    let held: Vec<&str> = changes.list.held.iter().map(|held| changes.held_name(held)).collect();
    lines.push(PageLine::Say(if held.is_empty() {
        "Nothing.".to_owned()
    } else {
        format!("{}. Why stands at the end of this sheet.", listed(&held))
    }));
    lines.push(PageLine::Blank);
    lines.push(PageLine::Title("What to do".to_owned()));
    lines.extend(to_do(changes, over.len(), held.len()).into_iter().map(PageLine::Say));
    lines.push(PageLine::Blank);
    lines
}

/// As over all dishes that moved, and a name of their own.
fn over_headers() -> Vec<&'static str> {
    ["Over its target"].into_iter().chain(dishes::HEADERS.into_iter().skip(1)).collect()
}

/// What is left to the owner.
fn to_do(changes: &Changes<'_>, over: usize, held: usize) -> Vec<String> {
    let list = changes.list;
    let mut said = Vec::new();
    if over > 0 {
        said.push(
            "Of each dish above, raise the menu price to the price at target, make the portion smaller, buy otherwise, \
             or let it stand and know why."
                .to_owned(),
        );
    }
    if held > 0 {
        said.push(
            "Ask the supplier about what is held back, and take it into the book where it is right: until then the old \
             prices stand."
                .to_owned(),
        );
    }
    let saving = changes.effects.switches.iter().filter(|one| one.worth.is_ok_and(|worth| worth > Decimal::ZERO));
    let saving: Vec<&str> = saving.map(|one| changes.item(one.item)).collect();
    if !saving.is_empty() {
        said.push(format!(
            "Ask whether to switch: {} would cost less of another supplier or in another pack, as below.",
            listed(&saving)
        ));
    }
    if !list.missing.is_empty() {
        let missing = list.missing.iter().filter_map(|one| Some(changes.old.item(one.item)?.name.as_str()));
        said.push(format!("Ask whether they still sell it: {}.", listed(&missing.collect::<Vec<&str>>())));
    }
    if !list.unknown.is_empty() {
        said.push(match list.unknown.len() {
            1 => "Look at 1 row of the lists that is about nothing in the book, at the end of this sheet.".to_owned(),
            many => format!(
                "Look at {many} rows of the lists that are about nothing in the book, at the end of this sheet."
            ),
        });
    }
    let stopped = changes.new.dishes.iter().zip(&changes.now.dishes);
    let stopped = stopped.filter(|(_, cost)| cost.is_none()).map(|(dish, _)| dish.name.as_str());
    let stopped: Vec<&str> = stopped.collect();
    if !stopped.is_empty() {
        said.push(format!("See why these are {}: {}.", TargetStatus::NotCosted.words(), listed(&stopped)));
    }
    if said.is_empty() {
        said.push("Nothing that the new prices ask for.".to_owned());
    }
    said
}

/// Names with commas between, as many as are listed.
fn listed(names: &[&str]) -> String {
    let all = names.iter().take(MOST).copied().collect::<Vec<&str>>().join("; ");
    more(names).map_or_else(|| all.clone(), |more| format!("{all}; {more}"))
}

/// How many are not listed.
fn more<T>(all: &[T]) -> Option<String> {
    let more = all.iter().skip(MOST).count();
    (more > 0).then(|| format!("and {more} more"))
}

/// Writes the page.
pub(super) fn write(page: &mut Writing<'_, '_>) {
    for line in lines(page.changes) {
        match line {
            PageLine::Blank => page.row = page.row.saturating_add(1),
            PageLine::Title(title) => page.put(vec![Cell::text(0, title, Ink::Section)]),
            PageLine::Headers(headers) => page.headers(&headers, &["Standing now"]),
            PageLine::Purchases => purchases(page),
            PageLine::Dish(effect) => {
                let cells = dishes::row(page, effect);
                page.put(cells);
            }
            PageLine::Say(text) => page.say(&text),
        }
    }
}

/// What the basket cost and costs.
fn purchases(page: &mut Writing<'_, '_>) {
    let changes = page.changes;
    let Ok(index) = &changes.effects.index else { return };
    let money = page.context.money();
    let mut cells = vec![Cell::text(0, format!("over {}", changes.basket()), Ink::Reading)];
    cells.push(before(1, index.was, money.clone()));
    cells.push(prices::basket_now(page, index));
    let text = format!("{}-{}", page.here(2), page.here(1));
    let more = live(3, text, index.more(), money);
    cells.push(Cell { ink: Ink::Total, ..more });
    let most = changes.effects.movers.iter().max_by_key(|mover| mover.size());
    let most = most.filter(|mover| !mover.size().is_zero()).map(|mover| changes.item(mover.item));
    cells.extend(most.map(|name| words(4, format!("most of all by {name}"))));
    page.put(cells);
}
