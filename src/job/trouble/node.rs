//! The pieces of a path.

use super::says::{Asked, End};
use super::{Ask, Offer};
use crate::cautions::Caution;
use crate::question::{Answer, Question};
use crate::restore::PutBack;

/// What an answer leads to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Then {
    /// The next step.
    Next,
    /// The end: go on with paper, knowing this.
    Resume,
    /// The end: fix this first.
    Fix,
}

/// One possible answer of a node.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Reply {
    pub word: Answer,
    pub(crate) then: Then,
}

/// One step of a path, before it is known whether it was answered.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Node {
    pub id: Question,
    pub ask: Ask,
    pub asked: Asked,
    pub caution: Option<Caution>,
    pub(crate) replies: Vec<Reply>,
    pub shots: u32,
    pub put_back: Option<PutBack>,
    pub offers: Vec<Offer>,
    /// Done by the state of the bow, whatever was answered.
    pub(crate) done: bool,
}

impl Node {
    pub(super) fn new(id: impl Into<Question>, ask: Ask, asked: Asked) -> Self {
        Self {
            id: id.into(),
            ask,
            asked,
            caution: None,
            replies: Vec::new(),
            shots: 0,
            put_back: None,
            offers: Vec::new(),
            done: false,
        }
    }
    /// A caution put before the step.
    pub(super) fn careful(mut self, caution: impl Into<Option<Caution>>) -> Self {
        self.caution = caution.into();
        self
    }
    pub(super) fn shots(mut self, shots: u32) -> Self {
        self.shots = shots;
        self
    }
    fn reply(mut self, word: Answer, then: Then) -> Self {
        self.replies.push(Reply { word, then });
        self
    }
    /// An answer after which the path goes on.
    pub(super) fn next(self, word: Answer) -> Self {
        self.reply(word, Then::Next)
    }
    /// An answer that ends the path: go on with paper.
    pub(super) fn resume(self, word: Answer) -> Self {
        self.reply(word, Then::Resume)
    }
    /// An answer that ends the path: fix this first.
    pub(super) fn fix(self, word: Answer) -> Self {
        self.reply(word, Then::Fix)
    }
}

/// A whole path: its steps, and what is left when all were harmless; `None`
/// where its last step ends it.
pub(super) struct Path {
    pub(crate) nodes: Vec<Node>,
    pub end: Option<End>,
}
