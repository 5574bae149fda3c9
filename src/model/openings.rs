//! The lists of openings, read into drafts whose sizes are still unknown, and
//! the equations that their statements make.

use crate::diagnostics::Diagnostic;
use crate::measure::{Exact, Length, Span};
use crate::syntax::Name;
use crate::vocabulary::words::{Between, Nested, OpeningWord};
use crate::vocabulary::{
    Entries, Entry, JointKind, Kinds, Linear, Origin, Said, SizeExpr, Sourced, Takes, Word, linear,
    takes, words,
};

use super::blame;
use super::case::Shelves;
use super::edging::{self, Edged};
use super::equations::{Known, Says, Sheet, Unknown};
use super::front::{DrawerBoxes, Fronts};
use super::id::{CaseId, MemberId, OpeningId, StockId};
use super::joinery::Board;
use super::layout::Variable;
use super::lower::Lower;
use super::opening::{Axis, Called, Item};
use super::read_case::{self, Shared};
use super::size_names::{Found, SizeNames, last};
use super::web::{self, HoldsWeb};

/// An opening or member while its size is unknown.
#[derive(Debug)]
pub(super) struct Draft<'a> {
    pub(super) entry: &'a Entry,
    pub(super) path: String,
    pub(super) parent: Option<usize>,
    pub(super) list: Option<Axis>,
    /// What it is, where it is no list.
    pub(super) leaf: Option<OpeningWord>,
    pub(super) items: Vec<Item>,
    /// It is a drawer that runs on the board under it.
    pub(super) on_wood: bool,
    /// The list behind it, of a door that has one.
    pub(super) behind: Option<usize>,
    /// A list that fills what it stands in: the root, or the list behind a door. It has
    /// no name, no size, and no note of its own.
    pub(super) fills: bool,
    pub(super) wide: Variable,
    pub(super) high: Variable,
}

#[derive(Debug)]
pub(super) struct MemberDraft<'a> {
    pub(super) entry: &'a Entry,
    /// Its name, once all openings of the case are known.
    pub(super) path: String,
    pub(super) called: Called,
    pub(super) list: usize,
    pub(super) axis: Axis,
    pub(super) between: Between,
    pub(super) wide: Variable,
    /// The board that a divider is, once it is read.
    pub(super) board: Option<Board>,
}

/// What all openings of a case draw on.
#[derive(Debug)]
pub(super) struct Context<'a> {
    pub(super) case: &'a str,
    pub(super) id: CaseId,
    pub(super) frameless: bool,
    pub(super) fronts: Option<&'a Fronts>,
    pub(super) drawers: Option<&'a DrawerBoxes>,
    pub(super) partitions: Option<&'a Board>,
    pub(super) shelves: &'a Shelves,
    pub(super) holds_web: HoldsWeb,
    /// Whether the case has a bottom and a top.
    pub(super) closed: [bool; 2],
    /// What boards are of that say nothing else.
    pub(super) stock: Option<StockId>,
    pub(super) shared: &'a Shared<'a>,
}

impl Context<'_> {
    /// True for a drawer or tray that runs on the board under it.
    fn is_on_wood(&self, entry: &Entry, leaf: OpeningWord) -> bool {
        match leaf {
            OpeningWord::Drawer | OpeningWord::Tray => {}
            OpeningWord::Door | OpeningWord::Doors | OpeningWord::Open | OpeningWord::False => {
                return false;
            }
        }
        let slides = self.shared.made_slides;
        let own = entry.body().and_then(|body| body.one(words::drawer::SLIDE));
        let slide = match own.and_then(Said::value) {
            Some(name) => slides.iter().find(|slide| slide.name == name.value),
            None => self.drawers.and_then(|drawers| slides.get(drawers.slide.0)),
        };
        slide.is_some_and(|slide| slide.wooden().is_some())
    }
}

/// The openings of a case while they are read.
#[derive(Debug)]
pub(super) struct Drafts<'a> {
    pub(super) openings: Vec<Draft<'a>>,
    pub(super) members: Vec<MemberDraft<'a>>,
    pub(super) names: SizeNames,
    pub(super) sheet: Sheet,
    /// They are the cases of a run, and what stands between them.
    pub(super) of_run: bool,
}

impl<'a> Drafts<'a> {
    /// Reads the root list and everything in it, and writes its equations.
    pub(super) fn read(
        (list, axis): (&'a Entry, Axis),
        sheet: Sheet,
        names: SizeNames,
        context: &Context<'a>,
        ctx: &mut Lower,
    ) -> Self {
        let mut drafts =
            Self { openings: Vec::new(), members: Vec::new(), names, sheet, of_run: false };
        drafts.list(list, axis, None, context.case.to_owned(), context, ctx);
        drafts.name_members(context.id);
        drafts.same_names(ctx);
        drafts.sizes(context, ctx);
        drafts
    }

    fn draft(
        &mut self,
        entry: &'a Entry,
        path: String,
        parent: Option<usize>,
        what: Result<Axis, OpeningWord>,
    ) -> usize {
        let open = entry.body().map(|body| body.open);
        let parent_axis = parent.and_then(|parent| self.openings[parent].list);
        let fills = what.is_ok() && parent_axis.is_none();
        let unknown = |axis| {
            let name = last(&path).to_owned();
            let list = parent.filter(|_| parent_axis == Some(axis));
            Unknown { name, axis, span: entry.head, list, open }
        };
        let (wide, high) = (unknown(Axis::Across), unknown(Axis::Down));
        let wide = self.sheet.variable(wide);
        let high = self.sheet.variable(high);
        let (list, leaf) = (what.ok(), what.err());
        let (items, behind, on_wood) = (Vec::new(), None, false);
        let draft =
            Draft { entry, path, parent, list, leaf, items, on_wood, behind, fills, wide, high };
        self.openings.push(draft);
        self.openings.len() - 1
    }

    pub(super) fn list(
        &mut self,
        entry: &'a Entry,
        axis: Axis,
        parent: Option<usize>,
        path: String,
        context: &Context<'a>,
        ctx: &mut Lower,
    ) -> usize {
        let index = self.draft(entry, path.clone(), parent, Ok(axis));
        let Some(body) = entry.body() else { return index };
        let mut items = Vec::new();
        for child in body.in_order() {
            if let Some(nested) = child.kind::<Nested>() {
                let path = match child.name() {
                    Some(name) => format!("{path}.{}", name.value),
                    None => path.clone(),
                };
                let list = self.list(child, Axis::of(nested), Some(index), path, context, ctx);
                items.push(Item::Opening(OpeningId { case: context.id, at: list }));
            } else if let Some(leaf) = child.kind::<OpeningWord>() {
                let name = child.name().map_or("opening", |name| name.value);
                let path = format!("{path}.{name}");
                let at = self.draft(child, path.clone(), Some(index), Err(leaf));
                self.openings[at].on_wood = context.is_on_wood(child, leaf);
                self.behind(at, child, path, context, ctx);
                items.push(Item::Opening(OpeningId { case: context.id, at }));
            } else if let Some(between) = child.kind::<Between>() {
                if let Some(fault) = misplaced(child, between, axis, context.frameless) {
                    ctx.sink.push(fault);
                }
                let name = format!("{} {}", last(&path), between.spelling());
                let unknown = Unknown {
                    name,
                    axis,
                    span: child.head,
                    list: Some(index),
                    open: child.body().map(|body| body.open),
                };
                let wide = self.sheet.variable(unknown);
                self.members.push(MemberDraft {
                    entry: child,
                    path: String::new(),
                    called: Called::default(),
                    list: index,
                    axis,
                    between,
                    wide,
                    board: None,
                });
                let at = self.members.len() - 1;
                items.push(Item::Member(MemberId { case: context.id, at }));
            }
        }
        if !items.iter().any(|item| matches!(item, Item::Opening(_))) {
            ctx.sink.push(Diagnostic::error(
                "list-empty",
                format!("this `{}` holds no opening", entry.word.word),
                entry.head,
                "an opening belongs in these braces",
            ));
        }
        self.openings[index].items = items;
        index
    }

    fn same_names(&mut self, ctx: &mut Lower) {
        let mut seen: Vec<(&str, Span)> = Vec::new();
        for draft in self.openings.iter().filter(|draft| draft.entry.name().is_some()) {
            let name = last(&draft.path);
            let span = draft.entry.name().map_or(draft.entry.head, |name| name.span);
            if let Some((_, first)) = seen.iter().find(|(known, _)| *known == draft.path.as_str()) {
                ctx.sink.push(
                    Diagnostic::error(
                        "name-twice",
                        format!("two openings are called `{name}`"),
                        span,
                        "the second one with this name",
                    )
                    .label(*first, "the first one"),
                );
            }
            seen.push((&draft.path, span));
        }
    }

    /// The equations of every list and size.
    fn sizes(&mut self, context: &Context<'a>, ctx: &mut Lower) {
        for (i, draft) in self.openings.iter().enumerate() {
            if i == 0 || draft.entry.name().is_some() {
                self.names.add(&draft.path, draft.wide, draft.high);
            }
        }
        for index in 0..self.openings.len() {
            self.fill(index);
        }
        for index in 0..self.openings.len() {
            self.stated(index, ctx);
        }
        for index in 0..self.members.len() {
            self.member(index, context, ctx);
        }
        for index in 0..self.openings.len() {
            self.shares(index, ctx);
        }
    }

    /// The items of a list fill it, and are as high (or wide) as it is.
    fn fill(&mut self, index: usize) {
        let draft = &self.openings[index];
        let Some(axis) = draft.list else { return };
        // A list behind a door is as large as the opening of the door.
        let door = draft.parent.filter(|_| draft.fills).map(|door| &self.openings[door]);
        let door = door.map(|door| [(door.wide, draft.wide), (door.high, draft.high)]);
        let along = |d: &Draft<'_>| if axis == Axis::Across { d.wide } else { d.high };
        let cross = |d: &Draft<'_>| if axis == Axis::Across { d.high } else { d.wide };
        let span = Some(draft.entry.head);
        let mut terms = vec![(along(draft), Exact::int(-1))];
        let mut crossings = Vec::new();
        for item in &draft.items {
            match item {
                Item::Opening(child) => {
                    let child = &self.openings[child.at];
                    terms.push((along(child), Exact::ONE));
                    crossings
                        .push(vec![(cross(child), Exact::ONE), (cross(draft), Exact::int(-1))]);
                }
                Item::Member(member) => terms.push((self.members[member.at].wide, Exact::ONE)),
            }
        }
        let known = |says| Known { says, span, constant: Length::ZERO, facts: Vec::new() };
        self.sheet.equation(terms, Length::ZERO, known(Says::Fills(index)));
        for (door, own) in door.into_iter().flatten() {
            crossings.push(vec![(own, Exact::ONE), (door, Exact::int(-1))]);
        }
        for terms in crossings {
            self.sheet.equation(terms, Length::ZERO, known(Says::Crosses));
        }
    }

    /// `wide` and `high` of an opening or list.
    fn stated(&mut self, index: usize, ctx: &mut Lower) {
        let draft = &self.openings[index];
        let Some(body) = draft.entry.body().filter(|_| !draft.fills) else { return };
        let name = last(&draft.path).to_owned();
        let sizes = [(Axis::Across, draft.wide), (Axis::Down, draft.high)];
        let axis = draft.parent.and_then(|parent| self.openings[parent].list);
        let parent = draft.parent;
        for (along, variable) in sizes {
            let list = parent.filter(|_| axis == Some(along));
            self.fix(body, along.size(), variable, &name, list, ctx);
        }
    }

    fn member(&mut self, index: usize, context: &Context<'a>, ctx: &mut Lower) {
        let draft = &self.members[index];
        let (entry, variable, list) = (draft.entry, draft.wide, draft.list);
        let name = draft.between.spelling();
        match draft.between {
            Between::Divider => {
                let Some(mut board) = divider(entry, context, ctx) else { return };
                web::only_lying(&mut board, draft.axis, ctx);
                // Nothing stands on an upright one: there the word says nothing.
                let lying = entry.body().filter(|_| draft.axis == Axis::Down);
                board.carries = lying.and_then(super::carries::own);
                let size = context.shared.thickness(board.stock);
                self.sheet.fix_to(variable, &size, name, Some(list), entry.head);
                self.members[index].board = Some(board);
            }
            Between::Stile | Between::Rail => {
                let Some(body) = entry.body() else { return };
                self.fix(body, words::stile::WIDE, variable, name, Some(list), ctx);
            }
        }
    }

    /// `word EXPR` of a block fixes `variable`.
    pub(super) fn fix(
        &mut self,
        body: &Entries,
        word: Word<takes::Size>,
        variable: Variable,
        name: &str,
        list: Option<usize>,
        ctx: &mut Lower,
    ) {
        let Some(size) = body.size(word) else { return };
        let word = word.spelling();
        let SizeExpr { expr, unit } = size.value;
        let names = &self.names;
        let sum = match linear(expr, *unit, &mut |name| names.size(name)) {
            Ok(sum) => sum,
            Err(fault) => return ctx.sink.push(*fault),
        };
        if sum.terms.is_empty() && !positive(&sum, size.span, ctx) {
            return;
        }
        let plain = sum.terms.is_empty();
        let written = Sourced { value: sum.constant, origin: Origin::Written(size.span) };
        let fact = match plain {
            true => ctx.facts.said(written, name, word),
            false => ctx.facts.sourced(written, name),
        };
        let mut terms = vec![(variable, Exact::ONE)];
        terms.extend(sum.terms.iter().map(|(other, factor)| (*other, -*factor)));
        let says = Says::Fixed { name: name.to_owned(), list, word: plain.then_some(word) };
        let known = Known {
            says,
            span: Some(size.span),
            constant: sum.constant,
            facts: fact.terms().to_vec(),
        };
        self.sheet.equation(terms, sum.constant, known);
    }

    /// `share` and `same` of the items of a list.
    pub(super) fn shares(&mut self, index: usize, ctx: &mut Lower) {
        let Some(axis) = self.openings[index].list else { return };
        let mut unit = None;
        let items = self.openings[index].items.clone();
        for item in items {
            let Item::Opening(child) = item else { continue };
            let draft = &self.openings[child.at];
            let Some(body) = draft.entry.body() else { continue };
            let own = if axis == Axis::Across { draft.wide } else { draft.high };
            let name = last(&draft.path).to_owned();
            let span = draft.entry.head;
            if let Some(twice) = blame::share_and_same(body, &name) {
                ctx.sink.push(twice);
            }
            if let Some(share) = body.get(words::group::SHARE) {
                let unit = *unit.get_or_insert_with(|| {
                    let name = format!("a share of {name}'s list");
                    let unknown = Unknown { name, axis, span, list: None, open: None };
                    self.sheet.variable(unknown)
                });
                let known = Known {
                    says: Says::Shares { name, same: false },
                    span: Some(share.span_or(span)),
                    constant: Length::ZERO,
                    facts: Vec::new(),
                };
                let terms = vec![(own, Exact::ONE), (unit, -share.value)];
                self.sheet.equation(terms, Length::ZERO, known);
            } else if let Some(same) = body.one(words::group::SAME) {
                let Some(path) = same.value().map(|path| path.map(Name::text)) else { continue };
                let Found::One(other) = self.names.find(path.value) else {
                    ctx.sink.push(self.names.unknown(path, &name, self.of_run));
                    continue;
                };
                let other = self.names.variable(other, axis);
                if other == own {
                    ctx.sink.push(blame::same_as_itself(self, (same.head, &name), index));
                    continue;
                }
                let known = Known {
                    says: Says::Shares { name, same: true },
                    span: Some(same.head),
                    constant: Length::ZERO,
                    facts: Vec::new(),
                };
                let terms = vec![(own, Exact::ONE), (other, Exact::int(-1))];
                self.sheet.equation(terms, Length::ZERO, known);
            }
        }
    }
}

fn positive(sum: &Linear<Variable>, span: Span, ctx: &mut Lower) -> bool {
    match crate::vocabulary::in_reason(sum.constant, span) {
        Err(fault) => {
            ctx.sink.push(*fault);
            false
        }
        Ok(length) if length.is_zero() => {
            ctx.sink.push(Diagnostic::error(
                "absurd-size",
                "a size must be more than zero",
                span,
                "nothing",
            ));
            false
        }
        Ok(_) => true,
    }
}

/// A stile belongs in `across` and a rail in `down`, both in a frame.
fn misplaced(entry: &Entry, between: Between, axis: Axis, frameless: bool) -> Option<Diagnostic> {
    let word = between.spelling();
    let fault = |title: String, note: String| {
        Some(
            Diagnostic::error(
                "member-misplaced",
                title,
                entry.head,
                "this can't stand in this list",
            )
            .note(note),
        )
    };
    match (between, axis, frameless) {
        (Between::Stile | Between::Rail, _, true) => fault(
            format!("a frameless case has no {word}"),
            "write `divider { }` between its openings".into(),
        ),
        (Between::Stile, Axis::Down, false) => fault(
            "a stile can't stand in a list that runs down".into(),
            "write `rail` between openings that run top to bottom".into(),
        ),
        (Between::Rail, Axis::Across, false) => fault(
            "a rail can't lie in a list that runs across".into(),
            "write `stile` between openings that run left to right".into(),
        ),
        (Between::Divider, ..)
        | (Between::Stile, Axis::Across, false)
        | (Between::Rail, Axis::Down, false) => None,
    }
}

/// A board of its own that is as the partitions in what it does not say.
pub(super) fn board(
    body: &Entries,
    word: Word<impl Takes<Is = JointKind>>,
    (what, at): (&str, Span),
    context: &Context<'_>,
    ctx: &mut Lower,
) -> Option<Board> {
    let Context { partitions, shared, .. } = *context;
    let fallback = partitions.map(|board| board.stock).or(context.stock);
    let stock = read_case::stock(body, fallback, &format!("the {what}"), at, shared, ctx)?;
    let asked = (word, JointKind::Dado);
    let mut joint = read_case::joinery(body, asked, &shared.thickness(stock), what, ctx);
    if let Some(partitions) = partitions.filter(|_| joint.span.is_none()) {
        joint = partitions.joint.clone();
    }
    let all = partitions.map_or(&Edged::Unsaid, |board| &board.edges);
    let edges = edging::of_board(body, shared, ctx).or(all).clone();
    let web = web::of_board(body, stock, &joint, shared, ctx);
    Some(Board { stock, joint, edges, web, carries: None, span: at, notes: body.notes() })
}

fn divider(entry: &Entry, context: &Context<'_>, ctx: &mut Lower) -> Option<Board> {
    let empty = ctx.empty(&words::divider::BLOCK);
    let body = entry.body().unwrap_or(&empty);
    board(body, words::divider::JOINT, ("divider", entry.head), context, ctx)
}
