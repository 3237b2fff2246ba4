//! What is wrong, and what to do about it.

use std::io::Write;
use std::path::Path;

use anyhow::Context as _;
use leafhold::app::feed::{Keeper, Places};
use leafhold::app::sample;
use leafhold::clock;
use leafhold::config::Config;
use leafhold::store::Store;

use super::endpoint;

/// Prints a line for each thing looked at; true when all is well.
pub(super) fn check(path: &Path, out: &mut impl Write) -> anyhow::Result<bool> {
    let mut findings = Findings { out, well: true };
    let config = match Config::load(path) {
        Ok(config) => config,
        Err(error) => {
            findings.say(false, &format!("configuration: {error}"))?;
            return Ok(false);
        }
    };
    findings.say(true, &format!("configuration: {}", path.display()))?;
    match config.weather.key() {
        Ok(Some(_)) => findings.say(true, "weather key: set")?,
        Ok(None) => {
            findings.say(true, "weather key: none; the free service is for non-commercial use")?;
        }
        Err(error) => findings.say(false, &format!("weather key: {error}"))?,
    }
    let store = findings.store(&config)?;
    if let Some(store) = store {
        findings.feed(&config, &store)?;
    }
    findings.matrix(&config)?;
    Ok(findings.well)
}

struct Findings<'o, Out: Write> {
    out: &'o mut Out,
    well: bool,
}

impl<Out: Write> Findings<'_, Out> {
    fn say(&mut self, fine: bool, line: &str) -> anyhow::Result<()> {
        self.well &= fine;
        writeln!(self.out, "{} {line}", if fine { "ok   " } else { "WRONG" }).context("writing")
    }

    fn store(&mut self, config: &Config) -> anyhow::Result<Option<Store>> {
        match Store::open(&super::store_folder(config)) {
            Ok(store) => {
                let line = format!("store: {} gardens in {}", store.gardens().len(), store.path().display());
                self.say(true, &line)?;
                for flaw in store.flaws()? {
                    self.say(false, &format!("store: {flaw}"))?;
                }
                Ok(Some(store))
            }
            Err(error) => {
                self.say(false, &format!("store: {error}"))?;
                Ok(None)
            }
        }
    }

    /// One forecast for a garden's place, or the sample garden's if there is none yet, and one place name.
    fn feed(&mut self, config: &Config, store: &Store) -> anyhow::Result<()> {
        let runtime = endpoint::runtime().map_err(|failure| anyhow::anyhow!(failure.message))?;
        let now = clock::now();
        let known = store.gardens().into_iter().find_map(|id| {
            let facts = store.facts(&id, now, None).ok().flatten()?;
            facts.garden.position
        });
        let Some(position) = known.or_else(sample::position) else {
            return self.say(false, "weather feed: no garden to ask for; this is a bug, please report it");
        };
        let keeper = Keeper::new(&config.weather, store.clone(), endpoint::policy(), now);
        let forecast = match keeper {
            Ok(mut keeper) => runtime.block_on(keeper.probe(position, now)),
            Err(error) => Err(error),
        };
        match forecast {
            Ok(hours) => self.say(true, &format!("weather feed: {hours} hours from now on, from {}", config.weather.forecast_url))?,
            Err(error) => self.say(
                false,
                &format!("weather feed: {error}; check weather.forecast_url and the way out to it. Until it answers, the last good forecast is used and its age is told"),
            )?,
        }
        let places = match Places::new(&config.weather, endpoint::policy()) {
            Ok(places) => runtime.block_on(places.find("Newark")),
            Err(error) => Err(error),
        };
        match places {
            Ok(found) if found.is_empty() => self.say(false, "place names: none found for a large town; check weather.geocoding_url. Gardens can be set up by sharing a location all the same"),
            Ok(_) => self.say(true, "place names: found by name"),
            Err(error) => self.say(
                false,
                &format!("place names: {error}; check weather.geocoding_url. Gardens can be set up by sharing a location all the same"),
            ),
        }
    }

    #[cfg(not(feature = "matrix"))]
    fn matrix(&mut self, config: &Config) -> anyhow::Result<()> {
        match config.matrix {
            Some(_) => self.say(
                true,
                "matrix: configured, but this build has no Matrix; only `talk` and `rehearse` will do",
            ),
            None => self.say(true, "matrix: not configured; only `talk` and `rehearse` will do"),
        }
    }

    #[cfg(feature = "matrix")]
    fn matrix(&mut self, config: &Config) -> anyhow::Result<()> {
        if config.matrix.is_none() {
            return self.say(true, "matrix: not configured; only `talk` and `rehearse` will do");
        }
        let settings = match leafhold::app::serve::matrix_settings(config) {
            Ok(settings) => settings,
            Err(error) => return self.say(false, &format!("matrix: {error}")),
        };
        let runtime = endpoint::runtime().map_err(|failure| anyhow::anyhow!(failure.message))?;
        match runtime.block_on(leafhold::transport::matrix::inspect(&settings)) {
            Ok(found) => {
                for (fine, line) in found {
                    self.say(fine, &line)?;
                }
                Ok(())
            }
            Err(error) => self.say(false, &format!("matrix: {error}")),
        }
    }
}
