//! Convex shapes in plan: how deep two lie in each other, and what of one
//! lies behind the plane of the front.

/// A place in plan, in millimetres: along the front, and out from it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spot {
    /// Along the front.
    pub(super) aside: f64,
    /// Toward the room.
    pub(super) out: f64,
}

impl Spot {
    /// A place.
    pub(super) const fn new(aside: f64, out: f64) -> Self {
        Self { aside, out }
    }
}

/// Each corner with the next one round.
fn edges(shape: &[Spot]) -> impl Iterator<Item = (Spot, Spot)> {
    shape.iter().copied().zip(shape.iter().copied().cycle().skip(1))
}

/// From and to of a shape, seen along a direction.
fn shadow(shape: &[Spot], along: Spot) -> (f64, f64) {
    shape
        .iter()
        .map(|p| p.aside * along.aside + p.out * along.out)
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(from, to), at| (from.min(at), to.max(at)))
}

/// How deep two convex shapes lie in each other: the least overlap seen along
/// the edges of either (separating axes); nought or less where they are apart.
pub(super) fn shared(a: &[Spot], b: &[Spot]) -> f64 {
    let mut least = if a.is_empty() || b.is_empty() { 0.0 } else { f64::INFINITY };
    for (from, to) in edges(a).chain(edges(b)) {
        let (across, out) = (to.aside - from.aside, to.out - from.out);
        let long = across.hypot(out);
        if long <= 0.0 {
            continue;
        }
        let normal = Spot::new(-out / long, across / long);
        let ((a_from, a_to), (b_from, b_to)) = (shadow(a, normal), shadow(b, normal));
        least = least.min((a_to - b_from).min(b_to - a_from));
    }
    least
}

/// What of a convex shape lies at or behind the plane of the front.
pub(super) fn behind(shape: &[Spot]) -> Vec<Spot> {
    let mut kept = Vec::with_capacity(shape.len() + 1);
    for (from, to) in edges(shape) {
        if from.out <= 0.0 {
            kept.push(from);
        }
        if (from.out < 0.0 && to.out > 0.0) || (from.out > 0.0 && to.out < 0.0) {
            let part = from.out / (from.out - to.out);
            kept.push(Spot::new(from.aside + (to.aside - from.aside) * part, 0.0));
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(aside: f64, out: f64, long: f64) -> [Spot; 4] {
        [
            Spot::new(aside, out),
            Spot::new(aside + long, out),
            Spot::new(aside + long, out + long),
            Spot::new(aside, out + long),
        ]
    }

    /// A diamond whose point reaches 1 into a square: worked by hand.
    fn diamond(aside: f64, out: f64, half: f64) -> [Spot; 4] {
        [
            Spot::new(aside - half, out),
            Spot::new(aside, out - half),
            Spot::new(aside + half, out),
            Spot::new(aside, out + half),
        ]
    }

    #[test]
    fn shapes_that_touch_share_nothing() {
        assert!(shared(&square(0.0, 0.0, 2.0), &square(2.0, 0.0, 2.0)).abs() < 1e-12);
        assert!((shared(&square(0.0, 0.0, 2.0), &square(1.5, 1.0, 2.0)) - 0.5).abs() < 1e-12);
        assert!(shared(&square(0.0, 0.0, 2.0), &square(3.0, 0.0, 2.0)) < 0.0);
        assert!((shared(&square(0.0, 0.0, 4.0), &diamond(5.0, 2.0, 2.0)) - 1.0).abs() < 1e-12);
        // Boxes round both overlap; the diamond's slanted edge parts them.
        assert!(shared(&square(0.0, 0.0, 4.0), &diamond(5.5, 5.5, 2.0)) < 0.0);
    }

    #[test]
    fn a_diamond_is_cut_at_the_front() {
        let kept = behind(&diamond(0.0, 0.0, 1.0));
        assert_eq!(kept.len(), 3);
        let kept = behind(&diamond(0.0, 0.5, 1.0));
        let wide = kept.iter().map(|p| p.aside).fold(0.0, f64::max);
        assert!((wide - 0.5).abs() < 1e-12 && kept.len() == 3);
        assert!(behind(&diamond(0.0, 3.0, 1.0)).is_empty());
    }
}
