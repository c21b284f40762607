package flow

import (
	"dropleg/engine/unit"
	"dropleg/internal/answer/demand"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Answer is pressures and flows for every set; JSON keys carry the units.
type Answer struct {
	Atmosphere  unit.AbsPressure   `json:"atmosphere_Pa_abs"`
	Demand      *demand.Answer     `json:"demand"`
	Sets        []Set              `json:"sets"`  // as in Demand.Sets
	Tools       []Worst            `json:"tools"` // one per tool in the job's order: its worst moment
	Worst       int                `json:"worst"` // index into Sets of the shop's worst; -1: none
	Assumptions []model.Assumption `json:"assumptions,omitempty"`
	Findings    []job.Finding      `json:"findings,omitempty"` // of the model and of sets without an answer
}

// Set is one set of running tools at both ends of the pressure band.
type Set struct {
	demand.Set
	CutIn  State  `json:"cut_in"`
	CutOut State  `json:"cut_out"`
	Supply Supply `json:"supply"`
}

// State is the network at rest in one condition.
type State struct {
	Solved   bool      `json:"solved"`
	Tools    []Tool    `json:"tools"`   // those that run, in the set's order
	Outlets  []Outlet  `json:"outlets"` // every outlet, in the job's order
	Elements []Element `json:"elements"`
	Sources  []Source  `json:"sources"`
	// Result is the model's own answer, for drawings and checks.
	Result *model.Result `json:"-"`
}

// Tool is what one running tool gets.
type Tool struct {
	Tool     job.ID             `json:"tool"`
	Outlet   job.ID             `json:"outlet"`
	Known    bool               `json:"known"` // false: shut off from every source
	Pressure unit.GaugePressure `json:"pressure_Pa_g"`
	At       unit.GaugePressure `json:"outlet_pressure_Pa_g"` // before the last coupler
	Least    unit.GaugePressure `json:"least_Pa_g"`
	Margin   unit.PressureDiff  `json:"margin_Pa"` // Pressure less Least
	Flow     unit.FreeAir       `json:"flow_free_air_m3_s"`
	// Range is the plausible range of Pressure, where it was worth solving for.
	Range *Range `json:"range,omitempty"`
	// Path is the way from the source to the tool, at cut-in.
	Path []Step `json:"path,omitempty"`
}

// Range is a plausible range of a pressure.
type Range struct {
	Low  unit.GaugePressure `json:"low_Pa_g"`
	High unit.GaugePressure `json:"high_Pa_g"`
}

// Step is one element on the way from the source to a tool.
type Step struct {
	ID      job.ID             `json:"id"`
	Leg     string             `json:"leg,omitempty"`
	Words   string             `json:"words"`
	Thing   model.Thing        `json:"thing"`
	In      unit.GaugePressure `json:"in_Pa_g"`
	Out     unit.GaugePressure `json:"out_Pa_g"`
	Loss    unit.PressureDiff  `json:"loss_Pa"`
	Flow    unit.FreeAir       `json:"flow_free_air_m3_s"`
	Element int                `json:"-"` // index into Model.Elements
}

// Outlet is the pressure at one outlet, used or not.
type Outlet struct {
	Outlet   job.ID             `json:"outlet"`
	Known    bool               `json:"known"`
	Pressure unit.GaugePressure `json:"pressure_Pa_g"`
	Flow     unit.FreeAir       `json:"flow_free_air_m3_s"`
}

// Element is what passes one element.
type Element struct {
	ID    job.ID       `json:"id"`
	Leg   string       `json:"leg,omitempty"`
	Words string       `json:"words"`
	Thing model.Thing  `json:"thing"`
	Role  string       `json:"role,omitempty"`
	Known bool         `json:"known"`
	Flow  unit.FreeAir `json:"flow_free_air_m3_s"` // positive from the element's first end to its second
	// In and Out are the pressures at the upstream and downstream end.
	In     unit.GaugePressure `json:"in_Pa_g"`
	Out    unit.GaugePressure `json:"out_Pa_g"`
	Loss   unit.PressureDiff  `json:"loss_Pa"`
	VIn    unit.Velocity      `json:"velocity_in_m_s"`
	VOut   unit.Velocity      `json:"velocity_out_m_s"`
	Mach   unit.Ratio         `json:"mach"`
	Choked bool               `json:"choked,omitempty"`
	Index  int                `json:"-"` // into Model.Elements
}

// Source is what one source gives.
type Source struct {
	ID       job.ID             `json:"id"`
	Pressure unit.GaugePressure `json:"pressure_Pa_g"`
	Out      unit.FreeAir       `json:"flow_out_free_air_m3_s"`
	In       unit.FreeAir       `json:"flow_in_free_air_m3_s"`
}

// Supply is what the compressors deliver against what a set takes, at cut-in.
type Supply struct {
	Delivered unit.FreeAir `json:"delivered_free_air_m3_s"`
	Taken     unit.FreeAir `json:"taken_free_air_m3_s"`
	Leak      unit.FreeAir `json:"leak_free_air_m3_s"`  // allowance of the rules
	Short     unit.FreeAir `json:"short_free_air_m3_s"` // Taken + Leak - Delivered; 0 where it is enough
	// Rides is how long the receivers' fall from cut-out to cut-in covers the
	// shortfall, isothermal; nil where nothing is short, 0 with no known receiver.
	Rides *unit.Duration `json:"rides_s,omitempty"`
}

// Worst is the worst moment of one tool over all sets and outlets, at cut-in.
type Worst struct {
	Tool     job.ID             `json:"tool"`
	Outlet   job.ID             `json:"outlet"`
	Set      int                `json:"set"` // index into Sets; -1: it runs in none
	Known    bool               `json:"known"`
	Pressure unit.GaugePressure `json:"pressure_Pa_g"`
	Least    unit.GaugePressure `json:"least_Pa_g"`
	Margin   unit.PressureDiff  `json:"margin_Pa"`
	CutOut   unit.GaugePressure `json:"cut_out_pressure_Pa_g"`
	Range    *Range             `json:"range,omitempty"`
}
