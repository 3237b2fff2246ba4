use serde::Deserialize;

use crate::forecast::error::excerpt;
use crate::forecast::{ForecastError, Problem, json};
use crate::units::{Elevation, Position};

/// A place found by its name.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    pub name: String,
    /// The state, province or department it lies in.
    pub region: Option<String>,
    pub country: Option<String>,
    pub position: Position,
    /// As the IANA database names it.
    pub zone: Option<String>,
    pub elevation: Option<Elevation>,
}

#[derive(Deserialize)]
struct Answer {
    #[serde(default)]
    error: bool,
    #[serde(default)]
    reason: String,
    /// Left out altogether when nothing was found.
    #[serde(default)]
    results: Vec<Found>,
    /// Always there, which tells an answer that found nothing from something else.
    generationtime_ms: Option<f64>,
}

#[derive(Deserialize)]
struct Found {
    name: String,
    latitude: f64,
    longitude: f64,
    elevation: Option<f64>,
    timezone: Option<String>,
    country: Option<String>,
    admin1: Option<String>,
}

/// Reads the places of a name. None found is an empty list.
pub fn decode_places(bytes: &[u8]) -> Result<Vec<Place>, ForecastError> {
    let answer: Answer = json::parse(bytes)?;
    if answer.error {
        return Err(Problem::Refused { reason: excerpt(&answer.reason) }.into());
    }
    if answer.results.is_empty() && answer.generationtime_ms.is_none() {
        return Err(Problem::Form("it is no list of places".to_owned()).into());
    }
    Ok(answer.results.into_iter().filter_map(place).collect())
}

fn place(found: Found) -> Option<Place> {
    Some(Place {
        position: Position::new(found.latitude, found.longitude)?,
        name: found.name,
        region: found.admin1,
        country: found.country,
        zone: found.timezone,
        elevation: found.elevation.filter(|metres| metres.is_finite()).map(Elevation::new),
    })
}
