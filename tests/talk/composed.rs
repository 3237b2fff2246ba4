//! Sentences put together from parts, read as their parts: every verb with every way of naming trees and every
//! time, reports in pairs, questions with their politeness, corrections with their openings.

use super::{garden, reading_of, short};

/// Trees as they are named, and as they are read.
const TREES: &[(&str, &str)] = &[
    ("celeste", "[Celeste]"),
    ("the big one", "[Big One]"),
    ("wall and corner", "[Wall, Corner]"),
    ("celeste, wall and eave", "[Celeste, Wall, Eave]"),
    ("the pots", "[pots]"),
    ("all the pots", "[pots]"),
    ("the ground trees", "[ground]"),
    ("the ones in the ground", "[ground]"),
    ("everything", "[all]"),
    ("all the trees", "[all]"),
    ("everything but whip", "[all but Whip]"),
    ("all but the pots", "[all but pots]"),
    ("the two by the wall", "[by the wall]"),
    ("the deck pots", "[deck]"),
    ("my kadota", "[Eave]"),
    ("both brown turkeys", "[Big One, Wall]"),
    ("the pots except eave", "[Celeste, Big One, Whip]"),
    ("Celeste & Whip", "[Celeste, Whip]"),
];

const TIMES: &[(&str, &str)] = &[
    ("today", ""),
    ("this morning", " @07-10"),
    ("yesterday", " @07-09"),
    ("last night", " @07-09"),
    ("at 7 am", " @07-10 07:00"),
    ("monday", " @07-08"),
    ("2 days ago", " @07-08"),
    ("on july 4", " @07-04"),
    ("yesterday at 6pm", " @07-09 18:00"),
    ("sunday evening", " @07-07"),
    ("at noon", " @07-10 12:00"),
    ("a couple of days ago", " @07-08"),
    ("on the 3rd", " @07-03"),
    ("around 6:30 this morning", " @07-10 06:30"),
    ("after the rain", " @after rain"),
];

/// Reports of trees, with a place for them.
const REPORTS: &[(&str, &str)] = &[
    ("sprayed copper on {}", "sprayed copper"),
    ("sprayed {} with sulfur", "sprayed sulfur"),
    ("treated {} with neem", "sprayed neem"),
    ("hit {} with copper", "sprayed copper"),
    ("applied sulfur to {}", "sprayed sulfur"),
    ("gave {} a copper spray", "sprayed copper"),
    ("finished spraying {} with copper", "sprayed copper"),
    ("copper on {}", "sprayed copper"),
    ("watered {}", "watered"),
    ("gave {} 2 gallons each", "watered 7.6L"),
    ("gave {} a good soak", "watered"),
    ("we watered {}, a gallon each", "watered 3.8L"),
    ("topped up {}", "watered"),
    ("found rust on {}", "scouted some"),
    ("rust on {}, 10%", "scouted 10%"),
    ("saw a few spots on {}", "scouted trace"),
    ("no rust on {}", "scouted none"),
    ("10% rust on the lower leaves of {}", "scouted 10% lower"),
    ("class 2 rust on {}", "scouted class 2"),
    ("picked 9 off {}", "picked 9"),
    ("got 12 figs from {}", "picked 12"),
    ("harvested 2 lb from {}", "picked 0.91kg"),
    ("pulled 6 ripe ones off {}", "picked 6"),
];

/// Whole reports, told without a time.
const WHOLE: &[(&str, &str)] = &[
    ("sprayed copper on the pots", "sprayed copper [pots]"),
    ("watered celeste", "watered [Celeste]"),
    ("picked 9 off wall", "picked 9 [Wall]"),
    ("gauge 0.3", "rained 7.6mm"),
    ("rust on corner 10%", "scouted 10% [Corner]"),
    ("no rust on eave", "scouted none [Eave]"),
    ("whip is dry", "moisture dry [Whip]"),
    ("big one lost half its leaves", "leaf_drop 50% [Big One]"),
    ("celeste is ripening", "stage ripening [Celeste]"),
    ("got half an inch of rain", "rained 12.7mm"),
    ("watered the ground trees, 5 gal each", "watered 18.9L [ground]"),
    ("12 figs from the big one", "picked 12 [Big One]"),
    ("wall is covered in rust", "scouted heavy [Wall]"),
    ("sprayed wall and corner with sulfur", "sprayed sulfur [Wall, Corner]"),
    ("repotted whip", "planted [Whip]"),
    ("put neem on whip", "sprayed neem [Whip]"),
    ("celeste weighs 60 lb wet", "weighed 27.2kg wet [Celeste]"),
];

/// What is said beside a report and reports nothing itself.
const BESIDE: &[(&str, &str)] = &[
    ("will spray wall tomorrow", ""),
    ("my neighbor has rust", ""),
    ("need to water corner", ""),
    ("should i spray?", " + ask spray"),
    ("thanks", ""),
    ("last year was worse", ""),
    ("hope it rains", ""),
    ("might pick eave later", ""),
];

const QUESTIONS: &[(&str, &str)] = &[
    ("should i spray {}", "spray"),
    ("is it worth spraying {}", "spray"),
    ("when should i spray {}", "spray"),
    ("can i spray {} with copper", "spray copper"),
    ("is it too late to spray {}", "spray"),
    ("do i need to water {}", "water"),
    ("how much water for {}", "water"),
    ("how is {}", "tree"),
    ("what's up with {}", "tree"),
    ("when did i last spray {}", "done"),
    ("what was done to {}", "done"),
    ("what have i done to {}", "done"),
    ("did i spray {} last week", "done"),
];

const POLITENESS: &[&str] = &[
    "",
    "hey ",
    "so ",
    "ok so ",
    "quick question, ",
    "can you tell me ",
    "could you tell me ",
    "i was wondering, ",
    "do you know ",
    "hi, ",
    "leafhold, ",
];

const OPENINGS: &[&str] = &[
    "no, ",
    "no ",
    "sorry, ",
    "oops, ",
    "actually, ",
    "actually ",
    "wait, ",
    "correction: ",
    "i meant ",
    "no i meant ",
    "it was ",
    "that was ",
    "no, it was ",
    "should be ",
    "make that ",
    "sorry, i meant ",
    "oops i meant ",
    "i mean ",
];

/// A report, what is said next without its opening, and what that corrects.
const CORRECTIONS: &[(&str, &str, &str)] = &[
    ("sprayed copper on the pots", "sulfur", "product sulfur"),
    ("sprayed copper on the pots", "the ground trees", "trees [ground]"),
    ("sprayed copper on the pots", "yesterday", "when @07-09"),
    ("picked 9 off wall", "12", "number 12"),
    ("picked 9 off wall", "12, not 9", "number 12"),
    ("picked 9 off wall", "corner, not wall", "trees [Corner]"),
    ("watered celeste 2 gallons", "3 gallons", "volume 11.4L"),
    ("gauge 0.3", "0.5", "depth 12.7mm"),
    ("rust on wall 10%", "20%", "severity 20%"),
    ("rust on wall 10%", "class 2", "severity class 2"),
    ("harvested 2 lb from wall", "3 lb", "mass 1.36kg"),
    ("wall is dry", "wet", "moisture wet"),
    ("celeste is ripening", "swelling", "stage swelling"),
];

/// Reads every sentence and prints each that is misread.
fn check(what: &str, sentences: impl Iterator<Item = (String, String)>) {
    let garden = garden();
    let (mut count, mut misread) = (0, Vec::new());
    for (said, want) in sentences {
        let got = short(&reading_of(&said, &garden));
        count += 1;
        if got != want {
            misread.push(format!("  {said}\n    want {want}\n    got  {got}"));
        }
    }
    println!("{what}: {} of {count} right", count - misread.len());
    assert!(count > 0);
    assert!(misread.is_empty(), "{} of {count} {what} misread\n{}", misread.len(), misread.join("\n"));
}

#[test]
fn every_report_of_every_tree_at_every_time() {
    let sentences = REPORTS.iter().flat_map(|(report, want)| {
        TREES.iter().flat_map(move |(named, trees)| {
            let said = report.replacen("{}", named, 1);
            TIMES.iter().flat_map(move |(time, when)| {
                let want = format!("{want} {trees}{when}");
                [format!("{said} {time}"), format!("{time} {said}"), format!("{time}, {said}")]
                    .map(|sentence| (sentence, want.clone()))
            })
        })
    });
    check("reports with trees and times", sentences);
}

#[test]
fn reports_in_pairs() {
    const JOINTS: [&str; 10] =
        [", ", " and ", ". ", "; ", " then ", ", and ", " but ", "\\n", " & ", ", also "];
    let pairs = WHOLE.iter().enumerate().flat_map(|(at, (first, one))| {
        WHOLE.iter().enumerate().filter(move |(other, _)| *other != at).flat_map(move |(_, (second, two))| {
            JOINTS.map(|joint| (format!("{first}{joint}{second}"), format!("{one} + {two}")))
        })
    });
    check("pairs of reports", pairs);
    let beside = WHOLE.iter().flat_map(|(first, one)| {
        BESIDE.iter().flat_map(move |(second, two)| {
            [", ", ". ", " and ", " but ", "; "]
                .map(|joint| (format!("{first}{joint}{second}"), format!("{one}{two}")))
        })
    });
    check("reports beside talk", beside);
}

#[test]
fn every_question_however_it_is_led_in() {
    let questions = QUESTIONS.iter().flat_map(|(question, want)| {
        TREES.iter().take(8).filter(|(_, trees)| !trees.contains("all")).flat_map(move |(named, trees)| {
            POLITENESS.iter().flat_map(move |lead| {
                let said = format!("{lead}{}", question.replacen("{}", named, 1));
                [format!("{said}?"), said].map(|sentence| (sentence, format!("ask {want} {trees}")))
            })
        })
    });
    check("questions", questions);
}

#[test]
fn every_correction_however_it_opens() {
    let corrections = CORRECTIONS.iter().flat_map(|(first, second, want)| {
        OPENINGS
            .iter()
            .map(move |opening| (format!("{first} >> {opening}{second}"), format!("correct {want}")))
    });
    check("corrections", corrections);
}
