//! A week or a season as a PNG, for where a person would rather look: flat strips one above the other on one
//! time line, wide as a phone, few colours, large letters. Rust is the brown of rust, rain the blue of rain;
//! no colour says "good" or "bad".

mod canvas;
mod ink;
mod scale;
mod season;
mod week;

use crate::season::charts::{SeasonChart, WeekChart};

/// A picture could not be drawn.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PictureError {
    #[error("there is no weather to draw")]
    NothingToShow,
    #[error("the letters that come with the program cannot be read")]
    Letters,
    #[error("the picture could not be made: {0}")]
    Image(String),
}

/// The days ahead: temperature, rain, wet leaves, rust getting in, and when to spray.
pub fn week(chart: &WeekChart) -> Result<Vec<u8>, PictureError> {
    week::draw(chart)?.png()
}

/// The season so far: cover and sprays, rust weather, rust seen, rain and harvest.
pub fn season(chart: &SeasonChart) -> Result<Vec<u8>, PictureError> {
    season::draw(chart)?.png()
}

#[cfg(test)]
mod tests;
