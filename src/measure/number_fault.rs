//! A number that could not be read, said for a cook.

use crate::number::{NumberFault, plain};
use crate::problem::{Code, Fault};

/// The fault of the cell text `text`, of which a number could not be read.
pub fn number_fault(text: &str, fault: NumberFault) -> Fault {
    let text = text.trim();
    match fault {
        NumberFault::NotANumber => {
            Fault::new(Code::NotANumber, format!("“{text}” is not a number"), "Write a number such as 12.5 or 1 1/2.")
        }
        NumberFault::Ambiguous { as_whole, as_decimal } => Fault::new(
            Code::NumberAmbiguous,
            format!("“{text}” may be {} or {}", plain(as_whole), plain(as_decimal)),
            format!("Write {} or {as_decimal:.4}: a fourth decimal, or no mark, leaves no doubt.", plain(as_whole)),
        ),
        NumberFault::TooLarge => {
            Fault::new(Code::NumberOutOfRange, format!("“{text}” has more than 28 digits"), "Write a shorter number.")
        }
        NumberFault::RangeGiven => Fault::new(
            Code::RangeGiven,
            format!("“{text}” is a range"),
            "Write one number: the middle, or what you really use.",
        ),
    }
}
