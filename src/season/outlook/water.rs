//! "Do I need to water?"

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};

use super::leaves::Leaves;
use super::{Outlook, TreeOutlook};
use crate::agronomy::evaporation::{self, Method};
use crate::agronomy::ground_water::{self, CropStage, GroundCover, RootZone, SoilKind, USUAL_DEPTH};
use crate::agronomy::pot_water::{self, Correction, Pot, TopCover};
use crate::season::answer::{
    HousedTree, LastWatering, TreeReasons, TreeWater, WaterAdvice, WaterAssumption, WaterReasons,
    WaterUrgency,
};
use crate::season::calendar::{local_date, midnight};
use crate::season::garden::{Footing, Mix, Shelter, Soil, Stand, Tree};
use crate::season::journal::MoistureState;
use crate::season::request::Selection;
use crate::season::selection::selected;
use crate::units::{
    Celsius, Elevation, Fraction, Hours, Litres, Metres, Millimetres, MillimetresPerDay, SquareMetres,
};

/// How far back a pot's water is followed. Longer ago than this it was surely watered unsaid.
const POT_DAYS: i64 = 4;
/// How far back a root zone is followed, from half its easy water.
const GROUND_DAYS: i64 = 30;
/// A pot of unknown size is taken as this. common practice: a 10-gallon pot.
const USUAL_POT: Litres = Litres::new(38.0);
/// A tree in the ground of unknown width.
const USUAL_CROWN: Metres = Metres::new(2.5);
/// What the grower's words mean in part of the available water. common practice.
const DRY: f64 = 0.05;
const MOIST: f64 = 0.65;

/// A local day's evaporation and rain.
#[derive(Clone, Copy)]
struct WaterDay {
    date: NaiveDate,
    from: DateTime<Utc>,
    to: DateTime<Utc>,
    evaporation: MillimetresPerDay,
    rain: Millimetres,
    method: Method,
}

impl Outlook<'_> {
    pub fn water_advice(&self, trees: &Selection) -> WaterAdvice {
        let wanted = selected(&self.facts.garden, trees);
        let days = self.water_days();
        let mut waters: Vec<TreeWater> = self
            .trees()
            .iter()
            .filter(|tree| wanted.contains(&tree.tree.name) && tree.housed.is_none())
            .map(|tree| self.tree_water(tree, &days))
            .collect();
        waters.sort_by(|one, other| {
            one.urgency.cmp(&other.urgency).then_with(|| hours(one).total_cmp(&hours(other)))
        });
        WaterAdvice {
            trees: waters,
            housed: self
                .trees()
                .iter()
                .filter(|tree| wanted.contains(&tree.tree.name))
                .filter_map(|tree| self.housed_tree(tree))
                .collect(),
            hottest: self.hottest_today(),
            rain_ahead: self.rain_within(TimeDelta::days(2)),
            age: self.age(),
        }
    }

    /// How a tree indoors stands, if it is there.
    pub fn housed_tree(&self, tree: &TreeOutlook) -> Option<HousedTree> {
        let since = tree.housed?;
        let watered = tree.history.watered.iter().rev().find(|watering| watering.at <= self.now);
        Some(HousedTree {
            tree: tree.tree.name.clone(),
            since: local_date(since, self.zone),
            bare: self.in_leaf(tree.stage.map(|(_, stage)| stage)) != Leaves::Out,
            watered: watered.map(|watering| local_date(watering.at, self.zone)),
        })
    }

    /// The sums behind the advice, for the same trees in the same order.
    pub fn water_reasons(&self, trees: &Selection) -> WaterReasons {
        let advice = self.water_advice(trees);
        let reasons = |water: TreeWater| {
            let tree = self.trees().iter().find(|tree| tree.tree.name == water.tree)?;
            let potted = matches!(tree.tree.stand, Stand::Pot { .. });
            let watered = tree.history.watered.iter().rfind(|watering| watering.at <= self.now);
            let since = watered.map(|watering| watering.at);
            let felt = tree.history.moisture.iter().rfind(|felt| since.is_none_or(|since| felt.at > since));
            Some(TreeReasons {
                holds: potted.then(|| pot_water::capacity(&self.pot(tree, &mut Vec::new()))),
                watered: watered.map(|watering| LastWatering {
                    date: local_date(watering.at, self.zone),
                    volume: watering.volume,
                }),
                felt: felt.map(|felt| felt.state),
                on_hot_paving: matches!(tree.tree.stand, Stand::Pot { ground_below: Footing::HotPaving, .. }),
                water,
            })
        };
        WaterReasons {
            trees: advice.trees.into_iter().filter_map(reasons).collect(),
            hottest: advice.hottest,
            rain_ahead: advice.rain_ahead,
            allowed: pot_water::DEPLETION,
            age: advice.age,
        }
    }

    /// The hottest hour of today still to come.
    pub fn hottest_today(&self) -> Option<Celsius> {
        let end = midnight(self.today + TimeDelta::days(1), self.zone);
        let hours = self.weather.between(self.now - TimeDelta::hours(1), end);
        hours.iter().filter_map(|hour| hour.temperature).reduce(Celsius::max)
    }

    pub fn water_of(&self, tree: &TreeOutlook) -> TreeWater {
        self.tree_water(tree, &self.water_days())
    }

    /// Spread of a pot's modelled water over the last weeks: how far it swung between full and dry.
    pub fn moisture_swing(&self, tree: &TreeOutlook) -> Option<Fraction> {
        let history = &tree.history;
        if history.watered.len() < 3 {
            return None;
        }
        let days = self.water_days();
        let levels: Vec<f64> = match &tree.tree.stand {
            Stand::Pot { .. } => {
                let pot = self.pot(tree, &mut Vec::new());
                history
                    .watered
                    .windows(2)
                    .map(|pair| {
                        let gap = Hours::from_duration(pair[1].at - pair[0].at).as_days();
                        let used = days.last().map_or(Litres::ZERO, |day| {
                            pot_water::use_a_day(&pot, day.evaporation) * gap.value()
                        });
                        (1.0 - used / pot_water::capacity(&pot)).clamp(0.0, 1.0)
                    })
                    .collect()
            }
            Stand::Ground { .. } => return None,
        };
        let lowest = levels.iter().copied().fold(1.0, f64::min);
        Some(Fraction::saturating(1.0 - lowest))
    }

    fn tree_water(&self, tree: &TreeOutlook, days: &[WaterDay]) -> TreeWater {
        if days.is_empty() {
            return unknown(&tree.tree);
        }
        match &tree.tree.stand {
            Stand::Pot { .. } => self.pot_advice(tree, days),
            Stand::Ground { soil, mulch, .. } => self.ground_advice(tree, *soil, *mulch, days),
        }
    }

    fn water_days(&self) -> Vec<WaterDay> {
        let Some(position) = self.facts.garden.position else { return Vec::new() };
        (-GROUND_DAYS..=2)
            .filter_map(|offset| {
                let date = self.today + TimeDelta::days(offset);
                let (from, to) = (midnight(date, self.zone), midnight(date + TimeDelta::days(1), self.zone));
                let hours = self.weather.between(from, to);
                let (evaporation, method) = evaporation::daily(hours, position, Elevation::ZERO, date)?;
                let rain = hours.iter().filter_map(|hour| hour.rain).sum();
                Some(WaterDay { date, from, to, evaporation, rain, method })
            })
            .collect()
    }

    fn pot_advice(&self, tree: &TreeOutlook, days: &[WaterDay]) -> TreeWater {
        let mut assumed = Vec::new();
        let pot = self.pot(tree, &mut assumed);
        let capacity = pot_water::capacity(&pot);
        let level = self.pot_level(tree, &pot, days, &mut assumed);
        let today = day_at(days, self.today);
        if today.is_some_and(|day| matches!(day.method, Method::EstimatedRadiation | Method::Hargreaves)) {
            assumed.push(WaterAssumption::EstimatedRadiation);
        }
        let used = today.map_or(Litres::ZERO, |day| pot_water::use_a_day(&pot, day.evaporation));
        let allowed = level - capacity * pot_water::DEPLETION.complement().value();
        let until = if used > Litres::ZERO {
            Hours::new(24.0 * (allowed.max(Litres::ZERO) / used))
        } else {
            Hours::new(240.0)
        };
        let lost = (capacity - level).max(capacity * pot_water::DEPLETION.value()).min(capacity);
        TreeWater {
            tree: tree.tree.name.clone(),
            potted: true,
            urgency: urgency(until),
            until_dry: Some(until),
            volume: Some(pot_water::to_apply(lost)),
            times_a_day: pot_water::times_a_day(&pot, used),
            left: Some(Fraction::saturating(level / capacity)),
            use_a_day: Some(used),
            drip: None,
            assumed,
        }
    }

    fn pot(&self, tree: &TreeOutlook, assumed: &mut Vec<WaterAssumption>) -> Pot {
        let Stand::Pot { volume, mix, shelter, mulch, ground_below } = &tree.tree.stand else {
            return usual_pot();
        };
        let size = volume.unwrap_or_else(|| {
            assumed.push(WaterAssumption::PotSize);
            USUAL_POT
        });
        let width = tree.tree.width.unwrap_or_else(|| {
            assumed.push(WaterAssumption::Width);
            pot_water::usual_width(size)
        });
        let by_mix = match mix {
            Mix::CoarseBark => pot_water::COARSE_BARK,
            Mix::Ordinary => pot_water::ORDINARY,
            Mix::Peat => pot_water::PEAT,
        };
        let available = weighed(tree).map_or(by_mix, |water| Fraction::saturating(water / size));
        Pot {
            volume: size,
            available,
            width,
            coefficient: match (shelter, ground_below) {
                (_, Footing::HotPaving) => pot_water::HOT_PAVING,
                (Shelter::FromRain, Footing::Soft) => pot_water::SHELTERED,
                (Shelter::Open, Footing::Soft) => pot_water::USUAL,
            },
            leaves: self.leaves_left(tree),
            cover: if mulch.is_some() { TopCover::Mulched } else { TopCover::Bare },
            correction: Correction::NONE,
        }
    }

    /// Leaves still on, by what was reported dropped; none out of leaf.
    fn leaves_left(&self, tree: &TreeOutlook) -> Fraction {
        if !self.leaves_out() {
            return Fraction::NONE;
        }
        tree.leaf_drop.map_or(Fraction::WHOLE, Fraction::complement)
    }

    /// Water in the pot now: from the last thing known of it, less what it used since, plus rain caught.
    fn pot_level(
        &self,
        tree: &TreeOutlook,
        pot: &Pot,
        days: &[WaterDay],
        assumed: &mut Vec<WaterAssumption>,
    ) -> Litres {
        let capacity = pot_water::capacity(pot);
        let since = self.now - TimeDelta::days(POT_DAYS);
        // What one message tells happened in the order it is told: the last number is the place among its moment.
        let mut placed: Vec<(DateTime<Utc>, usize, Mark)> = Vec::new();
        for watering in tree.history.watered.iter().filter(|watering| watering.at >= since) {
            let before = placed.iter().filter(|(at, ..)| *at == watering.at).count();
            placed.push((watering.at, 2 * before + 1, watering.volume.map_or(Mark::Full, Mark::Added)));
        }
        for felt in tree.history.moisture.iter().filter(|felt| felt.at >= since) {
            placed.push((felt.at, 2 * felt.after, Mark::Found(felt.state)));
        }
        placed.retain(|(at, ..)| *at <= self.now);
        placed.sort_by_key(|(at, place, _)| (*at, *place));
        let marks: Vec<(DateTime<Utc>, Mark)> = placed.into_iter().map(|(at, _, mark)| (at, mark)).collect();
        let (mut at, mut level) = match marks.first() {
            Some((at, _)) => (*at, capacity * MOIST),
            None => {
                assumed.push(WaterAssumption::LastWatering);
                (self.now - TimeDelta::hours(24), capacity)
            }
        };
        for (moment, mark) in marks {
            level = self.drained(tree, pot, days, level, at, moment);
            level = match mark {
                Mark::Full => capacity,
                Mark::Added(volume) => (level + volume).min(capacity),
                Mark::Found(MoistureState::Dry) => capacity * DRY,
                Mark::Found(MoistureState::Moist) => level.max(capacity * MOIST),
                Mark::Found(MoistureState::Wet) => capacity,
            };
            at = moment;
        }
        self.drained(tree, pot, days, level, at, self.now)
    }

    fn drained(
        &self,
        tree: &TreeOutlook,
        pot: &Pot,
        days: &[WaterDay],
        level: Litres,
        from: DateTime<Utc>,
        to: DateTime<Utc>,
    ) -> Litres {
        let capacity = pot_water::capacity(pot);
        let sheltered = matches!(tree.tree.stand, Stand::Pot { shelter: Shelter::FromRain, .. });
        let rain: Millimetres = if sheltered {
            Millimetres::ZERO
        } else {
            // None falls on a pot indoors, though it may have come out since.
            let hours = self.weather.between(from, to).iter();
            hours
                .filter(|hour| tree.history.housed_since(hour.start).is_none())
                .filter_map(|hour| hour.rain)
                .sum()
        };
        let caught = pot_water::rain_caught(
            pot_water::rim_of(pot.volume),
            rain,
            pot_water::INTERCEPTION.of(pot.leaves),
        );
        let mut left = level;
        for day in days {
            let (start, end) = (day.from.max(from), day.to.min(to));
            if end > start {
                let share = self.daylight_share(day.date, start, end);
                left -= pot_water::use_a_day(pot, day.evaporation) * share;
            }
        }
        (left + caught).max(Litres::ZERO).min(capacity)
    }

    /// The part of a day's evaporation that falls between two of its moments: it follows the sun, from an hour
    /// after sunrise to an hour after sunset, evenly. common practice.
    fn daylight_share(&self, date: NaiveDate, start: DateTime<Utc>, end: DateTime<Utc>) -> f64 {
        let light =
            self.facts.garden.position.and_then(|position| crate::agronomy::sun::daylight(date, position));
        let Some(light) = light else {
            return Hours::from_duration(end - start).value() / 24.0;
        };
        let (rise, set) = (light.sunrise + TimeDelta::hours(1), light.sunset + TimeDelta::hours(1));
        let overlap = (end.min(set) - start.max(rise)).max(TimeDelta::zero());
        Hours::from_duration(overlap).value() / Hours::from_duration(set - rise).value()
    }

    fn ground_advice(
        &self,
        tree: &TreeOutlook,
        soil: Soil,
        mulch: Option<Metres>,
        days: &[WaterDay],
    ) -> TreeWater {
        let mut assumed = Vec::new();
        let cover = if mulch.is_some() { GroundCover::Mulched } else { GroundCover::Bare };
        let zone = RootZone { soil: soil_kind(soil), depth: USUAL_DEPTH, mulch: cover };
        let width = tree.tree.width.unwrap_or_else(|| {
            assumed.push(WaterAssumption::Width);
            USUAL_CROWN
        });
        let ground = SquareMetres::new(std::f64::consts::FRAC_PI_4 * width.value() * width.value());
        let leaves = self.leaves_left(tree);
        let stage = if self.leaves_out() { CropStage::Middle } else { CropStage::Initial };
        let use_of = |day: &WaterDay| {
            let depth = day.evaporation.during(crate::units::Days::new(1.0));
            (depth, ground_water::crop_use(depth, stage, Fraction::WHOLE, leaves, cover))
        };
        let mut depletion = ground_water::readily_available(&zone, Millimetres::new(5.0)) * 0.5;
        for day in days.iter().filter(|day| day.date < self.today) {
            let (evaporation, used) = use_of(day);
            let watered = self.watered_on(tree, day.date, ground);
            depletion = ground_water::next_depletion(&zone, depletion, evaporation, used, day.rain, watered);
        }
        depletion = (depletion - self.watered_on(tree, self.today, ground)).max(Millimetres::ZERO);
        let used = day_at(days, self.today).map_or(Millimetres::ZERO, |day| use_of(day).1);
        let ready = ground_water::readily_available(&zone, used);
        let until = if used > Millimetres::ZERO {
            Hours::new(24.0 * ((ready - depletion).max(Millimetres::ZERO) / used))
        } else {
            Hours::new(240.0)
        };
        TreeWater {
            tree: tree.tree.name.clone(),
            potted: false,
            urgency: urgency(until),
            until_dry: Some(until),
            volume: Some(depletion.over(ground)),
            times_a_day: 1,
            left: Some(Fraction::saturating(1.0 - depletion / ground_water::total_available(&zone))),
            use_a_day: Some(used.over(ground)),
            drip: None,
            assumed,
        }
    }

    /// Water a tree in the ground was given on a date, as a depth over its ground. Watering without an amount
    /// is a soaking: taken as 20 mm. common practice.
    fn watered_on(&self, tree: &TreeOutlook, date: NaiveDate, ground: SquareMetres) -> Millimetres {
        const SOAKING: Millimetres = Millimetres::new(20.0);
        tree.history
            .watered
            .iter()
            .filter(|watering| local_date(watering.at, self.zone) == date)
            .map(|watering| match (watering.depth, watering.volume) {
                (Some(depth), _) => depth,
                (None, Some(volume)) => Millimetres::new(volume.value() / ground.value()),
                (None, None) => SOAKING,
            })
            .sum()
    }
}

/// Something known of a pot's water at a moment.
#[derive(Clone, Copy)]
enum Mark {
    Full,
    Added(Litres),
    Found(MoistureState),
}

fn weighed(tree: &TreeOutlook) -> Option<Litres> {
    let last = |wanted: MoistureState| {
        tree.history.weighed.iter().rev().find(|(_, _, state)| *state == wanted).map(|(_, mass, _)| *mass)
    };
    pot_water::weighed_capacity(last(MoistureState::Wet)?, last(MoistureState::Dry)?)
}

fn usual_pot() -> Pot {
    Pot {
        volume: USUAL_POT,
        available: pot_water::ORDINARY,
        width: pot_water::usual_width(USUAL_POT),
        coefficient: pot_water::USUAL,
        leaves: Fraction::WHOLE,
        cover: TopCover::Bare,
        correction: Correction::NONE,
    }
}

fn unknown(tree: &Tree) -> TreeWater {
    TreeWater {
        tree: tree.name.clone(),
        potted: tree.is_potted(),
        urgency: WaterUrgency::Unknown,
        until_dry: None,
        volume: None,
        times_a_day: 1,
        left: None,
        use_a_day: None,
        drip: None,
        assumed: Vec::new(),
    }
}

fn urgency(until: Hours) -> WaterUrgency {
    match until.value() {
        hours if hours <= 2.0 => WaterUrgency::Now,
        hours if hours <= 12.0 => WaterUrgency::Today,
        hours if hours <= 36.0 => WaterUrgency::Tomorrow,
        _ => WaterUrgency::Enough,
    }
}

fn hours(water: &TreeWater) -> f64 {
    water.until_dry.map_or(f64::INFINITY, Hours::value)
}

fn day_at(days: &[WaterDay], date: NaiveDate) -> Option<&WaterDay> {
    days.iter().rev().find(|day| day.date <= date)
}

fn soil_kind(soil: Soil) -> SoilKind {
    match soil {
        Soil::Sand => SoilKind::Sand,
        Soil::SandyLoam => SoilKind::SandyLoam,
        Soil::Loam => SoilKind::Loam,
        Soil::ClayLoam => SoilKind::ClayLoam,
    }
}
