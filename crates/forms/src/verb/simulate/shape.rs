//! `[shape]`: the sizes each kind takes, no more and no less.

use super::fields as f;
use crate::field::Field;
use crate::read::Table;
use band::Value;
use heat::cook::{Cap, Form};
use heat::{Footprint, Shape};
use quantity::{Length, Mass};

/// The shape of a form: SI numbers, uncertain ones still as given.
#[derive(Clone, Copy, Debug)]
pub(super) struct ShapeDraft {
    pub(super) form: Form,
    /// The size that [`heat::cook::Question`] calls thickness: the diameter of what is round, the length of a finite cylinder.
    pub(super) thickness_m: Value,
    pub(super) width_m: Value,
    pub(super) length_m: Value,
    pub(super) mass_kg: Value,
    pub(super) cap_m: Value,
    pub(super) cover_m2_k_w: f64,
}

/// Reads the table.
pub(super) fn read(table: &Table<'_>) -> Option<ShapeDraft> {
    let cover = cover(table);
    let kind = table.word(&f::KIND)?;
    let (form, needed): (Form, &[&Field]) = match kind {
        "roast" => (Form::Roast, &[&f::MASS]),
        "slab" => (Form::Slab, &[&f::THICKNESS]),
        "cylinder" => (Form::Cylinder, &[&f::DIAMETER]),
        "sphere" => (Form::Sphere, &[&f::DIAMETER]),
        "finite-cylinder" => (Form::FiniteCylinder, &[&f::DIAMETER, &f::LENGTH]),
        "brick" => (Form::Brick, &[&f::THICKNESS, &f::WIDTH, &f::LENGTH]),
        _ => (Form::Steak, steak(table)),
    };
    let optional: &[&Field] =
        if form == Form::Roast { &[&f::HEIGHT, &f::WIDTH, &f::LENGTH, &f::FAT] } else { &[] };
    exactly(table, kind, needed, optional);
    if form == Form::Roast && table.exact() && !two_sides(table) {
        return None;
    }
    if needed.iter().any(|field| !table.has(field)) {
        return None;
    }
    let size = |field: &Field| table.given(field).value(1e-3);
    let draft = ShapeDraft {
        form,
        thickness_m: size(&f::THICKNESS),
        width_m: size(&f::WIDTH),
        length_m: size(&f::LENGTH),
        mass_kg: table.given(&f::MASS).value(1e-3),
        cap_m: size(&f::FAT),
        cover_m2_k_w: cover?,
    };
    Some(match form {
        Form::Cylinder | Form::Sphere => ShapeDraft { thickness_m: size(&f::DIAMETER), ..draft },
        Form::FiniteCylinder => {
            let (thickness_m, width_m) = (size(&f::LENGTH), size(&f::DIAMETER));
            ShapeDraft { thickness_m, width_m, length_m: Value::Unknown, ..draft }
        }
        Form::Roast => ShapeDraft { thickness_m: size(&f::HEIGHT), ..draft },
        _ => draft,
    })
    .and_then(|draft| stacked(table, kind, draft))
}

/// Alike pieces on each other are one of their thicknesses and masses together.
fn stacked(table: &Table<'_>, kind: &str, draft: ShapeDraft) -> Option<ShapeDraft> {
    if !table.has(&f::STACK) {
        return Some(draft);
    }
    if !matches!(draft.form, Form::Slab | Form::Steak | Form::Brick) {
        let message = format!("{} says nothing about a {kind}", table.name(&f::STACK));
        table.impossible(&f::STACK, "for a slab, a steak or a brick", &message);
        return None;
    }
    let pieces = f64::try_from(table.given(&f::STACK).known()?).ok()?.round();
    let times = |value: Value| match value {
        Value::Known(known) => Value::Known(pieces * known),
        Value::Range { low, high } => Value::Range { low: pieces * low, high: pieces * high },
        Value::Unknown => Value::Unknown,
    };
    Some(ShapeDraft { thickness_m: times(draft.thickness_m), mass_kg: times(draft.mass_kg), ..draft })
}

/// A steak has its mass or its two sides; with neither, its footprint is the catalogue's, if a prior may stand in.
fn steak(table: &Table<'_>) -> &'static [&'static Field] {
    if table.has(&f::WIDTH) || table.has(&f::LENGTH) {
        &[&f::THICKNESS, &f::WIDTH, &f::LENGTH]
    } else if table.has(&f::MASS) || table.exact() {
        &[&f::THICKNESS, &f::MASS]
    } else {
        &[&f::THICKNESS]
    }
}

/// With every input taken as true a roast needs two of its sides: its mass gives the third.
fn two_sides(table: &Table<'_>) -> bool {
    let sides = [&f::HEIGHT, &f::WIDTH, &f::LENGTH];
    let enough = sides.iter().filter(|field| table.has(field)).count() >= 2;
    if !enough {
        for field in sides.into_iter().filter(|field| !table.has(field)).take(1) {
            let message = format!(
                "{} is missing: with --exact a roast is its mass and two sides at least",
                table.name(field)
            );
            table.missing(field, &message);
        }
    }
    enough
}

/// Names what a kind lacks, and what it has no use for.
fn exactly(table: &Table<'_>, kind: &str, needed: &[&Field], optional: &[&Field]) {
    let known = [&f::THICKNESS, &f::DIAMETER, &f::MASS, &f::WIDTH, &f::LENGTH, &f::HEIGHT, &f::FAT];
    let keys: Vec<String> = needed.iter().chain(optional).map(|field| field.key()).collect();
    for field in known {
        let wanted = needed.iter().any(|other| other.stem == field.stem);
        if wanted && !table.has(field) {
            table.missing(
                field,
                &format!("{} is missing: a {kind} has {}", table.name(field), keys.join(", ")),
            );
        } else if !wanted && !optional.iter().any(|other| other.stem == field.stem) && table.has(field) {
            let message = format!("{} says nothing about a {kind}", table.name(field));
            table.impossible(field, &format!("for a {kind}: {}", keys.join(", ")), &message);
        }
    }
}

fn cover(table: &Table<'_>) -> Option<f64> {
    if let Some(name) = table.word(&f::WRAP) {
        return catalogue::wrap(name).map(catalogue::Wrap::resistance_m2_k_w);
    }
    let Some(layer) = table.table(&f::WRAP) else {
        return (!table.has(&f::WRAP)).then_some(0.0);
    };
    let number = |field: &Field| f64::try_from(layer.given(field).known()?).ok();
    Some(1e-3 * number(&f::WRAP_THICKNESS)? / number(&f::WRAP_CONDUCTIVITY)?)
}

impl ShapeDraft {
    /// The shape where every size is one number.
    pub(super) fn exact(&self) -> Option<Shape> {
        let length = |value: Value| value.known().map(Length::from_m);
        if self.form == Form::Roast {
            return Some(Shape::Roast {
                mass: Mass::from_kg(self.mass_kg.known()?),
                height: length(self.thickness_m),
                width: length(self.width_m),
                length: length(self.length_m),
            });
        }
        let thickness = length(self.thickness_m)?;
        Some(match self.form {
            Form::Slab => Shape::Slab { thickness },
            Form::Cylinder => Shape::Cylinder { diameter: thickness },
            Form::Sphere => Shape::Sphere { diameter: thickness },
            Form::FiniteCylinder => {
                Shape::FiniteCylinder { diameter: length(self.width_m)?, length: thickness }
            }
            Form::Brick => {
                Shape::Brick { thickness, width: length(self.width_m)?, length: length(self.length_m)? }
            }
            Form::Roast => return None,
            Form::Steak => Shape::Steak {
                thickness,
                footprint: match (self.mass_kg.known(), length(self.width_m), length(self.length_m)) {
                    (Some(kg), _, _) => Footprint::Mass(Mass::from_kg(kg)),
                    (None, Some(width), Some(length)) => Footprint::Sides { width, length },
                    _ => return None,
                },
            },
        })
    }

    /// Whether the shape has a rim, so that `sides` counts.
    pub(super) const fn has_sides(&self) -> bool {
        matches!(self.form, Form::Steak | Form::Brick | Form::Roast | Form::FiniteCylinder)
    }

    /// Whether it has two ends beside its sides.
    pub(super) const fn has_ends(&self) -> bool {
        matches!(self.form, Form::Brick | Form::Roast)
    }

    /// With every input taken as true, the fat over a roast lies all over its mantle.
    pub(super) fn exact_cap(&self) -> Option<Cap> {
        let thickness_m = self.cap_m.known().filter(|_| self.form == Form::Roast)?;
        Some(Cap::of_fat(thickness_m))
    }

    /// Whether it is round all over, so that only one face counts.
    pub(super) const fn is_round(&self) -> bool {
        matches!(self.form, Form::Cylinder | Form::Sphere)
    }
}
