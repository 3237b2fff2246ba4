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

#[test]
fn an_export_of_a_store_that_is_not_there_is_refused_and_touches_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let (store, missing, file) =
        (folder.path().join("store"), folder.path().join("typo"), folder.path().join("good.jsonl"));
    run(&["talk", "--data", text(&store)], "bye\n");
    let output = run(&["export", "--data", text(&store), "--to", text(&file)], "");
    assert!(output.status.success(), "{output:?}");
    let good = std::fs::read_to_string(&file).unwrap();
    assert!(good.contains("\"end\""), "{good}");
    std::fs::create_dir(folder.path().join("empty")).unwrap();
    for place in [&missing, &folder.path().join("empty")] {
        let output = run(&["export", "--data", text(place), "--to", text(&file)], "");
        let said = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{said}");
        assert!(said.contains(&format!("no store in {}; check the path", text(place))), "{said}");
    }
    assert!(!missing.exists());
    assert_eq!(std::fs::read_dir(folder.path().join("empty")).unwrap().count(), 0);
    assert_eq!(std::fs::read_to_string(&file).unwrap(), good);
    let mut left: Vec<_> =
        std::fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    left.sort();
    assert_eq!(left, ["empty", "good.jsonl", "store"], "no half-written file stays");
}

#[test]
fn a_restore_of_two_exports_in_one_file_is_refused_by_line() {
    let folder = tempfile::tempdir().unwrap();
    let (store, file) = (folder.path().join("store"), folder.path().join("two.jsonl"));
    let export = "{\"format\":\"leafhold-export\",\"version\":1}\n{\"end\":0}\n";
    std::fs::write(&file, export.repeat(2)).unwrap();
    let output = run(&["restore", "--data", text(&store), "--from", text(&file)], "");
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{said}");
    assert!(said.contains("line 3 of the export"), "{said}");
}

#[test]
fn a_talk_waits_until_a_day_and_an_hour_or_says_why_not() {
    let lines = "wait until Thursday 7am\nwait 2 hours\nwait until the figs are ripe\nwait till tomorrow evening\n\
                 wait, that was Corner\nbye\n";
    let output = run(&["talk"], lines);
    let shown = String::from_utf8_lossy(&output.stdout);
    for it_is in ["It is Thu 11 Jul 07:00.", "It is Thu 11 Jul 09:00.", "It is Fri 12 Jul 19:00."] {
        assert_eq!(shown.matches(it_is).count(), 1, "{it_is}: {shown}");
    }
    assert_eq!(shown.matches("I can wait for a time or a while").count(), 1, "{shown}");
    assert!(shown.contains("> wait, that was Corner\nCorrected."), "a correction is for the bot: {shown}");
}
