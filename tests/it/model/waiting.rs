//! What the contract says and the code does not do yet: off until it does, so that the kitchens leave it out.

/// Further cost and Credit on price rows.
pub const CHARGES_ON_PRICES: bool = false;
/// Tax within the price of a price row, and the setting that says so.
pub const TAX_IN_PRICES: bool = false;
/// Preferred on one row of a supplier speaks for all rows of that supplier.
pub const PREFERRED_SUPPLIER: bool = false;
/// A test by weight of what is priced by the piece, of which only the edible weight of a piece is known: that ÷ the yield.
pub const TEST_BY_EDIBLE_PIECE: bool = false;
/// Of equally new prices by the piece, whose edible weight is known, the cheapest is that of a piece: the weight holds the
/// yield, so none that a row states makes it dearer.
pub const PIECES_COMPARED: bool = true;
/// A line that names a bought item goes by the item's own Measures, and not by those of the part that its trim test yields.
pub const OWN_MEASURES_FIRST: bool = false;
/// Where a run says twice, and differently, what went in, neither of the two is the item that the test breaks down.
pub const INPUT_TWICE: bool = false;
/// *Spice covers Q* said twice, or not understood, stops recipes whose own cards have both.
pub const SETTING_STOPS_RECIPES: bool = false;
