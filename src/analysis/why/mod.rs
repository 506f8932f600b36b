//! Why a figure is what it is: what it stands on, how much of it stands for which price, which price rows and yields were
//! passed over.
//!
//! Takes a kitchen, its costing and a name; gives plain figures and references for reports to put into words.

mod on_the_way;
mod passed_over;
mod price_share;
mod subject;

pub use on_the_way::OnTheWay;
pub use passed_over::{PassedOver, StatedYield, WhyNot};
pub use price_share::PriceShares;
pub use subject::{Meant, NotMeant, Subject};

use crate::costing::Costing;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::{ItemId, Kitchen, NameKey, Node};
use crate::problem::names::Names;

/// What stands behind a figure.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Why {
    /// What is asked about.
    pub subject: Subject,
    /// What else bears its name.
    pub others: Vec<Subject>,
    /// The lines asked about, as indices into those of its recipe; `None` for all of it.
    pub lines: Option<Vec<usize>>,
    /// What it stands on.
    pub way: OnTheWay,
    /// What of it stands for which price.
    pub prices: PriceShares,
    /// What was chosen of every item on the way, beside [`OnTheWay::items`].
    pub choices: Vec<Choices>,
}

/// The choices made for one item.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choices {
    /// The item.
    pub item: ItemId,
    /// The price rows that are not in use.
    pub rows: Vec<PassedOver>,
    /// The yields stated, the one that serves first.
    pub yields: Vec<StatedYield>,
}

impl Why {
    /// What stands behind what `name` means; of its lines of `line` alone, where that is given.
    ///
    /// # Errors
    /// [`NotMeant`] where a name means nothing, or several parts.
    pub fn named(kitchen: &Kitchen, costing: &Costing, name: &str, line: Option<&str>) -> Result<Self, NotMeant> {
        let meant = Subject::named(kitchen, name)?;
        let lines = line.map(|line| lines(kitchen, meant.first, line)).transpose()?;
        Ok(Why { others: meant.others, ..Why::of(kitchen, costing, meant.first, lines) })
    }

    /// What stands behind `subject`, or behind some lines of its recipe.
    pub fn of(kitchen: &Kitchen, costing: &Costing, subject: Subject, lines: Option<Vec<usize>>) -> Self {
        let way = OnTheWay::of(kitchen, costing, subject, lines.as_deref());
        // A price counts however far down it stands.
        let all = way.is_cut.then(|| OnTheWay::all(kitchen, costing, subject, lines.as_deref()));
        let prices = PriceShares::of(kitchen, costing, subject, all.as_ref().unwrap_or(&way), lines.as_deref());
        let choices = |item: &ItemId| Choices {
            item: *item,
            rows: passed_over::rows(kitchen, costing, *item),
            yields: passed_over::yields(kitchen, costing, *item),
        };
        let choices = way.items.iter().map(choices).collect();
        Why { subject, others: Vec::new(), lines, way, prices, choices }
    }
}

/// The lines of what is asked about that name this ingredient.
fn lines(kitchen: &Kitchen, subject: Subject, name: &str) -> Result<Vec<usize>, NotMeant> {
    let wanted = NameKey::of(name);
    let recipe = subject.recipe(kitchen).and_then(|id| kitchen.recipe(id));
    let entry = recipe.and_then(|recipe| kitchen.entries.recipes.get(recipe.entry));
    let lines = entry.map(|entry| entry.lines.as_slice()).unwrap_or_default();
    let sources = recipe.map(|recipe| recipe.lines.as_slice()).unwrap_or_default();
    // By another name the line is found where both mean one thing.
    let meant = Subject::named(kitchen, name).ok().and_then(|meant| meant.first.node(kitchen));
    let is_it = |index: usize, typed: &str| {
        NameKey::of(typed) == wanted
            || meant.is_some_and(|node| match (node, sources.get(index).map(|line| line.source)) {
                (Node::Item(id), Some(IngredientSource::Bought(of))) => id == of,
                (Node::Recipe(id), Some(IngredientSource::Made(of))) => id == of,
                _ => false,
            })
    };
    let found: Vec<usize> =
        lines.iter().enumerate().filter(|(index, line)| is_it(*index, &line.item)).map(|(index, _)| index).collect();
    if !found.is_empty() {
        return Ok(found);
    }
    // `butter` is enough where there is one butter.
    let head = |typed: &str| typed.split([',', '(']).next().is_some_and(|head| NameKey::of(head) == wanted);
    let headed = lines.iter().enumerate().filter(|(_, line)| head(&line.item)).map(|(index, _)| index);
    if let [one] = headed.collect::<Vec<_>>().as_slice() {
        return Ok(vec![*one]);
    }
    let names: Names = lines.iter().map(|line| line.item.as_str()).collect();
    let near = names.answer(name, "It takes");
    Err(NotMeant::NoLine { of: subject.name(kitchen).to_owned(), name: name.to_owned(), near })
}
