//! Portions for which there is enough trim that nothing is bought in for.

use super::super::table::{TextColumn, TextRow, table};
use super::super::{Emphasis, printable};
use super::TrimPage;
use crate::analysis::balance::{Enough, Promise};
use crate::number::plain;

const COLUMNS: [TextColumn; 2] =
    [TextColumn { header: &["Planned"], figures: true }, TextColumn { header: &["Enough", "for"], figures: true }];

/// A sentence, or a table where there are several days; then how what there is was shared.
pub(super) fn enough(page: &TrimPage<'_>, promise: &Promise) -> String {
    let days = &page.kitchen.plan.days;
    let mut out = String::new();
    if days.are_named() && days.len() > 1 {
        let rows: Vec<TextRow> = promise.portions.iter().map(|one| row(page, one)).collect();
        out.push('\n');
        out.push_str(&table("Enough trim, day by day, for", &COLUMNS, &rows, page.view));
        out.push('\n');
        out.push_str(
            &page
                .point("An earlier day serves what it can; what it leaves is there on later days as long as it keeps."),
        );
    } else if !promise.portions.is_empty() {
        let served = promise
            .portions
            .iter()
            .map(|one| format!("{} of {}", plain(one.portions), page.kitchen.served_name(one.served)));
        let served: Vec<String> = served.collect();
        out.push_str(&page.point(&format!("There is enough for {}.", served.join(" and "))));
    }
    let short: Vec<&str> =
        promise.parts.iter().filter_map(|part| Some(page.kitchen.part(*part)?.name.as_str())).collect();
    if !short.is_empty() && !promise.portions.is_empty() {
        out.push_str(&page.point(&format!("What is short, with nothing to buy in its place: {}.", short.join(", "))));
    }
    if promise.is_shared {
        out.push_str(&page.point(
            "Dishes that want the same trim on one day are cut by one share, in whole portions; what that leaves goes portion \
             by portion, in the order of the plan.",
        ));
    }
    if !promise.is_whole {
        out.push_str(
            &page.point("The plan is too large to say for all of its days how many portions the trim allows."),
        );
    }
    out
}

fn row(page: &TrimPage<'_>, one: &Enough) -> TextRow {
    let day = page.kitchen.plan.days.names.get(one.day).map(String::as_str).unwrap_or_default();
    let ink = if one.portions < one.planned { Emphasis::Bad } else { Emphasis::Plain };
    TextRow {
        name: printable(&format!("{day}: {}", page.kitchen.served_name(one.served))),
        cells: vec![(plain(one.planned), Emphasis::Plain), (plain(one.portions), ink)],
    }
}
