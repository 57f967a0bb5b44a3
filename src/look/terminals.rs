//! What terminals make of the colours they are told: tables of the sixteen,
//! the fixed colours above them, and the contrast of two.

use ratatui::style::Color;

/// Red, green and blue, 0 to 255.
pub type Rgb = [u8; 3];

/// A terminal's sixteen colours, by number.
#[derive(Debug)]
pub struct Sixteen {
    /// What it is called here.
    pub name: &'static str,
    /// Colour 0 to 15.
    pub(crate) colours: [Rgb; 16],
}

/// Palettes most screens have, as these programs ship them (from memory).
pub const TERMINALS: [Sixteen; 3] = [
    Sixteen {
        name: "VGA text mode",
        colours: [
            [0, 0, 0],
            [170, 0, 0],
            [0, 170, 0],
            [170, 85, 0],
            [0, 0, 170],
            [170, 0, 170],
            [0, 170, 170],
            [170, 170, 170],
            [85, 85, 85],
            [255, 85, 85],
            [85, 255, 85],
            [255, 255, 85],
            [85, 85, 255],
            [255, 85, 255],
            [85, 255, 255],
            [255, 255, 255],
        ],
    },
    Sixteen {
        name: "xterm",
        colours: [
            [0, 0, 0],
            [205, 0, 0],
            [0, 205, 0],
            [205, 205, 0],
            [0, 0, 238],
            [205, 0, 205],
            [0, 205, 205],
            [229, 229, 229],
            [127, 127, 127],
            [255, 0, 0],
            [0, 255, 0],
            [255, 255, 0],
            [92, 92, 255],
            [255, 0, 255],
            [0, 255, 255],
            [255, 255, 255],
        ],
    },
    Sixteen {
        name: "a common SSH client",
        colours: [
            [0, 0, 0],
            [187, 0, 0],
            [0, 187, 0],
            [187, 187, 0],
            [0, 0, 187],
            [187, 0, 187],
            [0, 187, 187],
            [187, 187, 187],
            [85, 85, 85],
            [255, 85, 85],
            [85, 255, 85],
            [255, 255, 85],
            [85, 85, 255],
            [255, 85, 255],
            [85, 255, 255],
            [255, 255, 255],
        ],
    },
];

/// The number of one of the sixteen.
const fn number(colour: Color) -> Option<u8> {
    Some(match colour {
        Color::Black => 0,
        Color::Red => 1,
        Color::Green => 2,
        Color::Yellow => 3,
        Color::Blue => 4,
        Color::Magenta => 5,
        Color::Cyan => 6,
        Color::Gray => 7,
        Color::DarkGray => 8,
        Color::LightRed => 9,
        Color::LightGreen => 10,
        Color::LightYellow => 11,
        Color::LightBlue => 12,
        Color::LightMagenta => 13,
        Color::LightCyan => 14,
        Color::White => 15,
        Color::Indexed(n) => n,
        Color::Rgb(..) | Color::Reset => return None,
    })
}

impl Sixteen {
    /// What a colour comes out as here; none for the terminal's own.
    pub fn rgb(&self, colour: Color) -> Option<Rgb> {
        match colour {
            Color::Rgb(r, g, b) => Some([r, g, b]),
            Color::Reset => None,
            other => number(other).map(|n| match n {
                0..=15 => self.colours[usize::from(n)],
                fixed => above(fixed),
            }),
        }
    }
}

/// Colours 16 to 255: a cube of six steps a side, then greys, as xterm has them.
fn above(n: u8) -> Rgb {
    let n = n - 16;
    if n >= 216 {
        return [8 + 10 * (n - 216); 3];
    }
    let step = |v: u8| if v == 0 { 0 } else { 55 + 40 * v };
    [step(n / 36), step(n / 6 % 6), step(n % 6)]
}

#[cfg(test)]
/// Relative luminance, 0 to 1 (Web Content Accessibility Guidelines 2.1).
fn luminance(colour: Rgb) -> f64 {
    let [r, g, b] = colour.map(|v| {
        let v = f64::from(v) / 255.0;
        if v <= 0.040_45 {
            v / 12.92
        } else {
            ((v + 0.055) / 1.055).powf(2.4)
        }
    });
    0.0722f64.mul_add(b, 0.2126f64.mul_add(r, 0.7152 * g))
}

#[cfg(test)]
/// Contrast of two colours, 1 to 21 (Web Content Accessibility Guidelines 2.1).
pub(crate) fn contrast(a: Rgb, b: Rgb) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn contrast_is_what_the_guidelines_say_of_their_own_examples() {
        // WCAG 2.1, understanding 1.4.3: black on white 21:1, #777777 on white
        // 4.47:1 (just not enough), #767676 4.54:1 (just enough).
        assert!((contrast([0; 3], [255; 3]) - 21.0).abs() < 1e-9);
        assert!((contrast([0x77; 3], [255; 3]) - 4.48).abs() < 0.02);
        assert!((contrast([0x76; 3], [255; 3]) - 4.54).abs() < 0.02);
    }

    #[test]
    fn the_fixed_colours_are_the_cube_and_the_greys() {
        assert_eq!(above(16), [0, 0, 0]);
        assert_eq!(above(231), [255, 255, 255]);
        assert_eq!(above(196), [255, 0, 0]);
        assert_eq!(above(232), [8, 8, 8]);
        assert_eq!(above(255), [238, 238, 238]);
        let xterm = &TERMINALS[1];
        assert_eq!(xterm.rgb(Color::Indexed(1)), xterm.rgb(Color::Red));
        assert_eq!(xterm.rgb(Color::Reset), None);
    }
}
