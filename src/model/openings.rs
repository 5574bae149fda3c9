//! The lists of openings to equations, and the solution back to places.

use crate::diagnostics::Diagnostic;
use crate::measure::{Exact, Length, Span};
use crate::vocabulary::{Entries, Entry, Fault, Linear, Origin, SizeExpr, linear};

use super::blame;
use super::case::{Board, JointKind, Side};
use super::front::{DrawerBoxes, Fronts};
use super::layout::{EquationId, Solution, System, Value, Variable};
use super::lower::Lower;
use super::opening::{Axis, Item, Member, MemberKind, Opening, OpeningKind, Partition, ShelfSet};
use super::read_case::{self, Shared};
use super::size::{FactId, Size};

/// What an equation says, for those who read about it.
#[derive(Clone, Debug)]
pub(super) enum Says {
    /// The items of a list fill it: the index of the list's opening.
    Fills(usize),
    /// An item of a list is as high (or wide) as its list.
    Crosses,
    /// A frame leaves this for the root list.
    Leaves,
    /// A statement fixes a size. The name is what its figure is called.
    Fixed {
        /// `upper`, `top rail`, `wide`.
        name: String,
        /// The list that the fixed thing is an item of.
        list: Option<usize>,
        /// It is a plain figure behind a size word, so an edit can change it.
        word: Option<&'static str>,
    },
    /// An item takes a share of what is left.
    Shares {
        /// The item.
        name: String,
        /// It says `same`, not `share`.
        same: bool,
    },
}

/// An equation's meaning, its statement and its figure.
#[derive(Clone, Debug)]
pub(super) struct Known {
    pub(super) says: Says,
    pub(super) span: Option<Span>,
    pub(super) constant: Length,
    pub(super) fact: Option<FactId>,
}

/// An unknown size, for those who read about it.
#[derive(Clone, Debug)]
pub(super) struct Unknown {
    pub(super) name: String,
    pub(super) axis: Axis,
    pub(super) span: Span,
    /// An item of this list, which may take a share.
    pub(super) list: Option<usize>,
    /// The opening brace of its block, behind which a size can be added.
    pub(super) open: Option<Span>,
}

/// The equations of one case while they are gathered.
#[derive(Debug, Default)]
pub(super) struct Sheet {
    pub(super) system: System,
    pub(super) known: Vec<Known>,
    pub(super) unknown: Vec<Unknown>,
}

impl Sheet {
    pub(super) fn variable(&mut self, unknown: Unknown) -> Variable {
        self.unknown.push(unknown);
        self.system.variable()
    }

    pub(super) fn equation(
        &mut self,
        terms: Vec<(Variable, Exact)>,
        constant: Length,
        known: Known,
    ) -> EquationId {
        self.known.push(known);
        self.system.equation(terms, constant)
    }

    /// `variable = figure`, where the figure is a fact already.
    pub(super) fn fix_to(&mut self, variable: Variable, size: &Size, name: &str, span: Span) {
        let says = Says::Fixed { name: name.to_owned(), list: None, word: None };
        let fact = size.terms().first().map(|(fact, _)| *fact);
        let known = Known { says, span: Some(span), constant: size.length, fact };
        self.equation(vec![(variable, Exact::ONE)], size.length, known);
    }
}

/// Names of sizes that expressions may use.
#[derive(Debug, Default)]
pub(super) struct SizeNames {
    /// Dotted path, width and height.
    names: Vec<(String, [Variable; 2])>,
}

impl SizeNames {
    pub(super) fn add(&mut self, path: &str, wide: Variable, high: Variable) {
        self.names.push((path.to_owned(), [wide, high]));
    }

    /// The variable that `upper.high` means.
    fn size(&self, name: &crate::syntax::Name) -> Result<Variable, Fault> {
        let unknown = |title: String, label: &str| {
            Err(Box::new(Diagnostic::error("name-unknown", title, name.span, label)))
        };
        let text = name.text();
        let Some((path, axis)) = text.rsplit_once('.').and_then(|(path, word)| match word {
            "wide" => Some((path, 0)),
            "high" => Some((path, 1)),
            _ => None,
        }) else {
            return unknown(
                format!("`{text}` names no size: write `{text}.wide` or `{text}.high`"),
                "wide or high?",
            );
        };
        match self.find(path) {
            Found::One(index) => Ok(self.names[index].1[axis]),
            Found::Many => unknown(
                format!("more than one opening is called `{path}`"),
                "write more of its name",
            ),
            Found::None => {
                let near = crate::measure::nearest(path, self.names.iter().map(|(n, _)| last(n)));
                let mut fault = Diagnostic::error(
                    "name-unknown",
                    format!("no opening is called `{path}`"),
                    name.span,
                    "unknown name",
                );
                if let Some(near) = near {
                    fault = fault.note(format!("did you mean `{near}`?"));
                }
                Err(Box::new(fault))
            }
        }
    }

    fn find(&self, path: &str) -> Found {
        let dotted = format!(".{path}");
        let exact = self.names.iter().position(|(known, _)| known == path);
        if let Some(index) = exact {
            return Found::One(index);
        }
        let mut matches = self
            .names
            .iter()
            .enumerate()
            .filter(|(_, (known, _))| known.ends_with(&dotted))
            .map(|(index, _)| index);
        match (matches.next(), matches.next()) {
            (Some(index), None) => Found::One(index),
            (Some(_), Some(_)) => Found::Many,
            (None, _) => Found::None,
        }
    }
}

enum Found {
    One(usize),
    Many,
    None,
}

fn last(path: &str) -> &str {
    path.rsplit('.').next().unwrap_or(path)
}

/// An opening or member while its size is unknown.
#[derive(Debug)]
pub(super) struct Draft<'a> {
    pub(super) entry: &'a Entry,
    pub(super) path: String,
    pub(super) parent: Option<usize>,
    pub(super) list: Option<Axis>,
    pub(super) items: Vec<Item>,
    pub(super) wide: Variable,
    pub(super) high: Variable,
}

#[derive(Debug)]
pub(super) struct MemberDraft<'a> {
    pub(super) entry: &'a Entry,
    pub(super) path: String,
    pub(super) list: usize,
    pub(super) axis: Axis,
    pub(super) wide: Variable,
}

/// What all openings of a case draw on.
#[derive(Debug)]
pub(super) struct Context<'a> {
    pub(super) case: &'a str,
    pub(super) frameless: bool,
    pub(super) fronts: Option<&'a Fronts>,
    pub(super) drawers: Option<&'a DrawerBoxes>,
    pub(super) partitions: Option<&'a Board>,
    pub(super) shared: &'a Shared<'a>,
}

/// The openings of a case while they are read.
#[derive(Debug)]
pub(super) struct Drafts<'a> {
    pub(super) openings: Vec<Draft<'a>>,
    pub(super) members: Vec<MemberDraft<'a>>,
    pub(super) names: SizeNames,
    pub(super) sheet: Sheet,
}

impl<'a> Drafts<'a> {
    /// Reads the root list and everything in it, and writes its equations.
    pub(super) fn read(
        list: &'a Entry,
        sheet: Sheet,
        names: SizeNames,
        context: &Context<'a>,
        ctx: &mut Lower,
    ) -> Self {
        let mut drafts = Self { openings: Vec::new(), members: Vec::new(), names, sheet };
        let axis = axis_of(list);
        drafts.list(list, axis, None, context.case.to_owned(), context, ctx);
        drafts.same_names(ctx);
        drafts.sizes(context, ctx);
        drafts
    }

    fn draft(
        &mut self,
        entry: &'a Entry,
        path: String,
        parent: Option<usize>,
        list: Option<Axis>,
    ) -> usize {
        let open = entry.body().map(|body| body.open);
        let parent_axis = parent.and_then(|parent| self.openings[parent].list);
        let unknown = |axis| {
            let name = last(&path).to_owned();
            let list = parent.filter(|_| parent_axis == Some(axis));
            Unknown { name, axis, span: entry.head, list, open }
        };
        let (wide, high) = (unknown(Axis::Across), unknown(Axis::Down));
        let wide = self.sheet.variable(wide);
        let high = self.sheet.variable(high);
        self.openings.push(Draft { entry, path, parent, list, items: Vec::new(), wide, high });
        self.openings.len() - 1
    }

    fn list(
        &mut self,
        entry: &'a Entry,
        axis: Axis,
        parent: Option<usize>,
        path: String,
        context: &Context<'a>,
        ctx: &mut Lower,
    ) -> usize {
        let index = self.draft(entry, path.clone(), parent, Some(axis));
        let Some(body) = entry.body() else { return index };
        let mut items = Vec::new();
        for child in body.in_order() {
            match child.word.word {
                "across" | "down" => {
                    body.mark(child);
                    let path = match child.text(0) {
                        Some(name) => format!("{path}.{}", name.value),
                        None => path.clone(),
                    };
                    let list = self.list(child, axis_of(child), Some(index), path, context, ctx);
                    items.push(Item::Opening(list));
                }
                "drawer" | "door" | "doors" | "open" | "false" => {
                    body.mark(child);
                    let name = child.text(0).map_or("opening", |name| name.value);
                    let path = format!("{path}.{name}");
                    items.push(Item::Opening(self.draft(child, path, Some(index), None)));
                }
                "stile" | "rail" | "divider" => {
                    body.mark(child);
                    if let Some(fault) = misplaced(child, axis, context.frameless) {
                        ctx.sink.push(fault);
                    }
                    let name = format!("{} {}", list_name(&path), child.word.word);
                    let unknown = Unknown {
                        name,
                        axis,
                        span: child.head,
                        list: Some(index),
                        open: child.body().map(|body| body.open),
                    };
                    let wide = self.sheet.variable(unknown);
                    let path = path.clone();
                    self.members.push(MemberDraft { entry: child, path, list: index, axis, wide });
                    items.push(Item::Member(self.members.len() - 1));
                }
                _ => {}
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
        self.name_members(&items, &path);
        self.openings[index].items = items;
        index
    }

    /// A member takes its name from its neighbours, so that a revision
    /// elsewhere does not rename it.
    fn name_members(&mut self, items: &[Item], path: &str) {
        for (i, item) in items.iter().enumerate() {
            let Item::Member(member) = item else { continue };
            let neighbour = |item: Option<&Item>| match item {
                Some(Item::Opening(opening)) => last(&self.openings[*opening].path).to_owned(),
                _ => "edge".to_owned(),
            };
            let before = neighbour(i.checked_sub(1).and_then(|i| items.get(i)));
            let after = neighbour(items.get(i + 1));
            let entry = self.members[*member].entry;
            let name = match entry.text(0) {
                Some(name) => name.value.to_owned(),
                None => format!("{}-{before}-{after}", entry.word.word),
            };
            self.members[*member].path = format!("{path}.{name}");
        }
    }

    fn same_names(&mut self, ctx: &mut Lower) {
        let mut seen: Vec<(&str, Span)> = Vec::new();
        for draft in self.openings.iter().filter(|draft| draft.entry.text(0).is_some()) {
            let name = last(&draft.path);
            let span = draft.entry.text(0).map_or(draft.entry.head, |name| name.span);
            if let Some((_, first)) = seen.iter().find(|(known, _)| *known == draft.path.as_str()) {
                ctx.sink.push(
                    Diagnostic::error(
                        "name-twice",
                        format!("two openings are called `{name}`"),
                        span,
                        "a second one of this name",
                    )
                    .label(*first, "the first"),
                );
            }
            seen.push((&draft.path, span));
        }
    }

    /// The equations of every list and size.
    fn sizes(&mut self, context: &Context<'a>, ctx: &mut Lower) {
        for (i, draft) in self.openings.iter().enumerate() {
            if i == 0 || draft.entry.text(0).is_some() {
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
        let along = |d: &Draft<'_>| if axis == Axis::Across { d.wide } else { d.high };
        let cross = |d: &Draft<'_>| if axis == Axis::Across { d.high } else { d.wide };
        let span = Some(draft.entry.head);
        let mut terms = vec![(along(draft), Exact::int(-1))];
        let mut crossings = Vec::new();
        for item in &draft.items {
            match item {
                Item::Opening(child) => {
                    let child = &self.openings[*child];
                    terms.push((along(child), Exact::ONE));
                    crossings
                        .push(vec![(cross(child), Exact::ONE), (cross(draft), Exact::int(-1))]);
                }
                Item::Member(member) => terms.push((self.members[*member].wide, Exact::ONE)),
            }
        }
        let known = |says| Known { says, span, constant: Length::ZERO, fact: None };
        self.sheet.equation(terms, Length::ZERO, known(Says::Fills(index)));
        for terms in crossings {
            self.sheet.equation(terms, Length::ZERO, known(Says::Crosses));
        }
    }

    /// `wide` and `high` of an opening or list.
    fn stated(&mut self, index: usize, ctx: &mut Lower) {
        let draft = &self.openings[index];
        let Some(body) = draft.entry.body().filter(|_| index > 0) else { return };
        let name = last(&draft.path).to_owned();
        let sizes = [("wide", draft.wide), ("high", draft.high)];
        let axis = draft.parent.and_then(|parent| self.openings[parent].list);
        let parent = draft.parent;
        for (word, variable) in sizes {
            let list = parent.filter(|_| axis.map(Axis::size_word) == Some(word));
            if body.block.word(word).is_some() {
                self.fix(body, word, variable, &name, list, ctx);
            }
        }
    }

    fn member(&mut self, index: usize, context: &Context<'a>, ctx: &mut Lower) {
        let draft = &self.members[index];
        let (entry, variable, list) = (draft.entry, draft.wide, draft.list);
        let name = entry.word.word.to_owned();
        if name == "divider" {
            let Some(board) = divider(entry, context, ctx) else { return };
            let size = context.shared.thickness(board.stock);
            self.sheet.fix_to(variable, &size, "divider", entry.head);
            if let Some(Known { says: Says::Fixed { list: of, .. }, .. }) =
                self.sheet.known.last_mut()
            {
                *of = Some(list);
            }
            return;
        }
        if let Some(body) = entry.body() {
            self.fix(body, "wide", variable, &name, Some(list), ctx);
        }
    }

    /// `word EXPR` of a block fixes `variable`.
    pub(super) fn fix(
        &mut self,
        body: &Entries,
        word: &'static str,
        variable: Variable,
        name: &str,
        list: Option<usize>,
        ctx: &mut Lower,
    ) {
        let Some(size) = body.size(word) else { return };
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
        let origin = Origin::Written(size.span);
        let fact = ctx.facts.add(sum.constant, name, origin);
        let mut terms = vec![(variable, Exact::ONE)];
        terms.extend(sum.terms.iter().map(|(other, factor)| (*other, -*factor)));
        let says = Says::Fixed { name: name.to_owned(), list, word: plain.then_some(word) };
        let known = Known {
            says,
            span: Some(size.span),
            constant: sum.constant,
            fact: fact.terms().first().map(|(fact, _)| *fact),
        };
        self.sheet.equation(merge(terms), sum.constant, known);
    }

    /// `share` and `same` of the items of a list.
    fn shares(&mut self, index: usize, ctx: &mut Lower) {
        let Some(axis) = self.openings[index].list else { return };
        let mut unit = None;
        let items = self.openings[index].items.clone();
        for item in items {
            let Item::Opening(child) = item else { continue };
            let draft = &self.openings[child];
            let Some(body) = draft.entry.body() else { continue };
            let own = if axis == Axis::Across { draft.wide } else { draft.high };
            let name = last(&draft.path).to_owned();
            let span = draft.entry.head;
            if let Some(share) = body.number("share") {
                let unit = *unit.get_or_insert_with(|| {
                    let name = format!("a share of {name}'s list");
                    let unknown = Unknown { name, axis, span, list: None, open: None };
                    self.sheet.variable(unknown)
                });
                let known = Known {
                    says: Says::Shares { name, same: false },
                    span: Some(share.span_or(span)),
                    constant: Length::ZERO,
                    fact: None,
                };
                let terms = vec![(own, Exact::ONE), (unit, -share.value)];
                self.sheet.equation(terms, Length::ZERO, known);
            } else if let Some(same) = body.one("same") {
                let Some(path) = same.path(0) else { continue };
                let Found::One(other) = self.names.find(&path.value) else {
                    ctx.sink.push(Diagnostic::error(
                        "name-unknown",
                        format!("no opening is called `{}`", path.value),
                        path.span,
                        "unknown name",
                    ));
                    continue;
                };
                let other = self.names.names[other].1[usize::from(axis == Axis::Down)];
                let known = Known {
                    says: Says::Shares { name, same: true },
                    span: Some(same.head),
                    constant: Length::ZERO,
                    fact: None,
                };
                if other != own {
                    let terms = vec![(own, Exact::ONE), (other, Exact::int(-1))];
                    self.sheet.equation(terms, Length::ZERO, known);
                }
            }
        }
    }

    /// The solved openings and members, placed from `(x, y)` of the root's
    /// lower left corner; `None` where the solver found no answer (reported).
    pub(super) fn finish(
        self,
        solution: &Solution,
        origin: impl Fn(&dyn Fn(Variable) -> Option<Size>) -> Option<(Length, Length)>,
        context: &Context<'a>,
        ctx: &mut Lower,
    ) -> Option<(Vec<Opening>, Vec<Member>)> {
        blame::report(&self, solution, ctx);
        let size = |variable: Variable| self.size(solution, variable);
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
        let (x, y) = origin(&size)?;
        place(&mut openings, &mut members, x, y);
        Some((openings, members))
    }

    /// A variable's value with the facts it comes from.
    pub(super) fn size(&self, solution: &Solution, variable: Variable) -> Option<Size> {
        let Value::Known { length } = solution.value(variable) else { return None };
        let mut terms: Vec<(FactId, Exact)> = Vec::new();
        for (equation, factor) in solution.derivation(variable) {
            let Some(fact) = self.sheet.known.get(equation.index()).and_then(|known| known.fact)
            else {
                continue;
            };
            match terms.iter_mut().find(|(known, _)| *known == fact) {
                Some((_, sum)) => *sum += factor,
                None => terms.push((fact, factor)),
            }
        }
        terms.retain(|(_, factor)| !factor.is_zero());
        Some(Size::from_terms(*length, terms))
    }
}

fn merge(terms: Vec<(Variable, Exact)>) -> Vec<(Variable, Exact)> {
    let mut merged: Vec<(Variable, Exact)> = Vec::with_capacity(terms.len());
    for (variable, factor) in terms {
        match merged.iter_mut().find(|(known, _)| *known == variable) {
            Some((_, sum)) => *sum += factor,
            None => merged.push((variable, factor)),
        }
    }
    merged.retain(|(_, factor)| !factor.is_zero());
    merged
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
                "a size must be more than nought",
                span,
                "nothing",
            ));
            false
        }
        Ok(_) => true,
    }
}

fn list_name(path: &str) -> &str {
    last(path)
}

fn axis_of(entry: &Entry) -> Axis {
    if entry.word.word == "across" { Axis::Across } else { Axis::Down }
}

/// A stile belongs in `across`, a rail in `down`, a divider in a frame-less case.
fn misplaced(entry: &Entry, axis: Axis, frameless: bool) -> Option<Diagnostic> {
    let word = entry.word.word;
    let fault = |title: String, note: String| {
        Some(
            Diagnostic::error("member-misplaced", title, entry.head, "not in this list").note(note),
        )
    };
    match (word, axis, frameless) {
        ("divider", _, false) => fault(
            "a divider stands between the openings of a frame-less case only".into(),
            "behind a full-height stile a partition stands of itself; see `partitions`".into(),
        ),
        ("stile" | "rail", _, true) => fault(
            format!("a frame-less case has no {word}"),
            "between its openings stand dividers: `divider { }`".into(),
        ),
        ("stile", Axis::Down, _) => fault(
            "a stile can't stand in a list that runs down".into(),
            "from top to bottom, openings are parted by `rail`".into(),
        ),
        ("rail", Axis::Across, _) => fault(
            "a rail can't lie in a list that runs across".into(),
            "from left to right, openings are parted by `stile`".into(),
        ),
        _ => None,
    }
}

fn divider(entry: &Entry, context: &Context<'_>, ctx: &mut Lower) -> Option<Board> {
    let empty = super::shop::empty_block("divider");
    let body = entry.body().unwrap_or(&empty);
    let fallback = context.partitions.map(|board| board.stock);
    let stock = read_case::stock(body, fallback, "the divider", entry.head, context.shared, ctx)?;
    let into = context.shared.thickness(stock);
    let mut joint = read_case::joinery(body, JointKind::Dado, &into, "divider", ctx);
    if joint.span.is_none()
        && let Some(board) = context.partitions
    {
        joint = board.joint.clone();
    }
    Some(Board { stock, joint, span: entry.head, notes: body.notes() })
}

fn opening(
    draft: &Draft<'_>,
    wide: Option<Size>,
    high: Option<Size>,
    context: &Context<'_>,
    ctx: &mut Lower,
) -> Option<Opening> {
    let entry = draft.entry;
    let empty = super::shop::empty_block(match entry.word.word {
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
            Some(OpeningKind::Drawer { slide, around })
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

fn shelf_set(entry: &Entry) -> Option<ShelfSet> {
    let body = entry.body()?;
    let adjustable = body.one("adjustable");
    let count = adjustable.or_else(|| body.one("fixed"))?.count(0)?;
    Some(ShelfSet {
        count: count.value.min(100),
        adjustable: adjustable.is_some(),
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
                    let fallback = parent.map(|board| board.stock);
                    let at = entry.head;
                    let shared = context.shared;
                    let stock = read_case::stock(body, fallback, "the partition", at, shared, ctx)?;
                    let into = shared.thickness(stock);
                    let joint = read_case::joinery(body, JointKind::Dado, &into, "partition", ctx);
                    let joint = match parent {
                        Some(parent) if joint.span.is_none() => parent.joint.clone(),
                        _ => joint,
                    };
                    Some(Board { stock, joint, span: at, notes: body.notes() })
                }
                (None, parent) => parent.cloned(),
            };
            MemberKind::Stile(
                board.map_or(Partition::None, |board| Partition::Board(Box::new(board))),
            )
        }
        "rail" => MemberKind::Rail,
        _ => {
            // Its stock was looked up, and any fault reported, when its size was fixed.
            let mut quiet = Lower {
                sink: crate::diagnostics::Sink::new(),
                facts: std::mem::take(&mut ctx.facts),
                tape: ctx.tape,
            };
            let board = divider(entry, context, &mut quiet);
            ctx.facts = quiet.facts;
            MemberKind::Divider(Box::new(board?))
        }
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
