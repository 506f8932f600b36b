//! The usual cautions about trim that is kept, each with the section of the published food code it rests on.
//!
//! FDA Food Code, chapter 3, as state rules carry it (read in Delaware's, 16 Del. Admin. Code; Washington's WAC 246-215-03527
//! for throwing away; Minnesota Rules 4626.0400 for the freezer): model guidance, which binds a kitchen only as its state or
//! local authority adopts it. These are reminders. Nothing here says that a batch is safe.

/// A caution.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Caution {
    /// What to do.
    pub text: &'static str,
    /// The section of the FDA Food Code; `None` for common practice.
    pub section: Option<&'static str>,
}

/// The published code that the sections are of.
pub const CODE: &str = "FDA Food Code";

/// What holds for trim, and for what is made of it, when it is kept.
pub const KEPT: &[Caution] = &[
    Caution { text: "Keep trim from preparation only, never from plates.", section: None },
    Caution {
        text: "Chill fast: what was cooked goes from 135 °F (57 °C) to 70 °F (21 °C) within 2 hours, and to 41 °F (5 °C) within 6 hours in all.",
        section: Some("3-501.14"),
    },
    Caution { text: "Hold it cold, at 41 °F (5 °C) or below.", section: Some("3-501.16") },
    Caution {
        text: "Date it, a stock too: how many days there are is for your local rule. Time in the freezer does not count.",
        section: Some("3-501.17"),
    },
    Caution { text: "Throw away what bears no date or is past it.", section: Some("3-501.18") },
];

/// What the column Keeps means, with its source: the note on its header in templates and costed workbooks.
pub const KEEPS: &str = "For how many days it may be kept by your house rule. The day it is made is day 1, as FDA Food Code \
                         3-501.17 counts: made on Monday with 3, last used on Wednesday. Your local rule may allow less.";

/// Who decides.
pub const WHO_DECIDES: &str =
    "Reminders, not a verdict: your local food code and a licensed professional's advice decide.";

/// What holds for allergens.
pub const ALLERGENS: &str =
    "Allergens pass with the trim: what was in the shells is in the stock made of them. Check every label.";
