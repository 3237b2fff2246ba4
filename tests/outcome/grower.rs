//! Growers by what they go by: nothing, the calendar, or what the bot says each morning.

use chrono::{DateTime, TimeDelta, TimeZone, Timelike, Utc};
use chrono_tz::America::New_York;
use leafhold::identity::{EventId, PersonId};
use leafhold::season::answer::Verdict;
use leafhold::season::facts::{Facts, Feed};
use leafhold::season::garden::{Active as Ingredient, YearDay};
use leafhold::season::journal::{Act, Entry, Journal, Report, RustAmount, Stage, Timing, What};
use leafhold::season::outlook::Outlook;
use leafhold::season::request::{ProductDetails, Setting};
use leafhold::units::{Days, Fraction, Litres};
use leafhold::weather::{Hour, Origin, Series};

use super::tree::{Active, Pressure, Tree};

/// How the season went.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Outcome {
    /// Green leaf area on 10 September, amid the picking, over that of a tree without rust.
    pub kept: f64,
    pub sprays: f64,
    /// Sprays with rain before they were dry (2 h).
    pub undried: u32,
    /// Label rules and sulfur heat broken.
    pub broken: u32,
    /// Days from 1 % to 50 % of the leaf area rusted, where it came so far.
    pub spread: Option<i64>,
}

#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Goes {
    NoRust,
    ByNothing,
    Every(i64),
    /// With the forecast's errors of one kind or another.
    ByTheBot(u64),
}

/// Sprays of copper a year allows at this rate: 0.4 g/m² of metal, 0.075 a spray.
const COPPERS: usize = 5;
const LABEL_INTERVAL: i64 = 7;
const SULFUR_HOTTEST: f64 = 29.0;

struct Season<'y> {
    year: &'y Series,
    tree: Tree,
    sprays: Vec<(DateTime<Utc>, Active)>,
    journal: Journal,
    outcome: Outcome,
}

fn local(month: u32, day: u32, hour: u32) -> DateTime<Utc> {
    New_York.with_ymd_and_hms(2013, month, day, hour, 0, 0).single().expect("a time").with_timezone(&Utc)
}

pub(crate) fn season(year: &Series, goes: Goes, pressure: Pressure) -> Outcome {
    let pressure = if goes == Goes::NoRust { Pressure { airborne: 0.0, own: 0.0 } } else { pressure };
    let (leaf_out, harvest) = (local(5, 1, 0), local(9, 10, 0));
    let mut season = Season {
        year,
        tree: Tree::new(pressure, leaf_out, local(9, 1, 0)),
        sprays: Vec::new(),
        journal: journal(),
        outcome: Outcome::default(),
    };
    season.enter(Report::Stage { stage: Stage::LeafOut }, leaf_out);
    let mut plan: Option<(DateTime<Utc>, Active)> = None;
    let (mut first_spots, mut half) = (None, None);
    for hour in year.between(leaf_out, local(10, 20, 0)) {
        let now = hour.start;
        season.tree.hour(hour);
        if now == harvest {
            season.outcome.kept = season.tree.green();
        }
        if season.tree.rust() >= 0.01 && first_spots.is_none() {
            first_spots = Some(now);
        }
        if season.tree.rust() >= 0.5 && half.is_none() {
            half = Some(now);
        }
        let clock = now.with_timezone(&New_York).hour();
        let day = (now - leaf_out).num_days();
        match goes {
            Goes::NoRust | Goes::ByNothing => {}
            Goes::Every(days) => {
                // From the time leaves are full-sized until a fortnight before the usual end of picking.
                let due = season.sprays.last().map_or(local(5, 20, 0), |last| last.0 + TimeDelta::days(days));
                let raining = hour.rain.is_some_and(|rain| rain.value() > 0.0);
                if clock == 8
                    && now + TimeDelta::hours(12) >= due
                    && !raining
                    && now < local(9, 11, 0)
                    && let Some(active) = season.by_habit(now)
                {
                    season.spray(now, active);
                }
            }
            Goes::ByTheBot(luck) => {
                if clock == 18 && day % 7 == 3 {
                    season.look(now);
                }
                if clock == 18 && day % 3 == 0 && now >= local(8, 10, 0) && now < local(9, 26, 0) {
                    season.enter(Report::Picked { count: Some(9), mass: None }, now);
                }
                if clock == 5 {
                    plan = season.advised(now, luck);
                }
                if let Some((at, active)) = plan
                    && at <= now
                {
                    season.spray(now, active);
                    plan = None;
                }
            }
        }
    }
    season.outcome.spread = first_spots.zip(half).map(|(first, half)| (half - first).num_days());
    season.outcome.sprays = season.sprays.len() as f64;
    season.outcome
}

impl Season<'_> {
    fn enter(&mut self, report: Report, at: DateTime<Utc>) {
        self.journal.push(entry(What::Report { trees: vec![String::from("Wall")], report }, at));
    }

    /// Looks as a careful person does: to the percent, and blind under half of one.
    fn look(&mut self, now: DateTime<Utc>) {
        let seen = (self.tree.rust() * 100.0).round() / 100.0;
        let amount =
            if seen == 0.0 { RustAmount::None } else { RustAmount::Severity(Fraction::saturating(seen)) };
        self.enter(Report::Scouted { amount, level: None }, now);
    }

    /// Sulfur unless it is too hot for it, then copper while the year's share lasts, else another day: a
    /// careful grower keeps to labels by the calendar too.
    fn by_habit(&self, now: DateTime<Utc>) -> Option<Active> {
        let coppers = self.sprays.iter().filter(|(_, active)| *active == Active::Copper).count();
        if !self.is_too_hot(now) {
            Some(Active::Sulfur)
        } else {
            (coppers < COPPERS).then_some(Active::Copper)
        }
    }

    /// For sulfur, by its label: the day of spraying and the two after.
    fn is_too_hot(&self, at: DateTime<Utc>) -> bool {
        self.year
            .between(at, at + TimeDelta::hours(72))
            .iter()
            .any(|hour| hour.temperature.is_some_and(|temperature| temperature.value() > SULFUR_HOTTEST))
    }

    /// What the bot says at five in the morning, if it is for the next twenty-four hours.
    fn advised(&self, now: DateTime<Utc>, luck: u64) -> Option<(DateTime<Utc>, Active)> {
        let facts = Facts {
            now,
            garden: self.journal.garden(),
            journal: self.journal.clone(),
            weather: foreseen(self.year, now, luck),
            feed: Feed { credit: None, fetched: Some(now) },
            told: Vec::new(),
            normals: None,
            open_question: None,
            answered: None,
        };
        let advice = Outlook::of(&facts).spray_advice();
        if advice.verdict != Verdict::Spray {
            return None;
        }
        let window = advice.window.filter(|window| window.from < now + TimeDelta::hours(24))?;
        let active = match advice.active? {
            Ingredient::Copper => Active::Copper,
            Ingredient::Sulfur => Active::Sulfur,
            Ingredient::Oil | Ingredient::Other => return None,
        };
        Some((window.from, active))
    }

    fn spray(&mut self, at: DateTime<Utc>, active: Active) {
        let product = match active {
            Active::Copper => "copper",
            Active::Sulfur => "sulfur",
        };
        let after = |hours: i64| self.year.between(at, at + TimeDelta::hours(hours));
        if after(2).iter().any(|hour| hour.rain.is_some_and(|rain| rain.value() >= 0.2)) {
            self.outcome.undried += 1;
        }
        // Labels count days: the morning after an evening is the next day.
        let day = |moment: DateTime<Utc>| moment.with_timezone(&New_York).date_naive();
        let too_soon = self
            .sprays
            .iter()
            .any(|(last, other)| *other == active && (day(at) - day(*last)).num_days() < LABEL_INTERVAL);
        let coppers = self.sprays.iter().filter(|(_, active)| *active == Active::Copper).count();
        // By the forecast it is given; what the weather did beyond the first day is not the adviser's doing.
        let too_hot = active == Active::Sulfur
            && after(12).iter().any(|hour| hour.temperature.is_some_and(|t| t.value() > SULFUR_HOTTEST));
        if too_soon || too_hot || (active == Active::Copper && coppers >= COPPERS) {
            self.outcome.broken += 1;
        }
        self.tree.spray(at, active);
        self.sprays.push((at, active));
        self.enter(Report::Sprayed { product: product.to_owned(), volume: Some(Litres::new(0.6)) }, at);
    }
}

/// Past hours as they were; a forecast the further off the worse: rain comes up to three hours early or late
/// and damp air is a few points off from the second day on.
fn foreseen(year: &Series, now: DateTime<Utc>, luck: u64) -> Series {
    let known = year.between(now - TimeDelta::days(120), now + TimeDelta::days(10));
    Series::from_hours(known.iter().map(|hour| {
        let ahead = (hour.start - now).num_hours();
        if ahead < 0 {
            return *hour;
        }
        let native_step = if ahead < 120 { 1 } else { 3 };
        let origin = Origin::Forecast { native_step };
        if ahead < 24 {
            return Hour { origin, ..*hour };
        }
        let off = error(now, ahead, luck);
        let shifted = year.at(hour.start + TimeDelta::hours((off * 3.0).round() as i64));
        Hour {
            rain: shifted.and_then(|hour| hour.rain),
            humidity: hour.humidity.and_then(|humidity| {
                leafhold::units::RelativeHumidity::new((humidity.value() + off * 0.06).clamp(0.05, 1.0))
            }),
            dew_point: None,
            origin,
            ..*hour
        }
    }))
}

/// The same error for the same morning and half-day ahead, between -1 and 1.
fn error(now: DateTime<Utc>, ahead: i64, luck: u64) -> f64 {
    let mut state = (now.timestamp() / 3600) as u64
        ^ ((ahead / 12) as u64) << 32
        ^ 0x9E37_79B9_7F4A_7C15u64.wrapping_mul(luck + 1);
    for _ in 0..3 {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
    }
    (state >> 11) as f64 / (1u64 << 52) as f64 - 1.0
}

fn entry(what: What, at: DateTime<Utc>) -> Act {
    Act::Enter(Entry {
        who: PersonId::new("ana"),
        event: EventId::new("e"),
        said: at,
        happened: at,
        timing: Timing::Told,
        what,
    })
}

/// A garden of one tree by a wall, as set up by chat.
fn journal() -> Journal {
    let mut journal = Journal::default();
    let settings = leafhold::app::garden_file::read(include_str!("../../config-example/garden.toml"))
        .expect("the example garden");
    let kept = settings.into_iter().filter_map(|setting| match setting {
        Setting::Tree(tree) => (tree.name == "Wall").then_some(Setting::Tree(tree)),
        // A label that lets the weekly grower keep to it.
        Setting::Product(product) => (product.name != "neem").then(|| {
            Setting::Product(ProductDetails { interval: Some(Days::new(LABEL_INTERVAL as f64)), ..product })
        }),
        other => Some(other),
    });
    for setting in kept {
        journal.push(entry(What::Setting(setting), local(3, 1, 12)));
    }
    let frost = YearDay::new(11, 5).expect("a date");
    journal.push(entry(What::Setting(Setting::FirstFrost { date: frost }), local(3, 1, 12)));
    journal
}
