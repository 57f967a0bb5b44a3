//! What each screen is for and how it is used, as its help says it.

/// A test that is answered in a word.
pub(crate) const ANSWERS: &str = "A test whose answer is not a tear. Do it as it says, then choose what you found; tears shot for it may be entered instead, and answer it. The harmless answer stands first.";
/// A move at the bench.
pub(crate) const BENCH: &str = "The move, worded for a bow that lies on the bench. Out is away from the riser, in is toward it. Make it, then say how it went: the console waits for that, even if you leave and come back tomorrow.";
/// The sessions of a folder.
pub(crate) const BOOK: &str = "The sessions of this folder, latest first, and those opened lately elsewhere. Opening one parks the one that is open: everything recorded is on disk, a pending move stays pending, and you come back to it where you stopped. It is a folder of plain files: copy it with anything.";
/// The set-up card.
pub(crate) const CARD: &str = "The card: the bow, its rest and adjusters, the arrow, who shoots, and the paper. Enter keeps or changes a line; left and right go through fixed choices. Optional lines that hold nothing are folded behind one line of their section; Enter there shows them. Values are typed with their unit and checked as you type; a bare number takes the unit that stands there. 'check it' stands at a usual value that nobody confirmed yet: Enter confirms the line, one key its whole section. On an open session each change is recorded at once and can be undone.";
/// The tear at other paper distances.
pub(crate) const DISTANCES: &str = "What the tear known here says of the tear at other paper distances, from many virtual bows like this one. It is loose on purpose: the shaft's flex turns over every half metre or so, and nobody knows a bow's flex from one sheet. A second sheet half a flex on tells flex from swing.";
/// Sessions that were left open.
pub(crate) const GO_ON: &str = "Sessions that were open when the console ended without being left, or the last one with a pending move. Enter goes on with the one marked, where it stopped. Esc leaves them as they are and shows the demo; they stay in the bench book.";
/// The guess before the advice.
pub(crate) const GUESS: &str = "Practice asks what you would do before it shows its advice. A digit answers: a way to move, or the cause for which the rest is left alone. Esc goes on without a guess. At the end your guesses are held against what was true of the bow.";
/// The help itself.
pub(crate) const HELP: &str = "Three parts: how the verdict was reached, each reason with its figure and the limit it is held against; the four checks; what is on the screen you came from, and the keys of every screen. Left, right or Tab turns to the next.";
/// Recording an incident.
pub(crate) const INCIDENT: &str = "Anything that may have hurt the bow, an arrow or somebody. It stops the shooting until every part was looked at, and it is not undone: safety cannot be waived.";
/// The inspection after an incident.
pub(crate) const INSPECTION: &str = "After an incident every item is looked at, by a trained person where in doubt. No single word clears it: each part is answered, and a slow draw at the end shows no creak or shift.";
/// The verdict in block letters.
pub(crate) const LETTERS: &str = "The verdict alone, as large as the screen allows, to be read from the shooting line. After a move is made and the next tears are in, it changes with them.";
/// Everything recorded.
pub(crate) const LOG: &str = "Everything recorded, in order. Nothing is ever deleted: an undone entry stays here, marked, and can be redone. A move that was made and not recorded is placed before the shot that followed it, and shots that were another bow's go to its session: what either changes is said before it is done.";
/// Every look of the screen.
pub(crate) const LOOK_PAGE: &str = "Every look as this terminal shows it. Take the one you can read: the bands and each kind of text must stand apart. If boxes or question marks stand where characters should, take another set. Enter uses the line you are on.";
/// The actions behind the leader key.
pub(crate) const MORE: &str =
    "Every action that has no key of its own on the panes. Press its letter; Esc goes back.";
/// What the next shots are recorded with.
pub(crate) const NEXT_SHOTS: &str = "What every following shot is recorded with until you change it here. Whatever is not as usual stands on the status line. The words bad and bare typed with a tear count for that tear alone. A tear that names another arrow than this one is not taken.";
/// The virtual bow.
pub(crate) const PRACTICE: &str = "A virtual bow with something wrong with it. Shoot it, move its adjusters, do the tests the verdicts ask for, and say what it is: sometimes it is the rest, sometimes the rest should be left alone. A test (?) only tells; a fix (+) changes the bow; an answer (in quotation marks) ends the round and shows what was wrong. The bow answers as a real one would, and the same seed always gives the same bow. Nothing of it is kept unless you save it; how you do is counted.";
/// The stages after paper.
pub(crate) const PROOF: &str = "A bullet hole is a start, not the proof. The stages stand in the order in which each excludes what would spoil the next. Enter opens one: how to shoot it safely, and its groups. A stage may be left out knowingly; the record shows it.";
/// One stage of proof.
pub(crate) const PROOF_STAGE: &str = "One stage of proof. Type where each arrow hit, seen from the shooting line, from the spot aimed at: 3 left 2 high; 1 right; spot. Numbers are centimetres, or inches when the screen is in inches. Arrow keys write the sides. Or mark them on a face: digits then an arrow move the mark, Enter says an arrow hit there, and the group is recorded when you say so. Left and right scroll the text.";
/// The range safety list.
pub(crate) const RANGE: &str = "Eight items that must stand before anything is drawn. Read them, then Enter on ALL IN ORDER answers them together. Enter on one item says that it is OFF, and again that it is ok. The list is due once a day, with another shooter, at another place and after an incident. It stops no recording; until it is answered safety reads not yet.";
/// Troubleshooting.
pub(crate) const REMEDY: &str = "Why the rest is left alone, and what to look at instead: one question or test at a time, cheap and reversible before costly. A digit answers, or Enter. Each answer is an entry; you may leave at any step and come back to it. It ends in going on with paper, or in what is to be fixed first.";
/// The sheet.
pub(crate) const REPORT: &str = "The sheet for the bow's owner: what was found, every hole and move, the settings and how to put them back. The HTML page needs no network and prints on one or two pages. A sheet never replaces a session, nor a file that is no sheet.";
/// A page to read.
pub(crate) const REPORT_PAGE: &str = "A page to read. Nothing is changed by reading it.";
/// Putting the bow back.
pub(crate) const RESTORE: &str = "The moves that put every adjuster back to where it was, worked out from where each stands now, undone moves left out. Enter takes them to the bench, where you say whether they were made.";
/// What was wrong with the practice bow.
pub(crate) const REVEAL: &str = "What was wrong with the practice bow, whether your answer was right where the bow stands now, and what the program's own advice would have needed. An answer can be right though the tear is large: where the arrow, the archer or contact is the cause, the rest is left alone.";
/// The list before paper.
pub(crate) const SETUP: &str = "What is checked before the first shot, in working order for this bow. A figure is typed with its unit and judged; what is judged by eye takes one key. The range safety list is a screen of its own. Press work that is no move of an adjuster is said with a key: what it changes is then due again. Nothing here stops you from recording a shot. Left and right scroll the text.";
/// The arrow and its spine.
pub(crate) const SPINE: &str = "The arrow pushed at its nock, as the bow loads it: above, the shape it bends in first when it is free, with the two places that stay still ringed; below, nock, vanes, balance point and point. Then whether that load suits this bow, in words, and what would change it, cheap and reversible first.";
/// What earlier bows teach.
pub(crate) const TAUGHT: &str = "How the adjusters of the bows in this folder responded, a line a bow, kind by kind. A new session of such a bow begins with it, unless it is left out on its card. Left of the middle: the tear goes against the adjuster; right: with it.";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::tests::keeps_to_the_guide;

    #[test]
    fn what_the_help_says_of_the_screens_keeps_to_the_guide() {
        for text in [
            ANSWERS,
            BENCH,
            BOOK,
            CARD,
            DISTANCES,
            GO_ON,
            GUESS,
            HELP,
            INCIDENT,
            INSPECTION,
            LETTERS,
            LOG,
            LOOK_PAGE,
            MORE,
            NEXT_SHOTS,
            PRACTICE,
            PROOF,
            PROOF_STAGE,
            RANGE,
            REMEDY,
            REPORT,
            REPORT_PAGE,
            RESTORE,
            REVEAL,
            SETUP,
            SPINE,
            TAUGHT,
        ] {
            keeps_to_the_guide("a screen", text);
        }
    }
}
