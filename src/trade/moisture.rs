//! How damp wood gets in the air of a room.

use crate::measure::{Percent, Temperature};

/// The moisture that wood comes to in air of this temperature and humidity, in
/// percent of its dry weight.
///
/// Wood Handbook (FPL-GTR-190), ch. 4, Eq. 4-5 (Hailwood and Horrobin, two
/// hydrates), with the constants for degrees Fahrenheit. Held to 30 to 90 °F
/// and 1 to 95 % humidity, where it agrees with Table 4-2.
#[must_use]
pub fn equilibrium(temperature: Temperature, humidity: Percent) -> f64 {
    let t = (temperature.0.to_f64() * 1.8 + 32.0).clamp(30.0, 90.0);
    let h = (humidity.0.to_f64() / 100.0).clamp(0.01, 0.95);
    let w = 330.0 + 0.452 * t + 0.004_15 * t * t;
    let k = 0.791 + 0.000_463 * t - 0.000_000_844 * t * t;
    let k1 = 6.34 + 0.000_775 * t - 0.000_093_5 * t * t;
    let k2 = 1.09 + 0.0284 * t - 0.000_090_4 * t * t;
    let kh = k * h;
    let bound = (k1 * kh + 2.0 * k1 * k2 * kh * kh) / (1.0 + k1 * kh + k1 * k2 * kh * kh);
    1800.0 / w * (kh / (1.0 - kh) + bound)
}

/// How many points of moisture solid wood may be off what it is to be milled at:
/// one, which is as near as a meter with pins reads (common practice, no source).
pub const MOISTURE_WITHIN: i64 = 1;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Exact;

    fn at(fahrenheit: i64, humidity: i64) -> f64 {
        let temperature = Temperature::fahrenheit(Exact::int(fahrenheit));
        equilibrium(temperature, Percent(Exact::int(humidity)))
    }

    /// Wood Handbook, Table 4-2, columns 30, 50, 70, 80 and 90 °F (as
    /// reproduced by a timber dealer).
    #[test]
    fn agrees_with_the_published_table() {
        let table: [(i64, [f64; 5]); 15] = [
            (10, [2.6, 2.6, 2.5, 2.4, 2.3]),
            (20, [4.6, 4.6, 4.5, 4.4, 4.3]),
            (25, [5.5, 5.5, 5.4, 5.3, 5.1]),
            (30, [6.3, 6.3, 6.2, 6.1, 5.9]),
            (35, [7.1, 7.1, 6.9, 6.8, 6.7]),
            (40, [7.9, 7.9, 7.7, 7.6, 7.4]),
            (45, [8.7, 8.7, 8.5, 8.3, 8.1]),
            (50, [9.5, 9.5, 9.2, 9.1, 8.9]),
            (55, [10.4, 10.3, 10.1, 9.9, 9.7]),
            (60, [11.3, 11.2, 11.0, 10.8, 10.5]),
            (65, [12.4, 12.3, 12.0, 11.7, 11.5]),
            (70, [13.5, 13.4, 13.1, 12.9, 12.6]),
            (75, [14.9, 14.8, 14.4, 14.2, 13.9]),
            (80, [16.5, 16.4, 16.0, 15.7, 15.4]),
            (85, [18.5, 18.4, 17.9, 17.7, 17.3]),
        ];
        for (humidity, row) in table {
            for (temperature, printed) in [30, 50, 70, 80, 90].into_iter().zip(row) {
                let got = at(temperature, humidity);
                assert!(
                    (got - printed).abs() < 0.1,
                    "{temperature} F {humidity} %: {got} {printed}"
                );
            }
        }
    }

    /// Rule of thumb of the trade press (common practice): 30 % is about 6,
    /// 50 % about 9, 65 % about 12, 80 % about 16.
    #[test]
    fn agrees_with_the_rule_of_thumb() {
        for (humidity, moisture) in [(30, 6.0), (50, 9.0), (65, 12.0), (80, 16.0)] {
            assert!((at(70, humidity) - moisture).abs() < 0.3);
        }
    }
}
