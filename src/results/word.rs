//! Words of closed lists: written as their types say them, described by a schema that lists them all.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};

use crate::analysis::Way;
use crate::analysis::actual_against_standard::{CellLack, NoStandard, NotInStandard};
use crate::analysis::counted_use::CountLack;
use crate::analysis::menu_mix::{MixClass, Unclassed};
use crate::analysis::sweep::Side;
use crate::analysis::trim_savings::Kept;
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::kitchen::bridge::Basis;
use crate::kitchen::yield_test::{Charged, JointMethod, Role};
use crate::measure::Base;
use crate::problem::{Code, Severity};
use crate::results::changes::Credit;
use crate::results::counted_use::count_lack;
use crate::results::food_control::{cell_lack, no_standard, not_in_standard};
use crate::results::menu_mix::{NotCounted, class, unclassed};
use crate::results::target_status::TargetStatus;
use crate::schema::TableKind;

/// A type that stands for one of a closed list of words.
pub trait Closed: Copy {
    /// What the list is called in a schema.
    const NAME: &'static str;
    /// What a reader of the schema is told.
    const MEANS: &'static str;

    /// All that can be written.
    fn all() -> Vec<Self>;

    /// The word for it.
    fn word(self) -> &'static str;
}

/// One of a closed list, written as its word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Word<T>(pub T);

impl<T: Closed> Serialize for Word<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.0.word())
    }
}

impl<T: Closed> JsonSchema for Word<T> {
    fn schema_name() -> Cow<'static, str> {
        T::NAME.into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let words: Vec<&str> = T::all().into_iter().map(T::word).collect();
        json_schema!({ "description": T::MEANS, "type": "string", "enum": words })
    }
}

/// Declares closed lists: the type, its name and meaning in a schema, all of it, and its word.
macro_rules! closed {
    ($($type:ty, $name:literal, $means:literal, $all:expr, $word:expr;)*) => {
        $(impl Closed for $type {
            const NAME: &'static str = $name;
            const MEANS: &'static str = $means;

            fn all() -> Vec<Self> {
                $all.to_vec()
            }

            fn word(self) -> &'static str {
                $word(self)
            }
        })*
    };
}

/// Declares closed lists that are of the reports alone: name, meaning, words.
macro_rules! words {
    ($($name:ident $schema:literal $means:literal { $($variant:ident $word:literal)* })*) => {
        $(
            #[doc = $means]
            #[derive(Debug, Clone, Copy, PartialEq, Eq)]
            pub enum $name {
                $(#[doc = $word] $variant,)*
            }

            impl $crate::results::word::Closed for $name {
                const NAME: &'static str = $schema;
                const MEANS: &'static str = $means;

                fn all() -> Vec<Self> {
                    vec![$($name::$variant,)*]
                }

                fn word(self) -> &'static str {
                    match self { $($name::$variant => $word,)* }
                }
            }
        )*
    };
}
pub(crate) use words;

closed! {
    Basis, "Basis", "Edible portion, what is left after trimming, or as purchased.", [Basis::Ep, Basis::Ap], Basis::name;
    Base, "BaseUnit", "Grams, millilitres or pieces.", [Base::Gram, Base::Millilitre, Base::Each], Base::text;
    Role, "Role", "What a part of a yield test is.", [Role::Main, Role::ByProduct, Role::Waste], Role::word;
    Charged, "ChargedAs", "How a part is charged, in the words of the column Charged as.", CHARGED, Charged::word;
    Way, "Way", "A way of charging by-products.", Way::ALL, Way::word;
    Side, "Side", "On which side of a by-product's charge a dish stands: dearer when it is made of it, cheaper when it is \
        made beside it.", Side::ALL, side;
    Credit, "Credit", "How a credit moved that makes a dish cheaper, or dearer.", Credit::ALL, Credit::word;
    Kept, "Kitchen", "What becomes of by-products: binned or sold; used and charged nothing; used and charged as the book \
        says.", Kept::ALL, Kept::word;
    TargetStatus, "Standing", "How the food cost of a dish stands against its target, or why that is not known.",
        TargetStatus::ALL, TargetStatus::words;
    MixClass, "MixClass", "Where a dish stands in its group: popular from 70 % of an even share of the portions sold, high from \
        the average margin of a portion.", MixClass::ALL, class;
    Unclassed, "Unclassed", "Why the dishes of a group are not put in classes.",
        [Unclassed::FewDishes, Unclassed::NothingSold], unclassed;
    NotCounted, "NotCounted", "Why a dish is left out of its group.", [NotCounted::NoSold, NotCounted::SoldUnread],
        NotCounted::words;
    CellLack, "CellLack", "Why a cell of the control table leaves something unknown.",
        [CellLack::Blank, CellLack::Unread, CellLack::Zero], cell_lack;
    CountLack, "CountLack", "Why a cell of the stock counts leaves something unknown.",
        [CountLack::Blank, CountLack::Unread, CountLack::NoMeasure, CountLack::NoCost], count_lack;
    NoStandard, "NoStandard", "Why nothing is compared with a standard.",
        [NoStandard::NoPeriod, NoStandard::SeveralPeriods, NoStandard::NothingSold], no_standard;
    NotInStandard, "NotInStandard", "Why a dish is not in the standard.",
        [NotInStandard::NoSold, NotInStandard::SoldUnread, NotInStandard::NoCost], not_in_standard;
    Severity, "Severity", "How grave a problem is: what an error touches is not costed; a warning's figure stands but is \
        doubtful; a note says what was assumed or passed over.", [Severity::Error, Severity::Warning, Severity::Note],
        Severity::word;
    Code, "Code", "The stable name of a kind of problem: `parings explain CODE` says what it means.", Code::ALL, Code::name;
    TableKind, "TableKind", "What a table holds; a card is one recipe.", TableKind::ALL, table;
}

/// Every way in which a part can be charged.
const CHARGED: [Charged; 7] = [
    Charged::Free,
    Charged::Fraction,
    Charged::Price,
    Charged::Market,
    Charged::Joint(JointMethod::Weight),
    Charged::Joint(JointMethod::SalesValue),
    Charged::Joint(JointMethod::NetRealizableValue),
];

fn table(kind: TableKind) -> &'static str {
    if kind == TableKind::CardLines { "card" } else { kind.name() }
}

/// The base unit of a kind of price.
pub(crate) fn base(kind: &BaseUnitKind) -> Word<Base> {
    Word(match kind {
        BaseUnitKind::Mass => Base::Gram,
        BaseUnitKind::Volume => Base::Millilitre,
        BaseUnitKind::Each | BaseUnitKind::Own(_) => Base::Each,
    })
}

/// On which side of a credit a dish stands, in a few words.
pub(crate) fn side(side: Side) -> &'static str {
    match side {
        Side::Maker => "made beside it",
        Side::User => "made of it",
        Side::Both => "both",
    }
}
