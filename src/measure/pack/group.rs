//! Groups of a pack, each saying one thing: numbers joined by `/` or `x`, and the unit they are of.
//!
//! Takes tokens from a [`Cursor`]; gives a [`NumberGroup`]: `4/6/8 oz` is the factors 4, 6, 8 of ounces.

use super::lex::{NumberForm, Token};
use super::{refuse, sizes};
use crate::measure::compound::compound_in_first;
use crate::measure::quantity::Measured;
use crate::measure::standard::StandardUnit;
use crate::measure::unit::Unit;
use crate::measure::{Dimension, Volumes};
use crate::number::exact::{div, product};
use crate::number::{Decimal, plain};
use crate::problem::Fault;

/// The most words that a unit's name has.
const UNIT_WORDS: usize = 3;

/// Tokens and how far they are read.
pub(super) struct Cursor<'a> {
    pub text: &'a str,
    tokens: &'a [Token],
}

impl<'a> Cursor<'a> {
    pub fn new(text: &'a str, tokens: &'a [Token]) -> Self {
        Cursor { text, tokens }
    }

    pub fn peek(&self, ahead: usize) -> Option<&'a Token> {
        self.tokens.get(ahead)
    }

    pub fn skip(&mut self, count: usize) {
        self.tokens = self.tokens.get(count..).unwrap_or(&[]);
    }

    /// Skips the next token when it is this word.
    pub fn take_word(&mut self, word: &str) -> bool {
        let is = self.peek(0).is_some_and(|token| token.is(word));
        if is {
            self.skip(1);
        }
        is
    }

    pub fn is_done(&self) -> bool {
        self.tokens.is_empty()
    }

    /// The unit named by the next words, and how many they are; the longest name counts. A letter that may be cup,
    /// spoon, count or case names none.
    pub fn unit_ahead(&self, from: usize) -> Option<(Unit, usize)> {
        (1..=UNIT_WORDS).rev().find_map(|count| {
            let words = (from..from + count)
                .map(|ahead| match self.peek(ahead) {
                    Some(Token::Word(word)) => Some(word.as_str()),
                    _ => None,
                })
                .collect::<Option<Vec<_>>>()?;
            let name = words.join(" ");
            if is_letter(&name) {
                return None;
            }
            let unit = if name.eq_ignore_ascii_case("bu") {
                StandardUnit::by_id("bushel").map(Unit::Standard)
            } else {
                Unit::parse(&name)
            };
            unit.map(|unit| (unit, count))
        })
    }
}

/// Numbers joined, and what they are of.
#[derive(Debug, Clone)]
pub(super) struct NumberGroup {
    /// `4/6/8 oz` is 4, 6, 8; a unit alone has none.
    pub factors: Vec<Decimal>,
    /// `12/1/2 pt` is 12 and 1, over 2.
    pub divisor: Decimal,
    /// What the last factor is of.
    pub unit: Option<Unit>,
    /// `14-16 lb`: the factor is the middle.
    pub is_range: bool,
    /// `2-10 lb avg`: a range, or two of ten; the amount stays unknown.
    pub is_unclear: bool,
    /// Whether the last two factors are joined by a slash.
    pub slashed: bool,
    /// Whether the unit was written `each`, `pc` or the like rather than as a count.
    pub each: bool,
}

impl NumberGroup {
    /// One of this unit.
    pub fn of_one(unit: Unit) -> NumberGroup {
        NumberGroup {
            factors: Vec::new(),
            divisor: Decimal::ONE,
            unit: Some(unit),
            is_range: false,
            is_unclear: false,
            slashed: false,
            each: false,
        }
    }

    /// The whole amount: 192 of `4/6/8 oz`.
    pub fn total(&self, text: &str) -> Result<Decimal, Fault> {
        let total = product(self.factors.iter().copied()).and_then(|all| div(all, self.divisor));
        match total {
            Ok(total) if total > Decimal::ZERO => Ok(total.normalize()),
            _ => Err(refuse::nothing(text)),
        }
    }

    /// How many inner packs: 24 of `4/6/8 oz`; `None` where only one number stands.
    pub fn inner(&self, text: &str) -> Result<Option<Decimal>, Fault> {
        match self.factors.split_last() {
            Some((_, outer)) if !outer.is_empty() => {
                product(outer.iter().copied()).map(|count| Some(count.normalize())).map_err(|_| refuse::nothing(text))
            }
            _ => Ok(None),
        }
    }

    /// Whether it is a weight or volume.
    pub fn is_measured(&self) -> bool {
        self.unit.as_ref().is_some_and(|unit| !unit.is_count_like())
    }

    /// Whether it is a bushel.
    pub fn is_bushel(&self) -> bool {
        matches!(&self.unit, Some(Unit::Standard(unit)) if unit.id() == "bushel")
    }

    /// Whole amount and unit.
    pub fn measured(&self, text: &str) -> Result<Measured, Fault> {
        let total = self.total(text)?;
        match &self.unit {
            Some(unit) => Ok(Measured::new(total, unit.clone())),
            None => Err(refuse::unit_missing(text, total)),
        }
    }

    /// `6 × 5 lb = 30 lb`.
    pub fn said(&self, text: &str) -> Result<String, Fault> {
        let whole = self.measured(text)?;
        let mut factors: Vec<String> = self.factors.iter().map(|factor| plain(*factor)).collect();
        if let Some(last) = factors.last_mut().filter(|_| self.divisor != Decimal::ONE) {
            *last = format!("{last}/{}", plain(self.divisor));
        }
        Ok(if factors.len() > 1 {
            format!("{} {} = {whole}", factors.join(" × "), whole.unit)
        } else {
            whole.to_string()
        })
    }
}

/// Reads one group; a unit alone is one of it.
pub(super) fn group(cursor: &mut Cursor<'_>, nominal: bool) -> Result<NumberGroup, Fault> {
    let mut group = NumberGroup {
        factors: Vec::new(),
        divisor: Decimal::ONE,
        unit: None,
        is_range: false,
        is_unclear: false,
        slashed: false,
        each: false,
    };
    let mut form = NumberForm::Plain;
    while let Some(Token::Number(value, this)) = cursor.peek(0) {
        group.factors.push(*value);
        form = *this;
        cursor.skip(1);
        let joint = cursor.peek(0);
        let joins = matches!(joint, Some(Token::Slash | Token::Times)) || joint.is_some_and(|token| token.is("of"));
        // `6-#10`: a can's number ends no range.
        let joins = joins || matches!((joint, cursor.peek(1)), (Some(Token::Dash), Some(Token::Can(_))));
        match (joins, cursor.peek(1)) {
            (true, Some(Token::Number(..))) => {
                group.slashed = joint == Some(&Token::Slash);
                cursor.skip(1);
            }
            (true, Some(Token::Can(_))) => {
                cursor.skip(1);
                break;
            }
            _ => break,
        }
    }
    range(cursor, &mut group, nominal)?;
    unit(cursor, &mut group)?;
    fractions(cursor.text, &mut group, form, nominal)?;
    compound(cursor, &mut group)?;
    Ok(group)
}

/// `14-16 lb avg` takes its middle; any other dash between numbers is refused.
fn range(cursor: &mut Cursor<'_>, group: &mut NumberGroup, nominal: bool) -> Result<(), Fault> {
    let joined = cursor.peek(0).is_some_and(|token| *token == Token::Dash || token.is("to"));
    let (true, Some(Token::Number(high, _)), Some(low)) = (joined, cursor.peek(1), group.factors.last_mut()) else {
        return Ok(());
    };
    if cursor.peek(2).is_some_and(is_count_word) {
        return Err(refuse::grade(cursor.text));
    }
    if !nominal || *low >= *high {
        let unit = cursor.unit_ahead(2).map_or_else(|| "lb".to_owned(), |(unit, _)| unit.name());
        return Err(refuse::dash(cursor.text, *low, *high, &unit));
    }
    let both = low.checked_add(*high).ok_or_else(|| refuse::nothing(cursor.text))?;
    // Pieces of one kind differ less than twofold.
    group.is_unclear = *high > low.checked_mul(Decimal::TWO).unwrap_or(Decimal::MAX);
    *low = both.checked_div(Decimal::TWO).ok_or_else(|| refuse::nothing(cursor.text))?.normalize();
    group.is_range = true;
    cursor.skip(2);
    Ok(())
}

/// `C`, `t`.
fn is_letter(word: &str) -> bool {
    ["c", "t"].iter().any(|letter| word.eq_ignore_ascii_case(letter))
}

/// Whether a token is `ct`, `count` and the like.
pub(super) fn is_count_word(token: &Token) -> bool {
    ["ct", "cts", "count", "cnt"].iter().any(|word| token.is(word))
}

/// The unit or can behind the numbers.
fn unit(cursor: &mut Cursor<'_>, group: &mut NumberGroup) -> Result<(), Fault> {
    if let Some(Token::Can(size)) = cursor.peek(0) {
        group.unit = Some(Unit::own(&format!("#{size} can")));
        cursor.skip(1);
        let _ = ["can", "cans", "tin", "tins", "cn"].iter().any(|word| cursor.take_word(word));
        return Ok(());
    }
    let Some(first) = cursor.peek(0) else {
        return Ok(());
    };
    if let Token::Word(letter) = first
        && is_letter(letter)
    {
        return Err(refuse::letter(cursor.text, letter));
    }
    if let Some((unit, words)) = cursor.unit_ahead(0) {
        if let (true, Token::Word(word)) = (unit.is_unmeasured(), first) {
            return Err(refuse::unknown_word(cursor.text, word));
        }
        group.each = ["each", "ea", "pc", "pcs", "piece", "pieces", "unit", "units"].iter().any(|word| first.is(word));
        let sign = first.is("#") && cursor.unit_ahead(1).is_some_and(|(next, _)| next.is_plain_can());
        let many = group.factors.len() > 1 && unit.is_plain_can();
        if let (true, Some((size, outer))) = (sign || many, group.factors.split_last())
            && sizes::may_be_can_size(*size)
        {
            return Err(refuse::numbered_can(cursor.text, outer.first().copied(), *size, sign));
        }
        group.unit = Some(unit);
        cursor.skip(words);
        return Ok(());
    }
    match first {
        Token::Word(word)
            if !["per", "of", "&", "and", "to", "in", "total", "all"].contains(&word.to_lowercase().as_str()) =>
        {
            Err(refuse::unknown_word(cursor.text, word))
        }
        _ => Ok(()),
    }
}

/// Tells `12/1/2 pt` (twelve halves) from what may be either, and refuses that.
fn fractions(text: &str, group: &mut NumberGroup, form: NumberForm, nominal: bool) -> Result<(), Fault> {
    let Some(unit) = &group.unit else {
        return Ok(());
    };
    match group.factors.as_slice() {
        [.., n, d] if group.slashed && sizes::may_be_mixed(*n, *d) => Err(refuse::unparted(text, *n, *d, &unit.name())),
        [n, d] if group.slashed && !nominal && sizes::is_kitchen_fraction(*n, *d) => {
            Err(refuse::fraction(text, "", *n, *d, &unit.name()))
        }
        [first, .., n, d] if group.slashed && sizes::is_kitchen_fraction(*n, *d) => {
            if *n != Decimal::ONE || *d > Decimal::from(4) {
                return Err(refuse::fraction(text, &format!("{} x ", plain(*first)), *n, *d, &unit.name()));
            }
            group.divisor = *d;
            group.factors.pop();
            Ok(())
        }
        [number] if form == NumberForm::Mixed && *number >= Decimal::from(6) && is_jug_size(unit) => {
            Err(refuse::mixed(text, *number, &unit.name()))
        }
        _ => Ok(()),
    }
}

/// Units whose halves are sold as such: pint, quart, gallon.
fn is_jug_size(unit: &Unit) -> bool {
    matches!(unit, Unit::Standard(unit) if ["pt", "qt", "gal", "pt_dry", "qt_dry"].contains(&unit.id()))
}

/// `6 lb 9 oz`: a smaller unit of the same kind belongs to the last number.
fn compound(cursor: &mut Cursor<'_>, group: &mut NumberGroup) -> Result<(), Fault> {
    let (Some(unit), Some(Token::Number(amount, _))) = (&group.unit, cursor.peek(0)) else {
        return Ok(());
    };
    let (Some((small, words)), Some(last)) = (cursor.unit_ahead(1), group.factors.last_mut()) else {
        return Ok(());
    };
    let size = |unit: &Unit| unit.to_base(Volumes::Us);
    let belongs = match (size(unit), size(&small)) {
        (Some((base, large)), Some((other, less))) => {
            base == other && base.dimension() != Dimension::Count && large > less
        }
        _ => false,
    };
    if !belongs {
        return Ok(());
    }
    let parts = [Measured::new(*last, unit.clone()), Measured::new(*amount, small)];
    let is_whole = |part: &Measured| match (part.in_base(Volumes::Us), size(unit)) {
        (Ok(Some((_, amount))), Some((_, one))) => amount >= one,
        _ => true,
    };
    // `1 lb 16 oz`: two pounds, or one said twice?
    if parts.last().is_some_and(is_whole) {
        return Err(refuse::because(cursor.text, "adds more than one of the larger unit: write one of the two"));
    }
    match compound_in_first(&parts, Volumes::Us) {
        Ok(Some(sum)) => *last = sum,
        _ => return Err(refuse::because(cursor.text, "adds two units that make no exact sum: write one of them")),
    }
    cursor.skip(1 + words);
    Ok(())
}
