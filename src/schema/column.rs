//! The columns of all tables: one name per meaning, whatever a kind's header calls it.

/// Declares the columns with what each means.
macro_rules! columns {
    ($($column:ident $meaning:literal)*) => {
        /// What a column means. Several kinds share columns; each kind has its own header for them.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[non_exhaustive]
        pub enum Column {
            $(#[doc = $meaning] $column,)*
        }

        impl Column {
            /// Every column, in the order of this list.
            pub const ALL: &'static [Column] = &[$(Column::$column,)*];
        }
    };
}

columns! {
    Item "The kitchen's name for what is bought, made or used; `Ingredient` among recipe lines."
    Pack "The pack in trade notation, `6/5 lb`."
    PackCount "How many units are in the pack."
    UnitSize "How much one unit of the pack holds."
    SizeUnit "The unit of the unit size."
    Price "Money for the pack or for one *Per*; in a yield test, money per unit paid in the test."
    Per "What the price is for, when not for the pack."
    PoundPrice "A second price, for the pound, the kilo or one unit of the pack, which stands beside the first."
    Extended "What a line of an invoice comes to."
    Credit "Money per whatever a price is for that comes back: a deposit, a rebate."
    Supplier "Who sells it."
    Code "The supplier's code for it."
    Date "Since when a price holds; in a yield test, when the run was made."
    Until "The last day on which a price holds."
    Yield "AP to EP by trimming; on a recipe line, what divides that line alone."
    Preferred "Yes: this supplier's row is used."
    AlsoCalled "More names, split by semicolons."
    Allergens "Allergen codes or names, split by commas or semicolons."
    MayContain "Allergens that may be present."
    Group "A category, carried through."
    ReferenceFood "The built-in food to borrow measures and yield from."
    Measure "A measure of an item: `cup, sliced`, `bunch`, `#10 can`."
    Weighs "The weight of one measure."
    Holds "The volume of one measure."
    Basis "AP or EP."
    Test "A yield test's name."
    Role "What a row of a yield test is: as purchased, added, main, by-product, waste."
    Part "What went in or came out."
    Weight "What a part weighs."
    Unit "The unit of the weight or quantity beside it."
    Kind "Whether a test is of trimming or cooking."
    ChargedAs "How a part is charged."
    Value "The value a charge needs; the value of a setting."
    FurtherCost "Money per unit to make a part usable or saleable."
    InsteadOf "What a by-product saves buying."
    Otherwise "What happens to a by-product that is not used."
    Eaten "How much of a reused by-product leaves on plates."
    Keeps "Days a part may be kept, the day of its making the first."
    Run "Which run of a test a row belongs to."
    Recipe "A recipe's name."
    Qty "A quantity."
    Prep "How the ingredient is prepared, which refines its measure."
    Used "How much of a quantity is used up."
    Note "Text, carried through."
    Makes "A recipe's batch yield after cooking."
    BatchYield "What a batch yields: in a measure what it makes, as a bare number how many portions."
    Portion "How much one portion is."
    Portions "A number of portions."
    MenuPrice "What a dish sells for."
    Target "The target food-cost %."
    QFactor "Accompaniments and incidentals."
    SpiceFactor "Seasoning that nobody measures."
    ServingLoss "How much of the batch is left in pots and ladles."
    Method "How it is made: text, carried through."
    Dish "A dish's name."
    Tax "The tax rate within a dish's price, or within what is paid for what is bought."
    Sold "How many were sold."
    Day "The day a plan's row is for."
    OnHand "What is on hand."
    OnOrder "What is on order: a delivery under way."
    OpeningCount "Counted on the first day of a period."
    PurchasedCount "Bought in a period, a quantity."
    CameIn "Came in from elsewhere, a quantity."
    WentOut "Went out elsewhere, a quantity."
    ClosingCount "Counted on the last day of a period."
    Thrown "Thrown away, as written down, a quantity."
    Paid "Money paid for all that was bought."
    FirstDay "The first day of a period."
    LastDay "The last day of a period."
    Opening "Opening inventory, money."
    Purchases "Purchases, money."
    Closing "Closing inventory, money."
    TransfersIn "Transfers in, money."
    TransfersOut "Transfers out, money."
    StaffMeals "Staff meals, money."
    Comps "Food given away, money."
    WasteLogged "Food thrown away, as written down, money."
    TrimSold "What sold trim fetched, money."
    Sales "Sales, money."
    Period "The period of a control row."
    Setting "A setting's name."
    OurColumn "A column of the price table."
    MinimumOrder "The least that a supplier delivers, in money."
    TheirHeading "The heading under which a supplier's lists have it."
}

impl Column {
    /// Whether money stands in it.
    pub fn holds_money(self) -> bool {
        use Column as C;
        matches!(
            self,
            C::Price
                | C::PoundPrice
                | C::Extended
                | C::Credit
                | C::FurtherCost
                | C::MenuPrice
                | C::Paid
                | C::Opening
                | C::Purchases
                | C::Closing
                | C::TransfersIn
                | C::TransfersOut
                | C::StaffMeals
                | C::Comps
                | C::WasteLogged
                | C::TrimSold
                | C::Sales
                | C::MinimumOrder
        )
    }

    /// Whether numbers stand in it, alone or with units, as people type them.
    pub fn holds_numbers(self) -> bool {
        use Column as C;
        let others = matches!(
            self,
            C::Pack
                | C::PackCount
                | C::Per
                | C::Yield
                | C::Value
                | C::InsteadOf
                | C::Otherwise
                | C::Eaten
                | C::Keeps
                | C::Used
                | C::Portions
                | C::Target
                | C::QFactor
                | C::SpiceFactor
                | C::ServingLoss
                | C::Tax
                | C::Sold
        );
        others || self.holds_an_amount()
    }

    /// Whether a quantity or money stands in it, whose unit or currency the brackets of its header may say.
    pub fn holds_an_amount(self) -> bool {
        use Column as C;
        let quantity = matches!(
            self,
            C::UnitSize
                | C::Weighs
                | C::Holds
                | C::Weight
                | C::Qty
                | C::Makes
                | C::BatchYield
                | C::Portion
                | C::OnHand
                | C::OnOrder
                | C::OpeningCount
                | C::PurchasedCount
                | C::CameIn
                | C::WentOut
                | C::ClosingCount
                | C::Thrown
        );
        quantity || self.holds_money()
    }
}

/// Whether a kind of table can do without a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ColumnNeed {
    /// The kind must have it.
    Required,
    /// It may be absent. (A kind may still need one of several: see its signature.)
    Optional,
}

/// A column of one kind of table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ColumnDef {
    /// What it means.
    pub column: Column,
    /// Its canonical header in this kind, as we write it.
    pub header: &'static str,
    /// Other headers it is read under.
    pub synonyms: &'static [&'static str],
    /// Whether the kind must have it.
    pub role: ColumnNeed,
}

impl ColumnDef {
    /// A column the kind must have.
    pub(super) const fn required(column: Column, header: &'static str, synonyms: &'static [&'static str]) -> Self {
        ColumnDef { column, header, synonyms, role: ColumnNeed::Required }
    }

    /// A column the kind may have.
    pub(super) const fn optional(column: Column, header: &'static str, synonyms: &'static [&'static str]) -> Self {
        ColumnDef { column, header, synonyms, role: ColumnNeed::Optional }
    }

    /// Every header it is read under, the canonical one first.
    pub fn headers(&self) -> impl Iterator<Item = &'static str> + use<> {
        std::iter::once(self.header).chain(self.synonyms.iter().copied())
    }
}
