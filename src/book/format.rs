//! Number formats, and what one says about its number: a percentage, money, a date, a fraction, or nothing.
//!
//! Takes the format code as a workbook stores it; gives a [`Shown`]. Format codes: ECMA-376 part 1, 18.8.30 and
//! 18.8.31.

use crate::measure::currency;
use crate::schema::Shown;

/// What the format `code` with the number `id` says. Numbers 5 to 8 are money in the sign of the user's region, which
/// a workbook does not store.
pub fn shown(code: &str, id: Option<u32>) -> Shown {
    match (id, code) {
        (Some(5..=8), "" | "General") => Shown::Money(String::new()),
        _ => of_code(code),
    }
}

/// What the text says that a number is shown as, `$178.50`, `1/2` or `12,40 €`, where a file keeps that text.
pub fn of_text(text: &str) -> Shown {
    let mut said = FormatCode { digits: text.contains(|c: char| c.is_ascii_digit()), ..FormatCode::default() };
    said.slash = text.contains('/');
    said.percent = text.contains('%');
    let dress = |c: char| !(c.is_ascii_digit() || c.is_whitespace() || matches!(c, '-' | '(' | ')' | '/' | '%'));
    let words = text.split(|c: char| !dress(c)).map(|word| word.trim_matches([',', '\'', '\u{2019}']));
    words.for_each(|word| said.quoted(word));
    said.shown()
}

/// What a format says that is built in under this number (ECMA-376 part 1, 18.8.30); those without a code of their own
/// in a file.
pub fn of_builtin(id: u16) -> Shown {
    match id {
        5..=8 | 42 | 44 => Shown::Money(String::new()),
        9 | 10 => Shown::Percent,
        12 | 13 => Shown::Fraction,
        14..=22 | 27..=36 | 45..=47 | 50..=58 => Shown::Date,
        _ => Shown::Plain,
    }
}

/// What the first section of a format code, the one for positive numbers, says.
fn of_code(code: &str) -> Shown {
    let mut said = FormatCode::default();
    let mut rest = code.chars();
    while let Some(c) = rest.next() {
        match c {
            ';' => break,
            // A sign may be escaped: `\$`. The others stand for a width or fill and show nothing.
            '\\' => said.literal(rest.next()),
            '_' | '*' => drop(rest.next()),
            '"' => said.quoted(&rest.by_ref().take_while(|c| *c != '"').collect::<String>()),
            '[' => said.bracketed(&rest.by_ref().take_while(|c| *c != ']').collect::<String>()),
            '%' => said.percent = true,
            '/' => said.slash = true,
            '?' | '#' | '0' => said.digits = true,
            'd' | 'D' | 'm' | 'M' | 'y' | 'Y' | 'h' | 'H' | 's' | 'S' => said.date = true,
            // `General`, and `E+00`: letters that are no part of a date.
            'G' => drop(rest.by_ref().take("eneral".len()).count()),
            c => said.literal(Some(c)),
        }
    }
    said.shown()
}

/// The most characters of a currency's sign or code.
const MOST_SIGN: usize = 16;

/// What was seen in a format so far.
#[derive(Debug, Default)]
struct FormatCode {
    percent: bool,
    date: bool,
    slash: bool,
    digits: bool,
    money: Option<String>,
}

impl FormatCode {
    /// A character that is shown as it is.
    fn literal(&mut self, c: Option<char>) {
        if let Some(c) = c.filter(|c| is_sign(*c)) {
            self.money.get_or_insert_default().push(c);
        }
    }

    /// Text that is shown as it is.
    fn quoted(&mut self, text: &str) {
        let text = text.trim();
        if text.chars().any(is_sign) || currency::is_beside_amounts(text) {
            self.money.get_or_insert_with(|| text.to_owned());
        }
    }

    /// A colour, a condition, a locale, a currency such as `$€-407`, or elapsed time.
    fn bracketed(&mut self, text: &str) {
        if let Some(currency) = text.strip_prefix('$') {
            let sign = currency.split_once('-').map_or(currency, |(sign, _)| sign).trim();
            if !sign.is_empty() {
                self.money.get_or_insert_with(|| sign.to_owned());
            }
        } else if !text.is_empty() && text.bytes().all(|byte| matches!(byte | 32, b'h' | b'm' | b's')) {
            self.date = true;
        }
    }

    /// What all of it says.
    fn shown(self) -> Shown {
        match self {
            FormatCode { date: true, .. } => Shown::Date,
            FormatCode { percent: true, .. } => Shown::Percent,
            // Longer than any sign of a currency it is none, and every cell would bear it.
            FormatCode { money: Some(sign), .. } => Shown::Money(sign.chars().take(MOST_SIGN).collect()),
            FormatCode { slash: true, digits: true, .. } => Shown::Fraction,
            _ => Shown::Plain,
        }
    }
}

/// Whether a character is a currency sign (Unicode category Sc).
fn is_sign(c: char) -> bool {
    matches!(
        c,
        '$' | '\u{A2}'..='\u{A5}'
            | '\u{58F}' | '\u{60B}' | '\u{9F2}' | '\u{9F3}' | '\u{E3F}' | '\u{17DB}'
            | '\u{20A0}'..='\u{20CF}'
            | '\u{FDFC}' | '\u{FE69}' | '\u{FF04}' | '\u{FFE0}' | '\u{FFE1}' | '\u{FFE5}' | '\u{FFE6}'
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn money(sign: &str) -> Shown {
        Shown::Money(sign.to_owned())
    }

    #[test]
    fn percentages() {
        for code in ["0%", "0.00%", "0.0 %", "[Red]0%;-0%", "0.0\\ %"] {
            assert_eq!(of_code(code), Shown::Percent, "{code}");
        }
        for code in ["0\"%\"", "0\\%", "0;0%"] {
            assert_eq!(of_code(code), Shown::Plain, "{code}: a literal, or not the first section");
        }
    }

    #[test]
    fn the_text_of_a_number_says_what_its_format_says() {
        for (text, sign) in
            [("$178.50", "$"), ("12,40 €", "€"), ("-£1,234.00", "£"), ("USD 12.40", "USD"), ("5 kr.", "kr.")]
        {
            assert_eq!(of_text(text), money(sign), "{text}");
        }
        assert_eq!(of_text("28 %"), Shown::Percent);
        assert_eq!(of_text("1 1/2"), Shown::Fraction);
        for text in ["178.50", "1,234", "1.234,50", "-3", "", "3 lb", "1E+05", "12'000.00"] {
            assert_eq!(of_text(text), Shown::Plain, "{text}");
        }
    }

    #[test]
    fn money_in_all_its_dress() {
        for (code, sign) in [
            ("$#,##0.00", "$"),
            ("\"$\"#,##0.00_);\\(\"$\"#,##0.00\\)", "$"),
            ("\\$0.00", "$"),
            ("[$€-407]\\ #,##0.00", "€"),
            ("#,##0.00\\ [$€-407]", "€"),
            ("#,##0.00 €", "€"),
            ("[$USD]\\ 0.00", "USD"),
            ("[$USD] #,##0.00", "USD"),
            ("[$$-409]#,##0.00", "$"),
            ("[$£-809]0.00", "£"),
            ("\"£\"#,##0.00", "£"),
            ("\"US$\" 0.00", "US$"),
            ("0.00 \"EUR\"", "EUR"),
            ("0.00 \"TOP\"", "TOP"),
            ("\"XCG\" 0.00", "XCG"),
            ("#,##0.00 [$kr-414]", "kr"),
            ("0.00 \"kr\"", "kr"),
            ("[$CHF-807] 0.00", "CHF"),
            // The built-in accounting format 44.
            ("_($* #,##0.00_);_($* (#,##0.00);_($* \"-\"??_);_(@_)", "$"),
            ("_-* #,##0.00\\ [$€-40C]_-;-* #,##0.00\\ [$€-40C]_-", "€"),
            ("_(\"$\"* #,##0.00_)", "$"),
        ] {
            assert_eq!(of_code(code), money(sign), "{code}");
        }
        assert_eq!(shown("General", Some(7)), money(""), "the region's own sign");
        assert_eq!(shown("General", Some(0)), Shown::Plain);
    }

    #[test]
    fn quoted_units_are_not_money() {
        for code in ["0.0 \"kg\"", "0 \"CUP\"", "0\" CAN\"", "0 \"LBS\"", "0 \"oz\"", "0 \"days\"", "_$0.00", "*$0"] {
            assert_eq!(of_code(code), Shown::Plain, "{code}");
        }
    }

    #[test]
    fn dates_and_times() {
        for code in
            ["m/d/yy", "d-mmm", "yyyy\\-mm\\-dd", "[$-409]d\\-mmm;@", "h:mm AM/PM", "[h]:mm", "[mm]:ss", "mmss.0"]
        {
            assert_eq!(of_code(code), Shown::Date, "{code}");
        }
    }

    #[test]
    fn fractions() {
        for code in ["# ?/?", "# ??/??", "?/?", "# ?/8", "# ??/16", "#\\ ?/2"] {
            assert_eq!(of_code(code), Shown::Fraction, "{code}");
        }
    }

    #[test]
    fn the_rest_is_plain() {
        for code in [
            "General",
            "0",
            "0.00",
            "#,##0.00",
            "@",
            "0.00E+00",
            "##0.0E+0",
            "General;General",
            "[Red]0.00",
            "",
            "[Blue]General",
        ] {
            assert_eq!(of_code(code), Shown::Plain, "{code}");
        }
        for broken in ["\"", "[", "\\", "_", "[$", "[$-", "\"$", "[]", "*"] {
            let _ = of_code(broken);
        }
    }
}
