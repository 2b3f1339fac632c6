//! What is solved.
//!
//! # Inside
//!
//! ```text
//! ∂H/∂t = ∇·∇θ        H  enthalpy of a cubic metre, J/m³        θ = ∫ k dT, W/m
//! ```
//!
//! Both rise with temperature and are tabulated together, so there is no latent heat to place and no conductivity to average
//! between two nodes. The piece keeps its volume: H is J/kg times the density at which it was measured.
//!
//! | what | law | source |
//! |---|---|---|
//! | constituents | polynomials in °C for conductivity, density, specific heat, −40 to 150 °C | Choi & Okos; `catalogue/constituents.toml` |
//! | ice | (water − bound) (1 − t_f/t) below t_f, bound water 0.4 of the protein | handbook (Schwartzberg, Chen) |
//! | freezing point | −1.1 °C, and −1.1 K for each per cent of salt | 45 samples of beef; gels and cured pork |
//! | latent heat | 333.6 kJ/kg at 0 °C, less the difference of the specific heats below it | thermodynamics |
//! | conductivity | Levy's model: lean, then fat, then ice; ± 10 % as a standard deviation in bands | Pham & Willix |
//!
//! # At a face
//!
//! ```text
//! q = h (T_a − T_s) + ε σ (T_r⁴ − T_s⁴) − λ j              W/m² into the meat
//! q = (T_o − T_s) / R  with T_o the outside of the cover    under a bag, paper or fat
//! j = φ β P ln[(P − p_v) / (P − a_w p_s(T_s))]              kg/(m² s), β = 0.622 h / (1013 P 0.9)
//! q −= 8000 (T_s − 100)                                     above 100 °C: it boils
//! ```
//!
//! λ is 2.36 MJ/kg. What has boiled off leaves a crust outside the face, which itself stays moist meat near 100 °C: m kg/m² gone
//! are m/C_0 metres of it, at 0.19 W/(m K), in series with the film. The logarithm is the Stefan flow, worth 13 % at 60 °C and 73 % at 90 °C. j below zero is condensation: it
//! heats, and is why a cold steak in a steamy oven starts fast. The factor of boiling is that of nucleate boiling, so that
//! faces against a pan stay within 100–106 °C, as steaks lifted from one were measured (never above 100 °C just after).
//!
//! A face that *dries* is supplied from inside. With m kg/m² already drawn, a parabolic moisture profile lets a flow j leave at
//!
//! ```text
//! C_s = C_0 − √(1.5 m j / D)      X = C_s/ρ_dry      a_w = X² / (X² + 0.12²)
//! ```
//!
//! and j is what film and supply agree on. m and j are those of the lean part φ of the face. Juice pressed out on its way
//! through the face pays back part of m. When four fifths of all its water are gone, a piece gives off the rest ever more slowly.
//!
//! # A pan gives way
//!
//! ```text
//! C dP/dt = r (T_set − P) − q        C  J/(m² K) held, r  W/(m² K) brought back, P the plate against the face
//! ```
//!
//! Within a stage of length τ that is a medium at (C/τ P₀ + r T_set)/(C/τ + r) behind a resistance of 1/(C/τ + r), so it is as implicit as the
//! step. The plate stays where it is when the piece is turned. A neighbouring pack gives way in the same form.
//!
//! # A roast
//!
//! Height and width of its outline are an ellipse; the brick that is solved has its area and its mass, and is as long as that makes it.
//! Fat cap and bone lie over all but the cut ends, on the share of the mantle that is not bare.
//!
//! # Loss, and what it does to the shape
//!
//! Juice: 24 % of the fat-free mass /(1 + exp(−(T − 64)/7)) with T the hottest each cell has been, a factor of 13 % from piece to
//! piece; and the vapour, less what of the juice a drying face took up on its way: that leaves as vapour and is lost once.
//! A slab or a steak gets thinner by the volume of the water it has lost (its fibres run from face to face): heat has less far to
//! go, and the rim gets lower. On a contact grill that makes 19 % (16 to 22) where 23.3 % was measured. Evaporation that
//! is not modelled makes a low oven a quarter to a third too fast; a face that stays fully wet in a hot still oven settles near the
//! wet bulb and never gets done. Both are physics, and both are in the tests.
//!
//! # Colour and kill
//!
//! Rates along the line through the middle, their logarithm straight over each step: myoglobin by first-order kinetics
//! ([`crate::colour`]), organisms log-linear ([`crate::Organism`]).
//!
//! # A steak
//!
//! An oval of area A and perimeter P becomes a disc of radius 2A/P, which has the oval's surface per volume. Against
//! three-dimensional ovals that is 0.6 ± 1.5 % long (aspect 1.3 to 2, 20 to 65 mm); a slab of the thickness alone would be 3 to
//! 130 % long. The bands of [`crate::cook`] carry the ± 1.5 %.
