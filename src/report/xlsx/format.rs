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
        Look::Words => format.set_indent(1),
        Look::Wrapped => format.set_text_wrap().set_align(FormatAlign::Top),
        look => match number_format(look) {
            Some(number_format) => format.set_num_format(number_format),
            None => format,
        },
    }
}

/// How the numbers of a look are written; `None` where that is left to the program.
pub(super) fn number_format(look: &Look) -> Option<String> {
    Some(match look {
        Look::Money(sign) => format!("{}#,##0.00##", in_quotes(sign)),
        Look::UnitCost(sign) => format!("{}#,##0.000000", in_quotes(sign)),
        Look::Percent(0) => "0%".to_owned(),
        Look::Percent(places) => format!("0.{}%", "0".repeat(usize::try_from(*places).unwrap_or_default())),
        Look::Quantity => "#,##0.###".to_owned(),
        Look::Date => "yyyy-mm-dd".to_owned(),
        Look::Fraction => "# ??/??".to_owned(),
        Look::General | Look::Words | Look::Wrapped => return None,
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
