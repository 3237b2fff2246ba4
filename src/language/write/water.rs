//! Watering, most pressing first.

use super::page::Page;
use super::{Voice, figures, phrases};
use crate::season::answer::{
    HousedTree, TreeReasons, TreeWater, WaterAdvice, WaterAssumption, WaterReasons, WaterUrgency,
};
use crate::season::journal::MoistureState;
use crate::units::{Fraction, Hours, Litres, Millimetres};

/// As many trees as a phone shows.
const SHOWN: usize = 8;
/// Less rain than this does not replace a watering. common practice.
const COUNTS: Millimetres = Millimetres::new(5.0);

pub(super) fn advice(page: &mut Page, water: &WaterAdvice, voice: &Voice) {
    let trees = &water.trees;
    if trees.is_empty() && !water.housed.is_empty() {
        let mut lines = housed(&water.housed, voice).into_iter();
        page.lead(lines.next().unwrap_or_default());
        lines.for_each(|line| page.line(line));
        return;
    }
    if trees.is_empty() {
        page.lead("I know of no tree to water yet.");
        return;
    }
    if trees.iter().all(|tree| tree.urgency == WaterUrgency::Unknown) {
        page.lead("Feel the soil a finger deep: I have no weather to reckon with.");
        page.line("A pot that lifts light is dry. Water till it runs out below.");
        housed(&water.housed, voice).into_iter().for_each(|line| page.line(line));
        return;
    }
    page.lead(lead(trees));
    let pressing: Vec<&TreeWater> =
        trees.iter().filter(|tree| tree.urgency <= WaterUrgency::Tomorrow).collect();
    for tree in pressing.iter().take(SHOWN) {
        page.item(tree_line(tree, voice));
    }
    page.line(slowly(&pressing).unwrap_or_default());
    if pressing.is_empty() {
        page.line(next_due(trees).unwrap_or_default());
    } else {
        page.line(enough(trees).unwrap_or_default());
    }
    housed(&water.housed, voice).into_iter().for_each(|line| page.line(line));
    page.line(rain_ahead(water, voice).unwrap_or_default());
    page.small(assumed(trees).unwrap_or_default());
}

fn advice_without_weather(page: &mut Page, trees: &[TreeWater]) {
    if trees.is_empty() {
        return page.lead("I know of no tree to water yet.");
    }
    page.lead("Feel the soil a finger deep: I have no weather to reckon with.");
    page.line("A pot that lifts light is dry. Water till it runs out below.");
}

fn lead(trees: &[TreeWater]) -> String {
    let of = |urgency: WaterUrgency| -> Vec<&str> {
        trees.iter().filter(|tree| tree.urgency == urgency).map(|tree| tree.tree.as_str()).collect()
    };
    let (now, today, tomorrow) = (of(WaterUrgency::Now), of(WaterUrgency::Today), of(WaterUrgency::Tomorrow));
    match (now.is_empty(), today.is_empty(), tomorrow.is_empty()) {
        (false, true, _) => format!("Water {} now.", phrases::names(&now)),
        (false, false, _) => {
            format!("Water {} now, {} later today.", phrases::names(&now), phrases::names(&today))
        }
        (true, false, _) => format!("Water {} today.", phrases::names(&today)),
        (true, true, false) => format!("Nothing today; {} tomorrow.", phrases::names(&tomorrow)),
        (true, true, true) => String::from("No watering needed today or tomorrow."),
    }
}

/// The sums behind the advice, the most pressing trees first.
pub(super) fn why(page: &mut Page, reasons: &WaterReasons, voice: &Voice) {
    const MOST: usize = 4;
    let waters: Vec<TreeWater> = reasons.trees.iter().map(|tree| tree.water.clone()).collect();
    let known: Vec<&TreeReasons> = reasons.trees.iter().filter(|tree| tree.water.left.is_some()).collect();
    if known.is_empty() {
        return advice_without_weather(page, &waters);
    }
    page.lead(lead(&waters));
    page.line("Because:");
    // The others need no reason to be left alone.
    let pressing: Vec<&TreeReasons> =
        known.iter().copied().filter(|tree| tree.water.urgency <= WaterUrgency::Tomorrow).collect();
    let shown = if pressing.is_empty() { &known } else { &pressing };
    for tree in shown.iter().take(MOST) {
        page.item(sum(tree, voice));
    }
    if known.len() > shown.len().min(MOST) {
        page.item("The others by the same sum.");
    }
    let mut weather = Vec::new();
    if let Some(hottest) = reasons.hottest {
        weather.push(format!("Hottest today: {}.", voice.temperature(hottest)));
    }
    match reasons.rain_ahead.filter(|rain| *rain >= COUNTS) {
        Some(rain) => {
            weather.push(format!("{} is due within two days.", phrases::capitalised(&voice.rain(rain))))
        }
        None => weather.push(String::from("No rain worth counting within two days.")),
    }
    page.line(weather.join(" "));
    page.line(format!(
        "A pot is due when {} of what it can give is gone. What your finger feels beats my sums: say \"pots bone dry\" to correct me.",
        part_of(reasons.allowed)
    ));
}

/// "Big One: holds 3¾ gal, about half is left, uses 3½ gal a day on hot paving; watered Jul 9, 4 gal."
fn sum(tree: &TreeReasons, voice: &Voice) -> String {
    let water = &tree.water;
    let mut parts = Vec::new();
    if let Some(holds) = tree.holds {
        parts.push(format!("its mix can give {}", voice.volume(holds)));
    }
    if let Some(left) = water.left {
        let of = if tree.holds.is_some() { "is left" } else { "of its easy water is left" };
        parts.push(format!("{} {of}", water_part(left)));
    }
    if let Some(used) = water.use_a_day.filter(|used| *used > Litres::ZERO) {
        let paving = if tree.on_hot_paving { " on the hot paving" } else { "" };
        parts.push(format!("it uses about {} a day{paving}", voice.volume(used)));
    }
    let told = match (tree.watered, tree.felt) {
        (_, Some(MoistureState::Dry)) => String::from("; you found it dry"),
        (_, Some(MoistureState::Moist)) => String::from("; you found it moist"),
        (_, Some(MoistureState::Wet)) => String::from("; you found it wet"),
        (Some(last), None) => {
            let volume = last.volume.map_or_else(String::new, |volume| format!(", {}", voice.volume(volume)));
            format!("; last watered {}{volume}", voice.date(last.date))
        }
        (None, None) => String::from("; no watering told of"),
    };
    format!("{}: {}{told}: {}.", phrases::name(&water.tree), parts.join(", "), when(water))
}

fn part_of(part: Fraction) -> &'static str {
    match part.value() {
        part if part < 0.45 => "two fifths",
        part if part < 0.55 => "half",
        _ => "most",
    }
}

/// "Celeste: 1½ gal now, then about 1 gal morning and evening."
pub(super) fn tree_line(tree: &TreeWater, voice: &Voice) -> String {
    format!("{}: {}.", phrases::name(&tree.tree), amount(tree, voice))
}

fn amount(tree: &TreeWater, voice: &Voice) -> String {
    let Some(volume) = tree.volume.filter(|volume| *volume > Litres::ZERO) else {
        return when(tree);
    };
    let mut parts = vec![match tree.urgency {
        WaterUrgency::Now => format!("{} now", voice.volume(volume)),
        _ => format!("{}, {}", voice.volume(volume), when(tree)),
    }];
    if let (Some(used), 2..) = (tree.use_a_day, tree.times_a_day) {
        let each = voice.volume(used / f64::from(tree.times_a_day));
        parts.push(format!("then about {each} {}", rounds(tree.times_a_day)));
    } else if let Some(used) = tree.use_a_day.filter(|used| tree.potted && *used > Litres::ZERO) {
        parts.push(format!("uses about {} a day", voice.volume(used)));
    }
    if let Some(minutes) = tree.drip.filter(|minutes| *minutes >= 1.0) {
        parts.push(format!("drip {}", figures::span(Hours::new(minutes / 60.0))));
    }
    parts.join(", ")
}

fn when(tree: &TreeWater) -> String {
    match (tree.urgency, tree.until_dry) {
        (WaterUrgency::Now, _) => String::from("now"),
        (WaterUrgency::Unknown, _) => String::from("feel the soil, I cannot tell"),
        (_, Some(until)) => format!("due in {}", figures::span(until)),
        (WaterUrgency::Today, None) => String::from("due today"),
        (WaterUrgency::Tomorrow, None) => String::from("due tomorrow"),
        (WaterUrgency::Enough, None) => String::from("enough for now"),
    }
}

fn rounds(times_a_day: u32) -> &'static str {
    match times_a_day {
        2 => "morning and evening",
        _ => "morning, noon and evening",
    }
}

/// More than this at once runs off or past the roots of a tree in the ground. common practice: a few buckets soak in
/// as they are poured.
const MOST_AT_ONCE: Litres = Litres::new(40.0);

/// How a tree in the ground takes much water: "Give Wall its water slowly: ...". common practice: slow, deep and
/// wide soaking, in goes with time to sink in between.
fn slowly(trees: &[&TreeWater]) -> Option<String> {
    let much = |tree: &&&TreeWater| !tree.potted && tree.volume.is_some_and(|volume| volume > MOST_AT_ONCE);
    let names: Vec<&str> = trees.iter().filter(much).map(|tree| tree.tree.as_str()).collect();
    let its = if names.len() == 1 { "its" } else { "their" };
    (!names.is_empty()).then(|| {
        format!(
            "Give {} {its} water slowly: over an hour or two, in two or three goes, under the whole crown.",
            phrases::names(&names)
        )
    })
}

/// How one tree stands, in a view of that tree.
pub(super) fn state_line(tree: &TreeWater, voice: &Voice) -> Option<String> {
    let left = tree.left.filter(|_| tree.urgency != WaterUrgency::Unknown)?;
    let next = match (tree.urgency, tree.until_dry) {
        (WaterUrgency::Enough, Some(until)) => format!("next watering in about {}", figures::span(until)),
        _ => amount(tree, voice),
    };
    let slowly = slowly(&[tree]).filter(|_| tree.urgency <= WaterUrgency::Tomorrow);
    let slowly = slowly.map_or_else(String::new, |slowly| format!(" {slowly}"));
    Some(format!("{} of its water is left: {next}.{slowly}", phrases::capitalised(water_part(left))))
}

fn water_part(left: Fraction) -> &'static str {
    match left.value() {
        left if left >= 0.85 => "nearly all",
        left if left >= 0.65 => "about three quarters",
        left if left >= 0.45 => "about half",
        left if left >= 0.25 => "about a third",
        _ => "little",
    }
}

/// Trees indoors, by what is still on them: a bare one sleeps and wants next to nothing, one in leaf drinks, and
/// may have been out for long. common practice: dormant pots are kept dark and almost dry.
fn housed(trees: &[HousedTree], voice: &Voice) -> Vec<String> {
    let of = |bare: bool| trees.iter().filter(move |tree| tree.bare == bare).collect::<Vec<_>>();
    let names = |trees: &[&HousedTree]| {
        let names: Vec<&str> = trees.iter().map(|tree| tree.tree.as_str()).collect();
        (phrases::names(&names), if trees.len() == 1 { "is" } else { "are" })
    };
    let mut lines = Vec::new();
    let (bare, leafy) = (of(true), of(false));
    if !bare.is_empty() {
        let (names, are) = names(&bare);
        lines.push(format!(
            "{names} {are} inside: a cupful every four to six weeks while bare, more rots the roots.{}",
            last_watered(&bare, voice)
        ));
    }
    if let Some(since) = leafy.iter().map(|tree| tree.since).min() {
        let (names, are) = names(&leafy);
        // In leaf so long after, they were more likely carried out and nobody said so.
        let doubted = (voice.today() - since).num_days() >= LONG_IN_LEAF;
        lines.push(if doubted {
            format!(
                "{names} {are} inside by what you told me ({}): water what is dry a finger deep. Out again? Say \"the pots are out\".",
                voice.date(since)
            )
        } else {
            format!("{names} {are} inside: water what is dry a finger deep.")
        });
    }
    lines
}

/// " Last watered Jan 8." where it is on record of each; of several the longest ago.
fn last_watered(trees: &[&HousedTree], voice: &Voice) -> String {
    let days: Option<Vec<_>> = trees.iter().map(|tree| tree.watered).collect();
    days.and_then(|days| days.into_iter().min())
        .map_or_else(String::new, |day| format!(" Last watered: {}.", voice.day(day)))
}

/// How a tree indoors stands, in a view of that tree.
pub(super) fn housed_line(tree: &HousedTree, voice: &Voice) -> Option<String> {
    housed(std::slice::from_ref(tree), voice).pop()
}

/// A tree indoors in leaf for so many days may be out by now. common practice: none is kept in the dark in leaf.
const LONG_IN_LEAF: i64 = 30;

fn next_due(trees: &[TreeWater]) -> Option<String> {
    let next = trees
        .iter()
        .filter_map(|tree| Some((tree, tree.until_dry?)))
        .min_by(|one, other| one.1.total_cmp(&other.1))?;
    Some(format!("{} is next, in about {}.", phrases::name(&next.0.tree), figures::span(next.1)))
}

fn enough(trees: &[TreeWater]) -> Option<String> {
    let fine: Vec<&str> = trees
        .iter()
        .filter(|tree| tree.urgency == WaterUrgency::Enough)
        .map(|tree| tree.tree.as_str())
        .collect();
    let verb = if fine.len() == 1 { "has" } else { "have" };
    (!fine.is_empty()).then(|| format!("{} {verb} enough for now.", phrases::names(&fine)))
}

fn rain_ahead(water: &WaterAdvice, voice: &Voice) -> Option<String> {
    let rain = water.rain_ahead.filter(|rain| rain.value() >= 1.0)?;
    let pots = water.trees.iter().any(|tree| tree.potted);
    let but = match pots {
        true if rain < COUNTS => ": too little to count on",
        true => ", but leaves keep much of it from a pot",
        false => "",
    };
    Some(format!("{} is due within two days{but}.", phrases::capitalised(&voice.rain(rain))))
}

fn assumed(trees: &[TreeWater]) -> Option<String> {
    let with = |assumption: WaterAssumption| -> Vec<&str> {
        trees
            .iter()
            .filter(|tree| tree.assumed.contains(&assumption))
            .map(|tree| tree.tree.as_str())
            .collect()
    };
    let mut parts = Vec::new();
    for (assumption, words) in [
        (WaterAssumption::LastWatering, "last watering (a day ago)"),
        (WaterAssumption::PotSize, "pot size"),
        (WaterAssumption::Width, "crown width"),
    ] {
        let trees = with(assumption);
        if !trees.is_empty() {
            parts.push(format!("{words} of {}", phrases::names(&trees)));
        }
    }
    if !with(WaterAssumption::EstimatedRadiation).is_empty() {
        parts.push(String::from("sunshine"));
    }
    (!parts.is_empty()).then(|| {
        format!("Guessed: {}. Say \"watered\" or \"pots bone dry\" to correct me.", parts.join("; "))
    })
}
