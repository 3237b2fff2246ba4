//! A place on the ground.

use super::{Latitude, Longitude};

/// A place on the ground. Gardens keep and send it rounded to a hundredth of a degree.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Position {
    pub latitude: Latitude,
    pub longitude: Longitude,
}

/// As latitude and longitude in degrees.
impl serde::Serialize for Position {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        [self.latitude.value(), self.longitude.value()].serialize(serializer)
    }
}

impl<'de> serde::Deserialize<'de> for Position {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let [latitude, longitude] = <[f64; 2]>::deserialize(deserializer)?;
        Position::new(latitude, longitude).ok_or_else(|| serde::de::Error::custom("no such position"))
    }
}

impl Position {
    pub fn new(latitude: f64, longitude: f64) -> Option<Self> {
        Some(Self { latitude: Latitude::new(latitude)?, longitude: Longitude::new(longitude)? })
    }

    /// To a hundredth of a degree (about a kilometre): enough for weather, too coarse for a door.
    pub fn rounded(self) -> Self {
        let round = |degrees: f64| (degrees * 100.0).round() / 100.0;
        Self {
            latitude: Latitude::saturating(round(self.latitude.0)),
            longitude: Longitude::saturating(round(self.longitude.0)),
        }
    }

    pub fn hemisphere(self) -> Hemisphere {
        if self.latitude.0 < 0.0 { Hemisphere::South } else { Hemisphere::North }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hemisphere {
    North,
    South,
}
