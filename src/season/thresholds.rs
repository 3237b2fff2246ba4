//! Limits the decisions turn on: named, with where each comes from, and changeable per garden where
//! growers differ. Labels and local law stand above them all.

use serde::Serialize;

use crate::units::{Celsius, CelsiusDelta, Days, Fraction, GramsPerSquareMetre, Hours, Millimetres};

#[derive(Clone, Debug, PartialEq)]
pub struct Thresholds {
    /// Sulfur and oil are kept this far apart, in either order. common practice; some guides say 30.
    pub sulfur_oil_apart: Days,
    /// ... and this far once it has been hot since the first of the two. common practice.
    pub sulfur_oil_apart_hot: Days,
    /// "Hot" for the rule above: sulfur injures leaves above it (Missouri Botanical Garden,
    /// "Pesticides: Sulfur", 85 °F).
    pub sulfur_hot: Celsius,
    /// No sulfur when the day or the two after reach it. common practice, 90 °F.
    pub sulfur_stop: Celsius,
    /// Metallic copper a year: 28 kg/ha in 7 years is 0.4 g/m² a year (Regulation (EU) 2018/1981).
    pub copper_yearly: GramsPerSquareMetre,
    /// Routine renewal of copper. University of Arkansas Plant Health Clinic note 28: 3 to 4 weeks.
    pub copper_interval: Days,
    /// ... and in rust weather. common practice: 10 to 14 days, within the label.
    pub copper_interval_rust: Days,
    /// Renewal of sulfur. common practice: 7 to 14 days, within the label.
    pub sulfur_interval: Days,
    pub sulfur_interval_rust: Days,
    /// Below this a spray no longer protects. Half, as the wash-off rules of thumb count
    /// (Ontario 2020, "Rainfastness of fungicides").
    pub cover_thin: Fraction,
    /// So much rain washes a protectant off, whatever the model says (same source: over 50 mm).
    pub washed_off: Millimetres,
    /// Days before the usual first frost within which rust no longer matters: at 30 surely, at 45 with
    /// nights cooling, at 60 with nights cooling and rust only light. common practice.
    pub frost_close: Days,
    pub frost_near: Days,
    pub frost_in_sight: Days,
    /// "Nights cooling": the mean of the last ten days is so much below that of the ten before. common practice.
    pub cooling: CelsiusDelta,
    /// From first spots to serious leaf loss (LSU AgCenter; University of Arkansas; UFV: 14 to 30 days).
    pub leaf_loss: Days,
    pub leaf_loss_slow: Days,
    /// Sprays that would save less than this of the green leaves until the crop is ripe save nothing of it. Of figs
    /// nothing is published; apples bore light to moderate leaf damage all season with no effect on crop or quality,
    /// and suffered from 75 % lost ("The influence of severity and time of foliar damage on yield and fruit quality in
    /// apple"). A tenth is a careful reading of that.
    pub leaves_at_stake: Fraction,
    /// Gone this far, leaves are past saving. common practice.
    pub leaves_gone: Fraction,
    /// Rust at this severity or more is no longer a trace: class 2 of the fig rust scale begins at 5.1 %
    /// (Silva et al. 2019).
    pub rust_light: Fraction,
    /// Weather older than this is said to be old.
    pub weather_old: Hours,
    /// Look at the leaves at least this often in rust weather. common practice: every 7 to 14 days.
    pub scout_every: Days,
    /// A day this hot wants pots looked at in the morning. common practice.
    pub heat_watering: Celsius,
    /// So much rain on ripe fruit splits it. common practice: 10 to 15 mm after dry soil.
    pub splitting_rain: Millimetres,
}

impl Default for Thresholds {
    fn default() -> Self {
        let half = Fraction::saturating(0.5);
        Self {
            sulfur_oil_apart: Days::new(14.0),
            sulfur_oil_apart_hot: Days::new(21.0),
            sulfur_hot: Celsius::new(29.0),
            sulfur_stop: Celsius::new(32.0),
            copper_yearly: GramsPerSquareMetre::new(0.4),
            copper_interval: Days::new(21.0),
            copper_interval_rust: Days::new(12.0),
            sulfur_interval: Days::new(10.0),
            sulfur_interval_rust: Days::new(8.0),
            cover_thin: half,
            washed_off: Millimetres::new(50.0),
            frost_close: Days::new(30.0),
            frost_near: Days::new(45.0),
            frost_in_sight: Days::new(60.0),
            cooling: CelsiusDelta::new(0.5),
            leaf_loss: Days::new(14.0),
            leaf_loss_slow: Days::new(30.0),
            leaves_at_stake: Fraction::saturating(0.1),
            leaves_gone: half,
            rust_light: Fraction::saturating(0.051),
            weather_old: Hours::new(12.0),
            scout_every: Days::new(10.0),
            heat_watering: Celsius::new(32.0),
            splitting_rain: Millimetres::new(10.0),
        }
    }
}

/// The limits a grower may set for their own garden.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Limit {
    SulfurOilDays,
    SulfurHottest,
    CopperYearly,
    SprayIntervalDays,
    ScoutEveryDays,
    HeatWatering,
}

impl Limit {
    /// The figures that make sense: days, °C, or g/m² a year.
    pub fn sensible(self) -> std::ops::RangeInclusive<f64> {
        match self {
            Limit::SulfurOilDays => 7.0..=60.0,
            Limit::SulfurHottest => 20.0..=38.0,
            Limit::CopperYearly => 0.01..=2.0,
            Limit::SprayIntervalDays => 3.0..=60.0,
            Limit::ScoutEveryDays => 2.0..=60.0,
            Limit::HeatWatering => 20.0..=45.0,
        }
    }
}

impl Thresholds {
    /// A figure outside what makes sense leaves the limit as it is; whoever reads it says so.
    pub fn set(&mut self, limit: Limit, value: f64) {
        if !limit.sensible().contains(&value) {
            return;
        }
        match limit {
            Limit::SulfurOilDays => {
                self.sulfur_oil_apart = Days::new(value);
                self.sulfur_oil_apart_hot = self.sulfur_oil_apart_hot.max(Days::new(value));
            }
            Limit::SulfurHottest => self.sulfur_stop = Celsius::new(value),
            Limit::CopperYearly => self.copper_yearly = GramsPerSquareMetre::new(value),
            Limit::SprayIntervalDays => {
                self.copper_interval_rust = Days::new(value);
                self.copper_interval = self.copper_interval.max(Days::new(value));
                self.sulfur_interval_rust = Days::new(value);
                self.sulfur_interval = self.sulfur_interval.max(Days::new(value));
            }
            Limit::ScoutEveryDays => self.scout_every = Days::new(value),
            Limit::HeatWatering => self.heat_watering = Celsius::new(value),
        }
    }
}
