use crate::agronomy::assessment::{Observation, RustClass, relative_progress_area};
use crate::agronomy::infection::Grade;
use crate::season::answer::{Harvest, SeasonView};
use crate::season::calendar::{local_date, season_of};
use crate::season::facts::Facts;
use crate::season::history::TreeHistory;
use crate::season::journal::{RustAmount, RustWords};
use crate::season::outlook::Outlook;
use crate::units::{Days, Fraction, Kilograms, Millimetres};

/// What words and counts mean in leaf area. Words: the middles of classes 1, 2 and 4 of the fig rust scale.
/// Spotted leaves of those looked at are an incidence; as severity a twentieth of it is taken where nothing
/// better is known (class 1 on each spotted leaf, rounded up). common practice.
pub fn severity_of(amount: RustAmount) -> Fraction {
    const WORDS: [(RustWords, f64); 3] =
        [(RustWords::Trace, 0.0255), (RustWords::Some, 0.1005), (RustWords::Heavy, 0.3755)];
    const SEVERITY_PER_INCIDENCE: f64 = 0.05;
    match amount {
        RustAmount::None => Fraction::NONE,
        RustAmount::Severity(severity) => severity,
        RustAmount::Class(class) => RustClass::new(class).map_or(Fraction::NONE, RustClass::middle),
        RustAmount::Leaves { spotted, of } => {
            Fraction::saturating(f64::from(spotted) / f64::from(of.max(1)) * SEVERITY_PER_INCIDENCE)
        }
        RustAmount::Words(words) => {
            let found = WORDS.iter().find(|(known, _)| *known == words);
            Fraction::saturating(found.map_or(0.0, |(_, severity)| *severity))
        }
    }
}

pub(super) fn view(facts: &Facts) -> SeasonView {
    let outlook = Outlook::of(facts);
    let start = outlook.season_start();
    let trees: Vec<&TreeHistory> =
        facts.garden.trees.iter().filter_map(|tree| outlook.history.tree(&tree.name)).collect();
    let midsummer = start + chrono::TimeDelta::days(205);
    SeasonView {
        season: season_of(outlook.today, facts.garden.hemisphere()),
        sprays: sprays(facts, &outlook),
        first_rust: first_rust(&outlook, &trees),
        harvest: trees
            .iter()
            .map(|tree| (tree.name.clone(), harvest(&outlook, tree)))
            .filter(|(_, harvest)| harvest.first.is_some())
            .collect(),
        infections: season_infections(&outlook),
        rain: outlook
            .weather
            .between(start, outlook.now)
            .iter()
            .filter_map(|hour| hour.rain)
            .sum::<Millimetres>(),
        disease: trees
            .iter()
            .filter_map(|tree| Some((tree.name.clone(), disease(&outlook, tree)?)))
            .collect(),
        leaf_drop: trees
            .iter()
            .filter_map(|tree| {
                let worst =
                    tree.leaf_drop.iter().filter(|(at, _)| *at >= start).filter_map(|(_, share)| *share);
                Some((tree.name.clone(), worst.reduce(|one, other| if other > one { other } else { one })?))
            })
            .collect(),
        frost: outlook
            .history
            .frosts
            .iter()
            .find(|(at, _)| *at >= midsummer)
            .map(|(at, _)| local_date(*at, outlook.zone)),
        scoutings: trees
            .iter()
            .map(|tree| tree.scouted.iter().filter(|look| look.at >= start).count() as u32)
            .sum(),
    }
}

/// Sprays of the season by product; one message on several trees is one spray.
fn sprays(facts: &Facts, outlook: &Outlook) -> Vec<(String, u32)> {
    use crate::season::journal::Report;
    let start = outlook.season_start();
    let mut counts: Vec<(String, u32)> = Vec::new();
    for (entry, _, report) in facts.journal.reports() {
        let Report::Sprayed { product, .. } = report else { continue };
        if entry.happened < start {
            continue;
        }
        match counts.iter_mut().find(|(known, _)| known == product) {
            Some((_, count)) => *count += 1,
            None => counts.push((product.clone(), 1)),
        }
    }
    counts
}

fn first_rust(outlook: &Outlook, trees: &[&TreeHistory]) -> Option<(chrono::NaiveDate, Vec<String>)> {
    let start = outlook.season_start();
    let seen = |tree: &TreeHistory| {
        let look =
            tree.scouted.iter().find(|look| look.at >= start && severity_of(look.amount).value() > 0.0)?;
        Some(local_date(look.at, outlook.zone))
    };
    let first = trees.iter().filter_map(|tree| seen(tree)).min()?;
    let names = trees.iter().filter(|tree| seen(tree) == Some(first)).map(|tree| tree.name.clone()).collect();
    Some((first, names))
}

pub(super) fn harvest(outlook: &Outlook, tree: &TreeHistory) -> Harvest {
    let start = outlook.season_start();
    let mut harvest = Harvest::default();
    for picking in tree.picked.iter().filter(|picking| picking.at >= start) {
        let date = local_date(picking.at, outlook.zone);
        harvest.count += picking.count.unwrap_or(0);
        harvest.shared |= picking.shared && (picking.count.is_some() || picking.mass.is_some());
        harvest.mass += picking.mass.unwrap_or(Kilograms::ZERO);
        harvest.first = harvest.first.or(Some(date));
        harvest.last = Some(date);
    }
    harvest
}

/// Moderate and severe infections since the season began, over all the weather on record.
fn season_infections(outlook: &Outlook) -> u32 {
    use crate::agronomy::infection::{RustParameters, events};
    use crate::agronomy::wetness::WetnessRule;
    let hours = outlook.weather.between(outlook.season_start(), outlook.now);
    let events = events(hours, WetnessRule::default(), &RustParameters::default());
    events.iter().filter(|event| event.grade >= Grade::Moderate).count() as u32
}

/// Relative area under the disease progress curve of a tree's season, from two looks on.
pub(super) fn disease(outlook: &Outlook, tree: &TreeHistory) -> Option<Fraction> {
    let start = outlook.season_start();
    let observations: Vec<Observation> = tree
        .scouted
        .iter()
        .filter(|look| look.at >= start)
        .map(|look| Observation {
            day: Days::new((look.at - start).num_hours() as f64 / 24.0),
            severity: severity_of(look.amount),
        })
        .collect();
    relative_progress_area(&observations)
}
