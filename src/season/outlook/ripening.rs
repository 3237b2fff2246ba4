//! Whether and when a tree's crop ripens.

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};

use super::{Outlook, TreeOutlook};
use crate::agronomy::ripening::{self, RIPENING_AT, SET_TO_RIPE, STALLS_BELOW, SWELLING_AT};
use crate::season::answer::{Ripening, RipeningOutlook};
use crate::season::calendar::local_date;
use crate::season::garden::Bearing;
use crate::season::journal::Stage;
use crate::units::{Celsius, DegreeDays, Fraction};
use crate::weather::{self, Day};

impl Outlook<'_> {
    /// From the last reported stage on, by heat. `None` for a tree without fruit on it.
    pub fn ripening(&self, tree: &TreeOutlook) -> Option<Ripening> {
        let (since, stage) = tree.stage?;
        let done = match stage {
            Stage::Fruitlets => Fraction::NONE,
            Stage::Swelling => SWELLING_AT,
            Stage::Ripening => RIPENING_AT,
            Stage::LeafOut | Stage::PickedOut | Stage::LeafFall | Stage::Dormant => return None,
        };
        if tree.tree.bearing == Bearing::Young {
            return None;
        }
        let need = self.need_of(tree) * done.complement().value() - self.heat(since, self.now);
        if need <= DegreeDays::ZERO {
            return Some(Ripening { outlook: RipeningOutlook::Likely, from: Some(self.today), to: None });
        }
        let Some(frost) = self.frost() else { return Some(unknown()) };
        let days = (frost.early - self.today).num_days().max(0);
        let Some(usual) = self.heat_a_day() else { return Some(unknown()) };
        // Days shorten and cool towards the frost: a straight line down to the stall is taken.
        let to_come = usual * (days as f64) * if self.shortening().is_some() { 0.6 } else { 0.9 };
        let outlook = match ripening::outlook(to_come, need) {
            ripening::Outlook::Likely => RipeningOutlook::Likely,
            ripening::Outlook::Possible => RipeningOutlook::Possible,
            ripening::Outlook::Doubtful => RipeningOutlook::Doubtful,
            ripening::Outlook::No => RipeningOutlook::No,
        };
        let when = |share: f64| self.after(need * share, usual);
        Some(Ripening { outlook, from: when(0.8), to: when(1.3) })
    }

    /// Heat this tree's fruit needs: from its own last crop, where both its set and its first fig are on record.
    fn need_of(&self, tree: &TreeOutlook) -> DegreeDays {
        let start = self.season_start();
        let of_stage = |wanted: Stage, after: DateTime<Utc>| {
            tree.history.stages.iter().find(|(at, stage)| *stage == wanted && *at >= after).map(|(at, _)| *at)
        };
        let last_season = start - TimeDelta::days(365);
        let set = of_stage(Stage::Fruitlets, last_season).filter(|at| *at < start);
        let ripe = set.and_then(|set| {
            tree.history
                .picked
                .iter()
                .find(|picking| picking.at > set && picking.at < start)
                .map(|picking| picking.at)
        });
        match set.zip(ripe) {
            Some((set, ripe)) => ripening::calibrated(self.heat(set, ripe)),
            None => SET_TO_RIPE,
        }
    }

    fn heat(&self, from: DateTime<Utc>, to: DateTime<Utc>) -> DegreeDays {
        weather::days(self.weather.between(from, to), &self.zone).iter().filter_map(heat_of).sum()
    }

    /// Heat a day lately, over two weeks.
    fn heat_a_day(&self) -> Option<DegreeDays> {
        let days = weather::days(self.weather.between(self.now - TimeDelta::days(14), self.now), &self.zone);
        let heats: Vec<DegreeDays> = days.iter().filter_map(heat_of).collect();
        (heats.len() >= 7).then(|| heats.iter().copied().sum::<DegreeDays>() / heats.len() as f64)
    }

    fn after(&self, heat: DegreeDays, a_day: DegreeDays) -> Option<NaiveDate> {
        const FARTHEST: f64 = 200.0;
        let days = ripening::days_for(heat, a_day)?.value();
        (days < FARTHEST).then(|| local_date(self.now + TimeDelta::hours((days * 24.0) as i64), self.zone))
    }

    /// Trees whose fruit will not ripen any more and are better relieved of it.
    pub fn hopeless_fruit(&self) -> Vec<String> {
        let cold = self
            .mean_temperature(self.now - TimeDelta::days(7), self.now)
            .is_some_and(|mean: Celsius| mean < STALLS_BELOW);
        self.trees()
            .iter()
            .filter(|tree| matches!(tree.stage, Some((_, Stage::Fruitlets))))
            .filter(|tree| {
                self.ripening(tree).is_some_and(|ripening| match ripening.outlook {
                    RipeningOutlook::No => true,
                    RipeningOutlook::Doubtful => cold,
                    _ => false,
                })
            })
            .map(|tree| tree.tree.name.clone())
            .collect()
    }
}

fn heat_of(day: &Day) -> Option<DegreeDays> {
    Some(ripening::degree_days(day.maximum?, day.minimum?))
}

fn unknown() -> Ripening {
    Ripening { outlook: RipeningOutlook::Unknown, from: None, to: None }
}
