//! The morning brief: what is worth doing today, and nothing else.

use super::page::Page;
use super::{Voice, figures, frost, spray, water};
use crate::season::answer::{Brief, BriefItem, FrostBasis, Job, SeasonOver, SprayAdvice, Verdict, Watching};

pub(super) fn brief(page: &mut Page, brief: &Brief, voice: &Voice) {
    for (index, item) in brief.items.iter().enumerate() {
        if index > 0 {
            page.gap();
        }
        one(page, item, voice);
    }
    if brief.caught_up > 0 {
        page.gap();
        page.small(format!(
            "I was away for {}; what was due then is not repeated.",
            figures::count(i64::from(brief.caught_up), "morning")
        ));
    }
}

fn one(page: &mut Page, item: &BriefItem, voice: &Voice) {
    match item {
        BriefItem::Spray(advice) => sprays(page, advice, voice),
        BriefItem::Water { trees, hottest } => {
            let names: Vec<String> = trees.iter().map(|tree| tree.tree.clone()).collect();
            page.lead(match hottest {
                Some(hottest) => {
                    format!("Hot today, {}: water {}.", voice.temperature(*hottest), figures::names(&names))
                }
                None => format!("Water {}.", figures::names(&names)),
            });
            for tree in trees {
                page.item(water::tree_line(tree, voice));
            }
        }
        BriefItem::Heat { hottest } => {
            page.lead(format!("Hot today, {}: look at the pots this morning.", voice.temperature(*hottest)));
            page.line("Water the soil, not the leaves, before the heat; shade pots that bake.");
        }
        BriefItem::Frost(advice) => {
            if let Some(night) = &advice.next {
                page.lead(frost::night_line(night, voice));
                frost::to_do(page, advice);
            }
        }
        BriefItem::PickBeforeRain { trees, rain_from, rain } => {
            page.lead(format!("Pick what is soft on {} before the rain.", figures::names(trees)));
            page.line(format!(
                "{} from {}: ripe figs split and sour after it.",
                voice.depth(*rain),
                voice.moment(*rain_from)
            ));
        }
        BriefItem::Scout { trees, days } => {
            page.lead(format!("Look at the undersides of the leaves on {}.", figures::names(trees)));
            page.line(match days {
                Some(days) => {
                    format!("Wet nights lately, and the last look was {} ago.", figures::count(*days, "day"))
                }
                None => String::from("Wet nights lately, and no look on record this season."),
            });
            page.line("Tell me what you see: \"no rust\", \"10% on Celeste\", or a class from 0 to 5.");
        }
        BriefItem::FirstSigns { infection } => {
            page.lead("Look for the first rust spots, lower leaves first.");
            page.line(format!(
                "The wet spell of {} was long enough ({}); spots show about now.",
                voice.date(voice.date_of(infection.from)),
                spray::grade(infection.grade)
            ));
        }
        BriefItem::SeasonOver(over) => season_over(page, over, voice),
        BriefItem::Job { job, trees } => jobs(page, *job, trees),
        BriefItem::Broken(rule) => spray::broken(page, rule, voice),
        BriefItem::OldWeather => {
            page.lead("I have had no fresh weather for a while; what I say rests on old data.")
        }
        BriefItem::MissedAlarm { date } => {
            page.lead(format!("A frost warning for {} could not be delivered in time.", voice.date(*date)));
        }
    }
}

fn sprays(page: &mut Page, advice: &SprayAdvice, voice: &Voice) {
    if matches!(advice.verdict, Verdict::Spray | Verdict::NoWindow | Verdict::Blocked) {
        spray::advice(page, advice, voice);
    }
}

/// Close enough to frost that treatment is no longer worthwhile.
pub(super) fn season_over(page: &mut Page, over: &SeasonOver, voice: &Voice) {
    page.lead(
        "No more spraying for rust this season: frost is close enough that it is no longer worthwhile.",
    );
    let whose = match over.basis {
        FrostBasis::Own => "your usual first frost",
        FrostBasis::Normals => "the usual first frost here",
        FrostBasis::Forecast => "the frost in the forecast",
    };
    let mut why = format!(
        "{} to {whose} ({})",
        figures::capitalised(&figures::count(over.days_to_frost, "day")),
        voice.date(over.date)
    );
    if let Some(minutes) = over.minutes_per_day.filter(|minutes| *minutes >= 1.0) {
        why.push_str(&format!(", days shortening by {}", figures::count(minutes.round() as i64, "minute")));
    }
    page.line(format!("{why}. Rust that comes now costs nothing and helps the trees go dormant."));
    page.line("Keep picking up fallen leaves.");
}

pub(super) fn watching(page: &mut Page, watching: &Watching, voice: &Voice) {
    let ahead = match &watching.next_infection {
        Some(infection) => format!(
            "next wet spell {} ({})",
            voice.stretch(infection.from, infection.to),
            spray::grade(infection.grade)
        ),
        None => String::from("no night wet enough for rust in sight"),
    };
    page.line(match watching.cover {
        Some(cover) => {
            format!("Still watching; nothing to do. Cover left: {}; {ahead}.", figures::part(cover))
        }
        None => String::from("Still watching; nothing to do."),
    });
}

fn jobs(page: &mut Page, job: Job, trees: &[String]) {
    let trees = figures::names(trees);
    let (lead, why) = match job {
        Job::DormantTidy => (
            "Rake up and destroy every fallen leaf and old fig now.",
            "Rust and souring winter on them; this does more than any spray.",
        ),
        Job::Prune => (
            "Time to prune for air and light, before the buds move.",
            "Open centre, light cuts where the crop comes on old wood. Gloves and sleeves: the sap burns skin in sunlight; wash at once.",
        ),
        Job::Repot => (
            "Repot or root-prune the pots that are due, before growth starts.",
            "Every two to three years: take a fifth to a third of the outer roots, fresh mix, a slow feed.",
        ),
        Job::FirstLeaves => (
            "First leaves are out: begin looking at their undersides.",
            "Clean young leaves are what a spray protects. Have the label at hand.",
        ),
        Job::StopFeeding => (
            "Stop feeding nitrogen now.",
            "Late soft growth takes rust and the first frost; trees harden better without it.",
        ),
        Job::RemoveLateFruit => {
            page.lead(format!("Take the small green figs off {trees}."));
            page.line("They will not ripen before the frost, and the tree hardens better without them. Mind the sap.");
            return;
        }
        Job::ShelterPots => {
            page.lead(format!("Shelter {trees} from the cold."));
            page.line("Roots in pots freeze first.");
            return;
        }
        Job::WinterWater => (
            "Give the stored pots a little water.",
            "A cupful every four to six weeks keeps dormant roots alive; no more.",
        ),
        Job::LeafFallTidy => (
            "Leaves are done: rake them up and destroy them.",
            "Bag them, no compost. Then think of winter cover for pots.",
        ),
    };
    page.lead(lead);
    page.line(why);
}
