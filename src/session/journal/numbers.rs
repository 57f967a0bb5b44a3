//! Which number each entry has, where one of them is wrong. Numbers rise; the
//! most entries that agree are believed, and one they contradict has the
//! number its neighbours leave, where exactly one fits.

/// Settles the numbers that stand in a file, in file order; `sure` says which
/// of them a check sum vouches for. A piece that cannot be read stands for one
/// entry and has no number of its own. `None` comes back for a piece without
/// one, and for a number that fits nowhere.
pub(super) fn settle(claimed: &[Option<u32>], sure: &[bool]) -> Vec<Option<u32>> {
    let vouched: Vec<Option<u32>> = claimed
        .iter()
        .zip(sure)
        .map(|(n, sure)| n.filter(|_| *sure))
        .collect();
    let anchors = believed(&vouched);
    let mut kept = believed(&between(claimed, &anchors));
    prefer_what_fits(claimed, &mut kept);
    let mut settled: Vec<Option<u32>> = claimed
        .iter()
        .zip(&kept)
        .map(|(n, kept)| n.filter(|_| *kept))
        .collect();
    let (before, after) = neighbours(&kept);
    for at in 0..claimed.len() {
        if claimed[at].is_some() && !kept[at] {
            settled[at] = left_for(claimed, at, before[at], after[at]);
        }
    }
    settled
}

/// For each place the nearest believed one before and after it.
fn neighbours(kept: &[bool]) -> (Vec<Option<usize>>, Vec<Option<usize>>) {
    let walk = |places: &mut dyn Iterator<Item = usize>| {
        let mut found = vec![None; kept.len()];
        let mut last = None;
        for at in places {
            found[at] = last;
            if kept[at] {
                last = Some(at);
            }
        }
        found
    };
    (walk(&mut (0..kept.len())), walk(&mut (0..kept.len()).rev()))
}

/// The numbers that stand between those of the anchors around them.
fn between(claimed: &[Option<u32>], anchors: &[bool]) -> Vec<Option<u32>> {
    let (before, after) = neighbours(anchors);
    let fits = |at: usize, n: u32| {
        let low = before[at].and_then(|i| claimed[i]);
        let high = after[at].and_then(|i| claimed[i]);
        low.is_none_or(|low| low < n) && high.is_none_or(|high| n < high)
    };
    let all = claimed.iter().enumerate();
    all.map(|(at, n)| n.filter(|n| anchors[at] || fits(at, *n)))
        .collect()
}

/// The longest run of rising numbers, as flags; of two with one number the
/// first.
fn believed(claimed: &[Option<u32>]) -> Vec<bool> {
    let mut kept = vec![false; claimed.len()];
    // For each length the place where a run of it ends lowest, and for each
    // place the one before it in its run.
    let mut ends: Vec<usize> = Vec::new();
    let mut before: Vec<Option<usize>> = vec![None; claimed.len()];
    for (at, number) in claimed.iter().enumerate() {
        let Some(number) = number.filter(|n| *n > 0) else {
            continue;
        };
        let length = ends.partition_point(|e| claimed[*e].is_some_and(|n| n < number));
        before[at] = length.checked_sub(1).map(|i| ends[i]);
        if length == ends.len() {
            ends.push(at);
        } else if claimed[ends[length]] != Some(number) {
            ends[length] = at;
        }
    }
    let mut next = ends.last().copied();
    while let Some(at) = next {
        kept[at] = true;
        next = before[at];
    }
    kept
}

/// Of two entries that claim one number, the one is kept that leaves the
/// other a number. Looked at for the first few only: a file with more of them
/// was not spoiled by accident.
fn prefer_what_fits(claimed: &[Option<u32>], kept: &mut [bool]) {
    const MOST: usize = 100;
    let out: Vec<usize> = (0..claimed.len())
        .filter(|at| claimed[*at].is_some() && !kept[*at])
        .take(MOST)
        .collect();
    let fits = |kept: &[bool], at: usize| {
        let before = (0..at).rev().find(|i| kept[*i]);
        let after = (at + 1..claimed.len()).find(|i| kept[*i]);
        (
            left_for(claimed, at, before, after).is_some(),
            before,
            after,
        )
    };
    for at in out {
        let (fit, before, after) = fits(kept, at);
        if fit {
            continue;
        }
        for twin in [before, after].into_iter().flatten() {
            if claimed[twin] != claimed[at] {
                continue;
            }
            (kept[at], kept[twin]) = (true, false);
            if fits(kept, twin).0 {
                break;
            }
            (kept[at], kept[twin]) = (false, true);
        }
    }
}

/// The one number the believed neighbours leave for a piece, if it is one.
fn left_for(
    claimed: &[Option<u32>],
    at: usize,
    before: Option<usize>,
    after: Option<usize>,
) -> Option<u32> {
    let after = after?;
    let low = before.and_then(|i| claimed[i]).unwrap_or(0);
    let places_before = at - before.map_or(0, |i| i + 1);
    let least = u64::from(low) + places_before as u64 + 1;
    let most = u64::from(claimed[after]?).checked_sub((after - at) as u64)?;
    (least == most).then(|| u32::try_from(least).ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn settled(claimed: &[u32]) -> Vec<u32> {
        let claimed: Vec<Option<u32>> = claimed.iter().map(|n| Some(*n)).collect();
        let sure = vec![false; claimed.len()];
        settle(&claimed, &sure)
            .iter()
            .map(|n| n.unwrap_or(0))
            .collect()
    }

    #[test]
    fn a_number_that_does_not_fit_is_read_as_the_one_its_neighbours_leave() {
        assert_eq!(settled(&[1, 2, 3]), [1, 2, 3]);
        assert_eq!(settled(&[1, 92, 3, 4]), [1, 2, 3, 4]);
        assert_eq!(settled(&[1, 2, 3, 1, 5, 6]), [1, 2, 3, 4, 5, 6]);
        assert_eq!(settled(&[7, 2, 3]), [1, 2, 3]);
        assert_eq!(settled(&[0, 2, 3]), [1, 2, 3]);
        assert_eq!(settled(&[1, 2, 2, 4]), [1, 2, 3, 4]);
        assert_eq!(settled(&[1, 3, 3, 4]), [1, 2, 3, 4]);
        assert_eq!(settled(&[1, 80, 90, 4, 5, 6]), [1, 2, 3, 4, 5, 6]);
        assert_eq!(settled(&[10, 12, 13]), [10, 12, 13]);
        assert_eq!(settled(&[1, 4_294_967_295, 3, 4]), [1, 2, 3, 4]);
    }

    #[test]
    fn a_number_that_may_be_any_of_several_is_none() {
        assert_eq!(settled(&[1, 2, 1]), [1, 2, 0]);
        assert_eq!(settled(&[1, 2, 2, 3]), [1, 2, 0, 3]);
        assert_eq!(settled(&[1, 2, 2]), [1, 2, 0]);
        assert_eq!(settled(&[1, 90, 5, 6]), [1, 0, 5, 6]);
        // A piece that cannot be read takes one of the places.
        let claimed = [Some(1), None, Some(90), Some(4)];
        assert_eq!(
            settle(&claimed, &[false; 4]),
            [Some(1), None, Some(3), Some(4)]
        );
        let claimed = [Some(1), None, Some(90), Some(5)];
        assert_eq!(
            settle(&claimed, &[false; 4]),
            [Some(1), None, None, Some(5)]
        );
        assert_eq!(settled(&[]), [] as [u32; 0]);
    }

    #[test]
    fn a_number_that_its_sum_vouches_for_is_believed_before_those_without() {
        let claimed = [Some(1), Some(2), Some(2)];
        let settled = |sure: [bool; 3]| settle(&claimed, &sure);
        assert_eq!(settled([true; 3]), [Some(1), Some(2), None]);
        assert_eq!(settled([true, false, true]), [Some(1), None, Some(2)]);
        let claimed = [Some(5), Some(6), Some(7), Some(3), Some(4)];
        let sure = [false, false, false, true, true];
        assert_eq!(
            settle(&claimed, &sure),
            [None, None, None, Some(3), Some(4)]
        );
    }
}
