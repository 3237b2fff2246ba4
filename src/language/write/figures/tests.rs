use chrono::DateTime;

use super::*;
use crate::units::Hemisphere;

fn voice(units: UnitSystem) -> Voice {
    Voice { units, zone: chrono_tz::Tz::UTC, now: DateTime::UNIX_EPOCH, hemisphere: Hemisphere::North }
}

/// The same quantity in both unit systems.
fn check<Quantity: Copy + std::fmt::Debug>(
    say: impl Fn(&Voice, Quantity) -> String,
    rows: &[(Quantity, &str, &str)],
) {
    for (quantity, metric, us) in rows {
        assert_eq!(say(&voice(UnitSystem::Metric), *quantity), *metric, "{quantity:?}");
        assert_eq!(say(&voice(UnitSystem::Us), *quantity), *us, "{quantity:?}");
    }
}

#[test]
fn temperatures_are_whole() {
    check(
        |voice, celsius| voice.temperature(Celsius::new(celsius)),
        &[
            (0.0, "0°C", "32°F"),
            (-0.3, "0°C", "31°F"),
            (-2.2, "-2°C", "28°F"),
            (-17.8, "-18°C", "0°F"),
            (21.4, "21°C", "71°F"),
            (37.8, "38°C", "100°F"),
        ],
    );
    check(
        |voice, (low, high)| voice.temperatures(Celsius::new(low), Celsius::new(high)),
        &[((20.0, 30.0), "20 to 30°C", "68 to 86°F")],
    );
}

#[test]
fn rain_is_said_as_fine_as_it_matters() {
    check(
        |voice, mm| voice.rain(Millimetres::new(mm)),
        &[
            (0.0, "no rain", "no rain"),
            (0.03, "under 0.1 mm of rain", "under 0.1 in of rain"),
            (0.6, "0.6 mm of rain", "under 0.1 in of rain"),
            (1.96, "2 mm of rain", "0.1 in of rain"),
            (7.62, "8 mm of rain", "0.3 in of rain"),
            (25.4, "25 mm of rain", "1.0 in of rain"),
            (61.0, "61 mm of rain", "2.4 in of rain"),
        ],
    );
    // What the grower read off the gauge comes back as it was told.
    check(
        |voice, mm| voice.depth_told(Millimetres::new(mm)),
        &[(6.35, "6.3 mm", "0.25 in"), (25.4, "25.4 mm", "1 in"), (8.0, "8 mm", "0.31 in")],
    );
}

#[test]
fn water_is_measured_with_what_hangs_by_the_tap() {
    check(
        |voice, litres| voice.volume(Litres::new(litres)),
        &[
            (0.04, "100 mL", "1 cup"),
            (0.5, "500 mL", "2 cups"),
            (0.97, "1 L", "¼ gal"),
            (1.3, "1.5 L", "¼ gal"),
            (3.785, "4 L", "1 gal"),
            (5.7, "5.5 L", "1½ gal"),
            (9.8, "10 L", "2½ gal"),
            (37.4, "37 L", "10 gal"),
            (83.0, "85 L", "22 gal"),
            (412.0, "410 L", "110 gal"),
        ],
    );
    check(
        |voice, litres| voice.volume_told(Litres::new(litres)),
        &[
            (57.0, "57 L", "15 gal"),
            (95.0, "95 L", "25 gal"),
            (7.571, "7.6 L", "2 gal"),
            (2.5, "2.5 L", "0.66 gal"),
        ],
    );
}

#[test]
fn weights_lengths_and_wind() {
    check(|voice, kg| voice.mass(Kilograms::new(kg)), &[(1.0, "1 kg", "2.2 lb"), (0.454, "0.5 kg", "1 lb")]);
    check(
        |voice, metres| voice.length(Metres::new(metres)),
        &[(1.2, "1.2 m", "4 ft"), (3.2, "3.2 m", "10.5 ft")],
    );
    check(
        |voice, metres| voice.thickness(Metres::new(metres)),
        &[(0.05, "5 cm", "2 in"), (0.1, "10 cm", "4 in")],
    );
    check(
        |voice, wind| voice.wind(MetresPerSecond::new(wind)),
        &[(0.0, "0 km/h", "0 mph"), (2.5, "9 km/h", "6 mph")],
    );
    // 4 kg/ha is 3.57 lb/acre: the acre is 4046.856 m², the pound 0.45359237 kg (NIST SP 811, appendix B).
    check(
        |voice, copper| voice.copper(GramsPerSquareMetre::new(copper)),
        &[
            (0.4, "0.4 g per square metre", "3.6 lb per acre"),
            (0.52, "0.52 g per square metre", "4.6 lb per acre"),
        ],
    );
}

#[test]
fn rates_and_doses_come_in_the_measure_a_label_uses() {
    // 1 US tablespoon is 14.787 mL, 1 teaspoon 4.929 mL, 1 fl oz 29.574 mL (NIST Handbook 44, appendix C).
    check(
        |voice, rate| voice.rate(rate),
        &[
            (Rate::GramsPerLitre(2.0), "2 g per litre", "0.27 oz per gallon"),
            (Rate::GramsPerLitre(7.489), "7.49 g per litre", "1 oz per gallon"),
            (Rate::MillilitresPerLitre(7.8124), "7.81 mL per litre", "2 tbsp per gallon"),
            (Rate::MillilitresPerLitre(0.6510), "0.65 mL per litre", "½ tsp per gallon"),
            (Rate::MillilitresPerLitre(46.875), "46.88 mL per litre", "6 fl oz per gallon"),
        ],
    );
    check(
        |voice, (rate, amount)| voice.dose(rate, amount),
        &[
            ((Rate::GramsPerLitre(2.0), 15.14), "15 g", "0.53 oz (15 g)"),
            ((Rate::GramsPerLitre(2.0), 4.0), "4 g", "0.14 oz (4 g)"),
            ((Rate::MillilitresPerLitre(7.8), 59.15), "59 mL", "4 tbsp (59 mL)"),
            ((Rate::MillilitresPerLitre(7.8), 22.2), "22 mL", "1½ tbsp (22 mL)"),
            ((Rate::MillilitresPerLitre(7.8), 2.5), "2.5 mL", "½ tsp (2.5 mL)"),
        ],
    );
}

#[test]
fn counts_spans_and_parts() {
    let counted: [(i64, &str, &str); 6] = [
        (1, "day", "1 day"),
        (0, "day", "0 days"),
        (2, "entry", "2 entries"),
        (1, "entry", "1 entry"),
        (4, "new leaf", "4 new leaves"),
        (12, "fig", "12 figs"),
    ];
    for (number, noun, want) in counted {
        assert_eq!(count(number, noun), want);
    }
    let spans = [
        (0.02, "a few minutes"),
        (0.66, "40 minutes"),
        (0.99, "1 hour"),
        (5.4, "5 hours"),
        (30.0, "30 hours"),
        (47.8, "2 days"),
        (71.0, "3 days"),
    ];
    for (hours, want) in spans {
        assert_eq!(span(Hours::new(hours)), want);
    }
    let shares = [
        (0.0, "0%", "0%", "next to nothing"),
        (0.004, "under 1%", "0.4%", "next to nothing"),
        (0.1, "10%", "10%", "next to nothing"),
        (0.125, "12%", "12.5%", "little"),
        (0.33, "33%", "33%", "about a third"),
        (0.5, "50%", "50%", "about half"),
        (0.72, "72%", "72%", "about three quarters"),
        (1.0, "100%", "100%", "nearly all"),
    ];
    for (share, whole, told, words) in shares {
        let share = Fraction::saturating(share);
        assert_eq!(
            (percent(share).as_str(), percent_told(share).as_str(), part(share)),
            (whole, told, words)
        );
    }
}
