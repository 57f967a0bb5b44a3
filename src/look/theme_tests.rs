//! Contrast on the screens most people have, and what colour-blind people see.

use super::*;
use crate::look::terminals::{Rgb, TERMINALS, contrast};

const OWN: [Scheme; 3] = [Scheme::Dark, Scheme::Light, Scheme::Contrast];

fn themes() -> Vec<Theme> {
    let all = Scheme::ALL.into_iter().filter(|(_, s)| *s != Scheme::Mono);
    all.flat_map(|(_, scheme)| {
        let theme = Theme::of(scheme);
        [theme, theme.coarse(), theme.safe(), theme.safe().coarse()]
    })
    .collect()
}

fn sides(style: Style, terminal: &crate::look::terminals::Sixteen) -> Option<(Rgb, Rgb)> {
    let rgb = |colour: Option<Color>| terminal.rgb(colour.unwrap_or(Color::Reset));
    Some((rgb(style.fg)?, rgb(style.bg)?))
}

#[test]
fn every_band_reads_on_every_terminal() {
    for theme in themes() {
        for tone in Tone::ALL {
            for terminal in &TERMINALS {
                let style = theme.style(Role::Band(tone));
                let (text, ground) = sides(style, terminal).expect("both sides are set");
                let ratio = contrast(text, ground);
                assert!(
                    ratio >= 5.8,
                    "{theme:?} {tone:?} {}: {ratio:.2}",
                    terminal.name
                );
            }
        }
    }
}

#[test]
fn coloured_text_stands_only_on_a_ground_of_its_own_and_reads_there() {
    for theme in themes() {
        for role in Role::ALL {
            let style = theme.style(role);
            if theme.scheme() == Scheme::Terminal {
                assert_eq!(style.fg.is_some(), style.bg.is_some(), "{role:?}");
                continue;
            }
            for terminal in &TERMINALS {
                let (text, ground) = sides(style, terminal).expect("both sides are set");
                let ratio = contrast(text, ground);
                // Frames are no text, and quieter than it.
                let least = if role == Role::Border { 1.3 } else { 4.5 };
                assert!(
                    ratio >= least,
                    "{theme:?} {role:?} {}: {ratio:.2}",
                    terminal.name
                );
                let Some(shade) = theme.shade().and_then(|c| terminal.rgb(c)) else {
                    continue;
                };
                // What may stand on the shade of the tolerance.
                if matches!(
                    role,
                    Role::Faint | Role::Latest | Role::Likely | Role::Expected
                ) {
                    let ratio = contrast(text, shade);
                    assert!(ratio >= 4.5, "{theme:?} {role:?} on the shade: {ratio:.2}");
                }
            }
        }
    }
}

#[test]
fn frames_are_quieter_than_labels_and_labels_than_figures() {
    for scheme in [Scheme::Dark, Scheme::Light] {
        let theme = Theme::of(scheme);
        let of = |role| {
            let (text, ground) = sides(theme.style(role), &TERMINALS[1]).unwrap();
            contrast(text, ground)
        };
        assert!(of(Role::Border) < of(Role::Faint), "{scheme:?}");
        assert!(of(Role::Faint) < of(Role::Text), "{scheme:?}");
        assert!(of(Role::Text) < of(Role::Strong), "{scheme:?}");
    }
}

/// What the three kinds of colour blindness make of linear red, green and
/// blue: Machado, Oliveira and Fernandes 2009, severity 1 (from memory).
const KINDS: [[[f64; 3]; 3]; 3] = [
    [
        [0.152286, 1.052583, -0.204868],
        [0.114503, 0.786281, 0.099216],
        [-0.003882, -0.048116, 1.051998],
    ],
    [
        [0.367322, 0.860646, -0.227968],
        [0.280085, 0.672501, 0.047413],
        [-0.011820, 0.042940, 0.968881],
    ],
    [
        [1.255528, -0.076749, -0.178779],
        [-0.078411, 0.930809, 0.147602],
        [0.004733, 0.691367, 0.303900],
    ],
];

/// CIE 1976 L*a*b*, D65, of what is left of a colour.
fn seen(colour: Rgb, kind: &[[f64; 3]; 3]) -> [f64; 3] {
    let linear = colour.map(|v| ((f64::from(v) / 255.0 + 0.055) / 1.055).powf(2.4));
    let left = kind.map(|row| row.iter().zip(linear).map(|(a, b)| a * b).sum::<f64>());
    let [r, g, b] = left.map(|v| v.clamp(0.0, 1.0));
    let xyz = [
        (0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505,
        0.2126 * r + 0.7152 * g + 0.0722 * b,
        (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089,
    ];
    let [x, y, z] = xyz.map(|v| {
        if v > 0.008856 {
            v.cbrt()
        } else {
            7.787 * v + 16.0 / 116.0
        }
    });
    [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
}

fn apart(a: Rgb, b: Rgb, kind: &[[f64; 3]; 3]) -> f64 {
    let (a, b) = (seen(a, kind), seen(b, kind));
    let squares = a.iter().zip(b).map(|(a, b)| (a - b).powi(2));
    squares.sum::<f64>().sqrt()
}

#[test]
fn the_safe_bands_are_told_apart_with_every_kind_of_colour_blindness() {
    for theme in themes().into_iter().filter(|t| t.palette == Palette::Safe) {
        for terminal in &TERMINALS {
            let ground = |tone| sides(theme.style(Role::Band(tone)), terminal).unwrap().1;
            for (i, a) in Tone::ALL.into_iter().enumerate() {
                for b in &Tone::ALL[i + 1..] {
                    for kind in &KINDS {
                        let distance = apart(ground(a), ground(*b), kind);
                        assert!(
                            distance > 40.0,
                            "{theme:?} {a:?} {b:?} {}: {distance:.0}",
                            terminal.name
                        );
                    }
                }
            }
        }
    }
    // The control: the pair everybody warns of comes out closer.
    let [red, green] = [TERMINALS[1].colours[1], TERMINALS[1].colours[2]];
    let control = KINDS[..2].iter().map(|k| apart(red, green, k));
    assert!(control.fold(f64::INFINITY, f64::min) < 45.0);
}

#[test]
fn the_safe_text_is_told_apart_with_every_kind_of_colour_blindness() {
    for scheme in [Scheme::Dark, Scheme::Light] {
        let theme = Theme::of(scheme).safe();
        let text = |role| sides(theme.style(role), &TERMINALS[1]).unwrap().0;
        for kind in &KINDS {
            for (good, bad) in [
                (Role::Good, Role::Warn),
                (Role::Good, Role::Bad),
                (Role::Tolerance, Role::Likely),
            ] {
                let distance = apart(text(good), text(bad), kind);
                assert!(
                    distance > 40.0,
                    "{scheme:?} {good:?} {bad:?}: {distance:.0}"
                );
            }
        }
    }
}

#[test]
fn roles_that_mean_different_things_differ_without_colour_as_well() {
    let theme = Theme::plain();
    assert_ne!(theme.style(Role::Bad), theme.style(Role::Good));
    assert_ne!(theme.style(Role::Faint), theme.style(Role::Text));
    for role in Role::ALL {
        let style = theme.style(role);
        assert_eq!((style.fg, style.bg), (None, None), "{role:?}");
    }
    assert_eq!((theme.ground(), theme.shade()), (Style::new(), None));
}

#[test]
fn the_words_of_the_schemes_lead_back_to_them() {
    for (word, scheme) in Scheme::ALL {
        assert_eq!(Scheme::from_id(word), Some(scheme));
        assert_eq!(scheme.id(), word);
    }
    assert_eq!(Scheme::from_id("pink"), None);
    for scheme in OWN {
        assert_ne!(Theme::of(scheme).ground(), Style::new());
    }
}
