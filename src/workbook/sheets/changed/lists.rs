//! Lists, whose they are, and what is left to do: what is held back, what the book does not know, what the lists lack.

use super::Writing;
use crate::results::changes::{signed_percent, why};
use crate::workbook::cells::row::{Cell, Ink};

pub(super) fn files(page: &mut Writing<'_, '_>) {
    let list = page.changes.list;
    let files = list.suppliers.iter().map(|(file, supplier)| {
        let base = file.rsplit(['/', '\\']).next().unwrap_or(file);
        if supplier.is_empty() { base.to_owned() } else { format!("{base} ({supplier})") }
    });
    let files = files.collect::<Vec<_>>().join(", ");
    let text = format!("{files}: {} prices taken, {} held back.", list.taken.len(), list.held.len());
    page.say(&text);
}

pub(super) fn rest(page: &mut Writing<'_, '_>) {
    let (list, changes) = (page.changes.list, page.changes);
    let held: Vec<(String, String)> = list
        .held
        .iter()
        .map(|held| {
            let by =
                held.moved.as_ref().and_then(|moved| moved.by).map(|by| format!(" ({} per unit)", signed_percent(by)));
            let because = changes.held_because(held).map(|because| format!(": {because}")).unwrap_or_default();
            (changes.held_name(held).to_owned(), format!("{}{}{because}", why(held.why), by.unwrap_or_default()))
        })
        .collect();
    told(page, "Held back: not in the figures above", held);
    let unknown = list.unknown.iter().filter_map(|one| {
        let row = list.rows.get(one.row)?;
        let name = if row.item.is_empty() { format!("code {}", row.code) } else { row.item.clone() };
        let question = one.question.as_ref().map(|question| format!("{question} ")).unwrap_or_default();
        Some((name, format!("{question}{}", one.what_to_do)))
    });
    let unknown = unknown.collect();
    told(page, "In the lists and not in the book", unknown);
    let missing = list.missing.iter().filter_map(|one| {
        let question = one.question.as_ref().map(|question| format!("{question} ")).unwrap_or_default();
        Some((changes.old.item(one.item)?.name.clone(), format!("{question}{}", one.what_to_do)))
    });
    let missing = missing.collect();
    told(page, "Bought of these suppliers and not in their lists", missing);
}

fn told(page: &mut Writing<'_, '_>, title: &str, rows: Vec<(String, String)>) {
    if rows.is_empty() {
        return;
    }
    page.head(title, &["Item"], &[]);
    for (name, text) in rows {
        page.put(vec![Cell::text(0, name, Ink::Reading), Cell::text(1, text, Ink::Reading)]);
    }
}
