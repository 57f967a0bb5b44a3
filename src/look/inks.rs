//! The colours of the schemes that bring their own ground, and of the bands.

use ratatui::style::{Color, Modifier, Style};

use super::theme::{Palette, Role, Scheme, Theme, Tone};

/// A colour, and the nearest of the 256 for terminals that have no others.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Ink(u32, u8);

impl Ink {
    /// The colour as the terminal is told it.
    pub(super) const fn colour(self, fine: bool) -> Color {
        let [_, r, g, b] = self.0.to_be_bytes();
        if fine {
            Color::Rgb(r, g, b)
        } else {
            Color::Indexed(self.1)
        }
    }
}

/// One scheme.
#[derive(Debug)]
pub(super) struct Inks {
    pub(super) ground: Ink,
    pub(super) text: Ink,
    strong: Ink,
    faint: Ink,
    border: Ink,
    /// In order; within tolerance.
    good: Ink,
    /// What calls for care, and the likely tear a move answers.
    warn: Ink,
    /// Not in order.
    bad: Ink,
    /// The ground of what is within tolerance.
    pub(super) shade: Option<Ink>,
    /// In order, told from amber and red by everybody.
    safe_good: Ink,
    /// The cursor's line.
    selected: Ink,
}

static DARK: Inks = Inks {
    ground: Ink(0x17_181d, 234),
    text: Ink(0xc9_ced8, 252),
    strong: Ink(0xf2_f4f8, 255),
    faint: Ink(0x93_9bab, 247),
    border: Ink(0x45_4a57, 239),
    good: Ink(0x4f_bf9f, 79),
    warn: Ink(0xe6_b450, 179),
    bad: Ink(0xff_7b72, 210),
    shade: Some(Ink(0x1f_332f, 236)),
    safe_good: Ink(0x6c_b6ff, 75),
    selected: Ink(0x34_3b4a, 238),
};

static LIGHT: Inks = Inks {
    ground: Ink(0xfc_fcf9, 231),
    text: Ink(0x2a_2f37, 236),
    strong: Ink(0x00_0000, 16),
    faint: Ink(0x5d_6470, 241),
    border: Ink(0xbf_c3ca, 250),
    good: Ink(0x0b_6b5b, 23),
    warn: Ink(0x85_5a00, 94),
    bad: Ink(0xb4_1f14, 124),
    shade: Some(Ink(0xdd_efec, 194)),
    safe_good: Ink(0x0a_5ba8, 25),
    selected: Ink(0xd5_dbe5, 253),
};

static CONTRAST: Inks = Inks {
    ground: Ink(0x00_0000, 16),
    text: Ink(0xff_ffff, 231),
    strong: Ink(0xff_ffff, 231),
    faint: Ink(0xff_ffff, 231),
    border: Ink(0xff_ffff, 231),
    good: Ink(0xff_ffff, 231),
    warn: Ink(0xff_ffff, 231),
    bad: Ink(0xff_ffff, 231),
    shade: None,
    safe_good: Ink(0xff_ffff, 231),
    selected: Ink(0xff_ffff, 231),
};

/// The colours of a scheme with a ground of its own.
pub(super) const fn of(scheme: Scheme) -> Option<&'static Inks> {
    match scheme {
        Scheme::Dark => Some(&DARK),
        Scheme::Light => Some(&LIGHT),
        Scheme::Contrast => Some(&CONTRAST),
        Scheme::Terminal | Scheme::Mono => None,
    }
}

impl Inks {
    /// A role's own colour and weight, on the scheme's ground.
    pub(super) fn style(&self, role: Role, theme: Theme) -> Style {
        let colour = |ink: Ink| ink.colour(theme.fine);
        let plain = |ink: Ink| Style::new().fg(colour(ink));
        let bold = |ink: Ink| plain(ink).add_modifier(Modifier::BOLD);
        let good = match theme.palette {
            Palette::Default => self.good,
            Palette::Safe => self.safe_good,
        };
        match role {
            Role::Text | Role::Expected => plain(self.text),
            Role::Strong | Role::Latest | Role::Key => bold(self.strong),
            Role::Faint | Role::Title => plain(self.faint),
            Role::Border => plain(self.border),
            Role::Good => bold(good),
            Role::Tolerance => plain(good),
            Role::Warn | Role::Likely => bold(self.warn),
            Role::Bad if theme.scheme == Scheme::Contrast => band(theme, Tone::Refuse),
            Role::Bad => bold(self.bad),
            Role::Selected if theme.scheme == Scheme::Contrast => {
                Style::new().fg(colour(self.ground)).bg(colour(self.text))
            }
            Role::Selected => bold(self.strong).bg(colour(self.selected)),
            Role::Band(tone) => band(theme, tone),
        }
    }
}

/// A band: both sides of its colour are set, so it reads on any ground.
/// Black letters are not bold: some terminals brighten what is bold.
pub(super) fn band(theme: Theme, tone: Tone) -> Style {
    let own = matches!(theme.scheme, Scheme::Dark | Scheme::Light);
    let safe = theme.palette == Palette::Safe;
    if own {
        let (ground, text) = match (tone, safe) {
            (Tone::Act, _) => (Ink(0xe3_b341, 179), Ink(0x10_1010, 16)),
            (Tone::Shoot, false) => (Ink(0x1f_5fa8, 25), Ink(0xff_ffff, 231)),
            (Tone::Shoot, true) => (Ink(0x0b_3d78, 18), Ink(0xff_ffff, 231)),
            (Tone::Done, false) => (Ink(0x4f_b87c, 72), Ink(0x0a_0f0c, 16)),
            (Tone::Done, true) => (Ink(0x7c_c8ff, 117), Ink(0x0a_0f0c, 16)),
            (Tone::Refuse, false) => (Ink(0xb3_2a20, 124), Ink(0xff_ffff, 231)),
            (Tone::Refuse, true) => (Ink(0x8c_1d14, 88), Ink(0xff_ffff, 231)),
        };
        let (ground, text) = (ground.colour(theme.fine), text.colour(theme.fine));
        return Style::new()
            .fg(text)
            .bg(ground)
            .add_modifier(Modifier::BOLD);
    }
    let light = |ground| Style::new().fg(Color::Black).bg(ground);
    let dark = |ground| {
        Style::new()
            .fg(Color::White)
            .bg(ground)
            .add_modifier(Modifier::BOLD)
    };
    match (tone, safe) {
        (Tone::Act, _) => light(Color::LightYellow),
        (Tone::Shoot, _) => dark(Color::Blue),
        (Tone::Done, false) => light(Color::Green),
        (Tone::Done, true) => light(Color::LightCyan),
        (Tone::Refuse, _) => dark(Color::Red),
    }
}
