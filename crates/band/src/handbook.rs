//! A handbook: how to read what this crate gives.

/// # Reading a band
///
/// **What it says.** `median 18:20, low 18:10, high 18:40` means: half of the evenings that look like this one to the
/// program end before 18:20, one in ten before 18:10, one in ten after 18:40. Four in five lie between. It does not say
/// that 18:10 and 18:40 are limits; two evenings in ten fall outside, one on each side.
///
/// **What it rests on.** Every input is a value, a range, or left out. A value carries its instrument's error
/// ([`Instrument`](crate::Instrument)): a scale is wrong by up to a division, a ruler by a millimetre, a probe by half a
/// degree, an oven's dial by some ten degrees. A range is taken as it stands, each value as likely. What was left out is
/// taken from the catalogue or from the household's own record, and the answer lists it with what it rests on. So there
/// is always a band, even where every number looks exact.
///
/// **A chance** ("ready by 19:30: 0.93") is the share of the ensemble that meets the wish. With 256 draws it is known to
/// about ±0.03 in the middle and ±0.01 near the ends; nobody should act on the difference between 0.93 and 0.94.
///
/// **What would narrow it.** For each input, the share of the answer's variance that would go, on average, if that input
/// were known exactly ([`shares`](crate::shares)). "Measure the thickness: it makes 61 % of the width" is about variance;
/// the band itself shrinks by the square root: with 61 % gone, it keeps 0.62 of its width. Shares below one tenth are not
/// named, because 256 draws cannot tell them from nothing. What two inputs do only together is in no share, so the
/// named ones may add up to less than one.
///
/// **The same answer each time.** The draws are a Latin hypercube from a named generator with a fixed seed. The same
/// inputs give the same answer to the bit, on the same machine; between machines the last digit of an exponential may
/// differ. Another seed shows how much of an answer is luck of the draw: at 256 draws a band's end moves by about a
/// tenth of its half width.
///
/// **What is not in it.** Only what was named as uncertain can widen a band. A slip of the hand, a fridge door left ajar,
/// a wrong cut written on the bag are not in there. A model that is wrong in the same way for every member moves the
/// whole band; that is why models are checked against measured cases and not only against each other, and why the checks
/// print how often their bands held.
///
/// **When a band is right.** Over many cases an 80 % band must hold the truth about 80 times in 100; holding it 98 times
/// is a fault too, for such a band is wider than what is known. Both are tested wherever a truth is at hand (Gneiting,
/// Balabdaoui, Raftery, *J. R. Statist. Soc. B* 69, 243–268, 2007).
pub mod reading_a_band {}
