//! Places found by name: kept as the candidates of a question, and chosen from by number.

use crate::season::answer::Place;
use crate::season::request::{DoubtKind, OpenQuestion, Setting};
use crate::units::Position;

/// A place as a candidate of the question which one is meant: coordinates, then the name.
pub(super) fn candidate(place: &Place) -> String {
    let Position { latitude, longitude, .. } = place.position;
    format!("{}, {}, {}", latitude.value(), longitude.value(), full_name(place))
}

/// "2", said to a list of places, is the second of them.
pub(super) fn chosen(text: &str, open: Option<&OpenQuestion>) -> Option<Setting> {
    let question = open.filter(|question| question.doubt.kind == DoubtKind::UnknownPlace)?;
    let number: usize = text.trim().trim_start_matches('#').trim_end_matches(['.', ')']).parse().ok()?;
    let candidate = question.doubt.candidates.get(number.checked_sub(1)?)?;
    let mut parts = candidate.splitn(3, ", ");
    let position = Position::new(parts.next()?.parse().ok()?, parts.next()?.parse().ok()?)?;
    Some(Setting::Position { position, place: parts.next().map(str::to_owned), zone: None })
}

pub(super) fn position_of(place: &Place) -> Setting {
    Setting::Position { position: place.position, place: Some(full_name(place)), zone: None }
}

fn full_name(place: &Place) -> String {
    let parts = [Some(&place.name), place.region.as_ref(), place.country.as_ref()];
    parts.into_iter().flatten().map(String::as_str).collect::<Vec<_>>().join(", ")
}
