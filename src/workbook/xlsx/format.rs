//! Formats of every kind of cell: one format for each ink and look.

use rust_xlsxwriter::{Color, Format, FormatAlign, FormatBorder, FormatUnderline};

use crate::workbook::cells::row::{Ink, Look, Tab};

const ACCENT: Color = Color::RGB(0x2F_5D_50);
const GROUND: Color = Color::RGB(0xFB_F6_E9);
const HAIR: Color = Color::RGB(0xC9_C1_AC);
const WARM: Color = Color::RGB(0xA8_5B_14);

/// The letters of what is read on the wall, in points.
const WALL: u32 = 13;

/// Inputs stand on a pale ground with a hairline round them, readings are slanted, figures are upright on white: three
/// kinds, told apart in print.
pub(super) fn format_of(ink: Ink, look: &Look) -> Format {
    let plain = with_look(Format::new(), look);
    let top = |format: Format| format.set_align(FormatAlign::Top);
    match ink {
        Ink::Input => boxed(top(plain)),
        Ink::Fact | Ink::LongFact => boxed(top(plain).set_align(FormatAlign::Left)),
        Ink::Reading if *look == Look::Date => top(plain).set_italic().set_align(FormatAlign::Left),
        Ink::Reading => top(plain).set_italic(),
        Ink::Link => top(plain).set_italic().set_underline(FormatUnderline::Single).set_font_color(ACCENT),
        Ink::Total => top(plain).set_bold().set_border_top(FormatBorder::Thin).set_border_top_color(ACCENT),
        Ink::Figure | Ink::Plain => top(plain),
        Ink::Title => top(plain).set_bold().set_font_size(16).set_font_color(ACCENT),
        Ink::Section => plain.set_bold().set_font_size(12).set_font_color(ACCENT),
        Ink::Header => header(plain),
        Ink::HeaderLink => header(plain).set_underline(FormatUnderline::Single),
        Ink::OwnHeader => header(plain).set_italic(),
        Ink::Label => top(plain).set_bold(),
        Ink::Aside => top(plain).set_font_size(8).set_font_color(Color::RGB(0x6B_6A_63)),
        Ink::Wall => top(plain).set_font_size(WALL),
        Ink::WallFact => top(plain).set_font_size(WALL).set_align(FormatAlign::Left),
        Ink::WallLabel => top(plain).set_font_size(WALL).set_bold(),
        Ink::WallHead => {
            ruled(plain).set_bold().set_font_size(WALL).set_font_color(ACCENT).set_align(FormatAlign::Bottom)
        }
        Ink::WallTitle => top(plain).set_font_size(20).set_bold().set_font_color(ACCENT),
        Ink::WallRule => format_of(Ink::ToWriteOn, look).set_font_size(WALL),
        Ink::ToWriteOn => plain.set_border_bottom(FormatBorder::Thin).set_border_bottom_color(HAIR),
    }
}

fn boxed(format: Format) -> Format {
    format.set_background_color(GROUND).set_border(FormatBorder::Thin).set_border_color(HAIR).set_unlocked()
}

fn header(format: Format) -> Format {
    ruled(format.set_bold()).set_text_wrap().set_align(FormatAlign::Bottom)
}

fn ruled(format: Format) -> Format {
    format.set_border_bottom(FormatBorder::Medium).set_border_bottom_color(ACCENT)
}

/// What catches the eye: told by weight as well as by colour.
pub(super) fn alert() -> Format {
    Format::new().set_bold().set_font_color(WARM)
}

/// The colour of a sheet's tab.
pub(super) fn tab(tab: Tab) -> Option<Color> {
    match tab {
        Tab::Output => Some(ACCENT),
        Tab::Card => Some(Color::RGB(0xA9_C9_BB)),
        Tab::Inputs => Some(Color::RGB(0xE6_D9_B4)),
        Tab::Carried => None,
    }
}

fn with_look(format: Format, look: &Look) -> Format {
    match look {
        // The number format that the standard keeps for it (ECMA-376 part 1, 18.8.30).
        Look::RegionMoney => format.set_num_format_index(7),
        Look::General => format,
        Look::Words => format.set_align(FormatAlign::Left).set_indent(1),
        Look::Wrapped | Look::Flowing(_) => format.set_text_wrap(),
        Look::OverFigures => format.set_align(FormatAlign::Right),
        look => match number_format(look) {
            Some(number_format) => format.set_num_format(number_format),
            None => format,
        },
    }
}

/// How the numbers of a look are written; `None` where that is left to the program.
pub(super) fn number_format(look: &Look) -> Option<String> {
    let decimals = |places: u32| match usize::try_from(places) {
        Ok(places) if places > 0 => format!(".{}", "0".repeat(places)),
        _ => String::new(),
    };
    Some(match look {
        Look::Money { sign, places } => format!("{}#,##0{}", in_quotes(sign), decimals(*places)),
        Look::Percent(places) => format!("0{}%", decimals(*places)),
        // A place that is always filled: else a whole number would end with its point.
        Look::Quantity => "#,##0.0##".to_owned(),
        Look::Whole => "#,##0".to_owned(),
        Look::Date => "yyyy-mm-dd".to_owned(),
        Look::Fraction => "# ??/??".to_owned(),
        Look::General | Look::RegionMoney | Look::Words | Look::Wrapped | Look::Flowing(_) | Look::OverFigures => {
            return None;
        }
    })
}

/// A currency sign as a number format quotes it; a code stands a space apart.
fn in_quotes(sign: &str) -> String {
    if sign.is_empty() {
        return String::new();
    }
    let space = if sign.chars().count() > 1 { " " } else { "" };
    format!("\"{}\"{space}", sign.replace('"', ""))
}
