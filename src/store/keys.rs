//! Where each record stands. A prefix a kind, so that kinds are ranges; numbers big-endian, so that ranges
//! are in order.

use chrono::{NaiveDate, TimeDelta};
use serde_json::Value;

use crate::identity::{EventId, GardenId, PersonId};

/// The kinds of records, in the order an export has them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    Garden,
    Journal,
    Told,
    Question,
    Wake,
    Inbox,
    Seen,
    Outbox,
    Sent,
    About,
    Note,
    Forecast,
    Past,
    Normals,
    Budget,
}

impl Kind {
    pub(super) const ALL: [Kind; 15] = [
        Kind::Garden,
        Kind::Journal,
        Kind::Told,
        Kind::Question,
        Kind::Wake,
        Kind::Inbox,
        Kind::Seen,
        Kind::Outbox,
        Kind::Sent,
        Kind::About,
        Kind::Note,
        Kind::Forecast,
        Kind::Past,
        Kind::Normals,
        Kind::Budget,
    ];

    pub(super) fn name(self) -> &'static str {
        match self {
            Kind::Garden => "garden",
            Kind::Journal => "journal",
            Kind::Told => "told",
            Kind::Question => "question",
            Kind::Wake => "wake",
            Kind::Inbox => "inbox",
            Kind::Seen => "seen",
            Kind::Outbox => "outbox",
            Kind::Sent => "sent",
            Kind::About => "about",
            Kind::Note => "note",
            Kind::Forecast => "forecast",
            Kind::Past => "past",
            Kind::Normals => "normals",
            Kind::Budget => "budget",
        }
    }

    pub(super) fn of_name(name: &str) -> Option<Kind> {
        Kind::ALL.into_iter().find(|kind| kind.name() == name)
    }

    /// Of every key of this kind.
    pub(super) fn prefix(self) -> Vec<u8> {
        [self.name().as_bytes(), &[STEP]].concat()
    }

    fn parts(self) -> &'static [Part] {
        match self {
            Kind::Garden | Kind::Wake | Kind::Seen | Kind::Sent | Kind::About | Kind::Note => &[Part::Text],
            Kind::Forecast | Kind::Normals | Kind::Budget => &[Part::Text],
            Kind::Journal | Kind::Told => &[Part::Text, Part::Number],
            Kind::Question => &[Part::Text, Part::Text],
            Kind::Inbox | Kind::Outbox => &[Part::Number],
            Kind::Past => &[Part::Text, Part::Date],
        }
    }
}

/// What a key is made of after its kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Text,
    Number,
    Date,
}

/// Between the kind and the rest.
const STEP: u8 = b'/';
/// Between parts: a byte no UTF-8 text has.
const BETWEEN: u8 = 0xff;

/// A key taken apart: its kind, and its parts as an export shows them.
#[derive(Debug, PartialEq)]
pub(super) struct Parsed {
    pub(super) kind: Kind,
    pub(super) parts: Vec<Value>,
}

pub(super) fn parse(key: &[u8]) -> Option<Parsed> {
    let step = key.iter().position(|byte| *byte == STEP)?;
    let kind = Kind::of_name(std::str::from_utf8(&key[..step]).ok()?)?;
    let mut rest = &key[step + 1..];
    let mut parts = Vec::new();
    for (index, part) in kind.parts().iter().enumerate() {
        if index > 0 {
            rest = rest.strip_prefix(&[BETWEEN])?;
        }
        let length = match part {
            Part::Text => rest.iter().position(|byte| *byte == BETWEEN).unwrap_or(rest.len()),
            Part::Number => 8,
            Part::Date => 4,
        };
        let (bytes, after) = rest.split_at_checked(length)?;
        parts.push(match part {
            Part::Text => Value::from(std::str::from_utf8(bytes).ok()?),
            Part::Number => Value::from(u64::from_be_bytes(bytes.try_into().ok()?)),
            Part::Date => Value::from(date_of(u32::from_be_bytes(bytes.try_into().ok()?))?.to_string()),
        });
        rest = after;
    }
    rest.is_empty().then_some(Parsed { kind, parts })
}

/// The key that these parts were taken from; `None` for parts that this kind does not have.
pub(super) fn build(kind: Kind, parts: &[Value]) -> Option<Vec<u8>> {
    if parts.len() != kind.parts().len() {
        return None;
    }
    let mut key = kind.prefix();
    for (index, (part, value)) in kind.parts().iter().zip(parts).enumerate() {
        if index > 0 {
            key.push(BETWEEN);
        }
        match part {
            Part::Text => key.extend_from_slice(value.as_str()?.as_bytes()),
            Part::Number => key.extend_from_slice(&value.as_u64()?.to_be_bytes()),
            Part::Date => key.extend_from_slice(&day_number(value.as_str()?.parse().ok()?).to_be_bytes()),
        }
    }
    Some(key)
}

/// A key as people read it, for errors: `journal/plot/12`.
pub(super) fn shown(key: &[u8]) -> String {
    let Some(Parsed { kind, parts }) = parse(key) else {
        return String::from_utf8_lossy(key).escape_debug().to_string();
    };
    parts.iter().fold(kind.name().to_owned(), |shown, part| match part {
        Value::String(text) => format!("{shown}/{text}"),
        part => format!("{shown}/{part}"),
    })
}

pub(super) fn garden(garden: &GardenId) -> Vec<u8> {
    key(Kind::Garden, &[garden.as_str().as_bytes()])
}

/// Of every key of this kind that belongs to a garden.
pub(super) fn garden_range(kind: Kind, garden: &GardenId) -> Vec<u8> {
    key(kind, &[garden.as_str().as_bytes(), &[]])
}

pub(super) fn numbered(kind: Kind, garden: &GardenId, number: u64) -> Vec<u8> {
    key(kind, &[garden.as_str().as_bytes(), &number.to_be_bytes()])
}

pub(super) fn question(garden: &GardenId, person: &PersonId) -> Vec<u8> {
    key(Kind::Question, &[garden.as_str().as_bytes(), person.as_str().as_bytes()])
}

pub(super) fn wake(garden: &GardenId) -> Vec<u8> {
    key(Kind::Wake, &[garden.as_str().as_bytes()])
}

pub(super) fn queued(kind: Kind, number: u64) -> Vec<u8> {
    key(kind, &[&number.to_be_bytes()])
}

pub(super) fn seen(event: &EventId) -> Vec<u8> {
    key(Kind::Seen, &[event.as_str().as_bytes()])
}

pub(super) fn sent(name: &str) -> Vec<u8> {
    key(Kind::Sent, &[name.as_bytes()])
}

pub(super) fn about(event: &EventId) -> Vec<u8> {
    key(Kind::About, &[event.as_str().as_bytes()])
}

pub(super) fn note(name: &str) -> Vec<u8> {
    key(Kind::Note, &[name.as_bytes()])
}

pub(super) fn cell(kind: Kind, cell: &str) -> Vec<u8> {
    key(kind, &[cell.as_bytes()])
}

pub(super) fn past_day(cell: &str, date: NaiveDate) -> Vec<u8> {
    key(Kind::Past, &[cell.as_bytes(), &day_number(date).to_be_bytes()])
}

pub(super) fn past_range(cell: &str) -> Vec<u8> {
    key(Kind::Past, &[cell.as_bytes(), &[]])
}

pub(super) fn budget(service: &str) -> Vec<u8> {
    key(Kind::Budget, &[service.as_bytes()])
}

/// The number a key ends in.
pub(super) fn number_of(key: &[u8]) -> Option<u64> {
    parse(key)?.parts.pop()?.as_u64()
}

/// The text a key ends in.
pub(super) fn text_of(key: &[u8]) -> Option<String> {
    match parse(key)?.parts.pop()? {
        Value::String(text) => Some(text),
        _ => None,
    }
}

/// The date a key ends in.
pub(super) fn date_at_end(key: &[u8]) -> Option<NaiveDate> {
    text_of(key)?.parse().ok()
}

/// Days since 1970, moved up so that those before it sort first.
fn day_number(date: NaiveDate) -> u32 {
    const MIDDLE: u32 = 1 << 31;
    // The calendar has fewer than 2^28 days.
    let days = (date - NaiveDate::default()).num_days() as i32;
    MIDDLE.wrapping_add_signed(days)
}

fn date_of(number: u32) -> Option<NaiveDate> {
    let days = i64::from(number) - (1_i64 << 31);
    NaiveDate::default().checked_add_signed(TimeDelta::try_days(days)?)
}

fn key(kind: Kind, parts: &[&[u8]]) -> Vec<u8> {
    let mut bytes = kind.prefix();
    for (index, part) in parts.iter().enumerate() {
        if index > 0 {
            bytes.push(BETWEEN);
        }
        bytes.extend_from_slice(part);
    }
    bytes
}

#[cfg(test)]
mod tests {
    use super::*;

    fn date(year: i32, month: u32, day: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(year, month, day).expect("a date")
    }

    #[test]
    fn every_key_is_taken_apart_and_put_together_again() {
        let plot = GardenId::new("plot/ä");
        let rows = [
            (garden(&plot), "garden/plot/ä"),
            (numbered(Kind::Journal, &plot, 0xff00_ffff), "journal/plot/ä/4278255615"),
            (numbered(Kind::Told, &plot, u64::MAX), "told/plot/ä/18446744073709551615"),
            (question(&plot, &PersonId::new("@ana:example.org")), "question/plot/ä/@ana:example.org"),
            (wake(&plot), "wake/plot/ä"),
            (queued(Kind::Inbox, 7), "inbox/7"),
            (seen(&EventId::new("$x")), "seen/$x"),
            (queued(Kind::Outbox, 1), "outbox/1"),
            (sent("brief-2027-05-03"), "sent/brief-2027-05-03"),
            (about(&EventId::new("")), "about/"),
            (note("sync/token"), "note/sync/token"),
            (cell(Kind::Forecast, "30.69,-88.04"), "forecast/30.69,-88.04"),
            (past_day("30.69,-88.04", date(1969, 12, 31)), "past/30.69,-88.04/1969-12-31"),
            (past_day("30.69,-88.04", date(2027, 5, 3)), "past/30.69,-88.04/2027-05-03"),
            (cell(Kind::Normals, "30.69,-88.04"), "normals/30.69,-88.04"),
            (budget("open-meteo"), "budget/open-meteo"),
        ];
        for (key, expected) in rows {
            assert_eq!(shown(&key), expected);
            let Parsed { kind, parts } = parse(&key).expect("a key");
            assert_eq!(build(kind, &parts), Some(key), "{expected}");
        }
    }

    #[test]
    fn what_is_no_key_is_no_key() {
        for key in
            ["", "journal", "journal/", "journal/plot", "weeds/plot", "inbox/1234567", "inbox/123456789"]
        {
            assert_eq!(parse(key.as_bytes()), None, "{key}");
        }
        assert_eq!(parse(b"seen/a\xff"), None);
        assert_eq!(parse(b"seen/\xfe"), None);
    }

    #[test]
    fn days_sort_in_order_through_1970() {
        let days = [date(1960, 1, 1), date(1969, 12, 31), date(1970, 1, 1), date(2027, 5, 3)];
        assert!(days.is_sorted_by_key(|day| past_day("0.00,0.00", *day)));
    }

    #[test]
    fn a_garden_whose_name_begins_another_is_not_it() {
        let longer = numbered(Kind::Journal, &GardenId::new("plot 2"), 1);
        assert!(!longer.starts_with(&garden_range(Kind::Journal, &GardenId::new("plot"))));
    }
}
