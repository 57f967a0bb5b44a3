//! The pieces of a path.

use super::says::{Asked, End, Says};
use super::{Ask, PathStep};
use crate::cautions::Caution;
use crate::question::{Answer, Question, Refusal, Said};

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

/// One step of a path, before it is known whether it was answered, with what
/// each of its answers leads to.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Node {
    /// As it is asked.
    pub step: PathStep,
    /// Where its answers lead, in their order.
    pub(crate) then: Vec<Then>,
    /// Done by the state of the bow, whatever was answered.
    pub(crate) done: bool,
}

impl Node {
    pub(super) fn new(reason: Refusal, id: impl Into<Question>, ask: Ask, asked: Asked) -> Self {
        Self {
            step: PathStep::new(reason, id.into(), ask, Says::Asks(asked)),
            then: Vec::new(),
            done: false,
        }
    }
    /// Which of its answers this is, and where it leads.
    pub(super) fn leads(&self, said: &Said<Answer>) -> Option<(Answer, Then)> {
        let mut all = self
            .step
            .answers
            .iter()
            .copied()
            .zip(self.then.iter().copied());
        all.find(|(word, _)| said == word)
    }
    /// A caution put before the step.
    pub(super) fn careful(mut self, caution: impl Into<Option<Caution>>) -> Self {
        self.step.caution = caution.into();
        self
    }
    pub(super) fn shots(mut self, shots: u32) -> Self {
        self.step.shots = shots;
        self
    }
    fn reply(mut self, word: Answer, then: Then) -> Self {
        self.step.answers.push(word);
        self.then.push(then);
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

impl Path {
    /// With each step's place among them.
    pub(super) fn of(mut nodes: Vec<Node>, end: Option<End>) -> Self {
        let total = nodes.len();
        for (i, node) in nodes.iter_mut().enumerate() {
            node.step.place = (i + 1, total);
        }
        Self { nodes, end }
    }
}
