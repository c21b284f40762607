package element

import "math"

// Pipe is a length of round line or hose with the fittings in it: isothermal
// compressible flow in steady state,
//
//	p1² − p2² = (m/A)² Z R T (f L/D + ΣK + 2 ln(p1/p2))
//
// m kg/s, p Pa absolute, L and D m, A = πD²/4, f by friction (Colebrook from
// Re 4000, 64/Re to 2000), Re = 4m/(πDμ). Range: steady, round, level; ε/D ≤
// 0.05. Choking: for given p1 the flow is greatest where p2² = (m/A)² Z R T,
// outlet Mach 1/√γ; below that pressure p2 no longer acts and the greatest flow
// holds. Reverse flow by the same law with the ends exchanged (and ΣK of that
// direction). A fitting without length loses K linearly with flow below Re 100, as
// fittings do in laminar flow, so that it has a finite slope at rest; nothing
// else departs from the equation. Source: fluid-mechanics textbooks, e.g. Shapiro 1953, ch. 6
// (recalled); drops checked on rows FRIC-0342 to 0427.
type Pipe struct {
	area   float64
	beta   float64 // Z R T/A²
	lOverD float64
	k      [2]float64 // forward, reverse
	re     float64    // Reynolds number per kg/s
	creep  float64    // flow at Re 100 where there is no length, else zero
	start  float64    // see Start
	wall   friction
}

// creepRe is the Reynolds number beneath which K losses without length turn linear.
const creepRe = 100

// startVelocity and startFriction make first guesses: a usual speed in shop
// lines, and the middle of all friction factors.
const (
	startVelocity = 8
	startFriction = 0.024
)

// PipeSpec is what a Pipe is made from.
type PipeSpec struct {
	Length, Bore, Roughness float64 // m
	K                       float64 // sum of loss coefficients on the bore
	// KReverse is the sum for flow from end 2 to end 1, if HasReverse.
	KReverse   float64
	HasReverse bool
}

// NewPipe refuses bores that are not above zero, roughness above 0.05 bores,
// and a pipe with neither length nor K, which would not resist at all.
func NewPipe(g Gas, s PipeSpec) (*Pipe, error) {
	if !s.HasReverse {
		s.KReverse = s.K
	}
	if err := first(g.check(), within("bore", s.Bore, leastBore, mostBore),
		within("length", s.Length, 0, mostLength),
		within("roughness", s.Roughness, 0, roughest*s.Bore),
		within("K", s.K, 0, mostK), within("reverse K", s.KReverse, 0, mostK)); err != nil {
		return nil, err
	}
	if s.Length == 0 && min(s.K, s.KReverse) == 0 {
		return nil, &ParamError{"K", 0, "above zero where the length is zero"}
	}
	area := math.Pi / 4 * s.Bore * s.Bore
	p := &Pipe{
		area:   area,
		beta:   g.RT() / (area * area),
		lOverD: s.Length / s.Bore,
		k:      [2]float64{s.K, s.KReverse},
		re:     4 / (math.Pi * s.Bore * g.Viscosity),
		wall:   newFriction(s.Roughness / s.Bore),
	}
	if s.Length == 0 {
		p.creep = creepRe / p.re
	}
	speed := area / g.RT() * startVelocity // kg/s per Pa
	p.start = 1 / (p.beta * (startFriction*p.lOverD + max(s.K, s.KReverse)) * speed)
	return p, nil
}

// Area of the bore, m².
func (p *Pipe) Area() float64 { return p.area }

// Start is m/(p1² − p2²) at a usual velocity.
func (p *Pipe) Start(pressure float64) float64 { return p.start / max(pressure, pressureFloor) }

// drop is (m/A)² Z R T (f L/D + ΣK) for m ≥ 0 and its slope by m.
func (p *Pipe) drop(m, k float64) (h, slope float64) {
	if p.lOverD > 0 {
		phi, s := p.wall.at(p.re * m)
		c := p.beta * p.lOverD / p.re
		h, slope = c/p.re*phi, c*s
	}
	kb := k * p.beta
	if m >= p.creep {
		return h + kb*m*m, slope + 2*kb*m
	}
	// Odd cubic that meets K m² with value and slope at the creeping flow.
	half := kb / (2 * p.creep)
	c2 := p.creep * p.creep
	return h + half*m*(c2+m*m), slope + half*(c2+3*m*m)
}

// Flow solves the equation for m to the last bits.
func (p *Pipe) Flow(p1, p2 float64) (m, d1, d2 float64) { return p.between(p1, p2, 0) }

// between is the flow from a to b, where way is the index of that direction.
func (p *Pipe) between(pa, pb float64, way int) (m, da, db float64) {
	if pa >= pb {
		return p.flow(pa, pb, p.k[way])
	}
	m, db, da = p.flow(pb, pa, p.k[1-way])
	return -m, -da, -db
}

func (p *Pipe) flow(pu, pd, k float64) (m, du, dd float64) {
	drive := (pu - pd) * (pu + pd)
	if drive == 0 {
		_, slope := p.drop(0, k)
		return 0, 2 * pu / slope, -2 * pd / slope
	}
	m, rate, ok := p.free(pu, pd, drive, k)
	if ok {
		bm2 := p.beta * m * m
		return m, 2 * (pu - bm2/pu) / rate, -2 * (pd - bm2/pd) / rate
	}
	m, rate = p.choked(pu, k)
	return m, 2 * (pu - p.beta*m*m/pu) / rate, 0
}

// free solves the equation where the outlet is not choked. rate is the slope
// of its right side by m.
func (p *Pipe) free(pu, pd, drive, k float64) (m, rate float64, ok bool) {
	if pd <= 0 {
		return 0, 0, false
	}
	logs := 2 * math.Log(pu/pd)
	side := func(m float64) (float64, float64) {
		h, slope := p.drop(m, k)
		return h + p.beta*m*m*logs, slope + 2*p.beta*m*logs
	}
	m = math.Sqrt(drive / (p.beta * (startFriction*p.lOverD + k + logs)))
	if p.re*m < laminarEnd {
		_, s := side(0)
		m = min(m, drive/s)
	}
	m, rate = climb(side, drive, m)
	return m, rate, p.beta*m*m <= pd*pd
}

// choked finds the greatest flow that pu can drive: the equation with
// pd² = (m/A)² Z R T put in, whose right side still rises with m.
func (p *Pipe) choked(pu, k float64) (m, rate float64) {
	target := pu * pu
	side := func(m float64) (float64, float64) {
		h, slope := p.drop(m, k)
		bm2 := p.beta * m * m
		logs := max(0, math.Log(target/bm2))
		return h + bm2*(1+logs), slope + 2*p.beta*m*logs
	}
	return climb(side, target, math.Sqrt(target/(p.beta*(startFriction*p.lOverD+k+2))))
}

// climb solves side(m) = target for a side that rises with m about as m to m².
// Newton's method in ln m: there the side is nearly straight.
func climb(side func(float64) (float64, float64), target, m float64) (root, rate float64) {
	for range 60 {
		h, slope := side(m)
		rate = slope
		excess := target/h - 1
		power := m * slope / h
		step := excess / power
		if math.Abs(excess) > 0.2 || power <= 0 {
			step = math.Pow(target/h, 1/max(power, 0.5)) - 1
		}
		if math.Abs(excess) < 4e-16 {
			break
		}
		m += m * step
		if math.Abs(step) < 2e-16 {
			break
		}
	}
	return m, rate
}

// machLimit bounds (m/A)² Z R T/p2² up to which a tangent at the flow is used.
// At 1 the outlet chokes and the equation's slope by p2 changes sign.
const machLimit = 0.6

// Tangent linearizes the equation itself at (p1², p2², m); near choking it
// falls back to the tangent at the pressures.
func (p *Pipe) Tangent(p1, p2, m float64) (m0, g1, g2 float64) {
	if m < 0 {
		m0, g2, g1 = p.tangent(p2, p1, -m, 1)
		return -m0, -g1, -g2
	}
	return p.tangent(p1, p2, m, 0)
}

func (p *Pipe) tangent(pu, pd, m float64, way int) (m0, gu, gd float64) {
	su, sd := pu*pu, pd*pd
	bm2 := p.beta * m * m
	if bm2 > machLimit*min(su, sd) || min(pu, pd) < pressureFloor {
		m0, du, dd := p.between(pu, pd, way)
		return m0, du / (2 * max(pu, pressureFloor)), dd / (2 * max(pd, pressureFloor))
	}
	h, rate := p.drop(m, p.k[way])
	gap := (pu-pd)*(pu+pd) - h
	if pu > pd { // else the state is still inconsistent, and only the drop counts
		logs := 2 * math.Log(pu/pd)
		gap -= bm2 * logs
		rate += 2 * p.beta * m * logs
	}
	return m + gap/rate, (1 - bm2/su) / rate, -(1 - bm2/sd) / rate
}
