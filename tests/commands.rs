//! The program's commands as an operator gives them: what is kept between them, and what is refused.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that cannot go on stops")]

use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};

fn run(arguments: &[&str], input: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_leafhold"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // A command that refuses does not read on.
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
    child.wait_with_output().unwrap()
}

fn text(path: &Path) -> &str {
    path.to_str().unwrap()
}

fn count(output: &Output, words: &str) -> usize {
    String::from_utf8_lossy(&output.stdout).matches(words).count()
}

#[test]
fn a_second_talk_on_a_store_is_answered_too() {
    let folder = tempfile::tempdir().unwrap();
    for said in ["picked 7 figs off Wall", "picked 8 figs off Wall"] {
        let output = run(&["talk", "--data", text(folder.path())], &format!("{said}\nbye\n"));
        let shown = String::from_utf8_lossy(&output.stdout);
        let answer = shown.split_once(&format!("> {said}\n")).unwrap().1;
        assert!(answer.trim_start().starts_with("✅"), "{shown}");
    }
}

#[test]
fn a_second_rehearsal_on_a_store_is_answered_too() {
    let folder = tempfile::tempdir().unwrap();
    let line = r#"{"at":"2013-07-10T12:00:00Z","from":"ana","room":"direct","say":"help"}"#;
    for _ in 0..2 {
        let output = run(&["rehearse", "--data", text(folder.path())], &format!("{line}\n"));
        assert_eq!(count(&output, "\"kind\":\"answer\""), 1, "{output:?}");
    }
    // A line that gives its id is the same message again.
    let line = line.replace("\"say\"", "\"id\":\"once\",\"say\"");
    let output = run(&["rehearse", "--data", text(folder.path())], &format!("{line}\n{line}\n"));
    assert_eq!(count(&output, "\"kind\":\"answer\""), 1, "{output:?}");
}
