//! The verdict on spraying, its reasons, rules broken, and how much to mix.

mod reasons;

use super::page::Page;
use super::{Voice, cautions, figures};
use crate::season::answer::{
    BrokenRule, MixAnswer, MixMissing, Reason, SprayAdvice, TreeVerdict, Verdict, Worth,
};

pub(super) use reasons::grade;

/// As many reasons as fit under the first line on a phone.
const REASONS: usize = 3;

pub(super) fn advice(page: &mut Page, advice: &SprayAdvice, voice: &Voice) {
    page.lead(lead(advice, voice));
    if let (Verdict::Spray, Some(second)) = (advice.verdict, &advice.second) {
        page.line(format!("Second choice: {}.", voice.window(second)));
    }
    let mut said = 0;
    for reason in &advice.reasons {
        if said == REASONS {
            break;
        }
        if let Some(words) = reasons::reason(reason, voice) {
            page.line(words);
            said += 1;
        }
    }
    if let Some(rest) = left_alone(advice) {
        page.line(rest);
    }
    for line in cautions::lines(&advice.cautions) {
        page.small(line);
    }
}

/// The first line: what to do.
fn lead(advice: &SprayAdvice, voice: &Voice) -> String {
    let product = advice.product.as_deref().unwrap_or("");
    match advice.verdict {
        Verdict::Spray => match &advice.window {
            Some(window) => format!("Spray {}{}: {}.", product, on_trees(advice), voice.window(window)),
            None => format!("Spray {product}."),
        },
        Verdict::Hold => String::from("No spray needed now."),
        Verdict::NoWindow => String::from("A spray is wanted, but no good hours are in sight."),
        Verdict::Blocked => {
            if advice.reasons.contains(&Reason::NoProduct) {
                String::from("A spray would be wanted, but I know of no product to use.")
            } else {
                format!("Do not spray {product} now.")
            }
        }
        Verdict::NotWorthwhile => String::from("No: spraying is not worthwhile now."),
    }
}

/// Which trees, when it is not all of them.
fn on_trees(advice: &SprayAdvice) -> String {
    let wanted: Vec<String> =
        advice.trees.iter().filter(|tree| tree.worth != Worth::Leave).map(|tree| tree.tree.clone()).collect();
    if wanted.len() == advice.trees.len() || wanted.is_empty() {
        String::new()
    } else {
        format!(" on {}", figures::names(&wanted))
    }
}

/// Trees left out of a spray, with their reason.
fn left_alone(advice: &SprayAdvice) -> Option<String> {
    if advice.verdict == Verdict::NotWorthwhile {
        return None;
    }
    let left: Vec<&TreeVerdict> = advice.trees.iter().filter(|tree| tree.worth == Worth::Leave).collect();
    let names: Vec<String> = left.iter().map(|tree| tree.tree.clone()).collect();
    let reason = left.first()?.reasons.iter().find_map(reasons::short)?;
    let same = left.iter().all(|tree| tree.reasons.iter().find_map(reasons::short) == Some(reason));
    Some(if same {
        format!("Leave out {} ({reason}).", figures::names(&names))
    } else {
        format!("Leave out {}.", figures::names(&names))
    })
}

/// The chain: because, because, so.
pub(super) fn why(page: &mut Page, advice: &SprayAdvice, voice: &Voice) {
    page.lead(lead(advice, voice));
    page.line("Because:");
    for reason in &advice.reasons {
        if let Some(words) = reasons::reason(reason, voice) {
            page.item(words);
        }
    }
    let cover: Vec<String> = advice
        .trees
        .iter()
        .filter(|tree| tree.worth != Worth::Leave)
        .filter_map(|tree| Some(format!("{} {}", tree.tree, figures::part(tree.cover?))))
        .collect();
    if !cover.is_empty() {
        page.item(format!("Cover left, tree by tree: {}.", cover.join(", ")));
    }
    let left: Vec<String> = advice
        .trees
        .iter()
        .filter(|tree| tree.worth == Worth::Leave)
        .filter_map(|tree| Some(format!("{}: {}", tree.tree, tree.reasons.iter().find_map(reasons::short)?)))
        .collect();
    if !left.is_empty() && advice.verdict != Verdict::NotWorthwhile {
        page.item(format!("Not worth it on {}.", left.join("; ")));
    }
    page.small("Wetness is estimated from humidity and rain; an hour a night and a few hours of need either way are normal.");
}

pub(super) fn broken(page: &mut Page, rule: &BrokenRule, voice: &Voice) {
    for (index, line) in reasons::broken(rule, voice).into_iter().enumerate() {
        if index == 0 { page.lead(line) } else { page.line(line) }
    }
}

pub(super) fn mix(page: &mut Page, mix: &MixAnswer, voice: &Voice) {
    let product = mix.product.as_deref().unwrap_or("product");
    match (mix.rate, mix.volume, mix.amount) {
        (Some(rate), Some(volume), Some(amount)) => {
            page.lead(format!("{} of {product} in {}.", voice.dose(rate, amount), voice.volume(volume)));
            page.line(format!("By the rate you gave from the label: {}.", voice.rate(rate)));
        }
        _ if mix.missing.contains(&MixMissing::Product) => {
            page.lead("Which product?");
            page.line("Say, for example: how much copper for 2 gallons?");
        }
        _ if mix.missing.contains(&MixMissing::Rate) => {
            page.lead(format!("I do not know the rate of {product}; it stands on the label."));
            page.line(format!("Read it out to me, for example: {product}: 2 tbsp per gallon."));
        }
        (Some(rate), _, _) => {
            page.lead(format!(
                "{} for {product}, by the label rate you gave.",
                figures::capitalised(&voice.rate(rate))
            ));
            page.line("For how much water?");
        }
        _ => page.lead("For how much water?"),
    }
    for line in cautions::lines(&mix.cautions) {
        page.small(line);
    }
}
