//! Packs and money of chance: read or refused with a reason, and alike in capitals.

#![no_main]

use libfuzzer_sys::fuzz_target;
use parings::measure::{parse_money, parse_pack};
use parings::number::Marks;

fuzz_target!(|text: &str| {
    for marks in [Marks::Unknown, Marks::PointDecimal, Marks::CommaDecimal] {
        let _ = parse_money(text, marks);
        match parse_pack(text, marks) {
            Ok(pack) => assert!(!pack.read_as.is_empty(), "{text:?} does not say how it was read"),
            Err(fault) => assert!(!fault.message.is_empty() && !fault.help.is_empty(), "{text:?}"),
        }
    }
});
