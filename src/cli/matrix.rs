//! Enrolling the bot and running it.

use std::path::Path;

use anyhow::Context as _;
use leafhold::app::serve::{self, ServeError};
use leafhold::config::Config;
use leafhold::transport::matrix::{self, MatrixError, Secrets};
use tokio::signal::unix::{SignalKind, signal};
use tokio::sync::watch;

use super::{Failure, WRONG_INPUT, wrong_input};

/// The homeserver refuses the device for good: a restart will not help, the operator must.
const TOKEN_DEAD: u8 = 4;
/// Another process holds the store or the keys.
const IN_USE: u8 = 5;

pub(super) fn enroll(
    config: &Path,
    password: Option<&Path>,
    recovery_key: Option<&Path>,
) -> Result<(), Failure> {
    let config = Config::load(config).map_err(wrong_input)?;
    let settings = serve::matrix_settings(&config).map_err(wrong_input)?;
    let password = match password {
        Some(file) => secret(file)?,
        None => std::env::var("LEAFHOLD_PASSWORD")
            .map_err(|_| wrong_input("give --password-file, or set LEAFHOLD_PASSWORD"))?,
    };
    let recovery_key = recovery_key.map(secret).transpose()?;
    let secrets = Secrets { password, recovery_key };
    let enrolled = runtime()?.block_on(matrix::enroll(&settings, &secrets)).map_err(matrix_failure)?;
    println!("Enrolled as {} ({}).", settings.user, enrolled.device);
    match enrolled.recovery_key {
        Some(key) => println!(
            "Recovery key, shown this once; write it down and keep it apart from this machine:\n\n    {key}\n"
        ),
        None => println!("Identity and room keys were recovered."),
    }
    Ok(())
}

pub(super) fn serve(config: &Path) -> Result<(), Failure> {
    let config = Config::load(config).map_err(wrong_input)?;
    tracing_subscriber::fmt()
        .with_env_filter(filter(&config.operation.log)?)
        .with_writer(std::io::stderr)
        .with_ansi(std::io::IsTerminal::is_terminal(&std::io::stderr()))
        .init();
    let result = runtime()?.block_on(async {
        let (stop, stopped) = watch::channel(false);
        tokio::spawn(async move {
            wait_for_signal().await;
            // The receivers are gone only when everything has stopped already.
            let _ = stop.send(true);
        });
        serve::serve(&config, stopped).await
    });
    result.map_err(|error| match error {
        ServeError::Matrix(error) => matrix_failure(error),
        ServeError::Store(error @ leafhold::store::StoreError::InUse { .. }) => {
            Failure { message: error.to_string(), code: IN_USE }
        }
        error @ ServeError::NoMatrix => wrong_input(error),
        error => anyhow::Error::from(error).into(),
    })
}

fn matrix_failure(error: MatrixError) -> Failure {
    let code = match error {
        MatrixError::TokenDead { .. } => TOKEN_DEAD,
        MatrixError::Locked { .. } => IN_USE,
        MatrixError::NotEnrolled
        | MatrixError::AlreadyEnrolled { .. }
        | MatrixError::NotAUser { .. }
        | MatrixError::BadStoreKey { .. } => WRONG_INPUT,
        _ => 1,
    };
    Failure { message: error.to_string(), code }
}

/// The SDK logs ordinary absences at start as errors; they are not.
fn filter(wanted: &str) -> Result<tracing_subscriber::EnvFilter, Failure> {
    tracing_subscriber::EnvFilter::try_new(format!(
        "{wanted},matrix_sdk=warn,matrix_sdk::http_client=off,matrix_sdk_base=warn,matrix_sdk_crypto=error"
    ))
    .map_err(|error| wrong_input(format!("operation.log: {error}; write it as \"info\"")))
}

fn secret(file: &Path) -> Result<String, Failure> {
    std::fs::read_to_string(file)
        .map(|text| text.trim().to_owned())
        .map_err(|error| wrong_input(format!("cannot read {}: {error}; check the path", file.display())))
}

fn runtime() -> Result<tokio::runtime::Runtime, Failure> {
    Ok(tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        // SQLite's threads: a few are enough, and each keeps a stack and a heap of its own.
        .max_blocking_threads(8)
        .enable_all()
        .build()
        .context("starting the runtime")?)
}

async fn wait_for_signal() {
    let Ok(mut term) = signal(SignalKind::terminate()) else { return };
    let Ok(mut interrupt) = signal(SignalKind::interrupt()) else { return };
    tokio::select! {
        _ = term.recv() => {}
        _ = interrupt.recv() => {}
    }
}
