package network

// Trace watches a solution come about. The methods are called in the goroutine
// of the solver and must not use it.
type Trace interface {
	Step(Step)
}

// Step is one iteration, seen before its correction is made.
type Step struct {
	Iteration int
	Method    Method
	Law       float64 // largest error of a link's flow, kg/s
	WorstLink int     // where it is, or -1
	Mass      float64 // largest imbalance of a node, kg/s
	Factored  bool    // false: the factors of an earlier step serve again
}

// Method names what a step is made with.
type Method string

// The methods, in the order in which they are tried.
const (
	First   Method = "first guess" // links straightened at a usual velocity
	Newton  Method = "newton"      // tangents at flows and pressures
	Descent Method = "descent"     // pressures alone, imbalance made to fall
)
