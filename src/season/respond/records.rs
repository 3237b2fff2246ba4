//! Reports into the journal.

use chrono::{DateTime, TimeDelta, Utc};

use super::Conversation;
use crate::season::answer::{Answer, Assumption, NotedItem, Refusal};
use crate::season::calendar::local_date;
use crate::season::garden::{Garden, Tree};
use crate::season::history::History;
use crate::season::journal::{Entry, Report, Timing, What, Whereabouts};
use crate::season::request::{Doubt, DoubtKind, Record, Selection, When};
use crate::season::selection::selected;
use crate::units::Millimetres;

/// Further back than this a report belongs to another season, and is refused rather than misfiled.
const LONGEST_AGO: TimeDelta = TimeDelta::days(300);
/// Clocks differ; a report this little ahead of its message is taken as now.
const CLOCK_SLACK: TimeDelta = TimeDelta::minutes(5);

impl Conversation<'_> {
    pub(super) fn record(&mut self, record: &Record) {
        let Some((happened, timing)) = self.happened(record.when) else { return };
        let Some(trees) = self.chosen_trees(record) else { return };
        if let Report::Planted = record.report {
            for tree in trees
                .iter()
                .filter(|tree| self.facts.garden.tree(tree).is_none())
                .cloned()
                .collect::<Vec<_>>()
            {
                self.plant(&tree);
            }
        }
        let entry = Entry {
            who: self.heard.from.clone(),
            event: self.event.clone(),
            said: self.heard.at,
            happened,
            timing,
            what: What::Report { trees, report: record.report.clone() },
        };
        self.noted.extend(noted_item(&entry, &self.facts.garden));
        self.bears_on_advice |= bears_on_advice(&record.report);
        let line = self.enter(entry);
        self.noted_lines.push(line);
        self.facts.garden = self.facts.journal.garden();
    }

    fn happened(&mut self, when: When) -> Option<(DateTime<Utc>, Timing)> {
        let said = self.heard.at;
        let (moment, timing) = match when {
            When::Unsaid => (said, Timing::Assumed),
            When::At(moment) => (moment, Timing::Told),
            When::OnDay(moment) => (moment.min(said), Timing::Assumed),
            When::AfterRain => self.beside_rain(RainEdge::End),
            When::BeforeRain => self.beside_rain(RainEdge::Start),
        };
        if moment > said + CLOCK_SLACK {
            self.answers.push(Answer::Doubtful(Doubt {
                kind: DoubtKind::StillToCome,
                words: self.heard.text.clone(),
                candidates: Vec::new(),
            }));
            return None;
        }
        if moment < said - LONGEST_AGO {
            let date = local_date(moment, self.facts.garden.zone());
            self.answers.push(Answer::Refused { refusal: Refusal::TooLongAgo { date } });
            return None;
        }
        Some((moment.min(said), timing))
    }

    /// "After the rain": half an hour past the end of the last rain on record before the message.
    fn beside_rain(&mut self, edge: RainEdge) -> (DateTime<Utc>, Timing) {
        let said = self.heard.at;
        let wet = |hour: &&crate::weather::Hour| hour.rain.is_some_and(|rain| rain >= RAIN_SEEN);
        let hours = self.facts.weather.between(said - TimeDelta::days(3), said);
        let last = hours.iter().rposition(|hour| wet(&hour));
        let Some(last) = last else {
            self.assumptions.push(Assumption::NoRainKnown);
            return (said, Timing::Assumed);
        };
        let moment = match edge {
            RainEdge::End => hours[last].end() + TimeDelta::minutes(30),
            RainEdge::Start => {
                let first = hours[..=last].iter().rposition(|hour| !wet(&hour)).map_or(0, |dry| dry + 1);
                hours[first].start - TimeDelta::minutes(30)
            }
        };
        let moment = moment.min(said);
        self.assumptions.push(Assumption::AfterRain { at: moment });
        (moment, Timing::Assumed)
    }

    /// Nicknames of the trees meant. A report that makes no sense without a tree, in a garden of
    /// several, was doubted by the reader already; here an unsaid selection means them all.
    fn chosen_trees(&mut self, record: &Record) -> Option<Vec<String>> {
        let of_no_tree = matches!(record.report, Report::Note { .. } | Report::Photo { .. })
            && record.trees == Selection::Unsaid;
        if of_no_tree || concerns_garden(&record.report) {
            return Some(Vec::new());
        }
        let garden = &self.facts.garden;
        let trees = match &record.trees {
            Selection::Named(names) if record.report == Report::Planted => names.clone(),
            // Only what stands in a pot can be carried: "brought them all in" is of the pots.
            selection if matches!(record.report, Report::Moved { .. }) => {
                let potted = |name: &String| garden.tree(name).is_some_and(Tree::is_potted);
                let pots: Vec<String> = selected(garden, selection).into_iter().filter(potted).collect();
                // "Took them back out": those that are inside.
                let out = matches!(record.report, Report::Moved { to: Whereabouts::Outdoors });
                let by_name = matches!(selection, Selection::Named(_));
                let inside = if out && !by_name { self.inside(&pots) } else { Vec::new() };
                if inside.is_empty() { pots } else { inside }
            }
            selection => selected(garden, selection),
        };
        if trees.is_empty() && !matches!(record.report, Report::Note { .. } | Report::Photo { .. }) {
            let doubt = Doubt {
                kind: DoubtKind::UnknownTree,
                words: self.heard.text.clone(),
                candidates: garden.trees.iter().map(|tree| tree.name.clone()).collect(),
            };
            self.answers.push(Answer::Doubtful(doubt));
            return None;
        }
        let carried = matches!(record.report, Report::Moved { .. });
        if record.trees == Selection::Unsaid && garden.trees.len() > 1 && !trees.is_empty() && !carried {
            self.assumptions.push(Assumption::AllTrees);
        }
        Some(trees)
    }

    /// Those of some trees that stand indoors.
    fn inside(&self, trees: &[String]) -> Vec<String> {
        let history = History::of(&self.facts.journal, &self.facts.garden);
        let housed = |name: &&String| {
            history.tree(name).is_some_and(|tree| tree.housed_since(self.heard.at).is_some())
        };
        trees.iter().filter(housed).cloned().collect()
    }
}

const RAIN_SEEN: Millimetres = Millimetres::new(0.2);

#[derive(Clone, Copy)]
enum RainEdge {
    Start,
    End,
}

pub fn noted_item(entry: &Entry, garden: &Garden) -> Option<NotedItem> {
    let What::Report { trees, report } = &entry.what else { return None };
    Some(NotedItem {
        trees: trees.clone(),
        whole_garden: trees.len() > 1 && trees.len() == garden.trees.len(),
        happened: entry.happened,
        timing: entry.timing,
        report: report.clone(),
    })
}

fn concerns_garden(report: &Report) -> bool {
    matches!(report, Report::Rained { .. } | Report::Frost { .. })
}

/// Whether a report can turn the spray verdict into something the grower should hear of now. A
/// spray that was advised and done needs no word.
fn bears_on_advice(report: &Report) -> bool {
    matches!(report, Report::Scouted { .. } | Report::LeafDrop { .. } | Report::Stage { .. })
}

impl Conversation<'_> {
    fn plant(&mut self, tree: &str) {
        use crate::season::request::{Setting, TreeDetails};
        self.set(&Setting::Tree(TreeDetails { name: tree.to_owned(), ..TreeDetails::default() }));
    }
}
