//! Shelves of an opening, fixed and on pins: figures worked by hand.

use casewright::measure::Length;
use casewright::model::MemoryFiles;
use casewright::papers::{self, Format};
use casewright::parts::Direction;
use casewright::pipeline;

use crate::bench;
use crate::support::{compile, slugs, spec};

/// A case without a frame, 60 high on a base of 4, of sheets 3/4 thick: its opening
/// begins at 4-3/4 and is 60 − 4 − 2 × 3/4 = 54-1/2 high.
fn books(shelves: &str) -> String {
    format!(
        r#"casework 1
job "Trial" {{ units in; tape 1/32 }}
site {{ fixing wall; humidity 35% to 45% }}
shop {{ humidity 40%; clamps 16; open-time 40 min }}
stock ply  {{ plywood 3/4; actual 3/4; species white-ash; sheet {{ long 96; wide 48 }} }}
stock thin {{ plywood 1/4; actual 1/4; species white-ash; sheet {{ long 96; wide 48 }} }}
case books {{
  wide 30; deep 11; high 60
  stock ply
  base {{ toe-kick; high 4; set-back 2; cut-into ends }}
  bottom {{ joint dado {{ deep 1/4 }} }}
  back {{ stock thin; joint rabbet {{ deep 3/8 }} }}
  top {{ panel; joint rabbet {{ deep 3/8 }} }}
  shelves {{ joint dado {{ deep 1/4 }} }}
  frame none
  across {{ open all {{ share 1; shelf {{ {shelves} }} }} }}
}}
"#
    )
}

/// The heights of the undersides, the lowest first, in sixteenths.
fn undersides(text: &str) -> Vec<(String, Length)> {
    let compiled = compile(text);
    assert!(compiled.is_sound(), "{:?}", slugs(&compiled));
    let parts = compiled.parts.unwrap_or_default();
    let shelves = parts.all.iter().filter(|part| part.path.starts_with("books.all.shelf"));
    shelves.map(|part| (part.path.clone(), part.extent(Direction::Y).0)).collect()
}

/// Three fixed shelves leave (54-1/2 − 3 × 3/4) / 4 = 13-1/16 clear: they lie at
/// 4-3/4 + 13-1/16 = 17-13/16, and from one to the next it is 13-1/16 + 3/4.
#[test]
fn fixed_shelves_leave_the_same_clear_height() {
    let found = undersides(&books("fixed 3"));
    let sixteenths: Vec<Length> = [285, 506, 727].map(|count| Length::inches(count, 16)).to_vec();
    assert_eq!(found.iter().map(|(_, at)| *at).collect::<Vec<_>>(), sixteenths);
}

/// One fixed shelf leaves (54-1/2 − 3/4) / 2 = 26-7/8 over and under it, and one on
/// pins in each (26-7/8 − 3/4) / 2 = 13-1/16: the same places as three fixed ones.
/// The lower rows begin 4-3/4 + 4 = 8-3/4 above the end's foot. The fixed shelf's
/// top is at 31-5/8 + 3/4 = 32-3/8, and the upper rows begin 4 over it, at 36-3/8.
/// (26-7/8 − 2 × 4) / 1-1/4 = 15.1 makes 16 holes in each.
#[test]
fn fixed_and_loose_shelves_share_an_opening() {
    let text = books("fixed 1; adjustable 1");
    assert_eq!(undersides(&text), undersides(&books("fixed 3")));
    let compiled = compile(&text);
    let sheet = papers::one(&compiled, "fitting", Format::Text).unwrap();
    let sheet: Vec<String> =
        sheet.lines().map(|line| line.split_whitespace().collect::<Vec<_>>().join(" ")).collect();
    for line in [
        "pin holes for all under AL-SH2, 3/8 deep",
        "pin holes for all over AL-SH2, 3/8 deep",
        "16 holes in each row, 1-1/4 from center to center; the first is 4 above the lower edge of the opening",
        "16 holes in each row, 1-1/4 from center to center; the first is 4 above AL-SH2",
        "LE left end inside face 8-3/4 1-1/2 9-1/4",
        "RE right end inside face 36-3/8 1-1/2 9-1/4",
    ] {
        assert!(sheet.iter().any(|own| own.ends_with(line)), "{line}\n{}", sheet.join("\n"));
    }
    let packet = papers::one(&compiled, "packet", Format::Json).unwrap();
    assert_eq!(bench::complaints(&packet), Vec::<String>::new());
}

#[test]
fn how_many_shelves_must_be_said() {
    for shelves in ["", "load 20 lb per ft2"] {
        assert_eq!(slugs(&compile(&books(shelves))), ["word-missing"], "{shelves}");
    }
}

/// A divider that lies carries what it says, as a shelf does; on an upright one nothing
/// stands, and the word is refused.
#[test]
fn a_divider_has_its_own_load() {
    let of = |load: &str| {
        let text = include_str!("../specs/examples/dadoes-by-saw.case");
        let own = "divider { joint dado { deep 1/4 } }";
        assert!(text.contains(own));
        let text = text.replace(own, &format!("divider {{ joint dado {{ deep 1/4 }}{load} }}"));
        let files = MemoryFiles::one("a.case", &text)
            .with("shop.case", include_str!("../specs/examples/shop.case"));
        slugs(&pipeline::check(&files, "a.case").expect("readable"))
    };
    assert_eq!(of(""), Vec::<&str>::new());
    assert_eq!(of("; load 300 lb per ft2"), ["sag"]);
    let upright = spec("signal-house-media-shelf.case").replacen(
        "    divider\n",
        "    divider { load 50 kg per m2 }\n",
        1,
    );
    assert_eq!(slugs(&compile(&upright)), ["not-supported-yet"]);
}
