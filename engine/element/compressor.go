package element

import "math"

// Compressor is what a running positive-displacement machine delivers from its
// intake (end 1, the atmosphere at the site) into its discharge (end 2),
//
//	m = V p1/(R T) · e(p2/p1)/e(rated),  e(r) = max(0, 1 − c (r^(1/n) − 1))
//
// V m³/s free air delivered at the rated pressure, measured at the intake; T K at
// the intake; c the clearance as a share of the swept volume, 0.05 to 0.10 for
// pistons; n = 1.3 of the air that expands from the clearance. A screw has none;
// c is then taken as 0.001, so that delivery into a closed end stops somewhere.
// Altitude acts through p1, heat through T, humidity through R. Range: running at
// full speed; regulation, unloading and the cut-out pressure are the caller's. e
// is 1 at most, where p2 is below the intake. It delivers at equal pressures, and
// never lets air back. Source: volumetric efficiency of reciprocating machines,
// any thermodynamics text (recalled).
type Compressor struct {
	c         float64 // kg/(s·Pa) with full cylinders
	clearance float64
}

const (
	reexpansion    = 1.3
	leastClearance = 1e-3
)

// CompressorSpec is what a Compressor is made from.
type CompressorSpec struct {
	FreeAir   float64 // m³/s of intake air, at the rated pressure ratio
	Ratio     float64 // rated discharge over intake pressure
	Clearance float64
}

// NewCompressor takes the intake air as g (its Z counts as 1).
func NewCompressor(g Gas, s CompressorSpec) (*Compressor, error) {
	if err := first(positive("temperature", g.Temperature, "gas constant", g.R, "free air", s.FreeAir),
		within("rated ratio", s.Ratio, 1, 1000), within("clearance", s.Clearance, 0, 0.5)); err != nil {
		return nil, err
	}
	k := &Compressor{clearance: max(s.Clearance, leastClearance)}
	rated, _ := k.fill(s.Ratio)
	if rated <= 0 {
		return nil, &ParamError{"clearance", s.Clearance, "little enough to deliver at the rated ratio"}
	}
	k.c = s.FreeAir / (g.R * g.Temperature * rated)
	return k, nil
}

// fill is e and its slope by the pressure ratio.
func (k *Compressor) fill(ratio float64) (e, slope float64) {
	if ratio <= 1 {
		return 1, 0
	}
	root := math.Pow(ratio, 1/reexpansion)
	e = 1 - k.clearance*(root-1)
	if e <= 0 {
		return 0, 0
	}
	return e, -k.clearance * root / (reexpansion * ratio)
}

// Flow follows the equation above.
func (k *Compressor) Flow(p1, p2 float64) (m, d1, d2 float64) {
	if p1 <= 0 {
		return 0, 0, 0
	}
	ratio := p2 / p1
	e, slope := k.fill(ratio)
	return k.c * p1 * e, k.c * (e - slope*ratio), k.c * slope
}

// Passes tells that nothing flows back.
func (k *Compressor) Passes() (forward, reverse bool) { return true, false }

// Holds is the pressure at which delivery ends.
func (k *Compressor) Holds(p1 float64) float64 {
	return p1 * math.Pow(1+1/k.clearance, reexpansion)
}
