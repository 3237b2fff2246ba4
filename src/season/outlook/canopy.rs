//! A tree's leaves by the canopy model: from leaf-out to now, and on until its crop is ripe.
//!
//! Only answers that show it ask for it, and the computed rule where it alone stands for a spray: most mornings do
//! not pay for it.

mod ahead;
mod days;

pub(super) use days::GardenDays;

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};

use self::ahead::{Laid, Sprays};
use super::leaves::Leaves;
use super::trees::{protectant, protects};
use super::worth::last_picking;
use super::{Outlook, TreeOutlook};
use crate::agronomy::canopy::{Canopy, CanopyDay, CanopyParameters, Course, Level, Protection};
use crate::agronomy::cover::Deposit;
use crate::season::answer::{Reason, Span, SprayAdvice, Standing, Worth};
use crate::season::calendar::{local_date, midnight};
use crate::season::garden::{Active, Susceptibility};
use crate::season::history::Sprayed;
use crate::season::journal::{LeafLevel, Stage};
use crate::season::questions::severity_of;
use crate::units::{Days, Fraction};

/// Nights of rust mostly end by this time of the day: what was sprayed before it met them.
const NIGHT_OVER: TimeDelta = TimeDelta::hours(6);
/// Leaves are not reckoned for a crop nearer or farther than this: the one is as it is, the other rests on
/// weather nobody knows. common practice.
const NEAREST: i64 = 7;
const FARTHEST: i64 = 100;

/// A span wider than this says that too little is known, and is not given. common practice.
const WIDEST: f64 = 0.6;

/// What a tree would keep of its green leaves until a date, by each course the rust may take.
struct Kept {
    until: NaiveDate,
    courses: [KeptByCourse; 3],
}

struct KeptByCourse {
    unsprayed: Fraction,
    sprayed: Fraction,
}

impl Kept {
    /// Low to high, without sprays and with them; `None` where they span too much to say anything.
    fn spans(&self) -> Option<(Span, Span)> {
        let unsprayed = span(self.courses.iter().map(|course| Some(course.unsprayed)))?;
        Some((unsprayed, span(self.courses.iter().map(|course| Some(course.sprayed)))?))
    }

    /// The most that sprays could save, whichever course the rust takes.
    fn at_stake(&self) -> Fraction {
        let saved = self.courses.iter().map(|course| course.sprayed.value() - course.unsprayed.value());
        Fraction::saturating(saved.fold(0.0, f64::max))
    }
}

/// Leaves that sprays could still save of a tree, until a date.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct AtStake {
    pub until: NaiveDate,
    pub leaves: Fraction,
}

impl Outlook<'_> {
    /// The advice, with what each tree worth protecting would keep of its leaves with and without sprays. Where
    /// little is at stake on a tree that the rule of the trade protects, that is said of it; and of the garden, where
    /// it is so of all those the verdict is about.
    pub fn with_leaves_kept(&self, mut advice: SprayAdvice) -> SprayAdvice {
        let sprays = self.sprays_thought_of(advice.product.as_deref());
        let due = advice.trees.iter().any(|verdict| verdict.standing == Standing::Due);
        let (mut protected, mut of_little_stake) = (0, 0);
        for verdict in advice.trees.iter_mut().filter(|verdict| verdict.worth != Worth::Leave) {
            let is_meant = !due || verdict.standing == Standing::Due;
            protected += u32::from(is_meant);
            let tree = self.trees().iter().find(|tree| tree.tree.name == verdict.tree);
            let Some(kept) = tree.and_then(|tree| self.kept(tree, sprays)) else { continue };
            if let Some((unsprayed, sprayed)) = kept.spans() {
                verdict.kept_until = Some(kept.until);
                verdict.kept_unsprayed = Some(unsprayed);
                verdict.kept_sprayed = Some(sprayed);
            }
            if kept.at_stake() < self.thresholds().leaves_at_stake {
                of_little_stake += u32::from(is_meant);
                differ(&mut verdict.reasons, verdict.worth);
            }
        }
        if protected > 0 && protected == of_little_stake {
            differ(&mut advice.reasons, Worth::Protect);
        }
        advice
    }

    /// What sprays could still save of a tree's leaves until its crop is ripe; `None` where that is too far off to
    /// tell, or too little of the weather is known.
    pub(super) fn leaves_at_stake(&self, tree: &TreeOutlook) -> Option<AtStake> {
        let kept = self.kept(tree, self.sprays_thought_of(None))?;
        Some(AtStake { until: kept.until, leaves: kept.at_stake() })
    }

    /// Leaves that hang now, of those a clean tree would have. `None` where too little of the season's weather is
    /// known, and for a tree out of leaf.
    pub fn leaves_by_model(&self, tree: &TreeOutlook) -> Option<Span> {
        let hanging = self.grown(tree)?.into_iter().map(|canopy| canopy.hanging());
        span(hanging)
    }

    /// Green leaves of a clean tree's that this one keeps until its crop is ripe, or until frost where that
    /// comes first. Ahead, the forecast is taken as far as it tells wet hours, and after that the garden's own
    /// average of the last thirty days goes on.
    fn kept(&self, tree: &TreeOutlook, sprays: Sprays) -> Option<Kept> {
        let until = self.ripe_by(tree)?;
        let days = (until - self.today).num_days();
        if !(NEAREST..=FARTHEST).contains(&days) {
            return None;
        }
        let grown = self.grown(tree)?;
        let unsprayed = self.days_ahead(tree, until, Sprays::NoMore)?;
        let sprayed = self.days_ahead(tree, until, sprays)?;
        let [mild, likely, fierce] = grown.map(|canopy| {
            Some(KeptByCourse {
                unsprayed: lived(canopy.clone(), &unsprayed)?.green()?,
                sprayed: lived(canopy, &sprayed)?.green()?,
            })
        });
        Some(Kept { until, courses: [mild?, likely?, fierce?] })
    }

    /// When the last of the crop should be ripe, by heat where a stage was told and by the calendar of early,
    /// middling and late trees where not; or the first frost.
    fn ripe_by(&self, tree: &TreeOutlook) -> Option<NaiveDate> {
        let by_heat = self.ripening(tree).and_then(|ripening| ripening.to);
        let ripe = by_heat.or_else(|| last_picking(tree.tree.crop, self))?;
        Some(self.frost().map_or(ripe, |frost| ripe.min(frost.date)))
    }

    /// The tree's canopy this morning, for each course the rust may have taken, drawn towards every look.
    fn grown(&self, tree: &TreeOutlook) -> Option<[Canopy; 3]> {
        if self.in_leaf(tree.stage.map(|(_, stage)| stage)) != Leaves::Out {
            return None;
        }
        let leaf_out = self.leaf_out(tree);
        let days = self.days_so_far(tree, leaf_out)?;
        let grow = |course| {
            let parameters = CanopyParameters::of(course).on_cultivar(takes_rust(tree.tree.susceptibility));
            let mut canopy = Canopy::at_leaf_out(parameters);
            for (date, day) in leaf_out.iter_days().zip(&days) {
                canopy.step(day)?;
                self.look(tree, date, &mut canopy);
            }
            self.look(tree, self.today, &mut canopy);
            Some(canopy)
        };
        let [mild, likely, fierce] = Course::ALL.map(grow);
        Some([mild?, likely?, fierce?])
    }

    /// What was reported on a day of its leaves.
    fn look(&self, tree: &TreeOutlook, date: NaiveDate, canopy: &mut Canopy) {
        let was_then = |at: DateTime<Utc>| at <= self.now && local_date(at, self.zone) == date;
        for look in tree.history.scouted.iter().filter(|look| was_then(look.at)) {
            canopy.observe(severity_of(look.amount), level(look.level));
        }
        for (_, lost) in tree.history.leaf_drop.iter().filter(|(at, _)| was_then(*at)) {
            if let Some(lost) = lost {
                canopy.observe_fallen(*lost);
            }
        }
    }

    /// When the leaves came out: as told, else by the season's warmth, and no later than a stage was told that
    /// comes after it.
    fn leaf_out(&self, tree: &TreeOutlook) -> NaiveDate {
        let start = self.season_start();
        let in_leaf = tree.history.stages.iter().find(|(at, stage)| {
            (start..=self.now).contains(at) && !matches!(stage, Stage::Dormant | Stage::LeafFall)
        });
        let told = in_leaf.map(|(at, stage)| (local_date(*at, self.zone), *stage));
        match told {
            Some((date, Stage::LeafOut)) => date,
            Some((date, _)) => date.min(self.garden_days().leaf_out),
            None => self.garden_days().leaf_out,
        }
        .min(self.today)
    }

    /// Each day from leaf-out to yesterday.
    fn days_so_far(&self, tree: &TreeOutlook, leaf_out: NaiveDate) -> Option<Vec<CanopyDay>> {
        let weather = self.garden_days().filled(leaf_out, self.today)?;
        let days = leaf_out.iter_days().zip(weather).map(|(date, weather)| CanopyDay {
            mean: weather.mean,
            infection: weather.infection,
            spray: self.protection(tree, midnight(date, self.zone) + NIGHT_OVER),
        });
        Some(days.collect())
    }

    fn protection(&self, tree: &TreeOutlook, at: DateTime<Utc>) -> Option<Protection> {
        let spray =
            tree.history.sprays.iter().rev().find(|spray| spray.at <= at && protects(spray.active))?;
        let cover = self.reckon_cover(deposit_of(spray), at)?;
        Some(Protection { cover: cover.on_sprayed_leaves, age: cover.age })
    }

    /// Each day from today until the crop is ripe.
    fn days_ahead(&self, tree: &TreeOutlook, until: NaiveDate, sprays: Sprays) -> Option<Vec<CanopyDay>> {
        let weather = self.garden_days().ahead(self.today, until)?;
        let mut laid = tree
            .last_spray
            .as_ref()
            .zip(tree.cover)
            .map(|(spray, cover)| Laid::found(protectant(spray.active), cover));
        let days = weather.into_iter().map(|weather| {
            laid = sprays.next(laid, weather.rain);
            CanopyDay {
                mean: weather.mean,
                infection: weather.infection,
                spray: laid.map(|laid| laid.protection()),
            }
        });
        Some(days.collect())
    }

    /// The sprays that are compared with none: of the product named, else of the first protectant the
    /// garden has, else of copper, as often as rust weather and the label ask.
    fn sprays_thought_of(&self, product: Option<&str>) -> Sprays {
        let garden = &self.facts.garden;
        let named = product.and_then(|name| garden.product(name));
        let product = named.or_else(|| garden.products.iter().find(|product| protects(product.active)));
        let active = product.map_or(Active::Copper, |product| product.active);
        let by_label = product.and_then(|product| product.label.interval).unwrap_or(Days::ZERO);
        Sprays::Every {
            protectant: protectant(active),
            days: self.rust_interval(active).max(by_label),
            washed_off: self.thresholds().washed_off,
        }
    }

    fn garden_days(&self) -> &GardenDays {
        self.garden_days.get_or_init(|| GardenDays::of(self))
    }
}

/// The trade would spray, and by the leaves there is nothing to save.
fn differ(reasons: &mut Vec<Reason>, trade: Worth) {
    reasons.retain(|reason| !matches!(reason, Reason::RulesDiffer { .. }));
    reasons.push(Reason::RulesDiffer { trade, computed: Worth::Leave });
}

fn lived(mut canopy: Canopy, days: &[CanopyDay]) -> Option<Canopy> {
    for day in days {
        canopy.step(day)?;
    }
    Some(canopy)
}

fn deposit_of(spray: &Sprayed) -> Deposit {
    Deposit { at: spray.at, protectant: protectant(spray.active) }
}

fn level(level: Option<LeafLevel>) -> Level {
    match level {
        Some(LeafLevel::Lower) => Level::Lower,
        Some(LeafLevel::Middle) => Level::Middle,
        Some(LeafLevel::Upper) => Level::Upper,
        Some(LeafLevel::Whole) | None => Level::Whole,
    }
}

/// Rust a cultivar takes, of what a susceptible one does. common practice.
fn takes_rust(susceptibility: Susceptibility) -> Fraction {
    match susceptibility {
        Susceptibility::Susceptible => Fraction::WHOLE,
        Susceptibility::Tolerant => Fraction::saturating(0.6),
        Susceptibility::Resistant => Fraction::saturating(0.3),
    }
}

/// From the least to the most; `None` if one is not known, or all together say nothing.
fn span(shares: impl Iterator<Item = Option<Fraction>>) -> Option<Span> {
    let shares: Vec<f64> = shares.map(|share| share.map(Fraction::value)).collect::<Option<_>>()?;
    let low = shares.iter().copied().reduce(f64::min)?;
    let high = shares.iter().copied().reduce(f64::max)?;
    (high - low <= WIDEST).then(|| Span { low: Fraction::saturating(low), high: Fraction::saturating(high) })
}
