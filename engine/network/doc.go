// Package network finds the steady pressures and flows of any network of
// element laws: trees, rings, several sources, regulated zones, shut valves.
//
// Main types: Network (nodes and links), compiled once into a Topology, and
// Solver, which answers it again and again with changed pressures, demands and
// laws, each time from the last answer and without allocating. In: absolute
// pressures, kg/s, laws. Out: a State, or a *NoAnswer that says what cannot be
// had and where. Document is the same as a file. Method: Newton on flows and
// squared pressures (Todini, Pilati 1988, widened to laws that choke), with a
// damped descent behind it, and Gauss-Seidel behind that. It knows no time and
// no heat.
package network
