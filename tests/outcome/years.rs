//! Years to grow in: Newark 2013 as it was, and a wet and a dry one made from it.

use leafhold::app::sample;
use leafhold::units::{Millimetres, RelativeHumidity};
use leafhold::weather::{Hour, Series};

pub(crate) fn newark() -> Series {
    sample::year().expect("the bundled year").series
}

/// Every rain doubled, and the air damper by a quarter of what is left to saturation.
pub(crate) fn wet() -> Series {
    changed(|hour| Hour {
        rain: hour.rain.map(|rain| rain * 2.0),
        humidity: hour
            .humidity
            .and_then(|humidity| RelativeHumidity::new(humidity.value() + (1.0 - humidity.value()) * 0.25)),
        dew_point: None,
        ..*hour
    })
}

/// A third of the rain, in single hours a few times a month, and air that never comes near to dew.
pub(crate) fn dry() -> Series {
    changed(|hour| {
        let shower = hour.start.timestamp() / 3600 % 9 == 0;
        Hour {
            rain: hour.rain.map(|rain| if shower { rain * 3.0 } else { Millimetres::ZERO }),
            humidity: hour.humidity.and_then(|humidity| RelativeHumidity::new(humidity.value() * 0.75)),
            dew_point: None,
            ..*hour
        }
    })
}

fn changed(change: impl Fn(&Hour) -> Hour) -> Series {
    Series::from_hours(newark().hours().iter().map(change))
}
