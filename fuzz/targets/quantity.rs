//! Quantities and ingredient lines of chance: read or refused with a reason.

#![no_main]

use libfuzzer_sys::fuzz_target;
use parings::measure::{Conventions, Volumes, parse_line, parse_quantity, parse_several};
use parings::number::Marks;

fuzz_target!(|text: &str| {
    for marks in [Marks::Unknown, Marks::PointDecimal, Marks::CommaDecimal] {
        let _ = parse_several(text, marks);
        for volumes in [Volumes::Us, Volumes::Imperial, Volumes::Metric] {
            let _ = parse_line(text, Conventions { marks, volumes }).total();
        }
        if let Err(fault) = parse_quantity(text, marks) {
            assert!(!fault.message.is_empty() && !fault.help.is_empty(), "{text:?}");
        }
    }
});
