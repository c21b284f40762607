// Package lawtest holds every element law to what the network relies on.
//
// Main entry: Suite, run by the tests of each law. In: a law, whether it is at
// rest between equal pressures, and the pressures at which its regimes meet.
// Checked: finite everywhere from vacuum to 1 GPa, monotone in both pressures,
// slopes against differences, no steps across regimes, no flow against its
// direction, tangents that agree with the law on it. It knows no law by name.
package lawtest
