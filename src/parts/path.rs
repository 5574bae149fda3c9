//! The names of parts: the one place where they are put together.

use crate::measure::Digits;
use crate::model::{
    Called, Filler, FrontId, Member, MemberId, Opening, OpeningId, OpeningKind, Piece, Side,
};

use super::id::{Key, Of, Role, Which};

/// The whole name of a part, dotted from its case: `console.bank.upper.front`,
/// and where its own begins in it.
pub(super) fn path(piece: &Piece, key: &Key) -> (String, usize) {
    let opening = |id| piece.opening(id).map_or("", |opening| opening.path.as_str());
    let (front, whole);
    let (before, own) = match key.of {
        Of::Case(_) if key.role == Role::Filler => match self::filler(piece, key) {
            Some(filler) => (filler.run.as_str(), filler.name.clone()),
            None => ("", word(key.role, key.which)),
        },
        Of::Case(_) if key.role == Role::Batten => {
            whole = self::filler(piece, key).map_or(String::new(), Filler::path);
            (whole.as_str(), word(key.role, Which::Only))
        }
        Of::Case(case) => {
            let case = piece.case(case).map_or("", |case| case.path.as_str());
            (case, word(key.role, key.which))
        }
        Of::Row(first) if key.role == Role::Countertop => {
            (piece.top_path(first), word(key.role, key.which))
        }
        Of::Row(first) => (piece.row_path(first), word(key.role, key.which)),
        Of::Member(member) => match piece.member(member) {
            Some(member) => (opening(member.list), member_word(member, key)),
            None => ("", word(key.role, key.which)),
        },
        Of::Opening(of) => (opening(of), word(key.role, key.which)),
        Of::Front(of) if key.role == Role::Slab => (opening(of.opening), of.leaf.word().to_owned()),
        Of::Front(of) => {
            front = front_path(piece, of);
            (front.as_str(), word(key.role, key.which))
        }
    };
    let mut path = String::with_capacity(before.len() + 1 + own.len());
    path.push_str(before);
    path.push('.');
    path.push_str(&own);
    (path, before.len() + 1)
}

/// The filler that a part is, or is the batten of.
fn filler<'p>(piece: &'p Piece, key: &Key) -> Option<&'p Filler> {
    let Which::At(side) = key.which else { return None };
    piece.case(key.of.case())?.filler(side)
}

/// The whole name that a part has or would have.
#[must_use]
pub fn path_of(piece: &Piece, key: &Key) -> String {
    path(piece, key).0
}

/// The whole name of a front: `console.press.left-door`.
#[must_use]
pub fn front_path(piece: &Piece, front: FrontId) -> String {
    let opening = piece.opening(front.opening).map_or("", |opening| opening.path.as_str());
    format!("{opening}.{}", front.leaf.word())
}

/// What an opening is called in a sentence on paper: by its title, and by its
/// case too where the piece has several.
#[must_use]
pub fn opening_told(piece: &Piece, opening: OpeningId) -> String {
    let title = piece.opening(opening).map_or("", Opening::title_within);
    match piece.cases.as_slice() {
        [_] => title.to_owned(),
        _ => {
            let case = piece.case(opening.case).map_or("", |case| case.name.as_str());
            format!("{title} in {case}")
        }
    }
}

/// What the box in an opening is called in a sentence on paper: `the drawer box of
/// upper`, `tray jars`.
#[must_use]
pub fn box_told(piece: &Piece, opening: OpeningId) -> String {
    let told = opening_told(piece, opening);
    match piece.opening(opening).is_some_and(Opening::is_tray) {
        true => format!("tray {told}"),
        false => format!("the drawer box of {told}"),
    }
}

/// What a front is called in a sentence on paper: `the left door of press`.
#[must_use]
pub fn front_told(piece: &Piece, front: FrontId) -> String {
    let leaf = front.leaf.word().replace('-', " ");
    format!("the {leaf} of {}", opening_told(piece, front.opening))
}

/// The name of a member, or of the board behind it, within its list. Of a web frame its
/// parts have names of their own behind that.
fn member_word(member: &Member, key: &Key) -> String {
    let own = match key.role.is_of_web() {
        true => format!("-{}", word(key.role, key.which)),
        false => String::new(),
    };
    let name = match (&member.called, behind(member, key.role)) {
        (Called::Given(name), Some(board)) => format!("{name}-{board}"),
        (Called::Given(name), None) => name.clone(),
        (Called::Between { words, .. }, board) => {
            format!("{}-{words}", board.unwrap_or(member.noun()))
        }
    };
    name + &own
}

/// What the board behind a member of the frame is called; `None` for the member.
fn behind(member: &Member, role: Role) -> Option<&'static str> {
    match role {
        Role::Partition if member.is_stile() => Some("partition"),
        Role::FixedShelf => Some("shelf"),
        role if role.is_of_web() => Some("web"),
        _ => None,
    }
}

/// What a part is called within what it is of: `left-end`, `shelf-2`.
fn word(role: Role, which: Which) -> String {
    let (before, noun) = match (role, which) {
        (Role::End(side), _) => (side.word(), "end"),
        (Role::Post(side), _) => (side.word(), "post"),
        (Role::EndRail(side), Which::Top) => return format!("{}-end-top-rail", side.word()),
        (Role::EndRail(side), _) => return format!("{}-end-bottom-rail", side.word()),
        (Role::EndPanel(side), _) => return format!("{}-end-panel", side.word()),
        (Role::Bottom, _) => ("", "bottom"),
        (Role::Top, _) => ("", "top"),
        (Role::Countertop, _) => ("", "countertop"),
        (Role::Stretcher, Which::Number(_)) => ("middle", "stretcher"),
        (Role::Stretcher, _) => ("", "stretcher"),
        (Role::Back, _) => ("", "back"),
        (Role::Nailer(edge), _) => (edge.spelling(), "nailer"),
        (Role::Partition, _) => ("", "partition"),
        (Role::Divider, _) => ("", "divider"),
        (Role::FixedShelf | Role::AdjustableShelf, _) => ("", "shelf"),
        (Role::WebRail, _) => ("", "rail"),
        (Role::WebRunner, Which::Only | Which::Number(_)) => ("middle", "runner"),
        (Role::WebRunner, _) => ("", "runner"),
        (Role::DustPanel, _) => ("", "dust-panel"),
        (Role::Leg | Role::BaseLeg, _) => ("", "leg"),
        (Role::Kick, _) => ("", "kick"),
        (Role::BaseMember, Which::Front) => return "base-front".to_owned(),
        (Role::BaseMember, Which::Back) => return "base-back".to_owned(),
        (Role::BaseMember, Which::At(Side::Left)) => return "base-left-sleeper".to_owned(),
        (Role::BaseMember, Which::At(Side::Right)) => return "base-right-sleeper".to_owned(),
        (Role::BaseMember, _) => ("base", "sleeper"),
        (Role::Stile | Role::FrontStile, _) => ("", "stile"),
        (Role::FrontRail, Which::Only | Which::Number(_)) => ("mid", "rail"),
        (Role::Rail | Role::FrontRail, _) => ("", "rail"),
        (Role::Slab, _) => ("", "front"),
        (Role::FrontPanel, _) => ("", "panel"),
        (Role::Bead, Which::Number(_)) => ("cross", "bead"),
        (Role::Bead, _) => ("", "bead"),
        (Role::DrawerSide, _) => ("", "side"),
        (Role::DrawerFront, _) => ("", "box-front"),
        (Role::DrawerBack, _) => ("", "box-back"),
        (Role::DrawerBottom, _) => ("", "box-bottom"),
        (Role::Packer, _) => ("", "packer"),
        (Role::HingeBlock, _) => ("", "hinge-block"),
        (Role::HoldingBlock, _) => ("", "holding-block"),
        (Role::Guide, _) => ("", "guide"),
        (Role::Kicker, _) => ("", "kicker"),
        (Role::Runner, _) => ("", "runner"),
        (Role::Stop, _) => ("", "stop"),
        (Role::Filler, _) => ("", "filler"),
        (Role::Cover, _) => ("", "cover"),
        (Role::Batten, _) => ("", "batten"),
    };
    let (place, number) = match which {
        Which::Only => ("", None),
        Which::At(side) => (side.word(), None),
        Which::Top => ("top", None),
        Which::Bottom => ("bottom", None),
        Which::Front => ("front", None),
        Which::Back => ("back", None),
        Which::Number(number) => ("", Some(number)),
        Which::AtNumber(side, number) => (side.word(), Some(number)),
    };
    let mut word = String::with_capacity(32);
    for word_before in [place, before].into_iter().filter(|word| !word.is_empty()) {
        word.push_str(word_before);
        word.push('-');
    }
    word.push_str(noun);
    if let Some(number) = number {
        let mut digits = Digits::new();
        digits.whole(number.into());
        digits.sign(b'-');
        word.push_str(digits.text());
    }
    word
}

/// What a part is called on paper: `left end`, `rail between upper and middle`.
#[must_use]
pub fn title(piece: &Piece, key: &Key) -> String {
    let own = || word(key.role, key.which).replace('-', " ");
    match key.of {
        Of::Case(_) if matches!(key.role, Role::Filler | Role::Batten) => {
            let name = filler(piece, key).map_or("", |filler| &filler.name);
            match key.role {
                Role::Batten => format!("filler {name}, batten"),
                _ => format!("filler {name}"),
            }
        }
        Of::Case(_) | Of::Row(_) => own(),
        Of::Member(member) if key.role.is_of_web() => {
            format!("{}, {}", member_title(piece, member, key.role), own())
        }
        Of::Member(member) => member_title(piece, member, key.role),
        Of::Opening(opening) => {
            let opening = piece.opening(opening);
            format!("{}, {}", opening.map_or(String::new(), titled), own())
        }
        Of::Front(front) => {
            let opening = piece.opening(front.opening).map_or(String::new(), titled);
            let leaf = front.leaf.word().replace('-', " ");
            match key.role {
                Role::Slab => format!("{opening}, {leaf}"),
                _ => format!("{opening} {leaf}, {}", own()),
            }
        }
    }
}

/// The title of an opening before the name of a part of it; a drawer that goes by its side
/// is called a drawer, so that its sides are told from it.
fn titled(opening: &Opening) -> String {
    const SIDES: [&str; 6] = ["left", "right", "top", "bottom", "front", "back"];
    let title = opening.title_within();
    match opening.kind {
        OpeningKind::Drawer { .. } if SIDES.contains(&title) => format!("{title} drawer"),
        _ => title.to_owned(),
    }
}

/// What a web frame is called in a sentence on paper: `web frame between upper and lower`.
#[must_use]
pub fn web_told(piece: &Piece, id: MemberId) -> String {
    member_said(piece, id, Some("web frame"))
}

fn member_title(piece: &Piece, id: MemberId, role: Role) -> String {
    let board = piece.member(id).and_then(|member| behind(member, role));
    member_said(piece, id, board)
}

/// A member by its name or by what it stands between, or the board behind it where that
/// is said.
fn member_said(piece: &Piece, id: MemberId, board: Option<&str>) -> String {
    let Some(member) = piece.member(id) else { return String::new() };
    let noun = board.unwrap_or(member.noun());
    match &member.called {
        Called::Given(name) if board.is_some() => format!("{name} {noun}"),
        Called::Given(name) => name.clone(),
        Called::Between { beside, number, .. } => {
            let number = number.map_or(String::new(), |number| format!(" {number}"));
            let [before, after] = beside.map(|opening| {
                opening.and_then(|id| piece.opening(id)).map_or("the edge", Opening::title_within)
            });
            format!("{noun}{number} between {before} and {after}")
        }
    }
}
