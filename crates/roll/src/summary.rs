//! A solved plan put into words and sums.

use crate::board::{Board, Rest};
use crate::hats::dot;
use crate::plan::{Conflict, GivenUp, KnifePlan, Missed, Portion};
use crate::table::Sides;
use crate::want::{Count, Target, Tolerance, Want};
use band::{Band, Input, Narrow, Origin, Spread, naming_floor};
use quantity::{Length, Mass};

/// Sums up what is cut and what is planned.
pub(crate) fn plan(board: &Board<'_>, rest: &Rest) -> KnifePlan {
    let mut portions = board.portions_cut();
    portions.extend(rest.portions.iter().enumerate().map(|(index, &(from, to, want))| {
        let number = board.cut.len() + index + 1;
        planned(board, rest, number, (from, to, want))
    }));
    let grams = Grams::of(board, rest);
    let (mass, spread) = whole_mass(board);
    KnifePlan {
        marks: marks(board, rest),
        squared_off: Mass::from_g(grams.squared),
        left_over: Mass::from_g(grams.left_over),
        left_over_at: left_over_at(board, rest),
        kerf: Mass::from_g(grams.kerf),
        balance: Mass::from_g(mass - grams.total()),
        mass: Band::normal(mass, spread).times(1e-3),
        length: Length::from_mm(board.frame.length),
        given_up: given_up(board.wants, &portions),
        conflicts: conflicts(board, rest, &portions),
        next: board.next(rest),
        assumed: assumed(board),
        narrow: narrow(board, rest),
        not_a_roll: !board.piece.prior.cut().roll,
        work: rest.work,
        portions,
    }
}

fn planned(
    board: &Board<'_>,
    rest: &Rest,
    number: usize,
    (from, to, want): (usize, usize, usize),
) -> Portion {
    let curve = &rest.curve;
    let near = curve.marks[from] + curve.kerf[from];
    let sides = sides(board, rest, from, to);
    let moments = curve.portion(from, to);
    Portion {
        number,
        from: Length::from_mm(near),
        to: Length::from_mm(curve.marks[to]),
        thickness: Length::from_mm(sides.mean),
        thin_side: Length::from_mm(sides.thin),
        mass: Band::normal(moments.mean, moments.variance.sqrt()).times(1e-3),
        weighed: false,
        want: Some(want),
        cap_share: board.cap_share(near, curve.marks[to]),
    }
}

fn sides(board: &Board<'_>, rest: &Rest, from: usize, to: usize) -> Sides {
    let thick = rest.curve.thickness(from, to);
    let first = if from == 0 && board.cut.is_empty() { board.frame.kept_slant[0] } else { 0.0 };
    let last = if to == rest.curve.end() { board.frame.kept_slant[1] } else { 0.0 };
    Sides { thin: thick - first - last, mean: thick - (first + last) / 2.0, thick }
}

/// Sums in g.
struct Grams {
    portions: f64,
    squared: f64,
    left_over: f64,
    kerf: f64,
}

impl Grams {
    fn of(board: &Board<'_>, rest: &Rest) -> Self {
        let (account, curve) = (board.account(), &rest.curve);
        let planned: f64 = rest.portions.iter().map(|&(from, to, _)| curve.grams(from, to)).sum();
        let passed: f64 = gaps(rest).map(|(from, to)| curve.grams(from, to)).sum();
        // Every planned cut takes its kerf; the one at the face is in the account already.
        let saw: f64 = cuts(board, rest).iter().map(|&mark| curve.past[mark] - curve.up_to[mark]).sum();
        Self {
            portions: account.portions + planned,
            squared: account.squared + board.behind(),
            // An empty sum is minus zero, which would be shown.
            left_over: account.left_over + passed + 0.0,
            kerf: account.kerf + saw,
        }
    }

    fn total(&self) -> f64 {
        self.portions + self.squared + self.left_over + self.kerf
    }
}

/// Planned stretches no portion is made of, by nodes.
fn gaps(rest: &Rest) -> impl Iterator<Item = (usize, usize)> + '_ {
    let ends = std::iter::once(0).chain(rest.portions.iter().map(|portion| portion.1));
    let starts = rest.portions.iter().map(|portion| portion.0).chain(std::iter::once(rest.curve.end()));
    ends.zip(starts).filter(|(end, start)| start > end)
}

/// Nodes where the plan cuts, ascending: ends of portions and of what is left over, and the squaring mark.
fn cuts(board: &Board<'_>, rest: &Rest) -> Vec<usize> {
    let end = rest.curve.end();
    let faces = rest.portions.iter().flat_map(|&(from, to, _)| [from, to]).chain(std::iter::once(end));
    let mut cuts: Vec<usize> =
        faces.filter(|&node| node > 0 && (node < end || board.frame.end_cut)).collect();
    cuts.sort_unstable();
    cuts.dedup();
    cuts
}

fn marks(board: &Board<'_>, rest: &Rest) -> Vec<Length> {
    let frame = &board.frame;
    let mut marks = if frame.start_cut { vec![frame.start] } else { Vec::new() };
    for cut in &board.cut {
        // A stretch passed over has a cut at its end as well.
        let near = cut.from - frame.kerf;
        if marks.last().is_none_or(|last| near > last + 0.5) && near > 0.5 {
            marks.push(near);
        }
        if cut.far_cut {
            marks.push(cut.to);
        }
    }
    marks.extend(cuts(board, rest).into_iter().map(|node| rest.curve.marks[node]));
    marks.into_iter().map(Length::from_mm).collect()
}

fn left_over_at(board: &Board<'_>, rest: &Rest) -> Vec<(Length, Length)> {
    let curve = &rest.curve;
    let planned = gaps(rest).map(|(from, to)| (curve.marks[from] + curve.kerf[from], curve.marks[to]));
    board.gaps().chain(planned).map(|(from, to)| (Length::from_mm(from), Length::from_mm(to))).collect()
}

/// Mean and sd of the piece's mass, g.
fn whole_mass(board: &Board<'_>) -> (f64, f64) {
    let mean = board.posterior.mass_g();
    if board.piece.mass.is_known() {
        return (mean, board.piece.scale_division.g() / 3.0_f64.sqrt());
    }
    let members = board.posterior.members.iter();
    let variance: f64 =
        members.map(|member| member.weight * (member.shape.geometry.mass_g - mean).powi(2)).sum();
    (mean, variance.sqrt())
}

fn given_up(wants: &[Want], portions: &[Portion]) -> Vec<GivenUp> {
    let mut all = Vec::new();
    for (number, want) in wants.iter().enumerate() {
        let of_this: Vec<&Portion> = portions.iter().filter(|portion| portion.want == Some(number)).collect();
        if let Count::Exactly(count) = want.count
            && of_this.len() < count as usize
        {
            let missed = Missed::Portions(count - of_this.len() as u32);
            all.push(GivenUp { want: number, missed });
        }
        all.extend(worst_miss(want, &of_this).map(|missed| GivenUp { want: number, missed }));
    }
    all
}

/// The largest miss beyond the tolerance, if there is one.
fn worst_miss(want: &Want, portions: &[&Portion]) -> Option<Missed> {
    let largest = |miss: &dyn Fn(&Portion) -> f64, within: f64| {
        portions
            .iter()
            .map(|portion| (portion.number, miss(portion)))
            .filter(|(_, by)| by.abs() > within + 1e-9)
            .max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))
    };
    match (want.target, want.tolerance()) {
        (Target::Mass { at, .. }, Tolerance::Mass(within)) => {
            largest(&|portion| portion.mass.median * 1000.0 - at.g(), within.g())
                .map(|(portion, by)| Missed::Mass { portion, by: Mass::from_g(by) })
        }
        (Target::Thickness { at, .. } | Target::Roast { length: at, .. }, Tolerance::Thickness(within)) => {
            largest(&|portion| portion.thickness.mm() - at.mm(), within.mm())
                .map(|(portion, by)| Missed::Thickness { portion, by: Length::from_mm(by) })
        }
        _ => None,
    }
}

fn conflicts(board: &Board<'_>, rest: &Rest, portions: &[Portion]) -> Vec<Conflict> {
    let of_want = |number: usize| portions.iter().filter(move |portion| portion.want == Some(number));
    let mut all = Vec::new();
    for (number, want) in board.wants.iter().enumerate() {
        let planned: Vec<&Portion> = of_want(number).filter(|portion| !portion.weighed).collect();
        if planned.is_empty() || matches!(want.target, Target::Roast { .. }) {
            continue;
        }
        let count = planned.len() as f64;
        let mean_grams = planned.iter().map(|portion| portion.mass.median * 1000.0).sum::<f64>() / count;
        let mean_mm = planned.iter().map(|portion| portion.thickness.mm()).sum::<f64>() / count;
        let (grams, mm) = match want.target {
            Target::Mass { at, .. } => (at.g(), mean_mm),
            Target::Thickness { at, .. } | Target::Roast { length: at, .. } => (mean_grams, at.mm()),
        };
        let per_mm = planned.iter().map(|portion| density_near(rest, portion));
        let (least, most) =
            per_mm.fold((f64::INFINITY, 0.0_f64), |(least, most), each| (least.min(each), most.max(each)));
        all.push(Conflict {
            want: number,
            weight: Mass::from_g(grams),
            thickness_runs: (Length::from_mm(grams / most), Length::from_mm(grams / least)),
            thickness: Length::from_mm(mm),
            weight_runs: (Mass::from_g(mm * least), Mass::from_g(mm * most)),
        });
    }
    all
}

/// Grams a millimetre in the middle of a portion.
fn density_near(rest: &Rest, portion: &Portion) -> f64 {
    let middle = (portion.from.mm() + portion.to.mm()) / 2.0;
    let node = rest.curve.marks.partition_point(|mark| *mark < middle).min(rest.curve.end());
    rest.curve.density[node].max(1e-9)
}

/// Inputs that rest on a prior; the last ones are always there: nobody has measured the inside of the piece.
fn assumed(board: &Board<'_>) -> Vec<Input> {
    let prior = &board.piece.prior;
    let mut all: Vec<Input> =
        board.posterior.inputs.iter().filter(|input| input.from.is_prior()).cloned().collect();
    if let Some(profile) = prior.cut().profile() {
        let sd = prior.profile_sd().iter().zip(prior.profile()).map(|(sd, p)| sd / p).sum::<f64>() / 24.0;
        let spread = Spread::Normal { mean: 1.0, sd };
        all.push(Input::new(
            "section along the piece, against its usual",
            spread,
            prior.origin(&profile.basis),
        ));
    }
    if let (false, Some(section)) = (board.piece.stations.is_empty(), &prior.cut().section) {
        let spread = Spread::Normal {
            mean: prior.shape_factor().unwrap_or(section.factor),
            sd: section.factor * section.sd_common,
        };
        all.push(Input::new("share of its box a section fills", spread, prior.origin(&section.basis)));
    }
    let knife = catalogue::knife();
    let within = knife.within_mm / 1000.0;
    let origin =
        Origin::Prior { mark: knife.basis.mark.word().to_owned(), source: knife.basis.source.clone() };
    all.push(Input::new("knife beside its mark", Spread::Uniform { low: -within, high: within }, origin));
    all
}

/// What makes the next portion's weight uncertain, largest first; in closed form, for shape and knife are Gaussian.
fn narrow(board: &Board<'_>, rest: &Rest) -> Vec<Narrow> {
    let Some(&(from, to, _)) = rest.portions.first() else { return Vec::new() };
    let parts = rest.curve.variances(from, to);
    let total = parts.shape + parts.size + parts.noise;
    let by_mass = share_of_mass(board, rest, from, to);
    let shares = [
        ("how the mass lies along the piece", parts.shape),
        ("the knife and the seams", parts.noise),
        ("mass", parts.size * by_mass),
        ("length", parts.size * (1.0 - by_mass)),
    ];
    let mut named: Vec<Narrow> = shares
        .into_iter()
        .map(|(input, part)| Narrow { input: input.to_owned(), share: part / total })
        .filter(|line| line.share >= naming_floor(band::DRAWS))
        .collect();
    named.sort_by(|a, b| b.share.total_cmp(&a.share));
    named
}

/// Of the variance that mass and length make together, the part that goes with the mass.
fn share_of_mass(board: &Board<'_>, rest: &Rest, from: usize, to: usize) -> f64 {
    match (board.piece.mass.is_known(), board.piece.length.is_known()) {
        (true, _) => 0.0,
        (false, true) => 1.0,
        (false, false) => {
            let places = [rest.curve.marks[from] + rest.curve.kerf[from], rest.curve.marks[to]];
            let members = &board.posterior.members;
            let weights: Vec<f64> = members.iter().map(|member| member.weight).collect();
            let grams: Vec<f64> = members
                .iter()
                .map(|member| {
                    let up_to = crate::curve::grams_up_to(&member.shape, &places);
                    up_to[1] - up_to[0]
                })
                .collect();
            let masses: Vec<f64> = members.iter().map(|member| member.shape.geometry.mass_g.ln()).collect();
            squared_correlation(&weights, &grams, &masses)
        }
    }
}

fn squared_correlation(weights: &[f64], a: &[f64], b: &[f64]) -> f64 {
    let centred = |values: &[f64]| -> Vec<f64> {
        let mean = dot(weights, values);
        values.iter().map(|value| value - mean).collect()
    };
    let (a, b) = (centred(a), centred(b));
    let covariance =
        |x: &[f64], y: &[f64]| weights.iter().zip(x).zip(y).map(|((w, x), y)| w * x * y).sum::<f64>();
    let both = covariance(&a, &a) * covariance(&b, &b);
    if both > 0.0 { covariance(&a, &b).powi(2) / both } else { 0.0 }
}
