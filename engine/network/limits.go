package network

import "math"

// Limits of the iteration.
const (
	newtonSteps = 60
	// patience is how many steps may pass without halving the error.
	patience = 12
	// aim is the error of a link's flow, as a share of it, at which to stop;
	// enough is taken where rounding lets it come no closer.
	aim    = 1e-12
	enough = 1e-9
	// rounding is the error of p² that double precision cannot help.
	rounding = 1e-15
	// nothing is a flow (kg/s) beneath notice, and leastScale the largest flow of
	// a network that is as good as at rest.
	nothing    = 1e-18
	leastSlope = 1e-30 // the same over the squares of pressure that there are
	leastScale = 1e-6
	// roughly is the share of the largest flow that may be out of balance when a
	// part is said to have run empty.
	roughly = 0.05
	// restScale takes its place where rounding decides: in a network at rest the
	// last bit of a pressure behind a check valve is 1e-12 kg/s.
	restScale = 1e-2
	// A pressure falls or rises at most so much in one step, in squares.
	fall, rise = 1.0 / 16, 64
	// lift keeps the matrix regular where a part hangs on closed or choked
	// links only; it bends steps, never answers.
	lift = 1e-13
)

// Bounds of p², so that every network has a state, and one that no pressure can
// carry shows as nodes run empty or full. A demand tapers off from vacuum (0.1
// bar absolute, or a 32nd of the highest source if that is less) to void, a tenth
// of that; air put in tapers off above brim (10 kbar).
const (
	vacuum      = 1e8
	vacuumShare = 1e-3
	voidShare   = 1e-2
	brim        = 1e18
)

// look is what one look at all laws found. The error of a link's flow is given
// over what is allowed for it: a share of the flow, and what rounding of the
// pressures makes of it.
type look struct {
	fine  float64 // largest error, the share being aim
	fair  float64 // the same, the share being enough
	law   float64 // the worst by fine, kg/s
	link  int     // where
	mass  float64 // largest imbalance, kg/s
	scale float64 // largest flow, kg/s
	noise float64 // what rounding of pressures makes of all flows, kg/s; for the descent
}

// add counts one flow m that should be m0, with noise from rounding.
func (k *look) add(link int, m, m0, noise float64) {
	off := math.Abs(m0 - m)
	m = math.Abs(m)
	k.scale = max(k.scale, m)
	noise += nothing
	if f := off / (aim*m + noise); f > k.fine {
		k.fine, k.law, k.link = f, off, link
	}
	k.fair = max(k.fair, off/(enough*m+noise))
}

// met, passes and serves: as good as can be; within the tolerance promised; and
// within that but for pressures off by 1e-12, where steep laws with much rounding
// allow no better.
func (k look) met() bool    { return k.fine <= 1 && k.mass <= aim*k.scale }
func (k look) passes() bool { return k.fair <= 1 && k.mass <= enough*k.scale }
func (k look) serves() bool { return k.fair <= 1000 && k.mass <= enough*max(k.scale, restScale) }
