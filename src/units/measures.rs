//! US measures in metric ones, each defined once.
//!
//! # Source
//! NIST Handbook 44, appendix C: the gallon is 231 cubic inches of 2.54 cm, the pound 0.45359237 kg; all others here
//! are whole parts of them.

pub const LITRES_A_GALLON: f64 = 3.785_411_784;
pub const LITRES_A_QUART: f64 = LITRES_A_GALLON / QUARTS_A_GALLON;
pub const QUARTS_A_GALLON: f64 = 4.0;
pub const CUPS_A_GALLON: f64 = 16.0;
pub const FLUID_OUNCES_A_GALLON: f64 = 128.0;
pub const MILLILITRES_A_CUP: f64 = LITRES_A_GALLON * 1000.0 / CUPS_A_GALLON;
pub const MILLILITRES_A_FLUID_OUNCE: f64 = LITRES_A_GALLON * 1000.0 / FLUID_OUNCES_A_GALLON;
pub const MILLILITRES_A_TABLESPOON: f64 = MILLILITRES_A_FLUID_OUNCE / 2.0;
pub const MILLILITRES_A_TEASPOON: f64 = MILLILITRES_A_TABLESPOON / 3.0;
pub const GRAMS_A_POUND: f64 = 453.592_37;
pub const GRAMS_AN_OUNCE: f64 = GRAMS_A_POUND / 16.0;
pub const SQUARE_METRES_AN_ACRE: f64 = 4_046.856_422_4;

#[cfg(test)]
mod tests {
    use super::*;

    /// As the handbook prints them, rounded to its digits.
    #[test]
    fn parts_of_the_gallon_and_the_pound_are_as_printed() {
        let rows = [
            (LITRES_A_QUART, 0.946_352_946),
            (MILLILITRES_A_CUP, 236.588_236_5),
            (MILLILITRES_A_FLUID_OUNCE, 29.573_529_562_5),
            (MILLILITRES_A_TABLESPOON, 14.786_764_781_25),
            (MILLILITRES_A_TEASPOON, 4.928_921_593_75),
            (GRAMS_AN_OUNCE, 28.349_523_125),
        ];
        for (got, want) in rows {
            assert!((got - want).abs() < 1e-9, "{got} is not {want}");
        }
    }
}
