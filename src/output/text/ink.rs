//! The few colours of the terminal reports. Words always say the same as the colour.

use super::View;

/// How a piece of text stands out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Ink {
    /// Not at all.
    #[default]
    Plain,
    /// A heading.
    Strong,
    /// What matters less.
    Faint,
    /// As it should be.
    Good,
    /// Doubtful.
    Doubt,
    /// Wrong.
    Bad,
}

impl Ink {
    /// `text` in this ink, where `view` shows colour.
    pub fn on(self, text: &str, view: View) -> String {
        // Select Graphic Rendition: ECMA-48, 8.3.117.
        let code = match self {
            Ink::Plain => return text.to_owned(),
            _ if !view.color || text.is_empty() => return text.to_owned(),
            Ink::Strong => "1",
            Ink::Faint => "2",
            Ink::Good => "32",
            Ink::Doubt => "33",
            Ink::Bad => "31",
        };
        format!("\u{1b}[{code}m{text}\u{1b}[0m")
    }
}
