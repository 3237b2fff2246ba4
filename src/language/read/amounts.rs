//! How much: numbers with their units, in any usual form.

mod measured;
mod measures;

pub(super) use self::measures::{bare_depth, bare_temperature, volume};

use self::measures::{mass, share};
use super::lexicon::Sense;
use super::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::season::garden::UnitSystem;
use crate::units::{Celsius, Fraction, Kilograms, Litres, Millimetres};

/// A number and what it counts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Amount {
    Depth(Millimetres),
    Volume(Litres),
    /// "15 gallon pot": a size, not water.
    Vessel(Litres),
    Mass(Kilograms),
    Share(Fraction),
    /// So many leaves of those looked at.
    LeavesOf {
        spotted: f64,
        of: f64,
    },
    /// "Three leaves", "a dozen spots": few, of how many is not said.
    Leaves(f64),
    Temperature(Celsius),
    /// "30 cm", "4 ft": a length, in metres.
    Length(f64),
    Class(f64),
    Count(f64),
    /// A number of something that is no amount: days, trees, times.
    Other,
    /// A percentage beyond what can be.
    Impossible,
}

#[derive(Clone, Debug, PartialEq)]
pub(super) struct Measured {
    pub(super) amount: Amount,
    /// Places in the stretch, from and up to.
    pub(super) from: usize,
    pub(super) to: usize,
    /// Litres or kilograms in the unit it was told in.
    scale: Option<f64>,
}

/// All amounts of a stretch, in order, but those whose tokens are taken (by names or moments).
pub(super) fn amounts(stretch: &[Token], taken: &[usize], units: UnitSystem) -> Vec<Measured> {
    let mut found: Vec<Measured> = Vec::new();
    let mut index = 0;
    while index < stretch.len() {
        let scan = Scan { stretch, taken, units };
        match if taken.contains(&index) { None } else { scan.at(index) } {
            Some((amount, end)) => {
                // "2 lb 4 oz" is one mass.
                match (found.last_mut(), amount) {
                    (Some(Measured { amount: Amount::Mass(whole), to, .. }), Amount::Mass(part))
                        if (*to == index || *to + 1 == index && stretch[*to].is_any(words!(". , and")))
                            && stretch[index..end]
                                .iter()
                                .any(|token| token.is_any(words!("oz ounce ounces g grams gram")))
                            && part < *whole =>
                    {
                        *whole += part;
                        *to = end;
                    }
                    _ => found.push(Measured { amount, from: index, to: end, scale: scan.scale(index, end) }),
                }
                index = end.max(index + 1);
            }
            None => index += 1,
        }
    }
    found
}

struct Scan<'a> {
    stretch: &'a [Token],
    taken: &'a [usize],
    units: UnitSystem,
}

impl Scan<'_> {
    fn token(&self, at: usize) -> Option<&Token> {
        self.stretch.get(at).filter(|_| !self.taken.contains(&at))
    }

    fn is(&self, at: usize, texts: WordList) -> bool {
        self.token(at).is_some_and(|token| token.is_any(texts))
    }

    fn number(&self, at: usize) -> Option<f64> {
        self.token(at)?.number
    }

    fn scale(&self, from: usize, to: usize) -> Option<f64> {
        self.stretch.get(from..to)?.iter().find_map(|token| volume(&token.text).or_else(|| mass(&token.text)))
    }

    /// The amount at a place and where it ends.
    fn at(&self, index: usize) -> Option<(Amount, usize)> {
        if let Some(class) = self.class_at(index) {
            return Some(class);
        }
        // "The lower third of Corner" is where, not how much.
        let placed = index
            .checked_sub(1)
            .and_then(|before| self.token(before))
            .is_some_and(|before| before.is_any(words!("lower bottom middle upper top")));
        if placed && self.is(index, words!("third half quarter")) {
            return None;
        }
        // "Sat down with a cup of tea" waters nothing.
        let of_drink = (index + 1..index + 4).any(|at| {
            self.is(at, words!("cup cups mug glass pot quart pint"))
                && self.is(at + 1, words!("of"))
                && self.is(at + 2, words!("tea coffee joe lemonade cocoa beer wine juice milk iced hot"))
        });
        if of_drink {
            return Some((Amount::Other, index + 1));
        }
        // "Not one fig left"
        if self.is(index, words!("one")) && index > 0 && self.is(index - 1, words!("not nary every")) {
            return Some((Amount::Other, index + 1));
        }
        let (mut value, mut at) = self.number_at(index)?;
        if let Some((of, end)) = self.out_of(at) {
            return Some((Amount::LeavesOf { spotted: value, of }, end));
        }
        // "One in five", of leaves
        if value == 1.0
            && self.stretch[index].is("one")
            && self.is(at, words!("in"))
            && let Some(of) = self.number(at + 1).filter(|of| *of >= 2.0 && of.fract() == 0.0)
            && self
                .token(at + 2)
                .is_none_or(|next| next.is_mark() || next.is_any(words!("has have is are leaves leaf")))
        {
            return Some((share(100.0 / of), at + 2));
        }
        // "10-15%": the middle.
        if self.is(at, words!("- to or"))
            && let Some((high, end)) = self.number_at(at + 1)
            && high > value
            && (self.is(at, words!("-"))
                || self.token(end).is_some_and(|next| is_unit(next) || next.senses.has(Sense::Fig)))
        {
            // "From 5 to 15 percent": what it is now.
            let from = index > 0 && self.stretch[index - 1].is("from");
            value = if from { high } else { f64::midpoint(value, high) };
            at = end;
        }
        // "two dozen plus 3"
        if self.is(at, words!("plus +"))
            && let Some((more, end)) = self.number_at(at + 1)
        {
            value += more;
            at = end;
        }
        // "a hundred and four"
        if self.is(at, words!("and"))
            && at > 0
            && self.stretch[at - 1].is_any(words!("hundred thousand"))
            && let Some((more, end)) = self.number_at(at + 1)
            && (1.0..100.0).contains(&more)
        {
            value += more;
            at = end;
        }
        // "a dozen and a half"
        if at > 0
            && self.stretch[at - 1].is_any(words!("dozen doz"))
            && let Some((part, end)) = self.and_a_part(at)
        {
            value += part * 12.0;
            at = end;
        }
        // "two and a half gallons"
        if let Some((part, end)) = self.and_a_part(at)
            && self.token(end).is_none_or(|next| is_unit(next) || next.is_mark())
        {
            value += part;
            at = end;
        }
        // "three quarters of an inch", "4 tenths"
        // "3 quarter inch": said so by voice, and by thumb "3 qtr in".
        let parts =
            value == 3.0 && self.is(at, words!("quarter qtr")) && self.token(at + 1).is_some_and(is_unit);
        if let Some(part) =
            self.token(at).filter(|next| parts || next.text.ends_with('s')).and_then(|next| next.number)
            && part < 1.0
        {
            value *= part;
            at += 1;
        }
        // "7/10ths of an inch"
        if value < 1.0 && self.is(at, words!("ths th rds rd nds")) {
            at += 1;
        }
        // "half an inch", "a quarter of a gallon"
        if value < 1.0 {
            let of = at + usize::from(self.is(at, words!("of")));
            let article = of + usize::from(self.is(of, words!("a an")));
            if article > at && self.token(article).is_some_and(is_unit) {
                at = article;
            }
        }
        // "A quarter per leaf": a coin.
        if value < 1.0 && self.is(at, words!("per apiece")) {
            return Some((Amount::Other, at));
        }
        let (amount, end) = self.with_unit(value, at);
        // "An inch ten", "an inch and ten hundredths"
        if let Amount::Depth(inches) = amount
            && end > 0
            && self.stretch[end - 1].is_any(words!("inch inches"))
            && let Some((hundredths, after)) = self.hundredths(end)
        {
            return Some((Amount::Depth(inches + Millimetres::from_inches(hundredths)), after));
        }
        // "an inch and a quarter", "a gallon and a half"
        if let Some((part, after)) = self.and_a_part(end)
            && let Some(whole) = plus(amount, part, value)
        {
            return Some((whole, after));
        }
        Some((amount, end))
    }

    /// Behind a number of inches, the hundredths of one more: "ten", "and ten hundredths".
    fn hundredths(&self, at: usize) -> Option<(f64, usize)> {
        let joined = usize::from(self.is(at, words!("and")));
        let number = self.number(at + joined)?;
        let whole = number.fract() == 0.0 && (1.0..100.0).contains(&number);
        let named = self.is(at + joined + 1, words!("hundredths hundredth hundreths"));
        let bare = joined == 0
            && number >= 10.0
            && self.token(at + 1).is_none_or(|next| {
                next.is_mark()
                    || next.senses.has(Sense::Time)
                    || next.is_any(words!("when in on of rain fell since"))
            });
        (whole && (named || bare)).then_some((number / 100.0, at + joined + 1 + usize::from(named)))
    }

    fn class_at(&self, index: usize) -> Option<(Amount, usize)> {
        let token = self.token(index)?;
        if !token.is_any(words!("class cl grade rating score level lvl lv clas cls")) {
            return None;
        }
        let skip = usize::from(self.is(index + 1, words!("is of : = #")));
        let number = self.number(index + 1 + skip)?;
        Some((Amount::Class(number), index + 2 + skip))
    }

    /// A number, also "a dozen", "half a dozen", "an inch", "a couple", "two hundred", "point four".
    fn number_at(&self, index: usize) -> Option<(f64, usize)> {
        let token = self.token(index)?;
        if token.is("point") {
            let tenths = self.number(index + 1).filter(|digit| digit.fract() == 0.0 && *digit < 10.0)?;
            return Some((tenths / 10.0, index + 2));
        }
        if let Some(value) = token.number {
            return Some(self.numeral(index, value));
        }
        if token.is_any(words!("a an")) {
            let next = self.token(index + 1)?;
            if next
                .is_any(words!("dozen quarter third half hundred thousand million billion tenth fifth doz"))
            {
                // "a half dozen"
                let dozen = self.token(index + 2).filter(|dozen| dozen.is_any(words!("dozen hundred doz")));
                let times = dozen.and_then(|dozen| dozen.number).unwrap_or(1.0);
                return Some((next.number? * times, index + 2 + usize::from(dozen.is_some())));
            }
            if next.is("couple") {
                return Some(self.couple(index + 1));
            }
            // "a full gallon"
            if next.is_any(words!("full whole good single")) && self.token(index + 2).is_some_and(is_unit) {
                return Some((1.0, index + 2));
            }
            // "an inch", "a gallon"
            return (is_unit(next) && next.text.len() > 1).then_some((1.0, index + 1));
        }
        if token.is("couple") {
            return Some(self.couple(index));
        }
        // "quart of water for Whip"
        let led = index.checked_sub(1).map(|before| &self.stretch[before]);
        // "gallon each", "so quart for Whip", "inch of rain": one of them.
        let alone = led.is_none_or(|led| {
            led.is_mark() && !led.is("/")
                || led.is_any(words!(
                    "and n so then gave give given got get about maybe roughly guessing another was or whole full entire"
                ))
        });
        let measures = self.and_a_part(index + 1).is_some()
            || self.token(index + 1).is_none_or(|next| {
                next.is_mark() || next.is_any(words!("of each apiece ea for on to all total"))
            });
        let lone = led.is_none() && self.stretch.len() == 1;
        // "Watered the deck gallon each"
        let each = self.is(index + 1, words!("each apiece ea"))
            && led.is_some_and(|led| {
                led.number.is_none() && !led.is_any(words!("per a an the one every / half"))
            });
        if token.is_any(words!("gallon quart pint litre liter inch gal qt"))
            && (alone || each)
            && measures
            // "2 tbsp / gal to all trees"
            // "gal of neem on celeste"
            && !(token.is_any(words!("gal qt"))
                && self.is(index + 1, words!("to on of"))
                && !(led.is_none() && self.is(index + 1, words!("of"))))
            && !(lone && token.is_any(words!("inch litre liter")))
        {
            return Some((1.0, index));
        }
        // "inch and a quarter" with nothing before it
        let bare_inch = token.is_any(words!("inch gallon quart pint litre liter pound kilo gal qt"))
            && self.and_a_part(index + 1).is_some();
        (bare_inch && (index == 0 || self.stretch[index - 1].number.is_none())).then_some((1.0, index))
    }

    fn couple(&self, at: usize) -> (f64, usize) {
        let of = at + 1 + usize::from(self.is(at + 1, words!("of")));
        if self.is(of, words!("dozen hundred")) {
            return (2.0 * self.number(of).unwrap_or(1.0), of + 1);
        }
        (2.0, of)
    }

    fn numeral(&self, index: usize, value: f64) -> (f64, usize) {
        let token = &self.stretch[index];
        let skip = usize::from(self.is(index + 1, words!("a")));
        if let Some(dozen) = self
            .token(index + 1 + skip)
            .filter(|next| next.is_any(words!("dozen hundred doz thousand million billion")))
        {
            return (value * dozen.number.unwrap_or(1.0), index + 2 + skip);
        }
        let spelt = !token.text.starts_with(|letter: char| letter.is_ascii_digit());
        // "twenty five"
        if spelt
            && value >= 20.0
            && value % 10.0 == 0.0
            && let Some(ones) =
                self.number(index + 1).filter(|ones| (1.0..10.0).contains(ones) && ones.fract() == 0.0)
        {
            return (value + ones, index + 2);
        }
        // "one point five"
        if spelt
            && self.is(index + 1, words!("point"))
            && let Some(tenths) = self.number(index + 2).filter(|digit| *digit < 10.0)
        {
            return (value + tenths / 10.0, index + 3);
        }
        (if self.is_negative(index) { -value } else { value }, index + 1)
    }

    fn is_negative(&self, index: usize) -> bool {
        let Some(before) = index.checked_sub(1).map(|before| &self.stretch[before]) else { return false };
        let dash = before.is("-") && self.stretch[index].joined && !(index > 1 && before.joined);
        dash || before.is("minus")
    }

    /// "... of 100 leaves", "... out of 100", "/20 leaves", "in 10 leaves": how many, and where it ends.
    fn out_of(&self, at: usize) -> Option<(f64, usize)> {
        // "one leaf in twenty"
        if self.is(at, words!("leaf")) && self.is(at + 1, words!("in of per")) {
            let of = self.number(at + 2).filter(|of| *of >= 2.0 && of.fract() == 0.0)?;
            return Some((of, at + 3));
        }
        // "30 from 100 leaves"
        let from = self.is(at, words!("from"))
            && self.number(at + 1).is_some_and(|of| of >= 10.0)
            && self.is(at + 2, words!("leaves leaf leafs"));
        let (mut next, needs_leaf) = if from || self.is(at, words!("of outta outa")) {
            (at + 1, false)
        } else if self.is(at, words!("out")) && self.is(at + 1, words!("of")) {
            (at + 2, false)
        } else if self.is(at, words!("/ in leaves leaf leafs")) {
            // "12 leaves of 50"
            if self.is(at, words!("leaves leaf leafs")) {
                let from =
                    self.is(at + 1, words!("from")) && self.number(at + 2).is_some_and(|of| of >= 10.0);
                let of = if from || self.is(at + 1, words!("of")) {
                    at + 2
                } else if self.is(at + 1, words!("out")) && self.is(at + 2, words!("of")) {
                    at + 3
                } else {
                    return None;
                };
                let of_all = self.number(of).filter(|of| *of >= 1.0)?;
                return Some((of_all, of + 1 + usize::from(self.is(of + 1, words!("leaves")))));
            }
            (at + 1, true)
        } else {
            return None;
        };
        while self.is(next, words!("the about every its her his my all")) {
            next += 1;
        }
        let of = self.number(next).filter(|of| *of >= 1.0)?;
        let leaf = self.token(next + 1).is_some_and(|token| token.senses.has(Sense::Leaf));
        // "Big One's leaves, one in ten has the rust"; "every one of the six" counts no leaves.
        // "He stays in one of 7 gallons": a pot, and no share.
        if self.is(at, words!("of")) && self.token(next + 1).is_some_and(is_unit) {
            return None;
        }
        let rate = self.is(at, words!("in"))
            && of >= 5.0
            && self.stretch.iter().any(|token| token.senses.has_any(&[Sense::Leaf, Sense::Rust]))
            && !self.token(next + 1).is_some_and(is_unit);
        let every = at > 1 && self.stretch[at - 2].is_any(words!("every each any no not"));
        if every {
            return None;
        }
        (leaf || rate || !needs_leaf).then_some((of, next + 1 + usize::from(leaf)))
    }

    /// "and a quarter", "and a half", "and three quarters".
    fn and_a_part(&self, at: usize) -> Option<(f64, usize)> {
        let joined = self.is(at, words!("and & n"))
            || self.is(at, words!("an"))
                && self.is(at + 1, words!("a"))
                && self.is(at + 2, words!("half quarter"));
        joined.then_some(())?;
        if let Some(count) = self.number(at + 1).filter(|count| (1.0..=9.0).contains(count))
            && let Some(part) = self.token(at + 2).filter(|part| {
                // "One and three-quarter inches"
                let before_unit = self.token(at + 3).is_some_and(is_unit);
                part.is_any(words!("quarters eighths tenths thirds"))
                    || before_unit && part.is_any(words!("quarter half eighth tenth third"))
            })
        {
            return Some((count * part.number?, at + 3));
        }
        let part = at + 1 + usize::from(self.is(at + 1, words!("a one")));
        let token = self.token(part)?;
        let value =
            token.number.filter(|value| *value < 1.0 && token.is_any(words!("half quarter third")))?;
        // "... and half a dozen" is another number.
        let apiece = self.is(part + 1, words!("a")) && self.is(part + 2, words!("piece"));
        // "One inch and a half the Monday"
        let dated = self.is(part + 1, words!("the"))
            && self.token(part + 2).is_none_or(|day| day.senses.has(Sense::Time) || day.is("other"));
        let other = !apiece && !dated && self.is(part + 1, words!("a an the dozen"))
            || self.is(part + 1, words!("of"))
                && self.is(part + 2, words!("the a an them it its her those his my"));
        (!other).then_some((value, part + 1))
    }

    /// What the words behind a number make of it, and where they end.
    fn with_unit(&self, value: f64, at: usize) -> (Amount, usize) {
        let Some(unit) = self.token(at) else { return (Amount::Count(value), at) };
        let one = |amount| (amount, at + 1);
        match unit.text.as_str() {
            "%" | "percent" | "pct" => return one(share(value)),
            "per" if self.is(at + 1, words!("cent")) => return (share(value), at + 2),
            "mm" | "millimeter" | "millimeters" | "millimetre" | "millimetres" => {
                return one(Amount::Depth(Millimetres::new(value)));
            }
            "inch" | "inches" | "inchs" | "\"" => return one(Amount::Depth(Millimetres::from_inches(value))),
            // "in" is a unit only where no place follows.
            // "12 in total" counts.
            "in" if self.is(at + 1, words!("total all")) && value.fract() == 0.0 && value > 3.0 => {}
            "in" if self.is_inch(at) => return one(Amount::Depth(Millimetres::from_inches(value))),
            "cm" => return one(Amount::Length(value / 100.0)),
            "m" | "metre" | "metres" | "meter" | "meters" => return one(Amount::Length(value)),
            "ft" | "foot" | "feet" => return one(Amount::Length(value * 0.3048)),
            "degree" | "degrees" | "deg" | "°" => {
                return match self.token(at + 1).map(|next| next.text.as_str()) {
                    Some("f" | "fahrenheit") => {
                        (Amount::Temperature(Celsius::from_fahrenheit(value)), at + 2)
                    }
                    Some("c" | "celsius") => (Amount::Temperature(Celsius::new(value)), at + 2),
                    _ => one(Amount::Temperature(bare_temperature(value, self.units))),
                };
            }
            "f" | "fahrenheit" => return one(Amount::Temperature(Celsius::from_fahrenheit(value))),
            "c" | "celsius" => return one(Amount::Temperature(Celsius::new(value))),
            _ => {}
        }
        // "2g" on US units is two gallons; so few grams nobody weighs.
        const FEW_GRAMS: f64 = 30.0;
        if unit.is("g") && self.units == UnitSystem::Us && value <= FEW_GRAMS {
            return one(Amount::Volume(Litres::from_gallons(value)));
        }
        if let Some(litres) = volume(&unit.text) {
            // "In 7 gallon pots", where the pots are a name too.
            let behind_in = at >= 2 && self.stretch[at - 2].is_any(words!("in into"));
            let next = if behind_in { self.stretch.get(at + 1) } else { self.token(at + 1) };
            if next.is_some_and(|next| next.senses.has_any(&[Sense::Pot, Sense::Pots])) {
                return one(Amount::Vessel(Litres::new(value * litres)));
            }
            return one(Amount::Volume(Litres::new(value * litres)));
        }
        if let Some(kilograms) = mass(&unit.text) {
            return one(Amount::Mass(Kilograms::new(value * kilograms)));
        }
        (self.counted(value, at), at)
    }

    fn is_inch(&self, at: usize) -> bool {
        self.token(at + 1).is_none_or(|next| {
            next.is_mark()
                || next.senses.has_any(&[Sense::Rain, Sense::Gauge])
                || next.is_any(words!("of equivalent worth deep last overnight today yesterday since this on and water total from so fell mulch deep tonight monday tuesday wednesday thursday friday saturday sunday"))
        }) || self.is(at + 1, words!("the"))
            && self.token(at + 2).is_some_and(|next| next.senses.has(Sense::Gauge))
            && self.stretch[at].joined
    }

    /// A bare number, by the noun behind it.
    fn counted(&self, value: f64, at: usize) -> Amount {
        // "9 big ripe figs", "3 lower leaves": the noun may have its adjectives.
        let farthest = if self.is(at, words!("of")) { 5 } else { 3 };
        let noun = (at..at + farthest).find_map(|place| {
            let token = self.token(place)?;
            token.senses.has_any(&[Sense::Leaf, Sense::Fig, Sense::Spots]).then_some(token)
        });
        let next = self.token(at);
        // "Lows in the 20s"
        let decade = next.is_some_and(|next| next.is("s") && next.joined);
        // "The one in the corner", "one of the kids"
        let before = at.checked_sub(2).and_then(|before| self.stretch.get(before));
        let said_one = at > 0 && self.stretch[at - 1].is("one");
        let pointed = said_one && before.is_some_and(|before| before.is_any(words!("the that this")));
        let person = said_one
            && self.is(at, words!("of"))
            && self.stretch[at..]
                .iter()
                .take(4)
                .any(|token| token.senses.has_any(&[Sense::Creature, Sense::Someone]));
        let of_time = pointed || person || decade || next.is_some_and(|next| {
            next.is_any(words!("day days week weeks month months year years hour hours hrs hr minutes minute min mins am pm times x nights yr yrs st nd rd th people kids grandkids o'clock applications sprays mph")) || next.senses.has_any(&[Sense::Tree, Sense::Pots, Sense::Creature])
        });
        match noun {
            _ if of_time => Amount::Other,
            Some(noun) if noun.senses.has(Sense::Leaf) && value >= 1.0 => Amount::Leaves(value),
            // "3 spots", "3 rust spots"
            Some(noun)
                if noun.senses.has(Sense::Spots)
                    && next.is_some_and(|next| next == noun || next.senses.has(Sense::Rust)) =>
            {
                Amount::Leaves(value)
            }
            _ => Amount::Count(value),
        }
    }
}

fn plus(amount: Amount, part: f64, value: f64) -> Option<Amount> {
    // The part is of the unit just said.
    let grown = (value + part) / value;
    Some(match amount {
        _ if value <= 0.0 => return None,
        Amount::Depth(depth) => Amount::Depth(depth * grown),
        Amount::Volume(volume) => Amount::Volume(volume * grown),
        Amount::Mass(mass) => Amount::Mass(mass * grown),
        Amount::Count(count) => Amount::Count(count + part),
        _ => return None,
    })
}

fn is_unit(token: &Token) -> bool {
    token.senses.has(Sense::Unit) || token.is_any(words!("\" %"))
}
