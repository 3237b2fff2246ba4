use chrono::{DateTime, Utc};

use super::met_norway::MetNorway;
use super::nws::Nws;
use super::{
    Budget, Cell, Decoded, Fetcher, ForecastError, Limit, OpenMeteo, Problem, Schedule, Spending, spread,
};

/// Everything a program needs to keep the weather of its cells fresh: when to fetch, within what
/// allowance, from whom, and from whom else when that one is down.
#[derive(Debug)]
pub struct Feed {
    fetcher: Fetcher,
    first: OpenMeteo,
    stand_ins: Vec<StandIn>,
    pub schedule: Schedule,
    pub budget: Budget,
    /// The first service asked to be left alone until then.
    resting_until: Option<DateTime<Utc>>,
}

/// A service asked when the first one is down, in the order given.
#[derive(Debug)]
pub enum StandIn {
    MetNorway(MetNorway),
    NationalWeatherService(Nws),
}

impl Feed {
    pub fn new(
        fetcher: Fetcher,
        first: OpenMeteo,
        stand_ins: Vec<StandIn>,
        budget: Budget,
    ) -> Result<Self, ForecastError> {
        if !stand_ins.is_empty() {
            fetcher.require_contact()?;
        }
        Ok(Self { fetcher, first, stand_ins, schedule: Schedule::default(), budget, resting_until: None })
    }

    pub fn fetcher(&self) -> &Fetcher {
        &self.fetcher
    }

    pub fn first(&self) -> &OpenMeteo {
        &self.first
    }

    /// One cycle for a cell that is due: fetches, and notes when it is due again. An error is that
    /// of the first service; the last good forecast stays good for what it is.
    pub async fn cycle(
        &mut self,
        cell: Cell,
        days_back: u8,
        now: DateTime<Utc>,
    ) -> Result<Decoded, ForecastError> {
        let error = match self.ask_first(cell, days_back, now).await {
            Ok(decoded) => {
                self.schedule.succeeded(cell, now);
                return Ok(decoded);
            }
            Err(error) => error,
        };
        self.learn_from(&error, now);
        self.schedule.failed(cell, now);
        let is_down = self.schedule.is_down(cell) || self.is_resting(now);
        if is_down && let Some(decoded) = self.ask_stand_ins(cell, now).await {
            self.schedule.stood_in_for(cell, now);
            return Ok(decoded);
        }
        if let (Some(until), true) = (self.resting_until, self.stand_ins.is_empty()) {
            self.schedule.hold(until);
        }
        Err(error)
    }

    async fn ask_first(
        &mut self,
        cell: Cell,
        days_back: u8,
        now: DateTime<Utc>,
    ) -> Result<Decoded, ForecastError> {
        if let Some(until) = self.resting_until.filter(|until| now < *until) {
            return Err(Problem::Resting { until }.into());
        }
        if let Spending::Refused { until } = self.budget.spend(now, OpenMeteo::forecast_weight(days_back)) {
            return Err(Problem::Spent { until }.into());
        }
        self.first.forecast(&self.fetcher, cell, days_back, now, spread(cell, now)).await
    }

    fn learn_from(&mut self, error: &ForecastError, now: DateTime<Utc>) {
        self.resting_until = self.resting_until.max(error.not_before(now));
        if let Problem::Limited { limit: Limit::Day, .. } = error.problem() {
            self.budget.exhausted(now);
        }
        if error.retryable() {
            // Each further try was a call of its own, whether or not the allowance likes it.
            let further = self.fetcher.policy().waits.len() as f64;
            self.budget.charge(now, further);
        }
    }

    fn is_resting(&self, now: DateTime<Utc>) -> bool {
        self.resting_until.is_some_and(|until| now < until)
    }

    /// The first stand-in that has a forecast. What the others say is for the log.
    async fn ask_stand_ins(&self, cell: Cell, now: DateTime<Utc>) -> Option<Decoded> {
        for stand_in in &self.stand_ins {
            let spread = spread(cell, now);
            let outcome = match stand_in {
                StandIn::MetNorway(service) => service.forecast(&self.fetcher, cell, now, spread).await,
                StandIn::NationalWeatherService(service) => {
                    service.forecast(&self.fetcher, cell, now, spread).await
                }
            };
            match outcome {
                Ok(decoded) => return Some(decoded),
                Err(error) => tracing::warn!(%error, "no forecast from a stand-in"),
            }
        }
        None
    }
}
