//! Rules of label and trade: at the report, and before advice.
//!
//! The label is the law where the garden is; these rules only keep the grower's own entries of it,
//! and what the trade knows burns leaves.

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};

use super::answer::{BrokenRule, HarvestWait};
use super::calendar::{local_date, season_of};
use super::facts::Facts;
use super::garden::{Active, LabelListing, Product, Rate};
use super::history::{History, Sprayed, TreeHistory};
use super::journal::{Act, Entry, LineNumber, Report, Stage, What};
use crate::units::{Celsius, Days, GramsPerSquareMetre, Litres, SquareMetres};

/// The rules that what stands on these lines of the journal breaks.
pub fn broken_by(facts: &Facts, lines: &[LineNumber]) -> Vec<(LineNumber, BrokenRule)> {
    if lines.is_empty() {
        return Vec::new();
    }
    let history = History::of(&facts.journal, &facts.garden);
    facts
        .journal
        .lines()
        .iter()
        .filter(|line| lines.contains(&line.number))
        .filter_map(|line| match &line.act {
            Act::Enter(entry) => Some((line.number, entry)),
            Act::Retract(_) => None,
        })
        .flat_map(|(number, entry)| {
            let broken = broken_by_entry(facts, &history, entry);
            broken.into_iter().map(move |rule| (number, rule))
        })
        .collect()
}

fn broken_by_entry(facts: &Facts, history: &History, entry: &Entry) -> Vec<BrokenRule> {
    let What::Report { trees, report } = &entry.what else { return Vec::new() };
    match report {
        Report::Sprayed { product, .. } => {
            let known = facts.garden.product(product);
            let spray = trees.first().and_then(|tree| history.tree(tree)).and_then(|tree| {
                tree.sprays.iter().find(|spray| spray.at == entry.happened && spray.product == *product)
            });
            let Some(spray) = spray else { return Vec::new() };
            let case = Case { facts, history, trees, spray, product: known };
            case.broken()
        }
        Report::Picked { .. } => trees
            .iter()
            .filter_map(|tree| picked_too_soon(facts, history.tree(tree)?, entry.happened))
            .collect(),
        _ => Vec::new(),
    }
}

/// The rules that spraying this product on these trees at this moment would break.
pub fn would_break(
    facts: &Facts,
    history: &History,
    trees: &[String],
    product: &Product,
    at: DateTime<Utc>,
) -> Vec<BrokenRule> {
    let spray = Sprayed::thought_of(product, at);
    Case { facts, history, trees, spray: &spray, product: Some(product) }.broken()
}

/// How much of a product's season is left, the plentiful first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Supply {
    Ample,
    /// Fewer applications are left, by its label or by the copper of a year, than the season may ask for.
    Scarce,
}

/// Whether what may still be used of a product lasts to the end of the season, one application each label
/// interval. A scarce one is kept for when nothing else will do: copper for the heat that forbids sulfur.
pub fn supply(
    facts: &Facts,
    history: &History,
    trees: &[String],
    product: &Product,
    until: Option<NaiveDate>,
) -> Supply {
    const USUAL_INTERVAL: Days = Days::new(10.0);
    let Some(until) = until else { return Supply::Ample };
    let garden = &facts.garden;
    let today = local_date(facts.now, garden.zone());
    let wanted = (until - today).num_days() as f64 / product.label.interval.unwrap_or(USUAL_INTERVAL).value();
    let left_on = |tree: &String| {
        let done: Vec<&Sprayed> = history
            .tree(tree)
            .into_iter()
            .flat_map(|tree| in_the_season(facts, tree, facts.now))
            .filter(|spray| spray.product == product.name)
            .collect();
        let by_label = product.label.most_applications.map(|most| f64::from(most) - done.len() as f64);
        let each = done.iter().rev().find_map(|spray| copper_of(facts, spray, tree, Some(product)));
        let used = copper_this_season(facts, history, tree, facts.now);
        let by_copper = each
            .zip(used)
            .filter(|(each, _)| *each > GramsPerSquareMetre::ZERO)
            .map(|(each, used)| ((garden.thresholds.copper_yearly - used) / each).floor());
        [by_label, by_copper].into_iter().flatten().reduce(f64::min)
    };
    let left = trees.iter().filter_map(left_on).reduce(f64::min);
    match left {
        Some(left) if left < wanted => Supply::Scarce,
        _ => Supply::Ample,
    }
}

/// A spray and what it is judged against.
struct Case<'a> {
    facts: &'a Facts,
    history: &'a History,
    trees: &'a [String],
    spray: &'a Sprayed,
    product: Option<&'a Product>,
}

impl Case<'_> {
    fn broken(&self) -> Vec<BrokenRule> {
        let mut broken: Vec<BrokenRule> = Vec::new();
        broken.extend(self.sulfur_and_oil());
        broken.extend(self.not_for_figs());
        broken.extend(self.sulfur_heat());
        broken.extend(self.too_many());
        broken.extend(self.too_soon());
        broken.extend(self.before_harvest());
        broken.extend(self.copper_budget());
        broken
    }

    /// The nearest spray that burns together with this one, over all its trees.
    fn sulfur_and_oil(&self) -> Option<BrokenRule> {
        let zone = self.facts.garden.zone();
        // Counted in days, as the date said is: an evening's spray is clear on the morning of its day.
        let days_apart = |first: DateTime<Utc>, second: DateTime<Utc>| {
            Days::new((local_date(second, zone) - local_date(first, zone)).num_days() as f64)
        };
        let clash = |tree: &TreeHistory| {
            tree.sprays
                .iter()
                .filter(|other| burn_together(other, self.spray))
                .filter(|other| {
                    let (first, second) = (other.at.min(self.spray.at), other.at.max(self.spray.at));
                    days_apart(first, second) < apart(self.facts, first, second)
                })
                .min_by_key(|other| (other.at - self.spray.at).abs())
                .cloned()
        };
        let clashes: Vec<(String, Sprayed)> = self
            .trees
            .iter()
            .filter_map(|tree| Some((tree.clone(), clash(self.history.tree(tree)?)?)))
            .collect();
        let nearest = clashes.iter().min_by_key(|(_, other)| (other.at - self.spray.at).abs())?.1.clone();
        let (first, second) =
            if nearest.at <= self.spray.at { (&nearest, self.spray) } else { (self.spray, &nearest) };
        // One that was done is measured by the heat it had; one thought of by that of the days it has to wait for.
        let needed = if self.is_reported() {
            apart(self.facts, first.at, second.at)
        } else {
            apart_in_the_end(self.facts, first.at)
        };
        let again = second.at + apart_in_the_end(self.facts, second.at).as_hours().to_duration();
        Some(BrokenRule::SulfurAndOil {
            trees: clashes.into_iter().map(|(tree, _)| tree).collect(),
            first: first.product.clone(),
            first_on: local_date(first.at, zone),
            second: second.product.clone(),
            second_on: local_date(second.at, zone),
            apart: days_between(first.at, second.at),
            needed,
            clear_from: local_date(first.at + needed.as_hours().to_duration(), zone),
            again_from: local_date(again, zone),
        })
    }

    fn not_for_figs(&self) -> Option<BrokenRule> {
        let product = self.product?;
        (product.label.lists_figs == Some(LabelListing::NotListed))
            .then(|| BrokenRule::NotForFigs { product: product.name.clone() })
    }

    /// The hottest of the day of spraying and the two after.
    fn sulfur_heat(&self) -> Option<BrokenRule> {
        let label = self.product.and_then(|product| product.label.hottest);
        let limit = match self.spray.active {
            Active::Sulfur => {
                let trade = self.facts.garden.thresholds.sulfur_stop;
                label.map_or(trade, |label| label.min(trade))
            }
            _ => label?,
        };
        let reach =
            if self.spray.active == Active::Sulfur { TimeDelta::days(3) } else { TimeDelta::hours(2) };
        let hours = self.facts.weather.between(self.spray.at - TimeDelta::hours(1), self.spray.at + reach);
        let (hottest, at) = hours
            .iter()
            .filter_map(|hour| Some((hour.temperature?, hour.start)))
            .max_by(|one, other| one.0.total_cmp(&other.0))?;
        (hottest > limit).then(|| BrokenRule::SulfurHeat {
            product: self.spray.product.clone(),
            hottest,
            limit,
            on: local_date(at, self.facts.garden.zone()),
        })
    }

    fn too_many(&self) -> Option<BrokenRule> {
        let most = self.product?.label.most_applications?;
        let done = self
            .trees
            .iter()
            .filter_map(|tree| self.history.tree(tree))
            .map(|tree| {
                let others = in_the_season(self.facts, tree, self.spray.at)
                    .filter(|other| other.product == self.spray.product && other.at != self.spray.at);
                others.count() as u32 + 1
            })
            .max()?;
        (done > most).then(|| BrokenRule::TooMany { product: self.spray.product.clone(), done, most })
    }

    fn too_soon(&self) -> Option<BrokenRule> {
        let interval = self.product?.label.interval?;
        let zone = self.facts.garden.zone();
        let last = self
            .trees
            .iter()
            .filter_map(|tree| self.history.tree(tree))
            .flat_map(|tree| &tree.sprays)
            .filter(|other| other.product == self.spray.product && other.at < self.spray.at)
            .map(|other| other.at)
            .max()?;
        // Labels count days, and a morning after an evening is the next day.
        let days = (local_date(self.spray.at, zone) - local_date(last, zone)).num_days();
        (Days::new(days as f64) < interval).then(|| BrokenRule::TooSoon {
            product: self.spray.product.clone(),
            last_on: local_date(last, zone),
            interval,
            clear_from: local_date(last, zone) + TimeDelta::days(interval.value().ceil() as i64),
        })
    }

    /// Fruit is being picked and the label wants a wait: said with the day picking may go on.
    fn before_harvest(&self) -> Option<BrokenRule> {
        let wait = self.product?.label.before_harvest?;
        if wait <= Days::ZERO {
            return None;
        }
        let since = self.spray.at - TimeDelta::days(60);
        let tree = self.trees.iter().find(|tree| {
            self.history.tree(tree).is_some_and(|tree| {
                tree.stage(since, self.spray.at).is_some_and(|(_, stage)| stage == Stage::Ripening)
            })
        })?;
        Some(BrokenRule::BeforeHarvest {
            product: self.spray.product.clone(),
            wait,
            tree: Some(tree.clone()),
            picking_from: self.spray.at + wait.as_hours().to_duration(),
        })
    }

    /// Copper laid down this season on the most loaded of the trees.
    fn copper_budget(&self) -> Option<BrokenRule> {
        if self.spray.active != Active::Copper {
            return None;
        }
        let yearly = self.facts.garden.thresholds.copper_yearly;
        let is_reported = self.is_reported();
        let of_trees = self.trees.iter().filter_map(|tree| {
            let most = copper_this_season(self.facts, self.history, tree, self.spray.at)?;
            let usual = if is_reported { None } else { self.usual_volume(tree) };
            let spray = Sprayed { volume: self.spray.volume.or(usual), ..self.spray.clone() };
            let this = copper_of(self.facts, &spray, tree, self.product).unwrap_or(GramsPerSquareMetre::ZERO);
            let (used, with_this) = if is_reported { (most - this, most) } else { (most, most + this) };
            Some((tree, used, with_this))
        });
        let worst = of_trees.max_by(|one, other| one.2.total_cmp(&other.2));
        let (tree, used, with_this) = worst.filter(|(.., with_this)| *with_this > yearly)?;
        Some(BrokenRule::CopperBudget { tree: tree.clone(), used, with_this, yearly })
    }

    /// Whether this spray was done and stands in the history, rather than being thought of.
    fn is_reported(&self) -> bool {
        let stands = |tree: &TreeHistory| {
            tree.sprays.iter().any(|other| other.at == self.spray.at && other.product == self.spray.product)
        };
        self.trees.iter().filter_map(|tree| self.history.tree(tree)).any(stands)
    }

    /// What the last of its product took on this tree, which one thought of will take too.
    fn usual_volume(&self, tree: &str) -> Option<Litres> {
        let sprays = &self.history.tree(tree)?.sprays;
        sprays.iter().rev().filter(|other| other.product == self.spray.product).find_map(|other| other.volume)
    }
}

/// Metallic copper on a tree's ground this season, up to a moment; `None` where no spray had both a
/// volume and a rate to reckon from.
pub fn copper_this_season(
    facts: &Facts,
    history: &History,
    tree: &str,
    until: DateTime<Utc>,
) -> Option<GramsPerSquareMetre> {
    in_the_season(facts, history.tree(tree)?, until)
        .filter(|spray| spray.at <= until)
        .filter_map(|spray| copper_of(facts, spray, tree, facts.garden.product(&spray.product)))
        .reduce(|total, copper| total + copper)
}

/// A tree's sprays of the season a moment lies in.
pub fn in_the_season<'t>(
    facts: &Facts,
    tree: &'t TreeHistory,
    moment: DateTime<Utc>,
) -> impl Iterator<Item = &'t Sprayed> {
    let (zone, hemisphere) = (facts.garden.zone(), facts.garden.hemisphere());
    let season = move |at| season_of(local_date(at, zone), hemisphere);
    tree.sprays.iter().filter(move |spray| season(spray.at) == season(moment))
}

fn copper_of(
    facts: &Facts,
    spray: &Sprayed,
    tree: &str,
    product: Option<&Product>,
) -> Option<GramsPerSquareMetre> {
    let product = product.filter(|product| product.active == Active::Copper)?;
    let content = product.copper_content?;
    // A millilitre is taken as a gram: liquid coppers are a little heavier, labels round more.
    let (Rate::GramsPerLitre(rate) | Rate::MillilitresPerLitre(rate)) = product.label.rate?;
    let volume = spray.volume?;
    let width = facts.garden.tree(tree)?.width?;
    let area = SquareMetres::new(std::f64::consts::FRAC_PI_4 * width.value() * width.value());
    Some(GramsPerSquareMetre::new(volume.value() * rate * content.value() / area.value()))
}

fn burn_together(one: &Sprayed, other: &Sprayed) -> bool {
    (one.active == Active::Sulfur && other.is_oily()) || (other.active == Active::Sulfur && one.is_oily())
}

/// How far apart sulfur and oil must be: longer once it has been hot since the first of them.
fn apart(facts: &Facts, first: DateTime<Utc>, second: DateTime<Utc>) -> Days {
    let thresholds = &facts.garden.thresholds;
    let hottest = facts
        .weather
        .between(first, second.max(first + TimeDelta::days(3)))
        .iter()
        .filter_map(|hour| hour.temperature)
        .reduce(Celsius::max);
    if hottest.is_some_and(|hottest| hottest > thresholds.sulfur_hot) {
        thresholds.sulfur_oil_apart_hot
    } else {
        thresholds.sulfur_oil_apart
    }
}

/// How far apart they will have to be when the usual gap is over. Heat beyond the forecast is reckoned with, so that
/// a date once said does not move away.
fn apart_in_the_end(facts: &Facts, first: DateTime<Utc>) -> Days {
    let thresholds = &facts.garden.thresholds;
    let usual_end = first + thresholds.sulfur_oil_apart.as_hours().to_duration();
    let is_known = facts.weather.end().is_some_and(|end| end >= usual_end);
    if is_known { apart(facts, first, usual_end) } else { thresholds.sulfur_oil_apart_hot }
}

fn picked_too_soon(facts: &Facts, tree: &TreeHistory, picked: DateTime<Utc>) -> Option<BrokenRule> {
    let wait = harvest_wait(facts, tree, picked)?;
    Some(BrokenRule::PickedTooSoon {
        tree: tree.name.clone(),
        product: wait.product,
        sprayed_on: wait.sprayed_on,
        wait: wait.wait,
        clear_from: wait.clear_from,
    })
}

/// The longest wait between spray and picking that runs on each of these trees at a moment, those of one spray
/// together, the first to end first.
pub fn harvest_waits<'t>(
    facts: &Facts,
    history: &History,
    trees: impl Iterator<Item = &'t str>,
    at: DateTime<Utc>,
) -> Vec<HarvestWait> {
    let mut waits: Vec<HarvestWait> = Vec::new();
    for tree in trees {
        let Some(wait) = history.tree(tree).and_then(|tree| harvest_wait(facts, tree, at)) else { continue };
        let is_same = |known: &&mut HarvestWait| {
            (&known.product, known.sprayed_on, known.clear_from)
                == (&wait.product, wait.sprayed_on, wait.clear_from)
        };
        match waits.iter_mut().find(is_same) {
            Some(known) => known.trees.extend(wait.trees),
            None => waits.push(wait),
        }
    }
    waits.sort_by_key(|wait| wait.clear_from);
    waits
}

fn harvest_wait(facts: &Facts, tree: &TreeHistory, at: DateTime<Utc>) -> Option<HarvestWait> {
    let zone = facts.garden.zone();
    let running = tree.sprays.iter().filter(|spray| spray.at < at).filter_map(|spray| {
        let wait = facts.garden.product(&spray.product)?.label.before_harvest?;
        let clear = spray.at + wait.as_hours().to_duration();
        (at < clear).then_some((spray, wait, clear))
    });
    let (spray, wait, clear) = running.max_by_key(|(.., clear)| *clear)?;
    Some(HarvestWait {
        trees: vec![tree.name.clone()],
        product: spray.product.clone(),
        sprayed_on: local_date(spray.at, zone),
        wait,
        clear_from: local_date(clear, zone),
    })
}

fn days_between(first: DateTime<Utc>, second: DateTime<Utc>) -> Days {
    Days::new((second - first).num_minutes() as f64 / (24.0 * 60.0))
}
