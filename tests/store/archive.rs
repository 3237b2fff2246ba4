//! Exports, and reading them back.

use leafhold::store::{Restore, Store, StoreError};
use proptest::prelude::*;

use crate::samples::*;

#[test]
fn an_export_is_one_record_a_line_for_people() {
    let folder = tempfile::tempdir().expect("a folder");
    insta::assert_snapshot!(export(&filled(folder.path())));
}

#[test]
fn an_export_read_back_is_the_same_store() {
    let folder = tempfile::tempdir().expect("a folder");
    let (first, second) = (folder.path().join("first"), folder.path().join("second"));
    let text = export(&filled(&first));
    let restored = Store::restore(&second, &mut text.as_bytes(), Restore::IntoEmpty).expect("restored");
    assert_eq!(restored.records, text.lines().count() - 2, "all but the first and last line");
    let store = Store::open(&second).expect("a store");
    assert_eq!(export(&store), text);
    assert_eq!(notes(&store, &garden(0)), ["note 0: é 🍃", "note 2: é 🍃", "note 4: é 🍃"].map(String::from));
    assert_eq!(notes(&store, &garden(1)), ["note 3: é 🍃"].map(String::from), "note 1 was taken back");
    assert_eq!(store.flaws().expect("read"), []);
}

#[test]
fn a_store_with_something_in_it_is_replaced_only_when_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let (first, second) = (folder.path().join("first"), folder.path().join("second"));
    let text = export(&filled(&first));
    drop(filled(&second).commit(&leafhold::store::Commit {
        gardens: vec![change(garden(2), vec![note("only here", "x")])],
        ..Default::default()
    }));
    let error = Store::restore(&second, &mut text.as_bytes(), Restore::IntoEmpty).expect_err("refused");
    assert!(matches!(error, StoreError::NotEmpty { .. }), "{error}");
    assert!(error.to_string().contains(&second.display().to_string()), "{error}");
    assert_eq!(Store::open(&second).expect("a store").gardens().len(), 3);
    Store::restore(&second, &mut text.as_bytes(), Restore::Replace).expect("replaced");
    assert_eq!(export(&Store::open(&second).expect("a store")), text);
}

#[test]
fn a_store_in_use_is_not_restored_into() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = filled(folder.path());
    let text = export(&store);
    let error = Store::restore(folder.path(), &mut text.as_bytes(), Restore::Replace).expect_err("refused");
    assert!(matches!(error, StoreError::InUse { .. }), "{error}");
}

#[test]
fn a_bad_line_is_named_and_changes_nothing() {
    let header = r#"{"format":"leafhold-export","version":1}"#;
    let made = r#"{"kind":"garden","of":["plot"],"record":{"v":1,"made":"2013-07-10T12:00:00Z"}}"#;
    let wake = r#"{"kind":"wake","of":["plot"],"record":{"v":1,"at":"2013-07-10T12:00:00Z"}}"#;
    let row = |row: &str| format!("{header}\n{made}\n{row}\n{{\"end\":2}}\n");
    let rows = [
        (String::new(), "line 1", "not an export"),
        (String::from("nonsense"), "line 1", "not an export"),
        (String::from(r#"{"format":"other","version":1}"#), "line 1", "not an export"),
        (String::from(r#"{"format":"leafhold-export","version":99}"#), "line 1", "newer leafhold"),
        (format!("{header}\n{{\"end\":0}}\n\n{made}\n"), "line 4", "after the last line"),
        (format!("{header}\n{{\"end\":0}}\n{header}\n{{\"end\":0}}\n"), "line 3", "after the last line"),
        (header.to_owned(), "line 2", "cut short"),
        (format!("{header}\n{made}"), "line 3", "cut short"),
        (format!("{header}\n{made}\n{{\"end\":2}}"), "line 3", "should be 2 records and are 1"),
        (format!("{header}\n{wake}\n{{\"end\":1}}"), "line 3", "not the garden itself"),
        (row("{broken"), "line 3", "key must be a string"),
        (row(made), "line 3", "came before"),
        (row(&made.replace("\"v\":1", "\"v\":9")), "line 3", "newer leafhold"),
        (row(&made.replace("made", "mode")), "line 3", "missing field"),
        (row(&made.replace("2013-07-10", "yesterday")), "line 3", "cannot be read"),
        (row(&made.replace("\"garden\"", "\"weed\"")), "line 3", "no such kind"),
        (row(&made.replace("[\"plot\"]", "[7]")), "line 3", "does not fit"),
        (row(&made.replace("[\"plot\"]", "[]")), "line 3", "does not fit"),
        (row(&made.replace("\"record\"", "\"recrod\"")), "line 3", "unknown field"),
        (row(r#"{"kind":"note","of":["a"]}"#), "line 3", "only one of them"),
        (row(r#"{"kind":"note","of":["a"],"text":"a","bytes":"00"}"#), "line 3", "only one of them"),
        (row(r#"{"kind":"note","of":["a"],"bytes":"0g"}"#), "line 3", "not hexadecimal"),
        (row(r#"{"kind":"note","of":["a"],"bytes":"000"}"#), "line 3", "not hexadecimal"),
    ];
    let folder = tempfile::tempdir().expect("a folder");
    let before = export(&filled(folder.path()));
    for (text, line, problem) in rows {
        let error = Store::restore(folder.path(), &mut text.as_bytes(), Restore::Replace).expect_err(&text);
        let said = error.to_string();
        assert!(said.contains(&format!("{line} of the export")) && said.contains(problem), "{said}\n{text}");
        assert!(said.contains("nothing was restored"), "{said}");
        assert_eq!(export(&Store::open(folder.path()).expect("a store")), before, "{text}");
    }
}

#[test]
fn bytes_that_are_no_text_are_refused_by_line() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = b"{\"format\":\"leafhold-export\",\"version\":1}\n\xff\xfe\n";
    let error = Store::restore(folder.path(), &mut text.as_slice(), Restore::IntoEmpty).expect_err("no text");
    assert!(error.to_string().contains("line 2 of the export: it is not text"), "{error}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    /// An export somebody's editor, disk or mail program was at: it is either still good, or refused whole.
    #[test]
    fn a_spoilt_export_never_restores_by_halves(
        at in any::<proptest::sample::Index>(),
        length in 0usize..40,
        instead in proptest::collection::vec(any::<u8>(), 0..12),
    ) {
        let folder = tempfile::tempdir().expect("a folder");
        let mut bytes = SAMPLE.with(|text| text.as_bytes().to_vec());
        let from = at.index(bytes.len());
        let to = (from + length).min(bytes.len());
        bytes.splice(from..to, instead);
        match Store::restore(folder.path(), &mut bytes.as_slice(), Restore::IntoEmpty) {
            Ok(restored) => {
                let store = Store::open(folder.path()).expect("a store");
                prop_assert_eq!(export(&store).lines().count(), restored.records + 2);
                prop_assert_eq!(store.flaws().expect("read").len(), restored.flawed);
            }
            Err(error) => {
                prop_assert!(matches!(error, StoreError::BadLine { .. }), "{}", error);
                let store = Store::open(folder.path()).expect("a store");
                prop_assert_eq!(export(&store).lines().count(), 2, "nothing but the first and last line");
            }
        }
    }
}

thread_local! {
    static SAMPLE: String = {
        let folder = tempfile::tempdir().expect("a folder");
        export(&filled(folder.path()))
    };
}
