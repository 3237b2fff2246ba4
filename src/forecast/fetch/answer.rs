use std::time::Duration;

use chrono::{DateTime, Utc};
use reqwest::{Response, StatusCode};
use serde::Deserialize;

use crate::forecast::error::{ForecastError, Limit, Problem, excerpt};

/// A body, and what the service said about its age.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    pub body: Vec<u8>,
    /// Nothing new since the request's `unless_same_since`: the body is empty, the earlier one holds.
    pub unchanged: bool,
    pub last_modified: Option<String>,
    pub expires: Option<String>,
}

impl Answer {
    pub fn expires_at(&self) -> Option<DateTime<Utc>> {
        http_date(self.expires.as_deref()?)
    }
}

pub(super) fn header(response: &Response, name: &str) -> Option<String> {
    response.headers().get(name)?.to_str().ok().map(str::to_owned)
}

/// The whole body, unpacked, unless it is too large.
pub(super) async fn body_of(
    mut response: Response,
    limit: usize,
    problem: impl Fn(reqwest::Error) -> Problem,
) -> Result<Vec<u8>, Problem> {
    let announced = response.content_length().unwrap_or(0);
    if announced > limit as u64 {
        return Err(Problem::TooLarge { limit });
    }
    let mut body = Vec::new();
    while let Some(chunk) = response.chunk().await.map_err(&problem)? {
        if body.len() + chunk.len() > limit {
            return Err(Problem::TooLarge { limit });
        }
        body.extend_from_slice(&chunk);
    }
    Ok(body)
}

/// An answer that is a refusal.
pub(super) struct Refusal {
    status: StatusCode,
    reason: String,
    retry_after: Option<Duration>,
}

impl Refusal {
    pub(super) async fn read(response: Response) -> Self {
        const ENOUGH: usize = 64_000;
        let status = response.status();
        let retry_after = header(&response, "retry-after")
            .and_then(|asked| retry_after(&asked, header(&response, "date").as_deref()));
        // A refusal whose words cannot be read is still a refusal.
        let body = body_of(response, ENOUGH, |_| Problem::Interrupted(String::new())).await;
        Self { status, reason: body.map(|body| reason(&body)).unwrap_or_default(), retry_after }
    }
}

impl From<Refusal> for ForecastError {
    fn from(refusal: Refusal) -> Self {
        let Refusal { status, reason, retry_after } = refusal;
        let problem = if status == StatusCode::TOO_MANY_REQUESTS {
            Problem::Limited { limit: Limit::named_in(&reason), reason }
        } else {
            Problem::Status { code: status.as_u16(), reason }
        };
        ForecastError::from(problem).after(retry_after)
    }
}

/// Seconds, or a date, which is measured against the service's own clock and not ours.
fn retry_after(asked: &str, date: Option<&str>) -> Option<Duration> {
    let asked = asked.trim();
    if !asked.is_empty() && asked.bytes().all(|byte| byte.is_ascii_digit()) {
        // More digits than a number holds mean very long.
        return Some(Duration::from_secs(asked.parse().unwrap_or(u64::MAX)));
    }
    let wait = http_date(asked)? - http_date(date?)?;
    Some(wait.to_std().unwrap_or(Duration::ZERO))
}

fn http_date(text: &str) -> Option<DateTime<Utc>> {
    Some(DateTime::parse_from_rfc2822(text).ok()?.with_timezone(&Utc))
}

/// The words of a refusal: the services' own forms of JSON, or whatever text is between the tags.
fn reason(body: &[u8]) -> String {
    #[derive(Deserialize)]
    struct Words {
        reason: Option<String>,
        detail: Option<String>,
        title: Option<String>,
    }

    let of_json = serde_json::from_slice::<Words>(body)
        .ok()
        .and_then(|words| words.reason.or(words.detail).or(words.title));
    excerpt(&of_json.unwrap_or_else(|| without_tags(&String::from_utf8_lossy(body))))
}

fn without_tags(text: &str) -> String {
    let mut in_tag = false;
    let outside = |letter: char| {
        match letter {
            '<' => in_tag = true,
            '>' => in_tag = false,
            _ => return if in_tag { None } else { Some(letter) },
        }
        Some(' ')
    };
    text.chars().filter_map(outside).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wait_asked_for_is_read_in_all_its_forms() {
        let date = Some("Wed, 21 Oct 2026 07:28:00 GMT");
        let rows = [
            ("120", date, Some(120)),
            (" 0 ", None, Some(0)),
            ("Wed, 21 Oct 2026 07:30:00 GMT", date, Some(120)),
            ("Wed, 21 Oct 2015 07:28:00 GMT", date, Some(0)),
            ("Wed, 21 Oct 2026 07:30:00 GMT", None, None),
            ("99999999999999999999999", date, Some(u64::MAX)),
            ("soon", date, None),
            ("-5", date, None),
            ("", date, None),
        ];
        for (asked, date, expected) in rows {
            assert_eq!(retry_after(asked, date), expected.map(Duration::from_secs), "{asked:?}");
        }
    }

    #[test]
    fn the_words_of_a_refusal_are_found() {
        let rows = [
            (r#"{"error":true,"reason":"The service is overloaded"}"#, "The service is overloaded"),
            (r#"{"title":"Forecast Grid Expired","detail":"issued 2020","status":503}"#, "issued 2020"),
            ("<html> <head><title>502 Bad Gateway</title></head><body></body></html>", "502 Bad Gateway"),
            ("", ""),
        ];
        for (body, expected) in rows {
            assert_eq!(reason(body.as_bytes()), expected);
        }
    }
}
