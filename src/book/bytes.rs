//! Bytes of a binary workbook, taken from the front; what is not there is `None`.

/// Little-endian fields one after another.
#[derive(Debug, Clone, Copy)]
pub struct Bytes<'a>(pub &'a [u8]);

impl<'a> Bytes<'a> {
    /// The next `count` bytes.
    pub fn take(&mut self, count: usize) -> Option<&'a [u8]> {
        let (taken, rest) = self.0.split_at_checked(count)?;
        self.0 = rest;
        Some(taken)
    }

    /// The next `N` bytes.
    pub fn array<const N: usize>(&mut self) -> Option<[u8; N]> {
        self.take(N)?.try_into().ok()
    }

    /// The next byte.
    pub fn u8(&mut self) -> Option<u8> {
        self.array().map(u8::from_le_bytes)
    }

    /// The next two bytes as a number.
    pub fn u16(&mut self) -> Option<u16> {
        self.array().map(u16::from_le_bytes)
    }

    /// The next four bytes as a number.
    pub fn u32(&mut self) -> Option<u32> {
        self.array().map(u32::from_le_bytes)
    }
}

/// What a stored error value is called (\[MS-XLS\] 2.5.10, \[MS-XLSB\] 2.5.97.2).
pub fn error_value(code: u8) -> &'static str {
    match code {
        0x00 => "#NULL!",
        0x07 => "#DIV/0!",
        0x0F => "#VALUE!",
        0x17 => "#REF!",
        0x1D => "#NAME?",
        0x24 => "#NUM!",
        0x2A => "#N/A",
        0x2B => "#GETTING_DATA",
        // Newer programs add error values of their own; that it is one is what counts.
        _ => "#VALUE!",
    }
}

/// Text of UTF-16 code units; what is no character becomes the replacement character.
pub fn utf16(bytes: &[u8]) -> String {
    let units = bytes.chunks_exact(2).map(|pair| match pair {
        [low, high] => u16::from_le_bytes([*low, *high]),
        _ => 0,
    });
    char::decode_utf16(units).map(|c| c.unwrap_or(char::REPLACEMENT_CHARACTER)).collect()
}
