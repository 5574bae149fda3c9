//! What a maker asks, in the words of the papers: a name or a mark, and what of it;
//! a set-up or a step by its number; or one subject of the whole piece.

use crate::model::{Row, RunId};
use crate::parts::{Front, Part, PartId};
use crate::pipeline::Compilation;
use crate::plans::weights::Lifted;

use super::teller::Teller;
use super::{
    Subject, Thing, Why, balance, boards, cuts, gaps, glue, hanging, rods, screws, setups, slides,
    steps, stops, weights,
};

/// What is answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// Everything that was meant, with its figures.
    pub whys: Vec<Why>,
    /// What may be asked of them alone, where all was told.
    pub subjects: Vec<Subject>,
}

/// Why a question has no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unknown {
    /// Nothing is called so.
    Name {
        /// As it was asked.
        asked: String,
        /// Every name that would do.
        known: Vec<String>,
    },
    /// There is such a thing, but nothing of the kind is known of it.
    Subject {
        /// The thing.
        name: String,
        /// What was asked of it.
        subject: Subject,
        /// What may be asked of it.
        known: Vec<Subject>,
    },
}

/// Answers a question: `press`, `shelf dado`, `set-up 6`, `step 4`,
/// `weight press.left-door`, `clamps`. A name stands before what is asked of it or behind; a name alone asks
/// for everything.
///
/// # Errors
///
/// Says what would have done where nothing is called so, or nothing is known of that
/// kind.
pub fn answer(compiled: &Compilation, words: &[&str]) -> Result<Answer, Unknown> {
    let read = read(words);
    let Some(work) = compiled.workings() else {
        let whys = super::why(compiled, &words.join("-"));
        return match whys.is_empty() {
            true => Err(unknown(words.join(" "), super::known_names(compiled))),
            false => Ok(Answer { whys, subjects: Vec::new() }),
        };
    };
    let tell = Teller::new(compiled, &work);
    let asked = Asked { compiled, tell: &tell };
    // What a maker has named so comes first: an opening may be called `gap`.
    let whole = asked.named(&words.join("-"));
    if !whole.is_empty() {
        return Ok(Answer { subjects: subjects(&whole), whys: whole });
    }
    let found = read.into_iter().find_map(|(subject, name)| {
        let whys = match &name {
            None => asked.everything(),
            Some(name) => match asked.numbered(&format!("{}-{name}", subject.word())) {
                Some(own) => vec![own],
                None => asked.numbered(name).map_or_else(|| asked.named(name), |own| vec![own]),
            },
        };
        (!whys.is_empty()).then_some((subject, name, whys))
    });
    let Some((subject, name, mut whys)) = found else { return Err(asked.strange(words)) };
    // All of a set-up or a step is told where it is asked for by its number.
    let known = subjects(&whys);
    for why in &mut whys {
        why.sizes.retain(|sum| sum.about.contains(&subject));
    }
    whys.retain(|why| !why.sizes.is_empty());
    match whys.is_empty() {
        true => Err(Unknown::Subject {
            name: name.unwrap_or_else(|| "the piece".to_owned()),
            subject,
            known,
        }),
        false => Ok(Answer { whys, subjects: Vec::new() }),
    }
}

/// The subject before or behind the other words, and the name that those are.
fn read(words: &[&str]) -> Vec<(Subject, Option<String>)> {
    let of = |at: usize| {
        let subject = Subject::named(words.get(at)?)?;
        let others = words.iter().enumerate().filter(|(place, _)| *place != at);
        let name: Vec<&str> = others.map(|(_, word)| *word).collect();
        Some((subject, (!name.is_empty()).then(|| name.join("-"))))
    };
    [0, words.len().saturating_sub(1)].into_iter().filter_map(of).collect()
}

fn unknown(asked: String, known: Vec<String>) -> Unknown {
    Unknown::Name { asked, known }
}

/// What may be asked of these alone.
fn subjects(whys: &[Why]) -> Vec<Subject> {
    let told = |subject: &Subject| {
        whys.iter().flat_map(|why| &why.sizes).any(|sum| sum.about.contains(subject))
    };
    Subject::ALL.into_iter().filter(told).collect()
}

struct Asked<'t, 'c> {
    compiled: &'c Compilation,
    tell: &'t Teller<'c>,
}

impl Asked<'_, '_> {
    /// What is not understood: the word that means nothing, or all of them together.
    fn strange(&self, words: &[&str]) -> Unknown {
        let means = |word: &&str| {
            let number = word.parse::<usize>().is_ok();
            number || Subject::named(word).is_some() || !self.named(word).is_empty()
        };
        let strange = words.iter().find(|word| !means(word));
        let asked = strange.map_or_else(|| words.join(" "), |word| (*word).to_owned());
        let mut known = super::known_names(self.compiled);
        known.extend(self.names());
        unknown(asked, known)
    }

    /// Names that only a figure of a plan is asked by.
    fn names(&self) -> Vec<String> {
        let work = self.tell.work;
        let marks = self.tell.parts.all.iter().map(|part| part.mark.clone());
        let fronts = work.fronts().iter().map(|front| front.path.clone());
        let glue_ups = work.glue_ups().iter().map(|glue_up| glue_up.path.clone());
        let subjects = Subject::ALL.into_iter().map(|subject| subject.word().to_owned());
        let stocks = work.piece.stocks.iter().filter(|stock| stock.is_solid());
        let subjects = subjects.chain(stocks.map(|stock| stock.name.clone()));
        marks.chain(fronts).chain(glue_ups).chain(subjects).collect()
    }

    /// What a paper counts: `set-up-6`, `step-4`.
    fn numbered(&self, name: &str) -> Option<Why> {
        let (word, number) = name.rsplit_once('-')?;
        let number = number.parse().ok()?;
        let subject = Subject::named(word)?;
        let set_up = (subject == Subject::SetUp).then(|| setups::of(self.tell, number));
        let step = (subject == Subject::Step).then(|| steps::of(self.tell, number));
        set_up.or(step).flatten()
    }

    /// Everything of that name, with all its figures.
    fn named(&self, name: &str) -> Vec<Why> {
        let dotted = format!(".{name}");
        let meant = |path: &str| path == name || path.ends_with(&dotted);
        let mut found = super::why(self.compiled, name);
        for why in &mut found {
            let more = match why.thing {
                Thing::Case => self.of_case(&why.name),
                Thing::Opening => self.of_opening(&why.name),
                Thing::Part { .. } => {
                    let part = self.tell.parts.iter().find(|(_, part)| part.path == why.name);
                    part.map(|(id, part)| self.of_part(id, part)).unwrap_or_default()
                }
                Thing::Run => self.of_run(&why.name),
                Thing::Front
                | Thing::SetUp
                | Thing::GlueUp
                | Thing::Step { .. }
                | Thing::Stock
                | Thing::Piece => Vec::new(),
            };
            why.sizes.extend(more);
        }
        let work = self.tell.work;
        // A front of one board is called by the mark of that board too.
        let marked = |front: &&Front<'_>| match front.parts.as_slice() {
            [only] => only.mark == name,
            _ => false,
        };
        let fronts = work.fronts().iter().filter(|front| meant(&front.path) || marked(front));
        found.extend(fronts.map(|front| self.of_front(front)));
        let glue_ups = work.glue_ups().iter().filter(|glue_up| meant(&glue_up.path));
        found.extend(glue_ups.map(|glue_up| glue::of(self.tell, glue_up)));
        if work.piece.stocks.iter().any(|stock| stock.name == name && stock.is_solid()) {
            found.extend(boards::all(self.tell).filter(|why| why.name == name));
        }
        found.retain(|why| !why.sizes.is_empty());
        found
    }

    /// Everything that is printed of the piece.
    fn everything(&self) -> Vec<Why> {
        let (tell, work) = (self.tell, self.tell.work);
        let mut found = Vec::new();
        let runs = tell.piece.runs.iter().map(|run| (run, self.of_run(&run.name)));
        found.extend(runs.filter(|(_, sizes)| !sizes.is_empty()).map(|(run, sizes)| Why {
            name: run.name.clone(),
            thing: Thing::Run,
            sizes,
        }));
        for case in &tell.piece.cases {
            found.extend(super::why(self.compiled, &case.path).into_iter().take(1));
            if let Some(why) = found.last_mut() {
                why.sizes.extend(self.of_case(&case.path));
            }
        }
        let openings = tell.piece.cases.iter().flat_map(|case| &case.openings);
        for opening in openings {
            let sizes = self.of_opening(&opening.path);
            found.push(Why { name: opening.path.clone(), thing: Thing::Opening, sizes });
        }
        for (id, part) in tell.parts.iter() {
            let mut why = super::of_part(tell.piece, part);
            why.sizes.extend(self.of_part(id, part));
            // A set-up tells of its settings itself.
            why.sizes.retain(|sum| !sum.about.contains(&Subject::SetUp));
            found.push(why);
        }
        found.extend(work.fronts().iter().map(|front| self.of_front(front)));
        found.extend(work.glue_ups().iter().map(|glue_up| glue::of(tell, glue_up)));
        found.extend((1..=work.setups().len()).filter_map(|number| setups::of(tell, number)));
        found.extend(boards::all(tell));
        let count = work.assembly().tasks.len();
        found.extend((1..=count).filter_map(|number| steps::of(tell, number)));
        let mut whole = glue::waits(tell);
        whole.extend(steps::whole(tell));
        let lifted: Vec<Lifted> = work.weights().lifted.keys().copied().collect();
        whole.extend(weights::of_lifted(tell, "weight of the whole", &lifted));
        let space = work.weights().whole_space();
        // Pieces that stand apart are never carried as one.
        let space = space.filter(|_| !tell.piece.stands_apart());
        whole.extend(balance::of(tell, "the whole balances", &lifted, space));
        found.push(Why { name: "the piece".to_owned(), thing: Thing::Piece, sizes: whole });
        found
    }

    /// What is made once for the cases of a run.
    fn of_run(&self, name: &str) -> Vec<super::Sum> {
        let (tell, piece) = (self.tell, self.tell.piece);
        let found = (0..).map(RunId).zip(&piece.runs).find(|(_, run)| run.name == name);
        let Some((id, run)) = found else { return Vec::new() };
        let rows = run.bases.iter();
        let base = |row: &Row| {
            let word = match piece.base_named(row.first) {
                name if name == run.name => "weight of the base".to_owned(),
                name => format!("weight of the base of {name}"),
            };
            weights::of_lifted(tell, &word, &[Lifted::Base(row.first)])
        };
        let mut sums: Vec<super::Sum> = rows.flat_map(base).collect();
        let tops = piece.tops.iter().filter(|top| top.run == Some(id));
        sums.extend(tops.flat_map(|top| {
            let word = match piece.top_named(top) {
                name if name == run.name => "weight of the countertop".to_owned(),
                name => format!("weight of the countertop of {name}"),
            };
            weights::of_lifted(tell, &word, &[Lifted::Countertop(top.row.first)])
        }));
        sums
    }

    fn of_case(&self, name: &str) -> Vec<super::Sum> {
        let tell = self.tell;
        let case = tell.piece.cases.iter().find(|case| case.path == name);
        let Some(case) = case else { return Vec::new() };
        let own =
            weights::of_lifted(tell, "weight without doors and drawers", &[Lifted::Case(case.id)]);
        let shelves =
            weights::of_lifted(tell, "weight of the loose shelves", &[Lifted::Shelves(case.id)]);
        let covers = weights::of_lifted(
            tell,
            "weight of the parts added on site",
            &[Lifted::Covers(case.id)],
        );
        let base = weights::of_lifted(
            tell,
            "weight of the base",
            &[Lifted::Base(tell.piece.base_of(case.id))],
        );
        let countertop = tell.piece.top_over(case.id).map(|top| Lifted::Countertop(top.row.first));
        let countertop =
            weights::of_lifted(tell, "weight of the countertop", countertop.as_slice());
        let lifted = own.into_iter().chain(shelves).chain(covers).chain(base).chain(countertop);
        let empty = Lifted::Case(case.id);
        let space = tell.work.weights().space(&empty).copied();
        let balances = balance::of(tell, "balances when empty", &[empty], space);
        lifted.chain(balances).chain(weights::tips(tell, case.id)).collect()
    }

    fn of_opening(&self, path: &str) -> Vec<super::Sum> {
        let tell = self.tell;
        let openings = tell.piece.cases.iter().flat_map(|case| &case.openings);
        let Some(opening) = openings.into_iter().find(|opening| opening.path == path) else {
            return Vec::new();
        };
        let mut sums = slides::of_opening(tell, opening.id);
        sums.extend(rods::of_opening(tell, opening.id));
        sums.extend(stops::of_opening(tell, opening.id));
        sums.extend(hanging::pins(tell, |rows, _| rows.opening.id == opening.id));
        sums.extend(weights::of_lifted(
            tell,
            "weight of the drawer",
            &[Lifted::Drawer(opening.id)],
        ));
        sums
    }

    fn of_part(&self, id: PartId, part: &Part) -> Vec<super::Sum> {
        let tell = self.tell;
        let mut sums = cuts::of(tell, id, part);
        sums.extend(hanging::hinges(tell, part));
        sums.extend(hanging::plates(tell, part));
        sums.extend(hanging::pins(tell, |_, board| board.path == part.path));
        sums.extend(setups::of_part(tell, id));
        sums.extend(gaps::of_part(tell, part));
        sums.extend(screws::of_part(tell, part));
        sums.extend(weights::of_part(tell, id, part));
        sums
    }

    fn of_front(&self, front: &Front<'_>) -> Why {
        let mut sizes = gaps::of_front(self.tell, front);
        sizes.extend(weights::of_front(self.tell, front.id));
        Why { name: front.path.clone(), thing: Thing::Front, sizes }
    }
}
