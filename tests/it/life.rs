//! The life of the costed workbook: what is typed comes through it as it was typed, whatever it looks like; its sheets
//! bear names that a workbook allows; it serves one recipe and thousands; and it says when another price row has become
//! the better one.

mod better_row;
mod sheet_names;
mod sizes;
mod texts;
