//! The days a label tells: how long between sprays, and how long from a spray to the harvest. One place decides which
//! of the two a figure is, in whatever order they are told.

use crate::language::read::tokens::Token;
use crate::language::read::word_list::{WordList, words};
use crate::units::Days;

const HARVEST: WordList = words!("harvest harvesting picking pick eat eating picked harvested preharvest");

/// What was told, and the figures it was told with; a figure of neither is left to others.
#[derive(Debug, Default, PartialEq)]
pub(in crate::language::read) struct LabelDays {
    pub(in crate::language::read) interval: Option<Days>,
    pub(in crate::language::read) before_harvest: Option<Days>,
    /// Days with no word of their own beside them.
    unsaid: Option<Days>,
    pub(super) used: Vec<usize>,
}

#[derive(Clone, Copy, PartialEq)]
enum Of {
    Interval,
    Harvest,
    Unsaid,
}

pub(super) fn told(tokens: &[Token]) -> LabelDays {
    let mut found = LabelDays::default();
    let mut at = 0;
    while at < tokens.len() {
        let Some((days, end)) = figure(tokens, at) else {
            at += 1;
            continue;
        };
        match days.map(|days| (days, kind(tokens, at, end))) {
            Some((days, Of::Interval)) if days > 0.0 => {
                found.interval = found.interval.or(Some(Days::new(days)));
                found.used.extend(at..end);
            }
            Some((days, Of::Harvest)) => {
                found.before_harvest = found.before_harvest.or(Some(Days::new(days)));
                found.used.extend(at..end);
            }
            Some((days, Of::Unsaid)) => found.unsaid = found.unsaid.or(Some(Days::new(days))),
            _ => {}
        }
        at = end;
    }
    found.before_harvest = found.before_harvest.or_else(|| at_once(tokens).then(|| Days::new(0.0)));
    found
}

/// As `told`, of words that can only be a spray's: "copper 10 days", "wait 1 day", "the day after".
pub(in crate::language::read) fn told_of_a_spray(tokens: &[Token]) -> LabelDays {
    let mut found = told(tokens);
    found.interval = found.interval.or_else(|| in_words(tokens));
    let again = tokens.iter().any(|token| token.is_any(words!("between again next spray spraying sprays")));
    let picks = tokens.iter().any(|token| {
        token.is_any(HARVEST) || token.is("phi") || !again && token.is_any(words!("wait waiting"))
    });
    // "I never pick till the day after"
    let day_after = || tokens.windows(2).any(|pair| pair[0].is("day") && pair[1].is("after"));
    if picks && found.before_harvest.is_none() {
        found.before_harvest = found.unsaid.or_else(|| day_after().then(|| Days::new(1.0)));
    } else {
        found.interval = found.interval.or(found.unsaid);
    }
    found
}

/// Days at a place and where they end; none for a figure without a unit that is of no harvest.
fn figure(tokens: &[Token], at: usize) -> Option<(Option<f64>, usize)> {
    let number = |at: usize| tokens.get(at).and_then(|token| token.number).filter(|days| *days < 400.0);
    let is = |at: usize, list: WordList| tokens.get(at).is_some_and(|token| token.is_any(list));
    // "Don't pick for a day", "a week before picking"
    if is(at, words!("a"))
        && is(at + 1, words!("day week"))
        && !is(at.wrapping_sub(1), words!("once twice times time"))
    {
        return Some((Some(if is(at + 1, words!("day")) { 1.0 } else { 7.0 }), at + 2));
    }
    let first = number(at)?;
    let hyphen = |at: usize| usize::from(is(at, words!("-")));
    // "7 to 10 days": the shorter is the least the label allows.
    let range = is(at + 1, words!("- to or")) && number(at + 2).is_some();
    let unit = if range { at + 3 } else { at + 1 };
    let unit = unit + hyphen(unit);
    if is(unit, words!("day days d")) {
        return Some((Some(first), unit + 1));
    }
    if is(unit, words!("week weeks wk wks")) {
        return Some((Some(first * 7.0), unit + 1));
    }
    // "PHI = 0", "0 phi", "phi is 2"
    let named = tokens[at.saturating_sub(2)..at].iter().any(|token| token.is("phi"))
        || is(at + 1, words!("phi")) && tokens.get(at + 2).is_none_or(|next| next.number.is_none());
    let other = is(at + 1, words!("h hr hrs hour hours times applications sprays % f c"));
    // "... and 10 between sprays"
    let between = is(at + 1, words!("between"));
    // "Copper every 14 days, sulfur every 7"
    let every = tokens[at.saturating_sub(1)..at].iter().any(|token| token.is_any(words!("every evry evrey")))
        && tokens.get(at + 1).is_none_or(|next| next.is_mark() || next.is_any(words!("with and but wait")));
    Some(((between || every || named && !other).then_some(first), at + 1))
}

/// Whether the days from `from` to `end` are of the next spray or of the harvest, by the words of their part.
fn kind(tokens: &[Token], from: usize, end: usize) -> Of {
    let parts = |token: &&Token| !token.is_any(words!(", ; . ( )"));
    let own = |token: &&Token| parts(token) && !token.is_any(words!("and then but"));
    // A figure behind has its own words.
    let before: Vec<&Token> = tokens[..from]
        .iter()
        .rev()
        .take(6)
        .take_while(own)
        .take_while(|token| token.number.is_none())
        .collect();
    let after: Vec<&Token> =
        tokens[end..].iter().take(6).take_while(own).take_while(|token| token.number.is_none()).collect();
    let near = |list: WordList| before.iter().take(3).any(|token| token.is_any(list));
    let any = |part: &[&Token], list: WordList| part.iter().any(|token| token.is_any(list));
    let next = |list: WordList| after.first().is_some_and(|token| token.is_any(list));
    // "Every 7 days", "at 7 day intervals", "10 days between sprays", "minimum 7 days apart"
    let spaced = near(words!("every evry evrey ever each again q interval intervals repeat reapply"))
        || next(words!("interval intervals between apart"))
        || any(&after, words!("between"));
    let picks = any(&after, HARVEST) && any(&after, words!("before to till til until prior of ahead"))
        || any(&before, words!("phi preharvest withholding"))
        || next(words!("phi")) && tokens.get(end + 1).is_none_or(|own| own.number.is_none())
        // "7 days no harvest"
        || next(words!("no without")) && any(&after, HARVEST)
        || next(words!("wait waiting"))
        // "Zero day harvest interval"
        || next(HARVEST) && after.get(1).is_some_and(|token| token.is_any(words!("interval wait limit")))
        || before.first().is_some_and(|token| token.is_any(words!("harvest preharvest")))
        // "The harvest wait for copper is 1 day"
        || any(&before, words!("harvest picking")) && any(&before, words!("wait waiting interval days"))
        || any(&before, HARVEST) && any(&before, words!("can't cant cannot not don't never no"))
        || any(&before, HARVEST) && any(&after, words!("after later"));
    match (spaced, picks) {
        // "The pre-harvest interval is 1 day"
        (true, true) if any(&before, words!("harvest preharvest phi")) || next(HARVEST) => Of::Harvest,
        (true, _) => Of::Interval,
        (false, true) => Of::Harvest,
        (false, false) => Of::Unsaid,
    }
}

/// "Up to the day of harvest", "same day ok", "no wait": none.
fn at_once(tokens: &[Token]) -> bool {
    let day_of = tokens.windows(2).enumerate().any(|(at, pair)| {
        pair[0].is("day")
            && pair[1].is("of")
            && tokens[at + 2..].iter().take(2).any(|token| token.is_any(HARVEST))
    });
    let pair =
        |one: &str, other: WordList| tokens.windows(2).any(|pair| pair[0].is(one) && pair[1].is_any(other));
    let up_to = tokens.windows(3).any(|three| {
        three[0].is("up") && three[1].is_any(words!("to until till")) && three[2].is_any(HARVEST)
    });
    day_of
        || up_to
        || pair("no", words!("wait waiting withholding"))
        || pair("same", words!("day"))
            && tokens.iter().any(|token| token.is_any(HARVEST) || token.is_any(words!("ok okay fine")))
}

/// "Once a week", "weekly", "every other week", "one time in the week": days between sprays, without a figure.
pub(super) fn in_words(tokens: &[Token]) -> Option<Days> {
    let is = |at: usize, list: WordList| tokens.get(at).is_some_and(|token| token.is_any(list));
    (0..tokens.len()).find_map(|at| {
        let every = is(at, words!("every evry each"));
        let days = match () {
            () if is(at, words!("biweekly fortnightly")) => 14.0,
            () if is(at, words!("weekly")) => 7.0,
            () if every && is(at + 1, words!("other second")) && is(at + 2, words!("week wk")) => 14.0,
            () if every && is(at + 1, words!("fortnight")) => 14.0,
            () if every && is(at + 1, words!("week wk")) => 7.0,
            () if is(at, words!("week")) && is(at.wrapping_sub(1), words!("a per the every each")) => {
                let once = tokens[..at].iter().rev().take(4).any(|token| token.is("once"))
                    || tokens[..at].windows(2).any(|pair| pair[0].is("one") && pair[1].is("time"));
                if once { 7.0 } else { return None }
            }
            () => return None,
        };
        Some(Days::new(days))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::read::tokens::tokens;

    /// Labels as they are read out; what each says is plain English, no computation.
    #[test]
    fn days_are_of_what_their_words_say() {
        let rows: [(&str, Option<f64>, Option<f64>); 28] = [
            ("every 10 days, 1 day before harvest", Some(10.0), Some(1.0)),
            ("1 day before harvest, every 10 days", Some(10.0), Some(1.0)),
            ("phi 2", None, Some(2.0)),
            ("PHI = 0", None, Some(0.0)),
            ("every 10 days 0 phi", Some(10.0), Some(0.0)),
            ("phi for copper is 1 day", None, Some(1.0)),
            ("the pre-harvest interval for neem is 1 day", None, Some(1.0)),
            ("PHI 7 days, minimum 7 days between sprays, no more than 5 applications", Some(7.0), Some(7.0)),
            ("repeat at 7 to 10 day intervals", Some(7.0), None),
            ("up to the day of harvest", None, Some(0.0)),
            ("same day OK", None, Some(0.0)),
            ("every 2 wks, cant pick for 3 days after", Some(14.0), Some(3.0)),
            ("do not apply within 1 day of harvest", None, Some(1.0)),
            ("once every two weeks", Some(14.0), None),
            ("every other week", Some(14.0), None),
            ("once a week", Some(7.0), None),
            ("one time in the week", Some(7.0), None),
            ("copper needs 7 days before harvest", None, Some(7.0)),
            ("wait 7 days between sprays", Some(7.0), None),
            ("zero day harvest interval", None, Some(0.0)),
            ("don't pick for a day after", None, Some(1.0)),
            ("every two weeks, leave it alone a week before picking", Some(14.0), Some(7.0)),
            ("once a day", None, None),
            ("every 10 days, withholding period 1 day", Some(10.0), Some(1.0)),
            ("copper 10d phi 2", Some(10.0), Some(2.0)),
            ("copper, wait 1 day", None, Some(1.0)),
            ("rei 24 hours", None, None),
            ("0 days before harvest, if I'm reading it right", None, Some(0.0)),
        ];
        for (text, interval, wait) in rows {
            let found = told_of_a_spray(&tokens(text));
            let days = |found: Option<Days>| found.map(Days::value);
            assert_eq!((days(found.interval), days(found.before_harvest)), (interval, wait), "{text}");
        }
    }
}
