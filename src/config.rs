//! The operator's configuration: TOML, refused early and kindly.

use std::path::{Path, PathBuf};

use serde::Deserialize;

#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct Config {
    /// The folder that holds the journal, the forecasts and, for Matrix, the keys.
    pub data: PathBuf,
    #[serde(default)]
    pub weather: Weather,
    #[serde(default)]
    pub operation: Operation,
    pub matrix: Option<Matrix>,
}

/// The weather interface. Base URLs are configurable so that a paid plan or an own server can serve.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(deny_unknown_fields, default)]
pub struct Weather {
    pub forecast_url: String,
    pub archive_url: String,
    pub geocoding_url: String,
    /// A file that holds the key of a paid plan.
    pub key_file: Option<PathBuf>,
    /// Calls a day, all gardens together.
    pub daily_budget: f64,
}

impl Default for Weather {
    fn default() -> Self {
        Self {
            forecast_url: String::from("https://api.open-meteo.com/v1/forecast"),
            archive_url: String::from("https://archive-api.open-meteo.com/v1/archive"),
            geocoding_url: String::from("https://geocoding-api.open-meteo.com/v1/search"),
            key_file: None,
            daily_budget: 2000.0,
        }
    }
}

#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(deny_unknown_fields, default)]
pub struct Operation {
    /// Loopback address of the health and metrics page; empty switches it off.
    pub listen: String,
    /// What to log, as a filter: "info", "leafhold=debug,info".
    pub log: String,
}

impl Default for Operation {
    fn default() -> Self {
        Self { listen: String::from("127.0.0.1:9764"), log: String::from("info") }
    }
}

#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct Matrix {
    pub homeserver: String,
    /// The bot's own user id, such as "@leafhold:example.org".
    pub user: String,
    /// What the bot answers to in a group room.
    #[serde(default = "bot_name")]
    pub name: String,
    /// A file with 32 bytes as hex that lock the encryption store; made by `leafhold enroll`.
    pub store_key_file: Option<PathBuf>,
    /// Who may invite it: user ids, or "*:example.org" for everyone of a server.
    #[serde(default)]
    pub invited_by: Vec<String>,
    /// Rooms it may be invited to; empty means any, if the inviter is allowed.
    #[serde(default)]
    pub rooms: Vec<String>,
    #[serde(default)]
    pub encryption: Encryption,
}

fn bot_name() -> String {
    String::from("leafhold")
}

/// Whom the bot encrypts for and believes.
#[derive(Clone, Copy, Debug, Default, Deserialize, PartialEq, Eq)]
#[serde(rename_all = "snake_case")]
pub enum Encryption {
    /// Every device of every member: nobody is left out.
    #[default]
    ReachEveryone,
    /// Only devices their owners have verified.
    VerifiedOnly,
}

/// Why a configuration was refused. The message names the file, the key and what to do.
#[derive(Debug, thiserror::Error)]
pub enum ConfigError {
    #[error(
        "cannot read the configuration {path}: {source}; config-example/leafhold.toml is one to start from"
    )]
    Unreadable { path: String, source: std::io::Error },
    #[error(
        "weather.key_file: cannot read {path}: {source}; check that the file exists and this user may read it, or \
         take the key out of the configuration"
    )]
    UnreadableKey { path: String, source: std::io::Error },
    #[error("the configuration {path} is not right: {problem}\nconfig-example/leafhold.toml shows every key")]
    Wrong { path: String, problem: String },
}

/// Keys that had another name once, with the name they have now.
const RENAMED: &[(&str, &str)] = &[("store", "data"), ("open_meteo_url", "weather.forecast_url")];

impl Config {
    pub fn load(path: &Path) -> Result<Self, ConfigError> {
        let shown = path.display().to_string();
        let text = std::fs::read_to_string(path)
            .map_err(|source| ConfigError::Unreadable { path: shown.clone(), source })?;
        Self::read(&text).map_err(|problem| ConfigError::Wrong { path: shown, problem })
    }

    fn read(text: &str) -> Result<Self, String> {
        let table: toml::Table = text.parse().map_err(|error: toml::de::Error| error.to_string())?;
        for (old, new) in RENAMED {
            if table.contains_key(*old) {
                return Err(format!(
                    "the key \"{old}\" has been renamed to \"{new}\"; rename it in the file"
                ));
            }
        }
        let config: Config = toml::from_str(text).map_err(|error| error.to_string())?;
        config.check()?;
        Ok(config)
    }

    fn check(&self) -> Result<(), String> {
        if self.data.as_os_str().is_empty() {
            return Err(String::from("data: \"\" is no folder; name one, such as \"/var/lib/leafhold\""));
        }
        let urls = [
            ("weather.forecast_url", &self.weather.forecast_url),
            ("weather.archive_url", &self.weather.archive_url),
            ("weather.geocoding_url", &self.weather.geocoding_url),
        ];
        let homeserver = self.matrix.as_ref().map(|matrix| ("matrix.homeserver", &matrix.homeserver));
        for (key, url) in urls.into_iter().chain(homeserver) {
            if !(url.starts_with("https://") || url.starts_with("http://")) {
                return Err(format!("{key}: \"{url}\" is not a web address; it starts with https://"));
            }
        }
        if self.weather.daily_budget.is_nan() || self.weather.daily_budget < 1.0 {
            return Err(String::from("weather.daily_budget is at least 1"));
        }
        if let Some(matrix) = &self.matrix {
            matrix.check()?;
        }
        self.check_log()?;
        self.check_listen()
    }

    fn check_log(&self) -> Result<(), String> {
        let log = &self.operation.log;
        tracing_subscriber::EnvFilter::try_new(log).map(|_| ()).map_err(|error| {
            format!(
                "operation.log: \"{log}\" is not a filter ({error}); write it as \"info\" or \"leafhold=debug,info\""
            )
        })
    }

    /// The page has no password, so it must not be reachable from elsewhere.
    fn check_listen(&self) -> Result<(), String> {
        let listen = &self.operation.listen;
        if listen.is_empty() {
            return Ok(());
        }
        match listen.parse::<std::net::SocketAddr>() {
            Ok(address) if address.ip().is_loopback() => Ok(()),
            Ok(_) => {
                Err(format!("operation.listen: \"{listen}\" is not a loopback address; use 127.0.0.1:9764"))
            }
            Err(_) => Err(format!("operation.listen: \"{listen}\" is not an address; use 127.0.0.1:9764")),
        }
    }
}

impl Matrix {
    /// What could never fit anybody or any room would keep the bot out without a word.
    fn check(&self) -> Result<(), String> {
        if !is_user_id(&self.user) {
            return Err(format!(
                "matrix.user: \"{}\" is not a user id; it looks like @leafhold:example.org",
                self.user
            ));
        }
        let is_inviter = |allowed: &&String| {
            is_user_id(allowed) || allowed.strip_prefix("*:").is_some_and(|server| !server.is_empty())
        };
        if let Some(wrong) = self.invited_by.iter().find(|allowed| !is_inviter(allowed)) {
            return Err(format!(
                "matrix.invited_by: \"{wrong}\" is not a user id; write @ana:example.org, or *:example.org for \
                 everyone of a server"
            ));
        }
        // The newest rooms have no server in their id: "!" and what follows is all there is.
        let is_room = |room: &&String| room.strip_prefix('!').is_some_and(|rest| !rest.is_empty());
        if let Some(wrong) = self.rooms.iter().find(|room| !is_room(room)) {
            return Err(format!(
                "matrix.rooms: \"{wrong}\" is not a room id; it looks like !abcdef:example.org, and the room's settings \
                 show it"
            ));
        }
        Ok(())
    }
}

/// "@ana:example.org": a name and a server.
fn is_user_id(text: &str) -> bool {
    let parts = text.strip_prefix('@').and_then(|rest| rest.split_once(':'));
    parts.is_some_and(|(name, server)| !name.is_empty() && !server.is_empty())
}

impl Weather {
    /// The key of a paid plan, from its file or the environment.
    pub fn key(&self) -> Result<Option<String>, ConfigError> {
        if let Some(path) = &self.key_file {
            let text = std::fs::read_to_string(path)
                .map_err(|source| ConfigError::UnreadableKey { path: path.display().to_string(), source })?;
            return Ok(Some(text.trim().to_owned()));
        }
        Ok(std::env::var("LEAFHOLD_WEATHER_KEY").ok().filter(|key| !key.is_empty()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_example_is_read_whole() {
        let config = Config::read(include_str!("../config-example/leafhold.toml")).expect("a configuration");
        assert!(config.matrix.is_some());
    }

    #[test]
    fn what_is_wrong_is_named() {
        let rows = [
            ("", "missing field `data`"),
            ("data = '/x'\ncolour = 1", "unknown field `colour`"),
            ("store = '/x'", "\"store\" has been renamed to \"data\""),
            ("data = '/x'\n[weather]\nforecast_url = 'ftp://x'", "weather.forecast_url"),
            ("data = '/x'\n[weather]\nforcast_url = 'x'", "unknown field `forcast_url`"),
            ("data = '/x'\n[weather]\ndaily_budget = nan", "at least 1"),
            ("data = '/x'\n[operation]\nlisten = '0.0.0.0:80'", "not a loopback address"),
            ("data = '/x'\n[matrix]\nhomeserver = 'https://h'\nuser = 'leafhold'", "not a user id"),
            ("data = ''", "data: \"\" is no folder"),
            ("data = '/x'\n[operation]\nlog = 'blurb=x=y'", "operation.log: \"blurb=x=y\" is not a filter"),
            (
                "data = '/x'\n[matrix]\nhomeserver = 'https://h'\nuser = '@l:h'\ninvited_by = ['bo']",
                "matrix.invited_by: \"bo\" is not a user id",
            ),
            (
                "data = '/x'\n[matrix]\nhomeserver = 'https://h'\nuser = '@l:h'\nrooms = ['lobby']",
                "matrix.rooms: \"lobby\" is not a room id",
            ),
            ("data = [", "TOML parse error"),
        ];
        for (text, want) in rows {
            let problem = Config::read(text).expect_err("it is wrong");
            assert!(problem.contains(want), "{problem:?} does not say {want:?}");
        }
    }

    #[test]
    fn a_key_file_that_cannot_be_read_is_named_by_its_key() {
        let weather = Weather { key_file: Some(PathBuf::from("/nowhere/key")), ..Weather::default() };
        let problem = weather.key().expect_err("it is not there").to_string();
        assert!(problem.starts_with("weather.key_file: cannot read /nowhere/key"), "{problem}");
    }
}
