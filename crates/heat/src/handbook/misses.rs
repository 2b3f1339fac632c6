//! What is known to be off, by how much, and why. Each stands in a test that would notice if it changed.
//!
//! | what | by | because |
//! |---|---|---|
//! | rib roast 3.46 kg in a fan oven at 93 °C | 25 % fast | section, start and true air are not told |
//! | rise and loss of prime ribs of 5.5 kg | twice the rise, 1.8 × the loss | told 119 min at that mass: a smaller section or a hotter oven than assumed; and no crust slows our boiling |
//! | thaws in moving water, 20 and 11 min | 1.9 to 2.1 × as long | end point and thickness not told; no conduction is that fast |
//! | specific heat of fatty beef | 8 % high | the fits give fat and dry lean 2 kJ/(kg K) |
//! | Chen's enthalpy | up to 8 kJ/kg | a short formula beside a sum over constituents; the latent stretch agrees within 1 % |
//! | times on the freezing plateau | 0.1 to 0.6 % | the middle stands still while a front is still on its way |
//!
//! # Not in the model
//! - A crust that slows boiling: hot roasts lose too much, and carry too much heat into the rest.
//! - Shrinking (a griddled steak loses a quarter of its thickness), which would make long pans faster.
//! - A clock in the juice: the law knows the hottest, not how long.
//! - Cooking that lowers conductivity; rendering fat; bones.
//! - A roast from its mass alone ([`crate::HeatError::NotYet`]); a pan that cools when the meat goes on; an oven door.
//!
//! # Least tested
//! The conductance between a pan and one face of a steak: 250 to 650 W/(m² K) were measured between two pressed plates, one
//! plate must be lower, and nobody's figure was at hand.
