//! What a morning may be told of, most pressing first.

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};

use super::{jobs, told_within, was_told};
use crate::agronomy::infection::{Grade, latent_period};
use crate::season::answer::{
    BriefItem, Freshness, FrostRisk, Reason, SeasonOver, SprayAdvice, Verdict, WaterUrgency, Worth,
};
use crate::season::calendar::{local_date, season_of};
use crate::season::facts::{Facts, Matter};
use crate::season::journal::Stage;
use crate::season::outlook::{Outlook, told};
use crate::season::request::Selection;
use crate::units::{Celsius, Hours, Millimetres};

/// A spray left undone is brought up again after so long. common practice has no figure; three mornings.
const REMIND_AGAIN: TimeDelta = TimeDelta::hours(71);

/// Something to say, and what is thereby told.
pub(super) struct Found {
    pub(super) item: BriefItem,
    pub(super) matters: Vec<Matter>,
}

impl Found {
    pub(super) fn new(item: BriefItem, matter: Matter) -> Self {
        Self { item, matters: vec![matter] }
    }
}

pub(super) fn gather(outlook: &Outlook, date: NaiveDate) -> Vec<Found> {
    let facts = outlook.facts;
    let advice = outlook.spray_advice();
    let mut found: Vec<Found> = Vec::new();
    found.extend(frost(outlook, facts, date));
    found.extend(spray(outlook, facts, &advice, date));
    found.extend(pick_before_rain(outlook, facts));
    found.extend(heat(outlook, facts, date));
    let signs = first_signs(outlook, facts, date);
    found.extend(scout(outlook, facts, &advice, signs.is_some()));
    found.extend(signs);
    found.extend(season_over(outlook, facts, &advice));
    found.extend(jobs::due(outlook, date));
    found.extend(old_weather(outlook, facts));
    found
}

fn frost(outlook: &Outlook, facts: &Facts, date: NaiveDate) -> Option<Found> {
    let advice = outlook.frost_advice();
    let tonight = advice.next.filter(|night| night.date == date && night.risk > FrostRisk::None)?;
    let harms = !advice.shelter.is_empty() || !advice.cover.is_empty();
    let matter = Matter::FrostTonight { date: tonight.date };
    (harms && !dormant_again(outlook) && !was_told(facts, &matter))
        .then(|| Found::new(BriefItem::Frost(advice), matter))
}

/// A dormant garden is told of cold once in a fortnight, not each winter night: its pots stand sheltered.
pub(super) fn dormant_again(outlook: &Outlook) -> bool {
    const SHELTERED_FOR: TimeDelta = TimeDelta::days(14);
    !outlook.leaves_out()
        && told_within(outlook.facts, SHELTERED_FOR, |matter| matches!(matter, Matter::FrostTonight { .. }))
}

/// A window that opens today; or that a spray is wanted and cannot be, once for each event.
fn spray(outlook: &Outlook, facts: &Facts, advice: &SprayAdvice, date: NaiveDate) -> Option<Found> {
    let matter = match advice.verdict {
        Verdict::Spray => {
            let window = advice.window?;
            // Said on the morning it opens, and not again the next mornings: once is a reminder, daily is noise.
            let again =
                told_within(facts, REMIND_AGAIN, |matter| matches!(matter, Matter::SprayWindow { .. }));
            (local_date(window.from, outlook.zone) == date && !again)
                .then_some(Matter::SprayWindow { date })?
        }
        Verdict::Blocked | Verdict::NoWindow => {
            let again =
                told_within(facts, TimeDelta::days(7), |matter| matches!(matter, Matter::Infection { .. }));
            let event = advice.infection.first().filter(|_| !again)?;
            Matter::Infection { from: event.from }
        }
        Verdict::Hold | Verdict::NotWorthwhile => return None,
    };
    (!was_told(facts, &matter)).then(|| Found::new(BriefItem::Spray(Box::new(advice.clone())), matter))
}

fn pick_before_rain(outlook: &Outlook, facts: &Facts) -> Option<Found> {
    let trees: Vec<String> = outlook
        .trees()
        .iter()
        .filter(|tree| matches!(tree.stage, Some((_, Stage::Ripening))) && tree.housed.is_none())
        .map(|tree| tree.tree.name.clone())
        .collect();
    if trees.is_empty() || !outlook.leaves_out() {
        return None;
    }
    let (rain_from, rain) = next_rain(outlook)?;
    let again = told_within(facts, TimeDelta::days(2), |matter| is_once(matter, "pick before rain"));
    (rain >= outlook.thresholds().splitting_rain && !again)
        .then(|| Found::new(BriefItem::PickBeforeRain { trees, rain_from, rain }, once("pick before rain")))
}

/// The start and depth of the next day's rain within a day and a half.
fn next_rain(outlook: &Outlook) -> Option<(DateTime<Utc>, Millimetres)> {
    let hours = outlook.weather.between(outlook.now, outlook.now + TimeDelta::hours(36));
    let first = hours.iter().find(|hour| hour.rain.is_some_and(|rain| rain.value() >= 0.5))?;
    let day = outlook.weather.between(first.start, first.start + TimeDelta::hours(24));
    Some((first.start, day.iter().filter_map(|hour| hour.rain).sum()))
}

/// The first morning of a hot spell: pots want looking at. common practice.
fn heat(outlook: &Outlook, facts: &Facts, date: NaiveDate) -> Option<Found> {
    let hottest: Celsius = outlook.hottest_today()?;
    let potted = outlook.trees().iter().any(|tree| tree.tree.is_potted() && tree.housed.is_none());
    let again =
        told_within(facts, TimeDelta::days(4), |matter| matches!(matter, Matter::HeatWatering { .. }));
    if hottest < outlook.thresholds().heat_watering || !potted || !outlook.leaves_out() || again {
        return None;
    }
    let water = outlook.water_advice(&Selection::Group(String::from("pots")));
    let pressing: Vec<_> = water
        .trees
        .into_iter()
        .filter(|tree| {
            matches!(tree.urgency, WaterUrgency::Now | WaterUrgency::Today) || tree.times_a_day > 1
        })
        .collect();
    let item = if pressing.is_empty() {
        BriefItem::Heat { hottest }
    } else {
        BriefItem::Water { trees: pressing, hottest: Some(hottest) }
    };
    Some(Found::new(item, Matter::HeatWatering { date }))
}

/// Spots of an infection already in are due about now.
fn first_signs(outlook: &Outlook, facts: &Facts, date: NaiveDate) -> Option<Found> {
    let again = told_within(facts, TimeDelta::days(10), |matter| is_once(matter, "first signs"));
    if again || !anything_worth(outlook) {
        return None;
    }
    let event = outlook.events_past().find(|event| {
        let due = event.to + latent_period(event.mean).as_hours().to_duration();
        event.grade >= Grade::Severe && local_date(due, outlook.zone) == date
    })?;
    Some(Found::new(BriefItem::FirstSigns { infection: told(event) }, once("first signs")))
}

/// No one has looked for a while, in rust weather.
fn scout(outlook: &Outlook, facts: &Facts, advice: &SprayAdvice, signs_said: bool) -> Option<Found> {
    let every = outlook.thresholds().scout_every;
    let rust_weather = outlook.events_past().any(|event| {
        event.grade >= Grade::Moderate && outlook.now - event.to < every.as_hours().to_duration()
    });
    let again = told_within(facts, every.as_hours().to_duration(), |matter| is_once(matter, "scout"));
    if signs_said || again || !rust_weather || advice.trees.iter().all(|tree| tree.worth == Worth::Leave) {
        return None;
    }
    let unseen = |tree: &&crate::season::outlook::TreeOutlook| {
        tree.worth != Worth::Leave && tree.scouted.is_none_or(|look| outlook.days_since(look.on) >= every)
    };
    let trees: Vec<_> = outlook.trees().iter().filter(unseen).collect();
    let longest =
        trees.iter().filter_map(|tree| tree.scouted.map(|look| (outlook.today - look.on).num_days())).max();
    let names: Vec<String> = trees.iter().map(|tree| tree.tree.name.clone()).collect();
    (!names.is_empty()).then(|| Found::new(BriefItem::Scout { trees: names, days: longest }, once("scout")))
}

/// The first morning on which frost is so close that nothing in leaf is worth treating any more.
fn season_over(outlook: &Outlook, facts: &Facts, advice: &SprayAdvice) -> Option<Found> {
    if advice.verdict != Verdict::NotWorthwhile || !outlook.leaves_out() {
        return None;
    }
    let frost = outlook.frost()?;
    let by_frost = advice
        .trees
        .iter()
        .flat_map(|tree| &tree.reasons)
        .any(|reason| matches!(reason, Reason::DaysToFrost { .. } | Reason::TooLateToCost { .. }));
    let season = season_of(outlook.today, facts.garden.hemisphere());
    let matter = Matter::SeasonOver { season };
    if !by_frost || was_told(facts, &matter) || frost.days < 0 {
        return None;
    }
    let mean = outlook.mean_temperature(outlook.now, outlook.now + TimeDelta::days(7));
    let over = SeasonOver {
        days_to_frost: frost.days,
        date: frost.date,
        basis: frost.basis,
        minutes_per_day: outlook.shortening().map(|trend: Hours| trend.value() * 60.0),
        latent_days: mean.map(latent_period),
    };
    Some(Found::new(BriefItem::SeasonOver(over), matter))
}

/// The forecast has gone stale: once a week while it lasts.
fn old_weather(outlook: &Outlook, facts: &Facts) -> Option<Found> {
    let again = told_within(facts, TimeDelta::days(7), |matter| is_once(matter, "old weather"));
    (outlook.age().freshness == Freshness::Old && !again)
        .then(|| Found::new(BriefItem::OldWeather, once("old weather")))
}

pub(super) fn anything_worth(outlook: &Outlook) -> bool {
    outlook.trees().iter().any(|tree| tree.worth != Worth::Leave)
}

pub(super) fn once(name: &str) -> Matter {
    Matter::Once { name: name.to_owned() }
}

fn is_once(matter: &Matter, name: &str) -> bool {
    matches!(matter, Matter::Once { name: told } if told == name)
}
