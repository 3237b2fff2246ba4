//! Rust infection hour by hour: wet leaves, mild air, long enough.

use chrono::{DateTime, Utc};

use super::wetness::{self, Wetness, WetnessRule};
use crate::units::{Celsius, Days, Hours};
use crate::weather::Hour;

/// The generic infection model's parameters.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RustParameters {
    pub coldest: Celsius,
    pub best: Celsius,
    pub hottest: Celsius,
    /// Wet hours needed at the best temperature.
    pub least_wet: Hours,
    /// Where more than this would be needed, no infection is possible.
    pub most_wet: Hours,
    /// A dry gap of this length or more starts the count anew.
    pub dry_gap: Hours,
}

impl Default for RustParameters {
    /// Fitted to soybean rust (6 h at 20 to 25 °C, 8 to 10 h at 15 to 17.5: [MAR76]) and grapevine rust
    /// (none at 30 °C: [ANG14]), the nearest relatives with published figures; fig rust's own are not.
    fn default() -> Self {
        Self {
            coldest: Celsius::new(10.0),
            best: Celsius::new(22.0),
            hottest: Celsius::new(30.0),
            least_wet: Hours::new(6.0),
            most_wet: Hours::new(24.0),
            dry_gap: Hours::new(4.0),
        }
    }
}

/// A wet spell long and mild enough for rust to get in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InfectionEvent {
    pub from: DateTime<Utc>,
    pub to: DateTime<Utc>,
    pub wet: Hours,
    pub mean: Celsius,
    pub required: Hours,
    pub grade: Grade,
    pub fig_figure: FigFigure,
}

/// How strong an infection is, by wet hours over those required. [MEL89]: eight hours give ten times the
/// lesions of six, and from twelve on there is no more to gain.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    Trace,
    Moderate,
    Severe,
}

const MODERATE: f64 = 1.33;
const SEVERE: f64 = 2.0;

/// Whether it also meets the one figure published for fig rust itself: 14 h of wetness [DOM].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FigFigure {
    Met,
    NotMet,
}

const FIG_FIGURE: Hours = Hours::new(14.0);

/// Relative speed of infection, 1 at the best temperature; 0 outside the limits.
///
/// # Source
/// [MAG05] equation 1 (the beta function of [YAN99]).
pub fn temperature_response(temperature: Celsius, parameters: &RustParameters) -> f64 {
    let (t, low, best, high) = (
        temperature.value(),
        parameters.coldest.value(),
        parameters.best.value(),
        parameters.hottest.value(),
    );
    if t.is_nan() || t <= low || t >= high {
        return 0.0;
    }
    ((high - t) / (high - best)) * ((t - low) / (best - low)).powf((best - low) / (high - best))
}

/// Wet hours needed at a temperature. `None` where no wetness of a length that counts would do.
///
/// # Source
/// [MAG05] equation 2. The paper's own error of this figure is about 5 h.
pub fn required_wetness(temperature: Celsius, parameters: &RustParameters) -> Option<Hours> {
    let response = temperature_response(temperature, parameters);
    let required = parameters.least_wet / response;
    (response > 0.0 && required <= parameters.most_wet).then_some(required)
}

/// The infection events of a stretch of hours, in order.
///
/// Wet spells less than `dry_gap` apart count as one; each spell is judged once, whole, by its wet hours
/// and their mean temperature. An hour of unknown wetness is neither wet nor dry: it does not end a spell
/// by itself, but it counts towards the gap.
///
/// # Source
/// [MAG05] equations 1 to 4, run hour by hour as [BRE12] describes.
pub fn events(hours: &[Hour], rule: WetnessRule, parameters: &RustParameters) -> Vec<InfectionEvent> {
    let mut events = Vec::new();
    let mut spell: Option<Spell> = None;
    let mut walk = wetness::Walk::new(rule);
    for hour in hours {
        match walk.step(hour) {
            Wetness::Wet => match (&mut spell, hour.temperature) {
                (Some(open), temperature) => open.extend(hour, temperature),
                (None, temperature) => spell = Some(Spell::start(hour, temperature)),
            },
            Wetness::Dry | Wetness::Unknown => {
                let over = spell.as_mut().is_some_and(|open| {
                    open.gap += 1;
                    f64::from(open.gap) >= parameters.dry_gap.value()
                });
                if over {
                    events.extend(spell.take().and_then(|open| open.judge(parameters)));
                }
            }
        }
    }
    events.extend(spell.and_then(|open| open.judge(parameters)));
    events
}

/// Days from infection to first spores.
///
/// # Source
/// [ANG14], grapevine rust: 13 days at 15 °C, 7 at 20 to 25, 8 at 30; linear between, 13 below, 8 above.
/// Not published for fig rust.
pub fn latent_period(mean: Celsius) -> Days {
    let t = mean.value();
    let days = if t >= 25.0 {
        7.0 + ((t - 25.0) / 5.0).min(1.0)
    } else if t >= 20.0 {
        7.0
    } else {
        13.0 - (t - 15.0).max(0.0) / 5.0 * 6.0
    };
    Days::new(days)
}

/// A run of wet hours with short dry gaps in it.
struct Spell {
    from: DateTime<Utc>,
    to: DateTime<Utc>,
    wet: u32,
    temperatures: f64,
    known: u32,
    gap: u32,
}

impl Spell {
    fn start(hour: &Hour, temperature: Option<Celsius>) -> Self {
        let mut spell =
            Self { from: hour.start, to: hour.end(), wet: 0, temperatures: 0.0, known: 0, gap: 0 };
        spell.extend(hour, temperature);
        spell
    }

    fn extend(&mut self, hour: &Hour, temperature: Option<Celsius>) {
        self.wet += 1;
        self.to = hour.end();
        self.gap = 0;
        if let Some(temperature) = temperature {
            self.temperatures += temperature.value();
            self.known += 1;
        }
    }

    fn judge(self, parameters: &RustParameters) -> Option<InfectionEvent> {
        let wet = Hours::new(f64::from(self.wet));
        // A spell too short at the best temperature is too short at any: no need to ask which it was.
        if wet < parameters.least_wet || self.known == 0 {
            return None;
        }
        let mean = Celsius::new(self.temperatures / f64::from(self.known));
        let required = required_wetness(mean, parameters)?;
        let ratio = wet / required;
        let grade = match ratio {
            ratio if ratio < 1.0 => return None,
            ratio if ratio < MODERATE => Grade::Trace,
            ratio if ratio < SEVERE => Grade::Moderate,
            _ => Grade::Severe,
        };
        let fig_figure = if wet >= FIG_FIGURE { FigFigure::Met } else { FigFigure::NotMet };
        Some(InfectionEvent { from: self.from, to: self.to, wet, mean, required, grade, fig_figure })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::RelativeHumidity;
    use crate::weather::{Origin, Series};
    use chrono::TimeDelta;

    const PARAMETERS: RustParameters = RustParameters {
        coldest: Celsius::new(10.0),
        best: Celsius::new(22.0),
        hottest: Celsius::new(30.0),
        least_wet: Hours::new(6.0),
        most_wet: Hours::new(24.0),
        dry_gap: Hours::new(4.0),
    };

    #[test]
    fn published() {
        let f = |t| temperature_response(Celsius::new(t), &PARAMETERS);
        for (t, want) in
            [(15.0, 0.504), (18.0, 0.817), (20.0, 0.951), (25.0, 0.874), (28.0, 0.459), (22.0, 1.0)]
        {
            assert!((f(t) - want).abs() < 0.001, "f({t}) = {}", f(t));
        }
        for t in [10.0, 30.0, 31.0, -5.0] {
            assert_eq!(f(t), 0.0, "f({t})");
        }
        let required = |t| required_wetness(Celsius::new(t), &PARAMETERS).map(Hours::value);
        for (t, want) in [(16.25, 9.29), (20.0, 6.31), (25.0, 6.87), (28.0, 13.06)] {
            assert!((required(t).unwrap_or(f64::NAN) - want).abs() < 0.02, "W({t}) = {:?}", required(t));
        }
        // Marchetti et al. 1976, soybean rust: 6 h suffice at 20 to 25 °C within the model's hour;
        // 8 to 10 h at 15 to 17.5 °C. Angelotti et al. 2014, grapevine rust: none at 30 °C.
        assert!((8.0..=10.0).contains(&required(16.25).unwrap_or(0.0)));
        assert_eq!(required(12.0), None, "39 h would be needed");
        assert_eq!(required(30.0), None);
    }

    #[test]
    fn latent_periods() {
        // Angelotti et al. 2014: 13 d at 15 °C, 7 d at 20 and 25, 8 d at 30.
        for (t, want) in
            [(15.0, 13.0), (17.5, 10.0), (20.0, 7.0), (25.0, 7.0), (30.0, 8.0), (5.0, 13.0), (40.0, 8.0)]
        {
            assert_eq!(latent_period(Celsius::new(t)).value(), want, "{t} °C");
        }
    }

    /// Hours drawn as letters: `w` wet, `d` dry, `?` unknown; all at 22 °C.
    fn hours(drawing: &str) -> Series {
        Series::from_hours(drawing.chars().enumerate().map(|(index, letter)| {
            let start = DateTime::UNIX_EPOCH + TimeDelta::hours(index as i64);
            let humidity = match letter {
                'w' => RelativeHumidity::from_percent(95.0),
                'd' => RelativeHumidity::from_percent(60.0),
                _ => None,
            };
            Hour {
                temperature: Some(Celsius::new(22.0)),
                humidity,
                origin: Origin::Observed,
                ..Hour::unknown(start)
            }
        }))
    }

    #[test]
    fn dry_gaps_join_or_part() {
        let count = |drawing: &str| events(hours(drawing).hours(), WetnessRule::default(), &PARAMETERS).len();
        // 4 h wet, a gap of 3 h, 3 h wet: seven hours, one event; a gap of 5 h: none.
        assert_eq!(count("wwwwdddwwwd"), 1);
        assert_eq!(count("wwwwdddddwwwd"), 0);
        assert_eq!(count("wwwwww"), 1);
        assert_eq!(count("wwwww"), 0);
        assert_eq!(count("????????"), 0);
        assert_eq!(count("wwwwwwddddwwwwww"), 2);
    }

    #[test]
    fn grades_follow_the_wet_hours() {
        let grade = |wet: usize| {
            events(hours(&"w".repeat(wet)).hours(), WetnessRule::default(), &PARAMETERS)
                .first()
                .map(|event| event.grade)
        };
        assert_eq!(grade(5), None);
        assert_eq!(grade(6), Some(Grade::Trace));
        assert_eq!(grade(8), Some(Grade::Moderate));
        assert_eq!(grade(12), Some(Grade::Severe));
    }
}
