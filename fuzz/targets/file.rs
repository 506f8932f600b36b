//! Bytes of chance as a file of any kind.

#![no_main]

use libfuzzer_sys::fuzz_target;
use parings_fuzz::laws;

fuzz_target!(|bytes: &[u8]| laws::hold(&[("book".to_owned(), bytes.to_vec())]));
