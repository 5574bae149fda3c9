use proptest::prelude::*;

use super::*;
use crate::trade::butt_gap;

const SQUARE: Angle = Angle(Exact::int(90));

fn pin(ahead: Length) -> Pivot {
    Pivot::Pin { ahead }
}

fn inches(numer: i64, denom: i64) -> Length {
    Length::inches(numer, denom)
}

fn leaf(wide: i64, ahead: Length) -> Leaf {
    Leaf::new(inches(wide, 1), inches(3, 4), &pin(ahead))
}

fn pose(at: i64, out: i64, aside: i64) -> Pose {
    Pose { at: Angle(Exact::int(at)), out: Length::mm(out), aside: Length::mm(aside) }
}

fn near(spot: Spot, aside: f64, out: f64) -> bool {
    (spot.aside - aside).abs() < 1e-9 && (spot.out - out).abs() < 1e-9
}

/// Plane geometry, worked by hand, for a leaf 3/4 thick on a corner. Square to the
/// front it stands over the opening by its thickness. At 105 degrees its back corner
/// at the hinge edge is 3/4 × sin 105 = 0.7244 over; at 85 degrees that at the lead edge
/// of a leaf 10 wide is 10 × cos 85 + 3/4 × sin 85 = 0.8716 + 0.7471 = 1.6187 over.
/// Poses that carry the corner 5 mm aside add that.
#[test]
fn an_open_leaf_stands_over_its_opening() {
    for (wide, at, over) in [(18, 90, 0.75), (18, 105, 0.7244), (10, 85, 1.6187)] {
        let got = leaf(wide, Length::ZERO).stands_over(Angle(Exact::int(at)));
        assert!((got.in_unit(Unit::Inch).to_f64() - over).abs() < 0.0002, "{at}: {got:?}");
    }
    let poses = Pivot::Poses(vec![pose(0, 0, 0), pose(90, 20, 5)]);
    let carried = Leaf::new(Length::mm(400), Length::mm(19), &poses);
    assert_eq!(carried.stands_over(SQUARE), Length::mm(24));
}

/// Plane geometry, worked by hand: √(W² + t² + 2pt) − W in inches.
#[test]
fn a_pin_needs_the_gap_of_the_formula() {
    for (wide, ahead, gap) in [
        (18, Length::ZERO, 0.0156),
        (15, Length::ZERO, 0.0188),
        (24, Length::ZERO, 0.0117),
        (18, inches(3, 16), 0.0234),
    ] {
        let got = leaf(wide, ahead).gap_needed(Edge::Lead, SQUARE);
        assert!((got.in_unit(Unit::Inch).to_f64() - gap).abs() < 0.0001, "{wide}: {got:?}");
        assert_eq!(leaf(wide, ahead).gap_needed(Edge::Hinge, SQUARE), Length::ZERO);
    }
}

/// Without any gap the bevel is atan(t / 2W): 1.2 degrees for 18 by 3/4.
#[test]
fn a_bevel_takes_the_place_of_the_gap() {
    let bevel = leaf(18, Length::ZERO).back_bevel(Edge::Lead, Length::ZERO, SQUARE);
    assert_eq!(bevel, Some(Angle(Exact::ratio(12, 10))));
    let enough = inches(1, 32);
    let none = leaf(18, Length::ZERO).back_bevel(Edge::Lead, enough, SQUARE);
    assert_eq!(none, Some(Angle(Exact::ZERO)));
}

/// Worked by hand: square to the front, a leaf about a pin at its corner runs
/// out from the corner, its face toward the hinge side.
#[test]
fn a_leaf_turns_its_face_to_the_hinge_side() {
    let leaf = Leaf::new(Length::mm(400), Length::mm(20), &pin(Length::ZERO))
        .with_pull((Length::mm(350), Length::mm(370)), Length::mm(30));
    let [a, b, c, d] = leaf.corners(Body::Leaf, 90.0).try_into().unwrap();
    assert!(near(a, 0.0, 0.0) && near(b, 0.0, 400.0));
    assert!(near(c, 20.0, 400.0) && near(d, 20.0, 0.0));
    let [_, _, c, d] = leaf.corners(Body::Pull, 90.0).try_into().unwrap();
    assert!(near(c, -30.0, 370.0) && near(d, -30.0, 350.0));
    // A pin 5 ahead carries the corner 5 aside and 5 out.
    let ahead = Leaf::new(Length::mm(400), Length::mm(20), &pin(Length::mm(5)));
    assert!(near(ahead.corner(90.0), 5.0, 5.0));
}

#[test]
fn poses_are_read_between_their_lines() {
    let pivot = Pivot::Poses(vec![pose(0, 0, 0), pose(60, 6, -3), pose(120, 12, 9)]);
    assert_eq!(pivot.aside_when_square(), Length::mm(3));
    let leaf = Leaf::new(Length::mm(400), Length::mm(20), &pivot);
    assert!(near(leaf.corner(30.0), -1.5, 3.0));
    assert!(near(leaf.corner(150.0), 9.0, 12.0));
}

/// Worked by hand: the front corner goes 3 toward the hinge stile before it
/// comes out, so 3 it needs; a corner that comes out 4 at 45 degrees and not
/// aside lets the edge cross the front 4 · tan 45 = 4 away from the stile.
#[test]
fn a_corner_that_moves_to_the_stile_needs_room_there() {
    let toward = Pivot::Poses(vec![pose(0, 0, 0), pose(30, 0, -3), pose(90, 10, 5)]);
    let leaf = Leaf::new(Length::mm(400), Length::mm(20), &toward);
    assert_eq!(leaf.gap_needed(Edge::Hinge, SQUARE), Length::mm(3));
    assert_eq!(leaf.back_bevel(Edge::Hinge, Length::mm(2), SQUARE), None);
    let out = Pivot::Poses(vec![pose(0, 0, 0), pose(45, 4, 0), pose(90, 8, 0)]);
    let leaf = Leaf::new(Length::mm(400), Length::mm(20), &out);
    assert_eq!(leaf.gap_needed(Edge::Hinge, SQUARE), Length::ZERO);
    let within = behind(&leaf.bevelled(45.0, 0.0, 0.0));
    let least = within.iter().map(|spot| spot.aside).fold(f64::INFINITY, f64::min);
    assert!((least - 4.0).abs() < 1e-9);
}

fn hung(x: i64, by_right: bool, pull: (i64, i64), stands: i64) -> Hung {
    let leaf = Leaf::new(Length::mm(400), Length::mm(20), &pin(Length::ZERO))
        .with_pull((Length::mm(pull.0), Length::mm(pull.1)), Length::mm(stands));
    Hung::new(leaf, (Length::mm(x), Length::ZERO), by_right, SQUARE)
}

fn wall() -> Patch {
    Patch { x: (Length::mm(-1000), Length::ZERO), out: (Length::mm(-500), Length::mm(3000)) }
}

/// Worked by hand: a pull 40 high, 360 from the hinge, reaches 30 to the hinge
/// side where 360 cos θ − 40 sin θ = −30: at 88.4 degrees.
#[test]
fn a_pull_is_stopped_by_a_wall() {
    let door = |stands| hung(30, false, (360, 360), stands);
    let reached = door(40).stopped(Body::Pull, &wall(), Length::ZERO);
    assert_eq!(reached, Some(Angle(Exact::ratio(884, 10))));
    assert_eq!(door(30).stopped(Body::Pull, &wall(), Length::mm(1)), None);
    assert_eq!(door(40).stopped(Body::Leaf, &wall(), Length::ZERO), None);
    assert!(door(40).meets(Body::Pull, &wall(), Length::mm(1)));
    assert!(!door(40).meets(Body::Pull, &wall(), Length::mm(11)));
}

/// A rectangle in the leaf's way: its lead corner passes 100 out at
/// asin(100 / 400) = 14.4 degrees.
#[test]
fn a_leaf_is_stopped_by_what_stands_before_it() {
    let column =
        Patch { x: (Length::mm(300), Length::mm(500)), out: (Length::mm(100), Length::mm(200)) };
    let reached = hung(30, false, (360, 370), 30).stopped(Body::Leaf, &column, Length::ZERO);
    assert_eq!(reached, Some(Angle(Exact::ratio(144, 10))));
}

/// Two pulls of 30 between leaves 50 apart share 10.
#[test]
fn pulls_of_doors_back_to_back_meet() {
    let (left, right) = (hung(450, true, (340, 370), 30), hung(500, false, (340, 370), 30));
    for (a, b) in [(&left, &right), (&right, &left)] {
        assert!(a.meets_open(Body::Pull, b, Body::Pull, Length::mm(9)));
        assert!(!a.meets_open(Body::Pull, b, Body::Pull, Length::mm(11)));
        assert!(!a.meets_open(Body::Leaf, b, Body::Pull, Length::ZERO));
    }
    let nearer = hung(500, false, (300, 330), 30);
    assert!(!left.meets_open(Body::Pull, &nearer, Body::Pull, Length::ZERO));
}

fn poses() -> impl Strategy<Value = Pivot> {
    prop_oneof![
        (0i64..12).prop_map(|ahead| pin(Length::mm(ahead))),
        ((0i64..8, -3i64..8), (0i64..8, 0i64..8)).prop_map(|((out, aside), (more, on))| {
            Pivot::Poses(vec![
                pose(0, 0, 0),
                pose(45, out, aside),
                pose(90, out + more, aside + on),
            ])
        }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn the_moving_form_agrees_with_the_formula(wide in 60i64..900, thick in 6i64..40, ahead in 0i64..15) {
        let (wide, thick, ahead) = (Length::mm(wide), Length::mm(thick), Length::mm(ahead));
        let got = Leaf::new(wide, thick, &pin(ahead)).gap_needed(Edge::Lead, SQUARE);
        let formula = butt_gap(wide, thick, ahead);
        prop_assert!((got - formula).abs() <= Length::mm(1) / 500, "{got:?} {formula:?}");
    }

    #[test]
    fn a_thinner_leaf_never_needs_more(wide in 60i64..900, thick in 6i64..40, less in 1i64..6, pivot in poses()) {
        for edge in [Edge::Hinge, Edge::Lead] {
            let needs = |thick| Leaf::new(Length::mm(wide), Length::mm(thick), &pivot).gap_needed(edge, SQUARE);
            prop_assert!(needs(thick - less) <= needs(thick));
        }
    }

    #[test]
    fn the_bevel_clears_and_more_gap_asks_for_less(wide in 60i64..900, thick in 6i64..40, gap in 0i64..3, pivot in poses()) {
        let leaf = Leaf::new(Length::mm(wide), Length::mm(thick), &pivot);
        let bevel = |gap| leaf.back_bevel(Edge::Lead, gap, SQUARE);
        if let Some(angle) = bevel(Length::mm(gap)) {
            let reach = leaf.reach(Edge::Lead, angle.0.to_f64(), 90.0);
            prop_assert!(reach <= Length::mm(gap).to_mm_f64() + 1e-5);
            prop_assert!(bevel(Length::mm(gap + 1)).is_some_and(|more| more <= angle));
        }
    }

    #[test]
    fn what_is_mirrored_is_stopped_alike(x in -60i64..60, long in 1i64..300, out in -100i64..500, deep in 1i64..300, stands in 1i64..60, pivot in poses()) {
        let leaf = Leaf::new(Length::mm(400), Length::mm(20), &pivot)
            .with_pull((Length::mm(350), Length::mm(370)), Length::mm(stands));
        let place = |by_right| Hung::new(leaf.clone(), (Length::ZERO, Length::ZERO), by_right, SQUARE);
        let out = (Length::mm(out), Length::mm(out + deep));
        let patch = Patch { x: (Length::mm(x), Length::mm(x + long)), out };
        let mirrored = Patch { x: (Length::mm(-x - long), Length::mm(-x)), out };
        for body in [Body::Leaf, Body::Pull] {
            let here = place(false).stopped(body, &patch, Length::ZERO);
            prop_assert_eq!(here, place(true).stopped(body, &mirrored, Length::ZERO));
            let closed = shared(&leaf.corners(body, 0.0), &place(false).seen(&patch)) > 0.0;
            if here.is_none() && !closed {
                prop_assert!(!place(false).meets(body, &patch, Length::ZERO));
            }
        }
    }

    #[test]
    fn nothing_of_a_leaf_leaves_its_box(
        wide in 60i64..900,
        thick in 6i64..40,
        pull in (-20i64..900, 0i64..60, 0i64..90),
        pivot in poses(),
        up_to in 1u8..=180,
        part in 0.0..=1.0,
    ) {
        let (near, long, stands) = pull;
        let leaf = Leaf::new(Length::mm(wide), Length::mm(thick), &pivot)
            .with_pull((Length::mm(near), Length::mm(near + long)), Length::mm(stands));
        let up_to = f64::from(up_to);
        for body in [Body::Leaf, Body::Pull] {
            let [low, _, high, _] = leaf.sweep(body, up_to);
            for spot in leaf.corners(body, up_to * part) {
                prop_assert!(low.aside - 1e-9 <= spot.aside && spot.aside <= high.aside + 1e-9);
                prop_assert!(low.out - 1e-9 <= spot.out && spot.out <= high.out + 1e-9);
            }
        }
    }
}
