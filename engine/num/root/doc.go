// Package root finds where a function of one variable is zero.
//
// Main entry: Bracketed, a safeguarded search between two points where the
// function has opposite signs. In: the function, the two ends, a tolerance.
// Out: the place, or ErrNoSign when the ends do not enclose a zero. It knows
// no quantity and no unit; what the function means is the caller's affair.
// Method: Brent 1973, "Algorithms for Minimization without Derivatives", ch. 4.
// It does not look for a bracket by itself and does not find double zeros.
package root
