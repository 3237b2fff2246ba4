//! Records and files that are damaged, and records of a newer program: named, kept, and no trouble to the rest.

use std::path::Path;

use leafhold::post::Mailroom;
use leafhold::store::{Commit, Flaw, Restore, Store, StoreError};
use proptest::prelude::*;

use crate::samples::*;

/// Changes records behind the store's back.
fn meddle(folder: &Path, change: impl FnOnce(&sled::Tree)) {
    let database = open_sled(folder);
    let tree = database.open_tree("records-1").expect("a tree");
    change(&tree);
    database.flush().expect("flushed");
}

/// A database just closed holds its lock for a moment longer.
fn open_sled(folder: &Path) -> sled::Db {
    let pause = std::time::Duration::from_millis(20);
    let opened = (0..100).find_map(|_| sled::open(folder).map_err(|_| std::thread::sleep(pause)).ok());
    opened.expect("sled")
}

fn first_key(tree: &sled::Tree, prefix: &str) -> sled::IVec {
    tree.scan_prefix(prefix).keys().next().expect("a record").expect("read")
}

#[test]
fn a_damaged_garden_is_left_alone_and_the_rest_goes_on() {
    for (kind, bytes) in [
        ("journal/garden 0", &b"{\"v\":1,\"act\":\"ent"[..]),
        ("journal/garden 0", b"\x00\xff"),
        ("told/garden 0", b""),
        ("garden/garden 0", b"null"),
        ("wake/garden 0", b"{\"v\":1,\"at\":\"noon\"}"),
        ("wake/garden 0", b"{\"v\":2,\"at\":7}"),
    ] {
        let folder = tempfile::tempdir().expect("a folder");
        drop(filled(folder.path()));
        meddle(folder.path(), |tree| {
            tree.insert(first_key(tree, kind), bytes).expect("written");
        });
        let store = Store::open(folder.path()).expect("it opens");
        let error = store.facts(&garden(0), at(0), None).expect_err("it is refused");
        assert!(error.to_string().contains(kind.trim_end_matches('/')), "{error}");
        assert!(error.to_string().contains("export"), "{error} says no next step");
        let commit = |number| Commit {
            gardens: vec![change(garden(number), vec![note("more", "more")])],
            ..Commit::default()
        };
        assert!(matches!(store.commit(&commit(0)), Err(StoreError::Record(_))), "{kind}");
        store.commit(&commit(1)).expect("the other garden goes on");
        assert_eq!(notes(&store, &garden(1)).len(), 2);
        assert_eq!(store.gardens(), [garden(0), garden(1)]);
        assert!(store.wakes().iter().all(|(id, _)| *id == garden(1)), "nothing wakes a damaged garden");
        assert_eq!(store.flaws().expect("read").len(), 1);
        assert_eq!(store.inbox().expect("an inbox").len(), 1);
    }
}

#[test]
fn a_record_of_the_future_is_named_and_kept() {
    let folder = tempfile::tempdir().expect("a folder");
    drop(filled(folder.path()));
    let future = br#"{"v":7,"act":"unheard of"}"#;
    meddle(folder.path(), |tree| {
        tree.insert(first_key(tree, "journal/"), future).expect("written");
    });
    let store = Store::open(folder.path()).expect("it opens");
    let error = store.facts(&garden(0), at(0), None).expect_err("it is refused");
    assert!(matches!(error, StoreError::Record(Flaw::TooNew { version: 7, .. })), "{error}");
    assert!(
        error.to_string().contains("journal/garden 0/1") && error.to_string().contains("newer"),
        "{error}"
    );
    assert!(export(&store).contains(r#""record":{"v":7,"act":"unheard of"},"flaw":"#));
    drop(store);
    meddle(folder.path(), |tree| {
        assert_eq!(tree.get(first_key(tree, "journal/")).expect("read").as_deref(), Some(&future[..]));
    });
}

#[test]
fn one_damaged_message_does_not_stop_those_behind_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = filled(folder.path());
    store.accept(vec![letter("event 6"), letter("event 7")]).expect("accepted");
    drop(store);
    meddle(folder.path(), |tree| {
        tree.insert(first_key(tree, "inbox/"), b"spoilt").expect("written");
        tree.insert(first_key(tree, "outbox/"), b"spoilt").expect("written");
    });
    let store = Store::open(folder.path()).expect("it opens");
    let inbox: Vec<_> = store.inbox().expect("an inbox").into_iter().map(|letter| letter.id).collect();
    assert_eq!(inbox, [event("event 6"), event("event 7")]);
    let waiting: Vec<_> = store.waiting().expect("read").into_iter().map(|row| row.outbound.key).collect();
    assert_eq!(waiting, ["event 3", "event 4"]);
    assert_eq!(store.flaws().expect("read").len(), 2);
    // Later ones are numbered past the damaged ones, which stay for the operator.
    store.accept(vec![letter("event 8")]).expect("accepted");
    assert_eq!(store.inbox().expect("an inbox").len(), 3);
    assert_eq!(store.flaws().expect("read").len(), 2);
}

#[test]
fn a_folder_that_cannot_be_one_is_refused_with_the_next_step() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("file");
    std::fs::write(&file, "not a folder").expect("written");
    let error = Store::open(&file).err().expect("it is refused").to_string();
    assert!(error.contains(&file.display().to_string()) && error.contains("check that"), "{error}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    /// Any bytes in any record: nothing panics, the flaw is found, and an export and restore keep every byte.
    #[test]
    fn hostile_bytes_in_a_record_are_kept_and_named(
        which in any::<proptest::sample::Index>(),
        bytes in prop_oneof![
            proptest::collection::vec(any::<u8>(), 0..40),
            "\\{\"v\":[0-9]{1,3},\"[a-z]{1,6}\":[0-9]{1,30}\\}".prop_map(String::into_bytes),
            "\\PC{0,30}".prop_map(String::into_bytes),
        ],
        new_key in proptest::option::weighted(0.2, proptest::collection::vec(any::<u8>(), 1..20)),
    ) {
        let folder = tempfile::tempdir().expect("a folder");
        let (first, second) = (folder.path().join("first"), folder.path().join("second"));
        drop(filled(&first));
        let mut key = Vec::new();
        meddle(&first, |tree| {
            let keys: Vec<_> = tree.iter().keys().map(|key| key.expect("read").to_vec()).collect();
            key = new_key.unwrap_or_else(|| keys[which.index(keys.len())].clone());
            tree.insert(key.as_slice(), bytes.as_slice()).expect("written");
        });
        let store = Store::open(&first).expect("it opens");
        for id in store.gardens() {
            // Either it is whole or the error names the record; both without a panic.
            let _ = store.facts(&id, at(0), Some(&person("ana")));
        }
        store.inbox().expect("an inbox");
        store.waiting().expect("an outbox");
        let flaws = store.flaws().expect("read");
        prop_assert!(flaws.len() <= 1);
        store.accept(vec![letter("one more")]).expect("accepted");
        let text = export(&store);
        let restored = Store::restore(&second, &mut text.as_bytes(), Restore::IntoEmpty);
        let orphaned = key.starts_with(b"garden/") || key.starts_with(b"journal/") || key.starts_with(b"told/");
        match restored {
            Ok(restored) => {
                prop_assert_eq!(restored.flawed, flaws.len());
                prop_assert_eq!(export(&Store::open(&second).expect("a store")), text);
            }
            // A new key may name a garden that is not there; that is refused, by line.
            Err(error) => prop_assert!(orphaned && matches!(error, StoreError::BadLine { .. }), "{}", error),
        }
        drop(store);
        meddle(&first, |tree| {
            assert_eq!(tree.get(&key).expect("read").as_deref(), Some(bytes.as_slice()));
        });
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// The disk itself spoilt: the store opens and works, or is refused in words. It never panics.
    #[test]
    fn spoilt_files_are_refused_in_words(
        spots in proptest::collection::vec((any::<proptest::sample::Index>(), any::<u8>()), 1..20),
        cut in proptest::option::weighted(0.3, any::<proptest::sample::Index>()),
    ) {
        let folder = tempfile::tempdir().expect("a folder");
        drop(filled(folder.path()));
        drop(open_sled(folder.path()));
        let file = folder.path().join("db");
        let mut bytes = std::fs::read(&file).expect("the file");
        // Most of the file is empty yet: what is written there stands at its start.
        let used = bytes.iter().rposition(|byte| *byte != 0).map_or(1, |last| last + 1);
        for (spot, byte) in spots {
            bytes[spot.index(used)] = byte;
        }
        if let Some(cut) = cut {
            bytes.truncate(cut.index(used));
        }
        std::fs::write(&file, bytes).expect("written");
        match Store::open(folder.path()) {
            Ok(store) => {
                for id in store.gardens() {
                    let _ = store.facts(&id, at(0), None);
                }
                let _ = (store.inbox(), store.waiting(), store.flaws(), store.export(&mut Vec::new()));
                let _ = store.accept(vec![letter("one more")]);
            }
            Err(error) => {
                let said = error.to_string();
                prop_assert!(said.contains("restore") || said.contains("check"), "{} says no next step", said);
            }
        }
    }
}

/// Killed while the database wrote down where its pages lie: the half it left is not taken for the whole.
#[test]
fn a_snapshot_left_half_written_stops_nobody() {
    for half in [&b""[..], b"\x00\x01\x02", &[7; 4096]] {
        let folder = tempfile::tempdir().expect("a folder");
        drop(filled(folder.path()));
        std::fs::write(folder.path().join("snap.FFFFFFFFFFFFFFFF.generating"), half).expect("written");
        let store = Store::open(folder.path()).expect("it opens");
        assert_eq!(notes(&store, &garden(1)).len(), 1, "{} bytes", half.len());
        assert_eq!(store.gardens(), [garden(0), garden(1)]);
        assert!(store.flaws().expect("read").is_empty());
    }
}
