//! Commands and their exit codes.

mod check;
mod endpoint;
mod export;
#[cfg(feature = "matrix")]
mod matrix;

use std::fs::File;
use std::io::{BufReader, BufWriter};
use std::path::{Path, PathBuf};

use anyhow::{Context as _, anyhow};
use clap::{CommandFactory, Parser, Subcommand};
use leafhold::app::Sky;
use leafhold::app::desk::Desk;
use leafhold::app::rehearse::{Readings, Rehearsal};
use leafhold::app::talk::Talk;
use leafhold::app::{garden_file, sample};
use leafhold::config::Config;
use leafhold::forecast::year;
use leafhold::identity::{GardenId, PersonId};
use leafhold::season::garden::Role;
use leafhold::season::request::Setting;
use leafhold::store::{Restore, Store};

use self::endpoint::Live;

/// A season assistant for people who grow figs.
#[derive(Parser)]
#[command(version, about, after_help = "Try `leafhold talk` first: it needs no account and no network.")]
pub(crate) struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Talk to it here, in a sample garden through a recorded weather year.
    Talk {
        /// A garden of your own, as in config-example/garden.toml.
        #[arg(long, value_name = "FILE")]
        garden: Option<PathBuf>,
        /// A weather year of your own: hourly CSV.
        #[arg(long, value_name = "FILE")]
        weather: Option<PathBuf>,
        /// Keep what is said in this folder instead of forgetting it at the end.
        #[arg(long, value_name = "FOLDER")]
        data: Option<PathBuf>,
        /// The moment the talk begins, RFC 3339, within the weather year.
        #[arg(long, value_name = "TIME")]
        at: Option<chrono::DateTime<chrono::FixedOffset>>,
    },
    /// Play a scripted season on a simulated clock: JSON lines in, JSON lines out.
    Rehearse {
        #[arg(long, value_name = "FILE")]
        garden: Option<PathBuf>,
        /// Hourly CSV; hours after the simulated moment are the forecast.
        #[arg(long, value_name = "FILE")]
        weather: Option<PathBuf>,
        /// Take the weather from the configured endpoint instead.
        #[arg(long, value_name = "FILE", conflicts_with = "weather")]
        config: Option<PathBuf>,
        /// Keep the store in this folder instead of forgetting it at the end.
        #[arg(long, value_name = "FOLDER")]
        data: Option<PathBuf>,
        /// Also print how each message was read.
        #[arg(long)]
        readings: bool,
        /// What the bot answers to in a group room.
        #[arg(long, default_value = "leafhold")]
        name: String,
    },
    /// Log the bot in, once: makes its device, its identity and its recovery key.
    #[cfg(feature = "matrix")]
    Enroll {
        #[arg(long, value_name = "FILE")]
        config: PathBuf,
        /// A file with the bot's password; or set LEAFHOLD_PASSWORD.
        #[arg(long, value_name = "FILE")]
        password_file: Option<PathBuf>,
        /// On a new machine: a file with the recovery key of the first enrolment.
        #[arg(long, value_name = "FILE")]
        recovery_key_file: Option<PathBuf>,
    },
    /// Be the bot in the room, until stopped.
    #[cfg(feature = "matrix")]
    Serve {
        #[arg(long, value_name = "FILE")]
        config: PathBuf,
    },
    /// Look at configuration, weather feed, homeserver and store, and say what to do about what is wrong.
    Check {
        #[arg(long, value_name = "FILE")]
        config: PathBuf,
    },
    /// Write the whole store out as JSON Lines.
    Export {
        #[command(flatten)]
        store: StorePlace,
        /// Where to; standard output if left out.
        #[arg(long, value_name = "FILE")]
        to: Option<PathBuf>,
    },
    /// Read an export back into an empty store.
    Restore {
        #[command(flatten)]
        store: StorePlace,
        #[arg(long, value_name = "FILE")]
        from: PathBuf,
        /// Throw away what the store holds first.
        #[arg(long)]
        replace: bool,
    },
    /// Print a completion script for a shell.
    Completions { shell: clap_complete::Shell },
}

#[derive(clap::Args)]
#[group(required = true, multiple = false)]
struct StorePlace {
    /// The configuration that names the store.
    #[arg(long, value_name = "FILE")]
    config: Option<PathBuf>,
    /// The store's folder itself.
    #[arg(long, value_name = "FOLDER")]
    data: Option<PathBuf>,
}

/// What went wrong, in words, and the code to exit with.
pub(crate) struct Failure {
    pub(crate) message: String,
    pub(crate) code: u8,
}

/// Something was wrong with what the command was given.
const WRONG_INPUT: u8 = 2;
/// `check` found something to be done.
const FOUND_WRONG: u8 = 3;

impl From<anyhow::Error> for Failure {
    fn from(error: anyhow::Error) -> Self {
        Failure { message: format!("{error:#}"), code: 1 }
    }
}

fn wrong_input(error: impl std::fmt::Display) -> Failure {
    Failure { message: error.to_string(), code: WRONG_INPUT }
}

pub(crate) fn run(arguments: Arguments) -> Result<(), Failure> {
    match arguments.command {
        Command::Talk { garden, weather, data, at } => {
            talk(garden.as_deref(), weather.as_deref(), data.as_deref(), at)
        }
        Command::Rehearse { garden, weather, config, data, readings, name } => {
            let readings = if readings { Readings::Shown } else { Readings::Hidden };
            let weather = match (&weather, &config) {
                (Some(file), _) => Weather::Recorded(recorded(file)?),
                (None, Some(file)) => Weather::Live(Config::load(file).map_err(wrong_input)?.weather),
                (None, None) => Weather::Recorded(bundled()?),
            };
            rehearse(garden.as_deref(), weather, data.as_deref(), readings, &name)
        }
        #[cfg(feature = "matrix")]
        Command::Enroll { config, password_file, recovery_key_file } => {
            matrix::enroll(&config, password_file.as_deref(), recovery_key_file.as_deref())
        }
        #[cfg(feature = "matrix")]
        Command::Serve { config } => matrix::serve(&config),
        Command::Check { config } => {
            if check::check(&config, &mut std::io::stdout())? {
                Ok(())
            } else {
                Err(Failure { message: String::from("see above for what to do"), code: FOUND_WRONG })
            }
        }
        Command::Export { store, to } => export::export(&folder_of(&store)?, to.as_deref()),
        Command::Restore { store, from, replace } => {
            restore(&store, &from, if replace { Restore::Replace } else { Restore::IntoEmpty })
        }
        Command::Completions { shell } => {
            clap_complete::generate(shell, &mut Arguments::command(), "leafhold", &mut std::io::stdout());
            Ok(())
        }
    }
}

/// A store in a folder, or one that is gone when the program ends.
struct Place {
    store: Store,
    _temporary: Option<TemporaryFolder>,
}

struct TemporaryFolder(PathBuf);

impl Drop for TemporaryFolder {
    fn drop(&mut self) {
        // Left behind, it costs a few kilobytes of the system's own folder for such things.
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

fn place(data: Option<&Path>) -> Result<Place, Failure> {
    let Some(data) = data else {
        let folder = std::env::temp_dir().join(format!("leafhold-{}", std::process::id()));
        let store = Store::open(&folder).map_err(wrong_input)?;
        return Ok(Place { store, _temporary: Some(TemporaryFolder(folder)) });
    };
    Ok(Place { store: Store::open(data).map_err(wrong_input)?, _temporary: None })
}

fn recorded(file: &Path) -> Result<Sky, Failure> {
    let bytes = std::fs::read(file).map_err(|error| {
        wrong_input(format!("cannot read the weather file {}: {error}; check the path", file.display()))
    })?;
    let loaded = year::read(&bytes)
        .map_err(|error| wrong_input(format!("the weather file {} is not right: {error}", file.display())))?;
    for remark in &loaded.remarks {
        eprintln!("leafhold: {}: {remark}", file.display());
    }
    let credit = loaded.credit.first().cloned();
    Ok(Sky::recorded(loaded.series, credit))
}

fn bundled() -> Result<Sky, Failure> {
    let loaded = sample::year().context("the bundled weather year")?;
    Ok(Sky::recorded(loaded.series, Some(sample::CREDIT.to_owned())))
}

fn settings(garden: Option<&Path>) -> Result<Vec<Setting>, Failure> {
    match garden {
        Some(file) => garden_file::load(file).map_err(wrong_input),
        None => sample::garden().map_err(|problem| anyhow!("the sample garden: {problem}").into()),
    }
}

fn garden_id() -> GardenId {
    GardenId::new("garden")
}

fn talk(
    garden: Option<&Path>,
    weather: Option<&Path>,
    data: Option<&Path>,
    at: Option<chrono::DateTime<chrono::FixedOffset>>,
) -> Result<(), Failure> {
    let sky = weather.map_or_else(bundled, recorded)?;
    let place = place(data)?;
    let desk = Desk::new(place.store.clone(), sky, "leafhold");
    let start = at.map_or_else(Talk::sample_start, |at| at.with_timezone(&chrono::Utc));
    let person = PersonId::new("you");
    let fresh = place.store.gardens().is_empty();
    if fresh {
        let mut settings = settings(garden)?;
        settings.push(Setting::Person { id: person.clone(), name: String::from("you"), role: Role::Keeper });
        desk.make_garden(&garden_id(), &settings, start).map_err(anyhow::Error::from)?;
    }
    let mut talk = Talk::new(&desk, garden_id(), person, start);
    if fresh && garden.is_none() && weather.is_none() && at.is_none() {
        talk.tell_the_past().map_err(anyhow::Error::from)?;
    }
    talk.run(&mut std::io::stdout()).map_err(anyhow::Error::from)?;
    Ok(())
}

/// Where a rehearsal has its weather from.
enum Weather {
    Recorded(Sky),
    Live(leafhold::config::Weather),
}

fn rehearse(
    garden: Option<&Path>,
    weather: Weather,
    data: Option<&Path>,
    readings: Readings,
    name: &str,
) -> Result<(), Failure> {
    let place = place(data)?;
    let (sky, live) = match weather {
        Weather::Recorded(sky) => (sky, None),
        Weather::Live(config) => {
            // What the feed has to say goes beside the conversation, not into it.
            tracing_subscriber::fmt()
                .with_max_level(tracing::Level::WARN)
                .with_writer(std::io::stderr)
                .init();
            (Sky::Stored, Some(Live::new(&config, place.store.clone())?))
        }
    };
    let desk = Desk::new(place.store.clone(), sky, name);
    let mut input = BufReader::new(std::io::stdin());
    let mut out = BufWriter::new(std::io::stdout());
    let mut rehearsal = Rehearsal::new(&desk, name, readings);
    if let Some(live) = live {
        rehearsal.with_endpoint(live);
    }
    if let Some(file) = garden {
        let settings = settings(Some(file))?;
        rehearsal.with_garden(garden_id(), settings);
    }
    rehearsal.play(&mut input, &mut out).map_err(anyhow::Error::from)?;
    Ok(())
}

fn folder_of(place: &StorePlace) -> Result<PathBuf, Failure> {
    match (&place.config, &place.data) {
        (Some(config), _) => Ok(store_folder(&Config::load(config).map_err(wrong_input)?)),
        (None, Some(data)) => Ok(data.clone()),
        (None, None) => Err(wrong_input("say --config or --data")),
    }
}

/// The journal's folder within the data folder, beside the keys.
fn store_folder(config: &Config) -> PathBuf {
    config.data.join("journal")
}

fn restore(place: &StorePlace, from: &Path, how: Restore) -> Result<(), Failure> {
    let folder = folder_of(place)?;
    let file = File::open(from)
        .map_err(|error| wrong_input(format!("cannot read {}: {error}; check the path", from.display())))?;
    let restored = Store::restore(&folder, &mut BufReader::new(file), how).map_err(wrong_input)?;
    eprintln!("leafhold: {} records restored", restored.records);
    if restored.flawed > 0 {
        eprintln!(
            "leafhold: {} of them cannot be read, as before; `leafhold check` names them",
            restored.flawed
        );
    }
    Ok(())
}
