//! How every kind of cell looks: one format for each ink and look.

use rust_xlsxwriter::{Color, Format, FormatAlign, FormatBorder};

use crate::report::row::{Ink, Look};

/// Inputs stand on a pale ground, readings are slanted, figures are upright on white: three kinds, told apart in print.
pub(super) fn format_of(ink: Ink, look: &Look) -> Format {
    const ACCENT: Color = Color::RGB(0x2F_5D_50);
    const GROUND: Color = Color::RGB(0xFB_F6_E9);
    let plain = with_look(Format::new(), look);
    match ink {
        Ink::Input => plain.set_background_color(GROUND).set_border(FormatBorder::Hair).set_unlocked(),
        Ink::Reading => plain.set_italic(),
        Ink::Figure | Ink::Plain => plain,
        Ink::Title => plain.set_bold().set_font_size(14).set_font_color(ACCENT),
        Ink::Header => plain.set_bold().set_border_bottom(FormatBorder::Thin).set_text_wrap(),
        Ink::OwnHeader => plain.set_bold().set_italic().set_border_bottom(FormatBorder::Thin).set_text_wrap(),
        Ink::Label => plain.set_bold(),
    }
}

fn with_look(format: Format, look: &Look) -> Format {
    match look {
        Look::General => format,
        // The region's own currency format: the cell shows money and names no sign.
        Look::Money(sign) if sign.is_empty() => format.set_num_format_index(7),
        Look::Money(sign) => format.set_num_format(format!("{}#,##0.00##", in_quotes(sign))),
        Look::UnitCost(sign) => format.set_num_format(format!("{}#,##0.000000", in_quotes(sign))),
        Look::Percent(0) => format.set_num_format("0%"),
        Look::Percent(places) => {
            format.set_num_format(format!("0.{}%", "0".repeat(usize::try_from(*places).unwrap_or_default())))
        }
        Look::Quantity => format.set_num_format("#,##0.###"),
        Look::Date => format.set_num_format("yyyy-mm-dd"),
        Look::Fraction => format.set_num_format("# ??/??"),
        Look::Words => format.set_indent(1),
        Look::Wrapped => format.set_text_wrap().set_align(FormatAlign::Top),
    }
}

/// A currency sign as a number format quotes it; a code stands a space apart.
fn in_quotes(sign: &str) -> String {
    if sign.is_empty() {
        return String::new();
    }
    let space = if sign.chars().count() > 1 { " " } else { "" };
    format!("\"{}\"{space}", sign.replace('"', ""))
}
