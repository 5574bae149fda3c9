//! How deep a cut is, and of what joint it is.

use crate::model::{Build, Joinery, MemberKind, PanelBuild, Partition, Size};
use crate::parts::{Assembly, Feature, FeatureKind, Of, Part};
use crate::vocabulary::{Origin, words};

use super::teller::Teller;

/// The depth of a cut, by the statement that says it or the thickness it goes through.
pub(super) fn depth(tell: &Teller<'_>, part: &Part, feature: &Feature) -> Size {
    let deep = feature.deep;
    if let Some(span) = feature.deep_at {
        return tell.written(deep, span, &format!("depth of the {}", feature.kind.word()));
    }
    if let Some((joint, long)) = joinery(tell, feature).and_then(|it| Some((it, it.long.as_ref()?)))
    {
        if long.length == deep {
            return long.clone();
        }
        if long.length + joint.room == deep {
            let room = tell.origin(&words::joint::BLOCK, words::joint::ROOM, joint.span);
            return long + tell.fact(joint.room, "room behind the tenon", room);
        }
    }
    if let FeatureKind::Flute(_) = feature.kind {
        let (block, word) = (&words::flutes::BLOCK, words::flutes::DEEP);
        return tell.fact(
            deep,
            "depth of the flutes",
            tell.origin(block, word, Some(feature.span)),
        );
    }
    if let Some(panel) = panel(tell, part) {
        let back = &panel.tenon - &panel.stub;
        let mut own =
            [panel.groove.clone(), panel.tenon.clone(), back, panel.mortise()].into_iter();
        if let Some(own) = own.find(|size| size.length == deep) {
            return own;
        }
    }
    if let Some(own) = web(tell, part, feature) {
        return own;
    }
    if deep == part.thickness.length {
        return part.thickness.clone();
    }
    let joint = Origin::Default { block: words::joint::BLOCK.name, word: "deep" };
    match feature.kind {
        FeatureKind::Dado | FeatureKind::Groove | FeatureKind::Rabbet => {
            tell.fact(deep, format!("depth of the {}", feature.kind.word()), joint)
        }
        _ => deep.into(),
    }
}

/// The length of a tenon in a web frame, and the depth of a groove.
fn web(tell: &Teller<'_>, part: &Part, feature: &Feature) -> Option<Size> {
    let Of::Member(member) = part.of else { return None };
    let web = tell.piece.case(part.case)?.web_of(member.at)?;
    let own = match feature.kind {
        FeatureKind::Tenon => [false, true].map(|back| web.tenon(back)),
        FeatureKind::Groove => [false, true].map(|back| web.groove(back)),
        _ => return None,
    };
    own.into_iter().find(|size| size.length == feature.deep)
}

/// How the front or the end is built that a part is of, where it has a panel.
pub(super) fn panel<'c>(tell: &Teller<'c>, part: &Part) -> Option<&'c PanelBuild> {
    if part.role.end_side().is_some() {
        return tell.piece.case(part.case)?.posts.as_ref().map(|posts| &posts.ends);
    }
    let Assembly::Front(front) = part.assembly else { return None };
    match &tell.piece.opening(front.opening)?.front.as_ref()?.build {
        Build::Panel(panel) => Some(panel),
        Build::Slab => None,
    }
}

/// The joint that a tenon or its mortise is of: that of a frame, or of a board.
pub(super) fn joinery<'c>(tell: &Teller<'c>, feature: &Feature) -> Option<&'c Joinery> {
    tell.piece.cases.iter().find_map(|case| {
        let frame = case.frame.as_ref().filter(|frame| frame.span == feature.span);
        let bottom = case.bottom.as_ref().map(|bottom| &bottom.board);
        let top = case.top.as_ref().map(|top| &top.board);
        let members = case.members.iter().filter_map(|member| match &member.kind {
            MemberKind::Stile(Partition::Board(board)) | MemberKind::Divider(board) => {
                Some(board.as_ref())
            }
            MemberKind::Rail(Some(shelf)) => Some(&shelf.board),
            MemberKind::Stile(Partition::None) | MemberKind::Rail(None) => None,
        });
        let mut boards = bottom.into_iter().chain(top).chain(members);
        let board = boards.find(|board| board.span == feature.span);
        frame.map(|frame| &frame.joint).or(board.map(|board| &board.joint))
    })
}
