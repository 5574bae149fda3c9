//! Furniture on posts: figures worked by hand.

use casewright::measure::Length;
use casewright::papers;
use casewright::parts::{Direction, Face, Feature, FeatureKind, Part, Parts};

use crate::support::{compile, packet, spec};

fn inches(top: i64, bottom: i64) -> Length {
    Length::inches(top, bottom)
}

fn made(text: &str) -> Parts {
    let compiled = compile(text);
    let slugs: Vec<_> = compiled.diagnostics.iter().map(|found| found.slug).collect();
    assert!(slugs.is_empty(), "{slugs:?}");
    compiled.parts.expect("parts")
}

/// A short piece of the reference with what it uses written into it.
fn example(slug: &str) -> String {
    let read = |name: &str| spec(&format!("examples/{name}.case"));
    let shared = read("shop");
    read(slug).replace("use \"shop.case\"\n", &shared.replace("units in\n", ""))
}

fn paper(text: &str, name: &str) -> String {
    let packet = papers::packet(&compile(text)).expect("papers");
    packet.into_iter().find(|file| file.name == name).expect("the paper").text
}

fn part<'p>(parts: &'p Parts, path: &str) -> &'p Part {
    parts.all.iter().find(|part| part.path == path).unwrap_or_else(|| panic!("no {path}"))
}

/// Length, width, and thickness.
fn size(parts: &Parts, path: &str) -> [Length; 3] {
    let part = part(parts, path);
    [&part.length, &part.width, &part.thickness].map(|size| size.length)
}

/// From the top of a post down to where a cut begins and to where it ends, how deep it
/// is, and the face it is in.
fn down(post: &Part, cut: &Feature) -> (Length, Length, Length, String) {
    let long = post.length.length;
    (long - cut.u.1, long - cut.u.0, cut.deep, post.face_name(cut.face))
}

/// The stand is 26 high on posts of 1-3/4, and its lower rails begin 7 up.
///
/// On the inside face the rails of the frame, 1-1/2 wide, come in: the top one has its
/// tenon set in by a third, 1/2, so its mortise goes from 1/2 to 1-1/2 down; the bottom one
/// lies from 26 − 7 − 1-1/2 = 17-1/2 to 19 down. Both are 1 + 1/16 deep.
///
/// On the back face the rails of the end, 2-1/2 wide, come in. A third is 27/32, and the
/// groove of the panel takes 3/8 from the other edge: the upper mortise goes from 27/32 to
/// 2-1/2 − 3/8 = 2-1/8 down. The lower rail lies from 16-1/2 to 19 down, so its mortise
/// goes from 16-1/2 + 3/8 = 16-7/8 to 19 − 27/32 = 18-5/32. The groove goes from one to the
/// other, from 2-1/8 to 16-7/8, and is 3/8 deep.
#[test]
fn a_front_post_has_its_mortises_on_two_faces() {
    let parts = made(&spec("fern-bank-stand.case"));
    let post = part(&parts, "stand.front-left-post");
    assert_eq!(size(&parts, "stand.front-left-post"), [inches(26, 1), inches(7, 4), inches(7, 4)]);
    let mut cuts: Vec<_> = post.features.iter().map(|cut| down(post, cut)).collect();
    cuts.sort();
    let (inside, back) = ("inside face".to_owned(), "back face".to_owned());
    let deep = inches(17, 16);
    assert_eq!(
        cuts,
        [
            (inches(1, 2), inches(3, 2), deep, inside.clone()),
            (inches(27, 32), inches(17, 8), deep, back.clone()),
            (inches(17, 8), inches(135, 8), inches(3, 8), back.clone()),
            (inches(135, 8), inches(581, 32), deep, back),
            (inches(35, 2), inches(19, 1), deep, inside),
        ]
    );
}

/// The rails of the ends, 3/4 thick, stand back 1/4 from the outside faces of the posts,
/// so that their inside faces lie 1-3/4 − 1/4 − 3/4 = 3/4 behind those of the posts. Their
/// tenons are as thick as the panel, 0.205, and in the middle: in the post they begin
/// 3/4 + (3/4 − 0.205) / 2 = 1.0225 from the inside face. Those of the frame, a third of
/// its 3/4, lie 1/4 to 1/2 behind the front face, and those of the end reach to 1-3/4 −
/// 1-1/16 = 11/16 behind it: what is left between two that cross is 3/16.
#[test]
fn tenons_pass_each_other_in_a_post() {
    let parts = made(&spec("fern-bank-stand.case"));
    for side in ["left", "right"] {
        let post = part(&parts, &format!("stand.front-{side}-post"));
        let mortises = post.features.iter().filter(|own| own.kind == FeatureKind::Mortise);
        let space = |cut: &Feature| post.hollow(cut, cut.v);
        let (end, frame): (Vec<&Feature>, Vec<&Feature>) =
            mortises.partition(|own| own.face == Face::ThickEnd);
        assert_eq!((end.len(), frame.len()), (2, 2));
        let inside = match side {
            "left" => post.extent(Direction::X).1,
            _ => post.extent(Direction::X).0,
        };
        for cut in end {
            let own = space(cut);
            let far = match side {
                "left" => inside - own.to.x,
                _ => own.from.x - inside,
            };
            assert_eq!(far, inches(10_225, 10_000));
            assert_eq!(own.from.z, inches(11, 16));
        }
        for cut in frame {
            assert_eq!((space(cut).from.z, space(cut).to.z), (inches(1, 4), inches(1, 2)));
        }
    }
}

/// Between posts of 1-3/4 the rails of an end are 16 − 3-1/2 = 12-1/2 long at their
/// shoulders, and 14-1/2 with two tenons of 1. The panel goes 3/8 − 1/16 = 5/16 into each
/// groove: it is 26 − 7 − 2 × 2-1/2 + 5/8 = 14-5/8 long and 12-1/2 + 5/8 = 13-1/8 wide.
///
/// The bottom reaches from the inside face of one lower rail to the other, 24 − 2 × (1/4 +
/// 3/4) = 22, and from behind the frame of 3/4 to the back of 0.205: 15.045. At its front
/// corners it is notched by what the posts stand proud, 3/4, and by what they reach behind
/// the frame, 1-3/4 − 3/4 = 1.
#[test]
fn the_bottom_is_notched_around_the_posts() {
    let parts = made(&spec("fern-bank-stand.case"));
    let rail = [inches(29, 2), inches(5, 2), inches(3, 4)];
    assert_eq!(size(&parts, "stand.left-end-top-rail"), rail);
    assert_eq!(size(&parts, "stand.left-end-bottom-rail"), rail);
    let [long, wide, _] = size(&parts, "stand.left-end-panel");
    assert_eq!([long, wide], [inches(117, 8), inches(105, 8)]);
    let [long, wide, _] = size(&parts, "stand.bottom");
    assert_eq!([long, wide], [inches(22, 1), inches(15_045, 1000)]);
    let bottom = part(&parts, "stand.bottom");
    let notches: Vec<_> =
        bottom.features.iter().filter(|own| own.kind == FeatureKind::Notch).collect();
    assert_eq!(notches.len(), 4);
    let corner = ((Length::ZERO, inches(3, 4)), (Length::ZERO, inches(1, 1)));
    assert!(notches.iter().any(|own| (own.u, own.v) == corner));
}

/// The ends are glued up by themselves, and what goes between them after that. A panel has
/// its first coat before.
#[test]
fn ends_come_first() {
    let order = paper(&spec("fern-bank-stand.case"), "assembly-order.txt");
    let steps = [
        "Finish what you can't reach later",
        "Glue up the left end of stand",
        "Glue up the right end of stand",
        "Glue up the carcass of stand",
    ];
    let at =
        steps.map(|step| order.find(&format!("  {step}\n")).unwrap_or_else(|| panic!("{step}")));
    assert!(at.is_sorted(), "{at:?}");
    assert!(order.contains("LFP, LKP, LEBRL, LETRL, and LEPN as one"));
}

/// Each face of a post has its lines by itself.
#[test]
fn the_lines_of_a_post_name_their_face() {
    let layout = paper(&spec("fern-bank-stand.case"), "layout.txt");
    assert!(
        layout.contains("front left post, front right post, on the inside face: from the top end")
    );
    assert!(layout.contains("front left post, on the back face: from the top end"));
    assert!(layout.contains("back left post, on the front face: from the top end"));
}

/// The dresser is 36 wide and 18 deep on posts of 1-3/4; its ends are set back 1/4 and 3/4
/// thick. A web frame goes from post to post, 36 − 3-1/2 = 32-1/2, and its rails are screwed
/// there. Its outer runners reach 1-3/4 − 1/4 − 3/4 = 3/4 past its rails, out to the rails
/// of the ends: 2-1/2 + 3/4 = 3-1/4 wide, with tenons of 2-1/2. A guide of those 3/4 stands
/// there, behind the front post and up to the back one: 18 − 3-1/2 = 14-1/2 long.
#[test]
fn drawers_run_between_guides_behind_the_posts() {
    let parts = made(&spec("ropewalk-dresser.case"));
    let web = "dresser.web-upper-middle";
    let [long, wide, _] = size(&parts, &format!("{web}-front-rail"));
    assert_eq!([long, wide], [inches(65, 2), inches(5, 2)]);
    let runner = part(&parts, &format!("{web}-left-runner"));
    assert_eq!(runner.width.length, inches(13, 4));
    let tenon = runner.features.iter().find(|own| own.kind == FeatureKind::Tenon);
    let tenon = tenon.expect("a tenon");
    assert_eq!(tenon.u, (inches(3, 4), inches(13, 4)));
    let guide = part(&parts, "dresser.upper.left-guide");
    assert_eq!((guide.length.length, guide.thickness.length), (inches(29, 2), inches(3, 4)));
    assert_eq!(guide.extent(Direction::Z), (inches(7, 4), inches(65, 4)));
    assert_eq!(guide.extent(Direction::X), (inches(1, 1), inches(7, 4)));
    let rail = part(&parts, &format!("{web}-front-rail"));
    let pockets = rail.features.iter().filter(|own| matches!(own.kind, FeatureKind::Pockets(..)));
    // From below: the rail of the frame, 1 wide, hangs 1/4 below the web, and a drill passes it.
    let underside = rail.placement.face(Direction::Y, true);
    assert!(pockets.clone().all(|own| own.face == underside));
    assert_eq!(pockets.count(), 2);
    let order = paper(&spec("ropewalk-dresser.case"), "assembly-order.txt");
    assert!(!order.contains("plugs into the pocket holes"), "{order}");
}

/// A rail of 1-1/4 hangs 1/2 below a web of 3/4, and a drill under that hits it: where its chuck
/// begins it comes to 0.31 below the web. With nothing but a niche below, the holes would be seen
/// there, too. So they stay in the top, where drawers run, and are plugged. Over a drawer and on
/// posts of 2-1/2 there are 2-1/2 − 3/4 = 1-3/4 of post behind the frame: one pocket has 1-5/16 to
/// the frame, beside a drill of 2-1/2, and 7/16 to the back of the post. From the back edge of a
/// rail that is 3 wide, that is 1-11/16.
#[test]
fn pockets_of_a_web_are_bored_from_below_behind_the_drill_or_plugged() {
    let told = "glue plugs into the pocket holes in the top faces of";
    let order = paper(CONSOLE, "assembly-order.txt");
    assert!(order.contains(told), "{order}");
    assert_eq!(crate::bench::built(&compile(CONSOLE)), Vec::<String>::new());
    let mut open = packet(&compile(CONSOLE));
    open["operations"].as_array_mut().unwrap().retain(|own| own["kind"] != "plug pockets");
    let found = crate::bench::complaints(&open.to_string());
    assert!(found.iter().any(|own| own.contains("runs over its open pocket holes")), "{found:?}");
    let deep = CONSOLE
        .replace(
            "thickness 1-3/4; species black-cherry; sawn rift",
            "thickness 2-1/2; species black-cherry; sawn rift",
        )
        .replace("lumber 8/4", "lumber 12/4")
        .replace("open niche { share 1 }", "drawer low { share 1 }")
        .replace("build web {", "build web { wide 3;");
    assert!(deep != CONSOLE);
    let compiled = compile(&deep);
    assert!(!paper(&deep, "assembly-order.txt").contains(told));
    let list = paper(&deep, "cut-list.txt");
    let rail = list.lines().find(|line| line.contains("web between top-row and low, front rail"));
    let rail = rail.unwrap_or_else(|| panic!("{list}"));
    assert!(rail.contains("in the underside, 1-11/16 from the back edge"), "{rail}");
    assert_eq!(crate::bench::built(&compiled), Vec::<String>::new());
}

/// A partition between two drawers over a web frame: it stands on the runner in its middle, and
/// comes in when that is there.
#[test]
fn a_partition_comes_in_when_it_has_something_to_stand_on() {
    let text = CONSOLE.replace("stile { wide 1-1/4; partition none }", "stile { wide 1-1/4 }");
    assert!(text != CONSOLE);
    let packet = packet(&compile(&text));
    let parts = packet["parts"].as_array().unwrap();
    let mark = |path: &str| {
        let own = parts.iter().find(|own| own["path"] == path).unwrap_or_else(|| panic!("{path}"));
        own["mark"].as_str().unwrap().to_owned()
    };
    let partition = mark("console.top-row.partition-left-right");
    let runner = mark("console.web-top-row-niche-middle-runner");
    let all = packet["operations"].as_array().unwrap();
    let joins = all.iter().filter(|own| own["kind"] == "join");
    let came = |mark: &str, moves: &[serde_json::Value]| {
        moves.iter().position(|own| own["parts"].as_array().unwrap().iter().any(|own| own == mark))
    };
    let mut both = joins.filter_map(|own| {
        let moves = own["moves"].as_array()?;
        Some((came(&runner, moves)?, came(&partition, moves)?))
    });
    // Whatever is joined after that moves with the whole case.
    let (runner, partition) = both.next().expect("a join of both");
    assert!(runner < partition, "{runner} and {partition}");
}

/// The front rail of a web frame begins behind the frame of 3/4, so that it meets a post of
/// 1-3/4 by 1 in, with one pocket in the middle of that: 1/2 from its front edge, and 2 from
/// its back edge, which is marked, of its 2-1/2. The printed place is what the shop drives
/// a screw at: there is room for a bit behind the rail of the frame.
#[test]
fn a_web_is_screwed_to_a_post_where_it_meets_it() {
    let packet = packet(&compile(&spec("ropewalk-dresser.case")));
    let marks = packet["parts"].as_array().unwrap().iter();
    let path = "dresser.web-upper-middle-front-rail";
    let mark = marks.filter(|own| own["path"] == path).map(|own| &own["mark"]).next();
    let shapes = packet["operations"].as_array().unwrap().iter();
    let own = shapes.filter(|own| own["kind"] == "shape" && own.get("part") == mark);
    let pockets: Vec<_> = own.map(|own| &own["pockets"]).collect();
    assert_eq!(pockets.len(), 2);
    for own in pockets {
        assert_eq!(
            (own["from"].as_str(), own["centers"][0]["print"].as_str()),
            (Some("back edge"), Some("2"))
        );
        assert_eq!(own["centers"].as_array().map(Vec::len), Some(1));
    }
}

/// The example of a cupboard: its posts are 1-3/4 square, and its ends are flush with their
/// inside faces.
///
/// A shelf lies behind the frame of 3/4 and stands back 1/4 more: its front edge is 1 behind
/// the front faces. The groove of the panel, 3/8 deep, begins 1-3/4 − 3/8 = 1-3/8 behind them,
/// and it lies (3/4 − 13/64) / 2 = 35/128, less than a hole is deep, behind the inside face: so
/// the row stays 2 mm before it, in the middle between 1 and 1-3/8 less 2 mm.
///
/// In a back post the groove reaches 3/8 from its front face. The back, 13/64, takes screws
/// that go in 5/8: the row lies in the middle between 1-3/4 − 3/8 less 2 mm, and 13/64 + 5/8
/// and 2 mm more, counted from the back face. The 2 mm cancel: (1-3/8 + 53/64) / 2 = 141/128.
#[test]
fn a_row_of_pins_stands_in_each_post() {
    let text = example("cupboard-on-posts");
    let compiled = compile(&text);
    let work = compiled.workings().expect("a piece");
    let [rows] = work.pin_rows() else { panic!("{:?}", work.pin_rows().len()) };
    let found: Vec<_> = rows
        .boards
        .iter()
        .map(|own| (own.part.mark.as_str(), own.part.face_name(own.face), own.rows))
        .collect();
    let inside = || "inside face".to_owned();
    let front = [Some(inches(19, 16) - Length::mm(1)), None];
    let back = [None, Some(inches(141, 128))];
    let expected = [
        ("LFP", inside(), front),
        ("LKP", inside(), back),
        ("RFP", inside(), front),
        ("RKP", inside(), back),
    ];
    assert_eq!(found, expected);
    // Two posts, less 1/16 on each side: 32 − 2 × 1-3/4 − 1/8.
    let parts = compiled.parts.as_ref().expect("parts");
    assert_eq!(size(parts, "cupboard.store.shelf")[0], inches(227, 8));
}

/// Each leaf hangs on the post beside it, and its hinges are 3 from the ends of the leaf:
/// 3 + 3/32 above an opening that begins 7 + 1-1/2 above the floor, 11-19/32 up the post.
#[test]
fn doors_hang_on_the_front_posts() {
    let compiled = compile(&example("cupboard-on-posts"));
    let work = compiled.workings().expect("a piece");
    let hinges = &work.fitting().hinges;
    let first: Vec<_> = hinges
        .iter()
        .filter(|own| own.number == 1)
        .map(|own| (own.holder.mark.as_str(), own.on_holder))
        .collect();
    assert_eq!(first, [("LFP", inches(371, 32)), ("RFP", inches(371, 32))]);
}

/// A fixed shelf goes 1/4 into the inside faces of the posts: 24 − 2 × 1-3/4 + 2 × 1/4 = 21.
/// In a front post its dado begins where the shelf does, 1 behind the front face, and runs out
/// at the back face; in a back post it stops before the back of 0.205.
#[test]
fn a_shelf_is_let_into_the_posts() {
    let text = spec("fern-bank-stand.case")
        .replace("open niche { share 1 }", "open niche { share 1; shelf { fixed 1 } }")
        .replace("  frame {", "  shelves { joint dado { deep 1/4 } }\n  frame {")
        + "\naccept shelf-short on stand.niche \"a basket stands there\"\n";
    let parts = made(&text);
    assert_eq!(size(&parts, "stand.niche.shelf")[0], inches(21, 1));
    let dado = |path: &str| {
        let post = part(&parts, path);
        let dado = post.features.iter().find(|own| own.kind == FeatureKind::Dado);
        let dado = dado.expect("a dado");
        let channel = post.channel(dado);
        (dado.v, dado.deep, channel.along, post.face_name(channel.datum))
    };
    let top = || "top end".to_owned();
    let quarter = inches(1, 4);
    let front = (inches(1, 1), inches(7, 4));
    assert_eq!(dado("stand.front-left-post"), (front, quarter, false, top()));
    let back = (Length::ZERO, inches(1545, 1000));
    assert_eq!(dado("stand.back-left-post"), (back, quarter, false, top()));
}

/// A floor of solid wood has no glue at the rails of the ends, and 1/8 to swell before the
/// back posts: its notches there are 3/4 by 1-3/4 − 13/64 + 1/8.
#[test]
fn a_floor_of_solid_wood_moves_toward_the_back() {
    let compiled = compile(&example("nightstand"));
    let parts = compiled.parts.as_ref().expect("parts");
    let bottom = part(parts, "stand.bottom");
    let deep = bottom.width.length;
    let behind: Vec<_> = bottom
        .features
        .iter()
        .filter(|own| own.kind == FeatureKind::Notch && own.v.1 == deep)
        .map(|own| (own.u.1 - own.u.0, own.v.1 - own.v.0))
        .collect();
    assert_eq!(behind, [(inches(3, 4), inches(107, 64)); 2]);
    let order = paper(&example("nightstand"), "assembly-order.txt");
    assert!(order.contains("B to LEBRL and REBRL: pocket screws, no glue"));
    assert!(order.contains("BRL to B: butt joint, glued"));
}

/// A console on posts of 1-3/4, whose two drawers run beside a stile with nothing behind it.
pub(crate) const CONSOLE: &str = "casework 1
job \"console\" { units in }
site { left open; right open; fixing wall; humidity 30% to 55% }
shop { humidity 42%; clamps 16; open-time 20 min }
stock cherry { lumber 4/4; thickness 3/4; species black-cherry; sawn quarter }
stock side   { lumber 4/4; thickness 1/2; species black-cherry; sawn quarter }
stock panel  { lumber 4/4; thickness 1/4; species black-cherry; sawn quarter }
stock leg    { lumber 8/4; thickness 1-3/4; species black-cherry; sawn rift }
stock thin   { plywood 1/4; actual 13/64; species black-cherry; sheet { long 96; wide 48 } }
slide on-wood { wooden { play 1/16 } }
pull knob { screw 5/32 }
finish oil { hardwax-oil; coats 2; cure 24 h }
case console {
  wide 40-1/2; deep 13; high 29-1/4
  stock cherry
  base { posts { stock leg }; high 6 }
  ends { build panel { rail 2-1/4; panel-stock panel; set-back 1/4 } }
  bottom { joint pocket; flush }
  back none
  partitions { joint screw }
  top { stretchers 2 { wide 3 } }
  countertop { stock cherry; over 3/4 { back 0 } }
  shelves { build web { panel-stock thin } }
  frame {
    stock cherry; joint tenon { long 1 }
    rail top { wide 1-1/4 }; rail bottom { wide 1-1/2 }
    down {
      across top-row {
        high 4-3/4
        drawer left { share 1 }
        stile { wide 1-1/4; partition none }
        drawer right { same left }
      }
      rail { wide 1-1/4 }
      open niche { share 1 }
    }
  }
  fronts { stock cherry; set inset; gap 3/32; pull knob }
  drawers { stock side; bottom-stock thin; slide on-wood; groove { up 1/2; deep 1/4 }; joint dovetail; packer-stock cherry }
  finish oil
}
";

/// Beside a post a guide fills what that stands proud of the rails of the end: 1-3/4 less 1/4
/// and 3/4 is 3/4. Behind a stile of 1-1/4 two of those don't fit, so each is half of it, 5/8;
/// behind one of 2 they are 3/4 again. They begin behind the frame of 3/4, and one beside a
/// post behind the post. Of 7/8 the halves are thinner than a guide of 1/2.
#[test]
fn two_guides_share_a_stile_with_nothing_behind_it() {
    let guides = |stile: &str| {
        let compiled =
            compile(&CONSOLE.replace("stile { wide 1-1/4;", &format!("stile {{ wide {stile};")));
        assert_eq!(crate::bench::built(&compiled), Vec::<String>::new(), "{stile}");
        let parts = compiled.parts.expect("parts");
        ["left.left", "left.right", "right.left", "right.right"].map(|name| {
            let part = part(&parts, &format!("console.top-row.{name}-guide"));
            (part.thickness.length, part.extent(Direction::X).0, part.extent(Direction::Z).0)
        })
    };
    // The left opening ends at 1-3/4 + (37 - 1-1/4) / 2 = 19-5/8.
    let middle = inches(157, 8);
    let narrow = guides("1-1/4");
    assert_eq!(narrow[0], (inches(3, 4), inches(1, 1), inches(7, 4)));
    assert_eq!(narrow[1], (inches(5, 8), middle, inches(3, 4)));
    assert_eq!(narrow[2], (inches(5, 8), middle + inches(5, 8), inches(3, 4)));
    assert_eq!(guides("2").map(|(thick, ..)| thick), [inches(3, 4); 4]);
    let paper = paper(CONSOLE, "assembly-order.txt");
    let told = "plane LE-RGD, RI-LGD to the thickness on the cut list, so that those behind one stile are together no thicker than the stile is wide";
    assert!(paper.contains(told), "{paper}");
    let thin = compile(&CONSOLE.replace("stile { wide 1-1/4;", "stile { wide 7/8;"));
    let found = thin.diagnostics.iter().find(|own| own.slug == "not-supported-yet").unwrap();
    assert!(
        found
            .title
            .contains("is 7/8 wide, but it must be at least 1 wide for two guides behind it"),
        "{}",
        found.title
    );
}

/// Packers from post to post: 16 less 1-3/4 at the front and 1-3/4 at the back are 12-1/2, and
/// 1-3/4 less 1/4 of set-back and a rail of 3/4 leave 3/4. The box of the upper drawer, 5 less
/// 3/4, runs in the middle of its opening, 20 up: its line is 22-1/2 up, half of a packer 2
/// wide over its lower edge.
#[test]
fn a_slide_between_posts_lies_on_a_packer() {
    let compiled = compile(&example("slides-between-posts"));
    let parts = compiled.parts.as_ref().expect("parts");
    let packer = part(parts, "stand.upper.left-packer");
    assert_eq!(packer.sizes(), [inches(25, 2), inches(2, 1), inches(3, 4)]);
    let post = part(parts, "stand.front-left-post").cuboid();
    let behind = part(parts, "stand.back-left-post").cuboid();
    let space = packer.cuboid();
    assert_eq!((space.from.z, space.to.z), (post.to.z, behind.from.z));
    assert_eq!(space.to.x, post.to.x);
    let opening = inches(26, 1) - inches(3, 2) - inches(5, 1);
    let line = opening + inches(5, 2);
    assert_eq!(space.from.y, line - inches(1, 1));
}

/// Without a set-back the rails of the ends are flush with the posts; at 9/16 they leave
/// 1-3/4 − 9/16 − 3/4 = 7/16, and 1/2 is asked for.
#[test]
fn a_packer_between_posts_must_hold_its_screws() {
    let slugs = |set_back: &str| {
        let text = example("slides-between-posts").replace("set-back 1/4;", set_back);
        let mut own = crate::support::slugs(&compile(&text));
        own.retain(|slug| *slug != "block-unused");
        own
    };
    assert!(slugs("set-back 1/2;").is_empty(), "{:?}", slugs("set-back 1/2;"));
    assert_eq!(slugs("set-back 9/16;"), ["not-supported-yet"]);
    assert_eq!(slugs(""), ["not-supported-yet"]);
}

/// Two nightstands, 20 wide, each under a top that reaches 3/4 past its sides. They are drawn
/// 12 apart between these tops: the right one begins at 20 + 3/4 + 12 + 3/4 = 33-1/2. What
/// hangs on the left of the one hangs on the right of the other.
#[test]
fn two_pieces_stand_each_by_itself() {
    let text = example("nightstands");
    let compiled = compile(&text);
    // Nothing of the shop that all examples share is too much.
    let found = compiled.diagnostics.iter().map(|found| found.slug);
    let slugs: Vec<_> = found.filter(|slug| *slug != "block-unused").collect();
    assert!(slugs.is_empty(), "{slugs:?}");
    let parts = compiled.parts.as_ref().expect("parts");
    let x = |path: &str| part(parts, path).extent(Direction::X).0;
    assert_eq!(x("left-stand.front-left-post"), inches(0, 1));
    assert_eq!(x("right-stand.front-left-post"), inches(67, 2));
    let packet = packet(&compiled);
    let operations = packet["operations"].as_array().expect("operations");
    let of = |kind: &str| operations.iter().filter(|own| own["kind"] == kind).collect::<Vec<_>>();
    let apart = of("stand apart");
    let cases: Vec<_> = apart.iter().map(|own| own["case"].as_str().expect("a case")).collect();
    assert_eq!(cases, ["left-stand", "right-stand"]);
    assert_eq!(
        apart.iter().map(|own| own["parts"].as_array().expect("parts").len()).sum::<usize>(),
        parts.all.len()
    );
    assert!(of("fix cases").is_empty() && of("lay on").len() == 2);
    let sides: Vec<_> = packet["opens"]["doors"]
        .as_array()
        .expect("doors")
        .iter()
        .map(|own| &own["hung"])
        .collect();
    assert_eq!(sides, ["left", "right"]);
    let order = paper(&text, "assembly-order.txt");
    assert!(order.contains("Carry the pieces in and level each"), "{order}");
    assert!(order.contains("set left-stand and right-stand each where it will stay"), "{order}");
    assert!(!order.contains("Fix the cases to each other") && !order.contains("the whole run"));
}

/// Each tips by itself, and a door that opens all the way round is stopped by no wall and by
/// no other piece, however near that is drawn.
#[test]
fn what_stands_apart_is_judged_by_itself() {
    let text = example("nightstands");
    let compiled = compile(&text);
    let (piece, parts) = (compiled.piece.as_ref().unwrap(), compiled.parts.as_ref().unwrap());
    let work = casewright::plans::Workings::of(piece, parts);
    let tips: Vec<usize> = work.tipping().iter().map(|own| own.cases.len()).collect();
    assert_eq!(tips, [1, 1]);
    let alone = text.replace("case right-stand { like left-stand { mirrored } }", "");
    let weight = |text: &str| {
        let compiled = compile(text);
        let (piece, parts) = (compiled.piece.as_ref().unwrap(), compiled.parts.as_ref().unwrap());
        casewright::plans::Workings::of(piece, parts).weights().whole().grams
    };
    assert!((weight(&text) - 2 * weight(&alone)).abs() <= 2);
    let walls = text.replace(
        "site { humidity",
        "site { left wall { scribe 0 }; right wall { scribe 0 }; humidity",
    );
    let wide = walls.replace("butt; pin-ahead", "butt; swing 175 deg; pin-ahead");
    let fitting = paper(&wide, "fitting.txt");
    assert!(!fitting.contains("the side of"), "{fitting}");
}
