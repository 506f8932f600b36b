//! The mark by which our own output sheets are known and passed over, and the words by which the instructions of our
//! templates are.

/// What A1 of an output sheet begins with.
pub const MARKER: &str = "Figured by parings";

/// Whether a sheet whose A1 holds `text` is our output.
pub fn is_output(text: &str) -> bool {
    text.trim_start().starts_with(MARKER)
}

/// What the first rows of a template's instructions say: its title, or how the line below it begins.
const GUIDE: [&str; 2] = ["Your kitchen's book", "parings reads these sheets"];

/// Whether a sheet whose first column begins with these texts is the instructions of a template.
pub fn is_guide<'a>(texts: impl IntoIterator<Item = &'a str>) -> bool {
    texts.into_iter().any(|text| GUIDE.iter().any(|words| text.trim_start().starts_with(words)))
}

/// What A1 of a template's sheet of names to choose from says. It repeats what was typed elsewhere.
pub const CHOICES: &str = "Names to choose from";

/// Whether a sheet whose A1 holds `text` is that of names to choose from.
pub fn is_choices(text: &str) -> bool {
    text.trim() == CHOICES
}

/// Between the program's version and the files that the figures come from.
const FROM: &str = " from ";

/// What A1 of an output sheet says: the mark, the version, and the files that the figures come from.
pub fn text(version: &str, origins: &[String]) -> String {
    format!("{MARKER} {version}{FROM}{}", origins.join(" | "))
}

/// The files that an output sheet's A1 names.
pub fn origins(text: &str) -> Vec<String> {
    let files = text.split_once(FROM).map_or("", |(_, files)| files);
    files.split(" | ").filter(|file| !file.is_empty()).map(str::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_files_named_are_read_back() {
        let files = vec!["prices.xlsx".to_owned(), "soups from home.csv".to_owned()];
        let text = text("0.1.0", &files);
        assert!(is_output(&text));
        assert_eq!(origins(&text), files);
        assert!(origins("Figured by parings").is_empty());
    }
}
