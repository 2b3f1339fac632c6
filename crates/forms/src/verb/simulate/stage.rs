//! `[[stage]]`, `[start]`, `[[organism]]` and `[sample]`.

use super::face::{self, FaceDraft, Gathered, Side};
use super::fields as f;
use super::shape::ShapeDraft;
use crate::field::Field;
use crate::read::Table;
use band::Value;
use catalogue::MediumKind;
use heat::cook::{Cap, Opened};
use heat::{Face, Faces, Organism, Settings, Stage, Start, Until};
use quantity::{Length, Span, Temperature};

/// A stage as the form has it.
pub(super) struct StageDraft {
    name: String,
    /// All faces, where nothing else is said of one.
    base: Option<FaceDraft>,
    /// What is said of one: top, bottom, sides, ends.
    faces: [Option<FaceDraft>; 4],
    flip_every: Option<Span>,
    until: Until,
    at_most: Span,
}

/// Reads every stage.
pub(super) fn stages(
    root: &Table<'_>,
    shape: Option<&ShapeDraft>,
    organisms: &[Organism],
    gathered: &mut Gathered,
) -> Option<Vec<StageDraft>> {
    let tables = root.tables(&f::STAGE);
    if root.has(&f::STAGE) && tables.is_empty() {
        root.impossible(&f::STAGE, "one [[stage]] or more", "there is no stage");
    }
    let read: Vec<StageDraft> = tables
        .iter()
        .enumerate()
        .filter_map(|(at, table)| stage(table, at, shape, organisms, gathered))
        .collect();
    (!read.is_empty() && read.len() == tables.len()).then_some(read)
}

fn stage(
    table: &Table<'_>,
    at: usize,
    shape: Option<&ShapeDraft>,
    organisms: &[Organism],
    gathered: &mut Gathered,
) -> Option<StageDraft> {
    let name = table.text(&f::NAME).map_or_else(|| format!("stage {}", at + 1), str::to_owned);
    let until = until(table, organisms);
    let span = |field: &Field| Some(Span::from_s(f64::try_from(table.given(field).known()?).ok()?));
    let at_most = span(&f::AT_MOST).unwrap_or(Stage::LONGEST);
    gathered.door = door(table);
    gathered.longest = match until {
        Some(Until::Time(span)) if span.s() < at_most.s() => span,
        _ => at_most,
    };
    if gathered.door.is_none() && table.has(&f::DOOR) {
        return None;
    }
    let (faces, sound) = faces(table, &name, shape, gathered);
    let covered = faces.iter().zip(needed(shape)).all(|(face, needed)| face.is_some() || !needed);
    let own_medium = [&f::MEDIUM, &f::MEDIUM_C, &f::SERIES, &f::FILM].iter().any(|field| table.has(field));
    let base = if covered && !own_medium { None } else { Some(face::read(table, &name, gathered)?) };
    if let Some(base) = &base
        && !sound_from_below(table, base, &faces, shape)
    {
        return None;
    }
    sound.then_some(StageDraft { name, base, faces, flip_every: span(&f::FLIP), until: until?, at_most })
}

/// A door of this stage; of air of the catalogue, whose own course is not told.
fn door(table: &Table<'_>) -> Option<Opened> {
    let door = table.table(&f::DOOR)?;
    let air = table.word(&f::MEDIUM).and_then(catalogue::medium).is_some_and(|m| m.kind == MediumKind::Air);
    if !air || table.exact() || table.has(&f::SERIES) {
        let message = format!("{} says nothing here", table.name(&f::DOOR));
        let allowed = "with an air medium of the catalogue, without series_c and --exact: tell the air by series_c instead";
        table.impossible(&f::DOOR, allowed, &message);
        return None;
    }
    let number = |field: &Field| f64::try_from(door.given(field).known()?).ok();
    Some(Opened {
        every: Span::from_s(number(&f::DOOR_EVERY)?),
        stands: Span::from_s(number(&f::DOOR_OPEN)?),
    })
}

/// The faces said apart, and whether each could be read.
fn faces(
    table: &Table<'_>,
    name: &str,
    shape: Option<&ShapeDraft>,
    gathered: &mut Gathered,
) -> ([Option<FaceDraft>; 4], bool) {
    let Some(apart) = table.table(&f::FACES) else { return ([const { None }; 4], !table.has(&f::FACES)) };
    let mut sound = true;
    let mut one = |field: &Field, word: &str, counts: bool| {
        if apart.has(field) && !counts {
            let message = format!("{} says nothing: the shape has no such face", apart.name(field));
            apart.impossible(field, "faces the shape has", &message);
            sound = false;
        }
        if apart.word(field).is_some() {
            return Some(FaceDraft::Insulated);
        }
        let read =
            apart.table(field).and_then(|face| face::read(&face, &format!("{name}, {word}"), gathered));
        sound &= read.is_some() || !apart.has(field);
        read
    };
    let [top, bottom, sides, ends] = shape.map_or([true; 4], |shape| {
        let flat = !shape.is_round();
        [flat, flat, shape.has_sides(), shape.has_ends()]
    });
    let read = [
        one(&f::TOP, "top", top),
        one(&f::BOTTOM, "bottom", bottom),
        one(&f::SIDES, "sides", sides),
        one(&f::ENDS, "ends", ends),
    ];
    (read, sound)
}

/// Which of top, bottom and sides a shape has.
fn needed(shape: Option<&ShapeDraft>) -> [bool; 3] {
    shape.map_or([true; 3], |shape| {
        if shape.is_round() { [false, false, true] } else { [true, true, shape.has_sides()] }
    })
}

/// With `--exact` a pan or a fire says nothing of what the other faces see.
fn sound_from_below(
    table: &Table<'_>,
    base: &FaceDraft,
    faces: &[Option<FaceDraft>; 4],
    shape: Option<&ShapeDraft>,
) -> bool {
    let medium = table.word(&f::MEDIUM).and_then(catalogue::medium);
    let below =
        matches!(base, FaceDraft::Own(_)) && medium.is_some_and(|medium| medium.kind == MediumKind::Below);
    let [needs_top, _, needs_sides] = needed(shape);
    let open = (needs_top && faces[0].is_none()) || (needs_sides && faces[2].is_none());
    if below && open {
        let message = format!(
            "{} warms from below only: with --exact say what the other faces see",
            table.name(&f::MEDIUM)
        );
        table.missing(&f::FACES, &message);
    }
    !(below && open)
}

fn until(table: &Table<'_>, organisms: &[Organism]) -> Option<Until> {
    let until = table.table(&f::UNTIL)?;
    let number = |field: &Field| f64::try_from(until.given(field).known()?).ok();
    let degrees = |field: &Field| number(field).map(Temperature::from_c);
    if let Some(celsius) = degrees(&f::CENTRE) {
        return Some(Until::Centre(celsius));
    }
    if let Some(celsius) = degrees(&f::MEAN) {
        return Some(Until::Mean(celsius));
    }
    if let Some(celsius) = degrees(&f::SURFACE) {
        return Some(Until::Surface(celsius));
    }
    if let Some(minutes) = number(&f::TIME) {
        return Some(Until::Time(Span::from_min(minutes)));
    }
    let kills = until.named(&f::KILL);
    match kills[..] {
        [(name, log10)] => match organisms.iter().position(|organism| organism.name == name) {
            Some(organism) => Some(Until::Kill { organism, log10 }),
            None => {
                let known: Vec<&str> = organisms.iter().map(|organism| organism.name.as_str()).collect();
                let message = format!("no organism of the catalogue or the form is called \"{name}\"");
                until.impossible(&f::KILL, &known.join(", "), &message);
                None
            }
        },
        _ => {
            if until.has(&f::KILL) {
                until.impossible(
                    &f::KILL,
                    "one organism and its powers of ten",
                    "a stage ends with one organism",
                );
            }
            None
        }
    }
}

impl StageDraft {
    /// The stage of one member; `catalogue` are the faces of the question's stages for it, `row` the form's own draws.
    /// `cap` lies over a roast; faces of the catalogue have it already.
    pub(super) fn stage(
        &self,
        row: &[f64],
        catalogue: &[Faces],
        gathered: &Gathered,
        cap: Option<Cap>,
    ) -> Stage {
        let cover = gathered.cover_m2_k_w;
        let under_cap = |draft: &FaceDraft, face: Face, side| match cap {
            Some(cap) if draft.is_own() && side != Side::Ends => cap.over(face),
            _ => face,
        };
        let base = |side| match &self.base {
            Some(base) => under_cap(base, base.face(row, catalogue, side, cover), side),
            None => Face::Insulated,
        };
        let one = |apart: &Option<FaceDraft>, side| match apart {
            // A plate touches with its hot side whatever face it is laid against.
            Some(face) if face.is_from_below(&gathered.slots) => {
                face.face(row, catalogue, Side::Bottom, cover)
            }
            Some(face) => under_cap(face, face.face(row, catalogue, side, cover), side),
            None => base(side),
        };
        let [top, bottom, sides, ends] = &self.faces;
        // The ends are as the sides where nothing else is said of them; a roast's are bare.
        let ends = match (ends, sides) {
            (Some(_), _) => Some(one(ends, Side::Ends)),
            (None, Some(_)) => Some(one(sides, Side::Ends)),
            (None, None) => self.base.as_ref().map(|_| base(Side::Ends)),
        };
        let faces = Faces {
            top: one(top, Side::Top),
            bottom: one(bottom, Side::Bottom),
            sides: one(sides, Side::Sides),
            ends,
        };
        Stage {
            name: self.name.clone(),
            faces,
            flip_every: self.flip_every,
            until: self.until,
            at_most: self.at_most,
        }
    }

    pub(super) fn name(&self) -> &str {
        &self.name
    }

    fn longest_s(&self) -> f64 {
        match self.until {
            Until::Time(span) => span.s().min(self.at_most.s()),
            _ => self.at_most.s(),
        }
    }

    pub(super) fn by_clock(&self) -> bool {
        matches!(self.until, Until::Time(_))
    }
}

/// How the piece begins: °C, or rows of depth in m and °C.
pub(super) enum StartDraft {
    Even(Value),
    Profile(Vec<(Length, Temperature)>),
}

/// Reads `[start]`; left out, the catalogue's prior stands in unless inputs are taken as true.
pub(super) fn start(root: &Table<'_>) -> Option<StartDraft> {
    let Some(table) = root.table(&f::START) else {
        return if root.exact() || root.has(&f::START) {
            if !root.has(&f::START) {
                root.missing(&f::START, "start is missing: with --exact the piece begins at one temperature");
            }
            None
        } else {
            Some(StartDraft::Even(Value::Unknown))
        };
    };
    if table.has(&f::PROFILE) {
        let rows = table.pairs(&f::PROFILE)?;
        let rows = rows.into_iter().map(|(mm, c)| (Length::from_mm(mm), Temperature::from_c(c)));
        return Some(StartDraft::Profile(rows.collect()));
    }
    if table.exact() && !table.has(&f::START_C) {
        let message = format!(
            "{} is missing: with --exact the piece begins at one temperature",
            table.name(&f::START_C)
        );
        table.missing(&f::START_C, &message);
        return None;
    }
    Some(StartDraft::Even(table.given(&f::START_C).value(1.0)))
}

impl StartDraft {
    pub(super) fn exact(&self) -> Option<Start> {
        match self {
            Self::Even(value) => value.known().map(|c| Start::Even(Temperature::from_c(c))),
            Self::Profile(rows) => Some(Start::Profile(rows.clone())),
        }
    }
}

/// Death laws of the form, then those of the catalogue it does not name itself.
pub(super) fn organisms(root: &Table<'_>) -> Vec<Organism> {
    let one = |table: &Table<'_>| {
        let number = |field: &Field| f64::try_from(table.given(field).known()?).ok();
        Some(Organism {
            name: table.text(&f::ORGANISM_NAME)?.to_owned(),
            d_s: number(&f::D)?,
            at_c: number(&f::D_AT)?,
            z_k: number(&f::Z)?,
        })
    };
    let mut all: Vec<Organism> = root.tables(&f::ORGANISM).iter().filter_map(one).collect();
    for known in catalogue::organisms() {
        if all.iter().all(|own| own.name != known.id) {
            all.push(Organism {
                name: known.id.clone(),
                d_s: known.d_min * 60.0,
                at_c: known.at_c,
                z_k: known.z_k,
            });
        }
    }
    all
}

/// Rows of a curve; finer spacing over stages this long is refused rather than held in memory.
const MOST_ROWS: f64 = 1e6;

/// What is kept of the way, on top of these settings.
pub(super) fn sampled(
    root: &Table<'_>,
    organisms: &[Organism],
    stages: &[StageDraft],
    settings: Settings,
) -> Option<Settings> {
    let table = root.table(&f::SAMPLE);
    let every = table.as_ref().and_then(|table| table.given(&f::EVERY).known());
    let every = every.and_then(|every| f64::try_from(every).ok());
    let depths = table.as_ref().and_then(|table| table.numbers(&f::DEPTHS)).unwrap_or_default();
    let longest: f64 = stages.iter().map(StageDraft::longest_s).sum();
    if let (Some(table), Some(every)) = (&table, every)
        && longest / every > MOST_ROWS
    {
        let least = (longest / MOST_ROWS).ceil();
        let message =
            format!("every {every} s over stages that may last {:.0} h is too many rows", longest / 3600.0);
        table.impossible(&f::EVERY, &format!("{least} s or more, or a smaller at_most_min"), &message);
        return None;
    }
    Some(Settings {
        sample_every: every.map(Span::from_s),
        depths: depths.into_iter().map(Length::from_mm).collect(),
        organisms: organisms.to_vec(),
        ..settings
    })
}
