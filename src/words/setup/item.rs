//! What is told of an item of the list.

/// What is said of an item on a bow.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Told {
    /// How it is measured or done.
    pub how: String,
    /// What is wanted to begin with, with its tolerance.
    pub start: String,
    /// What follows where it is off.
    pub if_off: &'static str,
    /// What the program works out for it from the card.
    pub computed: Option<String>,
}

impl Told {
    pub(super) fn how(mut self, how: impl Into<String>) -> Self {
        self.how = how.into();
        self
    }
    pub(super) fn start(mut self, start: impl Into<String>) -> Self {
        self.start = start.into();
        self
    }
    pub(super) const fn if_off(mut self, text: &'static str) -> Self {
        self.if_off = text;
        self
    }
    pub(super) fn computed(mut self, text: impl Into<String>) -> Self {
        self.computed = Some(text.into());
        self
    }
}
