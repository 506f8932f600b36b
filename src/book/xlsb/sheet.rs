//! The cells of one worksheet.

use super::globals::XlsbGlobals;
use super::parts::XlsbParts;
use super::records::{self, XlsbRecords, kind};
use crate::book::bytes::{Bytes, error_value};
use crate::book::error::ReadError;
use crate::book::extent;
use crate::book::grid::{Grid, GridBuilder, Room};
use crate::book::number;
use crate::problem::Place;
use crate::schema::{Shown, Typed, Value};

/// Reads the sheet that the part `name` holds; gives it with the room that is left after it.
pub(super) fn read(
    parts: &mut XlsbParts<'_>,
    globals: &XlsbGlobals,
    name: &str,
    place: Place,
    room: Room,
) -> Result<(Grid, Room), ReadError> {
    let file = parts.file;
    let cut = || ReadError::damaged(file, format_args!("{name} is cut short"));
    let part = parts.part(name)?.ok_or_else(|| ReadError::damaged(file, format_args!("{name} is missing")))?;
    let mut builder = GridBuilder::new(place, room);
    let mut records = XlsbRecords::new(part);
    let (mut row, mut inside) = (0, false);
    loop {
        let record = records.next().map_err(|error| ReadError::damaged(file, error))?;
        let (kind, mut bytes) = record.ok_or_else(cut)?;
        match kind {
            kind::SHEET_DATA_BEGINS => inside = true,
            kind::SHEET_DATA_ENDS => break,
            kind::ROW if inside => row = bytes.u32().ok_or_else(cut)?,
            kind::CELL_RK..=kind::FORMULA_ERROR | kind::CELL_RICH if inside => {
                let (column, typed) = globals.cell(kind, bytes).ok_or_else(cut)?;
                let put = builder.put(extent::cell(file, row, column)?, typed);
                put.map_err(|full| ReadError::too_large(file, full))?;
            }
            _ => {}
        }
    }
    records.end().map_err(|error| ReadError::damaged(file, error))?;
    let left = builder.room();
    Ok((builder.finish(), left))
}

impl XlsbGlobals {
    /// A filled cell's column and what stands in it; `None` when it is cut short.
    fn cell(&self, kind: u16, mut bytes: Bytes<'_>) -> Option<(u32, Typed)> {
        let column = bytes.u32()?;
        let format = bytes.u32()? & 0x00FF_FFFF;
        let shown = usize::try_from(format).ok().and_then(|at| self.formats.get(at)).unwrap_or(&Shown::Plain);
        let plain = |value| Typed { value, shown: Shown::Plain };
        let typed = match kind {
            kind::CELL_RK => number::shown(number::packed(bytes.u32()?), shown, self.epoch),
            kind::CELL_REAL | kind::FORMULA_REAL => number::shown(number::stored(bytes.array()?), shown, self.epoch),
            kind::CELL_BOOL | kind::FORMULA_BOOL => plain(Value::Bool(bytes.u8()? != 0)),
            kind::CELL_ERROR | kind::FORMULA_ERROR => plain(Value::Error(error_value(bytes.u8()?).to_owned())),
            kind::CELL_SHARED => Typed::trimmed(self.texts.get(usize::try_from(bytes.u32()?).ok()?)?),
            kind::CELL_RICH => {
                let _flags = bytes.u8()?;
                Typed::trimmed(&records::text(&mut bytes)?)
            }
            // Text that stands in the cell itself, typed (6) or a formula's (8).
            _ => Typed::trimmed(&records::text(&mut bytes)?),
        };
        Some((column, typed))
    }
}
