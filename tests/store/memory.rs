//! What a store costs in memory, in a process of its own.

use std::path::Path;

use leafhold::store::Store;

use crate::kill::{FOLDER, child, say};
use crate::samples::filled;

/// Kilobytes. The whole bot is to stay within 40 MB; half of that was once lost in sled's unused counters.
const MOST: u64 = 6_000;

#[test]
fn a_store_costs_little_memory() {
    if let Some(folder) = std::env::var_os(FOLDER) {
        let before = own_memory();
        drop(filled(Path::new(&folder)));
        let store = Store::open(Path::new(&folder)).expect("it opens again");
        say(&format!("memory {}", own_memory().saturating_sub(before)));
        return drop(store);
    }
    let folder = tempfile::tempdir().expect("a folder");
    let (mut child, output) = child("memory::a_store_costs_little_memory", folder.path());
    let said: Vec<String> = output.map_while(Result::ok).collect();
    assert!(child.wait().expect("gone").success(), "{said:?}");
    let used =
        said.iter().find_map(|line| line.split_once("memory ")?.1.parse::<u64>().ok()).expect("a figure");
    println!("a store costs {used} kB");
    assert!(used <= MOST, "{used} kB");
}

/// Memory of this process that no file backs, in kilobytes.
fn own_memory() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").expect("the kernel's account");
    let line = status.lines().find_map(|line| line.strip_prefix("RssAnon:")).expect("a line");
    line.trim().trim_end_matches(" kB").parse().expect("a figure")
}
