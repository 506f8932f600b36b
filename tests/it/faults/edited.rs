//! A sound book that has a bit of everything, typed over in some cells: the faults of a kitchen's own afternoon.

use proptest::prelude::*;
use rust_xlsxwriter::Workbook;

use super::cell::{Cell, put};
use super::expect::without_lost_results;
use super::random::drawn;
use super::words::{CARD, Column, KINDS_OF_TABLE, LABELS};

/// A table of the sound book: which kind, which of its columns, and its rows as they are typed.
struct Sound {
    kind: usize,
    columns: &'static [usize],
    /// A card's labels with their values.
    labels: &'static [(usize, &'static str)],
    rows: &'static [&'static [&'static str]],
}

const fn table(kind: usize, columns: &'static [usize], rows: &'static [&'static [&'static str]]) -> Sound {
    Sound { kind, columns, labels: &[], rows }
}

const fn card(labels: &'static [(usize, &'static str)], rows: &'static [&'static [&'static str]]) -> Sound {
    Sound { kind: CARD, columns: &[0, 1, 2, 3, 4, 6], labels, rows }
}

/// The sound book. Cells are numbers where they can be read as one, percentages where they end in one.
static SOUND: &[Sound] = &[
    table(
        6,
        &[0, 1],
        &[
            &["Currency", "USD"],
            &["Target food cost", "30%"],
            &["Q factor", "5%"],
            &["Spice factor", "2%"],
            &["Menu prices include tax", "8%"],
            &["Price step", "0.25"],
        ],
    ),
    table(
        0,
        &[0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 15, 16],
        &[
            &["Onions", "30", "50 lb", "", "90%", "2026-10-01", "North", "", "Bulbs", "none", "", ""],
            &["Onions", "32", "50 lb", "", "", "2026-11-01", "North", "", "", "", "", ""],
            &["Onions", "31", "50 lb", "", "", "2026-11-01", "South", "", "", "", "", ""],
            &["Carrots", "20", "", "", "80%", "2026-11-01", "North", "yes", "", "", "25", "lb"],
            &["Carrots", "18", "25 lb", "", "", "2026-11-05", "South", "", "", "", "", ""],
            &["Cod", "6.5", "10 lb avg", "lb", "", "2026-11-01", "North", "", "", "fish", "", ""],
            &["Butter", "90", "36 lb", "", "", "2026-11-01", "North", "", "", "milk", "", ""],
            &["Cream", "16", "1 gal", "", "", "2026-11-01", "North", "", "", "milk", "", ""],
            &["Eggs", "60", "30 dz", "", "", "2026-11-01", "North", "", "", "eggs", "", ""],
            &["Shellfish base", "24", "4 lb", "", "", "2026-11-01", "South", "", "", "shellfish", "", ""],
            &["Fish stock", "40", "4/1 gal", "", "", "2026-11-01", "South", "", "", "fish", "", ""],
            &["Leeks", "24", "24 ct 30 lb", "", "50%", "2026-11-01", "North", "", "", "none", "", ""],
        ],
    ),
    table(
        3,
        &[0, 1, 2, 3, 5, 6, 7, 8, 9, 10, 13, 14],
        &[
            &["Cod test", "as purchased", "Cod", "10 lb", "", "", "", "5.75", "", "", "", "1"],
            &["Cod test", "main", "Cod fillet", "4 lb 8 oz", "", "", "", "", "", "", "", "1"],
            &["Cod test", "by-product", "Cod frames", "3 lb", "fraction", "30%", "", "", "", "binned", "", "1"],
            &["Cod test", "by-product", "Cod cheeks", "0.5 lb", "price", "4 / lb", "", "", "", "", "", "1"],
            &["Cod test", "as purchased", "Cod", "5 kg", "", "", "", "5.75", "", "", "", "2"],
            &["Cod test", "main", "Cod fillet", "2.4 kg", "", "", "", "", "", "", "", "2"],
            &["Cod test", "by-product", "Cod frames", "1.5 kg", "fraction", "30%", "", "", "", "binned", "", "2"],
            &["Cod test", "by-product", "Cod cheeks", "0.2 kg", "price", "4 / lb", "", "", "", "", "", "2"],
            &["Onion test", "as purchased", "Onions", "10 lb", "", "", "", "", "", "", "", ""],
            &["Onion test", "main", "Onion dice", "6 lb", "net realizable value", "2", "0.5", "", "", "", "", ""],
            &["Onion test", "main", "Onion rings", "2 lb", "net realizable value", "3", "", "", "", "", "", ""],
            &[
                "Onion test",
                "by-product",
                "Onion tops",
                "1 lb",
                "market",
                "",
                "",
                "",
                "2 oz Shellfish base per lb",
                "",
                "",
                "",
            ],
            &["Cod bake", "as purchased", "Cod fillet", "4 lb", "", "", "", "", "", "", "cooking", ""],
            &["Cod bake", "added", "Butter", "0.5 lb", "", "", "", "", "", "", "", ""],
            &["Cod bake", "main", "Baked cod", "3.5 lb", "", "", "", "", "", "", "", ""],
        ],
    ),
    table(
        5,
        &[0, 1, 2, 3, 4],
        &[
            &["Onion dice", "cup", "115 g", "", ""],
            &["Carrots", "each", "110 g", "", ""],
            &["Carrots", "cup, sliced", "122 g", "", ""],
            &["Carrots", "cup, diced", "128 g", "", ""],
            &["Butter", "tbsp", "14 g", "", "EP"],
            &["Chowder", "bunch", "", "2 qt", ""],
        ],
    ),
    card(
        &[(0, "Fish stock"), (1, "3 qt, 2.9 kg"), (8, "3%")],
        &[
            &["Cod frames", "5", "lb", "", "", ""],
            &["Onion tops", "0.5", "lb", "", "", ""],
            &["Carrots", "4", "each", "", "", ""],
            &["Water", "3", "gal", "", "", ""],
            &["Salt", "to taste", "", "", "", ""],
        ],
    ),
    card(
        &[(0, "Chowder"), (1, "4 qt"), (2, "8 fl oz"), (4, "9.5"), (5, "28%"), (6, "$0.4"), (7, "3%"), (8, "5%")],
        &[
            &["Fish stock", "2", "qt", "", "", ""],
            &["Cod fillet", "3", "lb", "", "", "95%"],
            &["Cod", "1", "lb", "EP", "", ""],
            &["Onion dice", "2", "cup", "", "", ""],
            &["Carrots", "2", "cup", "", "sliced", ""],
            &["Cream", "1", "qt", "", "", ""],
            &["Butter", "1/3", "lb", "", "", "50%"],
            &["Leeks", "2", "each", "", "", ""],
        ],
    ),
    table(
        1,
        &[0, 1, 2, 3, 4, 5, 6, 7],
        &[
            &["Leek soup", "Leeks", "3", "lb", "", "", "", ""],
            &["Leek soup", "Fish stock", "1", "batch", "", "", "", ""],
            &["Leek soup", "Eggs", "6", "each", "EP", "", "", "90%"],
            &["Omelette", "Eggs", "3", "each", "", "", "", ""],
            &["Omelette", "Butter", "1", "tbsp", "", "", "", ""],
            &["Omelette", "Cream", "2", "oz", "", "", "", ""],
            &["Plate", "Chowder", "1", "portion", "", "", "", ""],
            &["Plate", "Baked cod", "6", "oz", "", "", "", ""],
            &["Plate", "Onion rings", "100", "g", "AP", "", "", ""],
            &["Sauce", "Cream", "1", "cup", "", "", "90%", ""],
            &["Sauce", "Fish stock", "1", "kg", "", "", "", ""],
        ],
    ),
    table(
        2,
        &[0, 1, 2, 3, 4, 5],
        &[
            &["Leek soup", "", "10 fl oz", "12", "", ""],
            &["Omelette", "", "", "1", "7.5", ""],
            &["Plate", "", "", "1", "24", "33%"],
            &["Sauce", "3 lb", "", "", "", ""],
        ],
    ),
    table(
        4,
        &[0, 1, 2, 3, 4, 5],
        &[&["Chowder", "", "", "", "", ""], &["Soup, bowl", "Leek soup", "14 fl oz", "9", "35%", "10%"]],
    ),
    table(7, &[0, 1], &[&["Chowder", "40"], &["Soup, bowl", "25"]]),
    table(8, &[0, 1, 2], &[&["Cod", "12 lb", ""], &["Cod frames", "3", "lb"]]),
    table(9, &[0, 1, 2, 3], &[&["1000", "5000", "900", "16000"]]),
];

/// A cell typed over: table, row, column, and what is drawn for it.
type Edit = (usize, usize, usize, u16);

/// The sound book, typed over.
#[derive(Debug, Clone, Default)]
pub struct Edited {
    edits: Vec<Edit>,
    /// Rows taken out: table and row.
    dropped: Vec<(usize, usize)>,
    rubbish: u16,
    sheets: bool,
}

/// The sound book with a few cells typed over.
pub fn edited() -> impl Strategy<Value = Edited> {
    let edit = (0..SOUND.len(), 0_usize..16, 0_usize..12, 0_u16..10_000);
    let dropped = prop::collection::vec((0..SOUND.len(), 0_usize..16), 0..2);
    (prop::collection::vec(edit, 0..6), dropped, prop_oneof![2 => Just(0_u16), 1 => Just(30)], any::<bool>())
        .prop_map(|(edits, dropped, rubbish, sheets)| Edited { edits, dropped, rubbish, sheets })
}

/// What is typed: a number, a percentage, or text.
fn typed(text: &'static str) -> Cell {
    let percent = text.strip_suffix('%').and_then(|number| number.parse::<f64>().ok());
    match (text, percent, text.parse()) {
        ("", ..) => Cell::Blank,
        (_, Some(percent), _) => Cell::Percent(percent / 100.0),
        (_, None, Ok(number)) => Cell::Number(number),
        _ => Cell::Text(text),
    }
}

impl Edited {
    /// The same book without rubbish.
    pub fn without_rubbish(mut self) -> Self {
        self.rubbish = 0;
        self
    }

    fn edit(&self, at: usize, row: usize, column: usize, of: &'static Column, cell: Cell) -> Cell {
        let over = self.edits.iter().find(|edit| (edit.0, edit.1, edit.2) == (at, row, column));
        over.map_or(cell, |edit| drawn(edit.3, of.words, self.rubbish))
    }

    fn rows(&self, at: usize, table: &'static Sound) -> Vec<Vec<Cell>> {
        let columns = &KINDS_OF_TABLE[table.kind];
        let mut rows = Vec::new();
        for (row, (label, value)) in table.labels.iter().enumerate() {
            let of = &LABELS[*label];
            // A card's labels are typed over as the last column of its rows.
            rows.push(vec![Cell::Text(of.headers[0]), self.edit(at, row, 11, of, typed(value))]);
        }
        rows.push(table.columns.iter().map(|column| Cell::Text(columns[*column].headers[0])).collect());
        for (row, cells) in table.rows.iter().enumerate() {
            if !self.dropped.contains(&(at, row)) {
                let cell = |(nth, text): (usize, &&'static str)| {
                    self.edit(at, row, nth, &columns[table.columns[nth]], typed(text))
                };
                rows.push(cells.iter().enumerate().map(cell).collect());
            }
        }
        rows
    }

    /// The book as a workbook.
    pub fn xlsx(&self) -> Vec<u8> {
        let mut workbook = Workbook::new();
        let mut below = 0;
        for (at, table) in SOUND.iter().enumerate() {
            if self.sheets || at == 0 {
                workbook.add_worksheet();
                below = 0;
            }
            let sheet = workbook.worksheets_mut().last_mut().unwrap();
            for cells in self.rows(at, table) {
                for (column, cell) in (0_u16..).zip(cells) {
                    put(sheet, below, column, cell);
                }
                below += 1;
            }
            below += 1;
        }
        without_lost_results(&workbook.save_to_buffer().unwrap())
    }
}
