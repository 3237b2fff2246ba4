//! Times of the day: "7 am", "7:30", "at 7", "19h30", "noon", "in the evening".

use crate::language::read::word_list::{WordList, words};
use chrono::{NaiveTime, Timelike};

use super::time;
use crate::language::read::lexicon::Sense;
use crate::language::read::tokens::Token;

/// A time told to the hour or minute.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::language::read) struct Clock {
    time: NaiveTime,
    certainty: Certainty,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Certainty {
    /// "7 am", "19:30", "07:00".
    Sure,
    /// "at 7": of the morning or of the evening.
    EitherHalf,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::language::read) enum DayPart {
    Dawn,
    Morning,
    Noon,
    Afternoon,
    Evening,
    Night,
}

impl DayPart {
    pub(super) fn of(word: &str) -> Option<Self> {
        Some(match word {
            "morning" | "mornin" | "morn" | "am" | "breakfast" | "midmorning" | "mornings" => {
                DayPart::Morning
            }
            "dawn" | "sunrise" | "daybreak" | "sunup" => DayPart::Dawn,
            "lunch" | "lunchtime" | "noonish" => DayPart::Noon,
            "afternoon" | "arvo" => DayPart::Afternoon,
            "evening" | "evenin" | "dusk" | "sunset" | "dinner" | "supper" | "dinnertime" | "sundown" => {
                DayPart::Evening
            }
            "night" | "nite" => DayPart::Night,
            _ => return None,
        })
    }

    /// A usual hour of it.
    pub(super) fn usual(self) -> NaiveTime {
        match self {
            DayPart::Dawn => time(6, 0),
            DayPart::Morning => time(8, 0),
            DayPart::Noon => time(12, 0),
            DayPart::Afternoon => time(15, 0),
            DayPart::Evening => time(19, 0),
            DayPart::Night => time(21, 0),
        }
    }

    fn is_second_half(self) -> bool {
        matches!(self, DayPart::Afternoon | DayPart::Evening | DayPart::Night)
    }
}

impl Clock {
    fn sure(time: NaiveTime) -> Self {
        Self { time, certainty: Certainty::Sure }
    }

    /// The times it can be, later ones too.
    pub(super) fn readings(self) -> Vec<NaiveTime> {
        match self.certainty {
            Certainty::Sure => vec![self.time],
            Certainty::EitherHalf => vec![self.time, half_a_day_on(self.time)],
        }
    }

    pub(super) fn is_sure(self) -> bool {
        self.certainty == Certainty::Sure
    }

    /// Without a part of the day and not today: work in the garden is done from six in the morning.
    pub(super) fn usual(self) -> NaiveTime {
        let early = (1..=5).contains(&self.time.hour());
        if self.certainty == Certainty::EitherHalf && early { half_a_day_on(self.time) } else { self.time }
    }

    pub(super) fn in_part(self, part: DayPart) -> NaiveTime {
        let late_hours = part == DayPart::Night && self.time.hour() < 5;
        match self.certainty {
            Certainty::EitherHalf if part.is_second_half() && !late_hours => half_a_day_on(self.time),
            _ => self.time,
        }
    }

    /// "Two in the night" is of the day after.
    pub(super) fn days_after(self, part: DayPart) -> i64 {
        i64::from(part == DayPart::Night && self.time.hour() < 5)
    }
}

fn half_a_day_on(time: NaiveTime) -> NaiveTime {
    if time.hour() < 12 { time.with_hour(time.hour() + 12).unwrap_or(time) } else { time }
}

/// A time at a place in a stretch and the tokens it took; no time where no clock has one.
/// "Before my 9 o'clock": somebody's, and no hour of the work.
fn is_an_appointment(stretch: &[Token], index: usize) -> bool {
    index > 0
        && stretch[index - 1].is_any(words!("my our his her their the"))
        && index > 1
        && stretch[index - 2].is_any(words!("before after til until till for"))
}

pub(super) fn clock_at(stretch: &[Token], index: usize) -> Option<(Option<Clock>, usize)> {
    let token = &stretch[index];
    if is_an_appointment(stretch, index) {
        return None;
    }
    if token.is_any(words!("noon midday")) {
        return Some((Some(Clock::sure(time(12, 0))), 1));
    }
    if token.is("midnight") {
        return Some((Some(Clock::sure(time(0, 0))), 1));
    }
    if let Some(found) = clock_in_words(stretch, index).or_else(|| hour_and_minutes(stretch, index)) {
        return Some(found);
    }
    let figures = token.text.starts_with(|letter: char| letter.is_ascii_digit());
    let number = token.number?;
    // "Stands at 140 per cent"
    if stretch.get(index + 1).is_some_and(|next| next.is_any(words!("% percent pct per"))) {
        return None;
    }
    if !figures && !is_at(stretch, index) {
        return None;
    }
    if let Some(clock) = military(stretch, index) {
        return Some((clock, 1));
    }
    // "7.30 am" is a time, "7.30" an amount.
    let (hour, pointed) = split_point(token).unwrap_or((number, None));
    // "530am"
    let run_on = (100.0..=1259.0).contains(&number)
        && pointed.is_none()
        && number.fract() == 0.0
        && half_of_day(stretch, index + 1).is_some();
    let (hour, pointed) =
        if run_on { ((number / 100.0).floor(), Some(number % 100.0)) } else { (hour, pointed) };
    if hour.fract() != 0.0 || !(0.0..100.0).contains(&hour) {
        return None;
    }
    let mut count = 1;
    let mut minute = 0.0;
    let mut coloned = false;
    let parted = stretch.get(index + 1).is_some_and(|mark| mark.joined && mark.is_any(words!(": h")));
    if let Some(minutes) =
        stretch.get(index + 2).filter(|next| parted && next.joined).and_then(|next| next.number)
    {
        minute = minutes;
        coloned = true;
        count = 3;
    }
    let half = half_of_day(stretch, index + count);
    let read_off = || stretch[..index].iter().any(|token| token.senses.has_any(&[Sense::Gauge, Sense::Rain]));
    // "Watered everything 6 this morning"
    let behind_all = hour >= 4.0
        && hour.fract() == 0.0
        && index > 0
        && stretch[index - 1].senses.has(Sense::All)
        && stretch.get(index + count).is_some_and(|next| next.is("this"))
        && is_part_of_day(stretch, index + count)
        && !stretch.iter().any(|token| token.senses.has(Sense::Picked));
    let of_the_day = half.is_some()
        || behind_all
        || hour >= 1.0 && is_at(stretch, index) && is_part_of_day(stretch, index + count) && !read_off()
        // "8.30 this morning"
        || pointed.is_some_and(|minute| minute % 5.0 == 0.0)
            && (5.0..=23.0).contains(&hour)
            && stretch.get(index + count).is_some_and(|next| next.is_any(words!("this yesterday last in")))
            && is_part_of_day(stretch, index + count)
            && !read_off();
    if let (Some(pointed), true) = (pointed, of_the_day) {
        minute = pointed;
    } else if pointed.is_some() {
        return None;
    }
    let o_clock = stretch.get(index + count).is_some_and(|next| next.is_any(words!("o'clock oclock o'clk")));
    let told = half.is_some()
        || pointed.is_some()
        || coloned
        || o_clock
        || behind_all
        || is_at(stretch, index) && !is_measured(stretch, index) && number.fract() == 0.0 && number <= 24.0;
    if !told || token.text.contains('/') {
        return None;
    }
    count += usize::from(o_clock);
    let leading_zero = token.text.starts_with('0') && coloned;
    let hour = hour as u32;
    let (hour, certainty, used) = match half {
        Some((half, used)) if (1..=12).contains(&hour) => (half.of(hour), Certainty::Sure, used),
        Some((_, used)) => (hour, Certainty::Sure, used),
        None if leading_zero || hour > 12 || hour == 0 => (hour, Certainty::Sure, 0),
        None => (hour, Certainty::EitherHalf, 0),
    };
    let clock = NaiveTime::from_hms_opt(hour, minute as u32, 0)
        .filter(|_| minute < 60.0)
        .map(|time| Clock { time, certainty });
    Some((clock, count + used))
}

/// "Quarter past seven", "half past six", "ten to eight".
fn clock_in_words(stretch: &[Token], index: usize) -> Option<(Option<Clock>, usize)> {
    let skip = usize::from(stretch[index].is("a"));
    let minutes = stretch.get(index + skip)?;
    let past = stretch.get(index + skip + 1)?;
    let hour = stretch
        .get(index + skip + 2)?
        .number
        .filter(|hour| hour.fract() == 0.0 && (1.0..=12.0).contains(hour))?;
    let minutes = match minutes.text.as_str() {
        "quarter" => 15,
        "half" => 30,
        "five" => 5,
        "ten" => 10,
        "twenty" => 20,
        _ => return None,
    };
    let (hour, minute) = if past.is_any(words!("past after")) {
        (hour as u32, minutes)
    } else if past.is_any(words!("to till before")) && minutes != 30 {
        (if hour as u32 == 1 { 12 } else { hour as u32 - 1 }, 60 - minutes)
    } else {
        return None;
    };
    // "Ten to eight figs" counts.
    let counted = stretch
        .get(index + skip + 3)
        // "Half past six in the morning" measures no inches.
        .is_some_and(|next| {
            next.senses.has_any(&[Sense::Fig, Sense::Unit, Sense::Leaf]) && !next.is("in") || next.is("%")
        });
    if counted {
        return None;
    }
    let behind = index + skip + 3;
    let half = half_of_day(stretch, behind);
    let used = half.map_or(0, |(_, used)| used);
    let clock =
        NaiveTime::from_hms_opt(half.map_or(hour, |(half, _)| half.of(hour)), minute, 0).map(|time| Clock {
            time,
            certainty: if half.is_some() { Certainty::Sure } else { Certainty::EitherHalf },
        });
    Some((clock, skip + 3 + used))
}

/// "At six thirty", "seven fifteen this morning": the minutes said behind the hour.
fn hour_and_minutes(stretch: &[Token], index: usize) -> Option<(Option<Clock>, usize)> {
    let spelt = |token: &Token| token.text.starts_with(char::is_alphabetic);
    // "At 6 15 am", "5 30 this am": the colon left out.
    let figures =
        |token: &Token| token.text.len() <= 2 && token.text.chars().all(|letter| letter.is_ascii_digit());
    if let (Some(hour), Some(minute)) = (stretch.get(index), stretch.get(index + 1))
        && figures(hour)
        && figures(minute)
        && minute.text.len() == 2
        && !minute.joined
        && hour.number.is_some_and(|hour| (1.0..=12.0).contains(&hour))
        && minute.number.is_some_and(|minute| minute < 60.0)
    {
        let this = usize::from(stretch.get(index + 2).is_some_and(|next| next.is("this")));
        let (half, used) = half_of_day(stretch, index + 2 + this)?;
        let (hour, minute) = (half.of(hour.number? as u32), minute.number? as u32);
        let clock =
            NaiveTime::from_hms_opt(hour, minute, 0).map(|time| Clock { time, certainty: Certainty::Sure });
        return Some((clock, 2 + this + used));
    }
    let hour = stretch[index].number.filter(|hour| spelt(&stretch[index]) && hour.fract() == 0.0)?;
    let minute = stretch.get(index + 1).filter(|next| spelt(next)).and_then(|next| next.number)?;
    // "Forty five" is one number already.
    let told = (1.0..=12.0).contains(&hour) && [10.0, 15.0, 20.0, 30.0, 40.0, 45.0, 50.0].contains(&minute);
    // "Six forty five"
    let five =
        stretch.get(index + 2).filter(|next| minute >= 20.0 && spelt(next) && next.number == Some(5.0));
    let (minute, behind) = if five.is_some() { (minute + 5.0, index + 3) } else { (minute, index + 2) };
    let half = half_of_day(stretch, behind);
    let of_the_day = is_at(stretch, index) || half.is_some() || is_part_of_day(stretch, behind);
    let counted = stretch
        .get(behind)
        .is_some_and(|next| next.senses.has_any(&[Sense::Fig, Sense::Unit, Sense::Leaf]) || next.is("%"));
    if !told || !of_the_day || counted && half.is_none() {
        return None;
    }
    let certainty = if half.is_some() { Certainty::Sure } else { Certainty::EitherHalf };
    let hour = half.map_or(hour as u32, |(half, _)| half.of(hour as u32));
    let clock = NaiveTime::from_hms_opt(hour, minute as u32, 0).map(|time| Clock { time, certainty });
    Some((clock, behind - index + half.map_or(0, |(_, used)| used)))
}

/// "... this morning", "... yesterday evening" behind "at 6.15".
fn is_part_of_day(stretch: &[Token], at: usize) -> bool {
    let part = |at: usize| stretch.get(at).is_some_and(|word| DayPart::of(&word.text).is_some());
    let day = stretch.get(at).is_some_and(|word| {
        word.is_any(words!("this yesterday last")) || super::calendar::weekday(&word.text).is_some()
    });
    part(at) || day && part(at + 1)
}

/// "0630", and "1830" where a time is asked for.
fn military(stretch: &[Token], index: usize) -> Option<Option<Clock>> {
    let text = &stretch[index].text;
    let behind = |texts: WordList| stretch.get(index + 1).is_some_and(|next| next.is_any(texts));
    let is_year = |text: &str| text.starts_with("19") || text.starts_with("20");
    // "1745: Celeste, moist", "probe 1730:", "1910 yesterday", "emptied 1800, ..."
    let told = text.starts_with('0')
        || index > 0 && stretch[index - 1].is_any(words!("at @ around round emptied"))
        || behind(words!("hrs hours yesterday today"))
        || !is_year(text)
            && text.len() == 4
            && (stretch.len() == 1
                || stretch.len() == 2
                    && index == 1
                    && stretch[0].is_any(words!(
                        "probe probed check checked round rounds inspected walk inspection scouted"
                    ))
                || behind(words!(":"))
                || index > 0
                    && behind(words!(","))
                    && stretch[..index].iter().any(|token| token.senses.has(Sense::Gauge)));
    let measured = stretch
        .get(index + 1)
        .is_some_and(|next| next.senses.has(Sense::Unit) || next.is_any(words!("% / -")));
    // "At 630"
    let short =
        text.len() == 3 && !text.starts_with('0') && index > 0 && stretch[index - 1].is_any(words!("at @"));
    if !(text.len() == 4 || short) || !told || measured || !text.bytes().all(|letter| letter.is_ascii_digit())
    {
        return None;
    }
    let (hour, minute) = text.split_at(text.len() - 2);
    let (hour, minute) = (hour.parse().ok()?, minute.parse().ok()?);
    let half = half_of_day(stretch, index + 1);
    // "At 630 pm" is read with its half of the day elsewhere; by itself it may be either.
    if short && half.is_some() {
        return None;
    }
    let certainty = if short { Certainty::EitherHalf } else { Certainty::Sure };
    Some(NaiveTime::from_hms_opt(hour, minute, 0).map(|time| Clock { time, certainty }))
}

fn split_point(token: &Token) -> Option<(f64, Option<f64>)> {
    let (hour, minute) = token.text.split_once('.')?;
    (minute.len() == 2).then_some(())?;
    Some((hour.parse().ok()?, Some(minute.parse().ok()?)))
}

fn is_at(stretch: &[Token], index: usize) -> bool {
    index > 0 && stretch[index - 1].is_any(words!("at @ around round about since by before after till"))
}

/// "at 20 percent", "about 3 gallons", "about 9 figs" are no hours.
fn is_measured(stretch: &[Token], index: usize) -> bool {
    let led = index > 0 && stretch[index - 1].is_any(words!("about around by"));
    stretch.get(index + 1).is_some_and(|next| {
        next.is_any(words!("% \" / ° -"))
            || next.senses.has_any(&[Sense::Unit, Sense::Leaf, Sense::Fig, Sense::Ripe])
            || next.is_any(words!("of more days weeks or to x times trees pots off"))
            || next.number.is_some()
            || led && next.is_any(words!("from on"))
    }) || index > 1 && stretch[index - 2].senses.has_any(&[Sense::Picked, Sense::Gauge, Sense::Rust])
}

#[derive(Clone, Copy)]
enum Half {
    Morning,
    Evening,
}

impl Half {
    fn of(self, hour: u32) -> u32 {
        match self {
            Half::Morning => hour % 12,
            Half::Evening => hour % 12 + 12,
        }
    }
}

fn half_of_day(stretch: &[Token], index: usize) -> Option<(Half, usize)> {
    let token = stretch.get(index)?;
    let next = |at: usize, texts: WordList| stretch.get(index + at).is_some_and(|next| next.is_any(texts));
    match token.text.as_str() {
        "am" => Some((Half::Morning, 1)),
        "pm" => Some((Half::Evening, 1)),
        "a" | "p" => {
            let half = if token.is("a") { Half::Morning } else { Half::Evening };
            // "7 a.m."
            if next(1, words!(".")) && next(2, words!("m")) {
                return Some((half, if next(3, words!(".")) { 4 } else { 3 }));
            }
            let ends =
                stretch.get(index + 1).is_none_or(|next| !next.is_word() || next.senses.has(Sense::Link));
            (token.joined && ends).then_some((half, 1))
        }
        "in" if next(1, words!("the")) && next(2, words!("morning mornin")) => Some((Half::Morning, 3)),
        "in" if next(1, words!("the")) && next(2, words!("afternoon evening")) => Some((Half::Evening, 3)),
        _ => None,
    }
}

/// "25:00" stands in the stretch, and no hour a clock has.
pub(in crate::language::read) fn tells_no_hour(stretch: &[Token]) -> bool {
    let mut told = (0..stretch.len()).filter_map(|index| clock_at(stretch, index)).peekable();
    told.peek().is_some() && told.all(|(clock, _)| clock.is_none())
}

/// A clock time anywhere in a stretch, for the hour of the brief.
pub(in crate::language::read) fn clock_time(stretch: &[Token]) -> Option<NaiveTime> {
    let told = (0..stretch.len()).find_map(|index| clock_at(stretch, index));
    if let Some((clock, _)) = told {
        return clock.map(|clock| clock.time);
    }
    // "brief at 6" and "morning 6": a bare hour of the morning.
    stretch
        .iter()
        .find_map(|token| token.number.filter(|hour| hour.fract() == 0.0 && (0.0..24.0).contains(hour)))
        .map(|hour| time(hour as u32, 0))
}
