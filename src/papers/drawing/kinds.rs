//! Drawer boxes and paneled doors that are built alike: one drawing tells of all.

use crate::model::Piece;
use crate::parts::{Assembly, Face, FeatureKind, Part, Parts, Role, Which, box_told, front_told};

/// Assemblies with the same parts and the same joints, whatever their sizes.
pub(in crate::papers) struct Kind<'p> {
    /// The parts of each.
    pub(in crate::papers) each: Vec<Vec<&'p Part>>,
}

impl Kind<'_> {
    /// True where all have the same sizes.
    pub(in crate::papers) fn is_of_one_size(&self) -> bool {
        let Some((first, others)) = self.each.split_first() else { return true };
        others.iter().all(|other| {
            first
                .iter()
                .all(|part| counterpart(part, other).is_none_or(|own| own.sizes() == part.sizes()))
        })
    }

    /// True where some hang at the left and some at the right.
    pub(in crate::papers) fn is_mirrored(&self) -> bool {
        let mut hung = self.each.iter().filter_map(|own| own.first()?.hung);
        let first = hung.next();
        hung.any(|side| Some(side) != first)
    }
}

/// The part of another of its kind that does what this one does: of one that hangs at the
/// other side, the one at the other side.
pub(in crate::papers) fn counterpart<'p>(part: &Part, others: &[&'p Part]) -> Option<&'p Part> {
    let turned = others.first().is_some_and(|other| other.hung != part.hung);
    let which = match part.which {
        Which::At(side) if turned => Which::At(side.other()),
        Which::AtNumber(side, number) if turned => Which::AtNumber(side.other(), number),
        which => which,
    };
    others.iter().find(|other| other.role == part.role && other.which == which).copied()
}

/// What is the same in all of a kind: which parts, and what is cut into them to join
/// them.
type Build = Vec<(Role, Which, Vec<(&'static str, Face)>)>;

/// The kinds of drawer box and of paneled door in a piece, in the order in which they
/// are found.
pub(in crate::papers) fn kinds(parts: &Parts) -> Vec<Kind<'_>> {
    let mut found: Vec<(Build, Kind<'_>)> = Vec::new();
    for group in parts.all.chunk_by(|a, b| a.assembly == b.assembly) {
        let is_one = match group.first().map(|part| part.assembly) {
            Some(Assembly::DrawerBox(_) | Assembly::Front(_)) => group.len() > 1,
            Some(
                Assembly::Base(_)
                | Assembly::Carcass(_)
                | Assembly::Frame(_)
                | Assembly::Countertop(_)
                | Assembly::Filler(..)
                | Assembly::Loose(_),
            )
            | None => false,
        };
        if !is_one {
            continue;
        }
        let (build, own) = (build(group), group.iter().collect());
        match found.iter_mut().find(|(other, _)| *other == build) {
            Some((_, kind)) => kind.each.push(own),
            None => found.push((build, Kind { each: vec![own] })),
        }
    }
    found.into_iter().map(|(_, kind)| kind).collect()
}

fn build(parts: &[Part]) -> Build {
    let joints = |part: &Part| {
        let cut = part.features.iter().filter(|own| is_joint(own.kind));
        let mut cut: Vec<_> = cut.map(|own| (own.kind.word(), own.face)).collect();
        cut.sort_unstable();
        cut.dedup();
        cut
    };
    parts.iter().map(|part| (part.role, part.which, joints(part))).collect()
}

/// True for what is cut to join parts, and not for hardware or for show.
fn is_joint(kind: FeatureKind) -> bool {
    match kind {
        FeatureKind::Bore(_) | FeatureKind::Flute(_) => false,
        FeatureKind::Dado
        | FeatureKind::Groove
        | FeatureKind::Rabbet
        | FeatureKind::Glazing(_)
        | FeatureKind::Miter
        | FeatureKind::Notch
        | FeatureKind::Slot
        | FeatureKind::Pockets(..)
        | FeatureKind::Tenon
        | FeatureKind::Haunch
        | FeatureKind::Mortise
        | FeatureKind::Dovetails
        | FeatureKind::Dowels(..) => true,
    }
}

/// What it is called on the drawing of its own case.
pub(super) fn name_in_case(piece: &Piece, part: &Part) -> String {
    let told = name(piece, part);
    let case = piece.case(part.case).map(|case| format!(" in {}", case.name));
    let short = case.and_then(|case| told.strip_suffix(&case).map(str::to_owned));
    short.unwrap_or(told)
}

/// What an assembly is called that a part is of: `left door of linen`, `drawer box of
/// upper`, `tray jars`.
pub(in crate::papers) fn name(piece: &Piece, part: &Part) -> String {
    let told = match part.assembly {
        Assembly::Front(front) => front_told(piece, front),
        Assembly::DrawerBox(of) => box_told(piece, of),
        Assembly::Base(_)
        | Assembly::Carcass(_)
        | Assembly::Frame(_)
        | Assembly::Countertop(_)
        | Assembly::Filler(..)
        | Assembly::Loose(_) => return String::new(),
    };
    told.strip_prefix("the ").map_or_else(|| told.clone(), str::to_owned)
}
