//! The week ahead and the season so far, for a picture.

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};

use super::trees::protects;
use super::{HONEST_AHEAD, Outlook, told};
use crate::agronomy::infection::{self, RustParameters};
use crate::agronomy::sun;
use crate::agronomy::wetness::{Wetness, WetnessRule, wetness};
use crate::season::answer::Verdict;
use crate::season::calendar::{local_date, midnight, season_of};
use crate::season::charts::{ChartDay, ChartHour, LeafWetness, SeasonChart, WeekChart};
use crate::season::history::{Sprayed, TreeHistory};
use crate::season::questions::severity_of;
use crate::units::{Fraction, Millimetres};

const DAYS_AHEAD: i64 = 7;
/// A season's picture begins so long after midwinter: before it figs are bare.
const BARE: TimeDelta = TimeDelta::days(75);
/// ... and runs on past the frost, for the last picking and the first freeze to be seen.
const PAST_FROST: TimeDelta = TimeDelta::days(12);
/// Where no frost date is known the season is taken to run so long from midwinter.
const USUAL_SEASON: TimeDelta = TimeDelta::days(320);

impl Outlook<'_> {
    /// From this midnight on, so that today's night shows as a whole.
    pub fn week_chart(&self) -> WeekChart {
        let from = midnight(self.today, self.zone);
        let to = midnight(self.today + TimeDelta::days(DAYS_AHEAD), self.zone);
        let hours = self.weather.between(from, to);
        let advice = self.spray_advice();
        let (window, second) = match advice.verdict {
            Verdict::Spray => (advice.window, advice.second),
            _ => (None, None),
        };
        WeekChart {
            garden: self.facts.garden.name.clone(),
            zone: self.zone,
            units: self.facts.garden.units,
            now: self.now,
            hours: hours
                .iter()
                .zip(wetness(hours, WetnessRule::default()))
                .map(|(hour, wet)| ChartHour {
                    start: hour.start,
                    temperature: hour.temperature,
                    rain: hour.rain,
                    leaves: match wet {
                        Wetness::Wet => LeafWetness::Wet,
                        Wetness::Dry => LeafWetness::Dry,
                        Wetness::Unknown => LeafWetness::Unknown,
                    },
                })
                .collect(),
            nights: self.nights_of(DAYS_AHEAD),
            infections: self.events.iter().filter(|event| event.to > from).map(told).collect(),
            window,
            second,
            judged_until: self.now + HONEST_AHEAD,
            frost: self.frost_within(DAYS_AHEAD),
            credit: self.facts.feed.credit.clone(),
        }
    }

    /// Sunset to sunrise, from last evening on.
    fn nights_of(&self, days: i64) -> Vec<(DateTime<Utc>, DateTime<Utc>)> {
        let Some(position) = self.facts.garden.position else { return Vec::new() };
        let light = |offset: i64| sun::daylight(self.today + TimeDelta::days(offset), position);
        (-1..days).filter_map(|offset| Some((light(offset)?.sunset, light(offset + 1)?.sunrise))).collect()
    }

    pub fn season_chart(&self) -> SeasonChart {
        let start = self.season_start();
        let begins = local_date(start, self.zone);
        let frost = self.frost().map(|frost| frost.date);
        let to = frost.map_or(begins + USUAL_SEASON, |frost| frost + PAST_FROST).max(self.today);
        let from = begins + BARE;
        let trees = self.histories(start);
        SeasonChart {
            garden: self.facts.garden.name.clone(),
            units: self.facts.garden.units,
            season: season_of(self.today, self.facts.garden.hemisphere()),
            from,
            to,
            today: self.today,
            days: from
                .iter_days()
                .take_while(|date| *date <= self.today && *date <= to)
                .map(|date| self.chart_day(date, &trees))
                .collect(),
            infections: self
                .infections_since(start)
                .into_iter()
                .map(|event| (local_date(event.from, self.zone), told(&event).grade))
                .collect(),
            sprays: self.spray_days(start),
            rust: self.looks(start),
            picked: self.pickings(start),
            frost,
            credit: self.facts.feed.credit.clone(),
        }
    }

    /// Each tree with its protective sprays of the season, those never sprayed left out.
    fn histories(&self, start: DateTime<Utc>) -> Vec<Vec<Sprayed>> {
        self.trees()
            .iter()
            .map(|tree| {
                let protective = |spray: &&Sprayed| protects(spray.active) && spray.at >= start;
                tree.history.sprays.iter().filter(protective).cloned().collect::<Vec<_>>()
            })
            .filter(|sprays| !sprays.is_empty())
            .collect()
    }

    fn chart_day(&self, date: NaiveDate, trees: &[Vec<Sprayed>]) -> ChartDay {
        let from = midnight(date, self.zone);
        let noon = (from + TimeDelta::hours(12)).min(self.now);
        let rains = self.weather.between(from, midnight(date + TimeDelta::days(1), self.zone));
        let known: Vec<Millimetres> =
            rains.iter().filter(|hour| hour.start < self.now).filter_map(|hour| hour.rain).collect();
        let covers: Vec<f64> = trees
            .iter()
            .filter_map(|sprays| {
                let last = sprays.iter().rev().find(|spray| spray.at <= noon);
                match last {
                    Some(spray) => self.cover_of(spray, noon).map(|cover| cover.on_sprayed_leaves.value()),
                    None => Some(0.0),
                }
            })
            .collect();
        let mean = covers.iter().sum::<f64>() / covers.len().max(1) as f64;
        ChartDay {
            date,
            rain: (!known.is_empty()).then(|| known.into_iter().sum()),
            cover: (!covers.is_empty()).then(|| Fraction::saturating(mean)),
        }
    }

    fn infections_since(&self, start: DateTime<Utc>) -> Vec<infection::InfectionEvent> {
        let hours = self.weather.between(start, self.now);
        infection::events(hours, WetnessRule::default(), &RustParameters::default())
    }

    /// One for each day and product, however many trees.
    fn spray_days(&self, start: DateTime<Utc>) -> Vec<(NaiveDate, String)> {
        self.by_day(start, |tree| tree.sprays.iter().map(|spray| (spray.at, spray.product.clone())).collect())
    }

    fn looks(&self, start: DateTime<Utc>) -> Vec<(NaiveDate, Fraction)> {
        let looks = self.by_day(start, |tree| {
            tree.scouted.iter().map(|look| (look.at, severity_of(look.amount))).collect()
        });
        looks
            .chunk_by(|one, next| one.0 == next.0)
            .filter_map(|day| {
                let worst = day.iter().map(|(_, seen)| seen.value()).fold(0.0, f64::max);
                Some((day.first()?.0, Fraction::saturating(worst)))
            })
            .collect()
    }

    fn pickings(&self, start: DateTime<Utc>) -> Vec<(NaiveDate, u32)> {
        let mut days: Vec<(NaiveDate, u32)> = Vec::new();
        for tree in self.trees() {
            for picking in tree.history.picked.iter().filter(|picking| picking.at >= start) {
                let date = local_date(picking.at, self.zone);
                let count = picking.count.unwrap_or(0);
                match days.iter_mut().find(|(known, _)| *known == date) {
                    Some((_, sum)) => *sum += count,
                    None => days.push((date, count)),
                }
            }
        }
        days.sort_by_key(|(date, _)| *date);
        days
    }

    /// What the trees have on record since a moment, by day and without repeats.
    fn by_day<Item: PartialEq>(
        &self,
        start: DateTime<Utc>,
        of: impl Fn(&TreeHistory) -> Vec<(DateTime<Utc>, Item)>,
    ) -> Vec<(NaiveDate, Item)> {
        let mut days: Vec<(NaiveDate, Item)> = Vec::new();
        for (at, item) in self.trees().iter().flat_map(|tree| of(&tree.history)) {
            let entry = (local_date(at, self.zone), item);
            if at >= start && at <= self.now && !days.contains(&entry) {
                days.push(entry);
            }
        }
        days.sort_by_key(|(date, _)| *date);
        days
    }
}
