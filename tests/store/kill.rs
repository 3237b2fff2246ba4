//! A process that writes and is killed: what it said was done must be there, whole, and nothing by halves.

use std::io::{BufRead, BufReader, Lines, Write};
use std::path::Path;
use std::process::{Child, ChildStdout, Command, Stdio};
use std::time::Duration;

use leafhold::post::Mailroom;
use leafhold::season::facts::{Matter, Told};
use leafhold::store::{Commit, GardenChange, Restore, Store, StoreError};

use crate::samples::*;

/// Where the child writes; set only in a child.
pub(crate) const FOLDER: &str = "LEAFHOLD_KILL_FOLDER";
/// Lines of the journal, and messages to send, of each commit.
const LINES: u64 = 3;
const MESSAGES: u64 = 2;
const KILLS: u64 = 100;
const RESTORE_KILLS: u64 = 25;

/// A few thousand moments that look like chance and are the same each time.
fn moments() -> impl Iterator<Item = Duration> {
    let next = |state: &u64| {
        Some(state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407))
    };
    std::iter::successors(Some(20_130_710), next).map(|state| Duration::from_micros((state >> 33) % 6_000))
}

pub(crate) fn child(test: &str, folder: &Path) -> (Child, Lines<BufReader<ChildStdout>>) {
    let mut child = Command::new(std::env::current_exe().expect("this test"))
        .args([test, "--exact", "--nocapture"])
        .env(FOLDER, folder)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("a child");
    let output = BufReader::new(child.stdout.take().expect("its output")).lines();
    (child, output)
}

pub(crate) fn say(words: &str) {
    println!("{words}");
    std::io::stdout().flush().expect("out");
}

#[test]
fn nothing_acknowledged_is_lost_when_killed() {
    if let Some(folder) = std::env::var_os(FOLDER) {
        return write_until_killed(Path::new(&folder));
    }
    let folder = tempfile::tempdir().expect("a folder");
    let (mut committed, mut delivered, mut unacknowledged) = (0, 0, 0);
    for (round, moment) in (0..KILLS).zip(moments()) {
        let (mut child, mut output) = child("kill::nothing_acknowledged_is_lost_when_killed", folder.path());
        // After some commits the axe falls, at another point of a commit each round; some rounds in the opening.
        let wanted = committed + round % 8;
        while committed < wanted {
            let line = output.next().expect("the child goes on").expect("a line");
            read(&line, &mut committed, &mut delivered);
        }
        std::thread::sleep(moment);
        child.kill().expect("killed");
        child.wait().expect("gone");
        // What it said with its last breath.
        output.map_while(Result::ok).for_each(|line| read(&line, &mut committed, &mut delivered));
        let store = Store::open(folder.path()).expect("it opens after the kill");
        let there = whole_commits(&store);
        assert!(
            (committed..=committed + 1).contains(&there),
            "round {round}: {committed} said, {there} there"
        );
        unacknowledged += there - committed;
        let gone = delivered_messages(&store, there);
        assert!((delivered..=delivered + 1).contains(&gone), "round {round}: {delivered} said, {gone} there");
        (committed, delivered) = (there, gone);
    }
    println!(
        "killed {KILLS} times: {committed} commits, {delivered} deliveries, none lost, none by halves; \
         {unacknowledged} commits were on disk before they could be acknowledged"
    );
}

/// The numbers the child prints count from one and miss none.
fn read(line: &str, committed: &mut u64, delivered: &mut u64) {
    // The test harness may have begun the line.
    let after = |word: &str| line.split_once(word).and_then(|(_, number)| number.parse().ok());
    *committed = after("committed ").unwrap_or(*committed);
    *delivered = after("delivered ").unwrap_or(*delivered);
}

fn write_until_killed(folder: &Path) {
    let store = Store::open(folder).expect("a store");
    let mut number = whole_commits(&store);
    let mut gone = delivered_messages(&store, number);
    loop {
        number += 1;
        let id = format!("event {number}");
        store.accept(vec![letter(&id)]).expect("accepted");
        let change = GardenChange {
            told: vec![Told { at: at(0), matter: Matter::Once { name: id.clone() } }],
            wake: Some(at(number as i64)),
            ..change(garden(0), (0..LINES).map(|line| note(&format!("{id} line {line}"), &id)).collect())
        };
        let outbox = (0..MESSAGES).map(|message| draft(&format!("{id} message {message}"))).collect();
        let commit = Commit { seen: Some(event(&id)), gardens: vec![change], outbox, moved: None };
        store.commit(&commit).expect("committed");
        say(&format!("committed {number}"));
        if number.is_multiple_of(2) {
            gone += 1;
            let key = format!("event {gone} message 0");
            store.attempting(&key, at(0), "device").expect("kept");
            store.delivered(&key, Some(event(&format!("$ {key}")))).expect("kept");
            say(&format!("delivered {gone}"));
        }
    }
}

/// How many commits there are; each must be there with all it has.
fn whole_commits(store: &Store) -> u64 {
    let Some(facts) = store.facts(&garden(0), at(0), None).expect("read") else { return 0 };
    let commits = facts.told.len() as u64;
    let expected = |commit: u64| (0..LINES).map(move |line| format!("event {commit} line {line}"));
    assert_eq!(notes(store, &garden(0)), (1..=commits).flat_map(expected).collect::<Vec<_>>());
    assert!(facts.journal.lines().iter().zip(1..).all(|(line, number)| line.number.0 == number));
    assert_eq!(store.wakes(), [(garden(0), Some(at(commits as i64)))]);
    for commit in 1..=commits + 1 {
        assert_eq!(store.is_seen(&event(&format!("event {commit}"))).expect("read"), commit <= commits);
    }
    // What was accepted and not worked through is at most the message the axe fell on.
    let inbox = store.inbox().expect("an inbox");
    assert!(inbox.iter().all(|letter| letter.id == event(&format!("event {}", commits + 1))), "{inbox:?}");
    commits
}

/// How many messages are delivered; the others must wait, in order, each once.
fn delivered_messages(store: &Store, commits: u64) -> u64 {
    let waiting: Vec<String> =
        store.waiting().expect("an outbox").into_iter().map(|row| row.outbound.key).collect();
    let gone = commits * MESSAGES - waiting.len() as u64;
    let expected = |commit: u64| {
        let first = u64::from(commit <= gone);
        (first..MESSAGES).map(move |message| format!("event {commit} message {message}"))
    };
    assert_eq!(waiting, (1..=commits).flat_map(expected).collect::<Vec<_>>());
    for commit in 1..=gone {
        let key = format!("event {commit} message 0");
        let about = store.about(&event(&format!("$ {key}"))).expect("read");
        assert_eq!(about, Some(format!("about {key}")));
    }
    gone
}

#[test]
fn a_restore_that_is_killed_leaves_one_store_or_the_other() {
    if let Some(folder) = std::env::var_os(FOLDER) {
        return restore_until_killed(Path::new(&folder));
    }
    let folder = tempfile::tempdir().expect("a folder");
    let (one, other) = (folder.path().join("one"), folder.path().join("other"));
    std::fs::create_dir(&one).expect("a folder");
    let place = folder.path().join("place");
    let exports = [full_export(&one, "one"), full_export(&other, "other")];
    std::fs::write(folder.path().join("0.jsonl"), &exports[0]).expect("written");
    std::fs::write(folder.path().join("1.jsonl"), &exports[1]).expect("written");
    Store::restore(&place, &mut exports[0].as_bytes(), Restore::IntoEmpty).expect("restored");
    let mut times = [0, 0];
    for moment in moments().take(RESTORE_KILLS as usize) {
        let (mut child, mut output) =
            child("kill::a_restore_that_is_killed_leaves_one_store_or_the_other", folder.path());
        while !output.next().expect("the child goes on").expect("a line").contains("restoring") {}
        std::thread::sleep(moment * 8);
        child.kill().expect("killed");
        child.wait().expect("gone");
        let found = export(&Store::open(&place).expect("it opens after the kill"));
        let which = exports.iter().position(|text| *text == found).expect("one of the two, whole");
        times[which] += 1;
    }
    println!(
        "a restore killed {RESTORE_KILLS} times left the one store {} times, the other {}",
        times[0], times[1]
    );
}

fn full_export(folder: &Path, name: &str) -> String {
    let store = Store::open(folder).expect("a store");
    let lines = (0..200).map(|line| note(&format!("{name} {line}"), name)).collect();
    let gardens = vec![change(garden(0), lines)];
    store.commit(&Commit { gardens, outbox: vec![draft(name)], ..Commit::default() }).expect("committed");
    export(&store)
}

fn restore_until_killed(folder: &Path) {
    let texts = ["0.jsonl", "1.jsonl"].map(|name| std::fs::read(folder.join(name)).expect("read"));
    for turn in 1usize.. {
        say("restoring");
        let text = &texts[turn % 2];
        Store::restore(&folder.join("place"), &mut text.as_slice(), Restore::Replace).expect("restored");
    }
}

#[test]
fn a_second_process_is_refused_with_the_path_and_the_next_step() {
    if let Some(folder) = std::env::var_os(FOLDER) {
        let error = Store::open(Path::new(&folder)).err().expect("it is refused");
        assert!(matches!(error, StoreError::InUse { .. }), "{error}");
        say(&format!("refused: {error}"));
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    let (mut child, output) =
        child("kill::a_second_process_is_refused_with_the_path_and_the_next_step", folder.path());
    let said: Vec<String> = output.map_while(Result::ok).collect();
    assert!(child.wait().expect("gone").success(), "{said:?}");
    let refusal = said.iter().find_map(|line| Some(line.split_once("refused: ")?.1)).expect("a refusal");
    assert!(refusal.contains(&folder.path().display().to_string()), "{refusal}");
    assert!(refusal.contains("stop that one"), "{refusal}");
    // The first goes on undisturbed.
    store.accept(vec![letter("event")]).expect("accepted");
}
