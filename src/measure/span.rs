//! Where something stands in the texts that make up a spec.

/// One of the texts of a spec: the file itself or one that it uses.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct FileId(pub u32);

/// A run of bytes in one file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// Bytes `start..end` of `file`.
    #[must_use]
    pub fn new(file: FileId, start: usize, end: usize) -> Self {
        let clip = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
        Self { file, start: clip(start), end: clip(end) }
    }

    /// The bytes as a range for slicing the file's text.
    #[must_use]
    pub fn range(self) -> std::ops::Range<usize> {
        self.start as usize..self.end as usize
    }

    /// True where the other one lies in this.
    #[must_use]
    pub fn holds(self, other: Self) -> bool {
        self.file == other.file && self.start <= other.start && other.end <= self.end
    }

    /// From the start of this span to the end of `other`, in the same file.
    #[must_use]
    pub fn to(self, other: Self) -> Self {
        Self { file: self.file, start: self.start.min(other.start), end: self.end.max(other.end) }
    }
}

/// A value together with where it was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Spanned<T> {
    /// The value.
    pub value: T,
    /// Where it stands.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// `value` as written at `span`.
    pub fn new(value: T, span: Span) -> Self {
        Self { value, span }
    }

    /// What is made of it, written at the same place.
    pub fn map<U>(self, make: impl FnOnce(T) -> U) -> Spanned<U> {
        Spanned { value: make(self.value), span: self.span }
    }
}
