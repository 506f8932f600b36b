//! Rows → Kitchen: settings in force, names found, tests pooled, dishes listed, everything in cost order.
//!
//! Takes [`Entries`]; gives a [`Kitchen`] and the problems met. What a problem stops is marked `broken`, so that the
//! rest of the book is still costed.

mod bakers_percentages;
mod courses;
mod dishes;
mod items;
mod lookups;
mod measures;
mod names;
mod plan;
mod recipes;
mod sales;
mod settings;
mod suppliers;
mod uncosted;
mod volumes;
mod yield_tests;

use jiff::civil::Date;

use super::order;
use super::settings::Setting;
use super::{Entries, Kitchen};
use crate::problem::Problem;
use crate::schema::Limits;
use courses::Courses;
use lookups::Lookups;
use uncosted::UncostedNames;

/// What the caller decides: the day it is, and a costing date that overrides the book's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Options {
    /// Today, where nothing else names the costing date.
    pub today: Date,
    /// A costing date that overrides the book's.
    pub as_of: Option<Date>,
    /// How much a file of the book may hold.
    pub limits: Limits,
}

impl Options {
    /// Options of a caller for whom it is `today`: a book is costed on its own costing date, else today.
    pub const fn on(today: Date) -> Self {
        Options { today, as_of: None, limits: Limits::USUAL }
    }

    /// These options, with other limits on what is read.
    #[must_use]
    pub const fn within(self, limits: Limits) -> Self {
        Options { limits, ..self }
    }

    /// These options, to cost on `day` whatever the book says.
    #[must_use]
    pub const fn costed_on(self, day: Option<Date>) -> Self {
        Options { as_of: day, ..self }
    }
}

/// Resolves `entries` into a kitchen, with the problems met on the way.
pub fn resolve(entries: Entries, options: Options) -> (Kitchen, Vec<Problem>) {
    let mut problems = Vec::new();
    let settings = settings::resolve(&entries, options, &mut problems);
    suppliers::check(&entries, &mut problems);
    let mut lookups = Lookups::default();
    items::list(&entries, &mut lookups, &mut problems);
    recipes::list(&entries, &mut lookups, &mut problems);
    let mut tests = yield_tests::list(&entries, &mut lookups, &mut problems);
    names::list(&entries, &mut lookups, &mut problems);
    let mut uncosted = UncostedNames::default();
    yield_tests::link(&mut tests, &entries, &mut lookups, &mut uncosted, &mut problems);
    let mut dishes = dishes::list(&entries, &settings, &lookups, &mut problems);
    let courses = Courses::of(&entries, &dishes);
    let mut recipes = recipes::link(&entries, &mut lookups, &courses, &mut uncosted, &mut problems);
    problems.extend(uncosted.notes(&lookups));
    let stock = plan::stock(&entries, &mut lookups, &mut problems);
    let on_order = plan::on_order(&entries, &mut lookups, &mut problems);
    let counts = plan::counts(&entries, &mut lookups, &mut problems);
    let mut items = lookups.take_items();
    let volumes = settings.volumes;
    measures::attach(&entries, &lookups, &mut items, &mut tests, &mut recipes, volumes, &mut problems);
    items::name_trim_tests(&mut items, &tests, &mut problems);
    items::weigh_pieces(&mut items, &tests);
    courses.count_plates(&mut recipes);
    recipes::doubt_units(&entries, &recipes, &mut problems);
    recipes::note_batches(&entries, &dishes, &mut problems);
    let plan = plan::list(&entries, &dishes, &lookups, &mut problems);
    if settings.is_broken(Setting::Volumes) {
        volumes::stop(&mut items, &mut tests, &mut recipes, &mut dishes);
    }
    let order = order::order((&entries, &dishes), &items, &mut tests, &mut recipes, &mut problems);
    (Kitchen { entries, settings, items, tests, recipes, dishes, plan, stock, on_order, counts, order }, problems)
}
