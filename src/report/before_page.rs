//! The list before paper as a page, the range safety list, and one item.

use super::document::{Block, Cell, Document};
use super::first;
use crate::gear::Card;
use crate::question::RangeItem;
use crate::range::{self, Today};
use crate::session::Timeline;
use crate::setup::{self, ItemState};
use crate::step::State;
use crate::units::visible;
use crate::words::step::{Fact, fact, since};
use crate::words::{self, setup as said};

/// The whole list, part by part, and what comes next.
pub(crate) fn before_page(timeline: &Timeline, today: Today) -> Document {
    let all = setup::checklist(timeline);
    let title = format!("Before paper: {}", visible(&timeline.card.title()));
    let mut page = Document::new(title).after(first::stop(timeline));
    let mut rest: &[ItemState] = &all;
    while let Some(one) = rest.first() {
        let part = one.item.part;
        let n = rest.iter().take_while(|s| s.item.part == part).count();
        let rows = rest[..n].iter().map(|s| row(s, &timeline.card)).collect();
        let table = Block::table(&["", "Item", "What it is", "Measured"], rows);
        page = page.with(said::part(part), vec![table]);
        rest = &rest[n..];
    }
    let summary = Block::Text(said::summary(&setup::summary(&all)));
    page.with(
        "Next",
        vec![summary, Block::Lines(before_next(timeline, &all, today))],
    )
}

/// What comes next before paper, line by line; nothing before a stop is lifted.
pub(crate) fn before_next(timeline: &Timeline, all: &[ItemState], today: Today) -> Vec<String> {
    if first::is_stopped(timeline) {
        return Vec::new();
    }
    let mut lines: Vec<String> = first::range_list(timeline, today).into_iter().collect();
    if let Some(open) = said::safety_open(&setup::safety_open(all)) {
        lines.push(format!(
            "Safety first, still open: {open}. Nothing is drawn before."
        ));
    }
    if let Some(s) = setup::next_open(all) {
        if let Some(caution) = s.item.caution {
            lines.push(format!("careful: {}", words::caution(caution)));
        }
        let told = said::told(s.item.id, &timeline.card, timeline.card.paper.system);
        lines.push(format!("next: {}: {}", s.item.id, told.how));
        lines.push(format!("answer: {}", words::setup::example(s.item.measure)));
    }
    lines
}

fn row(s: &ItemState, card: &Card) -> Vec<Cell> {
    let value = s.value.as_deref().map(visible);
    let again = match s.state {
        State::Again(why) => Some(since(why).to_owned()),
        _ => None,
    };
    let note = s.note.as_ref().filter(|_| s.state == State::Off);
    let note = note.map(|note| said::judged(note, card, card.paper.system));
    let measured: Vec<String> = [value, again, note].into_iter().flatten().collect();
    vec![
        Cell::of(s.state),
        s.item.id.id().into(),
        said::title(s.item.id).into(),
        measured.join("; ").into(),
    ]
}

/// One item: how it is measured, what is wanted, what was found.
pub(crate) fn item_page(s: &ItemState, timeline: &Timeline) -> Document {
    let card = &timeline.card;
    let mut facts: Vec<Fact> = Vec::new();
    facts.extend(s.value.as_deref().map(|v| fact("Measured", visible(v))));
    facts.extend(said::stands(s, card, card.paper.system));
    facts.extend(said::how(s, card, card.paper.system));
    facts.push(fact("Answer", words::setup::example(s.item.measure)));
    let (title, state) = (said::title(s.item.id), words::step::state(s.state));
    Document::new(format!("{title} ({}): {state}", s.item.id))
        .after(first::stop(timeline))
        .with("", vec![Block::facts(facts)])
}

/// The eight items of the range safety list, and how it stands.
pub(crate) fn range_page(timeline: &Timeline, today: Today) -> Document {
    let row = |item: RangeItem| -> Vec<Cell> {
        vec![
            item.id().into(),
            words::range_item(item).into(),
            words::range_look(item, &timeline.card, timeline.card.paper.system).into(),
        ]
    };
    let rows = RangeItem::ALL.into_iter().map(row).collect();
    let stands = match range::due(timeline, today) {
        Some(due) => words::range_due(due),
        None => "It stands for today.".into(),
    };
    Document::new(words::RANGE_TITLE)
        .after(first::stop(timeline))
        .with("", vec![Block::table(&["Item", "What it is", "Look"], rows)])
        .with(
            "How it stands",
            vec![Block::Text(stands), Block::Text(
                "All in order: before FILE range ok. Not in order: before FILE range-clear off. At another place: before FILE range other-place.".into(),
            )],
        )
}
