//! The closed list of problem codes: stable kebab-case names, how grave each is and its title. What each means at
//! length stands in [`explanation`](super::explanation).

use std::fmt;

/// How grave a problem is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// A figure would need a guess: what depends on it is not costed.
    Error,
    /// The figure stands but is doubtful.
    Warning,
    /// Something was assumed or passed over.
    Note,
}

impl Severity {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Error => "error",
            Severity::Warning => "warning",
            Severity::Note => "note",
        }
    }
}

impl fmt::Display for Severity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// Declares the codes: variant, kebab-case name, severity, title.
macro_rules! codes {
    ($($variant:ident $name:literal $severity:ident $title:literal)*) => {
        /// The kind of a problem.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[non_exhaustive]
        pub enum Code {
            $(#[doc = $title] $variant,)*
        }

        impl Code {
            /// Every code, in the order of this list.
            pub const ALL: &'static [Code] = &[$(Code::$variant,)*];

            /// The stable name, `pack-is-a-date`.
            pub fn name(self) -> &'static str {
                match self { $(Code::$variant => $name,)* }
            }

            /// How grave it is.
            pub fn severity(self) -> Severity {
                match self { $(Code::$variant => Severity::$severity,)* }
            }

            /// What it means, in one sentence.
            pub fn title(self) -> &'static str {
                match self { $(Code::$variant => $title,)* }
            }
        }
    };
}

codes! {
    // Tables and sheets
    SheetNotRead "sheet-not-read" Note "A sheet holds no table that parings knows."
    ColumnIgnored "column-ignored" Note "A column's header is not one that parings knows."
    ColumnTwice "column-twice" Note "Two columns of a table mean the same; one of them was used."
    TableAmbiguous "table-ambiguous" Error "A header row fits two kinds of table."
    RowNotUnderstood "row-not-understood" Error "A filled row of a table could not be read."
    RowsNotRead "rows-not-read" Note "Rows above the first table of a sheet were not read."
    RowsRepeated "rows-repeated" Warning "A row stands over a thousand times below itself."
    LabelUnknown "label-unknown" Note "A cell on a card is neither a label that parings knows nor its value."
    HeadingKept "heading-kept" Note "A row with text in its first cell only was taken for a heading."
    TotalSkipped "total-skipped" Note "A row named Total or Subtotal was skipped."
    InvoiceLinePassedOver "invoice-line-passed-over" Note "A row of an invoice that is no price was passed over."
    OwnSheetChanged "own-sheet-changed" Note "A sheet that parings wrote is known by its headings, not by its first cell."
    TableCopied "table-copied" Warning "A table or card that parings wrote stands in the book twice, cell for cell."
    FigureTypedOver "figure-typed-over" Warning "A figure or reading of a costed workbook was typed over."
    SheetOfLines "sheet-of-lines" Error "A sheet is a printed page turned into lines of text."
    UnitTwice "unit-twice" Error "A cell names another unit or currency than its column's header."
    // Cells
    TextTooLong "text-too-long" Warning "A cell holds more text than a cell of a workbook can."
    CellBeyondSheet "cell-beyond-sheet" Error "A text file has cells that no sheet of a workbook has."
    CellError "cell-error" Error "A cell holds a spreadsheet error."
    FormulaWithoutValue "formula-without-value" Error "A formula was saved without its result."
    NotANumber "not-a-number" Error "A number was expected."
    NumberAmbiguous "number-ambiguous" Error "A comma or point may be a decimal mark or part thousands."
    NumberOutOfRange "number-out-of-range" Error "A number is too large, too small, or negative where it cannot be."
    NotADate "not-a-date" Error "A date was expected."
    NotYesNo "not-yes-no" Error "Yes or no was expected."
    DigitsCut "digits-cut" Note "A number has more digits than a spreadsheet keeps."
    CellIsADate "cell-is-a-date" Error "The spreadsheet turned what was typed into a date."
    PercentDoubtful "percent-doubtful" Warning "A number without a percent sign may be a fraction or a percentage."
    PercentUnclear "percent-unclear" Error "A number needs a percent sign or a currency sign to be understood."
    CurrencyMixed "currency-mixed" Error "A price is in another currency than the book."
    CurrencyUnknown "currency-unknown" Note "No currency sign was seen and no setting names one."
    // Packs and measures
    PackIsADate "pack-is-a-date" Error "The spreadsheet turned a pack into a date."
    PackNotUnderstood "pack-not-understood" Error "A pack could not be read."
    PackIsAGrade "pack-is-a-grade" Error "A count grade says how big pieces are, not how much is in the pack."
    PackIsARatio "pack-is-a-ratio" Error "A pack such as 6/5 lacks its unit."
    PackIsAFraction "pack-is-a-fraction" Error "A pack such as 1/2 gal may be a half or one of two."
    PackNominal "pack-nominal" Error "A nominal pack does not say what was paid for."
    PackMissing "pack-missing" Error "A price has no pack and no unit."
    PackConflict "pack-conflict" Error "Pack and its parts say different things."
    PerAmbiguous "per-ambiguous" Error "EACH may mean the pack or one of its pieces."
    UnitUnknown "unit-unknown" Error "A unit is not known."
    UnitDoubtful "unit-doubtful" Warning "A batch or portion is in a word that is nearly a unit."
    PackageAssumed "package-assumed" Note "A package word was taken for a whole pack that does not say it."
    UnitMissing "unit-missing" Error "A quantity has no unit."
    UnitAssumed "unit-assumed" Note "A number without a unit was read as pieces, or as portions of a batch."
    RangeGiven "range-given" Error "A range was given where one number is needed."
    OunceOfLiquid "ounce-of-liquid" Warning "A bare oz was read as fluid ounces."
    MeasureMissing "measure-missing" Error "A quantity and a price are of different kinds and no measure joins them."
    MeasureAmbiguous "measure-ambiguous" Error "Several measures fit and the line names none."
    MeasureBorrowed "measure-borrowed" Note "A measure was borrowed from a built-in food."
    CanPublished "can-published" Warning "What a can holds was taken from published figures."
    MeasureUnused "measure-unused" Note "A measure is for something that is not in the book."
    MeasureTwice "measure-twice" Error "Two rows give one measure two weights."
    MeasureNotUnderstood "measure-not-understood" Error "A measure row names no one measure."
    MeasurePassedOver "measure-passed-over" Warning "A measure of the kitchen's own is never asked for while a borrowed one is used."
    MeasuresDisagree "measures-disagree" Warning "Two weights of one item's measures do not go together."
    PieceUnweighed "piece-unweighed" Error "What a piece weighs as purchased cannot be told."
    MeasureIncomplete "measure-incomplete" Error "A measure row says neither what it weighs nor what it holds."
    // Prices
    PriceMissing "price-missing" Error "An item has no price on or before the costing date."
    PriceIsMarket "price-is-market" Warning "A market price was taken from the last dated price."
    PriceBreakAssumed "price-break-assumed" Note "Of prices by how many are bought, those for the fewest were taken."
    PricesDisagree "prices-disagree" Error "Two prices of one row disagree."
    ExtensionDisagrees "extension-disagrees" Error "What a line of an invoice comes to does not fit its price."
    CatchWeightsAveraged "catch-weights-averaged" Note "Lines of one item by weight were averaged."
    ItemWithdrawn "item-withdrawn" Warning "A supplier offers an item no more."
    OuncesDoubtful "ounces-doubtful" Warning "The ounces of a pack may be fluid ounces."
    GlazeInWeight "glaze-in-weight" Warning "The weight of a glazed item may hold its ice."
    PackPassedOver "pack-passed-over" Note "A pack that the price does not need was not understood."
    PriceZero "price-zero" Warning "A price is 0."
    PriceNegative "price-negative" Error "A price is negative."
    PricesNotComparable "prices-not-comparable" Error "Two suppliers' prices cannot be compared."
    PreferredTwice "preferred-twice" Error "Two suppliers are marked as preferred for one item."
    PriceRowTwice "price-row-twice" Error "Two rows say different things of one item, pack and day."
    PriceEnded "price-ended" Note "A price has ended, and an earlier one counts again."
    PricesEnded "prices-ended" Error "Every price of an item has ended."
    UntilBeforeDate "until-before-date" Error "A price ends before it begins."
    PriceOld "price-old" Warning "A price in use is older than the setting allows."
    YieldTooHigh "yield-too-high" Error "A trim yield is above 100 %."
    YieldDisagrees "yield-disagrees" Warning "Two sources of an item's yield disagree."
    YieldOfAnother "yield-of-another" Note "A row without a yield took that of another supplier."
    YieldsSeveral "yields-several" Warning "Two rows of one day state different yields; the lower was used."
    YieldBorrowed "yield-borrowed" Note "A yield was borrowed from a built-in food."
    YieldPublished "yield-published" Note "No yield is stated, and a published one is known."
    ReferenceUnknown "reference-unknown" Error "No built-in food bears the name in Reference food."
    YieldUnused "yield-unused" Warning "A line's yield is not used."
    YieldZero "yield-zero" Error "A yield is zero."
    // Suppliers' lists
    SupplierUnknown "supplier-unknown" Warning "No price row names a supplier."
    LayoutWrong "layout-wrong" Error "A row of supplier layouts could not be read."
    ListCodeSwapped "list-code-swapped" Error "A row's code is of one item of the book and its name of another."
    ListRowTwice "list-row-twice" Error "One pack has two prices for one day."
    ListPriceJumps "list-price-jumps" Warning "A new price is far from the one before, so it was held back."
    ListUnitSlips "list-unit-slips" Warning "A new price seems to be for another unit than before, so it was held back."
    ListUnitChanged "list-unit-changed" Warning "A new price is in a unit that cannot be compared with the one before, so it was held back."
    ListStops "list-stops" Warning "A new price would leave something without a cost, so it was held back."
    ListEnded "list-ended" Warning "A list's price had ended already, so it was not taken."
    ListOlder "list-older" Warning "A list is older than the prices in the book."
    ListAssumed "list-assumed" Note "What a list does not say was taken from elsewhere."
    ListPassedOver "list-passed-over" Note "Something in a list's file was passed over."
    // Names
    NameUnknown "name-unknown" Error "A name is not in the book."
    NameUncosted "name-uncosted" Note "An uncosted line names something without a price."
    NameTwice "name-twice" Error "One name means two things."
    AliasTwice "alias-twice" Error "Two items are also called by one name."
    // Yield tests
    TestNotUnderstood "test-not-understood" Error "A yield test is incomplete."
    RoleUnknown "role-unknown" Error "A role is not one that yield tests know."
    PartNamedAsInput "part-named-as-input" Error "A part bears the name of what went in."
    PartInTwoTests "part-in-two-tests" Error "Two tests make a part of this name."
    PartMissingInRun "part-missing-in-run" Warning "A part is absent from one run of its test and counts as zero."
    RunFarOff "run-far-off" Note "One run of a test is far from the others."
    PartsOverweight "parts-overweight" Error "Parts weigh more than what went in."
    PartsSlightlyOver "parts-slightly-over" Note "Parts weigh slightly more than what went in."
    ChargeUnknown "charge-unknown" Error "A way of charging is not known."
    ChargeConflict "charge-conflict" Error "Runs of a test charge a part differently."
    ChargeMisplaced "charge-misplaced" Error "A charge stands on a row that cannot carry it."
    JointMixed "joint-mixed" Error "A test names two joint methods."
    ValueNegative "value-negative" Warning "A part costs more to finish than it sells for, so it takes no joint cost."
    ValueMissing "value-missing" Error "A way of charging needs a value."
    ValueUncharged "value-uncharged" Error "A value does not say how it is charged."
    ValueUnused "value-unused" Note "A value stands where nothing uses it."
    ValueFarOverCost "value-far-over-cost" Warning "A value is far above what went in costs by weight."
    CreditOverCost "credit-over-cost" Error "Credits are above the cost of what was broken down."
    CreditLarge "credit-large" Warning "Credits are above half the cost of what was broken down."
    MainMissing "main-missing" Error "A test has no main."
    MainsSeveral "mains-several" Error "An item's trim test has several mains; name one."
    TestsSeveral "tests-several" Warning "Two tests break down one item, so neither gives its yield."
    TestPriceUsed "test-price-used" Note "An item without a price row is costed at its yield test's price."
    NoBuyIn "no-buy-in" Error "A part is charged at market and nothing says what it replaces."
    // Recipes
    RecipeTwice "recipe-twice" Error "A recipe stands in the book twice."
    CardAssumed "card-assumed" Note "A recipe was recognised without the word Recipe."
    RecipeEmpty "recipe-empty" Error "A recipe has no lines."
    RecipeLoop "recipe-loop" Error "A recipe contains itself."
    LabelTwice "label-twice" Warning "A card states a label twice; the first is used."
    QuantityZero "quantity-zero" Warning "A line's quantity is 0."
    LineUncosted "line-uncosted" Note "A line is without a quantity to cost."
    LineAssumed "line-assumed" Note "A line as typed was read with something taken for granted."
    LineUnclear "line-unclear" Error "A line as typed may mean several quantities."
    FlourUnknown "flour-unknown" Error "A percentage of the flour cannot be turned into a weight."
    MakesAssumed "makes-assumed" Note "A card without Makes and Portions counts as one batch."
    PortionsDisagree "portions-disagree" Warning "What a card says of its batch does not agree."
    LinesOutweighMakes "lines-outweigh-makes" Warning "The ingredients weigh far more than what the recipe makes."
    YieldUnknown "yield-unknown" Error "What a recipe makes is not known in the measure asked for."
    BasisUnknown "basis-unknown" Error "A basis is neither AP nor EP."
    // Menu and settings
    DishTwice "dish-twice" Error "A dish is on the menu twice."
    FactorTwice "factor-twice" Warning "A course has Q or spice of its own, and the setting's is taken on it again."
    PortionUnclear "portion-unclear" Error "A dish is no known share of what its recipe makes."
    PortionsApart "portions-apart" Note "A recipe is sold under its own name in another portion than its card's."
    SalesAdded "sales-added" Note "What was sold by the menu and by a list of sales was added up."
    SaleNotOnMenu "sale-not-on-menu" Warning "Something was sold that is no dish of the book."
    TargetMissing "target-missing" Note "No target food-cost % is set."
    CostOverPrice "cost-over-price" Warning "A dish costs more than it sells for."
    PriceFarOverCost "price-far-over-cost" Warning "A dish sells for more than fifty times what it costs."
    PriceBelowZero "price-below-zero" Error "A menu price is not above zero."
    SettingUnknown "setting-unknown" Note "A setting is not one that parings knows."
    SettingTwice "setting-twice" Error "A setting is given twice with different values."
    SettingWrong "setting-wrong" Error "A setting's value could not be read."
    // Care
    ShellfishWide "shellfish-wide" Warning "Shellfish was read as crustaceans and molluscs."
    AllergenUnknown "allergen-unknown" Warning "An allergen is not one of the listed ones."
}

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_kebab_case_and_distinct() {
        let mut names: Vec<_> = Code::ALL.iter().map(|code| code.name()).collect();
        for name in &names {
            assert!(name.chars().all(|c| c.is_ascii_lowercase() || c == '-'), "{name}");
        }
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), Code::ALL.len());
    }
}
