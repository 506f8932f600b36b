//! The settings in force as rows, and where they stand: whatever they came from, the workbook holds them as its own.

use crate::kitchen::recipe::QFactor;
use crate::kitchen::settings::{PriceRounding, Setting};
use crate::kitchen::{InputRow, Kitchen};
use crate::measure::{Volumes, currency};
use crate::number::Decimal;
use crate::schema::{Column, Shown, TableKind, Typed, Value};
use crate::workbook::cells::formula::{Key, KeyText, Ref};
use crate::workbook::layout::recipe::below;
use crate::workbook::layout::sheet_names;

/// A row of the sheet.
#[derive(Debug, Clone)]
pub struct SettingLine {
    setting: Option<Setting>,
    /// The setting's name.
    pub name: Typed,
    /// Its value.
    pub value: Typed,
}

/// Where the settings stand.
#[derive(Debug, Clone)]
pub struct SettingsLayout {
    /// The rows of the sheet, below its header.
    pub lines: Vec<SettingLine>,
    /// For every setting row of the book, the line that stands for it.
    of_rows: Vec<Option<usize>>,
}

impl SettingsLayout {
    /// The settings of a kitchen.
    pub fn of(kitchen: &Kitchen) -> Self {
        let rows = &kitchen.entries.settings;
        let mut lines = Vec::new();
        let mut of_rows: Vec<Option<usize>> = vec![None; rows.len()];
        for setting in Setting::ALL.iter().copied() {
            let typed: Vec<usize> =
                (0..rows.len()).filter(|at| rows.get(*at).is_some_and(|row| row.setting == Some(setting))).collect();
            let first = typed.first().and_then(|at| rows.get(*at)).map(|row| &row.input);
            if kitchen.settings.is_broken(setting) {
                // What could not be read, or was said twice, is written as it was typed.
                for at in typed {
                    if let (Some(row), Some(slot)) = (rows.get(at), of_rows.get_mut(at)) {
                        *slot = Some(lines.len());
                        lines.push(as_typed(Some(setting), &row.input));
                    }
                }
            } else if let Some(value) = in_force(kitchen, setting, first) {
                for at in typed {
                    if let Some(slot) = of_rows.get_mut(at) {
                        *slot = Some(lines.len());
                    }
                }
                lines.push(SettingLine { setting: Some(setting), name: Typed::text(setting.name()), value });
            }
        }
        for (at, row) in rows.iter().enumerate() {
            if row.setting.is_none() {
                if let Some(slot) = of_rows.get_mut(at) {
                    *slot = Some(lines.len());
                }
                lines.push(as_typed(None, &row.input));
            }
        }
        SettingsLayout { lines, of_rows }
    }

    /// Where the value of a setting stands.
    pub fn value(&self, setting: Setting) -> Option<Ref> {
        let at = self.lines.iter().position(|line| line.setting == Some(setting))?;
        // Its name tells its row.
        let last = cell(self.lines.len().saturating_sub(1), 0).row;
        Some(cell(at, 1).keyed(Key { column: 0, last, text: KeyText::Words(setting.name()), looked_up: true }))
    }

    /// That more settings stand on the sheet than do as it is written, or under other headers, by which it is no table of
    /// settings, as formulas of another sheet see it.
    pub fn more(&self, sheet: &str) -> String {
        let named = self.lines.iter().filter(|line| !line.name.is_blank()).count();
        let last = below(cell(self.lines.len().saturating_sub(1), 0).row);
        let at = |row| Ref { row, ..cell(0, 0) };
        let all = format!("{}:{}", at(0).from(sheet), at(last).absolute());
        let headers = [Column::Setting, Column::Value].into_iter().zip(0_u16..).map(|(column, at)| {
            let header = Ref { row: 0, ..cell(0, at) };
            format!(",{}<>\"{}\"", header.from(sheet), TableKind::Settings.header(column))
        });
        let headers: String = headers.collect();
        format!("OR(COUNTA({all})>{}{headers})", named.saturating_add(1))
    }

    /// Where a setting row of the book, by its index, stands now: in its name's column or its value's.
    pub fn of_row(&self, index: usize, column: Column) -> Option<Ref> {
        let at = self.of_rows.get(index).copied().flatten()?;
        Some(cell(at, u16::from(column == Column::Value)))
    }
}

fn cell(line: usize, column: u16) -> Ref {
    Ref::new(
        sheet_names::of_table(TableKind::Settings),
        u32::try_from(line).unwrap_or(u32::MAX).saturating_add(1),
        column,
    )
}

fn as_typed(setting: Option<Setting>, row: &InputRow) -> SettingLine {
    SettingLine { setting, name: row.typed(Column::Setting).clone(), value: row.typed(Column::Value).clone() }
}

/// The value in force, as a cell; `None` where there is none.
fn in_force(kitchen: &Kitchen, setting: Setting, typed: Option<&InputRow>) -> Option<Typed> {
    let settings = &kitchen.settings;
    let sign = currency::sign_of(&settings.currency).to_owned();
    let percent = |fraction: Decimal| Typed { value: Value::Number(fraction), shown: Shown::Percent };
    let money = |amount: Decimal| Typed {
        value: Value::Number(amount),
        shown: if sign.is_empty() { Shown::Plain } else { Shown::Money(sign.clone()) },
    };
    let text = |text: &str| (!text.is_empty()).then(|| Typed::text(text));
    match setting {
        Setting::HouseName => text(&settings.house_name),
        Setting::Currency => text(&settings.currency),
        Setting::CostingDate => Some(Typed { value: Value::Date(settings.costing_date), shown: Shown::Date }),
        Setting::TargetFoodCost => settings.target.map(percent),
        Setting::QFactor => settings.q.map(|q| match q {
            QFactor::Share(share) => percent(share),
            // Money must say that it is money.
            QFactor::Money(amount) => match typed.map(|row| row.typed(Column::Value)) {
                Some(typed) if !typed.is_blank() => typed.clone(),
                _ => money(amount),
            },
        }),
        Setting::SpiceFactor => settings.spice.map(percent),
        Setting::SpiceCoversQ => text(if settings.spice_covers_q { "yes" } else { "no" }),
        Setting::TaxIncluded => Some(percent(settings.tax)),
        Setting::PriceTax => settings.price_tax.map(percent),
        Setting::PriceStep => match settings.rounding {
            PriceRounding::Step(step) => Some(money(step)),
            _ => None,
        },
        Setting::PriceEnding => match settings.rounding {
            PriceRounding::Ending(ending) => Some(money(ending)),
            _ => None,
        },
        Setting::PriceAge => Some(Typed::number(settings.price_age)),
        Setting::Volumes => text(match settings.volumes {
            Volumes::Us => "US",
            Volumes::Imperial => "Imperial",
            Volumes::Metric => "Metric",
        }),
        Setting::WasteHaulage => typed.map(|row| row.typed(Column::Value).clone()).filter(|typed| !typed.is_blank()),
    }
}
