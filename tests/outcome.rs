//! What the advice is worth: a simulated tree through whole seasons, its grower going by nothing, by the
//! calendar, or by what the bot says each morning. `cargo test --test outcome -- --nocapture` prints the table.
//!
//! The measure: published trials of such advice reach equal control with about half the sprays of the calendar
//! (Lázaro, Makowski & Vicent 2021). Here it saves less: the calendar growers are as careful as the bot's (no
//! sulfur in heat, no more copper than a year allows, no picking inside a label's wait), and in the wet year
//! rust weather hardly stops.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on stops")]

#[path = "outcome/grower.rs"]
mod grower;
#[path = "outcome/tree.rs"]
mod tree;
#[path = "outcome/years.rs"]
mod years;

use grower::{Goes, Outcome, season};
use tree::{HEAVY, Pressure, USUAL};

struct Row {
    name: &'static str,
    none: Outcome,
    weekly: Outcome,
    tenth: Outcome,
    bot: Outcome,
}

fn row(name: &'static str, year: &leafhold::weather::Series, pressure: Pressure) -> Row {
    let clean = season(year, Goes::NoRust, pressure).kept;
    let of = |goes| {
        let outcome = season(year, goes, pressure);
        Outcome { kept: outcome.kept / clean, ..outcome }
    };
    Row {
        name,
        none: of(Goes::ByNothing),
        weekly: of(Goes::Every(7)),
        tenth: of(Goes::Every(10)),
        bot: mean(&(0..5).map(|luck| of(Goes::ByTheBot(luck))).collect::<Vec<_>>()),
    }
}

fn mean(of: &[Outcome]) -> Outcome {
    let count = of.len() as f64;
    Outcome {
        kept: of.iter().map(|one| one.kept).sum::<f64>() / count,
        sprays: of.iter().map(|one| one.sprays).sum::<f64>() / count,
        undried: of.iter().map(|one| one.undried).sum(),
        broken: of.iter().map(|one| one.broken).sum(),
        spread: None,
    }
}

#[test]
fn outcomes() {
    let rows = [
        row("Newark 2013, usual rust", &years::newark(), USUAL),
        row("Newark 2013, heavy rust", &years::newark(), HEAVY),
        row("wet year, usual rust", &years::wet(), USUAL),
        row("wet year, heavy rust", &years::wet(), HEAVY),
        row("dry year, usual rust", &years::dry(), USUAL),
    ];
    println!("Leaf area kept on 10 September (and sprays); spread is from 1 % to 50 % rusted, unsprayed.");
    println!(
        "| season | no spray | every 7 days | every 10 days | by the bot | sprays, of the 7-day | area, of the 7-day | spread |"
    );
    for row in &rows {
        let cell = |outcome: &Outcome| format!("{:.0} % ({:.1})", outcome.kept * 100.0, outcome.sprays);
        println!(
            "| {} | {} | {} | {} | {} | {:.0} % | {:.1} % | {} |",
            row.name,
            cell(&row.none),
            cell(&row.weekly),
            cell(&row.tenth),
            cell(&row.bot),
            row.bot.sprays / row.weekly.sprays * 100.0,
            row.bot.kept / row.weekly.kept * 100.0,
            row.none.spread.map_or_else(|| String::from("none"), |days| format!("{days} d")),
        );
        assert_eq!(row.bot.undried, 0, "{}: a spray was rained on before it was dry", row.name);
        assert_eq!(row.bot.broken, 0, "{}: a rule was broken", row.name);
        // Never worse than the ten-day calendar.
        assert!(row.bot.kept >= row.tenth.kept - 0.01, "{}: {:?}", row.name, row.bot);
    }
    let [usual, heavy, wet, wet_heavy, dry] = &rows;
    for row in [usual, heavy] {
        assert!(row.bot.kept >= 0.95 * row.weekly.kept, "{}: {:?}", row.name, row.bot);
        assert!(row.bot.sprays < row.weekly.sprays, "{}: {:?}", row.name, row.bot);
    }
    assert_eq!(dry.bot.sprays, 0.0, "a season that needs no spray gets none");
    // The simulated epidemic is none too tame: without sprays the crop's leaves are lost, in weeks.
    for row in [wet, wet_heavy] {
        assert!(row.none.kept < 0.1 && row.none.spread.is_some_and(|days| days <= 60), "{:?}", row.none);
    }
}
