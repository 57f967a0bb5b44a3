//! The worlds: families of virtual bows. Ranges are round figures of the
//! judge's own, chosen apart from the tuner's prior.

use super::bow::{Bow, Powder, Shape};
use super::hard;
use super::mechanics::{self, Hold};
use super::rng::Rng;

/// Tear that counts as inside, mm.
pub const TOLERANCE: f64 = 6.0;

/// What the tuner is told of the bow.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Kind {
    Aid,
    Fingers,
    Plunger,
}

/// One family.
#[derive(Clone, Copy)]
pub struct World {
    pub name: &'static str,
    pub kind: Kind,
    pub make: fn(&mut Rng) -> Bow,
    /// Whether a setting inside tolerance should be found.
    pub tunable: bool,
}

pub fn class(rng: &mut Rng) -> usize {
    usize::from(!rng.chance(0.45))
}

/// Scatter of a class: ranges of sd sideways and upright, mm.
pub fn scatter(rng: &mut Rng, kind: Kind, class: usize) -> [f64; 2] {
    let aid = [
        ([0.9, 2.2], [0.6, 1.5]),
        ([2.0, 4.5], [1.1, 2.4]),
        ([5.0, 10.0], [2.5, 5.0]),
    ];
    let fingers = [
        ([1.8, 4.0], [0.8, 1.8]),
        ([4.0, 8.5], [1.6, 3.2]),
        ([10.0, 18.0], [3.5, 7.0]),
    ];
    let (h, v) = if kind == Kind::Aid {
        aid[class]
    } else {
        fingers[class]
    };
    [rng.log_uniform(h[0], h[1]), rng.log_uniform(v[0], v[1])]
}

pub fn blank(shape: [Shape; 2], kind: Kind, class: usize, rng: &mut Rng) -> Bow {
    Bow {
        shape,
        cross: [rng.uniform(-0.5, 0.5), rng.uniform(-0.5, 0.5)],
        start: [0.0; 2],
        sd: scatter(rng, kind, class),
        bad: 0.03,
        tails: None,
        drift: [0.0; 2],
        loose: 0.0,
        knock: 0.0,
        looks: true,
        travel: [8.0; 2],
        step: [0.25; 2],
        class,
        powder: Powder::Clean,
        engine: None,
    }
}

/// Puts the zero of each axis `away` from the start and keeps starts that
/// are out of tolerance; otherwise draws again.
pub fn start_out(rng: &mut Rng, away: [f64; 2], mut draw: impl FnMut(&mut Rng) -> Bow) -> Bow {
    loop {
        let mut bow = draw(rng);
        let e = [
            rng.uniform(-away[0], away[0]),
            rng.uniform(-away[1], away[1]),
        ];
        bow.start = [0, 1].map(|a| {
            let own = bow.shape[a].rise(e[a]);
            -own - bow.cross[a] * e[1 - a]
        });
        if bow.start[0].hypot(bow.start[1]) > TOLERANCE && bow.start[0].hypot(bow.start[1]) < 75.0 {
            return bow;
        }
    }
}

fn bent(rng: &mut Rng, slope: f64) -> Shape {
    Shape::Bend(slope, slope.abs() * rng.uniform(-0.06, 0.06))
}

pub fn compound(rng: &mut Rng, sideways: f64, class: usize) -> Bow {
    let upright = -rng.uniform(0.8, 4.0) * if rng.chance(0.06) { -1.0 } else { 1.0 };
    let shape = [bent(rng, sideways), bent(rng, upright)];
    blank(shape, Kind::Aid, class, rng)
}

/// Slopes from 0.5 to 4 mm per mm, either sign.
pub fn unknown_sign(rng: &mut Rng) -> Bow {
    start_out(rng, [5.0, 4.0], |r| {
        let s = r.sign() * r.uniform(0.5, 4.0);
        let c = class(r);
        compound(r, s, c)
    })
}

fn usual_sign(rng: &mut Rng) -> Bow {
    start_out(rng, [5.0, 4.0], |r| {
        let s = -r.uniform(0.5, 4.0);
        let c = class(r);
        compound(r, s, c)
    })
}

fn poor_aid(rng: &mut Rng) -> Bow {
    start_out(rng, [5.0, 4.0], |r| {
        let s = r.sign() * r.uniform(0.5, 4.0);
        compound(r, s, 2)
    })
}

/// A button the rear of the shaft slaps: the tear goes with the rest, about
/// 12 mm per mm on the near side of a kink, 1:2 to 1:10 beyond it.
fn slapped(rng: &mut Rng) -> Shape {
    let steep = rng.uniform(9.0, 15.0);
    let flat = steep / rng.uniform(2.0, 10.0);
    let at = rng.uniform(-2.0, 2.0);
    let (below, above) = if rng.chance(0.5) {
        (steep, flat)
    } else {
        (flat, steep)
    };
    Shape::Kink { at, below, above }
}

/// A button the shaft clears: the tear goes against the rest, as the guides
/// for fingers say, 1.5 to 8 mm per mm and bent.
fn clear(rng: &mut Rng) -> Shape {
    let slope = -rng.log_uniform(1.5, 8.0);
    Shape::Bend(slope, slope.abs() * rng.uniform(-0.08, 0.08))
}

/// A finger bow of one kind or the other, with the vertical that both have.
fn button(rng: &mut Rng, class: usize, powder: Powder) -> Bow {
    let side = match powder {
        Powder::Slap => slapped(rng),
        Powder::Clean => clear(rng),
    };
    let v = rng.uniform(1.5, 4.0);
    let upright = Shape::Kink {
        at: rng.uniform(0.5, 4.0),
        below: -v,
        above: rng.uniform(-0.4, 0.25) * v,
    };
    let mut bow = blank([side, upright], Kind::Fingers, class, rng);
    bow.cross = [rng.uniform(-0.4, 0.4), rng.uniform(-0.4, 0.4)];
    bow.powder = powder;
    bow
}

fn either(rng: &mut Rng) -> Powder {
    if rng.chance(0.5) {
        Powder::Slap
    } else {
        Powder::Clean
    }
}

/// The button's zero lies up to 3 mm away, 5 where it is cleared; the
/// vertical's before its kink.
pub fn on_button(rng: &mut Rng, powder: Powder, class: impl Fn(&mut Rng) -> usize) -> Bow {
    let away = if powder == Powder::Slap { 3.0 } else { 5.0 };
    start_out(rng, [away, 3.0], |r| {
        let c = class(r);
        button(r, c, powder)
    })
}

fn fingers_slap(rng: &mut Rng) -> Bow {
    on_button(rng, Powder::Slap, class)
}

fn fingers_clean(rng: &mut Rng) -> Bow {
    on_button(rng, Powder::Clean, class)
}

fn poor_fingers(rng: &mut Rng) -> Bow {
    let powder = either(rng);
    on_button(rng, powder, |_| 2)
}

/// Plunger tension in eighths of a turn, three turns each way; `sign` is the
/// side the tear goes to when it is made firmer.
fn plunger(rng: &mut Rng, sign: f64, powder: Powder) -> Bow {
    start_out(rng, [2.0, 3.0], |r| {
        let c = class(r);
        let mut bow = button(r, c, powder);
        let s = sign * r.uniform(3.0, 9.0);
        bow.shape[0] = Shape::Bend(s, r.uniform(0.0, 0.12) * s.abs());
        bow.travel[0] = 3.0;
        bow.step[0] = 0.125;
        bow
    })
}

/// Firmer sends a right-handed tear right, as the guides for fingers say.
fn plunger_clean(rng: &mut Rng) -> Bow {
    plunger(rng, 1.0, Powder::Clean)
}

fn plunger_slap(rng: &mut Rng) -> Bow {
    plunger(rng, -1.0, Powder::Slap)
}

fn heavy(rng: &mut Rng) -> Bow {
    Bow {
        tails: Some(3),
        bad: 0.0,
        ..unknown_sign(rng)
    }
}

fn drifting(rng: &mut Rng) -> Bow {
    let bow = unknown_sign(rng);
    let drift = [rng.uniform(-0.15, 0.15), rng.uniform(-0.15, 0.15)];
    Bow { drift, ..bow }
}

fn many_bad(rng: &mut Rng) -> Bow {
    Bow {
        bad: 0.125,
        ..unknown_sign(rng)
    }
}

fn contact(rng: &mut Rng) -> Bow {
    start_out(rng, [5.0, 4.0], |r| {
        let c = class(r);
        let s = r.sign() * r.uniform(0.5, 4.0);
        let mut bow = compound(r, s, c);
        let at = r.sign() * r.uniform(1.0, 4.0);
        bow.shape[0] = Shape::Contact {
            slope: s,
            at,
            kick: r.sign() * r.uniform(8.0, 20.0),
        };
        bow
    })
}

/// The sideways screw turns and nothing follows; the tear there is out.
fn dead(rng: &mut Rng) -> Bow {
    let mut bow = usual_sign(rng);
    bow.shape[0] = Shape::Line(0.0);
    bow.cross = [0.0; 2];
    bow.start[0] = rng.sign() * rng.uniform(8.0, 25.0);
    bow
}

fn loose(rng: &mut Rng) -> Bow {
    let jump = rng.uniform(8.0, 14.0);
    Bow {
        loose: jump,
        ..unknown_sign(rng)
    }
}

fn launch_aid(rng: &mut Rng) -> Bow {
    let c = class(rng);
    mechanics::draw(rng, Kind::Aid, [0.87, 1.13], c, true, Hold::Wide)
}

fn launch_fingers(rng: &mut Rng) -> Bow {
    let c = class(rng);
    mechanics::draw(rng, Kind::Fingers, [0.87, 1.13], c, true, Hold::Wide)
}

fn launch_weak(rng: &mut Rng) -> Bow {
    let c = class(rng);
    mechanics::draw(rng, Kind::Aid, [1.27, 1.6], c, false, Hold::Wide)
}

fn mechanical_aid(rng: &mut Rng) -> Bow {
    let c = class(rng);
    mechanics::draw(rng, Kind::Aid, [0.7, 1.2], c, true, Hold::Actual)
}

fn mechanical_fingers(rng: &mut Rng) -> Bow {
    let c = class(rng);
    mechanics::draw(rng, Kind::Fingers, [0.87, 1.13], c, true, Hold::Actual)
}

/// All of them, in the order of the table.
pub const WORLDS: [World; 24] = [
    World {
        name: "launch model, compound, matched",
        kind: Kind::Aid,
        make: launch_aid,
        tunable: true,
    },
    World {
        name: "launch model, recurve, matched",
        kind: Kind::Fingers,
        make: launch_fingers,
        tunable: true,
    },
    World {
        name: "launch model, compound, weak (check off)",
        kind: Kind::Aid,
        make: launch_weak,
        tunable: false,
    },
    World {
        name: "mechanical, compound, actual string",
        kind: Kind::Aid,
        make: mechanical_aid,
        tunable: true,
    },
    World {
        name: "mechanical, recurve, actual string",
        kind: Kind::Fingers,
        make: mechanical_fingers,
        tunable: true,
    },
    World {
        name: "compound, usual signs",
        kind: Kind::Aid,
        make: usual_sign,
        tunable: true,
    },
    World {
        name: "compound, sign unknown",
        kind: Kind::Aid,
        make: unknown_sign,
        tunable: true,
    },
    World {
        name: "recurve, fingers, button cleared (against the rest)",
        kind: Kind::Fingers,
        make: fingers_clean,
        tunable: true,
    },
    World {
        name: "recurve, fingers, button slapped (with the rest)",
        kind: Kind::Fingers,
        make: fingers_slap,
        tunable: true,
    },
    World {
        name: "plunger tension, button cleared (firmer: right)",
        kind: Kind::Plunger,
        make: plunger_clean,
        tunable: true,
    },
    World {
        name: "plunger tension, button slapped (firmer: left)",
        kind: Kind::Plunger,
        make: plunger_slap,
        tunable: true,
    },
    World {
        name: "weak responders (0.1 to 0.6 mm per mm, either sign)",
        kind: Kind::Aid,
        make: hard::weak,
        tunable: true,
    },
    World {
        name: "bent response, aid",
        kind: Kind::Aid,
        make: hard::bent,
        tunable: true,
    },
    World {
        name: "knocked vanes, powder looked at",
        kind: Kind::Aid,
        make: hard::knocked,
        tunable: true,
    },
    World {
        name: "knocked vanes, nobody looks",
        kind: Kind::Aid,
        make: hard::knocked_unseen,
        tunable: false,
    },
    World {
        name: "recurve, fingers, either sign",
        kind: Kind::Fingers,
        make: hard::fingers_either,
        tunable: true,
    },
    World {
        name: "heavy tails",
        kind: Kind::Aid,
        make: heavy,
        tunable: true,
    },
    World {
        name: "one shot in eight is bad",
        kind: Kind::Aid,
        make: many_bad,
        tunable: true,
    },
    World {
        name: "slow drift",
        kind: Kind::Aid,
        make: drifting,
        tunable: true,
    },
    World {
        name: "contact on one side",
        kind: Kind::Aid,
        make: contact,
        tunable: true,
    },
    World {
        name: "poor archer, aid",
        kind: Kind::Aid,
        make: poor_aid,
        tunable: false,
    },
    World {
        name: "poor archer, fingers",
        kind: Kind::Fingers,
        make: poor_fingers,
        tunable: false,
    },
    World {
        name: "sideways rest does nothing",
        kind: Kind::Aid,
        make: dead,
        tunable: false,
    },
    World {
        name: "a loose part",
        kind: Kind::Aid,
        make: loose,
        tunable: false,
    },
];
