use std::fmt;
use std::time::Duration;

use chrono::{DateTime, Days, NaiveTime, TimeDelta, Utc};
use thiserror::Error;

/// Why there is no forecast, told to whoever runs the program: where, what, and what to do.
#[derive(Clone, Debug, Error, PartialEq)]
pub struct ForecastError {
    /// The address asked, without its key. Empty as long as only bytes were looked at.
    address: String,
    problem: Problem,
    /// How long the service asked us to wait.
    retry_after: Option<Duration>,
}

#[derive(Clone, Debug, Error, PartialEq)]
pub enum Problem {
    #[error("the configured address `{address}` cannot be used: {reason}; correct it in the configuration")]
    Address { address: String, reason: String },
    #[error(
        "this service answers only programs that say whom to write to; set `contact` in the configuration"
    )]
    NoContact,
    #[error("the day's allowance of requests is spent; the next one begins {}", .until.format("%Y-%m-%d %H:%M UTC"))]
    Spent { until: DateTime<Utc> },
    #[error("the service asked to be left alone until {}", .until.format("%Y-%m-%d %H:%M UTC"))]
    Resting { until: DateTime<Utc> },
    #[error(
        "no connection could be made ({0}); check the network, the name and any proxy, it is tried again by itself"
    )]
    Connect(String),
    #[error("no whole answer came within {} s; it is tried again by itself", .0.as_secs_f32())]
    TimedOut(Duration),
    #[error("the answer broke off ({0}); it is tried again by itself")]
    Interrupted(String),
    #[error("the answer is larger than {} MB and was refused; is the address that of a weather service?", .limit / 1_000_000)]
    TooLarge { limit: usize },
    #[error("the service sends us in a circle or to an unsafe address ({0}); check the configured address")]
    Redirected(String),
    #[error("the service answered {code}{}; {}", reason_of(reason), step_for(*code))]
    Status { code: u16, reason: String },
    #[error("the service refused for too many requests{}; {}", reason_of(reason), limit.step())]
    Limited { limit: Limit, reason: String },
    #[error(
        "the service refused the request ({reason}); compare its documentation, asking again would not help"
    )]
    Refused { reason: String },
    #[error(
        "the answer is not the JSON of a weather service (it starts `{start}`); it is tried again by itself"
    )]
    NotJson { start: String },
    #[error("the answer has another form than documented: {0}; check that the address speaks this interface")]
    Form(String),
    #[error("{variable} came in `{found}`, which is no unit we know for it; nothing of that answer was used")]
    Unit { variable: String, found: String },
    #[error("the answer holds no usable hour: {0}; the last good forecast is kept")]
    Nothing(String),
}

/// Which allowance is used up, and so when the next one begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    Concurrent,
    Minute,
    Hour,
    Day,
    Unnamed,
}

impl ForecastError {
    pub fn problem(&self) -> &Problem {
        &self.problem
    }

    /// Names the place. An address once given stays.
    pub(super) fn at(mut self, address: &str) -> Self {
        if self.address.is_empty() {
            address.clone_into(&mut self.address);
        }
        self
    }

    pub(super) fn after(self, retry_after: Option<Duration>) -> Self {
        Self { retry_after, ..self }
    }

    pub(super) fn retry_after(&self) -> Option<Duration> {
        self.retry_after
    }

    /// Whether the same request may succeed a little later.
    pub fn retryable(&self) -> bool {
        match &self.problem {
            Problem::Connect(_)
            | Problem::TimedOut(_)
            | Problem::Interrupted(_)
            | Problem::NotJson { .. } => true,
            Problem::Limited { limit, .. } => !matches!(limit, Limit::Hour | Limit::Day),
            Problem::Status { code, .. } => *code >= 500,
            Problem::Address { .. }
            | Problem::NoContact
            | Problem::Spent { .. }
            | Problem::Resting { .. }
            | Problem::TooLarge { .. }
            | Problem::Redirected(_)
            | Problem::Refused { .. }
            | Problem::Form(_)
            | Problem::Unit { .. }
            | Problem::Nothing(_) => false,
        }
    }

    /// Until when the service wants to be left alone, if it said so; never longer than a day.
    pub fn not_before(&self, now: DateTime<Utc>) -> Option<DateTime<Utc>> {
        const LONGEST: TimeDelta = TimeDelta::days(1);
        let asked = self
            .retry_after
            .map(|wait| TimeDelta::from_std(wait).map_or(LONGEST, |wait| wait.min(LONGEST)))
            .map(|wait| now + wait);
        let renewed = match &self.problem {
            Problem::Limited { limit, .. } => limit.renewed_at(now),
            Problem::Spent { until } | Problem::Resting { until } => Some(*until),
            _ => None,
        };
        asked.max(renewed)
    }
}

impl From<Problem> for ForecastError {
    fn from(problem: Problem) -> Self {
        Self { address: String::new(), problem, retry_after: None }
    }
}

impl fmt::Display for ForecastError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if !self.address.is_empty() {
            write!(f, "{}: ", self.address)?;
        }
        self.problem.fmt(f)
    }
}

impl Limit {
    /// From the words of a refusal; only the words tell which limit it was.
    pub(super) fn named_in(reason: &str) -> Self {
        let reason = reason.to_lowercase();
        let names = [
            ("concurrent", Limit::Concurrent),
            ("minutely", Limit::Minute),
            ("hourly", Limit::Hour),
            ("daily", Limit::Day),
        ];
        names.into_iter().find(|(word, _)| reason.contains(word)).map_or(Limit::Unnamed, |(_, limit)| limit)
    }

    /// Allowances begin anew at the clock's minute, hour and UTC day.
    fn renewed_at(self, now: DateTime<Utc>) -> Option<DateTime<Utc>> {
        let seconds = match self {
            Limit::Concurrent | Limit::Unnamed => return None,
            Limit::Minute => 60,
            Limit::Hour => 3600,
            Limit::Day => {
                let tomorrow = now.date_naive().checked_add_days(Days::new(1))?;
                return Some(tomorrow.and_time(NaiveTime::MIN).and_utc());
            }
        };
        DateTime::from_timestamp((now.timestamp().div_euclid(seconds) + 1) * seconds, 0)
    }

    fn step(self) -> &'static str {
        match self {
            Limit::Concurrent | Limit::Minute | Limit::Unnamed => "it is tried again a little later",
            Limit::Hour => "it is tried again in the next hour",
            Limit::Day => "it is tried again on the next UTC day; a key or an own server lifts the limit",
        }
    }
}

fn reason_of(reason: &str) -> String {
    if reason.is_empty() { String::new() } else { format!(" ({reason})") }
}

fn step_for(code: u16) -> &'static str {
    match code {
        401 | 403 => "check the key and the contact in the configuration",
        404 => "check the configured address",
        400..=499 => "asking again would not help; compare the service's documentation",
        500.. => "it is tried again by itself",
        _ => "that is no answer to our request; check the configured address",
    }
}

/// The beginning of something foreign, on one line, short enough for a log.
pub(super) fn excerpt(text: &str) -> String {
    const ENOUGH: usize = 120;
    let printable = |letter: char| if letter.is_control() { ' ' } else { letter };
    let line: String = text.trim().chars().map(printable).take(ENOUGH).collect();
    line.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_of_a_refusal_say_when_to_come_back() {
        let now: DateTime<Utc> = "2026-12-31T22:41:30Z".parse().expect("a time");
        let rows = [
            (
                "Minutely API request limit exceeded. Please try again in one minute.",
                Some("2026-12-31T22:42:00Z"),
            ),
            (
                "Hourly API request limit exceeded. Please try again in the next hour.",
                Some("2026-12-31T23:00:00Z"),
            ),
            ("Daily API request limit exceeded. Please try again tomorrow.", Some("2027-01-01T00:00:00Z")),
            ("Too many concurrent requests", None),
        ];
        for (reason, expected) in rows {
            let limit = Limit::named_in(reason);
            let error = ForecastError::from(Problem::Limited { limit, reason: reason.into() });
            let expected: Option<DateTime<Utc>> = expected.map(|time| time.parse().expect("a time"));
            assert_eq!(error.not_before(now), expected, "{reason}");
            assert_eq!(error.retryable(), !matches!(limit, Limit::Hour | Limit::Day), "{reason}");
        }
    }

    #[test]
    fn what_is_worth_a_second_try() {
        let status = |code| Problem::Status { code, reason: String::new() };
        let rows = [
            (status(500), true),
            (status(502), true),
            (status(503), true),
            (status(400), false),
            (status(403), false),
            (status(404), false),
            (status(304), false),
            (Problem::NotJson { start: "<html>".into() }, true),
            (Problem::Interrupted("closed".into()), true),
            (Problem::TooLarge { limit: 8_000_000 }, false),
            (Problem::Refused { reason: "no such variable".into() }, false),
        ];
        for (problem, retryable) in rows {
            assert_eq!(ForecastError::from(problem.clone()).retryable(), retryable, "{problem}");
        }
    }
}
