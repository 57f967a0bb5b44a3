//! The pieces of a path.

use super::{Ask, Offer};
use crate::cautions::Caution;
use crate::question::{Answer, Question};
use crate::restore::PutBack;

/// What an answer leads to.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Then {
    /// The next step.
    Next,
    /// The end: go on with paper, knowing this.
    Resume(String),
    /// The end: fix this first.
    Fix(String),
}

/// One possible answer of a node.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Reply {
    pub word: Answer,
    pub means: String,
    pub then: Then,
}

/// One step of a path, before it is known whether it was answered.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Node {
    pub id: Question,
    pub ask: Ask,
    pub text: String,
    pub replies: Vec<Reply>,
    pub shots: u32,
    pub put_back: Option<PutBack>,
    pub offers: Vec<Offer>,
    /// Done by the state of the bow, whatever was answered.
    pub done: bool,
}

impl Node {
    pub(super) fn new(id: impl Into<Question>, ask: Ask, text: impl Into<String>) -> Self {
        Self {
            id: id.into(),
            ask,
            text: text.into(),
            replies: Vec::new(),
            shots: 0,
            put_back: None,
            offers: Vec::new(),
            done: false,
        }
    }
    pub(super) fn question(id: impl Into<Question>, text: impl Into<String>) -> Self {
        Self::new(id, Ask::Question, text)
    }
    pub(super) fn test(id: impl Into<Question>, text: impl Into<String>) -> Self {
        Self::new(id, Ask::Test, text)
    }
    /// A caution put before the step's text.
    pub(super) fn careful(mut self, caution: Caution) -> Self {
        self.text = format!("{} {}", crate::words::caution(caution), self.text);
        self
    }
    pub(super) fn shots(mut self, shots: u32) -> Self {
        self.shots = shots;
        self
    }
    fn reply(mut self, word: Answer, means: impl Into<String>, then: Then) -> Self {
        self.replies.push(Reply {
            word,
            means: means.into(),
            then,
        });
        self
    }
    /// An answer after which the path goes on.
    pub(super) fn next(self, word: Answer, means: impl Into<String>) -> Self {
        self.reply(word, means, Then::Next)
    }
    /// An answer that ends the path: go on with paper.
    pub(super) fn resume(self, word: Answer, means: impl Into<String>) -> Self {
        let means = means.into();
        let then = Then::Resume(means.clone());
        self.reply(word, means, then)
    }
    /// An answer that ends the path: fix this first.
    pub(super) fn fix(
        self,
        word: Answer,
        means: impl Into<String>,
        how: impl Into<String>,
    ) -> Self {
        self.reply(word, means, Then::Fix(how.into()))
    }
}

/// A whole path: its steps, and what is left when all were harmless.
pub(super) struct Path {
    pub nodes: Vec<Node>,
    pub end: Then,
}
