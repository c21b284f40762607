// Package element holds the laws of flow through what air passes: line, hose,
// fitting, valve, filter, regulator, tool, leak, compressor.
//
// Main type: Law, mass flow as a monotone function of the two absolute end
// pressures, with slopes. In: geometry or rated figures in SI, and the state of
// the air (Gas). Out: kg/s and kg/(s·Pa). One law a file; laws.go lists them by
// name. Besides Flow a law may offer what helps a solver: Linear, Directed,
// Bored (traits.go). Sources stand at each law: ISO 6358-1:2013, Colebrook
// 1939, Saint-Venant and Wantzel 1839 and others. Nothing here knows nodes or
// networks, and no law moves heat: flow is isothermal at Gas.Temperature.
package element
