use chrono::{DateTime, Days, NaiveDate, NaiveTime, Utc};

/// What a free weather service allows a day, in weighted calls, and how much of it is gone.
/// Plain values, so that the store can keep it over a restart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Budget {
    pub daily: f64,
    /// The UTC day the spending belongs to.
    pub day: NaiveDate,
    pub spent: f64,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spending {
    Allowed,
    /// The day's allowance would be exceeded; a new one begins then.
    Refused {
        until: DateTime<Utc>,
    },
}

impl Budget {
    /// A fifth of what Open-Meteo allows a free address a day, which others may be sharing.
    ///
    /// # Source
    /// Open-Meteo terms: 10,000 calls a day, 5,000 an hour, 600 a minute.
    pub const FREE_DAILY: f64 = 2_000.0;

    pub fn new(daily: f64, now: DateTime<Utc>) -> Self {
        Self { daily, day: now.date_naive(), spent: 0.0 }
    }

    /// Takes a call's weight out of the day's allowance, if it is still in it.
    pub fn spend(&mut self, now: DateTime<Utc>, weight: f64) -> Spending {
        self.turn(now);
        if self.spent + weight > self.daily {
            return Spending::Refused { until: self.renewed_at() };
        }
        self.spent += weight.max(0.0);
        Spending::Allowed
    }

    /// Counts calls already made, even beyond the day's allowance.
    pub(super) fn charge(&mut self, now: DateTime<Utc>, weight: f64) {
        self.turn(now);
        self.spent += weight;
    }

    /// The service says that the day's allowance is gone, whatever we counted.
    pub fn exhausted(&mut self, now: DateTime<Utc>) {
        self.turn(now);
        self.spent = self.spent.max(self.daily);
    }

    pub fn left(&self, now: DateTime<Utc>) -> f64 {
        let mut budget = *self;
        budget.turn(now);
        (budget.daily - budget.spent).max(0.0)
    }

    /// A new day, a new allowance. A clock set back a little brings no second one; a day that
    /// lies further ahead was a wrong clock's and is forgotten.
    fn turn(&mut self, now: DateTime<Utc>) {
        let today = now.date_naive();
        let ahead = self.day.signed_duration_since(today).num_days();
        if !(0..=1).contains(&ahead) {
            self.day = today;
            self.spent = 0.0;
        }
    }

    fn renewed_at(&self) -> DateTime<Utc> {
        let next = self.day.checked_add_days(Days::new(1)).unwrap_or(self.day);
        next.and_time(NaiveTime::MIN).and_utc()
    }
}

/// How much one call counts.
///
/// # Source
/// Open-Meteo's pricing page and `ApiQueryParameter` of its server: more than ten variables or more than
/// two weeks count as several calls, never as less than one.
pub(super) fn weight(variables: usize, days: i64) -> f64 {
    let tens = variables as f64 / 10.0;
    let fortnights = days as f64 / 14.0;
    (tens * fortnights.max(1.0)).max(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> DateTime<Utc> {
        text.parse().expect("a time")
    }

    #[test]
    fn the_allowance_ends_and_begins_anew_with_the_utc_day() {
        let mut budget = Budget::new(2.0, at("2026-05-01T23:58:00Z"));
        let rows = [
            ("2026-05-01T23:58:00Z", 1.5, Spending::Allowed),
            ("2026-05-01T23:59:00Z", 1.0, Spending::Refused { until: at("2026-05-02T00:00:00Z") }),
            ("2026-05-01T23:59:59Z", 0.5, Spending::Allowed),
            ("2026-05-02T00:00:00Z", 2.0, Spending::Allowed),
            // The clock is set back a minute: no second allowance for the same day.
            ("2026-05-01T23:59:00Z", 1.0, Spending::Refused { until: at("2026-05-03T00:00:00Z") }),
            ("2026-05-03T08:00:00Z", 1.0, Spending::Allowed),
        ];
        for (now, weight, expected) in rows {
            assert_eq!(budget.spend(at(now), weight), expected, "{now}");
        }
        budget.exhausted(at("2026-05-03T09:00:00Z"));
        assert_eq!(budget.left(at("2026-05-03T10:00:00Z")), 0.0);
        assert_eq!(budget.left(at("2026-05-04T00:00:00Z")), 2.0);
    }

    #[test]
    fn a_clock_that_was_years_ahead_does_not_stop_fetching() {
        let mut budget = Budget::new(1.0, at("2099-01-01T00:00:00Z"));
        budget.exhausted(at("2099-01-01T00:00:00Z"));
        assert_eq!(budget.spend(at("2026-05-01T00:00:00Z"), 1.0), Spending::Allowed);
    }

    /// Worked by the rule on Open-Meteo's pricing page: 15 variables over two weeks count 1.5;
    /// thirty years of three daily variables 235.
    #[test]
    fn calls_are_weighed_as_the_service_does() {
        assert_eq!(weight(10, 13), 1.0);
        assert_eq!(weight(1, 7), 1.0);
        assert_eq!(weight(15, 13), 1.5);
        assert_eq!(weight(3, 10_958).round(), 235.0);
    }
}
