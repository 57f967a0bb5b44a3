//! How a sheet is written, and what it shows beside what was recorded.

use crate::units::System;

/// How a sheet is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Format {
    /// Plain text, 78 columns.
    Text,
    /// Markdown.
    Markdown,
    /// JSON, schema 1.
    Json,
    /// One self-contained HTML file.
    Html,
}

impl Format {
    /// Every format.
    pub const ALL: [Self; 4] = [Self::Text, Self::Markdown, Self::Json, Self::Html];
    /// Its word on the command line.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Text => "text",
            Self::Markdown => "markdown",
            Self::Json => "json",
            Self::Html => "html",
        }
    }
    /// The format with this word.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|f| f.id() == id)
    }
}

/// What the sheet shows beside what was recorded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Options {
    /// Display system.
    pub system: System,
    /// Whether the owner's contact is printed.
    pub contact: bool,
}
