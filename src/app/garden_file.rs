//! A garden written down in TOML: the settings a chat would make, in one file.

use std::path::Path;

use chrono::NaiveTime;
use serde::Deserialize;

use crate::identity::{PersonId, RoomId};
use crate::season::garden::{
    Active, Bearing, Carrier, CropTime, Footing, LabelListing, Listening, Mix, Rate, Role, Shelter, Soil,
    Susceptibility, UnitSystem, YearDay,
};
use crate::season::request::{Potted, ProductDetails, Setting, TreeDetails};
use crate::units::{Celsius, Days, Fraction, Hours, Litres, Metres, Position};

/// Why a garden file was refused, and what to change.
#[derive(Debug, thiserror::Error)]
pub enum GardenFileError {
    #[error("cannot read the garden file {path}: {source}; check the path")]
    Unreadable { path: String, source: std::io::Error },
    #[error("the garden file {path} is not right: {problem}\nconfig-example/garden.toml shows every key")]
    Wrong { path: String, problem: String },
}

pub fn load(path: &Path) -> Result<Vec<Setting>, GardenFileError> {
    let shown = path.display().to_string();
    let text = std::fs::read_to_string(path)
        .map_err(|source| GardenFileError::Unreadable { path: shown.clone(), source })?;
    read(&text).map_err(|problem| GardenFileError::Wrong { path: shown, problem })
}

/// The settings a garden file makes, in the order they are to be entered.
pub fn read(text: &str) -> Result<Vec<Setting>, String> {
    let file: File = toml::from_str(text).map_err(|error| error.to_string())?;
    let mut settings = vec![Setting::Name { name: file.name }];
    if let Some([latitude, longitude]) = file.position {
        let position = Position::new(latitude, longitude)
            .ok_or("position: latitude goes from -90 to 90 and longitude from -180 to 180")?;
        settings.push(Setting::Position { position: position.rounded(), place: file.place, zone: file.zone });
    }
    settings.extend(file.units.map(|units| Setting::Units { units: units.into() }));
    settings.extend(file.morning.map(|time| Setting::Morning { time }));
    settings.extend(year_day("first_frost", file.first_frost)?.map(|date| Setting::FirstFrost { date }));
    settings.extend(year_day("last_frost", file.last_frost)?.map(|date| Setting::LastFrost { date }));
    settings.extend(file.room.map(|room| Setting::Room { room: RoomId::new(room) }));
    if file.listen_to_everything {
        settings.push(Setting::Listening { listening: Listening::ToEverything });
    }
    for person in file.people {
        let name = person.name.unwrap_or_else(|| person.id.clone());
        settings.push(Setting::Person { id: PersonId::new(person.id), name, role: person.role.into() });
    }
    for tree in file.trees {
        settings.push(Setting::Tree(tree.details()?));
    }
    for product in file.products {
        settings.push(Setting::Product(product.details()?));
    }
    Ok(settings)
}

fn year_day(key: &str, text: Option<String>) -> Result<Option<YearDay>, String> {
    let Some(text) = text else { return Ok(None) };
    let parsed =
        text.split_once('-').and_then(|(month, day)| YearDay::new(month.parse().ok()?, day.parse().ok()?));
    parsed.map(Some).ok_or_else(|| {
        format!("{key}: \"{text}\" is not a day of the year; write it as \"11-15\" (month-day)")
    })
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    name: String,
    place: Option<String>,
    position: Option<[f64; 2]>,
    zone: Option<String>,
    units: Option<UnitsKey>,
    #[serde(default, deserialize_with = "time")]
    morning: Option<NaiveTime>,
    first_frost: Option<String>,
    last_frost: Option<String>,
    room: Option<String>,
    #[serde(default)]
    listen_to_everything: bool,
    #[serde(default)]
    people: Vec<PersonKeys>,
    #[serde(default)]
    trees: Vec<TreeKeys>,
    #[serde(default)]
    products: Vec<ProductKeys>,
}

fn time<'de, D: serde::Deserializer<'de>>(deserializer: D) -> Result<Option<NaiveTime>, D::Error> {
    let text = String::deserialize(deserializer)?;
    NaiveTime::parse_from_str(&text, "%H:%M")
        .map(Some)
        .map_err(|_| serde::de::Error::custom(format!("\"{text}\" is not a time; write it as \"07:00\"")))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PersonKeys {
    id: String,
    name: Option<String>,
    role: RoleKey,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TreeKeys {
    name: String,
    cultivar: Option<String>,
    pot_litres: Option<f64>,
    stands_in: Option<StandKey>,
    width_m: Option<f64>,
    bearing: Option<bool>,
    crop: Option<CropKey>,
    susceptibility: Option<SusceptibilityKey>,
    #[serde(default)]
    groups: Vec<String>,
    mix: Option<MixKey>,
    sheltered_from_rain: Option<bool>,
    on_hot_paving: Option<bool>,
    soil: Option<SoilKey>,
    mulch_cm: Option<f64>,
    compost_cm: Option<f64>,
}

impl TreeKeys {
    fn details(self) -> Result<TreeDetails, String> {
        let name = self.name;
        let positive = |key: &str, value: Option<f64>| match value {
            Some(value) if !(value.is_finite() && value > 0.0) => {
                Err(format!("tree \"{name}\": {key} must be more than nothing"))
            }
            value => Ok(value),
        };
        let volume = positive("pot_litres", self.pot_litres)?.map(Litres::new);
        let width = positive("width_m", self.width_m)?.map(Metres::new);
        let mulch = positive("mulch_cm", self.mulch_cm)?.map(|depth| Metres::new(depth / 100.0));
        let compost = positive("compost_cm", self.compost_cm)?.map(|depth| Metres::new(depth / 100.0));
        Ok(TreeDetails {
            cultivar: self.cultivar,
            potted: self.stands_in.map(Into::into).or(volume.map(|_| Potted::InPot)),
            volume,
            width,
            bearing: self.bearing.map(|bearing| if bearing { Bearing::Bearing } else { Bearing::Young }),
            crop: self.crop.map(Into::into),
            susceptibility: self.susceptibility.map(Into::into),
            groups: self.groups,
            mix: self.mix.map(Into::into),
            shelter: self
                .sheltered_from_rain
                .map(|sheltered| if sheltered { Shelter::FromRain } else { Shelter::Open }),
            footing: self.on_hot_paving.map(|hot| if hot { Footing::HotPaving } else { Footing::Soft }),
            soil: self.soil.map(Into::into),
            mulch,
            compost,
            name,
        })
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ProductKeys {
    name: String,
    active: ActiveKey,
    #[serde(default)]
    oil_based: bool,
    copper_percent: Option<f64>,
    rate_g_per_l: Option<f64>,
    rate_ml_per_l: Option<f64>,
    interval_days: Option<f64>,
    most_applications: Option<u32>,
    days_before_harvest: Option<f64>,
    hours_before_reentry: Option<f64>,
    hottest_c: Option<f64>,
    lists_figs: Option<bool>,
}

impl ProductKeys {
    fn details(self) -> Result<ProductDetails, String> {
        let name = self.name;
        let rate = match (self.rate_g_per_l, self.rate_ml_per_l) {
            (Some(_), Some(_)) => {
                return Err(format!("product \"{name}\": give rate_g_per_l or rate_ml_per_l, not both"));
            }
            (Some(grams), None) => Some(Rate::GramsPerLitre(grams)),
            (None, millilitres) => millilitres.map(Rate::MillilitresPerLitre),
        };
        let copper_content = match self.copper_percent {
            Some(percent) => Some(
                Fraction::from_percent(percent)
                    .ok_or_else(|| format!("product \"{name}\": copper_percent goes from 0 to 100"))?,
            ),
            None => None,
        };
        Ok(ProductDetails {
            active: Some(self.active.into()),
            carrier: Some(if self.oil_based { Carrier::Oil } else { Carrier::Water }),
            copper_content,
            rate,
            interval: self.interval_days.map(Days::new),
            most_applications: self.most_applications,
            before_harvest: self.days_before_harvest.map(Days::new),
            before_reentry: self.hours_before_reentry.map(Hours::new),
            hottest: self.hottest_c.map(Celsius::new),
            lists_figs: self
                .lists_figs
                .map(|listed| if listed { LabelListing::Listed } else { LabelListing::NotListed }),
            name,
        })
    }
}

/// A key of the file that stands for one of ours: kept apart so that neither can change the other unseen.
macro_rules! key {
    ($key:ident => $of:ident { $($name:literal $variant:ident),+ $(,)? }) => {
        #[derive(Deserialize)]
        enum $key {
            $(#[serde(rename = $name)] $variant),+
        }

        impl From<$key> for $of {
            fn from(key: $key) -> Self {
                match key {
                    $($key::$variant => $of::$variant),+
                }
            }
        }
    };
}
key!(UnitsKey => UnitSystem { "metric" Metric, "us" Us });
key!(RoleKey => Role { "keeper" Keeper, "helper" Helper });
key!(StandKey => Potted { "pot" InPot, "ground" InGround });
key!(CropKey => CropTime { "early" Early, "middle" Middle, "late" Late });
key!(SusceptibilityKey => Susceptibility {
    "susceptible" Susceptible, "tolerant" Tolerant, "resistant" Resistant,
});
key!(MixKey => Mix { "coarse bark" CoarseBark, "ordinary" Ordinary, "peat" Peat });
key!(SoilKey => Soil { "sand" Sand, "sandy loam" SandyLoam, "loam" Loam, "clay loam" ClayLoam });
key!(ActiveKey => Active { "copper" Copper, "sulfur" Sulfur, "oil" Oil, "other" Other });

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_example_is_read_whole() {
        let settings = read(include_str!("../../config-example/garden.toml")).expect("a garden");
        let trees = settings.iter().filter(|setting| matches!(setting, Setting::Tree(_))).count();
        assert!(trees >= 4, "{trees} trees");
    }

    #[test]
    fn what_is_wrong_is_named() {
        let rows = [
            ("name = 'Plot'\nfrist_frost = '11-15'", "unknown field `frist_frost`"),
            ("name = 'Plot'\nfirst_frost = '31-02'", "is not a day of the year"),
            ("name = 'Plot'\nposition = [95.0, 0.0]", "latitude goes from -90 to 90"),
            ("name = 'Plot'\nmorning = '7 o clock'", "is not a time"),
            ("place = 'Nowhere'", "missing field `name`"),
            ("name = 'Plot'\n[[trees]]\nname = 'A'\npot_litres = -3", "must be more than nothing"),
            ("name = 'Plot'\n[[products]]\nname = 'A'\nactive = 'magic'", "unknown variant `magic`"),
            (
                "name = 'Plot'\n[[products]]\nname = 'A'\nactive = 'oil'\nrate_g_per_l = 1\nrate_ml_per_l = 1",
                "not both",
            ),
        ];
        for (text, want) in rows {
            let problem = read(text).expect_err("it is wrong");
            assert!(problem.contains(want), "{problem:?} does not say {want:?}");
        }
    }
}
