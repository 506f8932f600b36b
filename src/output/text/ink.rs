//! The few colours of the terminal reports. Words always say the same as the colour.

use super::View;

/// How a piece of text stands out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Emphasis {
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

impl Emphasis {
    /// What every change of ink begins with.
    pub const ESCAPE: &'static str = "\u{1b}";

    /// What goes back to plain ink.
    const END: &'static str = "\u{1b}[0m";

    /// `text` in this ink, where `view` shows colour.
    pub fn on(self, text: &str, view: View) -> String {
        match self.begin() {
            Some(begin) if view.color && !text.is_empty() => format!("{begin}{text}{}", Emphasis::END),
            _ => text.to_owned(),
        }
    }

    /// The change of ink that `text` begins with, if it is one of ours.
    pub fn leading(text: &str) -> Option<&'static str> {
        let inks = [Emphasis::Strong, Emphasis::Faint, Emphasis::Good, Emphasis::Doubt, Emphasis::Bad];
        inks.into_iter().filter_map(Emphasis::begin).chain([Emphasis::END]).find(|change| text.starts_with(change))
    }

    /// Select Graphic Rendition: ECMA-48, 8.3.117.
    fn begin(self) -> Option<&'static str> {
        match self {
            Emphasis::Plain => None,
            Emphasis::Strong => Some("\u{1b}[1m"),
            Emphasis::Faint => Some("\u{1b}[2m"),
            Emphasis::Good => Some("\u{1b}[32m"),
            Emphasis::Doubt => Some("\u{1b}[33m"),
            Emphasis::Bad => Some("\u{1b}[31m"),
        }
    }
}
