//! Sound texts spoiled: what a stranger, an editor or a disk makes of them.

use proptest::prelude::*;
use proptest::sample::Index;

/// How many texts each test tries.
pub fn cases() -> u32 {
    std::env::var("TEARBENCH_HOSTILE_CASES")
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(300)
}

/// Bits that have broken readers before.
const NASTY: &[&str] = &[
    "\u{0}",
    "\u{1b}[2J",
    "\u{1b}]0;x\u{7}",
    "\u{9b}31m",
    "\u{202e}",
    "\u{2028}",
    "\u{feff}",
    "e\u{301}\u{301}\u{301}",
    "👩\u{200d}🚀",
    "nan",
    "-inf",
    "1e308",
    "-0",
    "1e-320",
    "99999999999999999999",
    "0x7fffffffffffffff",
    "1/0",
    "1 1/0 in",
    "[[entry]]\n",
    "[[entry]]\nend = 1\n",
    "end = 4294967295\n",
    "end = 0\n",
    "[[adjuster]]\n",
    "\"\"\"",
    "'''",
    "= =",
    "[",
    "]",
    "{",
    "#",
    "\r",
    "\r\n",
    "\n\n",
    "mm",
    "\"",
    "\\u001b",
    "\\",
    "<script>",
    "%s%n",
    "../../etc",
    "，",
    "½",
    "−12",
    "١٢",
];

/// One thing done to a text.
#[derive(Debug, Clone)]
pub enum Blow {
    /// Something nasty put in.
    Put(Index, usize),
    /// A piece cut out.
    Cut(Index, u8),
    /// A piece said again.
    Again(Index, u8, u8),
    /// A character replaced.
    Char(Index, char),
    /// Everything after cut off.
    Tail(Index),
}

pub fn blow() -> impl Strategy<Value = Blow> {
    let at = any::<Index>;
    prop_oneof![
        4 => (at(), 0..NASTY.len()).prop_map(|(i, n)| Blow::Put(i, n)),
        2 => (at(), any::<u8>()).prop_map(|(i, n)| Blow::Cut(i, n)),
        2 => (at(), any::<u8>(), 1u8..20).prop_map(|(i, n, k)| Blow::Again(i, n, k)),
        4 => (at(), any::<char>()).prop_map(|(i, c)| Blow::Char(i, c)),
        1 => at().prop_map(Blow::Tail),
    ]
}

/// The text after the blows.
pub fn spoiled(text: &str, blows: &[Blow]) -> String {
    let mut chars: Vec<char> = text.chars().collect();
    for blow in blows {
        let len = chars.len();
        let place = |i: &Index| if len == 0 { 0 } else { i.index(len) };
        let upto = |from: usize, n: u8| (from + usize::from(n)).min(len);
        match blow {
            Blow::Put(i, n) => {
                let at = place(i);
                chars.splice(at..at, NASTY[*n].chars());
            }
            Blow::Cut(i, n) => {
                let at = place(i);
                chars.drain(at..upto(at, *n));
            }
            Blow::Again(i, n, times) => {
                let at = place(i);
                let piece: Vec<char> = chars[at..upto(at, *n)].to_vec();
                for _ in 0..*times {
                    chars.splice(at..at, piece.iter().copied());
                }
            }
            Blow::Char(i, c) if len > 0 => chars[place(i)] = *c,
            Blow::Char(..) => {}
            Blow::Tail(i) => chars.truncate(place(i)),
        }
    }
    chars.into_iter().collect()
}
