//! What the contract says and the code does not do yet: off until it does, so that the kitchens leave it out.

/// `Until` on price rows.
pub const UNTIL: bool = true;
/// Further cost and Credit on price rows.
pub const CHARGES_ON_PRICES: bool = false;
/// Tax within the price of a price row, and the setting that says so.
pub const TAX_IN_PRICES: bool = false;
/// A row without a yield takes that of its supplier and code, of its supplier, of any.
pub const WHOSE_YIELD: bool = true;
/// `cup (diced)` and the like are one measure.
pub const PREP_IN_ANY_FORM: bool = true;
/// Rows of one volume measure in several units, and as purchased.
pub const VOLUME_ROWS: bool = true;
/// What the pack counts needs no weight; a piece's EP weight beside its AP weight implies a yield; an AP line never takes a
/// part's cost.
pub const PIECES: bool = true;
/// A part without net value bears exactly nothing.
pub const NO_SHARE: bool = true;
/// The spice of a dish in another portion than the card's is its percentage of that dish's own food and Q.
pub const SPICE_OF_A_DISH: bool = true;
/// `1/2 portion`, `4 portions`, `1 batch` on the menu.
pub const PORTIONS_ON_MENU: bool = true;
/// `case`, `bag`, `bottle` as units of a line.
pub const PACKAGE_WORDS: bool = true;
/// Preferred on one row of a supplier speaks for all rows of that supplier.
pub const PREFERRED_SUPPLIER: bool = false;
/// Two rows of one measure that differ are an error.
pub const MEASURES_TWICE: bool = true;
/// A test by weight of what is priced by the piece, of which only the edible weight of a piece is known: that ÷ the yield.
pub const TEST_BY_EDIBLE_PIECE: bool = false;
/// Of equally new prices by the piece, whose edible weight is known, the cheapest is that of a piece: the weight holds the
/// yield, so none that a row states makes it dearer.
pub const PIECES_COMPARED: bool = false;
/// A line that names a bought item goes by the item's own Measures, and not by those of the part that its trim test yields.
pub const OWN_MEASURES_FIRST: bool = false;
/// Where a run says twice, and differently, what went in, neither of the two is the item that the test breaks down.
pub const INPUT_TWICE: bool = false;
