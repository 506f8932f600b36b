//! Rows of the settings table, each value read as its setting wants it.

use super::reader::Reader;
use crate::kitchen::Field;
use crate::kitchen::settings::{Setting, SettingRow, SettingValue};
use crate::measure::{Dimension, Unit, Volumes, currency, parse_money};
use crate::number::{BareRule, Decimal};
use crate::problem::{Code, Fault, suggest};
use crate::schema::Column;

/// Reads a setting row.
pub(super) fn row(mut reader: Reader<'_>) -> SettingRow {
    let name = reader.text(Column::Setting).unwrap_or_default();
    let letters = |text: &str| text.chars().filter(|c| c.is_alphanumeric()).collect::<String>().to_lowercase();
    let wanted = letters(name.split('(').next().unwrap_or(&name));
    let setting = Setting::ALL.iter().copied().find(|setting| letters(setting.name()) == wanted);
    let Some(setting) = setting else {
        let near = suggest::did_you_mean(&name, Setting::ALL.iter().map(|setting| setting.name()));
        let fault = Fault::new(
            Code::SettingUnknown,
            format!("“{name}” is not a setting that parings knows"),
            near.unwrap_or_else(|| "It is carried along and changes nothing.".to_owned()),
        );
        reader.report(Column::Setting, fault);
        return SettingRow { input: reader.input, setting: None, value: Field::Blank };
    };
    // Messages call the value by its setting.
    reader.about = Some(setting.name());
    let value = reader.setting(setting);
    SettingRow { input: reader.input, setting: Some(setting), value }
}

impl Reader<'_> {
    fn setting(&mut self, setting: Setting) -> Field<SettingValue> {
        match setting {
            Setting::HouseName => self.words(),
            Setting::Currency => self.currency(),
            Setting::CostingDate => self.date(Column::Value).map(SettingValue::Date),
            Setting::TargetFoodCost => self.share(Column::Value, BareRule::UpToOne, false).map(SettingValue::Fraction),
            Setting::QFactor => self.q_factor(Column::Value).map(SettingValue::Q),
            Setting::SpiceFactor => self.percent(Column::Value, BareRule::BelowOne).map(SettingValue::Fraction),
            Setting::SpiceCoversQ => self.yes_no(Column::Value).map(SettingValue::YesNo),
            Setting::TaxIncluded => self.tax(setting, "menu prices"),
            Setting::PriceTax => self.tax(setting, "the prices of what is bought"),
            Setting::PriceStep => {
                let step = self.money(Column::Value);
                self.above_zero(setting, step)
            }
            Setting::PriceEnding => self.ending(),
            Setting::PriceAge => {
                let days = self.number(Column::Value);
                self.above_zero(setting, days)
            }
            Setting::Volumes => self.volumes_setting(),
            Setting::WasteHaulage => self.haulage(),
        }
    }

    fn words(&mut self) -> Field<SettingValue> {
        match self.text(Column::Value) {
            None => Field::Broken,
            Some(text) if text.is_empty() => Field::Blank,
            Some(text) => Field::Given(SettingValue::Text(text)),
        }
    }

    fn wrong(&mut self, setting: Setting, help: &str) -> Field<SettingValue> {
        let seen = self.input.text(Column::Value);
        self.fail(Column::Value, Fault::new(Code::SettingWrong, format!("{} is “{seen}”", setting.name()), help))
    }

    fn currency(&mut self) -> Field<SettingValue> {
        let Some(text) = self.text(Column::Value) else { return Field::Broken };
        if text.is_empty() {
            return Field::Blank;
        }
        match currency::code_of(&text) {
            Some(iso) => Field::Given(SettingValue::Text(iso.to_owned())),
            None => self.wrong(Setting::Currency, "Type its code, such as USD, EUR or GBP."),
        }
    }

    /// A rate, or no.
    fn tax(&mut self, setting: Setting, of: &str) -> Field<SettingValue> {
        match self.text(Column::Value).map(|text| text.to_lowercase()).as_deref() {
            Some("no" | "none") => Field::Given(SettingValue::YesNo(false)),
            Some("yes") => self.wrong(setting, &format!("Type the rate of tax within {of}, such as 8%, or no.")),
            _ => self.percent(Column::Value, BareRule::BelowOne).map(SettingValue::Fraction),
        }
    }

    fn above_zero(&mut self, setting: Setting, number: Field<Decimal>) -> Field<SettingValue> {
        match number {
            Field::Given(number) if number > Decimal::ZERO => Field::Given(SettingValue::Number(number)),
            Field::Given(_) => self.wrong(setting, "Type a number above zero, or clear the row."),
            Field::Blank => Field::Blank,
            Field::Broken => Field::Broken,
        }
    }

    fn ending(&mut self) -> Field<SettingValue> {
        match self.money(Column::Value) {
            Field::Given(number) if number < Decimal::ONE => Field::Given(SettingValue::Number(number)),
            Field::Given(_) => self.wrong(Setting::PriceEnding, "Type what prices end in, such as .95."),
            Field::Blank => Field::Blank,
            Field::Broken => Field::Broken,
        }
    }

    fn volumes_setting(&mut self) -> Field<SettingValue> {
        let Some(text) = self.text(Column::Value) else { return Field::Broken };
        if text.is_empty() {
            return Field::Blank;
        }
        match Volumes::parse(&text) {
            Some(volumes) => Field::Given(SettingValue::Volumes(volumes)),
            None => self.wrong(Setting::Volumes, "Type US, Imperial or Metric."),
        }
    }

    /// Money per weight: `0.12 / lb`.
    fn haulage(&mut self) -> Field<SettingValue> {
        const HELP: &str = "Type money per weight, such as 0.12 / lb.";
        let Some(text) = self.text(Column::Value) else { return Field::Broken };
        if text.is_empty() {
            return Field::Blank;
        }
        let Ok(money) = parse_money(&text, self.marks(Column::Value)) else {
            return self.wrong(Setting::WasteHaulage, HELP);
        };
        let unit = money.per.as_deref().and_then(Unit::parse).filter(|unit| unit.dimension() == Dimension::Mass);
        match unit {
            Some(unit) if money.amount >= Decimal::ZERO => {
                if let Err(fault) = self.sign(Column::Value, &money.sign.unwrap_or_default()) {
                    return self.fail(Column::Value, fault);
                }
                Field::Given(SettingValue::PerWeight(money.amount, unit))
            }
            _ => self.wrong(Setting::WasteHaulage, HELP),
        }
    }
}
