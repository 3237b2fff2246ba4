//! The verdict on spraying, and why.

mod kept;
pub(super) mod mix;
mod reasons;
pub(super) mod rules;

use super::page::Page;
use super::{Voice, cautions, figures, phrases};
use crate::season::answer::{
    HarvestWait, Reason, SprayAdvice, Standing, TreeVerdict, Verdict, Window, Worth,
};
use crate::units::Hours;

pub(super) use reasons::{grade, season_end, shortening};

/// As many lines of reasons as fit under the first line on a phone.
const REASONS: usize = 3;
/// Groups of trees told apart by the leaves they would keep.
const KEPT: usize = 3;

pub(super) fn advice(page: &mut Page, advice: &SprayAdvice, voice: &Voice) {
    page.lead(lead(advice, voice));
    match advice.verdict {
        Verdict::Spray => hours(page, advice, voice),
        Verdict::Blocked => blocked(page, advice, voice),
        Verdict::Hold | Verdict::NoWindow | Verdict::NotWorthwhile => {}
    }
    for line in
        reasons::lines(&reasons::pressing(&advice.reasons, advice.verdict), voice).into_iter().take(REASONS)
    {
        page.line(line);
    }
    if advice.verdict == Verdict::Spray {
        let due: Vec<TreeVerdict> =
            advice.trees.iter().filter(|tree| tree.standing == Standing::Due).cloned().collect();
        page.line(kept::lines(&due, voice).into_iter().next().unwrap_or_default());
    }
    page.line(left_alone(advice).unwrap_or_default());
    if advice.verdict == Verdict::NotWorthwhile {
        page.line(reasons::let_it_be(&advice.reasons).unwrap_or_default());
    }
    page.line(reasons::label_gap(&advice.reasons).unwrap_or_default());
    waits(page, &advice.waits, advice.trees.len(), voice);
    // Cautions belong to work that is to be done: a spray now, or a product still to be bought.
    if advice.verdict == Verdict::Spray || advice.reasons.contains(&Reason::NoProduct) {
        cautions::on(page, &advice.cautions);
    }
}

/// Fruit not to be eaten yet; the trees are named unless it is of all those asked about.
pub(super) fn waits(page: &mut Page, waits: &[HarvestWait], asked_about: usize, voice: &Voice) {
    for wait in waits {
        let whose = if wait.trees.len() == asked_about {
            String::new()
        } else {
            format!(" of {}", phrases::names(&wait.trees))
        };
        page.line(format!(
            "Fruit{whose} is clear from {}: {} {}, {} by your label.",
            voice.date(wait.clear_from),
            phrases::name(&wait.product),
            voice.date(wait.sprayed_on),
            figures::days(wait.wait)
        ));
    }
}

/// The first line: what to do.
fn lead(advice: &SprayAdvice, voice: &Voice) -> String {
    let product = advice.product.as_deref().map_or_else(|| String::from("a protectant"), phrases::name);
    match advice.verdict {
        Verdict::Spray => match &advice.window {
            Some(window) => format!("Spray {product}{}: {}.", on_trees(advice), voice.window(window)),
            None => format!("Spray {product}{}.", on_trees(advice)),
        },
        Verdict::Hold if advice.reasons.contains(&Reason::WeatherUnknown) => {
            String::from("I cannot judge the nights: I have no forecast for your garden now.")
        }
        Verdict::Hold => String::from("No spray needed now."),
        Verdict::NoWindow => String::from("Wait: a spray is wanted, but no good hours are in sight."),
        Verdict::Blocked => match advice.reasons.iter().find_map(broken_rule) {
            Some(rule) => rules::ahead(rule, voice).lead,
            None if advice.reasons.contains(&Reason::NoProduct) => {
                String::from("A spray is wanted, but I know of none you have.")
            }
            None => format!("Do not spray {product} now."),
        },
        Verdict::NotWorthwhile => String::from("Do not spray: it is not worthwhile now."),
    }
}

fn broken_rule(reason: &Reason) -> Option<&crate::season::answer::BrokenRule> {
    match reason {
        Reason::Rule { rule } => Some(rule),
        _ => None,
    }
}

/// The rules in the way; the first of them gave the first line.
fn blocked(page: &mut Page, advice: &SprayAdvice, voice: &Voice) {
    for (index, rule) in advice.reasons.iter().filter_map(broken_rule).take(2).enumerate() {
        let ahead = rules::ahead(rule, voice);
        page.line(if index == 0 { ahead.why } else { format!("{} {}", ahead.lead, ahead.why) });
    }
}

/// What the hours are like, and the next best.
fn hours(page: &mut Page, advice: &SprayAdvice, voice: &Voice) {
    let Some(window) = &advice.window else { return };
    let second = advice.second.as_ref().map(|second| format!("Next best: {}.", voice.window(second)));
    page.line([conditions(window, voice), second].into_iter().flatten().collect::<Vec<_>>().join(" "));
}

fn conditions(window: &Window, voice: &Voice) -> Option<String> {
    let mut parts = Vec::new();
    parts.extend(window.wind.map(|wind| format!("wind about {}", voice.wind(wind))));
    if window.dry_after >= Hours::new(1.0) {
        parts.push(format!("dry for {} after", figures::span(window.dry_after)));
    }
    (!parts.is_empty()).then(|| format!("Leaves dry then, {}.", parts.join(", ")))
}

/// Which trees, when it is not all of them, by the shorter list.
fn on_trees(advice: &SprayAdvice) -> String {
    let (due, others): (Vec<&TreeVerdict>, Vec<&TreeVerdict>) =
        advice.trees.iter().partition(|tree| tree.standing == Standing::Due);
    let wanted: Vec<&str> = due.into_iter().map(name).collect();
    let left: Vec<&str> = others.into_iter().map(name).collect();
    if wanted.is_empty() || left.is_empty() {
        String::new()
    } else if left.len() < wanted.len() {
        format!(" on all but {}", phrases::names(&left))
    } else {
        format!(" on {}", phrases::names(&wanted))
    }
}

fn with_worth(advice: &SprayAdvice, fits: fn(Worth) -> bool) -> impl Iterator<Item = &TreeVerdict> {
    advice.trees.iter().filter(move |tree| fits(tree.worth))
}

fn name(tree: &TreeVerdict) -> &str {
    &tree.tree
}

/// Trees left out and why: "Left out: Celeste (picked out), Whip (too young to bear)."
fn left_alone(advice: &SprayAdvice) -> Option<String> {
    let mut groups: Vec<(&str, Vec<&str>)> = Vec::new();
    for tree in with_worth(advice, |worth| worth == Worth::Leave) {
        let why = tree.reasons.iter().find_map(reasons::short).unwrap_or("not worth it");
        match groups.iter_mut().find(|(known, _)| *known == why) {
            Some((_, trees)) => trees.push(&tree.tree),
            None => groups.push((why, vec![&tree.tree])),
        }
    }
    let spraying = advice.verdict != Verdict::NotWorthwhile;
    // A spray for some: the others need it not.
    if advice.verdict == Verdict::Spray {
        let covered: Vec<&str> = advice
            .trees
            .iter()
            .filter(|tree| tree.standing == Standing::Covered)
            .map(|tree| tree.tree.as_str())
            .collect();
        if !covered.is_empty() {
            groups.push(("no need yet", covered));
        }
        for tree in advice.trees.iter().filter(|tree| tree.standing == Standing::Barred) {
            let why = tree.reasons.iter().find_map(broken_rule).map_or("a rule forbids it", rules::short);
            match groups.iter_mut().find(|(known, _)| *known == why) {
                Some((_, trees)) => trees.push(&tree.tree),
                None => groups.push((why, vec![&tree.tree])),
            }
        }
    }
    // One reason for every tree is said by the reasons themselves.
    if groups.is_empty() || (!spraying && groups.len() == 1) {
        return None;
    }
    let said: Vec<String> =
        groups.iter().map(|(why, trees)| format!("{} ({why})", phrases::names(trees))).collect();
    Some(format!("{}{}.", if spraying { "Left out: " } else { "" }, said.join(", ")))
}

/// The chain: because, because, so.
pub(super) fn why(page: &mut Page, advice: &SprayAdvice, voice: &Voice) {
    page.lead(lead(advice, voice));
    page.line("Because:");
    for rule in advice.reasons.iter().filter_map(broken_rule) {
        page.item(rules::ahead(rule, voice).why);
    }
    for line in reasons::lines(&advice.reasons, voice) {
        page.item(line);
    }
    page.item(cover_by_tree(advice).unwrap_or_default());
    for line in kept::lines(&advice.trees, voice).into_iter().take(KEPT) {
        page.item(line);
    }
    page.item(left_alone(advice).unwrap_or_default());
    page.line(format!("So: {}", so(advice)));
    page.small("Leaf wetness is reckoned from humidity and rain, and can be some hours off.");
}

/// Cover on each tree, where they differ.
fn cover_by_tree(advice: &SprayAdvice) -> Option<String> {
    let cover: Vec<(&str, &str)> = with_worth(advice, |worth| worth != Worth::Leave)
        .filter_map(|tree| Some((name(tree), figures::part(tree.cover?))))
        .collect();
    let differs = cover.iter().any(|(_, part)| *part != cover[0].1);
    let said: Vec<String> =
        cover.iter().take(8).map(|(tree, part)| format!("{} {part}", phrases::name(tree))).collect();
    differs.then(|| format!("Spray left, tree by tree: {}.", said.join(", ")))
}

fn so(advice: &SprayAdvice) -> &'static str {
    match advice.verdict {
        Verdict::Spray => "get it on before the wet, while leaves are dry and the air moves a little.",
        Verdict::Hold => "keep looking at the leaves; I speak up when this changes.",
        Verdict::NoWindow => "wait for better hours; I speak up when they come.",
        Verdict::Blocked => "not now. Picking up fallen leaves helps meanwhile.",
        Verdict::NotWorthwhile => "leave the sprayer and pick up fallen leaves instead.",
    }
}
