//! Reasons with their figures.

use super::super::{Voice, figures};
use crate::season::answer::{
    BrokenRule, FrostBasis, Infection, InfectionGrade, LabelItem, Obstacle, Reason, Worth,
};
use crate::units::Days;

pub(in crate::language::write) fn grade(grade: InfectionGrade) -> &'static str {
    match grade {
        InfectionGrade::Trace => "light",
        InfectionGrade::Moderate => "moderate",
        InfectionGrade::Severe => "severe",
    }
}

/// A reason as a sentence; `None` for those that only steer.
pub(in crate::language::write) fn reason(reason: &Reason, voice: &Voice) -> Option<String> {
    Some(match reason {
        Reason::NeverSprayed => String::from("Nothing on the leaves yet this season, as far as I know."),
        Reason::CoverHolds { cover, rain, days } => format!(
            "The last spray still holds: {} of it, after {} and {} of rain.",
            figures::part(*cover),
            figures::days(*days),
            voice.depth(*rain)
        ),
        Reason::CoverThin { cover, rain, days } => format!(
            "{} of the last spray is left, after {} and {} of rain.",
            figures::capitalised(figures::part(*cover)),
            figures::days(*days),
            voice.depth(*rain)
        ),
        Reason::WashedOff { rain } => {
            format!("{} of rain since the last spray: it counts as washed off.", voice.depth(*rain))
        }
        Reason::NewLeavesBare { leaves } => {
            format!("About {leaves:.0} new leaves a shoot have opened since, with nothing on them.")
        }
        Reason::IntervalOver { days, interval } => format!(
            "The last spray is {} old; in rust weather it is renewed after {}.",
            figures::days(*days),
            figures::days(*interval)
        ),
        Reason::InfectionAhead { infection } => infection_ahead(infection, voice),
        Reason::NoInfectionAhead { days } => no_infection(*days),
        Reason::InPipeline { infection, first_signs } => format!(
            "Rust may have got in {} ({}); no spray undoes that. First spots about {}.",
            voice.stretch(infection.from, infection.to),
            grade(infection.grade),
            voice.day(*first_signs)
        ),
        Reason::RustSeen { tree, severity, on } => {
            format!(
                "Rust on {tree}: {} of the leaf area, seen {}.",
                figures::percent(*severity),
                voice.day(*on)
            )
        }
        Reason::CleanLeaves => String::from("The leaves are still clean: the time when a spray does most."),
        Reason::DaysToFrost { days, date, basis } => frost(*days, *date, *basis, voice),
        Reason::Shortening { minutes_per_day } => {
            format!("Days are shortening by {} a day.", minutes(*minutes_per_day))
        }
        Reason::Cooling { .. } => String::from("Nights are cooling."),
        Reason::PickedOut { since } => {
            format!("Picked out since {}: no crop left to save.", voice.date(*since))
        }
        Reason::TooYoung => String::from("Too young to bear: no crop to save this year."),
        Reason::LeavesGone { share } => {
            format!("{} of the leaves are gone: past saving this year.", figures::percent(*share))
        }
        Reason::Dormant => String::from("No leaves to protect now."),
        Reason::CropBy { date } => format!("The crop should be in by {}.", voice.date(*date)),
        Reason::TooLateToCost { latent, horizon_days } => format!(
            "A new infection takes {} to show and weeks to cost leaves; only {} are left until the last fruit or frost.",
            figures::days(*latent),
            figures::count(*horizon_days, "day")
        ),
        Reason::CropAtStake => String::from("Rust this early costs the crop: leaves feed the figs."),
        Reason::RulesDiffer { trade, computed } => format!(
            "The rule of thumb says {}, the reckoning by days says {}; I go with the cautious one.",
            worth(*trade),
            worth(*computed)
        ),
        Reason::NoWindow { obstacle: named } => format!("Mostly in the way: {}.", obstacle(*named)),
        Reason::Rule { rule } => return broken(rule, voice).into_iter().next(),
        Reason::NoProduct => String::from(
            "Tell me what you have, with its label: \"copper: 2 tbsp per gallon, every 10 days, lists figs\".",
        ),
        Reason::LabelUnknown { missing } => {
            format!("I do not know {} yet; check it on the label.", label_item(*missing))
        }
        Reason::WeatherUnknown => {
            String::from("I have no forecast for your garden right now, so this rests on little.")
        }
        Reason::FrostUnknown => {
            String::from("I do not know your usual first frost; tell me: \"first frost is usually Nov 5\".")
        }
    })
}

/// A few words on why a tree is left alone.
pub(super) fn short(reason: &Reason) -> Option<&'static str> {
    Some(match reason {
        Reason::PickedOut { .. } => "picked out",
        Reason::TooYoung => "too young to bear",
        Reason::LeavesGone { .. } => "leaves gone",
        Reason::Dormant => "no leaves",
        Reason::DaysToFrost { .. } | Reason::TooLateToCost { .. } => "too near the end of the season",
        _ => return None,
    })
}

fn infection_ahead(infection: &Infection, voice: &Voice) -> String {
    format!(
        "Wet enough for rust {}: {} of wet leaves at {}, a {} risk.",
        voice.stretch(infection.from, infection.to),
        figures::span(infection.wet_hours),
        voice.temperature(infection.mean_c),
        grade(infection.grade)
    )
}

fn no_infection(days: Days) -> String {
    if days < Days::new(1.0) {
        String::from("I cannot see far enough ahead to judge the weather.")
    } else {
        format!("No night wet enough for rust in the next {}.", figures::days(days))
    }
}

fn frost(days: i64, date: chrono::NaiveDate, basis: FrostBasis, voice: &Voice) -> String {
    match basis {
        _ if days < 0 => format!("Frost ended the season on {}.", voice.date(date)),
        FrostBasis::Forecast => format!("Frost is forecast for {}.", voice.day(date)),
        FrostBasis::Own => format!(
            "{} to your usual first frost ({}).",
            figures::capitalised(&figures::count(days, "day")),
            voice.date(date)
        ),
        FrostBasis::Normals => {
            format!(
                "{} to the usual first frost here ({}, by past years).",
                figures::count(days, "day"),
                voice.date(date)
            )
        }
    }
}

fn minutes(minutes: f64) -> String {
    let rounded = minutes.round();
    if rounded < 1.0 { String::from("under a minute") } else { figures::count(rounded as i64, "minute") }
}

fn worth(worth: Worth) -> &'static str {
    match worth {
        Worth::Protect => "protect",
        Worth::OnlyIfPressed => "only if hard pressed",
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
        Obstacle::Calm => "no wind at all, so drops hang in the air",
        Obstacle::Wind => "too much wind",
        Obstacle::DryingConditions => "air too damp or too dry for drops",
        Obstacle::Cold => "cold",
        Obstacle::Heat => "heat",
        Obstacle::SulfurHeat => "heat that makes sulfur burn leaves",
    }
}

fn label_item(item: LabelItem) -> &'static str {
    match item {
        LabelItem::Rate => "the rate",
        LabelItem::Interval => "the days between sprays",
        LabelItem::MostApplications => "how often a season it may be used",
        LabelItem::BeforeHarvest => "the days before harvest",
        LabelItem::BeforeReentry => "the re-entry time",
        LabelItem::Figs => "whether the label lists edible figs",
    }
}

/// What is broken, then what to do now.
pub(in crate::language::write) fn broken(rule: &BrokenRule, voice: &Voice) -> Vec<String> {
    match rule {
        BrokenRule::SulfurAndOil { trees, first, first_on, second, second_on, apart, needed, clear_from } => {
            vec![
                format!(
                    "{} and {} are too close on {}: {} apart ({} and {}), and sulfur with oil burns leaves.",
                    figures::capitalised(first),
                    second,
                    figures::names(trees),
                    figures::days(*apart),
                    voice.date(*first_on),
                    voice.date(*second_on)
                ),
                format!(
                    "Keep them {} apart, either way round: clear from {}. If both are on already, look for scorched edges, keep the tree shaded and watered in the heat, and put nothing else on.",
                    figures::days(*needed),
                    voice.date(*clear_from)
                ),
            ]
        }
        BrokenRule::SulfurHeat { product, hottest, limit, on } => vec![
            format!(
                "Too hot for {product}: {} {}, and the limit is {}.",
                voice.temperature(*hottest),
                voice.day(*on),
                voice.temperature(*limit)
            ),
            String::from(
                "If it is on already, watch for scorched leaves; water the roots early. Wait for cooler days before the next.",
            ),
        ],
        BrokenRule::TooSoon { product, last_on, interval, clear_from } => vec![
            format!(
                "Too soon for {product}: last on {}, and the label wants {} between.",
                voice.date(*last_on),
                figures::days(*interval)
            ),
            format!("The next may go on from {}.", voice.day(*clear_from)),
        ],
        BrokenRule::TooMany { product, done, most } => vec![
            format!("That is {product} number {done} this season; the label allows {most}."),
            String::from("No more of it this year. Another product has its own label."),
        ],
        BrokenRule::BeforeHarvest { product, wait, tree, picking_from } => vec![
            format!(
                "{} is ripening: after {product} the label wants {} before picking.",
                tree.as_deref().unwrap_or("Fruit"),
                figures::days(*wait)
            ),
            format!(
                "Pick what is ripe first; picking may go on from {}. Wash the fruit.",
                voice.moment(*picking_from)
            ),
        ],
        BrokenRule::PickedTooSoon { tree, product, sprayed_on, wait, clear_from } => vec![
            format!(
                "{tree} had {product} on {}; the label wants {} before picking.",
                voice.date(*sprayed_on),
                figures::days(*wait)
            ),
            format!(
                "Do not eat what was picked before {} without asking the label or a licensed adviser.",
                voice.date(*clear_from)
            ),
        ],
        BrokenRule::ReEntry { product, until } => {
            vec![format!("Keep out of the sprayed leaves until {} ({product}).", voice.moment(*until))]
        }
        BrokenRule::CopperBudget { with_this, yearly, .. } => vec![
            format!(
                "Copper adds up: {:.1} g per square metre this season, over the yearly mean of {:.1}.",
                with_this.value(),
                yearly.value()
            ),
            String::from(
                "It stays in the soil. Prefer another protectant or fewer sprays from here on; local limits may be lower.",
            ),
        ],
        BrokenRule::NotForFigs { product } => vec![
            format!("The label of {product} does not list edible figs, as you told me."),
            String::from("Then it may not be used on them. Ask your extension service what may."),
        ],
    }
}
