//! A line of a script.

use chrono::{DateTime, FixedOffset, Utc};
use serde::Deserialize;

use crate::identity::EventId;
use crate::post::Content;

#[derive(Debug)]
pub(super) struct Line {
    pub(super) at: DateTime<Utc>,
    pub(super) from: String,
    pub(super) room: String,
    pub(super) id: Option<String>,
    pub(super) reply: Option<String>,
    /// Nothing for a line that only lets time pass.
    pub(super) said: Option<Said>,
}

#[derive(Debug, PartialEq)]
pub(super) enum Said {
    Say(String),
    Edit { of: String, say: String },
    Delete(String),
    React { to: String, key: String },
    Location { geo: String, say: Option<String> },
    Photo { media_type: String, say: Option<String> },
    File { name: String, text: String },
}

impl Said {
    pub(super) fn content(&self) -> Content {
        match self {
            Said::Say(text) => Content::Said { text: text.clone() },
            Said::Edit { of, say } => Content::Edited { of: EventId::new(of), text: say.clone() },
            Said::Delete(of) => Content::Deleted { of: EventId::new(of) },
            Said::React { to, key } => Content::Reacted { to: EventId::new(to), key: key.clone() },
            Said::Location { geo, say } => Content::Located { geo: geo.clone(), caption: say.clone() },
            Said::Photo { media_type, say } => Content::Photo {
                media_type: media_type.clone(),
                size: None,
                caption: say.clone(),
                reference: None,
            },
            Said::File { name, text } => Content::File { name: name.clone(), text: text.clone() },
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Raw {
    at: DateTime<FixedOffset>,
    from: Option<String>,
    room: Option<String>,
    id: Option<String>,
    reply: Option<String>,
    say: Option<String>,
    #[serde(default)]
    wake: bool,
    edit: Option<String>,
    delete: Option<String>,
    react: Option<String>,
    key: Option<String>,
    location: Option<String>,
    photo: Option<String>,
    file: Option<String>,
}

/// What is wrong with a line is told in words, with what to write instead.
pub(super) fn read(text: &str) -> Result<Line, String> {
    let raw: Raw = serde_json::from_str(text).map_err(|error| error.to_string())?;
    let at = raw.at.with_timezone(&Utc);
    let from = raw.from.clone();
    let room = raw.room.clone().unwrap_or_else(|| String::from("direct"));
    let (id, reply, wake) = (raw.id.clone(), raw.reply.clone(), raw.wake);
    let said = said(raw)?;
    match (&said, wake, from) {
        (None, true, from) => Ok(Line { at, from: from.unwrap_or_default(), room, id, reply, said }),
        (Some(_), _, Some(from)) => Ok(Line { at, from, room, id, reply, said }),
        (Some(_), _, None) => Err(String::from("\"from\" is missing: who says it?")),
        (None, false, _) => Err(String::from(
            "nothing is said: give \"say\", \"edit\", \"delete\", \"react\", \"location\", \"photo\", \"file\" or \"wake\": true",
        )),
    }
}

fn said(raw: Raw) -> Result<Option<Said>, String> {
    Ok(Some(match raw {
        Raw { edit: Some(of), say: Some(say), .. } => Said::Edit { of, say },
        Raw { edit: Some(_), .. } => return Err(String::from("\"edit\" wants \"say\": what it says now")),
        Raw { delete: Some(of), .. } => Said::Delete(of),
        Raw { react: Some(to), key: Some(key), .. } => Said::React { to, key },
        Raw { react: Some(_), .. } => return Err(String::from("\"react\" wants \"key\": the sign given")),
        Raw { location: Some(geo), say, .. } => Said::Location { geo, say },
        Raw { photo: Some(media_type), say, .. } => Said::Photo { media_type, say },
        Raw { file: Some(name), say: Some(text), .. } => Said::File { name, text },
        Raw { say: Some(say), .. } => Said::Say(say),
        _ => return Ok(None),
    }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_of_each_kind_are_read() {
        let rows = [
            (
                r#"{"at":"2027-05-03T06:40:00-05:00","from":"ana","room":"plot","say":"rust"}"#,
                Said::Say("rust".into()),
            ),
            (
                r#"{"at":"2027-05-03T06:40:00-05:00","from":"ana","edit":"a","say":"x"}"#,
                Said::Edit { of: "a".into(), say: "x".into() },
            ),
            (r#"{"at":"2027-05-03T06:40:00-05:00","from":"ana","delete":"a"}"#, Said::Delete("a".into())),
            (
                r#"{"at":"2027-05-03T06:40:00-05:00","from":"ana","react":"a","key":"👍"}"#,
                Said::React { to: "a".into(), key: "👍".into() },
            ),
        ];
        for (text, want) in rows {
            assert_eq!(read(text).expect("a line").said, Some(want), "{text}");
        }
        assert_eq!(read(r#"{"at":"2027-05-03T06:40:00Z","wake":true}"#).expect("a line").said, None);
    }

    #[test]
    fn what_is_wrong_is_said() {
        let rows = [
            ("nonsense", "expected"),
            (r#"{"at":"yesterday","from":"ana","say":"x"}"#, "invalid"),
            (r#"{"at":"2027-05-03T06:40:00Z","say":"x"}"#, "\"from\" is missing"),
            (r#"{"at":"2027-05-03T06:40:00Z","from":"ana"}"#, "nothing is said"),
            (r#"{"at":"2027-05-03T06:40:00Z","from":"ana","react":"a"}"#, "wants \"key\""),
            (r#"{"at":"2027-05-03T06:40:00Z","from":"ana","shout":"a"}"#, "unknown field `shout`"),
        ];
        for (text, want) in rows {
            let problem = read(text).expect_err("it is wrong");
            assert!(problem.contains(want), "{problem:?} does not say {want:?}");
        }
    }
}
