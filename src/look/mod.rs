//! How things look: the roles of text and marks, the colours of each scheme,
//! the characters to draw with. No screen and no terminal in it, so that the
//! settings can name a look without either.

pub(crate) mod glyphs;
mod inks;
pub(crate) mod sample;
pub mod terminals;
pub(crate) mod theme;

pub use glyphs::{GlyphChoice, Glyphs};
pub use theme::{ColourChoice, Palette, Scheme, Theme};
pub(crate) use theme::{Role, Tone};
