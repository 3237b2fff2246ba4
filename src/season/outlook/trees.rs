//! Each tree as it stands: cover, rust, stage, and whether protecting it pays.

use chrono::{DateTime, NaiveDate, Utc};

use super::{Outlook, worth};
use crate::agronomy::cover::{self, Cover, Deposit, Protectant};
use crate::season::answer::{Reason, Scouted, Worth};
use crate::season::calendar::local_date;
use crate::season::garden::{Active, Tree};
use crate::season::history::{Sprayed, TreeHistory};
use crate::season::journal::Stage;
use crate::season::questions::severity_of;
use crate::units::{Days, Fraction};

pub struct TreeOutlook {
    pub tree: Tree,
    pub history: TreeHistory,
    pub stage: Option<(DateTime<Utc>, Stage)>,
    pub cover: Option<Cover>,
    pub last_spray: Option<Sprayed>,
    /// The last look at its leaves this season.
    pub scouted: Option<Scouted>,
    pub leaf_drop: Option<Fraction>,
    /// Since when it stands indoors, if it does.
    pub housed: Option<DateTime<Utc>>,
    pub worth: Worth,
    pub reasons: Vec<Reason>,
}

impl TreeOutlook {
    /// Cover now, nothing where it was never sprayed.
    pub fn covered(&self) -> Fraction {
        self.cover.map_or(Fraction::NONE, |cover| cover.on_sprayed_leaves)
    }
}

pub(super) fn all(outlook: &Outlook) -> Vec<TreeOutlook> {
    outlook.facts.garden.trees.iter().map(|tree| one(outlook, tree)).collect()
}

fn one(outlook: &Outlook, tree: &Tree) -> TreeOutlook {
    let history = outlook.history.tree(&tree.name).cloned().unwrap_or_default();
    let start = outlook.season_start();
    let last_spray = history
        .sprays
        .iter()
        .rev()
        .find(|spray| protects(spray.active) && spray.at <= outlook.now && spray.at >= start)
        .cloned();
    let mut tree = TreeOutlook {
        stage: history.stage(start, outlook.now),
        cover: last_spray.as_ref().and_then(|spray| outlook.cover_of(spray, outlook.now)),
        last_spray,
        scouted: last_scouted(outlook, &history, start),
        leaf_drop: last_drop(&history, start),
        housed: history.housed_since(outlook.now).filter(|_| tree.is_potted()),
        worth: Worth::Protect,
        reasons: Vec::new(),
        tree: tree.clone(),
        history,
    };
    let (worth, reasons) = worth::judge(outlook, &tree);
    tree.worth = worth;
    tree.reasons = reasons;
    tree
}

/// Whether a spray of this kind protects leaves from rust. Oil does not.
pub(super) fn protects(active: Active) -> bool {
    matches!(active, Active::Copper | Active::Sulfur | Active::Other)
}

pub(super) fn protectant(active: Active) -> Protectant {
    match active {
        Active::Copper => Protectant::Copper,
        Active::Sulfur => Protectant::Sulfur,
        Active::Oil | Active::Other => Protectant::Other,
    }
}

fn last_scouted(outlook: &Outlook, history: &TreeHistory, start: DateTime<Utc>) -> Option<Scouted> {
    let look = history.scouted.iter().rev().find(|look| look.at >= start && look.at <= outlook.now)?;
    Some(Scouted {
        on: local_date(look.at, outlook.zone),
        amount: look.amount,
        severity: severity_of(look.amount),
    })
}

fn last_drop(history: &TreeHistory, start: DateTime<Utc>) -> Option<Fraction> {
    history.leaf_drop.iter().rev().find(|(at, _)| *at >= start).and_then(|(_, share)| *share)
}

impl Outlook<'_> {
    /// What a spray still covers at a moment, the rain forecast until then included.
    pub fn cover_of(&self, spray: &Sprayed, at: DateTime<Utc>) -> Option<Cover> {
        let deposit = Deposit { at: spray.at, protectant: protectant(spray.active) };
        // Trees sprayed together share their cover, and each is asked for more than once.
        let known = self
            .covers
            .borrow()
            .iter()
            .find(|(of, when, _)| *of == deposit && *when == at)
            .map(|known| known.2);
        known.unwrap_or_else(|| {
            let cover = self.reckon_cover(deposit, at);
            self.covers.borrow_mut().push((deposit, at, cover));
            cover
        })
    }

    pub(super) fn reckon_cover(&self, deposit: Deposit, at: DateTime<Utc>) -> Option<Cover> {
        cover::cover(deposit, self.weather.between(deposit.at - chrono::TimeDelta::hours(1), at), at)
    }

    /// Days since a date, counted as people count them.
    pub fn days_since(&self, date: NaiveDate) -> Days {
        Days::new((self.today - date).num_days() as f64)
    }
}
