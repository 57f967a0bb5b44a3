//! Reading numbers the way people write them: decimals, fractions, mixed.

/// A number read from the front of a text, and what follows it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Scan<'a> {
    /// The value, sign included.
    pub(crate) value: f64,
    /// What follows the number, untrimmed.
    pub rest: &'a str,
    /// Whether it was written as a fraction: without a unit that is inches.
    pub(crate) fraction: bool,
}

const VULGAR: [(char, f64); 9] = [
    ('\u{bd}', 0.5),
    ('\u{bc}', 0.25),
    ('\u{be}', 0.75),
    ('\u{215b}', 0.125),
    ('\u{215c}', 0.375),
    ('\u{215d}', 0.625),
    ('\u{215e}', 0.875),
    ('\u{2153}', 1.0 / 3.0),
    ('\u{2154}', 2.0 / 3.0),
];

/// Reads `12`, `12.5`, `12,5`, `.5`, `1/2`, `29 3/8`, `29-3/8`, or a printed
/// fraction sign, with an optional sign before it. `None` when the text does
/// not begin with a number or a denominator is zero.
pub(crate) fn scan_number(text: &str) -> Option<Scan<'_>> {
    let text = text.trim_start();
    let (sign, body) = match text.chars().next()? {
        '-' | '\u{2212}' => (-1.0, &text[text.chars().next()?.len_utf8()..]),
        '+' => (1.0, &text[1..]),
        _ => (1.0, text),
    };
    let body = body.trim_start();
    if let Some((value, rest)) = vulgar(body) {
        return Some(Scan {
            value: sign * value,
            rest,
            fraction: true,
        });
    }
    let (whole, digits_only, rest) = decimal(body)?;
    if digits_only {
        if let Some((value, rest)) = over(whole, rest) {
            return value.is_finite().then_some(Scan {
                value: sign * value,
                rest,
                fraction: true,
            });
        }
        if let Some((fraction, rest)) = trailing_fraction(rest) {
            return fraction.is_finite().then_some(Scan {
                value: sign * (whole + fraction),
                rest,
                fraction: true,
            });
        }
    }
    Some(Scan {
        value: sign * whole,
        rest,
        fraction: false,
    })
}

fn vulgar(text: &str) -> Option<(f64, &str)> {
    let c = text.chars().next()?;
    let (_, value) = VULGAR.iter().find(|(sign, _)| *sign == c)?;
    Some((*value, &text[c.len_utf8()..]))
}

/// A run of digits with at most one decimal mark; says whether it had none.
fn decimal(text: &str) -> Option<(f64, bool, &str)> {
    let bytes = text.as_bytes();
    let mut end = 0;
    let mut mark = false;
    let mut digits = 0;
    while end < bytes.len() {
        match bytes[end] {
            b'0'..=b'9' => digits += 1,
            b'.' if !mark => mark = true,
            b',' if !mark && digits > 0 && bytes.get(end + 1).is_some_and(u8::is_ascii_digit) => {
                mark = true;
            }
            _ => break,
        }
        end += 1;
    }
    if digits == 0 || digits > 15 {
        return None;
    }
    let value: f64 = text[..end].replace(',', ".").parse().ok()?;
    Some((value, !mark, &text[end..]))
}

/// `/8` after a whole number.
fn over(numerator: f64, rest: &str) -> Option<(f64, &str)> {
    let after = rest
        .strip_prefix('/')
        .or_else(|| rest.strip_prefix('\u{2044}'))?;
    let (denominator, plain, rest) = decimal(after)?;
    plain.then_some((numerator / denominator, rest))
}

/// ` 3/8`, `-3/8` or a fraction sign after a whole number.
fn trailing_fraction(rest: &str) -> Option<(f64, &str)> {
    if let Some(found) = vulgar(rest.trim_start()) {
        return Some(found);
    }
    let body = rest
        .strip_prefix('-')
        .or_else(|| rest.strip_prefix(' ').map(str::trim_start))?;
    let (numerator, plain, after) = decimal(body)?;
    if !plain {
        return None;
    }
    over(numerator, after)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn mixed_fractions_need_a_space_or_a_hyphen() {
        assert_eq!(
            scan_number("29 3/8 in").unwrap(),
            Scan {
                value: 29.375,
                rest: " in",
                fraction: true,
            }
        );
        assert_eq!(
            scan_number("29-3/8\"").unwrap(),
            Scan {
                value: 29.375,
                rest: "\"",
                fraction: true,
            }
        );
        assert_eq!(
            scan_number("-1/16in").unwrap(),
            Scan {
                value: -0.0625,
                rest: "in",
                fraction: true,
            }
        );
        assert_eq!(
            scan_number("12 4").unwrap(),
            Scan {
                value: 12.0,
                rest: " 4",
                fraction: false,
            }
        );
    }

    #[test]
    fn what_is_not_a_number_is_not_read_as_one() {
        for text in ["", "left", ".", "-", "/2", "nan", "inf", "\u{2212}"] {
            assert!(scan_number(text).is_none(), "{text:?}");
        }
        assert!(scan_number("1/0").is_none());
    }
}
