//! Packs and where they lie.

use crate::read::{Field, Note, Reader, Scalar, Writer, choice, object};
use quantity::{Mass, Temperature};
use uuid::Uuid;

choice! {
    /// What is around it.
    Wrap {
        /// A vacuum bag.
        Vacuum = "vacuum",
        /// Film.
        Film = "film",
        /// Nothing.
        None = "none",
    }
}

/// What is in a pack: portions of one piece, or one heap.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Contents {
    /// Portions, by the ids of their weighings.
    Portions(Vec<Uuid>),
    /// A heap, by the id of its weighing.
    Part(Uuid),
}

impl Contents {
    /// Fewest and most portions in a pack.
    const PORTIONS: (usize, usize, ()) = (1, 60, ());
}

impl Field for Contents {
    type Limits = ();
    fn read(reader: &mut Reader<'_>, _stem: &str, (): &()) -> Option<Self> {
        let both = reader.has_any(["portions"]) && reader.has_any(["part"]);
        if both {
            reader.take("portions");
            reader.take("part");
            reader.problem("part", "it beside portions", "one of portions, part");
            return None;
        }
        if reader.has_any(["part"]) {
            reader.take("portions");
            return Uuid::read(reader, "part", &()).map(Self::Part);
        }
        reader.take("part");
        Vec::<Uuid>::read(reader, "portions", &Self::PORTIONS).map(Self::Portions)
    }
    fn write(&self, writer: &mut Writer, _stem: &str) {
        match self {
            Self::Portions(portions) => portions.write(writer, "portions"),
            Self::Part(part) => part.write(writer, "part"),
        }
    }
    fn note(notes: &mut Vec<Note>, _stem: &str, meaning: &'static str, (): &()) {
        let mut ways = Vec::new();
        Vec::<Uuid>::note(&mut ways, "portions", meaning, &Self::PORTIONS);
        Uuid::note(&mut ways, "part", meaning, &());
        let allowed = format!("portions: a list; part: one; each {}", Uuid::allowed(&()));
        notes.push(Note::either(ways, meaning, allowed));
    }
}

object! {
    /// A bag was sealed.
    PackSealed {
        /// Portions or a heap, by the ids of their weighings.
        contents: "contents" Contents = ();
        /// Mass of the meat, if weighed again.
        mass: "mass" Option<Mass> = (1.0, 100_000.0);
        /// Mass with the bag, as the scale showed it.
        with_bag: "with_bag" Option<Mass> = (1.0, 100_000.0);
        /// Mass of an empty bag.
        bag: "bag" Option<Mass> = (0.0, 1000.0);
        /// What is around it.
        wrap: "wrap" Wrap = ();
        /// How many seals.
        sealed: "sealed" Option<u32> = (1, 2);
        /// Lot of the bags.
        bag_lot: "bag_lot" Option<String> = 40;
        /// Whether it was salted before.
        salted: "salted" Option<bool> = ();
        /// Where it was put.
        place: "place" Option<String> = 60;
    }
}

object! {
    /// A pack or a whole piece went to another place.
    Moved {
        /// The pack or the piece.
        what: "what" Uuid = ();
        /// Where to.
        place: "place" String = 60;
        /// Where in there, as `right basket`.
        spot: "where" Option<String> = 60;
        /// Whether this place freezes it.
        frozen: "frozen" Option<bool> = ();
    }
}

choice! {
    /// How packs are thawed, or that they are not.
    Method {
        /// In the fridge.
        Fridge = "fridge",
        /// In cold water, changed.
        ColdWater = "cold-water",
        /// In warm water.
        WarmWater = "warm-water",
        /// Straight to the heat.
        FromFrozen = "from-frozen",
        /// On the counter.
        Counter = "counter",
    }
}

object! {
    /// Packs left the store.
    TakenOut {
        /// The packs.
        packs: "packs" Vec<Uuid> = (1, 200, ());
        /// Where they thaw.
        place: "place" String = 60;
        /// How.
        method: "method" Method = ();
        /// Temperature of that place.
        temperature: "place" Option<Temperature> = (-10.0, 70.0);
    }
}

object! {
    /// A place was counted; packs of it that are in neither list stay as they were.
    Counted {
        /// The place.
        place: "place" String = 60;
        /// Packs that are here.
        here: "here" Vec<Uuid> = (0, 2000, ());
        /// Packs that should be here and are not.
        missing: "missing" Vec<Uuid> = (0, 2000, ());
    }
}

object! {
    /// A bag was found loose.
    LeakerFound {
        /// The pack.
        pack: "pack" Uuid = ();
        /// A sentence.
        note: "note" Option<String> = 400;
    }
}
