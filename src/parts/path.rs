//! The names of parts: the one place where they are put together.

use crate::model::{Called, FrontId, Member, MemberId, Opening, Piece, Side};

use super::id::{Key, Of, Role, Which};

/// The whole name of a part, dotted from its case: `console.bank.upper.front`,
/// and where its own begins in it.
pub(super) fn path(piece: &Piece, key: &Key) -> (String, usize) {
    let opening = |id| piece.opening(id).map_or("", |opening| opening.path.as_str());
    let (mut path, own) = match key.of {
        Of::Case(case) => {
            let case = piece.case(case).map_or("", |case| case.name.as_str());
            (case.to_owned(), word(key.role, key.which))
        }
        Of::Member(member) => match piece.member(member) {
            Some(member) => (opening(member.list).to_owned(), member_word(member, key.role)),
            None => (String::new(), word(key.role, key.which)),
        },
        Of::Opening(of) => (opening(of).to_owned(), word(key.role, key.which)),
        Of::Front(front) if key.role == Role::Slab => {
            (opening(front.opening).to_owned(), front.leaf.word().to_owned())
        }
        Of::Front(front) => (front_path(piece, front), word(key.role, key.which)),
    };
    path.push('.');
    let start = path.len();
    path.push_str(&own);
    (path, start)
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

/// The name of a member, or of the board behind it, within its list.
fn member_word(member: &Member, role: Role) -> String {
    let behind = role == Role::Partition && member.is_stile();
    match &member.called {
        Called::Given(name) if behind => format!("{name}-partition"),
        Called::Given(name) => name.clone(),
        Called::Between { words, .. } => {
            format!("{}-{words}", if behind { "partition" } else { member.noun() })
        }
    }
}

/// What a part is called within what it is of: `left-end`, `shelf-2`.
fn word(role: Role, which: Which) -> String {
    let (before, noun) = match (role, which) {
        (Role::End(side), _) => (side.word(), "end"),
        (Role::Bottom, _) => ("", "bottom"),
        (Role::Top, _) => ("", "top"),
        (Role::Stretcher, Which::Number(_)) => ("middle", "stretcher"),
        (Role::Stretcher, _) => ("", "stretcher"),
        (Role::Back, _) => ("", "back"),
        (Role::Partition, _) => ("", "partition"),
        (Role::Divider, _) => ("", "divider"),
        (Role::FixedShelf | Role::AdjustableShelf, _) => ("", "shelf"),
        (Role::Leg | Role::BaseLeg, _) => ("", "leg"),
        (Role::Kick, _) => ("", "kick"),
        (Role::BaseMember, Which::Front) => return "base-front".to_owned(),
        (Role::BaseMember, Which::Back) => return "base-back".to_owned(),
        (Role::BaseMember, Which::At(Side::Left)) => return "base-left-sleeper".to_owned(),
        (Role::BaseMember, Which::At(Side::Right)) => return "base-right-sleeper".to_owned(),
        (Role::BaseMember, _) => ("base", "sleeper"),
        (Role::Stile | Role::FrontStile, _) => ("", "stile"),
        (Role::Rail | Role::FrontRail, _) => ("", "rail"),
        (Role::Slab, _) => ("", "front"),
        (Role::FrontPanel, _) => ("", "panel"),
        (Role::DrawerSide, _) => ("", "side"),
        (Role::DrawerFront, _) => ("", "box-front"),
        (Role::DrawerBack, _) => ("", "box-back"),
        (Role::DrawerBottom, _) => ("", "box-bottom"),
        (Role::Packer, _) => ("", "packer"),
        (Role::HingeBlock, _) => ("", "hinge-block"),
    };
    let noun = if before.is_empty() { noun.to_owned() } else { format!("{before}-{noun}") };
    match which {
        Which::Only => noun,
        Which::At(side) => format!("{}-{noun}", side.word()),
        Which::Top => format!("top-{noun}"),
        Which::Bottom => format!("bottom-{noun}"),
        Which::Front => format!("front-{noun}"),
        Which::Back => format!("back-{noun}"),
        Which::Number(number) => format!("{noun}-{number}"),
        Which::AtNumber(side, number) => format!("{}-{noun}-{number}", side.word()),
    }
}

/// What a part is called on paper: `left end`, `rail between upper and middle`.
#[must_use]
pub fn title(piece: &Piece, key: &Key) -> String {
    let own = || word(key.role, key.which).replace('-', " ");
    match key.of {
        Of::Case(_) => own(),
        Of::Member(member) => member_title(piece, member, key.role),
        Of::Opening(opening) => {
            let opening = piece.opening(opening);
            format!("{}, {}", opening.map_or("", Opening::title), own())
        }
        Of::Front(front) => {
            let opening = piece.opening(front.opening).map_or("", Opening::title);
            let leaf = front.leaf.word().replace('-', " ");
            match key.role {
                Role::Slab => format!("{opening}, {leaf}"),
                _ => format!("{opening} {leaf}, {}", own()),
            }
        }
    }
}

fn member_title(piece: &Piece, id: MemberId, role: Role) -> String {
    let Some(member) = piece.member(id) else { return String::new() };
    let noun = match role {
        Role::Partition if member.is_stile() => "partition",
        _ => member.noun(),
    };
    match &member.called {
        Called::Given(name) if role == Role::Partition && member.is_stile() => {
            format!("{name} {noun}")
        }
        Called::Given(name) => name.clone(),
        Called::Between { beside, number, .. } => {
            let number = number.map_or(String::new(), |number| format!(" {number}"));
            let [before, after] = beside.map(|opening| {
                opening.and_then(|id| piece.opening(id)).map_or("the edge", Opening::title)
            });
            format!("{noun}{number} between {before} and {after}")
        }
    }
}
