//! The configured weather interface for a rehearsal, which waits for it.

use std::time::Duration;

use anyhow::Context as _;
use chrono::{DateTime, Utc};
use leafhold::app::feed::{Keeper, KeeperError, Places};
use leafhold::app::rehearse::Endpoint;
use leafhold::clock;
use leafhold::config::Weather;
use leafhold::forecast::Policy;
use leafhold::season::answer::Place;
use leafhold::store::Store;
use tokio::runtime::Runtime;

use super::{Failure, wrong_input};

pub(super) struct Live {
    runtime: Runtime,
    keeper: Keeper,
    places: Places,
}

impl Live {
    pub(super) fn new(config: &Weather, store: Store) -> Result<Self, Failure> {
        let keeper = Keeper::new(config, store, policy(), clock::now()).map_err(wrong_input)?;
        let places = Places::new(config, policy()).map_err(wrong_input)?;
        Ok(Self { runtime: runtime()?, keeper, places })
    }
}

impl Endpoint for Live {
    fn refresh(&mut self, now: DateTime<Utc>) -> Result<(), KeeperError> {
        self.runtime.block_on(self.keeper.refresh_at_once(now))
    }

    fn find(&mut self, name: &str) -> Vec<Place> {
        match self.runtime.block_on(self.places.find(name)) {
            Ok(places) => places,
            Err(error) => {
                tracing::warn!(%error, "a place could not be looked up");
                Vec::new()
            }
        }
    }
}

/// A single try: what fails is tried again when the simulated schedule says, and nobody waits for real minutes
/// on a clock that stands still.
pub(super) fn policy() -> Policy {
    Policy { waits: Vec::new(), whole: Duration::from_secs(20), ..Policy::default() }
}

pub(super) fn runtime() -> Result<Runtime, Failure> {
    Ok(tokio::runtime::Builder::new_current_thread().enable_all().build().context("starting the runtime")?)
}
