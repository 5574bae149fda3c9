//! The whole piece: names resolved, everything solved.

use crate::diagnostics::{Diagnostic, Sink};
use crate::measure::{Length, Span, Spanned, Tape};
use crate::syntax::Name;
use crate::vocabulary::takes::{Define, Finding, On, Path, Text};
use crate::vocabulary::words::{OfPiece, file};
use crate::vocabulary::{Entries, Entry, Kinds, Said, Word};

use super::case::{Case, Exposure};
use super::cut::{self, Cut};
use super::finish::{self, Finish};
use super::hardware::{self, Bit, Pull, Slide};
use super::hinge::{self, Hinge};
use super::id::StockId;
use super::id::{BitId, CaseId, FinishId, HingeId, MemberId, OpeningId, PullId, SlideId};
use super::job::{self, Job};
use super::limits::{self, MOST_CASES};
use super::load::Loaded;
use super::lower::{Lower, Names};
use super::measured::{self, Reading, Replaced};
use super::opening::{Member, Opening};
use super::read_case::Shared;
use super::shop::{self, Shop};
use super::site::{self, Site};
use super::size::{Facts, Size};
use super::solve_case;
use super::species::{self, OwnSpecies};
use super::standing::Standing;
use super::stock::{self, Stock};

/// A warning that the maker accepts at one place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Accept {
    /// The rule's slug.
    pub slug: String,
    /// Where the slug stands.
    pub slug_span: Span,
    /// The opening or part, by the end of its name or the whole of it.
    pub subject: String,
    /// The reason.
    pub reason: String,
    /// The statement.
    pub span: Span,
}

/// A solved piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// The job.
    pub job: Job,
    /// The room.
    pub site: Site,
    /// The shop.
    pub shop: Shop,
    /// Woods with figures of the spec's own.
    pub species: Vec<OwnSpecies>,
    /// Materials.
    pub stocks: Vec<Stock>,
    /// Hinges.
    pub hinges: Vec<Hinge>,
    /// Slides.
    pub slides: Vec<Slide>,
    /// Pulls.
    pub pulls: Vec<Pull>,
    /// Router bits.
    pub bits: Vec<Bit>,
    /// Finishes.
    pub finishes: Vec<Finish>,
    /// The cases, left to right.
    pub cases: Vec<Case>,
    /// Warnings the maker accepts.
    pub accepts: Vec<Accept>,
    /// What was measured and counts.
    pub readings: Vec<Reading>,
    /// Parts that are cut, the last word on each last.
    pub cuts: Vec<Cut>,
    /// Every figure that sizes come from.
    pub facts: Facts,
}

impl Piece {
    /// A stock; `None` for an id that another piece gave out.
    #[must_use]
    pub fn stock(&self, id: StockId) -> Option<&Stock> {
        self.stocks.get(id.0)
    }

    /// A case; `None` for an id that another piece gave out, as with the others.
    #[must_use]
    pub fn case(&self, id: CaseId) -> Option<&Case> {
        self.cases.get(id.0)
    }

    /// An opening.
    #[must_use]
    pub fn opening(&self, id: OpeningId) -> Option<&Opening> {
        self.case(id.case)?.openings.get(id.at)
    }

    /// A stile, rail or divider.
    #[must_use]
    pub fn member(&self, id: MemberId) -> Option<&Member> {
        self.case(id.case)?.members.get(id.at)
    }

    /// A hinge.
    #[must_use]
    pub fn hinge(&self, id: HingeId) -> Option<&Hinge> {
        self.hinges.get(id.0)
    }

    /// A slide.
    #[must_use]
    pub fn slide(&self, id: SlideId) -> Option<&Slide> {
        self.slides.get(id.0)
    }

    /// A pull.
    #[must_use]
    pub fn pull(&self, id: PullId) -> Option<&Pull> {
        self.pulls.get(id.0)
    }

    /// A router bit.
    #[must_use]
    pub fn bit(&self, id: BitId) -> Option<&Bit> {
        self.bits.get(id.0)
    }

    /// A finish.
    #[must_use]
    pub fn finish(&self, id: FinishId) -> Option<&Finish> {
        self.finishes.get(id.0)
    }

    /// The thickness of a stock.
    #[must_use]
    pub fn thickness(&self, id: StockId) -> Size {
        self.stock(id).map(|stock| stock.thickness.clone()).unwrap_or_default()
    }

    /// How far behind the front of the deepest case the wall stands, at which
    /// the backs of all cases are.
    #[must_use]
    pub fn wall(&self) -> Length {
        self.cases.iter().map(|case| case.deep.length).max().unwrap_or_default()
    }

    /// How figures are printed.
    #[must_use]
    pub fn tape(&self) -> &Tape {
        &self.job.tape
    }
}

/// What became of a spec that was read.
#[derive(Debug)]
pub struct Lowered {
    /// The piece, if nothing is wrong with it.
    pub piece: Option<Piece>,
    /// Else what stands of it.
    pub standing: Option<Standing>,
    /// What was found. Where the spec could not be read whole, nothing: whatever
    /// is wrong with the rest may come of that.
    pub sink: Sink,
}

/// Gives every name its meaning and solves every case.
#[must_use]
pub fn lower(loaded: &Loaded) -> Lowered {
    let mut ctx = Lower::new();
    let Some(main) = loaded.files.first() else {
        return Lowered { piece: None, standing: None, sink: ctx.sink };
    };
    // A statement that could not be read leaves a hole in the piece; whatever
    // is said of it would be a second message for one mistake.
    let whole = !loaded.sink.has_errors();
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
    let Lower { facts, sink, tape, half_solved, .. } = ctx;
    let cases = main.all(file::CASE).count();
    if whole && !sink.has_errors() {
        let piece = piece.filter(|piece| piece.cases.len() == cases);
        let piece = piece.map(|piece| Piece { facts, ..piece });
        return Lowered { piece, standing: None, sink };
    }
    let standing = Standing::new(half_solved, piece, facts, tape, whole);
    Lowered { piece: None, standing: Some(standing), sink }
}

fn piece(main: &Entries, files: &[Entries], ctx: &mut Lower) -> Option<Piece> {
    version(main, ctx);
    for file in files {
        file.noted(file::USE);
        file.noted(file::UNITS);
    }
    only_in_main(files, ctx);
    let job = match main.one(file::JOB) {
        Some(entry) => job::lower(entry, ctx),
        None => {
            ctx.sink.push(
                Diagnostic::error(
                    "word-missing",
                    "the spec has no `job`",
                    main.open,
                    "there is no `job` in this file",
                )
                .note("for example, `job \"Hall console\" { units in }`"),
            );
            None
        }
    };
    let site = site::lower(main.one(file::SITE).and_then(Said::body), ctx);
    let replaced = measured::replaced(main, ctx);
    let shop = shop(main, files, &replaced, ctx);
    let species = gather(files, file::SPECIES, ctx, species::lower);
    let stocks = gather(files, file::STOCK, ctx, |entry, ctx| {
        let thick = entry.name().and_then(|name| replaced.thickness(name.value));
        stock::lower(entry, &species, thick, ctx)
    });
    let hinges = gather(files, file::HINGE, ctx, hinge::hinge);
    let slides = gather(files, file::SLIDE, ctx, hardware::slide);
    let pulls = gather(files, file::PULL, ctx, hardware::pull);
    let bits = gather(files, file::BIT, ctx, hardware::bit);
    let finishes = gather(files, file::FINISH, ctx, finish::finish);
    // A thing whose own block is at fault is missing here; what refers to it
    // must not be blamed too.
    if ctx.sink.has_errors() {
        ctx.go_on();
    }
    let entries: Vec<Said<'_, Define>> = main.all(file::CASE).collect();
    if let Some(case) = entries.get(MOST_CASES) {
        ctx.sink.push(limits::too_many(MOST_CASES, "cases", case.head));
        return None;
    }
    ctx.twice("case", entries.iter().copied());
    let shared = Shared {
        stock_names: Names::new(stocks.iter().map(|s| s.name.as_str())),
        hinges: Names::new(hinges.iter().map(|h| h.name.as_str())),
        slides: Names::new(slides.iter().map(|s| s.name.as_str())),
        pulls: Names::new(pulls.iter().map(|p| p.name.as_str())),
        bits: Names::new(bits.iter().map(|b| b.name.as_str())),
        finishes: Names::new(finishes.iter().map(|f| f.name.as_str())),
        keep_outs: Names::new(site.keep_outs.iter().map(|k| k.name.as_str())),
        stocks: &stocks,
    };
    for (name, _) in &replaced.stocks {
        ctx.find(Spanned::new(&name.value, name.span), &shared.stock_names);
    }
    if entries.is_empty() {
        ctx.sink.push(
            Diagnostic::error(
                "word-missing",
                "the spec has no case",
                main.open,
                "there is no `case` in this file",
            )
            .note("`casewright new FILE` writes a short spec to start from"),
        );
    }
    let mut cases = Vec::new();
    let mut x = Length::ZERO;
    for (index, entry) in entries.iter().enumerate() {
        let left = if index == 0 { Exposure::of_boundary(&site.left) } else { Exposure::Neighbour };
        let last = index + 1 == entries.len();
        let right = if last { Exposure::of_boundary(&site.right) } else { Exposure::Neighbour };
        if let Some(mut case) = solve_case::lower(entry, CaseId(index), [left, right], &shared, ctx)
        {
            case.x = x;
            x += case.wide.length;
            cases.push(case);
        }
    }
    if let Some(fault) = limits::too_many_shelves(&cases) {
        ctx.sink.push(fault);
        return None;
    }
    // Only a whole piece has every name that may have been measured.
    let whole = cases.len() == entries.len() && !ctx.made_up;
    let readings = match whole {
        true => measured::openings(main, &mut cases, &stocks, &shop, ctx),
        false => Vec::new(),
    };
    let cuts = cut::cuts(main, ctx);
    let accepts = main.all(file::ACCEPT).filter_map(accept).collect();
    Some(Piece {
        job: job?,
        site,
        shop,
        cases,
        accepts,
        readings,
        cuts,
        facts: Facts::default(),
        species,
        stocks,
        hinges,
        slides,
        pulls,
        bits,
        finishes,
    })
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

/// The spec's own shop, else that of the first file used that has one.
fn shop(main: &Entries, files: &[Entries], replaced: &Replaced, ctx: &mut Lower) -> Shop {
    let own = main.one(file::SHOP);
    let mut shared = files.iter().skip(1).filter_map(|used| used.one(file::SHOP));
    let entry = own.or_else(|| shared.next());
    for other in shared {
        other.mark_all();
        if own.is_none() {
            ctx.sink.push(Diagnostic::error(
                "word-twice",
                "two used files describe the shop",
                other.head,
                "the second shop",
            ));
        }
    }
    if own.is_some() {
        for file in files.iter().skip(1) {
            file.all(file::SHOP).for_each(|shop| shop.mark_all());
        }
    }
    shop::lower(entry.and_then(Said::body), replaced.humidity, ctx)
}

/// Everything of one kind from all files.
fn gather<T>(
    files: &[Entries],
    word: Word<Define>,
    ctx: &mut Lower,
    lower: impl Fn(&Entry, &mut Lower) -> Option<T>,
) -> Vec<T> {
    let entries: Vec<Said<'_, Define>> = files.iter().flat_map(|file| file.all(word)).collect();
    ctx.twice(word.spelling(), entries.iter().copied());
    let mut all = Vec::with_capacity(entries.len());
    for entry in entries {
        all.extend(lower(&entry, ctx));
    }
    all
}

fn accept(entry: Said<'_, (Finding, On, Path, Text)>) -> Option<Accept> {
    let slug = entry.value()?;
    Some(Accept {
        slug: slug.value.to_owned(),
        slug_span: slug.span,
        subject: Name::text(entry.third()?.value),
        reason: entry.fourth()?.value.to_owned(),
        span: entry.head,
    })
}
