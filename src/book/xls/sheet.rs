//! The cells of one worksheet.

use super::globals::XlsGlobals;
use super::records::{XlsRecord, XlsRecords, kind};
use crate::book::bytes::{Bytes, error_value};
use crate::book::grid::{Grid, GridBuilder, Room, TooMuch};
use crate::book::number;
use crate::problem::{CellRef, Place};
use crate::schema::{Shown, Typed, Value};

/// A sheet that was read.
pub(super) struct XlsSheet {
    pub grid: Grid,
    /// The room that is left in the file.
    pub room: Room,
    /// How many bytes its records take.
    pub walked: usize,
}

/// Why a sheet was not read to its end.
pub(super) enum Unfinished {
    /// Its records are cut short.
    Cut,
    /// There is no room for another cell.
    Full(TooMuch),
}

impl From<TooMuch> for Unfinished {
    fn from(full: TooMuch) -> Self {
        Unfinished::Full(full)
    }
}

/// Reads the sheet whose records `stream` begins with.
pub(super) fn read(globals: &XlsGlobals, place: Place, stream: &[u8], room: Room) -> Result<XlsSheet, Unfinished> {
    let mut records = XlsRecords::new(stream);
    let mut builder = GridBuilder::new(place, room);
    let mut cells = CellRecords { globals, found: Vec::new(), awaited: None };
    if records.next().ok_or(Unfinished::Cut)?.kind != kind::BOF {
        return Err(Unfinished::Cut);
    }
    // Charts stand on a sheet as sheets of their own, with cells that are none of it.
    let mut charts = 0_usize;
    loop {
        let record = records.next().ok_or(Unfinished::Cut)?;
        match record.kind {
            kind::BOF => charts = charts.saturating_add(1),
            kind::EOF if charts == 0 => break,
            kind::EOF => charts = charts.saturating_sub(1),
            _ if charts > 0 => {}
            _ => cells.take(&record).ok_or(Unfinished::Cut)?,
        }
        for (at, typed) in cells.found.drain(..) {
            builder.put(at, typed)?;
        }
    }
    let walked = stream.len().saturating_sub(records.left());
    Ok(XlsSheet { room: builder.room(), grid: builder.finish(), walked })
}

/// The cells as they come.
struct CellRecords<'a> {
    globals: &'a XlsGlobals,
    /// The cells of the record that was taken last.
    found: Vec<(CellRef, Typed)>,
    /// The formula whose result, a text, comes in a record of its own.
    awaited: Option<CellRef>,
}

impl CellRecords<'_> {
    /// Finds the cells of a record; `None` when it is cut short.
    fn take(&mut self, record: &XlsRecord<'_>) -> Option<()> {
        let mut data = record.data();
        match record.kind {
            kind::STRING => {
                let text = self.globals.letters.result(record)?;
                if let Some(at) = self.awaited.take() {
                    self.found.push((at, Typed::trimmed(&text)));
                }
            }
            kind::MUL_RK => self.numbers(data)?,
            kind::NUMBER
            | kind::RK
            | kind::LABEL
            | kind::RSTRING
            | kind::LABEL_SST
            | kind::BOOL_ERR
            | kind::FORMULA => {
                let at = position(&mut data)?;
                let format = data.u16()?;
                let typed = match record.kind {
                    kind::NUMBER => self.number(data.array()?, format),
                    kind::RK => self.packed(data.u32()?, format),
                    kind::LABEL | kind::RSTRING => Typed::trimmed(&self.globals.letters.long(&mut data)?),
                    kind::LABEL_SST => {
                        let nth = usize::try_from(data.u32()?).ok()?;
                        Typed::trimmed(self.globals.texts.get(nth)?)
                    }
                    kind::BOOL_ERR => truth_or_error(data.u8()?, data.u8()?),
                    _ => self.result(at, data.array()?, format),
                };
                self.found.push((at, typed));
            }
            _ => {}
        }
        Some(())
    }

    /// Numbers side by side (\[MS-XLS\] 2.4.175).
    fn numbers(&mut self, mut data: Bytes<'_>) -> Option<()> {
        let mut at = position(&mut data)?;
        // The last column stands at the end; the numbers before it tell it too.
        while data.0.len() >= 6 {
            let format = data.u16()?;
            let typed = self.packed(data.u32()?, format);
            self.found.push((at, typed));
            at.column = at.column.checked_add(1)?;
        }
        Some(())
    }

    fn number(&self, bytes: [u8; 8], format: u16) -> Typed {
        number::shown(number::stored(bytes), self.shown(format), self.globals.epoch)
    }

    fn packed(&self, rk: u32, format: u16) -> Typed {
        number::shown(number::packed(rk), self.shown(format), self.globals.epoch)
    }

    /// What the cell format of this number shows a number as.
    fn shown(&self, format: u16) -> &Shown {
        self.globals.formats.get(usize::from(format)).unwrap_or(&Shown::Plain)
    }

    /// The stored result of a formula (\[MS-XLS\] 2.5.133).
    fn result(&mut self, at: CellRef, value: [u8; 8], format: u16) -> Typed {
        self.awaited = None;
        match value {
            [0, .., 0xFF, 0xFF] => {
                self.awaited = Some(at);
                Typed::BLANK
            }
            [1, _, truth, .., 0xFF, 0xFF] => truth_or_error(truth, 0),
            [2, _, error, .., 0xFF, 0xFF] => truth_or_error(error, 1),
            // An empty text.
            [3, .., 0xFF, 0xFF] => Typed::BLANK,
            number => self.number(number, format),
        }
    }
}

/// A cell's row and column.
fn position(data: &mut Bytes<'_>) -> Option<CellRef> {
    Some(CellRef::new(data.u16()?.into(), data.u16()?.into()))
}

/// TRUE, FALSE or an error value.
fn truth_or_error(value: u8, is_error: u8) -> Typed {
    let value = if is_error == 0 { Value::Bool(value != 0) } else { Value::Error(error_value(value).to_owned()) };
    Typed { value, shown: Shown::Plain }
}
