//! Reasons with their figures, those of one kind on one line.

use chrono::NaiveDate;

use crate::language::write::{Voice, figures, phrases};
use crate::season::answer::{
    FrostBasis, Infection, InfectionGrade, LabelItem, Obstacle, Reason, Verdict, Worth,
};
use crate::units::{Days, Fraction, Hours, Millimetres};

pub(in crate::language::write) fn grade(grade: InfectionGrade) -> &'static str {
    match grade {
        InfectionGrade::Trace => "light",
        InfectionGrade::Moderate => "moderate",
        InfectionGrade::Severe => "severe",
    }
}

/// What a reason is about: reasons of one topic share a line.
#[derive(Clone, Copy, PartialEq)]
enum Topic {
    Obstacle,
    Forecast,
    Wet,
    Cover,
    Rust,
    Pipeline,
    Tree,
    Rules,
    Season,
    Product,
    /// Said elsewhere: rules in the first lines, gaps of the label beside the cautions.
    Elsewhere,
}

fn topic(reason: &Reason) -> Topic {
    match reason {
        Reason::NoWindow { .. } => Topic::Obstacle,
        Reason::WeatherUnknown => Topic::Forecast,
        Reason::InfectionAhead { .. }
        | Reason::InfectionPossible { .. }
        | Reason::NoInfectionAhead { .. } => Topic::Wet,
        Reason::NeverSprayed
        | Reason::CoverHolds { .. }
        | Reason::CoverThin { .. }
        | Reason::WashedOff { .. }
        | Reason::NewLeavesBare { .. }
        | Reason::IntervalOver { .. } => Topic::Cover,
        Reason::RustSeen { .. } | Reason::CleanLeaves | Reason::CropAtStake => Topic::Rust,
        Reason::InPipeline { .. } => Topic::Pipeline,
        Reason::PickedOut { .. }
        | Reason::TooYoung
        | Reason::LeavesGone { .. }
        | Reason::Housed
        | Reason::Dormant => Topic::Tree,
        Reason::RulesDiffer { .. } | Reason::LittleAtStake { .. } => Topic::Rules,
        Reason::DaysToFrost { .. }
        | Reason::Shortening { .. }
        | Reason::Cooling { .. }
        | Reason::CropBy { .. }
        | Reason::TooLateToCost { .. }
        | Reason::FrostUnknown => Topic::Season,
        Reason::NoProduct => Topic::Product,
        Reason::Rule { .. } | Reason::LabelUnknown { .. } => Topic::Elsewhere,
    }
}

/// Frost further off than this tells a grower nothing.
const FAR: i64 = 90;

/// What bears on the verdict now. The rest is for those who ask why.
pub(super) fn pressing(reasons: &[Reason], verdict: Verdict) -> Vec<Reason> {
    let blind = verdict == Verdict::Hold && reasons.contains(&Reason::WeatherUnknown);
    let is_pressing = |reason: &&Reason| match reason {
        Reason::DaysToFrost { days, .. } => *days <= FAR,
        Reason::InPipeline { .. } | Reason::RulesDiffer { .. } => false,
        // The first line says so already.
        Reason::WeatherUnknown | Reason::NoInfectionAhead { .. } => !blind,
        _ => true,
    };
    reasons.iter().filter(is_pressing).cloned().collect()
}

/// One line a topic, in the order the reasons bring them up.
pub(super) fn lines(reasons: &[Reason], voice: &Voice) -> Vec<String> {
    let mut topics: Vec<Topic> = Vec::new();
    for topic in reasons.iter().map(topic).filter(|topic| *topic != Topic::Elsewhere) {
        if !topics.contains(&topic) {
            topics.push(topic);
        }
    }
    let of = |wanted: Topic| reasons.iter().filter(move |reason| topic(reason) == wanted);
    topics
        .into_iter()
        .filter_map(|topic| match topic {
            Topic::Season => season_line(of(Topic::Season), voice),
            topic => {
                let mut said: Vec<String> = Vec::new();
                for sentence in of(topic).filter_map(|reason| sentence(reason, voice)) {
                    if !said.contains(&sentence) {
                        said.push(sentence);
                    }
                }
                (!said.is_empty()).then(|| said.join(" "))
            }
        })
        .collect()
}

fn sentence(reason: &Reason, voice: &Voice) -> Option<String> {
    Some(match reason {
        Reason::NeverSprayed => String::from("Nothing is on the leaves yet this season, as far as I know."),
        Reason::CoverHolds { cover, rain, days } => {
            format!("{}: it holds.", phrases::capitalised(&cover_left(*cover, *rain, *days, voice)))
        }
        Reason::CoverThin { cover, rain, days } => {
            format!("{}.", phrases::capitalised(&cover_left(*cover, *rain, *days, voice)))
        }
        Reason::WashedOff { rain } => {
            format!(
                "{} since the last spray: it counts as washed off.",
                phrases::capitalised(&voice.rain(*rain))
            )
        }
        Reason::NewLeavesBare { leaves } => {
            let leaves = figures::count(leaves.round() as i64, "new leaf");
            format!("About {leaves} a shoot opened since, with nothing on.")
        }
        Reason::IntervalOver { days, interval } => format!(
            "The last spray is {} old; in rust weather it wants renewing after {}.",
            figures::days(*days),
            figures::days(*interval)
        ),
        Reason::InfectionAhead { infection, most } => infection_ahead(infection, *most, voice),
        Reason::InfectionPossible { infection } => format!(
            "Where leaves stay wet longer than most, {} could be enough ({} risk).",
            voice.stretch(infection.from, infection.to),
            grade(infection.grade)
        ),
        Reason::NoInfectionAhead { days } => no_infection(*days),
        Reason::InPipeline { infection, first_signs } => format!(
            "Rust may have got in {} ({}); no spray undoes that. First spots about {}.",
            voice.stretch(infection.from, infection.to),
            grade(infection.grade),
            voice.day(*first_signs)
        ),
        Reason::RustSeen { tree, severity, on } => format!(
            "Rust on {}: {} of the leaf area, seen {}.",
            phrases::name(tree),
            figures::percent(*severity),
            voice.day(*on)
        ),
        Reason::CleanLeaves => String::from("Leaves are still clean, which is when a spray does most."),
        Reason::CropAtStake => String::from("Rust this early costs the crop: leaves feed the figs."),
        Reason::PickedOut { since } => format!("Picked out since {}: no crop to save.", voice.date(*since)),
        Reason::TooYoung => String::from("Too young to bear: no crop to save this year."),
        Reason::LeavesGone { share } => {
            format!("{} of the leaves are gone: too late to save them.", figures::percent(*share))
        }
        Reason::Housed => String::from("Indoors no leaf stays wet long enough for rust."),
        Reason::Dormant => String::from("There are no leaves to protect."),
        Reason::RulesDiffer { trade, computed } => format!(
            "By rule of thumb: {}. Counting days and leaves: {}. I go with the careful one.",
            worth(*trade),
            worth(*computed)
        ),
        Reason::LittleAtStake { until, leaves } => format!(
            "Sprays would save at most {} of the leaves until {}: too little to cost figs.",
            figures::percent(*leaves),
            voice.date(*until)
        ),
        Reason::NoWindow { obstacle: named } => format!("Mostly in the way: {}.", obstacle(*named)),
        Reason::NoProduct => format!(
            "Read me the label of what you have, as in \"copper: {}, every 10 days, 1 day before harvest, lists figs\".",
            if voice.is_us() { "2 tbsp per gallon" } else { "5 g per litre" }
        ),
        Reason::WeatherUnknown => {
            String::from("I have no forecast for your garden now, so this rests on little.")
        }
        Reason::Rule { .. }
        | Reason::LabelUnknown { .. }
        | Reason::DaysToFrost { .. }
        | Reason::Shortening { .. }
        | Reason::Cooling { .. }
        | Reason::CropBy { .. }
        | Reason::TooLateToCost { .. }
        | Reason::FrostUnknown => return None,
    })
}

/// "about a third of the last spray is left after 9 days and 31 mm of rain".
fn cover_left(cover: Fraction, rain: Millimetres, days: Days, voice: &Voice) -> String {
    // Hardly dry: no day counted, no rain to speak of.
    if days < Days::new(0.5) && rain < Millimetres::new(1.0) {
        return format!("{} of today's spray is left", figures::part(cover));
    }
    let rain = if rain > Millimetres::ZERO {
        format!(" and {}", voice.rain(rain))
    } else {
        String::from(" without rain")
    };
    format!("{} of the last spray is left after {}{rain}", figures::part(cover), figures::days(days))
}

fn infection_ahead(infection: &Infection, most: Option<Hours>, voice: &Voice) -> String {
    let hours = |hours: Hours| hours.value().round() as i64;
    let wet = match most.map(hours).filter(|most| *most > hours(infection.wet_hours)) {
        Some(most) if most < 48 => format!("{} to {most} hours", hours(infection.wet_hours)),
        _ => figures::span(infection.wet_hours),
    };
    format!(
        "Wet enough for rust {}: {wet} of wet leaves at {}, a {} risk.",
        voice.stretch(infection.from, infection.to),
        voice.temperature(infection.mean_c),
        grade(infection.grade)
    )
}

fn no_infection(days: Days) -> String {
    if days < Days::new(1.0) {
        String::from("I cannot see far enough ahead to judge the nights.")
    } else {
        format!("No night wet enough for rust in the next {}.", figures::days(days))
    }
}

/// "30 days to your usual first frost (Nov 5), days shortening by 2 minutes, nights cooling."
fn season_line<'r>(reasons: impl Iterator<Item = &'r Reason>, voice: &Voice) -> Option<String> {
    let mut parts: Vec<String> = Vec::new();
    let mut sentences: Vec<String> = Vec::new();
    for reason in reasons {
        match reason {
            Reason::DaysToFrost { days, date, basis } => {
                let said = season_end(*days, *date, *basis, voice);
                if !parts.contains(&said) {
                    parts.insert(0, said);
                }
            }
            Reason::Shortening { minutes_per_day } => parts.push(shortening(*minutes_per_day)),
            Reason::Cooling { .. } => parts.push(String::from("nights cooling")),
            Reason::CropBy { date } => parts.push(format!("the crop in by {}", voice.date(*date))),
            Reason::TooLateToCost { latent, horizon_days } => {
                let left = match horizon_days {
                    ..=0 => String::from("the crop is due before that"),
                    days => format!("{} are left", figures::count(*days, "day")),
                };
                sentences.push(format!(
                    "A new infection takes about {} to show and weeks more to bare a tree; {left}.",
                    figures::days(*latent)
                ));
            }
            Reason::FrostUnknown => sentences.push(format!(
                "When is your usual first frost? Say \"first frost is usually {}\".",
                voice.frost_example()
            )),
            _ => {}
        }
    }
    parts.dedup();
    sentences.dedup();
    if !parts.is_empty() {
        sentences.insert(0, format!("{}.", phrases::capitalised(&parts.join(", "))));
    }
    (!sentences.is_empty()).then(|| sentences.join(" "))
}

/// How far off the end of the season is, as the beginning of a sentence.
pub(in crate::language::write) fn season_end(
    days: i64,
    date: NaiveDate,
    basis: FrostBasis,
    voice: &Voice,
) -> String {
    match (basis, days) {
        (FrostBasis::Forecast, days) if days < 0 => format!("frost ended the season on {}", voice.date(date)),
        (FrostBasis::Forecast, _) => format!("frost is forecast for {}", voice.night(date)),
        (basis, days) if days < 0 => {
            format!("{} is past ({})", usual(basis), voice.date(date))
        }
        (basis, 0) => format!("today is {}", usual(basis)),
        (basis, days) => {
            format!("{} to {} ({})", figures::count(days, "day"), usual(basis), voice.date(date))
        }
    }
}

fn usual(basis: FrostBasis) -> &'static str {
    match basis {
        FrostBasis::Own => "your usual first frost",
        FrostBasis::Normals | FrostBasis::Forecast => "the usual first frost here",
    }
}

pub(in crate::language::write) fn shortening(minutes_per_day: f64) -> String {
    match minutes_per_day.round() as i64 {
        ..=0 => String::from("days shortening"),
        minutes => format!("days shortening by {}", figures::count(minutes, "minute")),
    }
}

/// What follows when the season is too far on for rust to matter.
pub(super) fn let_it_be(reasons: &[Reason]) -> Option<&'static str> {
    let near_the_end = reasons
        .iter()
        .any(|reason| matches!(reason, Reason::DaysToFrost { days: 0.., .. } | Reason::TooLateToCost { .. }));
    near_the_end.then_some("Rust that comes now costs no figs and helps the trees go dormant: leave it.")
}

/// What the label says that was never read out; it is to be looked up before the first drop.
pub(super) fn label_gap(reasons: &[Reason]) -> Option<String> {
    reasons.iter().find_map(|reason| match reason {
        Reason::LabelUnknown { missing } => Some(format!(
            "You have not told me {}: look on the label before you start.",
            label_item(*missing)
        )),
        _ => None,
    })
}

/// A few words on why a tree is left alone.
pub(super) fn short(reason: &Reason) -> Option<&'static str> {
    Some(match reason {
        Reason::PickedOut { .. } => "picked out",
        Reason::TooYoung => "too young to bear",
        Reason::LeavesGone { .. } => "leaves gone",
        Reason::Housed => "inside",
        Reason::Dormant => "no leaves",
        Reason::DaysToFrost { .. } | Reason::TooLateToCost { .. } => "too near the end of the season",
        _ => return None,
    })
}

fn worth(worth: Worth) -> &'static str {
    match worth {
        Worth::Protect => "protect",
        Worth::OnlyIfPressed => "spray only before a bad spell",
        Worth::Leave => "leave it",
    }
}

fn obstacle(obstacle: Obstacle) -> &'static str {
    match obstacle {
        Obstacle::WeatherUnknown => "no forecast for those hours",
        Obstacle::Dark => "darkness",
        Obstacle::Inversion => "still air around dusk and dawn",
        Obstacle::LeavesWet => "wet leaves",
        Obstacle::DryingTooShort => "too little time to dry",
        Obstacle::RainComing => "rain too soon after",
        Obstacle::Calm => "no wind at all, so fine drops hang and drift",
        Obstacle::Wind => "too much wind",
        Obstacle::DryingConditions => "air too damp or too dry for fine drops",
        Obstacle::Cold => "cold",
        Obstacle::Heat => "heat",
        Obstacle::SulfurHeat => "heat in which sulfur burns leaves",
    }
}

fn label_item(item: LabelItem) -> &'static str {
    match item {
        LabelItem::Rate => "the rate",
        LabelItem::Interval => "the days between sprays",
        LabelItem::MostApplications => "how often a season it may go on",
        LabelItem::BeforeHarvest => "the days before harvest",
        LabelItem::BeforeReentry => "the re-entry time",
        LabelItem::Figs => "whether edible figs are listed",
    }
}
