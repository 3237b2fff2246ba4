//! Bytes that are no text, as text.

use std::fmt::Write;

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serializer};

pub(in crate::store) fn write(bytes: &[u8]) -> String {
    bytes.iter().fold(String::with_capacity(bytes.len() * 2), |mut text, byte| {
        // Writing to a String cannot fail.
        let _ = write!(text, "{byte:02x}");
        text
    })
}

pub(in crate::store) fn read(text: &str) -> Option<Vec<u8>> {
    let digit = |letter: u8| char::from(letter).to_digit(16);
    text.as_bytes()
        .chunks(2)
        .map(|pair| match pair {
            [high, low] => u8::try_from(digit(*high)? * 16 + digit(*low)?).ok(),
            _ => None,
        })
        .collect()
}

pub(super) fn serialize<S: Serializer>(bytes: &[u8], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(&write(bytes))
}

pub(super) fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<u8>, D::Error> {
    read(&String::deserialize(deserializer)?).ok_or_else(|| D::Error::custom("not hexadecimal"))
}
