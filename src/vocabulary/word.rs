//! What the vocabulary says of one word, one argument and one block.

use super::choice::Choice;
use super::range::Range;

/// What an argument may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A length: `3/4`, `18 mm`, arithmetic over lengths.
    Length,
    /// A length that may lie below nought: `-2 mm`.
    Offset,
    /// A size: a length, or arithmetic over the sizes of openings and members.
    Size,
    /// A whole number from nought up to this one.
    Count(u32),
    /// A number without a unit: `1`, `2/3`.
    Number,
    /// A nominal thickness as stock is sold: `3/4`, `4/4`, `18 mm`.
    Nominal,
    /// `40%`
    Percent,
    /// `30% to 55%`
    PercentRange,
    /// `5 to 8`
    LengthRange,
    /// `105 deg`
    Angle,
    /// `68 F`, `20 C`
    Temperature,
    /// `30 min`, `24 h`
    Duration,
    /// `10 days`, `3 weeks`
    LeadTime,
    /// `75 lb`, `30 kg`
    Mass,
    /// `15 lb per ft2`, `75 kg per m2`: a weight on an area
    Load,
    /// `1490000 psi`, `10.3 GPa`: how stiff a material is
    Stiffness,
    /// `11.40 per board-foot`: a price for one of the units named.
    Price(&'static [&'static str]),
    /// `100 per min`: a length run in a minute.
    Feed,
    /// `3 to 1`
    Ratio,
    /// `30 m2 per l`, `450 ft2 per gal`
    Coverage,
    /// `750 ml`, `1 qt`
    Volume,
    /// `1 m2`, `10 ft2`
    Area,
    /// `"…"`
    Text,
    /// `"…"`: the path of a file.
    File,
    /// One word of the maker's own: `B`, `black-cherry`.
    Label,
    /// One word or whole number, as drawings are counted: `B`, `7`.
    LetterOrNumber,
    /// The name of a finding: `pocket-seen`.
    Finding,
    /// The new name that this statement gives.
    Define,
    /// The name of something defined elsewhere: a stock, a hinge, …
    Refer(&'static str),
    /// The name of an opening or part, with dots: `console.press`.
    Path,
    /// `2026-03-14`
    Date,
    /// One of these words.
    Choice(&'static [Choice]),
    /// This very word, for reading's sake: `on`.
    Exactly(&'static str),
}

impl Kind {
    /// What was expected, in the maker's words: `a length such as 3/4 or 18 mm`.
    #[must_use]
    pub fn describe(self) -> String {
        match self {
            Self::Length => "a length such as `3/4` or `18 mm`".into(),
            Self::Offset => "a length such as `8 mm`, or a negative one such as `-2 mm`".into(),
            Self::Size => "a size such as `17-1/4` or `upper.high + 2`".into(),
            Self::Count(most) => format!("a whole number up to {most}"),
            Self::Number => "a plain number".into(),
            Self::Nominal => "a nominal thickness such as `3/4`, `4/4`, or `18 mm`".into(),
            Self::Percent => "a percentage such as `40%`".into(),
            Self::PercentRange => "a range such as `30% to 55%`".into(),
            Self::LengthRange => "a range such as `5 to 8`".into(),
            Self::Angle => "an angle such as `105 deg`".into(),
            Self::Temperature => "a temperature such as `68 F` or `20 C`".into(),
            Self::Duration => "a time such as `30 min` or `24 h`".into(),
            Self::LeadTime => "a number of days or weeks such as `10 days` or `3 weeks`".into(),
            Self::Mass => "a weight such as `75 lb` or `30 kg`".into(),
            Self::Load => "a load such as `15 lb per ft2` or `75 kg per m2`".into(),
            Self::Stiffness => "a stiffness such as `1490000 psi` or `10.3 GPa`".into(),
            Self::Price(units) => format!("a price such as `11.40 per {}`", units[0]),
            Self::Feed => "a feed such as `100 per min`".into(),
            Self::Ratio => "a ratio such as `3 to 1`".into(),
            Self::Coverage => "a coverage such as `450 ft2 per gal` or `30 m2 per l`".into(),
            Self::Volume => "a volume such as `1 qt`, `8 fl-oz`, or `750 ml`".into(),
            Self::Area => "an area such as `10 ft2` or `1 m2`".into(),
            Self::Text | Self::File => "a text in quotes".into(),
            Self::Label => "one word".into(),
            Self::LetterOrNumber => "one word or whole number such as `B` or `7`".into(),
            Self::Finding => "the name of a finding such as `pocket-seen`".into(),
            Self::Define => "a name of your own".into(),
            Self::Refer(what) => format!("the name of a {what}"),
            Self::Path => "the name of an opening or part such as `console.press`".into(),
            Self::Date => "a date such as `2026-03-14`".into(),
            Self::Choice(choices) => {
                one_of(&choices.iter().map(|choice| choice.word).collect::<Vec<_>>())
            }
            Self::Exactly(word) => format!("the word `{word}`"),
        }
    }

    /// The same in a word or two, as it stands in the form of a statement: `length`.
    #[must_use]
    pub fn noun(self) -> String {
        match self {
            Self::Length | Self::Offset => "length".into(),
            Self::Size => "size".into(),
            Self::Count(_) => "count".into(),
            Self::Number => "number".into(),
            Self::Nominal => "nominal".into(),
            Self::Percent => "percent".into(),
            Self::PercentRange => "percent to percent".into(),
            Self::LengthRange => "length to length".into(),
            Self::Angle => "angle".into(),
            Self::Temperature => "temperature".into(),
            Self::Duration => "time".into(),
            Self::LeadTime => "days or weeks".into(),
            Self::Mass => "weight".into(),
            Self::Load => "weight on an area".into(),
            Self::Stiffness => "stiffness".into(),
            Self::Price(_) => "price".into(),
            Self::Feed => "length per min".into(),
            Self::Ratio => "number to number".into(),
            Self::Coverage => "area per volume".into(),
            Self::Volume => "volume".into(),
            Self::Area => "area".into(),
            Self::Text => "\"text\"".into(),
            Self::File => "\"file\"".into(),
            Self::Label => "word".into(),
            Self::LetterOrNumber => "letter or number".into(),
            Self::Finding => "finding".into(),
            Self::Define => "name".into(),
            Self::Refer(what) => what.into(),
            Self::Path => "opening or part".into(),
            Self::Date => "date".into(),
            Self::Choice(choices) => {
                choices.iter().map(|choice| choice.word).collect::<Vec<_>>().join("|")
            }
            Self::Exactly(word) => word.into(),
        }
    }
}

/// Several words to choose from: `` `a`, `b` or `c` ``.
pub(super) fn one_of(words: &[&str]) -> String {
    let words: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    match words.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        _ => words.concat(),
    }
}

/// One argument.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Slot {
    /// What it is.
    pub kind: Kind,
    /// May be left out.
    pub optional: bool,
}

/// An argument that must stand.
#[must_use]
pub(crate) const fn needs(kind: Kind) -> Slot {
    Slot { kind, optional: false }
}

/// An argument that may be left out.
#[must_use]
pub(crate) const fn may(kind: Kind) -> Slot {
    Slot { kind, optional: true }
}

/// Whether a word opens a block.
#[derive(Clone, Copy, Debug)]
pub enum Body {
    /// Never.
    None,
    /// It may: this one.
    May(fn() -> &'static Block),
    /// It must.
    Must(fn() -> &'static Block),
}

impl Body {
    /// The block that may stand behind the word.
    #[must_use]
    pub fn block(self) -> Option<&'static Block> {
        match self {
            Self::None => None,
            Self::May(block) | Self::Must(block) => Some(block()),
        }
    }
}

/// How often a word may stand in its block.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Times {
    /// At most once.
    Once,
    /// Exactly once.
    Required,
    /// Any number of times.
    Many,
}

/// What becomes of a word where what it stands in is the other way round, left for right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hand {
    /// Nothing: what it says is the same from both sides, or its choice says which side.
    Neither,
    /// Another word of its block says the same of the other side.
    Other(&'static str),
    /// What stands in its braces reads from left to right.
    Across,
}

/// A word that a block may hold.
#[derive(Clone, Copy, Debug)]
pub struct Row {
    /// The keyword.
    pub word: &'static str,
    /// Another spelling of it that is understood.
    pub also: Option<&'static str>,
    /// Its arguments.
    pub takes: &'static [Slot],
    /// Its block.
    pub body: Body,
    /// How often.
    pub times: Times,
    /// What holds where it is not written, as it would be written.
    pub default: Option<&'static str>,
    /// The same in a metric file, where it is another figure.
    pub metric: Option<&'static str>,
    /// One line of help.
    pub help: &'static str,
    /// An example of the whole statement.
    pub example: &'static str,
    /// It stands for any name: the keyword itself is its first value.
    pub any_name: bool,
    /// What its figure lies between in any piece: outside, it can't be right.
    pub can_be: Option<Range>,
    /// What it lies between in all but odd pieces: outside, a maker is asked.
    pub usual: Option<Range>,
    /// What it lies between instead where another word of its block stands.
    pub usual_beside: Option<(&'static str, Range)>,
    /// Where the two ranges come from.
    pub ranges_by: &'static str,
    /// Another word of its block that takes its place: where that stands, this one
    /// says nothing.
    pub unless: Option<&'static str>,
    /// What becomes of it the other way round.
    pub hand: Hand,
    /// What its block leaves out is written elsewhere, so that nothing is asked for where
    /// it stands.
    pub takes_over: bool,
}

impl Row {
    /// A word without arguments or block, at most once.
    #[must_use]
    pub const fn new(word: &'static str, help: &'static str, example: &'static str) -> Self {
        Self {
            word,
            also: None,
            takes: &[],
            body: Body::None,
            times: Times::Once,
            default: None,
            metric: None,
            help,
            example,
            any_name: false,
            can_be: None,
            usual: None,
            usual_beside: None,
            unless: None,
            hand: Hand::Neither,
            takes_over: false,
            ranges_by: "common practice, no source",
        }
    }

    /// With these arguments.
    #[must_use]
    pub const fn takes(mut self, slots: &'static [Slot]) -> Self {
        self.takes = slots;
        self
    }

    /// May open this block.
    #[must_use]
    pub const fn may_open(mut self, block: fn() -> &'static Block) -> Self {
        self.body = Body::May(block);
        self
    }

    /// Must open this block.
    #[must_use]
    pub const fn opens(mut self, block: fn() -> &'static Block) -> Self {
        self.body = Body::Must(block);
        self
    }

    /// Must stand once.
    #[must_use]
    pub const fn required(mut self) -> Self {
        self.times = Times::Required;
        self
    }

    /// Any number of times.
    #[must_use]
    pub const fn many(mut self) -> Self {
        self.times = Times::Many;
        self
    }

    /// What holds where it is not written.
    #[must_use]
    pub const fn default(mut self, text: &'static str) -> Self {
        self.default = Some(text);
        self
    }

    /// What holds instead in a metric file.
    #[must_use]
    pub const fn metric(mut self, text: &'static str) -> Self {
        self.metric = Some(text);
        self
    }

    /// Another spelling that is understood; `format` writes the one.
    #[must_use]
    pub const fn also(mut self, spelling: &'static str) -> Self {
        self.also = Some(spelling);
        self
    }

    /// It stands for any name, which is its first value.
    #[must_use]
    pub const fn any_name(mut self) -> Self {
        self.any_name = true;
        self
    }

    /// Its figure lies between these in any piece, so that one outside is an error. Wide
    /// enough that nothing that is built meets it.
    #[must_use]
    pub const fn can_be(mut self, least: &'static str, most: &'static str) -> Self {
        self.can_be = Some(Range::new(least, most));
        self
    }

    /// Its figure lies between these in all but odd pieces, so that one outside is a
    /// warning. Wide enough that no ordinary piece meets it.
    #[must_use]
    pub const fn usual(mut self, least: &'static str, most: &'static str) -> Self {
        self.usual = Some(Range::new(least, most));
        self
    }

    /// As [`Row::usual`], where another word of its block stands.
    #[must_use]
    pub const fn usual_beside(
        mut self,
        other: &'static str,
        least: &'static str,
        most: &'static str,
    ) -> Self {
        self.usual_beside = Some((other, Range::new(least, most)));
        self
    }

    /// Where its ranges come from, where that is not common practice.
    #[must_use]
    pub const fn ranges_by(mut self, source: &'static str) -> Self {
        self.ranges_by = source;
        self
    }

    /// Says nothing where this other word of its block stands.
    #[must_use]
    pub const fn unless(mut self, other: &'static str) -> Self {
        self.unless = Some(other);
        self
    }

    /// This other word of its block says the same of the other side.
    #[must_use]
    pub const fn other_hand(mut self, other: &'static str) -> Self {
        self.hand = Hand::Other(other);
        self
    }

    /// What stands in its braces reads from left to right.
    #[must_use]
    pub const fn reads_across(mut self) -> Self {
        self.hand = Hand::Across;
        self
    }

    /// What its block leaves out is written elsewhere.
    #[must_use]
    pub const fn takes_over(mut self) -> Self {
        self.takes_over = true;
        self
    }

    /// True where this is how it is spelled, one way or the other.
    #[must_use]
    pub fn is(&self, text: &str) -> bool {
        self.word == text || self.also == Some(text)
    }
}

/// A block: the words that may stand between its braces.
#[derive(Clone, Copy, Debug)]
pub struct Block {
    /// Its name: mostly the word that opens it.
    pub name: &'static str,
    /// How it is called in a sentence: `a case`, `the frame`.
    pub title: &'static str,
    /// What it says, in a sentence or two.
    pub help: &'static str,
    /// The words.
    pub words: &'static [&'static Row],
    /// Groups of words of which exactly one must stand, each with what the
    /// choice is called: `(&["plywood", "lumber"], "a kind of stock")`.
    pub one_of: &'static [(&'static [&'static str], &'static str)],
}

impl Block {
    /// The ending of a verb behind its title: `a case needs`, `the drawers need`.
    #[must_use]
    pub fn verb_ending(&self) -> &'static str {
        let head = self.title.split(" of ").next().unwrap_or_default();
        let one = head.starts_with("a ") || head.starts_with("an ") || !head.ends_with('s');
        if one { "s" } else { "" }
    }

    /// The word of this block that is spelled so, one way or the other.
    #[must_use]
    pub fn word(&self, text: &str) -> Option<&'static Row> {
        self.words.iter().copied().find(|word| word.is(text))
    }

    /// What a statement says that begins with this keyword: a word of the
    /// block, or the one that stands for any name.
    #[must_use]
    pub fn meant(&self, keyword: &str) -> Option<&'static Row> {
        let any = || self.words.iter().copied().find(|word| word.any_name);
        self.words.iter().copied().find(|word| !word.any_name && word.is(keyword)).or_else(any)
    }
}
