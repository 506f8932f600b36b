//! Currencies: which ISO 4217 codes there are, which signs stand for them, and their minor units.
//!
//! Takes a sign or code as typed; gives the ISO code. Lists after ISO 4217 (from memory).

use crate::number::{Decimal, half_up};

/// The active ISO 4217 codes of money that is spent.
const CODES: &[&str] = &[
    "AED", "AFN", "ALL", "AMD", "ANG", "AOA", "ARS", "AUD", "AWG", "AZN", "BAM", "BBD", "BDT", "BGN", "BHD", "BIF",
    "BMD", "BND", "BOB", "BRL", "BSD", "BTN", "BWP", "BYN", "BZD", "CAD", "CDF", "CHF", "CLP", "CNY", "COP", "CRC",
    "CUP", "CVE", "CZK", "DJF", "DKK", "DOP", "DZD", "EGP", "ERN", "ETB", "EUR", "FJD", "FKP", "GBP", "GEL", "GHS",
    "GIP", "GMD", "GNF", "GTQ", "GYD", "HKD", "HNL", "HTG", "HUF", "IDR", "ILS", "INR", "IQD", "IRR", "ISK", "JMD",
    "JOD", "JPY", "KES", "KGS", "KHR", "KMF", "KPW", "KRW", "KWD", "KYD", "KZT", "LAK", "LBP", "LKR", "LRD", "LSL",
    "LYD", "MAD", "MDL", "MGA", "MKD", "MMK", "MNT", "MOP", "MRU", "MUR", "MVR", "MWK", "MXN", "MYR", "MZN", "NAD",
    "NGN", "NIO", "NOK", "NPR", "NZD", "OMR", "PAB", "PEN", "PGK", "PHP", "PKR", "PLN", "PYG", "QAR", "RON", "RSD",
    "RUB", "RWF", "SAR", "SBD", "SCR", "SDG", "SEK", "SGD", "SHP", "SLE", "SOS", "SRD", "SSP", "STN", "SVC", "SYP",
    "SZL", "THB", "TJS", "TMT", "TND", "TOP", "TRY", "TTD", "TWD", "TZS", "UAH", "UGX", "USD", "UYU", "UZS", "VED",
    "VES", "VND", "VUV", "WST", "XAF", "XCD", "XCG", "XOF", "XPF", "YER", "ZAR", "ZMW", "ZWG",
];

/// Signs, and the codes they may stand for: the usual one first. Longer signs stand before those they contain.
const SIGNS: &[(&str, &[&str])] = &[
    ("US$", &["USD"]),
    ("CA$", &["CAD"]),
    ("AU$", &["AUD"]),
    ("NZ$", &["NZD"]),
    ("HK$", &["HKD"]),
    ("MX$", &["MXN"]),
    ("NT$", &["TWD"]),
    ("C$", &["CAD"]),
    ("A$", &["AUD"]),
    ("S$", &["SGD"]),
    ("R$", &["BRL"]),
    (
        "$",
        &[
            "USD", "CAD", "AUD", "NZD", "SGD", "HKD", "TWD", "MXN", "ARS", "CLP", "COP", "UYU", "DOP", "CUP", "BBD",
            "BMD", "BND", "BSD", "BZD", "FJD", "GYD", "JMD", "KYD", "LRD", "NAD", "SBD", "SRD", "TTD", "XCD", "CVE",
        ],
    ),
    ("€", &["EUR"]),
    ("£", &["GBP", "EGP", "FKP", "GIP", "LBP", "SDG", "SHP", "SSP", "SYP"]),
    ("¥", &["JPY", "CNY"]),
    ("￥", &["JPY", "CNY"]),
    ("円", &["JPY"]),
    ("元", &["CNY"]),
    ("₹", &["INR"]),
    ("₩", &["KRW", "KPW"]),
    ("₪", &["ILS"]),
    ("₫", &["VND"]),
    ("₱", &["PHP"]),
    ("₺", &["TRY"]),
    ("₴", &["UAH"]),
    ("₽", &["RUB"]),
    ("₦", &["NGN"]),
    ("₡", &["CRC"]),
    ("₲", &["PYG"]),
    ("₵", &["GHS"]),
    ("₸", &["KZT"]),
    ("₼", &["AZN"]),
    ("₾", &["GEL"]),
    ("฿", &["THB"]),
    ("kr.", &["DKK", "NOK", "SEK", "ISK"]),
    ("kr", &["SEK", "DKK", "NOK", "ISK"]),
    ("zł", &["PLN"]),
    ("Kč", &["CZK"]),
    ("Ft", &["HUF"]),
    ("Fr.", &["CHF"]),
    ("Fr", &["CHF"]),
    ("lei", &["RON", "MDL"]),
    ("Rs.", &["INR", "PKR", "LKR", "NPR", "MUR", "SCR"]),
    ("Rs", &["INR", "PKR", "LKR", "NPR", "MUR", "SCR"]),
    ("Rp", &["IDR"]),
    ("RM", &["MYR"]),
    ("S/", &["PEN"]),
    ("R", &["ZAR"]),
];

/// Every sign, those that contain others first.
pub fn signs() -> impl Iterator<Item = &'static str> {
    SIGNS.iter().map(|(sign, _)| *sign)
}

/// Whether `code` is an ISO 4217 code, in capitals.
pub fn is_iso(code: &str) -> bool {
    CODES.contains(&code)
}

/// Whether text beside a number, such as a number format shows in quotes, makes money of it: an ISO code, or a sign written
/// in two or more letters. Not CUP: in a kitchen `0 "CUP"` is a measure.
pub fn is_beside_amounts(text: &str) -> bool {
    let is_word = |sign: &str| sign.chars().filter(|c| c.is_alphabetic()).count() > 1;
    (is_iso(text) && text != "CUP") || (is_word(text) && signs().any(|sign| sign == text))
}

/// The ISO code that a sign or code as typed usually stands for: `$` is USD, `€` EUR, `eur` EUR.
pub fn code_of(sign: &str) -> Option<&'static str> {
    let sign = sign.trim();
    let code = sign.to_uppercase();
    CODES.iter().find(|known| **known == code).copied().or_else(|| meanings(sign).first().copied())
}

/// Whether a sign or code as typed may stand for `iso`: `$` fits USD, CAD and AUD, but not EUR.
pub fn fits(sign: &str, iso: &str) -> bool {
    let sign = sign.trim();
    sign.eq_ignore_ascii_case(iso) || meanings(sign).contains(&iso)
}

fn meanings(sign: &str) -> &'static [&'static str] {
    SIGNS.iter().find(|(known, _)| *known == sign).map_or(&[], |(_, codes)| codes)
}

/// The decimals of an ISO code's minor unit: 2 of USD, 0 of JPY, 3 of KWD. Two where the code is not known.
pub fn minor_digits(iso: &str) -> u32 {
    match iso {
        "BIF" | "CLP" | "DJF" | "GNF" | "ISK" | "JPY" | "KMF" | "KRW" | "PYG" | "RWF" | "UGX" | "VND" | "VUV"
        | "XAF" | "XOF" | "XPF" => 0,
        "BHD" | "IQD" | "JOD" | "KWD" | "LYD" | "OMR" | "TND" => 3,
        _ => 2,
    }
}

/// The sign to show before (or after) amounts of an ISO code, where it has one of its own; else the code.
pub fn sign_of(iso: &str) -> &str {
    match iso {
        "USD" | "CAD" | "AUD" | "NZD" | "SGD" | "HKD" | "MXN" => "$",
        "EUR" => "€",
        "GBP" => "£",
        "JPY" | "CNY" => "¥",
        "INR" => "₹",
        "KRW" => "₩",
        "ILS" => "₪",
        other => other,
    }
}

/// An amount of an ISO code to its smallest coin, half up, its sign before it; a minus stands before the sign.
pub fn shown(iso: &str, amount: Decimal) -> String {
    let places = minor_digits(iso);
    let rounded = half_up(amount, places);
    let minus = if rounded < Decimal::ZERO { "-" } else { "" };
    // A code stands apart from the figure.
    let sign = match sign_of(iso) {
        code if code.ends_with(|c: char| c.is_ascii_alphabetic()) => format!("{code} "),
        sign => sign.to_owned(),
    };
    format!("{minus}{sign}{:.1$}", rounded.abs(), places as usize)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_bear_their_sign() {
        for (iso, amount, told) in [
            ("USD", "1695", "$1695.00"),
            ("GBP", "-0.125", "-£0.13"),
            ("JPY", "612.5", "¥613"),
            ("SEK", "12.30", "SEK 12.30"),
            ("", "0.6", "0.60"),
            ("USD", "-0.001", "$0.00"),
        ] {
            assert_eq!(shown(iso, amount.parse().unwrap()), told);
        }
    }

    #[test]
    fn signs_and_codes() {
        for (sign, iso) in [
            ("$", "USD"),
            ("€", "EUR"),
            ("£", "GBP"),
            ("¥", "JPY"),
            ("usd", "USD"),
            (" CHF ", "CHF"),
            ("A$", "AUD"),
            ("kr", "SEK"),
        ] {
            assert_eq!(code_of(sign), Some(iso));
        }
        assert_eq!(code_of("XYZ"), None);
        assert!(fits("$", "CAD") && fits("$", "NZD") && fits("kr", "DKK") && fits("EUR", "EUR"));
        assert!(!fits("$", "EUR") && !fits("US$", "CAD") && !fits("£", "EUR") && !fits("", "USD"));
    }

    #[test]
    fn words_beside_amounts_are_money_where_no_kitchen_measures_so() {
        for text in ["USD", "XCG", "ANG", "TOP", "ZWG", "VED", "kr", "kr.", "zł", "Fr.", "lei", "Rp"] {
            assert!(is_beside_amounts(text), "{text}");
        }
        for text in ["CUP", "kg", "oz", "R", "S/", "LBS", "usd", ""] {
            assert!(!is_beside_amounts(text), "{text}");
        }
    }

    #[test]
    fn every_sign_stands_for_known_codes_and_none_hides_another() {
        for (at, (sign, codes)) in SIGNS.iter().enumerate() {
            assert!(codes.iter().all(|code| is_iso(code)), "{sign}");
            assert!(SIGNS.iter().take(at).all(|(before, _)| !sign.starts_with(before)), "{sign} is hidden");
        }
        assert_eq!((minor_digits("USD"), minor_digits("JPY"), minor_digits("KWD")), (2, 0, 3));
    }
}
