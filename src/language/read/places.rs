//! Where: a shared location, coordinates in any form phones paste, or the name of a place.

use crate::units::Position;

/// The position a line holds, if it is one: a geo URI, a map link, or bare coordinates.
pub(super) fn position(text: &str) -> Option<Position> {
    let text = text.trim();
    // "35.21, -80.84 if that helps", "... thats me"
    let end = [
        " if that",
        " that's ",
        " thats ",
        " if it helps",
        " according to",
        " is what ",
        " for the ",
        " by the phone",
        " is where ",
        " is my ",
        " (",
    ]
    .iter()
    .filter_map(|tail| text.find(tail))
    .min();
    let text = text[..end.unwrap_or(text.len())].trim();
    let text = ["Location: ", "location: ", "My location: ", "Location is ", "Coordinates: "]
        .iter()
        .find_map(|lead| text.strip_prefix(lead))
        .unwrap_or(text);
    if let Some(short) = with_signs(text) {
        return position(&short);
    }
    geo_uri(text).or_else(|| link(text)).or_else(|| {
        let (latitude, longitude, _) = bare(text)?;
        Position::new(latitude, longitude)
    })
}

/// "41 degrees 12 minutes north, 8 degrees 30 minutes west", "31.05 north 89.62 west": with the signs of a map.
fn with_signs(text: &str) -> Option<String> {
    let lower = text.to_lowercase();
    let sides = [" north", " south"].iter().any(|side| lower.contains(side))
        && [" east", " west"].iter().any(|side| lower.contains(side))
        && lower.contains(|letter: char| letter.is_ascii_digit());
    let short = [
        ("latitude ", ""),
        ("longitude ", ""),
        (" degrees", "\u{b0}"),
        (" minutes", "'"),
        (" seconds", "\""),
        (" north", "N"),
        (" south", "S"),
        (" west", "W"),
        (" east", "E"),
        (" and", ","),
    ];
    sides.then(|| {
        short.iter().fold(lower, |text, (word, sign)| text.replace(word, sign)).replace("\u{b0} ", "\u{b0}")
    })
}

/// "Our position is 140.7, -74.2": meant as a place, and no such place on earth.
pub(super) fn is_nowhere(text: &str) -> bool {
    let short = with_signs(text);
    bare(short.as_deref().unwrap_or(text).trim()).is_some_and(|(latitude, longitude, told)| {
        told == Told::AsPlace && Position::new(latitude, longitude).is_none()
    })
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Told {
    AsPlace,
    Bare,
}

/// `geo:30.69,-88.04`, with `;u=25`, `?z=12`, or the form some phones share: `geo:0,0?q=30.69,-88.04(label)`.
fn geo_uri(text: &str) -> Option<Position> {
    let start = text.find("geo:")?;
    let uri = text[start..].split_whitespace().next()?;
    let (place, query) = uri.split_once('?').unwrap_or((uri, ""));
    let queried = query.split('&').find_map(|part| pair(part.strip_prefix("q=")?));
    if queried.is_some() {
        return queried;
    }
    let parsed = geo_uri::GeoUri::parse(place).ok()?;
    let nowhere = parsed.latitude() == 0.0 && parsed.longitude() == 0.0;
    if nowhere { None } else { Position::new(parsed.latitude(), parsed.longitude()) }
}

/// Any link with coordinates in it: after "@", "q=", "ll=", or as path parts.
fn link(text: &str) -> Option<Position> {
    let link = text.split_whitespace().find(|word| word.contains("://"))?;
    ["@", "q=", "ll=", "center=", "query=", "mlat=", "#map="].iter().find_map(|lead| {
        let at = link.find(lead)? + lead.len();
        let rest = &link[at..];
        if *lead == "mlat=" {
            let longitude = link.split("mlon=").nth(1)?;
            return Position::new(number(rest)?, number(longitude)?);
        }
        if *lead == "#map=" {
            let mut parts = rest.split('/').skip(1);
            return Position::new(number(parts.next()?)?, number(parts.next()?)?);
        }
        pair(rest).or_else(|| pair(&rest.replace("%2C", ",")))
    })
}

/// "30.69, -88.04", "30.69N 88.04W", "30°41'N 88°02'W", with little else around it.
fn bare(text: &str) -> Option<(f64, f64, Told)> {
    const PLACE: &str =
        " garden garden's position coordinates coords location at lat latitude gps here near pin place ";
    const AROUND: [&str; 39] = [
        "farm's",
        "farm",
        "of",
        "sits",
        "lies",
        "says",
        "phone",
        "set",
        "change",
        "update",
        "use",
        "to",
        "put",
        "my",
        "our",
        "the",
        "garden",
        "gardens",
        "garden's",
        "position",
        "coordinates",
        "coords",
        "location",
        "is",
        "are",
        "at",
        "i'm",
        "im",
        "we",
        "we're",
        "lat",
        "latitude",
        "gps",
        "it's",
        "its",
        "here",
        "near",
        "pin",
        "place",
    ];
    let lower = text.to_lowercase().replace('\u{2019}', "'");
    let mut body = lower.as_str();
    let mut told = Told::Bare;
    while let Some((word, rest)) = body.split_once([' ', ':', '=', ',']) {
        if !word.is_empty() && !AROUND.contains(&word) {
            break;
        }
        if !word.is_empty() && PLACE.contains(&format!(" {word} ")) {
            told = Told::AsPlace;
        }
        body = rest;
    }
    // "lat 30.69 lon -88.04"
    let body = ["longitude", "long", "lon", "lng"]
        .iter()
        .fold(body.to_owned(), |body, word| body.replace(word, " "));
    let body = body.trim_start_matches([' ', ':', '=']);
    let (latitude, longitude) = degrees_pair(body, Told::Bare).or_else(|| degrees_pair(body, told))?;
    Some((latitude, longitude, told))
}

/// Two numbers parted by a comma or space, each with at least two decimals or a hemisphere letter: "9, 4" is no
/// place. Told as one, "40.7, -74.2" is.
fn degrees_pair(text: &str, told: Told) -> Option<(f64, f64)> {
    let least = if told == Told::AsPlace { 1 } else { 2 };
    let (latitude, rest) = degrees(text, ['n', 's'], least)?;
    let rest = rest.trim_start_matches([',', ' ', ';', '/', ':']);
    let (longitude, rest) = degrees(rest, ['e', 'w'], least)?;
    // "At 4.5, 8.2" may be anything.
    let small = |value: f64| (0.0..10.0).contains(&value);
    let few = told == Told::AsPlace && small(latitude) && small(longitude);
    (rest.trim().trim_end_matches('.').is_empty() && !few).then_some((latitude, longitude))
}

fn degrees(text: &str, letters: [char; 2], least: usize) -> Option<(f64, &str)> {
    let text = text.trim_start();
    let (lead, text) = match text.chars().next() {
        Some(letter) if letters.contains(&letter) => (Some(letter), text[1..].trim_start()),
        _ => (None, text),
    };
    let (whole, used) = leading_number(text)?;
    let decimals = text[..used].split_once('.').map_or(0, |(_, part)| part.len());
    let mut rest = text[used..].trim_start();
    let mut value = whole;
    let mut precise = decimals >= least;
    if let Some(after) = rest.strip_prefix('°') {
        rest = after.trim_start();
        if let Some((minutes, used)) = leading_number(rest)
            && let Some(after) = rest[used..].trim_start().strip_prefix(['\'', '\u{2019}', '\u{2032}'])
        {
            value += minutes.abs() / 60.0;
            precise = true;
            rest = after.trim_start();
            if let Some((seconds, used)) = leading_number(rest)
                && let Some(after) = rest[used..].trim_start().strip_prefix(['"', '\u{201d}', '\u{2033}'])
            {
                value += seconds.abs() / 3600.0;
                rest = after.trim_start();
            }
        }
    }
    let trail = rest.chars().next().filter(|letter| letters.contains(letter));
    if trail.is_some() {
        rest = &rest[1..];
    }
    let hemisphere = lead.or(trail);
    if !precise && hemisphere.is_none() {
        return None;
    }
    let negative = matches!(hemisphere, Some('s' | 'w'));
    Some((if negative { -value.abs() } else { value }, rest))
}

fn leading_number(text: &str) -> Option<(f64, usize)> {
    let end = text
        .char_indices()
        .find(|(at, letter)| {
            !(letter.is_ascii_digit() || *letter == '.' || (*at == 0 && matches!(letter, '-' | '+')))
        })
        .map_or(text.len(), |(at, _)| at);
    text[..end].trim_end_matches('.').parse().ok().map(|value| (value, end))
}

fn number(text: &str) -> Option<f64> {
    leading_number(text).map(|(value, _)| value)
}

fn pair(text: &str) -> Option<Position> {
    let (latitude, used) = leading_number(text)?;
    let rest = text[used..].strip_prefix(',')?.trim_start_matches([' ', '+']);
    Position::new(latitude, number(rest)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_in_the_forms_phones_paste() {
        let rows = [
            ("geo:30.69,-88.04", Some((30.69, -88.04))),
            ("geo:30.6943,-88.0431;u=25", Some((30.6943, -88.0431))),
            ("geo:30.69,-88.04?z=12", Some((30.69, -88.04))),
            ("geo:0,0?q=30.69,-88.04(Plot)", Some((30.69, -88.04))),
            ("geo:0,0", None),
            ("30.69, -88.04", Some((30.69, -88.04))),
            ("30.69N 88.04W", Some((30.69, -88.04))),
            ("N 30.69, W 88.04", Some((30.69, -88.04))),
            ("30°41'24\"N 88°02'24\"W", Some((30.69, -88.04))),
            ("https://example.org/maps/@30.69,-88.04,14z", Some((30.69, -88.04))),
            ("https://example.org/?mlat=30.69&mlon=-88.04", Some((30.69, -88.04))),
            ("https://example.org/#map=14/30.69/-88.04", Some((30.69, -88.04))),
            ("my position is 30.69, -88.04", Some((30.69, -88.04))),
            ("9, 4", None),
            ("picked 9, 4 off the wall", None),
            ("95.00, 10.00", None),
        ];
        for (text, want) in rows {
            let got = position(text).map(|place| (place.latitude.value(), place.longitude.value()));
            match (got, want) {
                (Some(got), Some(want)) => {
                    assert!(
                        (got.0 - want.0).abs() < 1e-6 && (got.1 - want.1).abs() < 1e-6,
                        "{text}: {got:?}"
                    );
                }
                (got, want) => assert_eq!(got, want, "{text}"),
            }
        }
    }
}
