//! What is wrong, and what to do about it.

use std::io::Write;
use std::path::Path;

use anyhow::Context as _;
use leafhold::config::Config;
use leafhold::store::Store;

/// Prints a line for each thing looked at; true when all is well.
pub(super) fn check(path: &Path, out: &mut impl Write) -> anyhow::Result<bool> {
    let mut well = true;
    let mut say = |fine: bool, line: String| -> anyhow::Result<()> {
        well &= fine;
        writeln!(out, "{} {line}", if fine { "ok   " } else { "WRONG" }).context("writing")
    };
    let config = match Config::load(path) {
        Ok(config) => config,
        Err(error) => {
            say(false, format!("configuration: {error}"))?;
            return Ok(false);
        }
    };
    say(true, format!("configuration: {}", path.display()))?;
    match config.weather.key() {
        Ok(Some(_)) => say(true, String::from("weather key: set"))?,
        Ok(None) => say(true, String::from("weather key: none; the free service is for non-commercial use"))?,
        Err(error) => say(false, format!("weather key: {error}"))?,
    }
    match Store::open(&super::store_folder(&config)) {
        Ok(store) => {
            say(true, format!("store: {} gardens in {}", store.gardens().len(), store.path().display()))?;
            for flaw in store.flaws().map_err(anyhow::Error::from)? {
                say(false, format!("store: {flaw}"))?;
            }
        }
        Err(error) => say(false, format!("store: {error}"))?,
    }
    if config.matrix.is_none() {
        say(true, String::from("matrix: not configured; only `talk` and `rehearse` will do"))?;
    }
    Ok(well)
}
