//! Pure models of a fig, its weather and its rust: numbers in, numbers out, each formula with
//! its source. They know no garden, no present moment and no words.

pub mod air;
pub mod assessment;
pub mod canopy;
pub mod cover;
pub mod evaporation;
pub mod frost;
pub mod ground_water;
pub mod infection;
pub mod pot_water;
mod quantiles;
pub mod ripening;
pub mod spray_hours;
pub mod sun;
pub mod wetness;
