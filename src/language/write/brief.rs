//! The morning brief: what is worth doing today, and nothing else.

mod jobs;

use super::page::Page;
use super::{Voice, figures, frost, phrases, spray, water};
use crate::season::answer::{
    Brief, BriefItem, Freshness, SeasonOver, SprayAdvice, TreeWater, Verdict, Watching,
};
use crate::units::Celsius;

/// So many items are said in full; of the others only the first line, for a brief is to be brief.
const IN_FULL: usize = 2;

pub(super) fn brief(page: &mut Page, brief: &Brief, voice: &Voice) {
    for (index, item) in brief.items.iter().take(IN_FULL).enumerate() {
        if index > 0 {
            page.gap();
        }
        one(page, item, voice);
    }
    let rest = brief.items.get(IN_FULL..).unwrap_or_default();
    if !rest.is_empty() {
        page.gap();
        page.line("Also:");
    }
    for item in rest {
        let mut alone = Page::default();
        one(&mut alone, item, voice);
        page.item(alone.first().unwrap_or_default());
    }
    if brief.caught_up > 0 {
        page.gap();
        page.small(away(brief.caught_up));
    }
}

/// After days off.
pub(super) fn away(days: u32) -> String {
    format!(
        "I was away for {}; what was due then is not sent late.",
        figures::count(i64::from(days), "morning")
    )
}

fn one(page: &mut Page, item: &BriefItem, voice: &Voice) {
    match item {
        BriefItem::Spray(advice) => sprays(page, advice, voice),
        BriefItem::Water { trees, hottest } => waters(page, trees, *hottest, voice),
        BriefItem::Heat { hottest } => {
            page.lead(format!("Hot today, {}: look at the pots this morning.", voice.temperature(*hottest)));
            page.line("Water the soil before the heat, not the leaves. Shade pots that bake.");
        }
        BriefItem::Frost(advice) => match &advice.next {
            Some(night) => frost::warning(page, night, advice, voice),
            None => frost::advice(page, advice, voice),
        },
        BriefItem::PickBeforeRain { trees, rain_from, rain } => {
            page.lead(format!("Pick what is soft on {} before the rain.", phrases::names(trees)));
            page.line(format!(
                "{} from {}: ripe figs split and sour in it.",
                phrases::capitalised(&voice.rain(*rain)),
                voice.moment(*rain_from)
            ));
        }
        BriefItem::Scout { trees, days } => {
            page.lead(format!("Look under the leaves on {}.", phrases::names(trees)));
            page.line(match days {
                Some(days) => {
                    format!("Wet nights lately, and the last look was {} ago.", figures::count(*days, "day"))
                }
                None => String::from("Wet nights lately, and nobody has looked this season."),
            });
            let one = trees.first().map_or_else(|| String::from("the wall tree"), |tree| phrases::name(tree));
            page.line(format!("Tell me \"no rust\", \"10% rust on {one}\", or a class from 0 to 5."));
        }
        BriefItem::FirstSigns { infection } => {
            page.lead("Look for the first rust spots, under the lower leaves.");
            page.line(format!(
                "The wet spell of {} was a {} one; its spots show about now.",
                voice.date(voice.date_of(infection.from)),
                spray::grade(infection.grade)
            ));
        }
        BriefItem::SeasonOver(over) => season_over(page, over, voice),
        BriefItem::Job { job, trees } => jobs::job(page, *job, trees),
        BriefItem::Broken(rule) => spray::rules::alert(page, rule, voice),
        BriefItem::OldWeather => {
            page.lead("No fresh weather for a while: judge frost and rain by your own sky.");
        }
        BriefItem::MissedAlarm { date } => {
            page.lead(format!(
                "A frost warning for {} could not reach you in time. Look at the trees.",
                voice.night(*date)
            ));
        }
    }
}

fn sprays(page: &mut Page, advice: &SprayAdvice, voice: &Voice) {
    if matches!(advice.verdict, Verdict::Spray | Verdict::NoWindow | Verdict::Blocked) {
        spray::advice(page, advice, voice);
    }
}

fn waters(page: &mut Page, trees: &[TreeWater], hottest: Option<Celsius>, voice: &Voice) {
    let hot = hottest.map(|hottest| format!("Hot today, {}: water ", voice.temperature(hottest)));
    let hot = hot.unwrap_or_else(|| String::from("Water "));
    if let [only] = trees {
        page.lead(format!("{hot}{}", water::tree_line(only, voice)));
        return;
    }
    let names: Vec<&str> = trees.iter().map(|tree| tree.tree.as_str()).collect();
    page.lead(format!("{hot}{}.", phrases::names(&names)));
    for tree in trees {
        page.item(water::tree_line(tree, voice));
    }
}

/// Close enough to frost that treatment is no longer worthwhile.
pub(super) fn season_over(page: &mut Page, over: &SeasonOver, voice: &Voice) {
    page.lead("No more spraying for rust this season: it is no longer worthwhile.");
    let mut why = spray::season_end(over.days_to_frost, over.date, over.basis, voice);
    if let Some(minutes) = over.minutes_per_day {
        why.push_str(&format!(", {}", spray::shortening(minutes)));
    }
    page.line(format!("{}.", phrases::capitalised(&why)));
    if let Some(latent) = over.latent_days {
        page.line(format!(
            "A new infection takes about {} to show now, and weeks more to bare a tree.",
            figures::days(latent)
        ));
    }
    page.line(
        "Rust that comes now costs no figs and helps the trees go dormant. Keep picking up fallen leaves.",
    );
}

pub(super) fn watching(page: &mut Page, watching: &Watching, voice: &Voice) {
    if watching.age.freshness == Freshness::None {
        page.line("Still here, but without weather for your garden: I can only note what you tell me.");
        return;
    }
    page.line("Still watching; nothing to do.");
    // On bare trees no wet night matters.
    let Some(cover) = watching.cover else { return };
    let ahead = match &watching.next_infection {
        Some(infection) => format!(
            "Next wet spell {}, a {} risk",
            voice.stretch(infection.from, infection.to),
            spray::grade(infection.grade)
        ),
        None => String::from("No rust weather in sight"),
    };
    page.line(format!("{ahead}; {}.", figures::cover(cover)));
}
