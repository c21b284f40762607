// Package air knows what air is: its density, viscosity and heat, the water it
// carries, the atmosphere it is drawn from, the reference states in which its
// flow is quoted, and the work of compressing it.
//
// Main types: Reference (a state in which a flow is quoted) and Moist (air with
// its water). In: absolute pressure, temperature, relative humidity, flows. Out:
// the same quantities, typed by package unit; [Formulas] for asking one law.
//
// Sources: the 2000 Helmholtz equation for pseudo-pure air, the 2004 transport
// equations, IAPWS-IF97 and R14-08 for water and ice, ISO 2533 for altitude,
// ISO 1217 and ISO 8778 for reference flows.
//
// It does not know pipes, vessels or compressors' controls, and it neglects the
// enhancement factor except where a name says otherwise.
package air
