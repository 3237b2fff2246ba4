//! Jobs of the calendar, each once a season.

use crate::language::write::page::Page;
use crate::language::write::{cautions, phrases};
use crate::season::answer::Job;

pub(super) fn job(page: &mut Page, job: Job, trees: &[String]) {
    page.lead(what(job, trees));
    page.line(why(job, trees));
    if cuts(job) {
        page.small(cautions::SAP);
    }
}

fn what(job: Job, trees: &[String]) -> String {
    let trees = if trees.is_empty() { String::from("the pots") } else { phrases::names(trees) };
    match job {
        Job::DormantTidy => String::from("Rake up every fallen leaf and old fig, and destroy them."),
        Job::Prune => String::from("Prune for air and light now, before the buds move."),
        Job::Repot => format!("Repot or root-prune what is due of {trees}, before growth starts."),
        Job::FirstLeaves => String::from("First leaves are out: begin looking under them, once a week."),
        Job::StopFeeding => String::from("Stop feeding nitrogen now."),
        Job::RemoveLateFruit => format!("Take the small green figs off {trees}."),
        Job::ShelterPots => format!("Shelter {trees} from the cold."),
        Job::WinterWater => format!("Give {trees} a little water where they are stored."),
        Job::BringOut => format!("{} can come out of winter quarters.", phrases::capitalised(&trees)),
        Job::LeafFallTidy => String::from("The leaves are down: rake them up and bag them, no compost."),
    }
}

fn why(job: Job, trees: &[String]) -> &'static str {
    match job {
        Job::DormantTidy => "Rust winters on them; this does as much as a spray.",
        Job::Prune => "Open the middle; cut lightly where the main crop comes on old wood.",
        Job::Repot => {
            "Every two or three years: a fifth to a third of the outer roots off, fresh mix, a slow feed."
        }
        Job::FirstLeaves => "Clean young leaves are what a spray protects. Have its label at hand.",
        Job::StopFeeding => "Late soft growth takes rust, and the first frost after it.",
        Job::RemoveLateFruit => "They will not ripen before the frost, and the tree hardens better without.",
        Job::ShelterPots => "Roots in pots freeze first.",
        Job::WinterWater => "A cupful every four to six weeks keeps roots alive; more rots them.",
        Job::BringOut => {
            "Into shade for a week first, and in again for a night of frost. Tell me \"the pots are out\" once they are."
        }
        Job::LeafFallTidy if trees.is_empty() => "Rust winters on them.",
        Job::LeafFallTidy => "Rust winters on them. Then think of winter cover for the pots.",
    }
}

/// Whether sap flows.
fn cuts(job: Job) -> bool {
    matches!(job, Job::Prune | Job::Repot | Job::RemoveLateFruit)
}
