// Package vessel knows air at rest in a closed volume: a receiver that fills
// and falls, a section shut off for a leak test, and what a pressure test
// would let go if it burst.
//
// Main types: Receiver, Decay, Series, Stored. In: volume, absolute pressures,
// temperatures, mass flow, time. Out: whichever of them was not given, cycles,
// leaks with their uncertainty, energies and distances; [Formulas] to ask one.
//
// Sources: gas law; the leak rules of energy auditors and NAVFAC MO-209; the
// stored-energy rule of ASME PCC-2.
//
// Air is an ideal gas here: the store is told up to 0.4 % too small at 1.1 MPa
// and 20 °C. It knows no compressor controls and no network.
package vessel
