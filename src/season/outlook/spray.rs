//! "Should I spray this week?"

mod need;
mod plan;

use chrono::{DateTime, TimeDelta, Utc};

use self::need::BARE_LEAVES;
use self::plan::{Choice, Plan, only_asks_to_pick_first};
use super::trees::{protectant, protects};
use super::{HONEST_AHEAD, Outlook, TreeOutlook, told};
use crate::agronomy::infection::{Grade, InfectionEvent, latent_period};
use crate::agronomy::spray_hours::{self, JudgedHour, SprayLimits, SprayWindow};
use crate::season::answer::{
    BrokenRule, Caution, LabelItem, Obstacle, Reason, SprayAdvice, Standing, TreeVerdict, Verdict, Window,
    Worth,
};
use crate::season::calendar::local_date;
use crate::season::garden::{Active, Product};
use crate::season::history::Sprayed;
use crate::season::request::Selection;
use crate::season::rules;
use crate::season::selection::selected;
use crate::units::{Days, Fraction, Hours, Millimetres};

impl Outlook<'_> {
    /// The verdict for the whole garden.
    pub fn spray_advice(&self) -> SprayAdvice {
        self.spray_advice_for(None, &Selection::Unsaid)
    }

    /// The verdict for some trees, with the product asked about if one was named. Whether a spray is needed or not, what
    /// it would burn is said: "neem on the deck?" the day after sulfur is no question of need.
    pub fn spray_advice_for(&self, product: Option<&str>, trees: &Selection) -> SprayAdvice {
        let wanted = selected(&self.facts.garden, trees);
        let considered: Vec<&TreeOutlook> =
            self.trees().iter().filter(|tree| wanted.contains(&tree.tree.name)).collect();
        let mut advice = self.needed(product, &considered);
        let asked = product.and_then(|name| self.facts.garden.product(name));
        let said = advice.reasons.iter().any(|reason| matches!(reason, Reason::Rule { .. }));
        if let Some(product) = asked.filter(|_| advice.verdict != Verdict::Spray && !said) {
            let names: Vec<String> = considered.iter().map(|tree| tree.tree.name.clone()).collect();
            let burns: Vec<Reason> = rules::would_break(self.facts, &self.history, &names, product, self.now)
                .into_iter()
                .filter(|rule| {
                    matches!(
                        rule,
                        BrokenRule::SulfurAndOil { .. }
                            | BrokenRule::SulfurHeat { .. }
                            | BrokenRule::NotForFigs { .. }
                    )
                })
                .map(|rule| Reason::Rule { rule })
                .filter(|rule| !advice.reasons.contains(rule))
                .collect();
            if !burns.is_empty() {
                advice.verdict = Verdict::Blocked;
                advice.product = Some(product.name.clone());
                advice.active = Some(product.active);
                advice.cautions = cautions(product);
                advice.reasons.splice(0..0, burns);
            }
        }
        advice
    }

    fn needed(&self, product: Option<&str>, considered: &[&TreeOutlook]) -> SprayAdvice {
        let mut advice = self.blank_advice(considered);
        if self.weather_is_unknown() {
            advice.reasons.push(Reason::WeatherUnknown);
        }
        let worth: Vec<&TreeOutlook> =
            considered.iter().copied().filter(|tree| tree.worth != Worth::Leave).collect();
        if worth.is_empty() {
            advice.verdict = Verdict::NotWorthwhile;
            advice.reasons.splice(0..0, leave_reasons(considered));
            return advice;
        }
        let needy: Vec<&TreeOutlook> = worth.iter().copied().filter(|tree| self.wants_spray(tree)).collect();
        advice.cover = worth.iter().map(|tree| tree.covered()).reduce(lower).unwrap_or(Fraction::NONE);
        if needy.is_empty() {
            advice.verdict = Verdict::Hold;
            self.hold_reasons(&worth, &mut advice);
            return advice;
        }
        self.act(&needy, product, &mut advice);
        advice
    }

    fn blank_advice(&self, trees: &[&TreeOutlook]) -> SprayAdvice {
        SprayAdvice {
            verdict: Verdict::Hold,
            window: None,
            second: None,
            product: None,
            active: None,
            cover: trees.iter().map(|tree| tree.covered()).reduce(lower).unwrap_or(Fraction::NONE),
            infection: self.events_ahead().map(told).collect(),
            days_to_frost: self.frost().map(|frost| frost.days),
            reasons: Vec::new(),
            trees: trees
                .iter()
                .map(|tree| TreeVerdict {
                    tree: tree.tree.name.clone(),
                    worth: tree.worth,
                    standing: if tree.worth == Worth::Leave { Standing::Left } else { Standing::Covered },
                    cover: tree.cover.map(|cover| cover.on_sprayed_leaves),
                    reasons: tree.reasons.clone(),
                    kept_until: None,
                    kept_unsprayed: None,
                    kept_sprayed: None,
                })
                .collect(),
            cautions: Vec::new(),
            waits: Vec::new(),
            age: self.age(),
        }
    }

    fn weather_is_unknown(&self) -> bool {
        !self
            .weather
            .between(self.now, self.now + TimeDelta::days(2))
            .iter()
            .any(crate::weather::Hour::is_known)
    }

    fn hold_reasons(&self, worth: &[&TreeOutlook], advice: &mut SprayAdvice) {
        match self.events_to_meet().next() {
            None => {
                advice.reasons.push(Reason::NoInfectionAhead { days: self.days_known_ahead() });
                let possible = self.events_by_the_damp_end();
                let possible = possible.iter().find(|event| event.grade >= Grade::Moderate);
                advice
                    .reasons
                    .extend(possible.map(|event| Reason::InfectionPossible { infection: told(event) }));
            }
            Some(event) => advice.reasons.push(self.infection_ahead(event)),
        }
        match thinnest(worth).and_then(|tree| tree.cover) {
            Some(cover) if cover.on_sprayed_leaves < self.thresholds().cover_thin => {
                advice.reasons.push(Reason::CoverThin {
                    cover: cover.on_sprayed_leaves,
                    rain: cover.rain,
                    days: cover.age,
                });
            }
            Some(cover) => advice.reasons.push(Reason::CoverHolds {
                cover: cover.on_sprayed_leaves,
                rain: cover.rain,
                days: cover.age,
            }),
            None => advice.reasons.push(Reason::NeverSprayed),
        }
        self.add_common_reasons(worth, advice);
    }

    fn infection_ahead(&self, event: &InfectionEvent) -> Reason {
        let most = self
            .events_by_the_damp_end()
            .into_iter()
            .filter(|damp| damp.from <= event.to && damp.to >= event.from)
            .map(|damp| damp.wet)
            .reduce(Hours::max)
            .filter(|most| *most > event.wet);
        Reason::InfectionAhead { infection: told(event), most }
    }

    /// As far ahead as wet hours can be honestly counted.
    fn days_known_ahead(&self) -> Days {
        let end = self
            .weather
            .between(self.now, self.now + HONEST_AHEAD)
            .iter()
            .take_while(|hour| hour.origin.resolves_hours())
            .last()
            .map_or(self.now, crate::weather::Hour::end);
        Hours::from_duration(end - self.now).as_days()
    }

    fn act(&self, needy: &[&TreeOutlook], product: Option<&str>, advice: &mut SprayAdvice) {
        let mut events: Vec<&InfectionEvent> = needy.iter().flat_map(|tree| self.unmet(tree)).collect();
        events.sort_by_key(|event| event.from);
        events.dedup_by_key(|event| event.from);
        let event = events.first().copied();
        let products = self.products(product);
        if products.is_empty() {
            advice.verdict = Verdict::Blocked;
            self.need_reasons(needy, event, advice);
            mark_due(advice, needy);
            advice.reasons.insert(0, Reason::NoProduct);
            advice.cautions = vec![Caution::LabelFirst, Caution::LocalRules, Caution::Hygiene];
            return;
        }
        let plans: Vec<Plan> =
            products.into_iter().map(|product| self.plan(product, needy, &events)).collect();
        let best = plans.iter().min_by_key(|plan| plan.rank());
        let Some(best) = best else { return };
        if plans.iter().all(|plan| plan.can_wait) {
            advice.verdict = Verdict::Hold;
            self.hold_reasons(needy, advice);
            return;
        }
        self.need_reasons(&best.trees, best.event.or(event), advice);
        mark_due(advice, &best.trees);
        mark_barred(advice, &best.barred);
        advice.product = Some(best.product.name.clone());
        advice.active = Some(best.product.active);
        advice.cautions = cautions(best.product);
        if best.is_forbidden() {
            advice.verdict = Verdict::Blocked;
            let rules = best.broken.iter().map(|rule| Reason::Rule { rule: rule.clone() });
            advice.reasons.splice(0..0, rules);
            return;
        }
        match best.window {
            Some(window) => {
                advice.verdict = Verdict::Spray;
                advice.window = Some(shown(window));
                advice.second = best.second.map(shown);
                // A short wait before harvest asks to pick first, not to leave the spray.
                let waits = best.broken.iter().map(|rule| Reason::Rule { rule: rule.clone() });
                let second = advice.reasons.len().min(1);
                advice.reasons.splice(second..second, waits);
                advice.reasons.extend(best.product.label_unknown());
            }
            None => {
                advice.verdict = Verdict::NoWindow;
                advice.reasons.insert(0, Reason::NoWindow { obstacle: best.obstacle });
            }
        }
    }

    fn need_reasons(&self, needy: &[&TreeOutlook], event: Option<&InfectionEvent>, advice: &mut SprayAdvice) {
        if let Some(event) = event {
            advice.reasons.push(self.infection_ahead(event));
        }
        if let Some(tree) = thinnest(needy) {
            advice.reasons.extend(self.cover_reason(tree));
        }
        self.add_common_reasons(needy, advice);
    }

    fn cover_reason(&self, tree: &TreeOutlook) -> Vec<Reason> {
        let (Some(cover), Some(spray)) = (tree.cover, &tree.last_spray) else {
            return vec![Reason::NeverSprayed];
        };
        let limits = self.thresholds();
        let mut reasons = Vec::new();
        if cover.rain >= limits.washed_off {
            reasons.push(Reason::WashedOff { rain: cover.rain });
        } else if cover.on_sprayed_leaves < limits.cover_thin {
            reasons.push(Reason::CoverThin {
                cover: cover.on_sprayed_leaves,
                rain: cover.rain,
                days: cover.age,
            });
        } else {
            let interval = self.rust_interval(spray.active);
            if cover.age >= interval {
                reasons.push(Reason::IntervalOver { days: cover.age, interval });
            } else {
                // It holds today but will not by the event.
                reasons.push(Reason::CoverThin {
                    cover: cover.on_sprayed_leaves,
                    rain: cover.rain,
                    days: cover.age,
                });
            }
        }
        if cover.bare_leaves >= BARE_LEAVES {
            reasons.push(Reason::NewLeavesBare { leaves: cover.bare_leaves.floor() });
        }
        reasons
    }

    /// What bears on the verdict whichever way it goes: rust seen, infections already in, the frost.
    fn add_common_reasons(&self, trees: &[&TreeOutlook], advice: &mut SprayAdvice) {
        let worst = trees
            .iter()
            .filter_map(|tree| Some((tree, tree.scouted?)))
            .filter(|(_, look)| look.severity.value() > 0.0)
            .max_by(|one, other| {
                one.1.severity.partial_cmp(&other.1.severity).unwrap_or(std::cmp::Ordering::Equal)
            });
        if let Some((tree, look)) = worst {
            advice.reasons.push(Reason::RustSeen {
                tree: tree.tree.name.clone(),
                severity: look.severity,
                on: look.on,
            });
        }
        if let Some((event, first_signs)) = self.pipeline().last() {
            advice.reasons.push(Reason::InPipeline { infection: told(event), first_signs: *first_signs });
        }
        let differing = trees
            .iter()
            .flat_map(|tree| &tree.reasons)
            .find(|reason| matches!(reason, Reason::RulesDiffer { .. } | Reason::CropAtStake));
        advice.reasons.extend(differing.cloned());
        if let Some(frost) = self.frost() {
            advice.reasons.push(Reason::DaysToFrost {
                days: frost.days,
                date: frost.date,
                basis: frost.basis,
            });
        } else {
            advice.reasons.push(Reason::FrostUnknown);
        }
    }

    /// Infections that got in and have not shown yet, with the date their first signs are due.
    pub fn pipeline(&self) -> Vec<(&InfectionEvent, chrono::NaiveDate)> {
        self.events_past()
            .filter(|event| event.grade >= Grade::Moderate)
            .filter_map(|event| {
                let mean = self.mean_temperature(event.to, self.now.max(event.to + TimeDelta::days(1)));
                let latent = latent_period(mean.unwrap_or(event.mean));
                let due = event.to + latent.as_hours().to_duration();
                (due > self.now).then(|| (event, local_date(due, self.zone)))
            })
            .collect()
    }

    /// The protectants to choose from, in the garden's order; or the one asked about.
    fn products(&self, named: Option<&str>) -> Vec<&Product> {
        let garden = &self.facts.garden;
        match named.and_then(|name| garden.product(name)) {
            Some(product) => vec![product],
            None => garden.products.iter().filter(|product| protects(product.active)).collect(),
        }
    }

    fn plan<'p>(
        &'p self,
        product: &'p Product,
        needy: &[&'p TreeOutlook],
        events: &[&'p InfectionEvent],
    ) -> Plan<'p> {
        let limits = SprayLimits {
            sulfur_days_hottest: product
                .label
                .hottest
                .map_or(self.thresholds().sulfur_stop, |label| label.min(self.thresholds().sulfur_stop)),
            hottest: product.label.hottest.unwrap_or(SprayLimits::default().hottest),
            ..SprayLimits::default()
        };
        let Some(position) = self.facts.garden.position else {
            return Plan::without_window(product, needy, Obstacle::WeatherUnknown);
        };
        let hours = self.weather.between(self.now - TimeDelta::hours(12), self.now + TimeDelta::days(8));
        let judged = spray_hours::judged(hours, self.now, position, protectant(product.active), &limits);
        let all = spray_hours::windows(&judged);
        let due: Vec<SprayWindow> = all
            .iter()
            .filter(|window| needy.iter().any(|tree| self.is_due(tree, window.from)))
            .copied()
            .collect();
        let choice = self.choose(product, events, &due, &limits);
        let at = choice.window.map_or(self.now, |window| window.from);
        // Those just sprayed are left out of it.
        let mut trees: Vec<&TreeOutlook> =
            needy.iter().copied().filter(|tree| self.is_due(tree, at)).collect();
        if trees.is_empty() {
            trees = needy.to_vec();
        }
        let names = |trees: &[&TreeOutlook]| -> Vec<String> {
            trees.iter().map(|tree| tree.tree.name.clone()).collect()
        };
        let would_break = |trees: &[&TreeOutlook]| {
            rules::would_break(self.facts, &self.history, &names(trees), product, at)
        };
        let mut broken = would_break(&trees);
        // What a rule keeps from some is not kept from the others.
        let mut barred = Vec::new();
        if trees.len() > 1 && !broken.iter().all(only_asks_to_pick_first) {
            let forbids = |tree: &&TreeOutlook| {
                would_break(&[*tree]).into_iter().find(|rule| !only_asks_to_pick_first(rule))
            };
            let (kept, left): (Vec<_>, Vec<_>) =
                trees.iter().map(|tree| (*tree, forbids(tree))).partition(|(_, rule)| rule.is_none());
            if !kept.is_empty() && !left.is_empty() {
                trees = kept.into_iter().map(|(tree, _)| tree).collect();
                barred = left.into_iter().filter_map(|(tree, rule)| Some((tree, rule?))).collect();
                broken = would_break(&trees);
            }
        }
        let names = names(&trees);
        Plan {
            product,
            trees,
            barred,
            window: choice.window,
            second: choice.second,
            event: choice.event,
            broken,
            supply: rules::supply(self.facts, &self.history, &names, product, self.last_spray_day()),
            can_wait: choice.window.is_none() && !all.is_empty() && due.is_empty(),
            obstacle: mostly_in_the_way(&judged),
        }
    }

    /// The best window before the first event a spray from it would still hold at: one before a downpour is
    /// wasted, one after it is not. Too late for them all, the next window still serves those after.
    fn choose<'p>(
        &'p self,
        product: &Product,
        events: &[&'p InfectionEvent],
        due: &[SprayWindow],
        limits: &SprayLimits,
    ) -> Choice<'p> {
        for &event in events {
            let lasting: Vec<SprayWindow> = due
                .iter()
                .filter(|window| {
                    window.from < event.from && self.would_last(product, window.from, event.from)
                })
                .copied()
                .collect();
            let latest = event.from.max(self.now + TimeDelta::hours(1));
            if let (Some(window), second) =
                spray_hours::preventive(&lasting, Some(event.from), latest, limits)
            {
                return Choice { window: Some(window), second, event: Some(event) };
            }
        }
        Choice { window: due.first().copied(), second: due.get(1).copied(), event: None }
    }

    /// Whether enough of a spray from `at` would be left at a later moment, the rain between included.
    fn would_last(&self, product: &Product, at: DateTime<Utc>, until: DateTime<Utc>) -> bool {
        self.cover_of(&Sprayed::thought_of(product, at), until).is_some_and(|cover| {
            cover.on_sprayed_leaves >= self.thresholds().cover_thin
                && cover.rain < self.thresholds().washed_off
        })
    }

    /// The last day a spray is still thought of this season.
    fn last_spray_day(&self) -> Option<chrono::NaiveDate> {
        let frost = self.frost()?;
        let close = self.thresholds().frost_near.as_hours().to_duration();
        frost.date.checked_sub_signed(close)
    }
}

impl Product {
    /// The first thing the label says that has not been told and that a spray turns on.
    fn label_unknown(&self) -> Option<Reason> {
        let label = &self.label;
        let missing = if label.lists_figs.is_none() {
            LabelItem::Figs
        } else if label.rate.is_none() {
            LabelItem::Rate
        } else if label.interval.is_none() {
            LabelItem::Interval
        } else if label.before_harvest.is_none() {
            LabelItem::BeforeHarvest
        } else {
            return None;
        };
        Some(Reason::LabelUnknown { missing })
    }
}

fn cautions(product: &Product) -> Vec<Caution> {
    let mut cautions = vec![Caution::LabelFirst, Caution::GlovesAndEyes, Caution::PeopleBeesWater];
    match product.active {
        Active::Sulfur => cautions.push(Caution::SulfurAndOil),
        Active::Copper => cautions.push(Caution::CopperBuildsUp),
        Active::Oil | Active::Other => {}
    }
    cautions.extend([Caution::ReEntryAndHarvest, Caution::LocalRules]);
    cautions
}

/// What keeps most of the daylight hours from suiting.
fn mostly_in_the_way(judged: &[JudgedHour]) -> Obstacle {
    judged
        .iter()
        .filter_map(|hour| hour.obstacle)
        .filter(|obstacle| {
            !matches!(obstacle, spray_hours::Obstacle::Dark | spray_hours::Obstacle::Inversion)
        })
        .fold(std::collections::BTreeMap::<_, u32>::new(), |mut counts, obstacle| {
            *counts.entry(obstacle).or_default() += 1;
            counts
        })
        .into_iter()
        .max_by_key(|(_, count)| *count)
        .map_or(Obstacle::WeatherUnknown, |(obstacle, _)| named(obstacle))
}

/// The tree with the least on its leaves.
fn thinnest<'t>(trees: &[&'t TreeOutlook]) -> Option<&'t TreeOutlook> {
    trees
        .iter()
        .copied()
        .min_by(|one, other| one.covered().partial_cmp(&other.covered()).unwrap_or(std::cmp::Ordering::Equal))
}

fn mark_due(advice: &mut SprayAdvice, trees: &[&TreeOutlook]) {
    for verdict in &mut advice.trees {
        if trees.iter().any(|tree| tree.tree.name == verdict.tree) {
            verdict.standing = Standing::Due;
        }
    }
}

fn mark_barred(advice: &mut SprayAdvice, barred: &[(&TreeOutlook, BrokenRule)]) {
    for verdict in &mut advice.trees {
        if let Some((_, rule)) = barred.iter().find(|(tree, _)| tree.tree.name == verdict.tree) {
            verdict.standing = Standing::Barred;
            verdict.reasons.insert(0, Reason::Rule { rule: rule.clone() });
        }
    }
}

/// Why trees are left alone, each reason once. What is true of some trees only is said of them by name, elsewhere.
fn leave_reasons(trees: &[&TreeOutlook]) -> Vec<Reason> {
    let of_one = |reason: &Reason| {
        matches!(
            reason,
            Reason::PickedOut { .. } | Reason::TooYoung | Reason::LeavesGone { .. } | Reason::Housed
        )
    };
    let of_all = |reason: &Reason| trees.iter().all(|tree| tree.reasons.contains(reason));
    let mut reasons: Vec<Reason> = Vec::new();
    for reason in trees.iter().flat_map(|tree| &tree.reasons) {
        // The crops of a garden end on different days; the last of them says it for all.
        let longer = reasons.iter_mut().find_map(|known| match (known, reason) {
            (
                Reason::TooLateToCost { horizon_days, .. },
                Reason::TooLateToCost { horizon_days: other, .. },
            ) => {
                *horizon_days = (*horizon_days).max(*other);
                Some(())
            }
            (
                Reason::LittleAtStake { until, leaves },
                Reason::LittleAtStake { until: other, leaves: others },
            ) => {
                *until = (*until).max(*other);
                *leaves = if others > leaves { *others } else { *leaves };
                Some(())
            }
            _ => None,
        });
        if longer.is_none() && !reasons.contains(reason) && (!of_one(reason) || of_all(reason)) {
            reasons.push(reason.clone());
        }
    }
    if reasons.is_empty() {
        reasons.extend(trees.iter().flat_map(|tree| &tree.reasons).take(1).cloned());
    }
    reasons
}

fn shown(window: SprayWindow) -> Window {
    Window {
        from: window.from,
        to: window.to,
        dry_after: window.dry_after,
        wind: window.wind,
        hottest: window.hottest,
    }
}

fn named(obstacle: spray_hours::Obstacle) -> Obstacle {
    use spray_hours::Obstacle as Hour;
    match obstacle {
        Hour::WeatherUnknown => Obstacle::WeatherUnknown,
        Hour::Dark => Obstacle::Dark,
        Hour::Inversion => Obstacle::Inversion,
        Hour::LeavesWet => Obstacle::LeavesWet,
        Hour::DryingTooShort => Obstacle::DryingTooShort,
        Hour::RainComing => Obstacle::RainComing,
        Hour::Calm => Obstacle::Calm,
        Hour::Wind => Obstacle::Wind,
        Hour::DryingConditions => Obstacle::DryingConditions,
        Hour::Cold => Obstacle::Cold,
        Hour::Heat => Obstacle::Heat,
        Hour::SulfurHeat => Obstacle::SulfurHeat,
    }
}

fn lower(one: Fraction, other: Fraction) -> Fraction {
    if other < one { other } else { one }
}

/// Rain on the way within a time.
impl Outlook<'_> {
    pub fn rain_within(&self, span: TimeDelta) -> Option<Millimetres> {
        let hours = self.weather.between(self.now, self.now + span);
        let rains = hours.iter().filter_map(|hour| hour.rain);
        rains.clone().next().map(|_| rains.sum())
    }
}
