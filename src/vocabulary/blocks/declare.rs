//! How a block and its words are declared: once, with what each of them is
//! read as.

/// Words that several blocks share: `NAME: WHAT IT TAKES = (word, help,
/// example)`, and behind it what else holds of it.
macro_rules! words {
    ($(
        $(#[$meta:meta])*
        $name:ident: $takes:ty = ($word:literal, $help:literal, $example:literal $(,)?)
            $(. $with:ident ($($argument:expr),*))*;
    )+) => {$(
        $(#[$meta])*
        #[doc = $help]
        pub(crate) const $name: $crate::vocabulary::Word<$takes> = {
            const ROW: $crate::vocabulary::Row =
                $crate::vocabulary::Row::new($word, $help, $example)
                    $(. $with ($($argument),*))*
                    .takes(<$takes as $crate::vocabulary::Takes>::SLOTS);
            $crate::vocabulary::Word::of(&ROW)
        };
    )+};
}

/// A block: a module with a constant for each of its words and the `BLOCK` of
/// them all. `NAME;` takes a word that is declared beside the block, `NAME =
/// OTHER;` gives it another name. `[one_of …]` is a group of words of which exactly
/// one must stand, and the type that says which.
macro_rules! block {
    (
        $(#[$meta:meta])*
        $block:ident: $called:literal, $title:literal, $help:literal;
        $(
            $name:ident
            $(: $takes:ty = ($word:literal, $what:literal, $example:literal $(,)?)
                $(. $with:ident ($($argument:expr),*))*)?
            $(= $shared:ident)?
            ;
        )+
        $([one_of $group:literal] { $($kinds:tt)+ })*
    ) => {
        $(#[$meta])*
        pub(crate) mod $block {
            #[allow(unused_imports, reason = "some blocks have no words of their own")]
            use super::*;
            $(
                word_of! {
                    $name
                    $(: $takes = ($word, $what, $example) $(. $with ($($argument),*))*)?
                    $(= $shared)?
                }
            )+
            $(kinds! { $($kinds)+ })*

            /// What may stand in its braces.
            pub(crate) static BLOCK: $crate::vocabulary::Block = $crate::vocabulary::Block {
                name: $called,
                title: $title,
                help: $help,
                words: &[$($name.row()),+],
                one_of: &[$(group_of!($group, $($kinds)+)),*],
            };

            /// The same, for words that open it: blocks may hold each other.
            pub(crate) fn block() -> &'static $crate::vocabulary::Block {
                &BLOCK
            }
        }
    };
}

/// One word of a block: its own, or one that is declared beside it.
macro_rules! word_of {
    ($name:ident) => {
        pub(crate) use super::$name;
    };
    ($name:ident = $shared:ident) => {
        pub(crate) use super::$shared as $name;
    };
    ($name:ident: $($own:tt)+) => {
        words! { $name: $($own)+; }
    };
}

/// A type for a group of words: which of them stands. With `of` they all take
/// the same.
macro_rules! kinds {
    (
        $(#[$meta:meta])*
        $vis:vis $Kind:ident $(of $takes:ty)? {
            $($(#[$of:meta])* $Variant:ident = $name:ident,)+
        }
    ) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        $vis enum $Kind {
            $($(#[$of])* $Variant,)+
        }

        impl $crate::vocabulary::Kinds for $Kind {
            const ALL: &'static [(Self, &'static $crate::vocabulary::Row)] =
                &[$((Self::$Variant, $name.row())),+];

            fn row(self) -> &'static $crate::vocabulary::Row {
                match self {
                    $(Self::$Variant => $name.row(),)+
                }
            }
        }

        handles! { $Kind [$($takes)?] $($Variant = $name,)+ }
    };
}

/// The word of each kind of a group, where all take the same.
macro_rules! handles {
    ($Kind:ident [] $($rest:tt)*) => {};
    ($Kind:ident [$takes:ty] $($Variant:ident = $name:ident,)+) => {
        impl $Kind {
            /// The word that says it.
            pub(crate) const fn handle(self) -> $crate::vocabulary::Word<$takes> {
                match self {
                    $(Self::$Variant => $name,)+
                }
            }
        }
    };
}

/// The words of a group, for messages and the reference page.
macro_rules! group_of {
    (
        $group:literal,
        $(#[$meta:meta])*
        $vis:vis $Kind:ident $(of $takes:ty)? {
            $($(#[$of:meta])* $Variant:ident = $name:ident,)+
        }
    ) => {
        (&[$($name.row().word),+], $group)
    };
}
