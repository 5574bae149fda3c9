//! What a statement gives, once it is read.

/// A value that may be left out, and may be wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Given<T> {
    /// It is not written, and has no default.
    Absent,
    /// It is written and can't be right; that is reported.
    Refused,
    /// It is this.
    Is(T),
}

impl<T> Given<T> {
    /// A block that may be left out, as it was read where it stands.
    pub(super) fn block(read: Option<Option<T>>) -> Self {
        match read {
            None => Self::Absent,
            Some(None) => Self::Refused,
            Some(Some(value)) => Self::Is(value),
        }
    }

    /// The same of what is made of it.
    pub(super) fn map<U>(self, make: impl FnOnce(T) -> U) -> Given<U> {
        match self {
            Self::Absent => Given::Absent,
            Self::Refused => Given::Refused,
            Self::Is(value) => Given::Is(make(value)),
        }
    }

    /// The value, where there is a sound one.
    pub(super) fn known(self) -> Option<T> {
        match self {
            Self::Is(value) => Some(value),
            Self::Absent | Self::Refused => None,
        }
    }

    /// What there is to go on with: nothing where it was refused.
    pub(super) fn sound(self) -> Option<Option<T>> {
        match self {
            Self::Absent => Some(None),
            Self::Refused => None,
            Self::Is(value) => Some(Some(value)),
        }
    }
}
