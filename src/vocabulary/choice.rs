//! How a list of choices is declared: once, as the type that the model matches
//! on. A choice more does not compile before every `match` knows it.

/// One word of a list of choices.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Choice {
    /// How it is spelled.
    pub word: &'static str,
    /// Another spelling of it that is understood.
    pub also: Option<&'static str>,
    /// One line of help.
    pub help: &'static str,
    /// Which one of its type it is.
    pub(super) nth: usize,
    /// The one that says the same of the other side, left for right.
    pub other: Option<&'static str>,
}

impl Choice {
    /// True where this is how it is spelled, one way or the other.
    #[must_use]
    pub fn is(&self, text: &str) -> bool {
        self.word == text || self.also == Some(text)
    }
}

/// Lists of choices: a type, and for each choice its help and its word; `also`
/// is another spelling that is understood, and `other` the choice that says the same of the
/// other side.
macro_rules! choices {
    ($(
        $(#[$meta:meta])*
        $Name:ident {
            $($(#[doc = $help:literal])+ $Variant:ident = $word:literal
                $(also $also:literal)? $(other $other:literal)?,)+
        }
    )+) => {$(
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $Name {
            $($(#[doc = $help])+ $Variant,)+
        }

        impl $Name {
            /// Every one, in the order of the list.
            pub const ALL: &'static [Self] = &[$(Self::$Variant),+];

            /// What the vocabulary says of it.
            pub(crate) const fn choice(self) -> $crate::vocabulary::Choice {
                let (word, also, other, help) = match self {
                    $(Self::$Variant => (
                        $word,
                        maybe!($($also)?),
                        maybe!($($other)?),
                        concat!($($help),+),
                    ),)+
                };
                $crate::vocabulary::Choice { word, also, help, nth: self as usize, other }
            }

            /// Its word in a spec.
            #[must_use]
            pub const fn spelling(self) -> &'static str {
                self.choice().word
            }
        }

        impl $crate::vocabulary::Takes for $Name {
            const SLOTS: &'static [$crate::vocabulary::Slot] = &[$crate::vocabulary::word::needs(
                $crate::vocabulary::Kind::Choice(&[$(Self::$Variant.choice()),+]),
            )];
            type Is = Self;

            fn of(value: &$crate::vocabulary::Value) -> Option<&Self> {
                match value {
                    $crate::vocabulary::Value::Choice(choice) => Self::ALL.get(choice.nth),
                    _ => None,
                }
            }
        }
    )+};
}

/// What may be left out, where it stands.
macro_rules! maybe {
    () => {
        None
    };
    ($word:literal) => {
        Some($word)
    };
}

/// Lists that hold some of the choices of a type.
macro_rules! some_of {
    ($($(#[$meta:meta])* $Name:ident: $Whole:ident = $($Variant:ident),+;)+) => {$(
        $(#[$meta])*
        #[derive(Debug)]
        pub enum $Name {}

        impl $crate::vocabulary::Takes for $Name {
            const SLOTS: &'static [$crate::vocabulary::Slot] = &[$crate::vocabulary::word::needs(
                $crate::vocabulary::Kind::Choice(&[$($Whole::$Variant.choice()),+]),
            )];
            type Is = $Whole;

            fn of(value: &$crate::vocabulary::Value) -> Option<&$Whole> {
                $Whole::of(value)
            }
        }
    )+};
}
