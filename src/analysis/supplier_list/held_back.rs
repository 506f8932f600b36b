//! Prices that no kitchen should take unseen: beyond the bound, or as if they were for another unit than before.

use super::candidates::Candidate;
use super::moved::ratio;
use super::past::Past;
use super::{Change, Move, NotTaken};
use crate::kitchen::Field;
use crate::kitchen::price::{Item, PriceRow};
use crate::measure::{Dimension, Measured, Pack, Unit, Volumes};
use crate::number::{Decimal, exact, rounding};
use crate::problem::{Advice, Choice, Code, Fault, THERE};
use crate::schema::{Column, Shown, Typed, Value};

/// How near, as a fraction of the price before, another reading of a price must come to it.
const NEAR: Decimal = Decimal::from_parts(2, 0, 0, false, 1);

/// Why a price is held back, and what to say of it at its cell; nothing when it may be taken.
pub(super) fn of(
    past: &Past<'_>,
    item: &Item,
    candidate: &Candidate,
    moved: &Move,
    bound: Decimal,
) -> Option<(NotTaken, Fault)> {
    let before = past.row(moved.before?)?;
    let row = &candidate.price;
    if moved.change == Change::NotComparable {
        return Some((NotTaken::NotComparable, not_comparable(item, before, row)));
    }
    let (old, new) = (moved.old.as_ref()?, moved.new.as_ref()?);
    if old.kind != new.kind {
        return None;
    }
    if let Ok(ratio) = ratio(old.ap, new.ap)
        && let Some(fault) = slip(item, before, row, ratio, past.kitchen.settings.volumes)
    {
        return Some((NotTaken::Slip, fault));
    }
    let beyond = match moved.by {
        Some(by) => by.abs() > bound,
        // From nothing to something.
        None => old.ap.money.is_zero() && !new.ap.money.is_zero(),
    };
    beyond.then(|| (NotTaken::Jump, jump(item, before, row, moved.by, bound)))
}

fn jump(item: &Item, before: &PriceRow, row: &PriceRow, by: Option<Decimal>, bound: Decimal) -> Fault {
    let way = match by.map(|by| (by < Decimal::ZERO, percent(by.abs()))) {
        Some((true, percent)) => format!("falls by {percent} % per unit"),
        Some((false, percent)) => format!("rises by {percent} % per unit"),
        None => "was free and is not any more".to_owned(),
    };
    Fault::new(
        Code::ListPriceJumps,
        format!("“{}” {way}, from {} at {THERE} to {}, so it was held back", item.name, said(before), said(row)),
        Advice::from("If it is right, take it")
            .choosing(Choice::Accept(item.name.clone()))
            .then(&format!("; or allow more than {} % for all.", percent(bound))),
    )
    .speaking_of(before.input.place(Column::Price))
}

fn not_comparable(item: &Item, before: &PriceRow, row: &PriceRow) -> Fault {
    let (name, old, new) = (&item.name, said(before), said(row));
    Fault::new(
        Code::ListUnitChanged,
        format!("“{name}” was {old} at {THERE}; {new} cannot be compared with that, so it was held back"),
        Advice::from("Say in Measures what one weighs or holds; or take it as it is")
            .choosing(Choice::Accept(name.clone()))
            .then("."),
    )
    .speaking_of(before.input.place(Column::Price))
}

/// The fault of a price that read for one of what is in its pack, or for all of it, would be about the price before.
fn slip(item: &Item, before: &PriceRow, row: &PriceRow, ratio: Decimal, volumes: Volumes) -> Option<Fault> {
    let packs = [row.pack.given(), before.pack.given()].into_iter().flatten();
    for (quantity, one) in packs.flat_map(|pack| amounts(pack, volumes)) {
        // A pack of one or little more is not told from a price that moved.
        if quantity < Decimal::TWO {
            continue;
        }
        let near = |x: Decimal| exact::sub(x, Decimal::ONE).is_ok_and(|off| off.abs() <= NEAR);
        let new_is_cheap = if exact::mul(ratio, quantity).is_ok_and(near) {
            true
        } else if exact::div(ratio, quantity).is_ok_and(near) {
            false
        } else {
            continue;
        };
        let (cheap, dear) = if new_is_cheap { (row, before) } else { (before, row) };
        // The cheap one may be for one though it says the pack; the dear one for the pack though it says one.
        let whole = "the whole pack".to_owned();
        let (suspect_is_new, what) = match (cheap.per == Field::Blank, dear.per != Field::Blank) {
            (true, true) => (true, if new_is_cheap { one } else { whole }),
            (true, false) => (new_is_cheap, one),
            (false, true) => (!new_is_cheap, whole),
            (false, false) => continue,
        };
        let (name, old, new) = (&item.name, said(before), said(row));
        let (message, mend) = if suspect_is_new {
            let message =
                format!("“{name}” was {old} at {THERE}; {new} looks like the price of {what}, so it was held back");
            (message, "say in Per or Pack of the list what the price is for")
        } else {
            let message =
                format!("“{name}” was {old} at {THERE}, which looks like the price of {what}; so {new} was held back");
            (message, "correct that row of the book")
        };
        let help =
            Advice::from(format!("If so, {mend}; if not, take it")).choosing(Choice::Accept(name.clone())).then(".");
        return Some(Fault::new(Code::ListUnitSlips, message, help).speaking_of(before.input.place(Column::Price)));
    }
    None
}

/// How many of what is in a pack, with what one of it is called.
fn amounts(pack: &Pack, volumes: Volumes) -> Vec<(Decimal, String)> {
    let mut all: Vec<(Decimal, String)> = Vec::new();
    let of = |measured: &Measured| (measured.amount, format!("1 {}", measured.unit));
    all.extend(pack.content.as_ref().map(of));
    all.extend(pack.pieces.as_ref().map(of));
    if let (Some(count), Some(one)) = (pack.containers, pack.one_of_several()) {
        all.push((count, one.to_string()));
    }
    // A list may go by the pound where the pack is in kilos.
    if let Some((base, grams)) = pack.content.as_ref().and_then(|content| content.in_base(volumes).ok()?)
        && base.dimension() == Dimension::Mass
    {
        for unit in ["lb", "kg"].into_iter().filter_map(Unit::parse) {
            let size = unit.to_base(volumes).map(|(_, size)| size);
            all.extend(size.and_then(|size| Some((exact::div(grams, size).ok()?, format!("1 {unit}")))));
        }
    }
    all
}

/// A price as a cook says it: `$25.00 for 50 lb`, `$1.80 per lb`.
fn said(row: &PriceRow) -> String {
    let price = match row.input.typed(Column::Price) {
        Typed { value: Value::Number(number), shown } => {
            let mut number = number.normalize();
            // Cents, unless the amount is whole or goes finer.
            if number.scale() == 1 {
                number.rescale(2);
            }
            let sign = if let Shown::Money(sign) = shown { sign.as_str() } else { "" };
            format!("{sign}{number}")
        }
        other => other.seen(),
    };
    match (row.per.given(), row.pack.given()) {
        (Some(per), _) if per.amount == Decimal::ONE => format!("{price} per {}", per.unit),
        (Some(per), _) => format!("{price} per {per}"),
        (None, Some(pack)) => format!("{price} for {}", pack.text.trim()),
        (None, None) => price,
    }
}

fn percent(fraction: Decimal) -> Decimal {
    let percent = exact::mul(fraction, Decimal::ONE_HUNDRED).unwrap_or(Decimal::MAX);
    rounding::half_up(percent, 0).normalize()
}
