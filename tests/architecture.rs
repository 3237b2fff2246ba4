//! The arrows of DEVELOPERS.md, held by a machine: which module may use which, no clock, no waiting and no
//! disk in the core, and files short enough to read. A failure names the file and what is wrong with it.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on stops")]

use std::fs;
use std::path::{Path, PathBuf};

/// Each module and those it may use, as in DEVELOPERS.md.
const ARROWS: &[(&str, &[&str])] = &[
    ("units", &[]),
    ("identity", &[]),
    ("weather", &["units"]),
    ("post", &["identity"]),
    ("agronomy", &["units", "weather"]),
    ("season", &["units", "identity", "weather", "agronomy"]),
    ("language", &["units", "identity", "season"]),
    ("store", &["units", "identity", "weather", "season", "post"]),
    ("forecast", &["units", "weather"]),
    ("transport", &["units", "identity", "post", "clock"]),
    ("picture", &["units", "weather", "season"]),
    ("config", &[]),
    ("clock", &[]),
];
/// Where nothing waits, reads a disk or a clock, or logs.
const CORE: &[&str] = &["units", "identity", "weather", "agronomy", "season", "language"];
const NOT_IN_CORE: &[&str] = &[
    "async ", ".await", "tokio", "std::fs", "std::env", "std::net", "std::io", "tracing", "::now()",
    "reqwest", "sled",
];
/// Lines of a file without its tests.
const LONGEST_FILE: usize = 600;

fn files_below(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder").flatten() {
        let path = entry.path();
        if path.is_dir() {
            files.extend(files_below(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            files.push(path);
        }
    }
    files.sort();
    files
}

fn source() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// The file's code without its tests, its module and its path within `src`.
fn sources() -> Vec<(String, String, String)> {
    files_below(&source())
        .into_iter()
        .filter(|path| !path.ends_with("tests.rs"))
        .map(|path| {
            let inside = path.strip_prefix(source()).expect("inside").to_owned();
            let module =
                inside.iter().next().expect("a name").to_string_lossy().trim_end_matches(".rs").to_owned();
            let text = fs::read_to_string(&path).expect("a file");
            let code = text.split("#[cfg(test)]").next().unwrap_or("").to_owned();
            (module, inside.display().to_string(), code)
        })
        .collect()
}

fn without_comments(code: &str) -> String {
    code.lines().map(|line| line.split("//").next().unwrap_or("")).collect::<Vec<_>>().join("\n")
}

/// Modules named as `crate::name` or within `crate::{name, ...}`.
fn used_modules(code: &str) -> Vec<String> {
    let code = without_comments(code);
    let mut used = Vec::new();
    for (at, _) in code.match_indices("crate::") {
        let rest = &code[at + "crate::".len()..];
        if let Some(group) = rest.strip_prefix('{') {
            let mut depth = 0;
            let mut name = String::new();
            for letter in group.chars() {
                match letter {
                    '{' => depth += 1,
                    '}' if depth == 0 => break,
                    '}' => depth -= 1,
                    ',' if depth == 0 => used.push(std::mem::take(&mut name)),
                    letter if depth == 0 => name.push(letter),
                    _ => {}
                }
            }
            used.push(name);
        } else {
            used.push(rest.chars().take_while(|letter| letter.is_alphanumeric() || *letter == '_').collect());
        }
    }
    used.into_iter()
        .map(|name| name.trim().split("::").next().unwrap_or("").to_owned())
        .filter(|name| !name.is_empty())
        .collect()
}

#[test]
fn arrows_point_one_way() {
    let mut wrong = Vec::new();
    let mut checked = 0;
    for (module, file, code) in sources() {
        let Some((_, allowed)) = ARROWS.iter().find(|(name, _)| *name == module) else { continue };
        checked += 1;
        for used in used_modules(&code) {
            if used != module && !allowed.contains(&used.as_str()) {
                wrong.push(format!("src/{file}: {module} must not use {used}"));
            }
        }
    }
    assert!(checked > 60, "only {checked} files were looked at");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_core_neither_waits_nor_reads_clock_or_disk() {
    let mut wrong = Vec::new();
    for (module, file, code) in sources().into_iter().filter(|(module, ..)| CORE.contains(&module.as_str())) {
        for (number, line) in without_comments(&code).lines().enumerate() {
            for word in NOT_IN_CORE.iter().filter(|word| line.contains(**word)) {
                wrong.push(format!("src/{file}:{}: `{word}` in the core module {module}", number + 1));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn only_the_clock_reads_the_time() {
    let wrong: Vec<String> = sources()
        .into_iter()
        .filter(|(module, ..)| module != "clock")
        .flat_map(|(_, file, code)| {
            without_comments(&code)
                .lines()
                .enumerate()
                .filter(|(_, line)| {
                    ["Utc::now(", "Local::now(", "Instant::now(", "SystemTime::now("]
                        .iter()
                        .any(|call| line.contains(call))
                })
                .map(|(number, _)| format!("src/{file}:{}: reads the time; ask clock.rs", number + 1))
                .collect::<Vec<_>>()
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn only_the_desk_commits() {
    let wrong: Vec<String> = sources()
        .into_iter()
        .filter(|(module, file, _)| module != "store" && file != "app/desk.rs")
        .filter(|(_, _, code)| without_comments(code).contains(".commit(&Commit"))
        .map(|(_, file, _)| format!("src/{file}: only app/desk.rs commits"))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn files_are_short_enough_to_read() {
    let mut lengths: Vec<(usize, String)> =
        sources().into_iter().map(|(_, file, code)| (code.lines().count(), file)).collect();
    lengths.sort();
    let long: Vec<String> = lengths
        .iter()
        .filter(|(lines, _)| *lines > LONGEST_FILE)
        .map(|(lines, file)| format!("src/{file}: {lines} lines, more than {LONGEST_FILE}"))
        .collect();
    assert!(long.is_empty(), "{}", long.join("\n"));
    let median = lengths[lengths.len() / 2].0;
    assert!(median <= 200, "the median file has {median} lines");
    let vague: Vec<&String> = lengths
        .iter()
        .map(|(_, file)| file)
        .filter(|file| file.contains("utils") || file.contains("common.rs") || file.contains("helpers"))
        .collect();
    assert!(vague.is_empty(), "named for nothing: {vague:?}");
}

#[test]
fn every_formula_names_a_source_that_is_listed() {
    let listed = fs::read_to_string(source().join("agronomy/SOURCES.md")).expect("SOURCES.md");
    let table = fs::read_to_string(source().join("agronomy/FORMULAS.md")).expect("FORMULAS.md");
    let mut wrong = Vec::new();
    let mut formulas = 0;
    for (_, file, code) in sources().into_iter().filter(|(module, ..)| module == "agronomy") {
        for (at, _) in code.match_indices("\npub fn ").chain(code.match_indices("\n    pub fn ")) {
            let before = &code[..at + 1];
            let doc: Vec<&str> = before
                .lines()
                .rev()
                .take_while(|line| {
                    line.trim_start().starts_with("///") || line.trim_start().starts_with("#[")
                })
                .collect();
            let name: String = code[at..]
                .split("pub fn ")
                .nth(1)
                .unwrap_or("")
                .chars()
                .take_while(|letter| letter.is_alphanumeric() || *letter == '_')
                .collect();
            let plain =
                ["new", "value", "default", "step", "wish", "seasons", "share"].contains(&name.as_str());
            if plain {
                continue;
            }
            formulas += 1;
            if !doc.iter().any(|line| line.contains("# Source")) {
                wrong.push(format!("src/{file}: {name} names no # Source"));
            }
            let module = file.trim_start_matches("agronomy/").trim_end_matches(".rs").replace('/', "::");
            if !table.contains(&format!("`{module}::{name}`")) {
                wrong.push(format!("src/{file}: {name} is not in agronomy/FORMULAS.md"));
            }
        }
        for key in keys(&code) {
            if !listed.contains(&format!("[{key}]")) {
                wrong.push(format!("src/{file}: [{key}] is not in agronomy/SOURCES.md"));
            }
        }
    }
    assert!(formulas > 40, "only {formulas} formulas were found");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Source keys such as [FAO56] in doc comments.
fn keys(code: &str) -> Vec<String> {
    code.lines()
        .filter(|line| line.trim_start().starts_with("//"))
        .flat_map(|line| line.split('[').skip(1))
        .filter_map(|part| part.split(']').next())
        .filter(|key| {
            key.len() >= 3
                && key.chars().all(|letter| letter.is_ascii_uppercase() || letter.is_ascii_digit())
                && key.chars().any(char::is_alphabetic)
        })
        .map(str::to_owned)
        .collect()
}
