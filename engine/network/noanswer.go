package network

import (
	"fmt"
	"strings"
)

// Reason tells why a network has no answer.
type Reason string

// The reasons.
const (
	NoSource  Reason = "no source"  // a demand that no source can reach
	NoExit    Reason = "no exit"    // air put in that cannot get out
	NoLevel   Reason = "no level"   // nothing there sets a pressure: neither a fixed one nor an outflow
	TooMuch   Reason = "too much"   // a demand that no pressure there can carry
	BadNumber Reason = "bad number" // a pressure or demand that is not a usable number
	NotMet    Reason = "not met"    // the equations could not be met within tolerance
)

// Short is one node that does not get what it asks for.
type Short struct {
	Node   int
	Name   string
	Demand float64 // kg/s asked; below zero: to be put in
	Most   float64 // kg/s possible with all others as they are
}

// NoAnswer is the error of a network that has none. The State that comes with
// it holds for the rest, with the nodes named taking what they can get; beside
// nodes that have run empty (below 0.1 bar absolute) pressures are rough. A
// demand counts as carried down to that pressure, and no further.
type NoAnswer struct {
	Reason Reason
	Nodes  []Short
	// Residual is that of the state given along: TooMuch and NoExit are said from
	// an imbalance of a twentieth of the largest flow on, since the parts that
	// have run empty or full then no longer change.
	Residual Residual
}

func (e *NoAnswer) Error() string {
	var b strings.Builder
	switch e.Reason {
	case NoSource:
		b.WriteString("no source reaches")
	case NoExit:
		b.WriteString("air put in cannot get out at")
	case NoLevel:
		b.WriteString("nothing sets the pressure at")
	case TooMuch:
		b.WriteString("no pressure can carry the demand at")
	case BadNumber:
		b.WriteString("not a usable number at")
	case NotMet:
		fmt.Fprintf(&b, "equations not met (imbalance %.3g kg/s, law %.3g), worst at", e.Residual.Mass, e.Residual.Law)
	}
	for i, n := range e.Nodes {
		if i == 5 && len(e.Nodes) > 6 {
			fmt.Fprintf(&b, " and %d more", len(e.Nodes)-i)
			break
		}
		sep := ", "
		if i == 0 {
			sep = " "
		}
		fmt.Fprintf(&b, "%s%q", sep, n.Name)
		if e.Reason == TooMuch {
			fmt.Fprintf(&b, " (%.6g kg/s asked, at most %.6g possible)", n.Demand, n.Most)
		}
	}
	return b.String()
}
