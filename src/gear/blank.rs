//! A set-up card to fill in, made from the one table of fields.

use super::field::{FIELDS, Field, FieldKind};

const HEAD: &str = "\
# A set-up card for tearbench. Fill in what stands open, then:
#   tearbench new bow.toml --card card.toml
# Every quantity is text with its unit: \"60 lb\", \"7 1/8 in\", \"9.5 gr/in\", \"2 m\".
# Lines that begin with # are optional: take the # away and put in what you measured.
# The bow maker's and the arrow maker's own figures come before everything here.
";

const TAIL: &str = "
# The kind of rest implies its adjusters. A bow that has others lists all of them:
# [[adjuster]]
# name = \"rest-sideways\"  # rest-height, nocking-point, plunger-tension, centre-shot,
#                          # yoke-twist, cam-shim, limb-bolts, brace-height
# step = \"0.25 mm\"
# range = \"8 mm\"          # how far each way from the start
# clockwise = \"out\"
";

/// The whole card: what every bow needs stands open, the rest is commented out.
pub(crate) fn blank_card() -> String {
    let mut out = HEAD.to_owned();
    let mut section = "";
    for field in FIELDS {
        if field.section() != section {
            section = field.section();
            out.push_str(&format!("\n[{section}]\n"));
        }
        out.push_str(&line(field));
    }
    out.push_str(TAIL);
    out
}

fn line(field: &Field) -> String {
    let (name, doc) = (field.name(), field.doc);
    if field.required {
        return format!("{name} = \"\"  # {doc}; such as {}\n", value(field));
    }
    format!("# {name} = {}  # {doc}\n", value(field))
}

/// The example as TOML wants it.
fn value(field: &Field) -> String {
    match field.kind {
        FieldKind::Flag | FieldKind::Spine(..) | FieldKind::Count(..) => field.example.to_owned(),
        _ => format!("\"{}\"", field.example.replace('"', "\\\"")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::{Card, CardText};

    fn read(text: &str) -> Result<(), String> {
        let all = |problems: Vec<crate::gear::CardProblem>| {
            problems
                .iter()
                .map(ToString::to_string)
                .collect::<Vec<_>>()
                .join("\n")
        };
        let text = CardText::from_toml(text).map_err(all)?;
        Card::read(&text).map(|_| ()).map_err(all)
    }

    /// The blank card with each line of a field made over.
    fn with_lines(over: impl Fn(&Field) -> Option<String>) -> String {
        let mut section = String::new();
        let mut out = String::new();
        for line in blank_card().lines() {
            if let Some(name) = line.strip_prefix('[') {
                section = name.trim_end_matches(']').to_owned();
            }
            let bare = line.strip_prefix("# ").unwrap_or(line);
            let name = bare.split(" = ").next().unwrap_or_default();
            let field = FIELDS.iter().find(|f| f.key == format!("{section}.{name}"));
            out.push_str(&field.and_then(&over).unwrap_or_else(|| line.to_owned()));
            out.push('\n');
        }
        out
    }

    fn filled(field: &Field) -> String {
        format!("{} = {}", field.name(), value(field))
    }

    #[test]
    fn left_open_it_names_every_value_that_is_missing() {
        let refused = read(&blank_card()).unwrap_err();
        for field in FIELDS.iter().filter(|f| f.required) {
            assert!(refused.contains(field.key), "{} in\n{refused}", field.key);
        }
    }

    #[test]
    fn filled_with_its_examples_the_card_reads() {
        let needed = with_lines(|f| f.required.then(|| filled(f)));
        assert_eq!(read(&needed), Ok(()), "{needed}");
        let whole = with_lines(|f| Some(filled(f)));
        assert_eq!(read(&whole), Ok(()), "{whole}");
    }
}
