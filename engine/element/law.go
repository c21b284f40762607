// CONTRACT: what every element law is to the network.

package element

// Law is the flow through one element with two ends, as a monotone function of
// the two absolute end pressures (Pa): never less when p1 rises, never more
// when p2 rises, so that a network of laws has one answer.
type Law interface {
	// Flow gives the mass flow from end 1 to end 2 in kg/s (negative: from 2 to
	// 1) and its slopes by p1 and p2 in kg/(s·Pa), d1 ≥ 0 and d2 ≤ 0. All
	// three are finite for every pair of pressures ≥ 0.
	Flow(p1, p2 float64) (m, d1, d2 float64)
}
