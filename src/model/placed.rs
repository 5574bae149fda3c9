//! Drafts of openings and members, once their sizes are known: what each is,
//! and where it lies.

use crate::diagnostics::Diagnostic;
use crate::measure::Length;
use crate::vocabulary::{Entries, Entry};

use super::blame;
use super::carries;
use super::case::Side;
use super::layout::{Solution, Variable};
use super::lower::Lower;
use super::measured::CameOut;
use super::opening::{Axis, Item, Member, MemberKind, Opening, OpeningKind, Partition, ShelfSet};
use super::openings::{Context, Draft, Drafts, MemberDraft};
use super::read_case;
use super::size::Size;

impl<'a> Drafts<'a> {
    /// The solved openings and members, placed from `(x, y)` of the root's
    /// lower left corner; `None` where the solver found no answer (reported).
    pub(super) fn finish(
        self,
        solution: &Solution,
        origin: Option<(Length, Length)>,
        context: &Context<'a>,
        ctx: &mut Lower,
    ) -> Option<(Vec<Opening>, Vec<Member>)> {
        blame::report(&self, solution, ctx);
        let size = |variable: Variable| self.sheet.size(solution, variable);
        let mut openings = Vec::with_capacity(self.openings.len());
        for draft in &self.openings {
            openings.push(opening(draft, size(draft.wide), size(draft.high), context, ctx));
        }
        let mut members = Vec::with_capacity(self.members.len());
        for draft in &self.members {
            members.push(member(draft, size(draft.wide), context, ctx));
        }
        let mut openings: Vec<Opening> = openings.into_iter().collect::<Option<_>>()?;
        let mut members: Vec<Member> = members.into_iter().collect::<Option<_>>()?;
        let (x, y) = origin?;
        place(&mut openings, &mut members, x, y);
        let entries = self.members.iter().map(|draft| draft.entry);
        ctx.sink
            .extend(entries.zip(&members).filter_map(|(entry, member)| homeless(entry, member)));
        Some((openings, members))
    }
}

fn opening(
    draft: &Draft<'_>,
    wide: Option<Size>,
    high: Option<Size>,
    context: &Context<'_>,
    ctx: &mut Lower,
) -> Option<Opening> {
    let entry = draft.entry;
    let empty = ctx.empty(match entry.word.word {
        "across" | "down" => "group",
        other => other,
    });
    let body = entry.body().unwrap_or(&empty);
    let kind = match entry.word.word {
        "drawer" => {
            let slide = ctx.refer(body, "slide", &context.shared.slides).map(|slide| slide.value);
            let around = body.one("around").and_then(|around| around.text(0));
            let around = around.and_then(|name| ctx.find(name, &context.shared.keep_outs));
            let slide = slide.or(context.drawers.map(|drawers| drawers.slide));
            if context.drawers.is_none() {
                ctx.sink.push(missing("drawers", "drawer boxes", entry));
            }
            let carries = carries::own(body);
            Some(OpeningKind::Drawer { slide, around, carries })
        }
        "door" => {
            let hung = body.word("hung").map(|side| side.value);
            let side = if hung.as_deref() == Some("right") { Side::Right } else { Side::Left };
            Some(OpeningKind::Door(side))
        }
        "doors" => Some(OpeningKind::Doors),
        "open" => Some(OpeningKind::Open),
        "false" => Some(OpeningKind::False),
        _ => draft.list.map(|axis| OpeningKind::List(axis, draft.items.clone())),
    };
    let has_front = matches!(entry.word.word, "drawer" | "door" | "doors" | "false");
    let front = if has_front {
        let own = body.one("front");
        match (own, context.fronts) {
            (Some(own), parent) => read_case::fronts(own, parent, context.shared, ctx),
            (None, Some(parent)) => Some(parent.clone()),
            (None, None) => {
                ctx.sink.push(missing("fronts", "fronts", entry));
                None
            }
        }
    } else {
        None
    };
    if has_front && front.is_none() {
        return None;
    }
    let shelves = (body.block.word("shelf").is_some()).then(|| body.one("shelf")).flatten();
    let is_root = draft.parent.is_none();
    let span_of = |word: &str| {
        if is_root || body.block.word(word).is_none() {
            return None;
        }
        body.size(word).map(|size| size.span)
    };
    Some(Opening {
        path: draft.path.clone(),
        kind: kind?,
        parent: draft.parent,
        wide: wide?,
        high: high?,
        x: Length::ZERO,
        y: Length::ZERO,
        front,
        shelves: shelves.and_then(shelf_set),
        notes: if is_root { Vec::new() } else { body.notes() },
        span: entry.head,
        size_spans: [span_of("wide"), span_of("high")],
        came_out: CameOut::default(),
    })
}

fn missing(block: &str, what: &str, entry: &Entry) -> Diagnostic {
    Diagnostic::error(
        "word-missing",
        format!("the case says nothing of its {what}"),
        entry.head,
        format!("`{block} {{ … }}` is missing in the case"),
    )
}

/// A partition that is asked for where none can stand.
fn homeless(entry: &Entry, member: &Member) -> Option<Diagnostic> {
    let short = matches!(member.kind, MemberKind::Stile(_)) && !member.full;
    let partition = entry.body().filter(|_| short)?.one("partition")?;
    partition.body()?;
    let found = Diagnostic::error(
        "member-misplaced",
        format!(
            "no partition can stand behind {}: the stile does not run the whole height",
            member.path
        ),
        partition.head,
        "nothing for it to stand on",
    );
    let found = found.label(entry.head, "this stile ends at a rail");
    Some(found.note("let the stile run the whole height, or take the partition away"))
}

fn shelf_set(entry: &Entry) -> Option<ShelfSet> {
    let body = entry.body()?;
    let adjustable = body.one("adjustable");
    let count = adjustable.or_else(|| body.one("fixed"))?.count(0)?;
    Some(ShelfSet {
        count: count.value,
        adjustable: adjustable.is_some(),
        carries: carries::own(body),
        span: entry.head,
        notes: body.notes(),
    })
}

fn member(
    draft: &MemberDraft<'_>,
    wide: Option<Size>,
    context: &Context<'_>,
    ctx: &mut Lower,
) -> Option<Member> {
    let entry = draft.entry;
    let kind = match entry.word.word {
        "stile" => {
            let own = entry.body().and_then(|body| body.one("partition"));
            let none = own.is_some_and(|own| own.text(0).is_some_and(|word| word.value == "none"));
            let board = match (own.and_then(Entry::body), context.partitions) {
                _ if none => None,
                (Some(body), parent) => {
                    let Context { stock, shared, .. } = *context;
                    let (what, at) = ("partition", entry.head);
                    Some(read_case::board_like(body, parent, stock, what, at, shared, ctx)?)
                }
                (None, parent) => parent.cloned(),
            };
            MemberKind::Stile(
                board.map_or(Partition::None, |board| Partition::Board(Box::new(board))),
            )
        }
        "rail" => MemberKind::Rail,
        _ => MemberKind::Divider(Box::new(draft.board.clone()?)),
    };
    Some(Member {
        path: draft.path.clone(),
        kind,
        axis: draft.axis,
        list: draft.list,
        wide: wide?,
        long: Size::zero(),
        x: Length::ZERO,
        y: Length::ZERO,
        full: false,
        span: entry.head,
        notes: entry.body().map(Entries::notes).unwrap_or_default(),
    })
}

/// Places every opening and member, parents before children.
fn place(openings: &mut [Opening], members: &mut [Member], x: Length, y: Length) {
    let Some(root) = openings.first_mut() else { return };
    (root.x, root.y) = (x, y);
    let root_high = root.high.length;
    for index in 0..openings.len() {
        let OpeningKind::List(axis, items) = openings[index].kind.clone() else { continue };
        let list = openings[index].clone();
        let top = list.y + list.high.length;
        let mut at = Length::ZERO;
        for item in items {
            match item {
                Item::Opening(child) => {
                    let child = &mut openings[child];
                    let along = child.along(axis).length;
                    (child.x, child.y) = match axis {
                        Axis::Across => (list.x + at, list.y),
                        Axis::Down => (list.x, top - at - along),
                    };
                    at += along;
                }
                Item::Member(member) => {
                    let member = &mut members[member];
                    let along = member.wide.length;
                    (member.x, member.y) = match axis {
                        Axis::Across => (list.x + at, list.y),
                        Axis::Down => (list.x, top - at - along),
                    };
                    member.long = list.along(axis.crosswise()).clone();
                    member.full = axis == Axis::Across && list.high.length == root_high;
                    at += along;
                }
            }
        }
    }
}
