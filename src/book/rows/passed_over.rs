//! Rows of an invoice that are no price by what they say: credits, deposits, charges, totals.

use super::reader::Reader;
use crate::book::find::passed_over;
use crate::number::Decimal;
use crate::schema::Column;

/// Words of which a line that bills a delivery may wholly consist. Common practice, no source.
const CHARGES: &[&str] =
    &["delivery", "shipping", "carriage", "postage", "fuel", "service", "charge", "charges", "fee", "fees"];

impl Reader<'_> {
    /// Whether the row is no price but a credit, a deposit, a charge or a total, which is told.
    pub(super) fn is_no_price(&mut self) -> bool {
        let blank = |column| self.input.typed(column).is_blank();
        let text = self.input.text(Column::Item);
        let lower = text.to_lowercase();
        let words: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
        let says = |word: &str| words.contains(&word);
        let below = |column| self.proof(column).is_some_and(|number| number < Decimal::ZERO);
        let on_invoice = !blank(Column::Qty) || !blank(Column::Extended);
        let bare = [Column::Pack, Column::PackCount, Column::UnitSize, Column::Code].into_iter().all(blank);
        let charge = says("surcharge")
            || says("handling")
            || says("freight")
            || lower.starts_with("fuel ")
            || (says("delivery") && (says("charge") || says("fee") || says("order") || says("value")))
            || (!words.is_empty() && words.iter().all(|word| CHARGES.contains(word)));
        let total = says("subtotal") || says("total") || lower.starts_with("sales tax") || lower.starts_with("vat ");
        let why = if on_invoice && [Column::Qty, Column::Extended, Column::Price].into_iter().any(below) {
            "is a credit"
        } else if says("deposit") || says("deposits") {
            "is a deposit"
        } else if bare && charge {
            "is a charge for the whole delivery"
        } else if bare && total && blank(Column::Price) {
            "is a total or tax"
        } else {
            return false;
        };
        self.report(Column::Item, passed_over(&text, why));
        true
    }
}
