//! The settings in force on the terminal: every one, its value, and where that comes from.

use super::width::{hang, left, printable, width};
use super::{Emphasis, View};
use crate::kitchen::Kitchen;
use crate::kitchen::recipe::QFactor;
use crate::kitchen::settings::{PriceRounding, Setting, Settings};
use crate::number::plain;
use crate::results::figures::percent_in_full;

/// What the caller decided over the book.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Origin {
    /// Whether the costing date was asked for.
    pub date_asked: bool,
}

/// Every setting in force, one a line.
pub fn settings(kitchen: &Kitchen, origin: Origin, view: View) -> String {
    let mut out = format!("{}\n", Emphasis::Strong.on("Settings in force", view));
    let names = Setting::ALL.iter().map(|setting| width(setting.name())).max().unwrap_or(0);
    for setting in Setting::ALL {
        let value = match value(&kitchen.settings, *setting) {
            _ if kitchen.settings.is_broken(*setting) => "could not be read".to_owned(),
            None => "not set".to_owned(),
            Some(value) => format!("{value}{}", whence(kitchen, *setting, origin)),
        };
        out.push_str(&hang(&format!("  {}  ", left(setting.name(), names)), &value, view.width));
    }
    out
}

/// Where a value comes from, when it is not the book's own setting.
fn whence(kitchen: &Kitchen, setting: Setting, origin: Origin) -> &'static str {
    let in_book =
        kitchen.entries.settings.iter().any(|row| row.setting == Some(setting) && row.value.given().is_some());
    match setting {
        Setting::CostingDate if origin.date_asked => " (as asked)",
        _ if in_book => "",
        Setting::CostingDate => " (today)",
        Setting::Currency => " (the sign seen first)",
        _ => " (the usual; a row of Settings may say otherwise)",
    }
}

/// The value of a setting; `None` when nothing sets it.
fn value(settings: &Settings, setting: Setting) -> Option<String> {
    let named = |text: &str| (!text.is_empty()).then(|| printable(text));
    match setting {
        Setting::HouseName => named(&settings.house_name),
        Setting::Currency => named(&settings.currency),
        Setting::CostingDate => Some(settings.costing_date.to_string()),
        Setting::TargetFoodCost => settings.target.map(percent_in_full),
        Setting::QFactor => settings.q.map(|q| match q {
            QFactor::Share(fraction) => percent_in_full(fraction),
            QFactor::Money(money) => format!("{} a portion", plain(money)),
        }),
        Setting::SpiceFactor => settings.spice.map(percent_in_full),
        Setting::SpiceCoversQ => Some(if settings.spice_covers_q { "yes" } else { "no" }.to_owned()),
        Setting::TaxIncluded => Some(if settings.tax.is_zero() {
            "no".to_owned()
        } else {
            format!("yes, {}", percent_in_full(settings.tax))
        }),
        Setting::PriceTax => settings.price_tax.map(|tax| format!("yes, {}", percent_in_full(tax))),
        Setting::PriceStep => match settings.rounding {
            PriceRounding::Step(step) => Some(plain(step)),
            _ => None,
        },
        Setting::PriceEnding => match settings.rounding {
            PriceRounding::Ending(ending) => Some(plain(ending)),
            _ => None,
        },
        Setting::PriceAge => Some(format!("{} days", plain(settings.price_age))),
        Setting::Volumes => Some(settings.volumes.to_string()),
        Setting::WasteHaulage => {
            settings.haulage.as_ref().map(|(money, unit)| format!("{} / {}", plain(*money), unit.name()))
        }
    }
}
