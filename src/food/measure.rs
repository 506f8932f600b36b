//! A household measure of a reference food, read as a kitchen would ask for it.

use super::reference::Food;
use super::tables::MEASURES;
use crate::measure::{Dimension, Unit};
use crate::number::Decimal;

/// A measure as published; cheap to copy.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct FoodMeasure {
    row: usize,
}

/// What the text of a measure says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MeasureText {
    /// The unit: a cup or spoon, or what is counted.
    pub unit: Unit,
    /// The preparations for which it holds.
    pub preps: Vec<String>,
}

/// Sizes in which pieces are told apart, as SR28 writes them.
const SIZES: &[&str] = &["small", "medium", "large", "extra large", "extra small", "jumbo"];

impl FoodMeasure {
    pub(super) fn new(row: usize) -> Self {
        FoodMeasure { row }
    }

    /// The food it belongs to.
    pub fn food(self) -> Option<Food> {
        Food::by_number(MEASURES.field(self.row, 0))
    }

    /// Its place among the measures of its food in the source.
    pub(super) fn place(self) -> &'static str {
        MEASURES.field(self.row, 1)
    }

    /// How many of the measure weigh what [`FoodMeasure::grams`] says.
    pub fn amount(self) -> Decimal {
        MEASURES.field(self.row, 2).parse().unwrap_or(Decimal::ONE)
    }

    /// The measure with its amount, as published: `1 cup, chopped`.
    pub fn text(self) -> String {
        format!("{} {}", MEASURES.field(self.row, 2), MEASURES.field(self.row, 3))
    }

    /// What so many of them weigh, in grams.
    pub fn grams(self) -> Decimal {
        MEASURES.field(self.row, 4).parse().unwrap_or_default()
    }

    /// Whether the weight is that of the food as purchased, refuse and all. SR28 weighs what is edible, unless a measure
    /// says otherwise.
    pub fn is_as_purchased(self) -> bool {
        let text = MEASURES.field(self.row, 3).to_lowercase();
        ["with refuse", "with shell", "in shell", "with pit", "with core"].iter().any(|words| text.contains(words))
    }

    /// The unit: a cup or spoon, or what is counted (`stalk`, `medium`). SR28's volumes are US ones, whatever a book's are.
    pub fn unit(self) -> Unit {
        self.read().unit
    }

    /// The preparations for which it holds: `chopped`; several where the source joins them; none where it names none.
    pub fn preps(self) -> Vec<String> {
        self.read().preps
    }

    /// What its text says.
    pub fn read(self) -> MeasureText {
        let text = MEASURES.field(self.row, 3).to_lowercase();
        // What stands in brackets is a size or a remark.
        let text = text.split('(').next().unwrap_or_default().trim().trim_end_matches(',');
        let by_volume = ["fl oz", "cup", "tbsp", "tablespoon", "tsp", "teaspoon", "pint", "quart", "gallon"];
        let volume = by_volume.iter().find_map(|name| {
            let rest = text.strip_prefix(name)?;
            let rest = rest.strip_prefix('s').unwrap_or(rest);
            let unit = Unit::parse(name)?;
            (rest.is_empty() || rest.starts_with([' ', ','])).then_some((unit, rest))
        });
        if let Some((unit, rest)) = volume.filter(|(unit, _)| unit.dimension() == Dimension::Volume) {
            return MeasureText { unit, preps: preps(rest) };
        }
        if let Some(size) = SIZES.iter().rev().find(|size| text == **size || text.starts_with(&format!("{size} "))) {
            return MeasureText { unit: Unit::own(size), preps: Vec::new() };
        }
        let (unit, rest) = text.split_once(',').unwrap_or((text, ""));
        let unit = unit.trim();
        let unit = [" whole", " raw", " without refuse"].iter().find_map(|end| unit.strip_suffix(end)).unwrap_or(unit);
        // `potato medium` for `potato, medium`.
        let sized = SIZES.iter().rev().find_map(|size| Some((unit.strip_suffix(size)?.strip_suffix(' ')?, *size)));
        let (unit, size) = sized.map_or((unit, None), |(unit, size)| (unit, Some(size.to_owned())));
        MeasureText { unit: Unit::read(unit), preps: size.into_iter().chain(preps(rest)).collect() }
    }
}

impl MeasureText {
    /// Whether it is a retail pack, which is none that a kitchen buys: its own packs say what they hold.
    pub fn is_package(&self) -> bool {
        const PACKAGES: &[&str] = &["package", "container", "jar", "bottle", "box", "carton"];
        self.unit.is_plain_can() || matches!(&self.unit, Unit::Own(name) if PACKAGES.contains(&&**name))
    }

    /// The size of the pieces that are counted: `medium` of `1 medium` and of `1 head, medium`.
    pub fn size(&self) -> Option<&'static str> {
        let is = |size: &&&str| {
            matches!(&self.unit, Unit::Own(name) if &**name == **size) || self.preps.iter().any(|prep| prep == **size)
        };
        SIZES.iter().find(is).copied()
    }

    /// Whether `word` is a size in which pieces are told apart.
    pub fn is_size(word: &str) -> bool {
        SIZES.contains(&word.to_lowercase().as_str())
    }
}

/// `, chopped or sliced`: each of them.
fn preps(text: &str) -> Vec<String> {
    let words =
        text.split([',', ';']).flat_map(|part| part.split(" or ")).map(str::trim).filter(|part| !part.is_empty());
    words
        .map(|word| match word {
            "slices" => "sliced".to_owned(),
            "cubes" => "cubed".to_owned(),
            "halves" => "halved".to_owned(),
            word => word.to_owned(),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(number: &str, text: &str) -> (String, Vec<String>, bool) {
        let food = Food::by_number(number).unwrap();
        let measure = food.measures().find(|measure| measure.text() == text).unwrap();
        (measure.unit().name().to_string(), measure.preps(), measure.is_as_purchased())
    }

    #[test]
    fn units_and_preparations_are_told_apart() {
        let none: Vec<String> = Vec::new();
        assert_eq!(read("11282", "1 cup, chopped"), ("cup".into(), vec!["chopped".into()], false));
        assert_eq!(read("11282", "1 tbsp chopped"), ("tbsp".into(), vec!["chopped".into()], false));
        assert_eq!(read("11282", "1 medium (2-1/2\" dia)"), ("medium".into(), none.clone(), false));
        assert_eq!(read("11143", "1 stalk, large (11\"-12\" long)"), ("stalk".into(), vec!["large".into()], false));
        assert_eq!(read("01123", "1 cup (4.86 large eggs)"), ("cup".into(), none.clone(), false));
        assert_eq!(read("01123", "1 extra large"), ("extra large".into(), none, false));
        // A size behind what is counted, with a comma or without; what is said of the whole piece.
        assert_eq!(
            read("11353", "1 Potato medium (2-1/4\" to 3-1/4\" dia)"),
            ("potato".into(), vec!["medium".into()], false)
        );
        assert_eq!(read("11135", "1 head medium (5-6\" dia.)"), ("head".into(), vec!["medium".into()], false));
        assert_eq!(read("09176", "1 fruit without refuse").0, "fruit");
        assert_eq!(read("11266", "1 piece whole").0, "each");
        // 11529 Tomatoes: one weight for two preparations.
        assert_eq!(read("11529", "1 cup, chopped or sliced").1, ["chopped", "sliced"]);
        assert_eq!(read("11413", "1 cup").0, "cup");
    }
}
