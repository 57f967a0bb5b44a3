//! The step that comes next after a refusal as a page.

use super::document::{Block, Document};
use super::first;
use crate::advice;
use crate::question::Refusal;
use crate::range::Today;
use crate::session::Timeline;
use crate::trouble::{self, PathStep};
use crate::words;

/// Why the rest is left alone, where it is.
pub(crate) fn refused(timeline: &Timeline, today: Today) -> Option<Refusal> {
    if timeline.open_incident().is_some() {
        return Some(Refusal::Incident);
    }
    Refusal::of(&advice::analyse(timeline, today))
}

/// The step that comes next, with its answers; the verdict where nothing is refused.
pub(crate) fn next_page(timeline: &Timeline, today: Today) -> Document {
    let Some(reason) = refused(timeline, today) else {
        return not_refused(timeline, today);
    };
    let page = Document::new(words::trouble::title(reason));
    let Some(step) = trouble::next_step(timeline, reason) else {
        let page = page.after(first::before_a_shot(timeline, today));
        return page.with("", vec![Block::Text(words::trouble::GONE_THROUGH.into())]);
    };
    // A step that is shot waits for the range safety list like any shot.
    let alarm = match step.shots {
        0 => first::stop(timeline),
        _ => first::before_a_shot(timeline, today),
    };
    page.after(alarm)
        .with("", vec![Block::Text(words::trouble::place(&step))])
        .with("", what_to_do(&step, timeline))
}

fn not_refused(timeline: &Timeline, today: Today) -> Document {
    let analysis = advice::analyse(timeline, today);
    let headline = words::headline_here(timeline, &analysis, timeline.card.paper.system);
    let page = Document::new(words::title(&analysis.advice));
    let text = Block::Text(headline);
    // A finished paper tune stands first: the list is for what is shot after it.
    if analysis.advice.verdict == advice::Verdict::Done {
        let list = first::range_list(timeline, today).map(Block::Text);
        return page
            .after(first::stop(timeline))
            .with("", std::iter::once(text).chain(list).collect());
    }
    page.after(first::before_a_shot(timeline, today))
        .with("", vec![text])
}

fn what_to_do(step: &PathStep, timeline: &Timeline) -> Vec<Block> {
    let card = &timeline.card;
    let mut blocks = vec![Block::Text(words::trouble::text(step, card))];
    let back = step.put_back.iter();
    let back: Vec<String> = back
        .flat_map(|b| words::put_back(b, card.paper.system))
        .collect();
    if !back.is_empty() {
        blocks.push(Block::Lines(back));
    }
    let answers = step.answers.iter();
    let answers = answers.map(|a| (a.id().to_owned(), words::trouble::means(step, *a)));
    blocks.push(Block::Facts(answers.collect()));
    if !step.offers.is_empty() {
        blocks.push(Block::facts(
            step.offers.iter().map(words::trouble::offered),
        ));
    }
    blocks
}
