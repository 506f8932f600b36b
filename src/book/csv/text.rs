//! Text of a csv file in whichever encoding it is, read from its beginning as often as is wanted and never whole: what
//! must be decoded is decoded in pieces.

use std::io::{self, BufRead, BufReader, Read};

use encoding_rs::{Decoder, Encoding, UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};

/// The bytes of a file with how they are read as text.
#[derive(Debug, Clone, Copy)]
pub(super) struct Text<'a> {
    bytes: &'a [u8],
    encoding: &'static Encoding,
    /// How many bytes of UTF-8 at its beginning are no part of it.
    skipped: u64,
}

impl<'a> Text<'a> {
    /// The text of a file: a mark decides on its encoding, then what is valid UTF-8, else it is Windows-1252.
    pub fn of(bytes: &'a [u8]) -> Self {
        let encoding = if bytes.starts_with(b"\xFF\xFE") {
            UTF_16LE
        } else if bytes.starts_with(b"\xFE\xFF") {
            UTF_16BE
        } else if std::str::from_utf8(bytes).is_ok() {
            UTF_8
        } else {
            WINDOWS_1252
        };
        Text { bytes, encoding, skipped: 0 }
    }

    /// The text without its first bytes of UTF-8.
    pub fn without(self, skipped: u64) -> Self {
        Text { skipped: self.skipped.saturating_add(skipped), ..self }
    }

    /// Its encoding.
    pub fn encoding(&self) -> &'static Encoding {
        self.encoding
    }

    /// How many bytes of UTF-8 at its beginning are no part of it.
    pub fn skipped(&self) -> u64 {
        self.skipped
    }

    /// The text from its beginning, in UTF-8.
    pub fn reader(&self) -> io::Result<Box<dyn BufRead + 'a>> {
        let mut reader: Box<dyn BufRead + 'a> = if self.encoding == UTF_8 {
            Box::new(self.bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(self.bytes))
        } else {
            let decoder = self.encoding.new_decoder_with_bom_removal();
            Box::new(BufReader::with_capacity(
                PIECE,
                Decoding { bytes: self.bytes, decoder, ended: false, decoded: Vec::new(), from: 0 },
            ))
        };
        io::copy(&mut reader.by_ref().take(self.skipped), &mut io::sink())?;
        Ok(reader)
    }
}

/// The bytes that are decoded at one go. A character never takes as many.
const PIECE: usize = 1 << 16;

/// Bytes in another encoding, read as UTF-8.
struct Decoding<'a> {
    bytes: &'a [u8],
    decoder: Decoder,
    ended: bool,
    /// What is decoded, and how much of it was handed out.
    decoded: Vec<u8>,
    from: usize,
}

impl Decoding<'_> {
    /// Decodes the next piece, into room enough for any character.
    fn decode(&mut self) {
        self.from = 0;
        self.decoded.clear();
        while self.decoded.is_empty() && !self.ended {
            self.decoded.resize(PIECE, 0);
            let last = self.bytes.len() <= PIECE;
            let piece = self.bytes.get(..PIECE).unwrap_or(self.bytes);
            let (result, read, written, _) = self.decoder.decode_to_utf8(piece, &mut self.decoded, last);
            self.decoded.truncate(written);
            self.bytes = self.bytes.get(read..).unwrap_or_default();
            self.ended = last && result == encoding_rs::CoderResult::InputEmpty;
        }
    }
}

impl Read for Decoding<'_> {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        if self.from >= self.decoded.len() {
            self.decode();
        }
        let read = self.decoded.get(self.from..).unwrap_or_default().read(into)?;
        self.from = self.from.saturating_add(read);
        Ok(read)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Pieces end within characters.
    #[test]
    fn long_texts_are_read_in_pieces_as_in_one() {
        let text: String = "aé€🍋,\n".chars().cycle().take(200_001).collect();
        let little: Vec<u8> = [0xFF, 0xFE].into_iter().chain(text.encode_utf16().flat_map(u16::to_le_bytes)).collect();
        let big: Vec<u8> = [0xFE, 0xFF].into_iter().chain(text.encode_utf16().flat_map(u16::to_be_bytes)).collect();
        for bytes in [text.clone().into_bytes(), format!("\u{FEFF}{text}").into_bytes(), little, big] {
            let mut read = String::new();
            Text::of(&bytes).reader().unwrap().read_to_string(&mut read).unwrap();
            assert!(read == text);
            let mut rest = String::new();
            Text::of(&bytes).without(3).reader().unwrap().read_to_string(&mut rest).unwrap();
            assert!(rest == text[3..]);
        }
        // Windows-1252: é is E9, € is 80.
        let western: Vec<u8> = [b'a', 0xE9, 0x80].into_iter().cycle().take(300_000).collect();
        let mut read = String::new();
        Text::of(&western).reader().unwrap().read_to_string(&mut read).unwrap();
        assert!(read == "aé€".repeat(100_000));
    }
}
