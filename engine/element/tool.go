package element

// ToolIndex and ToolRatio shape the flow of a running tool whose own figures are
// unknown: critical ratio 0.3 is common to air motors and small valves (common
// practice); above twice the atmosphere the choice no longer shows.
const (
	ToolRatio = 0.3
	ToolIndex = 0.5
)

// ToolSpec is the rated point of a running tool.
type ToolSpec struct {
	Flow       float64 // kg/s at the rated pressure
	Pressure   float64 // Pa absolute, at the tool's inlet
	Atmosphere float64 // Pa
	B          float64 // critical ratio; 0 means ToolRatio
}

// NewTool is a tool while it runs: an ISO 6358 nozzle to the atmosphere whose
// conductance is set by the rated point, so that flow follows the absolute inlet
// pressure (to be used from the tool's inlet to a place at atmosphere). A motor
// running idle or stalled takes another flow at the same pressure: the rated
// point is that of work. No flow back from the atmosphere.
func NewTool(s ToolSpec) (*ISO6358, error) {
	if s.B == 0 {
		s.B = ToolRatio
	}
	if err := first(positive("rated flow", s.Flow, "rated pressure", s.Pressure),
		within("atmosphere", s.Atmosphere, 0, s.Pressure), within("b", s.B, 0, 0.999)); err != nil {
		return nil, err
	}
	n := newNozzle(1, ISO6358Spec{B: s.B, Index: ToolIndex, OneWay: true})
	unit, _, _ := n.flow(s.Pressure, s.Atmosphere)
	if unit <= 0 {
		return nil, &ParamError{"rated pressure", s.Pressure, "more than the atmosphere"}
	}
	return newNozzle(s.Flow/unit, ISO6358Spec{B: s.B, Index: ToolIndex, OneWay: true}), nil
}

// Constant is a demand that takes the same flow whatever the pressure, such as a
// tool with a flow control of its own: Flow kg/s, from p1 alone. Under 1 Pa it
// falls to zero with pressure, for no tool draws from vacuum. It is not zero at
// equal pressures and never reverses.
type Constant struct {
	flow float64
}

const vacuum = 1.0 // Pa

// NewConstant takes the flow in kg/s.
func NewConstant(flow float64) (*Constant, error) {
	if err := within("flow", flow, 0, mostFlow); err != nil {
		return nil, err
	}
	return &Constant{flow}, nil
}

// Flow is the constant.
func (c *Constant) Flow(p1, _ float64) (m, d1, d2 float64) {
	if p1 < vacuum {
		return c.flow * p1 / vacuum, c.flow / vacuum, 0
	}
	return c.flow, 0, 0
}

// Passes tells that nothing flows back.
func (c *Constant) Passes() (forward, reverse bool) { return true, false }

// Holds is vacuum: a demand never lets pressure stand.
func (c *Constant) Holds(float64) float64 { return 0 }
