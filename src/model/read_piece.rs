//! The whole spec: what files share, then the cases, each solved.

use crate::diagnostics::{Diagnostic, Sink};
use crate::measure::{Length, Span, Spanned};
use crate::vocabulary::takes::{self, Define, Finding, On, Path, Text, Thing};
use crate::vocabulary::words::{self, OfPiece, OnFloor, file};
use crate::vocabulary::{Entries, Entry, Kinds, Origin, Said, Word};

use super::apart;
use super::bought_legs::{self, BoughtLeg};
use super::case::Case;
use super::cut;
use super::drawer_box;
use super::finish::{self, Finish};
use super::hardware::{self, Bit, Pull, Slide};
use super::hinge::{self, Hinge};
use super::id::{CaseId, RunId};
use super::job::{self, Job};
use super::kick_lines;
use super::leaf_room::{self, Fittings};
use super::level;
use super::like;
use super::limits::{self, MOST_CASES};
use super::load::Loaded;
use super::lower::{Lower, Names};
use super::measured::{self, Replaced};
use super::on_posts;
use super::opening::OpeningKind;
use super::piece::{Accept, Holding, Piece, Unused};
use super::place::Place;
use super::read_case::Shared;
use super::read_run::{self, Stand};
use super::rows;
use super::run::CaseRun;
use super::shop::{self, Shop};
use super::site::{self, Boundary, Site};
use super::size::{Facts, Size};
use super::sold;
use super::solve_case;
use super::species::{self, OwnSpecies};
use super::stacked::{self, Floor};
use super::standing::Standing;
use super::stock::{self, Stock};
use super::titles;
use super::tops;
use super::web;

/// What became of a spec that was read.
#[derive(Debug)]
pub struct Lowered {
    /// The piece, if nothing is wrong with it.
    pub piece: Option<Piece>,
    /// Else what stands of it.
    pub standing: Option<Standing>,
    /// Where there is no piece, the warnings that the maker accepts.
    pub accepts: Vec<Accept>,
    /// What was found. Where the spec could not be read whole, nothing: whatever
    /// is wrong with the rest may come of that.
    pub sink: Sink,
}

/// Gives every name its meaning and solves every case.
#[must_use]
pub fn lower(loaded: &Loaded) -> Lowered {
    let mut ctx = Lower::new();
    let Some(main) = loaded.files.first() else {
        return Lowered { piece: None, standing: None, accepts: Vec::new(), sink: ctx.sink };
    };
    // A statement that could not be read leaves a hole in the piece; whatever
    // is said of it would be a second message for one mistake.
    let whole = !loaded.sink.has_holes();
    if !whole {
        ctx.go_on();
    }
    let piece = piece(main, &loaded.files, &mut ctx);
    ctx.stop_going_on();
    if whole && !ctx.sink.has_errors() {
        let mut unread = Vec::new();
        for file in &loaded.files {
            file.unread(&mut unread);
        }
        ctx.sink.extend(unread);
    }
    let Lower { facts, mut sink, tape, half_solved, taken_over, .. } = ctx;
    sink.tell_once(|at| taken_over.iter().any(|case| case.holds(at)));
    let cases = main.all(file::CASE).count() + main.all(file::RUN).map(in_run).sum::<usize>();
    if whole && !sink.has_errors() {
        let piece = piece.filter(|piece| piece.cases.len() == cases);
        let piece = piece.map(|piece| Piece { facts, ..piece });
        return Lowered { piece, standing: None, accepts: Vec::new(), sink };
    }
    let standing = Standing::new(half_solved, piece, facts, tape, whole);
    Lowered { piece: None, standing: Some(standing), accepts: accepts(main), sink }
}

fn piece(main: &Entries, files: &[Entries], ctx: &mut Lower) -> Option<Piece> {
    version(main, ctx);
    for file in files {
        file.noted(file::USE);
        file.noted(file::UNITS);
    }
    only_in_main(files, ctx);
    let job = job(main, ctx);
    let site = site::lower(main.one(file::SITE).and_then(Said::body), ctx);
    let replaced = measured::replaced(main, ctx);
    let shop = shop(main, files, &replaced, ctx);
    let things = Things::read(files, &replaced, ctx);
    // A thing whose own block is at fault is missing here; what refers to it
    // must not be blamed too.
    if ctx.sink.has_errors() {
        ctx.go_on();
    }
    let main = &like::written_out(main, ctx);
    let standing: Vec<(OnFloor, &Entry)> =
        main.in_order().filter_map(|entry| Some((entry.kind()?, entry))).collect();
    let entries: usize = standing.iter().map(|(kind, entry)| cases_of(*kind, entry).len()).sum();
    let (mut cases, runs) = cases(main, &standing, &things, &site, &replaced, ctx)?;
    let fittings = Fittings {
        hinges: &things.hinges,
        pulls: &things.pulls,
        stocks: &things.stocks,
        walls: walls(&site, &cases, &runs),
    };
    leaf_room::give(&mut cases, &fittings, ctx);
    let made_of = (things.slides.as_slice(), things.stocks.as_slice());
    drawer_box::give(&mut cases, made_of, (&site, shop.humidity), ctx);
    web::give(&mut cases, made_of.1, (&site, shop.humidity), ctx);
    on_posts::nothing_on(&cases, ctx);
    titles::across(&mut cases);
    // Only a whole piece has every name that may have been measured.
    let whole = cases.len() == entries && !ctx.made_up;
    let readings = match whole {
        true => measured::openings(main, &mut cases, &things.stocks, &shop, ctx),
        false => Vec::new(),
    };
    let cuts = cut::cuts(main, ctx);
    let accepts = accepts(main);
    let holding = holding(&cases, ctx);
    let unused = things.unused(ctx);
    let supplies = files.iter().flat_map(|file| file.all(file::SUPPLY));
    let supplies = supplies.filter_map(sold::supply).collect();
    let abrasives = sold::abrasives(files, ctx);
    let glue = sold::glue_of(files, ctx);
    let Things { species, stocks, hinges, slides, pulls, legs, bits, finishes } = things;
    let mut piece = Piece {
        job: job?,
        site,
        shop,
        cases,
        runs,
        tops: Vec::new(),
        accepts,
        readings,
        cuts,
        unused,
        holding,
        facts: Facts::default(),
        species,
        stocks,
        hinges,
        slides,
        pulls,
        legs,
        bits,
        finishes,
        supplies,
        glue,
        abrasives,
    };
    kick_lines::give(&mut piece);
    rows::give(&mut piece);
    tops::give(&mut piece);
    Some(piece)
}

/// Where the walls at the sides of all cases and runs are, from their left side.
fn walls(site: &Site, cases: &[Case], runs: &[CaseRun]) -> [Option<Length>; 2] {
    let cases = cases.iter().map(|case| case.x + case.wide.length);
    let wide = cases.chain(runs.iter().map(|run| run.x + run.wide.length)).max();
    let is_wall = |boundary: &Boundary| matches!(boundary, Boundary::Wall { .. });
    [is_wall(&site.left).then_some(Length::ZERO), wide.filter(|_| is_wall(&site.right))]
}

/// What holds the false fronts of a piece that has some.
fn holding(cases: &[Case], ctx: &mut Lower) -> Option<Holding> {
    let mut openings = cases.iter().flat_map(|case| &case.openings);
    openings.find(|own| matches!(own.kind, OpeningKind::False))?;
    let unit = ctx.tape.unit;
    let usual = Origin::Default { block: words::false_front::BLOCK.name, word: "false" };
    let thick = unit.either(Length::inches(3, 4), Length::mm(20));
    let play = unit.either(Length::inches(1, 4), Length::mm(6));
    Some(Holding {
        thick: ctx.facts.add(thick, "thickness of a holding block", usual),
        play: ctx.facts.add(play, "play of a holding block in its opening", usual),
    })
}

fn job(main: &Entries, ctx: &mut Lower) -> Option<Job> {
    if let Some(entry) = main.one(file::JOB) {
        return job::lower(entry, ctx);
    }
    ctx.sink.push(
        Diagnostic::error(
            "word-missing",
            "the spec has no `job`",
            main.open,
            "there is no `job` in this file",
        )
        .note("for example, `job \"Hall console\" { units in }`")
        .of_piece(),
    );
    None
}

/// What files share and cases refer to by name.
struct Things {
    species: Vec<OwnSpecies>,
    stocks: Vec<Stock>,
    hinges: Vec<Hinge>,
    slides: Vec<Slide>,
    pulls: Vec<Pull>,
    legs: Vec<BoughtLeg>,
    bits: Vec<Bit>,
    finishes: Vec<Finish>,
}

impl Things {
    fn read(files: &[Entries], replaced: &Replaced, ctx: &mut Lower) -> Self {
        let species = gather(files, file::SPECIES, ctx, species::lower);
        let stocks = gather(files, file::STOCK, ctx, |entry, ctx| {
            let thick = entry.name().and_then(|name| replaced.thickness(name.value));
            stock::lower(entry, &species, thick, ctx)
        });
        Self {
            species,
            stocks,
            hinges: gather(files, file::HINGE, ctx, hinge::hinge),
            slides: gather(files, file::SLIDE, ctx, hardware::slide),
            pulls: gather(files, file::PULL, ctx, hardware::pull),
            legs: gather(files, file::LEG, ctx, bought_legs::leg),
            bits: gather(files, file::BIT, ctx, hardware::bit),
            finishes: gather(files, file::FINISH, ctx, finish::finish),
        }
    }

    /// Those that nothing refers to; bits are chosen from the rack unasked.
    fn unused(&self, ctx: &Lower) -> Vec<Unused> {
        fn of<'a, T: Thing>(
            all: impl Iterator<Item = (&'a str, Span)>,
            ctx: &Lower,
        ) -> impl Iterator<Item = Unused> {
            let free = all.enumerate().filter(|(index, _)| !ctx.is_named::<T>(*index));
            free.map(|(_, (name, span))| Unused { what: T::WHAT, name: name.to_owned(), span })
        }
        let stocks = self.stocks.iter().map(|it| (it.name.as_str(), it.span));
        let hinges = self.hinges.iter().map(|it| (it.name.as_str(), it.span));
        let slides = self.slides.iter().map(|it| (it.name.as_str(), it.span));
        let pulls = self.pulls.iter().map(|it| (it.name.as_str(), it.span));
        let legs = self.legs.iter().map(|it| (it.name.as_str(), it.span));
        let finishes = self.finishes.iter().map(|it| (it.name.as_str(), it.span));
        of::<takes::Stock>(stocks, ctx)
            .chain(of::<takes::Hinge>(hinges, ctx))
            .chain(of::<takes::Slide>(slides, ctx))
            .chain(of::<takes::Pull>(pulls, ctx))
            .chain(of::<takes::Leg>(legs, ctx))
            .chain(of::<takes::Finish>(finishes, ctx))
            .collect()
    }

    /// Their names, and those of the keep-outs of the site.
    fn shared<'a>(&'a self, site: &'a Site) -> Shared<'a> {
        Shared {
            stock_names: Names::new(self.stocks.iter().map(|it| it.name.as_str())),
            hinges: Names::new(self.hinges.iter().map(|it| it.name.as_str())),
            slides: Names::new(self.slides.iter().map(|it| it.name.as_str())),
            pulls: Names::new(self.pulls.iter().map(|it| it.name.as_str())),
            legs: Names::new(self.legs.iter().map(|it| it.name.as_str())),
            bits: Names::new(self.bits.iter().map(|it| it.name.as_str())),
            finishes: Names::new(self.finishes.iter().map(|it| it.name.as_str())),
            keep_outs: Names::new(site.keep_outs.iter().map(|it| it.name.as_str())),
            stocks: &self.stocks,
            made_slides: &self.slides,
            made_legs: &self.legs,
            fixed: site.fixed,
        }
    }
}

/// The statements of the cases of a run.
fn in_run(run: Said<'_, Define>) -> usize {
    cases_of(OnFloor::Run, &run).len()
}

/// The statements of the cases that stand at a place: one, or those of its run.
fn cases_of(kind: OnFloor, entry: &Entry) -> Vec<&Entry> {
    match kind {
        OnFloor::Case => vec![entry],
        OnFloor::Run => {
            let list = entry.body().and_then(|body| body.one(words::run::ACROSS));
            let list = list.and_then(Said::body).into_iter();
            list.flat_map(|list| list.all(words::run_list::CASE)).map(|case| case.entry).collect()
        }
    }
}

/// The cases that could be solved, side by side from the left, and their runs; `None`
/// where there are too many, or too many shelves in them (reported).
fn cases(
    main: &Entries,
    standing: &[(OnFloor, &Entry)],
    things: &Things,
    site: &Site,
    replaced: &Replaced,
    ctx: &mut Lower,
) -> Option<(Vec<Case>, Vec<CaseRun>)> {
    let entries: Vec<&Entry> =
        standing.iter().flat_map(|(kind, entry)| cases_of(*kind, entry)).collect();
    if let Some(case) = entries.get(MOST_CASES) {
        ctx.sink.push(limits::too_many(MOST_CASES, "cases", case.head));
        return None;
    }
    let runs = standing.iter().filter(|(kind, _)| *kind == OnFloor::Run).map(|(_, run)| *run);
    ctx.twice("case or run", entries.iter().copied().chain(runs));
    let shared = things.shared(site);
    for (name, _) in &replaced.stocks {
        ctx.find(Spanned::new(&name.value, name.span), &shared.stock_names);
    }
    if standing.is_empty() {
        ctx.sink.push(
            Diagnostic::error(
                "word-missing",
                "the spec has no case",
                main.open,
                "there is no `case` in this file",
            )
            .note("`casewright new FILE` writes a short spec to start from")
            .of_piece(),
        );
    }
    let together = apart::together(standing, site, ctx);
    let (mut cases, mut runs) = (Vec::new(), Vec::new());
    let (mut x, mut first, mut upper) = (Size::zero(), 0, Vec::new());
    let is_upper = |(kind, entry): &(OnFloor, &Entry)| stacked::is_placed(*kind, entry);
    let below = |(at, own): (usize, &_)| (!is_upper(own)).then_some(at);
    let mut lowest = standing.iter().enumerate().filter_map(below);
    let ends = (lowest.next(), lowest.next_back());
    for (index, (kind, entry)) in standing.iter().enumerate() {
        let is_end = [ends.0, ends.1.or(ends.0)].map(|end| end == Some(index));
        let exposure = together.exposure(site, is_end);
        match kind {
            OnFloor::Case | OnFloor::Run if is_upper(&(*kind, *entry)) => {
                upper.push((*kind, CaseId(first), *entry));
            }
            OnFloor::Case => {
                let path = entry.name().map_or("", |name| name.value).to_owned();
                let place = Place {
                    id: CaseId(first),
                    path,
                    run: None,
                    exposure,
                    level: level::beside_case(standing, index),
                    is_covered: false,
                    on: None,
                    wide: None,
                };
                if let Some(mut case) = solve_case::lower(entry, place, &shared, ctx) {
                    x = together.next(x, cases.last(), &case, ctx);
                    (case.x, case.beside) = (x.length, x.clone());
                    x = x + &case.wide;
                    cases.push(case);
                }
            }
            OnFloor::Run => {
                let stand =
                    Stand { id: RunId(runs.len()), first: CaseId(first), x: x.clone(), exposure };
                if let Some((run, own)) = read_run::lower(entry, stand, &shared, ctx) {
                    x = x + &run.wide;
                    cases.extend(own);
                    runs.push(run);
                }
            }
        }
        first += cases_of(*kind, entry).len();
    }
    let floor = Floor::new(standing, &cases, &runs);
    for (kind, id, entry) in upper {
        match kind {
            OnFloor::Case => cases.extend(stacked::lower(entry, id, &floor, &shared, ctx)),
            OnFloor::Run => {
                let at = (RunId(runs.len()), id);
                if let Some((run, own)) = stacked::run_over(entry, at, &floor, &shared, ctx) {
                    cases.extend(own);
                    runs.push(run);
                }
            }
        }
    }
    cases.sort_by_key(|case| case.id);
    if let Some(fault) = limits::too_many_shelves(&cases) {
        ctx.sink.push(fault);
        return None;
    }
    Some((cases, runs))
}

fn version(main: &Entries, ctx: &mut Lower) {
    if let Some(count) = main.one(file::CASEWORK).and_then(Said::value)
        && *count.value != 1
    {
        ctx.sink.push(Diagnostic::error(
            "version-unknown",
            format!("casewright does not know version {} of the language", count.value),
            count.span,
            "this casewright reads version 1",
        ));
    }
}

/// A used file shares materials, hardware and the shop; the piece itself
/// stands in the spec.
fn only_in_main(files: &[Entries], ctx: &mut Lower) {
    for file in files.iter().skip(1) {
        file.noted(file::CASEWORK);
        for (word, entry) in file.in_order().filter_map(|e| Some((e.kind::<OfPiece>()?, e))) {
            entry.mark_all();
            let word = word.spelling();
            ctx.sink.push(
                Diagnostic::error(
                    "use-holds-piece",
                    format!("a used file may not hold `{word}`"),
                    entry.head,
                    "this belongs in the spec itself",
                )
                .note("a used file shares stock, hardware, finishes, and the shop"),
            );
        }
    }
}

/// The spec's own shop; what it leaves out is as in the shop of the first file used that
/// has one.
fn shop(main: &Entries, files: &[Entries], replaced: &Replaced, ctx: &mut Lower) -> Shop {
    let own = main.one(file::SHOP);
    let mut shared = files.iter().skip(1).filter_map(|used| used.one(file::SHOP));
    let used = shared.next();
    for other in shared {
        if own.is_none() {
            ctx.sink.push(Diagnostic::error(
                "word-twice",
                "two used files describe the shop",
                other.head,
                "the second shop",
            ));
        }
        other.mark_all();
    }
    let filled = match (own.and_then(Said::body), used.and_then(Said::body)) {
        (Some(own), Some(used)) => Some(own.below(used, &words::shop::BLOCK, &[])),
        (own, used) => own.or(used).cloned(),
    };
    if let (Some(_), Some(used)) = (own, used) {
        used.mark_all();
    }
    shop::lower(filled.as_ref(), replaced.humidity, ctx)
}

/// Everything of one kind from all files.
fn gather<T>(
    files: &[Entries],
    word: Word<Define>,
    ctx: &mut Lower,
    lower: impl Fn(&Entry, &mut Lower) -> Option<T>,
) -> Vec<T> {
    let entries: Vec<Said<'_, Define>> = files.iter().flat_map(|file| file.all(word)).collect();
    ctx.twice(word.spelling(), entries.iter().map(|said| said.entry));
    let mut all = Vec::with_capacity(entries.len());
    for entry in entries {
        all.extend(lower(&entry, ctx));
    }
    all
}

fn accepts(main: &Entries) -> Vec<Accept> {
    main.all(file::ACCEPT).filter_map(accept).collect()
}

fn accept(entry: Said<'_, (Finding, On, Path, Text)>) -> Option<Accept> {
    let slug = entry.value()?;
    Some(Accept {
        slug: slug.value.to_owned(),
        slug_span: slug.span,
        subject: entry.third()?.value.text().to_owned(),
        reason: entry.fourth()?.value.to_owned(),
        span: entry.head,
    })
}
