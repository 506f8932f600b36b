//! The settings in force: defaults, then the book, then what the caller decides.

use super::Options;
use crate::kitchen::settings::{PriceRounding, Setting, SettingRow, SettingValue, Settings};
use crate::kitchen::{Entries, Field};
use crate::number::Decimal;
use crate::problem::{Code, Fault, Problem, THERE};
use crate::schema::Column;

/// Reads the setting rows of `entries` over the defaults.
pub(super) fn resolve(entries: &Entries, options: Options, problems: &mut Vec<Problem>) -> Settings {
    let mut settings = Settings::defaults(options.today);
    let mut seen: Vec<(Setting, &SettingRow)> = Vec::new();
    for row in &entries.settings {
        let Some(setting) = row.setting else { continue };
        if let Some((_, first)) = seen.iter().find(|(known, _)| *known == setting) {
            if first.value != row.value {
                problems.push(given_twice(setting, first, row));
                settings.broken.push(setting);
            }
            continue;
        }
        seen.push((setting, row));
        match &row.value {
            Field::Given(value) => apply(&mut settings, setting, value),
            Field::Broken => settings.broken.push(setting),
            Field::Blank => {}
        }
    }
    refuse_two_roundings(&seen, &mut settings, problems);
    if let Some(date) = options.as_of {
        settings.costing_date = date;
        settings.broken.retain(|setting| *setting != Setting::CostingDate);
    }
    settle_currency(entries, &mut settings, problems);
    settings
}

fn apply(settings: &mut Settings, setting: Setting, value: &SettingValue) {
    match (setting, value) {
        (Setting::HouseName, SettingValue::Text(text)) => settings.house_name.clone_from(text),
        (Setting::Currency, SettingValue::Text(text)) => settings.currency = text.to_uppercase(),
        (Setting::CostingDate, SettingValue::Date(date)) => settings.costing_date = *date,
        (Setting::TargetFoodCost, SettingValue::Fraction(target)) => settings.target = Some(*target),
        (Setting::QFactor, SettingValue::Q(q)) => settings.q = Some(*q),
        (Setting::SpiceFactor, SettingValue::Fraction(spice)) => settings.spice = Some(*spice),
        (Setting::SpiceCoversQ, SettingValue::YesNo(yes)) => settings.spice_covers_q = *yes,
        (Setting::TaxIncluded, SettingValue::Fraction(tax)) => settings.tax = *tax,
        (Setting::TaxIncluded, SettingValue::YesNo(false)) => settings.tax = Decimal::ZERO,
        (Setting::PriceTax, SettingValue::Fraction(tax)) => settings.price_tax = Some(*tax),
        (Setting::PriceTax, SettingValue::YesNo(false)) => settings.price_tax = None,
        (Setting::PriceStep, SettingValue::Number(step)) => settings.rounding = PriceRounding::Step(*step),
        (Setting::PriceEnding, SettingValue::Number(ending)) => settings.rounding = PriceRounding::Ending(*ending),
        (Setting::PriceAge, SettingValue::Number(days)) => settings.price_age = *days,
        (Setting::Volumes, SettingValue::Volumes(volumes)) => settings.volumes = *volumes,
        (Setting::WasteHaulage, SettingValue::PerWeight(money, unit)) => {
            settings.haulage = Some((*money, unit.clone()))
        }
        _ => settings.broken.push(setting),
    }
}

/// A price goes up to a step or to an ending, not to both.
fn refuse_two_roundings(seen: &[(Setting, &SettingRow)], settings: &mut Settings, problems: &mut Vec<Problem>) {
    let row = |wanted: Setting| {
        let found = seen.iter().find(|(setting, _)| *setting == wanted)?;
        found.1.value.given().map(|_| found.1)
    };
    if let (Some(step), Some(ending)) = (row(Setting::PriceStep), row(Setting::PriceEnding)) {
        let fault = Fault::new(
            Code::SettingTwice,
            format!("prices are to end in this, and at {THERE} to go up in steps"),
            "Keep Price step or Price ending.",
        );
        problems.push(fault.speaking_of(step.input.place(Column::Value)).at(ending.input.place(Column::Value)));
        settings.broken.extend([Setting::PriceStep, Setting::PriceEnding]);
    }
}

fn given_twice(setting: Setting, first: &SettingRow, row: &SettingRow) -> Problem {
    let name = setting.name();
    Fault::new(
        Code::SettingTwice,
        format!(
            "{name} is “{}” here and “{}” at {THERE}",
            row.input.text(Column::Value),
            first.input.text(Column::Value)
        ),
        format!("Keep one row for {name}."),
    )
    .speaking_of(first.input.place(Column::Value))
    .at(row.input.place(Column::Value))
}

/// The setting's currency, else that of the signs seen in the book. Cells in another currency are broken already.
fn settle_currency(entries: &Entries, settings: &mut Settings, problems: &mut Vec<Problem>) {
    if !settings.currency.is_empty() {
        return;
    }
    match (&entries.currency, entries.prices.first()) {
        (Some(code), _) => settings.currency.clone_from(code),
        (None, Some(row)) => problems.push(
            Fault::new(
                Code::CurrencyUnknown,
                "no currency sign was seen, so money is shown without one",
                "Add a setting: Currency, then its code such as USD, EUR or GBP.",
            )
            .at(row.input.place(Column::Price)),
        ),
        (None, None) => {}
    }
}
