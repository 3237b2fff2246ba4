//! Whether two readings mean the same to a grower: for scoring tables whose writers have not seen how readings are
//! written. The tables that stand in the repository are held to the letter; this is only for the first score.
//!
//! Equal are: every kind of aside, and no reading at all; every kind of doubt; a group and its trees; one report of
//! two trees and two equal reports; figures within their rounding; a clean tree and a tree clean from top to bottom;
//! a day left unsaid and today; a question whose tree or product the writer left out and the same question with it;
//! a question of the tree just reported, with and without its name; two products to mix in either order;
//! a place with and without the comma before its state; a name settled with and without its capital; a bare number put right and the count, share or US measure it is of; a note with and without its full stop,
//! and with the tree it names in its own words.

use std::collections::BTreeSet;

use leafhold::season::garden::Garden;
use leafhold::season::request::Selection;
use leafhold::season::selection::selected;

/// The parts of a reading, told tree by tree.
fn parts(reading: &str, garden: &Garden) -> BTreeSet<String> {
    let mut parts = BTreeSet::new();
    let apart = quoted_apart(reading);
    let reported: Vec<&str> = apart
        .iter()
        .filter(|part| !part.trim().starts_with("ask "))
        .filter_map(|part| bracket(part))
        .collect();
    for part in &apart {
        let part = part.trim();
        // "Rust on Wall, should I spray?": of Wall, said or not; frost is of no tree.
        let bare = match bracket(part) {
            Some(trees)
                if part.starts_with("ask ") && reported.contains(&trees) || part.starts_with("ask frost") =>
            {
                part.replace(&format!(" [{trees}]"), "")
            }
            _ => part.to_owned(),
        };
        let part = sorted_pair(&bare);
        let part = part.trim();
        if part.starts_with("aside") || part == "nothing" {
            continue;
        }
        if part.starts_with("doubt") {
            parts.insert(String::from("doubt"));
            continue;
        }
        let part =
            part.replace(" @07-10 ", " @today ").replace(" @07-10", "").replace(" @today ", " @07-10 ");
        let part = part
            .replace("scouted none whole", "scouted none")
            .replace(".\"", "\"")
            .replace(" in_pot", " pot")
            .replace(" in_ground", " ground");
        // The day may stand before the trees or behind them.
        let part = match (part.find(" @"), part.find(" [")) {
            (Some(day), Some(trees)) if day < trees => {
                format!("{}{}{}", &part[..day], &part[trees..], &part[day..trees])
            }
            _ => part,
        };
        let part = if part.starts_with("set ") { part.to_lowercase() } else { part };
        // The town and its state are looked up alike, with and without the comma between them.
        let part = if part.starts_with("set place ") { part.replace(',', "") } else { part };
        match (part.find(" ["), part.rfind(']')) {
            (Some(from), Some(to)) if from < to => {
                let named = part.get(from + 2..to).unwrap_or_default();
                let (before, after) =
                    (part.get(..from).unwrap_or_default(), part.get(to + 1..).unwrap_or_default());
                for tree in trees(named, garden) {
                    parts.insert(format!("{before} [{tree}]{after}"));
                }
            }
            _ => {
                parts.insert(part);
            }
        }
    }
    parts
}

fn bracket(part: &str) -> Option<&str> {
    part.split_once('[')?.1.split_once(']').map(|(trees, _)| trees)
}

/// Copper with neem is neem with copper.
fn sorted_pair(part: &str) -> String {
    match part.strip_prefix("ask together ").and_then(|pair| pair.split_once(" + ")) {
        Some((one, other)) if one > other => format!("ask together {other} + {one}"),
        _ => part.to_owned(),
    }
}

/// " + " between quotation marks is of the note, and in "together copper + neem" it joins two products.
fn quoted_apart(reading: &str) -> Vec<String> {
    let mut parts: Vec<String> = Vec::new();
    for part in reading.split(" + ") {
        match parts.last_mut() {
            Some(last)
                if last.matches('"').count() % 2 == 1
                    || last.starts_with("ask together") && !last.contains('+') =>
            {
                last.push_str(" + ");
                last.push_str(part);
            }
            _ => parts.push(part.to_owned()),
        }
    }
    parts
}

fn trees(named: &str, garden: &Garden) -> Vec<String> {
    let list = |names: &str| names.split(", ").map(|name| name.trim().to_owned()).collect::<Vec<_>>();
    let selection = match named.strip_prefix("all but ") {
        _ if named == "all" => Selection::All,
        Some(names) => Selection::AllBut(list(names)),
        None => {
            let names = list(named);
            return names
                .into_iter()
                .flat_map(|name| {
                    let known = garden.trees.iter().any(|tree| tree.name == name);
                    if known { vec![name] } else { selected(garden, &Selection::Group(name)) }
                })
                .collect();
        }
    };
    selected(garden, &selection)
}

/// A figure and what stands around it: "3.8L" is 3.8 of "L".
fn figure(word: &str) -> Option<(f64, usize, &str)> {
    let end = word
        .find(|letter: char| !letter.is_ascii_digit() && letter != '.' && letter != '-')
        .unwrap_or(word.len());
    let (number, unit) = word.split_at(end);
    let decimals = number.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    Some((number.parse().ok()?, decimals, unit))
}

/// The same words, and figures that the coarser of two roundings does not tell apart, or two in a hundred.
fn same_part(one: &str, other: &str) -> bool {
    let (one, other): (Vec<&str>, Vec<&str>) = (one.split(' ').collect(), other.split(' ').collect());
    one.len() == other.len()
        && one.iter().zip(&other).all(|(one, other)| match (figure(one), figure(other)) {
            (Some((one, fine, unit)), Some((other, coarse, its))) => {
                let step = 10_f64.powi(-i32::try_from(fine.min(coarse)).unwrap_or(0));
                let measured = fine > 0 || coarse > 0;
                let near = if measured {
                    (one.abs() * 0.02).max(if step < 1.0 { step * 1.01 } else { 0.51 })
                } else {
                    0.001
                };
                unit == its && (one - other).abs() <= near
            }
            _ => one == other,
        })
}

/// The writer asked without saying of which tree or product; the reading says.
fn wider(wanted: &str, got: &str) -> bool {
    let bare = |asked: &str| {
        asked
            .replace("ask picking copper", "ask picking")
            .replace("ask picking sulfur", "ask picking")
            .replace("ask picking neem", "ask picking")
    };
    let (named, got) = (bare(wanted), bare(got));
    wanted.starts_with("ask ")
        && (named == got
            || named == "ask why" && got.starts_with("ask why water")
            || !named.contains('[') && got.split(" [").next() == Some(&*named))
        || number(wanted, &got)
        || wanted.starts_with("note ") && got.rsplit_once(" [").is_some_and(|(note, _)| note == wanted)
        || number(&got, wanted)
}

/// "Make that 11" is a number to the reader, of whatever was told before; the writer knows it is a count or gallons.
fn number(wanted: &str, got: &str) -> bool {
    let Some(number) = got.strip_prefix("correct number ").and_then(|number| number.parse::<f64>().ok())
    else {
        return false;
    };
    let mut words = wanted.split(' ').skip(1);
    let (Some(_), Some(word), None) = (words.next(), words.next(), words.next()) else { return false };
    let factor = match figure(word) {
        Some((_, _, "L")) => 3.785,
        Some((_, _, "mm")) => 25.4,
        Some((_, _, "kg")) => 0.4536,
        Some((_, _, "" | "%")) => 1.0,
        _ => return false,
    };
    wanted.starts_with("correct ")
        && figure(word).is_some_and(|(wanted, ..)| (wanted - number * factor).abs() <= 0.06)
}

pub(crate) fn same(wanted: &str, got: &str, garden: &Garden) -> bool {
    let got = parts(got, garden);
    wanted.split(" | ").any(|wanted| {
        let wanted = parts(wanted, garden);
        wanted.len() == got.len()
            && wanted.iter().all(|wanted| got.iter().any(|got| same_part(wanted, got) || wider(wanted, got)))
            && got.iter().all(|got| wanted.iter().any(|wanted| same_part(wanted, got) || wider(wanted, got)))
    })
}

#[test]
fn equal_and_unequal() {
    let garden = super::garden();
    let equal = [
        ("nothing", "aside plan"),
        ("doubt", "doubt unknown_tree + doubt not_understood"),
        ("watered 3.8L [pots]", "watered 3.8L [Whip, Celeste] + watered 3.8L [Big One, Eave]"),
        ("picked 0.9kg [Wall]", "picked 0.91kg [Wall]"),
        ("scouted none [Wall] @07-10", "scouted none whole [Wall]"),
        ("scouted some [Wall] | scouted heavy [Wall]", "scouted heavy [Wall]"),
        ("picked 4 [Wall] + doubt", "picked 4 [Wall] + doubt unknown_tree + aside talk"),
        ("ask water", "ask water [Whip]"),
        ("scouted some [Wall] + ask spray [Wall]", "scouted some [Wall] + ask spray"),
        ("ask together neem + copper", "ask together copper + neem"),
        ("ask frost [Whip]", "ask frost"),
        ("picked 5 @07-08 [Wall]", "picked 5 [Wall] @07-08"),
        ("set rename Whip to Junior", "set rename Whip to junior"),
        ("ask picking [Wall]", "ask picking copper [Wall]"),
        ("correct volume 7.6L", "correct number 2"),
        ("set tree Whip pot 19L", "set tree Whip in_pot 19L"),
        ("note \"Eave smells of honey\"", "note \"Eave smells of honey\" [Eave]"),
    ];
    for (wanted, got) in equal {
        assert!(same(wanted, got, &garden), "{wanted} / {got}");
    }
    let unequal = [
        ("nothing", "doubt not_understood"),
        ("watered 3.8L [pots]", "watered 3.8L [Celeste]"),
        ("watered 3.8L [pots]", "watered [pots]"),
        ("watered 3.8L [Wall]", "watered 4.8L [Wall]"),
        ("picked 9 [Wall]", "picked 10 [Wall]"),
        ("picked 0.9kg [Wall]", "picked 1.1kg [Wall]"),
        ("scouted 4/30 [Wall]", "scouted 4/31 [Wall]"),
        ("scouted some lower [Wall]", "scouted some [Wall]"),
        ("sprayed copper [Wall] @07-09", "sprayed copper [Wall]"),
        ("sprayed copper [Wall] @07-10 07:00", "sprayed copper [Wall]"),
        ("ask spray", "ask water"),
        ("ask water [Whip]", "ask water"),
        ("scouted some [Wall] + ask spray [Corner]", "scouted some [Wall] + ask spray"),
        ("correct volume 7.6L", "correct number 3"),
    ];
    for (wanted, got) in unequal {
        assert!(!same(wanted, got, &garden), "{wanted} / {got}");
    }
}
