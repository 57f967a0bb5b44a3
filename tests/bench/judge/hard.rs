//! The hard worlds: rests that hardly answer, responses with a bend, arrows
//! that something knocks on the vanes.

use super::bow::{Bow, Powder, Shape};
use super::rng::Rng;
use super::world::{TOLERANCE, class, compound, start_out, unknown_sign};

/// Slopes of 0.1 to 0.6 mm per mm, either sign; the tear sideways lies where
/// most of the travel would still cure it, often inside as it stands.
pub fn weak(rng: &mut Rng) -> Bow {
    loop {
        let slope = rng.sign() * rng.uniform(0.1, 0.6);
        let class = class(rng);
        let mut bow = compound(rng, slope, class);
        let most = 4.0 + 0.8 * bow.travel[0] * slope.abs();
        let high = rng.uniform(-4.0, 4.0);
        bow.cross = [rng.uniform(-0.1, 0.1), rng.uniform(-0.1, 0.1)];
        bow.start = [rng.uniform(-most, most), -bow.shape[1].rise(high)];
        if bow.start[0].hypot(bow.start[1]) > TOLERANCE {
            return bow;
        }
    }
}

/// A release aid and a response three to eight times as steep on one side of
/// a bend near the start, either sign.
pub fn bent(rng: &mut Rng) -> Bow {
    start_out(rng, [4.0, 4.0], |r| {
        let steep = r.sign() * r.uniform(2.5, 6.0);
        let flat = steep / r.uniform(3.0, 8.0);
        let at = r.uniform(-2.5, 2.5);
        let (below, above) = if r.chance(0.5) {
            (steep, flat)
        } else {
            (flat, steep)
        };
        let class = class(r);
        let mut bow = compound(r, steep, class);
        bow.shape[0] = Shape::Kink { at, below, above };
        bow
    })
}

/// A random knock on the vanes on every shot, until it is found and cleared.
pub fn knocked(rng: &mut Rng) -> Bow {
    let bow = unknown_sign(rng);
    Bow {
        knock: rng.uniform(5.0, 12.0),
        ..bow
    }
}

/// The same with nobody who looks: the powder test is answered "none".
pub fn knocked_unseen(rng: &mut Rng) -> Bow {
    Bow {
        looks: false,
        ..knocked(rng)
    }
}

/// A button that is slapped or cleared, one as likely as the other.
pub fn fingers_either(rng: &mut Rng) -> Bow {
    let powder = if rng.chance(0.5) {
        Powder::Slap
    } else {
        Powder::Clean
    };
    super::world::on_button(rng, powder, class)
}
