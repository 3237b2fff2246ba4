use serde::Deserialize;

use crate::forecast::json::{self, Scalar};
use crate::forecast::{ForecastError, Problem};

/// The grid cell a place lies in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GridPoint {
    /// The forecast office, as in `ALY`.
    pub office: String,
    pub x: u32,
    pub y: u32,
    /// As the IANA database names it.
    pub zone: Option<String>,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct Properties {
    grid_id: String,
    /// A text in answers before 2023.
    grid_x: Scalar,
    grid_y: Scalar,
    time_zone: Option<String>,
}

#[derive(Deserialize)]
struct Point {
    properties: Properties,
}

pub fn decode_point(bytes: &[u8]) -> Result<GridPoint, ForecastError> {
    let Point { properties } = json::parse(bytes)?;
    let whole = |number: &Scalar| {
        number
            .number()
            .filter(|number| number.fract() == 0.0 && (0.0..10_000.0).contains(number))
            .map(|it| it as u32)
    };
    let office = properties.grid_id;
    let (Some(x), Some(y)) = (whole(&properties.grid_x), whole(&properties.grid_y)) else {
        return Err(Problem::Form("its grid cell is no pair of whole numbers".to_owned()).into());
    };
    // It becomes part of an address.
    if office.is_empty() || !office.bytes().all(|byte| byte.is_ascii_alphanumeric()) {
        return Err(Problem::Form("its office is no short name".to_owned()).into());
    }
    Ok(GridPoint { office, x, y, zone: properties.time_zone })
}
