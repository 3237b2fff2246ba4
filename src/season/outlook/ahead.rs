//! The days ahead in a few lines.

use chrono::TimeDelta;

use super::{Outlook, told};
use crate::agronomy::wetness::{Wetness, WetnessRule, wetness};
use crate::season::answer::{AheadDay, AheadView, Verdict};
use crate::season::calendar::local_date;
use crate::weather;

/// A week is as far as the words of a forecast carry.
const DAYS_AHEAD: i64 = 7;

impl Outlook<'_> {
    pub fn ahead(&self) -> AheadView {
        let hours = self.weather.between(self.now, self.now + TimeDelta::days(DAYS_AHEAD));
        let wet = wetness(hours, WetnessRule::default());
        let days = weather::days(hours, &self.zone)
            .into_iter()
            .filter(|day| day.known_hours > 0)
            .map(|day| AheadDay {
                date: day.date,
                minimum: day.minimum,
                maximum: day.maximum,
                rain: day.rain,
                wet_hours: hours
                    .iter()
                    .zip(&wet)
                    .filter(|(hour, wet)| {
                        **wet == Wetness::Wet && local_date(hour.start, self.zone) == day.date
                    })
                    .count() as u32,
            })
            .collect();
        let spray = self.spray_advice();
        AheadView {
            days,
            infection: self.events_ahead().map(told).collect(),
            window: (spray.verdict == Verdict::Spray).then_some(spray.window).flatten(),
            frost: self.frost_within(DAYS_AHEAD),
            age: self.age(),
        }
    }
}
