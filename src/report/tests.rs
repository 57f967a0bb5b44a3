use super::plot::PlotPoint;
use super::*;
use crate::advice;
use crate::range::Today;
use crate::session::{Event, Shot};
use crate::setup::tests::{COMPOUND, timeline};
use crate::units::System;

fn shot(right: f64, up: f64) -> Event {
    Event::Shot(Shot {
        right,
        up,
        ..Shot::default()
    })
}

fn rest_left(mm: f64) -> Event {
    let step = crate::gear::Step {
        adjuster: crate::gear::AdjusterKind::RestSideways,
        amount: -mm,
    };
    Event::Move {
        steps: vec![step],
        said: None,
        confirms: None,
    }
}

fn sheet(card: &str, events: Vec<Event>, format: Format, options: Options) -> String {
    let t = timeline(card, events);
    let analysis = advice::analyse(&t, Today::now());
    render(&t, &analysis, format, &options)
}

fn plain(events: Vec<Event>, format: Format) -> String {
    sheet(COMPOUND, events, format, Options::default())
}

/// The value of an attribute in the first element that begins with `element`.
fn attribute(svg: &str, element: &str, name: &str) -> f64 {
    let start = svg
        .find(element)
        .unwrap_or_else(|| panic!("{element} in {svg}"));
    let rest = &svg[start..];
    let key = format!(" {name}=\"");
    let from = rest
        .find(&key)
        .unwrap_or_else(|| panic!("{name} in {rest}"))
        + key.len();
    let text = &rest[from..from + rest[from..].find('"').unwrap()];
    text.trim_end_matches("mm").parse().unwrap()
}

fn view_box(svg: &str) -> [f64; 4] {
    let from = svg.find("viewBox=\"").unwrap() + 9;
    let mut numbers = svg[from..from + svg[from..].find('"').unwrap()].split(' ');
    std::array::from_fn(|_| numbers.next().unwrap().parse().unwrap())
}

#[test]
fn a_hole_is_drawn_to_the_scale_it_states() {
    let html = plain(vec![shot(-12.0, 4.0)], Format::Html);
    let svg = &html[html.find("<svg class=\"hole\"").unwrap()..];
    // In the drawing's own unit, 1 mm of paper: left is minus, up is minus in y.
    assert_eq!(attribute(svg, "<line class=\"slit\"", "x2"), -12.0);
    assert_eq!(attribute(svg, "<line class=\"slit\"", "y2"), -4.0);
    assert_eq!(attribute(&html, "<circle class=\"inside\"", "r"), 6.0);
    let scale: f64 = {
        let at = html.find("Scale 1:").unwrap() + 8;
        html[at..at + html[at..].find('.').unwrap()]
            .parse()
            .unwrap()
    };
    // Printed: each side in mm is that of the viewBox over the stated scale.
    let [left, top, wide, high] = view_box(svg);
    assert!((attribute(svg, "<svg class=\"hole\"", "width") - wide / scale).abs() < 0.01);
    assert!((attribute(svg, "<svg class=\"hole\"", "height") - high / scale).abs() < 0.01);
    // The paper about it: a shaft of 6.5 mm, vanes of 8 mm, 1 mm of margin.
    assert_eq!(
        (left, top),
        (-12.0 - 3.25 - 8.0 - 1.0, -4.0 - 3.25 - 8.0 - 1.0)
    );
    assert_eq!(
        (left + wide, top + high),
        (3.25 + 1.0, -4.0 + 3.25 + 8.0 + 1.0)
    );
    // And the bar beside it is 10 mm of paper.
    assert!((attribute(&html, "<svg class=\"bar\"", "width") - 10.0 / scale).abs() < 0.01);
    assert!(html.contains("</svg> 10 mm of paper."));
    // On a sheet in inches half an inch.
    let options = Options {
        system: System::Inch,
        ..Options::default()
    };
    let html = sheet(COMPOUND, vec![shot(-12.0, 4.0)], Format::Html, options);
    assert!(html.contains("</svg> 1/2 in of paper."));
    assert!((attribute(&html, "<svg class=\"bar\"", "width") - 12.7 / scale).abs() < 0.01);
}

fn figure(tears: &[(u32, f64, f64)]) -> HolesFigure {
    let mark = |(i, (setting, right, up)): (usize, &(u32, f64, f64))| HoleMark {
        number: i + 1,
        setting: *setting,
        tear: crate::tear::Tear::new(*right, *up),
        bare: false,
        bad: false,
    };
    let holes = tears.iter().enumerate().map(mark).collect();
    let places = vec![
        (1, "the start".into()),
        (2, "rest sideways 1.50 mm left".into()),
    ];
    HolesFigure::new(holes, places, 6.5, ((0.0, 0.0), 6.0), System::Mm)
}

#[test]
fn the_largest_hole_fits_a_narrow_screen_whatever_its_size() {
    for size in [0.0, 5.0, 40.0, 180.0] {
        let figure = figure(&[(1, size, -size)]);
        let strip = figure.strips()[0];
        let svg = figure.svg(&strip, &strip.holes[0]);
        assert!(
            attribute(&svg, "<svg class=\"hole\"", "width") <= 40.0 + 1e-9,
            "{size}"
        );
        assert!(view_box(&svg)[2] >= size, "{size}");
    }
}

#[test]
fn holes_stand_one_strip_a_setting_on_one_line_with_the_tolerance_once() {
    let figure = figure(&[
        (1, -12.0, 4.0),
        (1, -10.0, -3.0),
        (2, 1.0, 0.0),
        (1, 0.0, 0.0),
    ]);
    let strips = figure.strips();
    let shape: Vec<(u32, usize)> = strips.iter().map(|s| (s.setting, s.holes.len())).collect();
    assert_eq!(shape, [(1, 2), (2, 1), (1, 1)]);
    assert_eq!(strips[1].place, "rest sideways 1.50 mm left");
    // The points of one strip stand on one line: same top, same height.
    let boxes: Vec<[f64; 4]> = strips[0]
        .holes
        .iter()
        .map(|h| view_box(&figure.svg(&strips[0], h)))
        .collect();
    assert_eq!((boxes[0][1], boxes[0][3]), (boxes[1][1], boxes[1][3]));

    let events = vec![
        shot(-12.0, 4.0),
        shot(-11.0, 3.0),
        rest_left(1.5),
        shot(1.0, 0.0),
    ];
    let html = plain(events, Format::Html);
    assert_eq!(html.matches("<div class=\"strip\">").count(), 2);
    assert_eq!(html.matches("<svg class=\"ring\"").count(), 2);
    assert_eq!(html.matches("<svg class=\"hole\"").count(), 3);
    assert!(
        html.contains("<h3>Setting 1 \u{b7} the start</h3>"),
        "{html}"
    );
    // Numbers stand under the holes, no words of direction.
    assert!(html.contains("<figcaption>2</figcaption>"), "{html}");
    assert!(!html.contains("<figcaption>2:"), "{html}");
}

#[test]
fn the_plot_puts_the_tolerance_and_the_shots_on_one_scale() {
    let figure = PlotFigure {
        points: (1..=3)
            .map(|n| PlotPoint {
                number: n,
                size: 6.0,
                setting: 1,
                bad: false,
                band: None,
            })
            .collect(),
        tolerance: 6.0,
        system: System::Mm,
    };
    let svg = figure.svg();
    let (ring, shot) = (
        attribute(&svg, "<rect class=\"inside\"", "y"),
        attribute(&svg, "<circle class=\"shot\"", "cy"),
    );
    assert!((ring - shot).abs() < 0.011, "{ring} {shot}");
}

#[test]
fn the_contact_stays_out_unless_asked_for() {
    let card = format!("{COMPOUND}[job]\nowner=\"Ann Archer\"\ncontact=\"ann@example.org\"\n");
    for format in Format::ALL {
        let out = sheet(&card, vec![], format, Options::default());
        assert!(out.contains("Ann Archer"), "{format:?}");
        assert!(!out.contains("example.org"), "{format:?}");
        let with = Options {
            contact: true,
            ..Options::default()
        };
        assert!(
            sheet(&card, vec![], format, with).contains("example.org"),
            "{format:?}"
        );
    }
}

#[test]
fn hostile_texts_stay_text_and_nothing_is_loaded() {
    let bad = r#"<script>alert(1)</script><img src=x onerror='y'>&\u001b[31m|*x*"#;
    let card = format!("{COMPOUND}name=\"bow\"\n").replace(
        "[paper]",
        "[job]\nowner=\"OWNER\"\nreason=\"OWNER\"\n[paper]",
    );
    let card = card.replace("OWNER", bad).replace("name=\"bow\"\n", "");
    let events = vec![
        Event::Setup {
            item: "as-found".into(),
            value: Some("\"><svg onload=x>".into()),
            result: "ok".into(),
        },
        Event::Answer {
            test: "contact".into(),
            result: "none".into(),
            detail: Some("<b>&".into()),
        },
        shot(3.0, 1.0),
    ];
    let html = sheet(&card, events.clone(), Format::Html, Options::default());
    for banned in [
        "<script",
        "<img",
        "onload=x>",
        "http:",
        "https:",
        "<svg onload",
        "url(",
        "@import",
        "<b>&",
        "\u{1b}",
    ] {
        assert!(!html.contains(banned), "{banned}");
    }
    assert!(html.contains("&lt;script&gt;"));
    assert!(html.contains("default-src 'none'"));
    let markdown = sheet(&card, events.clone(), Format::Markdown, Options::default());
    assert!(!markdown.contains("<script") && !markdown.contains('\u{1b}'));
    let json = sheet(&card, events, Format::Json, Options::default());
    assert!(serde_json::from_str::<serde_json::Value>(&json).is_ok());
}

#[test]
fn every_format_says_the_verdict_and_what_was_changed() {
    let events = || {
        vec![
            shot(-15.0, 3.0),
            shot(-14.0, 2.0),
            Event::Move {
                steps: vec![crate::gear::Step {
                    adjuster: crate::gear::AdjusterKind::RestSideways,
                    amount: -1.5,
                }],
                said: None,
                confirms: None,
            },
            shot(-2.0, 1.0),
        ]
    };
    for format in [Format::Text, Format::Markdown, Format::Html] {
        let out = plain(events(), format);
        assert!(
            out.contains("Rest OUT 1.50 mm (6 clicks), LEFT"),
            "{format:?}"
        );
        assert!(out.contains("IN toward the riser 1.50 mm"), "{format:?}");
        assert!(out.contains("Cautions"), "{format:?}");
    }
    let json: serde_json::Value = serde_json::from_str(&plain(events(), Format::Json)).unwrap();
    assert_eq!(json["to_start"]["command"], "rest right 1.5 mm");
    assert_eq!(json["moves"][0]["steps"][0]["amount"], -1.5);
    assert_eq!(json["shots"][0]["right"], -15.0);
    assert_eq!(json["schema"], 1);
}

#[test]
fn a_long_session_draws_the_last_holes_and_says_so() {
    let events: Vec<Event> = (0..75).map(|i| shot(f64::from(i % 9) - 4.0, 1.0)).collect();
    let html = plain(events, Format::Html);
    assert_eq!(html.matches("<svg class=\"hole\"").count(), 60);
    assert!(html.contains("The first 15 holes are not drawn."));
}

#[test]
fn an_empty_session_still_makes_a_sheet_that_says_what_is_missing() {
    let text = plain(vec![], Format::Text);
    for wanted in [
        "Nothing was moved",
        "was not recorded",
        "Not proved at distance yet",
    ] {
        assert!(text.contains(wanted), "{wanted}\n{text}");
    }
    assert!(text.lines().all(|l| l.chars().count() <= 80), "{text}");
}

#[test]
fn an_undone_entry_is_on_no_sheet() {
    let events = vec![shot(-15.0, 3.0), shot(99.0, 3.0), Event::Undo { target: 2 }];
    assert!(!plain(events, Format::Text).contains("99"));
}

/// A session without shots, so that its sheet hangs on no estimate.
#[test]
fn an_arrow_past_the_stop_load_is_told_to_the_owner_and_never_called_best() {
    let far = COMPOUND.replace("spine=0.4", "spine=0.7");
    let weak = COMPOUND.replace("spine=0.4", "spine=0.55");
    let owner = "Do not shoot these arrows from this bow";
    for format in [Format::Text, Format::Markdown, Format::Html] {
        let said = |card: &str| sheet(card, vec![shot(1.0, 0.0)], format, Options::default());
        assert!(said(&far).contains("DO NOT SHOOT"));
        assert!(said(&far).contains(owner));
        assert!(said(&far).contains("Far too weak"));
        assert!(!said(&weak).contains(owner) && !said(&weak).contains("DO NOT SHOOT"));
    }
    let open = |card: &str| {
        let t = timeline(card, vec![shot(1.0, 0.0)]);
        closings(&advice::analyse(&t, Today::now()))
    };
    assert_eq!(open(&far), [Closing::Stopped]);
    assert_eq!(
        open(&weak),
        [Closing::Stopped, Closing::BestWithTheseArrows]
    );
}

fn set_up_only() -> Vec<Event> {
    let setup = |item: &str, value: &str, result: &str| Event::Setup {
        item: item.into(),
        value: Some(value.into()),
        result: result.into(),
    };
    vec![
        setup("range-backstop", "2 m", "ok"),
        setup("inspection", "ok", "ok"),
        setup("brace-height", "7 1/4 in", "off"),
        setup(
            "arrow-match",
            "412 gr, 411.5, 412.5, 412, 411, 412, 418.5, 412.5, 411.5, 412, 412, 411.5",
            "off",
        ),
        Event::Move {
            steps: vec![crate::gear::Step {
                adjuster: crate::gear::AdjusterKind::RestSideways,
                amount: -1.5,
            }],
            said: None,
            confirms: None,
        },
    ]
}

#[test]
fn the_sheets_look_as_they_did() {
    let t = timeline(COMPOUND, set_up_only());
    let analysis = advice::analyse(&t, Today::now());
    insta::with_settings!({snapshot_path => "../../snapshots", prepend_module_to_snapshot => false}, {
        for format in [Format::Text, Format::Markdown] {
            let out = render(&t, &analysis, format, &Options::default());
            insta::assert_snapshot!(format!("report-{}", format.id()), out);
        }
        insta::assert_snapshot!("restore-sheet", print(&put_back_sheet(&t, System::Mm), Format::Text));
    });
}

#[test]
fn a_bare_shaft_is_drawn_without_vanes_and_a_fletched_one_with_three() {
    let vanes = |bare: bool| {
        let shot = Event::Shot(Shot {
            right: -12.0,
            up: 4.0,
            bare,
            ..Shot::default()
        });
        let html = plain(vec![shot], Format::Html);
        let svg = &html[html.find("<svg class=\"hole\"").unwrap()..];
        let svg = &svg[..svg.find("</svg>").unwrap()];
        svg.matches("<line class=\"vane\"").count()
    };
    assert_eq!((vanes(false), vanes(true)), (3, 0));
}

#[test]
fn the_sheet_says_what_the_verdict_rests_on() {
    let rests = |events: Vec<Event>| {
        let text = plain(events, Format::Text);
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let label = "Rests on";
        text[text.find(label).unwrap() + label.len()..]
            .trim_start_matches([':', ' '])
            .to_owned()
    };
    let bad = Event::Shot(Shot {
        right: 9.0,
        called_bad: true,
        ..Shot::default()
    });
    let few = vec![shot(-12.0, 4.0), shot(-11.0, 3.0), bad, rest_left(1.0)];
    let said = rests(few.clone());
    assert!(
        said.starts_with("2 shots counted, the owner's judged; 1 move made"),
        "{said}"
    );
    // A rest that was loose and is fixed: what came before counts for nothing.
    let mut mended = few;
    mended.push(Event::answer("loose-fixed", "done"));
    mended.push(Event::answer("remedy-jumps", "resume"));
    mended.push(shot(-9.0, 3.0));
    let said = rests(mended);
    assert!(said.starts_with("1 shot counted"), "{said}");
    assert!(
        said.contains("; 3 shots before the rest was fixed left out"),
        "{said}"
    );
    let clean = vec![
        shot(0.0, 0.0),
        shot(1.0, 0.0),
        shot(0.0, 1.0),
        shot(0.0, 0.0),
    ];
    let said = rests(clean);
    assert!(said.contains("; 4 shots at the last setting"), "{said}");
}
