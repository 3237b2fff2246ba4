//! Is it worth treating this tree? The rule of the trade and the computed one, side by side.

use chrono::{NaiveDate, TimeDelta};

use super::{Outlook, TreeOutlook, leaves::Leaves};
use crate::agronomy::{infection, sun};
use crate::season::answer::{Reason, Worth};
use crate::season::calendar::{local_date, season_of};
use crate::season::facts::Matter;
use crate::season::garden::{Bearing, CropTime};
use crate::season::journal::Stage;
use crate::units::{Celsius, Hemisphere, Hours};

/// Mean temperature the latent period is reckoned at where the forecast is unknown.
const USUAL_MEAN: Celsius = Celsius::new(20.0);

pub(super) fn judge(outlook: &Outlook, tree: &TreeOutlook) -> (Worth, Vec<Reason>) {
    if let Some(reason) = nothing_to_save(outlook, tree) {
        return (Worth::Leave, vec![reason]);
    }
    let mut reasons = Vec::new();
    let trade = by_trade(outlook, tree, &mut reasons);
    let mut computed = by_computation(outlook, tree, &mut reasons);
    // Where the trade would leave it, days alone do not make a spray worth while: leaves must be at stake. Where the
    // trade would protect, so does the verdict, and only an answer somebody waits for pays for the leaves.
    if trade == Worth::Leave
        && computed != Worth::Leave
        && let Some(stake) = outlook.leaves_at_stake(tree)
        && stake.leaves < outlook.thresholds().leaves_at_stake
    {
        computed = Worth::Leave;
        reasons.retain(|reason| *reason != Reason::CropAtStake);
        reasons.push(Reason::LittleAtStake { until: stake.until, leaves: stake.leaves });
    }
    if trade != computed {
        reasons.push(Reason::RulesDiffer { trade, computed });
    }
    // The cautious one protects the crop: a spray too many costs an hour, one too few the figs.
    (stronger(trade, computed), reasons)
}

/// Reasons that settle it whatever the calendar says.
fn nothing_to_save(outlook: &Outlook, tree: &TreeOutlook) -> Option<Reason> {
    let stage = tree.stage.map(|(_, stage)| stage);
    match outlook.in_leaf(stage) {
        Leaves::NotYet => return Some(Reason::Dormant),
        Leaves::Over => {
            return Some(match outlook.frost() {
                Some(frost) => Reason::DaysToFrost { days: frost.days, date: frost.date, basis: frost.basis },
                None => Reason::Dormant,
            });
        }
        Leaves::Out => {}
    }
    if tree.housed.is_some() {
        return Some(Reason::Housed);
    }
    match tree.stage {
        Some((at, Stage::PickedOut)) => {
            return Some(Reason::PickedOut { since: local_date(at, outlook.zone) });
        }
        Some((_, Stage::LeafFall | Stage::Dormant)) => return Some(Reason::Dormant),
        _ => {}
    }
    if tree.tree.bearing == Bearing::Young {
        return Some(Reason::TooYoung);
    }
    let gone = tree.leaf_drop.filter(|share| *share > outlook.thresholds().leaves_gone);
    gone.map(|share| Reason::LeavesGone { share })
}

/// 60, 45, 30 days before the usual first frost, with days shortening and nights cooling.
fn by_trade(outlook: &Outlook, tree: &TreeOutlook, reasons: &mut Vec<Reason>) -> Worth {
    let Some(frost) = outlook.frost() else {
        reasons.push(Reason::FrostUnknown);
        return Worth::Protect;
    };
    let limits = outlook.thresholds();
    let days = frost.days as f64;
    let shortening = outlook.shortening();
    let cooling = outlook.cooling();
    let light = tree.scouted.is_none_or(|look| look.severity < limits.rust_light);
    // Once the garden was told that the season is over, one warm spell does not open it again.
    let was_over = outlook.facts.told.iter().any(|told| {
        told.matter
            == Matter::SeasonOver { season: season_of(outlook.today, outlook.facts.garden.hemisphere()) }
    });
    let turning = shortening.is_some() && (cooling.is_some() || was_over);
    let leave = days <= limits.frost_close.value()
        || (days <= limits.frost_near.value() && turning)
        || (days <= limits.frost_in_sight.value() && turning && light);
    if !leave {
        return Worth::Protect;
    }
    reasons.push(Reason::DaysToFrost { days: frost.days, date: frost.date, basis: frost.basis });
    reasons.extend(shortening.map(|trend| Reason::Shortening { minutes_per_day: trend.value() * 60.0 }));
    reasons.extend(cooling.map(|delta| Reason::Cooling { delta }));
    Worth::Leave
}

/// Latent period, then two weeks to a month from first spots to serious leaf loss, against the days until the
/// last wanted fruit or an early freeze. What leaves are at stake is weighed after it.
fn by_computation(outlook: &Outlook, tree: &TreeOutlook, reasons: &mut Vec<Reason>) -> Worth {
    let limits = outlook.thresholds();
    let mean = outlook.mean_temperature(outlook.now, outlook.now + TimeDelta::days(7)).unwrap_or(USUAL_MEAN);
    let latent = infection::latent_period(mean);
    let crop = last_picking(tree.tree.crop, outlook);
    let freeze = outlook.frost().map(|frost| frost.early);
    let Some(until) = [crop, freeze].into_iter().flatten().min() else { return Worth::Protect };
    let horizon = (until - outlook.today).num_days();
    let worth = if (horizon as f64) <= (latent + limits.leaf_loss).value() {
        Worth::Leave
    } else if (horizon as f64) <= (latent + limits.leaf_loss_slow).value() {
        Worth::OnlyIfPressed
    } else {
        Worth::Protect
    };
    match worth {
        Worth::Leave => reasons.push(Reason::TooLateToCost { latent, horizon_days: horizon }),
        Worth::Protect if tree.scouted.is_some_and(|look| look.severity.value() > 0.0) => {
            reasons.push(Reason::CropAtStake);
        }
        Worth::Protect | Worth::OnlyIfPressed => {}
    }
    worth
}

/// The last day fruit of an early, middling or late tree is wanted, where nobody said. common practice,
/// northern calendar.
pub(super) fn last_picking(crop: CropTime, outlook: &Outlook) -> Option<NaiveDate> {
    let (month, day) = match crop {
        CropTime::Early => (9, 1),
        CropTime::Middle => (9, 25),
        CropTime::Late => (10, 20),
    };
    let garden = &outlook.facts.garden;
    let season = season_of(outlook.today, garden.hemisphere());
    let date = NaiveDate::from_ymd_opt(season, month, day)?;
    Some(match garden.hemisphere() {
        Hemisphere::North => date,
        Hemisphere::South => date + TimeDelta::days(182),
    })
}

fn stronger(one: Worth, other: Worth) -> Worth {
    let rank = |worth| match worth {
        Worth::Leave => 0,
        Worth::OnlyIfPressed => 1,
        Worth::Protect => 2,
    };
    if rank(one) >= rank(other) { one } else { other }
}

impl Outlook<'_> {
    /// By how much each day is shorter than the last, if days shorten.
    pub fn shortening(&self) -> Option<Hours> {
        let trend = sun::day_length_trend(self.today, self.facts.garden.position?)?;
        (trend < Hours::ZERO).then_some(-trend)
    }

    /// By how many kelvins the last ten days were cooler than the month before them, if they were. A month,
    /// so that one warm week in fall does not bring summer back.
    pub fn cooling(&self) -> Option<f64> {
        let span = TimeDelta::days(10);
        let recent = self.mean_temperature(self.now - span, self.now)?;
        let before = self.mean_temperature(self.now - span * 4, self.now - span)?;
        let cooler = before - recent;
        (cooler >= self.thresholds().cooling).then_some(cooler.value())
    }
}
