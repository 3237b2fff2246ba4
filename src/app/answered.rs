//! What each person was answered last, for a bare "why?" and for "and Corner?".
//!
//! Lost with the process: then a "why?" is of the sprays, as it always may be.

use std::collections::HashMap;
use std::sync::{Mutex, PoisonError};

use chrono::{DateTime, TimeDelta, Utc};

use crate::identity::{GardenId, PersonId};
use crate::season::request::{Question, Reading, Request};

/// A "why?" later than this is not of what was answered before.
const STILL_SPOKEN_OF: TimeDelta = TimeDelta::hours(1);

/// A person of a garden.
type Asker = (GardenId, PersonId);

#[derive(Debug, Default)]
pub(super) struct Answered(Mutex<HashMap<Asker, (Question, DateTime<Utc>)>>);

impl Answered {
    /// What this person was answered a short while ago.
    pub(super) fn last(&self, asker: &Asker, now: DateTime<Utc>) -> Option<Question> {
        let answered = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        answered
            .get(asker)
            .filter(|(_, at)| now - *at <= STILL_SPOKEN_OF)
            .map(|(question, _)| question.clone())
    }

    /// Keeps the last question of a message; "why?" asked twice is of the same. A report in between ends it: what is
    /// asked after it is of the report.
    pub(super) fn remember(&self, asker: Asker, reading: &Reading, now: DateTime<Utc>) {
        let reported = reading.requests.iter().any(|request| matches!(request, Request::Record(_)));
        let mut answered = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        match reading.last_question() {
            Some(question) => {
                answered.insert(asker, (question.clone(), now));
            }
            None if reported => {
                answered.remove(&asker);
            }
            None => {}
        }
    }
}
