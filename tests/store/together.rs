//! Several tasks at the store at once.

use std::collections::BTreeSet;

use leafhold::post::Mailroom;
use leafhold::store::{Commit, Store};

use crate::samples::*;

#[test]
fn tasks_that_write_at_once_do_not_get_in_each_others_way() {
    const TASKS: u64 = 4;
    const EACH: u64 = 25;
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    let work = |task: u64| {
        let store = store.clone();
        move || {
            for number in 0..EACH {
                let id = format!("task {task} event {number}");
                store.accept(vec![letter(&id)]).expect("accepted");
                let gardens = vec![change(garden(0), vec![note(&id, &id)])];
                let commit =
                    Commit { seen: Some(event(&id)), gardens, outbox: vec![draft(&id)], moved: None };
                let committed = store.commit(&commit).expect("committed");
                assert_eq!(committed.lines.len(), 1);
                store.attempting(&id, at(0), "device").expect("kept");
                store.delivered(&id, None).expect("kept");
            }
        }
    };
    let tasks: Vec<_> = (0..TASKS).map(|task| std::thread::spawn(work(task))).collect();
    for task in tasks {
        task.join().expect("it ends well");
    }
    drop(store);
    let store = Store::open(folder.path()).expect("it opens again");
    let facts = store.facts(&garden(0), at(0), None).expect("read").expect("a garden");
    let numbers: Vec<u64> = facts.journal.lines().iter().map(|line| line.number.0).collect();
    assert_eq!(numbers, (1..=TASKS * EACH).collect::<Vec<_>>());
    let there: BTreeSet<String> = notes(&store, &garden(0)).into_iter().collect();
    assert_eq!(there.len() as u64, TASKS * EACH);
    assert_eq!(store.inbox().expect("read"), []);
    assert_eq!(store.waiting().expect("read"), []);
}

#[test]
fn those_who_wait_for_changes_are_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("a store");
    let mut changes = store.changes();
    changes.mark_unchanged();
    store.commit(&Commit { outbox: vec![draft("a")], ..Commit::default() }).expect("committed");
    assert!(changes.has_changed().expect("the store is there"));
    changes.mark_unchanged();
    store.accept(vec![letter("a")]).expect("accepted");
    assert!(changes.has_changed().expect("the store is there"));
}
