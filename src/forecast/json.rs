//! JSON as weather services write it.

use std::fmt;

use serde::Deserialize;
use serde::de::{DeserializeOwned, Deserializer, IgnoredAny, MapAccess, SeqAccess, Visitor};
use serde_json::error::Category;

use super::error::{ForecastError, Problem, excerpt};

/// Reads a body, with the bare `NaN` and `Infinity` that some servers write taken as null.
pub(super) fn parse<Wire: DeserializeOwned>(bytes: &[u8]) -> Result<Wire, ForecastError> {
    serde_json::from_slice(bytes)
        .or_else(|error| match without_bare_words(bytes) {
            Some(mended) => serde_json::from_slice(&mended),
            None => Err(error),
        })
        .map_err(|error| problem(&error, bytes).into())
}

fn problem(error: &serde_json::Error, bytes: &[u8]) -> Problem {
    match error.classify() {
        Category::Data => Problem::Form(excerpt(&error.to_string())),
        Category::Syntax | Category::Eof | Category::Io => {
            let beginning = bytes.get(..bytes.len().min(600)).unwrap_or_default();
            Problem::NotJson { start: excerpt(&String::from_utf8_lossy(beginning)) }
        }
    }
}

/// The same text with `NaN`, `Infinity` and `-Infinity` outside strings replaced by null;
/// nothing if there are none.
fn without_bare_words(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut mended = Vec::with_capacity(bytes.len());
    let mut rest = bytes;
    let mut in_string = false;
    let mut found = false;
    while let Some((&byte, behind)) = rest.split_first() {
        if in_string {
            let taken = if byte == b'\\' { rest.len().min(2) } else { 1 };
            in_string = byte != b'"';
            let (copied, left) = rest.split_at(taken);
            mended.extend_from_slice(copied);
            rest = left;
        } else if let Some(left) = after_bare_word(rest) {
            mended.extend_from_slice(b"null");
            found = true;
            rest = left;
        } else {
            in_string = byte == b'"';
            mended.push(byte);
            rest = behind;
        }
    }
    found.then_some(mended)
}

fn after_bare_word(text: &[u8]) -> Option<&[u8]> {
    [b"NaN".as_slice(), b"-Infinity", b"Infinity"].into_iter().find_map(|word| text.strip_prefix(word))
}

/// One JSON value of whatever kind, as far as it can be a number or a text.
pub(super) enum Scalar {
    Number(f64),
    Text(String),
    Other,
}

impl Scalar {
    /// Services have sent numbers as text.
    pub(super) fn number(&self) -> Option<f64> {
        match self {
            Scalar::Number(number) => Some(*number),
            Scalar::Text(text) => text.trim().parse().ok(),
            Scalar::Other => None,
        }
    }
}

impl<'de> Deserialize<'de> for Scalar {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct AnyScalar;

        impl<'de> Visitor<'de> for AnyScalar {
            type Value = Scalar;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a value")
            }

            fn visit_f64<E>(self, value: f64) -> Result<Scalar, E> {
                Ok(Scalar::Number(value))
            }

            fn visit_i64<E>(self, value: i64) -> Result<Scalar, E> {
                Ok(Scalar::Number(value as f64))
            }

            fn visit_u64<E>(self, value: u64) -> Result<Scalar, E> {
                Ok(Scalar::Number(value as f64))
            }

            fn visit_str<E>(self, value: &str) -> Result<Scalar, E> {
                Ok(Scalar::Text(value.to_owned()))
            }

            fn visit_bool<E>(self, _: bool) -> Result<Scalar, E> {
                Ok(Scalar::Other)
            }

            fn visit_unit<E>(self) -> Result<Scalar, E> {
                Ok(Scalar::Other)
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Scalar, A::Error> {
                while seq.next_element::<IgnoredAny>()?.is_some() {}
                Ok(Scalar::Other)
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Scalar, A::Error> {
                while map.next_entry::<IgnoredAny, IgnoredAny>()?.is_some() {}
                Ok(Scalar::Other)
            }
        }

        deserializer.deserialize_any(AnyScalar)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::{Value, json};

    #[test]
    fn bare_words_are_null_outside_strings_only() {
        let read = |text: &str| parse::<Value>(text.as_bytes());
        assert_eq!(
            read(r#"{"a":[NaN,-Infinity,1],"b":"NaN \"Infinity"}"#),
            Ok(json!({"a": [null, null, 1], "b": "NaN \"Infinity"}))
        );
        assert!(read(r#"{"a":[1,"#).is_err_and(|error| error.retryable()));
        assert!(
            read("<html> <h1>502 Bad Gateway</h1>")
                .is_err_and(|error| error.to_string().contains("it starts `<html> <h1>502"))
        );
        assert!(read("").is_err());
        assert!(read("\"\\").is_err());
    }
}
