//! The time zone of a place, from the borders of the zones.

use tzf_rs::EmbeddedFinder;

use crate::units::Position;

/// The IANA name of the zone a place lies in. At sea that is a zone of whole hours.
pub(super) fn zone_of(position: Position) -> Option<String> {
    // Searched packed as they are: unpacked they would take thirty megabytes, for a place that is set once.
    let borders = EmbeddedFinder::new();
    let name = borders.get_tz_name(position.longitude.value(), position.latitude.value());
    (!name.is_empty()).then(|| name.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_find_their_zone() {
        // Zones as the IANA time zone database draws them.
        let rows = [
            (40.69, -74.17, "America/New_York"),
            (30.69, -88.04, "America/Chicago"),
            (33.45, -112.07, "America/Phoenix"),
            (-37.75, 144.88, "Australia/Melbourne"),
            (27.70, 85.32, "Asia/Kathmandu"),
        ];
        for (latitude, longitude, want) in rows {
            let zone = Position::new(latitude, longitude).and_then(zone_of);
            assert_eq!(zone.as_deref(), Some(want));
        }
    }
}
