//! JSON Schemas (draft 2020-12) of everything that is printed as JSON, made from the very types that are written.
//!
//! They are published in `schemas/`, one file each; `cargo run --example make-schemas` writes them anew.

use schemars::generate::SchemaSettings;
use schemars::transform::{RecursiveTransform, Transform};
use schemars::{JsonSchema, Schema};
use serde_json::Value;

use crate::output::json::pretty;
use crate::results::{costs, explained, food_control, foods, found, menu_mix, order_list, reprice, scale, trim, why};

/// Every schema: the name of its file without the ending, and its text.
pub fn all() -> [(&'static str, String); 12] {
    [
        ("cost", of::<costs::CostResults<'_>>()),
        ("check", of::<found::FoundResults<'_>>()),
        ("trim", of::<trim::TrimResults<'_>>()),
        ("mix", of::<menu_mix::MenuMixResults<'_>>()),
        ("buy", of::<order_list::OrderListResults<'_>>()),
        ("control", of::<food_control::FoodControlResults<'_>>()),
        ("reprice", of::<reprice::RepriceResults<'_>>()),
        ("why", of::<why::WhyResults<'_>>()),
        ("scale", of::<scale::ScaleResults<'_>>()),
        ("explain", of::<explained::ExplainedResults<'_>>()),
        ("food", of::<foods::FoodsResult>()),
        ("food-for", of::<foods::ProposalsResult<'_>>()),
    ]
}

/// The schema of what is written of a type. Objects are closed, and every key of theirs is always there: what is not
/// known is null.
fn of<T: JsonSchema>() -> String {
    let settings = SchemaSettings::draft2020_12().for_serialize();
    let mut schema = settings.into_generator().into_root_schema_for::<T>();
    RecursiveTransform(settle).transform(&mut schema);
    pretty(&schema)
}

/// Closes an object; leaves out what is Rust's alone: the width of its integers, the line breaks of its comments.
fn settle(schema: &mut Schema) {
    if schema.get("type").is_some_and(|kind| kind == "object") {
        schema.insert("additionalProperties".to_owned(), Value::Bool(false));
    }
    if schema.get("type").is_some_and(|kind| kind == "integer") {
        schema.remove("format");
    }
    if let Some(Value::String(text)) = schema.get_mut("description") {
        *text = text.replace('\n', " ");
    }
}
