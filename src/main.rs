//! The command line: which way to run, and errors with their next step.

mod cli;

use std::process::ExitCode;

use clap::Parser;

fn main() -> ExitCode {
    let arguments = cli::Arguments::parse();
    match cli::run(arguments) {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            eprintln!("leafhold: {}", failure.message);
            ExitCode::from(failure.code)
        }
    }
}
