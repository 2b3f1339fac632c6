//! What is known to be off, by how much, and why. Each stands in a test that would notice if it changed;
//! `docs/heat-rows.md` in the repository has every row.
//!
//! | what | by | because |
//! |---|---|---|
//! | rib roast 3.46 kg in a fan oven at 93 °C | 23 % fast | section, start and true air are not told |
//! | rise and loss of prime ribs of 5.5 kg | twice the rise, 1.4 × the loss | told 119 min at that mass: a smaller section or a hotter oven than assumed |
//! | loss of thin steaks in a pan, to 71 and 75 °C | 21 for 24 and 25 to 35 % | one juice law for pan, oven and bath, without a clock |
//! | thinner on a contact grill | 19 for 23 % | as the row above |
//! | loss of fatty patties between plates | 17 for 24 to 36 % | rendered fat is not in the model |
//! | second fall of a cool pan | 13 for 25 to 50 K | how long the second side lay is not told |
//! | water-bath pasteurisation, 35 and 45 mm | up to 25 % fast | the print's one-dimensional stand-in for a box is slower than the box |
//! | a slow oven loses more than a hot one | 10 % less instead | the juice law has no clock |
//! | strip of 25 mm between hot plates, 7 min | 9.0 (7.7 to 10.8) | thickness and end point are the usual ones, not told |
//! | thaws in moving water, 20 and 11 min | 1.9 to 2.1 × as long | end point and thickness not told; no conduction is that fast |
//! | a roast of a kilogram loses less than one of half | 3 % more instead | the juice law has no clock |
//! | specific heat of fatty beef | 8 % high | the fits give fat and dry lean 2 kJ/(kg K) |
//! | Chen's enthalpy | up to 8 kJ/kg | a short formula beside a sum over constituents; the latent stretch agrees within 1 % |
//! | water baths from frozen | 13 % short of print | the print's own thawing model is not told |
//! | times on the freezing plateau | 0.1 to 0.6 % | the middle stands still while a front is still on its way |
//!
//! # Not in the model
//! - Shrinking of roasts and of round pieces; a steak's outline, which gets 6 % narrower.
//! - A crust's own warmth: it passes heat and holds none.
//! - A clock in the juice: the law knows the hottest, not how long.
//! - Cooking that lowers conductivity; rendering fat; bones.
//! - What the walls of an oven keep when its door is opened: they are taken to fall with the air.
//! - Heat that spreads sideways in a pan: the rim's share is in what the pan holds.
//!
//! # Least tested
//! The conductance between a pan and one face of a steak: 250 to 650 W/(m² K) were measured between two pressed plates, one
//! plate must be lower, and nobody's figure was at hand.
