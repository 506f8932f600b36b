//! Every factor and every spelling of `units.tsv`. Factors are compared as exact decimals and as fractions.

use parings::measure::{Dimension, StandardUnit, Unit, Volumes};

use super::{d, rows, size};

const TABLE: &str = include_str!("units.tsv");

struct Row {
    id: &'static str,
    aliases: &'static str,
    dimension: &'static str,
    system: &'static str,
    factor: &'static str,
    fraction: &'static str,
}

fn table() -> Vec<Row> {
    rows(TABLE, 9)
        .into_iter()
        .map(|row| Row {
            id: row[0],
            aliases: row[2],
            dimension: row[3],
            system: row[4],
            factor: row[5],
            fraction: row[6],
        })
        .collect()
}

/// Rows that are no unit here, and why.
const NOT_UNITS: &[(&str, &str)] = &[
    ("oz_label", "28 g, rounded for nutrition labels; not for costing"),
    ("floz_label", "30 ml, rounded for nutrition labels; not for costing"),
    ("tsp_label", "rounded for nutrition labels; metric tsp is the same 5 ml"),
    ("tbsp_label", "rounded for nutrition labels; metric tbsp is the same 15 ml"),
    ("cup_label", "240 ml, rounded for nutrition labels; not for costing"),
];

/// What cooks call the units whose name depends on where the cook stands.
const NAMES: &[(&str, &str)] = &[
    ("tsp_metric", "metric tsp"),
    ("tbsp_metric", "metric tbsp"),
    ("cup_metric", "metric cup"),
    ("floz", "US fl oz"),
    ("tsp", "US tsp"),
    ("tbsp", "US tbsp"),
    ("cup", "US cup"),
    ("gill", "US gill"),
    ("pt", "US pt"),
    ("qt", "US qt"),
    ("gal", "US gal"),
    ("floz_imp", "imperial fl oz"),
    ("gill_imp", "imp gill"),
    ("cup_imp", "UK cup"),
    ("pt_imp", "imp. pint"),
    ("qt_imp", "Imperial quart"),
    ("gal_imp", "British gallon"),
];

/// Spellings that mean something else here, and why.
const READ_OTHERWISE: &[(&str, &str, &str)] = &[
    ("gross", "gr.", "a gram: points do not count, and kitchens write gr for grams"),
    ("peck", "pk", "a pack, which is what price lists mean by it"),
    ("bushel", "bu", "a bunch or a bushel: told apart by the pack, asked for in a quantity"),
    ("stone", "st", "stone, stalk or stick: nobody can tell"),
    ("egg_tray", "flat", "a flat holds what its pack says; an egg flat has 30"),
    ("egg_tray", "tray", "a tray holds what its pack says; a tray of eggs has 30"),
];

fn without_size(row: &Row) -> bool {
    row.dimension == "unmeasured"
}

fn reason(id: &str) -> Option<&'static str> {
    NOT_UNITS.iter().find(|(other, _)| *other == id).map(|(_, reason)| *reason)
}

fn name(id: &str) -> String {
    let named = NAMES.iter().find(|(other, _)| *other == id).map(|(_, name)| (*name).to_owned());
    named.or_else(|| StandardUnit::by_id(id).map(StandardUnit::name)).unwrap_or_else(|| panic!("{id} is no unit"))
}

#[test]
fn every_factor_of_the_table_is_exact() {
    let mut checked = 0;
    for row in table().iter().filter(|row| !without_size(row) && reason(row.id).is_none()) {
        let (above, below) = row.fraction.split_once('/').unwrap();
        for volumes in [Volumes::Us, Volumes::Imperial, Volumes::Metric] {
            let (base, size) = size(&name(row.id), volumes);
            assert_eq!(size, d(row.factor), "{}", row.id);
            assert_eq!(size * d(below), d(above), "{}", row.id);
            let dimension = match row.dimension {
                "mass" => Dimension::Mass,
                "volume" => Dimension::Volume,
                _ => Dimension::Count,
            };
            assert_eq!(base.dimension(), dimension, "{}", row.id);
        }
        checked += 1;
    }
    // 65 rows: 7 unmeasured, 5 of nutrition labels.
    assert_eq!((table().len(), checked), (65, 53));
}

#[test]
fn every_spelling_of_the_table_is_read() {
    for row in table().iter().filter(|row| !without_size(row) && reason(row.id).is_none()) {
        let volumes = if row.system == "metric" { Volumes::Metric } else { Volumes::Us };
        let otherwise = |spelling: &str| READ_OTHERWISE.iter().any(|(id, text, _)| (*id, *text) == (row.id, spelling));
        for spelling in row.aliases.split('|').filter(|spelling| !spelling.is_empty()) {
            let read = Unit::parse(spelling).and_then(|unit| unit.to_base(volumes)).map(|(_, size)| size);
            assert_eq!(read == Some(d(row.factor)), !otherwise(spelling), "{spelling} of {}", row.id);
        }
    }
}

#[test]
fn unmeasured_words_have_no_size() {
    for row in table().iter().filter(|row| without_size(row)) {
        for spelling in row.aliases.split('|') {
            let size = Unit::parse(spelling).and_then(|unit| unit.to_base(Volumes::Us));
            assert_eq!(size, None, "{spelling}");
        }
    }
}

#[test]
fn the_catalogue_has_nothing_that_no_table_has() {
    // Both stand in containers.tsv.
    let contained = ["butter_stick", "wine_bottle"];
    let table = table();
    for unit in StandardUnit::all() {
        let known = table.iter().any(|row| row.id == unit.id()) || contained.contains(&unit.id());
        assert!(known, "{} has no source in the tables", unit.id());
    }
    for (id, _) in NOT_UNITS {
        assert!(table.iter().any(|row| row.id == *id) && StandardUnit::by_id(id).is_none(), "{id}");
    }
}

/// The setting says what a bare name means; 2-book lists cup, pint, fl oz and tbsp. Sizes are the table's rows: US, then
/// imperial, then metric; metric cooks who write pint mean the imperial one (common practice, no source).
#[test]
fn the_setting_decides_what_a_bare_name_means() {
    for (name, us, imperial, metric) in [
        ("cup", "cup", "cup_imp", "cup_metric"),
        ("fl oz", "floz", "floz_imp", "floz_imp"),
        ("gill", "gill", "gill_imp", "gill_imp"),
        ("pint", "pt", "pt_imp", "pt_imp"),
        ("quart", "qt", "qt_imp", "qt_imp"),
        ("gallon", "gal", "gal_imp", "gal_imp"),
        ("tbsp", "tbsp", "tbsp_metric", "tbsp_metric"),
        ("T", "tbsp", "tbsp_metric", "tbsp_metric"),
        ("tsp", "tsp", "tsp_metric", "tsp_metric"),
        ("t", "tsp", "tsp_metric", "tsp_metric"),
        ("dessertspoon", "dsp_metric", "dsp_metric", "dsp_metric"),
    ] {
        let table = table();
        for (volumes, id) in [(Volumes::Us, us), (Volumes::Imperial, imperial), (Volumes::Metric, metric)] {
            let row = table.iter().find(|row| row.id == id).unwrap();
            assert_eq!(size(name, volumes).1, d(row.factor), "{name} under {volumes}");
        }
    }
}

/// The Australian set: cup 250 ml, tablespoon 20 ml, teaspoon 5 ml (NSW Health, as in the table).
#[test]
fn australian_spoons_and_cups_can_be_named() {
    for (names, ml) in [
        (
            "Australian tablespoon|Aus tbsp|AU tbsp.|aust. tbsp|tablespoon (Australia)|Tbsp (Aus)|australian tablespoons",
            "20",
        ),
        ("Australian cup|Aus cups|cup (Australian)", "250"),
        ("Australian teaspoon|aus tsp", "5"),
    ] {
        for name in names.split('|') {
            for volumes in [Volumes::Us, Volumes::Imperial, Volumes::Metric] {
                assert_eq!(size(name, volumes).1, d(ml), "{name}");
            }
        }
    }
    assert_eq!(Unit::parse("Australian pint"), None);
}

/// Names as cooks write them; case counts only where T and t differ.
#[test]
fn names_as_cooks_write_them() {
    for (id, names) in [
        ("lb", "lb|LB|Lbs|lbs.|#|pound|Pounds"),
        ("oz", "oz|OZ.|ozs|ounces|oz wt|oz. wt."),
        ("g", "g|G|gr|gms|grams|Grammes"),
        ("kg", "kg|KG|kgs|kilo|Kilos|kilogram|kilogrammes"),
        ("ml", "ml|mL|ML|cc|millilitres|milliliter"),
        ("cl", "cl|cL|centilitres"),
        ("dl", "dl|deciliters"),
        ("l", "l|L|ltr|ltrs.|litre|Liters|lt"),
        ("tsp", "t|t.|tsp|Tsp.|TSP|tspn|teaspoons|teaspoonful|tsp (US)"),
        ("tbsp", "T|T.|Tb|Tbs|tbs.|Tbsp.|TBSP|tblsp|tablespoons|tablespoonfuls"),
        ("cup", "c|C|c.|cup|Cups|cupful"),
        ("floz", "fl oz|fl. oz.|Fl.Oz.|FL OZ|floz|fluid ounces|fluid oz.|U.S. fluid ounce|fl oz (US)"),
        ("pt", "pt|pts.|pint|PINTS|liquid pint|US liquid pint"),
        ("qt", "qt|qts|quarts|Qt."),
        ("gal", "gal|gals.|gallons|GAL"),
        ("each", "each|ea|EA.|ct|count|pc|pcs.|pieces|unit|whole"),
        ("dozen", "dz|doz.|dozen|Dozens|dzn"),
        ("gross", "gross|grs"),
    ] {
        for name in names.split('|') {
            let row = table().into_iter().find(|row| row.id == id).unwrap();
            assert_eq!(size(name, Volumes::Us).1, d(row.factor), "{name}");
        }
    }
    assert_ne!(size("T", Volumes::Us), size("t", Volumes::Us));
    // Counts that only the item can size, singular or plural, under one name.
    for (name, one) in [
        ("Cloves", "clove"),
        ("sprigs", "sprig"),
        ("bunches", "bunch"),
        ("Heads", "head"),
        ("stalks", "stalk"),
        ("leaves", "leaf"),
        ("slices", "slice"),
        ("Ribs", "rib"),
        ("sticks", "stick"),
        ("ears", "ear"),
        ("fillets", "fillet"),
        ("rashers", "rasher"),
        ("wedges", "wedge"),
        ("spears", "spear"),
    ] {
        assert_eq!(
            Unit::parse(name).map(|unit| (unit.name(), unit.to_base(Volumes::Us))),
            Some((one.to_owned(), None))
        );
    }
}
