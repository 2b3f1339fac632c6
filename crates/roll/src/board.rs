//! The board: what is cut, where the knife stands, and the plan for the rest.

use crate::RollError;
use crate::curve::Curve;
use crate::frame::Frame;
use crate::hats::{self, KNOTS, dot};
use crate::piece::{Piece, Weighed};
use crate::plan::{KnifePlan, Next, Portion, Work};
use crate::posterior::Posterior;
use crate::programme::{Problem, Solution};
use crate::summary;
use crate::table::{Open, Table};
use crate::want::{Count, FromEnd, Limits, Want};
use band::Band;
use quantity::{Length, Mass};

/// Less than this is not a part of the piece that the scale could have left something for.
const UNWEIGHED_G: f64 = 1.0;

/// A piece on the board.
pub(crate) struct Board<'a> {
    pub(crate) piece: &'a Piece,
    pub(crate) wants: &'a [Want],
    limits: &'a Limits,
    pub(crate) posterior: Posterior,
    pub(crate) frame: Frame,
    pub(crate) cut: Vec<Cut>,
    /// The want of the portion after the next one, by the last plan.
    after_next: Option<usize>,
}

/// A portion already cut.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cut {
    pub(crate) from: f64,
    pub(crate) to: f64,
    pub(crate) thin_side: f64,
    pub(crate) grams: f64,
    pub(crate) want: Option<usize>,
    /// Whether a knife made its far face.
    pub(crate) far_cut: bool,
}

/// The plan of the rest: portions as (from, to, want) by nodes of the curve.
pub(crate) struct Rest {
    pub(crate) curve: Curve,
    pub(crate) portions: Vec<(usize, usize, usize)>,
    pub(crate) work: Work,
}

impl Rest {
    /// Its first portion: near face and far mark in mm, want.
    fn first(&self) -> Option<(f64, f64, usize)> {
        let (from, to, want) = *self.portions.first()?;
        Some((self.curve.marks[from] + self.curve.kerf[from], self.curve.marks[to], want))
    }
}

impl<'a> Board<'a> {
    pub(crate) fn new(
        piece: &'a Piece,
        wants: &'a [Want],
        limits: &'a Limits,
        posterior: Posterior,
    ) -> Result<Self, RollError> {
        let frame = Frame::new(piece, &posterior)?;
        Ok(Self { piece, wants, limits, posterior, frame, cut: Vec::new(), after_next: None })
    }

    /// Takes in the next portion: at its own marks, or at those the plan shows now.
    pub(crate) fn cut_and_weigh(&mut self, weighed: &Weighed) -> Result<(), RollError> {
        let number = self.cut.len() + 1;
        let planned = match (weighed.marks, weighed.want) {
            (Some(_), Some(_)) => None,
            _ => Some(self.solve()?),
        };
        let next = planned.as_ref().and_then(Rest::first);
        let (from, to) = match (weighed.marks, next) {
            (Some((from, to)), _) => (from.mm(), to.mm()),
            (None, Some((from, to, _))) => (from, to),
            (None, None) => {
                return Err(RollError::WeighedTooMany { found: number, planned: number - 1 });
            }
        };
        self.check_marks(number, from, to)?;
        let want = weighed.want.or(next.map(|(_, _, want)| want)).filter(|want| *want < self.wants.len());
        self.after_next = planned.and_then(|rest| rest.portions.get(1).map(|portion| portion.2));
        let far_cut = to < self.frame.end - 1e-9 || self.frame.end_cut;
        self.posterior.weigh(Length::from_mm(from), Length::from_mm(to), far_cut, weighed)?;
        let to = self.posterior.face_mm.unwrap_or(to);
        let slant = self.slant_on(from, to);
        self.cut.push(Cut { from, to, thin_side: to - from - slant, grams: weighed.mass.g(), want, far_cut });
        self.check_rest(number)
    }

    /// Solves for the rest and puts it together with what is cut.
    pub(crate) fn plan(&self) -> Result<KnifePlan, RollError> {
        let rest = self.solve()?;
        Ok(summary::plan(self, &rest))
    }

    fn solve(&self) -> Result<Rest, RollError> {
        let curve = self.curve();
        let open = self.open_wants();
        let table = self.table(&curve, &open);
        let solution = table.problem()?.solve();
        let portions = portions_of(&table, &solution);
        let work = Work {
            layers: solution.layers,
            marks: curve.marks.len(),
            transitions: solution.transitions,
            cost: solution.cost,
        };
        Ok(Rest { curve, portions, work })
    }

    /// The programme of the rest.
    pub(crate) fn problem(&self) -> Result<Problem, RollError> {
        self.table(&self.curve(), &self.open_wants()).problem()
    }

    fn curve(&self) -> Curve {
        let (marks, kerf) = self.frame.marks_from(self.face(), !self.cut.is_empty());
        Curve::new(&self.posterior, marks, kerf, self.scale_of_unweighed())
    }

    fn open_wants(&self) -> Vec<Open<'a>> {
        (0..self.wants.len()).map(|want| self.open(want)).collect()
    }

    fn table<'t>(&self, curve: &'t Curve, open: &'t [Open<'a>]) -> Table<'t> {
        let first_stays = if self.cut.is_empty() { self.frame.kept_slant[0] } else { 0.0 };
        Table {
            curve,
            open,
            kept_slant: [first_stays, self.frame.kept_slant[1]],
            reached: self.reached(),
            gap_used: self.gaps().any(|(from, to)| to - from > 0.5),
            prefer: self.after_next,
        }
    }

    fn open(&self, number: usize) -> Open<'a> {
        let want = &self.wants[number];
        let of_this: Vec<&Cut> = self.cut.iter().filter(|cut| cut.want == Some(number)).collect();
        let begun = of_this.last().filter(|_| want.twins && of_this.len() % 2 == 1);
        let left = match want.count {
            Count::Max => None,
            Count::Exactly(count) => Some(count.saturating_sub(of_this.len() as u32)),
        };
        // The second of two twins is cut by force, not counted.
        let left = left.map(|left| if begun.is_some() { left.saturating_sub(1) } else { left });
        Open::new(want, self.limits, left, begun.map(|cut| (cut.grams, cut.to - cut.from)))
    }

    /// The furthest end any portion cut so far was wanted from.
    fn reached(&self) -> Option<FromEnd> {
        let order = |from: &FromEnd| match from {
            FromEnd::First => 0,
            FromEnd::Any => 1,
            FromEnd::Last => 2,
        };
        self.cut.iter().filter_map(|cut| cut.want).map(|want| self.wants[want].from).max_by_key(order)
    }

    /// Where the knife stands: the mark of the last cut.
    pub(crate) fn face(&self) -> f64 {
        self.cut.last().map_or(self.frame.start, |cut| cut.to)
    }

    /// Stretches passed over between portions already cut.
    pub(crate) fn gaps(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        let first = self.frame.start + if self.frame.start_cut { self.frame.kerf } else { 0.0 };
        let starts = std::iter::once(first).chain(self.cut.iter().map(|cut| cut.to + self.frame.kerf));
        starts.zip(&self.cut).map(|(end, cut)| (end, cut.from)).filter(|(end, from)| from > &(end + 1e-6))
    }

    /// What turns the posterior's grams of all that is not weighed into what the scale has left for it. Where everything
    /// is weighed there is nothing to turn, and what the scales leave unexplained shows in the balance.
    fn scale_of_unweighed(&self) -> f64 {
        let [whole] = self.grams_up_to([self.frame.length]);
        let weighed: f64 = self.cut.iter().map(|cut| self.expected(cut.from, cut.to)).sum();
        let portions: f64 = self.cut.iter().map(|cut| cut.grams).sum();
        if whole - weighed < UNWEIGHED_G {
            return 1.0;
        }
        ((self.posterior.mass_g() - portions) / (whole - weighed)).max(0.0)
    }

    fn expected(&self, from: f64, to: f64) -> f64 {
        let [a, b] = self.grams_up_to([from, to]);
        b - a
    }

    /// Grams of what is cut: portions as weighed, the rest as expected.
    pub(crate) fn account(&self) -> Account {
        let scale = self.scale_of_unweighed();
        let stretch = |from: f64, to: f64| scale * self.expected(from, to);
        let frame = &self.frame;
        let squared = if frame.start_cut { stretch(0.0, frame.start) } else { 0.0 };
        let saw = |mark: f64| if frame.kerf > 0.0 { stretch(mark, mark + frame.kerf) } else { 0.0 };
        let mut kerf = if frame.start_cut { saw(frame.start) } else { 0.0 };
        kerf += self.cut.iter().filter(|cut| cut.far_cut).map(|cut| saw(cut.to)).sum::<f64>();
        let left_over = self.gaps().map(|(from, to)| stretch(from, to)).sum();
        Account { portions: self.cut.iter().map(|cut| cut.grams).sum(), squared, kerf, left_over }
    }

    /// Grams behind the last place a portion may reach and the kerf there.
    pub(crate) fn behind(&self) -> f64 {
        if !self.frame.end_cut {
            return 0.0;
        }
        let after = (self.frame.end.max(self.face()) + self.frame.kerf).min(self.frame.length);
        self.scale_of_unweighed() * self.expected(after, self.frame.length)
    }

    /// Expected grams from the tip to ascending places, before any scaling.
    fn grams_up_to<const N: usize>(&self, places: [f64; N]) -> [f64; N] {
        let mut sums = [0.0; N];
        for member in &self.posterior.members {
            let grams = crate::curve::grams_up_to(&member.shape, &places);
            for (sum, each) in sums.iter_mut().zip(grams) {
                *sum += member.weight * each;
            }
        }
        sums
    }

    fn slant_on(&self, from: f64, to: f64) -> f64 {
        let first = if from <= self.frame.start + 1e-9 { self.frame.kept_slant[0] } else { 0.0 };
        let last = if to >= self.frame.end - 1e-9 { self.frame.kept_slant[1] } else { 0.0 };
        first + last
    }

    fn check_marks(&self, number: usize, from: f64, to: f64) -> Result<(), RollError> {
        let face = self.face();
        // A hand-held ruler reads the fresh face within a few millimetres of where the plan has it.
        let fits = from >= face - 10.0 && to > from + 1.0 && to <= self.frame.length + 10.0;
        if fits {
            return Ok(());
        }
        Err(RollError::Impossible {
            what: format!("the marks of portion {number}"),
            found: format!("{from:.1} to {to:.1} mm"),
            allowed: format!("from {face:.1} to {:.1} mm, at least 1 mm apart", self.frame.length),
        })
    }

    fn check_rest(&self, number: usize) -> Result<(), RollError> {
        let cut = self.account().total();
        let mass = self.posterior.mass_g();
        let last = self.cut.last().map_or(0.0, |cut| cut.grams);
        if cut <= mass * 1.02 {
            return Ok(());
        }
        Err(RollError::WeighedUnlikely {
            number,
            mass: Mass::from_g(last),
            low: Mass::from_g(0.0),
            high: Mass::from_g((mass - (cut - last)).max(0.0)),
        })
    }

    /// Share of the cap between two places, where the catalogue knows it.
    pub(crate) fn cap_share(&self, from: f64, to: f64) -> Option<f64> {
        let share = catalogue::muscle_share(&self.piece.prior.cut().id, "cap")?;
        let geometry = self.posterior.geometry();
        let weights = hats::integral(from / geometry.length_mm, to / geometry.length_mm, geometry.fill);
        let profile = self.posterior.profile();
        let at = |knot: usize| if self.piece.prior.is_turned() { KNOTS - 1 - knot } else { knot };
        let cap: Vec<f64> = (0..KNOTS).map(|knot| profile[knot] * share.share[at(knot)]).collect();
        Some(dot(&weights, &cap) / dot(&weights, &profile).max(1e-12))
    }

    /// Portions already cut, as the plan shows them.
    pub(crate) fn portions_cut(&self) -> Vec<Portion> {
        let show = |(index, cut): (usize, &Cut)| Portion {
            number: index + 1,
            from: Length::from_mm(cut.from),
            to: Length::from_mm(cut.to),
            thickness: Length::from_mm((cut.to - cut.from + cut.thin_side) / 2.0),
            thin_side: Length::from_mm(cut.thin_side),
            mass: Band::exact(cut.grams / 1000.0),
            weighed: true,
            want: cut.want,
            cap_share: self.cap_share(cut.from, cut.to),
        };
        self.cut.iter().enumerate().map(show).collect()
    }

    /// What to cut next, of a planned rest.
    pub(crate) fn next(&self, rest: &Rest) -> Option<Next> {
        let curve = &rest.curve;
        let (from, to, _) = *rest.portions.first()?;
        let face = curve.marks[0] + curve.kerf[0];
        let (mark, portion) = match from {
            0 => (to, Some(self.cut.len() + 1)),
            passed => (passed, None),
        };
        let cut = mark < curve.end() || self.frame.end_cut;
        let next = Next {
            mark: Length::from_mm(curve.marks[mark]),
            from_fresh_face: Length::from_mm(curve.marks[mark] - face),
            portion,
        };
        cut.then_some(next)
    }
}

/// Grams of what is cut.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Account {
    pub(crate) portions: f64,
    pub(crate) squared: f64,
    pub(crate) kerf: f64,
    pub(crate) left_over: f64,
}

impl Account {
    pub(crate) fn total(&self) -> f64 {
        self.portions + self.squared + self.kerf + self.left_over
    }
}

/// Units of the solution as portions: twins parted, each with its want.
fn portions_of(table: &Table<'_>, solution: &Solution) -> Vec<(usize, usize, usize)> {
    let mut portions = Vec::new();
    for unit in &solution.units {
        let middle = if table.open[unit.line].want.twins && !unit.forced {
            table.part_twins(unit.line, unit.from, unit.to)
        } else {
            None
        };
        match middle {
            Some(middle) => {
                portions.push((unit.from, middle, unit.line));
                portions.push((middle, unit.to, unit.line));
            }
            None => portions.push((unit.from, unit.to, unit.line)),
        }
    }
    portions
}
