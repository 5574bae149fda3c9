//! What boards weigh, and what a person lifts.

use crate::measure::{Exact, Length, Mass};

/// Specific gravity in thousandths of what nothing is known of: that of the
/// common cabinet hardwoods (Wood Handbook, Table 5-3b: cherry 0.50, sugar
/// maple 0.63).
pub const USUAL_GRAVITY: u32 = 600;

/// The moisture that every weight is worked out at, in percent: that of the
/// volume which the published specific gravities stand on (Wood Handbook, Table
/// 5-3b: oven-dry weight over the volume at 12 % moisture).
pub const BASIS: i64 = 12;

/// Kilograms in a cubic metre of solid wood or of a sheet at [`BASIS`]: gravity
/// × 1000 × 1.12 (Wood Handbook, ch. 4). One basis for all; a sheet, which
/// settles at about 8 %, is a little lighter in the room.
#[must_use]
pub fn density(gravity: u32) -> f64 {
    f64::from(gravity) * (100 + BASIS) as f64 / 100.0
}

/// How much lighter wood is at this moisture than at [`BASIS`], in percent of
/// its weight; negative where it is heavier. Its swelling is left out, about a
/// percent of its volume.
#[must_use]
pub fn lighter_at(moisture: f64) -> f64 {
    let basis = BASIS as f64;
    (basis - moisture) / (100.0 + basis) * 100.0
}

/// A volume in cubic millimetres and its density in kilograms to the cubic
/// metre, as kilograms.
#[must_use]
pub fn kilograms(volume: f64, density: f64) -> f64 {
    volume * density / 1e9
}

/// A board's volume in cubic millimetres.
#[must_use]
pub fn volume(length: Length, width: Length, thickness: Length) -> f64 {
    length.to_mm_f64() * width.to_mm_f64() * thickness.to_mm_f64()
}

/// Kilograms to the nearest gram; nothing for what is no number.
#[must_use]
pub fn grams(kilograms: f64) -> Mass {
    let grams = (kilograms * 1000.0).round();
    let most = 1e12;
    let counted = if grams.is_nan() { 0.0 } else { grams.clamp(-most, most) };
    Mass(Exact::ratio(counted as i64, 1000))
}

/// What one person may lift under the best conditions: 51 lb (23 kg), close
/// to the body, at the height of the knuckles, without a twist, now and then.
/// NIOSH 94-110, revised lifting equation, load constant.
#[must_use]
pub fn one_person() -> Mass {
    Mass(Exact::int(23))
}

/// What one person may lift of a thing so thick, measured from the body away: the hands
/// hold it 20 cm and half of its thickness before the ankles, and the limit is to
/// [`one_person`] as 25 cm to that (NIOSH 94-110, H = 20 + W/2, HM = 25/H).
#[must_use]
pub fn one_person_at(thick: Length) -> Mass {
    let hold = Length::mm(200) + thick.half();
    let share = Length::mm(250) / hold.max(Length::mm(250));
    Mass(one_person().0 * share)
}

/// What comes on top of the wood of a thing that is lifted: hardware, glue, and finish
/// are a tenth of it (common practice, no source).
#[must_use]
pub fn with_hardware(wood: Mass) -> Mass {
    Mass(wood.0 * Exact::ratio(11, 10))
}

/// What a team of two or of three may lift together: 33 kg (73 lb) and 37 kg
/// (83 lb), which are two thirds and half of the sum of 25 kg each, since a team
/// never shares a weight evenly, and more people rarely get a hold (UK guidance on
/// manual handling, team handling).
#[must_use]
pub fn team() -> [Mass; 2] {
    [Mass(Exact::int(33)), Mass(Exact::int(37))]
}

/// How a weight is carried.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Carry {
    /// By so many people, three at the most.
    People(i64),
    /// With a strap or a dolly, or in parts.
    Gear,
}

impl Carry {
    /// The same by two at least: one lifts, and the other looks that it comes down in its
    /// place.
    #[must_use]
    pub fn with_a_second(self) -> Self {
        match self {
            Self::People(count) => Self::People(count.max(2)),
            Self::Gear => Self::Gear,
        }
    }
}

/// How a weight is carried by the published figures, of a thing so thick where it is
/// thinnest.
#[must_use]
pub fn carry(mass: Mass, thick: Length) -> Carry {
    let [two, three] = team();
    let limits = [(1, one_person_at(thick)), (2, two), (3, three)];
    let enough = limits.into_iter().find(|(_, most)| mass.0 <= most.0);
    enough.map_or(Carry::Gear, |(people, _)| Carry::People(people))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Wood Handbook, Table 5-3b worked: white oak 762 kg/m³, 47.5 lb/ft³;
    /// 1-1/2 in of it weighs 5.9 lb on a square foot.
    #[test]
    fn boards_weigh_what_their_density_says() {
        assert!((density(680) - 762.0).abs() < 1.0);
        let foot = Length::inches(12, 1);
        let top = volume(foot, foot, Length::inches(3, 2));
        let pounds = kilograms(top, density(680)) / 0.453_592_37;
        assert!((pounds - 5.9).abs() < 0.1, "{pounds}");
    }

    /// Wood Handbook, ch. 4, worked: 100 of dry wood weigh 112 at 12 % and 107.7
    /// at 7.7 %: 4.3 of 112, 3.8 %.
    #[test]
    fn dry_wood_is_lighter() {
        assert!((lighter_at(7.7) - 3.84).abs() < 0.01);
        assert!(lighter_at(14.0) < 0.0);
    }

    /// NIOSH 94-110: load constant 51 lb, 23 kg.
    #[test]
    fn more_than_the_constant_takes_two() {
        assert_eq!(carry(Mass::pounds(Exact::int(50)), THIN), Carry::People(1));
        assert_eq!(carry(Mass::pounds(Exact::int(52)), THIN), Carry::People(2));
        assert_eq!(carry(Mass(Exact::ZERO), THIN), Carry::People(1));
    }

    /// A door, which is held close.
    const THIN: Length = Length::mm(20);

    /// NIOSH 94-110, worked: a box 56 cm thick is held 20 + 28 = 48 cm away, so that 23
    /// kg become 23 × 25 / 48 = 11.98.
    #[test]
    fn what_is_thick_is_held_far_away() {
        let limit = one_person_at(Length::mm(560)).0.to_f64();
        assert!((limit - 11.98).abs() < 0.01, "{limit}");
        assert_eq!(one_person_at(Length::mm(100)), one_person());
        assert_eq!(carry(Mass(Exact::int(12)), Length::mm(560)), Carry::People(2));
        assert_eq!(carry(Mass(Exact::int(11)), Length::mm(560)), Carry::People(1));
        assert_eq!(with_hardware(Mass(Exact::int(20))), Mass(Exact::int(22)));
    }

    /// UK guidance: 25 kg each, two thirds of the sum for two (33 kg, 73 lb), half
    /// of it for three (37 kg, 83 lb).
    #[test]
    fn a_team_lifts_less_than_its_people() {
        let [two, three] = team();
        assert!(
            two.0 <= Exact::ratio(2 * 25 * 2, 3)
                && two.0 > Exact::ratio(2 * 25 * 2, 3) - Exact::ONE
        );
        assert!(
            three.0 <= Exact::ratio(3 * 25, 2) && three.0 > Exact::ratio(3 * 25, 2) - Exact::ONE
        );
        assert_eq!(carry(Mass(Exact::int(33)), THIN), Carry::People(2));
        assert_eq!(carry(Mass(Exact::int(37)), THIN), Carry::People(3));
        assert_eq!(carry(Mass(Exact::int(38)), THIN), Carry::Gear);
    }
}
